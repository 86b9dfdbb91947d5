"""A whole framed roof to scale: seen in space, from its sides and from above.

Every stick is its own solid, so what is drawn is what will be cut; what other wood hides is left
out. Heights are taken from the top of the plates. Dimensions as common drafting practice has them
(ISO 129: from memory).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import atan2, degrees
from typing import Literal

import numpy as np
import shapely

from figures.ink.drawing import Drawing, Stroke
from figures.ink.pens import Point
from figures.ink.scale import Scale
from figures.pictures.roofplan import METRIC_SCALES, PLAN_SCALES, names_above, sticks_above
from figures.place.dimension import dimension
from figures.place.placing import Words, from_labels
from figures.place.room import Picture, Room, in_room
from figures.wood.framed import Body, in_world
from figures.wood.projection import View, Walls, edges_behind, looking
from figures.wood.scene import points_of
from layout.errors import SheetError
from layout.framing.stick import Stick
from layout.quantity import write_feet, write_metric
from layout.vector import Array, X, Y, vector

ViewedSide = Literal["front", "back", "left", "right"]
EYES: dict[ViewedSide, Array] = {"front": -Y, "back": Y, "left": -X, "right": X}
"""The way toward the eye for each elevation: the front is the side of the least y."""
CARRIERS = ("hip", "valley", "ridge")
ROOF_SCALES = (
    Scale(1 / 8, '1 1/2" = 1\'-0"'),
    *PLAN_SCALES,
    Scale(1 / 384, '1/32" = 1\'-0"'),
)
SAME_IN = 1e-3
LEVEL = 1e-6
_INK = 1e-4
"""Lines nearer than this are one [in of wood]."""


@dataclass(frozen=True)
class Framed:
    """The sticks of a roof and their bodies in the world [in]."""

    sticks: tuple[Stick, ...]

    @cached_property
    def bodies(self) -> tuple[Body, ...]:
        """Every stick as a body, in the order of the sticks."""
        return tuple(in_world(stick) for stick in self.sticks)

    def of(self, *roles: str) -> list[Stick]:
        """The sticks of these roles."""
        return [stick for stick in self.sticks if stick.role in roles]

    @property
    def plate_top_in(self) -> float:
        """The top of the plates, from which heights are read [in]; 0 where there are none."""
        tops = [float(stick.corners[:, 2].max()) for stick in self.of("plate")]
        return min(tops, default=0.0)


def framed(sticks: Iterable[Stick]) -> Framed:
    """The sticks that have any wood. Raises SheetError where none has."""
    found = tuple(stick for stick in sticks if stick.exists)
    if not found:
        raise SheetError("there is no stick to draw: frame a roof first")
    return Framed(found)


def roof_pictorial(roof: Framed, room: Room, *, metric: bool = False) -> Drawing:
    """The whole roof seen in space from its front left, wood hiding what lies behind it.

    From (0, 0) to the room's width and height [in on paper]. Gids: `stick-NAME`. Raises
    SheetError for a room that is too small.
    """
    view = looking(vector(-0.55, -1.0, 0.75))
    drawing = _seen(roof, view)
    named = [stick for stick in roof.sticks if stick.role in CARRIERS]

    def draw(factor: float) -> Picture:
        words = tuple(
            Words(
                stick.name, _pair(view.seen(middle_of(stick)) * factor), 8.0, bold=True, always=True
            )
            for stick in named
        )
        return Picture(drawing.scaled(factor), words)

    notes = ["Seen from the front left, from above. Nothing is to be measured in this picture."]
    return in_room(
        "The roof in space", notes, room, draw, scales=roof_scales(metric), to_scale=False
    )


def roof_elevation(roof: Framed, room: Room, side: ViewedSide, *, metric: bool = False) -> Drawing:
    """The roof from one side, with its ridge height, eave and width, in a room [in on paper].

    Gids: `stick-NAME`. Raises SheetError for a room that is too small.
    """
    view = looking(EYES[side])
    drawing = _seen(roof, view)
    left, _, right, top = drawing.bounds()
    tails = [stick for stick in roof.sticks if stick.on_plate]
    low = min((float(stick.corners[:, 2].min()) for stick in tails), default=roof.plate_top_in)

    def draw(factor: float) -> Picture:
        picture = Picture(drawing.scaled(factor))
        base = drawing.bounds()[1]
        width = roof_dimension((left, base), (right, base), -0.3, factor, right - left, metric)
        high = roof_dimension(
            (right, roof.plate_top_in), (right, top), -0.3, factor, top - roof.plate_top_in, metric
        )
        fall = roof.plate_top_in - low
        picture += width + high
        if fall > SAME_IN:
            picture += roof_dimension(
                (left, low), (left, roof.plate_top_in), 0.3, factor, fall, metric
            )
        return picture

    notes = ["Heights from the top of the plates. Rafters behind others are left out."]
    return in_room(f"The roof from the {side}", notes, room, draw, scales=roof_scales(metric))


def roof_plan_picture(roof: Framed, room: Room, *, metric: bool = False) -> Drawing:
    """Every stick from above with its name; walls, overhang, ridge and spacing dimensioned.

    From (0, 0) to the room's width and height [in on paper]. Gids: `stick-NAME`, `name-NAME`.
    Raises SheetError for a room that is too small.
    """
    notes = [
        "Seen from above. Dashed: plates. The outer dimensions run over the plates; beside them"
        " stand the overhang to the rafters' tails, the ridge and the spacing on center. A name"
        " stands above its stick, or left of a stick that runs up the page, or off its stick's end."
        " From any other name a line leads to a dot on its stick."
    ]

    def draw(factor: float) -> Picture:
        lines = sticks_above(roof.sticks, factor)
        measures = _plan_measures(roof, lines, factor, metric)
        # Names keep clear of the measures and of the figures on them, which stand there first.
        figures = Drawing(labels=tuple(label for one in measures.words for label in one.first))
        names = names_above(roof.sticks, factor, lines + measures.drawing + figures)
        return Picture(lines + names, _side_names(roof, factor)) + measures

    return in_room("The roof in plan", notes, room, draw, scales=roof_scales(metric))


def _side_names(roof: Framed, factor: float) -> tuple[Words, ...]:
    """Every side's name outside its eave, off the middle of its rafters' tails."""
    tails: dict[str, list[Array]] = {}
    ways: dict[str, Array] = {}
    for stick in roof.of("common", "hip jack"):
        if stick.on_plate:
            low = stick.corners[int(np.argmin(stick.corners @ stick.pose.head))]
            tails.setdefault(stick.face, []).append(low[:2])
            ways[stick.face] = -stick.pose.head[:2]
    words = []
    for face, ends in tails.items():
        x, y = np.mean(ends, axis=0) * factor
        way = degrees(atan2(float(ways[face][1]), float(ways[face][0])))
        words.append(
            Words(face, (float(x), float(y)), 8.0, bold=True, ways=(way,), leader=False,
                  gid="side-name", optional=True)
        )  # fmt: skip
    return tuple(words)


def _plan_measures(roof: Framed, lines: Drawing, factor: float, metric: bool) -> Picture:
    """Dimensions outside the plan: below and at the right, the overhang at the left below."""
    left, bottom, right, top = (side / factor for side in lines.bounds(words=False))
    picture = Picture(Drawing())
    plates = [stick.corners for stick in roof.of("plate")]
    if plates:
        (x0, y0), (x1, y1) = (
            np.min([p.min(axis=0) for p in plates], axis=0)[:2],
            np.max([p.max(axis=0) for p in plates], axis=0)[:2],
        )
        picture += roof_dimension((x0, bottom), (x1, bottom), -0.55, factor, float(x1 - x0), metric)
        picture += roof_dimension((right, y0), (right, y1), -0.55, factor, float(y1 - y0), metric)
        over = float(y0) - bottom
        if over > SAME_IN:
            picture += roof_dimension((left, bottom), (left, y0), 0.3, factor, over, metric)
    level = [s for s in roof.of("ridge") if abs(float(s.pose.head[0])) > 1 - LEVEL]
    for ridge in level[:1]:
        a, b = float(ridge.corners[:, 0].min()), float(ridge.corners[:, 0].max())
        picture += roof_dimension((a, top), (b, top), 0.3, factor, b - a, metric)
    spacing = _spacing(roof)
    if spacing is not None:
        a, b = spacing
        picture += roof_dimension((a, bottom), (b, bottom), -0.3, factor, b - a, metric)
    return picture


def _spacing(roof: Framed) -> tuple[float, float] | None:
    """Where two neighbours of the front's commons stand that are the usual way apart [in]."""
    at = sorted(
        float(middle_of(stick)[0])
        for stick in roof.of("common")
        if float(stick.pose.head[1]) > 0.1 and abs(float(stick.pose.head[0])) < LEVEL
    )
    pairs = [(a, b) for a, b in pairwise(at) if b - a > SAME_IN]
    if not pairs:
        return None
    sizes = [round(b - a, 4) for a, b in pairs]
    usual = max(set(sizes), key=lambda size: (sizes.count(size), size))
    return pairs[sizes.index(usual)]


