"""A page measured with a rule: margins, bars, title, cautions and the field they leave."""

from itertools import product

import pytest
import shapely

from figures.ink.correction import Correction
from figures.ink.drawing import Drawing, Stroke, label_box
from figures.ink.lettering import text_size
from figures.ink.paper import read_paper
from figures.ink.scale import read_scale
from figures.page.cautions import WARNING_LINES
from figures.page.checkbars import check_square
from figures.page.sheet import GAP_IN, Page, clear_field, furnished
from layout.errors import SheetError

STRIP_IN = 0.32
"""Depth of a check bar's strip, and its line 0.13 in above the strip's foot."""
BOX = Drawing((Stroke(((4.0, 4.0), (6.0, 4.0), (6.0, 6.0)), "visible", "own"),))


def page(paper="Letter", **how):
    return Page(read_paper(paper), BOX, "Hip jack, head", "8 in 12, 2x6", **how)


def stroke(drawing, gid):
    (found,) = [s.points for s in drawing.strokes if s.gid == gid]
    return found


def label(drawing, start):
    (found,) = [one for one in drawing.labels if one.text.startswith(start)]
    return found


def rule_of(drawing, left, right):
    """The line under the title: level, over the whole width, the highest such."""
    lines = [
        s.points[0][1]
        for s in drawing.strokes
        if s.pen == "frame" and s.points[0][0] == left and s.points[1] == (right, s.points[0][1])
    ]
    return max(lines)


@pytest.mark.parametrize("paper", ["Letter", "Letter landscape", "A3", "Tabloid landscape"])
@pytest.mark.parametrize("correction", [Correction(), Correction(1.01, 0.99)], ids=str)
def test_bars_stand_on_the_margins_and_the_field_between_them(paper, correction):
    made = page(paper, correction=correction, margin_in=0.5, strips="first")
    sheet = read_paper(paper)
    x, y = (1.01, 0.99) if sheet.across_x else (0.99, 1.01)
    if not correction:
        x = y = 1.0
    wide, high = sheet.width_in / x, sheet.height_in / y
    assert made.size_in == pytest.approx((wide, high))
    drawn = furnished(made)
    level, upright = ("across", "along") if sheet.across_x else ("along", "across")
    left = 0.5 + STRIP_IN + GAP_IN
    nominal = {"across": 6, "along": 8}
    across = min(nominal[level], int(wide - 0.5 - left - 0.02))
    up = min(nominal[upright], int(high - 1.0 - 0.02))
    assert stroke(drawn, f"check-bar-{level}") == (
        pytest.approx((left, 0.63)), pytest.approx((left + across, 0.63)),
    )  # fmt: skip
    assert stroke(drawn, f"check-bar-{upright}") == (
        pytest.approx((0.5 + STRIP_IN - 0.13, 0.5)),
        pytest.approx((0.5 + STRIP_IN - 0.13, 0.5 + up)),
    )
    field = clear_field(made)
    assert field[:3] == pytest.approx((left, left, wide - 0.5))
    assert field[3] == pytest.approx(rule_of(drawn, left, wide - 0.5) - GAP_IN)
    bars = [label(drawn, way.upper()) for way in (level, upright)]
    told = [one.text for one in bars if one.text.endswith(f"{str(correction)[1:]}.")]
    assert bool(told) == bool(correction)  # on a bar that has room for it
    assert label(drawn, "ACROSS: measure").text.startswith(
        f"ACROSS: measure {across if level == 'across' else up} in above"
    )
    assert ("Print at 100 %" in label(drawn, level.upper()).text) or across < 6
    assert not label(drawn, upright.upper()).text.endswith("Do not fit.")
    inside = shapely.box(0.5, 0.5, wide - 0.5, high - 0.5).buffer(0.03)
    assert all(inside.covers(label_box(one)) for one in drawn.labels)
    assert stroke(drawn, "own") == BOX.strokes[0].points


