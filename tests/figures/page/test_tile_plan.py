"""Which tiles are printed and where their seams run, held to small grids worked out by hand."""

from itertools import combinations, product
from math import inf

import numpy as np
import pytest
import shapely

from figures.ink.drawing import Drawing, Label, Stroke, label_box
from figures.page import tile_plan
from figures.page.tile_plan import TilePlan, covered, within
from figures.page.tiles import Grid

GRID = Grid(left=0.0, top=20.0, width=8.0, height=10.0, overlap=1.0, columns=3, rows=2)
"""Windows 0..8, 7..15, 14..22 across, 10..20 and 1..11 up; seams at x = 7.5, 14.5, y = 10.5."""
ALL = tuple(product(range(2), range(3)))


def line(*points, pen="cut", gid=None):
    return Stroke(points, pen, gid)


def plan(kept=ALL, order=None, *, turned=False, grid=GRID):
    return TilePlan(None, turned, grid, kept, order or kept)  # type: ignore[arg-type]


def turned_back(x, y):
    """What was turned a quarter counterclockwise, (x, y) to (-y, x), as it was before."""
    return y, -x


@pytest.mark.parametrize("turned", [False, True])
def test_seams_run_over_the_whole_drawing_as_it_was_before_it_was_turned(turned):
    seams = {frozenset(seam) for seam in plan(turned=turned).seams()}
    want = [
        ((7.5, 1.0), (7.5, 20.0)),
        ((14.5, 1.0), (14.5, 20.0)),
        ((0.0, 10.5), (22.0, 10.5)),
    ]
    back = turned_back if turned else lambda x, y: (x, y)
    assert seams == {frozenset(back(*point) for point in seam) for seam in want}
    column = Grid(0.0, 20.0, 8.0, 10.0, 1.0, 1, 3)
    assert {seam[0][1] for seam in plan(grid=column).seams()} == {10.5, 1.5}


@pytest.mark.parametrize("turned", [False, True])
def test_the_first_page_and_the_paper_left_out_lie_where_their_tiles_do(turned):
    """Two of six are left out. Points of the plan, turned back, are in the one or the other."""
    kept = ((0, 0), (0, 1), (1, 1), (1, 2))
    made = plan(kept, ((1, 1), (0, 0), (0, 1), (1, 2)), turned=turned)
    back = turned_back if turned else lambda x, y: (x, y)
    for row, column in ALL:
        spot = shapely.Point(back((3.0, 12.0, 20.0)[column], (15.0, 5.0)[row]))
        assert made.first_cell().covers(spot) == ((row, column) == (1, 1))
        assert made.left_out().covers(spot) == ((row, column) in ((1, 0), (0, 2)))
    for x, y in ((7.4, 10.4), (7.6, 10.6)):
        assert made.left_out().covers(shapely.Point(back(x, y))) == (x < 7.5)
        assert not made.first_cell().covers(shapely.Point(back(x, y)))
    # An outer tile has no outer bound: the paper beyond is its own.
    assert made.left_out().covers(shapely.Point(back(-500.0, -500.0)))
    assert made.left_out().covers(shapely.Point(back(500.0, 500.0)))
    # Its straight sides stand square, at the seams.
    box = made.first_cell().bounds
    assert box[0:1] + box[2:3] == pytest.approx((-1e4, 10.5) if turned else (7.5, 14.5))


def test_a_drawing_may_stand_anywhere_in_its_tiles_that_covers_it():
    bounds = (2.0, 3.0, 21.0, 18.0)  # 19 by 15 in tiles that cover 22 by 19
    grids = tile_plan._shifted(GRID, bounds)
    assert len(grids) == 25
    assert (grids[0].left, grids[0].top) == pytest.approx((2 - 1.5, 18 + 2.0))  # in the middle
    lefts, tops = {round(g.left, 9) for g in grids}, {round(g.top, 9) for g in grids}
    assert (min(lefts), max(lefts)) == pytest.approx((2 - 3.0, 2.0))
    assert (min(tops), max(tops)) == pytest.approx((18.0, 18 + 4.0))
    assert len(lefts) == len(tops) == 5
    for grid in grids:
        x0, _, _, y1 = grid.window(0, 0)
        _, y0, x1, _ = grid.window(1, 2)
        assert x0 <= 2 + 1e-9
        assert x1 >= 21 - 1e-9
        assert y0 <= 3 + 1e-9
        assert y1 >= 18 - 1e-9
    # One column: it stands at the right end of its tiles; one row: in their middle.
    column = tile_plan._shifted(Grid(0, 20, 8, 10, 1, 1, 2), (2.0, 3.0, 7.0, 18.0))
    assert len(column) == 5
    assert {grid.left for grid in column} == {2 - 3.0}
    row = tile_plan._shifted(Grid(0, 20, 8, 10, 1, 2, 1), (2.0, 3.0, 14.0, 9.0))
    assert len(row) == 5
    assert {grid.top for grid in row} == {9 + 2.0}
    tight = tile_plan._shifted(GRID, (0.0, 1.0, 22.0, 20.0))
    assert {(grid.left, grid.top) for grid in tight} == {(0.0, 20.0)}


