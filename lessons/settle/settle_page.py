"""A settled argument on paper: each claim's cut against its mate, side by side, up to four a page.

A tile holds one claim from top to bottom: what was said, the verdict with its gap, the picture,
and what is behind it. The picture takes whatever height the words leave.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from figures.ink.lettering import fraction_text, line_width_em
from figures.ink.paper import Paper
from figures.ink.pens import PT_PER_IN
from figures.page.flow import Row, beside, framed, picture, space, stacked, under, words
from figures.page.sheet import Page, clear_field
from figures.place.room import Room
from layout.answer.sense_words import hand_line
from layout.answer.wording import given_line
from layout.errors import SheetError
from lessons.course.pictures import gap_picture
from lessons.settle.claim import write_claim
from lessons.settle.findings import Finding, Settled
from lessons.settle.heard_words import repeated
from lessons.settle.settle_notes import Note, notes
from lessons.settle.settle_words import headline, joint_words, lean_line, verdict_words
from lessons.settle.statements import Statement
from lessons.settle.statements_page import statement_pages

_MANY_DECIMALS = re.compile(r"\d+\.\d{5,}")
MOST_ON_PAGE = 4
GUTTER_IN = 0.2
APART_IN = 0.05
PAD_IN = 0.1
LETTERINGS = ((10.0, False), (8.5, False), (8.5, True), (7.0, False), (7.0, True))
"""Sizes [pt] in the order they are tried; with True only the first of several mistakes is told."""
SHRUNK = 0.8
"""A title a fifth smaller is better than one broken over two lines."""
HEAD_PT, SMALL_PT = 12.0, 9.0
LEAST_PICTURE_IN = 1.6
TALLEST_PICTURE_IN = 3.6
Numbered = tuple[int, Finding]
FRAME_IN = 0.15
"""What a frame takes of the height beyond its words [in]."""


def settled_pages(settled: Settled, paper: Paper, margin_in: float = 0.5) -> tuple[Page, ...]:
    """The finding on pages of this paper; one page for up to four claims.

    Claims of many words go on more pages. Lengths have no picture: alone they are told in a table.
    Raises SheetError where the paper is too small for even one claim.
    """
    if not settled.read:
        told = [
            Statement(one.text, settled.answer, one, own=False)
            for one in settled.findings
            if one.length is not None
        ]
        if not told:
            raise SheetError("no claim was understood, so there is nothing to draw")
        return tuple(statement_pages(told, paper, margin_in))
    for on_page in range(min(MOST_ON_PAGE, len(settled.read)), 0, -1):
        try:
            return _pages(settled, paper, margin_in, on_page)
        except CrowdedPageError:
            continue
    raise SheetError("a claim takes more words than the paper holds: use larger paper")


class CrowdedPageError(SheetError):
    """Frames too small for their words and pictures."""


def _pages(settled: Settled, paper: Paper, margin_in: float, on_page: int) -> tuple[Page, ...]:
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
    numbered = list(settled.read)
    leaves = [numbered[i : i + on_page] for i in range(0, len(numbered), on_page)]
    wide_paper = paper.width_in > paper.height_in
    head = _head(settled, right - left)
    room = right - left, top - bottom - sum(row.height_in for row in head)
    return tuple(
        replace(
            blank,
            drawing=stacked([*head, *_grid(settled, leaf, room, wide_paper)]).moved(left, top),
            number=number,
            count=len(leaves),
        )
        for number, leaf in enumerate(leaves, start=1)
    )


def _head(settled: Settled, width_in: float) -> list[Row]:
    """Who is right, and what was asked."""
    unread = (
        f"Claim {number} was not understood: {settled.findings[number - 1].text}"
        for number in settled.unread
    )
    lengths = (
        f"Claim {number}: {finding.text}: {verdict_words(settled.answer, finding)}"
        for number, finding in enumerate(settled.findings, start=1)
        if finding.length is not None
    )
    lines = [hand_line(settled.answer), joint_words(settled.answer), lean_line(settled), *lengths,
             *unread]  # fmt: skip
    small = [words(line, width_in, SMALL_PT) for line in lines if line]
    return [words(headline(settled), width_in, HEAD_PT, bold=True), *small, space(APART_IN)]


def _grid(settled: Settled, leaf: Sequence[Numbered], room: Room, wide_paper: bool) -> list[Row]:
    """Frames two by two on upright paper, in one line on wide paper.

    Those of one line are alike in height. Raises CrowdedPageError.
    """
    columns = len(leaf) if wide_paper else min(2, len(leaf))
    lines = range(0, len(leaf), columns)
    wide = (room[0] - GUTTER_IN * (columns - 1)) / columns
    tall = room[1] / len(lines) - FRAME_IN
    bodies = _bodies(settled, leaf, (wide - 2 * PAD_IN, tall - 2 * PAD_IN))
    rows = []
    for start in lines:
        line = bodies[start : start + columns]
        height = max(body.height_in for body in line)
        row = framed(replace(line[0], height_in=height), wide, PAD_IN)
        for column, body in enumerate(line[1:], start=1):
            tile = framed(replace(body, height_in=height), wide, PAD_IN)
            row = beside(row, tile, column * (wide + GUTTER_IN))
        rows.append(row)
    return rows


def _bodies(settled: Settled, leaf: Sequence[Numbered], room: Room) -> list[Row]:
    """What stands in each frame, all in one lettering: the largest that leaves pictures room.

    Raises CrowdedPageError where even the smallest does not.
    """
    for size, first_only in LETTERINGS:
        told = [_told(settled, *numbered, room[0], size, first_only) for numbered in leaf]
        left = [room[1] - above.height_in - below.height_in for above, below in told]
        if min(left) < LEAST_PICTURE_IN:
            continue
        try:
            pictures = _pictures(settled, leaf, room[0], left)
        except SheetError:  # a picture needs more room than the words leave
            continue
        return [
            under([above, drawn, below])
            for (above, below), drawn in zip(told, pictures, strict=True)
        ]
    raise CrowdedPageError("the words leave no room for the pictures")


def _pictures(
    settled: Settled, leaf: Sequence[Numbered], wide_in: float, left_in: Sequence[float]
) -> list[Row]:
    """Each cut against its mate; the smallest room is tried first, since it may not do."""
    drawn: dict[int, Row] = {}
    for index in sorted(range(len(leaf)), key=lambda index: left_in[index]):
        judged = leaf[index][1].judged
        said = write_claim(judged.claim)
        shown = gap_picture(settled.answer, judged.setting, said, brief=True)
        tall = min(left_in[index], TALLEST_PICTURE_IN)
        drawn[index] = picture(shown.draw((wide_in, tall)), wide_in)
    return [drawn[index] for index in range(len(leaf))]


def _told(
    settled: Settled,
    number: int,
    finding: Finding,
    wide_in: float,
    size_pt: float,
    first_only: bool,
) -> tuple[Row, Row]:
    """What stands over a claim's picture, and under it."""
    above = [
        _title(f"Claim {number}: {_rounded(finding.text)}", wide_in, size_pt + 1),
        words(f"I heard: {_rounded(repeated(settled.answer, finding))}", wide_in, size_pt),
        words(_verdict(settled, finding), wide_in, size_pt, bold=True),
        space(APART_IN),
    ]
    said = notes(settled, finding, first_only=first_only)
    below = [row for note in said for row in _note_rows(note, wide_in, size_pt)]
    return under(above), under(below)


