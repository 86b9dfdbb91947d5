"""Boards that follow the framing: fascias, rake boards, and the roof boards of every side.

A fascia's outside runs level along its eave, `overhang` outside the wall; it ends where its
outside meets the next wall's: the corner of both walls moved out by their overhangs. A rake
board runs up the gable from the outside of the fascia to the peak: (run + overhang) / cos slope.
A roof board runs level across its side from line to line; its cuts to hip, valley and rake are
the catalogue's, and each course is longer or shorter than the one below by the same amount.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from layout.answer.question import ask
from layout.framing.roof import TrainingRoof
from layout.framing.roof_lines import RoofLine, RoofLines, RoofPlane
from layout.stock import Stock
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
    turns. The cuts are named from the left, seen from outside, with the face mark from square
    across and the tilt of the saw [degrees]: mitered over a hip or valley, square at a rake.
    """

    side: str
    board_in: float
    eave_in: float
    change_in: float
    courses: int
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
    """How far outside a wall its fascia's outside runs [inches]; 0 at a gable or high wall."""
    pitch = roof.surface.outline.walls[wall].pitch
    return 0.0 if pitch is None else roof.plan.overhang_of(pitch)


def _outer_corner(roof: TrainingRoof, corner: int) -> Array:
    """Where the outsides over the two walls at a corner meet (2,): n.p = c - overhang for both."""
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
    surface = roof.surface
    plane, plumb = line.left, line.right
    at_left = surface.planes[plane].kind == "eave"
    if not at_left:
        plane, plumb = plumb, plane
    pitch = surface.planes[plane].pitch
    assert pitch is not None
    run = line.run_in + roof.plan.overhang_of(pitch)
    ends = (f"plumb {pitch.slope_deg:.2f} deg",) * 2
    return TrimRow(
        "rake board", f"{surface.planes[plumb].name}, under {surface.planes[plane].name}",
        run / float(np.cos(np.radians(pitch.slope_deg))), *ends,
    )  # fmt: skip


def course_rows(surface: RoofLines, board: Stock) -> tuple[CourseRow, ...]:
    """The roof boards of every side, of this stock: its depth lies up the slope."""
    return tuple(
        _courses(surface, k, part, board)
        for k in surface.eave_planes
        for part in shapely.get_parts(surface.areas[k])
    )


def _courses(surface: RoofLines, k: int, part: BaseGeometry, board: Stock) -> CourseRow:
    plane = surface.planes[k]
    level = board.depth_in / float(np.hypot(1.0, plane.slope))
    runs = shapely.get_coordinates(part) @ plane.inward - plane.level_in
    turns = min(float(run) for run in runs if run > SAME_IN)
    first, second = (_width_at(plane, part, run) for run in (0.0, turns / 2))
    ends = [_cut_at(surface, k, part, side, board) for side in (-1, 1)]
    return CourseRow(
        side=plane.name,
        board_in=board.depth_in,
        eave_in=first,
        change_in=(second - first) / (turns / 2) * level,
        courses=int((turns + SAME_IN) // level),
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
    along = np.array([plane.inward[1], -plane.inward[0]])
    points = shapely.get_coordinates(part)
    low = points[points @ plane.inward - plane.level_in < SAME_IN]
    end = max(low, key=lambda p: side * float(p @ along))
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
