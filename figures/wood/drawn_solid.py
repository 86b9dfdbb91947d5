"""Wood as a solid: a box of half-spaces less what the cuts take, sliced and faced by shapely.

A half-space keeps the points behind its plane. Any flat through the solid turns each of them
into a half-plane, and shapely does the rest: a slice is the wood that flat meets, a facet the
part of a plane that is the solid's own surface.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, reduce

import numpy as np
import shapely
import shapely.affinity

from figures.ink.drawing import Polygon
from layout.vector import Array, X, Y, Z, cross, unit

FAR_IN = 1e4
"""A half-plane is drawn this far: beyond every board [in]."""
_PARALLEL = 1e-9
_MEET_IN = 1e-6
"""Parts of one line that are rounded apart by less than this are one [in]."""


@dataclass(frozen=True)
class DrawnFlat:
    """A plane with its own axes: `u` to the right and `v` up on it, from `origin` [in], (3,) each.

    u and v are unit vectors square to each other; the plane faces u cross v.
    """

    origin: Array
    u: Array
    v: Array

    @property
    def normal(self) -> Array:
        """Unit vector square to the plane, toward the eye that sees u run right and v up (3,)."""
        return cross(self.u, self.v)

    def seen(self, points: Array) -> Array:
        """Points (..., 3) [in] as they stand on the plane, (..., 2) [in]."""
        return (points - self.origin) @ np.stack([self.u, self.v], axis=-1)

    def placed(self, spots: Array) -> Array:
        """Spots on the plane (..., 2) [in] as points (..., 3) [in]."""
        placed: Array = self.origin + spots @ np.stack([self.u, self.v])
        return placed


def facing_flat(normal: Array, origin: Array) -> DrawnFlat:
    """A plane that faces along `normal`, its axes as near as they can to the solid's own."""
    v = Z if abs(normal[2]) < 0.9 * float(np.sqrt(normal @ normal)) else X
    u = unit(cross(v, normal))
    return DrawnFlat(origin, u, unit(cross(normal, u)))


@dataclass(frozen=True)
class HalfSpace:
    """The points p with normal . p <= level [in]; `normal` (3,) points out of the wood."""

    normal: Array
    level: float

    def on(self, flat: DrawnFlat) -> Polygon:
        """The part of a flat that it keeps: a half-plane, all of the flat, or nothing."""
        across = np.array([self.normal @ flat.u, self.normal @ flat.v])
        size = float(np.hypot(*across))
        level = self.level - float(self.normal @ flat.origin)
        if size < _PARALLEL:
            everything = shapely.box(-FAR_IN, -FAR_IN, FAR_IN, FAR_IN)
            return everything if level >= -_PARALLEL else shapely.Polygon()
        out = across / size
        foot, along = out * level / size, FAR_IN * np.array([-out[1], out[0]])
        back = 2 * FAR_IN * out
        corners = [foot - along, foot + along, foot + along - back, foot - along - back]
        half: Polygon = shapely.polygons(np.array(corners))
        return half

    def trace(self, flat: DrawnFlat) -> "shapely.LineString | None":
        """The line in which its plane crosses a flat, None where both are parallel."""
        across = np.array([self.normal @ flat.u, self.normal @ flat.v])
        size = float(np.hypot(*across))
        if size < _PARALLEL:
            return None
        out = across / size
        foot = out * (self.level - float(self.normal @ flat.origin)) / size
        along = FAR_IN * np.array([-out[1], out[0]])
        return shapely.LineString([foot - along, foot + along])

    def moved(self, step: Array) -> "HalfSpace":
        """The half-space moved by a step (3,) [in]."""
        return HalfSpace(self.normal, self.level + float(self.normal @ step))


def through(normal: Array, point: Array) -> HalfSpace:
    """The half-space whose plane passes through a point (3,) [in]."""
    return HalfSpace(np.asarray(normal, dtype=float), float(np.asarray(normal) @ point))


