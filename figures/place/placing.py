"""Words put where they can be read: beside what they name, on white paper, clear of each other.

Each of the `Words` names a spot. They are tried at places of their own choice first, then in
rings about the spot, then farther off with a leader; the first place wins where their box
touches no line and no other words and lies inside the room.

For pictures, whose scale is still open: any white paper will do, and where one of the words finds
none the whole picture is drawn again, smaller. `surface_labels` is for full-size sheets.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from math import degrees, hypot
from typing import Any

import numpy as np
import shapely
import shapely.affinity

from figures.ink.drawing import Box, Drawing, Label, Polygon, label_box, label_boxes
from figures.ink.lettering import fraction_text
from figures.ink.pens import Point
from figures.place.dimension import leader
from figures.place.spots import (
    BarePaper,
    Bars,
    ChosenSpots,
    OpenSpots,
    Spots,
    led_ring,
    level_boxes,
    ring,
)
from layout.vector import Array

CLEAR_IN = 0.035
"""White left round words [in]."""
OWN_CLEAR_IN = 0.02
"""The same at a place of their own choice: a dimension's figure stands close over its line [in]."""
NEAR_IN = (0.06, 0.1, 0.15, 0.2)
"""How far from their spot words stand without a leader [in]."""
FAR_IN = (0.3, 0.4, 0.5, 0.65, 0.8, 1.0, 1.25, 1.5, 1.8, 2.2, 2.7)
"""How far from their spot words stand with one [in]."""
CROSSING_IN = 0.6
"""What a leader that crosses a line, or words on hatching, cost against nearness [in]."""
_LEAST_IN2 = 1e-6


class NoRoomError(Exception):
    """Some words found no place; the drawing must be made smaller. `at` counts the words from 0."""

    def __init__(self, text: str, at: int | None = None) -> None:
        super().__init__(text)
        self.at = at


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
    """Words for the middle of the largest part of an area; none where the area is nothing.

    Where they do not stand in it an arrow leads to it: beside a board WASTE would be read of the
    end that it happens to stand at.
    """
    part = largest(area)
    if part.area < _LEAST_IN2:
        return ()
    spot = shapely.maximum_inscribed_circle(part, min(0.02, part.length / 50)).coords[0]
    more.setdefault("always", True)
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


def placed(
    drawing: Drawing, wanted: Sequence[Words], room: Box, doubtful: int | None = None
) -> Drawing:
    """The drawing with all words in place; see `Placing`."""
    return Placing(drawing, wanted).placed(room, doubtful)


class Placing:
    """Words being put on a drawing, which is tried in several rooms: what its own lines leave of
    the places for words is the same in each."""

    def __init__(self, drawing: Drawing, wanted: Sequence[Words]) -> None:
        self.drawing, self.wanted = drawing, wanted
        self._bare = BarePaper(drawing)
        self._open: dict[tuple[int, int], OpenSpots | None] = {}

    def placed(self, room: Box, doubtful: int | None = None) -> Drawing:
        """The drawing with all words in place in a room; raises NoRoomError where some find none.

        `doubtful` are words that found no place before: what has no place on the bare drawing has
        none beside other words, and then the others need not be placed at all.
        """
        if doubtful is not None and self._has_no_place(doubtful, room):
            raise NoRoomError(self.wanted[doubtful].text, doubtful)
        put: list[Bars] = []
        drawing = self.drawing
        for at, words in enumerate(self.wanted):
            found = self._place(at, room, put)
            if found is not None:
                drawing += found
                put.append(Bars(found))
            elif not words.optional:
                raise NoRoomError(words.text, at)
        return drawing

    def _has_no_place(self, at: int, room: Box) -> bool:
        """Whether words that there must be find no place on the bare drawing."""
        return not self.wanted[at].optional and self._place(at, room, []) is None

    def _place(self, at: int, room: Box, put: Sequence[Bars]) -> Drawing | None:
        """Words at the cheapest free place, None where no place is free.

        Places come in tiers, of which none is cheaper than the least of its kind: what is farther
        off is only looked at where nothing nearer will do.
        """
        words = self.wanted[at]
        best: tuple[float, Spots, int] | None = None
        for tier, least in enumerate((-1.0, NEAR_IN[0], 0.5)):
            if best is not None and best[0] <= least:
                break
            best = _cheapest(words, self._places(at, tier), room, put, best)
        return None if best is None else _set(words, best[1], best[2], self._bare)

    def _places(self, at: int, tier: int) -> OpenSpots | None:
        """The places of a tier for words, of which only those that are clear on the drawing."""
        if (at, tier) not in self._open:
            words, bare = self.wanted[at], self._bare
            spots = (_own_places, _near_places, _led_places)[tier](words)
            found = None
            if spots is not None:
                clear = bare.clear(spots.boxes)
                if words.off is not None and spots.costs[0] >= 0:
                    clear = clear[~shapely.intersects(spots.boxes[clear], words.off)]
                costs = spots.costs[clear]
                if words.inside is None:
                    boxes = spots.boxes[clear]
                    costs = costs + CROSSING_IN * shapely.intersects(boxes, bare.hatched)
                    costs += CROSSING_IN * shapely.intersects(boxes, bare.steel)
                found = OpenSpots(spots, bare, clear, costs)
            self._open[at, tier] = found
        return self._open[at, tier]


