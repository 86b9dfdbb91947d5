"""Places that are tried for words, all of one kind at once, and the paper they are tried on.

A label is made only for the place that is taken: until then places are arrays of points, boxes
and costs. Inches on paper.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import cos, radians, sin
from typing import Any

import numpy as np
import shapely

from figures.ink.drawing import Box, Drawing, Label, Polygon, Stroke, label_boxes
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


class Bars:
    """What bars its place on the paper to words, prepared to be asked often.

    `barred` is what words may not touch: strokes but hatching, other words, ink; `taken` is what
    leaders may not cross: words and ink.
    """

    def __init__(self, drawing: Drawing) -> None:
        lines = _lines([stroke for stroke in drawing.strokes if stroke.pen not in _QUIET_PENS])
        areas = [*label_boxes(drawing.labels), *_filled(drawing, "ink", "gap")]
        self._lines = shapely.STRtree(lines)
        self.taken: list[Polygon] = [*areas] if len(areas) < 2 else [shapely.union_all(areas)]
        self.barred: list[Any] = [shapely.multilinestrings(lines)] if lines else []
        self.barred += self.taken
        for each in self.barred:
            shapely.prepare(each)

    def clear(self, boxes: Any) -> Any:
        """Which of some boxes touch nothing of it, by their place among them."""
        at = np.arange(len(boxes))
        for barred in self.barred:
            at = at[~shapely.intersects(boxes[at], barred)]
        return at

    def crossed(self, path: Any) -> int | None:
        """How many lines a leader crosses; None where it crosses words."""
        if any(shapely.intersects(path, area) for area in self.taken):
            return None
        return len(self._lines.query(path, predicate="intersects"))


class BarePaper(Bars):
    """A drawing before words are put on it; `hatched` and `steel` are what words clear or avoid."""

    def __init__(self, drawing: Drawing) -> None:
        super().__init__(drawing)
        self.hatched = shapely.union_all(list(_filled(drawing, "waste", "section")))
        self.steel = shapely.union_all(list(_filled(drawing, "steel")))
        for region in (self.hatched, self.steel):
            shapely.prepare(region)


class OpenSpots:
    """Places for some words that are clear on the bare drawing, each with its cost [in].

    The rest of a place is asked for each room in which the drawing is tried, and for the words
    that stand in it by then.
    """

    def __init__(self, spots: Spots, bare: BarePaper, at: Any, costs: Array) -> None:
        self.spots, self._bare, self._at, self._costs = spots, bare, at, costs
        self._boxes = spots.boxes[at]
        self._bounds = shapely.bounds(self._boxes).reshape(-1, 4).T
        self._leaders: dict[int, tuple[Any, int | None]] = {}

    def cheapest_first(self, room: Box, words: Sequence[Bars]) -> Iterator[tuple[float, int]]:
        """What is left of the places in a room, with words on it: what each costs, which it is."""
        left, bottom, right, top = self._bounds
        low_x, low_y, high_x, high_y = room
        inside = (left >= low_x) & (bottom >= low_y) & (right <= high_x) & (top <= high_y)
        at = np.flatnonzero(inside)
        for bars in words:
            at = at[bars.clear(self._boxes[at])]
        for i in at[np.argsort(self._costs[at], kind="stable")]:
            yield float(self._costs[i]), int(self._at[i])

    def crossed(self, tip: Point, at: int, room: Box, words: Sequence[Bars]) -> int | None:
        """How many lines the leader to a place crosses; None where it crosses words or leaves
        the room."""
        elbow = self.spots.elbow(at)
        if elbow is None:
            return 0
        low_x, low_y, high_x, high_y = room
        if not all(low_x <= x <= high_x and low_y <= y <= high_y for x, y in (tip, elbow)):
            return None
        if at not in self._leaders:
            path = shapely.linestrings([tip, elbow])
            self._leaders[at] = path, self._bare.crossed(path)
        path, lines = self._leaders[at]
        for bars in words:
            more = bars.crossed(path) if lines is not None else None
            lines = None if lines is None or more is None else lines + more
        return lines


def _lines(strokes: Sequence[Stroke]) -> list[Any]:
    """The strokes as shapely's lines, made in one call."""
    if not strokes:
        return []
    points = [point for stroke in strokes for point in stroke.points]
    belongs = np.repeat(np.arange(len(strokes)), [len(stroke.points) for stroke in strokes])
    return list(shapely.linestrings(points, indices=belongs))


def _filled(drawing: Drawing, *fills: str) -> Iterator[Polygon]:
    return (area.polygon for area in drawing.areas if area.fill in fills)