def test_the_title_hangs_from_the_margin_with_its_scale_and_page_at_the_right():
    made = page(number=2, count=5, letter="B", place="row 1 of 2, column 2 of 2", version="v7")
    drawn = furnished(made)
    left, _, right, top = clear_field(made)
    title, given = label(drawn, "Hip jack"), label(drawn, "8 in 12")
    full = label(drawn, "FULL SIZE")
    place = label(drawn, "page B: row 1 of 2, column 2 of 2, page 2 of 5, v7")
    assert (title.x, title.ha, title.bold, title.size_pt) == (left, "left", True, 14.0)
    assert (given.x, given.ha, given.bold, given.size_pt) == (left, "left", False, 9.0)
    assert (full.x, full.ha, full.bold) == (pytest.approx(right), "right", True)
    assert (place.x, place.ha, place.bold) == (pytest.approx(right), "right", False)
    assert title.y == full.y
    assert given.y == place.y
    # A line of 14 pt hangs from the margin, one of 9 pt under it; then the rule, then the gap.
    assert 11.0 - made.margin_in - title.y == pytest.approx(14 * 1.2 / 72, abs=0.03)
    assert title.y - given.y == pytest.approx(9 * 1.2 / 72, abs=0.03)
    rule = rule_of(drawn, left, right)
    assert 0.05 < given.y - rule < 0.07
    assert top == pytest.approx(rule - GAP_IN)
    unsure = furnished(made, printable=False)
    assert not [one for one in unsure.labels if one.text == "FULL SIZE"]
    assert label(unsure, "study view, check the bars").x == pytest.approx(right)


def test_a_page_that_follows_has_the_warning_in_its_title_in_bold():
    made = page(strips="next", number=3, count=5)
    warning = label(furnished(made), "WARNING: ")
    assert warning.bold
    assert "page 1" in warning.text
    assert not [one for one in furnished(made).labels if one.text.startswith("8 in 12")]
    assert clear_field(made) == clear_field(page(strips="first", number=1, count=999))


def test_cautions_stand_between_the_bar_and_the_field():
    made = page(strips="low")
    drawn = furnished(made)
    left, bottom, right, _ = clear_field(made)
    heading = label(drawn, "WARNING")
    (box,) = [
        s.points for s in drawn.strokes
        if s.pen == "frame" and len(s.points) == 5
        and shapely.Polygon(s.points).covers(label_box(heading))
    ]  # fmt: skip
    xs, ys = zip(*box, strict=True)
    assert min(xs) == pytest.approx(left)
    assert min(ys) >= made.margin_in + STRIP_IN + GAP_IN - 1e-9
    assert max(ys) == pytest.approx(bottom - GAP_IN)
    deferral = label(drawn, "This sheet is for training")
    assert label_box(deferral).bounds[2] <= right + 1e-6
    lowest = min(min(ys), label_box(deferral).bounds[1])
    assert lowest == pytest.approx(made.margin_in + STRIP_IN + GAP_IN, abs=0.01)
    assert clear_field(page(strips="first"))[1] == pytest.approx(made.margin_in + STRIP_IN + GAP_IN)


def test_a_study_page_has_a_scale_bar_and_says_that_it_is_not_for_cutting():
    made = page(scale=read_scale("1:10"), strips="first")
    drawn = furnished(made)
    left, bottom, right, _ = clear_field(made)
    assert (left, right) == (made.margin_in, 8.5 - made.margin_in)
    assert bottom == pytest.approx(made.margin_in + STRIP_IN + GAP_IN)
    bar = stroke(drawn, "scale-bar")
    ys = [y for _, y in bar]
    assert min(ys) == pytest.approx(made.margin_in)
    zero = label(drawn, "0")
    assert label_box(zero).bounds[0] >= left - 0.01
    assert max(x for x, _ in bar) <= left + (right - left) / 2 + 0.1
    words = label(drawn, "not for cutting from")
    assert (words.x, words.y, words.ha) == (right, made.margin_in, "right")
    assert not [s for s in drawn.strokes if (s.gid or "").startswith("check")]
    assert label(drawn, "1 : 10").bold


