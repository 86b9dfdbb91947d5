"""The words on a wrap template, each put where there is room and clear of every line.

Whatever one cuts by stands on the paper beside what it names: every surface bears its own name,
every corner its letter, every heavy line what it is. Where a place is too small the words stand
off the paper and a pointer leads to it. The notes stand on their own surface where it has room,
else off the paper, under the surface's name. So no wrap is made larger for its words, and none
is refused for want of room. What must outlive the cut goes on the kept wood.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

import shapely

from figures.ink.drawing import Area, Drawing, Label, Polygon, Stroke
from figures.ink.lettering import fraction_text, text_size, wrapped
from figures.ink.pens import Point
from figures.page.cautions import CAUTION_TEXTS
from figures.place.labelling import NEAR_IN, Lettering, Segment, WoodPart
from figures.place.white_space import FreeRoom, rooms
from figures.wood.unroll import on_paper
from figures.wrap.spread import EDGES, Spread, kind
from figures.wrap.wrap_blocks import WrapNote, corners, letters, notes

WIDTHS_IN = (2.6, 2.3, 2.1, 3.3, 1.7, 4.2, 1.35, 1.5, 1.15, 5.5, 7.0)
"""Widths that a block of words may be wrapped to, the best first [in]."""
CUT_BY_PT = 9.8
"""Lettering of what one cuts by: capitals 2.5 mm high [pt]."""
LEAST_PT = 8.0
"""Lettering of all else: capitals 2 mm high [pt]."""
OUTSIDE_IN = 2.5
"""How far off the wrap words may stand that find no room on it [in]."""
OFF_IN = 0.12
"""White between the wrap and words off it [in]."""
_ALIKE = 1e-6


@dataclass(frozen=True)
class Lettered:
    """A wrap with its words, and the notes that found no room on their surface.

    `said` names the cautions that stand on it already.
    """

    drawing: Drawing
    notes: tuple[WrapNote, ...]
    said: frozenset[str] = frozenset()


def lettered(
    laid: Spread,
    drawing: Drawing,
    factor: float,
    keep_off: Sequence[Polygon] = (),
    *,
    crowded: bool = False,
    small: bool = False,
    metric: bool = False,
    first: Polygon | None = None,
) -> Lettered:
    """The drawing of a wrap with its words, none of them on the areas to keep off.

    `crowded` puts the notes about the whole sheet and the cautions on the wrap too, where there
    is room, and `small` letters a note at 8 points that finds no room otherwise. `first` is the
    part of the paper that the first page shows, where it is not all: cautions keep to it.
    """
    lettering = _WrapLettering(laid, drawing, factor, keep_off, small=small)
    return lettering.drawn(crowded=crowded, metric=metric, first=first)


class _WrapLettering(Lettering):
    """Rooms and labels of one wrap while it is being lettered."""

    def __init__(
        self,
        laid: Spread,
        drawing: Drawing,
        factor: float,
        keep_off: Sequence[Polygon],
        *,
        small: bool,
    ) -> None:
        super().__init__()
        self.laid = laid
        self.small = small
        self.factor = factor
        self.drawing = drawing
        obstacles = [shapely.linestrings(stroke.points) for stroke in drawing.strokes]
        for one in laid.surfaces:
            parts: tuple[tuple[WoodPart, Polygon], ...] = (("kept", one.kept), ("waste", one.waste))
            for where, polygon in parts:
                made = rooms([on_paper(polygon, factor)])
                for room in made:
                    room.take(*obstacles, *keep_off)
                self.rooms[one.panel.name, where] = made
        self.keep_off = keep_off
        self._outside: FreeRoom | None = None

    @property
    def outside(self) -> FreeRoom:
        """The paper round the wrap, made when the first words need it."""
        if self._outside is None:
            x0, y0, x1, y1 = self.drawing.bounds(words=False)
            # Beside its ends, so that the wrap grows no higher: that is where paper is short.
            ring = shapely.union(
                shapely.box(x0 - OUTSIDE_IN, y0, x0 - OFF_IN, y1),
                shapely.box(x1 + OFF_IN, y0, x1 + OUTSIDE_IN, y1),
            )
            self._outside = FreeRoom(ring)
            self._outside.take(*self.keep_off)
        return self._outside

    def drawn(self, *, crowded: bool, metric: bool, first: Polygon | None) -> Lettered:
        study = self.factor != 1.0
        self._letters()
        self._stations()
        self._cut_words()
        names = {one.panel.name: self._surface_name(one.panel.name) for one in self.laid.surfaces}
        self._fold_words()
        self._datum_words()
        self._waste_words()
        self._sheet_name()
        faces = [name for name in ("right face", "left face") if name in self.laid.by_name]
        faces.sort(key=lambda name: name == self.laid.stop_short)
        # One arrow there must be, a second only where the words have left room for it.
        bears = next((name for name in faces if self._arrow(name)), None)
        if bears is None:
            self._outer_arrow()
        left = []
        for note in notes(self.laid, study=study, metric=metric):
            put = not study and self._on_wrap(note, names, crowded=crowded)
            if not put:
                left.append(note)
        for name in faces:
            if name != bears:
                self._arrow(name)
        if first is not None:
            x0, y0, x1, y1 = self.drawing.bounds(words=False)
            self.take(shapely.difference(shapely.box(x0 - 1, y0 - 1, x1 + 1, y1 + 1), first))
        said = set()
        for heading, text in CAUTION_TEXTS if crowded and not study else ():
            caution = WrapNote(heading, text, spare=True, cut_by=False)
            if self._on_wrap(caution, names, crowded=True):
                said.add(heading)
        lines = Drawing(tuple(self.strokes), tuple(self.areas), tuple(self.labels))
        return Lettered(self.drawing + lines, tuple(left), frozenset(said))

    def _at(self, point: Point) -> Point:
        return point[0] * self.factor, point[1] * self.factor

    def _off(self, text: str, tip: Point, *, bold: bool, gid: str, size_pt: float) -> None:
        """Words off the wrap that point to a place on it; a study view does without them."""
        if self.factor == 1.0:
            self.callout(text, tip, self.outside, size_pt=size_pt, bold=bold, gid=gid)

    def _surface_name(self, name: str) -> Label | None:
        """A surface's own name on itself; off it with a pointer where it is too narrow."""
        text = "END GRAIN" if name == "end" else name.upper()
        wheres: tuple[WoodPart, ...] = ("kept", "waste")
        for one_where, size in product(wheres, (CUT_BY_PT, LEAST_PT)):
            wide, high = text_size(text, size, True)
            for room, where in self.open([name], (one_where,)):
                for turned in (False, True):
                    box = (high, wide) if turned else (wide, high)
                    found = room.place(box, self._home(room), corner=self._corner())
                    if found is None:
                        continue
                    label = Label(
                        text,
                        found[0] + (high if turned else 0.0),
                        found[1],
                        size,
                        rotation_deg=90.0 if turned else 0.0,
                        bold=True,
                        gid="surface",
                        halo=where == "waste",
                    )
                    self.labels.append(label)
                    self.take(shapely.box(*found, found[0] + box[0], found[1] + box[1]))
                    return label
        one = self.laid.by_name[name]
        region = on_paper(one.kept if one.kept.area > _ALIKE else one.panel.shape(), self.factor)
        spot = shapely.point_on_surface(region)
        self.callout(
            text, (spot.x, spot.y), self.outside, size_pt=CUT_BY_PT, bold=True, gid="surface"
        )
        return None

    def _sheet_name(self) -> None:
        """What the wrap is, on the kept wood: it says so still when it is cut out."""
        faces = [name for name in ("right face", "left face") if name in self.laid.by_name]
        text = self.laid.title + (f", paper {self.laid.part}" if self.laid.part else "")
        for room, _ in self.open(faces, ("kept",)):
            for width in (4.0, 2.0, 1.4, 1.0):
                words = wrapped(text, CUT_BY_PT, width, True)
                found = room.place(
                    text_size(words, CUT_BY_PT, True), self._home(room), corner=self._corner()
                )
                if found is not None:
                    self.labels.append(Label(words, *found, CUT_BY_PT, bold=True, gid="name"))
                    self.take(shapely.box(*found, found[0] + 0.01, found[1] + 0.01))
                    return

    def _letters(self) -> None:
        """The same letter on both sides of each arris where a line goes round it."""
        for letter, ends in zip(letters(), corners(self.laid), strict=False):
            for panel, point, inward in ends:
                x, y = self._at(point)
                aim = x + inward[0] * 0.14, y + inward[1] * 0.14
                tries: tuple[tuple[float, int], ...]
                tries = ((10.0, 1), (CUT_BY_PT, 2), (CUT_BY_PT, 4))
                if self.factor != 1.0:
                    tries = tries[:1]
                if not any(
                    self.near(
                        letter,
                        aim,
                        [panel],
                        size_pt=size,
                        bold=True,
                        reach_in=times * NEAR_IN,
                        gid="corner",
                        leader=times > 1,
                    )
                    for size, times in tries
                ):
                    self._off(letter, aim, bold=True, gid="corner", size_pt=CUT_BY_PT)

    def _cut_words(self) -> None:
        """The heavy lines are named; with two planes each says what it lies against."""
        planes = self.laid.answer.question.joint.planes
        said: set[tuple[Point, ...]] = set()
        for one in self.laid.surfaces:
            for mark in one.marks:
                # A line that is an arris lies on two panels and is named once.
                key = tuple((round(x, 6), round(v, 6)) for x, v in mark.line)
                if key in said:
                    continue
                said.add(key)
                line = (self._at(mark.line[0]), self._at(mark.line[1]))
                mate = planes[mark.plane_index].mate_words
                if self.laid.stays(one.panel.name):
                    self._stays_words(line, one.panel.name)
                    continue
                full = [f"CUT, against {mate}", f"CUT: {mate}"] if len(planes) > 1 else []
                texts = [*full, "CUT THIS LINE", "CUT"]
                self.along(texts, line, [one.panel.name], size_pt=CUT_BY_PT, bold=True, gid="cut")

    def _stays_words(self, line: Segment, panel: str) -> None:
        texts = ["THIS LINE STAYS: do not saw along it", "THIS LINE STAYS", "STAYS"]
        if self.along(texts, line, [panel], size_pt=CUT_BY_PT, bold=True, gid="stays"):
            return
        (ax, ay), (bx, by) = line
        middle = (ax + bx) / 2, (ay + by) / 2
        self._off(texts[1], middle, bold=True, gid="stays", size_pt=CUT_BY_PT)

    def _stations(self) -> None:
        if kind(self.laid.answer) == "notch":
            return
        around = [name for name in self.laid.by_name if name != "end"]
        for station in self.laid.stations:
            if station.name == "mark":
                continue
            at, bold = self._at(station.at), station.name.isupper()
            if not self.near(
                station.name,
                at,
                around,
                size_pt=CUT_BY_PT,
                bold=bold,
                reach_in=1.2,
                wheres=("kept",),
                gid="station",
                leader=True,
            ):
                self._off(station.name, at, bold=bold, gid="station", size_pt=CUT_BY_PT)

    def _lines(self, gid: str) -> list[Segment]:
        """The lines of an id as they are drawn, the longest first."""
        found = [
            (stroke.points[0], stroke.points[-1])
            for stroke in self.drawing.strokes
            if stroke.gid == gid
        ]
        return sorted(found, key=lambda line: -shapely.LineString(line).length)

    def _beside(self, line: Segment) -> list[str]:
        """The surfaces that a line on paper borders."""
        on_board = shapely.LineString([(x / self.factor, y / self.factor) for x, y in line])
        return [
            one.panel.name
            for one in self.laid.surfaces
            if shapely.distance(one.panel.shape(), on_board) < _ALIKE
        ]

    def _name(self, gid: str, texts: Sequence[str], *, bold: bool, words: str) -> None:
        """Write along the lines of an id what they are, in full, or off the wrap in full."""
        short = self.laid.stop_short
        for line in self._lines(gid):
            # A face that is shown whole has the most room.
            beside = sorted(
                self._beside(line), key=lambda name: ("face" not in name, name == short)
            )
            for size, panel in product((CUT_BY_PT, LEAST_PT), beside):
                if self.along(texts, line, [panel], size_pt=size, bold=bold, gid=words):
                    return
        for (ax, ay), (bx, by) in self._lines(gid)[:1]:
            middle = (ax + bx) / 2, (ay + by) / 2
            tip = min(((ax, ay), (bx, by), middle), key=lambda p: self._to_edge(p))
            self._off(texts[0], tip, bold=bold, gid=words, size_pt=CUT_BY_PT)

    def _to_edge(self, point: Point) -> float:
        x0, y0, x1, y1 = self.drawing.bounds(words=False)
        x, y = point
        return min(x - x0, x1 - x, y - y0, y1 - y)

    def _fold_words(self) -> None:
        for fold in self.laid.folds:
            self._name(fold.gid, [f"FOLD: {fold.arris}"], bold=False, words="fold-words")

    def _datum_words(self) -> None:
        """The one edge to align first, and the start line, named along them."""
        _, arris = self.laid.datum
        gid = next((fold.gid for fold in self.laid.folds if fold.arris == arris), "datum")
        self._name(gid, [f"ALIGN HERE: {arris}"], bold=True, words="datum-words")
        if self.laid.start_x is not None:
            which = f" {self.laid.part}" if self.laid.part else ""
            self._name("start-line", [f"START LINE{which}"], bold=False, words="start")

    def _waste_words(self) -> None:
        said = 0
        for one in self.laid.surfaces:
            for room in self.rooms[one.panel.name, "waste"]:
                said += self._waste_word(room)
        if said:
            return
        for one in self.laid.surfaces:
            for mark in one.marks:
                line = (self._at(mark.line[0]), self._at(mark.line[1]))
                name = [one.panel.name]
                if self.along(
                    ["WASTE"], line, name, size_pt=CUT_BY_PT, bold=True, wheres=["waste"]
                ):
                    return
        waste = max((one.waste for one in self.laid.surfaces), key=lambda part: float(part.area))
        spot = shapely.point_on_surface(on_paper(waste, self.factor))
        self._off("WASTE", (spot.x, spot.y), bold=True, gid="waste", size_pt=CUT_BY_PT)

    def _waste_word(self, room: FreeRoom) -> bool:
        middle = shapely.point_on_surface(room.region)
        for size in (12.0, CUT_BY_PT):
            wide, high = text_size("WASTE", size, True)
            for turned in (False, True):
                found = room.find((high, wide) if turned else (wide, high), (middle.x, middle.y))
                if found is None:
                    continue
                x, y = found[0] + (high if turned else 0.0), found[1]
                turn = 90.0 if turned else 0.0
                label = Label("WASTE", x, y, size, rotation_deg=turn, bold=True, gid="waste")
                self.put(replace(label, halo=True))
                return True
        return False

    def _arrow_size(self) -> tuple[Point, float, float]:
        foot, high = text_size("FOOT", CUT_BY_PT, True)
        head, _ = text_size("HEAD", CUT_BY_PT, True)
        tip, gap = 0.22, 0.05
        return (tip + gap + foot + 3 * gap + head + gap + tip, high), tip, gap

    def _arrow(self, face: str) -> bool:
        """An arrow to either end of the board, on a face that has room for it."""
        size, _, _ = self._arrow_size()
        for room in self.rooms[face, "kept"]:
            found = room.place(size, self._home(room), corner=self._corner())
            if found is not None:
                self._draw_arrow(found)
                return True
        return False

    def _outer_arrow(self) -> None:
        """The arrow off the wrap, beside it and level with it."""
        size, _, _ = self._arrow_size()
        x0, _, x1, y1 = self.drawing.bounds(words=False)
        found = self.outside.place(size, ((x0 + x1) / 2, y1))
        if found is not None:
            self._draw_arrow(found)
            self.take(shapely.box(*found, found[0] + size[0], found[1] + size[1]))

    def _draw_arrow(self, found: Point) -> None:
        (wide, high), tip, gap = self._arrow_size()
        x, y = found
        mid = y + high / 2
        self.labels.append(Label("FOOT", x + tip + gap, y, CUT_BY_PT, bold=True))
        self.labels.append(Label("HEAD", x + wide - tip - gap, y, CUT_BY_PT, ha="right", bold=True))
        for end, way in ((x, 1.0), (x + wide, -1.0)):
            self.strokes.append(Stroke(((end, mid), (end + way * tip, mid)), "guide", "arrow"))
            barb = end + way * 0.1
            arrow = shapely.Polygon([(end, mid), (barb, mid + 0.04), (barb, mid - 0.04)])
            self.areas.append(Area(arrow, "ink", "arrow"))

    def _corner(self) -> Point:
        """The corner of a block that lies toward the start line: where words begin."""
        return (0.0 if self.laid.toward > 0 else 1.0), 1.0

    def _home(self, room: FreeRoom) -> Point:
        left, _, right, top = shapely.bounds(room.region)
        return float(left if self.laid.toward > 0 else right), float(top)

    def _on_wrap(self, note: WrapNote, names: dict[str, Label | None], *, crowded: bool) -> bool:
        """A note on its own surface, which then needs no other name; one about the sheet on any."""
        wheres: tuple[WoodPart, ...] = ("kept", "waste") if note.spare else ("kept",)
        panels = ["right face", "left face", *EDGES] if note.surface is None else [note.surface]
        if note.surface is None and not crowded:
            return False
        sizes = [CUT_BY_PT] if note.cut_by else [LEAST_PT]
        if self.small and note.cut_by:
            sizes.append(LEAST_PT)
        text = fraction_text(note.text)
        opened = self.open([name for name in panels if name in self.laid.by_name], wheres)
        for size, (room, where), width in product(sizes, opened, WIDTHS_IN):
            words = wrapped(text, size, width)
            heading = wrapped(fraction_text(note.heading), size, width, True)
            wide, high = _block_size(heading, words, size)
            if wide > width + 0.3:
                continue
            found = room.place((wide, high), self._home(room), corner=self._corner())
            if found is None:
                continue
            x, y = found
            halo = where == "waste"
            self.labels.append(
                Label(heading, x, y + high, size, va="top", bold=True, gid="block", halo=halo)
            )
            self.labels.append(Label(words, x, y, size, gid="block", halo=halo))
            named = names.get(note.surface or "")
            if named is not None:
                self.labels.remove(named)
            return True
        return False


def _block_size(heading: str, words: str, size_pt: float) -> Point:
    wide, high = text_size(heading, size_pt, True)
    more, below = text_size(words, size_pt)
    return max(wide, more), high + below + 0.02
