"""The framing square laid on the face or the edge, its two numbers on the arris.

The arm to mark along lies with its outer edge on the mark; what it covers is dashed. A mark
square across is drawn with the blade flush with the arris. A bevel along the board is gauged.
"""

from dataclasses import replace

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing
from figures.ink.pens import Point
from figures.pictures.captions import hand_note, mark_note, numbers_note
from figures.pictures.framing_square import Laid, laid, laid_across, square_lines
from figures.pictures.gauge import gauged
from figures.pictures.views import arrow_below, surface_alone
from figures.place.placing import Words, enlarged, in_area, way_of
from figures.place.room import Picture, Room, in_room
from figures.wood.unfolded import UnfoldedStick, Where, broken, mark_ends, stick
from layout.answer.answer import Answer, Mark
from layout.answer.wording import number_words
from layout.quantity import write_sixteenths
from layout.vector import Array

SLIGHT = 1e-9
BEYOND_IN = 1.5
"""How much of a board that runs on is drawn beyond the square and the marks [in of wood]."""
BESIDE_OTHER_IN = 0.1
"""A number stands no nearer than this to the arm that it is not on [in on paper]."""


def square_on_face(answer: Answer, room: Room) -> Drawing:
    """The square laid on the shown face, its numbers on an arris, the arm to mark along heavy.

    From (0, 0) to the room's width and height [in on paper]. Gids: `face-mark`, `square`,
    `mark-number` and `other-number` on the dots at the arris. A bevel shows the gauge (`gauge`).
    """
    return _on(answer, "face", room)


def square_on_edge(answer: Answer, room: Room) -> Drawing:
    """The square laid on the shown edge in the same way; gids as on the face, `edge-mark`."""
    return _on(answer, "edge", room)


def _on(answer: Answer, where: Where, room: Room) -> Drawing:
    mark = answer.face if where == "face" else answer.edge
    plain = stick(answer)
    name = plain.name(where)
    if answer.is_rip or _along(mark):
        return in_room(
            f"Gauge on the {name}",
            [hand_note(answer)],
            room,
            lambda factor: gauged(answer, plain, where, factor),
        )
    numbers = mark.numbers
    across = numbers is None or numbers.as_read().mark == 0
    if across or numbers is None:
        shown = stick(answer, kept_in=9.0)
        notes = ["Blade flush with the arris; mark along the tongue: square across."]
        square = laid_across(shown, where)
    else:
        length = float(np.hypot(numbers.mark, numbers.other))
        shown = stick(answer, kept_in=length + 2.5)
        square = laid(shown, where, numbers)
        shown = _trimmed(shown, square, where)
        notes = [
            f"{numbers_note(numbers, metric=answer.metric)}.",
            mark_note(mark, where.capitalize()),
        ]
        if where == "face" and _on_bottom(shown, square):
            notes.append("Both numbers lie on the arris of the bottom edge.")
    if where == "edge":
        notes.append(_edge_note(answer, plain))
    return in_room(
        f"Square on the {name}",
        [*notes, hand_note(answer)],
        room,
        lambda factor: _laid_on(shown, where, square, factor, answer.metric),
    )


def _on_bottom(shown: UnfoldedStick, square: Laid) -> bool:
    """Whether the square's numbers lie on the bottom edge of a face: there it holds at a foot."""
    _, low, _, high = shown.solid.whole(shown.face_flat).bounds
    return bool(square.mark_spot[1] < (low + high) / 2)


def _edge_note(answer: Answer, shown: UnfoldedStick) -> str:
    """From where to where the line on the edge runs."""
    start = f"where the {shown.face} face's mark meets the arris"
    if two_cheeks(answer):
        return f"The line runs from the point, where both cheeks meet, to {start}."
    return f"The line starts {start}."


def two_cheeks(answer: Answer) -> bool:
    """Whether the end comes to a point between the faces, or is hollow there."""
    cheeks = [cut for cut in answer.cuts if abs(float(cut.normal[1])) > SLIGHT]
    return len(cheeks) == 2 and not answer.is_rip


def _along(mark: Mark) -> bool:
    return mark.numbers is not None and mark.numbers.as_read().other == 0


