"""A jack or a hip at what it meets, seen from above: from the center line back to the side.

Lengths are figured to the mate's center line, the wood stops at its side. Along the center of the
stick the two lie apart by the shortening, measured level; the slanted way through half the mate is
longer than the straight one.
"""

from math import cos, radians, sin

import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.ink.pens import Point
from figures.pictures.captions import hand_note
from figures.place.dimension import dimension
from figures.place.placing import Words, from_labels
from figures.place.room import Picture, Room, in_room
from figures.wood.mate import mate_words
from figures.wood.unfolded import broken
from layout.answer.answer import Answer
from layout.answer.wording import size_words
from layout.errors import SheetError

BODY_IN = 3.2
"""How much of the stick is drawn behind its cut [in of wood]."""
MATE_LONG_IN = 4.0
"""How much of the mate is drawn [in of wood]."""


def to_center_line(answer: Answer, room: Room) -> Drawing:
    """The stick at its mate in plan, from (0, 0) to the room's width and height [in on paper].

    The mate is as thick as the stick; the head lies to the right. Gids: `center-line` of the mate,
    `stick-center`, `cut-line`, `level-value` on the shortening. Raises SheetError for a cut
    without a plumb cheek at its head, and for a room that is too small.
    """
    nx, ny, _ = (float(part) for part in answer.cut.normal)
    if answer.is_rip or abs(ny) < 1e-6 or nx <= 0:
        raise SheetError("a shortening is drawn for a head that meets its mate on a slant")
    thickness = answer.question.stock.thickness_in
    plan_deg = 90.0 - float(answer.cut.face_tilt_deg)
    level = thickness / 2 / sin(radians(plan_deg))
    said = size_words(level, 16, metric=answer.metric)
    mate = mate_words(answer.plane.mate_name)
    notes = [
        f"The figured length ends on the center line of the {mate}, the wood at its side:"
        f" {said} before it, measured level along the center of the board.",
        hand_note(answer),
    ]
    way = 1.0 if ny > 0 else -1.0
    return in_room(
        f"From the center line of the {mate} back to its side",
        notes,
        room,
        lambda factor: _picture(plan_deg, way, thickness, (said, mate), factor),
    )


def _picture(
    plan_deg: float, way: float, thickness: float, said: tuple[str, str], factor: float
) -> Picture:
    # Both center lines cross at the origin; a left-hand cheek faces up the paper.
    half = thickness / 2
    c, s = cos(radians(plan_deg)), sin(radians(plan_deg))
    level = half / s

    def at(x: float, y: float) -> Point:
        return x * factor, way * y * factor

    # The mate runs from upper left to lower right before a cheek that faces up and right.
    along, across = (c, -s), (s, c)

    def mate(u: float, v: float) -> Point:
        return at(u * along[0] + v * across[0], u * along[1] + v * across[1])

    def side(y: float) -> float:
        return -level - y * c / s

    long = MATE_LONG_IN
    strip = shapely.Polygon(
        [mate(-long, -half), mate(long, -half), mate(long, half), mate(-long, half)]
    )
    back = -level - half * c / s - BODY_IN
    drawing = Drawing(
        (
            Stroke((mate(-long, -half), mate(long, -half)), "visible", "mate"),
            Stroke((mate(-long, half), mate(long, half)), "visible", "mate"),
            Stroke((mate(-long, 0.0), mate(long, 0.0)), "centre", "center-line"),
            Stroke((at(back, half), at(side(half), half)), "visible", "stick"),
            Stroke((at(back, -half), at(side(-half), -half)), "visible", "stick"),
            Stroke((at(side(half), half), at(side(-half), -half)), "cut", "cut-line"),
            Stroke((at(back, 0.0), at(0.0, 0.0)), "centre", "stick-center"),
        ),
        (Area(strip, "wood"),),
    )
    drawing += broken(at(back, half), at(back, -half))
    picture = Picture(drawing)
    reach = long * s * factor + 0.22
    lines, words = from_labels(
        dimension(at(-level, 0.0), at(0.0, 0.0), said[0], way * -reach, 10.0, "level-value"),
        ways=(180.0,),
    )
    picture += Picture(lines, words)
    names = (
        Words(said[1], mate(-0.8 * long, 0.0), 9.0, bold=True, ways=(0.0,), always=True),
        Words(
            f"center line of the {said[1]}", mate(-0.55 * long, 0.0), 8.5, ways=(0.0,), always=True
        ),
        Words(
            "this board",
            at(back + 0.8, 0.3 * half),
            8.5,
            bold=True,
            ways=(120.0 * way,),
            always=True,
        ),
        Words(
            "cut here",
            at(side(0.5 * half), 0.5 * half),
            8.5,
            bold=True,
            ways=(100.0 * way,),
            always=True,
        ),
    )
    return picture + Picture(Drawing(), names)
