"""Lessons bound into one set of pages: title, contents, lessons, and their full-size templates.

Every page is numbered through from the title page on, and a viewer calls each page by the number
that is printed on it. A full-size page is bound in as it is: nothing here scales a page.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from figures.files.binding import Bookmark, Link
from figures.files.press import write
from figures.ink.drawing import Drawing
from figures.ink.paper import Paper
from figures.page.flow import Row, leader_line, picture, space, words
from figures.page.sheet import Page, clear_field
from figures.page.tiling import PrintSetup, pages
from layout.answer.wording import given_line
from layout.errors import SheetError
from lessons.course import pictures
from lessons.course.runner import Worked
from lessons.pages.paged import (
    INDENT_IN,
    LEAD_PT,
    Leaf,
    heading_rows,
    leaves,
    lesson_leaves,
    lesson_title,
)
from lessons.say.blocks import Drills

BOOK_TITLE = "Compound cuts by hand and by saw"
ABOUT = (
    "A compound cut is one plane through the board. There are two honest ways to put it there: a"
    " line on the face and a line on the edge, laid with the framing square and followed by hand;"
    " or a line on the face and a saw tilted to it. Every lesson lays a cut out both ways, shows"
    " that they meet, and what the usual mistakes cost."
)
USE = (
    "Work through a lesson with a board in front of you. Its drills come last; hints and answers"
    " stand on a page of their own.",
    "Print at 100 %, actual size, on the paper this book is made for. On every full-size page lay"
    " a steel rule on both check bars before you mark a board.",
    "Left and right are the board's own: stand at the foot and look toward the head.",
    "Try each cut on scrap first.",
)
TITLE_PT = 30.0
TEMPLATE_PART = "Full-size template"
BOARD_PART = "Board to mark, full size"


@dataclass(frozen=True)
class Book:
    """Pages in order, and what binds them."""

    title: str
    pages: tuple[Page, ...]
    bookmarks: tuple[Bookmark, ...]
    page_labels: tuple[str, ...]
    links: tuple[Link, ...] = ()


@dataclass(frozen=True)
class Part:
    """Pages at full size behind a lesson, and what they are."""

    name: str
    pages: tuple[Page, ...]


@dataclass(frozen=True)
class Chapter:
    """A lesson's pages of text, and its pages at full size."""

    worked: Worked
    text: tuple[Leaf, ...]
    full_size: tuple[Part, ...]

    @property
    def pages(self) -> tuple[Page, ...]:
        """All pages of the chapter."""
        behind = (page for part in self.full_size for page in part.pages)
        return (*(leaf.page for leaf in self.text), *behind)

    def parts(self, first: int) -> Iterator[tuple[str, int]]:
        """Each part at full size and its first page, for a chapter that begins on `first`."""
        at = first + len(self.text)
        for part in self.full_size:
            yield part.name, at
            at += len(part.pages)

    def bookmarks(self, first: int) -> Iterator[Bookmark]:
        """The chapter and its parts, for a chapter that begins on `first`."""
        yield Bookmark(lesson_title(self.worked), first)
        for at, leaf in enumerate(self.text, start=first):
            for name, _ in leaf.anchors:
                yield Bookmark(name, at, 1)
        for name, at in self.parts(first):
            yield Bookmark(name, at, 1)


def chapter(worked: Worked, paper: Paper, *, templates: bool = True) -> Chapter:
    """A lesson laid out on paper; behind it its cut's template and the boards of its drills.

    Raises SheetError, which names the lesson, where the paper cannot carry it.
    """
    setup = PrintSetup(paper)
    try:
        parts = []
        if templates:
            from figures.wrap.template import template_pages

            parts.append(Part(TEMPLATE_PART, template_pages(worked.answer, setup)))
        boards = tuple(_boards(worked, setup))
        if boards:
            parts.append(Part(BOARD_PART, boards))
        return Chapter(worked, lesson_leaves(worked, paper), tuple(parts))
    except SheetError as error:
        raise SheetError(
            f"lesson {worked.lesson.name} does not fit {paper.name}: {error}"
        ) from error


def _boards(worked: Worked, setup: PrintSetup) -> Iterator[Page]:
    """A bare board at full size for each drill that asks for marks."""
    from figures.pictures.marking import marking_outline

    for block in worked.blocks:
        if not isinstance(block, Drills):
            continue
        for number, problem in enumerate(block.problems, start=1):
            if problem.outline is not None:
                yield from pages(
                    marking_outline(worked.answer),
                    setup,
                    title=f"Lesson {worked.lesson.number}, drill {number}: mark this board",
                    given=given_line(worked.answer, metric=worked.system.is_metric),
                    description=f"A bare board at full size, to be marked. {problem.ask}",
                )


