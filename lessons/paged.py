"""A lesson's blocks set on pages: rows of words and pictures for the printer."""

from collections.abc import Iterator
from dataclasses import replace

from figures.paper import Paper
from figures.rows import (
    Row,
    beside,
    framed,
    paginate,
    picture,
    space,
    stacked,
    under,
    words,
)
from figures.sheet import Page, clear_field
from layout.wording import given_line
from lessons.blocks import (
    Block,
    Cautions,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    Picture,
    Steps,
    Terms,
)
from lessons.runner import Worked

WORDS_PART = 0.42
"""The part of the width that a step's words take beside their picture."""
GUTTER_IN = 0.2
TALLEST_IN = 2.6
"""Height that a picture beside a step may take [in]."""
HEADING_PT = {1: 17.0, 2: 12.5}
STEP_INDENT_IN = 0.26


def lesson_pages(worked: Worked, paper: Paper, margin_in: float = 0.5) -> tuple[Page, ...]:
    """The lesson on pages of this paper, numbered through; every page carries the cautions."""
    blank = Page(
        paper,
        stacked([]),
        title=f"Lesson {worked.lesson.number}: {worked.lesson.title}",
        given=given_line(worked.answer, metric=worked.system.is_metric),
        scale=None,
        margin_in=margin_in,
        description=worked.lesson.able.fill(worked.answer, worked.system),
    )
    left, bottom, right, top = clear_field(blank)
    rows = [row for block in worked.blocks for row in block_rows(block, right - left)]
    leaves = paginate(rows, top - bottom)
    return tuple(
        replace(
            blank,
            drawing=stacked(leaf).moved(left, top),
            number=number,
            count=len(leaves),
        )
        for number, leaf in enumerate(leaves, start=1)
    )


def block_rows(block: Block, width_in: float) -> Iterator[Row]:
    """The rows a block takes on paper of this width."""
    match block:
        case Heading(text, level):
            yield replace(space(0.1), with_next=True)
            yield words(text, width_in, HEADING_PT[level], bold=True, with_next=True)
        case Paragraph(text, strong):
            yield words(text, width_in, bold=strong)
        case Steps(items):
            for number, (text, shown) in enumerate(items, start=1):
                yield _step(f"{number}.", text, shown, width_in)
        case Facts(pairs) | Terms(pairs):
            for name, means in pairs:
                yield beside(words(name, 1.4, bold=True), words(means, width_in - 1.5), 1.5)
        case Mistaken():
            yield _mistaken(block, width_in)
        case Cautions(lines):
            text = "\n".join(lines)
            box = under([words("WARNING", width_in, bold=True), words(text, width_in - 0.2)])
            yield space(0.08)
            yield framed(box, width_in)


def _step(lead: str, text: str, shown: Picture | None, width_in: float) -> Row:
    """A step: its words, and beside them the picture that shows it."""
    if shown is None:
        return words(text, width_in, indent_in=STEP_INDENT_IN, lead=lead)
    said = words(text, width_in * WORDS_PART, indent_in=STEP_INDENT_IN, lead=lead)
    return _with_picture(said, shown, width_in)


def _mistaken(block: Mistaken, width_in: float) -> Row:
    narrow = width_in * WORDS_PART
    said = under(
        [
            words(block.title, narrow, bold=True),
            words(block.text, narrow),
            words(block.price, narrow, bold=True),
        ]
    )
    return _with_picture(said, block.picture, width_in)


def _with_picture(said: Row, shown: Picture, width_in: float) -> Row:
    start = width_in * WORDS_PART + GUTTER_IN
    drawn = picture(shown.draw((width_in - start, TALLEST_IN)), width_in - start)
    return replace(beside(said, drawn, start), height_in=max(said.height_in, drawn.height_in) + 0.1)
