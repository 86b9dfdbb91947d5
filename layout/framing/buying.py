"""Boards to buy for a whole roof: for its sticks and its trim, with equal boards on one line.

Fascias and rake boards are cut like sticks from the usual lengths. A fascia longer than any board
is made of parts that meet on rafters' tails, a rake board of equal ones.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from layout.framing.cutlist import BoardRow, board_rows, boards
from layout.framing.fascia_joints import joints_on, tails_on
from layout.framing.roof import TrainingRoof
from layout.framing.trim import TrimRow, fascia_rows, rake_rows
from layout.length.boards import PART, Board, Piece, cut_from_stock, usual_lengths
from layout.quantity import write_long, write_short

RIGHT_TO_A_SIXTEENTH = 1 / 16
NOTHING_LEFT = (
    "A saw kerf follows every stick. Nothing is allowed for squaring a board's ends: where nothing"
    " is left over, take the next length."
)
"""What a list of boards counts, and what it does not."""
FASCIA_PARTS = (
    "A fascia's parts are counted from its left end, as seen from outside, and meet on the middle"
    " of the tails named."
)
"""How the parts of a fascia that is longer than any board are told."""


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

    A roof knows how thick they are; how wide they must be the approved drawings say. A rake board
    is bought long enough for the width that its stock names.
    """
    thick, width = (
        write_short(size, metric=metric) for size in (roof.plan.fascia_in, roof.plan.rake_width_in)
    )
    stocks = {
        f"fascia ({thick} thick)": [
            piece
            for wall, row in fascia_rows(roof).items()
            for piece in _fascia_pieces(roof, wall, row, metric=metric)
        ],
        f"rake board ({thick} thick, up to {width} wide)": [
            Piece(trim_name(row), row.blank_in, "parts") for row in rake_rows(roof)
        ],
    }
    return tuple(
        (stock, board)
        for stock, pieces in stocks.items()
        for board in cut_from_stock(pieces, metric=metric)
    )


def _fascia_pieces(roof: TrainingRoof, wall: int, row: TrimRow, *, metric: bool) -> list[Piece]:
    """A wall's fascia: one piece, or the parts that meet on tails, where there are any."""
    longest = usual_lengths(metric=metric)[-1]
    joints = joints_on(tails_on(roof, wall), row.length_in, longest)
    if not joints:
        return [Piece(trim_name(row), row.length_in, "parts")]
    ends = [("", 0.0), *((joint.stick, joint.at_in) for joint in joints), ("", row.length_in)]
    pieces = []
    for number, ((left, begins), (right, stops)) in enumerate(pairwise(ends), 1):
        said = [write_long(stops - begins, metric=metric)]
        said += [f"from the tail of {left}"] if left else []
        said += [f"to the tail of {right}"] if right else []
        name = f"{trim_name(row)} {number} of {len(ends) - 1} ({' '.join(said)})"
        pieces.append(Piece(name, stops - begins))
    return pieces


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