def _cheapest(
    words: Words,
    places: OpenSpots | None,
    room: Box,
    put: Sequence[Bars],
    best: tuple[float, Spots, int] | None,
) -> tuple[float, Spots, int] | None:
    """The cheapest of some free places and the best one so far, with its cost [in]."""
    if places is None:
        return best
    for cost, i in places.cheapest_first(room, put):
        if best is not None and cost >= best[0]:
            break
        elbow = places.spots.elbow(i)
        if elbow is not None:
            crossed = places.crossed(_toward(words.spot, elbow), i, room, put)
            if crossed is None:
                continue
            cost += CROSSING_IN * crossed
        if best is None or cost < best[0]:
            best = cost, places.spots, i
    return best


def _set(words: Words, spots: Spots, at: int, paper: BarePaper) -> Drawing:
    """The words at a place, their leader drawn, the hatching kept off them."""
    label, elbow = spots.label(at), spots.elbow(at)
    if shapely.intersects(label_box(label), paper.hatched):
        label = replace(label, halo=True)
    if elbow is None:
        return Drawing(labels=(label,))
    return replace(leader(words.spot, elbow, words.text, words.size_pt), labels=(label,))


def _toward(tip: Point, elbow: Point, by_in: float = 0.05) -> Point:
    """A leader's tip drawn back a little: what it points at is not what it crosses."""
    length = hypot(elbow[0] - tip[0], elbow[1] - tip[1]) or 1.0
    share = min(by_in / length, 0.9)
    return tip[0] + (elbow[0] - tip[0]) * share, tip[1] + (elbow[1] - tip[1]) * share


def _own_label(words: Words) -> Label:
    """The words as a label, its place still open."""
    text = fraction_text(words.text)
    return Label(text, 0.0, 0.0, words.size_pt, bold=words.bold, gid=words.gid)


def _own_places(words: Words) -> Spots | None:
    """Places of their own choice, and in the middle of their area."""
    labels = list(words.first)
    costs = [-1.0 + 0.01 * i for i in range(len(labels))]
    if words.inside is not None:
        inner = replace(_own_label(words), ha="center", va="center", halo=True)
        far, x, y = _spots_inside(words.inside)
        held = shapely.covers(words.inside, level_boxes(inner, x, y, CLEAR_IN))
        for i in np.flatnonzero(held):
            labels.append(replace(inner, x=float(x[i]), y=float(y[i])))
            costs.append(float(far[i]) - 1.0)
    if not labels:
        return None
    own = len(words.first)
    boxes = [*label_boxes(labels[:own], OWN_CLEAR_IN), *label_boxes(labels[own:], CLEAR_IN)]
    return ChosenSpots(np.array(costs), np.array(boxes), tuple(labels))


def _near_places(words: Words) -> Spots | None:
    """Places in rings about the spot."""
    if words.always or words.off is not None:
        return None
    near = NEAR_IN if words.leader else (*NEAR_IN, *FAR_IN[:4])
    return ring(_own_label(words), words.spot, near, words.ways, CLEAR_IN)


def _led_places(words: Words) -> Spots | None:
    """Places farther off, joined to the spot by a leader."""
    if not words.leader:
        return None
    far = (0.2, *FAR_IN) if words.always or words.off is not None else FAR_IN
    return led_ring(_own_label(words), words.spot, far, words.ways, CLEAR_IN)


def _spots_inside(area: Polygon) -> tuple[Array, Array, Array]:
    """Spots in an area, from the middle of its widest part outward: how far, x and y [in]."""
    centre = shapely.maximum_inscribed_circle(area, 0.02).coords[0]
    left, bottom, right, top = area.bounds
    x, y = np.meshgrid(
        np.linspace(left, right, 13)[1:-1], np.linspace(bottom, top, 9)[1:-1], indexing="ij"
    )
    across, up = np.append(centre[0], x.ravel()), np.append(centre[1], y.ravel())
    far = [0.2 * hypot(a - centre[0], b - centre[1]) for a, b in zip(across, up, strict=True)]
    return np.array(far), across, up


def way_of(start: Point, end: Point) -> float:
    """Direction from one point to another, counterclockwise from the right [deg]."""
    return degrees(np.arctan2(end[1] - start[1], end[0] - start[0]))
