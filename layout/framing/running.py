"""Where sticks land along the stick that carries them, as running measures from one end."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from layout.framing.stick import Stick
from layout.vector import Array

SLANTED = ("hip", "valley")
"""Sticks that cross a plate at the corner of the walls, on the slant."""
FACES = ("right face", "left face")
CARRIERS = ("plate", "ridge", "hip", "valley", "ledger")


@dataclass(frozen=True)
class Landing:
    """A stick on its carrier [inches], measured along the carrier from its `foot` end.

    `near_in` and `far_in` are the plumb lines of the stick's two faces, `middle_in` lies between
    them. `side` is the carrier's face or edge on which it stands. `down_in` is how far below the
    carrier's top arris the measures hold, square to the edge: `gauge_in` of that face.
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
            side = _side(carrier, points)
            down = gauge_in(carrier, side) if side in FACES else 0.0
            along = _carried_plumb(carrier, points, carrier.stock.depth_in - down)
            low, high = float(along.min()) - start, float(along.max()) - start
            key = (carrier.name, stick.name, side)
            if key not in found:
                found[key] = Landing(*key, low, (low + high) / 2, high, down)
    order = {name: i for i, name in enumerate(by_name)}
    return tuple(sorted(found.values(), key=lambda one: (order[one.carrier], one.middle_in)))


def gauge_in(carrier: Stick, face: str) -> float:
    """How far below the square board's arris the wood of a face ends, square to the edge [inches].

    The lower arris of a backed hip, each face with its own; 0 where the arris stays. A plumb line
    drawn from anywhere else on a sloping face would stand off its place.
    """
    side = next(plane for plane in carrier.blank if plane.says == face)
    points = np.concatenate([carrier.in_board(p) for p in carrier.surfaces(side)])
    return carrier.stock.depth_in - float(points[:, 2].max())


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


def _carried_plumb(carrier: Stick, points: Array, level: float) -> Array:
    """Where the plumb lines through points (k, 3) cross a line along the carrier (k,) [inches].

    Points and `level`, the line's height on the board, are in the carrier's axes. A stick's sides
    are plumb, so they are found here even where a corner of its top edge is planed off.
    """
    climb = float(carrier.pose.head[2] / np.hypot(*carrier.pose.head[:2]))
    along: Array = points[:, 0] + (level - points[:, 2]) * climb
    return along


def _side(carrier: Stick, points: Array) -> str:
    """The carrier's face or edge on which points lie, or its end."""
    for axis, sides, size in (
        (1, FACES, carrier.stock.thickness_in),
        (2, ("bottom edge", "top edge"), carrier.stock.depth_in),
    ):
        for name, level in zip(sides, (0.0, size), strict=True):
            if np.all(np.abs(points[:, axis] - level) < 1e-6):
                return name
    return "end"
