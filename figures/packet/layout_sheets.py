"""Where every stick stands along what carries it, and the story poles of the commons."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from figures.ink.drawing import Drawing
from figures.packet.making import Making
from figures.packet.pole import PoleMark, landing_marks, pole
from figures.page.flow import Row, paginate, picture, space, stacked, table, words
from figures.page.sheet import Page, clear_field
from layout.framing.cutlist import piece_groups
from layout.framing.mouth import stick_mouth
from layout.framing.running import Landing, landings, start_of
from layout.framing.stick import Stick

TEXT_PT, TABLE_PT, HEAD_PT = 9.0, 8.5, 12.0


def layout_sheets(made: Making) -> tuple[Page, ...]:
    """Each carrier as a reduced stick and a table, then a story pole for every common."""
    blank = Page(made.paper, Drawing(), title="Layout", given=made.given, scale=None)
    left, bottom, right, top = clear_field(blank)
    width = right - left
    rows: list[Row] = []
    found = landings(made.roof.sticks)
    plates = [stick for stick in made.roof.sticks if stick.role == "plate"]
    for name in dict.fromkeys(one.carrier for one in found):
        carrier, here = made.roof.by_name[name], [one for one in found if one.carrier == name]
        far = carrier.in_board(carrier.corners)[:, 0].max() - start_of(carrier)
        reduced = pole(landing_marks(here), float(far), width, metric=made.metric)
        rows += [
            words(f"Along {name}, {carrier.role}", width, HEAD_PT, bold=True, with_next=True),
            words(start_words(carrier, plates), width, TEXT_PT, with_next=True),
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


def _landing_table(
    made: Making, carrier: Stick, here: Sequence[Landing], width: float
) -> list[Row]:
    flat = carrier.role == "plate"
    head = ("stick", "on", "to its near side", "to its middle", "to its far side")
    lines = [
        (
            one.stick,
            "top" if flat else one.side,
            *(made.long(at) for at in (one.near_in, one.middle_in, one.far_in)),
        )
        for one in here
    ]
    return table(head, lines, [share * width for share in (0.14, 0.2, 0.22, 0.22, 0.22)], TABLE_PT)


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
    names = ", ".join(stick.name for stick in sticks)
    said = (
        "Along the top edge, from the tail's end. Lay these on a strip and square each across it."
        " On the rafter every mark is a plumb line at the top edge."
    )
    return [
        words(f"Story pole of {piece}, common", width, HEAD_PT, bold=True, with_next=True),
        words(f"Sticks {names}.", width, TEXT_PT, with_next=True),
        words(said, width, TEXT_PT, with_next=True),
        picture(pole(marks, marks[-1].at_in, width, metric=made.metric)),
        space(0.2),
    ]


def start_words(carrier: Stick, plates: Sequence[Stick]) -> str:
    """From where a carrier's running measures are read, in a sentence.

    An end is told by the plate that lies toward it: nobody sees on a plan where a wall starts.
    """
    if carrier.role in ("plate", "ridge", "ledger"):
        toward = _plate_toward(carrier, plates)
        end = f"its end toward plate {toward.name}" if toward is not None else "its foot end"
        return f"Running measures from {end}, the tape hooked over the end itself."
    if carrier.on_plate:
        return "Along the top edge, from the plumb line over the outside corner of the walls."
    return "Along the top edge, from the foot end's long point."


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
