"""Worksheets on paper: the sheets with room to draw, then all keys on pages of their own."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from figures.drawing import Drawing, Stroke
from figures.marking import marking_outline
from figures.paper import Paper
from figures.rows import Row, beside, paginate, space, stacked, under, words
from figures.sheet import Page, clear_field
from figures.tiling import PrintSetup, pages
from lessons.grading import tolerance_words
from lessons.problem import Problem, given_words
from lessons.telling import MEASURE_WORDS
from lessons.worksheet import Series, Sheet, fault_words, marked_runs, meanings

ASK_PT, SMALL_PT = 11.0, 9.0
ROOM_IN = 0.6
"""The least room to draw for a number; what a page has over is shared out [in]."""
INDENT_IN = 0.32


@dataclass(frozen=True)
class Bundle:
    """All pages of a class, the bookmarks and what a viewer calls each page."""

    pages: tuple[Page, ...]
    bookmarks: tuple[tuple[str, int], ...]
    labels: tuple[str, ...]


@dataclass(frozen=True)
class _Item:
    """A problem on paper: made with so much room to draw; whether it takes more."""

    make: Callable[[float], Row]
    grows: bool

    def row(self, extra_in: float = 0.0) -> Row:
        return self.make(extra_in if self.grows else 0.0)


def bundle(sheets: Sequence[Sheet], paper: Paper) -> Bundle:
    """The pages of every sheet, then those of every key."""
    made: list[Page] = []
    bookmarks: list[tuple[str, int]] = []
    labels: list[str] = []
    for sheet in sheets:
        bookmarks.append((f"Sheet {sheet.number}", len(made)))
        one = sheet_pages(sheet, paper)
        made += one
        labels += [f"{sheet.number}-{i}" for i in range(1, len(one) + 1)]
    first_key = len(made)
    keys, starts = key_pages(sheets, paper)
    made += keys
    labels += [f"key {i}" for i in range(1, len(keys) + 1)]
    bookmarks += [(f"Key to sheet {number}", first_key + at) for number, at in starts]
    return Bundle(tuple(made), tuple(bookmarks), tuple(labels))


def sheet_pages(sheet: Sheet, paper: Paper) -> tuple[Page, ...]:
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
    drawn = f"Sheet {sheet.number} of those drawn by: {sheet.series.command}"
    head, foot = _name_row(width), words(drawn, width, 8.0)
    items = [_item(i, problem, width) for i, problem in enumerate(sheet.problems, start=1)]
    texts = [
        replace(blank, drawing=_filled(leaf, head if i == 0 else None, foot, width, height))
        for i, leaf in enumerate(_leaves(items, height - head.height_in - foot.height_in))
    ]
    texts = [replace(page, drawing=page.drawing.moved(left, top)) for page in texts]
    made = [*texts, *_marking_pages(sheet, paper, stamp)]
    return tuple(replace(page, number=i, count=len(made)) for i, page in enumerate(made, start=1))


def _marking_pages(sheet: Sheet, paper: Paper, stamp: str) -> list[Page]:
    made: list[Page] = []
    for place, problem in enumerate(sheet.problems, start=1):
        if problem.drill.kind == "mark":
            made += pages(
                marking_outline(problem.right),
                PrintSetup(paper),
                title=f"Sheet {sheet.number}, problem {place}: mark this board",
                given=given_words(problem.right, problem.system),
                version=stamp,
                description=f"A bare board at full size, to be marked. {problem.ask}",
            )
    return made


def _leaves(items: Sequence[_Item], height_in: float) -> list[list[_Item]]:
    by_row = {id(row): item for item in items for row in [item.row()]}
    rows = {key: item.row() for key, item in by_row.items()}
    order = list(rows.items())
    leaves = paginate([row for _, row in order], height_in)
    found, at = [], 0
    for leaf in leaves:
        found.append([by_row[key] for key, _ in order[at : at + len(leaf)]])
        at += len(leaf)
    return found


def _filled(
    leaf: Sequence[_Item], head: Row | None, foot: Row, width_in: float, height_in: float
) -> Drawing:
    """A page of problems, its spare height shared out as room to draw, its foot at the bottom."""
    used = sum(item.row().height_in for item in leaf) + foot.height_in
    used += head.height_in if head else 0.0
    growing = sum(item.grows for item in leaf)
    extra = max(0.0, height_in - used - 0.02) / growing if growing else 0.0
    rows = [*([head] if head else []), *(item.row(extra) for item in leaf)]
    low = foot.drawing.moved(0.0, -(height_in - foot.height_in))
    return stacked(rows) + low


def _item(number: int, problem: Problem, width_in: float) -> _Item:
    inside = width_in - INDENT_IN
    asked = [
        words(problem.ask, width_in, ASK_PT, indent_in=INDENT_IN, lead=f"{number}.", bold=True),
        _indented(words(f"Given: {given_words(problem.right, problem.system)}.", inside)),
    ]
    told = tolerance_words(problem)
    if problem.layout is not None:
        lines = [
            beside(words(line.letter, 0.3, ASK_PT, bold=True), words(line.text, inside - 0.3), 0.3)
            for line in problem.layout.lines
        ]
        asked += [_indented(row) for row in lines]
        asked.append(_indented(_blanks("Faulty line", 0.6, "What was done", 4.2, inside)))
        asked.append(_indented(_blanks("It should read", 3.2, "Gap, about", 1.0, inside)))
        return _Item(lambda extra: under([*asked, space(0.12 + extra)]), grows=True)
    if problem.measure is not None:
        measured = MEASURE_WORDS[problem.measure]
        asked.append(
            _indented(words(f"Mark it on the full-size page; then measure {measured}.", inside))
        )
        asked.append(_answer_row("Measured", told, inside))
        return _Item(lambda extra: under([*asked, space(0.12)]), grows=False)
    answer = _answer_row("Answer", told, inside)
    return _Item(
        lambda extra: under([*asked, space(ROOM_IN + extra), answer, space(0.12)]), grows=True
    )


def _answer_row(name: str, told: str, width_in: float) -> Row:
    """A line to write on, and beside it what is told of the answer."""
    blank = _blanks(name, 1.5, "", 0.0, width_in)
    words_at = 2.5
    said = words(told, width_in - words_at, SMALL_PT)
    lowered = replace(said, drawing=said.drawing.moved(0.0, -0.16), height_in=said.height_in + 0.16)
    return _indented(beside(blank, lowered, words_at))


def _indented(row: Row) -> Row:
    return replace(row, drawing=row.drawing.moved(INDENT_IN, 0.0))


def _blanks(first: str, first_in: float, second: str, second_in: float, width_in: float) -> Row:
    """Words with lines to write on behind them."""
    row = space(0.36)
    drawing, x = Drawing(), 0.0
    for text, line_in in ((first, first_in), (second, second_in)):
        if not text:
            continue
        label = words(text, width_in, SMALL_PT)
        _, _, right, _ = label.drawing.bounds()
        line = Stroke(((right + 0.08, -0.3), (right + 0.08 + line_in, -0.3)), "frame")
        drawing += (label.drawing.moved(0.0, -0.16) + Drawing((line,))).moved(x, 0.0)
        x += right + line_in + 0.3
    return replace(row, drawing=drawing)


def _name_row(width_in: float) -> Row:
    row = _blanks("Name", 3.2, "Date", 1.5, width_in)
    return under([row, space(0.14)])


def key_pages(sheets: Sequence[Sheet], paper: Paper) -> tuple[list[Page], list[tuple[int, int]]]:
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
    rows: list[Row] = []
    owner: list[int] = []
    for sheet in sheets:
        for row in _key_rows(sheet, width):
            rows.append(row)
            owner.append(sheet.number)
    leaves = paginate(rows, top - bottom)
    starts: list[tuple[int, int]] = []
    at = 0
    for page, leaf in enumerate(leaves):
        for number in owner[at : at + len(leaf)]:
            if not starts or starts[-1][0] != number:
                starts.append((number, page))
        at += len(leaf)
    made = [
        replace(blank, drawing=stacked(leaf).moved(left, top), number=i, count=len(leaves))
        for i, leaf in enumerate(leaves, start=1)
    ]
    return made, starts


def _key_rows(sheet: Sheet, width_in: float) -> Iterable[Row]:
    heading = f"Key to sheet {sheet.number}, seed {sheet.series.seed}"
    yield words(heading, width_in, 12.5, bold=True, with_next=True)
    again = f"Again: {sheet.series.key_command(sheet.number)}"
    yield words(again, width_in, 8.0, with_next=True)
    for number, problem in enumerate(sheet.problems, start=1):
        yield _key_row(number, problem, width_in)
    yield space(0.15)


def _key_row(number: int, problem: Problem, width_in: float) -> Row:
    inside = width_in - INDENT_IN
    rows = [
        words(f"{number}.  {problem.answer_text}", width_in, ASK_PT, bold=True),
        _indented(words(f"Given: {given_words(problem.right, problem.system)}.", inside, SMALL_PT)),
    ]
    if problem.layout is not None:
        rows.append(_indented(words(fault_words(problem), inside, SMALL_PT)))
    runs = marked_runs(problem)
    if runs:
        rows.append(_indented(words(f"Measured: {'; '.join(runs)}.", inside, SMALL_PT)))
    rows.append(_indented(words(f"Because: {problem.because}", inside, SMALL_PT)))
    for meaning in meanings(problem):
        wrong = words(meaning.answer, 1.05, SMALL_PT)
        rows.append(
            _indented(beside(wrong, words(" Or: ".join(meaning.does), inside - 1.1, SMALL_PT), 1.1))
        )
    return under(rows)


def key_bundle(sheet: Sheet, paper: Paper) -> Bundle:
    """The key of one sheet alone."""
    made, _ = key_pages([sheet], paper)
    labels = tuple(f"key {i}" for i in range(1, len(made) + 1))
    return Bundle(tuple(made), ((f"Key to sheet {sheet.number}", 0),), labels)


def title(series: Series, count: int) -> str:
    """The file's own title."""
    return f"Practice sheets 1 to {count}, seed {series.seed}"
