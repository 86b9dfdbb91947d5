"""Worksheets on paper: the sheets with room to draw, then all keys on pages of their own."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from figures.files.binding import Bookmark
from figures.ink.drawing import Drawing, Stroke
from figures.ink.paper import Paper
from figures.page.flow import (
    LEAD_IN,
    Row,
    beside,
    filled,
    hung,
    paginate,
    space,
    stacked,
    under,
    words,
)
from figures.page.sheet import Page, clear_field
from figures.page.tiling import PrintSetup
from lessons.drill.grading import tolerance_words
from lessons.drill.problem import Problem, given_words
from lessons.drill.problem_words import MEASURE_WORDS
from lessons.drill.worksheet import Series, Worksheet, fault_words, marked_runs, meanings
from lessons.pages.full_size import bare_board

HEADING_PT, ASK_PT, SMALL_PT = 12.5, 11.0, 9.0
ROOM_IN = 0.6
"""The least room to draw for a number; what a page has over is shared out [in]."""
INDENT_IN, UNDER_IN = 0.32, 0.12
TOLD_AT_IN = 2.5
"""Where what is told of an answer stands beside the line it is written on [in]."""
WRITING_IN = 0.16
"""White over a line to write on [in]."""


@dataclass(frozen=True)
class Bundle:
    """All pages of a class, the bookmarks and what a viewer calls each page."""

    pages: tuple[Page, ...]
    bookmarks: tuple[Bookmark, ...]
    labels: tuple[str, ...]


def bundle(
    sheets: Sequence[Worksheet],
    paper: Paper,
    *,
    keys: bool = True,
    on_sheet: Callable[[], None] = lambda: None,
) -> Bundle:
    """The pages of every sheet, then, where they are not kept apart, those of every key.

    `on_sheet` is called when a sheet is drawn.
    """
    made: list[Page] = []
    bookmarks: list[Bookmark] = []
    labels: list[str] = []
    for sheet in sheets:
        bookmarks.append(Bookmark(f"Sheet {sheet.number}", len(made)))
        one = sheet_pages(sheet, paper)
        made += one
        labels += [f"{sheet.number}-{i}" for i in range(1, len(one) + 1)]
        on_sheet()
    if not keys:
        return Bundle(tuple(made), tuple(bookmarks), tuple(labels))
    first_key = len(made)
    of_keys, starts = key_pages(sheets, paper)
    made += of_keys
    labels += [f"key {i}" for i in range(1, len(of_keys) + 1)]
    bookmarks += [Bookmark(f"Key to sheet {number}", first_key + at) for number, at in starts]
    return Bundle(tuple(made), tuple(bookmarks), tuple(labels))


def sheet_pages(sheet: Worksheet, paper: Paper) -> tuple[Page, ...]:
    """One sheet: its problems, then a full-size page for each mark to make."""
    stamp = sheet.series.stamp(sheet.number)
    blank = Page(
        paper,
        Drawing(),
        title=f"Practice sheet {sheet.number}",
        given="Work from what is given. Show how you come to it.",
        scale=None,
        version=stamp,
    )
    left, bottom, right, top = clear_field(blank)
    width, height = right - left, top - bottom
    drawn = f"Sheet {sheet.number} of those drawn by: {sheet.series.sheet_command(sheet.number)}"
    head = _name_row(width, sheet.series.learner(sheet.number))
    foot = words(drawn, width, 8.0)
    rows = [head, *(_asked(i, one, width) for i, one in enumerate(sheet.problems, start=1))]
    room = height - foot.height_in
    texts = [
        replace(
            blank,
            drawing=stacked([*filled(leaf, room)]).moved(left, top)
            + foot.drawing.moved(left, bottom + foot.height_in),
        )
        for leaf in paginate(rows, room)
    ]
    made = [*texts, *_marking_pages(sheet, paper, stamp)]
    return tuple(replace(page, number=i, count=len(made)) for i, page in enumerate(made, start=1))


def _marking_pages(sheet: Worksheet, paper: Paper, stamp: str) -> list[Page]:
    made: list[Page] = []
    for place, problem in enumerate(sheet.problems, start=1):
        if problem.drill.kind == "mark":
            made += bare_board(
                problem.true_answer,
                PrintSetup(paper),
                title=f"Sheet {sheet.number}, problem {place}: mark this board",
                given=given_words(problem.true_answer, problem.system),
                version=stamp,
                description=f"A bare board at full size, to be marked. {problem.ask}",
            )
    return made


def _asked(number: int, problem: Problem, width_in: float) -> Row:
    """A problem: what is asked and given, room to draw, and lines for the answer."""
    inside = width_in - INDENT_IN
    asked = [
        hung(f"{number}.", words(problem.ask, inside, ASK_PT, bold=True), INDENT_IN, ASK_PT),
        words(f"Given: {given_words(problem.true_answer, problem.system)}.", inside).indented(
            INDENT_IN
        ),
    ]
    if problem.layout is not None:
        asked += [
            hung(line.letter, words(line.text, inside - INDENT_IN), INDENT_IN).indented(INDENT_IN)
            for line in problem.layout.lines
        ]
        write = [
            _blanks((("Faulty line", 0.6), ("What was done", 4.2)), inside),
            _blanks((("It should read", 3.2), ("Gap, about", 1.0)), inside),
        ]
        return _growing(asked, [row.indented(INDENT_IN) for row in write], 0.0)
    told = tolerance_words(problem)
    if problem.measure is not None:
        measured = f"Mark it on the full-size page; then measure {MEASURE_WORDS[problem.measure]}."
        asked.append(words(measured, inside).indented(INDENT_IN))
        return under([*asked, _answer_row("Measured", told, inside), space(UNDER_IN)])
    return _growing(asked, [_answer_row("Answer", told, inside)], ROOM_IN)


def _growing(asked: Sequence[Row], write: Sequence[Row], room_in: float) -> Row:
    """A problem with room to draw between question and answer, more where the page has it."""
    row = under([*asked, space(room_in), *write, space(UNDER_IN)])
    return replace(row, taller=lambda more: _growing(asked, write, room_in + more))


def _answer_row(name: str, told: str, width_in: float) -> Row:
    """A line to write on, and beside it what is told of the answer."""
    blank = _blanks(((name, 1.5),), width_in)
    said = words(told, width_in - TOLD_AT_IN, SMALL_PT)
    lowered = replace(
        said, drawing=said.drawing.moved(0.0, -WRITING_IN), height_in=said.height_in + WRITING_IN
    )
    return beside(blank, lowered, TOLD_AT_IN).indented(INDENT_IN)


def _blanks(named: Sequence[tuple[str, float]], width_in: float) -> Row:
    """Words in a row, each followed by a line to write on, of this length [in]."""
    drawing, x, height = Drawing(), 0.0, 0.0
    for text, line_in in named:
        label = words(text, width_in, SMALL_PT)
        height = max(height, label.height_in)
        end = x + label.drawing.bounds()[2] + 0.08
        low = -WRITING_IN - label.height_in + LEAD_IN
        line = Stroke(((end, low), (end + line_in, low)), "frame")
        drawing += label.drawing.moved(x, -WRITING_IN) + Drawing((line,))
        x = end + line_in + 0.25
    return Row(drawing, WRITING_IN + height)


def _name_row(width_in: float, learner: str) -> Row:
    if not learner:
        return under([_blanks((("Name", 3.2), ("Date", 1.5)), width_in), space(0.14)])
    name = words(learner, width_in - 2.4, HEADING_PT, bold=True)
    date = _blanks((("Date", 1.5),), 2.4)
    return under([beside(name, date, width_in - 2.3), space(0.14)])


def key_pages(
    sheets: Sequence[Worksheet], paper: Paper
) -> tuple[list[Page], list[tuple[int, int]]]:
    """The keys of sheets, and on which of these pages each sheet's key starts, from 0."""
    series = sheets[0].series
    numbers = [sheet.number for sheet in sheets]
    span = f"sheet {numbers[0]}" if len(numbers) == 1 else f"sheets {numbers[0]} to {numbers[-1]}"
    blank = Page(
        paper,
        Drawing(),
        title=f"KEY to {span}",
        given="Keep apart from the sheets.",
        scale=None,
        version=series.stamp(numbers[0]).replace(f"sheet {numbers[0]}", span),
    )
    left, bottom, right, top = clear_field(blank)
    width = right - left
    rows = [row for sheet in sheets for row in _key_rows(sheet, width)]
    leaves = paginate(rows, top - bottom)
    starts = [
        (int(row.anchor), page) for page, leaf in enumerate(leaves) for row in leaf if row.anchor
    ]
    made = [
        replace(blank, drawing=stacked(leaf).moved(left, top), number=i, count=len(leaves))
        for i, leaf in enumerate(leaves, start=1)
    ]
    return made, starts


