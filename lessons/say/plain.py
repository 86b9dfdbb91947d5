"""A lesson's blocks as plain text, for the terminal."""

import re
import shutil
import textwrap
from collections.abc import Iterable, Iterator
from itertools import zip_longest

from lessons.say.blocks import (
    Block,
    Boxed,
    Cautions,
    DrillsBlock,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    Steps,
    TableBlock,
    Terms,
)

_MIXED = re.compile(r"(?<=\d) (?=\d+/\d)| (?=in\b)")
WIDEST = 92
"""Longer lines are hard to follow, however wide the terminal is."""


def in_words(blocks: Iterable[Block], width: int | None = None) -> str:
    """All blocks in words, wrapped to the terminal's width."""
    columns = min(WIDEST, width or shutil.get_terminal_size((80, 24)).columns)
    return "\n".join(line for block in blocks for line in _lines(block, columns))


def _lines(block: Block, width: int) -> Iterator[str]:
    match block:
        case Heading(text, 1):
            yield from (text, "=" * min(width, len(text)), "")
        case Heading(text, _):
            yield from ("", text.upper())
        case Paragraph(text, _):
            yield from _hanging("", text, width)
        case Steps(items):
            for number, (text, shown) in enumerate(items, start=1):
                yield from _hanging(f"{number}. ", text, width)
                if isinstance(shown, TableBlock):
                    yield from _table(shown, width)
        case TableBlock():
            yield from _table(block, width)
        case Boxed(title, lines):
            yield from ("", f"[{title}]")
            for line in lines:
                yield from _hanging("| ", line, width)
        case Facts(pairs) | Terms(pairs):
            column = max(len(name) for name, _ in pairs) + 2
            for name, means in pairs:
                yield from _hanging(name.ljust(column), means, width)
        case Mistaken(title, text, price, _):
            yield from _hanging("x ", title, width)
            yield from _hanging("  ", text, width)
            yield from _hanging("  ", price, width)
        case Cautions(lines):
            yield from ("", "WARNING")
            for line in lines:
                yield from _hanging("! ", line, width)
        case DrillsBlock():
            yield from _drills(block, width)


def _table(table: TableBlock, width: int) -> Iterator[str]:
    """A table in columns as wide as their widest cell; heads are wrapped where they must be."""
    cells = [max(len(cell) for cell in column) for column in zip(*table.rows, strict=True)]
    room = (width - 4) // len(cells)
    wide = [
        max(cell, min(len(head), room - 2)) for cell, head in zip(cells, table.head, strict=True)
    ]
    heads = [textwrap.wrap(head, size) or [""] for head, size in zip(table.head, wide, strict=True)]
    yield from ("", f"   {table.shows}")
    for line in zip_longest(*heads, fillvalue=""):
        yield _columns(line, wide)
    yield from (_columns(row, wide) for row in table.rows)
    yield ""


def _columns(cells: Iterable[str], wide: Iterable[int]) -> str:
    padded = (cell.ljust(size) for cell, size in zip(cells, wide, strict=True))
    return ("   " + "  ".join(padded)).rstrip()


def _drills(drills: DrillsBlock, width: int) -> Iterator[str]:
    """What is asked, then the hints, then the answers, so that each can be read apart."""
    problems, opened = drills.problems, drills.opened
    if opened is not None:
        yield from _hanging("", opened.ask, width)
        for line in opened.layout:
            yield from _hanging("   - ", line, width)
        yield ""
    for number, problem in enumerate(problems, start=1):
        yield from _hanging(f"{number}. ", problem.ask, width)
        for line in problem.layout:
            yield from _hanging("   - ", line, width)
    yield from ("", "HINTS")
    for number, problem in enumerate(problems, start=1):
        for hint in problem.hints:
            yield from _hanging(f"{number}. ", hint, width)
    yield from ("", "ANSWERS")
    if opened is not None:
        yield from _hanging("", f"The steps left open. {opened.answer}", width)
    for number, problem in enumerate(problems, start=1):
        yield from _hanging(f"{number}. ", f"{problem.answer} {problem.because}", width)


def _hanging(lead: str, text: str, width: int) -> list[str]:
    # A mixed number broken between lines is misread: 8 1/2 as 1/2.
    lines = textwrap.wrap(
        _MIXED.sub("\u00a0", text),
        width,
        initial_indent=lead,
        subsequent_indent=" " * len(lead),
        break_on_hyphens=False,
    )
    return [line.replace("\u00a0", " ") for line in lines]
