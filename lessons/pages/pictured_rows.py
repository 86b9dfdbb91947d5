"""Words with their picture: side by side on a full width, one under the other in a column.

A picture is drawn for the room that it gets, and gets more where it would come out too small.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.page.flow import Row, beside, picture, under
from figures.page.two_columns import GUTTER_IN
from layout.errors import SheetError
from lessons.say.blocks import PictureBlock

COLUMN_HEIGHTS_IN = (2.0, 2.35, 2.8, 3.6)
WIDE_HEIGHTS_IN = (2.3, 2.6, 3.2, 4.2, 5.2, 6.2)
"""Heights tried for a picture in a column, and across both [in]."""
SMALLEST_ONE_TO, TALL_ENOUGH_IN = 20.0, 2.8
"""A picture in a column that comes out smaller than 1 to so many is given more height, if that
makes it larger; but not more than this [in]."""
TOO_SMALL_ONE_TO = 24.0
"""One that stays smaller than 1 to so many goes across both columns, if that makes it larger."""
WORDS_PART = 0.37
"""The part of the width that words take beside their picture."""
PICTURE_TALL, PICTURE_TALLEST = 0.39, 0.52
"""Least and greatest height of a picture's room beside words, as parts of the page's width."""


def under_words(said: Callable[[float], Row], shown: PictureBlock, width_in: float) -> Row:
    """Words with their picture under them; one that a column cannot carry goes across both."""
    small: Drawing | None = None
    for tall in () if shown.wide else _heights(COLUMN_HEIGHTS_IN, shown):
        if small is not None and tall > TALL_ENOUGH_IN:
            break
        try:
            drawing = shown.draw((width_in, tall))
        except SheetError:
            continue
        if small is None or _one_to(drawing) < _one_to(small):
            small = drawing
        if _one_to(drawing) <= SMALLEST_ONE_TO:
            break
    if small is not None and _one_to(small) <= TOO_SMALL_ONE_TO:
        return under([said(width_in), picture(small, width_in)])
    # A little less than both columns, so that a frame finds room about it.
    across = 2 * width_in + GUTTER_IN - 0.02
    rooms = [(across, tall) for tall in _heights(WIDE_HEIGHTS_IN, shown)]
    drawing = shown.drawn_in_first(rooms)
    if small is not None and _one_to(drawing) >= _one_to(small):
        return under([said(width_in), picture(small, width_in)])
    return replace(under([said(across), picture(drawing, across)]), wide=True)


def _one_to(drawing: Drawing) -> float:
    """How much smaller than the wood a picture is, by the scale that it says: 12 for 1 : 12."""
    said = next((label.text for label in drawing.labels if label.gid == "scale"), "")
    found = re.fullmatch(r"1 : (\d+)", said)
    return float(found[1]) if found else 1.0


def _heights(usual_in: Sequence[float], shown: PictureBlock) -> list[float]:
    """The heights to try for a picture, none less than it asks for [in]."""
    return sorted({max(tall, shown.least_in) for tall in usual_in})


def with_picture(said: Row, shown: PictureBlock, width_in: float) -> Row:
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


def whole(row: Row, dressed: Callable[[Row], Row]) -> Row:
    """The row dressed, and dressed again when it has grown."""
    taller = row.taller
    if taller is None:
        return dressed(row)
    return replace(dressed(row), taller=lambda more_in: dressed(taller(more_in)))
