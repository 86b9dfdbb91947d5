"""Boards that follow the framing: fascias, rake boards, and the roof boards of every side.

A fascia's outside runs level along its eave, `overhang` outside the wall; it ends where its
outside meets the next fascia's: the corner of both walls moved out by their overhangs. At a gable
it ends square against the back of the rake board, which covers its end. A rake board lies plumb
over the gable's wall moved out by the rake overhang, and runs from the outside of the fascia up to
the peak: (run + overhang) / cos slope, whatever the rake overhang. A roof board runs level across
its side from line to line, and at a gable out to the outside of its rake overhang; its cuts to hip,
valley and rake are the catalogue's, and each course is longer or shorter than the one below by the
same amount.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from layout import usual
from layout.answer.question import ask
from layout.framing.roof import TrainingRoof
from layout.framing.roof_lines import RoofLine, RoofLines, RoofPlane
from layout.quantity import Pitch
from layout.stock import Stock, read_stock
from layout.vector import Array

SAME_IN = 1e-5
FAR_IN = 1e5


@dataclass(frozen=True)
class TrimRow:
    """A board of trim over one wall [inches]: its long point to long point on its outside.

    `left_end` and `right_end` say the cuts, seen from outside the building: `miter` with the
    angle in plan from square, `square`, or for a rake board `plumb` with the slope.
    """

    board: str
    side: str
    length_in: float
    left_end: str
    right_end: str


@dataclass(frozen=True)
class CourseRow:
    """The roof boards of one side, or of one piece of it, along their lower edges [inches].

    `eave_in` is the course over the building line; up the slope every course `board_in` wide
    changes by `change_in`, plus longer, over the first `courses`, up to where the side's outline
    turns. Below the building line `overhang_courses` whole ones lie over the overhang, each
    changing as much the other way, and a strip `strip_in` wide at the outside of the fascia. A
    gable's overhang is in every course. The cuts are named from the left, seen from
    outside, with the face mark from square across and the tilt of the saw [degrees]: mitered over a
    hip or valley, square at a rake.
    """

    side: str
    board_in: float
    eave_in: float
    change_in: float
    courses: int
    overhang_courses: int
    strip_in: float
    left_cut: str
    left_mark_deg: float
    left_tilt_deg: float
    right_cut: str
    right_mark_deg: float
    right_tilt_deg: float


def trim_rows(roof: TrainingRoof) -> tuple[TrimRow, ...]:
    """Every eave's fascia and every gable's rake boards, as the walls are walked."""
    surface = roof.surface
    outline, walls = surface.outline, surface.outline.walls
    corners = [_outer_corner(roof, k) for k in range(len(walls))]
    rows = []
    for k, wall in enumerate(walls):
        if wall.kind != "eave":
            continue
        ends = corners[k], corners[(k + 1) % len(walls)]
        cuts = [_end_cut(roof, c) for c in (k, (k + 1) % len(walls))]
        length = float((ends[1] - ends[0]) @ outline.along[k])
        rows.append(TrimRow("fascia", wall.name, length, cuts[0], cuts[1]))
    for line in surface.lines:
        if line.kind == "rake":
            rows.append(_rake(roof, line))
    return tuple(rows)


def _out_in(roof: TrainingRoof, wall: int) -> float:
    """How far outside a wall a fascia's end lies there [inches].

    Over an eave its own outside, at a gable the back of the rake board, 0 at a high wall.
    """
    here = roof.surface.outline.walls[wall]
    if here.pitch is not None:
        return roof.plan.overhang_of(here.pitch)
    return roof.plan.rake_back_in if here.kind == "gable" else 0.0


def _outer_corner(roof: TrainingRoof, corner: int) -> Array:
    """Where the fascias over the two walls at a corner end (2,): n.p = c - overhang for both."""
    outline = roof.surface.outline
    pair = (corner - 1) % len(outline.walls), corner
    rows = np.stack([outline.inward[k] for k in pair])
    levels = [float(outline.corners[corner] @ outline.inward[k]) - _out_in(roof, k) for k in pair]
    point: Array = np.linalg.solve(rows, levels)
    return point


def _end_cut(roof: TrainingRoof, corner: int) -> str:
    outline = roof.surface.outline
    pair = (corner - 1) % len(outline.walls), corner
    if any(outline.walls[k].kind != "eave" for k in pair):
        return "square"
    turn = abs(180.0 - outline.interior_deg(corner))
    return f"miter {turn / 2:g} deg"


def _rake(roof: TrainingRoof, line: RoofLine) -> TrimRow:
    """The board's outside along the rake moved out, from the fascia's outside to the peak."""
    surface = roof.surface
    k, wall = line.left, line.right
    if surface.planes[k].kind != "eave":
        k, wall = wall, k
    plane, gable = surface.planes[k], surface.planes[wall]
    foot, head = (_rake_end(roof, line, k, wall, end) for end in (line.foot, line.head))
    run = float(np.hypot(*(head - foot)))
    rise = float(plane.height_in(head) - plane.height_in(foot))
    ends = (f"plumb {float(np.degrees(np.arctan2(rise, run))):.2f} deg",) * 2
    return TrimRow(
        "rake board", f"{gable.name}, under {plane.name}", float(np.hypot(run, rise)), *ends
    )


def _rake_end(roof: TrainingRoof, line: RoofLine, k: int, wall: int, end: Array) -> Array:
    """Where a rake over the gable `wall`, under the plane `k`, ends once it is moved out (2,).

    Over a corner of the walls that is above the outside of the fascia; elsewhere on the ridge,
    or whatever line of the roof runs in from that end, drawn out over the gable.
    """
    surface, out_in = roof.surface, roof.plan.rake_overhang_in
    plane, gable = surface.planes[k], surface.planes[wall]
    if end is line.foot and line.corner is not None:
        assert plane.pitch is not None
        eave_in = plane.level_in - roof.plan.overhang_of(plane.pitch)
        reach = np.array([eave_in, gable.level_in - out_in], dtype=np.float64)
        rows = np.stack([plane.inward, gable.inward])
        corner: Array = np.asarray(np.linalg.solve(rows, reach), dtype=np.float64)
        return corner
    for other in surface.lines:
        if other is line or k not in (other.left, other.right) or wall in (other.left, other.right):
            continue
        inward = float(other.way @ gable.inward)
        ends = np.stack([other.foot, other.head])
        if float(np.abs(ends - end).max(axis=1).min()) < SAME_IN < abs(inward):
            moved: Array = end - out_in / inward * other.way
            return moved
    flush: Array = end - out_in * gable.inward
    return flush


def course_rows(
    surface: RoofLines,
    board: Stock,
    rake_overhang_in: float = 0.0,
    overhang_of: Callable[[Pitch], float] = lambda pitch: 0.0,
) -> tuple[CourseRow, ...]:
    """The roof boards of every side, of this stock: its depth lies up the slope.

    At a gable every course runs `rake_overhang_in` past the wall. `overhang_of` is the level
    overhang of a side of a pitch [inches].
    """
    return tuple(
        _courses(surface, k, part, board, rake_overhang_in, overhang_of)
        for k in surface.eave_planes
        for part in shapely.get_parts(surface.areas[k])
    )


def usual_courses(roof: TrainingRoof) -> tuple[CourseRow, ...]:
    """The roof boards of a framed roof, of the usual board, out over its gables' overhang."""
    board = read_stock(usual.ROOF_BOARD)
    return course_rows(roof.surface, board, roof.plan.rake_overhang_in, roof.plan.overhang_of)


