"""Face view and edge view of the stick before it is cut: both marks, as they are laid out.

The edge is folded out from the arris it shares with the face, so that the line runs round it as
it does on the board. A bevel along the board is shown from its end too.
"""

from dataclasses import replace
from math import cos, radians, sin

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.ink.lettering import text_size
from figures.ink.pens import Point
from figures.pictures.captions import hand_note, mark_note, rip_note
from figures.place.dimension import angle_dimension, dimension
from figures.place.placing import Words, enlarged, from_labels, in_area, way_of
from figures.place.room import Picture, Room, in_room, third_angle
from figures.wood.drawn_solid import DrawnFlat
from figures.wood.unfolded import (
    EdgeName,
    FaceName,
    UnfoldedStick,
    Where,
    both_bounds,
    mark_ends,
    stick,
    surface,
    unfolded,
    waste_areas,
)
from layout.answer.answer import Answer
from layout.answer.senses import is_notch
from layout.answer.wording import size_words
from layout.errors import SheetError
from layout.quantity import write_degrees
from layout.tools.setting import RipByHand
from layout.vector import Y, Z

ARC_IN = 0.8
"""Radius of an angle's arc, where the mark is long enough [in on paper]."""
END_VIEW_IN = 1.2
"""White between a board and its end view [in on paper]."""


def face_and_edge_views(answer: Answer, room: Room) -> Drawing:
    """The face and the edge folded out from it, both marks heavy and dimensioned, waste hatched.

    From (0, 0) to the room's width and height [in on paper]. Gids: `face-mark` and `edge-mark`,
    with `-2` for the joint's other plane, and `end-mark` on a bevel's end view. Raises
    SheetError for a room that is too small.
    """
    return _face_and_edge(answer, stick(answer), room)


def far_face_and_edge_views(answer: Answer, room: Room) -> Drawing:
    """The face and the edge on the far side, where a saw comes out; gids as for the near ones.

    Raises SheetError for a cut that leaves no mark on all four sides, and for a room that is too
    small.
    """
    near = stick(answer)
    if answer.is_rip or is_notch(answer) or len(answer.cuts) > 1:
        raise SheetError("only one plane right through a board comes out on its far side")
    face: FaceName = "left" if near.face == "right" else "right"
    edge: EdgeName = "bottom" if near.edge == "top" else "top"
    return _face_and_edge(answer, replace(near, face=face, edge=edge), room)


def _face_and_edge(answer: Answer, shown: UnfoldedStick, room: Room) -> Drawing:
    notes = [hand_note(answer)]
    if answer.is_rip:
        notes.append(rip_note(answer))
    else:
        notes += [mark_note(answer.face, "Face"), mark_note(answer.edge, "Edge")]
    fold = "up" if shown.edge == "top" else "down"
    heading = (
        f"{shown.face.capitalize()} face, and the {shown.edge} edge folded {fold} from their arris"
    )
    return in_room(
        heading, notes, room, lambda factor: _views(answer, shown, factor), symbol=third_angle()
    )


def _views(answer: Answer, shown: UnfoldedStick, factor: float) -> Picture:
    picture = Picture(unfolded(shown, factor))
    picture += surface_words(shown, factor)
    picture += way_to_head(shown, factor)
    if answer.is_rip:
        return picture + _end_view(answer, shown, factor)
    face = angle_from_square(
        shown, shown.face_flat, factor, answer.face.from_square_deg, -shown.out, "face-angle"
    )
    edge = angle_from_square(
        shown, shown.edge_flat, factor, answer.edge.from_square_deg, shown.out, "edge-angle"
    )
    return picture + face + edge


