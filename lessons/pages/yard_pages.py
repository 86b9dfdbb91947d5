"""The yard check on paper: what to do and to write down, then a full-size template for each cut."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.ink.paper import Paper
from figures.page.flow import Row, space, table, writing_lines
from figures.page.sheet import Page, clear_field
from figures.page.tiling import PrintSetup, numbered
from figures.wrap.template import template_pages
from layout.answer.wording import board_words
from lessons.pages.lesson_rows import block_rows
from lessons.pages.paged import leaves
from lessons.pages.yard import (
    TABLE_HEAD,
    TrialCut,
    closing_blocks,
    opening_blocks,
    settings_blocks,
    table_lines,
)
from lessons.say.blocks import Heading
from lessons.say.units import System
from lessons.say.version import version

TABLE_PARTS = (0.9, 1.5, 1.5, 1.3, 1.35)
NOTES = 7
"""Lines to write on under the table."""


def yard_pages(
    cuts: tuple[TrialCut, ...],
    paper: Paper,
    system: System,
    on_cut: Callable[[], None] = lambda: None,
) -> tuple[Page, ...]:
    """The sheets of the day, numbered through; `on_cut` is called when one is drawn."""
    board = board_words(cuts[0].answer.question.stock, metric=system.is_metric)
    blank = Page(
        paper,
        Drawing(),
        title="Yard check: by hand and by saw",
        given=f"three cuts on {board}, each made twice",
        scale=None,
        version=f"version {version()}",
        description="A cut list of three test cuts, their settings, and a table for the gaps.",
    )
    left, _, right, _ = clear_field(blank)
    width = right - left
    blocks = [*opening_blocks(cuts, system), *settings_blocks(cuts, system)]
    rows = [row for block in blocks for row in block_rows(block, width)]
    rows += _record(cuts, system, width)
    texts = [leaf.page for leaf in leaves(rows, blank)]
    templates: list[Page] = []
    for cut in cuts:
        read = replace(cut.answer, square_parts=system.square_parts)
        templates += template_pages(read, PrintSetup(paper), version=blank.version)
        on_cut()
    return numbered((*texts, *templates))


def _record(cuts: tuple[TrialCut, ...], system: System, width_in: float) -> Iterator[Row]:
    """What is written down, on a page of its own."""
    heading = [row for row in block_rows(Heading("Measured"), width_in) if not row.between]
    yield replace(heading[0], fresh=True)
    part = width_in / sum(TABLE_PARTS)
    # A line of white over each number leaves room to write it.
    lines = [[f"\n{cell}" for cell in line] for line in table_lines(cuts, system)]
    yield from table(TABLE_HEAD, lines, [share * part for share in TABLE_PARTS])
    yield space(0.2)
    for block in closing_blocks(cuts, system):
        for row in block_rows(block, width_in):
            yield row
            yield space(0.12)
    yield from block_rows(Heading("What was seen"), width_in)
    yield writing_lines(width_in, NOTES)
