"""What every part of a packet is made with: the roof, its paper, its units, and the answers."""

from collections.abc import Callable
from dataclasses import dataclass

from figures.ink.paper import Paper
from layout.answer.answer import Answer
from layout.answer.question import Question
from layout.framing.roof import TrainingRoof
from layout.quantity import write_fraction, write_long, write_short


@dataclass(frozen=True)
class Making:
    """The roof, the paper of pages that are read, the line under every title, and the units.

    `told` answers a question on the job's own saw and square.
    """

    roof: TrainingRoof
    paper: Paper
    given: str
    told: Callable[[Question], Answer]
    metric: bool = False

    def long(self, value_in: float) -> str:
        """A stick's length in words."""
        return write_long(value_in, metric=self.metric)

    def short(self, value_in: float) -> str:
        """A small length in words."""
        return write_short(value_in, metric=self.metric)

    def gauged(self, value_in: float) -> str:
        """A gauge line's setting in words: to the thirty-second of an inch, as gauges are set."""
        return self.short(value_in) if self.metric else f"{write_fraction(value_in, 32)} in"

    def cell(self, value_in: float) -> str:
        """A stick's length in a table, whose heading says millimeters where they are meant."""
        said = self.long(value_in)
        return said.removesuffix(" mm") if self.metric else said

    def with_unit(self, means: str) -> str:
        """What a table means, with the unit of its cells."""
        return f"{means} Cells are in millimeters." if self.metric else means
