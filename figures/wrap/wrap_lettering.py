"""The words on a wrap template, each put where there is room and clear of every line.

Whatever one cuts by stands on the paper beside what it names: every surface bears its own name,
every corner its letter, every heavy line what it is. Where a place is too small the words stand
off the paper and a pointer leads to it, or a numbered note says them. The notes stand on their
own surface where it has room, else off the paper, under the surface's name. So no wrap is made
larger for its words, and none is refused for want of room. What must outlive the cut goes on the
kept wood.
"""

from dataclasses import dataclass, replace
from enum import IntEnum
from itertools import product

import shapely

from figures.ink.drawing import Area, Drawing, Label, Polygon, Stroke
from figures.ink.lettering import fraction_text, text_size, wrapped
from figures.ink.pens import Point
from figures.page.cautions import caution_texts
from figures.place.surface_labels import WoodPart
from figures.place.white_space import FreeRoom, KeptRoom
from figures.wood.unroll import on_paper
from figures.wrap.stations import EDGES
from figures.wrap.wrap_blocks import WrapNote, notes
from figures.wrap.wrap_names import CUT_BY_PT, FAR_IN, LEAST_PT, WrapNames
from figures.wrap.wrap_words import title

WIDER_IN = 0.3
"""How much wider than it was asked for a block may be: for a long word [in]."""
HEADED_IN = 0.02
"""White between a heading and its words [in]."""
WIDTHS_IN = (2.6, 2.3, 2.1, 3.3, 1.7, 4.2, 1.35, 1.5, 1.15, 5.5, 7.0)
"""Widths that a block of words may be wrapped to, the best first [in]."""
_TITLE_WIDTHS_IN = (4.0, 2.0, 1.4, 1.0)
_ALIKE = 1e-6


class Squeeze(IntEnum):
    """What the words do where paper is short; each step does what those before it do."""

    NONE = 0
    ON_WRAP = 1
    """Notes about the whole sheet and the cautions stand on the wrap too, where it has room."""
    SMALL = 2
    """A note that finds no room otherwise is lettered at 8 points."""
    FEW_WORDS = 3
    """Notes and cautions are said in fewer words."""


@dataclass(frozen=True)
class Lettered:
    """A wrap with its words, and the notes that found no room on their surface.

    `said` names the cautions that stand on it already.
    """

    drawing: Drawing
    notes: tuple[WrapNote, ...]
    said: frozenset[str] = frozenset()


