"""Every place at which the layout puts a rafter: it stands there, or a true reason is told.

Second way: the roof's surface alone. A line straight up a side at a rafter's place is cut with the
side's area; each stretch inside it is one rafter, from the eave, a valley or past a ridge's end up
to the next line of the roof.
"""

import math
import re
from dataclasses import replace

import numpy as np
import pytest
import shapely

from layout.framing.face import Face
from layout.framing.outlines import rectangle, shed, tee
from layout.framing.rail import Rail
from layout.framing.roof import TrainingRoof
from layout.framing.roof_frame import roof_frame
from layout.framing.roof_lines import roof_lines
from layout.framing.roof_plan import RoofPlan
from layout.framing.stick import Stick
from layout.framing.supporting import supporting
from layout.framing.walls import Outline, Wall, walk
from layout.quantity import read_pitch
from tests.counts import LONG
from tests.drawn_roofs import DEEP, SHAPES, P, eaves, framed_shape

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
        if len(runs) > 1 and np.ptp(runs) > NEAR:
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


def reach_of(face: Face, area: shapely.Geometry) -> tuple[float, float]:
    """Where a piece of a side begins and ends along its eave."""
    at = (shapely.get_coordinates(area) - face.origin[:2]) @ face.along[:2]
    return float(at.min()), float(at.max())


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
    told = [
        re.fullmatch(r"(.*), (\S+) in from the .* end of this side .*", s) for s in roof.left_out
    ]
    missing = [(said[1], float(said[2])) for said in told if said]
    assert len(missing) == len(roof.left_out)
    thick = plan.rafter.thickness_in + max(plan.hip.thickness_in, plan.valley.thickness_in)
    answered = 0
    for face, area in sides(roof):
        there = standing(roof, face, area)
        low, high = reach_of(face, area)
        out = [at for name, at in missing if name == face.name and low <= at <= high]
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
        start, stop = reach_of(face, area)
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
        out = [float(re.search(r", (\S+) in from", s)[1]) for s in roof.left_out
               if s.startswith(f"{face.name}, ")]  # fmt: skip
        every = sorted([start, *places, *(at for at in out if start <= at <= stop), stop])
        assert np.diff(every).max() <= step + 4 * half + NEAR, (face.name, every)


# --- rails by hand: square corners and one pitch, so that hips and valleys run at 45 degrees ------


def rails_of(outline: Outline, **settings: object) -> dict[str, list[Rail]]:
    """A plan's rails by the name of their side."""
    plan = RoofPlan.over(outline, hip=DEEP, valley=DEEP, spacing_in=24, **settings)
    found: dict[str, list[Rail]] = {}
    for rail in roof_frame(plan, roof_lines(outline)).rails:
        found.setdefault(rail.face.name, []).append(rail)
    return found


def read(rail: Rail) -> list[object]:
    """Where its face begins and which way it counts, its own start, length and hips, and eaves."""
    start = [*np.round(rail.face.origin[:2], 4), *np.round(rail.face.along[:2])]
    sizes = [rail.start_in, rail.length_in, rail.start_hip_in, rail.end_hip_in]
    return [*start, *np.round(sizes, 4), *(x for each in rail.eaves for x in np.round(each, 4))]


def bounds(rail: Rail) -> list[tuple[float, ...]]:
    """Foot and head of every bound with some length along the rail, in order."""
    return sorted((round(b.foot_in, 4), round(b.head_in, 4)) for b in rail.bounds)


def test_rails_of_a_t() -> None:
    """A main roof 300 by 180 with gables, a wing of 100 from 80 on, 60 out: its ridge comes in 50,
    to where its valleys meet. Sides of the wing count from its gable, all of the main roof along
    the walk of its front."""
    outline = walk(tee(300, 180, 80, 60, 100, P, ends=("gable",) * 3).walls, (31, 7))
    rails = {name: rail for name, (rail,) in rails_of(outline).items()}
    assert read(rails["front"]) == [31, 7, 1, 0, 0, 300, 0, 0, 0, 80, 180, 300]
    assert read(rails["back"]) == [31, 187, 1, 0, 0, 300, 0, 0, 0, 300]
    assert read(rails["wing left"]) == [111, -53, 0, 1, 0, 110, 0, 0, 0, 60]
    assert read(rails["wing right"]) == [211, -53, 0, 1, 0, 110, 0, 0, 0, 60]
    assert bounds(rails["back"]) in ([(0, 300)], [(300, 0)])
    assert (60, 110) in bounds(rails["wing left"])
    assert {(80, 130), (180, 130)} <= set(bounds(rails["front"]))
    (runs_on,) = (b for b in rails["front"].bounds if b.runs_on)
    assert (runs_on.foot_in, runs_on.head_in) in (
        pytest.approx((130, 170)), pytest.approx((130, 90)))  # fmt: skip
    assert [b.from_corner for b in rails["wing left"].bounds if b.foot_in == 60] == [True]
    # straight up at the eave's ends, at a valley's foot, over the wing, under what runs on
    spans = {at: [(s.foot_in, s.head_in) for s in rails["front"].spans(at)]
             for at in (0.0, 40.0, 80.0, 100.0, 160.0, 180.0, 300.0)}  # fmt: skip
    assert all(spans[at] == [pytest.approx((0, 90))] for at in (0.0, 40.0, 80.0, 180.0, 300.0))
    right = runs_on.head_in > 130
    over = {100.0: [(20, 90)], 160.0: [(20, 90)]}
    over[160.0 if right else 100.0] = [(20, 80), (80, 90)]
    for at, runs in over.items():
        assert [x for pair in spans[at] for x in pair] == pytest.approx(np.ravel(runs))
    assert rails["front"].spans(180.0)[0].foot is None
    assert rails["front"].spans(-0.5) == rails["front"].spans(300.5) == ()
    (tip,) = rails["front"].spans(130.0)
    assert (tip.foot_in, tip.head_in) == pytest.approx((50, 90))
    # on both sides of what runs on wood ends 3/4 in before its line, below it against its far side
    face, turn = rails["front"].face, np.array([31 + 130.0, 7 + 50.0, 0.0])
    for end, says, up in (("head", "valley cheek", 1), ("foot", "valley-jack", -1)):
        plane = runs_on.cut(face, end)  # type: ignore[arg-type]
        assert (plane.says, plane.end) == (says, end)
        assert float(plane.normal @ face.inward) == pytest.approx(up * math.sqrt(0.5))
        assert float(plane.beyond_in(turn)) == pytest.approx(0.75)


