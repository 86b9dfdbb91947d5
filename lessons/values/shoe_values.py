"""The values that turn the saw: what the blade does below the shoe, and where a cut starts."""

from layout.answer.answer import Answer
from layout.cuts import Hand
from lessons.values.course_values import kept_end
from lessons.values.mark_values import hand, other_hand, waste_end
from lessons.values.value import value

UNDER_WASTE, UNDER_KEPT = "under the waste", "under the kept wood"


def _wood(answer: Answer, shoe: Hand) -> str:
    return UNDER_WASTE if hand(answer) == shoe.value else UNDER_KEPT


def _toward(answer: Answer, shoe: Hand) -> str:
    return waste_end(answer) if hand(answer) == shoe.value else kept_end(answer)


@value("word")
def wood_under_left_face(answer: Answer) -> str:
    """Under which wood the blade runs in below a shoe on the left face."""
    return _wood(answer, Hand.LEFT)


@value("word")
def wood_under_right_face(answer: Answer) -> str:
    """Under which wood the blade runs in below a shoe on the right face."""
    return _wood(answer, Hand.RIGHT)


@value("word")
def toward_under_left_face(answer: Answer) -> str:
    """Toward which end the blade runs in below a shoe on the left face."""
    return _toward(answer, Hand.LEFT)


@value("word")
def steadier_face(answer: Answer) -> str:
    """The face on which the wide side of the shoe rides on the kept wood."""
    return f"{other_hand(answer)} face"


@value("word")
def wide_side_words(answer: Answer) -> str:
    """Where the wide side of the shoe rides with the shoe on the face away from the cheek."""
    return "wide side of the shoe on the kept wood"


def _start(answer: Answer, *, wide_on_right: bool) -> str:
    """The edge where a saw starts on the far face, its wide side over the kept wood."""
    outward = 1 if other_hand(answer) == Hand.LEFT.value else -1
    kept = -1 if answer.cut.at_head else 1
    # t = d x u with d toward the wide side and u the face's outward normal: (d,0,0) x (0,u,0).
    up = kept * outward * (-1 if wide_on_right else 1)
    return "bottom edge" if up > 0 else "top edge"


@value("word")
def start_blade_left(answer: Answer) -> str:
    """The edge where a blade-left saw starts on the face away from the cheek."""
    return _start(answer, wide_on_right=True)


@value("word")
def start_on_far_face(answer: Answer) -> str:
    """Where either saw starts on the face away from the cheek."""
    left, right = (_start(answer, wide_on_right=way) for way in (True, False))
    return f"blade-left saw from the {left}, blade-right saw from the {right}"

