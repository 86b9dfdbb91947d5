"""Tails: what runs on below the building line to carry the eave.

An **overhang** is level, square to the wall, from the building line to the outside of the
fascia; the tail itself ends at the fascia's back, one thickness less. Where two roofs of
unlike pitch meet, a level fascia asks for overhangs in the inverse ratio of their slopes: then
the hip's line passes over the corner of the fascias as it does over the corner of the walls.
"""

from dataclasses import dataclass

from layout.cuts import find
from layout.errors import LengthError
from layout.length.run_length import common_per_run, line_per_run
from layout.length.shortening import CheekPoints, cheek_points
from layout.plane.corner import Corner
from layout.quantity import write_fraction
from layout.stock import Stock


@dataclass(frozen=True)
class Tail:
    """A common's or jack's tail, cut plumb behind the fascia [inches].

    `run_in` is level and square to the wall, from the building line to the cut; `along_in` the
    same along the rafter, `fall_in` plumb.
    """

    overhang_in: float
    fascia_in: float
    run_in: float
    along_in: float
    fall_in: float


@dataclass(frozen=True)
class CarrierTail:
    """The tail of a hip or valley, cut to both fascias [inches], along its top edge.

    Measured down from the plumb line over the building's corner: to the outside corner of the
    fascias (`theoretical_in`), and to the tail's own cheeks on the middle of its thickness and
    at its long and short points.
    """

    own_overhang_in: float
    other_overhang_in: float
    theoretical_in: float
    centre_in: float
    long_in: float
    short_in: float


def tail(corner: Corner, overhang_in: float, fascia_in: float = 0.0) -> Tail:
    """The tail of a common or jack for an overhang to the outside of the fascia.

    Raises LengthError where the fascia is thicker than the overhang.
    """
    check_overhang(overhang_in, fascia_in)
    run = max(0.0, overhang_in - fascia_in)  # without an overhang there is no tail
    return Tail(
        overhang_in,
        fascia_in,
        run,
        run * float(common_per_run(corner)),
        run * float(corner.slope),
    )


def level_overhang_in(corner: Corner, overhang_in: float) -> float:
    """The other roof's overhang that keeps its fascia level with the own one [inches].

    Both roofs fall as far over their overhangs.

    >>> round(level_overhang_in(Corner(45.0, 26.565051), 12.0), 3)
    24.0
    """
    return overhang_in * float(corner.slope) / float(corner.other_slope)


def line_tail(
    corner: Corner, stock: Stock, overhang_in: float, fascia_in: float = 0.0
) -> CarrierTail:
    """The tail of a hip or valley, centered on its line, behind the corner of two level fascias.

    The catalogue's two cheeks, each as far outside its wall as its own rafters' tails end.
    `overhang_in` is the own roof's; the other's follows from the level fascia.
    """
    check_overhang(overhang_in, fascia_in)
    other = level_overhang_in(corner, overhang_in)
    check_overhang(other, fascia_in)
    joint = find("valley-tail" if bool(corner.reentrant) else "hip-tail").joint(corner)
    ends = (-max(0.0, own - fascia_in) for own in (overhang_in, other))
    points: CheekPoints = cheek_points(joint, stock, *ends)
    return CarrierTail(
        overhang_in,
        other,
        overhang_in * float(line_per_run(corner)),
        points.centre_in,
        points.long_in,
        points.short_in,
    )


def check_overhang(overhang_in: float, fascia_in: float) -> None:
    """Raise LengthError where no tail is left behind the fascia; an overhang of 0 has none."""
    if overhang_in < 0 or fascia_in < 0 or (overhang_in > 0 and overhang_in <= fascia_in):
        raise LengthError(
            f"an overhang of {write_fraction(overhang_in)} in leaves no tail behind a fascia of"
            f" {write_fraction(fascia_in)} in; give a longer overhang, or 0 for none",
            about=["overhang", "fascia"],
        )
