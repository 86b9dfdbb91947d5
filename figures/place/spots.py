"""Places that are tried for words, all of one kind at once, and the paper they are tried on.

A label is made only for the place that is taken: until then places are arrays of points, boxes
and costs. Inches on paper.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from math import cos, radians, sin
from typing import Any

import numpy as np
import shapely

from figures.ink.drawing import Box, Drawing, Label, Polygon, Stroke, label_box
from figures.ink.lettering import text_size
from figures.ink.pens import Point
from figures.place.dimension import TEXT_GAP_IN
from layout.vector import Array

STEP_DEG = 15
"""Between two directions in which words are tried about their spot."""
_SHELF_IN = 0.12 + TEXT_GAP_IN
"""From a leader's elbow to its words, as `figures.place.dimension.leader` draws it [in]."""
_QUIET_PENS = frozenset({"hatch"})
_ACROSS = ("left", "center", "right")
_UP = ("bottom", "center", "top")
_SHARE = np.array([0.0, 0.5, 1.0])
"""How much of a label lies before the point that it is named by."""


@dataclass(frozen=True, eq=False)
class Spots:
    """Places for one label: what each costs [in], its box with the white round it."""

    costs: Array
    boxes: Any

    def label(self, at: int) -> Label:
        """The label at one of the places."""
        raise NotImplementedError

    def elbow(self, at: int) -> Point | None:
        """Where the leader to one of the places bends; None where it needs no leader."""
        return None


@dataclass(frozen=True, eq=False)
class ChosenSpots(Spots):
    """Places that were named one by one."""

    labels: tuple[Label, ...]

    def label(self, at: int) -> Label:
        return self.labels[at]


@dataclass(frozen=True, eq=False)
class RingSpots(Spots):
    """Places round a spot: where the label's point stands, and which of its points that is."""

    bare: Label
    points: Array
    sides: Array
    elbows: Array | None = None

    def label(self, at: int) -> Label:
        (x, y), (across, up) = self.points[at], self.sides[at]
        ha: Any = _ACROSS[across]
        va: Any = _UP[up]
        return replace(self.bare, x=float(x), y=float(y), ha=ha, va=va)

    def elbow(self, at: int) -> Point | None:
        if self.elbows is None:
            return None
        return float(self.elbows[at, 0]), float(self.elbows[at, 1])


def ring(
    bare: Label, spot: Point, near: tuple[float, ...], ways: tuple[float, ...], clear_in: float
) -> RingSpots:
    """Places beside a spot, so near that no leader is needed, cheapest in the ways preferred."""
    far, steps, sides, off = _beside(near, ways)
    points = np.asarray(spot) + far[:, None] * steps
    return RingSpots(far + off, _ring_boxes(bare, points, sides, clear_in), bare, points, sides)


def led_ring(
    bare: Label, spot: Point, far_in: tuple[float, ...], ways: tuple[float, ...], clear_in: float
) -> RingSpots:
    """Places farther off, each with the elbow of the leader that joins it to the spot."""
    far, steps, sides, off = _afar(far_in, ways)
    elbows = np.asarray(spot) + far[:, None] * steps
    points = elbows + np.stack([np.where(steps[:, 0] > 0, _SHELF_IN, -_SHELF_IN), 0 * far], -1)
    boxes = _ring_boxes(bare, points, sides, clear_in)
    return RingSpots(far + 0.3 + off, boxes, bare, points, sides, elbows)


@cache
def _beside(near: tuple[float, ...], ways: tuple[float, ...]) -> tuple[Array, Array, Array, Array]:
    """How far, in which direction, by which point of the label and how far off the ways."""
    rows = []
    for far in near:
        for way in range(0, 360, STEP_DEG):
            c, s = round(cos(radians(way)), 9), round(sin(radians(way)), 9)
            rows.append((far, c, s, _side(c), _side(s), _off_way(ways, way)))
    return _columns(rows)


@cache
def _afar(far_in: tuple[float, ...], ways: tuple[float, ...]) -> tuple[Array, Array, Array, Array]:
    """As `_beside`, for words with a leader, which joins them at their left or right end."""
    rows = []
    for far in far_in:
        for way in range(0, 360, STEP_DEG):
            c, s = cos(radians(way)), sin(radians(way))
            if abs(c) >= 0.2:
                rows.append((far, c, s, 0 if c > 0 else 2, 1, _off_way(ways, way)))
    return _columns(rows)


def _columns(rows: Sequence[tuple[float, ...]]) -> tuple[Array, Array, Array, Array]:
    table = np.array(rows, dtype=float)
    return table[:, 0], table[:, 1:3], table[:, 3:5].astype(int), table[:, 5]


