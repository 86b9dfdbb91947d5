"""A whole stick of a framed roof to scale: side and top view, then both ends drawn larger.

The side view is the right face, head to the right; the top view is folded up from it. Lengths
run along the top edge from the datum: the plumb line over the building line where the stick
stands on a plate, else its foot's point. Dimensions stand outside the views (ISO 129: from
memory), lengths along the board below, lengths of the cuts beside them.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.ink.pens import Point
from figures.ink.scale import Scale
from figures.pictures.saw_setting import HALF_IN, HEAD_IN
from figures.place.dimension import dimension
from figures.place.placing import Words, from_labels
from figures.place.room import STUDY_SCALES, Picture, Room, in_room, third_angle
from figures.wood.framed import Body, in_board
from figures.wood.projection import View, edges
from figures.wood.scene import points_of
from figures.wood.unfolded import broken
from layout.framing.ends import one_cut
from layout.framing.on_face import on_face
from layout.framing.stick import CutPlane, Stick
from layout.framing.summary import length_words as length_sentence
from layout.quantity import write_feet, write_fraction, write_metric
from layout.vector import Array, X, Y, Z

SIDE, TOP = View(X, Z), View(X, Y)
"""The right face from outside, and the top edge from above, head to the right in both."""
APART_IN, ROW_IN, LOW_IN = 0.62, 0.28, 0.3
"""White between side and top view, the row of lengths in it above the side view, and the row of
the whole board's length below [in on paper]."""
END_IN, LEAST_MIDDLE_IN = 4.0, 30.0
"""Board shown past the marks of an end, and the least middle that is left out of the ends."""
LONG_SCALES = (
    *STUDY_SCALES,
    *(Scale(1 / n, f"1 : {n}") for n in (40, 48, 64, 80, 96, 128, 192)),
)
NOTCH = 2
"""Planes that bound a notch or a hollow: with fewer a removal is a plain end or a rip."""
SAME_IN = 1 / 64
_SNAP = 1e-6


@dataclass(frozen=True)
class StickWood:
    """A stick in board axes, and where along it things happen [in]."""

    stick: Stick
    body: Body
    side: Drawing
    top: Drawing
    spots: Array

    @property
    def depth_in(self) -> float:
        """Depth of the board [in]."""
        return self.stick.stock.depth_in

    @property
    def ends(self) -> tuple[float, float]:
        """The outermost points of the wood along the board [in]."""
        return float(self.spots.min()), float(self.spots.max())

    def window(self, at_head: bool) -> tuple[float, float] | None:
        """The part of the board that one end takes; None where there is no long middle."""
        gaps = sorted(set(np.round(self.spots, 6)))
        start, stop = max(pairwise(gaps), key=lambda pair: pair[1] - pair[0])
        if stop - start < LEAST_MIDDLE_IN:
            return None
        low, high = self.ends
        return (stop - END_IN, high) if at_head else (low, start + END_IN)


def whole_stick(stick: Stick, room: Room, *, metric: bool = False, mates: bool = True) -> Drawing:
    """The stick to scale with its lengths, then its foot and head larger, in a room [in on paper].

    From (0, 0) to the room's width and height. Gids: `side`, `top`, with `-hidden` behind what
    wood hides; `datum` on the plumb line over the building line; `crown`. Those of the larger
    ends stand under `foot.` and `head.`. Where it stands for several sticks, `mates` are not named.
    Raises SheetError for a room that is too small.
    """
    wood = _wood(stick)
    width, height = room
    windows = [(name, wood.window(name == "head")) for name in ("foot", "head")]
    ends = [
        (name, window) for name, window in windows if window is not None and not plain_ends(stick)
    ]
    share = 0.46 if ends else 1.0
    whole = in_room(
        f"{stick.name}, {stick.role}: the whole board",
        _notes(stick, metric),
        (width, height * share - 0.1),
        lambda factor: (
            _whole(wood, factor, metric)
            + (
                Picture(Drawing())
                if ends or plain_ends(stick)
                else _at_both_ends(wood, factor, metric)
            )
        ),
        symbol=third_angle(),
        scales=LONG_SCALES,
    )
    drawing = whole.moved(0.0, height * (1 - share) + 0.1)
    if not ends:
        return drawing
    spans = [window[1] - window[0] + 4.0 for _, window in ends]
    x = 0.0
    for (name, window), span in zip(ends, spans, strict=True):
        wide = width * span / sum(spans)
        part = _end(wood, name, window, (wide - 0.15, height * (1 - share)), metric, mates)
        drawing += part.moved(x, 0.0)
        x += wide
    return drawing