def test_rails_of_a_court() -> None:
    """Wings 130 and 120 wide on a back roof 140 deep: their outer fronts lie in one line and are
    two pieces of one side, and the court's own side runs on 65 and 60 in under its valleys."""
    outline = eaves([(400, 90), (240, 90), (120, 90), (100, -90), (150, -90), (100, 90),
                     (130, 90), (240, 90)])  # fmt: skip
    rails = rails_of(outline)
    ends = sorted(rails["wall 3"], key=lambda r: r.start_in)
    assert len(ends) == 2
    east = ends[0].face.along[0] > 0
    hand = (
        [(0, 130, 65, 65), (280, 120, 60, 60)] if east else [(0, 120, 60, 60), (270, 130, 65, 65)]
    )
    for rail, sizes in zip(ends, hand, strict=True):
        assert read(rail)[4:8] == pytest.approx(sizes)
        assert read(rail)[8:] == pytest.approx([sizes[0], sizes[0] + sizes[1]])
    (court,) = rails["wall 5"]
    first = 60 if court.face.along[0] < 0 else 65
    assert read(court)[4:8] == pytest.approx([0, 150 + 125, 0, 0])
    assert read(court)[8:] == pytest.approx([first, first + 150])
    corner = 280 + 60 if first == 60 else 130 - 65
    assert read(court)[:2] == pytest.approx([corner, 140])
    (front,) = rails["wall 1"]
    assert read(front)[4:8] == pytest.approx([0, 400, 70, 70])
    (side,) = rails["wall 2"]
    low, high = read(side)[6:8]
    assert {low, high} == {70, 60}


def test_a_wall_in_two_pieces_is_no_inward_corner() -> None:
    """A front told as 120 and 180: one rail of 300, whose hips of 10 and 8 in 12 ends reach in
    90 x 8/10 = 72 and 90."""
    steep = read_pitch("10")
    outline = walk([Wall(120, 0, "eave", P), Wall(180, 90, "eave", P), Wall(180, 90, "eave", P),
                    Wall(300, 90, "eave", P), Wall(180, 90, "eave", steep)])  # fmt: skip
    rails = {name: rail for name, (rail,) in rails_of(outline).items()}
    assert read(rails["wall 1"]) == [0, 0, 1, 0, 0, 300, 72, 90, 0, 120, 120, 300]
    assert read(rails["wall 4"])[4:8] == [0, 300, 72, 90]
    assert read(rails["wall 5"])[4:8] == [0, 180, 90, 90]


def test_a_bound_is_read_well_inside_its_stretch() -> None:
    rail = rails_of(rectangle(300, 180, P))["front"][0]
    ends = rails_of(rectangle(300, 180, P))
    assert [list(np.round(ends[name][0].face.along[:2])) for name in ("right", "left")] == [
        [0, 1], [0, -1]]  # fmt: skip
    hip = next(b for b in rail.bounds if (b.foot_in, b.head_in) == (0, 90))
    assert hip.inside(-5) == pytest.approx(0, abs=1e-3)
    assert hip.inside(-5) > 0
    assert hip.inside(50) == 50
    assert 90 - 1e-3 < hip.inside(95) < 90
    # So too where the stretch is hardly one.
    short = replace(hip, foot_in=20.0, head_in=20.0 + 4e-5)
    assert 20 < short.inside(-5) < short.inside(95) < 20 + 4e-5
    assert hip.run_in(rail.face, 30) == pytest.approx(30)
    (top,) = (b for b in rails_of(shed(140, 110, P))["front"][0].bounds if b.line is None)
    assert top.run_in(rail.face, 30) == 110
