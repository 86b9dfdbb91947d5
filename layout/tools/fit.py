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
        wide = np.flatnonzero(self.gaps_in > self.gaps_in.max() - SAME_GAP_IN)
        across, up = (_CORNERS if self.spots is None else self.spots)[wide].T
        right, left, bottom, top = self.sides
        side, edge = _all_at(across, right, left), _all_at(up, bottom, top)
        if not (side or edge):
            return "all over"
        if not (side and edge):
            return f"along the {side or edge}"
        if edge in ("bottom edge", "top edge"):
            return f"at the {edge.removesuffix(' edge')} of the {side}"
        return f"where the {edge} meets the {side}"


_CORNERS: Array = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
"""The corners of a cut surface in the order of `Cut.corners`: across, then up."""


def _all_at(places: Array, low: str, high: str) -> str:
    """The bound at which all of these places lie, from 0 at `low` to 1 at `high`; else nothing."""
    if np.abs(places).max() < SAME_GAP_IN:
        return low
    return high if np.abs(places - 1.0).max() < SAME_GAP_IN else ""


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
    return Fit(gaps, (corners[..., 1:] - low) / np.where(high > low, high - low, np.inf))
