"""Rectangles on a sheet, held to the plainest geometry: inside the field, clear of one another."""

from dataclasses import replace
from itertools import combinations, pairwise

import pytest
import shapely

from figures.ink.drawing import Drawing, Stroke, collisions, label_box
from figures.ink.lettering import text_size
from figures.ink.paper import read_paper
from figures.ink.scale import SCALES, read_scale, scale_bar
from figures.page import sheet
from figures.page.beside import words_block
from figures.page.checkbars import SQUARE_IN, check_square
from figures.page.nest import nested
from figures.page.packing import least, together
from figures.page.sheet import clear_field, furnished
from figures.page.tiles import grid_over
from figures.page.tiling import PrintSetup, blank_page
from layout.errors import SheetError

SIZES = [(3.0, 5.0), (5.0, 3.0), (4.0, 4.0), (3.0, 6.0), (4.0, 4.0), (5.0, 4.5), (2.0, 9.0)]


def test_only_shapes_that_none_beats_both_ways_are_kept():
    """Each shape against every other, by trial: of two alike one stays."""
    kept = [SIZES[i] for i in least(SIZES)]
    for one in SIZES:
        beaten = any(w <= one[0] and h <= one[1] and (w, h) != one for w, h in SIZES)
        assert kept.count(one) == (0 if beaten else 1), one
    for narrow, wide in pairwise(kept):
        assert narrow[0] < wide[0]
        assert narrow[1] > wide[1]
    assert least([(1.0, 2.0), (1.0, 1.0)]) == (1,)
    assert least([]) == ()


@pytest.mark.parametrize(
    ("units", "held"),
    [
        ([[(3, 4)]], 0),
        ([[(3, 4)], [(4, 2)]], 0),
        ([[(7, 4)], [(7, 4)]], 0),  # one over the other
        ([[(4, 6)], [(3, 6)]], 0),  # side by side
        ([[(9, 6)]], 0),  # turned
        ([[(8.5, 8), (9.5, 6)]], 1),  # its second shape, on the paper turned round
        ([[(7, 5)], [(7, 5)]], None),
        ([[(3, 3)], [(3, 3)], [(3, 3)]], 0),
        ([], 0),
    ],
)
def test_rectangles_that_share_a_sheet_lie_in_it_and_apart(units, held):
    fields = [(7.0, 9.0), (9.5, 6.5)]
    found = together(units, fields)
    if held is None:
        assert found is None
        return
    assert found is not None
    index, spots = found
    assert index == held
    assert len(spots) == len(units)
    boxes = []
    for unit, spot in zip(units, spots, strict=True):
        wide, high = unit[spot.shape][::-1] if spot.turned else unit[spot.shape]
        boxes.append(shapely.box(*spot.at, spot.at[0] + wide, spot.at[1] + high))
    field = shapely.box(0, 0, *fields[index]).buffer(1e-9)
    assert all(field.covers(one) for one in boxes)
    assert all(one.intersection(two).area < 1e-9 for one, two in combinations(boxes, 2))


def board(wide, high):
    edges = ((0, 0), (wide, 0), (wide, high), (0, high), (0, 0))
    return Drawing((Stroke(edges, "visible", "edge"),))


@pytest.mark.parametrize("size", [(3.0, 5.0), (5.0, 3.0), (6.5, 1.0)])
def test_a_drawing_alone_stands_in_the_lower_right_corner(size):
    page = nested([board(*size)], [], blank_page(PrintSetup(read_paper("Letter")), title="One"))
    assert page is not None
    _, bottom, right, _ = clear_field(page)
    x0, y0, x1, y1 = page.drawing.bounds()
    assert (x1, y0) == pytest.approx((right, bottom))
    assert (x1 - x0, y1 - y0) == pytest.approx(size)


def test_a_block_takes_no_more_than_the_width_it_was_asked_for():
    """Where a width breaks a word it is no width for it; what is known by no heading is known by
    its first words."""
    made = words_block(
        "", "Stand the board on edge and mark from the long point.", 8.0, widths=(1.5, 2.5)
    )
    assert made.name == "Stand the board on e"
    assert len(made.shapes) == 2
    for shape, wide in zip(made.shapes, (1.5, 2.5), strict=True):
        x0, _, x1, _ = shape.bounds()
        assert x1 - x0 <= wide + 1e-6


@pytest.mark.parametrize(("across", "down"), [(1, 1), (2, 1), (3, 2)])
def test_a_drawing_that_just_fills_its_tiles_takes_no_more(across, down):
    """n tiles that overlap by o show n w - (n - 1) o."""
    wide, high, overlap = 7.1, 9.1, 0.5
    bounds = (0.0, 0.0, across * wide - (across - 1) * overlap, down * high - (down - 1) * overlap)
    grid = grid_over(bounds, (0.0, 0.0, wide, high), overlap)
    assert (grid.columns, grid.rows) == (across, down)


def test_a_scale_bar_s_figures_are_of_one_size():
    for scale in SCALES.values():
        assert len({label.size_pt for label in scale_bar(scale).labels}) == 1


def test_the_notice_stands_in_its_check_square():
    square = check_square()
    assert not collisions(square)
    (notice,) = [label for label in square.labels if "\n" in label.text]
    for line, after in pairwise(notice.text.split("\n")):  # every line is filled
        longer = f"{line} {after.split()[0]}"
        assert text_size(longer, notice.size_pt)[0] > SQUARE_IN - 2 * notice.x
    side = shapely.box(0, 0, SQUARE_IN, SQUARE_IN)
    assert all(side.covers(label_box(label)) for label in square.labels)


def test_a_study_sheet_s_bar_is_no_longer_than_a_hand_rule():
    """At half scale a foot would take 6 in of a large sheet: 8 in take 4 (common practice, no
    source: a bar of 5 in at the most)."""
    page = blank_page(PrintSetup(read_paper("24x18"), read_scale("half")), title="Study")
    (bar,) = [
        s for s in furnished(replace(page, drawing=board(3.0, 3.0))).strokes if s.gid == "scale-bar"
    ]
    xs = [x for x, _ in bar.points]
    assert max(xs) - min(xs) == pytest.approx(4.0)


def test_a_title_takes_seven_lines_or_is_refused():
    """Longer titles, word by word: more and more lines, and then none."""
    lines = []
    for count in range(4, 200, 4):
        try:
            page = blank_page(PrintSetup(read_paper("Letter")), title=" ".join(["Shed"] * count))
            # the title's own lines, and the one that says which page it is
            lines.append(len(sheet._title_lines(page, printable=True)))
        except SheetError:
            break
    else:
        pytest.fail("no title is too long")
    assert lines == sorted(lines)
    assert max(lines) == 7
