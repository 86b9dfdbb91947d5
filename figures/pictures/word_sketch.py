"""A small sketch for each trade word that can be drawn, with an arrow at what the word names.

Not to scale, in inches on paper, about 1.7 wide and 0.9 high. Heavy lines are what the word
names, thin ones all else.
"""

from dataclasses import dataclass

import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.ink.pens import Point
from figures.place.dimension import leader

LETTERS_PT = 8.5


@dataclass(frozen=True)
class _Sketch:
    """Lines (thin, heavy, dashed), areas that are cut through, and where the arrow points."""

    thin: tuple[tuple[Point, ...], ...]
    heavy: tuple[tuple[Point, ...], ...]
    tip: Point
    elbow: Point
    dashed: tuple[tuple[Point, ...], ...] = ()
    cut: tuple[tuple[Point, ...], ...] = ()


def _box(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0))


_BOARD = (
    _box(0.0, 0.0, 1.0, 0.45),
    ((0.0, 0.45), (0.25, 0.65), (1.25, 0.65), (1.0, 0.45)),
    ((1.25, 0.65), (1.25, 0.2), (1.0, 0.0)),
)
_RAFTER = (
    ((0.0, 0.1), (0.35, 0.24)),
    ((0.7, 0.38), (1.3, 0.62)),
    ((1.3, 0.62), (1.18, 0.9), (0.0, 0.43)),
)
_BOW = tuple((x / 10, 0.35 + 0.2 * (1 - ((x - 7) / 7) ** 2)) for x in range(15))
_SQUARE = (
    ((0.0, 0.0), (1.4, 0.0), (1.4, 0.14), (0.1, 0.14), (0.1, 0.85), (0.0, 0.85), (0.0, 0.0)),
)
_ROOFS = (((0.0, 0.45), (0.6, 0.75), (1.2, 0.45)),)

SKETCHES: dict[str, _Sketch] = {
    "arris": _Sketch(_BOARD, (((0.0, 0.45), (1.0, 0.45)),), (0.6, 0.45), (0.95, 0.8)),
    "cheek": _Sketch(
        (
            ((0.0, 0.0), (0.8, 0.0), (0.8, 0.45), (0.0, 0.45), (0.0, 0.0)),
            ((0.0, 0.45), (0.25, 0.65), (1.3, 0.65), (0.8, 0.45)),
            ((1.3, 0.65), (1.3, 0.2), (0.8, 0.0)),
        ),
        (((0.8, 0.0), (0.8, 0.45), (1.3, 0.65), (1.3, 0.2), (0.8, 0.0)),),
        (1.1, 0.35),
        (1.4, 0.1),
        cut=(((0.8, 0.0), (0.8, 0.45), (1.3, 0.65), (1.3, 0.2)),),
    ),
    "seat": _Sketch(
        (*_RAFTER, ((0.35, 0.24), (0.35, 0.38))),
        (((0.35, 0.38), (0.7, 0.38)),),
        (0.55, 0.38),
        (0.9, 0.1),
    ),
    "heel": _Sketch(
        (*_RAFTER, ((0.35, 0.38), (0.7, 0.38))),
        (((0.35, 0.24), (0.35, 0.38)),),
        (0.35, 0.31),
        (0.65, 0.05),
    ),
    "crown": _Sketch(
        (
            tuple((x, y - 0.22) for x, y in _BOW),
            (_BOW[0], (_BOW[0][0], _BOW[0][1] - 0.22)),
            (_BOW[-1], (_BOW[-1][0], _BOW[-1][1] - 0.22)),
        ),
        (_BOW,),
        (0.7, 0.55),
        (1.0, 0.8),
        dashed=((_BOW[0], _BOW[-1]),),
    ),
    "backing": _Sketch(
        (*_ROOFS, ((0.4, 0.0), (0.4, 0.65)), ((0.8, 0.65), (0.8, 0.0))),
        (((0.4, 0.65), (0.6, 0.75), (0.8, 0.65)),),
        (0.7, 0.7),
        (1.0, 0.9),
    ),
    "drop": _Sketch(
        (*_ROOFS, ((0.4, 0.0), (0.4, 0.63), (0.8, 0.63), (0.8, 0.0))),
        (((0.6, 0.63), (0.6, 0.75)),),
        (0.6, 0.7),
        (0.95, 0.9),
    ),
    "tongue": _Sketch(_SQUARE, (_box(0.0, 0.14, 0.1, 0.85),), (0.1, 0.55), (0.4, 0.65)),
    "blade": _Sketch(_SQUARE, (_box(0.0, 0.0, 1.4, 0.14),), (0.8, 0.14), (1.05, 0.5)),
    "shoe": _Sketch(
        (
            _box(0.0, 0.0, 1.4, 0.3),
            ((0.55, 0.05), (0.55, 0.7), (0.6, 0.7), (0.6, 0.05), (0.55, 0.05)),
            _box(0.62, 0.45, 1.05, 0.75),
        ),
        (_box(0.3, 0.3, 1.2, 0.36),),
        (0.35, 0.34),
        (0.6, 0.9),
    ),
    "kerf": _Sketch(
        (((0.6, 0.45), (0.0, 0.45), (0.0, 0.0), (1.3, 0.0), (1.3, 0.45), (0.66, 0.45)),),
        (((0.6, 0.45), (0.6, 0.12), (0.66, 0.12), (0.66, 0.45)),),
        (0.63, 0.35),
        (0.95, 0.75),
    ),
}
"""Each word's sketch. Common practice, no source."""


def word_sketch(word: str) -> Drawing:
    """The sketch of a word that is in SKETCHES, from about (0, 0) up and to the right."""
    one = SKETCHES[word]
    strokes = [Stroke(points, "guide") for points in one.thin]
    strokes += [Stroke(points, "hidden") for points in one.dashed]
    strokes += [Stroke(points, "cut", word) for points in one.heavy]
    areas = tuple(Area(shapely.Polygon(points), "section") for points in one.cut)
    return Drawing(tuple(strokes), areas) + leader(one.tip, one.elbow, word, LETTERS_PT)
