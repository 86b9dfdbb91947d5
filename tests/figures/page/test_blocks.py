"""Blocks beside a drawing, cautions, cards and bars: their sizes, places and white between."""

from itertools import combinations, pairwise

import pytest
import shapely

from figures.ink.drawing import Drawing, Stroke, label_box
from figures.ink.lettering import LINE_EM, line_width_em, text_size
from figures.ink.paper import read_paper
from figures.page import beside
from figures.page.beside import (
    PAD_IN,
    Block,
    free_rooms,
    least_area_in2,
    stand,
    words_block,
)
from figures.page.card import CardTable, card_pages
from figures.page.cautions import (
    LARGE_PT,
    SIZE_PT,
    WARNING_LINES,
    caution_blocks,
    side_by_side,
    warning_line,
)
from figures.page.checkbars import check_bar, check_square
from figures.page.nest import APART_IN, nested
from figures.page.sheet import clear_field, furnished
from figures.page.tiling import PrintSetup, blank_page, rooms_on_one_page
from layout.errors import SheetError

TEXT = "Stand the board on edge and mark from the long point."


def box(wide, high, at=(0.0, 0.0)):
    x, y = at
    corners = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high), (x, y))
    return Drawing((Stroke(corners, "frame"),))


def block(*sizes, **how):
    return Block("block", tuple(box(*size) for size in sizes), **how)


def test_words_in_a_box_have_white_round_them():
    (shape,) = words_block("TO USE", TEXT, 8.0, boxed=True, widths=(2.0,)).shapes
    heading, text = shape.labels
    line = LINE_EM * 8 / 72
    lines = text.text.count("\n") + 1
    assert (heading.x, heading.y, heading.bold) == (PAD_IN, pytest.approx(-PAD_IN), True)
    assert (text.x, text.y, text.bold) == (PAD_IN, pytest.approx(-PAD_IN - line), False)
    wide = max(text_size(text.text, 8.0)[0], text_size(heading.text, 8.0, True)[0])
    x0, y0, x1, y1 = shape.bounds(words=False)
    assert (x0, y1) == (0, 0)
    assert x1 == pytest.approx(wide + 2 * PAD_IN)
    assert y0 == pytest.approx(-2 * PAD_IN - (lines + 1) * line)
    assert x1 <= 2.0 + 1e-9


def test_words_without_a_box_begin_at_the_corner():
    (shape,) = words_block("TO USE", TEXT, 8.0, widths=(2.0,)).shapes
    heading, text = shape.labels
    assert not shape.strokes
    assert (heading.x, heading.y, text.x) == (0, 0, 0)
    assert text.y == pytest.approx(-LINE_EM * 8 / 72)
    bare = words_block("", TEXT, 8.0, widths=(2.0,)).shapes[0]
    assert [label.y for label in bare.labels] == [0]


@pytest.mark.parametrize("boxed", [True, False])
@pytest.mark.parametrize("width", [1.5, 2.0, 3.1])
def test_every_line_of_a_block_is_filled_to_its_width(width, boxed):
    """The next line's first word had no room on it beside the white of the frame."""
    (shape,) = words_block("TO USE", TEXT * 3, 8.0, boxed=boxed, widths=(width,)).shapes
    lines = shape.labels[1].text.split("\n")
    room = width - 2 * PAD_IN * boxed
    for line, following in pairwise(lines):
        assert text_size(line, 8.0)[0] <= room
        assert text_size(f"{line} {following.split()[0]}", 8.0)[0] > room
    long = words_block("A HEADING THAT TAKES TWO LINES", "x", 8.0, widths=(1.5,)).shapes[0]
    heading, text = long.labels
    assert text.y == pytest.approx(-LINE_EM * 8 / 72 * len(heading.text.split("\n")))
    assert "\n" in heading.text


def test_a_word_wider_than_every_width_makes_its_own():
    (shape,) = words_block("", "Counterclockwise it runs.", 8.0, boxed=True, widths=(0.4,)).shapes
    wide = text_size("Counterclockwise", 8.0, True)[0]
    x0, _, x1, _ = shape.bounds()
    assert x1 - x0 <= wide + 2 * PAD_IN + 0.02
    assert x1 - x0 >= text_size("Counterclockwise", 8.0)[0] + 2 * PAD_IN - 1e-9


