"""A stick of a framed roof as a body with facets, to be drawn in any view.

Its surfaces are asked of the frame itself, so what is drawn is what will be cut.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from figures.ink.drawing import Polygon
from figures.wood.drawn_solid import Facet, facing_flat
from layout.framing.stick import CutPlane, Stick
from layout.vector import Array, X, Y, Z

BLANK = ("right face", "left face", "bottom edge", "top edge")
_GROW = 1e-6
"""Polygons of one surface that are rounded apart by less than this are one [in]."""


@dataclass(frozen=True)
class Body:
    """A stick's name and the facets of its wood, those of its cuts last."""

    name: str
    facets: tuple[Facet, ...]


@dataclass(frozen=True)
class _Axes:
    """The axes in which a body stands: rows (3, 3) from the world, and the origin (3,) there."""

    rows: Array
    origin: Array

    def points(self, points: Array) -> Array:
        """World points (..., 3) [in] in these axes."""
        turned: Array = (points - self.origin) @ self.rows.T
        return turned


def in_board(stick: Stick) -> Body:
    """The stick in its own board axes, x from the datum toward the head [in]."""
    pose = stick.pose
    return _body(stick, _Axes(np.stack([pose.head, pose.left, pose.up]), stick.origin))


def in_world(stick: Stick) -> Body:
    """The stick where it stands in the roof [in]."""
    return _body(stick, _Axes(np.stack([X, Y, Z]), np.zeros(3)))


def _body(stick: Stick, axes: _Axes) -> Body:
    planes: list[tuple[str, CutPlane]] = list(zip(BLANK, stick.blank, strict=True))
    planes += [(f"cut {i}", plane) for i, plane in enumerate(stick.planes)]
    found = (_facet(name, plane, stick.surfaces(plane), axes) for name, plane in planes)
    return Body(stick.name, tuple(facet for facet in found if facet is not None))


def _facet(name: str, plane: CutPlane, surfaces: Sequence[Array], axes: _Axes) -> Facet | None:
    if not surfaces:
        return None
    normal = axes.rows @ plane.normal
    spots = [axes.points(surface) for surface in surfaces]
    flat = facing_flat(normal, spots[0][0])
    return Facet(name, flat, _joined([flat.seen(points) for points in spots]))


def _joined(polygons: Sequence[Array]) -> Polygon:
    """Polygons that may overlap as one, without the seams that rounding leaves."""
    if len(polygons) == 1:
        return shapely.Polygon(polygons[0])
    grown = [
        shapely.buffer(shapely.Polygon(points), _GROW, join_style="mitre") for points in polygons
    ]
    joined = shapely.buffer(shapely.union_all(grown), -_GROW, join_style="mitre")
    return shapely.simplify(joined, 10 * _GROW)
