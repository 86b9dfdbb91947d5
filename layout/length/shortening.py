"""What a stick loses to the thickness of the stick it meets, and where its cheek's points lie.

A theoretical length ends on the center line of the ridge, hip or valley. The real stick ends
at its near side: half the thickness earlier, measured square to that side, in plan. Along the
stick's own plan line that is (thickness / 2) / sin g, with the plan angle g between the two;
this is the **level** measure: square back from the plumb line, on the middle of the stick's
thickness. Divided by the cosine of the stick's slope it is the measure along the board.
"""

from dataclasses import dataclass

import numpy as np

from layout.errors import LengthError
from layout.plane.joint import Joint
from layout.stock import Stock
from layout.vector import Array, dot

BESIDE = 1e-9
"""A stick that turns less than this toward the mate's side runs beside it and never ends there."""
NOTHING_IN = 1e-6
"""A rafter that is no longer than this is none [inches]."""


@dataclass(frozen=True)
class Shortening:
    """The deduction at one end of a stick [inches], on the middle of its thickness.

    `across_in` is half the mate's thickness, square to its side; `level_in` the same measured
    level along the stick, square back from the plumb line through the theoretical point;
    `along_in` the same along the board.
    """

    across_in: float
    level_in: float
    along_in: float


@dataclass(frozen=True)
class CheekPoints:
    """Where an end's cheeks lie along the board's edge, from the theoretical point [inches].

    Plus lies past that point, minus short of it: `centre_in` on the middle of the thickness,
    `long_in` at the long point, `short_in` at the short point. `shortening` belongs to the
    center and its `across_in` to the first plane.
    """

    centre_in: float
    long_in: float
    short_in: float
    shortening: Shortening


def shorten(along: Array, side: Array, across_in: float) -> Shortening:
    """Shorten a stick that runs along the unit vector `along` at a mate's plumb side.

    `side` is that side's unit normal, `across_in` its distance from the theoretical point
    [inches]. Both vectors have shape (3,). Walking a length of 1 along the stick comes nearer
    to the side by their product. Raises LengthError where the stick runs beside its mate.

    >>> round(shorten(np.array([0.8, 0.0, 0.6]), np.array([1.0, 0.0, 0.0]), 0.75).along_in, 4)
    0.9375
    """
    nearer = abs(float(dot(along, side)))
    if nearer <= BESIDE:
        raise LengthError(
            "the stick runs beside its mate and is never shortened by it;"
            " give a corner at which they cross"
        )
    along_in = across_in / nearer
    return Shortening(across_in, along_in * float(np.hypot(along[0], along[1])), along_in)


def check_left(run: str, stick: str, theoretical_in: float, head: CheekPoints) -> None:
    """Raise LengthError where the head takes off all of the theoretical length [inches].

    `run` is the common's run as it was said, `stick` what the rafter is called.
    """
    if theoretical_in + head.short_in <= NOTHING_IN:
        raise LengthError(
            f"a run of {run} is too short for a {stick}: its cut at the ridge takes off more than"
            " its whole length; give a longer run, such as 12'"
        )


def cheek_points(joint: Joint, stock: Stock, *across_in: float) -> CheekPoints:
    """The center, long point and short point of an end whose mates stand `across_in` away.

    Every plane of the joint lies `across_in` [inches] before the theoretical point, square to
    itself: half the thickness of the hip, valley, ridge or common; one number for all planes
    or one for each, minus where the plane lies past the point. In board axes from that point,
    n.p = -across gives x on any line along the board; an end that comes to a point stops at
    the first of its planes, a hollow one at the last. The lines run on the top edge, but with
    plumb planes a line at any other height gives the same lengths.
    """
    across = across_in * len(joint.planes) if len(across_in) == 1 else across_in
    normals = [joint.pose.to_board(plane.normal) for plane in joint.planes]
    toward = 1.0 if normals[0][0] > 0 else -1.0
    half = stock.thickness_in / 2
    lines = [-half, 0.0, half]
    if len(normals) == 2:
        lines += _crossings(normals, across, half)
    reach = np.array(
        [
            [toward * (-off - n[1] * y) / n[0] for y in lines]
            for n, off in zip(normals, across, strict=True)
        ]
    )
    ends = reach.min(axis=0) if joint.point else reach.max(axis=0)
    centre = float(ends[1])
    slope_level = float(np.hypot(*joint.pose.head[:2]))
    return CheekPoints(
        centre,
        float(ends.max()),
        float(ends.min()),
        Shortening(across[0], -centre * slope_level, -centre),
    )


def _crossings(normals: list[Array], across: tuple[float, ...], half: float) -> list[float]:
    """Where across the thickness two planes end a board at the same length [inches]."""
    first, second = normals
    turn = first[1] / first[0] - second[1] / second[0]
    if abs(turn) <= BESIDE:
        return []
    y = (across[1] / second[0] - across[0] / first[0]) / turn
    return [float(y)] if abs(y) < half else []
