"""Which tiles a drawing is cut into: how it lies on the paper, where seams run, what is left out.

Planned from the lines alone, so that words can then be put in clear of the seams and change
nothing. A tile is kept where something is cut or marked; folds, waste and the ends of the paper
are not worth a sheet, unless they join two tiles that are kept.

    plan = plan_tiles(lines, page, overlap_in=0.5)
    plan.seams()         where words must not stand
    plan.left_out()      paper that will not be printed
"""

from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

import numpy as np
import shapely
import shapely.affinity

from figures.ink.drawing import Box, Drawing, Polygon, label_box
from figures.ink.hatch import hatched
from figures.ink.pens import MARKS, Point
from figures.page.sheet import Page, clear_field
from figures.page.tiles import Grid, grid_over
from layout.errors import SheetError

SHARES = (0.5, 1.0, 0.0, 0.75, 0.25)
"""Where a drawing may stand in its tiles, as shares of what is spare."""
NEAR_SEAM_IN = 0.3
"""How near to a seam no corner of a line should lie [in]."""
SAWN = frozenset({"cut", "stays", "hand", "saw", "wrong"})
"""Pens that make a tile worth its paper."""
IDLE = frozenset({"hatch", "fold", "guide"})
"""Pens that alone are not worth a tile of any drawing."""
STARTS = frozenset({"start-line", "start"})
"""Lines that the paper is laid by: one tile that bears a part of them is kept."""
_FAR_IN = 1e4
"""Where an outer tile ends that has no outer bound [in]."""
_HAIR_IN = 1e-6
"""What only touches a seam does not make the tile beyond it worth printing [in]."""
TileSpot = tuple[int, int]


@dataclass(frozen=True)
class TilePlan:
    """Tiles over a drawing: a page of them, whether the drawing is turned, and those kept.

    `in_order` has those kept as they are numbered: in reading order, but the one with most free
    paper first, since the first page bears the cautions.
    """

    page: Page
    turned: bool
    grid: Grid
    kept: tuple[TileSpot, ...]
    in_order: tuple[TileSpot, ...]

    def seams(self) -> tuple[tuple[Point, Point], ...]:
        """The seams over the drawing's whole width or height, as it was before it was turned."""
        grid = self.grid
        x0, y1 = grid.left, grid.top
        _, y0, x1, _ = grid.window(grid.rows - 1, grid.columns - 1)
        lines = [((x, y0), (x, y1)) for x in grid.upright_seams]
        lines += [((x0, y), (x1, y)) for y in grid.level_seams]
        if not self.turned:
            return tuple(lines)
        return tuple(((ay, -ax), (by, -bx)) for (ax, ay), (bx, by) in lines)

    def first_cell(self) -> Polygon:
        """What the first page shows when it is trimmed, as the drawing was before it was turned."""
        return self._before(trimmed(self.grid, self.in_order[0]))

    def left_out(self) -> Polygon:
        """The paper whose tiles are not printed, as the drawing was before it was turned."""
        places = product(range(self.grid.rows), range(self.grid.columns))
        return self._before(
            shapely.union_all(
                [trimmed(self.grid, place) for place in places if place not in self.kept]
            )
        )

    def _before(self, region: Polygon) -> Polygon:
        """A part of the paper, as the drawing was before it was turned."""
        return shapely.affinity.rotate(region, -90, origin=(0, 0)) if self.turned else region


def plan_tiles(
    drawing: Drawing, blank: Page, overlap_in: float, *, with_words: bool = False
) -> TilePlan:
    """The tiles that cut a drawing into the fewest pages.

    Of as few, those whose seams run near the fewest corners. `with_words` is for a drawing that
    has its words: every tile is kept that shows them, or lines that are more than folds. Raises
    SheetError where there would be more than 200.
    """
    best: tuple[tuple[int, int, int], TilePlan] | None = None
    page = replace(blank, strips="next", letter="A", place="row 1 of 1, column 1 of 1")
    other = replace(page, paper=page.paper.turned())
    _check_bounds(drawing, (page, other), overlap_in)
    lines = replace(hatched(drawing), labels=drawing.labels if with_words else ())
    for turned, sheet in product((False, True), (page, other)):
        one = lines.turned(90) if turned else lines
        bounds = one.bounds()
        try:
            grid = grid_over(bounds, clear_field(sheet), overlap_in)
        except SheetError:
            continue  # another way carries it: that is checked
        worth, start, ink = _trees(one, everything=with_words)
        taken = covered(one)
        corners = _corners(one)
        grids = _shifted(grid, bounds)
        for rank, (at, kept) in enumerate(zip(grids, _kept(grids, worth, start, ink), strict=True)):
            key = len(kept), _near(at, corners), rank
            if best is None or key < best[0]:
                best = key, TilePlan(sheet, turned, at, kept, _roomiest_first(at, kept, taken))
    assert best is not None
    return best[1]


