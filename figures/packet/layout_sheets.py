"""Where every stick stands along what carries it, and the story poles of the commons."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from figures.ink.drawing import Drawing
from figures.packet.making import Making
from figures.packet.pole import PoleMark, crossing_marks, landing_marks, pole
from figures.page.flow import Row, paginate, picture, space, stacked, table, words
from figures.page.sheet import Page, clear_field
from layout.framing.crossing import Crossing, CrossingPoint, crossings
from layout.framing.cutlist import board_rows, boards, piece_groups
from layout.framing.mouth import stick_mouth
from layout.framing.name_runs import in_runs
from layout.framing.running import FACES, SLANTED, Landing, landings, start_of
from layout.framing.stick import Stick
from layout.quantity import write_at_least
from layout.vector import Z

TEXT_PT, TABLE_PT, HEAD_PT = 9.0, 8.5, 12.0
MARK_WORDS = (
    "In each picture the tape is hooked, or held, at the left end, and each figure is to the line"
    " nearer to it. The X, where the stick stands, goes on the far side of that line."
)


def layout_sheets(made: Making) -> tuple[Page, ...]:
    """Each carrier as a reduced stick and a table, then a story pole for every common."""
    blank = Page(made.paper, Drawing(), title="Layout", given=made.given, scale=None)
    left, bottom, right, top = clear_field(blank)
    width = right - left
    rows: list[Row] = []
    found, slanted = landings(made.roof.sticks), crossings(made.roof.sticks)
    plates = [stick for stick in made.roof.sticks if stick.role == "plate"]
    for name in dict.fromkeys([*(one.carrier for one in found), *(one.carrier for one in slanted)]):
        carrier, here = made.roof.by_name[name], [one for one in found if one.carrier == name]
        far = carrier.in_board(carrier.corners)[:, 0].max() - start_of(carrier)
        over = [one for one in slanted if one.carrier == name]
        marks = sorted(
            (*landing_marks(here), *crossing_marks(over, carrier.stock.depth_in, float(far))),
            key=lambda mark: mark.at_in,
        )
        reduced = pole(marks, float(far), width, metric=made.metric)
        said = (
            start_words(carrier, plates, made.roof.sticks),
            *gauge_line_words(made, here),
            *joint_words(made, name, float(far)),
            *((MARK_WORDS,) if not rows else ()),
            *(crossing_words(made, one) for one in over),
        )
        rows += [
            words(f"Along {name}, {carrier.role}", width, HEAD_PT, bold=True, with_next=True),
            *(words(text, width, TEXT_PT, with_next=True) for text in said),
            replace(picture(reduced), with_next=True),
            space(0.08, with_next=True),
            *_landing_table(made, carrier, here, width),
            space(0.2),
        ]
    for piece, sticks in piece_groups(made.roof).items():
        if sticks[0].role == "common" and sticks[0].on_plate:
            rows += _story_pole(made, piece, sticks, width)
    return tuple(
        replace(blank, drawing=stacked(leaf).moved(left, top))
        for leaf in paginate(rows, top - bottom)
    )


def joint_words(made: Making, name: str, length_in: float) -> list[str]:
    """Where the equal parts of a carrier longer than any board meet; none for one board."""
    begins = f"{name} part "
    count = sum(
        piece.startswith(begins)
        for row in board_rows(boards(made.roof, metric=made.metric))
        for piece in row.pieces.split(", ")
    )
    meets = " and ".join(made.long(length_in * k / count) for k in range(1, count))
    return [f"Its {count} equal parts meet at {meets}, over a support."] if meets else []


def gauge_line_words(made: Making, here: Sequence[Landing]) -> list[str]:
    """Where the measures lie on a hip or valley whose top arris is not where they hold."""
    slanted = {stick.name for stick in made.roof.sticks if stick.role in SLANTED}
    downs = {one.side: one.down_in for one in here if one.side in FACES and one.carrier in slanted}
    if max(downs.values(), default=0.0) < 1 / 64:
        return []
    said = {face: made.gauged(downs[face]) for face in FACES if face in downs}
    if len(set(said.values())) > 1:
        said = {face: f"{down} on the {face}" for face, down in said.items()}
    lies = " and ".join(dict.fromkeys(said.values()))
    return [
        "Measure along the board. Carry each measure square down the face to the gauge line,"
        f" {lies} below the top arris (sharp edge): the lower arris once the edge is backed. Draw"
        " the plumb line from there."
    ]


def crossing_words(made: Making, one: Crossing) -> str:
    """The lines that a hip or valley draws on a plate, each face by its two points."""
    told = []
    for face, start, end in one.lines:
        ends = " to ".join(_point_words(made, point) for point in (start, end))
        told.append(f"its {face} from {ends}")
    return f"{one.stick} crosses on the slant: {'; '.join(told)}."


def _point_words(made: Making, point: CrossingPoint) -> str:
    if point.edge == "end":
        return f"the plate's end {made.short(point.across_in)} from its outside edge"
    return f"the {point.edge} at {made.long(point.along_in)}"


def _landing_table(
    made: Making, carrier: Stick, here: Sequence[Landing], width: float
) -> list[Row]:
    """The measures of what stands there; sticks on both faces at one place have one line."""
    flat = carrier.role == "plate"
    head = ("stick", "to its near side", "to its middle", "to its far side")
    at_one_place: dict[tuple[str, ...], list[str]] = {}
    for one in here:
        at = tuple(made.long(each) for each in (one.near_in, one.middle_in, one.far_in))
        name = one.stick if flat else f"{one.stick} ({one.side})"
        at_one_place.setdefault(at, []).append(name)
    lines = [(", ".join(names), *at) for at, names in at_one_place.items()]
    shares = (0.4, 0.2, 0.2, 0.2)
    return table(head, lines, [share * width for share in shares], TABLE_PT, head_again=True)


def story_marks(common: Stick) -> list[PoleMark]:
    """A common's marks along its top edge, from the tail's end to the ridge's cut [inches].

    The seat's inner end is carried plumb up to the top edge: its level length over the cosine
    of the slope, past the outside of the wall.
    """
    tail, head = common.tail_in, common.measured().centre_in
    marks = [
        PoleMark("tail's plumb cut", 0.0),
        PoleMark("outside of the wall", tail),
        PoleMark("ridge's plumb cut", tail + head),
    ]
    mouth = stick_mouth(common)
    if mouth is not None:
        level = float((common.pose.head[0] ** 2 + common.pose.head[1] ** 2) ** 0.5)
        marks.insert(2, PoleMark("inner end of the seat", tail + mouth.seat_in / level))
    return [mark for mark in marks if mark.at_in or tail]


def _story_pole(made: Making, piece: str, sticks: Sequence[Stick], width: float) -> list[Row]:
    marks = story_marks(sticks[0])
    names = in_runs([stick.name for stick in sticks])
    said = story_words(sticks[0], metric=made.metric)
    return [
        words(f"Story pole of {piece}, common", width, HEAD_PT, bold=True, with_next=True),
        words(f"Sticks {names}.", width, TEXT_PT, with_next=True),
        words(said, width, TEXT_PT, with_next=True),
        picture(pole(marks, marks[-1].at_in, width, metric=made.metric)),
        space(0.2),
    ]


def story_words(common: Stick, *, metric: bool = False) -> str:
    """Where a story pole's 0 lies on the board, and how its marks are carried over."""
    zero = "0 is the plumb line over the outside of the wall."
    if common.tail_in:
        beyond = write_at_least(common.foot_reach_in - common.tail_in, metric=metric)
        zero = f"0 is the tail cut at the TOP edge, at least {beyond} from the board's end."
    return (
        f"{zero} Lay these on a strip and square each across it. On the rafter every mark is a"
        " plumb line at the top edge."
    )


