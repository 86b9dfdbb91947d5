"""Three jacks of one roof at even spaces, in the roof plane unfolded flat: lengths are true there.

Eave, hip and jacks are lines, as they are drawn on a board: each jack a center line square to the
eave, the hip slanting over their heads. From each jack to the next the length grows by the same
amount.
"""

from itertools import pairwise
from typing import Literal

from figures.ink.drawing import Drawing, Label, Stroke
from figures.ink.pens import Point
from figures.place.dimension import dimension
from figures.place.placing import Words, from_labels
from figures.place.room import Picture, Room, in_room
from layout.answer.answer import Answer
from layout.answer.wording import size_words
from layout.errors import SheetError
from layout.length.run_length import UNIT_RUN_IN

SPACING_IN = 16.0
"""From center to center along the eave [in]."""
FIRST_IN = 10.0
"""From the corner to the center of the first jack [in]."""
COUNT = 3
ABOVE_IN, ASIDE_IN = 3.0, 4.0
"""How far the hip is drawn past the last jack's head, and the eave past its foot [in]."""


def jacks_unfolded(answer: Answer, room: Room) -> Drawing:
    """The jacks in the unfolded roof, from (0, 0) to the room's width and height [in on paper].

    A right-hand jack's hip rises from the right. Gids: `eave`, `hip`, `jack-1` to `jack-3`,
    `difference` on the dimensions from head to head. Raises SheetError for a cut that is no
    jack's against a hip, and for a room that is too small.
    """
    if answer.question.entry.name != "hip-jack":
        raise SheetError("jacks in a row are drawn for a hip jack")
    number = float(answer.cut.edge_number)
    grows = SPACING_IN * UNIT_RUN_IN / number
    spacing = size_words(SPACING_IN, 16, metric=answer.metric)
    said = size_words(grows, 16, metric=answer.metric)
    notes = ["Laid flat, at true length; each jack is drawn by its center line."]
    mirrored = float(answer.cut.normal[1]) < 0
    return in_room(
        "Three jacks in the unfolded roof",
        notes,
        room,
        lambda factor: _picture(grows, spacing, said, mirrored, factor),
    )


def _picture(grows: float, spacing: str, said: str, mirrored: bool, factor: float) -> Picture:
    way = -1.0 if mirrored else 1.0

    def at(along: float, up: float) -> Point:
        return way * along * factor, up * factor

    feet = [FIRST_IN + SPACING_IN * number for number in range(COUNT)]
    last = feet[-1]
    slope = grows / SPACING_IN
    top = last + ABOVE_IN / slope
    strokes = [
        Stroke((at(0, 0), at(last + ASIDE_IN, 0)), "visible", "eave"),
        Stroke((at(0, 0), at(top, top * slope)), "cut", "hip"),
    ]
    for number, foot in enumerate(feet, start=1):
        strokes.append(Stroke((at(foot, 0), at(foot, foot * slope)), "centre", f"jack-{number}"))
    picture = Picture(Drawing(tuple(strokes)))
    for foot in feet[1:]:
        before = foot - SPACING_IN
        start, end = at(foot, before * slope), at(foot, foot * slope)
        level = Drawing((Stroke((at(before, before * slope), start), "guide", "level"),))
        # On the side of the jack that is away from the hip, where nothing else is drawn.
        lines, words = from_labels(dimension(start, end, said, -0.2 * way, 9.0, "difference"))
        picture += Picture(level + lines, words)
    for before, foot in pairwise(feet):
        first, second = (at(before, 0), at(foot, 0)) if way > 0 else (at(foot, 0), at(before, 0))
        lines, words = from_labels(dimension(first, second, spacing, -0.3, 9.0))
        picture += Picture(lines, words)
    middle = 0.6 * SPACING_IN
    names = (
        *(_name(f"jack {number}", at(foot, 0.0), way) for number, foot in enumerate(feet, start=1)),
        Words("hip", at(middle, middle * slope), 9.0, bold=True, ways=(90.0 + 45.0 * way,)),
        Words("eave", at(0.5 * FIRST_IN, 0), 8.5, ways=(-90.0,), leader=False),
        Words("corner", at(0, 0), 8.5, ways=(90.0 + 90.0 * way,), leader=False),
    )
    return picture + Picture(Drawing(), names)


def _name(said: str, foot: Point, way: float) -> Words:
    """A jack's name along its own line, on the side that is away from the corner."""
    # Read from the right: over the line is to its left on the paper.
    va: Literal["top", "bottom"] = "top" if way > 0 else "bottom"
    beside = foot[0] + 0.03 * way, foot[1] + 0.06
    own = Label(said, *beside, 8.5, "left", va, rotation_deg=90.0)
    return Words(said, foot, 8.5, first=(own,), ways=(90.0 - 90.0 * way,))