def _check_bounds(drawing: Drawing, sheets: tuple[Page, ...], overlap_in: float) -> None:
    """Refuse what no grid of tiles can carry before its waste is hatched, line by line."""
    refusals: list[SheetError] = []
    for one, sheet in product((drawing, drawing.turned(90)), sheets):
        try:
            grid_over(one.bounds(), clear_field(sheet), overlap_in)
        except SheetError as error:
            refusals.append(error)
        else:
            return
    raise refusals[0]


def _shifted(grid: Grid, bounds: Box) -> list[Grid]:
    """The tiles with the drawing in their middle, then toward their sides."""
    x0, y0, x1, y1 = bounds
    wide = grid.columns * (grid.width - grid.overlap) + grid.overlap - (x1 - x0)
    high = grid.rows * (grid.height - grid.overlap) + grid.overlap - (y1 - y0)
    return [
        replace(grid, left=x0 - wide * across, top=y1 + high * up)
        for across, up in product(
            SHARES if grid.columns > 1 else SHARES[1:2], SHARES if grid.rows > 1 else SHARES[:1]
        )
    ]


def covered(drawing: Drawing) -> Polygon:
    """What a drawing covers: the hull of all its lines, since no block may stand in a part of it,
    and its words, which may stand off them."""
    lines = shapely.convex_hull(shapely.geometrycollections(drawing.shapes(words=False)))
    return shapely.union_all([lines, *(label_box(label) for label in drawing.labels)])


def within(cell: Box, window: Box, off: float = 0.0) -> Box:
    """A tile's cell held inside its window, a little off each seam [in]."""
    x0, y0, x1, y1 = cell
    left, bottom, right, top = window
    return max(x0 + off, left), max(y0 + off, bottom), min(x1 - off, right), min(y1 - off, top)


def trimmed(grid: Grid, place: TileSpot) -> Polygon:
    """A tile's cell as a piece of paper; the outer ones reach far beyond any drawing."""
    return shapely.box(*_finite(grid.cell(*place)))


def _finite(cells: Any) -> Any:
    return np.clip(cells, a_min=-_FAR_IN, a_max=_FAR_IN)


def _roomiest_first(grid: Grid, kept: tuple[TileSpot, ...], taken: Polygon) -> tuple[TileSpot, ...]:
    def free(place: TileSpot) -> float:
        cell = shapely.box(*grid.window(*place)) & trimmed(grid, place)
        return float(shapely.difference(cell, taken).area)

    first = max(kept, key=lambda place: (round(free(place), 1), -kept.index(place)))
    return (first, *(place for place in kept if place != first))


def _trees(drawing: Drawing, *, everything: bool) -> tuple[Any, Any, Any]:
    """What is worth a tile, what the paper is laid by, and all ink, to be asked by place."""
    if everything:
        worth = [stroke for stroke in drawing.strokes if stroke.pen not in IDLE]
        solid = Drawing(tuple(worth), drawing.areas, drawing.labels)
        return shapely.STRtree(solid.shapes()), None, shapely.STRtree(drawing.shapes())
    sawn = [stroke for stroke in drawing.strokes if stroke.pen in SAWN]
    starts = [stroke for stroke in drawing.strokes if stroke.gid in STARTS]
    ink = shapely.STRtree(drawing.shapes())
    if not sawn:
        return ink, None, ink
    return (
        shapely.STRtree(Drawing(tuple(sawn)).shapes()),
        shapely.STRtree(Drawing(tuple(starts)).shapes()) if starts else None,
        ink,
    )