def _title(text: str, width_in: float, size_pt: float) -> Row:
    """A claim on one line where a little smaller lettering brings it there."""
    one_line = width_in * PT_PER_IN / line_width_em(fraction_text(text), bold=True)
    if one_line >= SHRUNK * size_pt:
        size_pt = min(size_pt, one_line)
    return words(text, width_in, size_pt, bold=True)


def _note_rows(note: Note, width_in: float, size_pt: float) -> list[Row]:
    """A note's title in bold, where it has one, and its sentence under it."""
    margin = note.margin.capitalize()
    sentence = note.text[0].upper() + note.text[1:] if note.title else f"{margin}: {note.text}"
    said = words(f"{sentence.rstrip('.')}.", width_in, size_pt)
    if not note.title:
        return [said]
    if note.margin == "instead":
        both = f"{margin}: {_rounded(note.title)} ({note.text})"
        return [words(both, width_in, size_pt, bold=True)]
    return [words(f"{margin}: {_rounded(note.title)}", width_in, size_pt, bold=True), said]


def _rounded(text: str) -> str:
    """Numbers of many decimals cut to four: nobody reads more off paper."""
    return _MANY_DECIMALS.sub(lambda number: f"{float(number[0]):.4f}", text)


def _verdict(settled: Settled, finding: Finding) -> str:
    said, _, rest = verdict_words(settled.answer, finding).partition(": ")
    return f"{said.upper()}: {rest}"
