"""The saw set for a cut: seen along the line, and the board from above with the way to go.

Beside the section stands the surface under the shoe, seen from above: the line, the waste, the
wide side of the shoe with the motor over it, and an arrow where each kind of saw starts.
"""

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Label, Polygon, Stroke, label_box
from figures.ink.pens import Point
from figures.pictures.captions import hand_note
from figures.pictures.saw_front import NARROW_IN, WIDE_IN, saw_notes, saw_picture
from figures.pictures.shoe import Shoe, face_shoes
from figures.pictures.views import arrow_below, surface_alone
from figures.place.placing import Words, enlarged, in_area, way_of
from figures.place.room import Picture, Room, in_room
from figures.wood.scene import points_of
from figures.wood.unfolded import broken, stick
from layout.answer.answer import Answer
from layout.answer.sense_words import KIND, start_words, wide_words
from layout.answer.senses import is_notch, one_way
from layout.answer.wording import sentence
from layout.tools.saw import SawKind
from layout.vector import Array

SHOE_LONG_IN, MOTOR_LONG_IN, MOTOR_FROM_IN, MOTOR_TO_IN = 7.0, 3.0, 0.8, 3.6
"""Shoe and motor seen from above: along the line, and the motor's reach from it [in]."""
LEAST_BEARING_IN = 2.0
"""Less wood than this under the wide side of the shoe lets the saw tip [in]."""
ARROW_IN, HEAD_IN, HALF_IN = 0.5, 0.17, 0.075
"""The arrow where a saw starts: length, head, half the head's width [in on paper]."""
BESIDE_IN = 0.55
"""White between the section and the board from above [in on paper]."""
_FAR_IN = 100.0


@dataclass(frozen=True)
class StartWords:
    """An arrow on the paper: the saws that start there, the line's end and the way they go."""

    kinds: tuple[SawKind, ...]
    spot: Array
    way: Array


def setting(answer: Answer, room: Room) -> Drawing:
    """The saw set for the cut, from (0, 0) to the room's width and height [in on paper].

    Both faces where both have a line, one over the other, the steadier first: there the wide
    side of the shoe rides on the kept wood. The ways of both kinds of saw that tilt one way are
    drawn, or that of the saw in the answer's limits. Gids begin with the surface
    (`right-face.`), then `section.` or `above.`, then `saw-cut`, `blade-below`, `shoe`, `motor`,
    `face-mark`, `face-waste`, `shoe-outline`, `start-blade-right`, `start-blade-left`,
    `to-head`. Raises SheetError for a room that is too small.
    """
    shoes = face_shoes(answer, stick(answer, kept_in=5.0, waste_in=3.0))
    width, height = room
    high = height / len(shoes)
    drawing = Drawing()
    for i, shoe in enumerate(shoes):
        part = setting_on(answer, shoe, (width, high - (0.1 if len(shoes) > 1 else 0.0)))
        drawing += part.moved(0.0, height - high * (i + 1))
    return drawing


def setting_on(answer: Answer, shoe: Shoe, room: Room) -> Drawing:
    """The saw set with its shoe on one surface, from (0, 0) to the room [in on paper]."""
    steady = ", the steadier way" if shoe.wide_on == "kept" and tilted(shoe) else ""
    heading = f"Shoe on the {shoe.surface}{steady}"
    notes = [*saw_notes(answer, shoe), *travel_notes(answer, shoe), hand_note(answer)]
    drawn = in_room(heading, notes, room, lambda factor: _both(answer, shoe, factor))
    own = ("heading", "notes", "scale")
    return replace(
        drawn,
        labels=tuple(
            replace(label, gid=f"{_side(shoe)}.{label.gid}") if label.gid in own else label
            for label in drawn.labels
        ),
    )


def tilted(shoe: Shoe) -> bool:
    """Whether the blade leans at all."""
    return not shoe.sense.square