def test_a_page_of_text_has_a_line_at_its_foot_and_no_scale():
    made = page(scale=None)
    drawn = furnished(made)
    foot = label(drawn, "Pictures are not to scale")
    assert (foot.x, foot.y, foot.size_pt) == (made.margin_in, made.margin_in, 8.0)
    assert not [s for s in drawn.strokes if (s.gid or "").startswith(("check", "scale"))]
    assert not made.full
    assert label_box(label(drawn, "WARNING")).bounds[1] > label_box(foot).bounds[3]
    bare = page(scale=None, strips="first")
    assert clear_field(bare)[1] == pytest.approx(made.margin_in + 8 / 72 + GAP_IN)


def test_the_square_stands_where_it_is_put():
    drawn = furnished(page(square_at=(2.0, 3.0)))
    assert stroke(drawn, "check-square") == tuple(
        (x + 2, y + 3) for x, y in check_square().strokes[0].points
    )
    assert not [s for s in furnished(page()).strokes if s.gid == "check-square"]


@pytest.mark.parametrize("strips", ["low", "first", "next"])
def test_longer_titles_are_lettered_smaller_and_then_take_more_lines(strips):
    """Never smaller than three quarters of the usual size on one line; no two texts touch."""
    seen = set()
    for count, place in product(range(1, 40, 3), ("", "row 1 of 2, column 2 of 2")):
        made = page(strips=strips, letter="B" * bool(place), place=place)
        made = Page(**{**vars(made), "title": " ".join(["Shed"] * count)})
        drawn = furnished(made)
        left, _, right, top = clear_field(made)
        words = [one for one in drawn.labels if label_box(one).bounds[1] > top]
        for one in words:
            x0, _, x1, y1 = label_box(one).bounds
            assert x0 >= left - 1e-6
            assert x1 <= right + 1e-6
            assert y1 <= 11 - made.margin_in + 0.06
        title = [one for one in words if "Shed" in one.text]
        seen.add(len(title))
        if len(title) == 1:
            assert 10.5 - 1e-9 <= title[0].size_pt <= 14.0
            full = label(drawn, "FULL SIZE")
            ends = left + text_size(title[0].text, title[0].size_pt, True)[0]
            starts = right - text_size(full.text, full.size_pt, True)[0]
            assert starts - ends >= 1.5 * title[0].size_pt / 72 - 1e-6
        else:
            assert all(one.size_pt == pytest.approx(11.2, abs=0.35) for one in title)
            assert label(drawn, "FULL SIZE").x == left
    assert {1, 2, 3} <= seen


@pytest.mark.parametrize(
    ("paper", "scale", "message"),
    [
        ("4x4", "full", r"4×4 with a margin of 0\.4 in leaves no room .* the check bars and caut"),
        ("4x4", "half", r"beside the cautions: use larger paper"),
    ],
)
def test_paper_too_small_for_a_field_is_refused(paper, scale, message):
    with pytest.raises(SheetError, match=message):
        clear_field(page(paper, scale=read_scale(scale), margin_in=0.4))
    with pytest.raises(SheetError, match=r"roll-24 must be cut to a length"):
        page("roll-24")


@pytest.mark.parametrize("paper", ["5x8", "6x9", "7x10", "Letter", "Letter landscape", "A3"])
def test_the_warning_of_a_page_that_follows_stands_on_one_line_with_the_page_s_number(paper):
    """As long as the paper has room for at 8 pt; on two lines it would be read as two."""
    made = page(paper, strips="next", number=3, count=5)
    drawn = furnished(made)
    warning, place = label(drawn, "WARNING: "), label(drawn, "page 3 of 5")
    assert warning.y == place.y
    assert warning.size_pt >= 8.0
    left, _, right, _ = clear_field(made)
    room = right - left - text_size(place.text, 8.0, True)[0] - 1.5 * 8 / 72
    assert warning.text == next(
        each for each in WARNING_LINES if text_size(each, 8.0, True)[0] <= room
    )
