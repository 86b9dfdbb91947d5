"""A face filled with rafters: those beside a wing's end, in a valley's corner, at a peak."""

import math

import numpy as np
import pytest
import shapely

from layout.framing.contact import contacts
from layout.framing.outlines import tee
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.framing.stick import Stick
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.drawn_roofs import framed_shape, small_ell
from tests.stick_solids import overlaps, unmated

STRETCH = math.hypot(12, 8) / 12
"""Length over level run at 8 in 12."""


@pytest.mark.parametrize("at", [103.0, 104.0, 106.0])
def test_the_rafter_over_the_end_of_a_wings_ridge_stands(at: float) -> None:
    """A wing 80 in wide from `at` ends its ridge over at + 40; the rafter 144 in along stands
    within a few inches of there. By hand it runs from the valley's line, 144 - at up the slope,
    to the ridge at 70, less half a ridge and half a valley at 45 degrees. The one 96 in along
    ends its tail on the valley's tail, 104 - 96 = 8 in out where the wing begins at 104."""
    outline = tee(260, 140, at, 40, 80, read_pitch("8"), ends=("gable",) * 3)
    roof = frame(RoofPlan.over(outline, spacing_in=48, valley=read_stock("2x10")))
    front = {round(float(s.origin[0]) - 0.75): s for s in roof.rafters
             if s.face == "front" and s.blank_in > 12}  # fmt: skip
    run = 70 - (144 - at) - 0.75 - 0.75 * math.sqrt(2)
    assert front[144].measured().centre_in == pytest.approx(run * STRETCH, abs=1e-6)
    tail = at - 96 + 0.75 - 0.75 * math.sqrt(2)
    assert front[96].tail_in == pytest.approx(tail * STRETCH, abs=1e-6)
    # a side of the wing, from its gable: one flush with it, one 48 in on, 8 in past the corner
    for side in ("wing left", "wing right"):
        runs = [s.theoretical_in / STRETCH for s in roof.rafters if s.face == side]
        assert sorted(runs) == pytest.approx([32, 40])
    beside = [s for s in roof.sticks if s.face in ("front", "") or s.role == "valley"]
    assert overlaps(beside) == []
    assert unmated(roof.sticks) == []


def test_a_rafter_comes_to_the_peak_from_the_middle_of_every_wall() -> None:
    """Where four hips meet in one point every side has a rafter between two of them."""
    roof = frame(RoofPlan(130, 130, spacing_in=48))
    for face in roof.faces:
        middles = [
            float((s.corners.mean(axis=0) - np.array([65.0, 65.0, 0.0])) @ face.along)
            for s in roof.rafters
            if s.face == face.name
        ]
        assert min(abs(x) for x in middles) < 1e-6, face.name


def test_hips_between_commons_have_them_however_the_jacks_are_laid() -> None:
    """Laid from the corner, 10 in first and 24 in on, no jack falls over the hips' tops at 60 in:
    a common stands there all the same, on both sides of the ridge and at the ends."""
    roof = frame(RoofPlan(160, 120, first_in=10.0, spacing_in=24))
    at = {face.name: [] for face in roof.faces}  # type: ignore[var-annotated]
    for stick in roof.rafters:
        if stick.role == "common":
            along = next(f for f in roof.faces if f.name == stick.face).along
            at[stick.face].append(abs(float(stick.corners.mean(axis=0) @ along)))
    for side, places in {"front": (60, 100), "back": (60, 100), "left": (60,)}.items():
        for place in places:
            assert min(abs(x - place) for x in at[side]) < 1e-6, (side, place, at)
    assert unmated(roof.sticks) == []


@pytest.mark.parametrize(("first", "stands"), [(5.2, False), (5.4, True)])
def test_a_jack_stands_where_its_short_side_is_as_long_as_its_seat(
    first: float, stands: bool
) -> None:
    """Level it is its run less half of its own 1 1/2 in and half of the hip's at 45 degrees."""
    short = first - 0.75 - 0.75 * math.sqrt(2)
    assert (short > 3.5) == stands
    roof = frame(RoofPlan(120, 120, first_in=first, spacing_in=48))
    jacks = [s.measured().short_in / STRETCH for s in roof.rafters if s.role == "hip jack"]
    assert (min(jacks) == pytest.approx(short)) == stands
    assert bool(roof.left_out) != stands


@pytest.mark.parametrize(("out", "stands"), [(16.0, False), (16.5, True)])
def test_a_jack_on_a_valley_stands_where_a_thickness_of_it_is_left(
    out: float, stands: bool
) -> None:
    """A wing 80 in wide whose second rafters stand 52 in from its gable, 52 - out past the corner:
    level they run from the valley's line, as far up as that, to the ridge at 40. Half a valley
    at 45 degrees, half a ridge and half of their own 1 1/2 in come off the short side."""
    outline = tee(150, 90, 35, out, 80, read_pitch("8"), ends=("gable",) * 3)
    roof = frame(RoofPlan.over(outline, spacing_in=52, valley=read_stock("2x10")))
    short = 40 - (52 - out) - 0.75 * math.sqrt(2) - 0.75 - 0.75
    assert (short > 1.5) == stands
    jacks = [s for s in roof.rafters if s.face in ("wing left", "wing right") and not s.on_plate]
    shorts = [jack.measured().short_in / STRETCH for jack in jacks]
    assert shorts == pytest.approx([short] * 2 if stands else [])
    assert sum("wing" in said for said in roof.left_out) == (0 if stands else 2)