def travel_notes(answer: Answer, shoe: Shoe) -> list[str]:
    """Where the wide side rides and where each kind of saw starts, in one or two sentences."""
    kind = answer.limits.kind
    said = [
        words for words in (wide_words(shoe.sense, kind), start_words(shoe.sense, kind)) if words
    ]
    notes = [sentence("; ".join(said))]
    if shoe.bearing_in < LEAST_BEARING_IN:
        notes.append("The wide side finds little wood: clamp a board flush beside it to carry it.")
    if is_notch(answer):
        notes.append("Stop short of the inside corner and finish with a handsaw.")
    elif tilted(shoe):
        notes.append("Look at your own saw, unplugged, to see which way its blade tilts.")
    return notes


def starts(answer: Answer, shoe: Shoe) -> tuple[StartWords, ...]:
    """Where each saw starts and the way it goes, on the paper of the surface.

    A saw that may start at either end has an arrow at both; no saw starts in an inside corner.
    """
    found = []
    for end, other in ((shoe.start, shoe.end), (shoe.end, shoe.start)):
        if not answer.is_rip and shoe.side_at(end) == "inside corner":
            continue
        here = tuple(
            kind for kind in one_way(answer) if (start := shoe.starts(kind)) is None or start is end
        )
        if here:
            spot, far = shoe.flat.seen(end), shoe.flat.seen(other)
            found.append(StartWords(here, spot, (far - spot) / np.hypot(*(far - spot))))
    return tuple(found)


def _both(answer: Answer, shoe: Shoe, factor: float) -> Picture:
    section = _named(saw_picture(shoe, factor), shoe, "section")
    above = board_from_above(answer, shoe, factor)
    _, low, right, high = section.drawing.bounds(words=False)
    left, bottom, _, top = above.drawing.bounds(words=False)
    return section + above.moved(right + BESIDE_IN - left, (low + high - bottom - top) / 2)


def board_from_above(answer: Answer, shoe: Shoe, factor: float) -> Picture:
    """The surface under the shoe from above, at this factor; gids as those of `setting`."""
    return _named(_above(answer, shoe, factor), shoe, "above")


def _named(picture: Picture, shoe: Shoe, part: str) -> Picture:
    """The picture with every gid under its surface and its part."""
    return picture.under(f"{_side(shoe)}.{part}.")


def _side(shoe: Shoe) -> str:
    return shoe.surface.replace(" ", "-")


def _above(answer: Answer, shoe: Shoe, factor: float) -> Picture:
    """The surface from above, with the shoe on it and the way to go."""
    shown, flat = shoe.shown, shoe.flat
    whole = shown.solid.whole(flat)
    left, low, right, high = whole.bounds
    board = surface_alone(shown, shoe.where)
    marks = Drawing(tuple(stroke for stroke in board.strokes if stroke.pen == "cut"))
    outline, motor = _from_above(shoe)
    bare = Drawing(tuple(s for s in board.strokes if s.pen != "cut"), board.areas)
    paper = bare.without(motor) + Drawing(
        (
            Stroke(points_of(outline.exterior), "phantom", "shoe-outline"),
            Stroke(points_of(motor.exterior), "guide", "motor"),
        ),
        (Area(motor, "steel"),),
    )
    paper = (paper + marks).scaled(factor)
    for u, kept in zip((left, right), shown.ends_kept, strict=True):
        if kept:
            paper += broken((u * factor, low * factor), (u * factor, high * factor))
    words: list[Words] = []
    kept_area = shown.solid.slice(flat)
    covered = outline.buffer(0.05)
    for region, said, bold in (
        (whole.difference(kept_area), "WASTE", True),
        (kept_area, shoe.surface, False),
    ):
        clear = region.difference(covered)
        words += in_area(said, enlarged(clear if clear.area > 1.0 else region, factor), bold=bold)
    words += in_area("motor", enlarged(motor, factor), 8.0)
    edge = flat.seen((shoe.start + shoe.end) / 2 + WIDE_IN * shoe.wide) * factor
    away = way_of((0.0, 0.0), _pair(flat.seen(shoe.start + shoe.wide) - flat.seen(shoe.start)))
    words.append(
        Words("wide side", _pair(edge), 8.5, bold=True, gid="wide-words", always=True, ways=(away,))
    )
    picture = Picture(paper, tuple(words))
    for each in starts(answer, shoe):
        picture += _arrow(each, factor)
    picture += _side_names(shoe, whole, motor, factor)
    return arrow_below(picture, shown, factor)


