"""A reader of a template's sheet: the strokes and words of the PDF alone, by pdfium.

It knows what a carpenter who holds the paper knows: heavy lines are cut, long dashes are folds,
the surfaces lie between the folds, and each bears its own name. It asks nothing of `figures`.
"""

import ctypes
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import shapely

PT = 72.0
WIDE_IN, CUT_IN = 0.5 / 25.4, 0.7 / 25.4
NAMES = (
    "RIGHT FACE",
    "LEFT FACE",
    "TOP EDGE",
    "BOTTOM EDGE",
    "RIGHT BEVEL",
    "LEFT BEVEL",
)
BETWEEN = {
    "top arris of the right face": ({"RIGHT FACE"}, {"TOP EDGE", "RIGHT BEVEL"}),
    "top arris of the left face": ({"LEFT FACE"}, {"TOP EDGE", "LEFT BEVEL"}),
    "bottom arris of the right face": ({"RIGHT FACE"}, {"BOTTOM EDGE"}),
    "bottom arris of the left face": ({"LEFT FACE"}, {"BOTTOM EDGE"}),
    "middle of the top edge": ({"RIGHT BEVEL"}, {"LEFT BEVEL"}),
    "trough of the backing": ({"RIGHT BEVEL"}, {"LEFT BEVEL"}),
}
Box = tuple[float, float, float, float]
Line = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Words:
    """Words that stand together, their middle, the height of a letter and their box [in]."""

    text: str
    at: tuple[float, float]
    high_in: float
    box: Box


@dataclass(frozen=True)
class SheetRead:
    """What is on one page: heavy lines, strokes of other widths, the named words and the notes.

    `noted` has the surface that the heading of each numbered note names, None where it names
    none; `numbers` are the numbers that stand alone, as they do on a surface. `letters` are the
    boxes of all text, row by row.
    """

    heavy: tuple[Line, ...]
    wide: tuple[Line, ...]
    thin: tuple[Line, ...]
    words: tuple[Words, ...]
    noted: tuple[tuple[str, str | None], ...]
    numbers: tuple[Words, ...]
    letters: tuple[Box, ...]

    @cached_property
    def starts(self) -> tuple[Any, Any]:
        """Where each thin line begins, as points, and how long it is [in]."""
        ends = np.array(self.thin).reshape(-1, 2, 2)
        return shapely.points(ends[:, 0]), np.hypot(*(ends[:, 1] - ends[:, 0]).T)

    @cached_property
    def _ways(self) -> Any:
        (ax, ay), (bx, by) = np.array(self.thin).reshape(-1, 2, 2).transpose(1, 2, 0)
        return np.degrees(np.arctan2(by - ay, bx - ax)) % 180

    def hatches(self, line: Line) -> bool:
        """True for one of three or more thin slanted lines that run one way."""
        (ax, ay), (bx, by) = line
        way = np.degrees(np.arctan2(by - ay, bx - ax)) % 180
        alike = np.abs((self._ways - way + 90) % 180 - 90) < 0.3
        return abs((way + 45) % 90 - 45) > 0.3 and int(alike.sum()) > 2


