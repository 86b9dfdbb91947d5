"""The apprentice's course measured on the finished PDF: paper, lettering, pictures, warnings.

The whole course at one pitch in the long run, some of its lessons in the default suite.
"""

import re
from collections import Counter

import numpy as np
import pypdfium2
import pytest

from figures.files.press import write
from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.page.sheet import Page, clear_field
from figures.page.two_columns import GUTTER_IN, column_width
from lessons.cli.main import run as command
from lessons.course.lesson import catalog
from lessons.course.runner import run
from lessons.pages.paged import lesson_leaves
from tests.counts import LONG, count
from tests.readers.bound_pages import BESIDE, IN_A_LINE, SCALE, WARNING, Bound

DPI = 36
MOST_TEXT_PAGES, MOST_SHEETS, LEAST_SHARE = 120, 40, 0.70
SOME = ("one-plane", "number-is-not-the-tilt", "hip-length")


FIELD = clear_field(Page(read_paper("Letter"), Drawing(), title="x", given="x", scale=None))


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    path = tmp_path_factory.mktemp("course") / "course.pdf"
    names = () if LONG else SOME
    templates = () if LONG else ("--no-templates",)
    assert command(["book", *names, "--pitch", "8 in 12", *templates, "-o", str(path)]) == 0
    return path


@pytest.fixture(scope="module")
def bound(course):
    with pypdfium2.PdfDocument(course) as document:
        yield Bound(document)


def shares(path) -> dict[int, float]:
    """For each page of text, the share of its two columns that is used, from the top down."""
    left, bottom, right, top = FIELD
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


def test_lettering_is_large_enough(bound):
    for index in list(bound.pages)[:: count(1, 3)]:
        letters = [each for each in bound.letters(index, 7) if each.size > 1]
        if not letters:
            continue
        assert min(each.size for each in letters) > 4.5, index  # fractions of 8 pt and up
        assert min(each.size for each in letters if each.text.isalpha()) >= 6.9, index


def test_a_warning_is_as_large_as_what_stands_beside_it(bound):
    for index in bound.pages:
        beside = [each.size for each in bound.found(index, BESIDE)]
        usual = Counter(each.size for each in bound.letters(index, 11)).most_common(1)[0][0]
        for each in bound.found(index, WARNING):
            at_the_foot = bool(beside) and each.box[1] < 110
            assert each.size >= (max(beside) if at_the_foot else usual), index


def test_the_whole_warning_stands_once_on_a_spread(bound):
    pages = list(bound.pages)
    for left, right in zip(pages[1::2], pages[2::2], strict=False):
        assert right == left + 1
        whole = [bound.found(i, BESIDE) for i in (left, right)]
        assert [len(each) for each in whole] == [1, 0]
        assert [len(bound.found(i, IN_A_LINE)) for i in (left, right)] == [0, 1]


def test_no_picture_is_drawn_twice(bound):
    assert bound.drawn_twice() == []


def test_no_step_is_parted_from_its_picture(bound):
    assert bound.parted(72 * FIELD[3]) == []


def test_a_picture_named_by_its_page_stands_there(bound):
    named = 0
    for index, (_, text) in bound.pages.items():
        said = " ".join(text.get_text_bounded().split())
        assert not re.search(r"#\d", said), index
        for page in map(int, re.findall(r"picture is on page (\d+)\.", said)):
            named += 1
            assert page <= index + 1, "a picture stands before what names it"
            assert SCALE.search(bound.pages[page - 1][1].get_text_range()), (index, page)
    assert named >= count(50, 3), "enough of them to have tried it"


def test_the_convincing_lesson_opens_with_gap_plan_and_test(bound):
    """All three on its first page: what the wrong tilt leaves, why, and how to try it."""
    title = "10. Why the side-cut number is not the tilt"
    first = next(i for i in list(bound.pages)[2:] if bound.found(i, title))
    said = _said(bound, first)
    for words in ("The cut stood against the hip: gap", "the plan", "Test it", "cross-read"):
        assert words in said, words


def test_every_lesson_has_its_steps_left_open_behind_the_lessons(bound):
    """Each lesson's number stands over lines with blanks, and nothing there fills them."""
    texts = [text.get_text_bounded().replace("\r", "") for _, text in bound.pages.values()]
    said = "\n".join(text for text in texts if "Write in what is left open." in _flat(text))
    heads = re.findall(r"^(?:Lessons ([\d, and]+)|(\d+)\. .*)$", said, re.M)
    numbers = [int(n) for several, one in heads for n in re.findall(r"\d+", several or one)]
    taught = [one.number for name, one in catalog().items() if LONG or name in SOME]
    assert sorted(numbers) == sorted(taught)
    assert _flat(said).count("Write in what is left open.") == len(heads)
    assert said.count("________") >= 4 * len(heads)


def _said(bound, index) -> str:
    return _flat(bound.pages[index][1].get_text_bounded())


def _flat(text: str) -> str:
    return " ".join(text.split())


def test_what_these_tests_look_for_would_be_found(tmp_path):
    """One lesson bound twice over: each of its pictures stands there twice."""
    paper = read_paper("Letter")
    worked = run(catalog()["one-plane"])
    leaves = [leaf.page for leaf in lesson_leaves(worked, paper)]
    write([*leaves, *leaves], tmp_path / "twice.pdf", title="twice", subject="twice")
    with pypdfium2.PdfDocument(tmp_path / "twice.pdf") as document:
        twice = Bound(document)
        assert len(twice.drawn_twice()) > 3
        # Cut off above its picture's heading, a page shows a picture without its step.
        assert twice.parted(500.0)
