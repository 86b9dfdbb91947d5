"""Boards that follow the framing: fascias, rake boards, and the roof boards of every side.

A fascia's outside runs level along its eave, `overhang` outside the wall; it ends where its
outside meets the next fascia's: the corner of both walls moved out by their overhangs. At a gable
it ends square against the back of the rake board, which covers its end. A rake board lies plumb
over the gable's wall moved out by the rake overhang, and runs from the outside of the fascia up to
the peak: (run + overhang) / cos slope, whatever the rake overhang; both its ends are plumb, so it
takes its width x rise / run more of board. A roof board runs level across
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
    """A board of trim over one wall [inches].

    `length_in` is a fascia's long point to long point on its outside, and a rake board's along its
    edge, the same on both. `blank_in` is the length of board it takes, a rake board as wide as
    `RoofPlan.rake_width_in`. `left_end` and `right_end` say the cuts, seen from outside the
    building: `miter` with the angle in plan from square, `square`, or for a rake board `plumb` with
    the slope.
    """

    board: str
    side: str
    length_in: float
    blank_in: float
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
    return (*fascia_rows(roof).values(), *rake_rows(roof))


def fascia_rows(roof: TrainingRoof) -> dict[int, TrimRow]:
    """Every eave's fascia, by the number of its wall."""
    outline = roof.surface.outline
    rows = {}
    for k, wall in enumerate(outline.walls):
        if wall.kind == "eave":
            ends = k, (k + 1) % len(outline.walls)
            left, right = (fascia_corner(roof, corner) for corner in ends)
            length = float((right - left) @ outline.along[k])
            cuts = (_end_cut(roof, corner) for corner in ends)
            rows[k] = TrimRow("fascia", wall.name, length, length, *cuts)
    return rows


def rake_rows(roof: TrainingRoof) -> tuple[TrimRow, ...]:
    """Every gable's rake boards."""
    return tuple(_rake(roof, line) for line in roof.surface.lines if line.kind == "rake")


def _out_in(roof: TrainingRoof, wall: int) -> float:
    """How far outside a wall a fascia's end lies there [inches].

    Over an eave its own outside, at a gable the back of the rake board, 0 at a high wall.
    """
    here = roof.surface.outline.walls[wall]
    if here.pitch is not None:
        return roof.plan.overhang_of(here.pitch)
    return roof.plan.rake_back_in if here.kind == "gable" else 0.0


def fascia_corner(roof: TrainingRoof, corner: int) -> Array:
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
    length = float(np.hypot(run, rise))
    blank = length + roof.plan.rake_width_in * abs(rise) / run
    ends = (f"plumb {float(np.degrees(np.arctan2(rise, run))):.2f} deg",) * 2
    return TrimRow("rake board", f"{gable.name}, under {plane.name}", length, blank, *ends)


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

    Where a wing parts a side's eave, each piece of it has its own row.

    At a gable every course runs `rake_overhang_in` past the wall. `overhang_of` is the level
    overhang of a side of a pitch [inches].
    """
    return tuple(
        row
        for k in surface.eave_planes
        for part in shapely.get_parts(surface.areas[k])
        for row in _courses(surface, k, part, board, rake_overhang_in, overhang_of)
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
) -> list[CourseRow]:
    plane = surface.planes[k]
    assert plane.pitch is not None  # only a side with a pitch carries roof boards
    out = overhang_of(plane.pitch) * float(np.hypot(1.0, plane.slope))
    below = int((out + SAME_IN) // board.depth_in)
    strip = out - below * board.depth_in
    level = board.depth_in / float(np.hypot(1.0, plane.slope))
    runs = shapely.get_coordinates(part) @ plane.inward - plane.level_in
    turns = min(float(run) for run in runs if run > SAME_IN)
    rows = []
    for low, high in zip(*(_reaches(plane, part, turns * x) for x in (0.25, 0.5)), strict=True):
        left, right = (2 * at_low - at_high for at_low, at_high in zip(low, high, strict=True))
        corners = [_eave_corner(plane, part, at) for at in (left, right)]
        cuts = [_cut_at(surface, k, corner, board) for corner in corners]
        gables = sum(_at_gable(surface, k, corner) for corner in corners)
        wider = (high[1] - high[0]) - (right - left)
        rows.append(
            CourseRow(
                side=_side_name(surface, plane, (left + right) / 2),
                board_in=board.depth_in,
                eave_in=right - left + gables * rake_overhang_in,
                change_in=wider / (turns / 2) * level,
                courses=int((turns + SAME_IN) // level),
                overhang_courses=below,
                strip_in=strip if strip > SAME_IN else 0.0,
                left_cut=cuts[0][0],
                left_mark_deg=cuts[0][1],
                left_tilt_deg=cuts[0][2],
                right_cut=cuts[1][0],
                right_mark_deg=cuts[1][1],
                right_tilt_deg=cuts[1][2],
            )
        )
    return rows


def _along(plane: RoofPlane) -> Array:
    """Along a side's eave, to the right of someone who looks at it from outside (2,)."""
    return np.array([plane.inward[1], -plane.inward[0]])


