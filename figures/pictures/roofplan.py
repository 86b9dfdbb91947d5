"""The plan of a training roof: every stick seen from above, with its name on it.

Each stick is its solid's shadow on level ground, so what is drawn is what will be cut. Names
stand along their sticks where nothing else stands; where there is no room beside a stick a line
leads from its name to a dot on it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import product
from math import atan2, cos, degrees, hypot, radians, sin

import shapely

from figures.ink.drawing import Drawing, Label, Polygon, Stroke
from figures.ink.lettering import text_size
from figures.ink.paper import Paper
from figures.ink.pens import MM_PER_IN, Point, pen
from figures.ink.scale import Scale, to_scale
from figures.page.sheet import Page, clear_field
from figures.place.dimension import dimension
from figures.place.least_crossed import NamePlaces, least_crossed
from layout.errors import SheetError
from layout.framing.roof import TrainingRoof
from layout.framing.stick import Stick
from layout.quantity import write_long

NAME_PT = 7.0
CLEAR_IN = 0.015
"""White between a name and the lines of other sticks [in]."""
OWN_IN = 0.002
"""White between a name's box, which holds room for descenders, and the line of its own stick [in]:
a rafter stands 0.15 in from the next at the scale of a whole roof, and its name 0.11 in high."""
OFF_END_IN = 0.04
"""White between the end of a stick and the name that stands off it [in]."""
SHARES = (0.0, 0.12, -0.12, 0.25, -0.25, 0.36, -0.36)
"""Where a name stands along a stick, as shares of its length from its middle."""
SPOT_SHARES = (0.0, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3, 0.4, -0.4, 0.46, -0.46)
"""Where a line may point at a stick, as shares of its length from its middle."""
DIMENSION_IN = (0.3, 0.55)
"""How far outside the roof the dimension lines stand on paper [in]."""
PLAN_SCALES = tuple(
    Scale(inches / 12, f'{words}" = 1\'-0"')
    for inches, words in (
        (1.0, "1"),
        (3 / 4, "3/4"),
        (1 / 2, "1/2"),
        (3 / 8, "3/8"),
        (1 / 4, "1/4"),
        (3 / 16, "3/16"),
        (1 / 8, "1/8"),
        (1 / 16, "1/16"),
    )
)
"""Architects' scales, the largest first."""
METRIC_SCALES = tuple(
    Scale(1 / n, f"1 : {n}", metric=True) for n in (5, 10, 20, 25, 50, 75, 100, 150, 200, 400)
)

CARRIERS = ("hip", "valley", "ridge")
"""Drawn wide, rafters narrow: at small scales two wide lines run into one. Plates lie below."""


@dataclass(frozen=True)
class _SeenAbove:
    """A stick from above, at scale on paper: its outline, its middle and the way it runs."""

    stick: Stick
    outline: Polygon
    middle: Point
    way: Point

    @property
    def turn_deg(self) -> float:
        """The way it runs, turned so that words along it can be read [degrees]."""
        turn = degrees(atan2(self.way[1], self.way[0]))
        return turn - 180.0 if turn > 90.01 else turn + 180.0 if turn <= -89.99 else turn


def roof_plan_page(
    roof: TrainingRoof, paper: Paper, *, title: str, given: str, metric: bool = False
) -> Page:
    """The whole roof on one page, at the largest scale that it fits; walls in millimeters and a
    scale of whole numbers in `metric`.

    Raises SheetError where it does not fit at the smallest.
    """
    for scale, sheet in product(METRIC_SCALES if metric else PLAN_SCALES, (paper, paper.turned())):
        page = Page(sheet, Drawing(), title=title, given=given, scale=scale)
        left, bottom, right, top = clear_field(page)
        room = right - left, top - bottom
        # Names take a while to place, and make no drawing smaller.
        seen, bare = _unnamed(roof, scale, metric)
        if not _goes_into(bare, room):
            continue
        drawing = bare + _names(seen, bare)
        x0, y0, x1, y1 = drawing.bounds()
        if _goes_into(drawing, room):
            dx = left + (right - left - (x1 - x0)) / 2 - x0
            dy = bottom + (top - bottom - (y1 - y0)) / 2 - y0
            return Page(
                sheet,
                drawing.moved(dx, dy),
                title=title,
                given=given,
                scale=scale,
                description=_told(roof),
            )
    least = "1 : 400" if metric else "1/16 in to the foot"
    raise SheetError(f"the roof does not fit {paper.name} at {least}: use larger paper")


