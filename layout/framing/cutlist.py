"""The cut list of a framed roof: every stick, every cut, equal pieces together, and the boards.

Rows are plain dataclasses; `layout.records` turns them into a table, CSV or JSON by field name.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from layout.cuts import Hand
from layout.errors import LengthError
from layout.framing.roof import TrainingRoof
from layout.framing.stick import LEVEL_DIGITS, NORMAL_DIGITS, CutPlane, Stick
from layout.length.boards import (
    KERF_IN,
    Board,
    Longer,
    Piece,
    cut_from_stock,
    usual_lengths,
)
from layout.quantity import write_long
from layout.records import Part

PLACES = ("head", "foot", "bird's mouth", "rip")
SPLICED = ("ridge", "plate", "ledger")
"""Sticks that may be made of several boards, joined over a support."""


@dataclass(frozen=True)
class Marks(Part):
    """A cut's marks from square across and its tilt from square to a face [degrees].

    `edge_number` is what belongs to 12 on the square, None for a line square across or along
    the edge.
    """

    face_mark_deg: float
    edge_mark_deg: float
    edge_number: float | None
    tilt_deg: float


@dataclass(frozen=True)
class CatalogueColumns(Part):
    """Where the catalogue has a cut: pitches, corner inside the building, end, which plane."""

    in_catalogue: bool
    end: str | None = None
    pitch: str | None = None
    other_pitch: str | None = None
    corner_deg: float | None = None
    which: int | None = None


@dataclass(frozen=True)
class CutRow:
    """One cut of one stick: where it is, what it lies against, how it is marked and sawn.

    `place` is head, foot, bird's mouth or rip; `cut` the catalogue's name where it has the cut,
    else plain words. `hand` is the side the cheek faces, empty where it runs square across.
    """

    stick: str
    place: str
    cut: str
    mate: str
    hand: str
    marks: Marks
    stock: str
    asked: CatalogueColumns


@dataclass(frozen=True)
class Lengths(Part):
    """A stick's lengths along its top edge [inches].

    The datum is the plumb line over the building line where there is a bird's mouth, and the
    tail is extra; elsewhere lengths run from cut to cut on one line. `theoretical_in` runs
    between center lines. `blank_in` is the length of board it takes.
    """

    theoretical_in: float
    long_in: float
    centre_in: float
    short_in: float
    tail_in: float
    blank_in: float


@dataclass(frozen=True)
class CutNames(Part):
    """The names of a stick's cuts by place, each once."""

    head_cuts: str
    foot_cuts: str
    rips: str


@dataclass(frozen=True)
class StickRow:
    """One stick: its lengths, its cuts and its mates in words."""

    name: str
    role: str
    face: str
    stock: str
    hand: str
    lengths: Lengths
    cuts: CutNames
    mates: str


@dataclass(frozen=True)
class PieceRow:
    """Equal sticks of one hand together: `mark` is the piece's name, `count` how many.

    `pair` is the mark of the same piece of the other hand, empty where there is none. `names`
    are all its sticks.
    """

    mark: str
    count: int
    role: str
    stock: str
    hand: str
    pair: str
    lengths: Lengths
    cuts: CutNames
    names: str


@dataclass(frozen=True)
class BoardRow:
    """A board of one stock, the pieces cut from it and the offcut [inches]; `note` on buying it."""

    stock: str
    length_in: float
    pieces: str
    left_in: float
    note: str = ""


def place_of(stick: Stick, plane: CutPlane) -> str:
    """Where on the stick a cut is made: head, foot, bird's mouth or rip."""
    removal = next(r for r in stick.removals if any(p is plane for p in r))
    if any(p.says.endswith("-seat") for p in removal):
        return "bird's mouth"
    cut = stick.cut(plane)
    if bool(cut.runs_along):
        return "rip"
    return "head" if bool(cut.at_head) else "foot"


