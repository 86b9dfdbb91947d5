"""A stick's bird's mouth as it is measured on the stick: seat, heel, height above the plate, depth.

Read off the solid on the middle of the thickness, where a hip's heel is deepest.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from layout.framing.ends import place_of
from layout.framing.on_face import mark_left_in, on_face
from layout.framing.stick import CutPlane, Stick
from layout.vector import Z

LEVEL = 1e-9
LEAST_HEEL_IN = 1e-6
"""A heel's mark shorter than this is none."""


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
    seats = _seats(stick)
    if not seats or not stick.on_plate:
        return None
    seat = seats[0]
    level = float(np.hypot(*stick.pose.head[:2]))
    middle = stick.stock.thickness_in / 2
    along = on_face(stick, seats, middle)[:, 0]
    run = float(np.ptp(along)) * _in_plan(stick, seat) if len(along) else 0.0
    # The building line stands over the datum on the top edge, plumb; a seat is level, its normal
    # straight down.
    top_in = float(stick.origin[2] + stick.stock.depth_in * stick.pose.up[2])
    above = top_in + float(seat.level_in)
    slope = float(stick.pose.head[2]) / level
    every = [points for one in seats for points in stick.surfaces(one)]
    notch = float(stick.in_board(np.concatenate(every))[:, 2].max())
    on_middle = run * float(stick.pose.head[2])
    return StickMouth(run, run * slope, above, on_middle, notch)


@dataclass(frozen=True)
class FaceMouth:
    """A bird's mouth as it is marked on one face of a stick [inches].

    `seat_in` is level along the stick, `heel_in` plumb and `notch_in` square to the edge, all on
    that face. `heel_at_in` is where the heel's plumb line meets the top edge there, from the datum
    toward the head. Both are None where the foot cut has taken the heel away on that face.
    """

    side: Literal["right", "left"]
    seat_in: float
    heel_in: float | None
    notch_in: float
    heel_at_in: float | None


def face_mouths(stick: Stick) -> tuple[FaceMouth, ...]:
    """The mouth on the right and the left face; none where the stick has no mouth.

    On a hip the heel leaves each face nearer the head than the middle of the thickness, on a
    valley nearer the foot: one marks on the faces. A jack whose foot a valley ends before the
    outside of the wall has another seat on either face, and no heel there.
    """
    seats = _seats(stick)
    if not seats or not stick.on_plate:
        return ()
    seat = seats[0]
    normal, plumb = stick.pose.to_board(seat.normal), stick.pose.to_board(Z)
    slope = float(stick.pose.head[2]) / float(np.hypot(*stick.pose.head[:2]))
    heels = tuple(
        plane
        for removal in stick.removals
        if place_of(stick, removal) == "seat"
        for plane in removal
        if abs(float(plane.normal @ Z)) < LEVEL
    )
    found = []
    for side, y in (("right", 0.0), ("left", stick.stock.thickness_in)):
        along = on_face(stick, seats, y)[:, 0]
        if not len(along):
            continue
        run = float(np.ptp(along)) * _in_plan(stick, seat)
        # The heel is the seat's end toward the foot; from there it runs plumb to the top edge.
        foot = float(along.min())
        low = stick.in_board(-seat.level_in * Z)
        z = float(normal @ (low - np.array([foot, y, 0.0])) / normal[2])
        at = foot + (stick.stock.depth_in - z) * float(plumb[0] / plumb[2])
        heel = heels and mark_left_in(stick, heels, y) > LEAST_HEEL_IN
        found.append(
            FaceMouth(
                side,  # type: ignore[arg-type]
                run,
                run * slope if heel else None,
                run * float(stick.pose.head[2]),
                at if heel else None,
            )
        )
    return tuple(found)


def _seats(stick: Stick) -> tuple[CutPlane, ...]:
    """The planes of the seat that leave a surface; a valley's lies on both plates, beyond either
    heel, and each has its own plane."""
    removals = [r for r in stick.removals if place_of(stick, r) == "seat"]
    level = [p for r in removals for p in r if float(p.normal @ Z) < -1 + LEVEL]
    return tuple(p for p in level if stick.surfaces(p))


def _in_plan(stick: Stick, seat: CutPlane) -> float:
    """Level length for a unit along the board on a seat: the seat's mark runs level."""
    normal = stick.pose.to_board(seat.normal)
    # On the seat dz/dx = -nx / nz in board axes; the way is level, so its length is its run.
    return float(np.hypot(1.0, normal[0] / normal[2]))
