"""A drawing put on paper: on one page if it can be, else on tiles that join exactly.

One page is tried with the drawing upright and turned, on the paper both ways round, before the
drawing is cut. Notes, cautions and the square stand where the drawing leaves paper free, on a
page of their own where it leaves none. Tiles overlap; each carries the trim lines of its seams
over their full length, crosses that fall on one another, its letter and its row and column, and
the first page a map. Everything is hatched before it is cut into tiles, and a stroke knows where
in its dash pattern it was cut, so seams are exact.

    setup = PrintSetup(read_paper("Letter"))
    pages(drawing, setup, title="Hip jack, head", given="8 in 12, 2x6")
"""

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from itertools import product
from math import ceil

import shapely
import shapely.affinity

from figures.ink.correction import Correction
from figures.ink.drawing import Box, Drawing, Label, Polygon, label_box
from figures.ink.hatch import hatched
from figures.ink.paper import DEFAULT_MARGIN_IN, Paper, checked_margin
from figures.ink.pens import Point
from figures.ink.scale import FULL_SIZE, Scale, check_seen
from figures.page.beside import APART_IN, Block, free_rooms, least_area_in2, stand
from figures.page.cautions import blocks_left, caution_blocks
from figures.page.sheet import Page, clear_field
from figures.page.tile_plan import TilePlan, TileSpot, covered, plan_tiles, trimmed, within
from figures.page.tiles import CROSS_IN, key_map, off_seams, page_letter, seams
from layout.errors import SheetError

OVERLAP_IN = 0.5
OVERLAPS_IN = (0.25, 2.0)
LEAST_ROLL_IN, LEAST_STUDY_IN = 9.5, 6.0
"""The shortest pieces cut from a roll, at full size and at a study scale [in]."""
ROLL_MORE_IN = tuple(step / 2 for step in range(32))
"""How much longer a piece of roll is tried for what stands beside the drawing [in]."""
ANY_PIECE_IN = 24.0
"""A piece of roll before its length is known: all that is asked of it is its width [in]."""
LEAST_MOVE_IN = 0.5
"""Two places of a drawing nearer to each other than this leave the same room for blocks [in]."""
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
    blocks: Sequence[Block] = (),
    said: frozenset[str] = frozenset(),
    plan: TilePlan | None = None,
    large: bool = False,
) -> tuple[Page, ...]:
    """The pages that carry a drawing whose inches are inches on paper.

    A drawing for a study scale comes here already put to scale, and then dimensioned; the
    scale of the setup is what the sheet says and what its bar shows.

    `blocks` are notes that stand beside the drawing, `said` names the cautions that stand on it
    already. `plan` is how the drawing was to be tiled
    before words were put in clear of its seams. `large` has the warning as large as notes to
    cut by.

    Raises SheetError where the paper or the roll cannot carry it, where the scale leaves nothing
    to see, and where it would take more than 200 tiles.
    """
    words = {"title": title, "given": given, "version": version, "description": description}
    check_seen(drawing, setup.scale)
    blank = _blank(setup, **words)
    wanted = _all_blocks(blocks, said, blank, large=large)
    if setup.paper.endless:
        return (_on_roll(hatched(drawing), blank, setup.paper, wanted),)
    single = _on_one(drawing, blank, wanted) if plan is None else None
    if single is not None:
        return (single,)
    if plan is None:
        plan = plan_tiles(drawing, blank, setup.overlap_in, with_words=True)
    return _tiled(hatched(drawing), blank, plan, wanted)


def one_page(
    drawing: Drawing,
    setup: PrintSetup,
    *,
    title: str,
    given: str = "",
    version: str = "",
    description: str = "",
    blocks: Sequence[Block] = (),
    said: frozenset[str] = frozenset(),
    few: bool = False,
    large: bool = False,
) -> Page | None:
    """The one sheet that carries a drawing whole, or None where it takes tiles or a roll.

    `few` has the cautions in few words, `large` the warning as large as notes to cut by.
    """
    if setup.paper.endless:
        return None
    check_seen(drawing, setup.scale)
    blank = _blank(setup, title, given, version, description)
    return _on_one(drawing, blank, _all_blocks(blocks, said, blank, few=few, large=large))


def blank_page(setup: PrintSetup, **words: str) -> Page:
    """The first page of a drawing before there is a drawing on it."""
    return _blank(setup, **{"given": "", "version": "", "description": "", **words})


def _blank(setup: PrintSetup, title: str, given: str, version: str, description: str) -> Page:
    return Page(
        setup.paper.cut_to(ANY_PIECE_IN) if setup.paper.endless else setup.paper,
        Drawing(),
        title,
        given,
        setup.scale,
        setup.margin_in,
        setup.correction,
        version=version,
        description=description,
        strips="first",
    )


