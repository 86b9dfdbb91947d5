"""Templates of several cuts as one set: small wraps share a sheet, cautions stand once.

The largest wraps come first; each goes on the first sheet that has room for it and its notes,
upright or turned, as small as it can be drawn whole, else on a new one. What no sheet holds whole
has both its ends on one sheet, or is cut into tiles of its own. The first sheet bears the notice,
the warning in full and the check square for the whole set.

    template_set([Template(one, setup), Template(other, setup)])
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from math import prod

from figures.page.cautions import ALL_SAID, blocks_left
from figures.page.nest import Sheet, empty, filled, holds, put, stood
from figures.page.sheet import Page
from figures.page.tiling import blank_page, numbered
from figures.wrap.template import Template
from figures.wrap.wrap import Wrap
from figures.wrap.wrap_lettering import Lettered, Squeeze
from layout.errors import SheetError

TITLE = "Templates"


def template_set(templates: Sequence[Template]) -> tuple[Page, ...]:
    """The sheets that carry a set of templates, which all have one print setup.

    Where nothing is saved by sharing sheets, each template has its own, cautions and all. Raises
    SheetError where the paper cannot carry one of them.
    """
    alone = numbered(tuple(page for one in templates for page in one.pages()))
    if templates[0].setup.paper.endless:
        return alone
    shared = _shared(templates)
    return shared if len(shared) < len(alone) else alone


def _shared(templates: Sequence[Template]) -> tuple[Page, ...]:
    blank = blank_page(templates[0].setup, title=TITLE, version=templates[0].version)
    sheets: list[Sheet] = []
    tiled: list[Page] = []
    laid = [(one, _smallest_first(one)) for one in templates]
    for template, ways in sorted(laid, key=lambda each: -prod(each[1][0].size)):
        if not _placed(template, ways, sheets, blank):
            tiled += [replace(page, strips="next") for page in template.apart(said=ALL_SAID)]
    first = _with_cautions(sheets, blank)
    nested = [filled(sheet) for sheet in (first, *(one for one in sheets if one is not first))]
    nested[0] = replace(nested[0], strips="first")
    return numbered((*nested, *tiled))


def _with_cautions(sheets: Sequence[Sheet], blank: Page) -> Sheet:
    """The sheet that bears the cautions for all: one that has room for them, else a new one."""
    wanted = blocks_left(frozenset(), full=blank.full)
    for sheet in (*reversed(sheets), empty(blank)):
        if stood(sheet, wanted):
            return sheet
    raise SheetError(f"{blank.paper.name} has no room for the cautions: use larger paper")


def _smallest_first(template: Template) -> list[Wrap]:
    return sorted((template.lay(way) for way in template.ways()), key=lambda one: prod(one.size))


def _placed(template: Template, ways: Sequence[Wrap], sheets: list[Sheet], blank: Page) -> bool:
    """A wrap and its notes on the first sheet with room for them, or on a new one."""

    @cache
    def lettered(index: int) -> Lettered:
        return template.lettered(ways[index])

    rest = replace(blank, strips="next")
    new = [empty(page) for page in (rest, replace(rest, paper=blank.paper.turned()))]
    for sheet in (*sheets, *new):
        for i, laid in enumerate(ways):
            if not holds(sheet, laid.size):
                continue
            made = lettered(i)
            if put(sheet, made.drawing, template.blocks(made, Squeeze.FEW_WORDS)):
                if sheet in new:
                    sheets.append(sheet)
                return True
    return False
