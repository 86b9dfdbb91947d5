"""Reads written files as a printer would: pieces of line, their widths, words and bitmaps.

Lengths come from the file alone, through pdfium for PDF and an XML parser for SVG; nothing of
`figures` is asked.
"""

import ctypes
import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium

SVG = "{http://www.w3.org/2000/svg}"
PT = 72.0


@dataclass(frozen=True)
class Piece:
    """A stroked line of a file, in inches from the lower left corner of its page."""

    points: tuple[tuple[float, float], ...]
    width_in: float
    colour: tuple[int, int, int]
    butt_ends: bool

    @property
    def length_in(self) -> float:
        return sum(
            ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 for (x0, y0), (x1, y1) in pairwise(self.points)
        )


def pdf_sizes(path: Path) -> list[tuple[float, float]]:
    """Width and height of every page [pt]."""
    document = pypdfium2.PdfDocument(path)
    sizes = [page.get_size() for page in document]
    document.close()
    return sizes


def pdf_pieces(path: Path, index: int = 0) -> list[Piece]:
    """Every stroked line of a page."""
    document = pypdfium2.PdfDocument(path)
    page = document[index]
    found = []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        fill, stroked = ctypes.c_int(), ctypes.c_int()
        pdfium.FPDFPath_GetDrawMode(item.raw, fill, stroked)
        if not stroked.value:
            continue
        matrix = item.get_matrix()
        points = []
        for i in range(pdfium.FPDFPath_CountSegments(item.raw)):
            segment = pdfium.FPDFPath_GetPathSegment(item.raw, i)
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium.FPDFPathSegment_GetPoint(segment, x, y)
            px, py = matrix.on_point(x.value, y.value)
            points.append((px / PT, py / PT))
        width = ctypes.c_float()
        pdfium.FPDFPageObj_GetStrokeWidth(item.raw, width)
        rgba = [ctypes.c_uint() for _ in range(4)]
        pdfium.FPDFPageObj_GetStrokeColor(item.raw, *rgba)
        colour = tuple(part.value for part in rgba[:3])
        butt = pdfium.FPDFPageObj_GetLineCap(item.raw) == pdfium.FPDF_LINECAP_BUTT
        found.append(Piece(tuple(points), width.value / PT, colour, butt))
    document.close()
    return found


def pdf_text(path: Path, index: int = 0) -> str:
    """All words of a page, as a search finds them."""
    document = pypdfium2.PdfDocument(path)
    text = document[index].get_textpage().get_text_bounded()
    document.close()
    return text


def pdf_word_box(path: Path, words: str, index: int = 0) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the ink of the first place where words stand [in]."""
    document = pypdfium2.PdfDocument(path)
    page = document[index].get_textpage()
    hit = page.search(words, match_case=True).get_next()
    assert hit is not None, words
    boxes = [page.get_charbox(hit[0] + i) for i in range(hit[1])]
    document.close()
    left, bottom, right, top = zip(*boxes, strict=True)
    return min(left) / PT, min(bottom) / PT, max(right) / PT, max(top) / PT


def pdf_word_inks(path: Path, index: int = 0) -> dict[str, str]:
    """The lines of words of a page, and the color that each is filled with, as #rrggbb."""
    document = pypdfium2.PdfDocument(path)
    page = document[index]
    words = page.get_textpage()
    found = {}
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT]):
        rgba = [ctypes.c_uint() for _ in range(4)]
        pdfium.FPDFPageObj_GetFillColor(item.raw, *rgba)
        size = pdfium.FPDFTextObj_GetText(item.raw, words.raw, None, 0)
        text = ctypes.create_string_buffer(size)
        wide = ctypes.cast(text, ctypes.POINTER(ctypes.c_ushort))
        pdfium.FPDFTextObj_GetText(item.raw, words.raw, wide, size)
        said = text.raw.decode("utf-16-le").rstrip("\0")
        found[said] = "#" + "".join(f"{part.value:02x}" for part in rgba[:3])
    document.close()
    return found


def svg_piece(root: ET.Element, gid: str) -> list[list[tuple[float, float]]]:
    """The lines in the group of an id, in inches from the lower left corner of the canvas."""
    height = float(root.attrib["viewBox"].split()[3])
    group = next(each for each in root.iter() if each.get("id") == gid)
    lines = []
    for path in group.iter(f"{SVG}path"):
        numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", path.attrib["d"])]
        pairs = zip(numbers[::2], numbers[1::2], strict=True)
        lines.append([(x / PT, (height - y) / PT) for x, y in pairs])
    return lines
