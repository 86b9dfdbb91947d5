"""Sheets of the pieces that are cut square at both ends and nothing more: several to a page."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.packet.making import Making
from figures.page.flow import Row, paginate, picture, space, stacked, under, words
from figures.page.sheet import Page, clear_field
from figures.pictures.whole_stick import plain_ends, whole_stick
from layout.answer.wording import board_words
from layout.framing.cutlist import PieceRow, stick_row
from layout.framing.name_runs import in_runs
from layout.framing.stick import Stick

TEXT_PT, HEAD_PT = 9.0, 12.0
PICTURE_IN = 2.15
"""Height of one board's picture with its heading and its notes [in]."""


def plain(sticks: Sequence[Stick]) -> bool:
    """Whether a piece is cut square at both ends, and nowhere else."""
    return plain_ends(sticks[0])


def plain_sheets(
    made: Making, rows: Sequence[PieceRow], groups: Mapping[str, Sequence[Stick]]
) -> list[tuple[tuple[str, ...], Page]]:
    """The sheets of these pieces, each page with the names of the pieces on it."""
    if not rows:
        return []
    blank = Page(made.paper, Drawing(), title="", given=made.given, scale=None)
    left, bottom, right, top = clear_field(replace(blank, title="Square at both ends"))
    blocks = [_block(made, row, groups[row.mark], right - left) for row in rows]
    pages = []
    for leaf in paginate(blocks, top - bottom):
        marks = tuple(row.anchor for row in leaf)
        title = f"Square at both ends: {', '.join(marks)}"
        page = replace(blank, title=title, drawing=stacked(leaf).moved(left, top))
        pages.append((marks, page))
    return pages


def _block(made: Making, row: PieceRow, sticks: Sequence[Stick], width: float) -> Row:
    stick = sticks[0]
    board = board_words(stick.stock, metric=made.metric)
    names = f"{'sticks' if row.count > 1 else 'stick'} {in_runs(row.names.split(', '))}"
    drawn = whole_stick(stick, (width, PICTURE_IN), metric=made.metric, mates=False)
    made_rows = [
        words(f"Piece {row.mark}: {row.role}, {row.count} to cut", width, HEAD_PT, bold=True),
        words(f"{board}; {names}. {plain_words(sticks)}", width, TEXT_PT),
        picture(drawn),
        space(0.15),
    ]
    return replace(under(made_rows), anchor=row.mark)


def plain_words(sticks: Sequence[Stick]) -> str:
    """How a plain piece is cut, and what its ends lie against where that is a stick."""
    if sticks[0].role == "plate":
        return (
            "It lies flat; cut both ends square, flush with the outside of the walls or against"
            " the next plate."
        )
    mates = "; ".join(f"{stick.name}: {stick_row(stick).mates}" for stick in sticks)
    against = f" Against: {mates}." if stick_row(sticks[0]).mates else ""
    return f"Cut both ends square.{against}"
