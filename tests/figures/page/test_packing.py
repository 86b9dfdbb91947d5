"""Which rectangles share a sheet, found a second way: every width and height laid out by hand."""

import pytest

from figures.ink.drawing import Drawing, Stroke
from figures.ink.paper import read_paper
from figures.page.nest import add, empty, put
from figures.page.packing import PackedSpot, least, together
from figures.page.sheet import clear_field
from figures.page.tiles import grid_over
from figures.page.tiling import PrintSetup, blank_page


def test_nothing_to_pack_fits_anywhere_and_a_rectangle_stands_in_the_lower_right_corner():
    assert together([], [(1.0, 1.0)]) == (0, ())
    assert together([[(3.0, 2.0)]], [(7.0, 9.0)]) == (0, (PackedSpot(0, False, (4.0, 0.0)),))
    # 5 by 2 in goes into 3 by 6 in only when it is turned, and into 1 by 9 in not at all.
    assert together([[(5.0, 2.0)]], [(1.0, 9.0), (3.0, 6.0)]) == (
        1,
        (PackedSpot(0, True, (1.0, 0.0)),),
    )
    assert together([[(5.0, 2.0)]], [(4.0, 4.0)]) is None


def test_two_that_fill_a_field_together_stand_beside_or_over_one_another():
    tall = [(3.0, 9.0)]
    index, (one, other) = together([tall, tall], [(5.9, 9.0), (6.0, 9.0)])
    assert index == 1
    assert (one.at, other.at) == ((3.0, 0.0), (0.0, 0.0))
    wide = [(6.0, 4.5)]
    _, (low, high) = together([wide, wide], [(6.0, 9.0)])
    assert (low.at, high.at) == ((0.0, 0.0), (0.0, 4.5))
    assert together([wide, wide, [(0.1, 0.1)]], [(6.0, 9.0)]) is None


@pytest.mark.parametrize(
    ("shapes", "kept"),
    [
        ([], ()),
        ([(3, 4)], (0,)),
        ([(3, 4), (5, 4), (4, 2), (3, 5)], (0, 2)),
        # Of two as narrow, the lower one, whichever comes first.
        ([(3, 4), (3, 2)], (1,)),
        ([(3, 2), (3, 4)], (0,)),
        ([(2, 9), (4, 7), (7, 4), (9, 2), (8, 8)], (0, 1, 2, 3)),
        # Of two alike, one.
        ([(3, 4), (3, 4)], (0,)),
    ],
)
def test_a_shape_is_kept_where_no_other_is_as_narrow_and_as_low(shapes, kept):
    assert least(shapes) == kept


def test_the_first_drawing_on_a_sheet_stands_in_its_lower_right_corner():
    sheet = empty(blank_page(PrintSetup(read_paper("Letter")), title="x"))
    bar = Drawing((Stroke(((0, 0), (4, 0), (4, 2), (0, 2), (0, 0)), "cut"),))
    assert put(sheet, bar, turned=False)
    _, bottom, right, _ = clear_field(sheet.page)
    assert sheet.drawing.bounds() == pytest.approx((right - 4, bottom, right, bottom + 2))
    add(sheet, bar)
    assert len(sheet.drawing.strokes) == 2


@pytest.mark.parametrize("pages", [1, 2, 3, 5])
def test_a_drawing_of_exactly_so_many_fields_takes_so_many_tiles(pages):
    """Fields of 7 by 9 in, each laid 1/2 in over the one before: the last adds 6 1/2 in, 8 1/2."""
    wide, high = 7.0 + 6.5 * (pages - 1), 9.0 + 8.5 * (pages - 1)
    room = (0.5, 1.0, 7.5, 10.0)
    grid = grid_over((0.0, 0.0, wide, high), room, 0.5)
    assert (grid.columns, grid.rows) == (pages, pages)
    assert grid.window(pages - 1, 0)[0:2] == pytest.approx((0.0, 0.0))
    assert grid.window(0, pages - 1)[2:4] == pytest.approx((wide, high))
    more = grid_over((0.0, 0.0, wide + 0.01, high + 0.01), room, 0.5)
    assert (more.columns, more.rows) == (pages + 1, pages + 1)
