"""What drills ask about a shoe on one face: under which wood, toward which end, from which edge."""

from layout.answer.answer import Answer
from layout.answer.sense_words import START, UNDER
from layout.answer.senses import faces, sense
from layout.errors import LayoutError
from layout.tools.saw import SawKind
from layout.tools.travel import Side
from lessons.values.value import value


def _wood(answer: Answer, side: Side) -> str:
    below = sense(answer, side).below_shoe
    if below == "square":
        raise LayoutError("the blade stands square here, under neither wood")
    return UNDER[below]


@value("word")
def wood_under_left_face(answer: Answer) -> str:
    """Under which wood the blade runs in below a shoe on the left face."""
    return _wood(answer, "left")


@value("word")
def wood_under_right_face(answer: Answer) -> str:
    """Under which wood the blade runs in below a shoe on the right face."""
    return _wood(answer, "right")


@value("word")
def toward_under_left_face(answer: Answer) -> str:
    """Toward which end the blade runs in below a shoe on the left face."""
    toward = sense(answer, "left").toward
    if toward is None:
        raise LayoutError("the blade runs in toward no end here")
    return toward


@value("word")
def start_blade_left(answer: Answer) -> str:
    """The edge where a blade-left saw starts on the steadier face."""
    start = faces(answer)[0].start_from[SawKind.BLADE_LEFT]
    if start is None:
        raise LayoutError("the cut starts at either edge here")
    return START[start]
