"""The two numbers of a printed mark, said without the arm: never wrong where one reading fits.

The reader knows the two numbers that `mark` prints and trade words, and what it expects is the
cut's own plane: whichever number is named first, one way to lay them is the printed one.
"""

from collections.abc import Iterator

import pytest

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import catalogue
from layout.errors import LayoutError
from layout.quantity import read_pitch, write_fraction
from lessons.settle.findings import ClaimVerdict
from lessons.settle.settle import settle
from tests.counts import count, part_of

RISES = (2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 22, 24)
ENDS = [(name, end) for name in sorted(catalogue()) for end in catalogue()[name].ends]


def said_of(true_answer: Answer) -> Iterator[str]:
    """A rise *in* a run is that rise on that run; only *on* and *and* leave the arm unsaid."""
    for where, mark in (("face", true_answer.face), ("edge", true_answer.edge)):
        if mark.numbers is None:
            continue
        one, two = (write_fraction(n) for n in (mark.numbers.mark, mark.numbers.other))
        for first, second in ((one, two), (two, one)):
            yield f"{where} {first} on {second}"
            yield f"{first} on {second} on the {where}"
            yield f"{first} and {second} on the {where}"
            yield f"{first} and {second}"
            yield f"{first} on {second}"
            if true_answer.hand is None and where == "face":
                yield f"{first} on {second} on the face, tilt 0"


@pytest.mark.parametrize(("name", "end"), part_of(ENDS, 8))
def test_the_numbers_of_a_mark_are_never_wrong_however_they_are_meant(name, end):
    said = 0
    for rise in RISES[:: count(1, 6)]:
        try:
            true_answer = answer(ask(name, pitch=read_pitch(str(rise)), end=end))
        except LayoutError:
            continue
        claims = list(said_of(true_answer))
        if true_answer.is_rip or not claims or not true_answer.by_hand.good_enough:
            continue
        for found in settle(true_answer, claims).findings:
            assert found.verdict is not ClaimVerdict.WRONG, (rise, found.text)
            assert not found.tried or any(
                tried.verdict is not ClaimVerdict.WRONG for tried in found.tried
            )
            said += 1
    assert said or not claims or true_answer.is_rip


def test_the_numbers_of_another_mark_stay_wrong():
    """7 and 12 lay no line of an 8 in 12 roof along either arm."""
    jack = answer(ask("hip-jack"))
    for found in settle(jack, ["face 7 on 12", "face 12 on 7", "edge 7 on 12"]).findings:
        assert found.verdict is ClaimVerdict.WRONG, found.text