def read_sheet(path: Path, index: int = 0) -> SheetRead:
    """Strokes by width and every name of a surface or fold, from one page of a PDF."""
    document = pypdfium2.PdfDocument(path)
    page = document[index]
    heavy, wide, thin = [], [], []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        fill, stroked = ctypes.c_int(), ctypes.c_int()
        pdfium.FPDFPath_GetDrawMode(item.raw, fill, stroked)
        if not stroked.value:
            continue
        matrix, points = item.get_matrix(), []
        for i in range(pdfium.FPDFPath_CountSegments(item.raw)):
            x, y = ctypes.c_float(), ctypes.c_float()
            segment = pdfium.FPDFPath_GetPathSegment(item.raw, i)
            pdfium.FPDFPathSegment_GetPoint(segment, x, y)
            px, py = matrix.on_point(x.value, y.value)
            points.append((px / PT, py / PT))
        width = ctypes.c_float()
        pdfium.FPDFPageObj_GetStrokeWidth(item.raw, width)
        lines = list(pairwise(points))
        to = heavy if abs(width.value / PT - CUT_IN) < 1e-4 else thin
        to = wide if abs(width.value / PT - WIDE_IN) < 1e-4 else to
        to.extend(lines)
    text = page.get_textpage()
    headings = [words_at(text, "ON THE", *hit) for hit in hits_of(text, "ON THE")]
    words = []
    for name in (*NAMES, *(f"FOLD: {arris}" for arris in BETWEEN), "WASTE", "END GRAIN"):
        for begin, count in hits_of(text, name):
            before = text.get_text_range(max(0, begin - 9), min(9, begin))
            # What a note is about, or says in words, stands in its own block.
            if re.search(r"(THE|POINTS|THERE)\s+$", before):
                continue
            found = words_at(text, name, begin, count)
            if not any(_goes_on(heading, found) for heading in headings):
                words.append(found)
    numbers = []
    for begin, _ in hits_of(text, "note "):
        found = re.match(r"note (\d+(?:\.\d+)?)\b", text.get_text_range(begin, -1))
        if found is not None:
            numbers.append(words_at(text, found[1], begin, len(found[0])))
    noted = [
        (number, None if about is None else " ".join(about.split()))
        for number, about in re.findall(
            r"Note\s+(\d+(?:\.\d+)?),\s+(?:ON\s+THE\s+([A-Z]+\s+[A-Z]+))?", text.get_text_range()
        )
    ]
    letters = [tuple(side / PT for side in text.get_rect(i)) for i in range(text.count_rects())]
    document.close()
    return SheetRead(
        tuple(heavy),
        tuple(wide),
        tuple(thin),
        tuple(words),
        tuple((number, about or None) for number, about in noted),
        tuple(numbers),
        tuple(letters),
    )


def hits_of(text: pypdfium2.PdfTextPage, wanted: str) -> Iterator[tuple[int, int]]:
    search = text.search(wanted, match_case=True)
    while (hit := search.get_next()) is not None:
        yield hit


def _goes_on(heading: Words, below: Words) -> bool:
    """Whether words are the second line of a heading that breaks behind ON THE.

    The lines of one block stand under one another; of two blocks side by side a page's text may
    bring the lines in turn.
    """
    low, high = below.box[3], heading.box[1]
    return 0 < high - low < below.high_in and abs(below.box[0] - heading.box[0]) < 1.2


def words_at(text: pypdfium2.PdfTextPage, said: str, begin: int, count: int) -> Words:
    """Words with their place, from the boxes of their letters."""
    boxes = [text.get_charbox(begin + i) for i in range(count)]
    x = sum((b[0] + b[2]) / 2 for b in boxes) / len(boxes) / PT
    y = sum((b[1] + b[3]) / 2 for b in boxes) / len(boxes) / PT
    left, bottom, right, top = boxes[0]
    sides = tuple(pick(b[i] for b in boxes) / PT for i, pick in enumerate((min, min, max, max)))
    return Words(said, (x, y), max(right - left, top - bottom) / PT, sides)


@dataclass(frozen=True)
class Paper:
    """One paper on a sheet: its outline, the axis its folds lie across, and where they lie.

    A tile may show a paper without its folds: all of it is then one surface.
    """

    outline: shapely.Polygon
    axis: str
    folds: tuple[float, ...]

    def far(self, point: tuple[float, float]) -> float:
        """How far a point is from the paper [in]."""
        return float(self.outline.distance(shapely.Point(point)))

    def strip(self, point: tuple[float, float]) -> int:
        """Which strip between the folds a point lies in, counted from the lower or left one."""
        value = point[0] if self.axis == "x" else point[1]
        return sum(1 for fold in self.folds if value > fold)


