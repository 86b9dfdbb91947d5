"""A true setting beside a line of another board, over the catalogue: never a sole *wrong*.

The setting is the cut's own, in degrees or by its numbers; the aside names a plumb, level or
square one with a number of its own. A false setting beside any of them is never a sole *right*.
"""

from collections.abc import Iterator

import pytest

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import End, catalogue
from layout.errors import LayoutError
from layout.quantity import read_pitch, write_fraction
from lessons.settle.findings import ClaimVerdict
from lessons.settle.settle import settle
from tests.counts import count, part_of

RISES = (8, 5, 12)
ENDS = [(name, end) for name in sorted(catalogue()) for end in catalogue()[name].ends]
LINES = ("plumb", "level", "square")
NUMBERS = ("45", "26 1/2", "33 3/4", "56 1/4", "90", "8 on 12")
OFF_DEG = 7.0
"""How far a false setting is from the true one."""
ASIDES = (
    "a {line} one would be {number}",
    "the {line} ones {number}",
    "{number} for a {line} one",
    "{line} is {number}",
    "a {line} board takes {number}",
    "the {line} one being {number}",
    "{number} is {line}",
    "on the {line} kind it is {number} too",
    "his {line} would be {number}",
    "{line} takes {number}",
    "this one {line} at {number}",
)
BESIDE = ("{setting}, {aside}", "{aside}, {setting}", "{setting} and {aside}",
          "{aside}; {setting} for this", "{setting} here, {aside}")  # fmt: skip


def settings(true_answer: Answer, off_deg: float = 0.0) -> Iterator[str]:
    """The cut's own setting said in several ways, off by so many degrees."""
    tilt = float(true_answer.cut.face_tilt_deg) + off_deg
    face = true_answer.face.from_square_deg + off_deg
    if true_answer.is_rip:
        yield f"rip, saw {tilt:.2f}"
        return
    if true_answer.hand is not None or off_deg:
        yield f"saw {tilt:.2f}"
        yield f"{tilt:.2f}"
        yield f"tilt {tilt:.2f} degrees"
        yield f"{tilt:.2f} on the saw"
    if true_answer.hand is None and face < 89:
        yield f"{face:.2f}"
        yield f"{face:.2f} off square" if face else "square"
        yield f"mark it {face:.2f} from square across"
    if true_answer.hand is not None and not off_deg and true_answer.edge.numbers is not None:
        number = float(true_answer.cut.edge_number)
        if number < 24:
            yield f"edge {write_fraction(number, 64)} on 12"


def asides(true_answer: Answer) -> Iterator[str]:
    own = f"{true_answer.face.from_square_deg:.2f}"
    for line in LINES:
        for number in (*NUMBERS, own):
            for aside in ASIDES:
                yield aside.format(line=line, number=number)


def said(true_answer: Answer, *, off_deg: float = 0.0) -> list[str]:
    claims = [
        beside.format(setting=setting, aside=aside)
        for setting in settings(true_answer, off_deg)
        if not off_deg or is_wrong(true_answer, setting)
        for aside in asides(true_answer)
        for beside in BESIDE
    ]
    return claims[:: count(41, 397)]


def is_wrong(true_answer: Answer, setting: str) -> bool:
    (found,) = settle(true_answer, [setting], explained=False).findings
    return found.verdict is ClaimVerdict.WRONG


def roofs(name: str, end: End) -> Iterator[Answer]:
    for rise in RISES[: count(len(RISES), 1)]:
        try:
            yield answer(ask(name, pitch=read_pitch(str(rise)), end=end))
        except LayoutError:
            continue


@pytest.mark.parametrize(("name", "end"), part_of(ENDS, 10))
def test_no_line_of_another_board_makes_a_true_setting_wrong_or_a_false_one_right(name, end):
    for true_answer in roofs(name, end):
        for off_deg, never in ((0.0, ClaimVerdict.WRONG), (OFF_DEG, ClaimVerdict.RIGHT)):
            claims = said(true_answer, off_deg=off_deg)
            for at in range(0, len(claims), 500):
                for found in settle(true_answer, claims[at : at + 500], explained=False).findings:
                    assert found.verdict is not never, (str(true_answer.question.pitch), found.text)


@pytest.mark.parametrize(
    ("name", "pitch", "text"),
    [
        ("fascia-square", "6", "saw 39 and a quarter, a plumb one would be 45"),
        ("purlin-square", "8", "saw 36, plumb ones 45"),
        ("common-tail-square", "6", "square, plumb would be 26 1/2"),
        ("common-tail-plumb", "6", "square this one, plumb the 26 1/2 one"),
        ("common-tail-level", "6", "26 1/2 is plumb, this is 63 1/2"),
        ("common-seat", "8", "56 1/4, plumb is 33 3/4"),
        ("common-ridge", "8", "33 3/4, level 56 1/4"),
        ("gable-stud", "8", "33 3/4 on the saw, the plumb cut of the rafter is 33 3/4 too"),
        ("fascia-square", "6", "tilt 39 1/4, the plumb fascia takes 45"),
        ("common-seat", "8", "level 56 1/4"),
        ("hip-jack", "8", "45, the level is 56 1/4"),
        ("hip-jack", "8", "45 on the saw, level 8 on 12"),
        ("hip-seat", "8", "64 3/4, plumb is 25 1/4"),
    ],
)
def test_it_is_asked_about_with_the_rest_judged(name, pitch, text):
    (found,) = settle(answer(ask(name, pitch=read_pitch(pitch))), [text]).findings
    assert found.verdict is ClaimVerdict.OPEN
    verdicts = {tried.verdict for tried in found.tried}
    assert found.left_out or len(verdicts) > 1


@pytest.mark.parametrize(
    "text", ["plumb 9 in 12, saw 45", "plumb 8 in 17, saw 45", "level 8 in 12, saw 45"]
)
def test_a_line_laid_by_its_rise_and_run_is_this_cut_s(text):
    (found,) = settle(answer(ask("hip-jack")), [text]).findings
    assert found.verdict is ClaimVerdict.WRONG


@pytest.mark.parametrize(
    ("name", "own"),
    [
        ("common-ridge", "plumb"),
        ("common-seat", "level"),
        ("hip-seat", "level"),
        ("common-tail-level", "level"),
        ("common-tail-square", ""),
    ],
)
def test_a_false_mark_is_wrong_by_its_own_name_and_asked_about_by_another_s(name, own):
    """No mark on a rafter of 8 in 12 stands 50 degrees from square; the blade stands square."""
    for line in ("plumb", "level"):
        (found,) = settle(answer(ask(name)), [f"{line} 50, saw 0"], explained=False).findings
        assert (found.verdict is ClaimVerdict.WRONG) == (line == own), line
