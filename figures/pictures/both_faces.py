"""Both faces of a board from above, side by side: the line, the shoe on it, and the way to go.

The arrows say where each kind of saw starts, so the words below say only what the blade does.
The section with the tilted blade is a picture of its own (`saw_front`); here both ways of riding
the same cut stand together, so that either face can be set from it.
"""

from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.pictures.saw_setting import board_from_above, tilted
from figures.pictures.shoe import Shoe, face_shoes
from figures.place.room import Room, in_room
from figures.wood.unfolded import stick
from layout.answer.answer import Answer
from layout.answer.sense_words import lean_words
from layout.answer.wording import sentence

BETWEEN_IN = 0.25
"""White between the two faces [in]."""


def both_faces(answer: Answer, room: Room) -> Drawing:
    """The steadier face at the left and the other at its right, from (0, 0) to the room [in].

    One face alone takes the whole room. Gids begin with the surface (`right-face.above.`), as
    those of `setting`. Raises SheetError for a room that is too small.
    """
    width, height = room
    shoes = face_shoes(answer, stick(answer, kept_in=5.0, waste_in=3.0))
    each = (width - BETWEEN_IN * (len(shoes) - 1)) / len(shoes)
    drawing = Drawing()
    for at, shoe in enumerate(shoes):
        half = face_from_above(answer, shoe, (each, height))
        drawing += half.moved(at * (each + BETWEEN_IN), 0.0)
    return drawing


def face_from_above(answer: Answer, shoe: Shoe, room: Room) -> Drawing:
    """One face under the shoe, from above, with its words, from (0, 0) to the room [in]."""
    steady = ": the steadier way" if shoe.wide_on == "kept" and tilted(shoe) else ""
    lean = lean_words(shoe.sense)
    drawn = in_room(
        f"Shoe on the {shoe.surface}{steady}",
        [sentence(lean)],
        room,
        lambda factor: board_from_above(answer, shoe, factor),
    )
    side = shoe.surface.replace(" ", "-")
    return replace(
        drawn,
        labels=tuple(
            replace(label, gid=f"{side}.{label.gid}")
            if label.gid in ("heading", "notes", "scale")
            else label
            for label in drawn.labels
        ),
    )
