"""A lesson's rows on pages: its leaves, numbered through, with the places of its headings.

The title strip of every page is the lesson's heading, so that a loose sheet says where it belongs.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from figures.ink.drawing import Box, Drawing
from figures.ink.paper import Paper
from figures.page.cautions import WARNING
from figures.page.flow import (
    Row,
    anchors,
    filled,
    framed,
    paginate,
    stacked,
    under,
    words,
)
from figures.page.sheet import Page, clear_field
from figures.page.two_columns import column_width, drawn, in_two_columns, named
from layout.answer.wording import given_line
from lessons.course.runner import Worked
from lessons.pages.leaf import Leaf
from lessons.pages.lesson_rows import (
    SMALL_PT,
    WORK_LINES,
    answer_rows,
    asked_rows,
    block_rows,
    heading_rows,
    hint_rows,
    opened_rows,
)
from lessons.pages.teaching import grade_rows, teach_rows
from lessons.say.blocks import (
    DrillsBlock,
    Facts,
    Heading,
    ProblemBlock,
    Terms,
)

TEMPLATE_THERE = "This cut at full size, to wrap around the board: sheet {}, at the back."

OPENED_THERE = "First the same steps for another pitch, left open: behind the lessons."


def lesson_title(worked: Worked) -> str:
    """What the lesson is called on its pages, in the contents and in bookmarks."""
    return worked.lesson.heading


@dataclass(frozen=True)
class Parts:
    """What a lesson's pages hold besides the lesson: words explained, hints, answers, and the
    notes of the one who teaches it; and the names of the full-size sheets that it refers to."""

    terms: bool = True
    hints: bool = True
    answers: bool = True
    teach: bool = False
    template: str = ""
    board: str = ""


WHOLE = Parts()


def lesson_leaves(
    worked: Worked, paper: Paper, parts: Parts = WHOLE, margin_in: float = 0.5
) -> tuple[Leaf, ...]:
    """The lesson on pages of this paper in two columns, numbered through, headings as anchors."""
    blank = Page(
        paper,
        Drawing(),
        title=lesson_title(worked),
        given=given_line(worked.answer),
        scale=None,
        margin_in=margin_in,
        description=worked.lesson.able.fill(worked.answer, worked.system),
    )
    left, _, right, _ = clear_field(blank)
    column = column_width(right - left)
    rows: list[Row] = []
    problems: tuple[ProblemBlock, ...] = ()
    opened: ProblemBlock | None = None
    for block in worked.blocks:
        if isinstance(block, Heading) and block.text == "Words" and not parts.terms:
            continue
        if isinstance(block, Facts) and rows:
            # Facts say nothing away from what they belong to.
            rows[-1] = replace(rows[-1], with_next=True)
        match block:
            case Terms() if not parts.terms:
                continue
            case DrillsBlock():
                problems, opened = block.problems, block.opened
                if parts.hints:
                    rows += opened_rows(opened, column)
                elif opened is not None:
                    rows.append(words(OPENED_THERE, column, SMALL_PT))
            case Heading("By saw", _):
                if parts.template:
                    rows.append(words(TEMPLATE_THERE.format(parts.template), column, SMALL_PT))
                rows += [*heading_rows(block.text, column), warning_row(column)]
            case _:
                rows += block_rows(block, column)
    if parts.teach:
        rows = [*teach_rows(worked, column), *rows]
    behind: list[Row] = []
    if parts.hints:
        behind += hint_rows(problems, column)
    if parts.answers:
        behind += answer_rows(problems, column, opened)
    if parts.teach:
        behind += grade_rows(worked, column)

    def with_lines(count: int) -> list[Row]:
        return [*rows, *asked_rows(problems, column, parts.board, count), *behind]

    _, bottom, _, top = clear_field(blank)
    field = (right - left, top - bottom)
    pages = {count: len(in_two_columns(with_lines(count), *field)) for count in WORK_LINES}
    # The fewest pages, and on those as much room to work as they have.
    fewest = min(pages.values())
    return column_leaves(with_lines(max(count for count in pages if pages[count] == fewest)), blank)


def column_leaves(rows: Iterable[Row], blank: Page) -> tuple[Leaf, ...]:
    """Rows in two columns on as many pages like `blank` as they take, numbered through."""
    left, bottom, right, top = clear_field(blank)
    made = in_two_columns(rows, right - left, top - bottom)
    return _numbered(blank, [(drawn(page), named(page, right - left)) for page in made])


def warning_row(width_in: float) -> Row:
    """The whole warning, beside the steps of a saw, kept with what follows."""
    inside = width_in - 0.16
    head = words("WARNING", inside, bold=True)
    return replace(framed(under([head, words(WARNING, inside)]), width_in), with_next=True)


def leaves(rows: Iterable[Row], blank: Page) -> tuple[Leaf, ...]:
    """Rows on as many pages like `blank` as they take, numbered through."""
    left, bottom, right, top = clear_field(blank)
    made = [filled(page, top - bottom) for page in paginate(rows, top - bottom)]
    return _numbered(blank, [(stacked(page), anchors(page, right - left)) for page in made])


def _numbered(
    blank: Page, made: Sequence[tuple[Drawing, Iterable[tuple[str, Box]]]]
) -> tuple[Leaf, ...]:
    """Leaves like `blank`, numbered through, from what fills each and the names in it."""
    left, _, _, top = clear_field(blank)
    return tuple(
        Leaf(
            replace(blank, drawing=drawing.moved(left, top), number=number, count=len(made)),
            tuple(
                (name, (x0 + left, y0 + top, x1 + left, y1 + top))
                for name, (x0, y0, x1, y1) in names
            ),
        )
        for number, (drawing, names) in enumerate(made, start=1)
    )
