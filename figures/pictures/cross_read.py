"""One sawn scrap read twice: with the square along its edge, with a sliding bevel across its end.

At the left the top edge of the scrap with the square laid on the sawn line: it reads the side-cut
number. At the right, larger, the scrap seen along its face mark with a sliding bevel square to that
mark: from square it reads the tilt. Both are in the one cut.
"""

from dataclasses import dataclass
from math import cos, hypot, radians, sin

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.ink.pens import Point
from figures.ink.scale import Scale
from figures.pictures.along import seen_from_above
from figures.pictures.captions import hand_note
from figures.pictures.framing_square import Laid, laid, square_lines
from figures.pictures.saw_front import SawSection
from figures.place.dimension import angle_dimension
from figures.place.placing import Words, enlarged, from_labels, in_area, way_of
from figures.place.room import Picture, Room, in_room
from figures.wood.unfolded import UnfoldedStick, broken, mark_ends, stick
from layout.answer.answer import Answer
from layout.answer.wording import number_words, on_run
from layout.errors import SheetError
from layout.quantity import write_degrees
from layout.vector import Array

APART_IN = 0.9
LARGER = {4: 2, 5: 2, 6: 2, 8: 3, 10: 4, 12: 4, 16: 5, 20: 6}
"""The scale of the bevel, 1 to so many, by that of the square."""
SCALES = tuple(Scale(1 / small, f"1 : {small}, bevel 1 : {LARGER[small]}") for small in LARGER)
BODY_IN = 2.6
"""How much of the scrap is drawn behind its cut beside the bevel [in of wood]."""
STOCK_IN, STOCK_WIDE_IN, BLADE_WIDE_IN, BLADE_PAST_IN = 2.0, 0.4, 0.12, 0.3
"""The bevel's stock along the face, its width, its blade's width and reach past the cut [in]."""


def cross_read(answer: Answer, room: Room) -> Drawing:
    """The scrap read both ways, from (0, 0) to the room's width and height [in on paper].

    Gids: `sawn-edge`, `mark-number` and `other-number` at the square, `bevel-stock`,
    `bevel-blade`, `sawn-end` and `tilt` at the bevel. Raises SheetError for a cut without a
    slant through its thickness, and for a room that is too small.
    """
    numbers = answer.edge.numbers
    if answer.is_rip or numbers is None or numbers.as_read().mark == 0:
        raise SheetError("a cut square through the thickness has no tilt to cross-read")
    tilt = write_degrees(float(answer.cut.face_tilt_deg))
    reads = on_run(float(answer.cut.edge_number), metric=answer.metric)
    notes = [
        f"The square reads {reads} on the edge. The bevel lies {tilt} from square: the tilt.",
        hand_note(answer),
    ]
    shown = stick(answer, kept_in=hypot(numbers.mark, numbers.other) + 2.5)
    square = laid(shown, "edge", numbers)
    near = stick(answer, kept_in=4.0)

    def draw(factor: float) -> Picture:
        left = _titled(_edge(shown, square, factor, answer.metric), "the square on the edge")
        large = 1 / LARGER[round(1 / factor)]
        right = _titled(_bevel(answer, near, large), "seen along the face mark")
        _, low, x1, high = left.drawing.bounds(words=False)
        x2, bottom, _, top = right.drawing.bounds(words=False)
        return left + right.moved(x1 + APART_IN - x2, (low + high - bottom - top) / 2)

    return in_room("One scrap, cross-read", notes, room, draw, scales=SCALES)


def _titled(picture: Picture, said: str) -> Picture:
    left, low, right, _ = picture.drawing.bounds(words=False)
    words = Words(said, ((left + right) / 2, low), 9.0, bold=True, ways=(-90.0,), leader=False)
    return Picture(picture.drawing, (*picture.words, words))


def _edge(shown: UnfoldedStick, square: Laid, factor: float, metric: bool) -> Picture:
    """The scrap's edge, sawn, with the square on it: one arm along the sawn line."""
    flat = shown.flat("edge")
    kept = shown.solid.slice(flat)
    ends = mark_ends(shown, flat, shown.plane_index)
    assert ends is not None
    left, low, right, high = kept.bounds
    broken_at = [u for u, is_kept in zip((left, right), shown.ends_kept, strict=True) if is_kept]
    open_ends = [shapely.LineString([(u, low - 1), (u, high + 1)]).buffer(1e-7) for u in broken_at]
    outline = shapely.difference(shapely.boundary(kept), shapely.union_all(open_ends))
    drawing = Drawing((Stroke(ends, "cut", "sawn-edge"),))
    for pen, part in (
        ("visible", shapely.difference(outline, square.shape)),
        ("hidden", shapely.intersection(outline, square.shape.buffer(-1e-6))),
    ):
        drawing += Drawing(
            tuple(
                Stroke(tuple(line.coords), pen, "scrap")
                for line in shapely.get_parts(part)
                if line.geom_type == "LineString" and line.length > 1e-6
            )
        )
    drawing = Drawing(areas=(Area(square.shape, "steel", "square"),)) + drawing
    paper = drawing.scaled(factor) + square_lines(square, factor)
    for u in broken_at:
        paper += broken((u * factor, low * factor), (u * factor, high * factor))
    way = way_of(_pair(square.other_spot), _pair(square.mark_spot))
    words = [
        Words(
            f"{number_words(number, metric=metric)} on the {arm}",
            _pair(spot * factor),
            10.0,
            bold=True,
            always=True,
            ways=(turn,),
            off=enlarged(square.shape, factor),
        )
        for number, arm, spot, turn in (
            (square.mark_in, square.mark_arm, square.mark_spot, way),
            (square.other_in, square.other_arm, square.other_spot, way + 180.0),
        )
    ]
    middle = _pair((np.array(ends[0]) + 2 * np.array(ends[1])) / 3 * factor)
    words.append(Words("sawn edge", middle, 8.5, always=True))
    wood = enlarged(shapely.difference(kept, square.shape), factor)
    words += in_area(shown.name("edge"), wood)
    return Picture(paper, tuple(words))


