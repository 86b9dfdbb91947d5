"""The framing square laid on the face or the edge, its two numbers on the arris.

The square is drawn true: blade 24 x 2, tongue 16 x 1 1/2, broken off where no more is needed.
It is laid from the side on which there is wood to hold it, with the heel over the board or off
it, so that the arm to mark along reaches right across. A bevel along the board is gauged.
"""

from dataclasses import dataclass, replace
from itertools import product
from typing import Literal

import numpy as np
import shapely

from figures.dimension import dimension
from figures.drawing import Area, Drawing, Polygon, Stroke
from figures.pens import Point
from figures.placing import Words, from_labels, in_area
from figures.room import Picture, Room, in_room
from figures.solid import Flat
from figures.stick import Stick, broken, mark_ends, stick, surface
from figures.telling import hand_note, mark_note, numbers_note
from figures.views import enlarged, way_to_head
from layout.answer import Answer, Mark
from layout.quantity import write_fraction, write_sixteenths
from layout.setting import RipByHand
from layout.square import BLADE_IN, TONGUE_IN, Arm, Numbers
from layout.vector import Array

Where = Literal["face", "edge"]
LENGTH_IN = {"blade": BLADE_IN, "tongue": TONGUE_IN}
WIDTH_IN = {"blade": 2.0, "tongue": 1.5}
PAST_IN = 1.7
"""How much of an arm is drawn past its number [in]."""
TICK_IN, HALF_TICK_IN = 0.42, 0.22
"""Length of the graduations at whole and at half inches [in]."""
DOT_IN = 0.035
"""Radius of the dot at a number [in on paper]."""
_SNAP = 1e-6


def square_on_face(answer: Answer, room: Room) -> Drawing:
    """The square laid on the shown face, its numbers on an arris, the arm to mark along heavy.

    From (0, 0) to the room's width and height [in on paper]. Gids: `face-mark`, `square`,
    `mark-number` and `other-number` on the dots at the arris. A bevel shows the gauge (`gauge`).
    """
    return _on(answer, "face", room)


def square_on_edge(answer: Answer, room: Room) -> Drawing:
    """The square laid on the shown edge in the same way; gids as on the face, `edge-mark`."""
    return _on(answer, "edge", room)


@dataclass(frozen=True)
class Laid:
    """A square on a surface [in of wood]: its heel, the ways along both arms, and the numbers.

    `mark_way` runs from the heel along the arm to mark along, `other_way` along the other. Each
    arm lies on the side of its own outer edge to which the other arm points.
    """

    heel: Array
    mark_way: Array
    other_way: Array
    mark_arm: Arm
    mark_in: float
    other_in: float
    mark_shown_in: float
    other_shown_in: float

    @property
    def other_arm(self) -> Arm:
        """The arm that is only held."""
        return "blade" if self.mark_arm == "tongue" else "tongue"

    @property
    def mark_spot(self) -> Array:
        """Where the number on the arm to mark along lies, on the arris (2,) [in]."""
        return self.heel + self.mark_in * self.mark_way

    @property
    def other_spot(self) -> Array:
        """Where the number on the other arm lies, on the arris (2,) [in]."""
        return self.heel + self.other_in * self.other_way

    def arm(self, length_in: float, along: Array, inner: Array, width_in: float) -> Polygon:
        """An arm from the heel: its outer edge along `along`, its body on the side of `inner`."""
        sides = (0 * along, length_in * along, width_in * inner, length_in * along + width_in * inner)
        return shapely.MultiPoint([self.heel + side for side in sides]).convex_hull

    @property
    def shape(self) -> Polygon:
        """The square as far as it is drawn [in]."""
        return shapely.union(
            self.arm(self.mark_shown_in, self.mark_way, self.other_way, WIDTH_IN[self.mark_arm]),
            self.arm(self.other_shown_in, self.other_way, self.mark_way, WIDTH_IN[self.other_arm]),
        )


