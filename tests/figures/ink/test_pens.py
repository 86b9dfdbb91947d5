"""Pens: dashes as pieces, widths, and colours that read on white paper."""

from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from figures.ink.pens import FILLS, PENS, pen, pieces
from layout.errors import SheetError


def length(points):
    return sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(points))


def test_a_continuous_pen_gives_the_line_back():
    assert list(pieces([(0, 0), (3, 4), (6, 4)], pen("cut"))) == [((0, 0), (3, 4), (6, 4))]


def test_dashes_have_the_lengths_of_the_pattern():
    fold = pen("fold")
    dash, gap = fold.dashes_in
    drawn = list(pieces([(0.0, 0.0), (10.0, 0.0)], fold))
    assert [length(piece) for piece in drawn[:-1]] == pytest.approx([dash] * (len(drawn) - 1))
    starts = [piece[0][0] for piece in drawn]
    assert starts == pytest.approx([i * (dash + gap) for i in range(len(drawn))])


def test_dashes_run_round_corners_without_a_break():
    fold = pen("fold")
    straight = list(pieces([(0.0, 0.0), (3.0, 0.0)], fold))
    bent = list(pieces([(0.0, 0.0), (1.1, 0.0), (1.1, 1.9)], fold))
    assert [length(p) for p in bent] == pytest.approx([length(p) for p in straight])
    assert any(len(piece) == 3 for piece in bent)


@given(
    name=st.sampled_from([name for name, each in PENS.items() if each.pattern]),
    total=st.floats(0.5, 20.0),
    share=st.floats(0.01, 0.99),
)
def test_a_line_cut_in_two_keeps_its_dashes(name, total, share):
    """Inked length and dash edges are the same whether the line is whole or cut anywhere."""
    cut = total * share
    whole = list(pieces([(0.0, 0.0), (total, 0.0)], pen(name)))
    parts = list(pieces([(0.0, 0.0), (cut, 0.0)], pen(name)))
    parts += pieces([(cut, 0.0), (total, 0.0)], pen(name), start_in=cut)
    assert sum(map(length, parts)) == pytest.approx(sum(map(length, whole)), abs=1e-9)
    edges = sorted(x for piece in whole for x, _ in piece)
    for x in (x for piece in parts for x, _ in piece):
        assert min(abs(x - edge) for edge in [*edges, cut]) < 1e-9


def test_wide_and_narrow_lines_are_two_to_one_and_nothing_is_a_hairline():
    assert pen("visible").width_mm == 2 * pen("hidden").width_mm
    assert pen("cut").width_mm >= 0.5
    assert min(each.width_mm for each in PENS.values()) >= 0.25


def luminance(colour):
    """Relative luminance, WCAG 2.1 (from memory)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_every_colour_keeps_three_to_one_on_white_and_has_a_pattern_of_its_own():
    accents = [each for each in PENS.values() if each.colour != "#000000"]
    assert len({each.pattern for each in accents}) == len(accents) == 3
    assert all(each.pattern for each in accents)
    for each in accents:
        assert 1.05 / (luminance(each.colour) + 0.05) >= 3.0, each.name


def test_no_area_hides_in_grey_what_its_outline_must_say():
    assert FILLS["waste"] is None
    assert FILLS["section"] is None


def test_an_unknown_pen_is_refused_in_one_line():
    with pytest.raises(SheetError, match="no pen is called 'crayon': use one of cut"):
        pen("crayon")
