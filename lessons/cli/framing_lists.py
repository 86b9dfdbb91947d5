"""A framed roof's and a jack set's lists in words: cells for a text table or a printed card."""

from collections.abc import Sequence

from layout.answer.answer import answer
from layout.answer.wording import short_answer
from layout.framing.cutlist import BoardRow, PieceRow, piece_groups
from layout.framing.ends import distinct_ends
from layout.framing.jackset import JackRow
from layout.framing.roof import TrainingRoof
from layout.length.code_sections import Comparison
from layout.quantity import write_feet, write_fraction

Table = tuple[list[str], list[list[str]]]


def piece_table(rows: Sequence[PieceRow]) -> Table:
    """The cut list: what to cut, how many, how long."""
    head = ["piece", "no.", "stick", "stock", "hand", "pair", "long point", "short point", "tail"]
    head += ["board", "head", "foot", "sticks"]
    lines = [
        [
            row.mark,
            str(row.count),
            row.role,
            row.stock.split(" (")[0],
            row.hand or "-",
            row.pair or "-",
            write_feet(row.long_in),
            write_feet(row.short_in),
            write_feet(row.tail_in) if row.tail_in else "-",
            write_feet(row.blank_in),
            row.head_cuts or "-",
            " + ".join(part for part in (row.foot_cuts, row.rips) if part) or "-",
            row.names.replace(",", ""),
        ]
        for row in rows
    ]
    return head, lines


def end_table(roof: TrainingRoof) -> Table:
    """Every different end once: what it is, every plane's marks in short, and its sticks."""
    head = ["end", "against", "marks", "on"]
    lines = []
    for question in distinct_ends(piece_groups(roof), roof.by_name):
        assert question.stands is not None
        first = answer(question)
        names = [name for use in question.stands.uses for name in use.sticks]
        for number, one in enumerate((first, *first.others)):
            against = question.joint.planes[one.which].mate_name
            end, on = (question.entry.name, some(names)) if number == 0 else ("", "")
            lines.append([end, against, short_answer(one), on])
    return head, lines


def board_table(rows: Sequence[BoardRow]) -> Table:
    """The boards to buy, what is cut from each and what is left."""
    head = ["board", "length", "left", "pieces"]
    lines = [
        [row.stock.split(" (")[0], write_feet(row.length_in), write_feet(row.left_in), row.pieces]
        for row in rows
    ]
    return head, lines


def comparison_table(rows: Sequence[Comparison]) -> Table:
    """Numbers beside the code's sections: never a pass or a fail."""
    head = ["here", "in", "compare with", "in the edition adopted locally", "in"]
    lines = [
        [
            row.what,
            write_fraction(row.here_in),
            row.section,
            row.says,
            write_fraction(row.code_in),
        ]
        for row in rows
    ]
    return head, lines


def jack_table(rows: Sequence[JackRow]) -> Table:
    """A set of jacks from the corner on."""
    head = ["jack", "hand", "pair", "from corner", "theoretical", "long point", "short point"]
    head += ["tail", "board"]
    lines = [
        [
            row.name,
            row.hand,
            row.pair or "-",
            write_feet(row.position_in),
            write_feet(row.theoretical_in),
            write_feet(row.long_in),
            write_feet(row.short_in),
            write_feet(row.tail_in) if row.tail_in else "-",
            write_feet(row.blank_in),
        ]
        for row in rows
    ]
    return head, lines


def some(names: Sequence[str], most: int = 4) -> str:
    """A few names, and how many more there are."""
    if len(names) <= most:
        return " ".join(names)
    return f"{' '.join(names[:most])} and {len(names) - most} more"