def test_a_heading_stays_a_heading_where_no_width_holds_the_words():
    (shape,) = words_block("TURN", "Counterclockwise it runs.", 8.0, widths=(0.4,)).shapes
    heading, text = shape.labels
    assert (heading.text, heading.bold, text.bold) == ("TURN", True, False)
    assert text.y < heading.y


def test_the_least_paper_of_blocks_is_the_sum_of_their_smallest_shapes():
    assert block((3.0, 2.0), (4.0, 1.0)).least_in2 == 4.0
    moved = Block("off", (box(3.0, 2.0, at=(5.0, -7.0)),))
    assert moved.least_in2 == 6.0
    every = [block((3.0, 2.0), (4.0, 1.0)), moved, block((9.0, 9.0), optional=True)]
    assert least_area_in2(every) == 10.0


def test_a_block_costs_the_band_that_it_takes_of_a_room():
    """In a room 2 by 8 one of 1 by 3 costs a band 2 by 3, in one 8 by 2 a band 1 by 2."""
    assert beside._band_in2((1.0, 3.0), (5.0, 1.0, 7.0, 9.0)) == 6.0
    assert beside._band_in2((1.0, 1.5), (5.0, 1.0, 13.0, 3.0)) == 2.0


FIELD = (1.0, 2.0, 8.0, 10.0)


def stood_boxes(drawing):
    return [shapely.Polygon(stroke.points) for stroke in drawing.strokes]


def test_blocks_stand_in_the_field_from_its_corner_and_apart():
    taken = shapely.box(5.0, 2.0, 8.0, 10.0)
    off = Block("off its origin", (box(2.0, 1.0, at=(5.0, -7.0)),))
    blocks = [block((2.5, 3.0)), off, block((5.0, 1.0), (1.0, 4.0))]
    (stood,), left = stand(blocks, [free_rooms(FIELD, taken)], (1.0, 10.0))
    assert left == []
    found = stood_boxes(stood)
    assert sorted(round(one.area, 6) for one in found) == [2.0, 4.0, 7.5]
    room = shapely.box(1.0, 2.0, 5.0 - beside.APART_IN / 2, 10.0).buffer(1e-6)
    assert all(room.covers(one) for one in found)
    assert all(one.intersection(two).area < 1e-9 for one, two in combinations(found, 2))
    largest = max(found, key=lambda one: one.area).bounds
    assert (largest[0], largest[3]) == pytest.approx((1.0, 10.0), abs=0.15)


def test_a_block_goes_to_the_next_page_unless_it_belongs_to_the_first():
    full, free = shapely.box(*FIELD), shapely.Point(-9, -9)

    def rooms():
        return [free_rooms(FIELD, full), free_rooms(FIELD, free)]

    (first, second), left = stand([block((2.0, 1.0))], rooms(), (1.0, 10.0))
    assert (len(first.strokes), len(second.strokes), left) == (0, 1, [])
    kept = block((2.0, 1.0), first=True)
    (first, second), left = stand([kept], rooms(), (1.0, 10.0))
    assert (len(second.strokes), left) == (0, [kept])
    spare = block((20.0, 1.0), optional=True)
    (_, second), left = stand([spare, block((2.0, 1.0))], rooms(), (1.0, 10.0))
    assert (len(second.strokes), left) == (1, [])
    wide, low = block((7.2, 1.0)), block((1.0, 8.2))
    assert stand([wide], rooms(), (1.0, 10.0))[1] == [wide]
    assert stand([low], rooms(), (1.0, 10.0), all_or_none=True)[1] == [low]