def _bevel(answer: Answer, shown: UnfoldedStick, factor: float) -> Picture:
    """The scrap seen along its face mark, the bevel's stock on the face with the long point."""
    section = seen_from_above(answer, shown)
    way = 1.0 if section.kept.centroid.x > section.whole.centroid.x else -1.0
    point, inner = _ends(section, way)
    low, high = section.kept.bounds[1], section.kept.bounds[3]
    left, right = sorted((float(point[0]) - way * 0.2, float(inner[0]) + way * BODY_IN))
    window = shapely.box(left, low - 1.0, right, high + 1.0)
    kept = shapely.intersection(section.kept, window)
    along_face = np.array([way, 0.0])
    out = np.array([0.0, -1.0 if point[1] < inner[1] else 1.0])
    cut = (inner - point) / np.hypot(*(inner - point))
    off = np.array([-cut[1], cut[0]])
    if float(off @ along_face) > 0:
        off = -off
    bevel_stock = _bar(point, point + STOCK_IN * along_face, STOCK_WIDE_IN * out)
    long = float(np.hypot(*(inner - point)))
    bevel_blade = _bar(point, point + (long + BLADE_PAST_IN) * cut, BLADE_WIDE_IN * off)
    far = right if way > 0 else left
    edge = shapely.LineString([(far, low - 1), (far, high + 1)]).buffer(1e-7)
    outline = shapely.line_merge(shapely.difference(shapely.boundary(kept), edge))
    drawing = Drawing(
        (
            *(
                Stroke(tuple(part.coords), "visible", "section")
                for part in shapely.get_parts(outline)
            ),
            Stroke((_pair(point), _pair(inner)), "cut", "sawn-end"),
            Stroke(_ring(bevel_stock), "guide", "bevel-stock"),
            Stroke(_ring(bevel_blade), "guide", "bevel-blade"),
        ),
        (Area(bevel_stock, "steel"), Area(bevel_blade, "steel")),
    ).scaled(factor)
    drawing += broken((far * factor, low * factor), (far * factor, high * factor))
    words = (
        *in_area("scrap", enlarged(kept, factor), 8.5),
        *in_area("bevel's stock", enlarged(bevel_stock, factor), 8.5),
        Words(
            "bevel's blade",
            _pair((point + 0.75 * long * cut + BLADE_WIDE_IN * off) * factor),
            8.5,
            always=True,
            off=enlarged(kept, factor),
        ),
    )
    picture = Picture(drawing, words)
    turn = Turn(point * factor, -out, cut, (long + BLADE_PAST_IN) * factor + 0.12)
    return picture + _tilt(turn, f"tilt {write_degrees(float(answer.cut.face_tilt_deg))}")


@dataclass(frozen=True)
class Turn:
    """An angle at a spot, from the way square across the scrap to the way along its cut, on an
    arc of a radius [in on paper]."""

    spot: Array
    square: Array
    cut: Array
    radius_in: float


def _tilt(turn: Turn, said: str) -> Picture:
    begin, end = (way_of((0.0, 0.0), _pair(way)) for way in (turn.square, turn.cut))
    sweep = (end - begin + 180.0) % 360.0 - 180.0
    spot, radius = turn.spot, turn.radius_in
    arc = angle_dimension(_pair(spot), radius, begin, begin + sweep, said, 10.0, "tilt")
    middle = radians(begin + sweep / 2)
    at = (float(spot[0] + radius * cos(middle)), float(spot[1] + radius * sin(middle)))
    lines, words = from_labels(arc, at, ways=(begin + sweep / 2,))
    square = Stroke((_pair(spot), _pair(spot + (radius + 0.1) * turn.square)), "centre", "square")
    along = Stroke(
        (_pair(spot + (radius - 0.1) * turn.cut), _pair(spot + (radius + 0.1) * turn.cut)),
        "dimension",
        "along-cut",
    )
    return Picture(lines + Drawing((square, along)), words)


def _ends(section: SawSection, way: float) -> tuple[Array, Array]:
    """Both ends of the sawn line, the long point first; `way` is +1 with the wood at the right."""
    line = shapely.intersection(section.kept, shapely.difference(section.whole, section.kept))
    ends = [np.array(end) for part in shapely.get_parts(line) for end in part.coords]
    point, *_, inner = sorted(ends, key=lambda end: way * float(end[0]))
    return point, inner


def _bar(start: Array, end: Array, wide: Array) -> Polygon:
    return shapely.MultiPoint([start, end, end + wide, start + wide]).convex_hull


def _ring(bar: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in bar.exterior.coords)


def _pair(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