def single(one: Chapter) -> Book:
    """One lesson as sheets to hand out: no title page and no contents."""
    sheets = _numbered(one.pages)
    return Book(lesson_title(one.worked), sheets, tuple(one.bookmarks(0)), _labels(sheets))


def bind(chapters: Sequence[Chapter], paper: Paper) -> Book:
    """The chapters behind a title page and contents, numbered, bookmarked and linked."""
    front = _title_leaves(chapters, paper)
    # Its page numbers change nothing in the length of the contents, so it is set twice.
    length = len(_contents(chapters, [0] * len(chapters), paper))
    firsts, at = [], len(front) + length
    for one in chapters:
        firsts.append(at)
        at += len(one.pages)
    contents = _contents(chapters, firsts, paper)
    sheets = _numbered(
        (
            *(leaf.page for leaf in (*front, *contents)),
            *(page for one in chapters for page in one.pages),
        )
    )
    bookmarks = [Bookmark(BOOK_TITLE, 0), Bookmark("Contents", len(front))]
    for one, first in zip(chapters, firsts, strict=True):
        bookmarks += one.bookmarks(first)
    links = tuple(
        Link(at, box, int(anchor))
        for at, leaf in enumerate(contents, start=len(front))
        for anchor, box in leaf.anchors
        if anchor.isdigit()
    )
    return Book(BOOK_TITLE, sheets, tuple(bookmarks), _labels(sheets), links)


def _title_leaves(chapters: Sequence[Chapter], paper: Paper) -> tuple[Leaf, ...]:
    blank = Page(
        paper,
        Drawing(),
        title="Square and saw",
        given=f"{len(chapters)} {'lesson' if len(chapters) == 1 else 'lessons'} in roof framing",
        scale=None,
        description=ABOUT,
    )
    left, _, right, _ = clear_field(blank)
    width = right - left
    cut_end = pictures.picture("pictorial", chapters[0].worked.answer)
    rows = [
        replace(space(0.4), between=False),
        words(BOOK_TITLE.replace(" by", "\nby", 1), width, TITLE_PT, bold=True),
        space(0.25),
        words(ABOUT, width * 0.8, LEAD_PT),
        space(0.2),
        picture(cut_end.drawn_in_first([(width * 0.8, width * 0.45), (width, width * 0.6)])),
        space(0.2),
        *heading_rows("How to use it", width * 0.8),
        *(row for line in USE for row in (words(line, width * 0.8), space(0.05))),
    ]
    return leaves([replace(row, anchor="") for row in rows], blank)


def _contents(chapters: Sequence[Chapter], firsts: Sequence[int], paper: Paper) -> tuple[Leaf, ...]:
    """The list of lessons, each line anchored by the page it leads to, counted from 0."""
    blank = Page(paper, Drawing(), title="Contents", given=BOOK_TITLE, scale=None)
    left, _, right, _ = clear_field(blank)
    rows: list[Row] = [space(0.1)]
    for one, first in zip(chapters, firsts, strict=True):
        rows.append(space(0.06, with_next=True))
        line = leader_line(lesson_title(one.worked), str(first + 1), right - left, LEAD_PT)
        below = [at for name, at in one.parts(first) if name == TEMPLATE_PART]
        rows.append(replace(line, anchor=str(first), with_next=bool(below)))
        for at in below:
            row = leader_line(TEMPLATE_PART, str(at + 1), right - left - INDENT_IN)
            rows.append(replace(row.indented(INDENT_IN), anchor=str(at)))
    return leaves(rows, blank)


def _numbered(sheets: Sequence[Page]) -> tuple[Page, ...]:
    return tuple(
        replace(page, number=number, count=len(sheets))
        for number, page in enumerate(sheets, start=1)
    )


def _labels(sheets: Sequence[Page]) -> tuple[str, ...]:
    return tuple(str(page.number) for page in sheets)


def write_book(
    book: Book, path: Path, subject: str, on_page: Callable[[], None] = lambda: None
) -> tuple[Path, ...]:
    """Write a bound book to a PDF, or its pages to SVG, and say which files were written."""
    return write(
        book.pages,
        path,
        title=book.title,
        subject=subject,
        bookmarks=book.bookmarks,
        page_labels=book.page_labels,
        links=book.links,
        on_page=on_page,
    )