@pytest.mark.parametrize("all_or_none", [True, False])
def test_a_block_of_one_shape_goes_first_where_a_larger_one_can_give_way(all_or_none):
    """A square of 4 in: the larger block lies across the top, and nothing high fits under it; it
    stands beside what is high, if that was put first."""
    either, high = block((3.6, 1.2), (1.2, 3.6)), block((1.0, 3.6))
    for blocks in ([either, high], [high, either]):
        # A page that has room for none of them does not end the search.
        pages = [free_rooms((1.0, 2.0, 2.0, 3.0)), free_rooms((1.0, 2.0, 5.0, 6.0))]
        (_, stood), left = stand(blocks, pages, (1.0, 6.0), all_or_none=all_or_none)
        assert left == []
        one, two = stood_boxes(stood)
        assert {round(each.area, 6) for each in (one, two)} == {3.6, 4.32}
        assert one.intersection(two).area == 0
        assert shapely.box(1.0, 2.0, 5.0, 6.0).covers(shapely.union(one, two))


def test_of_several_tries_the_one_that_leaves_fewest_blocks_stands():
    huge, either, high = block((9.0, 9.0)), block((3.6, 1.2), (1.2, 3.6)), block((1.0, 3.6))
    (stood,), left = stand([either, huge, high], [free_rooms((1.0, 2.0, 5.0, 6.0))], (1.0, 6.0))
    assert (left, len(stood.strokes)) == ([huge], 2)


def test_what_must_stand_comes_before_what_may():
    spare, needed = block((3.5, 3.5), optional=True), block((3.0, 3.0))
    for blocks in ([spare, needed], [needed, spare]):
        (stood,), left = stand(blocks, [free_rooms((0.0, 0.0, 4.0, 4.0))], (0.0, 4.0))
        assert left == []
        assert [round(one.area, 6) for one in stood_boxes(stood)] == [9.0]


def test_what_stands_keeps_its_place_from_all_that_comes_after():
    rooms = [free_rooms((0.0, 0.0, 4.0, 4.0))]
    huge, small = block((9.0, 9.0)), block((3.0, 1.0))
    (first,), left = stand([huge, small], rooms, (0.0, 4.0))
    assert left == [huge]
    (second,), left = stand([small], rooms, (0.0, 4.0))
    assert left == []
    one, two = stood_boxes(first)[0], stood_boxes(second)[0]
    assert one.distance(two) >= 0.05
    assert stand([huge], rooms, (0.0, 4.0), all_or_none=True)[1] == [huge]
    (third,), _ = stand([small], rooms, (0.0, 4.0))
    assert min(stood_boxes(third)[0].distance(each) for each in (one, two)) >= 0.05


def test_a_shape_costs_its_own_area_where_no_band_is_asked_for():
    assert beside._box_in2((2.0, 3.0), (0.0, 0.0, 9.0, 9.0)) == 6.0


@pytest.mark.parametrize("wide", [7.1, 8.0, 8.01, 9.6, 12.0, 14.0])
def test_warning_and_deferral_share_a_width(wide):
    drawn = side_by_side(wide)
    warning, _, deferral = drawn.labels
    size = 9.0 if wide > 12 else 8.0
    assert {label.size_pt for label in drawn.labels} == {size}
    column = (wide - 0.15) / 2
    (frame,) = drawn.strokes
    xs, ys = zip(*frame.points, strict=True)
    assert (min(xs), max(xs), max(ys)) == (0, pytest.approx(column), 0)
    assert shapely.Polygon(frame.points).covers(label_box(warning))
    assert shapely.Polygon(frame.points).covers(label_box(drawn.labels[1]))
    x0, _, x1, y1 = label_box(deferral).bounds
    assert x0 > column + 0.15
    assert x1 <= wide
    assert -0.1 < y1 <= 0
    assert deferral.y == warning.y  # their first lines are level
    assert (warning.text, warning.bold) == ("WARNING", True)
    assert x0 - column < 0.3
    below = drawn.labels[1]
    assert label_box(warning).bounds[1] - label_box(below).bounds[3] == pytest.approx(0, abs=0.03)
    foot = label_box(below).bounds[1] - min(ys)
    assert 0.04 < foot < 0.1
    small = side_by_side(wide, text=True)
    assert small.labels[0].size_pt == (7.0 if wide <= 8 else size)


@pytest.mark.parametrize("room", [3.0, 4.5, 6.0, 7.1, 9.6, 16.0])
@pytest.mark.parametrize("said", ["page 2 of 5", "page B: row 1 of 2, column 2 of 2, page 2 of 5"])
def test_the_longest_warning_that_fits_its_line_is_taken(room, said):
    em = room * 72 / SIZE_PT - line_width_em(said, True) - 1.5
    fitting = [one for one in WARNING_LINES if line_width_em(one, True) <= em]
    assert warning_line(room, said) == (fitting or WARNING_LINES[-1:])[0]


