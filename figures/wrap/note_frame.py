"""A wrap and its notes in one frame: what shares a sheet with others must keep its words by it.

The notes stand in a column beside the wrap, or in lines under it, beneath the template's name;
the wrap stands upright or turned. Each width of the column makes a frame of another shape, and
the set takes the one that fits.

    frames(template, laid)      the frames that may hold it; one is drawn when it is chosen
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from figures.ink.drawing import Box, Drawing, Stroke
from figures.ink.hatch import hatched
from figures.ink.pens import Point
from figures.page.beside import Block, words_block
from figures.wrap.note_blocks import note_blocks
from figures.wrap.template import NOWHERE, Template
from figures.wrap.wrap import Wrap
from figures.wrap.wrap_lettering import Squeeze
from figures.wrap.wrap_names import CUT_BY_PT

PAD_IN = 0.05
"""White inside a frame [in]."""
GAP_IN = 0.09
"""White between a wrap and its notes, and between two notes [in]."""
COLUMNS_IN = (1.0, 1.15, 1.4, 1.65, 1.9, 2.1, 2.35, 2.6)
"""Widths of a column of notes [in]."""


@dataclass(frozen=True)
class NoteStack:
    """Notes under one another in lines of one width, and where their upper left corner stands."""

    notes: tuple[Block, ...]
    wide: float
    at: Point

    @property
    def box(self) -> Box:
        """Left, bottom, right and top [in]."""
        x, y = self.at
        return x, y - _high(self.notes, self.wide), x + self.wide, y

    def drawn(self) -> Drawing:
        """The notes in place."""
        drawing, (x, y) = Drawing(), self.at
        for note in self.notes:
            high = _least_high(note, self.wide)
            shape, (left, _, _, top) = next(
                (shape, box)
                for shape, box in zip(note.shapes, note.boxes, strict=True)
                if box[2] - box[0] <= self.wide and box[3] - box[1] == high
            )
            drawing += shape.moved(x - left, y - top)
            y -= high + GAP_IN
        return drawing


@dataclass(frozen=True)
class NoteFrame:
    """A wrap that is hatched, and the stacks of its notes."""

    wrap: Drawing
    bounds: Box
    stacks: tuple[NoteStack, ...]

    @property
    def box(self) -> Box:
        """Left, bottom, right and top of what is framed [in]."""
        sides = list(zip(self.bounds, *(one.box for one in self.stacks), strict=True))
        return min(sides[0]), min(sides[1]), max(sides[2]), max(sides[3])

    @property
    def size(self) -> Point:
        """Width and height of the frame [in]."""
        x0, y0, x1, y1 = self.box
        return x1 - x0 + 2 * PAD_IN, y1 - y0 + 2 * PAD_IN

    def drawn(self) -> Drawing:
        """All of it with a thin line round it, the frame's lower left corner at the origin."""
        x0, y0, _, _ = self.box
        wide, high = self.size
        corners = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high), (0.0, 0.0))
        drawing = self.wrap
        for stack in self.stacks:
            drawing += stack.drawn()
        line = Drawing(tuple(Stroke(side, "frame") for side in pairwise(corners)))
        return drawing.moved(PAD_IN - x0, PAD_IN - y0) + line


def frames(template: Template, laid: Wrap) -> list[NoteFrame]:
    """The frames that may hold a wrap and its notes."""
    made = laid.lettered(squeeze=Squeeze.FEW_WORDS, first=NOWHERE, shared=True)
    notes = note_blocks(made.notes, small=True)
    if notes:
        notes.insert(0, words_block(template.words["title"], "", CUT_BY_PT))
    found = []
    for turned in (False, True):
        wrap = hatched(made.drawing.turned(90) if turned else made.drawing)
        box = wrap.bounds()
        found += [NoteFrame(wrap, box, stacks) for stacks in _arranged(box, notes)]
    return found


def _arranged(box: Box, notes: Sequence[Block]) -> Iterator[tuple[NoteStack, ...]]:
    """Where notes may stand about a wrap: under it, beside it, or both."""
    x0, y0, x1, y1 = box
    if not notes:
        yield ()
        return
    if _fit(notes, x1 - x0):
        yield (NoteStack(tuple(notes), x1 - x0, (x0, y0 - GAP_IN)),)
    for wide in COLUMNS_IN:
        if not _fit(notes, wide):
            continue
        left = x0 - GAP_IN - wide
        yield (NoteStack(tuple(notes), wide, (left, y1)),)
        fits = [i for i, _ in enumerate(notes, start=1) if _high(notes[:i], wide) <= y1 - y0]
        count = len(fits)
        if 0 < count < len(notes):
            # What finds no room in the column runs on under both.
            beside = NoteStack(tuple(notes[:count]), wide, (left, y1))
            yield beside, NoteStack(tuple(notes[count:]), x1 - left, (left, y0 - GAP_IN))


def _fit(notes: Sequence[Block], wide: float) -> bool:
    return all(any(x1 - x0 <= wide for x0, _, x1, _ in note.boxes) for note in notes)


def _high(notes: Sequence[Block], wide: float) -> float:
    return sum(_least_high(note, wide) for note in notes) + GAP_IN * max(len(notes) - 1, 0)


def _least_high(note: Block, wide: float) -> float:
    """The height of a note in the lowest of its shapes that are no wider."""
    return min(y1 - y0 for x0, y0, x1, y1 in note.boxes if x1 - x0 <= wide)
