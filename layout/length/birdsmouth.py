"""The bird's mouth: a level seat on the plate and a plumb heel outside the wall, in one notch.

Heights are plumb, at the building line (the outside of the wall), over the top of the plate.
The **height above plate** is what is left of the rafter's plumb depth above the seat; where
it is the same for commons, jacks and hips, all their top edges lie in the roof planes.
"""

from dataclasses import dataclass

from layout.errors import LengthError
from layout.length.code_sections import Comparison, bearing, notch
from layout.quantity import write_fraction
from layout.stock import Stock
from layout.vector import sin_cos

LEAST_LEFT_IN = 0.25
"""Less wood than this over a notch is no rafter."""


@dataclass(frozen=True)
class BirdsMouth:
    """A seat and heel on a stick of this slope [inches; plumb, level or square as named].

    `plumb_depth_in` is the whole stick, plumb; `height_above_plate_in` its part above the seat
    and `heel_in` the part below it, the plumb length of the heel cut. `seat_in` is the level
    length of the seat cut. `notch_depth_in` is the notch square to the bottom edge and
    `left_in` the wood left over it, square to the edges.
    """

    slope_deg: float
    stock: Stock
    plumb_depth_in: float
    height_above_plate_in: float
    heel_in: float
    seat_in: float
    notch_depth_in: float
    left_in: float

    def bearing_in(self, plate_width_in: float) -> float:
        """The seat's level bearing on a plate of this width [inches]: the seat or the plate."""
        return min(self.seat_in, plate_width_in)

    def comparisons(self, plate_width_in: float, stick: str = "rafter") -> tuple[Comparison, ...]:
        """Bearing and notch beside the code's sections; numbers only."""
        return (
            bearing(stick, self.bearing_in(plate_width_in)),
            notch(stick, self.notch_depth_in, self.stock.depth_in),
        )


def from_height(slope_deg: float, stock: Stock, height_above_plate_in: float) -> BirdsMouth:
    """The bird's mouth that leaves this plumb height above the plate at the building line.

    Along the plumb line the stick measures depth / cos; what the height leaves is the heel,
    and the bottom edge climbs it in a level length of heel / tan. Raises LengthError where the
    height leaves no seat, or next to no wood.

    >>> from layout.stock import read_stock
    >>> round(from_height(45.0, read_stock("2x6"), 4.0).seat_in, 3)
    3.778
    """
    sine, cosine = (float(part) for part in sin_cos(slope_deg))
    plumb = stock.depth_in / cosine
    heel = plumb - height_above_plate_in
    left = height_above_plate_in * cosine
    if heel <= 0 or left < LEAST_LEFT_IN:
        raise LengthError(
            f"a height above plate of {write_fraction(height_above_plate_in)} in leaves no bird's"
            f" mouth in {stock} at this slope; give one above"
            f" {write_fraction(LEAST_LEFT_IN / cosine)} and below {write_fraction(plumb)} in"
        )
    return BirdsMouth(
        slope_deg,
        stock,
        plumb,
        height_above_plate_in,
        heel,
        heel * cosine / sine,
        heel * cosine,
        left,
    )


def from_seat(slope_deg: float, stock: Stock, seat_in: float) -> BirdsMouth:
    """The bird's mouth with a level seat of this length.

    Raises LengthError where a seat that long cuts the stick through.

    >>> from layout.stock import read_stock
    >>> round(from_seat(45.0, read_stock("2x6"), 3.5).height_above_plate_in, 3)
    4.278
    """
    sine, cosine = (float(part) for part in sin_cos(slope_deg))
    longest = (stock.depth_in - LEAST_LEFT_IN) / sine
    if not 0 < seat_in <= longest:
        raise LengthError(
            f"a seat of {write_fraction(seat_in)} in does not fit {stock} at this slope;"
            f" give one above 0 and up to {write_fraction(longest)} in",
            about=["seat", "plate", "rafter"],
        )
    return from_height(slope_deg, stock, (stock.depth_in - seat_in * sine) / cosine)