def plain_ends(stick: Stick) -> bool:
    """Whether both ends are square and nothing is notched: there is nothing to draw larger."""
    ways = (abs(float(stick.pose.head @ plane.normal)) for plane in stick.planes)
    return all(way > 1 - _SNAP for way in ways)


def _end(
    wood: StickWood, name: str, window: tuple[float, float], room: Room, metric: bool, mates: bool
) -> Drawing:
    made = in_room(
        f"The {name}",
        _cut_notes(wood.stick, name, mates),
        room,
        lambda factor: _closer(wood, name, window, factor, metric).under(f"{name}."),
    )
    own = ("heading", "notes", "scale")
    return Picture(Drawing(labels=tuple(each for each in made.labels if each.gid in own))).under(
        f"{name}."
    ).drawing + Drawing(
        made.strokes, made.areas, tuple(each for each in made.labels if each.gid not in own)
    )


def _wood(stick: Stick) -> StickWood:
    body = in_board(stick)
    spots = np.concatenate([facet.edges().reshape(-1, 3) for facet in body.facets])[:, 0]
    return StickWood(stick, body, _view(body, SIDE, "side"), _view(body, TOP, "top"), spots)


def _view(body: Body, view: View, gid: str) -> Drawing:
    strokes: list[Stroke] = []
    for each in edges(view, body):
        pen = "cut" if each.name.startswith("cut") else "visible"
        for lines, with_pen, name in (
            (each.visible, pen, gid),
            (each.hidden, "hidden", f"{gid}-hidden"),
        ):
            strokes += [
                Stroke(points_of(line), with_pen, name) for line in shapely.get_parts(lines)
            ]
    return Drawing(tuple(strokes))


def length_words(length_in: float, metric: bool) -> str:
    """A length as it stands on the picture."""
    return write_metric(length_in) if metric else write_feet(length_in)


def short_words(length_in: float, metric: bool) -> str:
    """A short length: inches and a fraction, or millimeters."""
    return write_metric(length_in) if metric else f'{write_fraction(length_in)}"'


def _notes(stick: Stick, metric: bool) -> list[str]:
    stock = stick.stock
    return [f"{stock.name}, {stick.role}. {length_sentence(stick, metric=metric)}."]


def _cut_notes(stick: Stick, name: str, mates: bool) -> list[str]:
    """What is cut at an end, each kind once: two cheeks of one cut are told together."""
    kinds: dict[str, list[CutPlane]] = {}
    for plane in stick.planes:
        if plane.end == name:
            kinds.setdefault(plane.says.replace("-", " "), []).append(plane)
    said = []
    for kind, planes in kinds.items():
        hands = {hand.value for plane in planes if (hand := stick.hand(plane)) is not None}
        cheek = ""
        if len(hands) == 2:
            cheek = " on both sides" if kind.endswith("backing") else ", two cheeks"
        elif hands:
            cheek = f", cheek faces {hands.pop()}"
        names = [plane.mate for plane in planes if plane.mate and mates]
        against = f", against {' and '.join(dict.fromkeys(names))}" if names else ""
        said.append(f"{kind}{cheek}{against}")
    return [f"{'; '.join(said)}."] if said else []


def _whole(wood: StickWood, factor: float, metric: bool) -> Picture:
    """Side view and top view with the lengths under them."""
    stick = wood.stick
    paper = _pair_of_views(wood.side, wood.top, wood.depth_in, factor)
    picture = Picture(paper + _datum(stick, factor))
    low, high = wood.ends
    lengths = _top_lengths(stick)
    square = len(lengths) == 1 and abs(lengths[0][0] - low) + abs(lengths[0][1] - high) < SAME_IN
    for start, stop in () if square else lengths:  # one length is not said twice
        picture += _above(wood, start, stop, factor, metric)
    picture += _below(low, high, factor, length_words(high - low, metric))
    picture += _crown(wood, factor)
    ends = (
        Words("foot", (low * factor, wood.depth_in * factor / 2), 8.5, ways=(180.0,), leader=False),
        Words(
            "HEAD",
            (high * factor, wood.depth_in * factor / 2),
            8.5,
            bold=True,
            ways=(0.0,),
            leader=False,
            gid="head-word",
        ),
    )
    return picture + Picture(Drawing(), ends)


