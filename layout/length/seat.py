"""The seat of a hip or valley over a corner of the plates.

All rafters leave the same height above plate under the roof planes at the building line, so at
the corner of the building the hip's line passes at that height too: over the corner of the
plates stand height above plate, less what the hip is lowered. From there its own depth and its
own, flatter slope give heel and seat.

The plates' corner points into a hip. Either the hip is notched round it (**whole**: the heel is
hollow, two plumb cuts along both walls), or the corner is cut off square across the hip where
the hip's faces cross the walls (**clipped**: the heel is one cut, square across). At a valley
the plates' corner points away: whole, its heel comes to a point in the corner; clipped, the
heel is squared off where the faces cross the walls.
"""

from dataclasses import dataclass
from typing import Literal

from layout.length.birdsmouth import BirdsMouth, from_height
from layout.length.drop import CarrierTop
from layout.plane.corner import Corner
from layout.stock import Stock
from layout.vector import Array, dot, sin_cos

PlateCorner = Literal["whole", "clipped"]


@dataclass(frozen=True)
class CarrierSeat:
    """The seat of a hip or valley on a corner [inches]; levels along its own plan line.

    `mouth` is its bird's mouth on the plumb line over the corner, of the middle of its
    thickness. The heels are level distances from that plumb line, plus up the stick: on the
    faces `own_heel_in` and `other_heel_in`, where they cross the walls' outsides, and
    `centre_heel_in` on the middle (0 with the corner whole). `seat_in` is the level length of
    the seat on the middle. `own_clip_in` and `other_clip_in` are what is cut off each wall's
    plate, measured along its outside from the corner; 0 where the corner stays whole.
    """

    plate_corner: PlateCorner
    mouth: BirdsMouth
    own_heel_in: float
    other_heel_in: float
    centre_heel_in: float
    seat_in: float
    own_clip_in: float
    other_clip_in: float

    @property
    def deepest_notch_in(self) -> float:
        """The notch at its deepest on either face or between them, square to the edge [inches].

        The seat is level, so a heel that lies nearer the foot by a level distance cuts the notch
        deeper by that distance times the sine of the slope. A valley's heels do so on its faces.
        """
        nearest = min(self.own_heel_in, self.other_heel_in, self.centre_heel_in)
        return self.mouth.notch_depth_in - nearest * float(sin_cos(self.mouth.slope_deg)[0])


def line_seat(
    corner: Corner,
    top: CarrierTop,
    stock: Stock,
    height_above_plate_in: float,
    plate_corner: PlateCorner = "whole",
) -> CarrierSeat:
    """The seat of a hip or valley that carries its roofs at this height above plate [inches].

    A face on the own side lies `own_side_in` square from the line; it crosses the own wall's
    outside where it is level with the corner: at own_side / tan of the plan angle between
    line and wall. Raises LengthError where no seat, or next to no wood, is left.
    """
    mouth = from_height(float(corner.line_slope_deg), stock, height_above_plate_in - top.lowered_in)
    reentrant = bool(corner.reentrant)
    across = -corner.across if not reentrant else corner.across
    heels = (
        _crossing(corner, top.own_side_in * across, corner.inward),
        _crossing(corner, -top.other_side_in * across, corner.other_inward),
    )
    if plate_corner == "whole":
        return CarrierSeat(plate_corner, mouth, *heels, 0.0, mouth.seat_in, 0.0, 0.0)
    centre = min(heels) if reentrant else max(heels)
    if reentrant:
        return CarrierSeat(plate_corner, mouth, centre, centre, centre, mouth.seat_in, 0.0, 0.0)
    own_clip, other_clip = (
        centre / abs(float(dot(corner.plan_line, corner.eave))),
        centre / abs(float(dot(corner.plan_line, corner.other_eave))),
    )
    return CarrierSeat(
        plate_corner, mouth, centre, centre, centre, mouth.seat_in - centre, own_clip, other_clip
    )


def bearing_in(corner: Corner, seat: CarrierSeat, plate_width_in: float) -> float:
    """Level bearing of a hip's or valley's seat on plates of this width, along its middle [inches].

    Up the line each plate is left where the run from its wall passes its width. A hip stands on
    either plate until it leaves both, a valley on the block where both cross.
    """
    runs = [
        plate_width_in / float(dot(corner.plan_line, inward))
        for inward in (corner.inward, corner.other_inward)
    ]
    leaves = min(runs) if bool(corner.reentrant) else max(runs)
    return min(seat.mouth.seat_in, leaves) - max(0.0, seat.centre_heel_in)


def _crossing(corner: Corner, aside: Array, inward: Array) -> float:
    """How far up the plan line a face `aside` of it crosses the wall's outside [inches]."""
    return -float(dot(aside, inward)) / float(dot(corner.plan_line, inward))
