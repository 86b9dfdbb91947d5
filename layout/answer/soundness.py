"""What is nonsense on real stock, said in a plain line: geometry that no board has room for."""

from collections.abc import Iterator

from layout.answer import senses
from layout.answer.answer import Answer
from layout.quantity import write_fraction, write_length

LONG_CUT_DEPTHS = 8.0
"""A cut that runs along the board by more than so many of its depths is no longer an end."""
SMALL_NUMBER_IN = 1 / 4
"""A number on the square below this cannot be held: both marks lie at the heel."""


def doubts(answer: Answer) -> Iterator[str]:
    """Each thing about this answer, first plane and second, that a real board would not bear."""
    for one in (answer, *answer.others):
        yield from _of_one(one)


def _of_one(answer: Answer) -> Iterator[str]:
    stock = answer.question.stock
    slant = senses.slant_in(answer)
    if slant > LONG_CUT_DEPTHS * stock.depth_in:
        yield (
            f"this cut runs {write_length(slant)} along a board {write_fraction(stock.depth_in)} in"
            " deep: no rafter is framed so; look at the corner and the pitches again"
        )
    for name, mark in (("face", answer.face), ("edge", answer.edge)):
        pair = mark.numbers
        if pair is not None and min(pair.mark, pair.other) < SMALL_NUMBER_IN:
            yield (
                f"the {name} mark needs {write_fraction(min(pair.mark, pair.other), 16)} on the"
                " square, too near the heel to hold: lay it out with a long straightedge"
            )