def _at_both_ends(wood: StickWood, factor: float, metric: bool) -> Picture:
    """What a short stick's ends would show larger: points, a notch's cuts, and two names."""
    stick, depth, thick = wood.stick, wood.depth_in * factor, wood.stick.stock.thickness_in * factor
    base = depth + APART_IN
    picture = Picture(Drawing())
    for name in ("foot", "head"):
        picture += _points(stick, name, base, factor, metric)
    for plane in _notch_planes(stick):
        picture += _cut_length(wood, plane, wood.ends, factor, metric)
    low, high = wood.ends
    x = (low + 0.75 * (high - low)) * factor
    names = (
        Words("right face", (x, depth / 2), 8.0, leader=False, optional=True),
        Words("top edge", (x, base + thick / 2), 8.0, leader=False, optional=True),
    )
    return picture + Picture(Drawing(), names)


def _pair_of_views(side: Drawing, top: Drawing, depth_in: float, factor: float) -> Drawing:
    return side.scaled(factor) + top.scaled(factor).moved(0.0, depth_in * factor + APART_IN)


def _top_lengths(stick: Stick) -> list[tuple[float, float]]:
    """From where to where the lengths along the top edge run, from the foot on [in]."""
    foot, head = (stick.end_points(end).long_in for end in ("foot", "head"))
    if not stick.on_plate:
        return [(foot, head)]
    tail = [(foot, 0.0)] if foot < -SAME_IN else []
    return [*tail, (0.0, head)]


def _above(wood: StickWood, start: float, stop: float, factor: float, metric: bool) -> Picture:
    """A length along the top edge, between the views."""
    top, said = wood.depth_in * factor, length_words(stop - start, metric)
    lines = dimension((start * factor, top), (stop * factor, top), said, ROW_IN, 8.5)
    middle = ((start + stop) / 2 * factor, top + ROW_IN)
    return Picture(*from_labels(lines, middle, ways=(90.0,)))


def _below(start: float, stop: float, factor: float, said: str) -> Picture:
    """A dimension along the board under the side view."""
    lines = dimension((start * factor, 0.0), (stop * factor, 0.0), said, -LOW_IN, 8.5)
    middle = ((start + stop) / 2 * factor, -LOW_IN)
    return Picture(*from_labels(lines, middle, ways=(-90.0,)))


def _datum(stick: Stick, factor: float) -> Drawing:
    """The plumb line over the building line on the side view, a little beyond both edges."""
    line = datum_line(stick)
    if line is None:
        return Drawing()
    start, end = (np.array(point) * factor for point in line)
    way = (end - start) / np.hypot(*(end - start))
    points = tuple(_pair(spot) for spot in (start - 0.12 * way, end + 0.12 * way))
    return Drawing((Stroke(points, "centre", "datum"),))


def datum_line(stick: Stick) -> tuple[Point, Point] | None:
    """The plumb line through the datum on the right face, from the top edge to the bottom one.

    In board axes (x, z) [in]; None where the stick stands on no plate.
    """
    if not stick.on_plate:
        return None
    plumb = stick.pose.to_board(Z)
    depth = stick.stock.depth_in
    return (0.0, depth), (-float(plumb[0] / plumb[2]) * depth, 0.0)


def _crown(wood: StickWood, factor: float) -> Picture:
    """An arrow on the side view that says which edge the crown belongs on."""
    if wood.stick.role == "plate":
        return Picture(Drawing())
    low, high = wood.ends
    x, z = (low + 0.62 * (high - low)) * factor, wood.depth_in * factor
    tip, foot = z - 0.02, z - max(0.14, min(0.4, 0.8 * z))
    neck = max(tip - HEAD_IN * 0.7, foot)
    half = HALF_IN * 0.7
    arrow = shapely.Polygon([(x - half, neck), (x, tip), (x + half, neck)])
    drawing = Drawing(
        (Stroke(((x, foot), (x, neck)), "dimension", "crown-stem"),), (Area(arrow, "ink", "crown"),)
    )
    words = Words("crown up", (x, foot), 8.5, bold=True, always=True, ways=(-60.0, -120.0))
    return Picture(drawing, (words,))


