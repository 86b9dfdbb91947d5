"""How a value is written in a lesson: by the kind it is of, in the units the reader asked for."""

from enum import StrEnum
from typing import Literal

from layout.answer.gap_words import write_gap, write_limit
from layout.answer.wording import METRIC_RUN, board_words, pitch_words
from layout.quantity import (
    MM_PER_INCH,
    Pitch,
    nearest,
    write_degrees,
    write_feet,
    write_fraction,
    write_sixteenths,
)
from layout.stock import Stock
from layout.tools.square import GRADUATION

ValueKind = Literal["length", "angle", "number", "word", "pitch", "board"]
Written = float | str | Pitch | tuple[Pitch, ...] | Stock

METRIC_TABLE_RUN = 1000
"""A metric table gives lengths for a meter of run where an inch table gives them for 12 in."""


class System(StrEnum):
    """The units a lesson is written in."""

    INCH = "inch"
    METRIC = "metric"

    @property
    def is_metric(self) -> bool:
        """True for millimeters."""
        return self is System.METRIC

    @property
    def square_parts(self) -> int:
        """Divisions of the square to one of its units: sixteenths, or 25 millimeters."""
        return METRIC_RUN if self is System.METRIC else GRADUATION


UNITS: dict[ValueKind, tuple[str, ...]] = {
    "length": ("in", "fine", "gap", "ft", "decimal"),
    "angle": ("deg",),
    "number": ("square", "laid", "table", "reckoned", "decimal"),
    "word": (),
    "pitch": (),
    "board": (),
}
"""The units each kind of value may be written in; a word, a pitch and a board take none."""


def written(value: Written, unit: str, system: System) -> str:
    """The value in words: `in` to the sixteenth, `fine` to the thirty-second, `gap` to the
    sixty-fourth, `ft` in feet and inches, `square` as it is read on the square's arms, `laid` with
    *shy* or *strong* beside it, `table` to the hundredth as a rafter table prints it, `reckoned` as
    fine on the square's own run, `deg`, or `decimal`.

    In metric, lengths are millimeters, the numbers on the square millimeters on a run of 300
    (reckoned: to the tenth), and those of a table millimeters for a meter of run.
    """
    if isinstance(value, str):
        return value
    if isinstance(value, Stock):
        return board_words(value, metric=system.is_metric)
    if isinstance(value, Pitch):
        return pitch_words(value, metric=system.is_metric)
    if isinstance(value, tuple):
        return " and ".join(pitch_words(pitch, metric=system.is_metric) for pitch in value)
    if unit == "deg":
        return write_degrees(value)
    if unit == "gap":
        return write_gap(value, metric=system.is_metric)
    return _metric(value, unit) if system is System.METRIC else _inch(value, unit)


def write_gap_limit(limit_in: float, system: System) -> str:
    """A tolerance in sixty-fourths, or in tenths of a millimeter."""
    return write_limit(limit_in, metric=system.is_metric)


def _inch(value: float, unit: str) -> str:
    if unit == "square":
        return write_fraction(value)
    if unit == "laid":
        return write_sixteenths(value)
    if unit in ("table", "reckoned"):
        return _plain(round(value, 2))
    if unit == "ft":
        return write_feet(value)
    if unit == "decimal":
        return f"{value:.3f}"
    return f"{write_fraction(value, 32 if unit == 'fine' else 16)} in"


def _metric(value: float, unit: str) -> str:
    if unit in ("square", "laid"):
        return _plain(nearest(value * METRIC_RUN, 1))
    if unit == "reckoned":
        return _plain(nearest(value * METRIC_RUN, 10))
    if unit == "table":
        return _plain(nearest(value / 12 * METRIC_TABLE_RUN, 10))
    if unit == "decimal":
        return f"{value * MM_PER_INCH:.2f}"
    return f"{_plain(nearest(value * MM_PER_INCH, 1))} mm"


def _plain(value: float) -> str:
    return f"{value:.10g}"