@dataclass(frozen=True)
class Facet:
    """A flat part of a solid's surface: a polygon on a flat that faces out of the wood.

    `name` says which: `head`, `foot`, `left`, `right`, `top`, `bottom`, or `cut 0`, `cut 1`.
    """

    name: str
    flat: DrawnFlat
    polygon: Polygon

    def edges(self) -> Array:
        """Its edges as pairs of points (n, 2, 3) [in]."""
        rings = [
            np.asarray(ring.coords)
            for part in shapely.get_parts(self.polygon)
            if part.geom_type == "Polygon"
            for ring in (part.exterior, *part.interiors)
        ]
        if not rings:
            return np.empty((0, 2, 3))
        ends = np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])
        return self.flat.placed(ends)


@dataclass(frozen=True)
class DrawnSolid:
    """A box less what the cuts take away.

    `sides` are the box's six half-spaces by name. `removals` names the cuts that bound each
    removal by their place: wood is kept where it lies behind at least one of every removal.
    Where none is named each cut is a removal of its own.
    """

    sides: dict[str, HalfSpace]
    cuts: tuple[HalfSpace, ...] = ()
    removals: tuple[tuple[int, ...], ...] = ()

    def slice(self, flat: DrawnFlat) -> Polygon:
        """The wood that a flat meets."""
        return self._met(flat)[1]

    def whole(self, flat: DrawnFlat) -> Polygon:
        """What a flat meets of the box before it is cut."""
        return self._met(flat)[0]

    @cached_property
    def _groups(self) -> tuple[tuple[int, ...], ...]:
        return self.removals or tuple((i,) for i in range(len(self.cuts)))

    @property
    def hollow(self) -> bool:
        """True where several cuts bound one removal: a notch or a hollow end."""
        return any(len(removal) > 1 for removal in self._groups)

    def without(self, plane_index: int) -> "DrawnSolid":
        """The solid as it is before one of its cuts is made."""
        removals = (
            tuple(i - (i > plane_index) for i in r if i != plane_index) for r in self._groups
        )
        cuts = tuple(cut for i, cut in enumerate(self.cuts) if i != plane_index)
        return replace(self, cuts=cuts, removals=tuple(removal for removal in removals if removal))

    @cached_property
    def _flats(self) -> dict[int, tuple[DrawnFlat, Polygon, Polygon]]:
        """Flats that were asked about: a picture is tried at many scales, its solid is one."""
        return {}

    @cached_property
    def _marks(self) -> "dict[tuple[int, int], tuple[DrawnFlat, shapely.LineString | None]]":
        """Marks that were asked about, likewise."""
        return {}

    def _met(self, flat: DrawnFlat) -> tuple[Polygon, Polygon]:
        """What a flat meets of the box, and of the wood."""
        if id(flat) not in self._flats:
            whole = kept = _all([side.on(flat) for side in self.sides.values()])
            if self.cuts:
                parts = [cut.on(flat) for cut in self.cuts]
                kept = whole.intersection(kept_behind(parts, self._groups))
            # The flat is kept too: as long as it lives no other can have its id.
            self._flats[id(flat)] = flat, whole, kept
        return self._flats[id(flat)][1:]

    def mark(self, plane_index: int, flat: DrawnFlat) -> "shapely.LineString | None":
        """The line a cut leaves on a flat: as far as it is the wood's own edge; None for none."""
        if (plane_index, id(flat)) not in self._marks:
            # The flat is kept too, as in `_met`.
            self._marks[plane_index, id(flat)] = flat, self._marked(plane_index, flat)
        return self._marks[plane_index, id(flat)][1]

    def _marked(self, plane_index: int, flat: DrawnFlat) -> "shapely.LineString | None":
        line = self.cuts[plane_index].trace(flat)
        if line is None:
            return None
        whole = self.whole(flat)
        inside = line.intersection(whole)
        if inside.length <= _PARALLEL:
            # A line along the very edge of the flat, where rounding may put it outside.
            inside = line.intersection(shapely.buffer(whole, _PARALLEL, join_style="mitre"))
        line = inside
        # Planes may cross right on the flat: the line between them belongs to both.
        loose = [replace(cut, level=cut.level + _PARALLEL).on(flat) for cut in self.cuts]
        tight = [replace(cut, level=cut.level - _PARALLEL).on(flat) for cut in self.cuts]
        line = open_to(line, plane_index, self._groups, loose, tight)
        return line if line.geom_type == "LineString" and line.length > _PARALLEL else None

    @cached_property
    def facets(self) -> tuple[Facet, ...]:
        """Every flat part of its surface."""
        found = [
            Facet(name, flat, self.slice(flat))
            for name, side in self.sides.items()
            for flat in [facing_flat(side.normal, side.normal * side.level)]
        ]
        for i, cut in enumerate(self.cuts):
            flat = facing_flat(cut.normal, cut.normal * cut.level)
            behind = [other.on(flat) for other in self.cuts]
            area = open_to(self.whole(flat), i, self._groups, behind, behind)
            found.append(Facet(f"cut {i}", flat, area))
        return tuple(facet for facet in found if shapely.area(facet.polygon) > _PARALLEL)


