"""Lessons bound into one set of pages: title, contents, lessons, words, and full-size sheets.

Every page is numbered through from the title page on, and a viewer calls each page by the number
that is printed on it. A full-size sheet is bound in once, behind, as it is: nothing here scales a
page. The edition decides what the pages hold beside the lessons.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from figures.files.at_once import done_at_once
from figures.files.binding import Bookmark, Link
from figures.files.press import write
from figures.ink.drawing import Drawing
from figures.ink.paper import Paper
from figures.page.flow import Row, leader_line, picture, space, words
from figures.page.sheet import Page, Strips, clear_field
from figures.page.two_columns import column_width
from layout.errors import SheetError
from lessons.course import pictures
from lessons.course.runner import Worked
from lessons.pages.back_matter import OPEN_TITLE, hint_leaves, open_leaves, word_leaves
from lessons.pages.edition import PARTS, Edition
from lessons.pages.field_pages import field_leaves
from lessons.pages.full_size import BoundSheet, SheetPlan, sheet_plan
from lessons.pages.leaf import Leaf
from lessons.pages.lesson_rows import LEAD_PT, heading_rows
from lessons.pages.once import drawn_once, is_mark, paged
from lessons.pages.paged import Parts, column_leaves, leaves, lesson_leaves, lesson_title
from lessons.pages.teaching import FRONT, instructor_rows
from lessons.say.how_many import how_many

BOOK_TITLE = "Compound cuts by hand and by saw"
ABOUT = (
    "A compound cut is one plane through the board. Two methods put it there: a line on the"
    " face and a line on the edge, laid with the framing square and followed with a handsaw; or a"
    " line on the face and a saw tilted to it. Every lesson lays a cut out both ways, shows that"
    " they fit, and what the usual mistakes leave open."
)
USE = (
    "You need a framing square, a sliding bevel, a protractor, a rule, a marking gauge, a handsaw"
    " and scrap of the boards that are named; for the saw's half, a circular saw.",
    "Work through a lesson with a board in front of you. Its drills come last; hints are at the"
    " back, answers in the instructor's edition.",
    "The templates and the bare boards are at the back, each once, at full size. Print those at"
    " 100 %, actual size, and lay a steel rule on both check bars before you mark a board.",
    "Left and right are the board's own: top edge up, stand at the foot, look toward the head.",
    "Set a tool to the nearest mark that it shows; drills give tilts to the quarter degree. Shy is"
    " a hair under a figure, strong a hair over it. Make a test cut on scrap first.",
)
TITLE_PT = 30.0
SHEET_PT = 9.0
CONTENTS_PT = 10.0
SHEETS_PART = "Full-size sheets"
TEMPLATE_PART = "Full-size template"
BOARD_PART = "Board to mark, full size"

_ChapterOfAll = Callable[[Sequence[Worked], Paper], tuple[Leaf, ...]]


@dataclass(frozen=True)
class Book:
    """Pages in order, and what binds them."""

    title: str
    pages: tuple[Page, ...]
    bookmarks: tuple[Bookmark, ...]
    page_labels: tuple[str, ...]
    links: tuple[Link, ...] = ()

    @property
    def full_size(self) -> int:
        """How many of the pages are measured from."""
        return sum(page.full for page in self.pages)

    @property
    def says(self) -> str:
        """How much paper it takes, before any is used."""
        text = len(self.pages) - self.full_size
        of_text = f"{text} {'page' if text == 1 else 'pages'} of text"
        of_sheets = f"{self.full_size} full-size {'sheet' if self.full_size == 1 else 'sheets'}"
        return f"{of_text} and {of_sheets}"


@dataclass(frozen=True)
class Chapter:
    """Pages of text under one title."""

    title: str
    text: tuple[Leaf, ...]

    def bookmarks(self, first: int) -> Iterator[Bookmark]:
        """The chapter and its parts, for a chapter that begins on `first`."""
        yield Bookmark(self.title, first)
        for at, leaf in enumerate(self.text, start=first):
            for name in (name for name, _ in leaf.anchors if not is_mark(name)):
                yield Bookmark(name, at, 1)


def chapter(worked: Worked, paper: Paper, parts: Parts, plan: SheetPlan) -> Chapter:
    """A lesson laid out on paper, with the names of the sheets that it refers to.

    Raises SheetError, which names the lesson, where the paper cannot carry it.
    """
    named = replace(parts, template=plan.template_name(worked), board=plan.board_name(worked))
    try:
        return Chapter(lesson_title(worked), lesson_leaves(worked, paper, named))
    except SheetError as error:
        raise SheetError(
            f"lesson {worked.lesson.name} does not fit {paper.name}: {error}"
        ) from error


def single(worked: Worked, paper: Paper, *, templates: bool = True) -> Book:
    """One lesson as sheets to hand out: no title page and no contents."""
    plan = sheet_plan([worked], paper, templates=templates)
    sheets = plan.drawn()
    one = chapter(worked, paper, Parts(), plan)
    pages = _numbered(
        (*(leaf.page for leaf in one.text), *(page for sheet in sheets for page in sheet.pages))
    )
    bookmarks = (*one.bookmarks(0), *_sheet_bookmarks(sheets, len(one.text), 1))
    return Book(lesson_title(worked), pages, bookmarks, _labels(pages))


def bind(
    all_worked: Sequence[Worked],
    paper: Paper,
    edition: Edition = Edition.APPRENTICE,
    *,
    templates: bool = True,
    processes: int = 1,
    on_part: Callable[[int, int], None] = lambda done, of: None,
) -> Book:
    """The lessons behind a title page and contents, numbered, bookmarked and linked.

    Its sheets and lessons are laid out by so many processes at once: the same pages, sooner.
    `on_part` is told how many of how many of them are done.
    """
    if edition is Edition.FIELD:
        return _field(all_worked, paper, on_part)
    plan = sheet_plan(all_worked, paper, templates=templates)
    # Lessons take longest: before the sheets, so that no process waits long for the other's last.
    parts: list[Callable[[], Chapter | BoundSheet]] = [
        *_chapters(all_worked, paper, PARTS[edition], plan),
        *plan.drawings(),
    ]
    made = done_at_once(parts, processes, on_part)
    chapters = [one for one in made if isinstance(one, Chapter)]
    sheets = (*(one for one in made if isinstance(one, BoundSheet)), *plan.boards)
    front = _title_leaves(all_worked, paper)
    # Its page numbers change nothing in the length of the contents, so it is set twice.
    length = len(_contents(chapters, [0] * len(chapters), sheets, 0, paper))
    firsts, at = [], len(front) + length
    for one in chapters:
        firsts.append(at)
        at += len(one.text)
    contents = _contents(chapters, firsts, sheets, at, paper)
    pages = _numbered(
        (
            *(leaf.page for leaf in (*front, *contents)),
            *_text_pages(chapters, firsts[0]),
            *(page for sheet in sheets for page in sheet.pages),
        )
    )
    bookmarks = [Bookmark(BOOK_TITLE, 0), Bookmark("Contents", len(front))]
    for one, first in zip(chapters, firsts, strict=True):
        bookmarks += one.bookmarks(first)
    if sheets:
        bookmarks.append(Bookmark(SHEETS_PART, at))
        bookmarks += _sheet_bookmarks(sheets, at, 1)
    links = tuple(
        Link(where, box, int(anchor))
        for where, leaf in enumerate(contents, start=len(front))
        for anchor, box in leaf.anchors
        if anchor.isdigit()
    )
    return Book(BOOK_TITLE, pages, tuple(bookmarks), _labels(pages), links)


def _chapters(
    all_worked: Sequence[Worked], paper: Paper, parts: Parts, plan: SheetPlan
) -> Iterator[Callable[[], Chapter]]:
    """What lays out each chapter, in the order of the book."""

    def of_all(title: str, laid_out: _ChapterOfAll) -> Callable[[], Chapter]:
        return lambda: Chapter(title, laid_out(all_worked, paper))

    if parts.teach:
        yield of_all(FRONT, _instructor_leaves)
    for one in drawn_once(all_worked):
        yield partial(chapter, one, paper, parts, plan)
    if not parts.hints:
        yield of_all(OPEN_TITLE, open_leaves)
        yield of_all("Hints, one at a time", hint_leaves)
    yield of_all("Words", word_leaves)


def _instructor_leaves(all_worked: Sequence[Worked], paper: Paper) -> tuple[Leaf, ...]:
    """What the instructor reads before the first lesson."""
    blank = Page(paper, Drawing(), title=FRONT, given=BOOK_TITLE, scale=None)
    left, _, right, _ = clear_field(blank)
    made = leaves(instructor_rows(all_worked, right - left), blank)
    return tuple(replace(leaf, anchors=()) for leaf in made)


def _text_pages(chapters: Sequence[Chapter], first: int) -> Iterator[Page]:
    """The chapters' pages, the first of them on `first`, counted from 0: what names a picture
    names the page on which it is drawn."""
    text = [leaf for one in chapters for leaf in one.text]
    on_page = {
        name: number
        for number, leaf in enumerate(text, start=first + 1)
        for name, _ in leaf.anchors
        if is_mark(name)
    }
    for leaf in text:
        yield replace(leaf.page, drawing=paged(leaf.page.drawing, on_page))


def _field(all_worked: Sequence[Worked], paper: Paper, on_part: Callable[[int, int], None]) -> Book:
    """One page a cut, all its numbers for this roof, lettered to be read at arm's length."""
    made, titles = field_leaves(all_worked, paper, on_part)
    # A card leaves the book: each has its own roof in its strip and the whole warning.
    pages = tuple(replace(page, strips="low") for page in _numbered([leaf.page for leaf in made]))
    bookmarks = tuple(Bookmark(title, at) for at, title in enumerate(titles))
    return Book("Field cards", pages, bookmarks, _labels(pages))


