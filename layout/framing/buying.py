"""Boards to buy for a whole roof: for its sticks and its trim, with equal boards on one line.

Fascias and rake boards are cut like sticks from the usual lengths, each from its long point to
its long point; one longer than any board is made of equal parts that meet on a rafter's tail.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from layout.framing.cutlist import BoardRow, board_rows, boards
from layout.framing.roof import TrainingRoof
from layout.framing.trim import TrimRow, trim_rows
from layout.length.boards import PART, Board, Piece, cut_from_stock
from layout.quantity import write_short

RIGHT_TO_A_SIXTEENTH = 1 / 16
NOTHING_LEFT = (
    "A saw kerf follows every stick. Nothing is allowed for squaring a board's ends: where nothing"
    " is left over, take the next length."
)
"""What a list of boards counts, and what it does not."""


@dataclass(frozen=True)
class EqualBoards:
    """Boards of one stock and length from which equal pieces are cut [inches].

    `each` names the pieces that every one of them holds, `sticks` the sticks board by board.
    """

    count: int
    stock: str
    length_in: float
    each: str
    sticks: tuple[str, ...]
    left_in: float
    note: str = ""


def boards_to_buy(roof: TrainingRoof, *, metric: bool = False) -> tuple[BoardRow, ...]:
    """Every board of a roof: for its sticks, its fascias and its rake boards; in `metric` of the
    lengths that are sold by the meter."""
    return board_rows((*boards(roof, metric=metric), *trim_boards(roof, metric=metric)))


def trim_boards(roof: TrainingRoof, *, metric: bool = False) -> tuple[tuple[str, Board], ...]:
    """Fascias and rake boards cut from the usual lengths, by their stock.

    A roof knows how thick they are; how wide they must be the approved drawings say.
    """
    stocks: dict[str, list[Piece]] = {}
    for row in trim_rows(roof):
        stock = f"{row.board} ({write_short(roof.plan.fascia_in, metric=metric)} thick)"
        stocks.setdefault(stock, []).append(Piece(trim_name(row), row.length_in, "parts"))
    return tuple(
        (stock, replace(board, note=board.note.replace("over a support", "on a rafter's tail")))
        if stock.startswith("fascia")
        else (stock, board)
        for stock, pieces in stocks.items()
        for board in cut_from_stock(pieces, metric=metric)
    )


def trim_name(row: TrimRow) -> str:
    """One board of trim by its side: front fascia, right rake under front."""
    side, _, under = row.side.partition(", ")
    return f"{side} {row.board.partition(' ')[0]}" + (f" {under}" if under else "")


def equal_boards(rows: tuple[BoardRow, ...], piece_of: Mapping[str, str]) -> list[EqualBoards]:
    """Rows of boards with those on one line that hold the same pieces.

    `piece_of` gives a stick's piece; what is no stick stands by its own name.
    """
    found: dict[tuple[str, float, str, int], list[BoardRow]] = {}
    for row in rows:
        names = row.pieces.split(", ")
        each = ", ".join(_counted([_piece(name, piece_of) for name in names]))
        left = round(row.left_in / RIGHT_TO_A_SIXTEENTH)
        found.setdefault((row.stock, row.length_in, each, left), []).append(row)
    return [
        EqualBoards(
            len(those),
            stock,
            length,
            each,
            tuple(row.pieces for row in those),
            those[0].left_in,
            those[0].note,
        )
        for (stock, length, each, _), those in found.items()
    ]


def _piece(name: str, piece_of: Mapping[str, str]) -> str:
    """A stick's piece, or one of the equal parts that it is made of."""
    stick, _, which = name.partition(PART)
    piece = piece_of.get(stick, stick)
    return f"1 of {which.rpartition(' ')[2]} equal parts of {piece}" if which else piece


def _counted(pieces: list[str]) -> list[str]:
    times = {piece: pieces.count(piece) for piece in pieces}
    return [piece if count == 1 else f"{count} x {piece}" for piece, count in times.items()]
