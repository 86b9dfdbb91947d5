"""A reader of what a template's sheet has one lay on the board: by the PDF alone.

It reads which arris is named, finds the words ALIGN HERE, and asks which line on that page they
name: the fold or the chain line that they stand beside, or that their pointer ends on.
"""

import re
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdfium2
import shapely

from tests.readers.template_sheet import (
    BETWEEN,
    PT,
    SheetRead,
    fold_lines,
    hits_of,
    papers,
    pointers_from,
    words_at,
)

ARRIS = "|".join(BETWEEN)
TOLD = re.compile(
    rf"(?:(edge|fold) on|(fold) lies on|(?:over the end(?: of the board)?, )?(align)) the ({ARRIS})"
)
OWN = ("ALIGN HERE", "arris", "START LINE", "LONG POINT")
"""Names of lines and points, of which `read_sheet` has only those of folds; an arris may be the
last word of a name on two lines, where its pointer begins."""
STRAY = r"START\s+LINE(?:\s+\d)?"
"""Words that pdfium reads between the lines of others, since they stand turned beside them."""
BETWEEN_WORDS = rf"\s+(?:{STRAY}\s+)?"
BESIDE_IN = 0.5
"""How near to its line the words stand that have no pointer [in]."""


@dataclass(frozen=True)
class Aligned:
    """An arris that words on a page name, and the line that they name it on.

    `by` is "edge" or "fold", `axis` the axis that the line lies across, `at` where, `ends` from
    where to where it runs [in].
    """

    arris: str
    by: str
    axis: str
    at: float
    ends: tuple[float, float]


def told(path: Path) -> set[tuple[str, str]]:
    """Each arris on which the words of all pages have one lay an edge or a fold of a paper."""
    document = pypdfium2.PdfDocument(path)
    text = " ".join(document[i].get_textpage().get_text_range() for i in range(len(document)))
    document.close()
    found = TOLD.findall(" ".join(text.split()))
    return {(arris, edge or "fold") for edge, _, _, arris in found}


def aligned(path: Path, index: int, sheet: SheetRead) -> list[Aligned]:
    """What the words ALIGN HERE on a page name; AssertionError where they name no line on it."""
    document = pypdfium2.PdfDocument(path)
    text = document[index].get_textpage()
    found = []
    chains = list(_chains(sheet))
    # A rip's line that stays may run along a fold and cover it.
    folds = [*fold_lines(sheet), *chains]
    for begin, _ in hits_of(text, "ALIGN HERE"):
        said = re.match(
            rf"ALIGN\s+HERE(?:(,\s+FOLD)?:\s+({ARRIS.replace(' ', BETWEEN_WORDS)}))?",
            text.get_text_range(begin, -1),
        )
        assert said is not None
        words = words_at(text, said[0], begin, len("ALIGN HERE"))
        boxes = [text.get_charbox(begin + i) for i in range(len(said[0]))]
        for other in re.finditer(STRAY, said[0]):
            boxes[other.start() : other.end()] = [(0.0, 0.0, 0.0, 0.0)] * len(other[0])
        inked = np.array([box for box in boxes if box[2] > box[0] and box[3] > box[1]]) / PT
        whole = shapely.union_all(shapely.box(*inked.T))
        box = shapely.box(*whole.bounds)
        words = type(words)(words.text, words.at, words.high_in, box.bounds)
        by_edge = said[2] is not None and said[1] is None
        lines = chains if by_edge else folds
        assert lines, f"{said[0]}: no such line on page {index + 1}"
        near = min(lines, key=lambda each: box.distance(shapely.LineString(each[2])))
        if box.distance(shapely.LineString(near[2])) > BESIDE_IN:
            tips = [shapely.Point(line[1]) for line in pointers_from(sheet, words)]
            led = [
                each
                for each in lines
                if any(shapely.LineString(each[2]).distance(tip) < 0.02 for tip in tips)
            ]
            assert led, f"{said[0]}: stands by no line on page {index + 1} and leads to none"
            near = led[0]
        axis, at, line = near
        arris = " ".join(re.sub(STRAY, " ", said[2]).split()) if said[2] else _named(sheet, line)
        ends = sorted(point[1 if axis == "x" else 0] for point in line)
        found.append(Aligned(arris, "edge" if by_edge else "fold", axis, at, (ends[0], ends[1])))
    document.close()
    return found


def led_astray(path: Path, index: int, sheet: SheetRead) -> list[str]:
    """Names of lines, points and surfaces that stand off every paper on a page and whose pointer
    ends on none. WASTE is not among them: its pointer may run over a seam to the page beside."""
    document = pypdfium2.PdfDocument(path)
    text = document[index].get_textpage()
    names = [words_at(text, name, *hit) for name in OWN for hit in hits_of(text, name)]
    document.close()
    among = papers(sheet)
    return [
        f"{words.text} leads to {line[1]}"
        for words in (*names, *(one for one in sheet.words if one.text != "WASTE"))
        if among and all(paper.outline.distance(shapely.box(*words.box)) > 0.05 for paper in among)
        for line in pointers_from(sheet, words)
        if all(paper.far(line[1]) > 0.02 for paper in among)
    ]


def _named(sheet: SheetRead, line) -> str:
    """The arris that the words FOLD nearest to a line name."""
    names = [one for one in sheet.words if one.text.startswith("FOLD: ")]
    where = shapely.LineString(line)
    near = min(names, key=lambda one: where.distance(shapely.Point(one.at)))
    return near.text.removeprefix("FOLD: ")


def _chains(sheet: SheetRead):
    """The lines of a pen 0.5 mm wide that are no folds, along an axis: long pieces in a row."""
    rows: dict[tuple[str, float], list[float]] = {}
    for (ax, ay), (bx, by) in sheet.wide:
        if abs(ay - by) < 1e-6:
            rows.setdefault(("y", round(ay, 3)), []).extend((ax, bx))
        elif abs(ax - bx) < 1e-6:
            rows.setdefault(("x", round(ax, 3)), []).extend((ay, by))
    folds = {(axis, at) for axis, at, _ in fold_lines(sheet)}
    for (axis, at), ends in rows.items():
        if (axis, at) not in folds and len(ends) > 2:
            low, high = min(ends), max(ends)
            yield axis, at, ((low, at), (high, at)) if axis == "y" else ((at, low), (at, high))