def _closer(
    wood: StickWood, name: str, window: tuple[float, float], factor: float, metric: bool
) -> Picture:
    """One end larger: both views cut off behind it, the cuts dimensioned and named."""
    low, high = window
    stick, depth = wood.stick, wood.depth_in
    thick = stick.stock.thickness_in
    box = (low, -1.0, high, max(depth, thick) + 1.0)
    paper = _pair_of_views(wood.side.clipped(box), wood.top.clipped(box), depth, factor)
    u = (high if name == "foot" else low) * factor
    base = depth * factor + APART_IN
    paper += broken((u, 0.0), (u, depth * factor), 0.05)
    paper += broken((u, base), (u, base + thick * factor), 0.05, 0.04)
    picture = Picture(paper)
    if name == "foot":
        picture = Picture(picture.drawing + _datum(stick, factor))
        line = datum_line(stick)
        if line is not None:
            spot = (0.0, depth * factor)
            said = "over the outside of the wall"
            picture += Picture(Drawing(), (Words(said, spot, 8.0, always=True, ways=(45.0,)),))
        for start, stop in _top_lengths(stick)[:-1]:
            picture += _above(wood, start, stop, factor, metric)
    picture += _points(stick, name, base, factor, metric)
    for plane in _notch_planes(stick):
        picture += _cut_length(wood, plane, window, factor, metric)
    middle = u - 0.9 if name == "foot" else u + 0.9
    names = (
        Words("right face", (middle, depth * factor / 2), 8.0, leader=False),
        Words("top edge", (middle, base + thick * factor / 2), 8.0, leader=False),
    )
    return picture + Picture(Drawing(), names)


def _points(stick: Stick, name: str, base: float, factor: float, metric: bool) -> Picture:
    """How far the long point of an end lies past the short one, in the top view."""
    thick = stick.stock.thickness_in
    which = 1 if name == "head" else 0
    ends = [(stick.line_ends(y)[which], y) for y in (0.0, thick / 2, thick)]
    far, near = (max, min) if name == "head" else (min, max)
    long, short = far(ends), near(ends)
    if not all(np.isfinite(x) for x, _ in ends) or abs(long[0] - short[0]) < SAME_IN:
        return Picture(Drawing())
    above = base + thick * factor
    said = short_words(abs(long[0] - short[0]), metric)
    start, stop = sorted((long[0] * factor, short[0] * factor))
    lines = dimension((start, above), (stop, above), said, 0.25, 8.5)
    picture = Picture(*from_labels(lines, ((start + stop) / 2, above + 0.25), ways=(90.0,)))
    words = (
        Words(
            "long point", (long[0] * factor, base + long[1] * factor), 8.0, bold=True, always=True
        ),
    )
    return picture + Picture(Drawing(), words)


def _notch_planes(stick: Stick) -> list[CutPlane]:
    """The planes of notches, one of those that lie in one plane: a seat over two plates."""
    found: dict[tuple[float, ...], CutPlane] = {}
    for removal in stick.removals:
        for plane in removal if len(removal) >= NOTCH else ():
            cut = stick.cut(plane)
            level = float(cut.normal @ cut.point)
            found.setdefault((*np.round(cut.normal, 6).tolist(), round(level, 4)), plane)
    return list(found.values())


def _cut_length(
    wood: StickWood, plane: CutPlane, window: tuple[float, float], factor: float, metric: bool
) -> Picture:
    """The length of a notch's cut on the right face, where it runs square through the board.

    The side view shows that face; on the left one a heel or a foot aslant may end
    the cut elsewhere.
    """
    stick = wood.stick
    if stick.hand(plane) is not None:
        return Picture(Drawing())
    alike = [each for removal in stick.removals for each in removal if one_cut(each, plane)]
    spots = on_face(stick, tuple(alike), 0.0)
    if not len(spots):
        return Picture(Drawing())
    start, end = _farthest(spots)
    inside = all(window[0] - _SNAP <= x <= window[1] + _SNAP for x in (start[0], end[0]))
    long = float(np.hypot(*(end - start)))
    if not inside or long < SAME_IN:
        return Picture(Drawing())
    # A seat's length stands below it, a plumb heel's on the wood behind it: they never cross.
    normal = SIDE.seen(stick.pose.to_board(plane.normal))
    if abs(float(plane.normal[2])) < _SNAP:
        normal = -normal
    p, q = (_pair(spot * factor) for spot in (start, end))
    left = np.array([-(q[1] - p[1]), q[0] - p[0]])
    off = 0.28 if float(left @ normal) > 0 else -0.28
    lines = dimension(p, q, short_words(long, metric), off, 8.5)
    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    return Picture(*from_labels(lines, middle))


def _farthest(spots: Array) -> tuple[Array, Array]:
    """The two points farthest apart, the one at the left first (2,) each."""
    apart = np.hypot(*(spots[:, None, :] - spots[None, :, :]).transpose(2, 0, 1))
    i, j = np.unravel_index(int(np.argmax(apart)), apart.shape)
    first, second = sorted((spots[i], spots[j]), key=lambda spot: float(spot[0]))
    return first, second


def _pair(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
