"""The words on a wrap template, each put where there is room and clear of every line.

Letters at the corners, the names of lines and points come first, close to what they name; then
the blocks of words, as near as they can to the start line. What must outlive the cut goes on
the kept wood only.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from math import atan2, cos, degrees, hypot, radians, sin
from typing import Any, Literal

import numpy as np
import shapely
import shapely.affinity

from figures import wrap_words as say
from figures.drawing import Area, Drawing, Label, Polygon, Stroke, label_box
from figures.lettering import fraction_text, text_size, wrapped
from figures.pens import PT_PER_IN, Point
from figures.spread import EDGES, Spread, kind, off_paper
from figures.unroll import Traced
from figures.white_space import Room, rooms
from layout.answer import Answer
from layout.cuts import Hand

WIDTHS_IN = (2.6, 2.1, 3.3, 1.7, 4.2, 1.35, 5.5, 7.0)
"""Widths that a block of words may be wrapped to, the best first [in]."""
NEAR_IN = 0.45
"""A letter or a name further than this from what it names needs another place [in]."""
ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.15, 0.85)
"""Places to try along a line, as fractions of it."""
SEAM_WORDS_IN = 0.3
"""How much further off a line its words may stand, where tiles meet on it [in]."""
LEADER_IN = 0.12
_ALIKE = 1e-6

Where = Literal["kept", "waste"]


class NoRoomError(Exception):
    """Some words found no place: in the waste, or on the kept wood."""

    def __init__(self, text: str, *, in_waste: bool = False) -> None:
        super().__init__(text)
        self.in_waste = in_waste


@dataclass(frozen=True)
class Block:
    """Words under a bold heading, and the panels they may stand on, the best first."""

    heading: str
    text: str
    panels: tuple[str, ...]
    spare: bool = False
    """True where the waste will do if the kept wood is full."""


def lettered(
    laid: Spread,
    drawing: Drawing,
    factor: float,
    size_pt: float,
    keep_off: Sequence[Polygon] = (),
) -> Drawing:
    """The drawing of a wrap with all its words, none of them on the areas to keep off.

    Raises NoRoomError where some do not fit.
    """
    return _Lettering(laid, drawing, factor, size_pt, keep_off).drawn()


class _Lettering:
    """Rooms and labels of one wrap while it is being lettered."""

    def __init__(
        self,
        laid: Spread,
        drawing: Drawing,
        factor: float,
        size_pt: float,
        keep_off: Sequence[Polygon],
    ) -> None:
        self.laid = laid
        self.factor = factor
        self.size_pt = size_pt
        self.drawing = drawing
        self.strokes: list[Stroke] = []
        self.areas: list[Area] = []
        self.labels: list[Label] = []
        self.rooms: dict[tuple[str, Where], list[Room]] = {}
        obstacles = [shapely.linestrings(stroke.points) for stroke in drawing.strokes]
        for one in laid.surfaces:
            parts: tuple[tuple[Where, Polygon], ...] = (("kept", one.kept), ("waste", one.waste))
            for where, polygon in parts:
                scaled = shapely.affinity.scale(polygon, factor, factor, origin=(0, 0))
                made = rooms([scaled])
                for room in made:
                    room.take(*obstacles, *keep_off)
                self.rooms[one.panel.name, where] = made

    def drawn(self) -> Drawing:
        self._letters()
        self._cut_words()
        self._stations()
        self._fold_words()
        self._datum_words()
        self._waste_words()
        self._arrows()
        for block in blocks(self.laid):
            self._block(block)
        return self.drawing + Drawing(tuple(self.strokes), tuple(self.areas), tuple(self.labels))

    def _at(self, point: Point) -> Point:
        return point[0] * self.factor, point[1] * self.factor

    def _open(self, panels: Iterable[str], wheres: Sequence[Where]) -> list[tuple[Room, Where]]:
        names = list(panels)
        return [
            (room, where)
            for where in wheres
            for name in names
            for room in self.rooms.get((name, where), [])
        ]

    def _near(
        self,
        text: str,
        point: Point,
        panels: Iterable[str],
        *,
        size_pt: float,
        bold: bool = False,
        reach_in: float = NEAR_IN,
        wheres: Sequence[Where] = ("kept", "waste"),
        gid: str | None = None,
        leader: bool = False,
    ) -> bool:
        """Put a short label as near as can be to a point on paper, if it can be near enough."""
        size = text_size(text, size_pt, bold)
        best: tuple[float, Room, Where, Point] | None = None
        for room, where in self._open(panels, wheres):
            found = room.find(size, point)
            if found is None:
                continue
            box = shapely.box(*found, found[0] + size[0], found[1] + size[1])
            far = float(shapely.distance(box, shapely.Point(point)))
            far += 0.15 * wheres.index(where)
            if best is None or far < best[0]:
                best = far, room, where, found
        if best is None or best[0] > reach_in:
            return False
        _, room, where, found = best
        label = Label(text, *found, size_pt, bold=bold, gid=gid, halo=where == "waste")
        self._put(label)
        if leader:
            self._leader(label, point)
        return True

    def _put(self, label: Label) -> None:
        self.labels.append(label)
        self._take(label_box(label))

    def _take(self, shape: Any) -> None:
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
        stroke = Stroke(((ax + (bx - ax) * into, ay + (by - ay) * into), point), "dimension")
        self.strokes.append(stroke)
        self._take(shapely.linestrings(stroke.points))

    def _along(
        self,
        texts: Sequence[str],
        line: tuple[Point, Point],
        panels: Iterable[str],
        *,
        size_pt: float,
        bold: bool = False,
        wheres: Sequence[Where] = ("kept", "waste"),
        gid: str | None = None,
    ) -> bool:
        """Put words beside a line on paper, running with it; the first text that fits."""
        (ax, ay), (bx, by) = line
        angle = degrees(atan2(by - ay, bx - ax))
        if not -90 + 1e-9 < angle <= 90 + 1e-9:
            angle += 180 if angle <= 0 else -180
        names = list(panels)
        near = self.size_pt / PT_PER_IN * 0.25 + 0.03
        vas: tuple[Literal["bottom", "top"], ...] = ("bottom", "top")
        for off, text, share, (room, where), va in product(
            (near, near + SEAM_WORDS_IN), texts, ALONG, self._open(names, wheres), vas
        ):
            x, y = ax + (bx - ax) * share, ay + (by - ay) * share
            turn = radians(angle + (90 if va == "bottom" else -90))
            x, y = x + off * cos(turn), y + off * sin(turn)
            halo = where == "waste"
            label = Label(text, x, y, size_pt, "center", va, angle, bold, gid, halo)
            if room.fits(label_box(label)):
                self._put(label)
                return True
        return False

    def _letters(self) -> None:
        """The same letter on both sides of each arris where a line goes round it."""
        for letter, ends in zip(_names(), corners(self.laid), strict=False):
            for panel, point, inward in ends:
                x, y = self._at(point)
                aim = x + inward[0] * 0.14, y + inward[1] * 0.14
                for size in (10.0, 9.0, 8.0):
                    if self._near(letter, aim, [panel], size_pt=size, bold=True, gid="corner"):
                        break
                else:
                    raise NoRoomError(letter)

    def _cut_words(self) -> None:
        """The heavy lines are named; with two planes each says what it lies against."""
        planes = self.laid.answer.question.joint.planes
        for one in self.laid.surfaces:
            for mark in one.marks:
                a, b = (self._at(end) for end in mark.line)
                mate = planes[mark.which].mate_name
                full = [f"CUT, against the {mate}", f"CUT: {mate}"] if len(planes) > 1 else []
                texts = [*full, "CUT THIS LINE", "CUT"]
                self._along(texts, (a, b), [one.panel.name], size_pt=8.0, bold=True, gid="cut")

    def _stations(self) -> None:
        if kind(self.laid.answer) == "notch":
            return
        around = [name for name in self.laid.by_name if name != "end"]
        for station in self.laid.stations:
            if station.name == "mark":
                continue
            for size in (8.0, 7.5):
                if self._near(
                    station.name,
                    self._at(station.at),
                    around,
                    size_pt=size,
                    bold=station.name.isupper(),
                    reach_in=1.2,
                    wheres=("kept",),
                    gid="station",
                    leader=True,
                ):
                    break
            else:
                raise NoRoomError(station.name)

    def _fold_words(self) -> None:
        for fold in self.laid.folds:
            panels = [
                one.panel.name
                for one in self.laid.surfaces
                if shapely.distance(one.panel.shape(), shapely.LineString(fold.line)) < _ALIKE
            ]
            line = (self._at(fold.line[0]), self._at(fold.line[1]))
            texts = [f"FOLD: {fold.arris}", "FOLD"]
            if not self._along(texts, line, panels, size_pt=8.0, gid="fold-words"):
                raise NoRoomError("FOLD")

    def _datum_words(self) -> None:
        """The one edge to align first, and the start line, named along them."""
        v, arris = self.laid.datum
        x0, v0, x1, v1 = self.laid.box
        panels = [
            one.panel.name
            for one in self.laid.surfaces
            if one.panel.name != "end"
            and one.panel.box[1] - _ALIKE <= v <= one.panel.box[3] + _ALIKE
        ]
        line = self._at((x0, v)), self._at((x1, v))
        texts = [f"ALIGN HERE: {arris}", "ALIGN HERE"]
        if not self._along(texts, line, panels, size_pt=8.0, bold=True, gid="datum-words"):
            raise NoRoomError("ALIGN HERE")
        if self.laid.start_x is not None:
            x = self.laid.start_x
            line = self._at((x, v0)), self._at((x, v1))
            for panel in ("right face", "left face", *EDGES):
                if panel in self.laid.by_name:
                    _, low, _, high = self.laid.by_name[panel].panel.box
                    line = self._at((x, low)), self._at((x, high))
                    if self._along(
                        ["START LINE"], line, [panel], size_pt=8.0, wheres=("kept",), gid="start"
                    ):
                        return
            raise NoRoomError("START LINE")

    def _waste_words(self) -> None:
        said = 0
        for one in self.laid.surfaces:
            for room in self.rooms[one.panel.name, "waste"]:
                said += self._waste_word(room)
        if not said:
            raise NoRoomError("WASTE", in_waste=True)

    def _waste_word(self, room: Room) -> bool:
        middle = shapely.point_on_surface(room.region)
        for size in (12.0, 10.0, 9.0, 8.0):
            wide, high = text_size("WASTE", size, True)
            for turned in (False, True):
                found = room.find((high, wide) if turned else (wide, high), (middle.x, middle.y))
                if found is None:
                    continue
                x, y = found
                label = (
                    Label("WASTE", x + high, y, size, va="bottom", rotation_deg=90.0)
                    if turned
                    else Label("WASTE", x, y, size)
                )
                self._put(
                    Label(
                        label.text,
                        label.x,
                        label.y,
                        size,
                        rotation_deg=label.rotation_deg,
                        bold=True,
                        gid="waste",
                        halo=True,
                    )
                )
                return True
        return False

    def _arrows(self) -> None:
        """On each face an arrow to either end of the board."""
        for name in ("right face", "left face"):
            if name not in self.laid.by_name:
                continue
            size = self.size_pt
            foot, head = text_size("FOOT", size, True)[0], text_size("HEAD", size, True)[0]
            high = text_size("HEAD", size, True)[1]
            tip, gap = 0.22, 0.05
            wide = tip + gap + foot + 3 * gap + head + gap + tip
            for room in self.rooms[name, "kept"]:
                found = room.place((wide, high), self._home(room), corner=self._corner())
                if found is not None:
                    break
            else:
                raise NoRoomError("HEAD")
            x, y = found
            mid = y + high / 2
            self.labels.append(Label("FOOT", x + tip + gap, y, size, bold=True))
            self.labels.append(Label("HEAD", x + wide - tip - gap, y, size, ha="right", bold=True))
            for end, way in ((x, 1.0), (x + wide, -1.0)):
                self.strokes.append(Stroke(((end, mid), (end + way * tip, mid)), "guide", "arrow"))
                barb = end + way * 0.1
                arrow = shapely.Polygon([(end, mid), (barb, mid + 0.04), (barb, mid - 0.04)])
                self.areas.append(Area(arrow, "ink", "arrow"))

    def _corner(self) -> Point:
        """The corner of a block that lies toward the start line: where words begin."""
        return (0.0 if self.laid.toward > 0 else 1.0), 1.0

    def _home(self, room: Room) -> Point:
        left, _, right, top = shapely.bounds(room.region)
        return float(left if self.laid.toward > 0 else right), float(top)

    def _block(self, block: Block) -> None:
        wheres: tuple[Where, ...] = ("kept", "waste") if block.spare else ("kept",)
        text = fraction_text(block.text)
        for room, where in self._open(block.panels, wheres):
            for width in WIDTHS_IN:
                words = wrapped(text, self.size_pt, width)
                heading = wrapped(fraction_text(block.heading), self.size_pt, width, True)
                wide, high = self._size(heading, words)
                if wide > width + 0.3:
                    continue
                found = room.place((wide, high), self._home(room), corner=self._corner())
                if found is None:
                    continue
                x, y = found
                size, halo = self.size_pt, where == "waste"
                self.labels.append(
                    Label(heading, x, y + high, size, va="top", bold=True, gid="block", halo=halo)
                )
                if words:
                    self.labels.append(Label(words, x, y, size, gid="block", halo=halo))
                return
        raise NoRoomError(block.heading)

    def _size(self, heading: str, words: str) -> Point:
        wide, high = text_size(heading, self.size_pt, True)
        if not words:
            return wide, high
        more, below = text_size(words, self.size_pt)
        return max(wide, more), high + below + 0.02


def _names() -> Iterable[str]:
    """Letters for the corners, without I and O, which are read as figures."""
    letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    yield from letters
    yield from (first + second for first in letters for second in letters)


End = tuple[str, Point, Point]
"""A panel, the end of a mark on it, and the way from there along the mark (a unit vector)."""


def corners(laid: Spread) -> list[list[End]]:
    """The mark ends that meet on the board when the paper is folded, from the start line on."""
    ends: list[tuple[Any, End]] = []
    for one in laid.surfaces:
        for mark in one.marks:
            if _lies_on_fold(laid, mark.line):
                continue
            for here, there in (mark.line, mark.line[::-1]):
                length = hypot(there[0] - here[0], there[1] - here[1])
                way = (there[0] - here[0]) / length, (there[1] - here[1]) / length
                ends.append((one.panel.board(here), (one.panel.name, here, way)))
    groups: list[list[End]] = []
    used: set[int] = set()
    for i, (place, _) in enumerate(ends):
        if i in used:
            continue
        same = [
            j
            for j in range(i, len(ends))
            if j not in used and float(np.abs(ends[j][0] - place).max()) < 1e-6
        ]
        used.update(same)
        panels = {ends[j][1][0]: ends[j][1] for j in same}
        if len(panels) > 1:
            groups.append(list(panels.values()))
    return groups


def _lies_on_fold(laid: Spread, line: tuple[Point, Point]) -> bool:
    (_, v), (_, w) = line
    return any(
        abs(fold.line[0][1] - v) < _ALIKE and abs(fold.line[1][1] - w) < _ALIKE
        for fold in laid.folds
    )


def blocks(laid: Spread) -> list[Block]:
    """The blocks of words of a wrap, those with the least choice first."""
    answer = laid.answer
    planes = {one.which: one for one in (answer, *answer.others)}
    rip = answer.is_rip
    made = []
    second = laid.stop_short or "left face"
    planes_alike = len(planes) == 1
    faces = tuple(name for name in ("right face", "left face") if name in laid.by_name)
    for one in laid.surfaces:
        name = one.panel.name
        here = [planes[which] for which in sorted({mark.which for mark in one.marks})]
        if name == "end":
            continue
        if "edge" in name or "bevel" in name:
            made.append(Block(*_edge_words(laid, one, here), (name, *faces), spare=rip))
            continue
        side = Hand.RIGHT if name == "right face" else Hand.LEFT
        if rip:
            words = _rip_face_words(laid, one, here)
        else:
            words = say.face_words(here, side, short=name == second and planes_alike)
        stop = off_paper(laid)
        if stop is not None and name == laid.stop_short and laid.start_x is not None:
            arris, x = stop
            way = "head" if x > laid.start_x else "foot"
            words += " " + say.carry_on_words(arris, x - laid.start_x, way)
        made.append(Block(name.upper(), words, (name,)))
    panels = (*faces, *(name for name in laid.by_name if name in EDGES))
    made.append(Block(say.title(answer), say.what_it_is(answer), panels))
    use = say.steps(kind(answer), *_start_words(laid))
    made.append(Block("TO USE", use, panels, spare=True))
    if answer.is_rip:
        made.append(Block("END GRAIN", say.END_FLAP, ("end", *panels), spare=True))
    return made


def _start_words(laid: Spread) -> tuple[str, str]:
    """Where the start line stands, and the name of the edge to align."""
    _, arris = laid.datum
    if laid.start_x is None:
        return "", arris
    name = laid.stations[0].name
    point = "long point" if name == "LONG POINT" else name
    if name == "mark":
        point = "mark on the edge"
    return f"{say.distance(laid.long_from_start_in)} from the {point}", arris


def _edge_words(laid: Spread, one: Traced, here: list[Answer]) -> tuple[str, str]:
    name = one.panel.name
    heading = name.upper()
    if laid.answer.is_rip:
        hollow = laid.hollow
        planes = [laid.answer, *laid.answer.others]
        return heading, say.rip_edge_words(planes, hollow[1] if hollow else None)
    crown = f" {say.CROWN}" if name == "top edge" else ""
    if "bevel" in name:
        side = Hand.RIGHT if name == "right bevel" else Hand.LEFT
        return heading, say.bevel_words(here, side)
    return heading, say.edge_words(here) + crown


def _rip_face_words(laid: Spread, one: Traced, here: list[Answer]) -> str:
    if not one.marks:
        return "This face keeps its arris."
    _, low, _, high = one.panel.box
    v = one.marks[0].line[0][1]
    fold = next(
        fold
        for fold in laid.folds
        if abs(fold.line[0][1] - low) < _ALIKE or abs(fold.line[0][1] - high) < _ALIKE
        if fold.line[0][1] == fold.line[1][1]
    )
    return say.gauge_words(here, abs(v - fold.line[0][1]), fold.arris)
