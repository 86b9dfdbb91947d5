"""Roof planes and lines from walls, against rasters, published roofs and other walks."""

import math

import numpy as np
import pytest
import shapely

from layout.errors import FrameError
from layout.framing.outlines import bay_end, ell, equal_sided, rectangle, shed, tee
from layout.framing.roof_lines import RoofLines, roof_lines
from layout.framing.walls import Outline, Wall, walk
from layout.quantity import Pitch, read_pitch
from tests.counts import count

P = read_pitch("8")
PITCHES = [read_pitch(said) for said in ("3", "5", "8", "9", "12", "16")]


def kinds(roof: RoofLines) -> dict[str, int]:
    return {kind: sum(line.kind == kind for line in roof.lines)
            for kind in dict.fromkeys(line.kind for line in roof.lines)}  # fmt: skip


def raster(outline: Outline, step: float) -> np.ndarray:
    """Plan points inside the outline, at the middles of squares of `step`."""
    low, high = outline.corners.min(axis=0), outline.corners.max(axis=0)
    x, y = np.meshgrid(*(np.arange(a + step / 2, b, step) for a, b in zip(low, high, strict=True)))
    points = np.stack([x.ravel(), y.ravel()], axis=1)
    return points[shapely.contains_xy(shapely.Polygon(outline.corners), *points.T)]


def random_convex(rng: np.random.Generator) -> Outline:
    """Points on an ellipse in order: a convex outline of 3 to 9 walls, pitches drawn."""
    n = int(rng.integers(3, 10))
    while True:
        at = np.sort(rng.uniform(0, 2 * math.pi, n))
        if np.diff([*at, at[0] + 2 * math.pi]).max() < 2.6 and np.diff(at).min() > 0.2:
            break
    points = np.stack([rng.uniform(120, 300) * np.cos(at), 150 * np.sin(at)], axis=1)
    return through(points, [PITCHES[k] for k in rng.integers(0, len(PITCHES), n)])


def through(points: np.ndarray, pitches: list[Pitch]) -> Outline:
    """The walk through given corners, counterclockwise."""
    steps = np.roll(points, -1, axis=0) - points
    heading = np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))
    turns = (np.roll(heading, -1) - heading + 180) % 360 - 180
    lengths = np.hypot(*steps.T)
    return walk([Wall(float(x), float(t), "eave", p)
                 for x, t, p in zip(lengths, turns, pitches, strict=True)])  # fmt: skip


def random_square_cornered(rng: np.random.Generator) -> Outline:
    """Steps up to a tower and down again: square corners only, up to 24 walls, no two alike."""
    up, down = int(rng.integers(1, 6)), int(rng.integers(1, 6))
    widths = rng.uniform(20, 90, up + down)
    rises = rng.uniform(15, 70, up + 1)
    drops = rng.dirichlet(np.ones(down)) * rises.sum()
    walls = [Wall(float(widths.sum()), 90.0, "eave", P), Wall(float(drops[0]), 90.0, "eave", P)]
    for k in range(down - 1):
        walls += [
            Wall(float(widths[k]), -90.0, "eave", P),
            Wall(float(drops[k + 1]), 90.0, "eave", P),
        ]
    levels = rises[1:][::-1]
    for k in range(up):
        walls.append(
            Wall(float(widths[down - 1 + k]) if k else float(widths[down - 1]), 90.0, "eave", P)
        )
        walls.append(Wall(float(levels[k]), -90.0, "eave", P))
    walls.append(Wall(float(widths[-1]), 90.0, "eave", P))
    walls.append(Wall(float(rises[0]), 90.0, "eave", P))
    return walk(walls)


@pytest.mark.parametrize("start", [(0.0, 0.0), (500.0, 700.0), (-500.0, -700.0)])
def test_a_notched_wall_parts_the_roof_where_its_corner_comes_to_the_front(
    start: tuple[float, float],
) -> None:
    """A back wall of two, its middle 40 in nearer the front than its ends, 60 in from it.

    All move in alike, square to themselves; the back's corner comes down 1 / cos as far as they
    do, and meets the front where both have come 60 in. The building may stand anywhere.
    """
    back, turn = math.hypot(150, 40), math.degrees(math.atan(40 / 150))
    walls = [
        Wall(300, 90, "eave", P), Wall(100, 90 + turn, "eave", P), Wall(back, -2 * turn, "eave", P),
        Wall(back, 90 + turn, "eave", P), Wall(100, 90, "eave", P),
    ]  # fmt: skip
    (valley,) = (line for line in roof_lines(walk(walls, start)).lines if line.kind == "valley")
    assert valley.foot - start == pytest.approx([150, 60])
    assert valley.head - start == pytest.approx([150, 60 / (1 + back / 150)])