def _sheet_bookmarks(sheets: Sequence[BoundSheet], first: int, level: int) -> Iterator[Bookmark]:
    for sheet, at in _sheet_places(sheets, first):
        yield Bookmark(f"{sheet.name}: {sheet.says}", at, level)


def _sheet_places(sheets: Sequence[BoundSheet], first: int) -> Iterator[tuple[BoundSheet, int]]:
    at = first
    for sheet in sheets:
        yield sheet, at
        at += len(sheet.pages)


def _title_leaves(all_worked: Sequence[Worked], paper: Paper) -> tuple[Leaf, ...]:
    blank = Page(
        paper,
        Drawing(),
        title="Square and saw",
        given=_many(len(all_worked)),
        scale=None,
        description=ABOUT,
    )
    left, _, right, _ = clear_field(blank)
    width = right - left
    cut_end = pictures.picture("pictorial", all_worked[0].answer)
    rows = [
        replace(space(0.4), between=False),
        words(BOOK_TITLE.replace(" by", "\nby", 1), width, TITLE_PT, bold=True),
        space(0.25),
        words(ABOUT, width * 0.8, LEAD_PT),
        space(0.2),
        picture(
            cut_end.drawn_in_first(
                [(width * 0.8, width * 0.34), (width * 0.8, width * 0.45), (width, width * 0.6)]
            )
        ),
        space(0.2),
        *heading_rows("How to use it", width * 0.8),
        *(row for line in USE for row in (words(line, width * 0.8), space(0.05))),
    ]
    return leaves([replace(row, anchor="") for row in rows], blank)