def surface_words(shown: UnfoldedStick, factor: float) -> Picture:
    """WASTE on the face, or on the edge where only that has some, and the names of both."""
    face, edge = shown.face_flat, shown.edge_flat
    solid = shown.solid
    face_kept, edge_kept = solid.slice(face), solid.slice(edge)
    waste = shapely.difference(solid.whole(face), face_kept)
    if waste.area < 1e-6:
        waste = shapely.difference(solid.whole(edge), edge_kept)
    if edge_kept.area < 1e-6:
        edge_kept = solid.whole(edge)
    words = (
        *in_area("WASTE", enlarged(waste, factor), 9.5, bold=True, gid="waste-word"),
        *in_area(f"{shown.face} face", enlarged(face_kept, factor), gid="face-name"),
        *in_area(f"{shown.edge} edge", enlarged(edge_kept, factor), gid="edge-name"),
    )
    return Picture(Drawing(), words)


def way_to_head(shown: UnfoldedStick, factor: float) -> Picture:
    """An arrow to the head beside the face, on the side away from the edge."""
    left, low, right, high = both_bounds(shown)
    v = (low * factor - 0.25) if shown.edge == "top" else (high * factor + 0.25)
    # Never so short that the arrow is its head alone and both words stand at one end of the board.
    long = min(1.1, max(0.5, 0.35 * (right - left) * factor))
    if shown.to_kept > 0:
        middle = right * factor - long / 2 - 0.5
    elif shown.to_kept < 0:
        middle = left * factor + long / 2 + 0.5
    else:
        middle = (left + right) * factor / 2
    return arrow_to_head((middle, v), long, shown.to_head)


def arrow_to_head(middle: Point, long_in: float, way: float) -> Picture:
    """An arrow from the word foot to the word HEAD: `way` +1 to the right, -1 to the left [in]."""
    across, v = middle
    tip, tail = across + way * long_in / 2, across - way * long_in / 2
    neck = tip - way * 0.16
    arrow = shapely.Polygon(
        [
            (tail, v - 0.012),
            (neck, v - 0.012),
            (neck, v - 0.055),
            (tip, v),
            (neck, v + 0.055),
            (neck, v + 0.012),
            (tail, v + 0.012),
        ]
    )
    ahead, behind = (0.0, 180.0) if way > 0 else (180.0, 0.0)
    words = (
        Words("HEAD", (tip, v), 8.5, bold=True, ways=(ahead,), leader=False, gid="head-word"),
        Words("foot", (tail, v), 8.5, ways=(behind,), leader=False, gid="foot-word"),
    )
    return Picture(Drawing(areas=(Area(arrow, "ink", "to-head"),)), words)


def arrow_below(picture: Picture, shown: UnfoldedStick, factor: float) -> Picture:
    """The picture with an arrow to the head below all that is drawn."""
    arrow = way_to_head(shown, factor)
    bottom = picture.drawing.bounds()[1]
    # Its words come first: they name nothing else and must stand at its ends.
    return arrow.moved(0.0, bottom - 0.2 - arrow.drawing.bounds()[3]) + picture


def surface_alone(shown: UnfoldedStick, where: Where) -> Drawing:
    """The face or the edge by itself, its arris an edge like any other [in of wood]."""
    drawing = surface(shown, where)
    strokes = tuple(
        replace(stroke, pen="visible") if stroke.pen == "fold" else stroke
        for stroke in drawing.strokes
    )
    return replace(drawing, strokes=strokes)


def angle_from_square(
    shown: UnfoldedStick, flat: DrawnFlat, factor: float, angle_deg: float, away: float, gid: str
) -> Picture:
    """The angle between the mark on a surface and a line square across it, at the shared arris.

    `away` is +1 where the surface lies above that arris on the paper, -1 below.
    """
    ends = mark_ends(shown, flat, shown.plane_index)
    if ends is None:
        return Picture(Drawing())
    start, end = ((u * factor, v * factor) for u, v in ends)
    length = float(np.hypot(end[0] - start[0], end[1] - start[1]))
    across = 90.0 * away
    mark = way_of(start, end)
    if angle_deg < 1e-6:
        return _square_corner(start, end, shown, gid)
    # Where the surface is narrow the arc stands beyond it, on white paper.
    beyond = abs(end[1] - start[1]) + 0.2
    radius = beyond if beyond < ARC_IN else min(ARC_IN, max(0.5, 0.6 * length))
    sweep = (mark - across + 180.0) % 360.0 - 180.0
    arc = angle_dimension(
        start, radius, across, across + sweep, write_degrees(angle_deg), 10.0, gid
    )
    middle = radians(across + sweep / 2)
    spot = (start[0] + radius * cos(middle), start[1] + radius * sin(middle))
    lines, words = from_labels(arc, ways=(across + sweep / 2,), spot=spot)
    reach = radius + 0.1
    lines += _ray(start, across, 0.05, reach)
    if length < reach:
        lines += _ray(start, mark, length + 0.03, reach)
    return Picture(lines, words)


