"""What a picture says below itself: which hand, which way a mark leans, what the numbers are."""

from layout.answer.answer import Answer, Mark
from layout.answer.gap_words import NO_GAP, write_gap
from layout.answer.sense_words import SURFACE, hand_line, lean_words, leaning
from layout.answer.senses import shoe_side
from layout.answer.wording import number_words, size_words
from layout.quantity import write_degrees
from layout.tools.miter import miter_setting
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from layout.tools.square import Numbers
from layout.tools.travel import Side, lean


def hand_note(answer: Answer) -> str:
    """Which hand this is, in the words that leave no doubt."""
    return hand_line(answer)


def mark_note(mark: Mark, where: str) -> str:
    """A mark's angle from square across, and the way it leans."""
    if mark.runs_along:
        return f"{where} mark: along the board."
    if mark.numbers is None:
        return f"{where} mark: square across."
    far_end = "top" if where == "Face" else "left end"
    angle = write_degrees(mark.from_square_deg)
    return f"{where} mark: {angle} from square across, its {far_end} toward the {leaning(mark)}."


def rip_note(answer: Answer) -> str:
    """The two lines of a bevel along the board, as a gauge is set to them."""
    gauges = answer.hand_setting(as_read=False)
    assert isinstance(gauges, RipByHand)
    edge = "top" if gauges.top > 0 else "bottom"
    low = "right" if gauges.right > 0 else "left"
    return (
        f"Bevel along the {edge} edge: {size_words(gauges.across_in, metric=answer.metric)} across,"
        f" {size_words(gauges.drop_in, metric=answer.metric)} of fall at the {low} face."
    )


def numbers_note(numbers: Numbers, *, metric: bool = False) -> str:
    """How the square is laid: a number on each arm, and the arm to mark along."""
    blade, tongue = (number_words(side, metric=metric) for side in (numbers.blade, numbers.tongue))
    return f"{blade} on the blade, {tongue} on the tongue; mark along the {numbers.mark_arm}"


TRADE_NAMES = {
    "common-ridge": "common against the ridge",
    "common-seat": "seat of a common",
    "common-heel": "heel of a common",
    "common-tail-plumb": "tail of a common, cut plumb",
    "common-tail-square": "tail of a common, cut square",
    "common-tail-level": "tail of a common, cut level",
    "hip-ridge": "hip with two cheeks",
    "hip-ridge-single": "hip against the side of the ridge",
    "hip-seat": "seat of a hip",
    "hip-tail": "tail of a hip",
    "hip-backing": "backing of a hip",
    "valley-ridge": "valley against the ridge",
    "valley-seat": "seat of a valley",
    "valley-tail": "tail of a valley",
    "valley-backing": "hollowed top of a valley",
    "deck-valley-jack": "jack on a deck",
}
"""What the trade calls a cut whose name in the catalogue is no phrase of it."""


def cut_name(answer: Answer) -> str:
    """The cut and the end of the stick it is made on."""
    name = answer.question.entry.name
    return f"{TRADE_NAMES.get(name, name.replace('-', ' '))}, {answer.question.end}"


def gap_words(gap_in: float, *, metric: bool = False) -> str:
    """A gap in sixty-fourths of an inch, or tenths of a millimeter, in words."""
    words = write_gap(gap_in, metric=metric)
    return words if words == NO_GAP else f"gap {words}"


def setting_words(setting: Setting, *, shoe: Side = "right", metric: bool = False) -> str:
    """What was marked and set, in one line; a saw on a face rides the one named by `shoe`."""
    if isinstance(setting, ByHand):
        face, edge = (_pair(pair, metric) for pair in (setting.face, setting.edge))
        return f"By handsaw: face {face}, edge {edge}."
    if isinstance(setting, BySawOnEdge):
        return f"{_lies(setting)}: {_turned(setting)}."
    if isinstance(setting, BySaw):
        runs = lean(setting.normal, shoe)
        leans = f"; {lean_words(runs)}" if setting.tilt_deg and runs.below != "square" else ""
        return (
            f"Shoe on the {SURFACE[shoe]}: line {write_degrees(setting.line_deg)} from square,"
            f" tilt {write_degrees(setting.tilt_deg)}{leans}."
        )
    if isinstance(setting, RipBySaw):
        low = "right" if setting.right > 0 else "left"
        return f"By saw: tilt {write_degrees(setting.tilt_deg)}, the bevel low at the {low} face."
    assert isinstance(setting, RipByHand)
    across, drop = (size_words(v, metric=metric) for v in (setting.across_in, setting.drop_in))
    low = "right" if setting.right > 0 else "left"
    return f"Gauged {across} across and {drop} down the {low} face."


def right_words(answer: Answer, setting: Setting) -> str:
    """The right setting of the same kind, in the same words."""
    true_answer: Setting | None
    if isinstance(setting, ByHand | RipByHand):
        true_answer = answer.hand_setting(as_read=False)
    elif isinstance(setting, BySawOnEdge):
        on_edge = answer.edge_saw_setting()
        assert on_edge is not None
        lies = _lies(on_edge)
        turned = _turned(on_edge)
        return f"{turned}." if lies == _lies(setting) else f"{lies}: {turned}."
    else:
        true_answer = answer.saw_setting(as_read=False)
    assert true_answer is not None
    words = setting_words(true_answer, shoe=shoe_side(answer), metric=answer.metric)
    starts = ("By handsaw: ", *(f"Shoe on the {surface}: " for surface in SURFACE.values()))
    for start in (*starts, "By saw: "):
        words = words.removeprefix(start)
    return words


def _lies(setting: BySawOnEdge) -> str:
    """How the board stands; no circular saw is sent along so narrow an edge."""
    laid = miter_setting(setting.normal, flat=False)
    return f"Board on edge, as on a miter saw, {SURFACE[laid.down]} down, head to your {laid.head}"


def _turned(setting: BySawOnEdge) -> str:
    laid = miter_setting(setting.normal, flat=False)
    table = f"table {write_degrees(laid.table_deg)}"
    table += "" if laid.table is None else f" to your {laid.table}"
    tilt = f"tilt {write_degrees(laid.tilt_deg)}"
    leans = "" if laid.lean is None else f", blade leaning to your {laid.lean}"
    return f"{table}, {tilt}{leans}"


def _pair(legs: tuple[float, float], metric: bool) -> str:
    mark, other = legs
    if mark == 0:
        return "square across"
    if other == 0:
        return "along the board"
    along, held = (number_words(number, metric=metric) for number in legs)
    return f"{along} (marked along) and {held}"