def cut_row(stick: Stick, plane: CutPlane) -> CutRow:
    """One cut of a stick as a row."""
    cut, asked, hand = stick.cut(plane), plane.asked, stick.hand(plane)
    number = float(cut.edge_number)
    return CutRow(
        stick=stick.name,
        place=place_of(stick, plane),
        cut=plane.says,
        mate=plane.mate,
        hand="" if hand is None else hand.value,
        marks=Marks(
            face_mark_deg=float(cut.face_mark_deg),
            edge_mark_deg=float(cut.edge_mark_deg),
            edge_number=number if np.isfinite(number) and not bool(cut.runs_along) else None,
            tilt_deg=float(cut.face_tilt_deg),
        ),
        stock=str(stick.stock),
        asked=CatalogueColumns(in_catalogue=False)
        if asked is None
        else CatalogueColumns(
            in_catalogue=True,
            end=asked.end,
            pitch=str(asked.pitch),
            other_pitch=str(asked.other_pitch),
            corner_deg=asked.corner_deg,
            which=asked.plane_index,
        ),
    )


def cut_rows(stick: Stick) -> tuple[CutRow, ...]:
    """Every cut of a stick that leaves a surface on it."""
    return tuple(cut_row(stick, plane) for plane in stick.planes)


def lengths_of(stick: Stick) -> Lengths:
    """A stick's lengths along its top edge."""
    measured = stick.measured()
    return Lengths(
        theoretical_in=stick.theoretical_in,
        long_in=measured.long_in,
        centre_in=measured.centre_in,
        short_in=measured.short_in,
        tail_in=stick.tail_in,
        blank_in=stick.blank_in,
    )


def stick_row(stick: Stick) -> StickRow:
    """One stick as a row."""
    cuts: dict[str, list[str]] = defaultdict(list)
    for plane in stick.planes:
        cuts[place_of(stick, plane)].append(plane.says)
    mates = dict.fromkeys(plane.mate for plane in stick.planes if plane.mate)
    return StickRow(
        name=stick.name,
        role=stick.role,
        face=stick.face,
        stock=str(stick.stock),
        hand=_hand(stick),
        lengths=lengths_of(stick),
        cuts=CutNames(
            head_cuts=_words(cuts["head"]),
            foot_cuts=_words([*cuts["bird's mouth"], *cuts["foot"]]),
            rips=_words(cuts["rip"]),
        ),
        mates=", ".join(mates),
    )


def stick_rows(roof: TrainingRoof) -> tuple[StickRow, ...]:
    """Every stick of a roof."""
    return tuple(stick_row(stick) for stick in roof.sticks)


def piece_groups(roof: TrainingRoof) -> dict[str, tuple[Stick, ...]]:
    """Equal sticks of one hand together, by the name of the piece.

    A piece's name ends in a letter after a dash (J-C), a stick's in a number (J6): neither can
    be taken for the other.
    """
    groups: dict[tuple[object, ...], list[Stick]] = defaultdict(list)
    for stick in roof.sticks:
        groups[_shape(stick)].append(stick)
    named: dict[str, tuple[Stick, ...]] = {}
    taken: dict[str, int] = defaultdict(int)
    for sticks in groups.values():
        prefix = sticks[0].name.rstrip("0123456789")
        named[f"{prefix}-{_letters(taken[prefix])}"] = tuple(sticks)
        taken[prefix] += 1
    return named


def _letters(count: int) -> str:
    """A, B, ... Z, AA, AB, ...: the name of the `count`th piece, from 0.

    Without I and O, which are read as figures: J-I on a board looks like stick J1.
    """
    letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    first, last = divmod(count, len(letters))
    return (_letters(first - 1) if first else "") + letters[last]


def piece_rows(roof: TrainingRoof) -> tuple[PieceRow, ...]:
    """The cut list: equal sticks together, left and right ones apart but paired."""
    groups = piece_groups(roof)
    marks = {_shape(sticks[0]): mark for mark, sticks in groups.items()}
    rows = []
    for mark, sticks in groups.items():
        shape, mirrored = _shape(sticks[0]), _shape(sticks[0], -1)
        row = stick_row(sticks[0])
        rows.append(
            PieceRow(
                mark=mark,
                count=len(sticks),
                role=row.role,
                stock=row.stock,
                hand=row.hand,
                pair=marks.get(mirrored, "") if mirrored != shape else "",
                lengths=row.lengths,
                cuts=row.cuts,
                names=", ".join(stick.name for stick in sticks),
            )
        )
    return tuple(rows)


