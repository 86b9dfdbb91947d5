"""The miter saw: its table turned, seen from above, and its blade tilted, seen from the front.

The board lies as the answer says, flat or on edge, its far side against the fence, seen by who
stands before the saw: the fence is at the top of the paper and the waste at the right. The table
turns about the point of the fence through which the blade runs; it is nobody's saw.
"""

from dataclasses import replace
from math import cos, radians, sin

import numpy as np
import shapely
import shapely.affinity

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.pictures.captions import hand_note
from figures.pictures.saw_front import (
    BESIDE_IN,
    KERF_IN,
    board_section,
    saw_section,
    tilt_dimension,
)
from figures.pictures.shoe import on_surface
from figures.pictures.views import arrow_below, surface_alone
from figures.place.dimension import angle_dimension
from figures.place.placing import Words, enlarged, from_labels, in_area, way_of
from figures.place.room import Picture, Room, in_room
from figures.wood.scene import points_of
from figures.wood.unfolded import UnfoldedStick, Where, broken, mark_ends, stick
from layout.answer.answer import Answer
from layout.answer.sense_words import MITER_GLOSS, SURFACE, miter_beyond, miter_words
from layout.answer.senses import miter
from layout.answer.wording import sentence
from layout.errors import SheetError
from layout.quantity import write_degrees
from layout.tools.miter import MiterSetting
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
    `turn`, `saw-cut`, `tilt`. Raises SheetError for a bevel along the board, a notch and a
    hollow end, which are not cut on a miter saw, and for a room that is too small.
    """
    settings = miter(answer)
    if settings is None:
        what = "bevel along the board" if answer.is_rip else "notch or hollow end"
        raise SheetError(f"a {what} is not cut on a miter saw: show a circular saw instead")
    laid = settings[0 if where == "face" else 1]
    plain = stick(answer, kept_in=8.0, waste_in=3.0)
    # On the table the whole plane is cut through, the joint's other one after it.
    shown, _ = on_surface(
        replace(plain, cuts=(plain.cut,), plane_index=0, removals=((0,),)), laid.up
    )
    said = "; ".join(miter_words(answer, laid))
    notes = [f"{sentence(said)} Table and tilt from square.", *MITER_GLOSS[-2:]]
    beyond = miter_beyond(answer, laid)
    if beyond:
        notes.append(sentence(beyond))
    lies = "flat" if where == "face" else "on edge"
    return in_room(
        f"Miter saw, board {lies}: table and tilt",
        [*notes, hand_note(answer)],
        room,
        lambda factor: _both(shown, where, laid, factor),
    )


def _both(shown: UnfoldedStick, where: Where, laid: MiterSetting, factor: float) -> Picture:
    above = _above(shown, where, laid, factor)
    front = _front(shown, where, factor)
    _, low, right, high = above.drawing.bounds(words=False)
    left, bottom, _, top = front.drawing.bounds(words=False)
    return above + front.moved(right + BESIDE_PAPER_IN - left, (low + high - bottom - top) / 2)


def _turned(shown: UnfoldedStick, laid: MiterSetting) -> bool:
    """Whether the board lies the other way about than its surface is shown elsewhere."""
    return (laid.head == "right") != (shown.to_head > 0)


def _above(shown: UnfoldedStick, where: Where, laid: MiterSetting, factor: float) -> Picture:
    """The board on the table from above, the fence at the top of the paper."""
    flat = shown.flat(where)
    turn = 180.0 if _turned(shown, laid) else 0.0

    def about(region: Polygon) -> Polygon:
        return shapely.affinity.rotate(region, turn, origin=(0, 0))

    whole, kept_area = about(shown.solid.whole(flat)), about(shown.solid.slice(flat))
    left, low, right, high = whole.bounds
    ends = mark_ends(shown, flat, shown.plane_index)
    assert ends is not None
    ways = [np.array(end) * (-1.0 if turn else 1.0) for end in ends]
    near, far = sorted(ways, key=lambda end: -float(end[1]))
    way = (far - near) / np.hypot(*(far - near))
    pivot = near + way * (high - near[1]) / way[1]
    table_in = max(TABLE_IN, high - low + 1.5)
    tip = pivot + (table_in + ARM_IN) * way
    table = shapely.Point(*pivot).buffer(table_in, 48)
    arm = shapely.LineString([pivot, tip]).buffer(ARM_HALF_IN, cap_style="flat")
    below = shapely.box(pivot[0] - 50, high - 50, pivot[0] + 50, high)
    base = shapely.difference(shapely.union(table, arm).intersection(below), whole)
    fences = [shapely.box(*sorted_sides(pivot[0], side, high)) for side in (-1.0, 1.0)]
    drawing = surface_alone(shown, where).turned(turn)
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
    ends_kept = shown.ends_kept[::-1] if turn else shown.ends_kept
    for u, kept in zip((left, right), ends_kept, strict=True):
        if kept:
            paper += broken((u * factor, low * factor), (u * factor, high * factor))
    turn_deg = laid.table_deg
    picture = Picture(paper) + _turn(pivot * factor, way, turn_deg, table_in * factor)
    words = (
        *in_area("WASTE", enlarged(whole.difference(kept_area), factor), bold=True),
        *in_area(f"{SURFACE[laid.up]} up", enlarged(kept_area, factor)),
        *in_area("fence", enlarged(fences[0], factor), 8.5),
        *in_area(SURFACE[laid.fence], enlarged(fences[1], factor), 8.0),
    )
    # The arrow runs as the board lies.
    lying = replace(shown, face="right" if laid.head == "right" else "left")
    return arrow_below(picture + Picture(Drawing(), words), lying, factor)


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


def _front(shown: UnfoldedStick, where: Where, factor: float) -> Picture:
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
    for shape, gid, fill in ((table, "table-front", "steel"), (blade, "blade", "wood")):
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