@pytest.mark.parametrize(("first", "more"), [(8.5, 1), (9.5, 0)])
def test_two_rafters_keep_a_thickness_clear_between_them(first: float, more: int) -> None:
    """In the middle of 120 in one stands in any case; 48 in on from the first the next is at 56.5,
    3 1/2 in from it, or at 57.5, 2 1/2 in from it, where it is left out."""
    roof = frame(RoofPlan(120, 120, first_in=first, spacing_in=48))
    (front,) = (face for face in roof.faces if face.name == "front")
    sticks = [s for s in roof.rafters if s.face == "front"]
    at = sorted(round(float(s.corners.mean(axis=0) @ front.along), 6) for s in sticks)
    places = [abs(x) for x in at]
    beside = [first + 48, 120 - first - 48] if more else []
    assert sorted(places) == pytest.approx(sorted([first, 60, 120 - first, *beside]), abs=0.5)


def test_a_jack_just_past_the_corner_bears_on_the_plate_under_it() -> None:
    """The wing's second rafter stands 2 in past the corner of the walls, over the main plate.

    Its underside comes down to the plate 3 1/2 in from its wall, the valley's face cuts it
    y + 3/4 sqrt 2 in from there at y past the corner: from y = 1 1/4 up to where both meet that
    leaves a triangle of equal legs.
    """
    outline = tee(260, 140, 104, 46, 80, read_pitch("8"), ends=("gable",) * 3)
    roof = frame(RoofPlan.over(outline, spacing_in=48, valley=read_stock("2x10")))
    leg = 3.5 - 0.75 * math.sqrt(2) - 1.25
    jacks = [s for s in roof.rafters if s.face in ("wing left", "wing right") and not s.on_plate]
    seated = [c for c in contacts(roof.sticks) if c.says == "common-seat"]
    assert len(jacks) == 2
    for jack in jacks:
        (seat,) = (c for c in seated if c.stick == jack.name)
        assert roof.by_name[seat.mate].role == "plate"
        assert seat.area_in2 == pytest.approx(leg**2 / 2, abs=1e-6)


@pytest.mark.parametrize("name", ["a small L", "a half-octagon end and a gable", "a lower wing"])
def test_rafters_fill_every_side_of_a_roof(name: str) -> None:
    """Drawn in plan: at each rafter's place the side is as long straight up the slope as the
    rafters' lines together; the wood inside the walls lies over the side itself. Neighbors
    stand two thicknesses apart at least, and at most the spacing and so much, where a place is
    left to a rafter that stands in any case."""
    roof = small_ell() if name == "a small L" else framed_shape(name)
    plan, walls = roof.plan, shapely.Polygon(roof.surface.outline.corners)
    assert unmated(roof.sticks) == []
    for k in roof.surface.eave_planes:
        (face,) = (f for f in roof.faces if f.name == roof.surface.planes[k].name)
        stretch = math.hypot(1, face.pitch.rise / face.pitch.run)
        area = roof.surface.areas[k]
        here: dict[float, list[Stick]] = {}
        for stick in (s for s in roof.rafters if s.face == face.name):
            at = (stick.corners - face.origin) @ face.along
            here.setdefault(round(float(at.min() + at.max()) / 2, 6), []).append(stick)
        places = sorted(here)
        spaces = np.diff(places)
        clear = 2 * plan.rafter.thickness_in
        assert spaces.min() > clear - 1e-6
        assert spaces.max() < plan.spacing_in + clear
        ends = shapely.get_coordinates(area) @ face.along[:2] - face.origin[:2] @ face.along[:2]
        assert places[0] - ends.min() < plan.spacing_in + 1e-6
        assert ends.max() - places[-1] < plan.spacing_in + 1e-6
        for at, sticks in here.items():
            line = shapely.LineString([face.on_eave(at, run)[:2] for run in (-1.0, 999.0)])
            runs = sorted(part.length for part in shapely.get_parts(line.intersection(area)))
            out = [
                said for said in roof.left_out if said.startswith(f"{face.name}, {at:g} in from")
            ]
            told = [stick.theoretical_in / stretch for stick in sticks]
            over_wall = shapely.Point(face.on_eave(at)[:2]).distance(area) < 1e-6
            assert sum(stick.on_plate for stick in sticks) == (1 if over_wall and not out else 0)
            # a valley that runs on inside the side parts a stretch in two
            assert len(told) + len(out) >= len(runs)
            if not out:
                assert sum(told) == pytest.approx(sum(runs), abs=1e-6)
            for stick in sticks:
                hull = shapely.MultiPoint(stick.corners[:, :2]).convex_hull
                past = "planed corner" in {p.says for p in stick.planes}
                beside = hull.intersection(walls).difference(area.buffer(1e-6)).area
                assert past or beside < 1e-6, stick.name
