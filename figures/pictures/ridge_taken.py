"""What the ridge takes off a common rafter: from its center back to its side, level and along.

The joint seen level, the rafter's figured plumb line on the center of the ridge, the cut at its
side. Between the two lines half the ridge lies level; along the sloping edge it is more.
"""

from math import cos, radians, tan

import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.ink.pens import Point
from figures.place.dimension import dimension
from figures.place.placing import Words, from_labels
from figures.place.room import Picture, Room, in_room
from figures.wood.unfolded import broken
from layout.answer.answer import Answer
from layout.answer.wording import size_words
from layout.errors import SheetError

BODY_IN = 3.0
"""How much of the rafter is shown along the level [in of wood]."""
PAST_IN = 1.2
"""How far the ridge reaches over and under the rafter [in of wood]."""


def ridge_taken_off(answer: Answer, room: Room) -> Drawing:
    """The rafter's head at the ridge, from (0, 0) to the room's width and height [in on paper].

    The head lies at the right, the ridge is as thick as the rafter. Gids: `center`, `cut-line`,
    `level-value` and `along-value` on the dimensions. Raises SheetError for a cut that has a
    cheek, and for a room that is too small.
    """
    if answer.question.entry.name != "common-ridge":
        raise SheetError("what a ridge takes off square across is drawn for a common rafter")
    half = answer.question.stock.thickness_in / 2
    slope = answer.stick_slope_deg
    level, along = (
        size_words(each, 16, metric=answer.metric) for each in (half, half / cos(radians(slope)))
    )
    notes = [
        "The figured length ends on the center of the ridge, the wood at its side.",
        f"Measured level that is {level}, along the edge {along}.",
    ]
    depth = answer.question.stock.depth_in
    return in_room(
        "What the ridge takes off",
        notes,
        room,
        lambda factor: _picture(slope, depth, half, (level, along), factor),
    )


def _picture(
    slope_deg: float, depth: float, half: float, said: tuple[str, str], factor: float
) -> Picture:
    # The top edge meets the center of the ridge at the origin; the head lies to the right.
    fall, plumb = tan(radians(slope_deg)), depth / cos(radians(slope_deg))

    def top(x: float) -> Point:
        return x * factor, x * fall * factor

    def low(x: float) -> Point:
        return x * factor, (x * fall - plumb) * factor

    side, back = -half, -half - BODY_IN
    ridge = shapely.box(
        -half * factor,
        low(side)[1] - PAST_IN * factor,
        half * factor,
        PAST_IN * factor,
    )
    drawing = Drawing(
        (
            Stroke((top(back), top(side)), "visible", "top-edge"),
            Stroke((low(back), low(side)), "visible", "bottom-edge"),
            Stroke((top(side), low(side)), "cut", "cut-line"),
            Stroke((top(side), top(0.0)), "phantom", "figured"),
            Stroke((low(side), low(0.0)), "phantom", "figured"),
            Stroke(tuple(ridge.exterior.coords), "visible", "ridge"),
            Stroke(
                ((0.0, ridge.bounds[1] - 0.1), (0.0, ridge.bounds[3] + 0.42)), "centre", "center"
            ),
        ),
        (Area(ridge, "section", "ridge-section"),),
    )
    drawing += broken(top(back), low(back))
    picture = Picture(drawing)
    over = ridge.bounds[3]
    lines, words = from_labels(
        dimension((0.0, over), (side * factor, over), said[0], -0.3, 9.0, "level-value"),
        ways=(180.0, 120.0),
    )
    picture += Picture(lines, words)
    lines, words = from_labels(
        dimension(top(0.0), top(side), said[1], -0.3, 9.0, "along-value"), ways=(180.0,)
    )
    picture += Picture(lines, words)
    middle = back / 2, back / 2 * fall - plumb / 2
    names = (
        Words("this rafter", (middle[0] * factor, middle[1] * factor), 8.5, bold=True),
        Words("ridge", (half * factor, low(0.0)[1] / 2), 9.0, bold=True, ways=(0.0,), always=True),
        Words(
            "center of the ridge", (0.0, ridge.bounds[1] - 0.05), 8.5, always=True, ways=(-45.0,)
        ),
        Words(
            "cut here",
            (side * factor, low(side)[1] * 0.6),
            8.5,
            bold=True,
            always=True,
            ways=(200.0,),
        ),
    )
    return picture + Picture(Drawing(), names)