def _key_rows(sheet: Worksheet, width_in: float) -> Iterable[Row]:
    heading = f"Key to sheet {sheet.number}, seed {sheet.series.seed}"
    yield replace(
        words(heading, width_in, HEADING_PT, bold=True, with_next=True), anchor=str(sheet.number)
    )
    again = f"Again: {sheet.series.key_command(sheet.number)}"
    yield words(again, width_in, 8.0, with_next=True)
    for number, problem in enumerate(sheet.problems, start=1):
        yield _key_row(number, problem, width_in)
    yield space(0.15)


def _key_row(number: int, problem: Problem, width_in: float) -> Row:
    inside = width_in - INDENT_IN
    rows = [
        words(f"{number}.  {problem.answer_text}", width_in, ASK_PT, bold=True),
        words(
            f"Given: {given_words(problem.true_answer, problem.system)}.", inside, SMALL_PT
        ).indented(INDENT_IN),
    ]
    if problem.layout is not None:
        rows.append(words(fault_words(problem), inside, SMALL_PT).indented(INDENT_IN))
    runs = marked_runs(problem)
    if runs:
        rows.append(words(f"Measured: {'; '.join(runs)}.", inside, SMALL_PT).indented(INDENT_IN))
    rows.append(words(f"Because: {problem.because}", inside, SMALL_PT).indented(INDENT_IN))
    for meaning in meanings(problem):
        wrong = words(meaning.answer, 1.05, SMALL_PT)
        does = words(" Or: ".join(meaning.does), inside - 1.1, SMALL_PT)
        rows.append(beside(wrong, does, 1.1).indented(INDENT_IN))
    return under(rows)


def keys_bundle(sheets: Sequence[Worksheet], paper: Paper) -> Bundle:
    """The keys of all sheets, for a file of their own."""
    made, starts = key_pages(sheets, paper)
    labels = tuple(f"key {i}" for i in range(1, len(made) + 1))
    bookmarks = tuple(Bookmark(f"Key to sheet {number}", at) for number, at in starts)
    return Bundle(tuple(made), bookmarks, labels)


def key_bundle(sheet: Worksheet, paper: Paper) -> Bundle:
    """The key of one sheet alone."""
    made, _ = key_pages([sheet], paper)
    labels = tuple(f"key {i}" for i in range(1, len(made) + 1))
    return Bundle(tuple(made), (Bookmark(f"Key to sheet {sheet.number}", 0),), labels)


def title(series: Series, count: int) -> str:
    """The file's own title."""
    return f"Practice sheets 1 to {count}, seed {series.seed}"
