"""Tiles over a drawing: which there are, what each shows, and what is drawn on their seams.

Windows overlap and seams run down the middle of each overlap. The page on the right and the
page below are trimmed along their seam and laid on the page before.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import ceil, inf, isfinite
from typing import Any

import numpy as np
import shapely

from figures.ink.drawing import Box, Drawing, Label, Stroke, label_box
from figures.ink.pens import MARKS, PT_PER_IN, Point
from layout.errors import SheetError

MOST_TILES = 200
SEAM_CLEAR_IN = 0.05
"""Clear paper between a trim line and words that were moved off it [in]."""
KEY_IN = 1.5
"""Side of the room that a map of tiled pages takes at most [in]."""
CROSS_IN = 0.12
"""Half the length of a registration cross [in]."""
SEAM_DEEP = (0.5, 0.36, 0.64, 0.23, 0.77)
SEAM_ALONG = (0.5, 0.4, 0.6, 0.33, 0.67, 0.28, 0.72, 0.45, 0.55, 0.22, 0.78, 0.15, 0.85)
"""Places for the words beside a seam: into the overlap, and along the seam."""
SEAM_PT = 8.0
SEAM_EM = 1.4
"""Size of the words beside a seam [pt]; half an overlap is so many times as deep, at the least."""
SEAM_WORDS_IN = 0.01
"""Clear paper round the words beside a seam [in]."""
HIDES = 20
"""Words on a line of hatching can still be read; on a mark, on other words or on so many they never
stand."""
KEY_MOST_IN, KEY_PT, KEY_SHARE = 0.42, 10.0, 0.6
"""The most that one page takes of the map; its letter, which takes less where the page does."""
KEY_TITLE = Label("Pages", 0.0, 0.06, 9.0, bold=True)
_LOOSE = 1e-9


@dataclass(frozen=True)
class Grid:
    """Tiles over a drawing: windows overlap, seams run down the middle of each overlap."""

    left: float
    top: float
    width: float
    height: float
    overlap: float
    columns: int
    rows: int

    @property
    def upright_seams(self) -> tuple[float, ...]:
        """Where the seams between columns run, from the left [in]."""
        step, half = self.width - self.overlap, self.overlap / 2
        return tuple(self.left + step * i + half for i in range(1, self.columns))

    @property
    def level_seams(self) -> tuple[float, ...]:
        """Where the seams between rows run, from the top [in]."""
        step, half = self.height - self.overlap, self.overlap / 2
        return tuple(self.top - step * i - half for i in range(1, self.rows))

    def window(self, row: int, column: int) -> Box:
        """What a tile shows, in the drawing's inches; row 0 is the top one."""
        x = self.left + column * (self.width - self.overlap)
        y = self.top - row * (self.height - self.overlap)
        return x, y - self.height, x + self.width, y

    def cell(self, row: int, column: int) -> Box:
        """What is left of a tile when it is trimmed; the outer ones have no outer bound."""
        x0, y0, x1, y1 = self.window(row, column)
        half = self.overlap / 2
        return (
            x0 + half if column else -inf,
            y0 + half if row < self.rows - 1 else -inf,
            x1 - half if column < self.columns - 1 else inf,
            y1 - half if row else inf,
        )


def grid_over(bounds: Box, room: Box, overlap: float) -> Grid:
    """The fewest tiles of a room's size that cover the bounds with an overlap [in].

    Raises SheetError where the overlap leaves nothing of a tile, and where tiles are too many.
    """
    x0, y0, x1, y1 = bounds
    width, height = room[2] - room[0], room[3] - room[1]
    if min(width, height) <= 2 * overlap:
        raise SheetError(
            f"an overlap of {overlap:g} in leaves nothing of a field {width:.3g} by"
            f" {height:.3g} in: use less overlap or larger paper"
        )
    columns = max(1, ceil((x1 - x0 - overlap) / (width - overlap) - _LOOSE))
    rows = max(1, ceil((y1 - y0 - overlap) / (height - overlap) - _LOOSE))
    if rows * columns > MOST_TILES:
        raise SheetError(
            f"the drawing, {x1 - x0:.4g} by {y1 - y0:.4g} in, would take {rows * columns} pages:"
            " use larger paper, a roll, or a smaller scale"
        )
    # The drawing stands in the middle of its tiles.
    left = (x0 + x1 - columns * (width - overlap) - overlap) / 2
    top = (y0 + y1 + rows * (height - overlap) + overlap) / 2
    return Grid(left, top, width, height, overlap, columns, rows)


