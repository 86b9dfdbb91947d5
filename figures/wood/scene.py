"""A joint drawn in a view: the stick with its cut heavy, its mates beside it, long ends broken.

In inches of wood; breaks and words are added on paper, where their size is their own.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from figures.ink.drawing import Drawing, Polygon, Stroke
from figures.ink.pens import Point
from figures.place.placing import enlarged, in_area
from figures.place.room import Picture
from figures.wood.drawn_solid import FAR_IN, DrawnSolid
from figures.wood.projection import View, edges
from figures.wood.unfolded import broken
from layout.vector import Array

_END_ON = 0.05
"""A part whose length is seen shorter than this share of it is seen end-on."""


@dataclass(frozen=True)
class ScenePart:
    """A solid in a view: `seen` is its silhouette, `ends` the lines at which it is broken off.

    Each end is a point on the paper and the way off the paper there, (2,) each [in of wood].
    """

    solid: DrawnSolid
    seen: Polygon
    ends: tuple[tuple[Array, Array], ...]

    @property
    def left(self) -> Polygon:
        """What is left of the silhouette between its breaks."""
        shape = self.seen
        for spot, way in self.ends:
            shape = shapely.difference(shape, beyond(spot, way))
        return shape

    def shortened(self, drawing: Drawing) -> Drawing:
        """A drawing of the part without what lies beyond its breaks."""
        for spot, way in self.ends:
            drawing = drawing.without(beyond(spot, way))
        return drawing

    def breaks(self, factor: float) -> Drawing:
        """The break lines at a scale [in on paper]."""
        drawing = Drawing()
        for spot, way in self.ends:
            across = np.array([-way[1], way[0]])
            line = shapely.LineString([spot - FAR_IN * across, spot + FAR_IN * across])
            cut = shapely.intersection(self.left.buffer(1e-6), line)
            for piece in shapely.get_parts(cut):
                if piece.geom_type == "LineString" and piece.length > 1e-3:
                    (x0, y0), (x1, y1) = piece.coords[0], piece.coords[-1]
                    drawing += broken(
                        (x0 * factor, y0 * factor), (x1 * factor, y1 * factor), 0.05, 0.05
                    )
        return drawing


@dataclass(frozen=True)
class Scene:
    """Parts in a view [in of wood]: their lines, those with breaks, and the areas to be named.

    An area goes with its name and whether that is bold.
    """

    drawing: Drawing
    broken: tuple[ScenePart, ...]
    named: tuple[tuple[str, Polygon, bool], ...]

    def at(self, factor: float) -> Picture:
        """The scene at a scale [in on paper]."""
        paper = self.drawing.scaled(factor)
        for each in self.broken:
            paper += each.breaks(factor)
        words = [
            word
            for name, area, bold in self.named
            for word in in_area(name, enlarged(area, factor), bold=bold)
        ]
        return Picture(paper, tuple(words))


def part(view: View, solid: DrawnSolid, ends: Sequence[tuple[Array, Array]]) -> ScenePart:
    """A solid in a view, broken off at points (3,) of it, each with the way off there (3,).

    A part seen end-on is not broken: its end is what is seen.
    """
    found = []
    for spot, way in ends:
        flat = view.seen(way)
        size = float(np.hypot(*flat))
        if size > _END_ON:
            found.append((view.seen(spot), flat / size))
    return ScenePart(solid, view.silhouette(solid), tuple(found))


def beyond(spot: Array, way: Array) -> Polygon:
    """The half of the paper past a point, the way that is given."""
    across = FAR_IN * np.array([-way[1], way[0]])
    far = 2 * FAR_IN * way
    return shapely.Polygon([spot - across, spot + across, spot + across + far, spot - across + far])


def lines(
    view: View,
    of: ScenePart,
    before: Sequence[DrawnSolid],
    pen: str,
    gid: str,
    *,
    hidden: bool = False,
    heavy: str | None = None,
) -> Drawing:
    """The edges of a part: seen ones with a pen, hidden ones dashed, those of the cut heavy.

    `heavy` names the facet whose seen edges are drawn as the cut; its gid is `cut-edge`, and
    `cut-edge-hidden` where wood hides it.
    """
    strokes = []
    for each in edges(view, of.solid, before):
        is_cut = heavy is not None and each.name == heavy
        name = "cut-edge" if is_cut else gid
        strokes += [
            Stroke(points_of(piece), "cut" if is_cut else pen, name)
            for piece in shapely.get_parts(each.visible)
        ]
        if hidden:
            strokes += [
                Stroke(points_of(piece), "hidden", f"{name}-hidden")
                for piece in shapely.get_parts(each.hidden)
            ]
    return of.shortened(Drawing(tuple(strokes)))


def points_of(line: shapely.Geometry) -> tuple[Point, ...]:
    """The points of a line, as a stroke carries them."""
    return tuple((float(x), float(y)) for x, y in line.coords)