def test_the_cautions_of_a_sheet_to_cut_from():
    names = [one.name for one in caution_blocks(full=True)]
    assert names == ["WARNING", "FOR TRAINING", "NOTICE"]
    assert [one.name for one in caution_blocks(full=False)] == names[:2]
    few = caution_blocks(full=True, few=True)
    assert [one.name for one in few] == [*names, "square"]
    for large, size in ((True, LARGE_PT), (False, SIZE_PT)):
        warning, deferral, *_ = caution_blocks(full=True, large=large)
        assert {label.size_pt for label in warning.shapes[0].labels} == {size}
        assert {label.size_pt for label in deferral.shapes[0].labels} == {SIZE_PT}
        assert warning.shapes[0].strokes
        assert warning.first
    whole = sum(
        len(label.text) for one in caution_blocks(full=True)[:2] for label in one.shapes[0].labels
    )
    short = sum(len(label.text) for one in few[:2] for label in one.shapes[0].labels)
    assert short < 0.8 * whole


def test_the_notice_stands_in_its_square_or_beside_or_below_a_small_one():
    (notice,) = [one for one in caution_blocks(full=True) if one.name == "NOTICE"]
    assert notice.first
    big, *small = notice.shapes
    assert big == check_square(2.0)
    for shape in small:
        assert [label.text for label in shape.labels if label.bold] == ["NOTICE"]
        square = shapely.Polygon(next(s.points for s in shape.strokes if s.gid == "check-square"))
        assert square.bounds == (0, 0, 1, 1)
        (frame,) = [s.points for s in shape.strokes if s.pen == "frame"]
        x0, y0, x1, y1 = shapely.Polygon(frame).bounds
        right_of = (x0, y1) == (pytest.approx(1.08), pytest.approx(1.0))
        below = (x0, y1) == (pytest.approx(0.0), pytest.approx(-0.08))
        assert right_of != below
        assert x1 - x0 <= 6.0
        assert y0 < y1
    widths = {round(max(label_box(one).bounds[2] for one in shape.labels), 2) for shape in small}
    assert len(widths) >= 8


def test_a_bar_s_end_ticks_are_longer_and_its_words_keep_inside():
    bar = check_bar("across", 7.0, ("Print so.", "", "x" * 300))
    ticks = {s.points[0][0]: s.points[1][1] - s.points[0][1] for s in bar.strokes if s.gid is None}
    above = {x: up for x, up in ticks.items() if up > 0}
    assert above == {x: pytest.approx(0.06) for x in range(1, 6)} | {6.0: pytest.approx(0.1)}
    words, end, cm = bar.labels
    assert words.text == "ACROSS: measure 6 in above, 15 cm below. Print so."
    assert (end.text, end.x, end.ha) == ("6 in", pytest.approx(5.97), "right")
    assert (cm.text, cm.x) == ("15 cm", pytest.approx(15 / 2.54 - 0.03))
    assert cm.y < 0.13 < words.y
    assert not label_box(words).intersects(label_box(end))
    for long in range(80, 180, 4):
        words = check_bar("across", 7.0, ("i" * long,)).labels[0]
        assert label_box(words).bounds[2] < 6.0 - 0.3  # clear of the words at the bar's end
    assert check_bar("along", 1.1).labels[0].text == "ALONG."
    assert check_bar("along", 1.02).labels[1].text == "1 in"
    with pytest.raises(SheetError, match=r"1\.01 in of paper hold no check bar"):
        check_bar("along", 1.01)


