"""Parallel projection of solids: what an eye far off sees, and which edges wood hides from it.

A view is two unit vectors, right and up on the paper; the eye looks against their cross product.
An edge is hidden where a facet lies between it and the eye: over that facet's outline on the
paper, and nearer to the eye than the edge is.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np
import shapely
import shapely.affinity

from figures.ink.drawing import Polygon
from figures.wood.drawn_solid import Facet
from layout.vector import Array, Z, cross, unit

_NEAR = 1e-7
"""Facets nearer to each other than this touch: neither hides the other's edges [in]."""


@dataclass(frozen=True)
class View:
    """The paper of a parallel projection: `right` and `up` (3,), unit and square to each other."""

    right: Array
    up: Array

    @cached_property
    def toward(self) -> Array:
        """Unit vector from the scene toward the eye (3,)."""
        return cross(self.right, self.up)

    def seen(self, points: Array) -> Array:
        """Points (..., 3) [in] as they stand on the paper, (..., 2) [in]."""
        return points @ np.stack([self.right, self.up], axis=-1)

    def outline(self, facet: Facet) -> Polygon:
        """A facet's polygon on the paper [in]."""
        flat = facet.flat
        origin = self.seen(flat.origin)
        u, v = self.seen(flat.u), self.seen(flat.v)
        return shapely.affinity.affine_transform(
            facet.polygon, (u[0], v[0], u[1], v[1], origin[0], origin[1])
        )

    def silhouette(self, solid: "Faceted") -> Polygon:
        """All that a solid covers on the paper [in]."""
        outlines = [self.outline(facet) for facet in solid.facets]
        return shapely.union_all([shape for shape in outlines if shape.area > _NEAR])


def looking(toward: Array, up: Array = Z) -> View:
    """The view whose eye lies `toward` (3,), with `up` as near as it can to the paper's up."""
    eye = unit(toward)
    paper_up = unit(up - (up @ eye) * eye)
    return View(cross(paper_up, eye), paper_up)


@dataclass(frozen=True)
class Edges:
    """Edges of one facet on the paper [in]: multi-lines that are seen and that wood hides."""

    name: str
    visible: shapely.Geometry
    hidden: shapely.Geometry


class Faceted(Protocol):
    """Whatever has flat facets: a board less its cuts, or a stick of a framed roof."""

    @property
    def facets(self) -> tuple[Facet, ...]:
        """Every flat part of its surface."""
        ...


class Walls:
    """The facets of some bodies that face the eye, with their outlines on the paper.

    They are kept in a tree: of a whole roof only those that lie over an edge are asked whether
    they hide it.
    """

    def __init__(self, view: View, bodies: Iterable[Faceted]) -> None:
        facing = [
            facet
            for body in bodies
            for facet in body.facets
            if float(facet.flat.normal @ view.toward) > _NEAR
        ]
        outlines = [shapely.buffer(view.outline(facet), -_NEAR * 10) for facet in facing]
        self.view = view
        self._normals = [facet.flat.normal for facet in facing]
        self._levels = [
            float(normal @ facet.flat.origin)
            for normal, facet in zip(self._normals, facing, strict=True)
        ]
        self._outlines = outlines
        self._tree = shapely.STRtree(outlines)

    def shadow(self, start: Array, end: Array) -> Polygon:
        """The part of the paper where walls stand between an edge and the eye."""
        view, shadows = self.view, []
        over = shapely.LineString(view.seen(np.stack([start, end])))
        for i in self._tree.query(over, predicate="intersects"):
            outline, normal, level = self._outlines[i], self._normals[i], self._levels[i]
            facing = float(normal @ view.toward)
            # How much nearer the wall is than the edge, at both of the edge's ends.
            near = [(level - float(normal @ p)) / facing for p in (start, end)]
            if max(near) < _NEAR:
                continue
            if min(near) > _NEAR:
                shadows.append(outline)
                continue
            # The edge pierces the wall's plane: only the part behind it can be hidden.
            share = (near[0] - _NEAR) / (near[0] - near[1])
            pierced = start + share * (end - start)
            behind = (pierced, end) if near[1] > near[0] else (start, pierced)
            part = shapely.LineString(view.seen(np.stack(behind))).buffer(_NEAR * 10)
            shadows.append(outline.intersection(part))
        return shapely.union_all(shadows)


def edges(view: View, solid: Faceted, before: Sequence[Faceted] = ()) -> tuple[Edges, ...]:
    """The edges of every facet of a solid, each edge once, with what it and others hide.

    `before` are the other solids that may stand in the way. An edge between two facets belongs
    to the later one: the cuts come last, so that the edges of the cut are the cut's own. Where a
    visible and a hidden edge fall on one line of the paper, the visible one stands.
    """
    return edges_behind(solid, Walls(view, (solid, *before)))


def edges_behind(solid: Faceted, walls: Walls, *, hidden: bool = True) -> tuple[Edges, ...]:
    """The edges of a solid as `edges` has them, behind walls that may be those of a whole roof.

    Without `hidden` only what is seen is worked out, and facets that look away are passed over.
    """
    view = walls.view
    parted = []
    for facet in reversed(solid.facets):
        if not hidden and float(facet.flat.normal @ view.toward) < -_NEAR:
            continue
        seen, unseen = [], []
        for start, end in facet.edges():
            line = shapely.LineString(view.seen(np.stack([start, end])))
            if line.length < _NEAR:
                continue
            shadow = walls.shadow(start, end)
            seen.append(line.difference(shadow))
            if hidden:
                unseen.append(line.intersection(shadow))
        parted.append((facet.name, _merged(seen), _merged(unseen)))
    drawn = shapely.MultiLineString()
    rows = []
    for name, visible, behind in parted:
        if not visible.is_empty:
            visible = _lines(visible.difference(drawn.buffer(_NEAR * 100)))
            drawn = drawn.union(visible)
        rows.append((name, visible, behind))
    result = []
    for name, visible, behind in rows:
        unseen_lines = behind
        if not behind.is_empty:
            unseen_lines = _lines(behind.difference(drawn.buffer(_NEAR * 100)))
            drawn = drawn.union(unseen_lines)
        result.append(Edges(name, visible, unseen_lines))
    return tuple(reversed(result))


def _merged(lines: list[shapely.Geometry]) -> shapely.Geometry:
    return _lines(shapely.line_merge(shapely.union_all(lines)))


def _lines(geometry: shapely.Geometry) -> shapely.Geometry:
    """Only the lines of a geometry, longer than nothing."""
    parts = [
        part
        for part in shapely.get_parts(geometry)
        if part.geom_type in ("LineString", "LinearRing") and part.length > _NEAR * 100
    ]
    return (
        shapely.line_merge(shapely.MultiLineString(parts)) if parts else shapely.MultiLineString()
    )
