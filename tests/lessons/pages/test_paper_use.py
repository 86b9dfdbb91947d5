"""How much paper the apprentice's course takes, measured on the finished PDF.

The whole course at one pitch in the long run, some of its lessons in the default suite.
"""

import numpy as np
import pypdfium2
import pytest

from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.page.sheet import Page, clear_field
from figures.page.two_columns import GUTTER_IN, column_width
from lessons.cli.main import run
from lessons.course.lesson import catalog
from tests.counts import LONG

DPI = 36
MOST_TEXT_PAGES, MOST_SHEETS, LEAST_SHARE = 120, 40, 0.70
SOME = ("one-plane", "number-is-not-the-tilt", "hip-length")


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    path = tmp_path_factory.mktemp("course") / "course.pdf"
    names = () if LONG else SOME
    templates = () if LONG else ("--no-templates",)
    assert run(["book", *names, "--pitch", "8 in 12", *templates, "-o", str(path)]) == 0
    return path


def shares(path) -> dict[int, float]:
    """For each page of text, the share of its two columns that is used, from the top down."""
    left, bottom, right, top = clear_field(
        Page(read_paper("Letter"), Drawing(), title="x", given="x", scale=None)
    )
    wide = column_width(right - left)
    used = {}
    with pypdfium2.PdfDocument(path) as document:
        for index in range(len(document)):
            if "FULL SIZE" in document[index].get_textpage().get_text_bounded():
                continue
            page = np.asarray(document[index].render(scale=DPI / 72, grayscale=True).to_numpy())
            ink = page.reshape(page.shape[0], page.shape[1], -1).min(axis=2) < 200
            high = ink.shape[0]
            field = ink[high - round(top * DPI) : high - round(bottom * DPI)]
            parts = []
            for start in (left, left + wide + GUTTER_IN):
                column = field[:, round(start * DPI) : round((start + wide) * DPI)]
                rows = np.flatnonzero(column.any(axis=1))
                parts.append((rows[-1] + 1) / len(field) if rows.size else 0.0)
            used[index] = sum(parts) / 2
    return used


def test_the_course_keeps_to_its_paper(course):
    used = shares(course)
    with pypdfium2.PdfDocument(course) as document:
        sheets = len(document) - len(used)
    lessons = len(catalog()) if LONG else len(SOME)
    # Title, contents, hints and words take their part whatever the number of lessons.
    assert len(used) <= (MOST_TEXT_PAGES if LONG else 6 + 5 * lessons)
    assert sheets <= (MOST_SHEETS if LONG else lessons)
    # Contents and words of a few lessons fill no page: left out where only some are bound.
    counted = [share for index, share in used.items() if LONG or 2 <= index < len(used) - 2]
    assert sum(counted) / len(counted) >= LEAST_SHARE, counted


def test_lettering_is_large_enough_and_the_warning_no_smaller_than_its_neighbors(course):
    with pypdfium2.PdfDocument(course) as document:
        for index in range(0, len(document), 3):
            if "FULL SIZE" in document[index].get_textpage().get_text_bounded():
                continue
            sizes = letter_sizes(document[index])
            if not sizes:
                continue
            assert min(size for _, size in sizes) > 4.5, index  # fractions of 8 pt and up
            whole = [size for text, size in sizes if text.isalpha()]
            assert min(whole) >= 6.9, index


def letter_sizes(page) -> list[tuple[str, float]]:
    """Every letter of a page and its size [pt]."""
    text = page.get_textpage()
    raw = pypdfium2.raw
    return [
        (chr(raw.FPDFText_GetUnicode(text, i)), float(raw.FPDFText_GetFontSize(text, i)))
        for i in range(0, text.count_chars(), 7)
        if raw.FPDFText_GetFontSize(text, i) > 1
    ]
