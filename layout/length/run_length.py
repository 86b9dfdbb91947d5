"""Theoretical lengths over a run, by stepping off with the square and by the table number.

A theoretical length lies along the stick between two plumb lines, with nothing taken off for
any stick's thickness: from the building line to the middle of the ridge, hip or valley. The
run is always the own common's level run, also for a hip or valley, as the trade counts it.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from layout.errors import LengthError
from layout.plane.corner import Corner
from layout.quantity import nearest
from layout.tools.square import GRADUATION
from layout.vector import Angle, Array, dot

UNIT_RUN_IN = 12.0
"""The run that one step covers, and for which a table's number is printed."""
PRINTED_DECIMALS = 2
"""A table on a square prints its numbers to the hundredth of an inch."""

RafterKind = Literal["common", "hip or valley"]


def common_per_run(corner: Corner) -> Array:
    """Length of the own common over a level run of 1 (...).

    The vector straight up the roof, made long enough to have a level part of 1.

    >>> round(12 * float(common_per_run(Corner(45.0, 45.0))), 2)
    16.97
    """
    return 1.0 / dot(corner.upslope, corner.inward)


def line_per_run(corner: Corner) -> Array:
    """Length of the hip or valley over a unit of the own common's level run (...).

    >>> round(12 * float(line_per_run(Corner(45.0, 45.0))), 2)
    20.78
    """
    return 1.0 / dot(corner.line, corner.inward)


def jack_per_spacing(corner: Corner) -> Array:
    """Difference in length of two own jacks over a unit of spacing along the own eave (...).

    A unit along the eave the hip or valley lies farther in by the tangent of its plan angle.
    Infinite where the line runs square to the eave: then no jack ends on it.
    """
    inward = dot(corner.plan_line, corner.inward)
    along = np.abs(dot(corner.plan_line, corner.eave))
    with np.errstate(divide="ignore"):
        return common_per_run(corner) * inward / along


@dataclass(frozen=True)
class Stepping:
    """A length stepped off with the square: whole steps, then the odd inches.

    The square lies with `level_in` on the arm that is held level and `rise_in` on the other;
    each step covers 12 in of the common's run. For the odd inches the square lies as for one
    more step, and `odd_level_in` is measured on the level arm from the last mark; the plumb
    line through it ends the rafter.
    """

    level_in: float
    rise_in: float
    steps: int
    odd_level_in: float

    @property
    def step_in(self) -> float:
        """What one step covers along the stick [inches]."""
        return float(np.hypot(self.level_in, self.rise_in))

    @property
    def odd_in(self) -> float:
        """What the odd inches cover along the stick [inches]."""
        return self.odd_level_in * self.step_in / self.level_in

    @property
    def length_in(self) -> float:
        """The whole length along the stick [inches]."""
        return self.steps * self.step_in + self.odd_in

    def as_laid(self, parts: int = GRADUATION) -> "Stepping":
        """The same steps with the numbers as they are laid on a real square, to 1/`parts`."""
        return Stepping(
            nearest(self.level_in, parts),
            nearest(self.rise_in, parts),
            self.steps,
            nearest(self.odd_level_in, parts),
        )


@dataclass(frozen=True)
class TableLength:
    """A length by the square's table: its number for a foot of the common's run, times the run.

    `exact` is the number with all its figures; `printed` the same as the table prints it.
    """

    exact: float
    run_in: float
    decimals: int = PRINTED_DECIMALS

    @property
    def printed(self) -> float:
        """The number as printed [inches a foot of run]."""
        return round(self.exact, self.decimals)

    @property
    def length_in(self) -> float:
        """The length with the number's every figure [inches]."""
        return self.exact * self.run_in / UNIT_RUN_IN

    @property
    def printed_length_in(self) -> float:
        """The length with the number as printed [inches]."""
        return self.printed * self.run_in / UNIT_RUN_IN

    @property
    def rounding_in(self) -> float:
        """How far the printed rounding moves the answer [inches]; plus is too long."""
        return self.printed_length_in - self.length_in


@dataclass(frozen=True)
class RunLength:
    """One stick's theoretical length over a run, found both ways [inches].

    `disagree_in` is stepping less table with exact numbers. `rounding_in` is what the printed
    rounding of the table's number does, `laid_in` what laying the numbers on a square in
    sixteenths does; plus is too long.
    """

    stick: RafterKind
    run_in: float
    steps: int
    level_in: float
    rise_in: float
    odd_level_in: float
    stepped_in: float
    table_number: float
    table_in: float
    disagree_in: float
    rounding_in: float
    laid_in: float


def step_off(level_in: float, rise_in: float, run_in: float) -> Stepping:
    """Step off a run of `run_in`, each step covering 12 in of the common's run.

    `level_in` is the stick's own level run over those 12: 12 for a common, 16.97 for a hip on
    a square corner. The last step is left to the odd inches only where it is not whole.

    >>> step_off(12, 8, 100).steps, step_off(12, 8, 100).odd_level_in
    (8, 4.0)
    """
    _check_run(run_in)
    steps = int(run_in // UNIT_RUN_IN)
    odd_in = run_in - steps * UNIT_RUN_IN
    return Stepping(level_in, rise_in, steps, odd_in * level_in / UNIT_RUN_IN)


def measure(corner: Corner, run_in: float, stick: RafterKind = "common") -> RunLength:
    """The theoretical length of a common, or of a hip or valley, over the common's run [inches].

    A jack is measured as a common of its own, shorter run. Raises LengthError for no run.

    >>> from layout.quantity import write_feet
    >>> write_feet(measure(Corner(30.2564, 30.2564), 96).table_in)
    '9\\'-3 1/8"'
    """
    _check_run(run_in)
    per_run = common_per_run(corner) if stick == "common" else line_per_run(corner)
    unit_run = 1.0 if stick == "common" else float(np.asarray(corner.unit_run))
    rise_in = UNIT_RUN_IN * float(np.asarray(corner.slope))
    stepping = step_off(UNIT_RUN_IN * unit_run, rise_in, run_in)
    table = TableLength(UNIT_RUN_IN * float(per_run), run_in)
    return RunLength(
        stick,
        run_in,
        stepping.steps,
        stepping.level_in,
        stepping.rise_in,
        stepping.odd_level_in,
        stepping.length_in,
        table.printed,
        table.length_in,
        stepping.length_in - table.length_in,
        table.rounding_in,
        stepping.as_laid().length_in - stepping.length_in,
    )


def total_rise_in(corner: Corner, run_in: Angle) -> Array:
    """Rise of the own roof over a level run [inches] (...)."""
    return np.asarray(run_in) * corner.slope


def _check_run(run_in: float) -> None:
    if not (np.isfinite(run_in) and run_in > 0):
        raise LengthError(f"a run of {run_in:g} in has no length; give one such as 96 in")
