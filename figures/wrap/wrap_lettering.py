"""The words on a wrap template, each put where there is room and clear of every line.

Letters at the corners, the names of lines and points come first, close to what they name; then
the blocks of words, as near as they can to the start line. What must outlive the cut goes on
the kept wood only.
"""

from collections.abc import Sequence
from dataclasses import replace

import shapely

from figures.ink.drawing import Area, Drawing, Label, Polygon, Stroke
from figures.ink.lettering import fraction_text, text_size, wrapped
from figures.ink.pens import Point
from figures.place.labelling import NEAR_IN, Lettering, Line, Where
from figures.place.white_space import Room, rooms
from figures.wood.unroll import on_paper
from figures.wrap.spread import Spread, kind
from figures.wrap.wrap_blocks import Block, blocks, corners, letters

WIDTHS_IN = (2.6, 2.3, 2.1, 3.3, 1.7, 4.2, 1.35, 1.5, 1.15, 5.5, 7.0)
"""Widths that a block of words may be wrapped to, the best first [in]."""
STUDY_WORDS_IN = 6.0
"""The least width of the words under a study view [in]."""


_ALIKE = 1e-6


class NoRoomError(Exception):
    """Some words found no place: in the waste, or on the kept wood."""

    def __init__(self, text: str, *, in_waste: bool = False) -> None:
        super().__init__(text)
        self.in_waste = in_waste


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


