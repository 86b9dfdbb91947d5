"""The framing square: two numbers that lay any angle, and which arm to mark along.

The square lies on the stock with one number of each arm on the arris. Marked along the arm
that carries `mark`, while the other arm carries `other`, the line makes atan(mark / other) with
square across the stock, and atan(other / mark) with its length.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from layout.quantity import nearest

BLADE_IN, TONGUE_IN = 24.0, 16.0
"""Lengths of the arms, 24 x 2 and 16 x 1 1/2 (NAVEDTRA 14044; 14 to 18 in tongues are sold)."""
GRADUATION = 16
"""The outer edges are divided into sixteenths; a number is laid to the nearest."""
SMALLEST_IN = 1.0
"""A number below this puts both marks so near the heel that the square cannot be held true."""
CLOSE_IN = 1 / 64
ROUNDING_IN = 1e-9
"""A rise worked out as 16.000000000000004 still lies on a 16 in tongue."""

Arm = Literal["blade", "tongue"]


@dataclass(frozen=True)
class Numbers:
    """Two numbers on the square's arms [inches] and the arm to mark along.

    `mark` stands on the arm that is marked along, `other` on the other arm.
    """

    mark: float
    other: float
    mark_arm: Arm

    @property
    def other_arm(self) -> Arm:
        """The arm that is only held."""
        return "blade" if self.mark_arm == "tongue" else "tongue"

    @property
    def blade(self) -> float:
        """The number on the blade [inches]."""
        return self.mark if self.mark_arm == "blade" else self.other

    @property
    def tongue(self) -> float:
        """The number on the tongue [inches]."""
        return self.mark if self.mark_arm == "tongue" else self.other

    @property
    def from_square_deg(self) -> float:
        """The angle laid, from square across the stock [degrees]."""
        return float(np.degrees(np.arctan2(self.mark, self.other)))

    def as_read(self, parts: int = GRADUATION) -> "Numbers":
        """The numbers as they are laid on a real square, to the nearest 1/`parts`."""
        return Numbers(nearest(self.mark, parts), nearest(self.other, parts), self.mark_arm)


def fits(mark: float, other: float, mark_arm: Arm = "tongue") -> Arm | None:
    """The arm for `mark` on which both numbers can be laid, None where there is none.

    `mark_arm` is chosen where both ways work.
    """
    if min(mark, other) < SMALLEST_IN - ROUNDING_IN:
        return None
    blade, tongue = BLADE_IN + ROUNDING_IN, TONGUE_IN + ROUNDING_IN
    reaches = {
        "tongue": mark <= tongue and other <= blade,
        "blade": mark <= blade and other <= tongue,
    }
    if reaches[mark_arm]:
        return mark_arm
    arms: tuple[Arm, Arm] = ("tongue", "blade")
    return next((arm for arm in arms if reaches[arm]), None)


def numbers(mark: float, other: float, mark_arm: Arm = "tongue") -> Numbers:
    """Lay a line whose tangent from square across is mark / other, with the numbers themselves.

    `mark_arm` is the arm to mark along where either would do: the tongue for an edge mark (12
    on the tongue) and a plumb cut (rise on the tongue), the blade for a level cut. Where the
    numbers do not fit the arms they are halved, and halved again: the angle is the same. Where
    one of them grows too small that way, a pair is searched for.
    """
    for halvings in range(3):
        shrink = 0.5**halvings
        arm = fits(mark * shrink, other * shrink, mark_arm)
        if arm is not None:
            return Numbers(mark * shrink, other * shrink, arm)
    return search(mark, other)


def search(mark: float, other: float) -> Numbers:
    """The pair on the arms that lays mark / other best when both are read in sixteenths.

    One arm carries each sixteenth up to its length in turn, the other the exact number that
    belongs to it. Of the pairs whose exact number lies within CLOSE_IN of a sixteenth, the one
    that errs least in angle wins; a number that reads 0 means square across, or straight along.
    """
    steepness = min(mark, other) / max(mark, other)
    large = np.arange(BLADE_IN * GRADUATION, 0, -1) / GRADUATION
    large = large[large * steepness <= TONGUE_IN]
    small = large * steepness
    off = np.abs(small - np.floor(small * GRADUATION + 0.5) / GRADUATION)
    best = np.argmin(np.where(off <= CLOSE_IN, off / large, np.inf))
    pair = float(small[best]), float(large[best])
    return Numbers(*pair, "tongue") if mark <= other else Numbers(*pair[::-1], "blade")
