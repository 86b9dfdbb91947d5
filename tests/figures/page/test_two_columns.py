"""Rows in two columns: read down the left, then down the right, in bands that nothing breaks."""

import pytest

from figures.ink.drawing import Drawing, Stroke
from figures.page.flow import Row, rule
from figures.page.two_columns import BAND_IN, GUTTER_IN, column_width, drawn, in_two_columns, named
from layout.errors import SheetError

WIDE_IN, HIGH_IN = 7.0, 5.0
RIGHT = (WIDE_IN + GUTTER_IN) / 2
"""Where the right column begins: half the field and half the gutter."""


def block(height, name="", **how):
    ink = Drawing((Stroke(((0, 0), (1, 0), (1, -height)), "visible"),))
    return Row(ink, height, anchor=name, **how)


def placed(rows, high=HIGH_IN):
    return [
        [(p.row.anchor, round(p.x_in, 6), round(p.y_in, 6)) for p in page]
        for page in in_two_columns(rows, WIDE_IN, high)
    ]


def test_columns_and_gutter_make_up_the_field():
    assert 2 * column_width(WIDE_IN) + GUTTER_IN == WIDE_IN


def test_rows_are_shared_so_that_the_taller_column_is_low():
    rows = [block(1, "a"), block(1, "b"), block(2, "c")]
    assert placed(rows) == [[("a", 0, 0), ("b", 0, -1), ("c", RIGHT, 0)]]
    # As even either way: more on the left.
    assert placed([block(1, "a"), block(0.0, "b"), block(1, "c")]) == [
        [("a", 0, 0), ("b", 0, -1), ("c", RIGHT, 0)]
    ]
    assert placed([block(3, "a")]) == [[("a", 0, 0)]]


def test_a_wide_row_parts_bands_with_white_between():
    rows = [
        block(1, "a"),
        block(1.5, "b"),
        block(0.5, "W", wide=True),
        block(1, "c"),
        block(1, "d"),
    ]
    low = -1.5 - BAND_IN
    under = low - 0.5 - BAND_IN
    assert placed(rows) == [
        [("a", 0, 0), ("b", RIGHT, 0), ("W", 0, low), ("c", 0, under), ("d", RIGHT, under)]
    ]


def test_what_does_not_fit_goes_on_overleaf():
    rows = [block(3, "a"), block(2, "b"), block(4, "c"), block(3, "d"), block(1, "e")]
    assert placed(rows) == [
        [("a", 0, 0), ("b", 0, -3), ("c", RIGHT, 0)],
        [("d", 0, 0), ("e", RIGHT, 0)],
    ]
    # A row as high as the field just fits; a wide one that has no room turns the page.
    full = [block(5, "a"), block(5, "b"), block(1, "W", wide=True)]
    assert placed(full) == [[("a", 0, 0), ("b", RIGHT, 0)], [("W", 0, 0)]]
    fits = [block(3.0, "a"), block(2.0 - BAND_IN, "W", wide=True)]
    assert placed(fits) == [[("a", 0, 0), ("W", 0, -3 - BAND_IN)]]
    tall = [block(3.0, "a"), block(2.0 - BAND_IN + 0.01, "W", wide=True)]
    assert placed(tall) == [[("a", 0, 0)], [("W", 0, 0)]]


def test_a_low_rest_of_a_page_starts_no_band():
    """An inch is enough, less is not."""
    above = block(4 - BAND_IN, "W", wide=True)
    assert placed([above, block(0.5, "a")]) == [[("W", 0, 0), ("a", 0, -4)]]
    more = block(4.01 - BAND_IN, "W", wide=True)
    assert placed([more, block(0.5, "a")]) == [[("W", 0, 0)], [("a", 0, 0)]]
    # Room for a band, but not for its first row: that goes overleaf.
    assert placed([above, block(1.5, "a")]) == [[("W", 0, 0)], [("a", 0, 0)]]


def test_rows_kept_together_stay_in_one_column_and_what_parts_them_is_left_out_on_top():
    heading = block(1, "h", with_next=True)
    assert placed([block(2, "a"), heading, block(2, "b")]) == [
        [("a", 0, 0), ("h", RIGHT, 0), ("b", RIGHT, -1)]
    ]
    parted = [block(1, "a"), rule(3.0, 0.1), block(1, "b"), rule(3.0, 0.1), block(1, "c")]
    ((*page,),) = placed(parted)
    assert [name for name, _, _ in page if name] == ["a", "b", "c"]
    assert ("b", 0.0, -1.1) in page
    assert ("c", RIGHT, 0.0) in page
    wide = block(1, "w", with_next=True, wide=True)
    assert placed([block(1, "a"), wide, block(1, "b")]) == [
        [("a", 0, 0), ("w", 0, -1 - BAND_IN), ("b", 0, -2 - BAND_IN)]
    ]


def test_a_fresh_row_turns_the_page_but_never_leaves_one_empty():
    assert placed([block(1, "a", fresh=True), block(1, "b", fresh=True)]) == [
        [("a", 0, 0)],
        [("b", 0, 0)],
    ]


def test_each_named_row_has_its_box_and_its_drawing():
    rows = [block(1, "a"), block(1), block(1.5, "b"), block(0.5, "W", wide=True)]
    (page,) = in_two_columns(rows, WIDE_IN, HIGH_IN)
    boxes = dict(named(page, WIDE_IN))
    assert boxes["a"] == (0, -1, column_width(WIDE_IN), 0)
    assert boxes["b"] == pytest.approx((RIGHT, -1.5, WIDE_IN, 0))
    assert boxes["W"] == pytest.approx((0, -2.5 - BAND_IN, WIDE_IN, -2 - BAND_IN))
    assert len(boxes) == 3
    corners = [stroke.points[0] for stroke in drawn(page).strokes]
    assert corners == [pytest.approx((p.x_in, p.y_in)) for p in page]


def test_a_row_taller_than_the_paper_is_refused_by_its_height():
    with pytest.raises(SheetError, match=r"a step with its picture takes 5\.5 in .* page has 5:"):
        in_two_columns([block(1), block(5.5)], WIDE_IN, HIGH_IN)
    with pytest.raises(SheetError, match=r"takes 5\.5 in"):
        in_two_columns([block(5.5), block(1)], WIDE_IN, HIGH_IN)
    with pytest.raises(SheetError, match=r"a row takes 6 in"):
        in_two_columns([Row(Drawing(), 6.0)], WIDE_IN, HIGH_IN)