class _Lettering(Lettering):
    """Rooms and labels of one wrap while it is being lettered."""

    def __init__(
        self,
        laid: Spread,
        drawing: Drawing,
        factor: float,
        size_pt: float,
        keep_off: Sequence[Polygon],
    ) -> None:
        super().__init__()
        self.laid = laid
        self.factor = factor
        self.size_pt = size_pt
        self.drawing = drawing
        obstacles = [shapely.linestrings(stroke.points) for stroke in drawing.strokes]
        for one in laid.surfaces:
            parts: tuple[tuple[Where, Polygon], ...] = (("kept", one.kept), ("waste", one.waste))
            for where, polygon in parts:
                made = rooms([on_paper(polygon, factor)])
                for room in made:
                    room.take(*obstacles, *keep_off)
                self.rooms[one.panel.name, where] = made

    def drawn(self) -> Drawing:
        self._stations()
        self._letters()
        self._cut_words()
        self._fold_words()
        self._datum_words()
        self._waste_words()
        faces = [name for name in ("right face", "left face") if name in self.laid.by_name]
        faces.sort(key=lambda name: name == self.laid.stop_short)
        # One arrow there must be, a second only where the words have left room for it.
        first = next((name for name in faces if self._arrow(name)), None)
        if first is None:
            self._miss("HEAD")
        study = self.factor != 1.0
        made = blocks(self.laid, study=study)
        if study:
            self._below(made)
        else:
            for block in made:
                self._block(block)
        for name in faces:
            if name != first:
                self._arrow(name)
        return self.drawing + Drawing(tuple(self.strokes), tuple(self.areas), tuple(self.labels))

    def _miss(self, text: str, *, in_waste: bool = False) -> None:
        """Small words may go missing from a study view, where a board is too small for them."""
        if self.factor == 1.0:
            raise NoRoomError(text, in_waste=in_waste)

    def _at(self, point: Point) -> Point:
        return point[0] * self.factor, point[1] * self.factor

    def _letters(self) -> None:
        """The same letter on both sides of each arris where a line goes round it."""
        for letter, ends in zip(letters(), corners(self.laid), strict=False):
            for panel, point, inward in ends:
                x, y = self._at(point)
                aim = x + inward[0] * 0.14, y + inward[1] * 0.14
                tries: tuple[tuple[float, int], ...]
                tries = ((10.0, 1), (9.0, 1), (8.0, 1), (8.0, 2), (8.0, 4), (8.0, 8))
                if self.factor != 1.0:
                    tries = tries[:3]
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
                    self._miss(letter)

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
                a, b = (self._at(end) for end in mark.line)
                mate = planes[mark.which].mate_words
                full = [f"CUT, against {mate}", f"CUT: {mate}"] if len(planes) > 1 else []
                texts = [*full, "CUT THIS LINE", "CUT"]
                self.along(texts, (a, b), [one.panel.name], size_pt=8.0, bold=True, gid="cut")

    def _stations(self) -> None:
        if kind(self.laid.answer) == "notch":
            return
        around = [name for name in self.laid.by_name if name != "end"]
        for station in self.laid.stations:
            if station.name == "mark":
                continue
            for size in (8.0, 7.5):
                if self.near(
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
                self._miss(station.name)

    def _lines(self, gid: str) -> list[Line]:
        """The lines of an id as they are drawn, the longest first."""
        found = [
            (stroke.points[0], stroke.points[-1])
            for stroke in self.drawing.strokes
            if stroke.gid == gid
        ]
        return sorted(found, key=lambda line: -shapely.LineString(line).length)

    def _beside(self, line: Line) -> list[str]:
        """The surfaces that a line on paper borders."""
        on_board = shapely.LineString([(x / self.factor, y / self.factor) for x, y in line])
        return [
            one.panel.name
            for one in self.laid.surfaces
            if shapely.distance(one.panel.shape(), on_board) < _ALIKE
        ]

    def _name(self, gid: str, texts: Sequence[str], *, bold: bool, words: str) -> None:
        """Write along the lines of an id what they are."""
        short = self.laid.stop_short
        for line in self._lines(gid):
            # A face that is shown whole has the most room.
            beside = sorted(
                self._beside(line), key=lambda name: ("face" not in name, name == short)
            )
            for panel in beside:
                if self.along(texts, line, [panel], size_pt=8.0, bold=bold, gid=words):
                    return
        # Beside the line there is no room: a little way off, with a leader.
        for (ax, ay), (bx, by) in self._lines(gid):
            middle = (ax + bx) / 2, (ay + by) / 2
            beside = self._beside(((ax, ay), (bx, by)))
            if self.near(
                texts[-1],
                middle,
                beside,
                size_pt=8.0,
                bold=bold,
                reach_in=1.5,
                gid=words,
                leader=True,
            ):
                return
        self._miss(texts[-1])

    def _fold_words(self) -> None:
        for fold in self.laid.folds:
            self._name(fold.gid, [f"FOLD: {fold.arris}", "FOLD"], bold=False, words="fold-words")

    def _datum_words(self) -> None:
        """The one edge to align first, and the start line, named along them."""
        _, arris = self.laid.datum
        gid = next((fold.gid for fold in self.laid.folds if fold.arris == arris), "datum")
        texts = [f"ALIGN HERE: {arris}", "ALIGN HERE"]
        self._name(gid, texts, bold=True, words="datum-words")
        if self.laid.start_x is not None:
            self._name("start-line", ["START LINE", "START"], bold=False, words="start")

    def _waste_words(self) -> None:
        said = 0
        for one in self.laid.surfaces:
            for room in self.rooms[one.panel.name, "waste"]:
                said += self._waste_word(room)
        marks = [
            (one.panel.name, (self._at(mark.line[0]), self._at(mark.line[1])))
            for one in self.laid.surfaces
            for mark in one.marks
        ]
        if not said and not any(
            self.along(["WASTE"], line, [name], size_pt=8.0, bold=True, wheres=["waste"])
            for name, line in marks
        ):
            self._miss("WASTE", in_waste=True)

    def _waste_word(self, room: Room) -> bool:
        middle = shapely.point_on_surface(room.region)
        for size in (12.0, 10.0, 9.0, 8.0):
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

    def _arrow(self, face: str) -> bool:
        """An arrow to either end of the board, on a face that has room for it."""
        size = self.size_pt
        foot, high = text_size("FOOT", size, True)
        head, _ = text_size("HEAD", size, True)
        tip, gap = 0.22, 0.05
        wide = tip + gap + foot + 3 * gap + head + gap + tip
        for room in self.rooms[face, "kept"]:
            found = room.place((wide, high), self._home(room), corner=self._corner())
            if found is not None:
                break
        else:
            return False
        x, y = found
        mid = y + high / 2
        self.labels.append(Label("FOOT", x + tip + gap, y, size, bold=True))
        self.labels.append(Label("HEAD", x + wide - tip - gap, y, size, ha="right", bold=True))
        for end, way in ((x, 1.0), (x + wide, -1.0)):
            self.strokes.append(Stroke(((end, mid), (end + way * tip, mid)), "guide", "arrow"))
            barb = end + way * 0.1
            arrow = shapely.Polygon([(end, mid), (barb, mid + 0.04), (barb, mid - 0.04)])
            self.areas.append(Area(arrow, "ink", "arrow"))
        return True

    def _corner(self) -> Point:
        """The corner of a block that lies toward the start line: where words begin."""
        return (0.0 if self.laid.toward > 0 else 1.0), 1.0

    def _home(self, room: Room) -> Point:
        left, _, right, top = shapely.bounds(room.region)
        return float(left if self.laid.toward > 0 else right), float(top)

    def _block(self, block: Block) -> None:
        wheres: tuple[Where, ...] = ("kept", "waste") if block.spare else ("kept",)
        text = fraction_text(block.text)
        for room, where in self.open(block.panels, wheres):
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

    def _below(self, made: Sequence[Block]) -> None:
        """On a study view the blocks stand under the board, and each surface bears its name."""
        for name in self.laid.by_name:
            for room, _ in self.open([name], ("kept", "waste")):
                size = text_size(name.upper(), 8.0, True)
                found = room.place(size, self._home(room), corner=self._corner())
                if found is not None:
                    self.labels.append(Label(name.upper(), *found, 8.0, bold=True, gid="block"))
                    break
        x0, v0, x1, _ = (side * self.factor for side in self.laid.box)
        width, y = max(x1 - x0, STUDY_WORDS_IN), v0 - 0.15
        for block in made:
            words = wrapped(fraction_text(block.text), self.size_pt, width)
            for text, bold in ((block.heading, True), (words, False)):
                self.labels.append(
                    Label(text, x0, y, self.size_pt, va="top", bold=bold, gid="block")
                )
                y -= text_size(text, self.size_pt, bold)[1] + 0.02
            y -= 0.05

    def _size(self, heading: str, words: str) -> Point:
        wide, high = text_size(heading, self.size_pt, True)
        if not words:
            return wide, high
        more, below = text_size(words, self.size_pt)
        return max(wide, more), high + below + 0.02