def _goes_into(drawing: Drawing, room: tuple[float, float]) -> bool:
    x0, y0, x1, y1 = drawing.bounds()
    return x1 - x0 <= room[0] and y1 - y0 <= room[1]


def _unnamed(roof: TrainingRoof, scale: Scale, metric: bool) -> tuple[list[_SeenAbove], Drawing]:
    """Every stick as it is seen, and the plan of them all with the walls' measures and without
    their names, at scale in inches on paper."""
    seen = [_seen(stick, scale) for stick in roof.sticks if stick.exists]
    drawing = Drawing(tuple(stroke for each in seen for stroke in _strokes(each)))
    drawing = to_scale(drawing, Scale(1.0, scale.text))
    return seen, drawing + _measures(roof, scale, metric)


def sticks_above(sticks: Iterable[Stick], factor: float) -> Drawing:
    """The outlines of sticks from above [in on paper]."""
    seen = (_seen(stick, Scale(factor, "")) for stick in sticks if stick.exists)
    return Drawing(tuple(stroke for each in seen for stroke in _strokes(each)))


def names_above(sticks: Iterable[Stick], factor: float, drawing: Drawing) -> Drawing:
    """The names of sticks from above, clear of a drawing of them with its measures [in on
    paper]."""
    return _names([_seen(stick, Scale(factor, "")) for stick in sticks if stick.exists], drawing)


def _seen(stick: Stick, scale: Scale) -> _SeenAbove:
    shadows = [
        shapely.MultiPoint(points[:, :2] * scale.factor).convex_hull
        for points in stick.solid.part_corners
    ]
    outline = shapely.union_all(shadows)
    along = stick.pose.head[:2]
    if hypot(*along) < 1e-9:
        along = stick.pose.up[:2]
    way = along / hypot(*along)
    middle = outline.centroid
    return _SeenAbove(stick, outline, (middle.x, middle.y), (float(way[0]), float(way[1])))


def _strokes(each: _SeenAbove) -> Iterator[Stroke]:
    for part in shapely.get_parts(each.outline):
        ring = tuple((float(x), float(y)) for x, y in part.exterior.coords)
        yield Stroke(ring, _pen(each), f"stick-{each.stick.name}")


def _pen(each: _SeenAbove) -> str:
    role = each.stick.role
    return "visible" if role in CARRIERS else "hidden" if role == "plate" else "guide"


def _names(seen: list[_SeenAbove], drawing: Drawing) -> Drawing:
    """A name for every stick; those with the fewest places choose first."""
    turns = sorted(seen, key=_turn_to_be_named)
    return least_crossed([_named(each, seen) for each in turns], drawing, CLEAR_IN)


def _turn_to_be_named(each: _SeenAbove) -> tuple[int, float]:
    """From the shortest stick, which has the fewest places; plates last."""
    return (1 if each.stick.role == "plate" else 0, each.outline.length)


def _named(each: _SeenAbove, seen: list[_SeenAbove]) -> NamePlaces:
    """Above the stick, or left of one that runs up the page, from its middle outward; then off
    its ends. On its other side the next stick's name would stand, so there it stands last of all:
    a name between two sticks belongs to the one right of it or below it."""
    gid, name = f"stick-{each.stick.name}", _label(each, *each.middle)
    near = [*_beside(each, 1), *_off_ends(each)]
    return NamePlaces(name, gid, near, _spots(each, seen), tuple(_beside(each, -1)))