def _trimmed(shown: UnfoldedStick, square: Laid, where: Where) -> UnfoldedStick:
    """The stick no longer than the square and the marks on it ask for."""
    reach = [float(spot[0]) for spot in (square.mark_spot, square.other_spot)]
    for flat in (shown.face_flat, shown.edge_flat):
        for plane_index in range(len(shown.cuts)):
            ends = mark_ends(shown, flat, plane_index)
            reach += [end[0] for end in ends or ()]
    left, right = sorted((shown.to_head * shown.foot_in, shown.to_head * shown.head_in))
    kept = shown.ends_kept
    if kept[0]:
        left = max(left, min(reach) - BEYOND_IN)
    if kept[1]:
        right = min(right, max(reach) + BEYOND_IN)
    foot, head = sorted((shown.to_head * left, shown.to_head * right))
    return replace(shown, foot_in=foot, head_in=head)


def _laid_on(
    shown: UnfoldedStick, where: Where, square: Laid, factor: float, metric: bool
) -> Picture:
    board = surface_alone(shown, where)
    flat = shown.flat(where)
    marks = tuple(stroke for stroke in board.strokes if stroke.pen == "cut")
    edges = Drawing(
        tuple(
            replace(stroke, pen="hidden", gid="under-square")
            for stroke in board.strokes
            if stroke.pen == "visible"
        )
    )
    left, low, right, high = square.shape.buffer(1.0).bounds
    beneath = edges.without(shapely.box(left, low, right, high).difference(square.shape))
    bare = replace(board, strokes=tuple(each for each in board.strokes if each.pen != "cut"))
    under = bare.without(square.shape)
    paper = (under + beneath + Drawing(areas=(Area(square.shape, "steel", "square"),))).scaled(
        factor
    )
    paper += square_lines(square, factor)
    paper += Drawing(marks).scaled(factor)
    left, low, right, high = (side * factor for side in shown.solid.whole(flat).bounds)
    for u, kept in zip((left, right), shown.ends_kept, strict=True):
        if kept:
            paper += broken((u, low), (u, high))
    picture = Picture(paper, tuple(_words(shown, where, square, factor, metric)))
    picture += _surface_name(shown, where, square, factor)
    return arrow_below(picture, shown, factor)


def _words(
    shown: UnfoldedStick, where: Where, square: Laid, factor: float, metric: bool
) -> list[Words]:
    words = []
    if square.mark_in:
        pairs = (
            (square.mark_in, square.mark_arm, square.mark_spot, "mark-words"),
            (square.other_in, square.other_arm, square.other_spot, "other-words"),
        )
        outward = way_of(_pair(square.other_spot), _pair(square.mark_spot))
        for (number, arm, spot, gid), way in zip(pairs, (outward, outward + 180.0), strict=True):
            laid_at = number_words(number, metric=True) if metric else write_sixteenths(number)
            said = f"{laid_at} on the {arm}"
            other = square.other_steel if arm == square.mark_arm else square.mark_steel
            words.append(
                Words(
                    said,
                    _pair(spot * factor),
                    9,
                    bold=True,
                    gid=gid,
                    always=True,
                    ways=(way,),
                    off=enlarged(other, factor).buffer(BESIDE_OTHER_IN),
                )
            )
        flat = shown.flat(where)
        ends = mark_ends(shown, flat, shown.plane_index)
        assert ends is not None
        middle = (np.array(ends[0]) + 2 * np.array(ends[1])) / 3
        words.append(
            Words(
                f"mark along the {square.mark_arm}",
                _pair(middle * factor),
                8.5,
                gid="along-words",
                always=True,
            )
        )
    else:
        tongue = square.heel + 0.6 * min(square.mark_shown_in, 4.0) * square.mark_way
        blade = square.heel + 5.0 * square.other_way
        words.append(Words("mark along the tongue", _pair(tongue * factor), 9, always=True))
        words.append(Words("blade flush with the arris", _pair(blade * factor), 9, always=True))
    return words


def _surface_name(shown: UnfoldedStick, where: Where, square: Laid, factor: float) -> Picture:
    """WASTE and the name of the surface, where the square leaves them room."""
    flat = shown.flat(where)
    whole, kept = shown.solid.whole(flat), shown.solid.slice(flat)
    bold = (
        (shapely.difference(whole, kept), "WASTE", True),
        (kept, shown.name(where), False),
    )
    words = [
        each
        for region, said, is_bold in bold
        for each in in_area(
            said,
            enlarged(shapely.difference(region, square.shape), factor),
            bold=is_bold,
            off=enlarged(whole, factor) if is_bold and all(shown.ends_kept) else None,
        )
    ]
    return Picture(Drawing(), tuple(words))


def _pair(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
