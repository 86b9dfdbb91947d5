"""Lengths in words, in the units that were asked for."""

from dataclasses import dataclass
from math import floor

from layout.answer.wording import METRIC_RUN
from layout.quantity import (
    MM_PER_INCH,
    write_feet,
    write_fraction,
    write_inches,
    write_length,
    write_metric,
)
from lessons.say.units import METRIC_TABLE_RUN, System


@dataclass(frozen=True)
class LengthWords:
    """One writer of lengths [in] for a command's answer: inches and feet, or millimeters."""

    units: System = System.INCH

    def size(self, length_in: float) -> str:
        """A size, to the sixteenth or to half a millimeter."""
        return write_metric(length_in) if self.units.is_metric else write_inches(length_in)

    def exact(self, length_in: float) -> str:
        """A size with its decimals beside it."""
        return write_metric(length_in) if self.units.is_metric else write_length(length_in)

    def long(self, length_in: float) -> str:
        """A length of a rafter: feet and inches, or millimeters."""
        return write_metric(length_in) if self.units.is_metric else write_feet(length_in)

    def long_exact(self, length_in: float) -> str:
        """A length of a rafter with its decimals beside it."""
        if self.units.is_metric:
            return f"{length_in * MM_PER_INCH:.1f} mm"
        return f"{write_feet(length_in)} ({length_in:.3f} in)"

    def stepped(self, length_in: float) -> str:
        """A size that is laid again and again: with decimals, since each step adds what is lost."""
        if self.units.is_metric:
            return f"{length_in * MM_PER_INCH:.1f} mm"
        return write_length(length_in)

    def off(self, length_in: float) -> str:
        """A small error, in decimals."""
        if self.units.is_metric:
            return f"{abs(length_in) * MM_PER_INCH:.1f} mm"
        return f"{abs(length_in):.3f} in"

    def rounded(self, length_in: float, parts: int = 16) -> str:
        """A length beside a code's, rounded alone."""
        if self.units.is_metric:
            return write_metric(length_in)
        return f"{write_fraction(length_in, parts)} in"


def metric_steps(level_in: float, total_in: float) -> tuple[int, float]:
    """Steps with a metric square along a level run, and what is left of the run [in].

    `level_in` is the level side of one step where 12 in are stepped, `total_in` the whole run.
    """
    step_in = level_in * METRIC_RUN / MM_PER_INCH
    steps = floor(total_in / step_in + 1e-9)
    return steps, total_in - steps * step_in


def per_meter(number: float) -> float:
    """A rafter table's number for 12 in of run as millimeters for a meter."""
    return number / 12 * METRIC_TABLE_RUN