def laid(shown: Stick, where: Where, numbers: Numbers) -> Laid:
    """The square on a surface of the stick, laid from the side where there is wood to hold it."""
    flat = shown.face_flat if where == "face" else shown.edge_flat
    ends = mark_ends(shown, flat, shown.which)
    assert ends is not None
    near, far = (np.array(end) for end in ends)
    _, low, _, high = shown.solid.whole(flat).bounds
    step = (far - near) / np.hypot(*(far - near))
    across_in = (high - low) / abs(step[1])
    width = float(high - low)
    # The line through both arrises, should the plane only mark a part of the width.
    shared = near
    other = near + step * across_in
    hypotenuse = float(np.hypot(numbers.mark, numbers.other))
    order = ((0, 1), (1, 1), (0, -1), (1, -1)) if where == "face" else tuple(product((0, 1), (1, -1)))
    best: tuple[float, Laid] | None = None
    for far_side, over in order:
        spot, into = (shared, step) if not far_side else (other, -step)
        heel = spot + over * numbers.mark * into
        beside = spot + over * np.sign(into[0]) * np.array([hypotenuse, 0.0])
        # Mark along the arm from the arris: back to the heel, or on past the number.
        reach = numbers.mark if over > 0 else LENGTH_IN[numbers.mark_arm] - numbers.mark
        wrong = max(0.0, across_in - reach) * 10
        if (beside[0] - spot[0]) * shown.to_kept < 0:
            wrong += 5.0
        square = Laid(
            heel,
            -over * into,
            (beside - heel) / numbers.other,
            numbers.mark_arm,
            numbers.mark,
            numbers.other,
            _shown(numbers.mark_arm, numbers.mark + (0.0 if over > 0 else min(across_in, 3 * width))),
            _shown(numbers.other_arm, numbers.other),
        )
        if best is None or wrong < best[0] - _SNAP:
            best = wrong, square
    assert best is not None
    return best[1]


def laid_across(shown: Stick, where: Where) -> Laid:
    """The square for a mark square across: the blade flush with the arris, the tongue across."""
    flat = shown.face_flat if where == "face" else shown.edge_flat
    ends = mark_ends(shown, flat, shown.which)
    assert ends is not None
    near, far = (np.array(end) for end in ends)
    _, low, _, high = shown.solid.whole(flat).bounds
    into = (far - near) / np.hypot(*(far - near))
    along = np.array([shown.to_kept or 1.0, 0.0])
    shown_in = min(TONGUE_IN, high - low + 2.5)
    return Laid(near, into, along, "tongue", 0.0, 0.0, shown_in, 7.0)


def _shown(arm: Arm, needed_in: float) -> float:
    """How much of an arm is drawn: past its number, or all of it where little is left."""
    whole = LENGTH_IN[arm]
    return whole if needed_in + 2 * PAST_IN > whole else needed_in + PAST_IN


