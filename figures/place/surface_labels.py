"""Labels put into white space beside what they name: near a point, or along a line.

The wood is parted into surfaces, each with what is kept and what is waste, and a label stands on
one of them. Inches on paper.

For full-size sheets, which cannot be drawn smaller: a name must stand on the surface that it names,
its nearest free place is found exactly (`white_space`), and where there is none the caller is told
so and says the words in the notes. `placing` is for pictures.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import product
from math import atan2, cos, degrees, hypot, radians, sin
from typing import Any, Literal

import shapely

from figures.ink.drawing import Area, Label, Stroke, label_box, label_boxes, label_corners
from figures.ink.lettering import text_size
from figures.ink.pens import PT_PER_IN, Point
from figures.place.white_space import FreeRoom

NEAR_IN = 0.45
"""Words further than this from what they name need another place [in]."""
ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.15, 0.85)
"""Places to try along a line, as fractions of it."""
SEAM_WORDS_IN = 0.3
"""How much further off a line its words may stand, where tiles meet on it [in]."""
LEADER_IN = 0.12
"""Words nearer than this to their point need no leader [in]."""
WoodPart = Literal["kept", "waste"]
"""The part of a surface that words stand on: on waste they clear their paper of hatching."""


Segment = tuple[Point, Point]


class SurfaceLabels:
    """Labels and leaders that are put on the rooms of named surfaces, one after the other."""

    def __init__(self) -> None:
        self.rooms: dict[tuple[str, WoodPart], list[FreeRoom]] = {}
        self.strokes: list[Stroke] = []
        self.areas: list[Area] = []
        self.labels: list[Label] = []

    def open(
        self, panels: Iterable[str], wheres: Sequence[WoodPart]
    ) -> list[tuple[FreeRoom, WoodPart]]:
        """The rooms of these surfaces, those of the first part of the wood first."""
        names = list(panels)
        return [
            (room, where)
            for where in wheres
            for name in names
            for room in self.rooms.get((name, where), [])
        ]

    def near(
        self,
        text: str,
        point: Point,
        panels: Iterable[str],
        *,
        size_pt: float,
        bold: bool = False,
        reach_in: float = NEAR_IN,
        wheres: Sequence[WoodPart] = ("kept", "waste"),
        gid: str | None = None,
        leader: bool = False,
    ) -> bool:
        """Put a short label as near as can be to a point on paper, if it can be near enough."""
        size = text_size(text, size_pt, bold)
        tries: list[tuple[float, int, FreeRoom, WoodPart, Point]] = []
        for room, where in self.open(panels, wheres):
            found = room.find(size, point)
            if found is None:
                continue
            box = shapely.box(*found, found[0] + size[0], found[1] + size[1])
            far = float(shapely.distance(box, shapely.Point(point)))
            far += 0.15 * wheres.index(where)
            tries.append((far, len(tries), room, where, found))
        for far, _, _, where, found in sorted(tries, key=lambda one: one[:2]):
            if far > reach_in:
                break
            label = Label(text, *found, size_pt, bold=bold, gid=gid, halo=where == "waste")
            line = shapely.shortest_line(label_box(label), shapely.Point(point))
            if leader and any(shapely.intersects(label_box(one), line) for one in self.labels):
                continue
            self.put(label)
            if leader:
                self._leader(label, point)
            return True
        return False

    def put(self, label: Label) -> None:
        """Put a label where it says, and take its box from every room."""
        self.labels.append(label)
        self.take(label_box(label))

    def take(self, shape: Any) -> None:
        """Let a line or an area take what it covers of every room."""
        for made in self.rooms.values():
            for room in made:
                room.take(shape)

    def _leader(self, label: Label, point: Point) -> None:
        """A thin line from words to the point they name, where they stand off from it."""
        box = label_box(label)
        start = shapely.shortest_line(box, shapely.Point(point))
        (ax, ay), (bx, by) = start.coords
        length = hypot(bx - ax, by - ay)
        if length < LEADER_IN:
            return
        into = 0.03 / length
        stroke = Stroke(
            ((ax + (bx - ax) * into, ay + (by - ay) * into), point), "dimension", "pointer"
        )
        self.strokes.append(stroke)
        self.take(shapely.linestrings(stroke.points))

    def callout(
        self,
        text: str,
        tip: Point,
        outside: FreeRoom,
        *,
        size_pt: float,
        bold: bool = False,
        gid: str | None = None,
    ) -> bool:
        """Put a label off the drawing, as near as can be to what it names, and point there.

        The pointer crosses no words where it need not. False where `outside` has no place for
        the label: it is then for the caller to say the words elsewhere.
        """
        size = text_size(text, size_pt, bold)
        words = label_boxes(self.labels)
        best: tuple[int, float, Point] | None = None
        left, bottom, right, top = outside.bounds
        near = (tip, (tip[0], top), (tip[0], bottom), (left, tip[1]), (right, tip[1]))
        for aim in near:
            found = outside.find(size, aim)
            if found is None:
                continue
            box = shapely.box(*found, found[0] + size[0], found[1] + size[1])
            line = shapely.shortest_line(box, shapely.Point(tip))
            crossed = int(shapely.intersects(words, line).sum()) if words else 0
            key = crossed, float(line.length), found
            if best is None or key < best:
                best = key
        if best is None:
            return False
        label = Label(text, *best[2], size_pt, bold=bold, gid=gid)
        self.put(label)
        outside.take(label_box(label))
        box = label_box(label)
        (ax, ay), (bx, by) = shapely.shortest_line(box, shapely.Point(tip)).coords
        stroke = Stroke(((ax, ay), (bx, by)), "dimension", f"pointer-{gid}" if gid else "pointer")
        self.strokes.append(stroke)
        line = shapely.linestrings(stroke.points)
        self.take(line)
        outside.take(line)
        return True

    def along(
        self,
        texts: Sequence[str],
        line: Segment,
        panels: Iterable[str],
        *,
        size_pt: float,
        bold: bool = False,
        wheres: Sequence[WoodPart] = ("kept", "waste"),
        gid: str | None = None,
    ) -> bool:
        """Put words beside a line on paper, running with it; the first text that fits."""
        (ax, ay), (bx, by) = line
        angle = degrees(atan2(by - ay, bx - ax))
        if not -90 + 1e-9 < angle <= 90 + 1e-9:
            angle += 180 if angle <= 0 else -180
        names = list(panels)
        close = size_pt / PT_PER_IN * 0.25 + 0.03
        vas: tuple[Literal["bottom", "top"], ...] = ("bottom", "top")
        opened = self.open(names, wheres)
        for off, text, share in product((close, close + SEAM_WORDS_IN), texts, ALONG):
            beside = []
            for va in vas:
                x, y = ax + (bx - ax) * share, ay + (by - ay) * share
                turn = radians(angle + (90 if va == "bottom" else -90))
                x, y = x + off * cos(turn), y + off * sin(turn)
                label = Label(text, x, y, size_pt, "center", va, angle, bold, gid)
                beside.append((label, label_corners(label)))
            for (room, where), (label, corners) in product(opened, beside):
                if room.reaches(corners) and room.fits(label_box(label)):
                    self.put(replace(label, halo=where == "waste"))
                    return True
        return False
