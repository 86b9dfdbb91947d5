"""A card of numbers: ruled tables under headings, on as many pages as they need."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from figures.paper import Paper
from figures.rows import Row, paginate, space, stacked, table, words
from figures.sheet import Page, clear_field

HEAD_PT, CELL_PT = 12.5, 9.0
FIRST_PART = 1.4
"""Width of the first column over that of each other column."""


@dataclass(frozen=True)
class CardTable:
    """One table of a card: a heading, what it means in a line, column heads and lines of cells."""

    heading: str
    means: str
    head: Sequence[str]
    lines: Sequence[Sequence[str]]


def card_pages(
    tables: Sequence[CardTable], paper: Paper, *, title: str, given: str = ""
) -> tuple[Page, ...]:
    """The tables on pages of this paper, one under another, numbered through."""
    blank = Page(paper, stacked([]), title=title, given=given, scale=None)
    left, bottom, right, top = clear_field(blank)
    rows = [row for one in tables for row in _rows(one, right - left)]
    leaves = paginate(rows, top - bottom)
    return tuple(
        replace(blank, drawing=stacked(leaf).moved(left, top), number=i, count=len(leaves))
        for i, leaf in enumerate(leaves, start=1)
    )


def _rows(one: CardTable, width_in: float) -> list[Row]:
    part = width_in / (FIRST_PART + len(one.head) - 1)
    widths = [FIRST_PART * part, *([part] * (len(one.head) - 1))]
    return [
        words(one.heading, width_in, HEAD_PT, bold=True, with_next=True),
        words(one.means, width_in, CELL_PT, with_next=True),
        *table(one.head, one.lines, widths, CELL_PT),
        space(0.2),
    ]
