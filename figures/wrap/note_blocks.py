"""The notes of a wrap as blocks beside it, and the tilt full size to set a saw or bevel by."""

from collections.abc import Sequence
from functools import cache

from figures.ink.drawing import Drawing, Label
from figures.ink.lettering import fraction_text, wrapped
from figures.page.beside import Block, words_block
from figures.pictures.tilt_angle import LEAST_DEG, MOST_DEG, tilt_angle
from figures.wrap.wrap_blocks import WrapNote
from figures.wrap.wrap_names import CUT_BY_PT, LEAST_PT
from layout.answer.answer import Answer
from layout.answer.senses import way
from layout.quantity import write_degrees

TILT_SIZES_IN = ((2.0, 2.25), (2.0, 1.7), (1.6, 1.5), (1.4, 1.3))
"""Heights of the tilt's angle and lengths of its shoe's line, the best first [in]."""
TILT_WORDS = (
    "Tilt {} (the saw's bevel setting), full size. Unplug the saw; set a sliding bevel to the"
    " lines and hold it between shoe and saw blade."
)


def note_blocks(notes: Sequence[WrapNote], *, small: bool = False) -> list[Block]:
    """Notes that stand off the wrap, each under the name of the surface it is about.

    `small` letters them all at 8 points.
    """
    made = []
    for note in notes:
        size = CUT_BY_PT if note.cut_by and not small else LEAST_PT
        about = note.surface not in (None, "end")
        heading = f"ON THE {note.heading}" if about else note.heading
        if note.number:
            heading = f"{note.number.capitalize()}, {heading}"
        made.append(words_block(heading, note.text, size))
    return made


def tilt_blocks(answer: Answer, *, optional: bool = False) -> list[Block]:
    """Each tilt of a joint's planes as an angle at full size, to set the saw to.

    None for a square blade, and none for a plane that this saw does not cut with its shoe on a
    face: there is nothing to set.
    """
    tilts = {
        round(float(one.cut.face_tilt_deg), 2): None
        for one in (answer, *answer.others)
        if way(one) in ("face", "both faces")
    }
    return [
        Block("tilt", _tilt_shapes(tilt), optional=optional)
        for tilt in tilts
        if LEAST_DEG <= tilt <= MOST_DEG
    ]


@cache
def _tilt_shapes(tilt_deg: float) -> tuple[Drawing, ...]:
    shapes = []
    for high, shoe in TILT_SIZES_IN:
        angle = tilt_angle(tilt_deg, high, shoe)
        left, bottom, right, _ = angle.bounds()
        said = fraction_text(TILT_WORDS.format(write_degrees(tilt_deg)))
        words = wrapped(said, LEAST_PT, right - left)
        label = Label(words, left, bottom - 0.05, LEAST_PT, va="top", gid="tilt-words")
        shapes.append(angle + Drawing(labels=(label,)))
    return tuple(shapes)