def boards(
    roof: TrainingRoof,
    lengths_in: Sequence[float] | None = None,
    kerf_in: float = KERF_IN,
    *,
    metric: bool = False,
) -> tuple[tuple[str, Board], ...]:
    """The sticks cut from stock of these lengths, or the usual ones, each stock for itself.

    Ridges, plates and ledgers longer than any board are made of equal parts; a rafter, hip or
    valley gets a board as long as it needs, with a note. Raises LengthError where a tail alone
    is longer than the longest stock.
    """
    sold = usual_lengths(metric=metric) if lengths_in is None else lengths_in
    longest = max(sold, default=0.0)
    pieces: dict[str, list[Piece]] = defaultdict(list)
    for stick in roof.sticks:
        if stick.tail_in > longest > 0:
            raise LengthError(
                f"an overhang of {write_long(roof.plan.overhang_in, metric=metric)} asks for a tail"
                f" of {write_long(stick.tail_in, metric=metric)} on {stick.name}, longer than the"
                f" stock of {write_long(longest, metric=metric)}; give a shorter overhang or"
                " longer stock"
            )
        may_be: Longer = "parts" if stick.role in SPLICED else "order"
        pieces[str(stick.stock)].append(Piece(stick.name, stick.blank_in, may_be))
    return tuple(
        (stock, board)
        for stock, each in pieces.items()
        for board in cut_from_stock(each, sold, kerf_in, metric=metric)
    )


def board_rows(cut: Sequence[tuple[str, Board]]) -> tuple[BoardRow, ...]:
    """Boards as rows."""
    return tuple(
        BoardRow(
            stock=stock,
            length_in=board.stock_in,
            pieces=board.names,
            left_in=board.left_in,
            note=board.note,
        )
        for stock, board in cut
    )


def _hand(stick: Stick) -> str:
    """Left or right by the first cheek that the other side does not have, empty where all have.

    Cheeks are taken in an order that a mirror leaves as it is: the head's first, each with its
    lean and place; one with a twin on the other side says nothing.
    """
    sides: dict[tuple[object, ...], int] = defaultdict(int)
    for plane in stick.planes:
        hand = stick.hand(plane)
        if hand is not None:
            x, y, z = np.round(np.abs(stick.cut(plane).normal), NORMAL_DIGITS).tolist()
            place = PLACES.index(place_of(stick, plane))
            key = (place, -y, x, z, plane.says, _level(stick, plane))
            sides[key] += 1 if hand is Hand.LEFT else -1
    first = next((sides[key] for key in sorted(sides) if sides[key]), 0)
    return "" if not first else (Hand.LEFT if first > 0 else Hand.RIGHT).value


def _level(stick: Stick, plane: CutPlane) -> float:
    """How far a plane lies from the datum on the middle of the thickness [inches]."""
    middle = stick.origin + stick.stock.thickness_in / 2 * stick.pose.left
    return round(-float(plane.beyond_in(middle)), LEVEL_DIGITS)


def _shape(stick: Stick, side: int = 1) -> tuple[object, ...]:
    """What makes two sticks equal: stock, lengths and cuts in board axes; side -1 mirrors it.

    Without a plumb line over a wall, lengths are laid from the foot, wherever that lies.
    """
    cuts = []
    start = 0.0 if stick.on_plate else stick.end_points("foot").long_in
    for plane in stick.planes:
        cut = stick.cut(plane)
        x, y, z = np.round(cut.normal, NORMAL_DIGITS).tolist()
        level = round(_level(stick, plane) - float(cut.normal[0]) * start, LEVEL_DIGITS)
        cuts.append((place_of(stick, plane), plane.says, x, side * y, z, level))
    return (stick.role, str(stick.stock), *sorted(cuts))


def _words(cuts: Sequence[str]) -> str:
    return " + ".join(dict.fromkeys(cuts))
