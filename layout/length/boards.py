"""Pieces cut from stock lengths: how many boards, and what is left over.

Longest piece first, each into the first board that still holds it, else into a new board of
the longest length sold; at the end every board is exchanged for the shortest length that holds
its pieces. This rule (first fit, decreasing) needs at most 11/9 of the fewest boards plus one
(a theorem of bin packing); the reader may well do better by laying two cheeks head to head.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Literal

from layout.errors import LengthError
from layout.quantity import MM_PER_INCH, write_long

USUAL_LENGTHS_IN = tuple(12.0 * feet for feet in (8, 10, 12, 14, 16, 18, 20))
"""Framing lumber is sold by even feet; odd lengths are not usual (common practice, no source)."""
METRIC_LENGTHS_IN = tuple(mm / MM_PER_INCH for mm in range(2400, 6001, 300))
"""Where lumber is sold by the meter its lengths go up by 300 mm (common practice, no source)."""
KERF_IN = 0.125
EVEN_IN, METRIC_EVEN_IN = 24.0, 300 / MM_PER_INCH
"""Longer boards are ordered by even feet, or by 300 mm, too."""
Longer = Literal["refuse", "parts", "order"]


@dataclass(frozen=True)
class Piece:
    """A piece to be cut: its name and the length of board it takes [inches].

    `longer` says what becomes of a piece longer than any board: it is refused; made of equal
    parts, as a ridge or a plate; or a longer board is ordered for it, as for a hip.
    """

    name: str
    length_in: float
    longer: Longer = "refuse"


@dataclass(frozen=True)
class Board:
    """One board of `stock_in`, the pieces cut from it, and the offcut [inches].

    A kerf follows every piece, but for one that reaches the board's very end. `note` says what
    is to be known when buying it, empty for a usual board of whole pieces.
    """

    stock_in: float
    pieces: tuple[Piece, ...]
    left_in: float
    note: str = ""

    @property
    def names(self) -> str:
        """The pieces' names in the order in which they are cut."""
        return ", ".join(piece.name for piece in self.pieces)


def usual_lengths(*, metric: bool = False) -> tuple[float, ...]:
    """The lengths that boards are sold in [inches], by the foot or by the meter."""
    return METRIC_LENGTHS_IN if metric else USUAL_LENGTHS_IN


def cut_from_stock(
    pieces: Sequence[Piece],
    lengths_in: Sequence[float] | None = None,
    kerf_in: float = KERF_IN,
    *,
    metric: bool = False,
) -> tuple[Board, ...]:
    """Cut the pieces from boards of these lengths, or the usual ones, longest piece first.

    Raises LengthError where no length is given, and for a piece longer than the longest.

    >>> boards = cut_from_stock([Piece("A", 90), Piece("B", 40), Piece("C", 50)], [96], 0.125)
    >>> [(board.names, board.left_in) for board in boards]
    [('A', 5.875), ('C, B', 5.75)]
    """
    asked = usual_lengths(metric=metric) if lengths_in is None else lengths_in
    sold = sorted(length for length in asked if length > 0)
    if not sold or kerf_in < 0:
        raise LengthError("there is no stock to cut from; give lengths such as 8', 12' and 16'")
    boards: list[list[Piece]] = []
    for piece in sorted(_in_parts(pieces, sold[-1], metric), key=lambda p: (-p.length_in, p.name)):
        for board in boards:
            if _used(board, kerf_in) + piece.length_in <= sold[-1]:
                board.append(piece)
                break
        else:
            boards.append([piece])
    return tuple(_shortest(board, sold, kerf_in, metric) for board in boards)


def _used(board: Sequence[Piece], kerf_in: float) -> float:
    return sum(piece.length_in + kerf_in for piece in board)


def _shortest(board: list[Piece], sold: Sequence[float], kerf_in: float, metric: bool) -> Board:
    bare = _used(board, kerf_in) - kerf_in
    stock = next((length for length in sold if length >= bare), None)
    parts = [piece.name for piece in board if PART in piece.name]
    note = f"{', '.join(parts)}: join over a support" if parts else ""
    if stock is None:
        even = METRIC_EVEN_IN if metric else EVEN_IN
        stock = even * ceil(bare / even)
        note = (
            f"longer than the longest stock of {write_long(sold[-1], metric=metric)}:"
            " order it, or splice it over a support"
        )
    return Board(stock, tuple(board), max(0.0, stock - bare - kerf_in), note)


PART = " part "


def _in_parts(pieces: Sequence[Piece], longest_in: float, metric: bool) -> list[Piece]:
    """The pieces, with those that may be made of parts broken into as few equal ones as fit."""
    parts: list[Piece] = []
    for piece in pieces:
        if piece.length_in <= longest_in or piece.longer == "order":
            parts.append(piece)
            continue
        if piece.longer == "refuse":
            raise LengthError(
                f"{piece.name} takes a board of {write_long(piece.length_in, metric=metric)}, and"
                f" the longest stock is {write_long(longest_in, metric=metric)}; give longer stock"
                " or a shorter overhang"
            )
        count = ceil(piece.length_in / longest_in)
        parts += [
            Piece(f"{piece.name}{PART}{i + 1} of {count}", piece.length_in / count)
            for i in range(count)
        ]
    return parts
