"""Blocks that stand beside a drawing: notes, cautions and the square, put where paper is free.

A block may take several shapes, a narrow column or a wide line, and the first that finds room
wins. The drawing is never made larger or smaller for its words: they go where it leaves paper,
on a later page if the first is full. Inches on paper.

    block = words_block("TO USE", text, 8.0)
    stood, left = stand([block], [rooms_of_page_one, rooms_of_page_two])
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from operator import itemgetter

import shapely

from figures.ink.drawing import Box, Drawing, Label, Polygon, Stroke
from figures.ink.lettering import LINE_EM, fraction_text, text_size, wrapped
from figures.ink.pens import PT_PER_IN, Point
from figures.place.white_space import FreeRoom, rooms

WIDTHS_IN = (2.6, 2.35, 2.1, 1.9, 3.0, 3.6, 1.65, 1.4, 4.6, 7.0, 1.15)
"""Widths that words may be wrapped to, the best first [in]."""
PAD_IN = 0.06
"""White inside the frame of a boxed block [in]."""
APART_IN = 0.08
"""White between a drawing and what stands beside it [in]."""
_ROUND_IN = APART_IN / 2
"""What a room for blocks leaves of it; the other half the room keeps to its own bounds [in]."""
_NOTHING = shapely.Point()


@dataclass(frozen=True)
class Block:
    """Something that stands beside a drawing, in the shapes it may take, the best first.

    `first` keeps it on the first page, and an `optional` block is left out where it would take
    more paper.
    """

    name: str
    shapes: tuple[Drawing, ...]
    first: bool = False
    optional: bool = False

    @cached_property
    def boxes(self) -> tuple[Box, ...]:
        """The bounds of every shape [in]."""
        return tuple(shape.bounds() for shape in self.shapes)

    @cached_property
    def sizes(self) -> tuple[Point, ...]:
        """Width and height of every shape [in]."""
        return tuple((x1 - x0, y1 - y0) for x0, y0, x1, y1 in self.boxes)

    @cached_property
    def least_in2(self) -> float:
        """The least paper that it takes [in²]."""
        return min(wide * high for wide, high in self.sizes)


def words_block(
    heading: str,
    text: str,
    size_pt: float,
    *,
    boxed: bool = False,
    first: bool = False,
    widths: Sequence[float] = WIDTHS_IN,
) -> Block:
    """Words under a bold heading, wrapped to one of several widths."""
    shapes: dict[str, Drawing] = {}
    for width in widths:
        made = _words(heading, text, size_pt, width, boxed)
        # Two widths that break the lines alike are one shape, and one too narrow for a word none.
        if made is not None:
            shapes.setdefault(repr([label.text for label in made.labels]), made)
    if not shapes:
        wide = max(text_size(word, size_pt, True)[0] for word in f"{heading} {text}".split())
        made = _words(heading, text, size_pt, wide + 2 * PAD_IN + 0.01, boxed)
        assert made is not None
        shapes[""] = made
    return Block(heading or text[:20], tuple(shapes.values()), first)


def _words(heading: str, text: str, size_pt: float, width: float, boxed: bool) -> Drawing | None:
    pad = PAD_IN if boxed else 0.0
    y = -pad
    labels: list[Label] = []
    wide = 0.0
    for words, bold in ((heading, True), (text, False)):
        if not words:
            continue
        lines = wrapped(fraction_text(words), size_pt, width - 2 * pad, bold)
        wide = max(wide, text_size(lines, size_pt, bold)[0])
        labels.append(Label(lines, pad, y, size_pt, va="top", bold=bold, gid="block"))
        y -= (LINE_EM * (lines.count("\n") + 1)) * size_pt / PT_PER_IN
    if wide > width - 2 * pad + 1e-9:
        return None
    if not boxed:
        return Drawing(labels=tuple(labels))
    low, right = y - pad, wide + 2 * pad
    outline = ((0.0, low), (right, low), (right, 0.0), (0.0, 0.0), (0.0, low))
    return Drawing((Stroke(outline, "frame"),), (), tuple(labels))


def free_rooms(field: Box, covered: Polygon = _NOTHING) -> list[FreeRoom]:
    """What is left of a field beside all that is covered, as rooms for blocks."""
    free = shapely.difference(shapely.box(*field), shapely.buffer(covered, _ROUND_IN))
    return rooms([free])


def stand(
    blocks: Iterable[Block],
    pages: Sequence[Sequence[FreeRoom]],
    home: Point,
    *,
    all_or_none: bool = False,
) -> tuple[list[Drawing], list[Block]]:
    """The blocks at free places as near as they can to a point, page by page, and what is left.

    The largest come first, so that the small ones fill what they leave, and the optional ones
    last. Where some find no room, all are tried again in the shapes that cover least, and with
    those first that have but one shape. With `all_or_none` it is enough to know that one is left.
    """
    largest = sorted(blocks, key=lambda one: (one.optional, -one.least_in2))
    rigid = sorted(largest, key=lambda one: (one.optional, len(one.shapes) > 1))
    before = [(room, room.kept()) for page in pages for room in page]
    best: tuple[list[Drawing], list[Block]] | None = None
    for order, cost in ((largest, _band_in2), (largest, _box_in2), (rigid, _band_in2)):
        stood, left = _stood(order, pages, home, cost, all_or_none)
        if not left:
            return stood, left
        if best is None or len(left) < len(best[1]):
            best = stood, left
            after = [(room, room.kept()) for room, _ in before]
        for room, was in before:
            room.put_back(was)
        if all_or_none and not any(_place_for(left[0], page, home) for page in pages):
            break
    assert best is not None
    for room, was in after:
        room.put_back(was)
    return best


Cost = Callable[[Point, Box], float]
"""What a shape of a width and height costs in a room with these bounds [in²]."""
_PRICE_DIGITS = 3
"""Shapes that cost the same to so many decimals are tried in their own order."""
_UPPER_LEFT = (0.0, 1.0)
"""The corner of a block that goes near home, in shares of its width and height."""


def _band_in2(size: Point, bounds: Box) -> float:
    """In a narrow column a block costs a band across it, in a low strip one down it."""
    left, bottom, right, top = bounds
    return min(size[1] * (right - left), size[0] * (top - bottom))


def _box_in2(size: Point, bounds: Box) -> float:
    """The area of a block's own shape [square inches]."""
    return size[0] * size[1]