def middle_of(stick: Stick) -> Array:
    """The middle of a stick's wood (3,)."""
    middle: Array = (stick.corners.min(axis=0) + stick.corners.max(axis=0)) / 2
    return middle


def _seen(roof: Framed, view: View) -> Drawing:
    """Every edge that is seen, carriers wide and rafters narrow [in of wood].

    Where edges of two sticks fall on one line of the paper, the nearer stick's stands.
    """
    walls = Walls(view, roof.bodies)
    near = sorted(
        zip(roof.sticks, roof.bodies, strict=True),
        key=lambda pair: -float(middle_of(pair[0]) @ view.toward),
    )
    sticks: list[Stick] = []
    segments: list[Array] = []
    for stick, body in near:
        for each in edges_behind(body, walls, hidden=False):
            for line in shapely.get_parts(each.visible):
                points = np.asarray(line.coords)
                segments += list(np.stack([points[:-1], points[1:]], axis=1))
                sticks += [stick] * (len(points) - 1)
    strokes = []
    for stick, part in zip(sticks, _inked_once(np.array(segments)), strict=True):
        pen = "visible" if stick.role in CARRIERS else "guide"
        strokes += [
            Stroke(points_of(piece), pen, f"stick-{stick.name}")
            for piece in shapely.get_parts(part)
            if piece.geom_type == "LineString" and piece.length > 10 * _INK
        ]
    return Drawing(tuple(strokes))


