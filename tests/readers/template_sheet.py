"""A reader of a template's sheet: the strokes and words of the PDF alone, by pdfium.

It knows what a carpenter who holds the paper knows: heavy lines are cut, long dashes are folds,
the surfaces lie between the folds, and each bears its own name. It asks nothing of `figures`.
"""

import ctypes
import re
from dataclasses import dataclass
from itertools import pairwise
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
    """Words that stand together, and the middle of the ink of their first letters [in]."""

    text: str
    at: tuple[float, float]
    high_in: float


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
            before = text.get_text_range(max(0, hit[0] - 4), min(4, hit[0]))
            if re.search(r"THE $", before):
                continue
            boxes = [text.get_charbox(hit[0] + i) for i in range(hit[1])]
            x = sum((b[0] + b[2]) / 2 for b in boxes) / len(boxes) / PT
            y = sum((b[1] + b[3]) / 2 for b in boxes) / len(boxes) / PT
            left, bottom, right, top = boxes[0]
            words.append(Words(name, (x, y), max(right - left, top - bottom) / PT))
    document.close()
    return SheetRead(tuple(heavy), tuple(wide), tuple(thin), tuple(words))


def folds(sheet: SheetRead) -> tuple[str, list[float]]:
    """Whether the folds lie level ("y") or upright ("x"), and where they lie [in].

    A fold is a row of dashes 6 mm long and 1.5 mm apart, along one straight line.
    """
    found: dict[tuple[str, float], list[tuple[float, float]]] = {}
    for (ax, ay), (bx, by) in sheet.wide:
        if abs(ay - by) < 1e-6:
            found.setdefault(("y", round(ay, 3)), []).append((min(ax, bx), max(ax, bx)))
        elif abs(ax - bx) < 1e-6:
            found.setdefault(("x", round(ax, 3)), []).append((min(ay, by), max(ay, by)))
    rows: dict[str, list[float]] = {"x": [], "y": []}
    for (axis, at), pieces in found.items():
        pieces.sort()
        gaps = [b[0] - a[1] for a, b in pairwise(pieces)]
        dash = sum(1 for a, b in pieces if abs((b - a) * 25.4 - 6.0) < 0.05)
        if (
            len(pieces) >= 3
            and dash >= len(pieces) - 2
            and all(abs(gap * 25.4 - 1.5) < 0.05 for gap in gaps)
        ):
            rows[axis].append(at)
    axis = max(rows, key=lambda one: len(rows[one]))
    return axis, sorted(rows[axis])


def strip_of(point: tuple[float, float], axis: str, at: list[float]) -> int:
    """Which strip between the folds a point lies in, counted from the lower or left one."""
    value = point[0] if axis == "x" else point[1]
    return sum(1 for fold in at if value > fold)
