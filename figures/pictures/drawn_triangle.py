"""The drawing on a board that finds the edge mark without a table: a right triangle, laid flat.

For a rafter one leg is its own length for a run of 12, the other what the joint goes across from
above; for a jack the two are the common and the eave of the unfolded roof plane. For a board
that lies along the eave the long leg is the eave. The slanted side is the edge mark.
"""

from math import atan2, degrees

import numpy as np

from figures.ink.drawing import Drawing, Stroke
from figures.ink.pens import Point
from figures.place.dimension import angle_dimension, dimension
from figures.place.placing import Words, from_labels
from figures.place.room import Picture, Room, in_room
from figures.wood.mate import mate_words, the_mate
from layout.answer.answer import Answer
from layout.answer.wording import number_words
from layout.length.run_length import UNIT_RUN_IN, common_per_run
from layout.quantity import write_degrees
from layout.vector import sin_cos

LEVEL_DEG = 1e-6
MITERED = 1e-9
RIGHT_IN = 0.6
"""Side of the little square that marks the right angle [in of the drawing]."""


def edge_triangle(answer: Answer, room: Room) -> Drawing:
    """The triangle on the board, from (0, 0) to the room's width and height [in on paper].

    Gids: `eave`, `length`, `edge-mark` for its sides, `read` for the line on which the square is
    read, `read-value` for what it reads. Raises SheetError for a room that is too small.
    """
    number = float(answer.cut.edge_number)
    level = abs(answer.stick_slope_deg) < LEVEL_DEG
    if level:
        up = UNIT_RUN_IN * float(common_per_run(answer.question.corner))
        along, across = up * UNIT_RUN_IN / number, up
    else:
        run = UNIT_RUN_IN * float(answer.question.joint.unit_run)
        along = run / float(sin_cos(answer.stick_slope_deg)[1])
        across = number * along / UNIT_RUN_IN
    what = _names(answer, level)
    heading = f"Drawn on a board: the {what[2]} is the edge mark"
    twelve = number_words(UNIT_RUN_IN, metric=answer.metric)
    reads = number_words(number, metric=answer.metric)
    notes = [
        f"{twelve} along the {what[1]} the {what[2]} is {reads} off it:"
        f" the side-cut number is {reads} on {twelve}.",
    ]
    return in_room(
        heading,
        notes,
        room,
        lambda factor: _picture(answer, (along, across, number), what, level, factor),
    )


def _names(answer: Answer, level: bool) -> tuple[str, str, str]:
    """What the leg across, the leg along and the slanted side are in the roof."""
    mate = mate_words(answer.plane.mate_name)
    side = "miter" if _mitered(answer) else f"side of {the_mate(answer.plane.mate_name)}"
    family = answer.question.entry.family
    if level:
        return "common", "eave", side
    if family == "jack":
        return "ridge" if _hangs(answer, level) else "eave", "common", mate
    return "seen from above", "rafter's length", side


def _mitered(answer: Answer) -> bool:
    """Whether the cut lies on no side of its mate, which carries the mirror image of it."""
    normal = answer.question.joint.pose.to_world(answer.cut.normal)
    return float(np.abs(answer.plane.mate.axes @ normal).max()) < 1.0 - MITERED


def _hangs(answer: Answer, level: bool) -> bool:
    """Whether the triangle hangs from the ridge: between the eave and a valley no jack stands."""
    inside = answer.question.corner_deg > 180.0
    return inside and not level and answer.question.entry.family == "jack"


def _picture(
    answer: Answer,
    sizes: tuple[float, float, float],
    what: tuple[str, str, str],
    level: bool,
    factor: float,
) -> Picture:
    along, across, number = (size * factor for size in sizes)
    said = tuple(number_words(size, metric=answer.metric) for size in sizes)
    twelve = number_words(UNIT_RUN_IN, metric=answer.metric)
    step = UNIT_RUN_IN * factor
    # The right angle stands at the lower right and the slanted side runs up from the lower left.
    # From a ridge the triangle hangs: the same one with its upper side down.
    hangs = _hangs(answer, level)
    way = -1.0 if hangs else 1.0
    wide, tall = (along, across) if level else (across, along)
    high = way * tall
    corner, foot, head = (0.0, 0.0), (wide, 0.0), (wide, high)
    small = RIGHT_IN * factor
    strokes = [
        Stroke((corner, foot), "visible", "length" if level else "eave"),
        Stroke((foot, head), "visible", "eave" if level else "length"),
        Stroke((corner, head), "cut", "edge-mark"),
        Stroke(((wide - small, 0.0), (wide - small, way * small), (wide, way * small)), "guide"),
    ]
    if level:
        at, off = (step, 0.0), (step, number)
        base, steep = (said[0], what[1]), (said[1], what[0])
    else:
        at, off = (wide, high - way * step), (wide - number, high - way * step)
        base, steep = (said[1], what[0]), (said[0], what[1])
    strokes.append(Stroke((at, off), "guide", "read"))
    picture = Picture(Drawing(tuple(strokes)))
    lines = dimension(corner, foot, f"{base[0]} ({base[1]})", -0.4 * way, 9.0)
    lines += dimension(foot, head, f"{steep[0]} ({steep[1]})", -0.75 * way, 9.0)
    if not level and step < tall * 0.98:
        lines += dimension(at, head, twelve, -0.35 * way, 9.0)
    elif level and step < wide * 0.98:
        lines += dimension(corner, at, twelve, -0.15, 9.0)
    drawn, words = from_labels(lines)
    picture += Picture(drawn, words)
    reading = Words(
        said[2], _middle(at, off), 10.0, bold=True, gid="read-value", ways=(90.0, -90.0)
    )
    turn = degrees(atan2(tall, wide))
    apex, start, end = (corner, 0.0, turn) if level else (head, 180.0 + turn, 270.0)
    arc = angle_dimension(
        apex,
        min(0.55 * min(wide, tall), 0.9),
        way * start,
        way * end,
        write_degrees(answer.edge.bevel_deg),
        9.0,
    )
    drawn, words = from_labels(arc)
    slanted = Words(what[2], _middle(corner, head), 9.0, ways=(way * (turn + 90.0),), optional=True)
    named = (*words, reading, slanted)
    if not (level or hangs) and answer.question.entry.family == "jack":
        named = (*named, Words("corner", corner, 9.0, ways=(-90.0, 180.0), leader=False))
    return picture + Picture(drawn, named)


def _middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