def _inked_once(segments: Array) -> list[shapely.Geometry]:
    """Segments (n, 2, 2), each without what an earlier one has drawn already."""
    lines = shapely.linestrings(segments)
    ways = segments[:, 1] - segments[:, 0]
    ways = ways / np.maximum(np.hypot(*ways.T), _INK)[:, None]
    tree = shapely.STRtree(lines)
    mine, other = tree.query(lines, predicate="dwithin", distance=_INK)
    turn = ways[mine, 0] * ways[other, 1] - ways[mine, 1] * ways[other, 0]
    same = (other < mine) & (np.abs(turn) < LEVEL)
    result = list(lines)
    for i, j in zip(mine[same], other[same], strict=True):
        result[i] = result[i].difference(shapely.buffer(lines[j], _INK))
    return result


def roof_dimension(
    start: Point, stop: Point, off: float, factor: float, length_in: float, metric: bool
) -> Picture:
    """A dimension of the roof, in feet and inches or millimeters."""
    said = write_metric(length_in) if metric else write_feet(length_in)
    p, q = ((float(x) * factor, float(y) * factor) for x, y in (start, stop))
    lines = dimension(p, q, said, off, 8.5)
    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    level = abs(p[1] - q[1]) < abs(p[0] - q[0])
    spot = (middle[0], middle[1] + off) if level else (middle[0] - off, middle[1])
    return Picture(*from_labels(lines, spot))


def roof_scales(metric: bool) -> tuple[Scale, ...]:
    """The scales tried for a picture of a roof, the largest first."""
    return METRIC_SCALES if metric else ROOF_SCALES


def _pair(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
