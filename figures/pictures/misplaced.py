"""A right cut in the wrong place: the end of the stick before its mate, or inside it.

The view is square to the top edge, where lengths along the board are true. The cut lies
parallel to its mate's side, so the way between them is the same everywhere.
"""

from itertools import pairwise
from typing import Any

import numpy as np
import shapely
import shapely.affinity

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.place.dimension import dimension
from figures.place.placing import from_labels, in_area
from figures.place.room import Picture, Room, in_room
from figures.wood.drawn_solid import kept_behind
from figures.wood.mate import mate_words, the_mate
from figures.wood.unfolded import broken
from layout.answer.answer import Answer
from layout.answer.wording import size_words
from layout.vector import Array

BODY_IN = 2.5
"""How much of the stick is shown behind its cut [in of wood]."""
BESIDE_IN = 0.6
"""How far the mate is shown beside the stick [in of wood]."""
FINEST_IN = 1 / 16
"""Lengths along the board are said to the sixteenth from this on, as in the text [in of wood]."""
_FAR_IN = 1e3


def misplaced_before_mate(answer: Answer, moved_in: float, room: Room) -> Drawing:
    """The cut moved along the board against its mate, from (0, 0) to the room [in].

    Plus is too long. Gids: `made-cut`, `mate-face`, `missed` for the wood that is too much or
    missing, `moved-value` on the dimension of the way along the board. Raises SheetError for a
    room that is too small.
    """
    mate = mate_words(answer.plane.mate_name)
    square = size_words(abs(float(answer.cut.normal[0]) * moved_in), 64, metric=answer.metric)
    along = _along_words(moved_in, metric=answer.metric)
    way = "long" if moved_in > 0 else "short"
    notes = [
        f"Seen square to the top edge: {along} along the board is true here.",
        f"Square to the side of {the_mate(answer.plane.mate_name)} that is {square}.",
    ]
    heading = f"The cut is right, the length is not: {along} too {way}"
    return in_room(heading, notes, room, lambda factor: _picture(answer, moved_in, mate, factor))


def _along_words(moved_in: float, *, metric: bool) -> str:
    """A length along the board as the lessons say it: to the sixteenth, finer where it is less."""
    size = abs(moved_in)
    return size_words(size, 16 if size >= FINEST_IN else 64, metric=metric)


def _picture(answer: Answer, moved_in: float, mate: str, factor: float) -> Picture:
    toward = 1.0 if answer.cut.normal[0] > 0 else -1.0
    thickness, depth = answer.question.stock.thickness_in, answer.question.stock.depth_in
    right = _end(answer, depth)
    made = shapely.affinity.translate(right, toward * moved_in)
    ends = right.union(made).intersection(shapely.box(-_FAR_IN / 2, 0, _FAR_IN / 2, thickness))
    line = _mate_line(answer, depth)
    # Behind its end where that falls short: without board there is nothing that is too short.
    xs = [*(x for x, _ in line.coords), *(_at_face(made, y, toward) for y in (0.0, thickness))]
    back = (min(xs) if toward > 0 else max(xs)) - toward * BODY_IN
    low, high = sorted((back, back + toward * _FAR_IN))
    window = shapely.box(low, -_FAR_IN, high, _FAR_IN)
    body = made.intersection(window)
    missed = right.symmetric_difference(made).intersection(window)
    strip = _mate_strip(answer, line, toward)
    drawing = Drawing(
        (
            *_outline(body, back),
            Stroke(tuple(line.coords), "visible", "mate-face"),
            Stroke(tuple((x + toward * _mate_wide(answer), y) for x, y in line.coords), "visible"),
        ),
        (
            Area(shapely.difference(strip, ends.buffer(1e-9)), "section", "mate"),
            *(
                Area(part, "gap", "missed")
                for part in shapely.get_parts(missed)
                if part.geom_type == "Polygon" and part.area > 0
            ),
        ),
    ).scaled(factor)
    drawing += broken((back * factor, 0.0), (back * factor, thickness * factor), 0.05)
    picture = Picture(drawing)
    start, end = sorted(_at_face(end, thickness, toward) for end in (right, made))
    said = _along_words(moved_in, metric=answer.metric)
    top = thickness * factor
    lines = dimension((start * factor, top), (end * factor, top), said, 0.45, 10.0, "moved-value")
    drawn, words = from_labels(lines, ((start + end) / 2 * factor, top + 0.45), ways=(90.0,))
    return (
        picture
        + Picture(drawn, words)
        + Picture(
            Drawing(),
            (
                *in_area("board", _scaled(body.difference(missed), factor), 9.0, bold=True),
                *in_area(mate, _scaled(strip.difference(ends), factor), 9.0, bold=True),
            ),
        )
    )


