"""Which stick each cut really lies against, and over how much of its surface.

Two sticks touch where a surface of one lies in the plane of a surface of the other, facing it,
and both polygons overlap. Found from the solids' surfaces alone, so that a cut list names the
true mate of every cut, and a cut with no mate is seen.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from shapely import Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from layout.framing.stick import NORMAL_DIGITS, CutPlane, Stick
from layout.vector import Array, Z, cross

SAME_WAY = 1e-9
IN_PLANE_IN = 1e-7
"""Planes whose normals and levels differ by less than these are one."""
TOUCH_IN2 = 1e-6
"""A smaller overlap is an edge that meets an edge."""


@dataclass(frozen=True)
class Contact:
    """A stick's cut lying against a mate: the area that touches [square inches].

    `share` is that area over the whole surface of the cut.
    """

    stick: str
    says: str
    mate: str
    area_in2: float
    share: float


def contacts(sticks: Sequence[Stick]) -> tuple[Contact, ...]:
    """Every contact of a cut with another stick, in the order of sticks and cuts."""
    surfaces = _Surfaces(sticks)
    return tuple(
        contact
        for stick in sticks
        for plane in stick.planes
        for contact in surfaces.on(stick, plane)
    )


def mated(sticks: Sequence[Stick]) -> tuple[Stick, ...]:
    """The sticks with every cut's `mate` set to the stick that covers most of it."""
    surfaces = _Surfaces(sticks)

    def mate_of(stick: Stick, plane: CutPlane) -> str:
        touching = surfaces.on(stick, plane)
        largest = max(touching, key=lambda contact: contact.area_in2, default=None)
        return "" if largest is None else largest.mate

    return tuple(stick.against(partial(mate_of, stick)) for stick in sticks)


class _Surfaces:
    """All planes of all sticks, with their surfaces drawn when asked."""

    def __init__(self, sticks: Sequence[Stick]) -> None:
        self._planes = [
            (stick, plane)
            for stick in sticks
            for plane in (*stick.blank, *(p for removal in stick.removals for p in removal))
        ]
        self._normals = np.array([plane.normal for _, plane in self._planes])
        self._levels = np.array([plane.level_in for _, plane in self._planes])
        self._drawn: dict[tuple[int, int], BaseGeometry] = {}

    def on(self, stick: Stick, plane: CutPlane) -> tuple[Contact, ...]:
        """The contacts of one stick's plane, one for each mate."""
        areas: dict[str, float] = defaultdict(float)
        for mate, facing in self._facing(plane):
            both = self._flat(stick, plane).intersection(self._flat(mate, facing))
            areas[mate.name] += both.area
        if not areas:
            return ()
        whole = self._flat(stick, plane).area
        return tuple(
            Contact(stick.name, plane.says, mate, area, area / whole)
            for mate, area in areas.items()
            if area > TOUCH_IN2
        )

    def _facing(self, plane: CutPlane) -> list[tuple[Stick, CutPlane]]:
        """Planes of one equation with this one that face the other way."""
        turned = np.abs(self._normals + plane.normal).max(axis=1) < SAME_WAY
        here = np.abs(self._levels + plane.level_in) < IN_PLANE_IN
        return [self._planes[i] for i in np.flatnonzero(turned & here)]

    def _flat(self, stick: Stick, plane: CutPlane) -> BaseGeometry:
        """The plane's surface as a flat polygon, in axes that the facing plane shares."""
        key = id(stick), id(plane)  # two plates may be clipped by one plane
        if key not in self._drawn:
            across, up = _flat_axes(plane.normal)
            flat = [Polygon(np.stack([p @ across, p @ up], axis=1)) for p in stick.surfaces(plane)]
            self._drawn[key] = unary_union(flat)
        return self._drawn[key]


def _flat_axes(normal: Array) -> tuple[Array, Array]:
    """Two axes in a plane, the same for both of its sides."""
    turned = normal if tuple(np.round(normal, NORMAL_DIGITS)) > (0.0, 0.0, 0.0) else -normal
    level = cross(Z, turned)
    size = float(np.linalg.norm(level))
    across = level / size if size > 1e-6 else np.array([1.0, 0.0, 0.0])
    return across, cross(turned, across)
