"""One correction sheet for a page of statements: said, is so, holds, cost, and a test on scrap."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from figures.ink.paper import Paper
from figures.page.flow import Row, paginate, space, stacked, table, words
from figures.page.sheet import Page, clear_field
from lessons.say.hanging import hanging
from lessons.say.words import CAUTION
from lessons.settle.statements import Statement

HEAD = ("Said", "Is so", "Where it holds", "What it cost", "Try it on scrap")
SHARES = (0.17, 0.28, 0.19, 0.18, 0.18)
SIZE_PT = 8.0
APART_IN = 0.12


def statement_pages(found: Sequence[Statement], paper: Paper, margin_in: float = 0.5) -> list[Page]:
    """The sheet on as many pages as it takes."""
    blank = Page(
        paper,
        stacked([]),
        title="What was said, and what is so",
        given=f"{len(found)} statements",
        scale=None,
        margin_in=margin_in,
        description="A correction sheet: each statement, what is so, and how to try it.",
    )
    left, bottom, right, top = clear_field(blank)
    pages = paginate(_rows(found, right - left), top - bottom)
    return [
        replace(blank, drawing=stacked(rows).moved(left, top), number=number, count=len(pages))
        for number, rows in enumerate(pages, start=1)
    ]


def _rows(found: Sequence[Statement], width_in: float) -> Iterator[Row]:
    widths = [share * width_in for share in SHARES]
    for number, one in enumerate(found, start=1):
        yield replace(words(f"{number}. {one.about}", width_in, SIZE_PT, bold=True), with_next=True)
        line = [one.text, one.so, one.holds, one.cost, one.test]
        *head, last = table(HEAD, [line], widths, SIZE_PT)
        yield from (replace(row, with_next=True) for row in head)
        yield last
        yield space(APART_IN)


def read_statements(found: Sequence[Statement]) -> str:
    """What was found of each statement, in words for the terminal."""
    lines: list[str] = []
    for number, one in enumerate(found, start=1):
        lines += hanging(f"{number}", f"{one.text}   [{one.about}]")
        for margin, text in (
            ("  is so", one.so),
            ("  holds", one.holds),
            ("  cost", one.cost),
            ("  try it", one.test),
        ):
            lines += hanging(margin, text) if text else []
        if not one.finding.tried and one.finding.length is None:
            lines += hanging("  say", one.finding.heard.paste or one.finding.heard.offer)
        lines.append("")
    return "\n".join([*lines, *CAUTION])