def papers(sheet: SheetRead) -> list[Paper]:
    """The papers on a sheet: what its heavy lines and folds lie on, within the lines round it.

    Lines that touch belong to one paper. A fold is a row of dashes 6 mm long and 1.5 mm apart,
    along one straight line. Thin lines that lead to words, trim lines and hatching are no outline.
    """
    folds = list(fold_lines(sheet))
    if not sheet.heavy and not folds:
        return []
    letters = shapely.union_all(shapely.box(*np.array(sheet.letters).T))
    shapely.prepare(letters)
    drawn = [*sheet.heavy, *sheet.wide]
    drawn += [
        line
        for line in sheet.thin
        if _long_and_straight(line)
        and not shapely.dwithin(letters, shapely.points(line), 0.06).any()
    ]
    drawn += [line for _, _, line in folds]
    # Dashes of one chain line lie 1.5 mm apart.
    joined = shapely.union_all(shapely.buffer(shapely.linestrings(drawn), 0.031))
    holds = shapely.union_all(shapely.linestrings([*sheet.heavy, *(line for _, _, line in folds)]))
    hulls = [
        shapely.buffer(shapely.convex_hull(part), -0.031)
        for part in shapely.get_parts(joined)
        if shapely.intersects(part, holds)
    ]
    while True:
        apart = list(shapely.get_parts(shapely.union_all(hulls)))
        if len(apart) == len(hulls):
            break
        hulls = [shapely.convex_hull(part) for part in apart]
    found = []
    for outline in hulls:
        mine = [
            (axis, at)
            for axis, at, line in folds
            if shapely.LineString(line).within(outline.buffer(0.02))
        ]
        axis = mine[0][0] if mine else "y"
        assert all(each == axis for each, _ in mine), "folds of one paper lie side by side"
        found.append(Paper(outline, axis, tuple(sorted({at for _, at in mine}))))
    return found


def _long_and_straight(line: Line) -> bool:
    """True for a line that may be the end of a paper: no dash of a trim line, no hatching."""
    (ax, ay), (bx, by) = line
    square = abs(ax - bx) < 1e-4 or abs(ay - by) < 1e-4
    return square and abs(ax - bx) + abs(ay - by) > 0.45


def fold_lines(sheet: SheetRead) -> Iterator[tuple[str, float, Line]]:
    """Each fold: the axis it lies across, where, and the line it runs along."""
    rows: dict[tuple[str, float], list[tuple[float, float]]] = {}
    for (ax, ay), (bx, by) in sheet.wide:
        if abs(ay - by) < 1e-6:
            rows.setdefault(("y", round(ay, 3)), []).append((min(ax, bx), max(ax, bx)))
        elif abs(ax - bx) < 1e-6:
            rows.setdefault(("x", round(ax, 3)), []).append((min(ay, by), max(ay, by)))
    for (axis, at), dashes in rows.items():
        for begin, end in _runs(sorted(dashes)):
            line = ((begin, at), (end, at)) if axis == "y" else ((at, begin), (at, end))
            yield axis, at, line


def _runs(pieces: list[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """From where to where dashes follow each other as those of a fold do."""
    runs: list[list[tuple[float, float]]] = []
    for piece in pieces:
        if runs and abs((piece[0] - runs[-1][-1][1]) * 25.4 - 1.5) < 0.05:
            runs[-1].append(piece)
        else:
            runs.append([piece])
    for run in runs:
        dashes = sum(1 for a, b in run if abs((b - a) * 25.4 - 6.0) < 0.05)
        if len(run) >= 3 and dashes >= len(run) - 2:
            yield run[0][0], run[-1][1]


def paper_of(point: tuple[float, float], among: list[Paper]) -> Paper:
    """The paper that a point stands on, or stands nearest to."""
    return min(among, key=lambda paper: paper.far(point))


def pointed(sheet: SheetRead, words: Words, paper: Paper) -> tuple[float, float]:
    """The place that words on or by a paper are about: where their pointer leads, else their own.

    Hatching may begin beside words on the waste, and is no pointer: it runs many times one way.
    """
    on_it = paper.outline.contains(shapely.box(*words.box))
    for line in pointers_from(sheet, words):
        if on_it and sheet.hatches(line):
            continue
        if paper.far(line[1]) < 0.02:
            return line[1]
    return words.at


def pointers_from(sheet: SheetRead, words: Words) -> Iterator[Line]:
    """Thin lines that begin at words."""
    starts, lengths = sheet.starts
    near = shapely.dwithin(starts, shapely.box(*words.box), 0.06) & (lengths > 0.05)
    for i in np.flatnonzero(near):
        yield sheet.thin[i]