def _side(step: float) -> int:
    """Which side of a label stands at a spot that lies off it: its first, middle or last."""
    return 0 if step > 0.3 else 2 if step < -0.3 else 1


def _off_way(ways: tuple[float, ...], way_deg: float) -> float:
    """A little for every degree away from the directions that are preferred [in]."""
    if not ways:
        return 0.0
    return min(abs((way_deg - way + 180.0) % 360.0 - 180.0) for way in ways) / 180.0


def _ring_boxes(bare: Label, points: Array, sides: Array, clear_in: float) -> Any:
    width, height = text_size(bare.text, bare.size_pt, bare.bold)
    x = points[:, 0] - width * _SHARE[sides[:, 0]]
    y = points[:, 1] - height * _SHARE[sides[:, 1]]
    return shapely.box(x - clear_in, y - clear_in, x + width + clear_in, y + height + clear_in)


def level_boxes(label: Label, x: Array, y: Array, clear_in: float) -> Any:
    """The boxes of a level label at many points, with the white round them."""
    width, height = text_size(label.text, label.size_pt, label.bold)
    left = x - width * _SHARE[_ACROSS.index(label.ha)]
    bottom = y - height * _SHARE[_UP.index(label.va)]
    return shapely.box(
        left - clear_in, bottom - clear_in, left + width + clear_in, bottom + height + clear_in
    )


def label_boxes(labels: Sequence[Label], clear_in: float) -> Any:
    """The boxes of several labels, with the white round them."""
    return np.array([label_box(label, clear_in) for label in labels])


@dataclass
class TakenPaper:
    """What lies on the paper when words are placed, prepared to be asked often.

    It grows by the words and leaders that are put on it.
    """

    drawing: Drawing
    room: Box
    lines: list[Any] = field(init=False)
    """Every stroke but hatching, one by one."""
    barred: list[Any] = field(init=False)
    """What words may not touch: strokes, other words, ink."""
    taken: list[Polygon] = field(init=False)
    """What leaders may not cross: words and ink."""
    hatched: Polygon = field(init=False)
    steel: Polygon = field(init=False)
    page: Polygon = field(init=False)

    def __post_init__(self) -> None:
        self.lines, self.barred, self.taken = [], [], []
        self.hatched = shapely.union_all(list(_filled(self.drawing, "waste", "section")))
        self.steel = shapely.union_all(list(_filled(self.drawing, "steel")))
        self.page = shapely.box(*self.room)
        for region in (self.hatched, self.steel, self.page):
            shapely.prepare(region)
        self.take(self.drawing)

    def take(self, drawing: Drawing) -> None:
        """Let a part of the drawing bar its place to all words that come later."""
        lines = _lines([stroke for stroke in drawing.strokes if stroke.pen not in _QUIET_PENS])
        taken = [*map(label_box, drawing.labels), *_filled(drawing, "ink", "gap")]
        self.lines += lines
        if lines:
            strokes = shapely.multilinestrings(lines)
            shapely.prepare(strokes)
            self.barred.append(strokes)
        if taken:
            area = shapely.union_all(taken)
            shapely.prepare(area)
            self.barred.append(area)
            self.taken.append(area)

    def free(self, spots: Spots) -> Any:
        """Which of the places lie on the paper and touch nothing."""
        left, bottom, right, top = shapely.bounds(spots.boxes).T
        low_x, low_y, high_x, high_y = self.room
        inside = (left >= low_x) & (bottom >= low_y) & (right <= high_x) & (top <= high_y)
        at = np.flatnonzero(inside)
        for barred in self.barred:
            at = at[~shapely.intersects(spots.boxes[at], barred)]
        return at

    def crossed(self, tip: Point, elbow: Point) -> int | None:
        """How many lines a leader crosses; None where it crosses words or leaves the paper."""
        path = shapely.linestrings([tip, elbow])
        if any(shapely.intersects(path, area) for area in self.taken):
            return None
        if not shapely.covers(self.page, path):
            return None
        shapely.prepare(path)
        return int(shapely.intersects(path, self.lines).sum()) if self.lines else 0


def _lines(strokes: Sequence[Stroke]) -> list[Any]:
    """The strokes as shapely's lines, made in one call."""
    if not strokes:
        return []
    points = [point for stroke in strokes for point in stroke.points]
    belongs = np.repeat(np.arange(len(strokes)), [len(stroke.points) for stroke in strokes])
    return list(shapely.linestrings(points, indices=belongs))


def _filled(drawing: Drawing, *fills: str) -> Iterator[Polygon]:
    return (area.polygon for area in drawing.areas if area.fill in fills)
