"""Words put where they can be read: beside what they name, on white paper, clear of each other.

Each of the `Words` names a spot. They are tried at places of their own choice first, then in
rings about the spot, then farther off with a leader; the first place wins where their box
touches no line and no other words and lies inside the room.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from math import cos, degrees, hypot, radians, sin
from typing import Any

import numpy as np
import shapely
import shapely.affinity

from figures.ink.drawing import Box, Drawing, Label, Polygon, label_box
from figures.ink.lettering import fraction_text, text_size
from figures.ink.pens import Point
from figures.place.dimension import TEXT_GAP_IN, leader

CLEAR_IN = 0.035
"""White left round words [in]."""
NEAR_IN = (0.06, 0.1, 0.15, 0.2)
"""How far from their spot words stand without a leader [in]."""
FAR_IN = (0.3, 0.4, 0.5, 0.65, 0.8, 1.0, 1.25, 1.5, 1.8, 2.2, 2.7)
"""How far from their spot words stand with one [in]."""
STEP_DEG = 15
CROSSING_IN = 0.6
"""What a leader that crosses a line, or words on hatching, cost against nearness [in]."""
_SHELF_IN = 0.12 + TEXT_GAP_IN
"""From a leader's elbow to its words, as `figures.place.dimension.leader` draws it [in]."""
_LEAST_IN2 = 1e-6
_QUIET_PENS = frozenset({"hatch"})


class NoRoomError(Exception):
    """Some words found no place; the drawing must be made smaller."""


@dataclass(frozen=True)
class Words:
    """Words for a spot on paper [in].

    `first` are places to be tried before all others. `inside` is an area the words may stand in
    the middle of; they carry a halo there. `ways` are directions to be preferred [deg].
    Beside that area they may not touch `off`, and an arrow joins them to their spot: a name must
    not stand in what it does not name.
    `leader` says whether an arrow may join them to the spot from afar: without one they must
    stand near. `always` draws the arrow wherever they stand.
    """

    text: str
    spot: Point
    size_pt: float = 8.5
    bold: bool = False
    gid: str | None = None
    first: tuple[Label, ...] = ()
    inside: Polygon | None = None
    ways: tuple[float, ...] = ()
    leader: bool = True
    always: bool = False
    optional: bool = field(default=False)
    off: Polygon | None = None


def in_area(text: str, area: Polygon, size_pt: float = 9.0, **more: Any) -> tuple[Words, ...]:
    """Words for the middle of the largest part of an area; none where the area is nothing."""
    part = largest(area)
    if part.area < _LEAST_IN2:
        return ()
    spot = shapely.maximum_inscribed_circle(part, min(0.02, part.length / 50)).coords[0]
    return (Words(text, (spot[0], spot[1]), size_pt, inside=part, **more),)


def largest(region: Polygon) -> Polygon:
    """The largest polygon of a region, an empty one where there is none."""
    parts = [part for part in shapely.get_parts(region) if part.geom_type == "Polygon"]
    return max(parts, key=lambda part: float(part.area), default=shapely.Polygon())


def enlarged(region: Polygon, factor: float) -> Polygon:
    """A region in inches of wood at a scale [in on paper]."""
    return shapely.affinity.scale(region, factor, factor, origin=(0, 0))


def moved(words: Words, dx_in: float, dy_in: float) -> Words:
    """The same words for a drawing that was moved [in]."""
    inside, off = words.inside, words.off
    return replace(
        words,
        spot=(words.spot[0] + dx_in, words.spot[1] + dy_in),
        first=Drawing(labels=words.first).moved(dx_in, dy_in).labels,
        inside=None if inside is None else shapely.affinity.translate(inside, dx_in, dy_in),
        off=None if off is None else shapely.affinity.translate(off, dx_in, dy_in),
    )


def from_labels(
    drawing: Drawing, spot: Point | None = None, **more: Any
) -> tuple[Drawing, tuple[Words, ...]]:
    """A drawing parted from its labels, each of which becomes words that would stand there.

    `spot` is what they name, where that is not the middle of their own place [in].
    """
    words = []
    for label in drawing.labels:
        box = label_box(label).centroid
        words.append(
            Words(
                label.text,
                spot or (box.x, box.y),
                label.size_pt,
                label.bold,
                label.gid,
                first=(label,),
                **more,
            )
        )
    return replace(drawing, labels=()), tuple(words)


