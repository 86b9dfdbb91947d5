"""How a value is written in a lesson: by the kind it is of, in the units the reader asked for."""

from enum import StrEnum
from typing import Literal

from layout.fit import SOUND_IN
from layout.quantity import (
    MM_PER_INCH,
    nearest,
    write_degrees,
    write_feet,
    write_fraction,
    write_inches,
)

Kind = Literal["length", "angle", "number", "word"]

METRIC_RUN = 25.0
"""Millimetres laid on a metric square for an inch on an inch square: a run of 12 becomes 300."""


class System(StrEnum):
    """The units a lesson is written in."""

    INCH = "inch"
    METRIC = "metric"


UNITS: dict[Kind, tuple[str, ...]] = {
    "length": ("in", "gap", "ft", "decimal"),
    "angle": ("deg",),
    "number": ("square", "decimal"),
    "word": (),
}
"""The units each kind of value may be written in; a word takes none."""


def written(value: float | str, unit: str, system: System) -> str:
    """The value in words: `in` to the sixteenth, `gap` to the sixty-fourth, `ft` in feet and
    inches, `square` as it is laid on the square's arms, `deg`, or `decimal`.

    In metric, lengths are millimetres and the numbers on the square millimetres on a run of 300.
    """
    if isinstance(value, str):
        return value
    if unit == "deg":
        return write_degrees(value)
    if system is System.METRIC:
        return _metric(value, unit)
    if unit == "square":
        return write_fraction(value)
    if unit == "gap":
        return "nothing" if value < SOUND_IN else _small(value)
    if unit == "ft":
        return write_feet(value)
    if unit == "decimal":
        return f"{value:.3f}"
    return write_inches(value)


def _small(gap_in: float) -> str:
    return f"{write_fraction(gap_in, 64)} in" if gap_in >= 1 / 128 else "less than 1/64 in"


def _metric(value: float, unit: str) -> str:
    if unit == "square":
        return f"{nearest(value * METRIC_RUN, 1):g}"
    if unit == "gap":
        return f"{value * MM_PER_INCH:.1f} mm"
    if unit == "decimal":
        return f"{value * MM_PER_INCH:.2f}"
    return f"{nearest(value * MM_PER_INCH, 1):g} mm"
