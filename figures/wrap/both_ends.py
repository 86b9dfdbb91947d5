"""Both ends of a long cut on two small papers; what lies between is joined with a straightedge.

A cut at an end gets one paper over the top edge and one over the bottom edge, each with a strip
of both faces. A notch gets two over the edge that it opens at, one by either end of its lines.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from figures.wrap.spread import (
    OVER_BACKED,
    OVER_TOP,
    UNDER_BOTTOM,
    Spread,
    notch_in,
    spread,
    usual_run,
)
from figures.wrap.stations import kind
from figures.wrap.wrap import BEFORE_IN, PAST_IN, STEPS_IN, Wrap, lines
from layout.answer.answer import Answer
from layout.errors import SheetError

STRIPS_IN = (2.0, 1.5, 1.25, 1.125)
"""Strips of each face along an edge, where only both ends of a mark are drawn [in]."""
Ends = tuple[float, float] | None
"""The least and the greatest x of the ends of marks that a paper shows [in]; None shows all."""


def lay_ends(
    answer: Answer, *, backed: bool = False, strip_in: float = STRIPS_IN[0]
) -> tuple[Wrap, Wrap]:
    """The lines of both papers of a long cut, in inches."""
    first, second = both_ends(answer, backed=backed, strip_in=strip_in)
    return Wrap(first, lines(first), 1.0), Wrap(second, lines(second), 1.0)


def both_ends(
    answer: Answer, *, backed: bool = False, strip_in: float = STRIPS_IN[0]
) -> tuple[Spread, Spread]:
    """A long cut laid out in two papers, each with a strip of both faces.

    Raises SheetError for a rip, and for a notch that opens at the top edge.
    """
    run = usual_run(answer, backed=backed)
    if kind(answer) == "rip" or (kind(answer) == "notch" and run != UNDER_BOTTOM):
        raise SheetError(
            f"{answer.question.entry.name} has no two ends to join: leave out --marks ends"
        )

    def part(number: int, over: Sequence[str], shown_in: float, xs: Ends = None) -> Spread:
        return spread(
            answer,
            over,
            backed=backed,
            before_in=BEFORE_IN,
            past_in=PAST_IN,
            step_in=STEPS_IN[0],
            strip_in=shown_in,
            part=number,
            between=xs,
        )

    if kind(answer) == "end":
        over = OVER_BACKED if backed else OVER_TOP
        second = part(2, UNDER_BOTTOM, strip_in)
        return part(1, over, strip_in), replace(second, as_top=not backed)
    shown_in = notch_in(answer)
    low, high = _apart(part(0, run, shown_in))
    ends = (low, high) if bool(answer.cut.at_head) else (high, low)
    return part(1, run, shown_in, ends[0]), part(2, run, shown_in, ends[1])


def _apart(laid: Spread) -> tuple[tuple[float, float], tuple[float, float]]:
    """The ends of a notch's marks in two groups along the board, where they lie farthest apart."""
    xs = sorted(x for one in laid.surfaces for mark in one.marks for x, _ in mark.line)
    before, after = max(pairwise(xs), key=lambda pair: pair[1] - pair[0])
    return (xs[0], before), (after, xs[-1])
