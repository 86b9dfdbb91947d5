"""Rows of words and pictures: nothing overlaps, nothing is broken, nothing stands alone."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from figures.ink.drawing import Drawing, Label, Stroke, collisions, label_box
from figures.ink.lettering import fraction_text, text_size
from figures.page.flow import (
    LEAD_IN,
    TEXT_PT,
    Row,
    anchors,
    beside,
    columns,
    filled,
    framed,
    hung,
    leader_line,
    paginate,
    picture,
    rule,
    space,
    stacked,
    table,
    under,
    words,
    writing_lines,
)
from tests.counts import count

LONG = (
    "Lay the square on the face: 12 on the blade and 8 1/2 on the tongue, both on the edge of the"
    " board, and mark along the tongue."
)
BOX = Drawing((Stroke(((1, 1), (4, 1), (4, 3), (1, 3), (1, 1)), "visible"),))


def block(height: float, **how) -> Row:
    """A row whose ink fills its height."""
    return Row(Drawing((Stroke(((0, 0), (1, 0), (1, -height)), "visible"),)), height, **how)


def inside(row: Row, width_in: float) -> bool:
    left, bottom, right, top = row.drawing.bounds()
    return left >= -1e-9 and top <= 1e-9 and right <= width_in + 1e-9 and -bottom <= row.height_in


@settings(deadline=None, max_examples=count(60, 15), derandomize=True)
@given(
    texts=st.lists(
        st.sampled_from((LONG, "Cut.", " ".join([LONG] * 3), "Waste toward the head.")), min_size=1
    ),
    width=st.floats(2.0, 9.0),
    size=st.sampled_from((9.0, 10.0, 13.0)),
)
def test_rows_of_any_words_keep_to_their_width_and_never_overlap(texts, width, size):
    rows = []
    for number, text in enumerate(texts, start=1):
        rows += [
            words(text, width, size),
            hung(str(number), words(text, width - 0.3, size), 0.3, 15.0),
            framed(words(text, width - 0.2, size), width),
            beside(words(text, width * 0.4, size), words(text, width * 0.5, size), width * 0.5),
            columns([words(text, width * 0.45, size) for _ in range(5)], width * 0.5),
            rule(width),
            leader_line(text, "188", width, size),
        ]
    for row in rows:
        assert inside(row, width)
    page = stacked(rows)
    assert collisions(page, frozenset({"frame"})) == ()
    # Each row ends where the next begins.
    assert -page.bounds()[1] <= sum(row.height_in for row in rows)


def test_a_number_and_its_step_share_a_baseline():
    row = hung("7", words(LONG, 3.0, 10.0), 0.3, 15.0)
    number, text = row.drawing.labels
    low = label_box(number).bounds[1] + 0.24 * 15 / 72
    first_line = label_box(replace(text, text=text.text.split("\n")[0]))
    assert low == pytest.approx(first_line.bounds[1] + 0.24 * 10 / 72, abs=0.01)


def test_a_picture_hangs_from_its_corner_or_stands_in_the_middle():
    row = picture(BOX)
    assert row.drawing.bounds() == pytest.approx((0, -2, 3, 0))
    assert row.height_in == pytest.approx(2 + LEAD_IN)
    assert picture(BOX, 7.0).drawing.bounds() == pytest.approx((2, -2, 5, 0))


def test_columns_are_read_down_and_are_as_like_as_can_be():
    row = columns([block(1), block(1), block(1), block(3)], 4.0)
    assert row.height_in == 3
    assert columns([block(2)], 4.0).height_in == 2
    first = columns([words(name, 1) for name in ("a", "b", "c")], 4.0).drawing.labels
    assert [label.text for label in first] == ["a", "b", "c"]
    assert [label.x for label in first] == [0, 0, 4.0]


def heights(pages):
    return [[row.height_in for row in page] for page in pages]


def test_rows_go_to_the_next_page_whole():
    assert heights(paginate([block(2), block(2), block(2)], 5)) == [[2, 2], [2]]
    assert heights(paginate([block(1), block(9), block(1)], 5)) == [[1], [9], [1]]
    assert heights(paginate([block(2.5), block(2.5)], 5)) == [[2.5, 2.5]]
    assert heights(paginate([block(5), block(2.5), block(2.5)], 5)) == [[5], [2.5, 2.5]]
    assert paginate([], 5) == []


def test_a_heading_stays_with_what_follows():
    heading = block(1, with_next=True)
    assert heights(paginate([block(3), heading, block(2)], 5)) == [[3], [1, 2]]
    assert heights(paginate([block(3), heading, heading, block(0.5)], 5)) == [[3], [1, 1, 0.5]]


def test_a_fresh_row_starts_a_page_and_what_parts_rows_is_left_out_there():
    rows = [space(0.3), block(1), replace(block(1), fresh=True)]
    assert heights(paginate(rows, 5)) == [[1], [1]]
    heading = [space(0.2, with_next=True), rule(3, 0.1, with_next=True), block(1)]
    assert heights(paginate([block(4), *heading], 5)) == [[4], [1]]
    assert heights(paginate([block(3), *heading], 5)) == [[3, 0.2, 0.1, 1]]


@settings(deadline=None, max_examples=count(100, 25), derandomize=True)
@given(
    rows=st.lists(
        st.builds(block, st.floats(0.1, 6), with_next=st.booleans(), fresh=st.booleans()),
        max_size=30,
    )
)
def test_no_row_is_lost_and_no_page_overfull(rows):
    pages = paginate(rows, 5)
    assert [row for page in pages for row in page] == rows
    for page in pages:
        tall = sum(row.height_in for row in page)
        kept_together = all(row.with_next for row in page[:-1])
        assert tall <= 5 + 1e-6 or kept_together


def growing(height: float) -> Row:
    return replace(block(height), taller=lambda more: growing(height + min(more, 1.0)))


def test_what_a_page_has_left_goes_to_the_pictures():
    assert heights([filled([growing(2), block(1), growing(2)], 6)]) == [[2.5, 1, 2.5]]
    assert heights([filled([growing(2), block(1)], 6)]) == [[3, 1]]
    # Not worth drawing again.
    assert heights([filled([growing(2), growing(2)], 4.2)]) == [[2, 2]]
    assert heights([filled([block(2)], 6)]) == [[2]]


def test_a_row_that_grows_past_the_page_is_left_as_it_was():
    greedy = replace(block(2), taller=lambda more: block(9))
    assert heights([filled([greedy, block(1)], 6)]) == [[2, 1]]


def test_named_rows_are_found_again():
    rows = [block(1), replace(block(2), anchor="Given"), replace(block(0.5), anchor="By saw")]
    assert anchors(rows, 7.5) == [
        ("Given", (0.0, -3.0, 7.5, -1.0)),
        ("By saw", (0.0, -3.5, 7.5, -3.0)),
    ]


def dots(row: Row) -> list[float]:
    return sorted(stroke.points[0][0] for stroke in row.drawing.strokes)


def test_dots_lead_from_the_words_to_the_number():
    short, long = leader_line("Hips", "7", 6.0), leader_line("Valleys and their jacks", "188", 6.0)
    for row in (short, long):
        text, number = row.drawing.labels
        assert label_box(number).bounds[2] == pytest.approx(6.0)
        assert label_box(text).bounds[2] < dots(row)[0]
        assert dots(row)[-1] + 0.02 < label_box(number).bounds[0]
        # They stand on the line that the letters stand on, a little above the letters' tails.
        heights = {point[1] for stroke in row.drawing.strokes for point in stroke.points}
        high = label_box(text).bounds[3] - label_box(text).bounds[1]
        (above,) = {round(at - label_box(text).bounds[1], 9) for at in heights}
        assert 0.15 * high < above < 0.35 * high
    assert len(dots(short)) > len(dots(long)) > 10
    # Dots of one line stand under those of the other.
    assert {round(x, 6) for x in dots(long)} <= {round(x, 6) for x in dots(short)}


def test_a_long_entry_is_wrapped_and_its_number_stands_beside_the_last_line():
    row = leader_line(LONG, "12", 4.0)
    last, number, above = row.drawing.labels
    assert label_box(number).bounds[1] == pytest.approx(label_box(last).bounds[1])
    assert label_box(last).bounds[3] < label_box(above).bounds[1]
    assert f"{above.text} {last.text}".replace("\n", " ") == fraction_text(LONG)


def test_lines_to_write_on_leave_room_above_each():
    row = writing_lines(6.0, 3, 0.3)
    assert sorted(stroke.points[0][1] for stroke in row.drawing.strokes) == pytest.approx(
        [-0.9, -0.6, -0.3]
    )
    assert inside(row, 6.0)


def test_a_table_keeps_its_head_with_its_first_line_and_its_cells_apart():
    rows = table(("Pitch", "Number"), [("8 in 12", LONG), ("9 in 12", "9 5/8")], (1.0, 3.0))
    assert rows[0].with_next
    assert collisions(stacked(rows), frozenset({"frame"})) == ()
    assert all(inside(row, 4.0) for row in rows)


def test_rows_set_under_one_another_are_one():
    row = under([words("a", 3), words("b", 3)])
    assert row.height_in == pytest.approx(2 * (TEXT_PT / 72 + LEAD_IN))
    assert [label.y for label in row.drawing.labels] == pytest.approx(
        [0, -(TEXT_PT / 72 + LEAD_IN)]
    )
    label = Label("x", 0, 0)
    assert Row(Drawing(labels=(label,)), 1).indented(0.3).drawing.labels[0].x == 0.3


def test_a_table_that_goes_on_has_its_heading_again_and_no_line_goes_on_alone():
    lines = [(str(number), "a board") for number in range(9)]
    made = table(("no.", "what"), lines, (1.0, 2.0), head_again=True)
    high = sum(row.height_in for row in made[:-1]) + 1e-6  # all but the last line would fit
    pages = paginate(made, high)
    told = [[label.text for row in page for label in row.drawing.labels] for page in pages]
    assert [page[:2] for page in told] == [["no.", "what"]] * 2
    assert told[1][2::2] == ["7", "8"]
    assert sum(page.count("a board") for page in told) == len(lines)
    once = paginate(table(("no.", "what"), lines, (1.0, 2.0)), high)
    assert [label.text for row in once[1] for label in row.drawing.labels] == ["8", "a board"]


def test_rows_are_as_high_as_what_they_hold_and_their_white():
    """Lines are 10 pt with the white under them; every measure in inches."""
    one = TEXT_PT / 72 + LEAD_IN
    single = words("Cut.", 3.0)
    assert single.height_in == pytest.approx(one)
    assert (single.drawing.labels[0].x, single.drawing.labels[0].y) == (0, 0)
    hanging = hung("7", single, 0.3)
    assert hanging.height_in == pytest.approx(one)
    assert [label.x for label in hanging.drawing.labels] == [0, 0.3]
    tall = hung("7", block(0.01), 0.3, 15.0)
    assert tall.height_in == pytest.approx(15 / 72)
    lower = hung("7", words("Cut.", 3.0, 8.0), 0.3, 20.0)
    assert lower.height_in > 20 / 72
    boxed = framed(single, 3.0, 0.1)
    assert boxed.height_in == pytest.approx(TEXT_PT / 72 + 0.2 + LEAD_IN)
    frame = boxed.drawing.strokes[0].points
    assert frame[0] == frame[-1] == (0, 0)
    low = -TEXT_PT / 72 - 0.2
    assert [x for x, _ in frame] == [0, 3.0, 3.0, 0, 0]
    assert [y for _, y in frame] == pytest.approx([0, 0, low, low, 0])
    assert (boxed.drawing.labels[0].x, boxed.drawing.labels[0].y) == pytest.approx((0.1, -0.1))
    line = rule(3.0, 0.2)
    assert line.drawing.strokes[0].points == ((0, 0), (3.0, 0))
    assert (line.height_in, line.between) == (0.2, True)
    lines = writing_lines(3.0, 3, 0.4)
    assert [stroke.points for stroke in lines.drawing.strokes] == [
        ((0, pytest.approx(-0.4 * i)), (3.0, pytest.approx(-0.4 * i))) for i in (1, 2, 3)
    ]
    assert lines.height_in == pytest.approx(1.2 + LEAD_IN)
    assert picture(BOX, 1.0).drawing.bounds()[0] == 0  # wider than its place


def test_a_table_s_cells_stand_a_little_in_from_their_columns():
    head, line = table(("Pitch", "Number"), [("8 in 12", "9 5/8")], (1.0, 3.0))
    assert [label.x for label in head.drawing.labels] == pytest.approx([0.04, 1.04])
    assert all(label.bold for label in head.drawing.labels)
    assert [label.x for label in line.drawing.labels] == pytest.approx([0.04, 1.04])
    assert [label.y for label in line.drawing.labels] == pytest.approx([-0.04, -0.04])
    assert line.drawing.strokes[0].points == ((0, 0), (4.0, 0))
    assert line.height_in == pytest.approx(TEXT_PT / 72 + LEAD_IN + 0.04)
    wide = text_size("a board", TEXT_PT)[0]
    for spare, many in ((0.081, 1), (0.079, 2)):
        (_, full) = table(("x",), [("a board",)], (wide + spare,))
        assert len(full.drawing.labels[0].text.split("\n")) == many


def test_dots_lead_from_the_words_to_the_number_at_every_place_alike():
    short, long = (leader_line(text, "12", 4.0) for text in ("Hip", "A jack against the hip"))
    places = []
    for row in (short, long):
        text, number = row.drawing.labels
        dots = [stroke.points for stroke in row.drawing.strokes]
        start, end = label_box(text).bounds[2], label_box(number).bounds[0]
        assert end < 4.0
        assert label_box(number).bounds[2] == pytest.approx(4.0, abs=0.01)
        assert all(start < a[0] and b[0] < end for a, b in dots)
        assert all(b[0] - a[0] == pytest.approx(0.02) for a, b in dots)
        xs = sorted(a[0] for a, _ in dots)
        # Two places of dots are left free before them, and one after.
        assert 0.17 < xs[0] - start < 0.28
        assert 0.08 < end - xs[-1] < 0.19
        assert all(b - a == pytest.approx(0.09) for a, b in pairwise(xs))
        places.append({round(x, 6) for x in xs})
        assert text.y == number.y
    assert places[1] < places[0]