# --- the roof is the least of the planes, and tiles the outline --------------------------------


@pytest.mark.parametrize("seed", range(count(200, 12)))
def test_a_convex_roof_is_the_least_of_its_planes(seed: int) -> None:
    roof = roof_lines(random_convex(np.random.default_rng(seed)))
    points = raster(roof.outline, 11.0)
    heights = np.min([plane.height_in(points) for plane in roof.planes], axis=0)
    for k, plane in enumerate(roof.planes):
        inside = shapely.contains_xy(roof.areas[k], *points.T)
        assert plane.height_in(points[inside]) == pytest.approx(heights[inside], abs=1e-6)
    check_whole(roof)
    assert {line.kind for line in roof.lines} <= {"hip", "ridge"}


@pytest.mark.parametrize("seed", range(count(200, 12)))
def test_square_corners_and_one_pitch_rise_with_the_chessboard_distance(seed: int) -> None:
    """Between square walls of one pitch a level line is all points one king's-move distance in:
    height = slope x the least over the walls of max(|dx|, |dy|) to them."""
    roof = roof_lines(random_square_cornered(np.random.default_rng(seed)))
    points = raster(roof.outline, 7.0)
    starts, ends = roof.outline.corners, np.roll(roof.outline.corners, -1, axis=0)
    low, high = np.minimum(starts, ends), np.maximum(starts, ends)
    off = np.maximum(np.maximum(low - points[:, None], points[:, None] - high), 0).max(axis=2)
    heights = [roof.height_in(point) for point in points]
    assert heights == pytest.approx(list(off.min(axis=1) * 8 / 12), abs=1e-6)
    check_whole(roof)


SNAP_IN = 1e-7
"""Corners of areas are found as points where planes meet; they stand within this of the true ones:
solving for a point multiplies the rounding of coordinates of a few hundred inches (1e-13) by at
most 1e6, one over the sine squared of the flattest angle that the drawn outlines hold."""


def check_whole(roof: RoofLines) -> None:
    """The planes' areas tile the outline, and lines lie in both of their planes.

    Each border may stand off by `SNAP_IN`, so what two areas share or leave between them is at
    most that times the length of all borders. A line is an edge of both its areas over its whole
    length, however thin they are: on its left side the ring of the area runs the line's way
    (counterclockwise, so the area lies at its left), on its right side the other way.
    """
    whole = shapely.Polygon(roof.outline.corners)
    borders = sum(area.length for area in roof.areas)
    assert abs(roof.plan_area_in2 - whole.area) < SNAP_IN * borders
    assert shapely.union_all(roof.areas).symmetric_difference(whole).area < SNAP_IN * borders
    for line in roof.lines:
        for k in (line.left, line.right):
            plane = roof.planes[k]
            if plane.kind == "eave":
                ends = plane.height_in(np.stack([line.foot, line.head]))
                assert ends == pytest.approx([line.foot_height_in, line.head_height_in], abs=1e-9)
        for k, side in ((line.left, 1), (line.right, -1)):
            if roof.planes[k].kind == "eave":
                assert runs_along(roof.areas[k], line.foot, line.head) == side


def runs_along(area: shapely.Geometry, foot: np.ndarray, head: np.ndarray) -> int:
    """1 where the area has this line as an edge and lies at its left, -1 at its right, else 0."""
    points = shapely.points(foot + np.linspace(0, 1, 9)[:, None] * (head - foot))
    for part in shapely.get_parts(area):
        ring = shapely.geometry.polygon.orient(part).exterior
        if shapely.distance(ring, points).max() > SNAP_IN:
            continue
        start, stop = (shapely.line_locate_point(ring, points[k]) for k in (0, -1))
        ahead = (stop - start) % ring.length
        run = float(np.hypot(*(head - foot)))
        if abs(ahead - run) < 10 * SNAP_IN:
            return 1
        if abs(ring.length - ahead - run) < 10 * SNAP_IN:
            return -1
    return 0


def test_volume_and_areas_against_a_raster() -> None:
    for roof in (
        roof_lines(ell(330, 200, 130, 140, P, read_pitch("10"))),
        roof_lines(tee(330, 200, 90, 70, 120, P, ends=("hip", "gable", "gable"))),
        roof_lines(bay_end(200, 180, read_pitch("9"))),
    ):
        points = raster(roof.outline, 3.0)
        heights = np.array([roof.height_in(point) for point in points])
        assert 9 * len(points) == pytest.approx(roof.plan_area_in2, rel=0.02)
        assert heights.mean() == pytest.approx(roof.volume_in3 / roof.plan_area_in2, rel=0.01)


