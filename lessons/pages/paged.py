"""A lesson's blocks set on pages: rows of words and pictures for the printer.

The title strip of every page is the lesson's heading, so that a loose sheet says where it
belongs. Words stand at the left, the picture of a step at the right; hints and answers come
last, on a page of their own, that an instructor may keep back.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from figures.ink.drawing import Box, Drawing
from figures.ink.paper import Paper
from figures.page.flow import (
    Row,
    anchors,
    beside,
    columns,
    filled,
    framed,
    hung,
    paginate,
    picture,
    rule,
    space,
    stacked,
    under,
    words,
    writing_lines,
)
from figures.page.sheet import Page, clear_field
from layout.answer.wording import given_line
from layout.errors import SheetError
from lessons.course.runner import Worked
from lessons.say.blocks import (
    Block,
    Cautions,
    Drills,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    Picture,
    Problem,
    Steps,
    Terms,
)
from lessons.say.words import CAUTION

WORDS_PART = 0.37
"""The part of the width that words take beside their picture."""
GUTTER_IN = 0.2
PICTURE_TALL, PICTURE_TALLEST = 0.39, 0.52
"""Least and greatest height of a picture's room beside words, as parts of the page's width."""
HEADING_PT, LEAD_PT, NUMBER_PT, SMALL_PT = 13.0, 11.0, 15.0, 9.0
INDENT_IN = 0.3
MARK_THERE = "Mark it on the full-size page behind this lesson."
NAMES_IN = 1.35
"""Width of the names of facts [in]."""


def lesson_title(worked: Worked) -> str:
    """What the lesson is called on its pages, in the contents and in bookmarks."""
    return f"{worked.lesson.number}. {worked.lesson.title}"


@dataclass(frozen=True)
class Leaf:
    """A page of text, and the named rows on it with the boxes they take [page inches]."""

    page: Page
    anchors: tuple[tuple[str, Box], ...] = ()


def lesson_leaves(worked: Worked, paper: Paper, margin_in: float = 0.5) -> tuple[Leaf, ...]:
    """The lesson on pages of this paper, numbered through, its headings as anchors.

    Every page carries the cautions.
    """
    blank = Page(
        paper,
        Drawing(),
        title=lesson_title(worked),
        given=given_line(worked.answer, metric=worked.system.is_metric),
        scale=None,
        margin_in=margin_in,
        description=worked.lesson.able.fill(worked.answer, worked.system),
    )
    left, _, right, _ = clear_field(blank)
    rows: list[Row] = []
    for block in worked.blocks:
        if isinstance(block, Facts) and rows:
            # Facts say nothing away from what they belong to.
            rows[-1] = replace(rows[-1], with_next=True)
        rows += block_rows(block, right - left)
    return leaves(rows, blank)


def leaves(rows: Iterable[Row], blank: Page) -> tuple[Leaf, ...]:
    """Rows on as many pages like `blank` as they take, numbered through."""
    left, bottom, right, top = clear_field(blank)
    made = [filled(page, top - bottom) for page in paginate(rows, top - bottom)]
    return tuple(
        Leaf(
            replace(blank, drawing=stacked(page).moved(left, top), number=number, count=len(made)),
            tuple(
                (name, (x0 + left, y0 + top, x1 + left, y1 + top))
                for name, (x0, y0, x1, y1) in anchors(page, right - left)
            ),
        )
        for number, page in enumerate(made, start=1)
    )


def block_rows(block: Block, width_in: float) -> Iterator[Row]:
    """The rows a block takes on paper of this width.

    The heading of a whole lesson takes none: it stands in the title strip.
    """
    match block:
        case Heading(_, 1):
            return
        case Heading(text, _):
            yield from heading_rows(text, width_in)
        case Paragraph(text, True):
            # Strong words lead in what follows: never the last line of a page.
            yield words(text, width_in, LEAD_PT, bold=True, with_next=True)
            yield replace(space(0.06), with_next=True)
        case Paragraph(text, _):
            yield words(text, width_in)
        case Steps(items):
            for number, (text, shown) in enumerate(items, start=1):
                yield _step(str(number), text, shown, width_in)
                yield space(0.1 if shown else 0.02)
        case Facts(pairs):
            yield under(
                [
                    beside(
                        words(name, NAMES_IN - 0.1, bold=True),
                        words(means, width_in - NAMES_IN),
                        NAMES_IN,
                    )
                    for name, means in pairs
                ]
            )
        case Terms(pairs):
            yield _terms(pairs, width_in)
        case Mistaken():
            yield _mistaken(block, width_in)
            yield space(0.1)
        case Cautions(lines):
            yield from _cautions(lines, width_in)
        case Drills(problems):
            yield from _asked(problems, width_in)
            yield from _answered(problems, width_in)


def heading_rows(text: str, width_in: float) -> Iterator[Row]:
    """A heading under a rule, kept with what follows."""
    yield space(0.14, with_next=True)
    yield rule(width_in, 0.06, with_next=True)
    row = words(text, width_in, HEADING_PT, bold=True, with_next=True)
    yield replace(row, anchor=text)


def _step(number: str, text: str, shown: Picture | None, width_in: float) -> Row:
    """A step: its number, its words, and beside them the picture that shows it."""
    if shown is None:
        return hung(number, words(text, width_in - INDENT_IN), INDENT_IN, NUMBER_PT)
    said = words(text, width_in * WORDS_PART - INDENT_IN)
    return _with_picture(hung(number, said, INDENT_IN, NUMBER_PT), shown, width_in)


def _mistaken(block: Mistaken, width_in: float) -> Row:
    inside = width_in - 0.16
    narrow = inside * WORDS_PART
    said = under(
        [
            words("MISTAKE", narrow, SMALL_PT, bold=True),
            words(block.title, narrow, LEAD_PT, bold=True),
            space(0.04),
            words(block.text, narrow),
            space(0.04),
            words("Its price", narrow, SMALL_PT, bold=True),
            words(block.price, narrow, bold=True),
        ]
    )
    return _whole(_with_picture(said, block.picture, inside), lambda row: framed(row, width_in))


def _cautions(lines: Iterable[str], width_in: float) -> Iterator[Row]:
    """The lesson's own cautions; those that every lesson has stand at the foot of every page."""
    own = "\n".join(line for line in lines if line not in CAUTION)
    if own:
        said = words(own, width_in - 0.16 - NAMES_IN, bold=True)
        yield space(0.06)
        yield framed(beside(words("WARNING", NAMES_IN, bold=True), said, NAMES_IN), width_in)


