"""The three right triangles that find the tilt of a board that leans, drawn one after another.

The first has a long side of 12 and the plan angle: the leg beside that angle is A. The second has
A for its long side and the roof's slope: one of its legs is B, beside the slope for a board whose
faces stand square to the roof, across from it for one whose faces lie in the slope. The third has
a long side of 12 and the leg B: across from B lies the tilt.
"""

from math import asin, cos, degrees, hypot, radians, sin

from figures.ink.drawing import Drawing, Stroke
from figures.ink.pens import Point
from figures.place.dimension import angle_dimension
from figures.place.placing import Words, from_labels
from figures.place.room import STUDY_SCALES, Picture, Room, in_room
from layout.answer.answer import Answer
from layout.answer.wording import number_words
from layout.errors import SheetError
from layout.length.run_length import UNIT_RUN_IN
from layout.quantity import write_degrees

APART_IN = 0.65
RIGHT_IN = 0.1
"""Side of the little square in a right angle [in on paper]."""
SAME_DEG = 1e-6
MOST = 1 / 6
"""Larger they would leave their words no room."""


def three_triangles(answer: Answer, room: Room) -> Drawing:
    """The triangles side by side, from (0, 0) to the room's width and height [in on paper].

    Gids: `first-`, `second-` and `third-` before `long`, `beside` and `across`. Raises SheetError
    for a cut whose tilt they do not find, and for a room that is too small.
    """
    plan, slope, across = _angles(answer)
    tilt = float(answer.cut.face_tilt_deg)
    leg_a = UNIT_RUN_IN * cos(radians(plan))
    twelve = number_words(UNIT_RUN_IN, metric=answer.metric)
    notes = [
        "A of the first is the long side of the second, and B of the second a leg of the third."
        f" The tilt is {write_degrees(tilt)}."
    ]

    def draw(factor: float) -> Picture:
        step = UNIT_RUN_IN * factor
        parts = (
            _triangle("first", step, plan, ("plan angle", twelve, "A", "")),
            _triangle(
                "second",
                leg_a * factor,
                slope,
                ("slope", "A", "", "B") if across else ("slope", "A", "B", ""),
            ),
            _triangle("third", step, tilt, ("tilt", twelve, "", "B")),
        )
        picture, x = Picture(Drawing()), 0.0
        for part in parts:
            left, _, right, _ = part.drawing.bounds(words=False)
            picture += part.moved(x - left, 0.0)
            x += right - left + APART_IN
        return picture

    scales = [scale for scale in STUDY_SCALES if scale.factor <= MOST]
    return in_room("Three right triangles for the tilt", notes, room, draw, scales=scales)


def _angles(answer: Answer) -> tuple[float, float, bool]:
    """The plan angle and the slope [deg], and whether B lies across from the slope."""
    asked = answer.question
    way, normal = asked.joint.pose.head[:2], answer.plane.normal[:2]
    turn = abs(float(way @ normal)) / hypot(*way) / hypot(*normal)
    plan = degrees(asin(min(turn, 1.0)))
    slope = float(asked.corner.slope_deg)
    tilt = float(answer.cut.face_tilt_deg)
    for across, part in ((False, cos(radians(slope))), (True, sin(radians(slope)))):
        if abs(degrees(asin(cos(radians(plan)) * part)) - tilt) < SAME_DEG:
            return plan, slope, across
    raise SheetError(
        f"three triangles do not find the tilt of {asked.entry.name}: ask for them on a board"
        " that leans with its roof"
    )


def _triangle(name: str, long: float, angle: float, said: tuple[str, str, str, str]) -> Picture:
    """A triangle with its long side slanted up to the right, the angle at its left end.

    `long` is on paper [in]; `said` names the angle, the long side and the legs beside and across.
    """
    wide, high = long * cos(radians(angle)), long * sin(radians(angle))
    start, foot, head = (0.0, 0.0), (wide, 0.0), (wide, high)
    called, hypotenuse, beside, across = said
    strokes = (
        Stroke((start, head), "visible", f"{name}-long"),
        Stroke((start, foot), "cut" if beside else "visible", f"{name}-beside"),
        Stroke((foot, head), "cut" if across else "visible", f"{name}-across"),
        Stroke(
            ((wide - RIGHT_IN, 0.0), (wide - RIGHT_IN, RIGHT_IN), (wide, RIGHT_IN)),
            "guide",
            f"{name}-right-angle",
        ),
    )
    words = [
        Words(hypotenuse, _middle(start, head), 10.0, bold=True, ways=(angle + 90.0,)),
        Words(f"{name}: {called}", (wide / 2, -0.2), 9.0, ways=(-90.0,), leader=False),
    ]
    if beside:
        words.append(Words(beside, _middle(start, foot), 10.0, bold=True, ways=(-90.0,)))
    if across:
        words.append(Words(across, _middle(foot, head), 10.0, bold=True, ways=(0.0,)))
    radius = 0.6 * min(wide, 1.0)
    arc = angle_dimension(start, radius, 0.0, angle, write_degrees(angle), 9.0, f"{name}-angle")
    middle = radians(angle / 2)
    spot = (radius * cos(middle), radius * sin(middle))
    drawn, arc_words = from_labels(arc, spot, ways=(angle / 2,))
    return Picture(Drawing(strokes) + drawn, (*words, *arc_words))


def _middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