def _reaches(plane: RoofPlane, part: BaseGeometry, run: float) -> list[tuple[float, float]]:
    """Each stretch of a piece of a side along its eave, a level run up from its wall."""
    along = _along(plane)
    middle = (plane.level_in + run) * plane.inward
    line = shapely.LineString([middle - FAR_IN * along, middle + FAR_IN * along])
    at = [shapely.get_coordinates(p) @ along for p in shapely.get_parts(part.intersection(line))]
    return sorted((float(each.min()), float(each.max())) for each in at if len(each) > 1)


def _side_name(surface: RoofLines, plane: RoofPlane, middle: float) -> str:
    """A side's name; where a wing parts its eave, that of the wall under this piece of it."""
    outline, along = surface.outline, _along(plane)
    for wall in plane.walls:
        ends = [float(outline.corners[c % len(outline.walls)] @ along) for c in (wall, wall + 1)]
        if min(ends) < middle < max(ends):
            return outline.walls[wall].name
    return plane.name


def _cut_at(surface: RoofLines, k: int, corner: Array, board: Stock) -> tuple[str, float, float]:
    """The first course's cut at a corner of its eave (2,): its name, face mark and tilt."""
    plane = surface.planes[k]
    for line in surface.lines:
        here = k in (line.left, line.right) and float(np.abs(line.foot - corner).max()) < SAME_IN
        if here and line.kind in ("hip", "valley"):
            other = surface.planes[line.right if line.left == k else line.left]
            asked = ask(
                "roof-board", pitch=plane.pitch, other_pitch=other.pitch,
                corner_deg=line.interior_deg, stock=board,
            )  # fmt: skip
            cut = asked.joint.cuts(board)[0]
            return line.kind, float(cut.face_mark_deg), float(cut.face_tilt_deg)
    return "square", 0.0, 0.0


def _eave_corner(plane: RoofPlane, part: BaseGeometry, at: float) -> Array:
    """The corner of the lower edge of a piece of a side nearest to a place along it (2,)."""
    points = shapely.get_coordinates(part)
    low = points[points @ plane.inward - plane.level_in < SAME_IN]
    corner: Array = min(low, key=lambda p: abs(float(p @ _along(plane)) - at))
    return corner


def _at_gable(surface: RoofLines, k: int, end: Array) -> bool:
    """Whether a rake over a gable rises from this end of a side's eave."""
    return any(
        line.kind == "rake"
        and k in (line.left, line.right)
        and "gable" in (surface.planes[line.left].kind, surface.planes[line.right].kind)
        and float(np.abs(line.foot - end).max()) < SAME_IN
        for line in surface.lines
    )
