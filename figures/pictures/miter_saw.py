"""The miter saw: its table turned, seen from above, and its blade tilted, seen from the front.

The board lies flat with a face up, or stands with an edge up, its far side against the fence.
The table turns about the point of the fence through which the blade runs; it is nobody's saw.
"""

from math import cos, radians, sin

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.pictures.captions import hand_note
from figures.pictures.saw_front import (
    BESIDE_IN,
    KERF_IN,
    board_section,
    saw_section,
    tilt_dimension,
)
from figures.pictures.views import arrow_below, surface_alone
from figures.place.dimension import angle_dimension
from figures.place.placing import Words, enlarged, from_labels, in_area, way_of
from figures.place.room import Picture, Room, in_room
from figures.wood.scene import points_of
from figures.wood.unfolded import Stick, Where, broken, is_notch, mark_ends, stick
from layout.answer.answer import Answer
from layout.errors import SheetError
from layout.quantity import write_degrees
from layout.tools.saw import reaches
from layout.vector import Array

TABLE_IN, ARM_IN, ARM_HALF_IN = 7.0, 2.6, 0.7
"""Radius of the table, length of its arm, half the arm's width [in]."""
FENCE_IN, FENCE_LONG_IN, FENCE_GAP_IN = 0.8, 9.0, 0.9
BLADE_IN = 4.0
"""How much of the blade is shown above the board [in]."""
BESIDE_PAPER_IN = 0.7
_SNAP = 1e-6


def miter_saw(answer: Answer, room: Room, where: Where = "face") -> Drawing:
    """The table turned to the mark and the blade tilted, the board with its face or edge up.

    From (0, 0) to the room's width and height [in on paper]. Gids: `face-mark` or `edge-mark`,
    `turn`, `saw-cut`, `tilt`. Raises SheetError for a bevel along the board or a notch, which
    are not cut on a miter saw, and for a room that is too small.
    """
    if answer.is_rip or is_notch(answer):
        what = "bevel along the board" if answer.is_rip else "notch"
        raise SheetError(f"a {what} is not cut on a miter saw: show a circular saw instead")
    shown = stick(answer, kept_in=8.0, waste_in=3.0)
    mark = answer.face if where == "face" else answer.edge
    cut = answer.cut
    tilt = float(cut.face_tilt_deg if where == "face" else cut.edge_tilt_deg)
    turn = mark.from_square_deg
    lies = "flat" if where == "face" else "on edge"
    notes = [
        f"Board {lies}, {shown.name(where)} up, against the fence."
        f" Table {write_degrees(turn)}, tilt {write_degrees(tilt)}, both from square."
    ]
    limits = answer.limits
    if not reaches(turn, limits.turn_deg):
        notes.append(f"More than the {write_degrees(limits.turn_deg)} this table turns.")
    if not reaches(tilt, limits.tilt_deg):
        notes.append(f"More than the {write_degrees(limits.tilt_deg)} this blade tilts.")
    return in_room(
        f"Miter saw, board {lies}: table and tilt",
        [*notes, hand_note(answer)],
        room,
        lambda factor: _both(shown, where, turn, factor),
    )


def _both(shown: Stick, where: Where, turn_deg: float, factor: float) -> Picture:
    above = _above(shown, where, turn_deg, factor)
    front = _front(shown, where, factor)
    _, low, right, high = above.drawing.bounds(words=False)
    left, bottom, _, top = front.drawing.bounds(words=False)
    return above + front.moved(right + BESIDE_PAPER_IN - left, (low + high - bottom - top) / 2)


