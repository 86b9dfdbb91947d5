"""Templates of several cuts as one set: small wraps share a sheet, cautions stand once.

The largest wraps come first; each goes on the first sheet that has room for it and its notes,
upright or turned, else on a new one. What no sheet holds whole is cut into tiles of its own. The
first sheet bears the notice, the warning in full and the check square for the whole set.

    template_set([Template(one, setup), Template(other, setup)])
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import shapely

from figures.ink.drawing import Drawing
from figures.ink.hatch import hatched
from figures.page.beside import Block, free_rooms, stand
from figures.page.cautions import ALL_SAID, blocks_left
from figures.page.sheet import Page, clear_field
from figures.page.tile_plan import covered
from figures.page.tiling import blank_page, numbered
from figures.place.white_space import FreeRoom
from figures.wrap.template import Template
from figures.wrap.wrap import Wrap
from layout.errors import SheetError

APART_IN = 0.2
"""White between two wraps on a sheet [in]."""
TITLE = "Templates"


@dataclass
class SetSheet:
    """A sheet while it is being filled."""

    page: Page
    rooms: list[FreeRoom]
    drawing: Drawing = field(default_factory=Drawing)
    beside: Drawing = field(default_factory=Drawing)


def template_set(templates: Sequence[Template]) -> tuple[Page, ...]:
    """The sheets that carry a set of templates, which all have one print setup.

    Where nothing is saved by sharing sheets, each template has its own, cautions and all. Raises
    SheetError where the paper cannot carry one of them.
    """
    alone = numbered(tuple(page for one in templates for page in one.pages()))
    shared = _shared(templates)
    return shared if len(shared) < len(alone) else alone


def _shared(templates: Sequence[Template]) -> tuple[Page, ...]:
    setup = templates[0].setup
    if setup.paper.endless:
        return numbered(tuple(page for one in templates for page in one.pages()))
    blank = blank_page(setup, title=TITLE, given="", version=templates[0].version)
    sheets: list[SetSheet] = []
    tiled: list[Page] = []
    for template in sorted(templates, key=_size):
        if not any(_placed(template, laid, sheets, blank) for laid in _laid(template)):
            tiled += [replace(page, strips="next") for page in template.tiles(said=ALL_SAID)]
    first = _with_cautions(sheets, blank)
    nested = [
        replace(sheet.page, drawing=sheet.drawing, beside=sheet.beside)
        for sheet in (first, *(sheet for sheet in sheets if sheet is not first))
    ]
    nested[0] = replace(nested[0], strips="first")
    return numbered((*nested, *tiled))


def _with_cautions(sheets: Sequence[SetSheet], blank: Page) -> SetSheet:
    """The sheet that bears the cautions for all: one that has room for them, else a new one."""
    wanted = blocks_left(frozenset(), full=blank.full)
    for sheet in (*reversed(sheets), _empty(blank)):
        before = [(room, room.kept()) for room in sheet.rooms]
        (stood,), left = stand(wanted, [sheet.rooms], _home(sheet.page))
        if not left:
            sheet.beside += stood
            return sheet
        for room, was in before:
            room.put_back(was)
    raise SheetError(f"{blank.paper.name} has no room for the cautions: use larger paper")


def _size(template: Template) -> float:
    """Less for a larger wrap: the largest come first."""
    x0, y0, x1, y1 = next(_laid(template)).lines.bounds(words=False)
    return float(-(x1 - x0) * (y1 - y0))


def _laid(template: Template) -> Iterator[Wrap]:
    return (template.lay(way) for way in template.ways())


def _empty(page: Page) -> SetSheet:
    return SetSheet(page, free_rooms(clear_field(page), shapely.Point(-9.0, -9.0)))


def _home(page: Page) -> tuple[float, float]:
    left, _, _, top = clear_field(page)
    return left, top


def _placed(template: Template, laid: Wrap, sheets: list[SetSheet], blank: Page) -> bool:
    """A wrap and its notes on the first sheet with room for them, or on a new one."""
    rest = replace(blank, strips="next")
    new = [_empty(page) for page in (rest, replace(rest, paper=blank.paper.turned()))]
    x0, y0, x1, y1 = laid.lines.bounds(words=False)
    if not any(_holds(sheet, (x1 - x0, y1 - y0)) for sheet in (*sheets, *new)):
        return False
    made = template.lettered(laid)
    blocks = template.blocks(made, small=True)
    for sheet in (*sheets, *new):
        if _on(sheet, made.drawing, blocks):
            if sheet in new:
                sheets.append(sheet)
            return True
    return False


def _holds(sheet: SetSheet, size: tuple[float, float]) -> bool:
    return any(_spot(sheet, box) is not None for box in (size, size[::-1]))


def _spot(sheet: SetSheet, size: tuple[float, float]) -> tuple[float, float] | None:
    """The lower left corner of a free place for a wrap, white round it where others stand."""
    left, bottom, right, top = clear_field(sheet.page)
    if not sheet.drawing:
        fits = size[0] <= right - left + 1e-9 and size[1] <= top - bottom + 1e-9
        return (right - size[0], bottom) if fits else None
    wide, high = size[0] + APART_IN, size[1] + APART_IN
    for room in sheet.rooms:
        found = room.find((wide, high), (right, bottom), corner=(1.0, 0.0))
        if found is not None:
            return found[0] + APART_IN / 2, found[1] + APART_IN / 2
    return None


def _on(sheet: SetSheet, drawing: Drawing, blocks: Sequence[Block]) -> bool:
    """A drawing and its notes on a sheet if both find room there; else the sheet stays as it is."""
    for turned in (False, True):
        one = hatched(drawing.turned(90) if turned else drawing)
        x0, y0, x1, y1 = one.bounds()
        found = _spot(sheet, (x1 - x0, y1 - y0))
        if found is None:
            continue
        moved = one.moved(found[0] - x0, found[1] - y0)
        before = [(each, each.kept()) for each in sheet.rooms]
        taken = covered(moved)
        for each in sheet.rooms:
            each.take(taken)
        (stood,), left = stand(blocks, [sheet.rooms], (moved.bounds()[0], moved.bounds()[3]))
        if not left:
            sheet.drawing += moved
            sheet.beside += stood
            return True
        for each, was in before:
            each.put_back(was)
    return False
