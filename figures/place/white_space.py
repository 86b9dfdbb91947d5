"""Words put where there is room for them: on a part of a drawing, clear of its lines.

A room is a polygon cut into small squares, each free or taken. Lines and words that are put
into it take the squares they touch, and the free places for a box of any size are then read
from running sums of the squares, all at once. Inches on paper.

    room = FreeRoom(kept_wood)
    room.take(mark)
    room.place(text_size("FOLD", 9), near=(2.0, 5.5))     the box's lower left corner, or None
"""

from collections.abc import Iterable
from typing import Any, NamedTuple

import numpy as np
import shapely

from figures.ink.drawing import Polygon
from figures.ink.pens import Point
from layout.vector import Array

CLEAR_IN = 0.05
"""White between words and anything else [in]."""
CELL_IN = 0.05
_CHORD = 0.998
"""The middle of a chord lies so far out, as a share of the radius, where 16 of them make a
quarter of a circle: cos(90 / 32) and a little less."""
MOST_CELLS = 40_000
"""A room of more squares than this is cut into larger ones."""


class _Counted:
    """What was found of a room; it holds until something takes more of the room: words are tried
    in one size at many points, and in many sizes that are all too large."""

    def __init__(self, too_large: Iterable[tuple[int, int]] = ()) -> None:
        self.sums: Any = None
        self.places: dict[tuple[int, int], Any] = {}
        self.too_large = list(too_large)
        """Squares up and across for which there was no place."""


class KeptRoom(NamedTuple):
    """What a room was like: its free squares, how many things had taken some, what was found."""

    free: Any
    taken: int
    counted: _Counted


class FreeRoom:
    """The free part of a polygon; it shrinks as lines and words take their places."""

    def __init__(self, region: Polygon, clear_in: float = CLEAR_IN) -> None:
        self.region = region
        self.clear_in = clear_in
        self._taken: list[Polygon] = []
        self._counted = _Counted()
        self.cell_in = CELL_IN
        if region.is_empty:
            self._free = np.zeros((0, 0), dtype=bool)
            self.bounds = (0.0, 0.0, 0.0, 0.0)
            return
        left, bottom, right, top = self.bounds = tuple(shapely.bounds(region).tolist())
        self.cell_in = max(CELL_IN, float(np.sqrt((right - left) * (top - bottom) / MOST_CELLS)))
        self._left, self._bottom = float(left), float(bottom)
        columns = int((right - left) / self.cell_in)
        rows = int((top - bottom) / self.cell_in)
        self._x = left + (np.arange(columns) + 0.5) * self.cell_in
        self._y = bottom + (np.arange(rows) + 0.5) * self.cell_in
        shapely.prepare(region)
        reach = self._reach
        if shapely.area(region) == (right - left) * (top - bottom):
            across = (left + reach < self._x) & (self._x < right - reach)
            up = (bottom + reach < self._y) & (self._y < top - reach)
            self._free = up[:, None] & across
            return
        inner = shapely.buffer(region, -reach)
        shapely.prepare(inner)
        self._free = shapely.contains_xy(inner, *np.meshgrid(self._x, self._y))

    @property
    def _reach(self) -> float:
        """How far from a free square's middle everything else is: white and half a diagonal."""
        return self.clear_in + 0.7072 * self.cell_in

    def take(self, *shapes: Any) -> None:
        """Let lines, areas or label boxes take what they cover of the room."""
        if self.region.is_empty or not shapes:
            return
        reach = self._reach
        low_x, low_y, high_x, high_y = self.bounds
        for shape in shapes:
            x0, y0, x1, y1 = shapely.bounds(shape).tolist()
            if max(x0 - high_x, low_x - x1, y0 - high_y, low_y - y1) > reach:
                continue
            if not shapely.distance(shape, self.region) <= reach:
                continue
            self._taken.append(shape)
            i = np.searchsorted(self._x, (x0 - reach, x1 + reach))
            j = np.searchsorted(self._y, (y0 - reach, y1 + reach))
            part = self._free[slice(*j), slice(*i)]
            # Only squares that are free still can be taken.
            rows, columns = np.nonzero(part)
            if not len(rows):
                continue
            x, y = self._x[i[0] + columns], self._y[j[0] + rows]
            under = _within(shape, x, y, reach)
            if under.any():
                part[rows[under], columns[under]] = False
                # What is too large for a room is too large for less of it.
                self._counted = _Counted(self._counted.too_large)

    def kept(self) -> KeptRoom:
        """What is free now, to be put back if what is tried next does not fit."""
        return KeptRoom(self._free.copy(), len(self._taken), self._counted)

    def put_back(self, was: KeptRoom) -> None:
        """Make the room again what it was when `kept` was asked."""
        free, count, self._counted = was
        self._free = free.copy()
        del self._taken[count:]

    def fits(self, box: Polygon) -> bool:
        """True where a shape of any kind lies whole in the room and clear of what was taken."""
        if not shapely.covers(self.region, box):
            return False
        grown = shapely.buffer(box, self.clear_in * 0.6, join_style="mitre")
        if not shapely.covers(self.region, grown):
            return False
        shapely.prepare(grown)
        return not (self._taken and shapely.intersects(grown, self._taken).any())

    def reaches(self, corners: Iterable[Point]) -> bool:
        """False where a shape with these corners surely does not lie in the room."""
        left, bottom, right, top = self.bounds
        return all(left <= x <= right and bottom <= y <= top for x, y in corners)

    def find(self, size: Point, near: Point, *, corner: Point = (0.5, 0.5)) -> Point | None:
        """Lower left corner of the free place for a box nearest to a point, or None [in].

        `corner` is the point of the box that is to be near, as fractions of its width and
        height.
        """
        width, height = size
        across, up = (max(1, int(np.ceil(side / self.cell_in - 1e-9))) for side in size)
        full = self._free_places(up, across)
        if full is None:
            return None
        j, i = _nearest_in_rows(full, (near[0] - corner[0] * width - self._left) / self.cell_in)
        x, y = self._left + i * self.cell_in, self._bottom + j * self.cell_in
        far = np.hypot(x + corner[0] * width - near[0], y + corner[1] * height - near[1])
        best = int(np.argmin(np.round(far, 6)))
        return float(x[best]), float(y[best])

    def _free_places(self, up: int, across: int) -> Any:
        """Which squares are the lowest left ones of a free place so many squares high and wide;
        None for none."""
        counted = self._counted
        if (up, across) in counted.places:
            return counted.places[up, across]
        if any(up >= high and across >= wide for high, wide in counted.too_large):
            return None
        rows, columns = self._free.shape
        found = None
        if up <= rows and across <= columns:
            sums = counted.sums
            if sums is None:
                # Sums run over and their differences do not: no room has so many squares.
                sums = counted.sums = np.zeros((rows + 1, columns + 1), dtype=np.uint16)
                np.cumsum(self._free, axis=0, dtype=np.uint16, out=sums[1:, 1:])
                np.cumsum(sums[1:, 1:], axis=1, dtype=np.uint16, out=sums[1:, 1:])
            full = sums[up:, across:] - sums[:-up, across:]
            full -= sums[up:, :-across]
            full += sums[:-up, :-across]
            found = full == up * across
        if found is None or not found.any():
            counted.too_large.append((up, across))
            return None
        counted.places[up, across] = found
        return found

    def place(self, size: Point, near: Point, *, corner: Point = (0.5, 0.5)) -> Point | None:
        """Find a place for a box and take it."""
        found = self.find(size, near, corner=corner)
        if found is not None:
            self.take(shapely.box(*found, found[0] + size[0], found[1] + size[1]))
        return found


