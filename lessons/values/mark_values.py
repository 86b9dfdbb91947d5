"""The values of a cut's roof, board, marks and settings, and of how both methods fit."""

from layout.answer.answer import Answer
from layout.answer.sense_words import blade_words, end_words, leaning, remaining_words
from layout.answer.wording import corner_words
from layout.errors import LayoutError
from layout.quantity import Pitch, write_degrees
from layout.stock import Stock
from layout.tools.saw import reaches
from lessons.say.verdict_words import agreement_line
from lessons.values.value import value


@value("pitch")
def pitch(answer: Answer) -> Pitch:
    """The own roof's pitch, as it was said."""
    return answer.question.pitch


@value("pitch")
def other_pitch(answer: Answer) -> Pitch:
    """The other roof's pitch, as it was said."""
    return answer.question.other_pitch


@value("pitch")
def pitches(answer: Answer) -> tuple[Pitch, ...]:
    """The pitch where both roofs have one, else the own and the other."""
    own, other = answer.question.pitch, answer.question.other_pitch
    return (own,) if own.slope_deg == other.slope_deg else (own, other)


@value("board")
def stock(answer: Answer) -> Stock:
    """The board's name, with its real size."""
    return answer.question.stock


@value("word")
def corner(answer: Answer) -> str:
    """The angle between the walls, in words."""
    return corner_words(answer.question.corner_deg)


@value("word")
def cut(answer: Answer) -> str:
    """The cut's name in the catalogue."""
    return answer.question.entry.name


@value("word")
def hand(answer: Answer) -> str:
    """The side the cheek faces, or the hand that was asked for where it has none."""
    return (answer.hand or answer.question.hand).value


@value("word")
def other_hand(answer: Answer) -> str:
    """The side away from the cheek."""
    return (answer.hand or answer.question.hand).other.value


@value("length")
def thickness(answer: Answer) -> float:
    """Thickness of the board."""
    return answer.question.stock.thickness_in


@value("length")
def depth(answer: Answer) -> float:
    """Depth of the board."""
    return answer.question.stock.depth_in


@value("angle")
def slope(answer: Answer) -> float:
    """Slope of the own roof above level."""
    return answer.question.pitch.slope_deg


@value("angle")
def stick_slope(answer: Answer) -> float:
    """Slope of the board itself above level."""
    return answer.stick_slope_deg


@value("angle")
def face_angle(answer: Answer) -> float:
    """The face mark, from square across."""
    return answer.face.from_square_deg


@value("angle")
def edge_angle(answer: Answer) -> float:
    """The edge mark, from square across."""
    return answer.edge.from_square_deg


@value("angle")
def face_bevel(answer: Answer) -> float:
    """The face mark, from the board's edge: what a sliding bevel is set to."""
    return answer.face.bevel_deg


@value("angle")
def edge_bevel(answer: Answer) -> float:
    """The edge mark, from the board's edge: what a sliding bevel is set to."""
    return answer.edge.bevel_deg


@value("angle")
def tilt(answer: Answer) -> float:
    """The saw's tilt with the shoe on a wide face."""
    return float(answer.cut.face_tilt_deg)


@value("angle")
def edge_tilt(answer: Answer) -> float:
    """The saw's tilt with the shoe on the edge."""
    return float(answer.cut.edge_tilt_deg)


def _laid(answer: Answer, which: str, arm: str) -> float:
    numbers = (answer.face if which == "face" else answer.edge).numbers
    if numbers is None:
        raise LayoutError(
            f"the {which} mark of {answer.question.entry.name} runs square across or along the"
            f" board here, so the square shows no {which}_{arm}"
        )
    return float(getattr(numbers, arm))


@value("number")
def face_blade(answer: Answer) -> float:
    """The face mark's number on the blade."""
    return _laid(answer, "face", "blade")


@value("number")
def face_tongue(answer: Answer) -> float:
    """The face mark's number on the tongue."""
    return _laid(answer, "face", "tongue")


@value("number")
def edge_blade(answer: Answer) -> float:
    """The edge mark's number on the blade."""
    return _laid(answer, "edge", "blade")


@value("number")
def edge_tongue(answer: Answer) -> float:
    """The edge mark's number on the tongue."""
    return _laid(answer, "edge", "tongue")


@value("word")
def face_arm(answer: Answer) -> str:
    """The arm to mark the face along."""
    return answer.face.numbers.mark_arm if answer.face.numbers else "tongue"


@value("word")
def face_held(answer: Answer) -> str:
    """The arm that is only held while the face is marked along the other."""
    return answer.face.numbers.other_arm if answer.face.numbers else "blade"


@value("word")
def edge_arm(answer: Answer) -> str:
    """The arm to mark the edge along."""
    return answer.edge.numbers.mark_arm if answer.edge.numbers else "tongue"


@value("number")
def edge_number(answer: Answer) -> float:
    """Across 12 on one arm, the number along the other."""
    number = float(answer.cut.edge_number)
    if answer.edge.numbers is None:
        raise LayoutError("the edge mark runs square across here, so it has no number on 12")
    return number


@value("word")
def face_leans(answer: Answer) -> str:
    """The end toward which the face mark's top leans."""
    return leaning(answer.face)


@value("word")
def edge_leans(answer: Answer) -> str:
    """The end toward which the edge mark's left end leans."""
    return leaning(answer.edge)


@value("word")
def waste_end(answer: Answer) -> str:
    """The end of the board toward which the waste lies."""
    return end_words(float(answer.cut.normal[0]))


@value("word")
def blade_on_cheek_face(answer: Answer) -> str:
    """What the blade does below a shoe on the face that the cheek faces."""
    return blade_words(answer, answer.hand or answer.question.hand)


@value("word")
def blade_on_far_face(answer: Answer) -> str:
    """What the blade does below a shoe on the face away from the cheek."""
    return blade_words(answer, (answer.hand or answer.question.hand).other)


@value("length")
def longer_by(answer: Answer) -> float:
    """How much longer the long face is than the short one."""
    return answer.long_minus_short_in


@value("length")
def runs_down_face(answer: Answer) -> float:
    """How far the face mark runs along the board over the whole depth."""
    return answer.runs_down_face_in


@value("length")
def hand_gap(answer: Answer) -> float:
    """The gap of the hand's cut with the numbers as read on the square."""
    return float(answer.by_hand.read.widest_in)


@value("length")
def saw_gap(answer: Answer) -> float:
    """The gap of the saw's cut with line and tilt as read on the tools."""
    return float(answer.by_saw.read.widest_in)


@value("length")
def tolerance(answer: Answer) -> float:
    """The widest gap that will do."""
    return answer.tolerance_in


@value("word")
def agreement(answer: Answer) -> str:
    """The verdict on both methods together."""
    return agreement_line(answer)


@value("word")
def tilt_over_limit(answer: Answer) -> str:
    """What a common saw leans to at most."""
    return write_degrees(answer.limits.tilt_deg)


@value("word")
def if_it_could(answer: Answer) -> str:
    """What a question adds about a tilt past the saw; nothing where the saw reaches it."""
    return (
        "" if reaches(float(answer.cut.face_tilt_deg), answer.limits.tilt_deg) else ", if it could"
    )


@value("word")
def other_way(answer: Answer) -> str:
    """What to do where one pass of the saw on a face does not reach, as a command."""
    return remaining_words(answer) or remaining_words(answer, "handsaw")