def placed(drawing: Drawing, wanted: Sequence[Words], room: Box) -> Drawing:
    """The drawing with all words in place; raises NoRoomError where some find none."""
    for words in wanted:
        found = _place(drawing, words, room)
        if found is not None:
            drawing += found
        elif not words.optional:
            raise NoRoomError(words.text)
    return drawing


@dataclass(frozen=True)
class _Spot:
    """One place for words: their label, what it costs [in], the elbow of its leader if any."""

    label: Label
    cost: float
    elbow: Point | None = None


@dataclass(frozen=True)
class _TakenPaper:
    """What lies on the paper when words are placed: each region prepared to be asked often."""

    lines: list[Any]
    strokes: Any
    taken: Polygon
    hatched: Polygon
    steel: Polygon
    page: Polygon


def _paper(drawing: Drawing, room: Box) -> _TakenPaper:
    def filled(*fills: str) -> list[Polygon]:
        return [area.polygon for area in drawing.areas if area.fill in fills]

    lines = [shapely.linestrings(s.points) for s in drawing.strokes if s.pen not in _QUIET_PENS]
    paper = _TakenPaper(
        lines,
        shapely.MultiLineString(lines),
        shapely.union_all(list(map(label_box, drawing.labels)) + filled("ink", "gap")),
        shapely.union_all(filled("waste", "section")),
        shapely.union_all(filled("steel")),
        shapely.box(*room),
    )
    for region in (paper.strokes, paper.taken, paper.hatched, paper.steel, paper.page):
        shapely.prepare(region)
    return paper


def _place(drawing: Drawing, words: Words, room: Box) -> Drawing | None:
    """The words at the cheapest free place, None where no place is free.

    Places come in tiers, of which none is cheaper than the least of its kind: what is farther
    off is only looked at where nothing nearer will do.
    """
    paper = _paper(drawing, room)
    best: tuple[float, _Spot] | None = None
    for least, places in ((-1.0, _own_places), (NEAR_IN[0], _near_places), (0.5, _led_places)):
        if best is not None and best[0] <= least:
            break
        best = _cheapest(list(places(words)), words, paper, best)
    return None if best is None else _set(words, best[1], paper.hatched)


def _cheapest(
    places: list[_Spot], words: Words, paper: _TakenPaper, best: tuple[float, _Spot] | None
) -> tuple[float, _Spot] | None:
    """The cheapest of some free places and the best one so far, with its cost [in]."""
    if not places:
        return best
    boxes = _boxes(places)
    free = (
        shapely.covered_by(boxes, paper.page)
        & ~shapely.intersects(boxes, paper.strokes)
        & ~shapely.intersects(boxes, paper.taken)
    )
    if words.off is not None and places[0].cost >= 0:
        free &= ~shapely.intersects(boxes, words.off)
    costs = np.array([place.cost for place in places])
    if words.inside is None:
        costs += CROSSING_IN * shapely.intersects(boxes, paper.hatched)
        costs += CROSSING_IN * shapely.intersects(boxes, paper.steel)
    for i in sorted(np.flatnonzero(free), key=lambda i: float(costs[i])):
        place, cost = places[i], float(costs[i])
        if best is not None and cost >= best[0]:
            break
        if place.elbow is not None:
            path = shapely.linestrings([_toward(words.spot, place.elbow), place.elbow])
            if shapely.intersects(path, paper.taken) or not shapely.covers(paper.page, path):
                continue
            cost += CROSSING_IN * sum(path.intersects(line) for line in paper.lines)
        if best is None or cost < best[0]:
            best = cost, place
    return best


def _set(words: Words, place: _Spot, hatched: Polygon) -> Drawing:
    """The words at a place, their leader drawn, the hatching kept off them."""
    label = place.label
    if shapely.intersects(label_box(label), hatched):
        label = replace(label, halo=True)
    if place.elbow is None:
        return Drawing(labels=(label,))
    return replace(leader(words.spot, place.elbow, words.text, words.size_pt), labels=(label,))


