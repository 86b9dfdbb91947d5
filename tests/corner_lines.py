"""The line over one corner of two walls, as a hip or a valley: made from plain angles."""

import math

import numpy as np

from layout.framing.carrier import Carrier, CarrierKind
from layout.framing.face import Face
from layout.length.drop import HipWay, ValleyWay, hip_top, valley_top
from layout.plane.corner import Corner
from layout.quantity import read_pitch
from layout.stock import Stock, read_stock

HEIGHT = 4.0
FOOT = np.array([35.0, -20.0, 0.0])
STOCK = read_stock("2x10")


def line_of(
    rises: tuple[int, int],
    deg: float,
    way: HipWay | ValleyWay,
    hand: float = 1.0,
    stock: Stock = STOCK,
) -> Carrier:
    """The own wall runs from FOOT along +X, the building at its left; the other wall stands at
    `deg` inside. Level fascias: an overhang of 10 in, the other's 10 x own rise / other. A `hand`
    of -1 mirrors all of it in X."""
    turn = math.radians(deg)
    own, other = (read_pitch(f"{rise} in 12") for rise in rises)
    over = 10.0 * rises[0] / rises[1]
    eaves = np.array([hand, 0, 0]), np.array([hand * math.cos(turn), math.sin(turn), 0])
    inward = np.array([0, 1.0, 0]), np.array([hand * math.sin(turn), -math.cos(turn), 0])
    corner = Corner(own.slope_deg, other.slope_deg, deg)
    kind: CarrierKind = "valley" if deg > 180 else "hip"
    made = valley_top if kind == "valley" else hip_top
    return Carrier(
        "L1", kind, Face("own", own, FOOT, eaves[0], inward[0], HEIGHT, 10.0, 0.75),
        Face("other", other, FOOT, eaves[1], inward[1], HEIGHT, over, 0.75),
        deg, FOOT, inward[0] + inward[1], stock, made(corner, stock, way),  # type: ignore[operator]
    )  # fmt: skip