# --- the same roof, however it is walked ---------------------------------------------------------


@pytest.mark.parametrize("seed", range(count(60, 4)))
def test_walked_backward_or_begun_elsewhere_it_is_the_same_roof(seed: int) -> None:
    rng = np.random.default_rng(seed)
    outline = random_square_cornered(rng) if seed % 2 else random_convex(rng)
    there = list(outline.walls)
    k = int(rng.integers(1, len(there)))
    elsewhere = [*there[k:], *there[:k]]
    back = [Wall(there[j].length_in, -there[j - 1].turn_deg, "eave", there[j].pitch)
            for j in range(len(there) - 1, -1, -1)]  # fmt: skip
    want = measured(roof_lines(outline))
    for walls in (elsewhere, back, [*back[k:], *back[:k]]):
        got = measured(roof_lines(walk(walls)))
        assert [row[0] for row in got] == [row[0] for row in want]
        assert [x for row in got for x in row[1:]] == pytest.approx(
            [x for row in want for x in row[1:]], rel=1e-7, abs=1e-4
        )


def test_a_t_and_two_fronts_in_one_line_are_the_same_begun_at_any_wall() -> None:
    """Where walls come to one level line the climb joins them, at the walk's own start too."""
    tees = (tee(330, 200, 90, 70, 120, P), tee(330, 150, 90, 60, 150, P))
    for outline in (*tees, ell(330, 200, 130, 200, P), walk(offset_front())):
        walls = list(outline.walls)
        want = measured(roof_lines(outline))
        for k in range(1, len(walls)):
            got = measured(roof_lines(walk([*walls[k:], *walls[:k]])))
            assert [row[0] for row in got] == [row[0] for row in want]
            assert [x for row in got for x in row[1:]] == pytest.approx(
                [x for row in want for x in row[1:]], rel=1e-7, abs=1e-4
            )


def test_a_wall_told_in_two_pieces_is_one() -> None:
    one = roof_lines(rectangle(300, 180, P))
    pieces = [Wall(x, turn, "eave", P) for x, turn in
              ((120, 0), (180, 90), (180, 90), (300, 90), (80, 0), (100, 90))]  # fmt: skip
    two = roof_lines(walk(pieces))
    assert kinds(two) == kinds(one)
    assert two.volume_in3 == pytest.approx(one.volume_in3)


def measured(roof: RoofLines) -> list[tuple[object, ...]]:
    """All that a move of the building leaves as it is."""
    lines = sorted(
        (line.kind, round(line.length_in, 4), line.head_height_in, line.interior_deg)
        for line in roof.lines
    )
    return [*lines, ("volume", roof.volume_in3), *(("area", a) for a in sorted(
        area.area for area in roof.areas))]  # fmt: skip


# --- shapes, and published roofs -----------------------------------------------------------------


def test_what_lines_a_shape_has() -> None:
    assert kinds(roof_lines(rectangle(300, 180, P))) == {"ridge": 1, "hip": 4}
    assert kinds(roof_lines(rectangle(180, 180, P))) == {"hip": 4}
    assert kinds(roof_lines(rectangle(204, 192, P))) == {"ridge": 1, "hip": 4}
    assert kinds(roof_lines(equal_sided(8, 60, P))) == {"hip": 8}
    assert kinds(roof_lines(bay_end(200, 180, P))) == {"ridge": 1, "hip": 6}
    assert kinds(roof_lines(shed(200, 120, P))) == {"top": 1, "rake": 2}
    assert kinds(roof_lines(tee(330, 200, 90, 70, 120, P))) == {"ridge": 2, "hip": 6, "valley": 2}
    assert kinds(roof_lines(ell(330, 200, 130, 200, P))) == {"ridge": 2, "hip": 5, "valley": 1}
    lower = roof_lines(ell(330, 200, 130, 140, P))
    assert [line.sloping_ridge for line in lower.lines].count(True) == 1
    top = roof_lines(shed(200, 120, P))
    assert top.ridge_height_in == pytest.approx(120 * 8 / 12)


def test_the_two_fronts_beside_a_wing_are_one_plane() -> None:
    roof = roof_lines(tee(330, 200, 90, 70, 120, P))
    assert next(plane.walls for plane in roof.planes if plane.name == "front") == (0, 4)


