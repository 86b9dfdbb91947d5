"""How a board lies on a miter saw, and which way its table turns and its blade leans.

Seen by who stands before the saw: right and left are theirs, the fence is at the far side of the
board. The table turns left where its front swings to the left; the blade leans left where its
top leans to the left. A saw that leans one way leans left (from memory).
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from layout.plane.cut import ALONG
from layout.tools.travel import OUTWARD, SIDES, Side
from layout.vector import Array, X, cross, dot

Swing = Literal["left", "right"]
SQUARE = 1e-9
"""A table or blade off square by less than this sine stands square."""


@dataclass(frozen=True)
class MiterSetting:
    """A board on the miter saw: how it lies, how the table turns, how the blade leans.

    `up` is the surface that looks up, `down` the one on the table, `fence` the one against the
    fence; `head` says to which hand the head points, `waste` to which hand the waste falls.
    `table` and `lean` are None where they stand square; the angles are in degrees.
    """

    up: Side
    down: Side
    fence: Side
    head: Swing
    waste: Swing
    table_deg: float
    table: Swing | None
    tilt_deg: float
    lean: Swing | None


def miter_setting(normal: Array, *, flat: bool) -> MiterSetting:
    """The position in which the blade leans left and the waste lies at the right.

    Of the four ways to lay the board, face or edge up and head left or right, each pair of turn
    and lean comes once; a lean to the left serves every saw, and with the waste at the right the
    blade leans over the wood that is held, so the offcut is not caught below it. A blade that
    stands square leaves two ways: the left face, or the top edge, is then up. `normal` (3,)
    points out of the kept wood and must end the board.
    """
    ups: tuple[Side, Side] = ("left", "right") if flat else ("top", "bottom")
    found = [_laid(normal, up, head) for up in ups for head in ("right", "left")]
    return next(one for one in found if one.waste == "right" and one.lean in ("left", None))


def _laid(normal: Array, up: Side, head: str) -> MiterSetting:
    """One way to lay the board: saw axes are right, away (to the fence) and up."""
    above = OUTWARD[up]
    right = X if head == "right" else -X
    away = cross(above, right)
    x, y, z = (float(dot(normal, axis)) for axis in (right, away, above))
    fence = next(side for side in SIDES if float(dot(OUTWARD[side], away)) > 0.5)
    down = next(side for side in SIDES if float(dot(OUTWARD[side], above)) < -0.5)
    # Where the plane meets the table, x = -y_away * y / x: its front, at y_away = -1, is at y / x.
    turned = y / x if abs(x) > ALONG else np.inf
    # Up the blade the plane runs to x = -z / x.
    leaned = -z / x if abs(x) > ALONG else np.inf
    return MiterSetting(
        up,
        down,
        fence,
        "right" if head == "right" else "left",
        "right" if x > 0 else "left",
        float(np.degrees(np.arctan2(abs(y), abs(x)))),
        _way(turned),
        float(np.degrees(np.arcsin(min(1.0, abs(z))))),
        _way(leaned),
    )


def _way(shift: float) -> Swing | None:
    if abs(shift) <= SQUARE:
        return None
    return "right" if shift > 0 else "left"