def _from_above(shoe: Shoe) -> tuple[Polygon, Polygon]:
    """The outlines of the shoe and the motor on the surface [in of wood]."""
    flat = shoe.flat
    middle = flat.seen((shoe.start + shoe.end) / 2)
    along = flat.seen(shoe.end) - flat.seen(shoe.start)
    along = along / np.hypot(*along)
    wide = np.array([float(shoe.wide @ flat.u), float(shoe.wide @ flat.v)])

    def block(long: float, near: float, far: float) -> Polygon:
        ends = [
            middle + side * long / 2 * along + reach * wide
            for side in (-1.0, 1.0)
            for reach in (near, far)
        ]
        return shapely.MultiPoint(ends).convex_hull

    return block(SHOE_LONG_IN, -NARROW_IN, WIDE_IN), block(
        MOTOR_LONG_IN, MOTOR_FROM_IN, MOTOR_TO_IN
    )


def _arrow(start: StartWords, factor: float) -> Picture:
    """An arrow that runs up to the line's end, the way the saw goes in."""
    way, across = start.way, np.array([-start.way[1], start.way[0]])
    tip = start.spot * factor - 0.03 * way
    tail, neck = tip - ARROW_IN * way, tip - HEAD_IN * way
    thin = 0.016
    shape = shapely.Polygon(
        [
            tail + thin * across,
            neck + thin * across,
            neck + HALF_IN * across,
            tip,
            neck - HALF_IN * across,
            neck - thin * across,
            tail - thin * across,
        ]
    )
    gid = "start-" + "-and-".join(start.kinds)
    said = "\n".join(KIND[kind] for kind in start.kinds) + "\nstarts here"
    words = Words(said, _pair(tail), 8.5, bold=True, gid=f"{gid}-words", leader=False)
    return Picture(Drawing(areas=(Area(shape, "ink", gid),)), (words,))


def _side_names(shoe: Shoe, whole: Polygon, motor: Polygon, factor: float) -> Picture:
    """The names of the sides of the surface, beside it and not on the motor, which has none."""
    left, low, right, high = (side * factor for side in whole.bounds)
    start = left + 0.12 if shoe.shown.to_kept <= 0 else right - 0.12
    along = [start, *np.linspace(left, right, 9)[1:-1].tolist()]
    steel = enlarged(motor, factor)
    names = []
    for name, level, out in zip(shoe.sides, (low, high), (-1.0, 1.0), strict=True):
        # Close to its own side of the board wherever that is free: it says where a cut starts.
        va: Literal["top", "bottom"] = "top" if out < 0 else "bottom"
        beside = [
            Label(name, u, level + gap * out, 8.0, "center", va)
            for gap in (0.07, 0.2)
            for u in along
        ]
        near = tuple(one for one in beside if not shapely.intersects(label_box(one), steel))
        # Elsewhere an arrow leads to it, from its own side: over the other edge it names that one.
        low_in, high_in = sorted((level, level - out * _FAR_IN))
        beyond = shapely.box(-_FAR_IN, low_in, _FAR_IN, high_in)
        off = shapely.union(beyond, steel)
        names.append(Words(name, (start, level), 8.0, first=near, ways=(90.0 * out,), off=off))
    return Picture(Drawing(), tuple(names))


def _pair(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
