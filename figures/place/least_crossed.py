"""Names that must all be on the sheet, each where it can be read of nothing but its own stick.

For a plan of many sticks: every one is named, whatever the crowd. A name stands beside its own
lines where it crosses nothing and nothing else is nearer. Where there is no such place it stands
in free paper, and a line leads from it to a dot on what it names. Where there is none of that
either it goes where it crosses least, and never onto another name while a line will do.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Label, Polygon, Stroke, label_box
from figures.ink.lettering import text_size
from figures.ink.pens import Point
from layout.vector import Array

NAME_COST = 100
"""How many lines a name would rather cross than touch one other name."""
NEARER_IN = 0.002
"""By how much the lines of a name must be nearer to it than any others [in]."""
DOT_IN = 0.014
"""Radius of the dot at the end of a line from a name [in]."""
LED_IN = (0.2, 0.25, 0.3, 0.4, 0.5, 0.65, 0.8, 1.0, 1.25, 1.5, 1.8, 2.2, 2.7)
"""How far from its dot a name stands, measured to its middle [in]."""
LED_WAYS_DEG = np.arange(0.0, 360.0, 7.5)
"""Ways from a dot to its name; those that look like a stick are taken where no others are free."""
ASLANT_DEG = 9.0
"""A line from a name that lies nearer to the way a stick runs than this looks like one."""
ALOOF_IN = 0.06
"""A led name that stands nearer to other lines than this looks like theirs [in]."""
CROWDED_IN = 2.5
"""How much longer a line from a name may be that lets it stand apart from other lines [in]."""
CROSSING_IN = 0.12
"""How much longer a line from a name may be for every stick fewer that it crosses [in]."""


@dataclass(frozen=True)
class NamePlaces:
    """What a name may do: where it may stand without a line, what a line may point at, and where
    it may stand last of all. `gid` is that of the strokes it names. Places are tried in order."""

    label: Label
    gid: str
    places: Sequence[Label]
    spots: Sequence[Point]
    last: Sequence[Label] = ()


def least_crossed(
    wanted: Iterable[NamePlaces], drawing: Drawing, clear_in: float, room_in: float = 0.1
) -> Drawing:
    """Every name with the lines that lead from names; those that come first choose first.

    `clear_in` is the white between a name and all but the lines it names [in]; it stands no
    farther than `room_in` outside the drawing. A name without any place is left out.
    """
    crowd = _Crowd(drawing, clear_in, room_in)
    waiting = [each for each in wanted if not crowd.takes(crowd.beside(each))]
    for each in waiting:
        led = crowd.led(each, crowd.ways_deg) or crowd.led(each, LED_WAYS_DEG)
        if not crowd.takes(led):
            crowd.takes(crowd.crossing_least(each))
    return crowd.put


class _Crowd:
    """The lines and names that stand on the paper already."""

    def __init__(self, drawing: Drawing, clear_in: float, room_in: float) -> None:
        self.put = Drawing()
        self.clear_in = clear_in
        self.lines = [shapely.linestrings(stroke.points) for stroke in drawing.strokes]
        self.gids = [stroke.gid for stroke in drawing.strokes]
        self.own: dict[str | None, list[Polygon]] = {}
        for gid, line in zip(self.gids, self.lines, strict=True):
            self.own.setdefault(gid, []).append(line)
        self.tree = shapely.STRtree(self.lines)
        self.taken = [label_box(label) for label in drawing.labels]
        self.taken += [area.polygon for area in drawing.areas]
        left, bottom, right, top = drawing.bounds()
        self.ways_deg = _aslant(drawing)
        self.room = (left - room_in, bottom - room_in, right + room_in, top + room_in)

    def takes(self, found: Drawing | None) -> bool:
        """Put a name on the paper; whether there was one."""
        if found is None:
            return False
        self.put += found
        self.taken += [label_box(label, self.clear_in) for label in found.labels]
        self.taken += [shapely.linestrings(stroke.points) for stroke in found.strokes]
        return True

    def beside(self, each: NamePlaces) -> Drawing | None:
        """The first place where a name crosses nothing and no other lines are nearer."""
        for label in each.places:
            free = not self._crossed(each, label) and not self._touched(label)
            if free and self._is_nearest(each, label_box(label)):
                return Drawing(labels=(label,))
        return None

    def led(self, each: NamePlaces, ways_deg: Array) -> Drawing | None:
        """The free place with the shortest line, each stick that it crosses counted as length."""
        if not each.spots:
            return None
        blocked = shapely.STRtree(self.taken)
        spots, far, ways = (
            part.ravel()
            for part in np.meshgrid(
                np.arange(len(each.spots)), LED_IN, np.radians(ways_deg), indexing="ij"
            )
        )
        tips = np.array(each.spots)[spots]
        middles = tips + far[:, None] * np.stack([np.cos(ways), np.sin(ways)], axis=1)
        wide, high = text_size(each.label.text, each.label.size_pt, each.label.bold)
        reach = np.array([wide, high]) / 2 + self.clear_in
        low, up = middles - reach, middles + reach
        left, bottom, right, top = self.room
        held = np.all((low > (left, bottom)) & (up < (right, top)), axis=1)
        tips, middles, low, up = (part[held] for part in (tips, middles, low, up))
        boxes = shapely.box(*low.T, *up.T)
        free = np.ones(len(boxes), dtype=bool)
        for there in (blocked, self.tree):
            free[there.query(boxes, predicate="intersects")[0]] = False
        tips, middles, boxes = tips[free], middles[free], boxes[free]
        lines = shapely.difference(shapely.linestrings(np.stack([tips, middles], axis=1)), boxes)
        costs = shapely.length(lines)
        clear = costs > 2 * DOT_IN
        clear[blocked.query(lines, predicate="intersects")[0]] = False
        crossed = self.tree.query(lines, predicate="intersects")[0]
        costs = costs + CROSSING_IN * np.bincount(crossed, minlength=len(lines))
        costs[np.unique(self.tree.query(boxes, predicate="dwithin", distance=ALOOF_IN)[0])] += (
            CROWDED_IN
        )
        if not clear.any():
            return None
        best = int(np.argmin(np.where(clear, costs, np.inf)))
        return _led(each, lines[best], tuple(tips[best].tolist()), tuple(middles[best].tolist()))

    def crossing_least(self, each: NamePlaces) -> Drawing | None:
        """Where a name crosses least, whatever is near."""
        best, fewest = None, float("inf")
        for label in (*each.places, *each.last):
            crossed = self._crossed(each, label) + NAME_COST * self._touched(label)
            if crossed < fewest:
                best, fewest = label, crossed
        return None if best is None else Drawing(labels=(best,))

    def _crossed(self, each: NamePlaces, label: Label) -> int:
        """How many lines a name touches: its own may come as near as they do not touch it."""
        box = label_box(label)
        return sum(
            1
            for i in self.tree.query(label_box(label, self.clear_in), predicate="intersects")
            if self.gids[i] != each.gid or self.lines[i].intersects(box)
        )

    def _touched(self, label: Label) -> int:
        """How many names, lines from names and arrows a name touches."""
        wide = label_box(label, self.clear_in)
        return sum(1 for other in self.taken if other.intersects(wide))

    def _is_nearest(self, each: NamePlaces, box: Polygon) -> bool:
        """Whether what a name names is nearer to it than all else that has a name."""
        own = min((box.distance(line) for line in self.own.get(each.gid, ())), default=0.0)
        near = self.tree.query(box, predicate="dwithin", distance=own + NEARER_IN)
        return all(self.gids[i] in (None, each.gid) for i in near)


def _aslant(drawing: Drawing) -> Array:
    """The ways in which a line from a name looks like no stick; all, where sticks run every way."""
    runs = []
    for stroke in drawing.strokes:
        steps = np.diff(np.array(stroke.points), axis=0)
        x, y = steps[int(np.argmax(np.hypot(*steps.T)))]
        runs.append(round(float(np.degrees(np.arctan2(y, x))) % 180.0, 1))
    apart = np.abs(LED_WAYS_DEG[:, None] - np.array(sorted(set(runs)))[None, :]) % 180.0
    aslant = np.all(np.minimum(apart, 180.0 - apart) > ASLANT_DEG, axis=1)
    ways: Array = LED_WAYS_DEG[aslant] if aslant.any() else LED_WAYS_DEG
    return ways


def _led(each: NamePlaces, line: Polygon, tip: Point, middle: Point) -> Drawing:
    """A name that stands level with its middle at a spot, its line, and the dot at its tip."""
    label = replace(
        each.label,
        x=middle[0], y=middle[1], ha="center", va="center", rotation_deg=0.0,
    )  # fmt: skip
    points = tuple((float(x), float(y)) for x, y in line.coords)
    dot = shapely.Point(tip).buffer(DOT_IN)
    return Drawing(
        (Stroke(points, "dimension", f"leader-{label.text}"),),
        (Area(dot, "ink", f"dot-{label.text}"),),
        (label,),
    )
