"""A stick sheet: one piece of a roof to scale, with its lengths, its mouth, and how it is cut."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.packet.making import Making
from figures.page.flow import Row, paginate, picture, space, stacked, table, words
from figures.page.sheet import Page, clear_field
from figures.pictures.whole_stick import whole_stick
from figures.wrap.wrap_sawing import saw_heading
from layout.answer import senses
from layout.answer.answer import Answer
from layout.answer.sense_words import (
    SURFACE,
    beyond_words,
    lean_words,
    leaning,
    start_words,
    way_name,
    wide_words,
)
from layout.answer.stop_words import stop_words
from layout.answer.wording import board_words, number_words, sentence, write_numbers
from layout.errors import SheetError
from layout.framing.cutlist import PieceRow, stick_row
from layout.framing.ends import common_mates, end_question, places
from layout.framing.foot_inside import foot_inside_words
from layout.framing.mouth import FaceMouth, face_mouths, stick_mouth
from layout.framing.name_runs import in_runs
from layout.framing.running import SLANTED
from layout.framing.stick import Stick
from layout.framing.summary import length_words
from layout.quantity import write_at_least, write_degrees

TEXT_PT, TABLE_PT = 9.0, 8.5
BOTH = 2
LONGEST_LINE = 90
"""Letters that the line under a title may have."""


def stick_sheet(made: Making, row: PieceRow, sticks: Sequence[Stick]) -> tuple[Page, ...]:
    """One piece: the whole stick to scale, its count and pair, and how each end is cut."""
    stick = sticks[0]
    title = f"Piece {row.mark}: {row.role}, {row.count} to cut"
    pair = f" Pairs with {row.pair}, its mirror image." if row.pair else ""
    board = board_words(stick.stock, metric=made.metric)
    names = in_runs(row.names.split(", "))
    given = f"{board}; {'sticks' if row.count > 1 else 'stick'} {names}"
    blank = Page(made.paper, Drawing(), title=title, given=_short(given), scale=None)
    left, bottom, right, top = clear_field(blank)
    width = right - left
    lengths = f"{length_words(stick, metric=made.metric)}.{pair}"
    near = _neighbors(sticks)
    listed = [words(near, width, TEXT_PT)] if near else []
    listed += [words(f"Sticks: {names}.", width, TEXT_PT)] if len(given) > LONGEST_LINE else []
    mouth = [words(text, width, TEXT_PT) for text in _mouth_words(made, stick)]
    said = [
        *(words(text, width, TEXT_PT) for text in _first_words(made, stick, pair.strip()) if text),
        *listed,
        *mouth,
        space(0.06),
        *_end_table(made, sticks, width),
        *_saw_rows(made, sticks, width),
    ]
    told = f"{title}. {given}. {lengths}"
    alone = len(sticks) == 1  # a mate's name holds for one stick of a piece, not for all
    high, taken = top - bottom, sum(each.height_in for each in said)
    try:
        drawn = whole_stick(stick, (width, high - taken - 0.15), metric=made.metric, mates=alone)
        leaves = [[picture(drawn), space(0.1), *said]]
    except SheetError:  # a stick of many cuts: its picture and its words on pages of their own
        drawn = whole_stick(stick, (width, high), metric=made.metric, mates=alone)
        leaves = [[picture(drawn)], *paginate(said, high)]
    return tuple(
        replace(blank, drawing=stacked(rows).moved(left, top), description=told) for rows in leaves
    )


def _neighbors(sticks: Sequence[Stick]) -> str:
    """What each stick of a piece stands against, where that is not the same for all of them."""
    by_mates: dict[str, list[str]] = {}
    for stick in sticks:
        by_mates.setdefault(stick_row(stick).mates, []).append(stick.name)
    if len(by_mates) < 2 or not all(by_mates):
        return ""
    told = [f"{in_runs(names)} against {mates}" for mates, names in by_mates.items()]
    return f"{'; '.join(told)}."


def _first_words(made: Making, stick: Stick, pair: str) -> tuple[str, str, str]:
    """Where the plumb line and a foot cut inside of it lie, and the piece's mirror image."""
    return _foot_words(made, stick), foot_inside_words(stick, metric=made.metric), pair