def _kept(
    grids: Sequence[Grid], worth: Any, start: Any, ink: Any
) -> Iterator[tuple[TileSpot, ...]]:
    """For each grid the tiles worth printing, joined: one between two of them is printed too."""
    places = list(product(range(grids[0].rows), range(grids[0].columns)))
    boxes = _cells(grids)

    def bearing(tree: Any) -> Any:
        """For each grid, which of its tiles show something of a tree (n, tiles)."""
        found = np.zeros(boxes.size, dtype=bool)
        found[tree.query(boxes.ravel(), predicate="intersects")[0]] = True
        return found.reshape(boxes.shape)

    def those(flags: Any) -> list[TileSpot]:
        return [places[i] for i in np.flatnonzero(flags)]

    starting = None if start is None else bearing(start)
    for i, (worthy, inky) in enumerate(zip(bearing(worth), bearing(ink), strict=True)):
        kept = set(those(worthy))
        if starting is not None and not kept & set(those(starting[i])):
            near = those(starting[i])
            near.sort(key=lambda one: min(abs(one[0] - k[0]) + abs(one[1] - k[1]) for k in kept))
            kept.update(near[:1])
        yield tuple(sorted(_joined(kept, kept | set(those(inky)))))


def _cells(grids: Sequence[Grid]) -> Any:
    """What each tile of each grid shows when it is trimmed, a hair within its seams (n, tiles)."""
    cells = [
        grid.cell(*place)
        for grid in grids
        for place in product(range(grid.rows), range(grid.columns))
    ]
    left, bottom, right, top = _finite(cells).T
    boxes: Any = shapely.box(left + _HAIR_IN, bottom + _HAIR_IN, right - _HAIR_IN, top - _HAIR_IN)
    return boxes.reshape(len(grids), len(cells) // len(grids))


def _joined(kept: set[TileSpot], inked: set[TileSpot]) -> set[TileSpot]:
    """The kept tiles, and the fewest others that join them side by side.

    The way out of one part may miss a tile that serves two others, so each is begun from.
    """
    parts: list[set[TileSpot]] = []
    for spot in sorted(kept):
        if not any(spot in part for part in parts):
            parts.append(_group(spot, kept))
    return min((_joined_from(part, kept, inked) for part in parts), key=len, default=set())


def _joined_from(part: set[TileSpot], kept: set[TileSpot], inked: set[TileSpot]) -> set[TileSpot]:
    """The kept tiles joined to one part of them, the nearest first."""
    joined = part
    rest = kept - joined
    while rest:
        path = _path(joined, rest, inked)
        if not path:
            # Nothing drawn joins them: each part is laid on the board by itself.
            joined = joined | _group(min(rest), rest)
        else:
            joined = joined | _group(path[0], joined | set(path) | rest)
        rest = kept - joined
    return joined


def _group(start: TileSpot, among: set[TileSpot]) -> set[TileSpot]:
    found, edge = {start}, [start]
    while edge:
        for near in _beside(edge.pop()):
            if near in among and near not in found:
                found.add(near)
                edge.append(near)
    return found


def _path(begin: set[TileSpot], goal: set[TileSpot], inked: set[TileSpot]) -> list[TileSpot]:
    """The shortest way over drawn tiles from one set to another, both ends left out but one."""
    came: dict[TileSpot, TileSpot | None] = dict.fromkeys(sorted(begin))
    queue = deque(came)
    while queue:
        at = queue.popleft()
        if at in goal:
            path: list[TileSpot] = []
            here: TileSpot | None = at
            while here is not None:
                path.append(here)
                here = came[here]
            return path
        for near in _beside(at):
            if near in inked and near not in came:
                came[near] = at
                queue.append(near)
    return []


def _beside(place: TileSpot) -> tuple[TileSpot, ...]:
    row, column = place
    return (row - 1, column), (row + 1, column), (row, column - 1), (row, column + 1)


def _corners(drawing: Drawing) -> Any:
    """The ends of all lines that are marked or cut (n, 2) [in]."""
    ends: Sequence[Point] = [
        point
        for stroke in drawing.strokes
        if stroke.pen in MARKS or stroke.pen == "bar"
        for point in stroke.points
    ]
    return np.array(ends).reshape(len(ends), 2)


def _near(grid: Grid, corners: Any) -> int:
    """How many corners lie near a seam."""
    return sum(
        int((np.abs(places - seam) < NEAR_SEAM_IN).sum())
        for places, seams in (
            (corners[:, 0], grid.upright_seams),
            (corners[:, 1], grid.level_seams),
        )
        for seam in seams
    )