def _all_blocks(
    blocks: Sequence[Block],
    said: frozenset[str],
    page: Page,
    *,
    few: bool = False,
    large: bool = False,
) -> tuple[Block, ...]:
    return (*blocks, *blocks_left(said, full=page.full, few=few, large=large))


def numbered(sheets: tuple[Page, ...]) -> tuple[Page, ...]:
    """Pages of several drawings counted through as one document."""
    return tuple(
        replace(page, number=i, count=len(sheets)) for i, page in enumerate(sheets, start=1)
    )


def rooms_on_one_page(
    setup: PrintSetup, *, title: str, given: str = "", version: str = "", description: str = ""
) -> tuple[tuple[float, float], ...]:
    """Widths and heights, one of which a drawing must keep to for one sheet of this paper [in].

    Each stands for the drawing as it is; one that is to be turned has them exchanged. Empty for
    a roll.
    """
    if setup.paper.endless:
        return ()
    blank = _blank(setup, title, given, version, description)
    sizes = [
        (right - left, top - bottom) for _, (left, bottom, right, top) in _both_ways_round(blank)
    ]
    return tuple(dict.fromkeys([*sizes, *((high, wide) for wide, high in sizes)]))


def _both_ways_round(blank: Page) -> Iterator[tuple[Page, Box]]:
    """The paper as it is and the other way round, with its clear field, where it has one."""
    for page in (blank, replace(blank, paper=blank.paper.turned())):
        with suppress(SheetError):
            yield page, clear_field(page)


def _on_one(drawing: Drawing, blank: Page, wanted: Sequence[Block]) -> Page | None:
    """The one page that carries a drawing, which is hatched when there is one."""
    x0, y0, x1, y1 = drawing.bounds()
    upright = covered(drawing)
    turned_over: tuple[Drawing, Polygon] | None = None
    for turned, (page, room) in product((False, True), _both_ways_round(blank)):
        left, bottom, right, top = room
        wide, high = (y1 - y0, x1 - x0) if turned else (x1 - x0, y1 - y0)
        if wide > right - left + _LOOSE or high > top - bottom + _LOOSE:
            continue
        if float(shapely.box(*room).area - upright.area) < least_area_in2(wanted):
            continue
        one, taken = drawing, upright
        if turned:
            if turned_over is None:
                one = drawing.turned(90)
                turned_over = one, covered(one)
            one, taken = turned_over
        placed = _placed(one, taken, replace(page, turned=turned), room, wanted)
        if placed is not None:
            # Its lines lie on the grid of the upright drawing.
            lines = hatched(drawing)
            lines = (lines.turned(90) if turned else lines).moved(*placed.origin)
            return replace(placed, drawing=lines)
    return None


PLACES = ((1.0, 0.0), (1.0, 1.0), (0.5, 1.0))
"""Where a drawing may stand in a field, as shares of what is spare across and up: blocks fill
the field from its upper left corner."""


def places_in(spare: Point) -> list[Point]:
    """How far a drawing may stand from the left and the foot of a field with so much to spare [in].

    Of two places that leave the same room for blocks the first is enough.
    """
    found: list[Point] = []
    for across, up in PLACES:
        x, y = spare[0] * across, spare[1] * up
        if all(abs(x - other) + abs(y - low) > LEAST_MOVE_IN for other, low in found):
            found.append((x, y))
    return found


def _placed(
    drawing: Drawing, taken: Polygon, page: Page, field: Box, wanted: Sequence[Block]
) -> Page | None:
    """The drawing in a field that holds it with all blocks beside what it has taken, or None."""
    left, bottom, right, top = field
    x0, y0, x1, y1 = drawing.bounds()
    for x, y in places_in(((right - left) - (x1 - x0), (top - bottom) - (y1 - y0))):
        dx, dy = left - x0 + x, bottom - y0 + y
        free = free_rooms(field, shapely.affinity.translate(taken, dx, dy))
        stood, still = stand(wanted, [free], (left, top), all_or_none=True)
        if not still:
            return replace(page, drawing=drawing.moved(dx, dy), beside=stood[0], origin=(dx, dy))
    return None


