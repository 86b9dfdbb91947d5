"""Marks of a template read from its PDF, folded back on the board: `tests.wraps`' own arithmetic.

A roll keeps every template on one sheet, so that no mark is told twice.
"""

import numpy as np
import pytest

from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.page.cautions import ALL_SAID
from figures.page.tiling import PrintSetup, pages
from figures.wrap.template import Template, template_pages
from layout.errors import SheetError
from tests.measure import pdf_pieces
from tests.wraps import SECTION

ROLL = PrintSetup(read_paper("roll-36"))
CUT_IN = 0.7 / 25.4
"""The pen of what is cut [in]."""


def on_board(x, v, one):
    """A point of the paper on the folded board: which side it lies on follows from v alone."""
    stock = one.question.stock
    thick, deep = stock.thickness_in, stock.depth_in
    if v < -1e-9:
        side = "bottom-edge" if v >= -thick - 1e-9 else "left-face"
    elif v <= deep + 1e-9:
        side = "right-face"
    else:
        side = "top-edge" if v <= deep + thick + 1e-9 else "left-face"
    return np.array([x, *SECTION[side](v, thick, deep)])


def marks_in_file(pages, path, one, index=0):
    """Both ends and the middle of every heavy line of a template's page, on the board."""
    (page,) = pages
    found = []
    for piece in pdf_pieces(path, index):
        if piece.width_in != pytest.approx(CUT_IN, abs=1e-4):
            continue
        paper = []
        for x, y in piece.points:
            dx, dy = x - page.origin[0], y - page.origin[1]
            paper.append((dy, -dx) if page.turned else (dx, dy))
        out = 1.0 if one.question.end == "head" else -1.0
        if one.is_rip and max(out * x for x, _ in paper) > 1e-4:
            continue  # on the flap that hangs down over the end grain
        ends = [on_board(x, v, one) for x, v in paper]
        found += [*ends, (ends[0] + ends[-1]) / 2]
    return np.array(found)


def printed(one, words):
    """A template's sheet on a roll: with its words, or with its lines alone, which is quicker.

    Words give way to lines and never move them: both ways print the same strokes, as
    `test_words_move_no_line` holds.
    """
    if words:
        return template_pages(one, ROLL)
    template = Template(one, ROLL)
    for way in template.ways():
        try:
            lines = Drawing(template.lay(way).lines.strokes)
            return pages(lines, ROLL, said=ALL_SAID, **template.words)
        except SheetError:
            continue
    raise SheetError(f"{one.question.entry.name} has no way on a roll")