def _stood(
    blocks: Iterable[Block],
    pages: Sequence[Sequence[FreeRoom]],
    home: Point,
    cost: Cost,
    all_or_none: bool,
) -> tuple[list[Drawing], list[Block]]:
    stood = [Drawing() for _ in pages]
    left: list[Block] = []
    for block in blocks:
        for index, page in enumerate(pages[:1] if block.first else pages):
            put = _put(block, page, home, cost)
            if put is not None:
                stood[index] += put
                break
        else:
            if not block.optional:
                left.append(block)
                if all_or_none:
                    break
    return stood, left


def _place_for(block: Block, page: Sequence[FreeRoom], home: Point) -> bool:
    """Whether a page has room for a block in any of its shapes."""
    return any(room.find(size, home) is not None for size in block.sizes for room in page)


def _put(block: Block, page: Sequence[FreeRoom], home: Point, cost: Cost) -> Drawing | None:
    """A block in the shape that leaves most of a page for the others, as near as can be."""
    tries = [
        (round(cost(size, room.bounds), _PRICE_DIGITS), order, room)
        for order, size in enumerate(block.sizes)
        for room in page
    ]
    for _, order, room in sorted(tries, key=itemgetter(0, 1)):
        found = room.place(block.sizes[order], home, corner=_UPPER_LEFT)
        if found is not None:
            x0, y0, _, _ = block.boxes[order]
            return block.shapes[order].moved(found[0] - x0, found[1] - y0)
    return None


def least_area_in2(blocks: Iterable[Block]) -> float:
    """The least paper that blocks take together [in²]."""
    return sum(block.least_in2 for block in blocks if not block.optional)