def _terms(pairs: Iterable[tuple[str, str]], width_in: float) -> Row:
    """Words explained, read down two columns."""
    column = (width_in - GUTTER_IN) / 2
    names = column * 0.33
    return columns(
        [
            beside(
                words(name, names - 0.08, SMALL_PT, bold=True),
                words(means, column - names, SMALL_PT),
                names,
            )
            for name, means in pairs
        ],
        column + GUTTER_IN,
    )


def _asked(problems: Iterable[Problem], width_in: float) -> Iterator[Row]:
    """The problems, each with room to work."""
    room = width_in - INDENT_IN
    for number, problem in enumerate(problems, start=1):
        parts = [words(problem.ask, room)]
        parts += [words(line, room - INDENT_IN).indented(INDENT_IN) for line in problem.layout]
        if problem.outline is not None:
            parts.append(words(MARK_THERE, room, SMALL_PT))
        else:
            parts.append(writing_lines(room, 3))
        yield hung(str(number), under(parts), INDENT_IN, NUMBER_PT)
        yield space(0.12)


def _answered(problems: tuple[Problem, ...], width_in: float) -> Iterator[Row]:
    """Hints, then answers with their reasons, on a fresh page."""
    room = width_in - INDENT_IN
    hinted = [(i, each) for i, each in enumerate(problems, start=1) if each.hints]
    if hinted:
        yield from _fresh(heading_rows("Hints, one at a time", width_in))
        for number, problem in hinted:
            lines = "\n".join(problem.hints)
            yield hung(str(number), words(lines, room), INDENT_IN, NUMBER_PT)
    head = heading_rows("Answers", width_in)
    yield from head if hinted else _fresh(head)
    for number, problem in enumerate(problems, start=1):
        if problem.solved is None:
            said = under(
                [words(problem.answer, room, bold=True), words(problem.because, room)],
            )
            yield hung(str(number), said, INDENT_IN, NUMBER_PT)
        else:
            narrow = width_in * WORDS_PART - INDENT_IN
            said = under([words(problem.answer, narrow, bold=True), words(problem.because, narrow)])
            said = hung(str(number), said, INDENT_IN, NUMBER_PT)
            yield _with_picture(said, problem.solved, width_in)
        yield space(0.05)


def _fresh(rows: Iterable[Row]) -> Iterator[Row]:
    """The same rows, the first of which starts a page."""
    for at, row in enumerate(rows):
        yield replace(row, fresh=at == 0)


def _with_picture(said: Row, shown: Picture, width_in: float) -> Row:
    """Words and their picture side by side; a picture that needs more room stands below them."""
    start = width_in * WORDS_PART + GUTTER_IN
    room = width_in - start
    least = max(width_in * PICTURE_TALL, said.height_in)
    most = max(width_in * PICTURE_TALLEST, least)

    def drawn(tall_in: float) -> Row:
        row = beside(said, picture(shown.draw((room, tall_in)), room), start)
        return replace(row, taller=lambda more_in: drawn(min(most, tall_in + more_in)))

    for tall in (least, most):
        try:
            return drawn(tall)
        except SheetError:
            continue
    below = shown.drawn_in_first([(width_in, 0.5 * width_in), (width_in, 0.9 * width_in)])
    return under([said, picture(below, width_in)])


def _whole(row: Row, dressed: Callable[[Row], Row]) -> Row:
    """The row dressed, and dressed again when it has grown."""
    taller = row.taller
    if taller is None:
        return dressed(row)
    return replace(dressed(row), taller=lambda more_in: dressed(taller(more_in)))
