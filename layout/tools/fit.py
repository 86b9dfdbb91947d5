"""The cut end stood against its mate: where they touch, and how far they gape.

The board is slid along its length until the cut first touches the mating plane; the gap at
each corner of the cut is then measured square to that plane, on its way to the mate.
"""

from dataclasses import dataclass, replace

import numpy as np

from layout.plane.cut import Cut
from layout.vector import Array, dot

SOUND_IN = 1e-9
"""A method whose gap with exact settings stays below this puts the same plane there."""


SAME_GAP_IN = 1e-6
"""Corners whose gaps differ by less open together."""


@dataclass(frozen=True)
class Fit:
    """Gaps between a cut and its mate, at the corners of the cut surface [inches].

    `gaps_in` (..., 4) follows the order of `Cut.corners`: right bottom, left bottom, left top,
    right top of the part that the plane shapes; the smallest is 0, where they touch.
    """

    gaps_in: Array

    @property
    def widest_in(self) -> Array:
        """The widest gap [inches] (...)."""
        widest: Array = self.gaps_in.max(axis=-1)
        return widest

    @property
    def opens_at(self) -> str:
        """Where the widest gap opens, in words; for a single cut."""
        gaps = self.gaps_in
        wide = frozenset(np.flatnonzero(gaps > gaps.max() - SAME_GAP_IN).tolist())
        return _PLACES.get(wide, "all over")


_PLACES = {
    frozenset({0}): "at the bottom of the right face",
    frozenset({1}): "at the bottom of the left face",
    frozenset({2}): "at the top of the left face",
    frozenset({3}): "at the top of the right face",
    frozenset({0, 3}): "along the right face",
    frozenset({1, 2}): "along the left face",
    frozenset({0, 1}): "along the bottom edge",
    frozenset({2, 3}): "along the top edge",
}
"""Corners of the cut surface, by their place in `Cut.corners`."""


def fit(reference: Cut, normal: Array) -> Fit:
    """Stand a cut with this normal (..., 3) against the mate of the reference cut.

    Sliding along the board changes every corner's distance to the mate by the same amount, so
    with s = n_ref . p over the corners p of the cut that was made, contact is at the largest s
    and the gap at a corner is max(s) - s. A rip is pressed on square to the mate: the same rule.
    """
    made = replace(reference, normal=np.asarray(normal, dtype=float))
    reach = dot(reference.normal[..., None, :], made.corners())
    return Fit(reach.max(axis=-1, keepdims=True) - reach)