@pytest.mark.parametrize(("side", "cm"), [(2.0, 5), (1.0, 2.5)])
def test_a_square_has_its_ticks_on_both_sides(side, cm):
    square = check_square(side)
    at = cm / 2.54
    ticks = {s.gid: s.points for s in square.strokes}
    corners = ticks["check-square"]
    assert corners[0] == corners[-1]
    assert set(corners) == {(0, 0), (side, 0), (side, side), (0, side)}
    assert all((a == c) != (b == d) for (a, b), (c, d) in pairwise(corners))
    assert ticks["check-square-x-cm"] == ((at, 0), (at, 0.09))
    assert ticks["check-square-y-cm"] == ((0, at), (0.09, at))
    said = [label for label in square.labels if f"{cm:g} cm" in label.text]
    assert len(said) == 1
    assert label_box(said[0]).centroid.x == pytest.approx(side / 2, abs=0.01)
    assert {label.size_pt for label in square.labels} == {8}


CARD = CardTable(
    "Side cuts",
    "What lies on the edge.",
    ("Pitch", "Number on 12 of a common", "Saw"),
    [(f"{rise} in 12", "9 5/8 or a little more", "45") for rise in range(1, 60)],
)


def test_a_card_s_cells_keep_to_their_columns_on_as_many_pages_as_they_need():
    pages = card_pages([CARD, CARD], read_paper("Letter"), title="Card", given="2x6")
    assert [(one.number, one.count) for one in pages] == [
        (i + 1, len(pages)) for i in range(len(pages))
    ]
    assert len(pages) > 1
    said = [label.text for page in pages for label in page.drawing.labels]
    assert sum(text.endswith("or a little more") for text in said) == 118
    for page in pages:
        left, bottom, right, top = clear_field(page)
        field = shapely.box(left, bottom, right, top).buffer(1e-6)
        boxes = [label_box(label) for label in page.drawing.labels]
        assert all(field.covers(one) for one in boxes)
        assert page.drawing.bounds()[3] == pytest.approx(top, abs=0.1)
        lines: dict[float, list[tuple[float, float]]] = {}
        for label, one in zip(page.drawing.labels, boxes, strict=True):
            lines.setdefault(round(label.y, 3), []).append((one.bounds[0], one.bounds[2]))
        for spans in lines.values():
            for (_, end), (start, _) in pairwise(sorted(spans)):
                assert end < start
    heading, means, *head = pages[0].drawing.labels[:5]
    assert (heading.text, heading.size_pt, heading.bold) == ("Side cuts", 12.5, True)
    assert (means.text, means.size_pt, means.bold) == ("What lies on the edge.", 9.0, False)
    assert [label.text for label in head] == list(CARD.head)
    assert {label.size_pt for label in head} == {9.0}
    # What is left of a wide page is white between the columns, not more than 0.4 in for each.
    wide = [text_size(text, 9.0, True)[0] + 0.12 for text in CARD.head]
    cell = text_size("9 5/8 or a little more", 9.0)[0]
    assert head[1].x - head[0].x <= max(wide[0], text_size("59 in 12", 9.0)[0] + 0.12) + 0.41
    assert head[2].x - head[1].x >= max(wide[1], cell + 0.1) - 0.03


def card(columns, cells):
    return card_pages(
        [CardTable("Wide", "What it means.", columns, [cells])],
        read_paper("Letter"),
        title="Card",
        given="2x6",
    )[0]


def test_what_a_card_s_table_does_not_need_is_white_between_its_columns():
    """Each cell with 0.12 in of white, and an even share of what is left, 0.4 in at the most."""
    for columns, cells in (
        (("Pitch", "Number"), ("8 in 12", "9 5/8")),
        (("Pitch", "Saw"), ("8", "45")),
        (("Pitch", "a", "b", "c", "d", "e"), ("8 in 12", *["Number on 12 of"] * 5)),
    ):
        page = card(columns, cells)
        left, _, right, _ = clear_field(page)
        wish = [
            max(text_size(head, 9.0, True)[0], text_size(cell, 9.0)[0]) + 0.12
            for head, cell in zip(columns, cells, strict=True)
        ]
        even = (right - left - sum(wish)) / len(wish)
        assert even > 0
        steps = [one + min(even, 0.4) for one in wish]
        heads = [one for one in page.drawing.labels if one.text in columns and one.bold][
            -len(wish) :
        ]
        assert [b.x - a.x for a, b in pairwise(heads)] == pytest.approx(steps[:-1])
        (rule,) = [s.points for s in page.drawing.strokes]
        assert rule[1][0] - rule[0][0] == pytest.approx(sum(steps))
    title = next(one for one in furnished(page).labels if one.text == "Card")
    given = next(one for one in furnished(page).labels if one.text == "2x6")
    assert title.y > given.y