def _foot_words(made: Making, stick: Stick) -> str:
    """How far from the end of the board a stick's plumb line is drawn; empty without one."""
    if not stick.on_plate or not stick.foot_reach_in:
        return ""
    far = write_at_least(stick.foot_reach_in, metric=made.metric)
    return (
        "First draw the plumb line over the outside of the wall: on the top edge, at least"
        f" {far} from the foot end of the board."
    )


def _mouth_words(made: Making, stick: Stick) -> list[str]:
    mouth = stick_mouth(stick)
    if mouth is None:
        return []
    short = made.short
    above, middle = short(mouth.above_plate_in), short(mouth.middle_notch_in)
    whole = f"height above plate {above} plumb, notch {middle} deep square to the edge"
    sides = face_mouths(stick)
    marked = [
        (side, side.heel_in, side.heel_at_in)
        for side in sides
        if side.heel_in is not None and side.heel_at_in is not None
    ]
    if sides and len(marked) < BOTH:
        return _cut_short_words(made, above, sides)
    if stick.role not in SLANTED or not sides:
        return [
            f"Bird's mouth: seat {short(mouth.seat_in)} level, heel {short(mouth.heel_in)} plumb,"
            f" {whole}."
        ]
    alike = len({(short(s.seat_in), short(heel), short(at)) for s, heel, at in marked}) == 1
    told = []
    for side, heel_in, heel_at_in in marked[:1] if alike else marked:
        way = "head" if heel_at_in > 0 else "foot"
        at = short(abs(heel_at_in))
        told.append(
            f"on {'either' if alike else f'the {side.side}'} face the heel line leaves the top edge"
            f" {at} from the plumb line toward the {way}; heel {short(heel_in)} plumb, seat"
            f" {short(side.seat_in)} level, notch {short(side.notch_in)} deep square to the edge"
        )
    return [
        f"Bird's mouth, as it is marked: {'; '.join(told)}. On the middle of the thickness, to"
        f" check: seat {short(mouth.seat_in)} level, heel {short(mouth.heel_in)} plumb, {whole}."
    ]


def _cut_short_words(made: Making, above: str, sides: Sequence[FaceMouth]) -> list[str]:
    """The seat of a stick whose foot cut takes the heel away, on one face or on both.

    The seat is then as long on each face as the foot cut leaves it.
    """
    told = []
    for side in sides:
        heel = f", heel {made.short(side.heel_in)} plumb" if side.heel_in is not None else ""
        told.append(
            f"on the {side.side} face seat {made.short(side.seat_in)} level{heel}, notch"
            f" {made.short(side.notch_in)} deep square to the edge"
        )
    gone = "the heel away" if not any(side.heel_in for side in sides) else "part of the heel away"
    return [
        f"Seat: before any cut, mark it level through the point {above} below the top edge on the"
        f" plumb line over the outside of the wall. The foot cut takes {gone}. On the finished"
        f" stick: {'; '.join(told)}."
    ]


def _planes(made: Making, stick: Stick, place: str) -> Iterator[tuple[str, Answer]]:
    question = end_question(stick, place, made.roof.by_name)  # type: ignore[arg-type]
    first = made.told(question)
    for one in (first, *senses.others_left(first)):
        yield place, one


def _end_table(made: Making, sticks: Sequence[Stick], width: float) -> list[Row]:
    head = ("cut", "against", "face mark", "side-cut number", "tilt", "by saw", "hand")
    stick = sticks[0]
    lines = [
        (
            end_name(stick, place, one),
            against(made, sticks, place, number),
            *_marks(one, made.metric),
            way_name(one),
            one.hand.value if one.hand else "-",
        )
        for place in places(stick)
        for number, (_, one) in enumerate(_planes(made, stick, place))
    ]
    if not lines:
        return [words("Cut both ends square.", width, TEXT_PT)]
    shares = (0.11, 0.13, 0.31, 0.13, 0.07, 0.18, 0.07)
    return [
        *table(head, lines, [share * width for share in shares], TABLE_PT),
        words(
            "Face marks are angles from square across, with the numbers on the square's blade and"
            " tongue and the arm to mark along.",
            width,
            TABLE_PT,
        ),
    ]


