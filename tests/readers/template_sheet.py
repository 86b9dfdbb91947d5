"""A reader of a template's sheet: the strokes and words of the PDF alone, by pdfium.

It knows what a carpenter who holds the paper knows: heavy lines are cut, long dashes are folds,
the surfaces lie between the folds, and each bears its own name. It asks nothing of `figures`.
"""

import ctypes
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium

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
}
Line = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Words:
    """Words that stand together, their middle, the height of a letter and their box [in]."""

    text: str
    at: tuple[float, float]
    high_in: float
    box: tuple[float, float, float, float]


@dataclass(frozen=True)
class SheetRead:
    """What is on one page: heavy lines, strokes of other widths, and the named words."""

    heavy: tuple[Line, ...]
    wide: tuple[Line, ...]
    thin: tuple[Line, ...]
    words: tuple[Words, ...]


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
    words = []
    for name in (*NAMES, *(f"FOLD: {arris}" for arris in BETWEEN), "WASTE", "END GRAIN"):
        search = text.search(name, match_case=True)
        while (hit := search.get_next()) is not None:
            before = text.get_text_range(max(0, hit[0] - 6), min(6, hit[0]))
            if re.search(r"THE\s+$", before):
                continue
            boxes = [text.get_charbox(hit[0] + i) for i in range(hit[1])]
            x = sum((b[0] + b[2]) / 2 for b in boxes) / len(boxes) / PT
            y = sum((b[1] + b[3]) / 2 for b in boxes) / len(boxes) / PT
            left, bottom, right, top = boxes[0]
            sides = tuple(
                pick(b[i] for b in boxes) / PT for i, pick in enumerate((min, min, max, max))
            )
            words.append(Words(name, (x, y), max(right - left, top - bottom) / PT, sides))
    document.close()
    return SheetRead(tuple(heavy), tuple(wide), tuple(thin), tuple(words))


@dataclass(frozen=True)
class Paper:
    """One paper on a sheet: the axis its folds lie across, where they lie, from where to where."""

    axis: str
    folds: tuple[float, ...]
    span: tuple[float, float]

    def far(self, point: tuple[float, float]) -> float:
        """How far a point is from the nearest of its folds [in]."""
        across, along = point if self.axis == "x" else point[::-1]
        beside = max(self.span[0] - along, along - self.span[1], 0.0)
        return min(hypot(across - fold, beside) for fold in self.folds)

    def strip(self, point: tuple[float, float]) -> int:
        """Which strip between the folds a point lies in, counted from the lower or left one."""
        value = point[0] if self.axis == "x" else point[1]
        return sum(1 for fold in self.folds if value > fold)


def papers(sheet: SheetRead) -> list[Paper]:
    """The papers on a sheet: folds of one paper lie side by side and are as long as each other.

    A fold is a row of dashes 6 mm long and 1.5 mm apart, along one straight line.
    """
    rows: dict[tuple[str, float], list[tuple[float, float]]] = {}
    for (ax, ay), (bx, by) in sheet.wide:
        if abs(ay - by) < 1e-6:
            rows.setdefault(("y", round(ay, 3)), []).append((min(ax, bx), max(ax, bx)))
        elif abs(ax - bx) < 1e-6:
            rows.setdefault(("x", round(ax, 3)), []).append((min(ay, by), max(ay, by)))
    found: dict[tuple[str, float, float], list[float]] = {}
    for (axis, at), dashes in rows.items():
        for begin, end in _runs(sorted(dashes)):
            found.setdefault((axis, round(begin, 1), round(end, 1)), []).append(at)
    return [Paper(axis, tuple(sorted(at)), (a, b)) for (axis, a, b), at in found.items()]


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
