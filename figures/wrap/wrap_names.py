"""The names on a wrap: of its lines, corners, points and waste, each beside what it names.

Where a place is too small the words stand off the paper and a pointer leads to it; where they
find no room there either, a numbered note says them.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import product

import shapely

from figures.ink.drawing import Drawing, Label, Polygon
from figures.ink.lettering import text_size, wrapped
from figures.ink.pens import Point
from figures.place.surface_labels import NEAR_IN, Segment, SurfaceLabels, WoodPart
from figures.place.white_space import FreeRoom, rooms
from figures.wood.unroll import on_paper
from figures.wrap.spread import Spread
from figures.wrap.stations import PLACE_DIGITS, kind
from figures.wrap.wrap_blocks import WrapNote, corners, letters

CUT_BY_PT = 9.8
"""Lettering of what one cuts by: capitals 2.5 mm high [pt]."""
LEAST_PT = 8.0
"""Lettering of all else: capitals 2 mm high [pt]."""
WASTE_PT = (12.0, CUT_BY_PT)
"""Lettering of the word on the waste, the better first [pt]."""
LETTER_TRIES: tuple[tuple[float, int], ...] = ((10.0, 1), (CUT_BY_PT, 2), (CUT_BY_PT, 4))
"""Lettering of a corner's letter [pt], and how many times NEAR_IN it may stand off, led by a line
past the first."""
INWARD_IN = 0.14
"""How far along its mark a corner's letter is aimed at [in]."""
POINT_IN = 1.2
"""How far from its point the name of a station may stand, with a pointer [in]."""
FAR_IN = 9.0
"""How far from its place the number of a note may stand: it is found wherever it is [in]."""
OUTSIDE_IN = 2.5
"""How far off the wrap words may stand that find no room on it [in]."""
NAME_WIDTHS_IN = (1.4, 0.95)
"""Widths that the name of a line is wrapped to, where it finds no room on one line [in]."""
_LED_WIDTHS_IN = (9.0, *NAME_WIDTHS_IN)
"""With a pointer they may: no name is 9 in long [in]."""
LED_IN = 0.8
"""How far from its middle the name of a line may stand, with a pointer [in]."""
OFF_IN = 0.12
"""White between the wrap and words off it [in]."""
_ALIKE = 1e-6


