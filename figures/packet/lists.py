"""The lists of a packet: what to cut, with its pages; what to buy; trim and roof boards."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from figures.packet.making import Making
from figures.page.card import CardTable
from layout import usual
from layout.framing.buying import FASCIA_PARTS, NOTHING_LEFT, boards_to_buy, equal_boards
from layout.framing.cutlist import BoardRow, PieceRow
from layout.framing.foot_inside import pieces_inside
from layout.framing.name_runs import in_runs
from layout.framing.trim import trim_rows, usual_courses
from layout.framing.trim_words import COURSES, course_table, trim_means, trim_table

TWO_DIGITS = 88
"""A page number as wide as any that a list may have, before the pages are counted."""
CUT_HEAD = (
    "piece", "no.", "role", "stock", "hand", "pair", "long", "middle", "short", "tail", "board",
    "sheet", "templates", "sticks",
)  # fmt: skip


@dataclass(frozen=True)
class PageIndex:
    """On which pages each piece's sheet and templates stand, and the layout of all."""

    sheets: dict[str, tuple[int, ...]] = field(default_factory=dict)
    templates: dict[str, tuple[int, ...]] = field(default_factory=dict)
    layout: tuple[int, ...] = (TWO_DIGITS, TWO_DIGITS + 1)


def lists(made: Making, rows: Sequence[PieceRow], index: PageIndex) -> list[CardTable]:
    """Every list of a packet, the cut list with its page index first."""
    return [_cut_list(made, rows, index), _to_buy(made, rows), *_boards_over(made)]


def _cut_list(made: Making, rows: Sequence[PieceRow], index: PageIndex) -> CardTable:
    means = (
        "Lengths along the top edge from the plumb line over the outside of the wall, tails extra;"
        " a ridge's and a plate's from end to end."
        " A piece's name ends in a letter, a stick's in a number."
        f" Sheet and templates are pages; where every stick stands: {_pages(index.layout)}."
    )
    lines = [
        (
            row.mark, str(row.count), row.role, row.stock.split(" (")[0], row.hand or "-",
            row.pair or "-", made.cell(row.lengths.long_in), made.cell(row.lengths.centre_in),
            made.cell(row.lengths.short_in),
            made.cell(row.lengths.tail_in) if row.lengths.tail_in else "-",
            made.cell(row.lengths.blank_in), _runs(index.sheets[row.mark]),
            _runs(index.templates[row.mark]), in_runs(row.names.split(", ")),
        )
        for row in rows
    ]  # fmt: skip
    means = " ".join([made.with_unit(means), *pieces_inside(made.roof, metric=made.metric)])
    return CardTable("Cut list", means, CUT_HEAD, lines)


def _to_buy(made: Making, rows: Sequence[PieceRow]) -> CardTable:
    bought = boards_to_buy(made.roof, metric=made.metric)
    piece_of = {name: row.mark for row in rows for name in row.names.split(", ")}
    lines = [
        (
            str(one.count),
            one.stock.split(" (")[0],
            made.cell(one.length_in),
            one.each,
            "; ".join(one.sticks) if any(name.split(",")[0] in piece_of for name in one.sticks)
            else "-",
            made.cell(one.left_in),
        )
        for one in equal_boards(bought, piece_of)
    ]  # fmt: skip
    means = (
        f"In all: {_total(made, bought)}. {NOTHING_LEFT} Parts of a"
        f" plate or ridge meet over a support. {FASCIA_PARTS}"
    )
    head = ("no.", "stock", "length", "cut from each", "sticks, board by board", "left over")
    return CardTable("Boards to buy", made.with_unit(means), head, lines)


def _total(made: Making, bought: Sequence[BoardRow]) -> str:
    """The shopping list in one sentence: how many of each stock and length."""
    shop: dict[tuple[str, float], int] = {}
    for board in bought:
        key = (board.stock.split(" (")[0], board.length_in)
        shop[key] = shop.get(key, 0) + 1
    return ", ".join(
        f"{number} of {stock} x {made.long(long)}" for (stock, long), number in sorted(shop.items())
    )


def _boards_over(made: Making) -> list[CardTable]:
    """Fascias, rake boards and roof boards, which no stick sheet shows."""
    trim = trim_table(trim_rows(made.roof), made.long)
    courses = course_table(usual_courses(made.roof), made.long)
    return [
        CardTable("Fascias and rake boards", trim_means(made.roof, made.short), *trim),
        CardTable(f"Roof boards {usual.ROOF_BOARD}", COURSES, *courses),
    ]


def _pages(pages: Sequence[int]) -> str:
    return f"page{'s' if len(pages) > 1 else ''} {_runs(pages)}"


def _runs(pages: Sequence[int]) -> str:
    return in_runs([str(page) for page in pages]) or "-"