def _beside(each: _SeenAbove, side: int) -> Iterator[Label]:
    """Along one side, as near as the pen's width allows: the next stick's line must be farther
    off than its own."""
    turn = radians(each.turn_deg)
    across = (-sin(turn), cos(turn))
    half, long = _sides(each)
    ink = pen(_pen(each)).width_mm / MM_PER_IN / 2
    off = side * (half + ink + OWN_IN + text_size(each.stick.name, NAME_PT)[1] / 2)
    for share in SHARES:
        yield _label(
            each,
            each.middle[0] + share * long * each.way[0] + off * across[0],
            each.middle[1] + share * long * each.way[1] + off * across[1],
        )


def _off_ends(each: _SeenAbove) -> Iterator[Label]:
    """Off its ends, the tail first: there the roof's outside is free."""
    half_name = text_size(each.stick.name, NAME_PT, each.stick.role in CARRIERS)[0] / 2
    for end in (-1, 1):
        reach = end * (_sides(each)[1] / 2 + half_name + OFF_END_IN)
        yield _label(
            each, each.middle[0] + reach * each.way[0], each.middle[1] + reach * each.way[1]
        )


def _sides(each: _SeenAbove) -> tuple[float, float]:
    """Half the width of an outline, and its length [in on paper]."""
    box = each.outline.minimum_rotated_rectangle
    sides = sorted(shapely.linestrings(box.exterior.coords[i : i + 2]).length for i in range(2))
    return sides[0] / 2, sides[1]


def _spots(each: _SeenAbove, seen: list[_SeenAbove]) -> list[Point]:
    """Where a line may point at a stick: spread along it, where no other stick lies over it.

    Plates lie under everything: they count as others for nothing but another plate.
    """
    over = [
        other.outline
        for other in seen
        if other is not each and (other.stick.role != "plate" or each.stick.role == "plate")
    ]
    near = shapely.STRtree(over)
    touching = [over[i] for i in near.query(each.outline, predicate="intersects")]
    bare = each.outline.difference(shapely.union_all(touching)) if touching else each.outline
    half, long = _sides(each)
    spots = []
    for share in SPOT_SHARES:
        at = [m + share * long * w for m, w in zip(each.middle, each.way, strict=True)]
        spot = shapely.Point(at)
        if bare.covers(spot) and bare.boundary.distance(spot) > 0.5 * half:
            spots.append((spot.x, spot.y))
    if not spots:
        widest = max(shapely.get_parts(bare), key=lambda part: float(part.area), default=None)
        inside = (each.outline if widest is None or widest.is_empty else widest).point_on_surface()
        spots.append((inside.x, inside.y))
    return spots


def _label(each: _SeenAbove, x: float, y: float) -> Label:
    name = each.stick.name
    bold = each.stick.role in CARRIERS
    return Label(name, x, y, NAME_PT, "center", "center", each.turn_deg, bold, f"name-{name}")


def _measures(roof: TrainingRoof, scale: Scale, metric: bool) -> Drawing:
    """Every wall's length outside it, beyond the tails; of two alike walls face to face, one."""
    outline, k = roof.surface.outline, scale.factor
    corners = outline.corners * k
    out = DIMENSION_IN[0] + max(face.overhang_in for face in roof.faces) * k
    made = Drawing()
    said: set[tuple[float, ...]] = set()
    for i, wall in enumerate(outline.walls):
        along = outline.along[i]
        turned = along if (along[0], along[1]) > (0.0, 0.0) else -along
        alike = (*(round(float(c), 6) + 0.0 for c in turned), round(wall.length_in, 4))
        if alike not in said:
            said.add(alike)
            (x0, y0), (x1, y1) = corners[i].tolist(), corners[(i + 1) % len(corners)].tolist()
            made += dimension(
                (x0, y0), (x1, y1), write_long(wall.length_in, metric=metric), -out, 8.0
            )
    return made


def _told(roof: TrainingRoof) -> str:
    roles: dict[str, int] = {}
    for stick in roof.sticks:
        roles[stick.role] = roles.get(stick.role, 0) + 1
    counted = ", ".join(f"{count} {role}" for role, count in roles.items())
    return f"Plan of a roof seen from above with {counted}, each with its name."
