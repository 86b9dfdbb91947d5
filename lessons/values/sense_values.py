"""The values that turn a saw: which face is steadier, what the blade does there, where to start."""

import math

from layout.answer import senses
from layout.answer.answer import Answer
from layout.answer.sense_words import (
    MITER_GLOSS,
    SURFACE,
    TILT_GLOSS,
    lean_words,
    miter_beyond,
    miter_words,
    out_of_reach,
    start_words,
    wide_words,
)
from layout.errors import LayoutError
from lessons.values.value import value


@value("word")
def steadier_face(answer: Answer) -> str:
    """The face on which the wide side of the shoe rides on the kept wood, where it has a line."""
    return SURFACE[senses.faces(answer)[0].side]


@value("word")
def blade_on_steadier_face(answer: Answer) -> str:
    """What the blade does below a shoe on the steadier face."""
    return lean_words(senses.faces(answer)[0])


@value("length")
def comes_out(answer: Answer) -> float:
    """How far from its line on the face the blade comes out below, measured square to the line."""
    tilt = math.radians(float(answer.cut.face_tilt_deg))
    return answer.question.stock.thickness_in * math.tan(tilt)


@value("word")
def wide_on_steadier_face(answer: Answer) -> str:
    """Where the wide side of the shoe rides on the steadier face."""
    words = wide_words(senses.faces(answer)[0], answer.limits.kind)
    if not words:
        raise LayoutError("at a notch it does not matter where the wide side of the shoe rides")
    return words


@value("word")
def start(answer: Answer) -> str:
    """Where to start on the steadier face, with either saw that tilts one way."""
    return start_words(senses.faces(answer)[0], answer.limits.kind)


@value("word")
def tilt_gloss(answer: Answer) -> str:
    """What the tilt is called on a saw."""
    del answer  # it is called so for every cut
    return TILT_GLOSS


@value("word")
def reach(answer: Answer) -> str:
    """Why one pass of the saw on a face does not make the cut."""
    words = out_of_reach(answer, senses.faces(answer)[0])
    if not words:
        raise LayoutError('one pass of the saw reaches here; name {reach} under "out of reach"')
    return words


@value("word")
def on_miter_saw(answer: Answer) -> str:
    """How the board lies on a miter saw, how the table turns and the blade leans, in a sentence."""
    laid = senses.miter(answer)
    if laid is None:
        raise LayoutError("this cut is made on no miter saw")
    reached = [one for one in laid if senses.miter_reaches(answer, one)]
    if not reached:
        flat, on_edge = (miter_beyond(answer, one) for one in laid)
        return f"board flat, {flat}; board on edge, {on_edge}"
    return "; ".join(miter_words(answer, reached[0]))


@value("word")
def miter_saw_gloss(answer: Answer) -> str:
    """What left and right mean at a miter saw, in sentences."""
    del answer  # it is so for every cut
    return " ".join(MITER_GLOSS)
