"""Roof planes at a corner of a building, and the line where they meet.

World: X, Y level, Z up; the corner of the walls stands at the origin. The *own* roof is the
one whose pitch is asked for: its eave runs along the X axis and it rises toward +Y. The
*other* roof meets it at the corner. `hand` +1 puts the corner at the left of someone who
stands at the own eave and looks up the slope, -1 at the right: the mirror image in X.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from layout.errors import RoofError
from layout.vector import Angle, Array, Flags, Z, angle_deg, dot, sin_cos, unit, vector

PARALLEL = 1e-12
"""Two gradients nearer than this are one plane: there is no line in which they meet."""


def _tangent(sine: Array, cosine: Array) -> Array:
    tangent: Array = sine / cosine
    return tangent


@dataclass(frozen=True)
class Corner:
    """Two roof planes over two walls that meet at `interior_deg`, measured inside the building.

    `slope_deg` and `other_slope_deg` [degrees above level] belong to the own and the other
    roof; 90 is the square outside corner (a hip), 270 the square re-entrant one (a valley).
    All fields broadcast; a vector of the corner has shape (..., 3), a plan vector (..., 2).
    """

    slope_deg: Angle
    other_slope_deg: Angle
    interior_deg: Angle = 90.0
    hand: Angle = 1.0

    @cached_property
    def eave(self) -> Array:
        """Unit vector along the own eave, away from the corner (..., 3)."""
        return vector(self._hand, 0.0, 0.0)

    @cached_property
    def other_eave(self) -> Array:
        """Unit vector along the other eave, away from the corner (..., 3)."""
        sine, cosine = self._turn
        return vector(self._hand * cosine, sine, 0.0)

    @cached_property
    def inward(self) -> Array:
        """Level unit vector square to the own eave, into the building (..., 3)."""
        return vector(0.0 * self._hand, 1.0, 0.0)

    @cached_property
    def other_inward(self) -> Array:
        """Level unit vector square to the other eave, into the building (..., 3).

        The other eave turned a quarter toward the building: clockwise where the corner is
        at the left, so (cos w, sin w) becomes (sin w, -cos w).
        """
        sine, cosine = self._turn
        return vector(self._hand * sine, -cosine, 0.0)

    @cached_property
    def slope(self) -> Array:
        """Rise of the own roof on a level run of 1 up the slope (...)."""
        return _tangent(*self._sin_cos)

    @cached_property
    def other_slope(self) -> Array:
        """Rise of the other roof on a level run of 1 up its slope (...)."""
        return _tangent(*self._other_sin_cos)

    @cached_property
    def normal(self) -> Array:
        """Unit normal of the own roof, pointing up out of it (..., 3)."""
        return _roof_normal(*self._sin_cos, self.inward)

    @cached_property
    def other_normal(self) -> Array:
        """Unit normal of the other roof, pointing up out of it (..., 3)."""
        return _roof_normal(*self._other_sin_cos, self.other_inward)

    @cached_property
    def across(self) -> Array:
        """Level unit vector square to the hip or valley, to where the own plane is higher (..., 3).

        On a plane the height is g.p, with the gradient g = tan(slope) * inward. Both heights
        agree where (g - g').p = 0: the line is square to the difference of the gradients.
        At a hip it points to the other roof's side, at a valley to the own roof's side.
        Raises RoofError where both gradients are one: the walls make a single plane.
        """
        difference = self._gradient - self.other_slope[..., None] * self.other_inward
        size = np.sqrt(dot(difference, difference))
        steepest = np.maximum(self.slope, self.other_slope)
        if np.any(size <= PARALLEL * steepest):
            raise RoofError(
                "both roofs lie in one plane, so no hip or valley stands between them;"
                " give a corner other than 180 deg"
            )
        return difference / size[..., None]

    @cached_property
    def plan_line(self) -> Array:
        """Level unit vector along the hip or valley, the way it rises (..., 3)."""
        along = vector(self.across[..., 1], -self.across[..., 0], 0.0)
        return along * np.where(dot(along, self._gradient) < 0, -1.0, 1.0)[..., None]

    @cached_property
    def line_rise(self) -> Array:
        """Rise of the hip or valley on a level run of 1 along its own plan line (...)."""
        return dot(self._gradient, self.plan_line)

    @cached_property
    def line(self) -> Array:
        """Unit vector up along the hip or valley (..., 3)."""
        return unit(self.plan_line + self.line_rise[..., None] * Z)

    @cached_property
    def upslope(self) -> Array:
        """Unit vector straight up the own roof: a common's direction (..., 3)."""
        return unit(self.inward + self.slope[..., None] * Z)

    @cached_property
    def other_upslope(self) -> Array:
        """Unit vector straight up the other roof (..., 3)."""
        return unit(self.other_inward + self.other_slope[..., None] * Z)

    @property
    def line_slope_deg(self) -> Array:
        """Slope of the hip or valley above level [degrees]."""
        return np.degrees(np.arctan(self.line_rise))

    @property
    def plan_angle_deg(self) -> Array:
        """Angle in plan between the own eave's line and the hip or valley, 0 to 90 [degrees]."""
        return angle_deg(self.plan_line[..., 1], self.plan_line[..., 0])

    @property
    def unit_run(self) -> Array:
        """Plan length of the hip or valley over a unit of the own common's run (...)."""
        return 1.0 / np.abs(self.plan_line[..., 1])

    @property
    def reentrant(self) -> Flags:
        """True where the corner points into the building: a valley rises from it."""
        return np.asarray(self.interior_deg) > 180.0

    @cached_property
    def _sin_cos(self) -> tuple[Array, Array]:
        return sin_cos(self.slope_deg)

    @cached_property
    def _other_sin_cos(self) -> tuple[Array, Array]:
        return sin_cos(self.other_slope_deg)

    @cached_property
    def _turn(self) -> tuple[Array, Array]:
        return sin_cos(self.interior_deg)

    @cached_property
    def _gradient(self) -> Array:
        return self.slope[..., None] * self.inward

    @property
    def _hand(self) -> Array:
        return np.asarray(self.hand, dtype=float)


def _roof_normal(sine: Array, cosine: Array, inward: Array) -> Array:
    return -sine[..., None] * inward + cosine[..., None] * Z