def _many(lessons: int) -> str:
    return f"{how_many(lessons, 'lesson')} in roof framing"


def _contents(
    chapters: Sequence[Chapter],
    firsts: Sequence[int],
    sheets: Sequence[BoundSheet],
    sheets_first: int,
    paper: Paper,
) -> tuple[Leaf, ...]:
    """The list of lessons and of full-size sheets, each line anchored by the page it leads to,
    counted from 0."""
    blank = Page(paper, Drawing(), title="Contents", given=BOOK_TITLE, scale=None)
    left, _, right, _ = clear_field(blank)
    width = column_width(right - left)

    def line(text: str, at: int, size_pt: float) -> Row:
        return replace(leader_line(text, str(at + 1), width, size_pt), anchor=str(at))

    rows: list[Row] = [space(0.08)]
    rows += [line(one.title, at, CONTENTS_PT) for one, at in zip(chapters, firsts, strict=True)]
    if sheets:
        rows += heading_rows(SHEETS_PART, width)
    for sheet, at in _sheet_places(sheets, sheets_first):
        lessons = ", ".join(map(str, sheet.lessons))
        many = "lesson" if len(sheet.lessons) == 1 else "lessons"
        rows.append(line(f"{sheet.name}  {sheet.says}; {many} {lessons}", at, SHEET_PT))
    return column_leaves(
        [row if row.anchor.isdigit() else replace(row, anchor="") for row in rows], blank
    )


def _numbered(sheets: Sequence[Page]) -> tuple[Page, ...]:
    return tuple(
        replace(page, number=number, count=len(sheets), strips=_strips(page, number))
        for number, page in enumerate(sheets, start=1)
    )


def _strips(page: Page, number: int) -> Strips:
    """The whole warning once on each spread, on its left page; the right one has it in a line."""
    right_hand = number % 2 == 1 and number > 1
    return "next" if page.scale is None and right_hand else page.strips


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
