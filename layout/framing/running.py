"""Where sticks land along the stick that carries them, as running measures from one end."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from layout.framing.stick import Stick
from layout.vector import Array

SLANTED = ("hip", "valley")
"""Sticks that cross a plate at the corner of the walls, on the slant."""
CARRIERS = ("plate", "ridge", "hip", "valley", "ledger")


@dataclass(frozen=True)
class Landing:
    """A stick on its carrier [inches], measured along the carrier from its `foot` end.

    `near_in` and `far_in` are the stick's two faces on the carrier's top edge, `middle_in` lies
    between them. `side` is the carrier's face or edge on which it stands. `down_in` is how far
    below the carrier's top arris that place lies, square to the edge: on the gauge line of a
    backed hip, where a mark on the square arris would stand off the plumb line.
    """

    carrier: str
    stick: str
    side: str
    near_in: float
    middle_in: float
    far_in: float
    down_in: float = 0.0


def landings(sticks: Sequence[Stick]) -> tuple[Landing, ...]:
    """Every stick that lies against a carrier, carrier by carrier, in order along each."""
    by_name = {stick.name: stick for stick in sticks}
    found: dict[tuple[str, str, str], Landing] = {}
    for stick in sticks:
        for plane in stick.planes:
            carrier = by_name.get(plane.mate)
            if carrier is None or carrier.role not in CARRIERS or stick.role in ("plate", "ridge"):
                continue
            if carrier.role == "plate" and float(plane.normal[2]) > -0.5:
                continue  # the heel: the seat tells where it stands
            if carrier.role == "plate" and stick.role in SLANTED:
                continue  # it crosses the plate on the slant: `layout.framing.crossing`
            points = np.concatenate([carrier.in_board(p) for p in stick.surfaces(plane)])
            start = start_of(carrier)
            top = points[points[:, 2] > points[:, 2].max() - 1e-6]
            spots = points if carrier.role == "plate" or len(top) < 2 else top
            low, high = float(spots[:, 0].min()) - start, float(spots[:, 0].max()) - start
            side = _side(carrier, points)
            down = carrier.stock.depth_in - float(spots[:, 2].max())
            key = (carrier.name, stick.name, side)
            if key not in found:
                found[key] = Landing(*key, low, (low + high) / 2, high, down)
    order = {name: i for i, name in enumerate(by_name)}
    return tuple(sorted(found.values(), key=lambda one: (order[one.carrier], one.middle_in)))


def start_of(carrier: Stick) -> float:
    """Where its running measures begin on a carrier's own x [inches].

    At the end of its foot on a plate, a ridge or a ledger, where the tape is hooked over it; over
    the corner of the walls on a hip or valley that stands there, else at its foot's long point.
    """
    return (
        float(carrier.in_board(carrier.corners)[:, 0].min())
        if carrier.role in ("plate", "ridge", "ledger")
        else (carrier.end_points("foot").long_in if not carrier.on_plate else 0.0)
    )


def _side(carrier: Stick, points: Array) -> str:
    """The carrier's face or edge on which points lie, or its end."""
    for axis, sides, size in (
        (1, ("right face", "left face"), carrier.stock.thickness_in),
        (2, ("bottom edge", "top edge"), carrier.stock.depth_in),
    ):
        for name, level in zip(sides, (0.0, size), strict=True):
            if np.all(np.abs(points[:, axis] - level) < 1e-6):
                return name
    return "end"
