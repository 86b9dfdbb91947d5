"""A stick's bird's mouth as it is measured on the stick: seat, heel, height above the plate, depth.

Read off the solid on the middle of the thickness, where a hip's heel is deepest.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np

from layout.framing.ends import place_of
from layout.framing.stick import CutPlane, Stick
from layout.vector import Z

LEVEL = 1e-9
ON_FACE_IN = 1e-6


@dataclass(frozen=True)
class StickMouth:
    """What is measured on a bird's mouth [inches].

    `seat_in` is level, along the stick's own plan; `heel_in` and `above_plate_in` are plumb at
    the building line, the notch and the wood over it; `middle_notch_in` is the notch on the
    middle of the thickness, square to the edge, `notch_in` the same at its deepest on either face
    or between them.
    """

    seat_in: float
    heel_in: float
    above_plate_in: float
    middle_notch_in: float
    notch_in: float


def stick_mouth(stick: Stick) -> StickMouth | None:
    """The mouth over the eave's plate; None where the stick has none."""
    seat, surfaces = _seat(stick)
    if seat is None or not stick.on_plate:
        return None
    level = float(np.hypot(*stick.pose.head[:2]))
    middle = stick.stock.thickness_in / 2
    along = [x for points in surfaces for x in _crossed(points, middle)]
    run = (max(along) - min(along)) * _in_plan(stick, seat)
    # The building line stands over the datum on the top edge, plumb; a seat is level, its normal
    # straight down.
    top_in = float(stick.origin[2] + stick.stock.depth_in * stick.pose.up[2])
    above = top_in + float(seat.level_in)
    slope = float(stick.pose.head[2]) / level
    notch = float(np.concatenate(surfaces)[:, 2].max())
    on_middle = run * float(stick.pose.head[2])
    return StickMouth(run, run * slope, above, on_middle, notch)


@dataclass(frozen=True)
class FaceMouth:
    """A bird's mouth as it is marked on one face of a stick [inches].

    `seat_in` is level along the stick, `heel_in` plumb and `notch_in` square to the edge, all on
    that face. `heel_at_in` is where the heel's plumb line meets the top edge there, from the datum
    toward the head.
    """

    side: Literal["right", "left"]
    seat_in: float
    heel_in: float
    notch_in: float
    heel_at_in: float


def face_mouths(stick: Stick) -> tuple[FaceMouth, ...]:
    """The mouth on the right and the left face; none where the stick has no mouth.

    On a hip the heel leaves each face nearer the head than the middle of the thickness, on a
    valley nearer the foot: one marks on the faces.
    """
    seat, surfaces = _seat(stick)
    if seat is None or not stick.on_plate:
        return ()
    normal, plumb = stick.pose.to_board(seat.normal), stick.pose.to_board(Z)
    slope = float(stick.pose.head[2]) / float(np.hypot(*stick.pose.head[:2]))
    found = []
    for side, y in (("right", 0.0), ("left", stick.stock.thickness_in)):
        along = [x for points in surfaces for x in _crossed(points, y)]
        if not along:
            continue
        run = (max(along) - min(along)) * _in_plan(stick, seat)
        # The heel is the seat's end toward the foot; from there it runs plumb to the top edge.
        foot = min(along)
        low = stick.in_board(-seat.level_in * Z)
        z = float(normal @ (low - np.array([foot, y, 0.0])) / normal[2])
        at = foot + (stick.stock.depth_in - z) * float(plumb[0] / plumb[2])
        found.append(FaceMouth(side, run, run * slope, run * float(stick.pose.head[2]), at))  # type: ignore[arg-type]
    return tuple(found)


def _seat(stick: Stick) -> tuple[CutPlane | None, list[np.ndarray]]:
    """The plane of the seat and its surfaces in board axes; a valley's lies on both plates, beyond
    either heel, and each has its own plane."""
    removals = [r for r in stick.removals if place_of(stick, r) == "seat"]
    seats = [p for r in removals for p in r if float(p.normal @ Z) < -1 + LEVEL]
    surfaces = [stick.in_board(points) for seat in seats for points in stick.surfaces(seat)]
    return (seats[0], surfaces) if surfaces else (None, [])


def _in_plan(stick: Stick, seat: CutPlane) -> float:
    """Level length for a unit along the board on a seat: the seat's mark runs level."""
    normal = stick.pose.to_board(seat.normal)
    # On the seat dz/dx = -nx / nz in board axes; the way is level, so its length is its run.
    return float(np.hypot(1.0, normal[0] / normal[2]))


def _crossed(points: np.ndarray, y: float) -> list[float]:
    """Where the outline of a polygon in board axes meets the plane at y: their x.

    A corner on the plane counts, else a face would be met or missed by the last rounding.
    """
    found = [float(x) for x in points[np.abs(points[:, 1] - y) < ON_FACE_IN, 0]]
    for p, q in pairwise([*points, points[0]]):
        if (p[1] - y) * (q[1] - y) < 0:
            found.append(float(p[0] + (y - p[1]) / (q[1] - p[1]) * (q[0] - p[0])))
    return found
