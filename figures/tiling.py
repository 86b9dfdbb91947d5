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
from math import ceil, inf, isfinite
from typing import Any

import numpy as np
import shapely
import shapely.affinity

from figures.checkbars import SQUARE_IN
from figures.correction import Correction
from figures.drawing import Box, Drawing, Label, Stroke, label_box
from figures.hatch import hatched
from figures.paper import DEFAULT_MARGIN_IN, Paper, checked_margin
from figures.pens import Point
from figures.scale import FULL_SIZE, Scale, check_seen
from figures.sheet import KEY_IN, Page, Strips, clear_field
from layout.errors import SheetError

OVERLAP_IN = 0.5
OVERLAPS_IN = (0.25, 2.0)
MOST_TILES = 200
LEAST_ROLL_IN, LEAST_STUDY_IN = 9.5, 6.0
"""The shortest pieces cut from a roll, at full size and at a study scale [in]."""
APART_IN = 0.12
"""Clear paper between a drawing and the small square beside it [in]."""
SEAM_CLEAR_IN = 0.05
"""Clear paper between a trim line and words that were moved off it [in]."""
CROSS_IN = 0.12
"""Half the length of a registration cross [in]."""
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
) -> tuple[Page, ...]:
    """The pages that carry a drawing whose inches are inches on paper.

    A drawing for a study scale comes here already put to scale, and then dimensioned; the
    scale of the setup is what the sheet says and what its bar shows.

    Raises SheetError where the paper or the roll cannot carry it, where the scale leaves nothing
    to see, and where it would take more than 200 tiles.
    """
    check_seen(drawing, setup.scale)
    inked = hatched(drawing)
    blank = Page(
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
    if setup.paper.endless:
        return (_on_roll(inked, blank, setup.paper),)
    single = _on_one(inked, blank)
    return (single,) if single else _tiled(inked, blank, setup.overlap_in)


def numbered(sheets: tuple[Page, ...]) -> tuple[Page, ...]:
    """Pages of several drawings counted through as one document."""
    return tuple(
        replace(page, number=i, count=len(sheets)) for i, page in enumerate(sheets, start=1)
    )


def _ways(drawing: Drawing, blank: Page) -> Iterator[tuple[Drawing, Page]]:
    """The drawing upright and turned, on the paper as it is and the other way round.

    A page with the 2 in square comes before one with a smaller square, upright before turned.
    """
    other = replace(blank, paper=blank.paper.turned())
    full: tuple[tuple[Strips, ...], ...] = (("low", "foot", "side"), ("tight",))
    for group in full if blank.scale.full else (("low",),):
        for turned, page, strips in product((False, True), (blank, other), group):
            yield (drawing.turned(90) if turned else drawing), replace(page, strips=strips)


def _on_one(drawing: Drawing, blank: Page) -> Page | None:
    for candidate, page in _ways(drawing, blank):
        placed = _placed(candidate, page)
        if placed is not None:
            return placed
    return None


def _placed(drawing: Drawing, page: Page) -> Page | None:
    """The drawing in the clear field, with the small square beside it, or None."""
    try:
        left, bottom, right, top = clear_field(page)
    except SheetError:
        return None
    x0, y0, x1, y1 = drawing.bounds()
    spare_x, spare_y = (right - left) - (x1 - x0), (top - bottom) - (y1 - y0)
    if spare_x < -_LOOSE or spare_y < -_LOOSE:
        return None
    if not page.scale.full or page.strips != "low":
        return replace(
            page, drawing=drawing.moved(left - x0 + spare_x / 2, bottom - y0 + spare_y / 2)
        )
    covered = _covered(drawing)
    for across, up in ((0.5, 0.5), (0.5, 1.0), (0.0, 0.5), (0.0, 1.0), (1.0, 1.0)):
        dx, dy = left - x0 + spare_x * across, bottom - y0 + spare_y * up
        taken = shapely.affinity.translate(covered, dx, dy)
        square = _free_square(taken, (left, bottom, right, top))
        if square is not None:
            return replace(page, drawing=drawing.moved(dx, dy), square_at=square)
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
    for candidate, page in _ways(drawing, blank):
        if not page.paper.across_x or (page.scale.full and page.strips in ("low", "tight")):
            continue
        x0, y0, x1, y1 = candidate.bounds()
        _, bottom, _, top = clear_field(page)
        along = page.factors[1]
        furniture = page.size_in[1] - (top - bottom)
        # Long enough for the drawing and for the bar along it, in whole quarter inches.
        least = LEAST_ROLL_IN if page.scale.full else LEAST_STUDY_IN
        length = max(y1 - y0 + furniture, least) * along
        cut = roll.cut_to(ceil(length * 4 - _LOOSE) / 4)
        placed = _placed(candidate, replace(page, paper=cut))
        if placed is not None and (best is None or cut.height_in < best.paper.height_in):
            best = placed
    if best is None:
        x0, y0, x1, y1 = drawing.bounds()
        raise SheetError(
            f"{roll.name} is {blank.size_in[0]:.4g} in wide and the drawing {x1 - x0:.4g} by"
            f" {y1 - y0:.4g} in: use a wider roll, a smaller scale, or sheets, which are tiled"
        )
    return best


@dataclass(frozen=True)
class _Grid:
    """Tiles over a drawing: windows overlap, seams run down the middle of each overlap."""

    left: float
    top: float
    width: float
    height: float
    overlap: float
    columns: int
    rows: int

    def window(self, row: int, column: int) -> Box:
        """What a tile shows, in the drawing's inches; row 0 is the top one."""
        x = self.left + column * (self.width - self.overlap)
        y = self.top - row * (self.height - self.overlap)
        return x, y - self.height, x + self.width, y

    def cell(self, row: int, column: int) -> Box:
        """What is left of a tile when it is trimmed; the outer ones have no outer bound."""
        x0, y0, x1, y1 = self.window(row, column)
        half = self.overlap / 2
        return (
            x0 + half if column else -inf,
            y0 + half if row < self.rows - 1 else -inf,
            x1 - half if column < self.columns - 1 else inf,
            y1 - half if row else inf,
        )


def _grid(bounds: Box, room: Box, overlap: float) -> _Grid:
    x0, y0, x1, y1 = bounds
    width, height = room[2] - room[0], room[3] - room[1]
    if min(width, height) <= 2 * overlap:
        raise SheetError(
            f"an overlap of {overlap:g} in leaves nothing of a field {width:.3g} by"
            f" {height:.3g} in: use less overlap or larger paper"
        )
    columns = max(1, ceil((x1 - x0 - overlap) / (width - overlap) - _LOOSE))
    rows = max(1, ceil((y1 - y0 - overlap) / (height - overlap) - _LOOSE))
    if rows * columns > MOST_TILES:
        raise SheetError(
            f"the drawing, {x1 - x0:.4g} by {y1 - y0:.4g} in, would take {rows * columns} pages:"
            " use larger paper, a roll, or a smaller scale"
        )
    # The drawing stands in the middle of its tiles.
    left = (x0 + x1 - columns * (width - overlap) - overlap) / 2
    top = (y0 + y1 + rows * (height - overlap) + overlap) / 2
    return _Grid(left, top, width, height, overlap, columns, rows)


def _tiled(drawing: Drawing, blank: Page, overlap: float) -> tuple[Page, ...]:
    best: tuple[int, Drawing, Page, _Grid, list[tuple[int, int]]] | None = None
    refusal: SheetError | None = None
    for candidate, page in _ways(drawing, blank):
        if page.scale.full and page.strips in ("low", "tight"):
            continue
        page = replace(page, letter="A", place="row 1 of 1, column 1 of 1")
        try:
            grid = _grid(candidate.bounds(), clear_field(page), overlap)
        except SheetError as error:
            refusal = refusal or error
            continue
        kept = _inked_tiles(candidate, grid)
        if best is None or len(kept) < best[0]:
            best = len(kept), candidate, page, grid, kept
    if best is None:
        raise refusal or SheetError(f"{blank.paper.name} carries no drawing: use larger paper")
    count, drawing, page, grid, kept = best
    drawing = _off_seams(drawing, grid)
    letters = {place: _letter(i) for i, place in enumerate(kept)}
    room = clear_field(page)
    made = []
    for i, place in enumerate(kept):
        row, column = place
        window = grid.window(row, column)
        shift = room[0] - window[0], room[1] - window[1]
        part = drawing.clipped(window, part_labels=True)
        part += _seams(part, grid, place, letters)
        made.append(
            replace(
                page,
                drawing=part.moved(*shift),
                number=i + 1,
                count=count,
                letter=letters[place],
                place=f"row {row + 1} of {grid.rows}, column {column + 1} of {grid.columns}",
                key=_key_map(grid.rows, grid.columns, kept, place) if i == 0 else None,
                window=room,
            )
        )
    return tuple(made)


def _inked_tiles(drawing: Drawing, grid: _Grid) -> list[tuple[int, int]]:
    """Rows and columns of the tiles that still show ink when they are trimmed."""
    tree = shapely.STRtree(drawing.shapes())
    far = max(abs(side) for side in drawing.bounds()) + 1.0
    places = list(product(range(grid.rows), range(grid.columns)))
    return [
        place
        for place in places
        if tree.query(
            shapely.box(*(np.clip(grid.cell(*place), -far, far))), predicate="intersects"
        ).size
    ]


def _off_seams(drawing: Drawing, grid: _Grid) -> Drawing:
    """The drawing with words moved off the seams, where they can be without hiding anything.

    Words that find no free place stay, and are cut and joined like any line.
    """
    step_x, step_y = grid.width - grid.overlap, grid.height - grid.overlap
    half = grid.overlap / 2
    across = [grid.left + step_x * i + half for i in range(1, grid.columns)]
    up = [grid.top - step_y * i - half for i in range(1, grid.rows)]
    labels = list(drawing.labels)
    for i, label in enumerate(labels):
        x0, y0, x1, y1 = label_box(label).bounds
        shifts = [
            shift
            for seam in across
            if x0 < seam < x1
            for shift in ((seam - x1 - SEAM_CLEAR_IN, 0.0), (seam - x0 + SEAM_CLEAR_IN, 0.0))
        ]
        shifts += [
            shift
            for seam in up
            if y0 < seam < y1
            for shift in ((0.0, seam - y1 - SEAM_CLEAR_IN), (0.0, seam - y0 + SEAM_CLEAR_IN))
        ]
        others = [*labels[:i], *labels[i + 1 :]]
        for dx, dy in sorted(shifts, key=lambda shift: abs(shift[0]) + abs(shift[1])):
            moved = replace(label, x=label.x + dx, y=label.y + dy)
            box = label_box(moved)
            a0, b0, a1, b1 = box.bounds
            cut = any(a0 < seam < a1 for seam in across) or any(b0 < seam < b1 for seam in up)
            near = (
                shapely.dwithin([label_box(other) for other in others], box, SEAM_CLEAR_IN).any()
                if others
                else False
            )
            lines = [shapely.linestrings(stroke.points) for stroke in drawing.strokes]
            on_line = bool(lines) and shapely.intersects(lines, box).any()
            if not (cut or near or on_line):
                labels[i] = moved
                break
    return replace(drawing, labels=tuple(labels))


def _letter(index: int) -> str:
    """A, B ... Z, AA, AB ..."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


_SIDES = {"left": (0, -1), "right": (0, 1), "up": (-1, 0), "down": (1, 0)}


def _seams(
    part: Drawing, grid: _Grid, place: tuple[int, int], letters: dict[tuple[int, int], str]
) -> Drawing:
    """Trim lines, crosses and words on the seams that a tile shares with its neighbours.

    The page on the right and the page below are trimmed and laid on the one before.
    """
    row, column = place
    x0, y0, x1, y1 = grid.window(row, column)
    cell = grid.cell(row, column)
    strokes: list[Stroke] = []
    labels: list[Label] = []
    for side, (down, across) in _SIDES.items():
        neighbour = letters.get((row + down, column + across))
        if neighbour is None:
            continue
        upright = across != 0
        seam = {"left": cell[0], "right": cell[2], "down": cell[1], "up": cell[3]}[side]
        begin, end = (y0, y1) if upright else (x0, x1)
        inner = (cell[1], cell[3]) if upright else (cell[0], cell[2])
        near = inner[0] if isfinite(inner[0]) else begin + grid.overlap / 2
        far = inner[1] if isfinite(inner[1]) else end - grid.overlap / 2

        def at(along: float, off: float, seam: float = seam, upright: bool = upright) -> Point:
            return (seam + off, along) if upright else (along, seam + off)

        strokes.append(Stroke((at(begin, 0), at(end, 0)), "trim", f"trim-{side}"))
        for share in (0.2, 0.8):
            cross = near + (far - near) * share
            strokes.append(Stroke((at(cross, -CROSS_IN), at(cross, CROSS_IN)), "cross"))
            strokes.append(Stroke((at(cross - CROSS_IN, 0), at(cross + CROSS_IN, 0)), "cross"))
        if side in ("left", "up"):
            words = f"trim here, lay on page {neighbour}"
        else:
            words = f"page {neighbour} lies to this line"
        outward = -1 if side in ("left", "down") else 1
        labels.append(_free_words(words, part, at, (near, far), outward, upright, grid.overlap / 2))
    return Drawing(tuple(strokes), (), tuple(labels))


def _free_words(
    words: str, part: Drawing, at: Any, span: Point, outward: int, upright: bool, deep_in: float
) -> Label:
    """The words beside a trim line, on the side cut off or covered, where they hide least."""
    size = min(8.0, deep_in * 72 / 1.4)
    shapes = [shapely.linestrings(stroke.points) for stroke in part.strokes]
    shapes += [label_box(label) for label in part.labels]
    tree = shapely.STRtree(shapes)
    tries: list[tuple[int, int, Label]] = []
    for share in (0.5, 0.4, 0.6, 0.33, 0.67, 0.28, 0.72):
        x, y = at(span[0] + (span[1] - span[0]) * share, outward * deep_in / 2)
        label = Label(
            words, x, y, size, "center", "center", 90.0 if upright else 0.0, gid="seam-words"
        )
        hits = tree.query(label_box(label, 0.02), predicate="intersects").size
        tries.append((hits, len(tries), label))
    return min(tries)[2]


def _key_map(
    rows: int, columns: int, kept: list[tuple[int, int]], here: tuple[int, int]
) -> Drawing:
    """A small map of the pages: a box for each, its letter in it, this page's box heavy."""
    side = min(0.42, KEY_IN / max(rows, columns))
    strokes, labels = [], []
    for row, column in kept:
        x, y = column * side, KEY_IN - (row + 1) * side
        box = ((x, y), (x + side, y), (x + side, y + side), (x, y + side), (x, y))
        strokes.append(Stroke(box, "visible" if (row, column) == here else "frame", None))
        name = _letter(kept.index((row, column)))
        size = min(10.0, side * 72 * 0.6)
        labels.append(Label(name, x + side / 2, y + side / 2, size, "center", "center"))
    title = Label("Pages", 0.0, KEY_IN + 0.06, 9.0, bold=True)
    return Drawing(tuple(strokes), (), (*labels, title))