def test_what_a_drawing_covers_is_the_hull_of_its_lines_and_its_words():
    words = Label("far off", 20.0, 20.0)
    drawing = Drawing((line((0, 0), (4, 0)), line((0, 0), (0, 3))), (), (words,))
    taken = covered(drawing)
    assert taken.area == pytest.approx(6 + label_box(words).area)
    assert taken.covers(shapely.Point(1, 1))


def test_a_cell_is_held_in_its_window_a_little_off_each_seam():
    cell, window = GRID.cell(0, 0), GRID.window(0, 0)
    assert cell == (-inf, 10.5, 7.5, inf)
    assert within(cell, window) == (0, 10.5, 7.5, 20)
    assert within(cell, window, 0.25) == (0, 10.75, 7.25, 20)
    assert within(GRID.cell(1, 1), GRID.window(1, 1), 0.25) == (7.75, 1, 14.25, 10.25)


def test_the_first_page_is_the_one_with_most_free_paper_and_the_first_of_as_free():
    """Cells held in their windows: 7.5, 7 and 7.5 in wide, 9.5 high. A board hides the rest."""
    assert tile_plan._roomiest_first(GRID, ALL, shapely.box(0, 1, 15, 20))[0] == (0, 2)
    assert tile_plan._roomiest_first(GRID, ALL, shapely.box(0, 0, 22, 20)) == ALL
    assert tile_plan._roomiest_first(GRID, ALL, shapely.box(0, 11, 22, 20))[0] == (1, 0)
    left = shapely.box(0, 0, 7.5, 20)
    assert tile_plan._roomiest_first(GRID, ((0, 0), (1, 0), (1, 1)), left)[0] == (1, 1)
    # So little of a square inch is no difference: the first of them stays so.
    scrap = shapely.box(0, 19.96, 1, 20)
    assert tile_plan._roomiest_first(GRID, ALL, scrap)[0] == (0, 0)


def kept(drawing, *, everything=False, grid=GRID):
    trees = tile_plan._trees(drawing, everything=everything)
    (found,) = tile_plan._kept([grid], *trees)
    return set(found)


def test_a_tile_is_kept_where_something_is_sawn_and_for_the_line_that_the_paper_is_laid_by():
    cut = line((1, 12), (3, 18))
    fold = line((9, 12), (14, 12), pen="fold")
    outline = line((8, 2), (9, 9), pen="visible")
    hatch = line((1, 2), (2, 3), pen="hatch")
    assert kept(Drawing((cut, fold, outline, hatch))) == {(0, 0)}
    start = line((0, 5), (14, 5), gid="start-line", pen="visible")
    assert kept(Drawing((cut, start))) == {(0, 0), (1, 0)}  # the nearer tile that bears it
    own = line((2, 12), (3, 13), gid="start", pen="visible")
    assert kept(Drawing((cut, own))) == {(0, 0)}
    # Of two cuts far apart the nearer one counts.
    other = line((16, 12), (18, 18))
    low = line((1, 5), (10, 5), gid="start", pen="visible")
    three = Grid(0.0, 20.0, 8.0, 10.0, 1.0, 3, 3)
    assert kept(Drawing((cut, other, low)), grid=three) == {(0, 0), (0, 2), (1, 0)}
    assert kept(Drawing((fold, outline))) == {(0, 1), (1, 1)}  # nothing sawn: all ink
    far = Drawing((line((15, 12), (20, 18)), line((0, 5), (22, 5), gid="start", pen="visible")))
    assert kept(far) == {(0, 2), (1, 2)}
    words = Label("waste", 12, 5)
    whole = Drawing((cut, fold), (), (words,))
    assert kept(whole, everything=True) == {(0, 0), (1, 1), (0, 1)}  # joined over the fold
    assert kept(Drawing((cut, fold, hatch)), everything=True) == {(0, 0)}


def test_what_only_touches_a_seam_keeps_no_tile_beyond_it():
    assert kept(Drawing((line((1, 12), (7.5, 12)),))) == {(0, 0)}
    assert kept(Drawing((line((1, 12), (7.51, 12)),))) == {(0, 0), (0, 1)}
    assert kept(Drawing((line((3, 12), (3, 10.5)),))) == {(0, 0)}
    assert kept(Drawing((line((3, 12), (3, 10.49)),))) == {(0, 0), (1, 0)}
    assert kept(Drawing((line((15, 12), (14.5, 12)),))) == {(0, 2)}
    assert kept(Drawing((line((3, 5), (3, 10.5)),))) == {(1, 0)}


def test_each_grid_has_its_own_tiles():
    """The same line in two places of the tiles: in the first row, and on both."""
    drawing = Drawing((line((1, 11), (3, 18)),))
    trees = tile_plan._trees(drawing, everything=False)
    other = Grid(0.0, 24.0, 8.0, 10.0, 1.0, 3, 2)  # a seam at 14.5
    assert list(tile_plan._kept([GRID, other], *trees)) == [((0, 0),), ((0, 0), (1, 0))]