def _on(answer: Answer, where: Where, room: Room) -> Drawing:
    mark = answer.face if where == "face" else answer.edge
    plain = stick(answer)
    name = f"{plain.face} face" if where == "face" else f"{plain.edge} edge"
    if answer.is_rip or _along(mark):
        return in_room(
            f"Gauge on the {name}",
            [hand_note(answer)],
            room,
            lambda factor: _gauged(answer, plain, where, factor),
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
        notes = [f"{numbers_note(numbers)}.", mark_note(mark, where.capitalize())]
    if where == "edge":
        notes.append(f"The line starts where the {plain.face} face's mark meets the arris.")
    return in_room(
        f"Square on the {name}",
        [*notes, hand_note(answer)],
        room,
        lambda factor: _laid_on(shown, where, square, factor),
    )


def _along(mark: Mark) -> bool:
    return mark.numbers is not None and mark.numbers.as_read().other == 0


def _trimmed(shown: Stick, square: Laid, where: Where) -> Stick:
    """The stick no longer than the square and the marks on it ask for."""
    reach = [float(spot[0]) for spot in (square.mark_spot, square.other_spot)]
    for flat in (shown.face_flat, shown.edge_flat):
        for which in range(len(shown.cuts)):
            ends = mark_ends(shown, flat, which)
            reach += [end[0] for end in ends or ()]
    left, right = sorted((shown.to_head * shown.foot_in, shown.to_head * shown.head_in))
    kept = shown.ends_kept()
    if kept[0]:
        left = max(left, min(reach) - 2.5)
    if kept[1]:
        right = min(right, max(reach) + 2.5)
    foot, head = sorted((shown.to_head * left, shown.to_head * right))
    return replace(shown, foot_in=foot, head_in=head)


def _laid_on(shown: Stick, where: Where, square: Laid, factor: float) -> Picture:
    board = _solid_lines(surface(shown, where))
    flat = shown.face_flat if where == "face" else shown.edge_flat
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
    under = board.without(square.shape)
    paper = (under + beneath + Drawing(areas=(Area(square.shape, "steel", "square"),))).scaled(factor)
    paper += _square_lines(square, factor)
    paper += Drawing(marks).scaled(factor)
    left, low, right, high = (side * factor for side in shown.solid.whole(flat).bounds)
    for u, kept in zip((left, right), shown.ends_kept(), strict=True):
        if kept:
            paper += broken((u, low), (u, high))
    picture = Picture(paper, tuple(_words(shown, where, square, factor)))
    picture += _surface_name(shown, where, square, factor)
    return _arrow_below(picture, shown, factor)


def _arrow_below(picture: Picture, shown: Stick, factor: float) -> Picture:
    """The picture with an arrow to the head below all that is drawn."""
    arrow = way_to_head(shown, factor)
    bottom = picture.drawing.bounds()[1]
    return picture + arrow.moved(0.0, bottom - 0.2 - arrow.drawing.bounds()[3])


def _solid_lines(drawing: Drawing) -> Drawing:
    """The surface alone: its arris is an edge like any other."""
    strokes = tuple(
        replace(stroke, pen="visible") if stroke.pen == "fold" else stroke
        for stroke in drawing.strokes
    )
    return replace(drawing, strokes=strokes)


def _square_lines(square: Laid, factor: float) -> Drawing:
    """The outline of the square, its graduations, its breaks, and dots at the two numbers."""
    drawing = Drawing()
    ends = []
    ticks = []
    for arm, shown_in, along, inner in (
        (square.mark_arm, square.mark_shown_in, square.mark_way, square.other_way),
        (square.other_arm, square.other_shown_in, square.other_way, square.mark_way),
    ):
        for half in range(1, int(2 * shown_in) + 1):
            # Graduations begin where the other arm's body no longer lies.
            at = square.heel + half / 2 * along
            long = TICK_IN if half % 2 == 0 else HALF_TICK_IN
            ticks.append(Stroke((_point(at), _point(at + long * inner)), "guide", "graduation"))
        end = square.heel + shown_in * along
        whole = shown_in >= LENGTH_IN[arm] - _SNAP
        ends.append((whole, end, end + WIDTH_IN[arm] * inner))
    outline = shapely.boundary(square.shape)
    for whole, p, q in ends:
        if not whole:
            outline = outline.difference(shapely.LineString([p, q]).buffer(1e-7))
            drawing += broken(_point(p * factor), _point(q * factor), 0.04, 0.05)
    lines = shapely.get_parts(shapely.line_merge(outline))
    strokes = tuple(
        Stroke(tuple((float(x), float(y)) for x, y in line.coords), "guide", "square")
        for line in lines
        if line.geom_type in ("LineString", "LinearRing")
    )
    drawing += Drawing((*ticks, *strokes)).scaled(factor)
    dots = (
        Area(shapely.Point(*(spot * factor)).buffer(DOT_IN), "ink", gid)
        for spot, gid in ((square.mark_spot, "mark-number"), (square.other_spot, "other-number"))
        if square.mark_in
    )
    return drawing + Drawing(areas=tuple(dots))


def _words(shown: Stick, where: Where, square: Laid, factor: float) -> list[Words]:
    words = []
    if square.mark_in:
        pairs = (
            (square.mark_in, square.mark_arm, square.mark_spot, "mark-words"),
            (square.other_in, square.other_arm, square.other_spot, "other-words"),
        )
        for number, arm, spot, gid in pairs:
            said = f"{write_sixteenths(number)} on the {arm}"
            words.append(Words(said, _point(spot * factor), 10, bold=True, gid=gid, always=True))
        flat = shown.face_flat if where == "face" else shown.edge_flat
        ends = mark_ends(shown, flat, shown.which)
        assert ends is not None
        middle = (np.array(ends[0]) + 2 * np.array(ends[1])) / 3
        words.append(
            Words(
                f"mark along the {square.mark_arm}",
                _point(middle * factor),
                8.5,
                gid="along-words",
                always=True,
            )
        )
    else:
        tongue = square.heel + 0.6 * min(square.mark_shown_in, 4.0) * square.mark_way
        blade = square.heel + 5.0 * square.other_way
        words.append(Words("mark along the tongue", _point(tongue * factor), 9, always=True))
        words.append(Words("blade flush with the arris", _point(blade * factor), 9, always=True))
    return words


def _surface_name(shown: Stick, where: Where, square: Laid, factor: float) -> Picture:
    """WASTE and the name of the surface, where the square leaves them room."""
    flat = shown.face_flat if where == "face" else shown.edge_flat
    whole, kept = shown.solid.whole(flat), shown.solid.slice(flat)
    bold = (
        (shapely.difference(whole, kept), "WASTE", True),
        (kept, f"{shown.face} face" if where == "face" else f"{shown.edge} edge", False),
    )
    words = [
        each
        for region, said, is_bold in bold
        for each in in_area(
            said, enlarged(shapely.difference(region, square.shape), factor), bold=is_bold
        )
    ]
    return Picture(Drawing(), tuple(words))


def _gauged(answer: Answer, shown: Stick, where: Where, factor: float) -> Picture:
    """A marking gauge run along the arris, its point on the line; or words where there is none."""
    flat: Flat = shown.face_flat if where == "face" else shown.edge_flat
    board = _solid_lines(surface(shown, where)).scaled(factor)
    left, low, right, high = (side * factor for side in shown.solid.whole(flat).bounds)
    for u, kept in zip((left, right), shown.ends_kept(), strict=True):
        if kept:
            board += broken((u, low), (u, high))
    gauges = answer.hand_setting(as_read=False)
    assert isinstance(gauges, RipByHand)
    set_in = gauges.drop_in if where == "face" else gauges.across_in
    arris = shown.arris_v_in * factor
    into = -shown.out if where == "face" else shown.out
    line = arris + into * set_in * factor
    width = high - low
    picture = Picture(board) + _surface_name_plain(shown, where, factor)
    middle = (left + right) / 2
    ends = mark_ends(shown, flat, shown.which)
    on_arris = ends is None or min(abs(ends[0][1] * factor - low), abs(ends[0][1] * factor - high)) < 1e-6
    through = abs(set_in * factor - width) < 1e-6
    if through or (where == "face" and on_arris):
        said = (
            "nothing to gauge here: the bevel runs from arris to arris"
            if through
            else "nothing to gauge here: the bevel starts at the arris"
        )
        words = Words(said, (middle, arris if where == "face" else line), 9, always=True)
        return _arrow_below(picture + Picture(Drawing(), (words,)), shown, factor)
    drawing = Drawing()
    if on_arris:
        drawing += Drawing((Stroke(((left, line), (right, line)), "guide", "gauge-line"),))
    fence = shapely.box(middle - 0.45, min(arris, arris - into * 0.3), middle + 0.45, max(arris, arris - into * 0.3))
    beam = shapely.box(
        middle - 0.09,
        min(arris - into * 0.55, line + into * 0.15),
        middle + 0.09,
        max(arris - into * 0.55, line + into * 0.15),
    )
    tool = shapely.union(fence, beam)
    outline = Stroke(tuple(tool.exterior.coords), "guide", "gauge")
    picture = Picture(picture.drawing.without(tool), picture.words)
    drawing += Drawing(
        (outline, *(s for s in board.strokes if s.pen == "cut")),
        (Area(tool, "steel", "gauge"), Area(shapely.Point(middle, line).buffer(DOT_IN), "ink", "pin")),
    )
    wide = dimension((right - 0.3, arris), (right - 0.3, line), f"{write_fraction(set_in, 32)} in", 0.0, 9.0)
    lines, words = from_labels(wide)
    picture += Picture(drawing) + Picture(lines, words)
    said = f"gauge set to {write_fraction(set_in, 32)} in"
    picture += Picture(Drawing(), (Words(said, (middle, line), 10, bold=True, always=True),))
    return _arrow_below(picture, shown, factor)


def _surface_name_plain(shown: Stick, where: Where, factor: float) -> Picture:
    flat = shown.face_flat if where == "face" else shown.edge_flat
    region = shown.solid.slice(flat)
    if region.area < _SNAP:
        region = shown.solid.whole(flat)
    said = f"{shown.face} face" if where == "face" else f"{shown.edge} edge"
    return Picture(Drawing(), in_area(said, enlarged(region, factor)))


def _point(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