def start_words(carrier: Stick, plates: Sequence[Stick], sticks: Sequence[Stick] = ()) -> str:
    """From where a carrier's running measures are read, in a sentence.

    An end is told by the plate that lies nearest to it, and by the stick against it: nobody sees
    on a plan where a wall starts. A ridge's right face is told by the wall that it looks to.
    """
    if carrier.role in ("plate", "ridge", "ledger"):
        toward = _plate_toward(carrier, plates)
        end = f"the end nearest {toward.name}" if toward is not None else "the foot end"
        against = _against_end(carrier, sticks)
        if against:
            end += f" ({against}'s end of the {carrier.role})"
        words = f"Hook the tape on {end} and measure away from it."
        if carrier.role == "plate":
            return (
                f"{words} The plate lies flat; its outside edge, below in the picture, is over"
                " the outside of the wall."
            )
        others = [plate for plate in plates if float((plate.corners @ Z).max()) < 1e-6]
        if carrier.role == "ridge" and others:
            right = min(others, key=lambda one: float((one.corners @ carrier.pose.left).mean()))
            words += f" That end is its foot; its right face looks to {right.name}."
        return words
    if carrier.on_plate:
        return "Along the board, from the plumb line over the outside of the wall, toward the head."
    return "Along the top edge, from the foot end's long point."


def _against_end(carrier: Stick, sticks: Sequence[Stick]) -> str:
    """The stick that butts a ridge's foot end; empty where none does."""
    if carrier.role == "plate":
        return ""
    here = [
        one
        for one in landings([carrier, *(s for s in sticks if s is not carrier)])
        if one.carrier == carrier.name and one.side == "end" and abs(one.middle_in) < 1e-6
    ]
    return here[0].stick if len(here) == 1 else ""


def _plate_toward(carrier: Stick, plates: Sequence[Stick]) -> Stick | None:
    """The plate that a carrier's foot end points at: the one it meets, or farthest that way."""
    others = [plate for plate in plates if plate is not carrier]
    if not others:
        return None
    if carrier.role == "plate":
        end = carrier.origin + start_of(carrier) * carrier.pose.head
        return min(others, key=lambda one: float(np.hypot(*(one.corners - end)[:, :2].T).min()))
    way = carrier.pose.head
    return min(others, key=lambda one: float((one.corners @ way).mean()))