def _boxes(places: Sequence[_Spot]) -> Any:
    """The boxes of all labels with the white round them; level ones all at once."""
    first = places[0].label
    if any(place.label.rotation_deg for place in places):
        return np.array([label_box(place.label, CLEAR_IN) for place in places])
    width, height = text_size(first.text, first.size_pt, first.bold)
    ha, va = ({"left": 0.0, "bottom": 0.0, "center": 0.5, "right": 1.0, "top": 1.0} for _ in "hv")
    x, y = np.array(
        [(p.label.x - width * ha[p.label.ha], p.label.y - height * va[p.label.va]) for p in places]
    ).T
    c = CLEAR_IN
    return shapely.box(x - c, y - c, x + width + c, y + height + c)


def _toward(tip: Point, elbow: Point, by_in: float = 0.05) -> Point:
    """A leader's tip drawn back a little: what it points at is not what it crosses."""
    length = hypot(elbow[0] - tip[0], elbow[1] - tip[1]) or 1.0
    share = min(by_in / length, 0.9)
    return tip[0] + (elbow[0] - tip[0]) * share, tip[1] + (elbow[1] - tip[1]) * share


def _label(words: Words, x: float, y: float, ha: Any, va: Any) -> Label:
    text = fraction_text(words.text)
    return Label(text, x, y, words.size_pt, ha, va, bold=words.bold, gid=words.gid)


def _own_places(words: Words) -> Iterator[_Spot]:
    """Places of their own choice, and in the middle of their area."""
    for i, own in enumerate(words.first):
        yield _Spot(own, -1.0 + 0.01 * i)
    if words.inside is not None:
        for cost, (x, y) in _spots_inside(words.inside):
            inner = _label(words, x, y, "center", "center")
            if words.inside.covers(label_box(inner, CLEAR_IN)):
                yield _Spot(replace(inner, halo=True), cost - 1.0)


def _near_places(words: Words) -> Iterator[_Spot]:
    """Places in rings about the spot."""
    if words.always or words.off is not None:
        return
    for near in NEAR_IN if words.leader else (*NEAR_IN, *FAR_IN[:4]):
        for way in range(0, 360, STEP_DEG):
            c, s = round(cos(radians(way)), 9), round(sin(radians(way)), 9)
            ha = "left" if c > 0.3 else ("right" if c < -0.3 else "center")
            va = "bottom" if s > 0.3 else ("top" if s < -0.3 else "center")
            beside = _label(words, words.spot[0] + near * c, words.spot[1] + near * s, ha, va)
            yield _Spot(beside, near + _off_way(words, way))


def _led_places(words: Words) -> Iterator[_Spot]:
    """Places farther off, joined to the spot by a leader."""
    if not words.leader:
        return
    for far in (0.2, *FAR_IN) if words.always or words.off is not None else FAR_IN:
        for way in range(0, 360, STEP_DEG):
            c, s = cos(radians(way)), sin(radians(way))
            if abs(c) < 0.2:
                continue
            elbow = (words.spot[0] + far * c, words.spot[1] + far * s)
            at = elbow[0] + (_SHELF_IN if c > 0 else -_SHELF_IN)
            led = _label(words, at, elbow[1], "left" if c > 0 else "right", "center")
            yield _Spot(led, far + 0.3 + _off_way(words, way), elbow)


def _off_way(words: Words, way_deg: float) -> float:
    """A little for every degree away from the directions that are preferred [in]."""
    if not words.ways:
        return 0.0
    off = min(abs((way_deg - way + 180.0) % 360.0 - 180.0) for way in words.ways)
    return off / 180.0


def _spots_inside(area: Polygon) -> Iterator[tuple[float, Point]]:
    """Spots in an area, from the middle of its widest part outward."""
    centre = shapely.maximum_inscribed_circle(area, 0.02).coords[0]
    left, bottom, right, top = area.bounds
    yield 0.0, (float(centre[0]), float(centre[1]))
    for x in np.linspace(left, right, 13)[1:-1]:
        for y in np.linspace(bottom, top, 9)[1:-1]:
            yield 0.2 * hypot(x - centre[0], y - centre[1]), (float(x), float(y))


def way_of(start: Point, end: Point) -> float:
    """Direction from one point to another, counterclockwise from the right [deg]."""
    return degrees(np.arctan2(end[1] - start[1], end[0] - start[0]))