def end_name(stick: Stick, place: str, one: Answer) -> str:
    """What a cut is called: a seat and its heel, a tail and a plain foot are told apart."""
    mate = one.plane.mate_name
    if place in ("seat", "high-seat"):
        upper = "upper " if place == "high-seat" else ""
        return f"{upper}heel" if mate.startswith("wall") else f"{upper}seat"
    if place == "foot" and mate == "fascia":
        return "tail"
    if place == "rip" and one.hand:
        return f"backing, {one.hand.value}"
    return place


def against(made: Making, sticks: Sequence[Stick], place: str, number: int) -> str:
    """What a cut lies against; by its name only where that holds for every stick of the piece."""
    mates = common_mates(sticks, place, made.roof.by_name)  # type: ignore[arg-type]
    if sticks[0].role == "plate" and not any(mate.startswith("plate") for mate in mates):
        return "nothing: flush with the outside of the wall"
    return mates[number]


def _marks(one: Answer, metric: bool) -> tuple[str, str, str]:
    tilt = write_degrees(float(one.cut.face_tilt_deg))
    if one.is_rip:
        return "along the board", "-", tilt
    number = "square across"
    if one.edge.numbers:
        run = " on 300" if metric else " on 12"
        number = number_words(float(one.cut.edge_number), metric=metric) + run
    if one.face.numbers is None:
        return "square across", number, tilt
    laid = write_numbers(one.face.numbers, metric=metric)
    for words_out, short in (("on the ", ""), ("mark along the ", "along the ")):
        laid = laid.replace(words_out, short)
    angle = write_degrees(one.face.from_square_deg)
    return f"{angle}, top toward the {leaning(one.face)}; {laid}", number, tilt


def _saw_rows(made: Making, sticks: Sequence[Stick], width: float) -> list[Row]:
    """How the saw rides each tilted cut and where it stops; planes sawn alike told together."""
    alike: dict[str, list[str]] = {}
    stick, kinds = sticks[0], set()
    for place in places(stick):
        for number, (_, one) in enumerate(_planes(made, stick, place)):
            kinds.add(one.limits.kind)
            stop = stop_words(one)
            if senses.faces(one)[0].square and not stop:
                continue
            mate = against(made, sticks, place, number)
            said = stop if senses.faces(one)[0].square else saw_words(one)
            alike.setdefault(said, []).append(f"{end_name(stick, place, one)}, against the {mate}")
    if not alike:
        return []
    rows = [
        space(0.08),
        words(saw_heading("By saw", kinds), width, TEXT_PT, bold=True, with_next=True),
    ]
    for said, those in alike.items():
        rows.append(words(sentence(f"{'; '.join(those)}: {said}"), width, TABLE_PT))
    return rows


def saw_words(one: Answer) -> str:
    """The steadier way to run the saw, and where it stops, or what remains out of its reach."""
    beyond = beyond_words(one)
    if beyond:
        return "; ".join(filter(None, (beyond, stop_words(one))))
    shoe, kind = senses.faces(one)[0], one.limits.kind
    if kind is not None and shoe.start_from[kind] == "inside":
        return "; ".join(filter(None, (start_words(shoe, kind), stop_words(one))))
    told = [lean_words(shoe), wide_words(shoe, kind), start_words(shoe, kind), stop_words(one)]
    return f"shoe on the {SURFACE[shoe.side]}; " + "; ".join(each for each in told if each)


def _short(text: str) -> str:
    return text if len(text) <= LONGEST_LINE else f"{text[: LONGEST_LINE - 4]} ..."
