"""A cut: one plane through a board, and the marks it leaves on every surface.

Board axes: x toward the head, y from the right face (0) to the left face (thickness), z from
the bottom edge (0) to the top edge (depth), in inches. The normal points out of the kept wood.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from layout.stock import Stock
from layout.vector import Angle, Array, Flags, X, Y, Z, angle_deg, cross, dot, vector

ALONG = 1e-12
"""A normal with a smaller x runs along the board: a rip, which no section square across meets."""
LONG_IN = 1e4
"""Half the length of a board that is longer than any stick [inches]."""


@dataclass(frozen=True, eq=False)
class Cut:
    """A plane in board axes: its unit `normal` (..., 3) points out of the kept wood.

    `point` (..., 3) lies on it [inches]. `span` (..., 2, 2) is the part of the section that it
    shapes, ((y0, y1), (z0, z1)) [inches]: the whole section for a single cut, half the
    thickness for one of two cheeks. It has no width where the joint's other planes leave the
    plane no surface. `outline` is the cut surface as convex polygons (k, 3) that may overlap,
    where it is no rectangle of the section [inches]; for arrays of cuts, all their corners in
    one array (..., k, 3), some of them said twice.
    """

    normal: Array
    point: Array
    span: Array
    outline: tuple[Array, ...] | None = None

    @property
    def level_in(self) -> float:
        """n.p of every point of the plane [inches]; for one cut, not for arrays of them."""
        return float(dot(self.normal, self.point))

    @cached_property
    def face_mark_deg(self) -> Array:
        """Angle on a wide face between the mark and square across [degrees], 0 to 90."""
        return mark_deg(self.normal, Y)

    @cached_property
    def edge_mark_deg(self) -> Array:
        """Angle on an edge between the mark and square across [degrees], 0 to 90."""
        return mark_deg(self.normal, Z)

    @cached_property
    def face_tilt_deg(self) -> Array:
        """Tilt of a saw whose shoe rides a wide face, from square to it [degrees], 0 to 90."""
        return tilt_deg(self.normal, Y)

    @cached_property
    def edge_tilt_deg(self) -> Array:
        """Tilt of a saw whose shoe rides an edge, from square to it [degrees], 0 to 90."""
        return tilt_deg(self.normal, Z)

    @property
    def edge_number(self) -> Array:
        """Across 12 on one arm of the square, the number along the other [inches].

        12 |nx| / |ny|; infinite where the mark runs square across the edge.
        """
        with np.errstate(all="ignore"):
            return np.where(
                np.abs(self.normal[..., 1]) <= ALONG,
                np.inf,
                12 * np.abs(self.normal[..., 0]) / np.abs(self.normal[..., 1]),
            )

    @property
    def at_head(self) -> Flags:
        """True where the wood ends toward the head, False toward the foot."""
        return self.normal[..., 0] > 0

    @cached_property
    def runs_along(self) -> Flags:
        """True for a rip: the plane runs along the board and never ends it."""
        return np.abs(self.normal[..., 0]) <= ALONG

    @property
    def top_lean(self) -> Array:
        """Shift of the face mark toward the head over a unit up the depth: dx/dz = -nz/nx (...)."""
        return -self.normal[..., 2] / self.normal[..., 0]

    @property
    def left_lean(self) -> Array:
        """Shift of the edge mark toward the head over a unit to the left: dx/dy = -ny/nx (...)."""
        return -self.normal[..., 1] / self.normal[..., 0]

    def x_at(self, y_in: Angle, z_in: Angle) -> Array:
        """Where the plane crosses the line at (y, z) along the board [inches] (...).

        n.(p - p0) = 0 solved for x. Infinite for a rip.
        """
        n, p = self.normal, self.point
        with np.errstate(all="ignore"):
            return (dot(n, p) - n[..., 1] * y_in - n[..., 2] * z_in) / n[..., 0]

    def reached(self) -> Array:
        """The corners of the surface that this plane leaves (..., k, 3) [inches].

        Those of `outline`, moved along the board onto this plane, else `corners`.
        """
        if self.outline is None or bool(np.any(self.runs_along)):
            return self.corners()
        nothing = np.empty((*self.normal.shape[:-1], 0, 3))
        corners = np.concatenate([*self.outline, nothing], axis=-2)
        y, z, n = corners[..., 1], corners[..., 2], self.normal[..., None, :]
        level = dot(self.normal, self.point)[..., None]
        return vector((level - n[..., 1] * y - n[..., 2] * z) / n[..., 0], y, z)

    @cached_property
    def strip(self) -> tuple[Array, Array]:
        """Where the two lines of a rip cross the section at x = 0 (3,) [inches]; for one rip.

        The first and the third of its `corners`, which are asked for often.
        """
        (y0, y1), (z0, z1) = self.span.tolist()
        _, across, up = self.normal.tolist()
        level = self.level_in
        if abs(up) > ALONG:
            z0, z1 = ((level - across * y) / up for y in (y0, y1))
        else:
            y0 = y1 = level / across
        return np.array([0.0, y0, z0]), np.array([1.0, y1, z1])

    def corners(self) -> Array:
        """The four corners of the cut surface over its span (..., 4, 3) [inches].

        Order: (y0, z0), (y1, z0), (y1, z1), (y0, z1). A rip is open along the board: its
        corners are the edges of the strip at x = 0 and x = 1.
        """
        if self.normal.ndim == self.point.ndim == 1 and self.span.ndim == 2 and not self.runs_along:
            return self._four_corners()
        (y0, y1), (z0, z1) = ((self.span[..., axis, 0], self.span[..., axis, 1]) for axis in (0, 1))
        y = np.stack([y0, y1, y1, y0], axis=-1)
        z = np.stack([z0, z0, z1, z1], axis=-1)
        n = self.normal[..., None, :]
        level = dot(self.normal, self.point)[..., None]
        if not np.any(self.runs_along):
            return vector((level - n[..., 1] * y - n[..., 2] * z) / n[..., 0], y, z)
        rip = self.runs_along[..., None]
        over_y = rip & (np.abs(n[..., 2]) > ALONG)
        strip_y = np.stack([y0, y0, y1, y1], axis=-1)
        along = np.array([0.0, 1.0, 1.0, 0.0])
        with np.errstate(all="ignore"):
            x = (level - n[..., 1] * y - n[..., 2] * z) / n[..., 0]
            z_rip = (level - n[..., 1] * strip_y) / n[..., 2]
            y_rip = level / n[..., 1]
        return vector(
            np.where(rip, along, x),
            np.where(over_y, strip_y, np.where(rip, y_rip, y)),
            np.where(over_y, z_rip, z),
        )

    def _four_corners(self) -> Array:
        """The corners of one cut that is no rip (4, 3): asked for far oftener than those of many,
        and plain numbers take a tenth of the time."""
        (y0, y1), (z0, z1) = self.span.tolist()
        along, across, up = self.normal.tolist()
        level = self.level_in
        section = ((y0, z0), (y1, z0), (y1, z1), (y0, z1))
        return np.array([((level - across * y - up * z) / along, y, z) for y, z in section])


def whole_section(stock: Stock) -> Array:
    """The span of a cut that shapes the whole section, ((0, thickness), (0, depth)) [inches]."""
    return np.array([[0.0, stock.thickness_in], [0.0, stock.depth_in]])


def mark_deg(normal: Array, surface: Array) -> Array:
    """Angle of a plane's mark on a surface of the board, from square across it [degrees], 0 to 90.

    `surface` is the unit normal of any surface that runs along the board (..., 3). The mark is
    m = n cross s and square across is c = s cross x; since s.x = 0, m.x = n.c and |m.c| = |n.x|,
    so the angle is atan(|n.c| / |n.x|). On a face (s = y) that is atan(|nz| / |nx|).
    """
    across = cross(surface, X)
    return angle_deg(dot(normal, across), normal[..., 0])


def tilt_deg(normal: Array, surface: Array) -> Array:
    """Tilt of a saw whose shoe rides a surface, from square to it [degrees], 0 to 90.

    A blade square to the surface contains s, so n.s = 0; tilted by t its normal leans out of
    the surface by the same t: |n.s| = sin t.
    """
    sine = dot(normal, surface)
    return angle_deg(sine, np.sqrt(np.maximum(0.0, dot(normal, normal) - sine**2)))


def long_board(stock: Stock) -> tuple[Cut, ...]:
    """A board as planes: right and left face, bottom and top edge, and ends LONG_IN either way."""
    far, whole = vector(LONG_IN, stock.thickness_in, stock.depth_in), whole_section(stock)
    sides = ((-Y, 0 * Y), (Y, far), (-Z, 0 * Z), (Z, far), (-X, -far), (X, far))
    return tuple(Cut(normal, point, whole) for normal, point in sides)