def _courses(
    surface: RoofLines,
    k: int,
    part: BaseGeometry,
    board: Stock,
    rake_overhang_in: float,
    overhang_of: Callable[[Pitch], float],
) -> CourseRow:
    plane = surface.planes[k]
    assert plane.pitch is not None  # only a side with a pitch carries roof boards
    out = overhang_of(plane.pitch) * float(np.hypot(1.0, plane.slope))
    below = int((out + SAME_IN) // board.depth_in)
    strip = out - below * board.depth_in
    level = board.depth_in / float(np.hypot(1.0, plane.slope))
    runs = shapely.get_coordinates(part) @ plane.inward - plane.level_in
    turns = min(float(run) for run in runs if run > SAME_IN)
    first, second = (_width_at(plane, part, run) for run in (0.0, turns / 2))
    ends = [_cut_at(surface, k, part, side, board) for side in (-1, 1)]
    gables = sum(_at_gable(surface, k, _eave_end(plane, part, side)) for side in (-1, 1))
    return CourseRow(
        side=plane.name,
        board_in=board.depth_in,
        eave_in=first + gables * rake_overhang_in,
        change_in=(second - first) / (turns / 2) * level,
        courses=int((turns + SAME_IN) // level),
        overhang_courses=below,
        strip_in=strip if strip > SAME_IN else 0.0,
        left_cut=ends[0][0],
        left_mark_deg=ends[0][1],
        left_tilt_deg=ends[0][2],
        right_cut=ends[1][0],
        right_mark_deg=ends[1][1],
        right_tilt_deg=ends[1][2],
    )


def _width_at(plane: RoofPlane, part: BaseGeometry, run: float) -> float:
    """The level width of a piece of a side, a run up from its wall [inches]."""
    along = np.array([plane.inward[1], -plane.inward[0]])
    middle = (plane.level_in + max(run, SAME_IN)) * plane.inward
    line = shapely.LineString([middle - FAR_IN * along, middle + FAR_IN * along])
    return float(part.intersection(line).length)


def _cut_at(
    surface: RoofLines, k: int, part: BaseGeometry, side: int, board: Stock
) -> tuple[str, float, float]:
    """The first course's cut at its left (-1) or right (1) end: its name, face mark and tilt."""
    plane = surface.planes[k]
    end = _eave_end(plane, part, side)
    for line in surface.lines:
        here = k in (line.left, line.right) and float(np.abs(line.foot - end).max()) < SAME_IN
        if here and line.kind in ("hip", "valley"):
            other = surface.planes[line.right if line.left == k else line.left]
            asked = ask(
                "roof-board", pitch=plane.pitch, other_pitch=other.pitch,
                corner_deg=line.interior_deg, stock=board,
            )  # fmt: skip
            cut = asked.joint.cuts(board)[0]
            return line.kind, float(cut.face_mark_deg), float(cut.face_tilt_deg)
    return "square", 0.0, 0.0


def _eave_end(plane: RoofPlane, part: BaseGeometry, side: int) -> Array:
    """The left (-1) or right (1) end of the lower edge of a piece of a side, in plan (2,)."""
    along = np.array([plane.inward[1], -plane.inward[0]])
    points = shapely.get_coordinates(part)
    low = points[points @ plane.inward - plane.level_in < SAME_IN]
    end: Array = max(low, key=lambda p: side * float(p @ along))
    return end


def _at_gable(surface: RoofLines, k: int, end: Array) -> bool:
    """Whether a rake over a gable rises from this end of a side's eave."""
    return any(
        line.kind == "rake"
        and k in (line.left, line.right)
        and "gable" in (surface.planes[line.left].kind, surface.planes[line.right].kind)
        and float(np.abs(line.foot - end).max()) < SAME_IN
        for line in surface.lines
    )