def test_unequal_pitch_of_hodgson() -> None:
    """Hodgson, ABC of the Steel Square, unequal pitch A: span 24', rise 10', side run 12', end
    run 16': the hip's run is 20' (printed) and its length 22.3607'."""
    side, end = (read_pitch(f"{120 / run} in 12") for run in (12, 16))
    roof = roof_lines(rectangle(600, 288, side, end))
    hips = [line for line in roof.lines if line.kind == "hip"]
    assert [line.run_in / 12 for line in hips] == pytest.approx([20.0] * 4)
    assert [line.length_in / 12 for line in hips] == pytest.approx([22.3607] * 4, abs=1e-4)
    assert roof.ridge_height_in == pytest.approx(120)


def test_all_hips_to_one_point_of_hodgson() -> None:
    """Hodgson, division B: 18' x 28', rise 9', all hips to one point: runs of 9 and 14, the
    hip's run their diagonal, 16.643'."""
    roof = roof_lines(rectangle(336, 216, read_pitch("108/108"), read_pitch("108/168")))
    assert kinds(roof) == {"hip": 4}
    assert [line.run_in / 12 for line in roof.lines] == pytest.approx([math.hypot(9, 14)] * 4)


def test_octagon_of_griffith() -> None:
    """Griffith, Carpentry, the octagon: hip run over 12 of the common's is 13 (12.9887)."""
    side = 240.0
    roof = roof_lines(equal_sided(8, side, read_pitch("10")))
    common = side / 2 / math.tan(math.radians(22.5))
    for line in roof.lines:
        assert 12 * line.run_in / common == pytest.approx(12.9887, abs=1e-4)
        # checks of the octagon hip per foot at 10 in 12: 16.392
        assert 12 * line.length_in / common == pytest.approx(16.392, abs=1e-3)


def test_navy_hip_roof() -> None:
    """NAVEDTRA 14044: span 30', 8 in 12: rise 10', hip run 21.21', hip 23.45'."""
    roof = roof_lines(rectangle(600, 360, P))
    hip = next(line for line in roof.lines if line.kind == "hip")
    assert roof.ridge_height_in / 12 == pytest.approx(10)
    assert (hip.run_in / 12, hip.length_in / 12) == pytest.approx((21.21, 23.45), abs=0.005)


# --- two answers, and refusals -------------------------------------------------------------------


def offset_front() -> list[Wall]:
    flat, steep = read_pitch("4"), read_pitch("12")
    walls = [(100, 90, flat), (40, -90, P), (100, 90, steep), (300, 90, P), (200, 90, P),
             (340, 90, P)]  # fmt: skip
    return [Wall(length, turn, "eave", pitch) for length, turn, pitch in walls]


def test_an_open_place_names_both_answers() -> None:
    """Fronts 40 in apart at 4 and 12 in 12 come level where h / (4/12) = 40 + h: h = 20."""
    flatter = roof_lines(walk(offset_front()))
    steeper = roof_lines(walk(offset_front()), steeper_goes_on=True)
    for roof, goes_on in ((flatter, "wall 1"), (steeper, "wall 3")):
        (said,) = roof.open_places
        assert "1'-8\" over the eaves" in said
        assert "wall 1" in said
        assert "wall 3" in said
        assert f"here {goes_on}'s does" in said
        check_whole(roof)
        (step,) = (line for line in roof.lines if line.kind == "break")
        assert step.head_height_in == pytest.approx(20)
    assert steeper.volume_in3 > flatter.volume_in3
    assert not roof_lines(rectangle(300, 180, P)).open_places


@pytest.mark.parametrize(
    ("walls", "says"),
    [
        ([Wall(100, 90, "gable"), Wall(60, -90, "gable"), Wall(80, 90, "eave", P),
          Wall(100, 90, "eave", P), Wall(180, 90, "eave", P), Wall(160, 90, "eave", P)],
         "wall 2 is a gable and ends at a corner that points into"),
        ([Wall(100, 90, "gable")] * 4, "no wall of these is an eave"),
        ([Wall(100, 0, "eave", P), Wall(60, 90, "eave", read_pitch("6")), Wall(100, 90, "eave", P),
          Wall(160, 90, "eave", P), Wall(100, 90, "eave", P)],
         "^wall 1 and wall 2 run on in one line with unlike"),
    ],
)  # fmt: skip
def test_what_carries_no_roof_says_why(walls: list[Wall], says: str) -> None:
    with pytest.raises(FrameError, match=says):
        roof_lines(walk(walls))