class WrapLettering(WrapNames):
    """A wrap while it is being lettered: names first, then notes where they leave room.

    It may be asked for drawings again: the names stay, the notes are tried anew.
    """

    _named_so_far: "_Named | None" = None

    def drawn(
        self, squeeze: Squeeze, first: Polygon | None = None, shared: bool = False
    ) -> Lettered:
        """The wrap with its words.

        `first` is the part of the paper that the first page shows, where it is not all: cautions
        keep to it. On a `shared` sheet the first page of the set says how all the papers are used.
        """
        study = self.factor != 1.0
        few = squeeze >= Squeeze.FEW_WORDS
        if self._named_so_far is None:
            self._named_so_far = self._put_names()
        else:
            self._put_back(self._named_so_far)
        named = self._named_so_far
        names, bears, left = named.names, named.bears, [*named.left]
        for note in notes(self.laid, study=study, few=few, shared=shared):
            if not self._on_wrap(note, names, squeeze):
                # In a frame shared with its notes a wrap needs no numbers.
                plain = study or shared
                left.append(note if plain else self._numbered(note, len(left) + 1))
        for name in self._faces():
            if name != bears:
                self._arrow(name)
        if first is not None:
            paper = shapely.box(*self.drawing.bounds(words=False))
            self.take(shapely.difference(paper, first))
        said = set()
        for heading, text in caution_texts(few=few):
            # The warning is never smaller than the notes beside it.
            large = heading == "WARNING" and squeeze < Squeeze.SMALL
            caution = WrapNote(heading, text, spare=True, cut_by=large)
            if self._on_wrap(caution, names, squeeze):
                said.add(heading)
        lines = Drawing(tuple(self.strokes), tuple(self.areas), tuple(self.labels))
        return Lettered(self.drawing + lines, tuple(left), frozenset(said))

    def _faces(self) -> list[str]:
        """The faces that are shown, the one that stops short last."""
        faces = [name for name in ("right face", "left face") if name in self.laid.by_name]
        return sorted(faces, key=lambda name: name == self.laid.stop_short)

    def _put_names(self) -> "_Named":
        """Name everything, and keep how the rooms are left."""
        self._letters()
        self._stations()
        self._cut_words()
        names = {one.panel.name: self._surface_name(one.panel.name) for one in self.laid.surfaces}
        self._fold_words()
        if self._lines("backing-gauge"):
            text = "GAUGE: back the edge to here"
            self._name("backing-gauge", text, bold=False, words="gauge-words")
        self._datum_words()
        self._waste_words()
        self._sheet_name()
        # One arrow there must be, a second only where the words have left room for it.
        bears = next((name for name in self._faces() if self._arrow(name)), None)
        arrow = bears is not None or self._outer_arrow()
        left = self._homeless_notes()
        if not arrow and self.laid.start_x is not None:
            left.append(self._ends_note(self.laid.start_x))
        return _Named(
            names,
            bears,
            tuple(left),
            Drawing(tuple(self.strokes), tuple(self.areas), tuple(self.labels)),
            tuple((room, room.kept()) for made in self.rooms.values() for room in made),
        )

    def _put_back(self, named: "_Named") -> None:
        """Take off again what was put on after the names."""
        self.strokes, self.areas = [*named.drawing.strokes], [*named.drawing.areas]
        self.labels = [*named.drawing.labels]
        for room, was in named.rooms:
            room.put_back(was)

    def _numbered(self, note: WrapNote, count: int) -> WrapNote:
        """A note about a surface that stands off the wrap, its number put on the surface."""
        if note.surface is None or note.surface == "end":
            return note
        part = f"{self.laid.part}." if self.laid.part else ""
        number = f"note {part}{count}"
        named = [one for one in self.labels if one.gid == "surface"]
        text = note.surface.upper()
        at = next((one for one in named if one.text == text), None)
        spot = (at.x, at.y) if at is not None else self._middle(note.surface)
        put = self.near(
            number, spot, [note.surface], size_pt=LEAST_PT, reach_in=FAR_IN, gid="note-number"
        )
        return replace(note, number=number) if put else note

    def _middle(self, surface: str) -> Point:
        one = self.laid.by_name[surface]
        spot = shapely.point_on_surface(on_paper(one.panel.shape(), self.factor))
        return spot.x, spot.y

    def _surface_name(self, name: str) -> Label | None:
        """A surface's own name on itself; off it with a pointer where it is too narrow."""
        text = "END GRAIN" if name == "end" else name.upper()
        wheres: tuple[WoodPart, ...] = ("kept", "waste")
        for one_where, size in product(wheres, (CUT_BY_PT, LEAST_PT)):
            wide, high = text_size(text, size, True)
            for room, where in self.open([name], (one_where,)):
                for turned in (False, True):
                    box = (high, wide) if turned else (wide, high)
                    found = self._placed(room, box)
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
                    return label
        one = self.laid.by_name[name]
        region = on_paper(one.kept if one.kept.area > _ALIKE else one.panel.shape(), self.factor)
        spot = shapely.point_on_surface(region)
        self._call_out(text, (spot.x, spot.y), size_pt=CUT_BY_PT, bold=True, gid="surface")
        return None

    def _sheet_name(self) -> None:
        """What the wrap is, on the kept wood: it says so still when it is cut out."""
        faces = [name for name in ("right face", "left face") if name in self.laid.by_name]
        text = title(self.laid.answer) + (f", paper {self.laid.part}" if self.laid.part else "")
        for room, _ in self.open(faces, ("kept",)):
            for width in _TITLE_WIDTHS_IN:
                words = wrapped(text, CUT_BY_PT, width, True)
                found = self._placed(room, text_size(words, CUT_BY_PT, True))
                if found is not None:
                    self.labels.append(Label(words, *found, CUT_BY_PT, bold=True, gid="name"))
                    return

    def _arrow(self, face: str) -> bool:
        """An arrow to either end of the board, on a face that has room for it."""
        for size in _ARROWS_IN:
            for room in self.rooms[face, "kept"]:
                found = self._placed(room, size)
                if found is not None:
                    self._draw_arrow(found, size)
                    return True
        return False

    def _ends_note(self, start_x: float) -> WrapNote:
        """The foot and the head in words, where no arrow has room."""
        end = "foot" if start_x == self.laid.box[0] else "head"
        words = f"The end of the paper at the start line lies toward the {end} of the board."
        return WrapNote("FOOT AND HEAD", words)

    def _outer_arrow(self) -> bool:
        """The arrow off the wrap, beside the end of its paper; False where it finds no room."""
        size = _ARROWS_IN[0]
        _, _, right, top = self.drawing.bounds(words=False)
        found = self.outside.place(size, (right, top))
        if found is not None:
            self._draw_arrow(found, size)
        return found is not None

    def _draw_arrow(self, found: Point, size: Point) -> None:
        wide, high = size
        x, y = found
        line = _WORD_HIGH_IN
        foot, head = y + high - line, y
        self.labels.append(Label("FOOT", x + _TIP_IN + _GAP_IN, foot, CUT_BY_PT, bold=True))
        at = x + wide - _TIP_IN - _GAP_IN
        self.labels.append(Label("HEAD", at, head, CUT_BY_PT, ha="right", bold=True))
        for end, way, low in ((x, 1.0, foot), (x + wide, -1.0, head)):
            mid = low + line / 2
            self.strokes.append(Stroke(((end, mid), (end + way * _TIP_IN, mid)), "guide", "arrow"))
            barb = end + way * _BARB_IN[0]
            corners = [(barb, mid + _BARB_IN[1]), (barb, mid - _BARB_IN[1])]
            arrow = shapely.Polygon([(end, mid), *corners])
            self.areas.append(Area(arrow, "ink", "arrow"))

    def _placed(self, room: FreeRoom, size: Point) -> Point | None:
        """A place by the upper corner of a room that lies toward the start line."""
        left, _, right, top = room.bounds
        if self.laid.toward > 0:
            return room.place(size, (left, top), corner=_UPPER_LEFT)
        return room.place(size, (right, top), corner=_UPPER_RIGHT)

    def _on_wrap(self, note: WrapNote, names: dict[str, Label | None], squeeze: Squeeze) -> bool:
        """A note on its own surface, which then needs no other name; one about the sheet on any.

        A study view bears none.
        """
        wheres: tuple[WoodPart, ...] = ("kept", "waste") if note.spare else ("kept",)
        panels = ["right face", "left face", *EDGES] if note.surface is None else [note.surface]
        if self.factor != 1.0 or (note.surface is None and not squeeze):
            return False
        sizes = [CUT_BY_PT] if note.cut_by else [LEAST_PT]
        if squeeze >= Squeeze.SMALL and note.cut_by:
            sizes.append(LEAST_PT)
        text = fraction_text(note.text)
        opened = self.open([name for name in panels if name in self.laid.by_name], wheres)
        for size, (room, where), width in product(sizes, opened, WIDTHS_IN):
            words = wrapped(text, size, width)
            heading = wrapped(fraction_text(note.heading), size, width, True)
            wide, high = _block_size(heading, words, size)
            if wide > width + WIDER_IN:
                continue
            found = self._placed(room, (wide, high))
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
    return max(wide, more), high + below + HEADED_IN


