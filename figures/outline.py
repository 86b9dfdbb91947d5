"""The bare board to practise on: face and edge unfolded on one paper, with no mark on them."""

from dataclasses import replace

import shapely

from figures.drawing import Drawing, Stroke
from figures.placing import Words
from figures.room import Picture, Room, in_room
from figures.stick import Stick, both_bounds, broken, stick
from figures.views import way_to_head
from layout.answer import Answer

LONG_IN = 4.0
"""Board added at both ends to what the marks take, so that its length tells no answer [in]."""


def bare_outline(answer: Answer, room: Room) -> Drawing:
    """Face and edge of the answer's board, named, with the head's side and nothing marked.

    From (0, 0) to the room's width and height [in on paper]. Gids: `face`, `edge`, `arris`.
    Raises SheetError for a room that is too small.
    """
    shown = stick(answer)
    middle = (shown.foot_in + shown.head_in) / 2
    half = (shown.head_in - shown.foot_in) / 2 + LONG_IN
    shown = replace(shown, foot_in=middle - half, head_in=middle + half)
    fold = "up" if shown.edge == "top" else "down"
    heading = (
        f"Mark here: {shown.face} face, and the {shown.edge} edge folded {fold} from their arris"
    )
    return in_room(heading, (), room, lambda factor: _bare(shown, factor))


def _bare(shown: Stick, factor: float) -> Picture:
    left, low, right, high = (side * factor for side in both_bounds(shown))
    arris = shown.arris_v_in * factor
    far = {v for v in (low, high, 0.0, shown.depth_in * factor) if abs(v - arris) > 1e-9}
    sides = [Stroke(((left, arris), (right, arris)), "fold", "arris")]
    for v in sorted(far):
        on_face = min(0.0, arris) <= v <= max(shown.depth_in * factor, arris)
        sides.append(Stroke(((left, v), (right, v)), "visible", "face" if on_face else "edge"))
    drawing = Drawing(tuple(sides))
    for u in (left, right):
        drawing += broken((u, low), (u, high))
    face = shapely.box(left, 0.0, right, shown.depth_in * factor)
    edge = shapely.box(left, low, right, high).difference(face)
    words = []
    for name, region in ((f"{shown.face} face", face), (f"{shown.edge} edge", edge)):
        # At the end, out of the way of the marks.
        beside = region.intersection(shapely.box(left, low, left + 1.1, high))
        spot = beside.centroid.coords[0]
        words.append(
            Words(name, (spot[0], spot[1]), 8.5, inside=beside, leader=False, gid="surface-name")
        )
    return Picture(drawing, tuple(words)) + way_to_head(shown, factor)
