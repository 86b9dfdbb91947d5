"""The cut end stood against its mate: where they touch, and how far they gape.

The board is slid along its length until the cut first touches the mating plane; the gap at
each corner of the cut is then measured square to that plane, on its way to the mate.
"""

from dataclasses import dataclass, replace

import numpy as np

from layout.plane.cut import Cut
from layout.vector import Array, Flags, dot

SOUND_IN = 1e-9
"""A method whose gap with exact settings stays below this puts the same plane there."""


SAME_GAP_IN = 1e-6
"""Corners whose gaps differ by less open together."""


WHOLE_SECTION = ("right face", "left face", "bottom edge", "top edge")
"""The bounds of a plane that shapes the whole section of the board."""


@dataclass(frozen=True, eq=False)
class Fit:
    """Gaps between a cut and its mate, at the corners of the cut surface [inches].

    `gaps_in` (..., 4) follows the order of `Cut.corners`: right bottom, left bottom, left top,
    right top of the part that the plane shapes; the smallest is 0, where they touch. Where that
    part is no rectangle, `spots` (k, 2) are the corners' places in it, from (0, 0) at the right
    bottom to (1, 1) at the left top. `sides` are the names of that part's own bounds, right, left,
    bottom, top: of a notch the last is its inside corner.
    """

    gaps_in: Array
    spots: Array | None = None
    sides: tuple[str, str, str, str] = WHOLE_SECTION

    @property
    def widest_in(self) -> Array:
        """The widest gap [inches] (...)."""
        widest: Array = self.gaps_in.max(axis=-1)
        return widest

    @property
    def opens_at(self) -> str:
        """Where the widest gap opens, in words; for a single cut."""
        gaps = self.gaps_in
        wide = np.flatnonzero(gaps > gaps.max() - SAME_GAP_IN)
        spots = _CORNERS if self.spots is None else self.spots
        met = {
            i for i, corner in enumerate(_CORNERS) if np.any(np.all(_near(spots[wide], corner), -1))
        }
        if any(not np.any(np.all(_near(spot, _CORNERS), axis=-1)) for spot in spots[wide]):
            sides = ((0, 0.0), (0, 1.0), (1, 0.0), (1, 1.0))
            met = next(
                (
                    {i for i, corner in enumerate(_CORNERS) if corner[axis] == at}
                    for axis, at in sides
                    if np.all(_near(spots[wide, axis], at))
                ),
                set(),
            )
        right, left, bottom, top = self.sides
        along = {(0, 3): right, (1, 2): left, (0, 1): bottom, (2, 3): top}
        at = {0: (bottom, right), 1: (bottom, left), 2: (top, left), 3: (top, right)}
        place = tuple(sorted(met))
        if place in along:
            return f"along the {along[place]}"
        if len(place) != 1:
            return "all over"
        edge, side = at[place[0]]
        if edge in ("bottom edge", "top edge"):
            return f"at the {edge.removesuffix(' edge')} of the {side}"
        return f"where the {edge} meets the {side}"


_CORNERS: Array = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
"""The corners of a cut surface in the order of `Cut.corners`: across, then up."""


def _near(one: Array, other: Array | float) -> Flags:
    return np.asarray(np.abs(one - other) < SAME_GAP_IN)


def fit(reference: Cut, normal: Array) -> Fit:
    """Stand a cut with this normal (..., 3) against the mate of the reference cut.

    Sliding along the board changes every corner's distance to the mate by the same amount, so
    with s = n_ref . p over the corners p of the cut that was made, contact is at the largest s
    and the gap at a corner is max(s) - s. A rip is pressed on square to the mate: the same rule.
    """
    made = replace(reference, normal=np.asarray(normal, dtype=float))
    corners = made.reached()
    if not corners.shape[-2]:
        return Fit(np.zeros(1))  # no surface, so no gap
    reach = dot(reference.normal[..., None, :], corners)
    gaps = reach.max(axis=-1, keepdims=True) - reach
    if reference.outline is None:
        return Fit(gaps)
    low, high = (reference.span[..., None, :, bound] for bound in (0, 1))
    return Fit(gaps, (corners[..., 1:] - low) / np.where(high > low, high - low, 1.0))