def off_seams(drawing: Drawing, grid: Grid) -> Drawing:
    """The drawing with words moved off the seams, where they can be without hiding anything.

    Words that find no free place stay, and are cut and joined like any line.
    """
    across, up = grid.upright_seams, grid.level_seams
    labels = list(drawing.labels)
    for i, label in enumerate(labels):
        x0, y0, x1, y1 = label_box(label).bounds
        shifts = [
            shift
            for seam in across
            if x0 < seam < x1
            for shift in ((seam - x1 - SEAM_CLEAR_IN, 0.0), (seam - x0 + SEAM_CLEAR_IN, 0.0))
        ]
        shifts += [
            shift
            for seam in up
            if y0 < seam < y1
            for shift in ((0.0, seam - y1 - SEAM_CLEAR_IN), (0.0, seam - y0 + SEAM_CLEAR_IN))
        ]
        others = [*labels[:i], *labels[i + 1 :]]
        for dx, dy in sorted(shifts, key=lambda shift: abs(shift[0]) + abs(shift[1])):
            moved = replace(label, x=label.x + dx, y=label.y + dy)
            box = label_box(moved)
            a0, b0, a1, b1 = box.bounds
            cut = any(a0 < seam < a1 for seam in across) or any(b0 < seam < b1 for seam in up)
            near = (
                shapely.dwithin([label_box(other) for other in others], box, SEAM_CLEAR_IN).any()
                if others
                else False
            )
            lines = [shapely.linestrings(stroke.points) for stroke in drawing.strokes]
            on_line = bool(lines) and shapely.intersects(lines, box).any()
            if not (cut or near or on_line):
                labels[i] = moved
                break
    return replace(drawing, labels=tuple(labels))


def page_letter(index: int) -> str:
    """A, B ... Z, AA, AB ..."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


_SIDES = {"left": (0, -1), "right": (0, 1), "up": (-1, 0), "down": (1, 0)}


def seams(
    part: Drawing, grid: Grid, place: tuple[int, int], letters: dict[tuple[int, int], str]
) -> Drawing:
    """Trim lines, crosses and words on the seams that a tile shares with its neighbours.

    The page on the right and the page below are trimmed and laid on the one before.
    """
    row, column = place
    x0, y0, x1, y1 = grid.window(row, column)
    cell = grid.cell(row, column)
    strokes: list[Stroke] = []
    labels: list[Label] = []
    for side, (down, across) in _SIDES.items():
        neighbour = letters.get((row + down, column + across))
        if neighbour is None:
            continue
        upright = across != 0
        seam = {"left": cell[0], "right": cell[2], "down": cell[1], "up": cell[3]}[side]
        begin, end = (y0, y1) if upright else (x0, x1)
        inner = (cell[1], cell[3]) if upright else (cell[0], cell[2])
        near = inner[0] if isfinite(inner[0]) else begin + grid.overlap / 2
        far = inner[1] if isfinite(inner[1]) else end - grid.overlap / 2

        def at(along: float, off: float, seam: float = seam, upright: bool = upright) -> Point:
            return (seam + off, along) if upright else (along, seam + off)

        strokes.append(Stroke((at(begin, 0), at(end, 0)), "trim", f"trim-{side}"))
        for share in (0.2, 0.8):
            cross = near + (far - near) * share
            strokes.append(Stroke((at(cross, -CROSS_IN), at(cross, CROSS_IN)), "cross"))
            strokes.append(Stroke((at(cross - CROSS_IN, 0), at(cross + CROSS_IN, 0)), "cross"))
        if side in ("left", "up"):
            words = f"trim here, lay on page {neighbour}"
        else:
            words = f"page {neighbour} lies to this line"
        outward = -1 if side in ("left", "down") else 1
        texts = (words, f"page {neighbour}")
        labels.append(_free_words(texts, part, at, (near, far), outward, upright, grid.overlap / 2))
    return Drawing(tuple(strokes), (), tuple(labels))


def _free_words(
    texts: Sequence[str],
    part: Drawing,
    at: Any,
    span: Point,
    outward: int,
    upright: bool,
    deep_in: float,
) -> Label:
    """The words beside a trim line, on the side cut off or covered, where they hide least.

    The first text that finds a free place; a short one comes last.
    """
    shapes = [shapely.linestrings(stroke.points) for stroke in part.strokes]
    shapes += [label_box(label) for label in part.labels]
    weights = np.array(
        [HIDES if stroke.pen in MARKS else 1 for stroke in part.strokes]
        + [HIDES for _ in part.labels],
        dtype=int,
    )
    tree = shapely.STRtree(shapes)
    tries: list[tuple[int, int, int, int, Label]] = []
    # A quarter inch of overlap is too narrow for 8 points.
    largest = min(SEAM_PT, deep_in * PT_PER_IN / SEAM_EM)
    for words, deep, share in product(texts, SEAM_DEEP, SEAM_ALONG):
        x, y = at(span[0] + (span[1] - span[0]) * share, outward * deep_in * deep)
        label = Label(
            words, x, y, largest, "center", "center", 90.0 if upright else 0.0, gid="seam-words"
        )
        found = tree.query(label_box(label, SEAM_WORDS_IN), predicate="intersects")
        hits = int(weights[found].sum())
        tries.append((hits // HIDES, texts.index(words), hits, len(tries), label))
        if not hits:
            break
    return min(tries)[-1]


def key_map(rows: int, columns: int, kept: list[tuple[int, int]]) -> Drawing:
    """A small map of the pages: a box for each with its letter in it, the first one heavy."""
    side = min(KEY_MOST_IN, KEY_IN / max(rows, columns))
    strokes, labels = [], []
    for i, (row, column) in enumerate(kept):
        x, y = column * side, -(row + 1) * side
        box = ((x, y), (x + side, y), (x + side, y + side), (x, y + side), (x, y))
        strokes.append(Stroke(box, "frame" if i else "visible"))
        size = min(KEY_PT, side * PT_PER_IN * KEY_SHARE)
        labels.append(Label(page_letter(i), x + side / 2, y + side / 2, size, "center", "center"))
    return Drawing(tuple(strokes), (), (*labels, KEY_TITLE))