def _square_corner(start: Point, end: Point, shown: UnfoldedStick, gid: str) -> Picture:
    """The sign of a right angle where a mark runs square across from an arris."""
    kept = shown.to_kept or 1.0
    size = 0.12
    up = 1.0 if end[1] > start[1] else -1.0
    corner = (
        (start[0] + kept * size, start[1]),
        (start[0] + kept * size, start[1] + up * size),
        (start[0], start[1] + up * size),
    )
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    words = Words("square across", middle, 9.0, gid=gid, ways=(0.0, 180.0))
    return Picture(Drawing((Stroke(corner, "dimension", f"{gid}-corner"),)), (words,))


def _ray(start: Point, way_deg: float, begin: float, end: float) -> Drawing:
    c, s = cos(radians(way_deg)), sin(radians(way_deg))
    points = tuple((start[0] + r * c, start[1] + r * s) for r in (begin, end))
    return Drawing((Stroke(points, "dimension"),))


def _end_view(answer: Answer, shown: UnfoldedStick, factor: float) -> Picture:
    """The section of a bevelled board, seen from the end at the right, with both gauges."""
    flat = DrawnFlat(np.array([0.0, shown.face_y_in, 0.0]), shown.to_head * Y, Z)
    whole, kept = shown.solid.whole(flat), shown.solid.slice(flat)
    outline = Stroke(tuple(whole.exterior.coords), "visible", "end")
    marks = tuple(
        Stroke(tuple(line.coords), "cut", "end-mark" if i == shown.plane_index else "end-mark-2")
        for i in range(len(shown.cuts))
        for line in [shown.solid.mark(i, flat)]
        if line is not None
    )
    paper = Drawing((outline, *marks), waste_areas(whole, kept, "end-waste")).scaled(factor)
    _, _, right, _ = both_bounds(shown)
    dx = right * factor + END_VIEW_IN
    gauges = answer.hand_setting(as_read=False)
    assert isinstance(gauges, RipByHand)
    mark = next(stroke for stroke in marks if stroke.gid == "end-mark")
    (u0, v0), (u1, v1) = ((u * factor, v * factor) for u, v in mark.points)
    left, bottom, far, top = (side * factor for side in whole.bounds)
    picture = Picture(paper)
    past = top if gauges.top > 0 else bottom
    way = 1.0 if gauges.top > 0 else -1.0
    near, beyond = sorted((u0, u1))
    across = dimension(
        (near, past),
        (beyond, past),
        size_words(gauges.across_in, metric=answer.metric),
        way * 0.3,
        8.5,
        "across",
    )
    low, high = sorted((v0, v1))
    outer = far if abs((u0 if abs(v0 - past) > abs(v1 - past) else u1) - far) < 1e-6 else left
    side = -1.0 if outer == far else 1.0
    begin, end = (high, low) if gauges.top > 0 else (low, high)
    offset = side * way * -0.3
    fall = dimension(
        (outer, begin),
        (outer, end),
        size_words(gauges.drop_in, metric=answer.metric),
        offset,
        8.5,
        "drop",
    )
    for each in (across, fall):
        lines, words = from_labels(each)
        picture += Picture(lines, words)
    name = "head" if shown.to_head > 0 else "foot"
    words_high = text_size("x", 8.5)[1]
    spot = ((left + far) / 2, (bottom if gauges.top > 0 else top) - way * words_high)
    picture += Picture(
        Drawing(), (Words(f"seen from the {name}", spot, 8.5, ways=(-90.0 * way,), leader=False),)
    )
    return picture.moved(dx, 0.0)
