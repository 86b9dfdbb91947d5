"""Marks laid out through the middle of the thickness: where a length is measured, and the cut.

A length runs to the middle of a board's edge. The first mark on the face is squared across to
the middle line; through that point runs the edge mark, and from where it leaves the edge the
face is marked again. Only that last mark is cut, and the waste lies beyond it.
"""

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.ink.pens import Point
from figures.pictures.captions import hand_note
from figures.pictures.framing_square import DOT_IN
from figures.pictures.views import face_and_edge_views, surface_words, way_to_head
from figures.place.placing import Words
from figures.place.room import Picture, Room, in_room, third_angle
from figures.wood.unfolded import UnfoldedStick, mark_ends, stick, unfolded
from layout.answer.answer import Answer
from layout.vector import Array, vector

_SLIGHT = 1e-9


def marks_through_middle(answer: Answer, room: Room) -> Drawing:
    """Face and edge with the first mark, the point on the middle line, and the marks to cut.

    From (0, 0) to the room's width and height [in on paper]. Gids: `face-mark` and `edge-mark`
    are cut; `first-mark`, `square-across` and `middle-line` are not; `point` is the dot in the
    middle of the edge. A cut without a cheek has nothing to shift: its plain views are drawn.
    Raises SheetError for a room that is too small.
    """
    if answer.is_rip or abs(float(answer.cut.normal[1])) < _SLIGHT:
        return face_and_edge_views(answer, room)
    shown = stick(answer)
    notes = [
        f"The shortened mark on the {shown.face} face is squared across the {shown.edge} edge to"
        " the middle line. Through that point runs the edge mark.",
        f"The heavy mark on the {shown.face} face starts where the edge mark reaches it: cut there."
        " The shortened mark is not cut.",
        hand_note(answer),
    ]
    return in_room(
        "Through the middle of the edge: shortened mark, point, cut",
        notes,
        room,
        lambda factor: _picture(answer, shown, factor),
        symbol=third_angle(),
    )


def _picture(answer: Answer, shown: UnfoldedStick, factor: float) -> Picture:
    picture = Picture(unfolded(shown, factor)) + surface_words(shown, factor)
    cut, half = answer.cut, shown.thickness_in / 2
    x = float(cut.x_at(half, shown.edge_z_in))
    flat = shown.edge_flat
    point, arris = (
        _pair(flat.seen(vector(x, y, shown.edge_z_in)) * factor) for y in (half, shown.face_y_in)
    )
    left, _, right, _ = (side * factor for side in shown.solid.whole(flat).bounds)
    middle = Stroke(((left, point[1]), (right, point[1])), "centre", "middle-line")
    across = Stroke((arris, point), "guide", "square-across")
    first = _first_mark(shown, arris, factor)
    dot = Area(shapely.Point(*point).buffer(DOT_IN), "ink", "point")
    picture += Picture(Drawing((middle, across, first), (dot,)))
    end = first.points[-1]
    spot = (arris[0] + 0.7 * (end[0] - arris[0]), arris[1] + 0.7 * (end[1] - arris[1]))
    ends = mark_ends(shown, shown.face_flat, shown.plane_index)
    near_end, far_end = (left, right) if shown.to_kept < 0 else (right, left)
    kept = near_end + 0.08 * (far_end - near_end)
    up = (90.0 if shown.edge == "top" else -90.0) + (30.0 if shown.to_kept < 0 else -30.0)
    words = [
        Words("point", point, 9, bold=True, always=True, gid="point-word"),
        Words("shortened mark", spot, 8.5, always=True, gid="first-word"),
        # From the kept end, away from all marks: among them its arrow would look like one more.
        Words("middle line", (kept, point[1]), 8.5, always=True, ways=(up,)),
    ]
    if ends is not None:
        near, far = (np.array(each) * factor for each in ends)
        place = _pair(near + 0.45 * (far - near))
        words.insert(1, Words("cut here", place, 9, bold=True, always=True, gid="cut-word"))
    return picture + Picture(Drawing(), tuple(words)) + way_to_head(shown, factor)


def _first_mark(shown: UnfoldedStick, arris: Point, factor: float) -> Stroke:
    """A line on the face, parallel to the cut's mark, from the arris as far as the face goes."""
    lean = shown.to_head * float(shown.cut.top_lean)
    across = (0.0 if shown.edge == "top" else shown.depth_in) - shown.edge_z_in
    end = (arris[0] + lean * across * factor, arris[1] + across * factor)
    return Stroke((arris, end), "guide", "first-mark")


def _pair(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