def _end(answer: Answer, depth: float) -> Polygon:
    """The stick's end on its top edge, rightly cut: x along the paper, y up to the left face."""
    thickness = answer.question.stock.thickness_in
    whole = shapely.box(-_FAR_IN, 0.0, _FAR_IN, thickness)
    kept = [shapely.intersection(whole, _half(cut.normal, cut.point, depth)) for cut in answer.cuts]
    return kept_behind(kept, answer.question.joint.removals)


def _half(normal: Array, point: Array, depth: float) -> Polygon:
    """The side of a plane on which wood is kept, on the top edge."""
    nx, ny, nz = (float(part) for part in normal)
    level = float(normal @ point) - nz * depth
    size = float(np.hypot(nx, ny))
    across, along = np.array([nx, ny]) / size, np.array([-ny, nx]) / size
    foot = across * level / size
    far = 4 * _FAR_IN
    corners = (foot + far * along, foot - far * along)
    behind = tuple(corner - far * across for corner in corners[::-1])
    return shapely.Polygon([*corners, *behind])


def _mate_line(answer: Answer, depth: float) -> Any:
    """The mate's side on the plane of the top edge, a little beyond both faces it meets."""
    (y0, y1), _ = answer.cut.span
    ys = (
        float(y0) - (BESIDE_IN if y0 <= 1e-9 else 0.0),
        float(y1) + (BESIDE_IN if y1 >= answer.question.stock.thickness_in - 1e-9 else 0.0),
    )
    return shapely.LineString([(float(answer.cut.x_at(y, depth)), y) for y in ys])


def _mate_strip(answer: Answer, line: Any, toward: float) -> Polygon:
    """The mate, as thick as the stick, cut by the plane of the top edge."""
    wide = toward * _mate_wide(answer)
    points = list(line.coords)
    return shapely.Polygon([*points, *((x + wide, y) for x, y in points[::-1])])


def _mate_wide(answer: Answer) -> float:
    """The mate's thickness, that of the stick, measured along the stick [in of wood]."""
    return answer.question.stock.thickness_in / abs(float(answer.cut.normal[0]))


def _outline(body: Polygon, back: float) -> tuple[Stroke, ...]:
    """The stick's sides, and the cut as the heaviest line."""
    strokes = []
    coords = list(shapely.geometry.polygon.orient(body).exterior.coords)
    for (x0, y0), (x1, y1) in pairwise(coords):
        if abs(x0 - back) < 1e-6 and abs(x1 - back) < 1e-6:
            continue
        side = abs(y0 - y1) < 1e-9
        pen, gid = ("visible", "stick") if side else ("cut", "made-cut")
        strokes.append(Stroke(((x0, y0), (x1, y1)), pen, gid))
    return tuple(strokes)


def _at_face(end: Polygon, across: float, toward: float) -> float:
    """Where the end of the stick crosses a level line of the picture, so high on it."""
    line = end.intersection(shapely.LineString([(-_FAR_IN, across), (_FAR_IN, across)]))
    left, _, right, _ = line.bounds
    return float(right if toward > 0 else left)


def _scaled(region: Polygon, factor: float) -> Polygon:
    return shapely.affinity.scale(region, factor, factor, origin=(0, 0))
