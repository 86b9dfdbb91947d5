"""A card of numbers: ruled tables under headings, on as many pages as they need."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from figures.ink.lettering import fraction_text, text_size
from figures.ink.paper import Paper
from figures.page.flow import Row, paginate, space, stacked, table, words
from figures.page.sheet import Page, clear_field
from layout.errors import SheetError

HEAD_PT, CELL_PT = 12.5, 9.0
SIZES_PT = (9.0, 8.0, 7.5, 7.0)
CELL_PAD_IN = 0.12
"""White beside the words of a cell, both sides together [in]."""
MORE_PAD_IN = 0.4
"""The most white that a column has more, where a table takes less than the page's width [in]."""
AFTER_IN = 0.2
"""White after a table [in]."""


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
    size_pt, widths = _fitted(one, width_in)
    return [
        words(one.heading, width_in, HEAD_PT, bold=True, with_next=True),
        words(one.means, width_in, CELL_PT, with_next=True),
        *table(one.head, one.lines, widths, size_pt, head_again=True),
        space(AFTER_IN),
    ]


def _fitted(one: CardTable, width_in: float) -> tuple[float, list[float]]:
    """The largest lettering at which every word fits its column, and the columns' widths.

    Each column gets room for its longest word, and a share of the rest that grows with how
    much more its longest cell would like. Raises SheetError where even small words do not fit.
    """
    for size_pt in SIZES_PT:
        wish, need = [], []
        for column in zip(one.head, *one.lines, strict=True):
            cells = [(fraction_text(cell), i == 0) for i, cell in enumerate(column)]
            wish.append(
                max(text_size(cell, size_pt, bold)[0] for cell, bold in cells) + CELL_PAD_IN
            )
            words_of = [(word, bold) for cell, bold in cells for word in cell.split(" ")]
            need.append(
                max(text_size(word, size_pt, bold)[0] for word, bold in words_of) + CELL_PAD_IN
            )
        spare = width_in - sum(need)
        if spare >= 0:
            more = [w - n for w, n in zip(wish, need, strict=True)]
            if spare >= sum(more):  # every cell stands on one line: the rest is white between
                even = (width_in - sum(wish)) / len(wish)
                return size_pt, [w + min(even, MORE_PAD_IN) for w in wish]
            share = spare / sum(more)
            return size_pt, [n + share * m for n, m in zip(need, more, strict=True)]
    raise SheetError(
        f"a table of {len(one.head)} columns does not fit {width_in:.3g} in: use larger paper"
    )