def _nearest_in_rows(full: Any, column: float) -> tuple[Any, Any]:
    """Rows and columns of the places that may be nearest to a column, in order: in each row the
    next one on either side."""
    rows, columns = full.shape
    split = min(max(int(np.ceil(column)), 0), columns)
    every, found = np.arange(rows), []
    if split:
        found.append(split - 1 - np.argmax(full[:, split - 1 :: -1], axis=1))
    if split < columns:
        found.append(split + np.argmax(full[:, split:], axis=1))
    j, i = np.repeat(every, len(found)), np.stack(found, axis=1).ravel()
    there = full[j, i]
    return j[there], i[there]


def _within(shape: Any, x: Array, y: Array, reach_in: float) -> Array:
    """Which points lie in a shape grown by a reach [in], as `shapely.buffer` grows it.

    About a level box that is plain for all but a few points near its rounded corners.
    """
    doubtful = np.ones(len(x), dtype=bool)
    under = np.zeros(len(x), dtype=bool)
    x0, y0, x1, y1 = shapely.bounds(shape).tolist()
    if shapely.area(shape) == (x1 - x0) * (y1 - y0) > 0:
        across = np.maximum(np.maximum(x0 - x, x - x1), 0.0)
        up = np.maximum(np.maximum(y0 - y, y - y1), 0.0)
        far = np.hypot(across, up)
        under = far < np.where((across > 0) & (up > 0), _CHORD * reach_in, reach_in)
        doubtful = ~under & (far < reach_in)
    if doubtful.any():
        grown = shapely.buffer(shape, reach_in)
        shapely.prepare(grown)
        under[doubtful] = shapely.contains_xy(grown, x[doubtful], y[doubtful])
    return under


def rooms(regions: Iterable[Polygon]) -> list[FreeRoom]:
    """A room for each polygon, the largest part of those that fall apart first."""
    parts = [part for region in regions for part in shapely.get_parts(region) if part.area > 0]
    return [FreeRoom(part) for part in sorted(parts, key=lambda part: -part.area)]