class WrapNames(SurfaceLabels):
    """Rooms and labels of one wrap while its parts are being named."""

    def __init__(
        self,
        laid: Spread,
        drawing: Drawing,
        factor: float,
        keep_off: Sequence[Polygon],
    ) -> None:
        super().__init__()
        self.laid = laid
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
        self.homeless: list[tuple[str, Point]] = []
        """Words that found no room on the wrap or off it, and the place that each names."""

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

    def _at(self, point: Point) -> Point:
        return point[0] * self.factor, point[1] * self.factor

    def _off(self, text: str, tip: Point, *, bold: bool, gid: str, size_pt: float) -> None:
        """Words off the wrap that point to a place on it; a study view does without them."""
        if self.factor == 1.0:
            self._call_out(text, tip, bold=bold, gid=gid, size_pt=size_pt)

    def _call_out(self, text: str, tip: Point, *, bold: bool, gid: str, size_pt: float) -> None:
        """Words off the wrap with their pointer; kept for a note where they find no room."""
        if not self.callout(text, tip, self.outside, size_pt=size_pt, bold=bold, gid=gid):
            self.homeless.append((" ".join(text.split()), tip))

    def _homeless_notes(self) -> list[WrapNote]:
        """A note for all words that found no room: a number with a pointer stands for them.

        Where even a number finds no room the note says which surfaces meet at the place.
        """
        made = []
        part = f"{self.laid.part}." if self.laid.part else ""
        for count, (text, tip) in enumerate(self.homeless, start=1):
            number = f"note {part}{count}"
            pointed = self.factor == 1.0 and self.near(
                number,
                tip,
                self.laid.by_name,
                size_pt=LEAST_PT,
                reach_in=FAR_IN,
                gid="note-number",
                leader=True,
            )
            spot = shapely.Point(tip[0] / self.factor, tip[1] / self.factor)
            here = [
                "end grain" if one.panel.name == "end" else one.panel.name
                for one in self.laid.surfaces
                if one.panel.shape().distance(spot) < _ALIKE
            ]
            place = f"This stands on the {' and the '.join(here)}." if here else ""
            heading = "WHERE ITS NUMBER POINTS" if pointed else "NO ROOM THERE"
            words = text if pointed else f"{text}. {place}"
            made.append(WrapNote(heading, words, number=number if pointed else ""))
        return made

    def _letters(self) -> None:
        """The same letter on both sides of each arris where a line goes round it."""
        for letter, ends in zip(letters(), corners(self.laid), strict=False):
            for panel, point, inward in ends:
                x, y = self._at(point)
                aim = x + inward[0] * INWARD_IN, y + inward[1] * INWARD_IN
                tries = LETTER_TRIES if self.factor == 1.0 else LETTER_TRIES[:1]
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
        unnamed: dict[int, tuple[str, Segment]] = {}
        named: set[int] = set()
        for one in self.laid.surfaces:
            for mark in one.marks:
                # A line that is an arris lies on two panels and is named once.
                key = tuple((round(x, PLACE_DIGITS), round(v, PLACE_DIGITS)) for x, v in mark.line)
                if key in said:
                    continue
                said.add(key)
                line = (self._at(mark.line[0]), self._at(mark.line[1]))
                mate = planes[mark.plane_index].mate_words
                if self.laid.stays(one.panel.name):
                    self._stays_words(line, one.panel.name)
                    continue
                full = [f"CUT, against {mate}", f"CUT at {mate}"] if len(planes) > 1 else []
                texts = [*full, "CUT THIS LINE", "CUT"]
                if self.along(
                    texts, line, [one.panel.name], size_pt=CUT_BY_PT, bold=True, gid="cut"
                ):
                    named.add(mark.plane_index)
                else:
                    unnamed.setdefault(mark.plane_index, (texts[0], line))
        for index, (text, ((ax, ay), (bx, by))) in unnamed.items():
            if index not in named:
                middle = (ax + bx) / 2, (ay + by) / 2
                self._off(text, middle, bold=True, gid="cut", size_pt=CUT_BY_PT)

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
                reach_in=POINT_IN,
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
            if one.panel.shape().distance(on_board) < _ALIKE
        ]

    def _name(self, gid: str, text: str, *, bold: bool, words: str) -> None:
        """Write along the lines of an id what they are, in full, or off the wrap in full."""
        if self._named(gid, text, bold=bold, words=words):
            return
        for (ax, ay), (bx, by) in self._lines(gid)[:1]:
            middle = (ax + bx) / 2, (ay + by) / 2
            tip = min(((ax, ay), (bx, by), middle), key=lambda p: self._to_edge(p))
            if self._led(gid, text, middle, bold=bold, words=words):
                return
            shown = wrapped(text, LEAST_PT, NAME_WIDTHS_IN[0], bold)
            self._off(shown, tip, bold=bold, gid=words, size_pt=LEAST_PT)

    def _led(self, gid: str, text: str, middle: Point, *, bold: bool, words: str) -> bool:
        """The name of a line near its middle, on a surface beside it, with a pointer."""
        beside = [name for line in self._lines(gid)[:1] for name in self._beside(line)]
        return any(
            self.near(
                wrapped(text, LEAST_PT, wide, bold),
                middle,
                beside,
                size_pt=LEAST_PT,
                bold=bold,
                reach_in=LED_IN,
                gid=words,
                leader=True,
            )
            for wide in _LED_WIDTHS_IN
        )

    def _named(self, gid: str, text: str, *, bold: bool, words: str) -> bool:
        """Write along the lines of an id what they are, if one of them has room for it."""
        short = self.laid.stop_short
        tries = [(text, CUT_BY_PT), (text, LEAST_PT)]
        tries += [(wrapped(text, LEAST_PT, wide, bold), LEAST_PT) for wide in NAME_WIDTHS_IN]
        for line in self._lines(gid):
            # A face that is shown whole has the most room.
            beside = sorted(
                self._beside(line), key=lambda name: ("face" not in name, name == short)
            )
            for (shown, size), panel in product(tries, beside):
                if self.along([shown], line, [panel], size_pt=size, bold=bold, gid=words):
                    return True
        return False

    def _to_edge(self, point: Point) -> float:
        x0, y0, x1, y1 = self.drawing.bounds(words=False)
        x, y = point
        return min(x - x0, x1 - x, y - y0, y1 - y)

    def _fold_words(self) -> None:
        for fold in self.laid.folds:
            if fold.arris == self.laid.datum[1] and self._datum_fold(fold.gid, fold.arris):
                continue
            self._name(fold.gid, f"FOLD: {fold.arris}", bold=False, words="fold-words")

    def _datum_fold(self, gid: str, arris: str) -> bool:
        """A fold that is aligned first, named as both in one line."""
        text = f"ALIGN HERE, FOLD: {arris}"
        return self._named(gid, text, bold=True, words="datum-words")

    def _datum_words(self) -> None:
        """The one edge to align first, and the start line, named along them."""
        _, arris = self.laid.datum
        fold = next((fold.gid for fold in self.laid.folds if fold.arris == arris), None)
        if fold is None:
            self._name("datum", f"ALIGN HERE: {arris}", bold=True, words="datum-words")
        elif not any(label.gid == "datum-words" for label in self.labels):
            # The arris is named beside it, as a fold's.
            self._name(fold, "ALIGN HERE", bold=True, words="datum-words")
        if self.laid.start_x is not None:
            which = f" {self.laid.part}" if self.laid.part else ""
            self._name("start-line", f"START LINE{which}", bold=False, words="start")

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
        for size in WASTE_PT:
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
