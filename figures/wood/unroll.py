"""The surfaces of a board unrolled on paper, and what the planes of a joint leave on them.

On paper x runs to the right toward the head and v goes up. The right face is seen from outside
with its bottom arris at v = 0, so v = z on it; each further surface is folded up over the arris
it shares with the one below: top edge v = depth + y, left face v = depth + thickness +
(depth - z), and so on round. A run that starts below the right face has v below 0. Inches.

    sides = section(answer)
    panels = unrolled(sides, ("right face", "top edge", "left face"), -2.0, 6.0)
    panels[1].board([(3.0, 6.25)])       where a point of the paper lies on the board
    traced(panels[1], answer.cuts, answer.question.joint.removals)
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot
from typing import Any

import numpy as np
import numpy.typing as npt
import shapely
import shapely.affinity

from figures.ink.drawing import Box, Polygon
from figures.ink.pens import Point
from figures.wood.drawn_solid import kept_behind, open_to
from layout.answer.answer import Answer
from layout.errors import SheetError
from layout.plane.cut import Cut
from layout.vector import Array, X, cross, dot

_LOOSE = 1e-10
_ALIKE = 1e-6
_SLIVER = 1e-6
"""Two marks nearer than this at both ends are one; a shorter one is a point."""


@dataclass(frozen=True)
class WrapSide:
    """One side of the board's section, from (y, z) to (y, z) [inches], the next one following."""

    name: str
    start: Point
    end: Point

    @property
    def width_in(self) -> float:
        """How far the paper goes up over this side [in]."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])


@dataclass(frozen=True)
class Panel:
    """A rectangle of paper that lies flat on one surface of the board.

    `box` is left, bottom, right, top on the unrolled paper [in]. The paper's origin would lie
    at `origin` on the board if the surface went on so far, `along` and `up` are the board
    directions of x and v, all (3,).
    """

    name: str
    box: Box
    origin: Array
    along: Array
    up: Array

    @property
    def gid(self) -> str:
        """The name as an id."""
        return self.name.replace(" ", "-")

    @property
    def outward(self) -> Array:
        """Unit normal of the surface, out of the board, toward whoever reads the paper (3,)."""
        return cross(self.along, self.up)

    def board(self, points: npt.ArrayLike) -> Array:
        """Points of the paper (..., 2) where they lie on the folded board (..., 3) [in]."""
        flat = np.asarray(points, dtype=float)
        on_board: Array = self.origin + flat[..., :1] * self.along + flat[..., 1:] * self.up
        return on_board

    def shape(self) -> Polygon:
        """The panel as a polygon."""
        return shapely.box(*self.box)


@dataclass(frozen=True)
class DrawnMark:
    """The line that a plane of the joint leaves on a panel, from left to right."""

    plane_index: int
    line: tuple[Point, Point]


@dataclass(frozen=True)
class Traced:
    """What the planes of a joint leave of a panel: kept wood, waste, and the lines between."""

    panel: Panel
    kept: Polygon
    waste: Polygon
    marks: tuple[DrawnMark, ...]


def section(answer: Answer, *, backed: bool = False) -> tuple[WrapSide, ...]:
    """The sides of the board's section in turn, from the right face over the top edge.

    `backed` gives the top edge the two bevels of a hip's backing, or the hollow of a valley's.
    Raises SheetError for a cut whose board is never backed.
    """
    stock = answer.question.stock
    wide, deep = stock.thickness_in, stock.depth_in
    square = [("top edge", (0.0, deep), (wide, deep))]
    tops = _backed_edge(answer) if backed else square
    right_top, left_top = tops[0][1], tops[-1][2]
    return (
        WrapSide("right face", (0.0, 0.0), right_top),
        *(WrapSide(*top) for top in tops),
        WrapSide("left face", left_top, (wide, 0.0)),
        WrapSide("bottom edge", (wide, 0.0), (0.0, 0.0)),
    )


def _backed_edge(answer: Answer) -> list[tuple[str, Point, Point]]:
    """The bevels of a backed top edge, right then left, as they meet in the section."""
    question = answer.question
    wide, deep = question.stock.thickness_in, question.stock.depth_in
    if len(question.joint.bevels) != 2 or answer.is_rip:
        raise SheetError(f"{question.entry.name} stands on no backed edge: leave the backing out")
    falls = []
    for bevel in question.joint.bevels:
        _, y, z = (float(part) for part in question.joint.pose.to_board(bevel))
        falls.append(y / z)
    to_right, to_left = sorted(falls)
    # A hip's bevels part at its middle; a valley's start at the arrises, and the plane that
    # falls to the left starts at the right one.
    if question.entry.meets == "valley":
        middle = wide * -to_right / (to_left - to_right)
        ends = (deep, deep - to_left * middle, deep)
    else:
        middle = wide / 2
        ends = (deep + to_right * middle, deep, deep - to_left * middle)
    if min(ends) <= 0:
        raise SheetError(f"backing leaves nothing of a board {deep:.4g} in deep: use a deeper one")
    return [
        ("right bevel", (0.0, ends[0]), (middle, ends[1])),
        ("left bevel", (middle, ends[1]), (wide, ends[2])),
    ]


def unrolled(
    sides: Sequence[WrapSide], run: Sequence[str], x0: float, x1: float
) -> tuple[Panel, ...]:
    """Panels from x0 to x1 [in] for a run of sides that follow each other, one above the last.

    Raises SheetError for sides that do not follow each other, and a run without the right face.
    """
    names = [side.name for side in sides]
    if not run or any(name not in names for name in run) or "right face" not in run:
        raise SheetError(f"a wrap has the right face and more of {', '.join(names)}, not {run}")
    first = names.index(run[0])
    turned = [*sides[first:], *sides[:first]][: len(run)]
    if [side.name for side in turned] != list(run):
        raise SheetError(f"{', '.join(run)} do not follow each other round the board")
    below = sum(side.width_in for side in turned[: list(run).index("right face")])
    panels, v = [], -below
    for side in turned:
        width = side.width_in
        start = np.array([0.0, *side.start])
        up = (np.array([0.0, *side.end]) - start) / width
        panels.append(Panel(side.name, (x0, v, x1, v + width), start - v * up, X, up))
        v += width
    return tuple(panels)


def end_flap(edge: Panel, into_in: float, *, at_head: bool) -> Panel:
    """The end of the board as a flap hinged on an edge's end, `into_in` down the face [in].

    It folds down over the end grain, and what is drawn on it is the section.
    """
    x0, v0, x1, v1 = edge.box
    hinge = x1 if at_head else x0
    box = (x1, v0, x1 + into_in, v1) if at_head else (x0 - into_in, v0, x0, v1)
    # Away from the edge means into the board: against the edge's outward normal.
    along = -edge.outward if at_head else edge.outward
    corner = edge.board((hinge, 0.0))
    return Panel("end", box, corner - hinge * along, along, edge.up)


def traced(panel: Panel, cuts: Sequence[Cut], removals: Sequence[tuple[int, ...]]) -> Traced:
    """Kept wood, waste and marks on a panel; `removals` names the planes of each by their place."""
    shape = panel.shape()
    behind = [_behind(panel, cut) for cut in cuts]
    kept = _no_slivers(kept_behind(behind, removals))
    waste = _no_slivers(shapely.difference(shape, kept))
    loose = [shapely.buffer(region, _LOOSE, join_style="mitre") for region in behind]
    tight = [shapely.buffer(region, -_LOOSE, join_style="mitre") for region in behind]
    marks: list[DrawnMark] = []
    for plane_index, cut in enumerate(cuts):
        line = _line(panel, cut)
        if shapely.length(line) < _ALIKE:
            continue
        # A plane shows only where the others leave it to.
        shown = open_to(line, plane_index, removals, loose, tight)
        for part in shapely.get_parts(shown):
            if part.geom_type != "LineString" or part.length < _ALIKE:
                continue
            (ax, av), *_, (bx, bv) = sorted((float(x), float(v)) for x, v in part.coords)
            mark = DrawnMark(plane_index, ((ax, av), (bx, bv)))
            if not any(np.allclose(mark.line, known.line, atol=_ALIKE) for known in marks):
                marks.append(mark)
    return Traced(panel, kept, waste, tuple(marks))


def _no_slivers(polygon: Polygon) -> Polygon:
    """The parts of a polygon that are more than rounding."""
    return shapely.union_all([part for part in shapely.get_parts(polygon) if part.area > _SLIVER])


def _on_paper(panel: Panel, cut: Cut) -> tuple[float, float, float]:
    """a, b, c of the plane on the panel: a x + b v = c, and less in the kept wood."""
    normal = cut.normal
    a, b = float(dot(normal, panel.along)), float(dot(normal, panel.up))
    return a, b, float(dot(normal, cut.point - panel.origin))


def _frame(panel: Panel, a: float, b: float, c: float) -> tuple[Array, Array, Array, float]:
    """A point of the line near the panel, its direction, its normal and a length past the panel."""
    x0, v0, x1, v1 = panel.box
    size = hypot(a, b)
    out = np.array([a, b]) / size
    middle = np.array([(x0 + x1) / 2, (v0 + v1) / 2])
    foot = middle + (c / size - out @ middle) * out
    far = 2 * (hypot(x1 - x0, v1 - v0) + float(np.hypot(*(foot - middle))))
    return foot, np.array([-out[1], out[0]]), out, far


def _behind(panel: Panel, cut: Cut) -> Polygon:
    """The part of a panel that lies in the kept wood of one plane."""
    a, b, c = _on_paper(panel, cut)
    if hypot(a, b) < _LOOSE:
        return panel.shape() if c >= -_LOOSE else shapely.Polygon()
    foot, way, out, far = _frame(panel, a, b, c)
    left, right = foot - far * way, foot + far * way
    half = shapely.Polygon([left, right, right - far * out, left - far * out])
    return shapely.intersection(panel.shape(), half)


def _line(panel: Panel, cut: Cut) -> Any:
    """The line of a plane across a panel, or one that runs along its border, as shapely has it."""
    a, b, c = _on_paper(panel, cut)
    if hypot(a, b) < _LOOSE:
        return shapely.LineString()
    foot, way, _, far = _frame(panel, a, b, c)
    line = shapely.LineString([foot - far * way, foot + far * way])
    line = shapely.intersection(line, shapely.buffer(panel.shape(), _LOOSE, join_style="mitre"))
    return shapely.LineString([_on_border(panel, end, (a, b, c)) for end in line.coords])


def _on_border(panel: Panel, end: Point, plane: tuple[float, float, float]) -> Point:
    """The end of a line exactly on the panel's border, and on the line."""
    a, b, c = plane
    x, v = end
    x0, bottom, x1, top = panel.box
    for border in (bottom, top):
        if abs(v - border) <= 2 * _LOOSE and abs(a) > _LOOSE:
            return (c - b * border) / a, border
    for border in (x0, x1):
        if abs(x - border) <= 2 * _LOOSE and abs(b) > _LOOSE:
            return border, (c - a * border) / b
    return x, v


def cropped(panel: Panel, bottom: float, top: float) -> Panel:
    """The panel with only what lies between two heights on the paper [in]."""
    x0, _, x1, _ = panel.box
    return replace(panel, box=(x0, bottom, x1, top))


def stretched(panel: Panel, x0: float, x1: float) -> Panel:
    """The panel from x0 to x1 on the paper [in]."""
    _, bottom, _, top = panel.box
    return replace(panel, box=(x0, bottom, x1, top))


def on_paper(polygon: Polygon, factor: float) -> Polygon:
    """A polygon of the board as large as it is on paper, about the paper's origin."""
    if factor == 1.0:
        return polygon
    return shapely.affinity.scale(polygon, factor, factor, origin=(0, 0))