@dataclass(frozen=True)
class _Named:
    """A wrap with its names and nothing else: the names of its surfaces, the face that bears the
    arrow, the notes for words without room, what is drawn, and what each room has left."""

    names: dict[str, Label | None]
    bears: str | None
    left: tuple[WrapNote, ...]
    drawing: Drawing
    rooms: tuple[tuple[FreeRoom, KeptRoom], ...]


_TIP_IN, _GAP_IN = 0.22, 0.05
"""Length of an arrow's tip, and white before its word [in]."""
_UPPER_LEFT, _UPPER_RIGHT = (0.0, 1.0), (1.0, 1.0)
_BARB_IN = (0.1, 0.04)
"""Length of an arrow's head, and half its width [in]."""
_FOOT_IN, _WORD_HIGH_IN = text_size("FOOT", CUT_BY_PT, True)
_HEAD_IN, _ = text_size("HEAD", CUT_BY_PT, True)
_ARROWS_IN = (
    (2 * _TIP_IN + 5 * _GAP_IN + _FOOT_IN + _HEAD_IN, _WORD_HIGH_IN),
    (_TIP_IN + _GAP_IN + max(_FOOT_IN, _HEAD_IN), 2 * _WORD_HIGH_IN + _GAP_IN),
)
"""Width and height of both arrows in a line, and of one over the other [in]."""