def connected(tiles):
    """Whether tiles hang together side by side: the plainest flood."""
    left, edge = set(tiles), [min(tiles)]
    while edge:
        row, column = edge.pop()
        left.discard((row, column))
        edge += [
            (r, c) for r, c in left
            if abs(r - row) + abs(c - column) == 1
        ]  # fmt: skip
    return not left


@pytest.mark.parametrize(
    ("first", "last", "drawn"),
    [
        ((0, 0), (0, 2), {(0, 1)}),
        ((0, 0), (2, 2), {(0, 1), (0, 2), (1, 2), (1, 0), (2, 0), (1, 1), (2, 1)}),
        ((2, 0), (0, 2), {(1, 0), (1, 1), (1, 2)}),
        ((0, 0), (0, 2), {(1, 0), (1, 1), (1, 2)}),  # round about, over the row below
        ((0, 1), (2, 1), {(0, 0), (1, 0), (2, 0), (1, 2)}),
    ],
)
def test_two_tiles_are_joined_by_the_fewest_drawn_ones(first, last, drawn):
    """Every choice of tiles between them tried, the fewest first."""
    joined = tile_plan._joined({first, last}, drawn | {first, last})
    assert joined <= drawn | {first, last}
    assert connected(joined)
    fewest = next(
        n for n in range(9) for some in combinations(drawn, n) if connected({first, last, *some})
    )
    assert len(joined) == fewest + 2


@pytest.mark.parametrize(
    ("ends", "rows", "columns"),
    [
        (((0, 0), (1, 1), (0, 2)), 2, 3),  # by (0, 1), which serves all; (1, 0) serves two
        (((0, 2), (1, 1), (1, 3)), 2, 4),
        (((1, 0), (0, 1), (1, 2)), 2, 3),
        (((0, 0), (2, 0), (1, 1)), 3, 2),
        (((0, 0), (0, 2), (2, 1)), 3, 3),
    ],
)
def test_three_tiles_are_joined_by_the_fewest_too(ends, rows, columns):
    """Every choice of tiles of a whole field of ink tried, the fewest first."""
    inked = set(product(range(rows), range(columns)))
    joined = tile_plan._joined(set(ends), inked)
    others = inked - set(ends)
    assert connected(joined)
    fewest = next(
        n for n in range(9) for some in combinations(others, n) if connected({*ends, *some})
    )
    assert len(joined) == fewest + 3


def test_parts_far_from_each_other_are_each_joined_within():
    """Two rows, each drawn from end to end, and nothing drawn between them."""
    ends = {(0, 0), (0, 2), (3, 0), (3, 2)}
    assert tile_plan._joined(ends, {*ends, (0, 1), (3, 1)}) == {*ends, (0, 1), (3, 1)}


def test_tiles_that_nothing_drawn_joins_stay_as_they_are():
    assert tile_plan._joined({(0, 0), (0, 2)}, {(0, 0), (0, 2), (2, 2)}) == {(0, 0), (0, 2)}
    assert tile_plan._joined({(0, 0), (0, 1), (2, 2), (2, 3)}, {(2, 2), (0, 0)}) == {
        (0, 0), (0, 1), (2, 2), (2, 3),
    }  # fmt: skip
    assert tile_plan._joined(set(), {(0, 0)}) == set()
    parts = tile_plan._joined({(0, 0), (3, 3), (3, 4)}, {(3, 3), (0, 0)})
    assert parts == {(0, 0), (3, 3), (3, 4)}
    three = tile_plan._joined({(0, 0), (0, 2), (0, 4)}, {(0, i) for i in range(5)})
    assert three == {(0, i) for i in range(5)}


def test_corners_near_a_seam_are_counted_on_both_ways():
    """Within 0.3 in of x = 7.5 or y = 10.5, each corner for each seam."""
    marks = Drawing(
        (
            line((7.21, 3.0), (7.79, 3.0)),
            line((7.19, 3.0), (7.81, 3.0)),
            line((1.0, 10.21), (1.0, 10.79)),
            line((1.0, 10.19), (1.0, 10.81)),
            line((7.5, 10.5), (0.0, 0.0), pen="bar"),
            line((7.5, 5.0), (7.5, 6.0), pen="hatch"),
        )
    )
    corners = tile_plan._corners(marks)
    assert corners.shape == (10, 2)
    assert tile_plan._near(GRID, corners) == 2 + 2 + 2
    assert tile_plan._near(Grid(0, 20, 8, 10, 1, 1, 1), corners) == 0
    three = Grid(0.0, 20.0, 8.0, 10.0, 1.0, 3, 3)  # a seam at 1.5 too
    at = np.array([[14.5, 5.0], [3.0, 1.5], [14.5, 1.5]])
    assert tile_plan._near(three, at) == 4
