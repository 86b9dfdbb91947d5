"""A reader of a bound book: strokes, letters and where they stand, from the PDF alone.

It finds pictures drawn twice, pictures parted from their step, letters too small, and warnings
smaller than what stands beside them. Sizes are points, places are points from the lower left.
"""

import ctypes
import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2
import pypdfium2.raw as raw

RUN = 10
"""So many strokes in a row, drawn alike, are the beginning of one picture."""
SHAPES = 7
"""Fewer different strokes among them are a grid of lines to write on, or a table."""
POINTS = 8
NEAR_PT = 60.0
WARNING = "Saws maim, falls kill. Before"
BESIDE = "This sheet is for training"
IN_A_LINE = "WARNING: saws maim, falls kill"
SCALE = re.compile(r"1\s?:\s?\d+|NOT TO SCALE")

SCALE_PT = 8.0
"""Size of the scale beside a picture's heading."""
OVER_PT = 50.0
"""The words of a step stand no farther over the heading of its picture."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Letter:
    """A letter, its size, and the box of its ink."""

    text: str
    size: float
    box: Box


class Bound:
    """A bound book: its pages of text, counted from 0, without the full-size sheets."""

    def __init__(self, document: pypdfium2.PdfDocument) -> None:
        self.pages = {}
        self.sheets = 0
        for index in range(len(document)):
            text = document[index].get_textpage()
            if "FULL SIZE" in text.get_text_bounded():
                self.sheets += 1
            else:
                self.pages[index] = (document[index], text)

    def letters(self, index: int, step: int = 1) -> list[Letter]:
        """Letters of a page, every one or one in so many."""
        _, text = self.pages[index]
        return [letter(text, i) for i in range(0, text.count_chars(), step) if _seen(text, i)]

    def found(self, index: int, words: str) -> list[Letter]:
        """The first letter of each place of a page where the words stand."""
        _, text = self.pages[index]
        search, places = text.search(words, match_case=True), []
        while (hit := search.get_next()) is not None:
            places.append(letter(text, hit[0]))
        return places

    def drawn_twice(self) -> list[tuple[int, int, str]]:
        """Pictures whose strokes and words stand in two places: both pages and the words."""
        runs: dict[object, list[tuple[int, Box]]] = defaultdict(list)
        for index, (page, _) in self.pages.items():
            for key, box in _runs(_strokes(page)):
                runs[key].append((index, box))
        twice = set()
        for places in runs.values():
            for at, (first, box) in enumerate(places):
                for other, other_box in places[at + 1 :]:
                    said = self._words_in(first, box)
                    if said and said == self._words_in(other, other_box):
                        twice.add((first, other, said))
        return sorted(twice)

    def _words_in(self, index: int, box: Box) -> str:
        """All words of the picture's column beside the box, over it and under it: what the
        picture is called, what stands in it, and the first of its notes."""
        left, bottom, right, top = box
        page, text = self.pages[index]
        middle = page.get_width() / 2
        low = 0.0 if left < middle else middle
        high = page.get_width() if right > middle else middle
        return " ".join(text.get_text_bounded(low, bottom - NEAR_PT, high, top + NEAR_PT).split())

    def parted(self, top_pt: float) -> list[tuple[int, str]]:
        """Pictures with no words over their heading, by page and scale: a step's picture that
        went on to another page or column. `top_pt` is where the field of a page begins."""
        alone = []
        for index, (_, text) in self.pages.items():
            heads = [
                (match[0], letter(text, match.start()))
                for match in SCALE.finditer(text.get_text_range())
            ]
            tall = [head for head in heads if head[1].size == SCALE_PT]
            over = [each.box[1] for each in self.letters(index)] if tall else []
            alone += [
                (index, said)
                for said, one in tall
                if not any(one.box[3] + 1 < low < min(top_pt, one.box[3] + OVER_PT) for low in over)
            ]
        return alone


def letter(text: pypdfium2.PdfTextPage, index: int) -> Letter:
    """A letter of a page by its number."""
    return Letter(
        chr(raw.FPDFText_GetUnicode(text, index)),
        round(float(raw.FPDFText_GetFontSize(text, index)), 2),
        tuple(text.get_charbox(index)),
    )


def _seen(text: pypdfium2.PdfTextPage, index: int) -> bool:
    return bool(raw.FPDFText_GetFontSize(text, index) > 1.01)


def _strokes(page: pypdfium2.PdfPage) -> list[tuple[int, list[tuple[float, float]]]]:
    """Every line and area of a page: how many points it has, and the first of them."""
    found = []
    for item in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        matrix, points = item.get_matrix(), []
        count = raw.FPDFPath_CountSegments(item.raw)
        for i in range(min(count, POINTS)):
            segment = raw.FPDFPath_GetPathSegment(item.raw, i)
            x, y = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(segment, x, y)
            points.append(matrix.on_point(x.value, y.value))
        if points:
            found.append((count, points))
    return found


def _runs(strokes: list[tuple[int, list[tuple[float, float]]]]) -> Iterator[tuple[object, Box]]:
    """Each row of strokes as it lies whatever its place on the page, and the box it takes."""
    for at in range(len(strokes) - RUN + 1):
        part = strokes[at : at + RUN]
        x0, y0 = part[0][1][0]
        key = tuple(
            (count, tuple((round(x - x0), round(y - y0)) for x, y in points))
            for count, points in part
        )
        shapes = {
            tuple((round(x - points[0][0]), round(y - points[0][1])) for x, y in points)
            for _, points in part
        }
        if len(shapes) >= SHAPES:
            xs, ys = zip(*(spot for _, points in part for spot in points), strict=True)
            yield key, (min(xs), min(ys), max(xs), max(ys))