def _above(shown: Stick, where: Where, turn_deg: float, factor: float) -> Picture:
    """The board on the table from above, the fence at the top of the paper."""
    flat = shown.flat(where)
    whole = shown.solid.whole(flat)
    left, low, right, high = whole.bounds
    ends = mark_ends(shown, flat, shown.which)
    assert ends is not None
    near, far = sorted((np.array(end) for end in ends), key=lambda end: -float(end[1]))
    way = (far - near) / np.hypot(*(far - near))
    pivot = near + way * (high - near[1]) / way[1]
    table_in = max(TABLE_IN, high - low + 1.5)
    tip = pivot + (table_in + ARM_IN) * way
    table = shapely.Point(*pivot).buffer(table_in, 48)
    arm = shapely.LineString([pivot, tip]).buffer(ARM_HALF_IN, cap_style="flat")
    below = shapely.box(pivot[0] - 50, high - 50, pivot[0] + 50, high)
    base = shapely.difference(shapely.union(table, arm).intersection(below), whole)
    fences = [shapely.box(*sorted_sides(pivot[0], side, high)) for side in (-1.0, 1.0)]
    drawing = surface_alone(shown, where)
    for shape, gid in ((base, "table"), *((fence, "fence") for fence in fences)):
        for piece in shapely.get_parts(shape):
            drawing += Drawing(
                (Stroke(points_of(piece.exterior), "guide", gid),), (Area(piece, "steel"),)
            )
    run = Drawing(
        tuple(
            Stroke(((float(p[0]), float(p[1])), (float(q[0]), float(q[1]))), "centre", "blade-run")
            for p, q in ((pivot, pivot - 1.2 * way), (pivot + way * (high - low) / -way[1], tip))
        )
    )
    paper = (drawing + run).scaled(factor)
    for u, kept in zip((left, right), shown.ends_kept, strict=True):
        if kept:
            paper += broken((u * factor, low * factor), (u * factor, high * factor))
    picture = Picture(paper) + _turn(pivot * factor, way, turn_deg, table_in * factor)
    words: list[Words] = []
    kept_area, waste = shown.solid.slice(flat), shapely.difference(whole, shown.solid.slice(flat))
    words += in_area("WASTE", enlarged(waste, factor), bold=True)
    words += in_area(shown.name(where), enlarged(kept_area, factor))
    words += in_area("fence", enlarged(fences[0], factor), 8.5)
    return arrow_below(picture + Picture(Drawing(), tuple(words)), shown, factor)


def sorted_sides(
    pivot_in: float, side: float, fence_in: float
) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the fence on one side of the pivot [in]."""
    ends = sorted((pivot_in + side * FENCE_GAP_IN, pivot_in + side * FENCE_LONG_IN))
    return ends[0], fence_in, ends[1], fence_in + FENCE_IN


def _turn(pivot: Array, way: Array, turn_deg: float, rim: float) -> Picture:
    """The table's turn, between square to the fence and the blade, beyond the table's rim."""
    centre = (float(pivot[0]), float(pivot[1]))
    radius = rim + 0.15
    said = f"table {write_degrees(turn_deg)}"
    down = Stroke((centre, (centre[0], centre[1] - radius - 0.12)), "centre", "square-to-fence")
    if turn_deg < _SNAP:
        spot = (centre[0], centre[1] - radius)
        return Picture(Drawing((down,)), (Words(said, spot, 10, bold=True, gid="turn"),))
    sweep = (way_of((0.0, 0.0), (float(way[0]), float(way[1]))) + 90.0 + 180.0) % 360.0 - 180.0
    arc = angle_dimension(centre, radius, -90.0, -90.0 + sweep, said, 10.0, "turn")
    middle = radians(-90.0 + sweep / 2)
    spot = (centre[0] + radius * cos(middle), centre[1] + radius * sin(middle))
    lines, words = from_labels(arc, spot, ways=(-90.0 + sweep / 2,))
    return Picture(lines + Drawing((down,)), words)


def _front(shown: Stick, where: Where, factor: float) -> Picture:
    """The blade at its tilt in a section square to the mark, the table under the board."""
    section = saw_section(shown, where)
    board = board_section(shown, section, where).scaled(factor)
    left, bottom, right, _ = (side * factor for side in section.whole.bounds)
    for u, edge in ((left, -BESIDE_IN), (right, BESIDE_IN)):
        if abs(u - edge * factor) < _SNAP:
            board += broken((u, bottom), (u, 0.0))
    deep = section.reach_in / cos(radians(section.tilt_deg))
    kerf = max(KERF_IN, 0.035 / factor) * np.array([-section.way[1], section.way[0]])
    tip, top = (deep + 0.15) * section.way, -BLADE_IN * section.way
    blade = shapely.MultiPoint([tip, top, top + kerf, tip + kerf]).convex_hull
    table = shapely.box(left / factor, bottom / factor - 0.35, right / factor, bottom / factor)
    tools = Drawing()
    for shape, gid, fill in ((table, "table", "steel"), (blade, "blade", "wood")):
        tools += Drawing((Stroke(points_of(shape.exterior), "guide", gid),), (Area(shape, fill),))
    picture = Picture(board + tools.scaled(factor))
    picture += tilt_dimension(section, deep, bottom - 0.35 * factor, factor)
    waste = shapely.difference(section.whole, section.kept)
    clear = shapely.LineString([(0.0, 0.0), tuple(deep * section.way)]).buffer(2 * KERF_IN)
    whole = enlarged(section.whole, factor)
    words = (
        *in_area("WASTE", enlarged(waste.difference(clear), factor), bold=True, off=whole),
        *in_area("KEPT", enlarged(section.kept.difference(clear), factor), off=whole),
    )
    return picture + Picture(Drawing(), words)
