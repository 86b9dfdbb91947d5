"""What a picture says below itself: which hand, which way a mark leans, what the numbers are."""

from layout.answer import Answer, Mark
from layout.quantity import write_degrees, write_fraction
from layout.setting import RipByHand
from layout.square import Numbers


def hand_note(answer: Answer) -> str:
    """Which hand this is, in the words that leave no doubt."""
    if answer.hand is None:
        return "No hand: the cut runs square through the thickness."
    side = answer.hand.value
    what = "bevel" if answer.is_rip else "cheek"
    return f"{side.upper()} hand: stand at the foot, look toward the head; the {what} faces {side}."


def mark_note(mark: Mark, where: str) -> str:
    """A mark's angle from square across, and the way it leans."""
    if mark.runs_along:
        return f"{where} mark: along the board."
    if mark.numbers is None:
        return f"{where} mark: square across."
    far_end = "top" if where == "Face" else "left end"
    way = "head" if mark.lean > 0 else "foot"
    angle = write_degrees(mark.from_square_deg)
    return f"{where} mark: {angle} from square across, its {far_end} toward the {way}."


def rip_note(answer: Answer) -> str:
    """The two lines of a bevel along the board, as a gauge is set to them."""
    gauges = answer.hand_setting(as_read=False)
    assert isinstance(gauges, RipByHand)
    edge = "top" if gauges.top > 0 else "bottom"
    low = "right" if gauges.right > 0 else "left"
    return (
        f"Bevel along the {edge} edge: {write_fraction(gauges.across_in, 32)} in across,"
        f" {write_fraction(gauges.drop_in, 32)} in of fall at the {low} face."
    )


def numbers_note(numbers: Numbers) -> str:
    """How the square is laid: a number on each arm, and the arm to mark along."""
    pair = numbers.as_read()
    return (
        f"{write_fraction(pair.blade)} on the blade, {write_fraction(pair.tongue)} on the tongue;"
        f" mark along the {pair.mark_arm}"
    )


def cut_name(answer: Answer) -> str:
    """The cut and the end of the stick it is made on."""
    return f"{answer.question.entry.name.replace('-', ' ')}, {answer.question.end}"
