"""A circular saw on a board: which way its blade runs below the shoe, and which way it travels.

Everything is read from the plane's normal and from the surface that the shoe rides on. A common
circular saw tilts one way: the blade's lower edge swings in under the wide side of the shoe, the
side of the motor (common practice, no source). So the wide side rides on the side of the line
under which the blade must run, and that fixes from which end of the line the saw starts.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from layout.plane.cut import ALONG
from layout.tools.saw import SawKind
from layout.vector import Array, Y, Z, cross, dot

Side = Literal["left", "right", "top", "bottom"]
"""A surface along the board: the left or right face, the top or bottom edge."""
Start = Literal["left", "right", "top", "bottom", "head", "foot"]
"""Where a saw starts: an edge, for a shoe on a face; a face, for one on an edge; an end, for a
rip."""
Below = Literal["under_waste", "under_kept", "square"]
Wood = Literal["kept", "waste"]

OUTWARD: dict[Side, Array] = {"left": Y, "right": -Y, "top": Z, "bottom": -Z}
"""The normal of each surface, out of the board."""
SIDES: tuple[Side, ...] = ("right", "left", "top", "bottom")
LEVEL_LEAN = 1e-9
"""A blade that leans by less stands square: rounding alone."""


ONE_WAY = (SawKind.BLADE_LEFT, SawKind.BLADE_RIGHT)
"""The saws that tilt one way, for which the lean fixes where to start."""


@dataclass(frozen=True)
class Lean:
    """What the blade does below a shoe that rides one surface of the board.

    `below` says under which wood it runs in; `toward` is where it runs along the board, None for
    a square blade and for a rip; `toward_side` is the edge or face toward which it runs on a rip.
    """

    below: Below
    toward: Literal["head", "foot"] | None
    toward_side: Side | None


def lean(normal: Array, side: Side) -> Lean:
    """Read a plane's lean below a shoe on `side`, from its normal (3,) out of the kept wood.

    With the surface's outward normal u and m = n.u, the blade goes into the wood along
    -u + m n, which runs along n by m (1 - m^2): toward the waste where m > 0. Along the board
    that direction has x = m nx.
    """
    outward = OUTWARD[side]
    m = float(dot(normal, outward))
    if abs(m) <= LEVEL_LEAN:
        return Lean("square", None, None)
    below: Below = "under_waste" if m > 0 else "under_kept"
    if abs(float(normal[0])) > ALONG:
        return Lean(below, "head" if m * float(normal[0]) > 0 else "foot", None)
    return Lean(below, None, _side_of(m * (normal - m * outward)))


def wide_side(normal: Array, side: Side) -> Wood:
    """The wood on which the wide side of the shoe rides, for a saw that tilts one way.

    It is the wood under which the blade runs; a square blade leaves the choice, and the wide
    side is best held by the kept wood.
    """
    return "waste" if lean(normal, side).below == "under_waste" else "kept"


def travel(normal: Array, side: Side, kind: SawKind, wide_on: Wood | None = None) -> Array | None:
    """The unit direction of travel along the line, in board axes (3,).

    `wide_on` is the wood on which the wide side rides, `wide_side` where it is not said. Facing
    along the travel t on a surface with outward normal u, the left is u x t; the wide side is on
    the left of a blade-right saw and on the right of a blade-left one. With d the direction in
    the surface toward the wide side, u x t = d gives t = d x u. None for a saw that tilts both
    ways, which may go either way, and where the plane never meets the surface in a line.
    """
    outward = OUTWARD[side]
    in_surface = normal - float(dot(normal, outward)) * outward
    size = float(np.sqrt(dot(in_surface, in_surface)))
    if kind is SawKind.BOTH_WAYS or size <= LEVEL_LEAN:
        return None
    to_waste = in_surface / size
    to_wide = to_waste if (wide_on or wide_side(normal, side)) == "waste" else -to_waste
    wide_at_left = kind is SawKind.BLADE_RIGHT
    way: Array = cross(to_wide, outward) * (1.0 if wide_at_left else -1.0)
    return way


def start_from(normal: Array, side: Side, kind: SawKind) -> Start | None:
    """The end of the line at which this saw starts; None where it may start at either."""
    way = travel(normal, side, kind)
    if way is None:
        return None
    if abs(float(normal[0])) <= ALONG:
        return "foot" if way[0] > 0 else "head"
    if side in ("left", "right"):
        return "bottom" if way[2] > 0 else "top"
    return "right" if way[1] > 0 else "left"


def _side_of(direction: Array) -> Side:
    """The surface toward which a direction square to the board's length points most."""
    if abs(float(direction[1])) > abs(float(direction[2])):
        return "left" if direction[1] > 0 else "right"
    return "top" if direction[2] > 0 else "bottom"
