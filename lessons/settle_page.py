"""A settled argument on paper: each claim's cut against its mate, side by side, up to four a page.

A tile holds one claim from top to bottom: what was said, the verdict with its gap, the picture,
and what is behind it. The picture takes whatever height the words leave.
"""

from collections.abc import Sequence
from dataclasses import replace

from figures.paper import Paper
from figures.rows import Row, beside, framed, picture, space, stacked, under, words
from figures.sheet import Page, clear_field
from layout.errors import SheetError
from layout.wording import given_line, hand_line
from lessons.pictures import gap_picture
from lessons.settle import Judged, Settled, Verdict
from lessons.settle_words import headline, joint_words, lean_line, notes, verdict_words

MOST_ON_PAGE = 4
GUTTER_IN = 0.2
PAD_IN = 0.1
SIZES_PT = (10.0, 9.0, 8.0, 7.0)
LEAST_PICTURE_IN = 1.1
TALLEST_PICTURE_IN = 3.6
MARKS = {Verdict.RIGHT: "RIGHT", Verdict.WRONG: "WRONG", Verdict.OPEN: "OPEN"}


def settled_pages(settled: Settled, paper: Paper, margin_in: float = 0.5) -> tuple[Page, ...]:
    """The finding on pages of this paper; one page for up to four claims.

    Raises SheetError where the paper is too small for the words.
    """
    entry = settled.answer.question.entry
    blank = Page(
        paper,
        stacked([]),
        title=f"Settled: {entry.name}",
        given=given_line(settled.answer),
        scale=None,
        margin_in=margin_in,
        description=headline(settled),
    )
    left, bottom, right, top = clear_field(blank)
    numbered = list(enumerate(settled.judged, start=1))
    leaves = [numbered[i : i + MOST_ON_PAGE] for i in range(0, len(numbered), MOST_ON_PAGE)]
    head = _head(settled, right - left)
    return tuple(
        replace(
            blank,
            drawing=stacked(
                [*head, *_grid(settled, leaf, right - left, top - bottom - _deep(head))]
            ).moved(left, top),
            number=number,
            count=len(leaves),
        )
        for number, leaf in enumerate(leaves, start=1)
    )


def _head(settled: Settled, width_in: float) -> list[Row]:
    lines = [hand_line(settled.answer), joint_words(settled.answer), lean_line(settled)]
    small = [words(line, width_in, 9.0) for line in lines if line]
    return [words(headline(settled), width_in, 13.0, bold=True), *small, space(0.06)]


def _deep(rows: Sequence[Row]) -> float:
    return sum(row.height_in for row in rows)


def _grid(
    settled: Settled, leaf: Sequence[tuple[int, Judged]], width_in: float, height_in: float
) -> list[Row]:
    """Tiles two by two; a claim alone takes the whole width."""
    columns = min(2, len(leaf))
    lines = [leaf[i : i + columns] for i in range(0, len(leaf), columns)]
    wide = (width_in - GUTTER_IN * (columns - 1)) / columns
    tall = height_in / len(lines) - 0.1
    rows = []
    for line in lines:
        tiles = [_tile(settled, number, judged, wide, tall) for number, judged in line]
        row = tiles[0]
        if len(tiles) > 1:
            row = beside(tiles[0], tiles[1], wide + GUTTER_IN)
        rows.append(row)
    return rows


def _tile(settled: Settled, number: int, judged: Judged, wide_in: float, tall_in: float) -> Row:
    """One claim in a frame, lettered as large as leaves its picture room."""
    inside = wide_in - 2 * PAD_IN
    for size in SIZES_PT:
        above = [
            words(f"Claim {number}: {judged.claim}", inside, size + 1, bold=True),
            words(_verdict(settled, judged), inside, size, bold=True),
        ]
        below = [
            words(f"{margin}: {sentence}" if margin else sentence, inside, size)
            for margin, sentence in notes(settled, judged)
        ]
        room = tall_in - 2 * PAD_IN - _deep(above) - _deep(below) - 0.1
        if room >= LEAST_PICTURE_IN:
            break
    else:
        raise SheetError("the claims take more words than the paper holds: use larger paper")
    shown = gap_picture(settled.answer, judged.setting, str(judged.claim))
    drawn = picture(shown.draw((inside, min(room, TALLEST_PICTURE_IN))), inside)
    body = under([*above, space(0.05), drawn, space(0.05), *below])
    return framed(body, wide_in, PAD_IN)


def _verdict(settled: Settled, judged: Judged) -> str:
    said, _, rest = verdict_words(settled.answer, judged).partition(": ")
    return f"{said.upper()}: {rest}"