def _on_roll(drawing: Drawing, blank: Page, roll: Paper, wanted: Sequence[Block]) -> Page:
    """The drawing on the shortest piece of a roll, the right way up if that costs no paper."""
    best: Page | None = None
    for turned in (False, True):
        candidate = drawing.turned(90) if turned else drawing
        x0, y0, x1, y1 = candidate.bounds()
        left, bottom, right, top = clear_field(blank)
        if x1 - x0 > right - left + _LOOSE:
            continue
        furniture = blank.size_in[1] - (top - bottom)
        # Long enough for the drawing and for the bar along it, in whole quarter inches.
        least = LEAST_ROLL_IN if blank.full else LEAST_STUDY_IN
        length = max(y1 - y0 + furniture, least) * blank.factors[1]
        for more in ROLL_MORE_IN:
            cut = roll.cut_to(ceil((length + more) * 4 - _LOOSE) / 4)
            if best is not None and cut.height_in >= best.paper.height_in:
                break
            piece = replace(blank, paper=cut, turned=turned)
            placed = _placed(candidate, covered(candidate), piece, clear_field(piece), wanted)
            if placed is not None:
                best = placed
                break
    if best is None:
        x0, y0, x1, y1 = drawing.bounds()
        raise SheetError(
            f"{roll.name} is {blank.size_in[0]:.4g} in wide and the drawing {x1 - x0:.4g} by"
            f" {y1 - y0:.4g} in: use a wider roll, a smaller scale, or sheets, which are tiled"
        )
    return best


def _tiled(
    drawing: Drawing, blank: Page, plan: TilePlan, wanted: Sequence[Block]
) -> tuple[Page, ...]:
    grid = plan.grid
    drawing = off_seams(drawing.turned(90) if plan.turned else drawing, grid)
    kept = plan.in_order
    several = len(kept) > 1
    letters = {place: page_letter(i) for i, place in enumerate(kept)} if several else {}
    rows, columns, spots = _counted(kept)
    room = clear_field(plan.page)
    taken = covered(drawing)
    made, free = [], []
    for place in kept:
        window = grid.window(*place)
        shift = room[0] - window[0], room[1] - window[1]
        part = drawing.clipped(window, part_labels=True)
        part = replace(part, labels=_own_words(part, window, trimmed(grid, place)))
        part += seams(part, grid, place, letters)
        # Crosses reach a little over each seam.
        cell = shapely.box(*within(grid.cell(*place), window, CROSS_IN + APART_IN))
        field = shapely.affinity.translate(cell, *shift).bounds
        free.append(free_rooms(field, shapely.affinity.translate(taken, *shift)))
        row, column = spots[place]
        where = f"row {row + 1} of {rows}, column {column + 1} of {columns}"
        made.append(
            replace(
                plan.page,
                drawing=part.moved(*shift),
                strips="first" if place == kept[0] else "next",
                letter=letters.get(place, ""),
                place=where if several else "",
                window=room,
                origin=shift,
                turned=plan.turned,
            )
        )
    if several:
        shape = key_map(rows, columns, list(spots.values()))
        wanted = [*wanted, Block("pages", (shape,), first=True)]
    stood, left = stand(wanted, free, (room[0], room[3]))
    if left:
        # No room beside the drawing: the notes get a page of their own, before it, with all the
        # cautions, wherever else they stand.
        named = {block.name for block in caution_blocks(full=blank.full)}
        notes = [block for block in wanted if block.name not in named]
        made = [replace(page, strips="next") for page in made]
        return numbered((*note_pages(_all_blocks(notes, frozenset(), blank), blank), *made))
    return numbered(
        tuple(replace(page, beside=beside) for page, beside in zip(made, stood, strict=True))
    )


def _counted(kept: Sequence[TileSpot]) -> tuple[int, int, dict[TileSpot, TileSpot]]:
    """How many rows and columns the printed pages stand in, and the place of each among them.

    A row of which no page is printed, since nothing is cut there, is not counted.
    """
    rows, columns = (sorted(set(each)) for each in zip(*kept, strict=True))
    spots = {(row, column): (rows.index(row), columns.index(column)) for row, column in kept}
    return len(rows), len(columns), spots


def note_pages(blocks: Sequence[Block], blank: Page) -> tuple[Page, ...]:
    """Pages of nothing but blocks. Raises SheetError where one is larger than the paper."""
    made: list[Page] = []
    left = list(blocks)
    while left:
        page = blank if not made else replace(blank, strips="next")
        field = clear_field(page)
        free = free_rooms(field)
        # What belongs on the first page comes before the rest.
        ranks = [[b for b in left if b.first], [b for b in left if not b.first]]
        beside = Drawing()
        still: list[Block] = []
        for rank in ranks:
            (stood,), over = stand(rank, [free], (field[0], field[3]))
            beside += stood
            still += over
        if len(still) == len(left):
            raise SheetError(
                f"{blank.paper.name} with a margin of {blank.margin_in:g} in leaves no room for a"
                " drawing beside the check bars and cautions: use larger paper"
            )
        made.append(replace(page, beside=beside))
        left = still
    return tuple(made)


def _own_words(part: Drawing, window: Box, own: Polygon) -> tuple[Label, ...]:
    """The words of a tile: those whole in its window, and those its trimmed page has a part of.

    A scrap of a word that stands whole on the next page is left out.
    """
    whole = shapely.box(*window).buffer(_LOOSE)
    return tuple(
        label
        for label in part.labels
        if whole.covers(label_box(label)) or own.intersects(label_box(label))
    )
