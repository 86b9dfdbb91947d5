"""A stick sheet: one piece of a roof to scale, with its lengths, its mouth, and how it is cut."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.packet.making import Making
from figures.page.flow import Row, paginate, picture, space, stacked, table, words
from figures.page.sheet import Page, clear_field
from figures.pictures.whole_stick import whole_stick
from layout.answer import senses
from layout.answer.answer import Answer
from layout.answer.sense_words import (
    SURFACE,
    beyond_words,
    lean_words,
    start_words,
    way_name,
    wide_words,
)
from layout.answer.wording import board_words, number_words
from layout.errors import SheetError
from layout.framing.cutlist import PieceRow
from layout.framing.ends import end_question, places
from layout.framing.mouth import stick_mouth
from layout.framing.stick import Stick
from layout.framing.summary import length_words
from layout.quantity import write_degrees

TEXT_PT, TABLE_PT = 9.0, 8.5
LONGEST_LINE = 90
"""Letters that the line under a title may have."""


def stick_sheet(made: Making, row: PieceRow, sticks: Sequence[Stick]) -> tuple[Page, ...]:
    """One piece: the whole stick to scale, its count and pair, and how each end is cut."""
    stick = sticks[0]
    title = f"Piece {row.mark}: {row.role}, {row.count} to cut"
    pair = f"; pairs with {row.pair}, its mirror image" if row.pair else ""
    board = board_words(stick.stock, metric=made.metric)
    given = f"{board}; {'sticks' if row.count > 1 else 'stick'} {row.names}"
    blank = Page(made.paper, Drawing(), title=title, given=_short(given), scale=None)
    left, bottom, right, top = clear_field(blank)
    width = right - left
    lengths = length_words(stick, metric=made.metric) + pair + "."
    listed = [words(f"Sticks: {row.names}.", width, TEXT_PT)] if len(given) > LONGEST_LINE else []
    mouth = [words(text, width, TEXT_PT) for text in _mouth_words(made, stick)]
    cut = [one for place in places(stick) for one in _planes(made, stick, place)]
    said = [
        words(lengths, width, TEXT_PT),
        *listed,
        *mouth,
        space(0.06),
        *_end_table(made, stick, width),
        *_saw_rows(cut, width),
    ]
    told = f"{title}. {given}. {lengths}"
    high, taken = top - bottom, sum(each.height_in for each in said)
    try:
        drawn = whole_stick(stick, (width, high - taken - 0.15), metric=made.metric)
        leaves = [[picture(drawn), space(0.1), *said]]
    except SheetError:  # a stick of many cuts: its picture and its words on pages of their own
        drawn = whole_stick(stick, (width, high), metric=made.metric)
        leaves = [[picture(drawn)], *paginate(said, high)]
    return tuple(
        replace(blank, drawing=stacked(rows).moved(left, top), description=told) for rows in leaves
    )


def _mouth_words(made: Making, stick: Stick) -> list[str]:
    mouth = stick_mouth(stick)
    if mouth is None:
        return []
    where = ", on the middle of the thickness" if stick.role in ("hip", "valley") else ""
    return [
        f"Bird's mouth{where}: seat {made.short(mouth.seat_in)} level, heel"
        f" {made.short(mouth.heel_in)} plumb, height above plate"
        f" {made.short(mouth.above_plate_in)} plumb, notch {made.short(mouth.notch_in)} deep square"
        " to the edge."
    ]


def _planes(made: Making, stick: Stick, place: str) -> Iterator[tuple[str, Answer]]:
    question = end_question(stick, place, made.roof.by_name)  # type: ignore[arg-type]
    first = made.told(question)
    for one in (first, *first.others):
        yield place, one


def _end_table(made: Making, stick: Stick, width: float) -> list[Row]:
    head = ("end", "against", "face mark", "side-cut number", "tilt", "by saw", "hand")
    lines = [
        (
            place,
            one.plane.mate_name,
            *_marks(one, made.metric),
            way_name(one),
            one.hand.value if one.hand else "-",
        )
        for each in places(stick)
        for place, one in _planes(made, stick, each)
    ]
    if not lines:
        return [words("Cut both ends square.", width, TEXT_PT)]
    shares = (0.08, 0.22, 0.14, 0.16, 0.1, 0.22, 0.08)
    return table(head, lines, [share * width for share in shares], TABLE_PT)


def _marks(one: Answer, metric: bool) -> tuple[str, str, str]:
    tilt = write_degrees(float(one.cut.face_tilt_deg))
    if one.is_rip:
        return "along the board", "-", tilt
    number = "square across"
    if one.edge.numbers:
        run = " on 300" if metric else " on 12"
        number = number_words(float(one.cut.edge_number), metric=metric) + run
    return write_degrees(one.face.from_square_deg), number, tilt


def _saw_rows(cut: Sequence[tuple[str, Answer]], width: float) -> list[Row]:
    """How the saw rides each tilted cut; planes that are sawn alike are told together."""
    alike: dict[str, list[str]] = {}
    for place, one in cut:
        if senses.faces(one)[0].square:
            continue
        mate = one.plane.mate_name
        alike.setdefault(saw_words(one), []).append(f"{place}, against the {mate}")
    if not alike:
        return []
    rows = [space(0.08), words("By saw", width, TEXT_PT, bold=True, with_next=True)]
    for said, those in alike.items():
        rows.append(words(f"{_capital('; '.join(those))}: {said}.", width, TABLE_PT))
    return rows


def saw_words(one: Answer) -> str:
    """The steadier way to run the saw, or what remains where it does not reach."""
    beyond = beyond_words(one)
    if beyond:
        return beyond
    shoe, kind = senses.faces(one)[0], one.limits.kind
    told = [lean_words(shoe), wide_words(shoe, kind), start_words(shoe, kind)]
    return f"shoe on the {SURFACE[shoe.side]}; " + "; ".join(each for each in told if each)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _short(text: str) -> str:
    return text if len(text) <= LONGEST_LINE else f"{text[: LONGEST_LINE - 4]} ..."
