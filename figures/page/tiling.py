"""A drawing put on paper: on one page if it can be, else on tiles that join exactly.

One page is tried with the drawing upright and turned, on the paper both ways round, before the
drawing is cut. Tiles overlap; each carries the trim lines of its seams over their full length,
crosses that fall on one another, its letter and its row and column, and the first page a map.
Tiles with no ink on them are left out. Everything is hatched before it is cut into tiles, and
a stroke knows where in its dash pattern it was cut, so seams are exact.

    setup = PrintSetup(read_paper("Letter"))
    pages(drawing, setup, title="Hip jack, head", given="8 in 12, 2x6")
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import product
from math import ceil
from typing import Any

import numpy as np
import shapely
import shapely.affinity

from figures.ink.correction import Correction
from figures.ink.drawing import Box, Drawing, Label, label_box
from figures.ink.hatch import hatched
from figures.ink.paper import DEFAULT_MARGIN_IN, Paper, checked_margin
from figures.ink.pens import Point
from figures.ink.scale import FULL_SIZE, Scale, check_seen
from figures.page.checkbars import SQUARE_IN
from figures.page.sheet import Page, Strips, clear_field
from figures.page.tiles import (
    Grid,
    grid_over,
    inked_tiles,
    key_map,
    off_corners,
    off_seams,
    page_letter,
    seams,
)
from layout.errors import SheetError

OVERLAP_IN = 0.5
OVERLAPS_IN = (0.25, 2.0)
LEAST_ROLL_IN, LEAST_STUDY_IN = 9.5, 6.0
"""The shortest pieces cut from a roll, at full size and at a study scale [in]."""
APART_IN = 0.12
"""Clear paper between a drawing and the small square beside it [in]."""
_LOOSE = 1e-9


@dataclass(frozen=True)
class PrintSetup:
    """What all sheets of one printing share: paper, scale, margin, correction and overlap."""

    paper: Paper
    scale: Scale = FULL_SIZE
    margin_in: float = DEFAULT_MARGIN_IN
    correction: Correction = field(default_factory=Correction)
    overlap_in: float = OVERLAP_IN

    def __post_init__(self) -> None:
        checked_margin(self.margin_in)
        least, most = OVERLAPS_IN
        if not least <= self.overlap_in <= most:
            raise SheetError(
                f"an overlap of {self.overlap_in:.4g} in does not work: use {least} to {most:g} in"
            )


def pages(
    drawing: Drawing,
    setup: PrintSetup,
    *,
    title: str,
    given: str = "",
    version: str = "",
    description: str = "",
    tiled_as: Drawing | None = None,
) -> tuple[Page, ...]:
    """The pages that carry a drawing whose inches are inches on paper.

    A drawing for a study scale comes here already put to scale, and then dimensioned; the
    scale of the setup is what the sheet says and what its bar shows.

    `tiled_as` is the drawing before words were put in clear of its `seam_lines`: where tiles are
    needed, they are the ones that it would be cut into.

    Raises SheetError where the paper or the roll cannot carry it, where the scale leaves nothing
    to see, and where it would take more than 200 tiles.
    """
    check_seen(drawing, setup.scale)
    blank = _blank(setup, title, given, version, description)
    if not setup.paper.endless:
        _grids(drawing, blank, setup.overlap_in)
    inked = hatched(drawing)
    if setup.paper.endless:
        return (_on_roll(inked, blank, setup.paper),)
    single = _on_one(inked, blank)
    return (single,) if single else _tiled(inked, blank, setup.overlap_in, tiled_as or drawing)


def one_page(
    drawing: Drawing,
    setup: PrintSetup,
    *,
    title: str,
    given: str = "",
    version: str = "",
    description: str = "",
) -> Page | None:
    """The one sheet that carries a drawing whole, or None where it takes tiles or a roll."""
    if setup.paper.endless:
        return None
    check_seen(drawing, setup.scale)
    return _on_one(hatched(drawing), _blank(setup, title, given, version, description))


def _blank(setup: PrintSetup, title: str, given: str, version: str, description: str) -> Page:
    return Page(
        setup.paper.cut_to(24.0) if setup.paper.endless else setup.paper,
        Drawing(),
        title,
        given,
        setup.scale,
        setup.margin_in,
        setup.correction,
        version=version,
        description=description,
    )


def numbered(sheets: tuple[Page, ...]) -> tuple[Page, ...]:
    """Pages of several drawings counted through as one document."""
    return tuple(
        replace(page, number=i, count=len(sheets)) for i, page in enumerate(sheets, start=1)
    )


def rooms_on_one_page(
    setup: PrintSetup, *, title: str, given: str = "", version: str = "", description: str = ""
) -> tuple[Point, ...]:
    """Widths and heights, one of which a drawing must keep to for one sheet of this paper [in].

    Each stands for the drawing as it is; one that is to be turned has them exchanged. Empty for
    a roll.
    """
    if setup.paper.endless:
        return ()
    blank = _blank(setup, title, given, version, description)
    found = []
    for turned, page in _ways(blank):
        left, bottom, right, top = _field(page)
        size = right - left, top - bottom
        found.append((size[1], size[0]) if turned else size)
    return tuple(dict.fromkeys(found))


def seam_lines(
    drawing: Drawing,
    setup: PrintSetup,
    *,
    title: str,
    given: str = "",
    version: str = "",
    description: str = "",
) -> tuple[tuple[Point, Point], ...]:
    """Where `pages` would cut a drawing into tiles, over its whole width or height [in].

    Words may then be added clear of these lines, as long as they stay inside the drawing's
    bounds. Raises SheetError as `pages` does.
    """
    blank = _blank(setup, title, given, version, description)
    _, turned, _, grid = _best_grid(drawing, blank, setup.overlap_in)
    lines = []
    x0, y1 = grid.left, grid.top
    x1, y0 = grid.window(grid.rows - 1, grid.columns - 1)[2], grid.window(grid.rows - 1, 0)[1]
    for column in range(1, grid.columns):
        x = grid.cell(0, column)[0]
        lines.append(((x, y0), (x, y1)))
    for row in range(1, grid.rows):
        y = grid.cell(row, 0)[3]
        lines.append(((x0, y), (x1, y)))
    if not turned:
        return tuple(lines)
    return tuple(((ay, -ax), (by, -bx)) for (ax, ay), (bx, by) in lines)


def tile_count(
    drawing: Drawing,
    setup: PrintSetup,
    *,
    title: str,
    given: str = "",
    version: str = "",
    description: str = "",
) -> int:
    """How many tiles `pages` would cut a drawing into, its words not counted."""
    blank = _blank(setup, title, given, version, description)
    return _best_grid(drawing, blank, setup.overlap_in)[0]


def _ways(blank: Page) -> Iterator[tuple[bool, Page]]:
    """The drawing upright and turned, on the paper as it is and the other way round.

    A page with the 2 in square comes before one with a smaller square, upright before turned.
    """
    other = replace(blank, paper=blank.paper.turned())
    full: tuple[tuple[Strips, ...], ...] = (("low", "foot", "side"), ("tight",))
    for group in full if blank.full else (("low",),):
        for turned, page, strips in product((False, True), (blank, other), group):
            yield turned, replace(page, strips=strips)


def _field(page: Page) -> Box:
    """The clear field, or a field of nothing where the strips leave none."""
    try:
        return clear_field(page)
    except SheetError:
        return 0.0, 0.0, 0.0, 0.0


def _on_one(drawing: Drawing, blank: Page) -> Page | None:
    x0, y0, x1, y1 = drawing.bounds()
    either = {False: drawing}
    for turned, page in _ways(blank):
        left, bottom, right, top = _field(page)
        wide, high = (y1 - y0, x1 - x0) if turned else (x1 - x0, y1 - y0)
        if wide > right - left + _LOOSE or high > top - bottom + _LOOSE:
            continue
        if turned not in either:
            either[turned] = drawing.turned(90)
        placed = _placed(either[turned], replace(page, turned=turned))
        if placed is not None:
            return placed
    return None


def _placed(drawing: Drawing, page: Page) -> Page | None:
    """The drawing in the clear field, with the small square beside it, or None."""
    left, bottom, right, top = _field(page)
    x0, y0, x1, y1 = drawing.bounds()
    spare_x, spare_y = (right - left) - (x1 - x0), (top - bottom) - (y1 - y0)
    if spare_x < -_LOOSE or spare_y < -_LOOSE:
        return None
    if not page.full or page.strips != "low":
        dx, dy = left - x0 + spare_x / 2, bottom - y0 + spare_y / 2
        return replace(page, drawing=drawing.moved(dx, dy), origin=(dx, dy))
    covered = _covered(drawing)
    for across, up in ((0.5, 0.5), (0.5, 1.0), (0.0, 0.5), (0.0, 1.0), (1.0, 1.0)):
        dx, dy = left - x0 + spare_x * across, bottom - y0 + spare_y * up
        taken = shapely.affinity.translate(covered, dx, dy)
        square = _free_square(taken, (left, bottom, right, top))
        if square is not None:
            return replace(page, drawing=drawing.moved(dx, dy), square_at=square, origin=(dx, dy))
    return None


def _covered(drawing: Drawing) -> Any:
    """What a drawing covers: the hull of all its ink, since no square may stand in a part."""
    return shapely.convex_hull(shapely.geometrycollections(drawing.shapes()))


def _free_square(taken: Any, room: Box) -> Point | None:
    """Lower left corner of a free place for the small square, as near a lower corner as can be."""
    left, bottom, right, top = room
    if right - left < SQUARE_IN or top - bottom < SQUARE_IN:
        return None
    xs = np.append(np.arange(left, right - SQUARE_IN, 0.25), right - SQUARE_IN)
    ys = np.append(np.arange(bottom, top - SQUARE_IN, 0.25), top - SQUARE_IN)
    x, y = (grid.ravel() for grid in np.meshgrid(xs, ys))
    squares = shapely.box(x, y, x + SQUARE_IN, y + SQUARE_IN)
    free = shapely.distance(squares, taken) >= APART_IN
    if not free.any():
        return None
    far = (y - bottom) + np.minimum(x - left, right - SQUARE_IN - x) + 1e-6 * (x - left)
    best = int(np.argmin(np.where(free, far, np.inf)))
    return float(x[best]), float(y[best])


def _on_roll(drawing: Drawing, blank: Page, roll: Paper) -> Page:
    """The drawing on the shortest piece of a roll, the right way up if that costs no paper."""
    best: Page | None = None
    both = {False: drawing, True: drawing.turned(90)}
    for turned, page in _ways(blank):
        candidate = both[turned]
        if not page.paper.across_x or (page.full and page.strips in ("low", "tight")):
            continue
        x0, y0, x1, y1 = candidate.bounds()
        _, bottom, _, top = clear_field(page)
        along = page.factors[1]
        furniture = page.size_in[1] - (top - bottom)
        # Long enough for the drawing and for the bar along it, in whole quarter inches.
        least = LEAST_ROLL_IN if page.full else LEAST_STUDY_IN
        length = max(y1 - y0 + furniture, least) * along
        cut = roll.cut_to(ceil(length * 4 - _LOOSE) / 4)
        placed = _placed(candidate, replace(page, paper=cut, turned=turned))
        if placed is not None and (best is None or cut.height_in < best.paper.height_in):
            best = placed
    if best is None:
        x0, y0, x1, y1 = drawing.bounds()
        raise SheetError(
            f"{roll.name} is {blank.size_in[0]:.4g} in wide and the drawing {x1 - x0:.4g} by"
            f" {y1 - y0:.4g} in: use a wider roll, a smaller scale, or sheets, which are tiled"
        )
    return best


def _grids(drawing: Drawing, blank: Page, overlap: float) -> list[tuple[bool, Page, Grid]]:
    """The tiles over a drawing for every way it can lie on the paper, by its bounds alone."""
    refusal: SheetError | None = None
    x0, y0, x1, y1 = drawing.bounds()
    grids = []
    for turned, page in _ways(blank):
        if page.full and page.strips in ("low", "tight"):
            continue
        page = replace(page, letter="A", place="row 1 of 1, column 1 of 1")
        bounds = (-y1, x0, -y0, x1) if turned else (x0, y0, x1, y1)
        try:
            grids.append((turned, page, grid_over(bounds, clear_field(page), overlap)))
        except SheetError as error:
            refusal = refusal or error
    if not grids:
        raise refusal or SheetError(f"{blank.paper.name} carries no drawing: use larger paper")
    return grids


def _best_grid(drawing: Drawing, blank: Page, overlap: float) -> tuple[int, bool, Page, Grid]:
    """The tiles that cut a drawing into the fewest pages, how many, and whether it is turned.

    Words are not counted, so that they can be put in clear of the seams and change nothing.
    """
    best: tuple[int, bool, Page, Grid] | None = None
    grids = _grids(drawing, blank, overlap)
    lines = replace(hatched(drawing), labels=())
    both = {False: lines, True: lines.turned(90)}
    for turned, page, grid in grids:
        grid = off_corners(grid, both[turned])
        kept = inked_tiles(both[turned], grid)
        if best is None or len(kept) < best[0]:
            best = len(kept), turned, page, grid
    assert best is not None
    return best


def _tiled(drawing: Drawing, blank: Page, overlap: float, tiled_as: Drawing) -> tuple[Page, ...]:
    _, turned, page, grid = _best_grid(tiled_as, blank, overlap)
    drawing = off_seams(drawing.turned(90) if turned else drawing, grid)
    kept = inked_tiles(drawing, grid)
    count = len(kept)
    letters = {place: page_letter(i) for i, place in enumerate(kept)}
    room = clear_field(page)
    made = []
    for i, place in enumerate(kept):
        row, column = place
        window = grid.window(row, column)
        shift = room[0] - window[0], room[1] - window[1]
        part = drawing.clipped(window, part_labels=True)
        part = replace(part, labels=_own_words(part, window, grid.cell(row, column)))
        part += seams(part, grid, place, letters)
        made.append(
            replace(
                page,
                drawing=part.moved(*shift),
                number=i + 1,
                count=count,
                letter=letters[place],
                place=f"row {row + 1} of {grid.rows}, column {column + 1} of {grid.columns}",
                key=key_map(grid.rows, grid.columns, kept, place) if i == 0 else None,
                window=room,
                origin=shift,
                turned=turned,
            )
        )
    return tuple(made)


def _own_words(part: Drawing, window: Box, cell: Box) -> tuple[Label, ...]:
    """The words of a tile: those whole in its window, and those its trimmed page has a part of.

    A scrap of a word that stands whole on the next page is left out.
    """
    whole = shapely.box(*window).buffer(_LOOSE)
    trimmed = shapely.box(*(min(max(side, -1e6), 1e6) for side in cell))
    return tuple(
        label
        for label in part.labels
        if whole.covers(label_box(label)) or trimmed.intersects(label_box(label))
    )
