"""Wood as a solid: a blank less its removals.

A **removal** is the wood that lies beyond all its planes at once: one plane for an end, a cheek
or a rip, two for a notch or a hollow end, three for a notch round a corner. Wood stays where it
lies behind at least one plane of every removal, so a double cheek is two removals and a bird's
mouth is one. Planes are in any one frame, the board's own axes or the world's [inches].
"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import combinations, product
from typing import Generic, Protocol, TypeVar

import numpy as np
import numpy.typing as npt

from layout.vector import Array, cross

SAME_IN = 1e-8
"""Points nearer than this are one; a corner this far beyond a plane still lies on it."""
FLAT = 1e-6
"""Three planes whose unit normals span less than this meet in no point worth the name."""


class Flat(Protocol):
    """A plane: unit `normal` (3,) out of the kept wood, and `level_in` = n.p of its points."""

    @property
    def normal(self) -> Array:
        """Unit normal out of the kept wood (3,)."""

    @property
    def level_in(self) -> float:
        """n.p of every point p of the plane [inches]."""


P = TypeVar("P", bound=Flat)


def beyond_in(plane: Flat, points: Array) -> Array:
    """How far points (..., 3) lie beyond a plane, in the waste [inches] (...)."""
    distance: Array = points @ plane.normal - plane.level_in
    return distance


@dataclass(frozen=True)
class Solid(Generic[P]):
    """A convex blank behind the planes of `blank`, less every one of `removals`."""

    blank: tuple[P, ...]
    removals: tuple[tuple[P, ...], ...]

    @cached_property
    def pieces(self) -> tuple[tuple[Array, Array], ...]:
        """Convex parts that overlap: normals (n, 3) and levels (n,), inside n.p <= d.

        Each choice of one plane a removal gives one part: the wood behind the planes chosen.
        """
        return tuple(self._behind(choice) for choice in product(*self.removals))

    @cached_property
    def part_corners(self) -> tuple[Array, ...]:
        """Corners of each convex part, (k, 3) each [inches]; empty parts are left out."""
        found = (convex_corners(*part) for part in self.pieces)
        return tuple(points for points in found if len(points) >= 4)

    def surfaces(self, plane: P) -> tuple[Array, ...]:
        """The convex polygons, each (k, 3) and going round, in which a surface lies on a plane.

        `plane` is one of the removals' or of the blank. A removal's surface is where the wood
        behind this plane lies beyond all its other planes: in a notch, each up to the corner.
        A plane that two removals share has the surfaces of both. Polygons may overlap; one
        without area (an edge that only touches) is left out.
        """
        if id(plane) not in self._drawn:
            self._drawn[id(plane)] = plane, self._surfaces(plane)
        return self._drawn[id(plane)][1]

    def with_planes(self, removals: tuple[tuple[P, ...], ...]) -> "Solid[P]":
        """The same wood behind planes that lie where these do, one for one, and say more.

        What was found of this solid is known of that one. Only the surfaces on a plane that two
        removals share are found again: over there each removal may have a plane of its own.
        """
        again = Solid(self.blank, removals)
        for found in ("pieces", "part_corners"):
            if found in vars(self):
                vars(again)[found] = vars(self)[found]
        pairs = [(plane, plane) for plane in self.blank]
        for removal, other in zip(self.removals, removals, strict=True):
            pairs += zip(removal, other, strict=True)
        times = Counter(id(own) for own, _ in pairs)
        for own, new in pairs:
            if times[id(own)] == 1 and id(own) in self._drawn:
                again._drawn[id(new)] = new, self._drawn[id(own)][1]
        return again

    @cached_property
    def _drawn(self) -> dict[int, tuple[P, tuple[Array, ...]]]:
        """Surfaces already found, by their plane's identity, each with its plane to keep it."""
        return {}

    def _surfaces(self, plane: P) -> tuple[Array, ...]:
        owners = [r for r in self.removals if any(p is plane for p in r)] or [(plane,)]
        return tuple(polygon for own in owners for polygon in self._surfaces_of(plane, own))

    def _surfaces_of(self, plane: P, own: Sequence[P]) -> list[Array]:
        rest = [removal for removal in self.removals if removal is not own]
        others = [p for p in own if p is not plane]
        polygons = []
        for choice in product(*rest):
            points = convex_corners(*self._behind([*choice, plane], others))
            on = points[np.abs(beyond_in(plane, points)) <= SAME_IN]
            if 3 <= len(on) < len(points):  # else the part is flat, and holds no wood
                polygon = going_round(on, plane.normal)
                if polygon_area(polygon) > SAME_IN:
                    polygons.append(polygon)
        return polygons

    def _behind(self, planes: Sequence[P], beyond: Sequence[P] = ()) -> tuple[Array, Array]:
        """The blank behind some planes and beyond others, as normals and levels."""
        kept = [*self.blank, *planes]
        normals = [plane.normal for plane in kept] + [-plane.normal for plane in beyond]
        levels = [plane.level_in for plane in kept] + [-plane.level_in for plane in beyond]
        return np.array(normals), np.array(levels)


@cache
def threes(count: int) -> tuple[npt.NDArray[np.intp], ...]:
    """Every three of so many planes, by their places: three arrays of one length."""
    return tuple(np.array(list(combinations(range(count), 3)), dtype=np.intp).T)


@cache
def _not_before(count: int) -> npt.NDArray[np.bool_]:
    """For each of so many points, which of them do not come before it (count, count)."""
    return ~np.tri(count, k=-1, dtype=bool)


def convex_corners(normals: Array, levels: Array) -> Array:
    """Corners (k, 3) of the convex solid behind all planes n.p <= d; normals (n, 3), levels (n,).

    Every three planes meet in a point or not at all; a corner is such a point behind all:
    p = (d1 n2xn3 + d2 n3xn1 + d3 n1xn2) / (n1.n2xn3).
    """
    one, two, three = threes(len(levels))
    crossed = cross(normals[:, None, :], normals[None, :, :])
    spanned = np.einsum("ij,ij->i", normals[one], crossed[two, three])
    meet = np.abs(spanned) > FLAT
    one, two, three, spanned = one[meet], two[meet], three[meet], spanned[meet]
    points: Array = (
        levels[one, None] * crossed[two, three]
        + levels[two, None] * crossed[three, one]
        + levels[three, None] * crossed[one, two]
    ) / spanned[:, None]
    inside = points[(points @ normals.T <= levels + SAME_IN).all(axis=1)]
    apart = np.abs(inside[:, None, :] - inside[None, :, :]).max(axis=-1) > SAME_IN
    corners: Array = inside[(apart | _not_before(len(inside))).all(axis=1)]
    return corners


def polygon_area(polygon: Array) -> float:
    """Area of a plane polygon (k, 3) that goes round [square inches]."""
    spokes = polygon - polygon[0]
    total: Array = cross(spokes[1:-1], spokes[2:]).sum(axis=0)
    return math.sqrt(total @ total) / 2


def going_round(points: Array, normal: Array) -> Array:
    """The points of a convex polygon put in order round their middle."""
    spokes = points - np.add.reduce(points, axis=0) / len(points)
    # By distances, not their squares: of corners equally far, rounding would choose another.
    first = spokes[np.sqrt(np.add.reduce(spokes * spokes, axis=1)).argmax()]
    turn = np.arctan2(spokes @ cross(normal, first), spokes @ first)
    ordered: Array = points[np.argsort(turn)]
    return ordered
