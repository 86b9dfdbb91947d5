"""A lesson's blocks as rows for paper: words, steps with their pictures, tables, mistakes, drills.

On a full width words stand at the left and the picture of a step at the right; in a column the
picture stands under its words. A step is never parted from its picture.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from figures.ink.lettering import text_size
from figures.page.flow import (
    TEXT_PT,
    Row,
    beside,
    columns,
    framed,
    hung,
    rule,
    space,
    under,
    words,
    writing_lines,
)
from figures.page.flow import table as ruled_table
from figures.page.two_columns import GUTTER_IN
from lessons.pages.pictured_rows import WORDS_PART, under_words, whole, with_picture
from lessons.say.blocks import (
    Block,
    Boxed,
    Cautions,
    DrillsBlock,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    PictureBlock,
    ProblemBlock,
    Steps,
    TableBlock,
    Terms,
)
from lessons.say.words import CAUTION

WORK_LINES = (1, 2, 3, 4, 5)
"""Lines to work a problem on: as many as the pages have room for."""
COLUMN_IN = 4.6
"""A narrower width is a column: pictures stand under their words [in]."""
HEADING_PT, LEAD_PT, NUMBER_PT, SMALL_PT = 13.0, 11.0, 15.0, 9.0
TWO_DIGITS_PT = 10.5
"""A step's number of two digits, which must leave white before the words."""
INDENT_IN = 0.3
MARK_ON_SCRAP = "Mark it on a scrap board."
MARK_THERE = "Mark it on a scrap board, or on the bare board at the back, sheet {}."
NAMES_IN = 1.35
"""Width of the names of facts [in]."""


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
                anchor = shown.mark if isinstance(shown, PictureBlock) else ""
                yield replace(_step(str(number), text, shown, width_in), anchor=anchor)
                yield space(0.06 if shown else 0.02)
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
            yield from _terms(pairs, width_in)
        case Mistaken():
            anchor = block.picture.mark if block.picture else ""
            yield replace(_mistaken(block, width_in), anchor=anchor)
            yield space(0.1)
        case Cautions(lines):
            yield from _cautions(lines, width_in)
        case DrillsBlock(problems, opened):
            yield from opened_rows(opened, width_in)
            yield from asked_rows(problems, width_in)
            yield from hint_rows(problems, width_in)
            yield from answer_rows(problems, width_in, opened)
        case TableBlock():
            yield from table_rows(block, width_in)
        case Boxed(title, lines):
            said = [words(title, width_in - 0.16, bold=True)]
            said += [words(line, width_in - 0.16, SMALL_PT) for line in lines]
            yield space(0.06)
            yield framed(under(said), width_in)
            yield space(0.06)


def heading_rows(text: str, width_in: float) -> Iterator[Row]:
    """A heading under a rule, kept with what follows."""
    yield space(0.14, with_next=True)
    yield rule(width_in, 0.06, with_next=True)
    row = words(text, width_in, HEADING_PT, bold=True, with_next=True)
    yield replace(row, anchor=text)


def _step(number: str, text: str, shown: PictureBlock | TableBlock | None, width_in: float) -> Row:
    """A step: its number, its words, and with them the picture or table that shows it."""
    size_pt = NUMBER_PT if len(number) < 2 else TWO_DIGITS_PT
    full = hung(number, words(text, width_in - INDENT_IN), INDENT_IN, size_pt)
    if shown is None:
        return full
    if isinstance(shown, TableBlock):
        return under([full, *table_rows(shown, width_in)])
    if width_in < COLUMN_IN:
        return under_words(
            lambda room: hung(number, words(text, room - INDENT_IN), INDENT_IN, size_pt),
            shown,
            width_in,
        )
    said = words(text, width_in * WORDS_PART - INDENT_IN)
    return with_picture(hung(number, said, INDENT_IN, size_pt), shown, width_in)


def table_rows(table: TableBlock, width_in: float) -> list[Row]:
    """A table with what it shows over it, its columns as wide as their longest word asks."""
    cells = list(zip(table.head, *table.rows, strict=True))

    def widest(texts: Iterable[str]) -> float:
        return max(text_size(text, SMALL_PT, True)[0] for text in texts) + 0.1

    long = [widest(cell for cell in column[1:]) for column in cells]
    least = [widest(" ".join(column).split()) for column in cells]
    spare = max(0.0, width_in - sum(least))
    over = [max(0.0, wide - small) for wide, small in zip(long, least, strict=True)]
    total = sum(over) or 1.0
    widths = [small + spare * part / total for small, part in zip(least, over, strict=True)]
    head = words(table.shows, width_in, SMALL_PT, bold=True, with_next=True)
    return [head, *ruled_table(table.head, table.rows, widths, SMALL_PT)]


