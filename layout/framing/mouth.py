"""A stick's bird's mouth as it is measured on the stick: seat, heel, height above the plate, depth.

Read off the solid on the middle of the thickness, where a hip's heel is deepest.
"""

from dataclasses import dataclass

import numpy as np

from layout.framing.ends import place_of
from layout.framing.stick import CutPlane, Stick
from layout.vector import Z

LEVEL = 1e-9


@dataclass(frozen=True)
class StickMouth:
    """What is measured on a bird's mouth [inches].

    `seat_in` is level, along the stick's own plan; `heel_in` and `above_plate_in` are plumb at
    the building line, the notch and the wood over it; `notch_in` is square to the edge, at its
    deepest on either face or between them.
    """

    seat_in: float
    heel_in: float
    above_plate_in: float
    notch_in: float


def stick_mouth(stick: Stick) -> StickMouth | None:
    """The mouth over the eave's plate; None where the stick has none."""
    removals = [r for r in stick.removals if place_of(stick, r) == "seat"]
    seats = [p for r in removals for p in r if float(p.normal @ Z) < -1 + LEVEL]
    if not seats or not stick.on_plate:
        return None
    seat = seats[0]
    surfaces = [stick.in_board(points) for points in stick.surfaces(seat)]
    if not surfaces:
        return None
    level = float(np.hypot(*stick.pose.head[:2]))
    middle = stick.stock.thickness_in / 2
    along = [x for points in surfaces for x in _crossed(points, middle)]
    run = (max(along) - min(along)) * _in_plan(stick, seat)
    edge = stick.origin + middle * stick.pose.left + stick.stock.depth_in * stick.pose.up
    # The building line stands over the datum on the top edge, plumb.
    above = float(edge[2]) - float(seat.level_in / seat.normal[2])
    slope = float(stick.pose.head[2]) / level
    notch = max(float(points[:, 2].max()) for points in surfaces)
    return StickMouth(run, run * slope, above, notch)


def _in_plan(stick: Stick, seat: CutPlane) -> float:
    """Level length for a unit along the board on a seat: the seat's mark runs level."""
    normal = stick.pose.to_board(seat.normal)
    # On the seat dz/dx = -nx / nz in board axes; the way is level, so its length is its run.
    return float(np.hypot(1.0, normal[0] / normal[2]))


def _crossed(points: np.ndarray, y: float) -> list[float]:
    """Where the sides of a polygon in board axes cross the plane at y: their x."""
    found = []
    for p, q in zip(points, np.roll(points, -1, axis=0), strict=True):
        if (p[1] - y) * (q[1] - y) <= 0 and p[1] != q[1]:
            share = (y - p[1]) / (q[1] - p[1])
            found.append(float(p[0] + share * (q[0] - p[0])))
    return found
