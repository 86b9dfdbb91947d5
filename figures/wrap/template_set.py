"""Templates of several cuts as one set: small wraps share a sheet, cautions stand once.

Each wrap stands in one frame with its notes. The largest frames come first; each goes on the first
sheet that has room for it, upright or turned, in the shape that fits, else on a new one. What no
sheet holds whole has both its ends on one sheet, or is cut into tiles of its own. The first sheet
bears the notice, the warning, how paper goes on a board and the check square for the whole set.

    template_set([Template(one, setup), Template(other, setup)])
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import prod

from figures.ink.pens import Point
from figures.page.beside import Block, words_block
from figures.page.cautions import blocks_left
from figures.page.nest import SharedSheet, add, empty, filled, stood
from figures.page.packing import least, together
from figures.page.sheet import Page, clear_field
from figures.page.tiling import blank_page, numbered
from figures.wrap.note_frame import NoteFrame, frames
from figures.wrap.template import Template
from figures.wrap.wrap import BEFORE_IN, Wrap
from figures.wrap.wrap_names import LEAST_PT
from figures.wrap.wrap_steps import steps_of_all
from layout.errors import SheetError

TITLE = "Templates"
NARROW_IN = 3.0
"""A wrap narrower than this has words beside it, for which more kept wood may be shown [in]."""
WIDER_IN = (0.5, 1.25, 2.0)
"""How much more kept wood is shown then [in]."""


def template_set(templates: Sequence[Template]) -> tuple[Page, ...]:
    """The sheets that carry a set of templates, which all have one print setup.

    Where nothing is saved by sharing sheets, each template has its own, cautions and all. Raises
    SheetError where the paper cannot carry one of them.
    """
    shared = None
    if not templates[0].setup.paper.endless:
        shared = _shared(templates)
        if len(shared) < len(templates):
            return shared
    alone = numbered(tuple(page for one in templates for page in one.pages()))
    return shared if shared is not None and len(shared) < len(alone) else alone


def _shared(templates: Sequence[Template]) -> tuple[Page, ...]:
    blank = blank_page(templates[0].setup, title=TITLE, version=templates[0].version)
    rest = replace(blank, strips="next")
    papers = [rest, replace(rest, paper=blank.paper.turned())]
    fields = [_size(page) for page in papers]
    framed, own = _framed(templates, fields)
    sheets = [_sheet(held, papers, fields) for held in _binned(framed, fields)]
    first = _with_cautions(sheets, blank)
    others = [filled(sheet) for sheet in sheets if sheet is not first]
    return numbered((replace(filled(first), strips="first"), *others, *own))


@dataclass(frozen=True)
class NoteFrames:
    """The frames of which one will hold a template, and their widths and heights [in]."""

    frames: tuple[NoteFrame, ...]
    sizes: tuple[Point, ...]


def _framed(
    templates: Sequence[Template], fields: Sequence[Point]
) -> tuple[list[NoteFrames], list[Page]]:
    """NoteFrames for what fits on a sheet with its notes, and pages for what does not."""
    framed: list[NoteFrames] = []
    own: list[Page] = []
    for template in templates:
        found = [one for laid in _smallest(template) for one in frames(template, laid)]
        found = [one for one in found if together([[one.size]], fields) is not None]
        kept = least([one.size for one in found])
        if kept:
            made = tuple(found[i] for i in kept)
            framed.append(NoteFrames(made, tuple(one.size for one in made)))
        else:
            own += template.among_others()
    return framed, own


def _binned(framed: Sequence[NoteFrames], fields: Sequence[Point]) -> list[list[NoteFrames]]:
    """What shares a sheet: with the largest one, the largest of the others that fits, and so on."""
    waiting = sorted(framed, key=lambda each: -min(map(prod, each.sizes)))
    bins = []
    while waiting:
        held = [waiting.pop(0)]
        for other in list(waiting):
            if together([one.sizes for one in (*held, other)], fields) is not None:
                held.append(other)
                waiting.remove(other)
        bins.append(held)
    return bins


def _size(page: Page) -> Point:
    left, bottom, right, top = clear_field(page)
    return right - left, top - bottom


def _sheet(
    held: Sequence[NoteFrames], papers: Sequence[Page], fields: Sequence[Point]
) -> SharedSheet:
    found = together([one.sizes for one in held], fields)
    assert found is not None
    index, spots = found
    sheet = empty(papers[index])
    left, bottom, _, _ = clear_field(papers[index])
    for one, spot in zip(held, spots, strict=True):
        drawing = one.frames[spot.shape].drawn()
        drawing = drawing.turned(90) if spot.turned else drawing
        x0, y0, _, _ = drawing.bounds()
        add(sheet, drawing.moved(left + spot.at[0] - x0, bottom + spot.at[1] - y0))
    return sheet


def _with_cautions(sheets: Sequence[SharedSheet], blank: Page) -> SharedSheet:
    """The sheet that bears the cautions for all: one that has room for them, else a new one."""
    for few in (False, True):
        wanted = (*blocks_left(frozenset(), full=blank.full, few=few), *_how(few=few))
        for sheet in reversed(sheets):
            if stood(sheet, wanted):
                return sheet
    sheet = empty(blank)
    if stood(sheet, (*blocks_left(frozenset(), full=blank.full), *_how(few=False))):
        return sheet
    raise SheetError(f"{blank.paper.name} has no room for the cautions: use larger paper")


def _how(*, few: bool) -> tuple[Block, ...]:
    return (words_block("TO USE", steps_of_all(few=few), LEAST_PT, first=True),)


def _smallest(template: Template) -> tuple[Wrap, ...]:
    """A template as small as it can be drawn whole, and wider where its words need that."""
    laid = sorted(
        ((way, template.lay(way)) for way in template.ways()), key=lambda one: prod(one[1].size)
    )
    way, small = laid[0]
    if template.answer.is_rip:
        return tuple(wrap for _, wrap in laid[:3])
    if small.size[0] > NARROW_IN:
        return (small,)
    return (small, *(template.lay(way, BEFORE_IN + more) for more in WIDER_IN))