def _mistaken(block: Mistaken, width_in: float) -> Row:
    inside = width_in - 0.16

    def said(room_in: float) -> Row:
        return under(
            [
                words(f"MISTAKE  {block.title}", room_in, bold=True),
                words(block.text, room_in),
                words(block.price, room_in, bold=True),
            ]
        )

    if block.picture is None:
        return framed(said(inside), width_in)
    if width_in < COLUMN_IN:
        row = under_words(said, block.picture, inside)
        across = 2 * width_in + GUTTER_IN
        return replace(framed(row, across if row.wide else width_in), wide=row.wide)
    row = with_picture(said(inside * WORDS_PART), block.picture, inside)
    return whole(row, lambda one: framed(one, width_in))


def _cautions(lines: Iterable[str], width_in: float) -> Iterator[Row]:
    """The lesson's own cautions; those that every lesson has stand at the foot of every page."""
    own = "\n".join(line for line in lines if line not in CAUTION)
    if own:
        said = words(own, width_in - 0.16 - NAMES_IN, bold=True)
        yield space(0.06)
        yield framed(beside(words("WARNING", NAMES_IN, bold=True), said, NAMES_IN), width_in)


def _terms(pairs: Iterable[tuple[str, str]], width_in: float) -> Iterator[Row]:
    """Words explained, read down two columns, or down one that is narrow."""
    narrow = width_in < COLUMN_IN
    column = width_in if narrow else (width_in - GUTTER_IN) / 2
    names = column * 0.33
    told = [
        beside(
            words(name, names - 0.08, SMALL_PT, bold=True),
            words(means, column - names, SMALL_PT),
            names,
        )
        for name, means in pairs
    ]
    yield from told if narrow else [columns(told, column + GUTTER_IN)]


def asked_rows(
    problems: Iterable[ProblemBlock], width_in: float, board: str = "", lines: int = 2
) -> Iterator[Row]:
    """The problems, each with lines to work on; `board` names the bare board to mark."""
    room = width_in - INDENT_IN
    for number, problem in enumerate(problems, start=1):
        parts = [words(problem.ask, room)]
        parts += [words(line, room - INDENT_IN).indented(INDENT_IN) for line in problem.layout]
        if problem.outline is not None:
            there = MARK_THERE.format(board) if board else MARK_ON_SCRAP
            parts.append(words(there, room, SMALL_PT))
        else:
            parts.append(writing_lines(room, lines))
        yield hung(str(number), under(parts), INDENT_IN, NUMBER_PT)
        yield space(0.08)


def opened_rows(
    opened: ProblemBlock | None, width_in: float, size_pt: float = TEXT_PT
) -> Iterator[Row]:
    """The lesson's steps for another pitch, each line with its blanks."""
    if opened is None:
        return
    lines = [
        words(line, width_in - INDENT_IN, size_pt).indented(INDENT_IN) for line in opened.layout
    ]
    yield under([words(opened.ask, width_in, size_pt), *lines])
    yield space(0.08)


def hint_rows(problems: Sequence[ProblemBlock], width_in: float) -> Iterator[Row]:
    """The hints of each problem, on a fresh page that can be folded over or kept back."""
    hinted = [(i, each) for i, each in enumerate(problems, start=1) if each.hints]
    if hinted:
        yield from _fresh(heading_rows("Hints, one at a time", width_in))
    for number, problem in hinted:
        lines = "\n".join(problem.hints)
        yield hung(str(number), words(lines, width_in - INDENT_IN), INDENT_IN, NUMBER_PT)


def answer_rows(
    problems: Sequence[ProblemBlock], width_in: float, opened: ProblemBlock | None = None
) -> Iterator[Row]:
    """The answers with their reasons, on the page of the hints, or a fresh one where there are
    none; before them what belongs into the blanks."""
    room = width_in - INDENT_IN
    head = heading_rows("Answers", width_in)
    yield from head if any(problem.hints for problem in problems) else _fresh(head)
    if opened is not None:
        yield words(f"The steps left open. {opened.answer}", width_in)
    for number, problem in enumerate(problems, start=1):

        def said(room_in: float, number: int = number, problem: ProblemBlock = problem) -> Row:
            inside = room_in - INDENT_IN
            told = [words(problem.answer, inside, bold=True), words(problem.because, inside)]
            return hung(str(number), under(told), INDENT_IN, NUMBER_PT)

        if problem.solved is None:
            yield said(room + INDENT_IN)
        elif width_in < COLUMN_IN:
            yield under_words(said, problem.solved, width_in)
        else:
            narrow = said(width_in * WORDS_PART)
            yield with_picture(narrow, problem.solved, width_in)
        yield space(0.05)


def _fresh(rows: Iterable[Row]) -> Iterator[Row]:
    """The same rows, the first of which starts a page."""
    for at, row in enumerate(rows):
        yield replace(row, fresh=at == 0)