def test_a_card_too_narrow_for_its_sentences_is_filled_from_side_to_side():
    """Every column takes its longest word, and more the longer its sentence is."""
    sentence = "a long sentence that has to be broken somewhere in the middle of it, and again"
    page = card(("Pitch", "Why", "How"), ("8 in 12", sentence * 2, sentence))
    left, _, right, _ = clear_field(page)
    (rule,) = [s.points for s in page.drawing.strokes]
    assert rule[1][0] - rule[0][0] == pytest.approx(right - left)
    pitch, why, how = page.drawing.labels[2:5]
    longest = text_size("somewhere", 9.0)[0] + 0.12
    assert why.x - pitch.x >= max(text_size("Pitch", 9.0, True)[0], 0) + 0.12 - 1e-6
    wide_why, wide_how = how.x - why.x, left + (right - left) + 0.04 - how.x
    assert wide_why > wide_how > longest
    more = [text_size(each, 9.0)[0] + 0.12 - longest for each in (sentence * 2, sentence)]
    assert (wide_why - longest) / (wide_how - longest) == pytest.approx(more[0] / more[1])
    assert pitch.size_pt == 9.0


def test_a_card_too_wide_is_lettered_smaller_and_then_refused():
    def pages(columns):
        made = CardTable("Wide", "x", ["Shortening"] * columns, [["12 3/16"] * columns])
        return card_pages([made], read_paper("Letter"), title="Card")

    sizes = [{one.size_pt for one in pages(n)[0].drawing.labels[2:]} for n in range(4, 11)]
    assert all(len(each) == 1 for each in sizes)
    order = [each.pop() for each in sizes]
    assert order == sorted(order, reverse=True)
    assert order[0] == 9.0
    with pytest.raises(SheetError, match=r"a table of 40 columns does not fit 7\.[0-9]+ in"):
        pages(40)


def letter():
    return blank_page(PrintSetup(read_paper("Letter")), title="One")


@pytest.mark.parametrize(
    "sizes", [[(3.0, 5.0), (3.5, 4.0)], [(6.5, 3.0), (3.0, 6.5)], [(6.9, 2.0)] * 3]
)
def test_drawings_nested_on_a_sheet_lie_in_its_field_with_white_between(sizes):
    page = nested([box(*size, at=(20.0, -5.0)) for size in sizes], [block((1.5, 1.0))], letter())
    assert page is not None
    left, bottom, right, top = clear_field(page)
    field = shapely.box(left, bottom, right, top).buffer(1e-6)
    boards = [shapely.Polygon(s.points) for s in page.drawing.strokes if s.pen == "frame"]
    assert len(boards) == len(sizes)
    assert all(field.covers(one) for one in boards)
    assert min(one.distance(two) for one, two in combinations(boards, 2)) >= APART_IN / 2 - 1e-6
    (aside,) = stood_boxes(page.beside)
    assert field.covers(aside)
    assert all(aside.distance(one) > 0 for one in boards)


def test_a_drawing_as_large_as_a_sheet_s_room_is_nested_and_none_larger():
    def across(wide, high):
        return Drawing((Stroke(((2.0, 1.0), (2.0 + wide, 1.0 + high)), "cut"),))

    for wide, high in rooms_on_one_page(PrintSetup(read_paper("Letter")), title="One"):
        assert nested([across(wide, high)], [], letter()) is not None
        assert nested([across(wide + 0.001, high)], [], letter()) is None
        assert nested([across(wide, high + 0.001)], [], letter()) is None


def test_what_does_not_fit_on_a_sheet_is_not_nested():
    assert nested([box(6.0, 8.0), box(6.0, 8.0)], [], letter()) is None
    assert nested([box(6.9, 8.7)], [block((3.0, 3.0))], letter()) is None
    assert nested([box(7.3, 9.3)], [], letter()) is None
    assert nested([box(9.3, 4.0)], [], letter()) is not None  # the paper turned