def box(
    low: Array, high: Array, axes: Array | None = None, origin: Array | None = None
) -> DrawnSolid:
    """A box from `low` to `high` (3,) [in] along the rows of `axes` (3, 3), from an origin.

    Its sides are named as a board's: foot and head along the first axis, right and left along
    the second, bottom and top along the third.
    """
    rows = np.stack([X, Y, Z]) if axes is None else axes
    start = np.zeros(3) if origin is None else origin
    names = (("foot", "head"), ("right", "left"), ("bottom", "top"))
    sides = {}
    for row, (low_name, high_name), least, most in zip(rows, names, low, high, strict=True):
        zero = float(row @ start)
        sides[low_name] = HalfSpace(-row, -(zero + float(least)))
        sides[high_name] = HalfSpace(row, zero + float(most))
    return DrawnSolid(sides)


def kept_behind(behind: Sequence[Polygon], removals: Sequence[tuple[int, ...]]) -> Polygon:
    """What of a flat is kept, given what of it lies behind each plane."""
    return _all([shapely.union_all([behind[i] for i in removal]) for removal in removals])


def open_to(
    shape: shapely.Geometry,
    plane_index: int,
    removals: Sequence[tuple[int, ...]],
    behind: Sequence[Polygon],
    well_behind: Sequence[Polygon],
) -> shapely.Geometry:
    """What of a plane's trace, or of the plane itself, is the surface of the wood.

    It lies beyond the other planes of its own removal, and behind a plane of every other one.
    """
    parts = []
    for own in removals:
        if plane_index not in own:
            continue
        part = shape
        for other in own:
            if other != plane_index:
                part = shapely.difference(part, well_behind[other])
        for removal in removals:
            if removal is not own:
                region = shapely.union_all([behind[i] for i in removal])
                part = shapely.intersection(part, region)
        parts.append(part)
    if len(parts) == 1:
        return parts[0]
    if shape.geom_type != "LineString":
        return shapely.union_all(parts)
    lines = [part for part in parts if part.geom_type == "LineString" and part.length > 0]
    if len(lines) < 2 or shapely.distance(*lines[:2]) > _MEET_IN:
        return shapely.union_all(parts)
    # Two notches that share a plane share its line, without the point at which they meet.
    ends = np.concatenate([shapely.get_coordinates(line) for line in lines])
    along = ends @ (ends[1] - ends[0])
    return shapely.LineString([ends[along.argmin()], ends[along.argmax()]])


def _all(regions: Iterable[Polygon]) -> Polygon:
    return reduce(shapely.intersection, regions)
