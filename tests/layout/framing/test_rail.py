"""Every place at which the layout puts a rafter: it stands there, or a true reason is told.

Second way: the roof's surface alone. A line straight up a side at a rafter's place is cut with the
side's area; each stretch inside it is one rafter, from the eave, a valley or past a ridge's end up
to the next line of the roof.
"""

import math
import re

import numpy as np
import pytest
import shapely

from layout.framing.face import Face
from layout.framing.roof import TrainingRoof
from layout.framing.stick import Stick
from layout.framing.supporting import supporting
from tests.counts import LONG
from tests.drawn_roofs import SHAPES, framed_shape

SHARE = ("a lower wing", "a half-octagon end and a gable", "an offset front", "a shed", "a square")
NEAR = 1e-4


@pytest.fixture(params=list(SHAPES) if LONG else SHARE, ids=str)
def roof(request: pytest.FixtureRequest) -> TrainingRoof:
    return framed_shape(request.param)


def sides(roof: TrainingRoof) -> list[tuple[Face, shapely.Geometry]]:
    """Every side with a roof, and its plan area."""
    surface = roof.surface
    return list(zip(roof.faces, _areas(roof), strict=True)) if surface else []


def _areas(roof: TrainingRoof) -> list[shapely.Geometry]:
    """The plan areas in the faces' order: a part of a side for each."""
    surface = roof.surface
    return [p for k in surface.eave_planes for p in shapely.get_parts(surface.areas[k])]


def place_of(stick: Stick, face: Face) -> tuple[float, float, float]:
    """Its position on the eave, and the level runs at which its theoretical length begins, ends."""
    middle = stick.origin + stick.stock.thickness_in / 2 * stick.pose.left
    top = middle + stick.stock.depth_in * stick.pose.up
    run = float((top - face.origin) @ face.inward)
    level = stick.theoretical_in / math.hypot(1, face.slope)
    return float((middle - face.origin) @ face.along), run, run + level


def stretches(roof: TrainingRoof, face: Face, area: shapely.Geometry, at: float) -> list[list]:
    """Level runs of the side's area at a position, from the building line, cut by valleys that run
    on inside it."""
    low, high = (face.on_eave(at, run)[:2] for run in (-1.0, 9999.0))
    cut = area.intersection(shapely.LineString([low, high]))
    found = []
    for part in shapely.get_parts(cut):
        runs = (shapely.get_coordinates(part) - face.origin[:2]) @ face.inward[:2]
        if np.ptp(runs) > NEAR:
            found.append([float(runs.min()), float(runs.max())])
    for each in supporting(roof.surface):
        if roof.surface.planes[each.inside].name != face.name:
            continue
        ends = [
            ((p - face.origin[:2]) @ face.along[:2], (p - face.origin[:2]) @ face.inward[:2])
            for p in (each.turn, each.head)
        ]
        (a, run_a), (b, run_b) = sorted(ends)
        if a < at < b:
            run = run_a + (at - a) / (b - a) * (run_b - run_a)
            found = [piece for one, two in found for piece in
                     ([[one, run], [run, two]] if one < run < two else [[one, two]])]  # fmt: skip
    return sorted(found)


def standing(roof: TrainingRoof, face: Face, area: shapely.Geometry) -> list[tuple]:  # type: ignore[type-arg]
    """Every rafter of a piece of a side with its place."""
    near = area.buffer(roof.plan.rafter.thickness_in)
    found = []
    for stick in roof.rafters:
        if stick.face == face.name:
            at, low, high = place_of(stick, face)
            if near.contains(shapely.Point(face.on_eave(at, (low + high) / 2)[:2])):
                found.append((stick, at, low, high))
    return found


def test_every_rafter_runs_from_line_to_line_of_its_side(roof: TrainingRoof) -> None:
    seen = 0
    for face, area in sides(roof):
        for stick, at, low, high in standing(roof, face, area):
            every = stretches(roof, face, area, at)
            nearest = min(every, key=lambda one, to=low + high: abs(sum(one) - to))
            assert [low, high] == pytest.approx(nearest, abs=NEAR), (stick.name, stick.face, at)
            assert stick.on_plate == (abs(low) < NEAR)
            seen += 1
    assert seen == len(roof.rafters)


def test_every_place_has_its_rafter_or_a_true_reason(roof: TrainingRoof) -> None:
    """Each stretch at each place holds one; what is left out is too short to be cut."""
    plan = roof.plan
    told = [re.fullmatch(r"(.*) at (\S+) in is too short to frame: .*", s) for s in roof.left_out]
    missing = [(said[1], float(said[2])) for said in told if said]
    assert len(missing) == len(roof.left_out)
    thick = plan.rafter.thickness_in + max(plan.hip.thickness_in, plan.valley.thickness_in)
    answered = 0
    for face, area in sides(roof):
        there = standing(roof, face, area)
        out = [at for name, at in missing if name == face.name]
        for at in {round(at, 6) for _, at, *_ in there} | set(out):
            spans = stretches(roof, face, area, at)
            empty = [
                (low, high) for low, high in spans
                if not any(abs(at - p) < NEAR and abs(low - a) < NEAR for _, p, a, _ in there)
            ]  # fmt: skip
            gone = [x for x in out if abs(x - at) < 1e-3]
            assert len(empty) == len(gone), (face.name, at, spans)
            answered += len(gone)
            for low, high in empty:
                least = plan.mouth_of(face.pitch).seat_in if low < NEAR else 1.5
                assert high - low < least + 3 * thick, (face.name, at, low, high)
    assert answered == len(roof.left_out)


def test_rafters_stand_on_center_from_the_ends_of_their_side(roof: TrainingRoof) -> None:
    """From a hip's corner the jacks come in steps down from its top, or from `first_in`; from any
    other end in steps from there. Besides them stand a gable's and those at hips' tops. No gap is
    wider than the spacing, or where one too near to those was left out, two thicknesses more."""
    plan, surface = roof.plan, roof.surface
    step, half = plan.spacing_in, plan.rafter.thickness_in / 2
    for face, area in sides(roof):
        reach = (shapely.get_coordinates(area) - face.origin[:2]) @ face.along[:2]
        start, stop = float(reach.min()), float(reach.max())
        fixed, tops = [start + half, stop - half], {start: 0.0, stop: 0.0}
        for line in surface.lines:
            names = {surface.planes[k].name for k in (line.left, line.right)}
            if face.name not in names or line.kind not in ("hip", "ridge"):
                continue
            foot, head = (
                float((p - face.origin[:2]) @ face.along[:2]) for p in (line.foot, line.head)
            )
            fixed += [head, *([foot] if line.kind == "ridge" else [])]
            for end in (start, stop):
                if line.corner is not None and abs(foot - end) < NEAR:
                    tops[end] = abs(head - end)
        places = sorted(at for _, at, *_ in standing(roof, face, area))
        for at in places:
            steps = [
                (abs(at - end) - (plan.first_in if top and plan.first_in else top)) / step
                for end, top in tops.items()
            ]
            on_step = any(abs(x - round(x)) < NEAR for x in steps)
            assert on_step or min(abs(at - x) for x in fixed) < NEAR, (face.name, at, tops)
        out = [float(s.split(" at ")[1].split()[0]) for s in roof.left_out
               if s.startswith(f"{face.name} at ")]  # fmt: skip
        every = sorted([start, *places, *out, stop])
        assert np.diff(every).max() <= step + 4 * half + NEAR, (face.name, every)
