"""Paper, printer correction and scales."""

from math import inf, nan

import pytest

from figures.ink.correction import Correction, correction
from figures.ink.drawing import Drawing, Stroke
from figures.ink.paper import PAPERS, checked_margin, read_paper
from figures.ink.scale import FULL_SIZE, SCALES, read_scale, scale_bar, to_scale
from layout.errors import SheetError

LINE = Drawing((Stroke(((0, 0), (12, 0)), "cut"),))


@pytest.mark.parametrize(
    ("name", "width_mm", "height_mm"),
    [
        # ISO 216: A4 and A3 (from memory).
        ("A4", 210.0, 297.0),
        ("A3", 297.0, 420.0),
        # ANSI/ASME Y14.1 sizes A and B (from memory); Legal: common practice, no source.
        ("Letter", 215.9, 279.4),
        ("Tabloid", 279.4, 431.8),
        ("Legal", 215.9, 355.6),
    ],
)
def test_stock_sheets(name, width_mm, height_mm):
    paper = read_paper(name.upper())
    assert (paper.width_in * 25.4, paper.height_in * 25.4) == pytest.approx((width_mm, height_mm))
    assert read_paper(f"{name} landscape") == paper.turned()
    assert not paper.turned().across_x


@pytest.mark.parametrize(
    ("text", "width_in", "height_in"),
    [
        ("17x22", 17, 22),
        ("8 1/2 x 13", 8.5, 13),
        ('8.5" × 11"', 8.5, 11),
        ("254 x 508 mm", 10, 20),
        ("20x10 in", 20, 10),
    ],
)
def test_any_size(text, width_in, height_in):
    paper = read_paper(text)
    assert (paper.width_in, paper.height_in) == pytest.approx((width_in, height_in))
    assert paper.across_x == (width_in <= height_in)


def test_rolls_have_no_length_until_they_are_cut():
    roll = read_paper("roll-24")
    assert roll.endless
    assert (roll.width_in, roll.height_in) == (24, inf)
    assert roll.cut_to(30.0).height_in == 30.0
    assert PAPERS["roll-36"].width_in == 36


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("foolscap", "no paper is called 'foolscap': use Letter, Legal"),
        ("", "no paper is called"),
        ("0x11", "cannot carry a sheet"),
        ("3x5", "each side must be 4 to 200 in"),
        ("10x900", "each side must be 4 to 200 in"),
        ("8 1/0 x 11", "or a size as 17x22"),
        ("roll-24 landscape", "leave out landscape"),
    ],
)
def test_what_is_no_paper(text, message):
    with pytest.raises(SheetError, match=message):
        read_paper(text)


@pytest.mark.parametrize("margin", [0.0, 0.2, 0.8, 5.0, -1.0, nan, inf])
def test_margins_no_printer_keeps(margin):
    with pytest.raises(SheetError, match=r"use 0\.25 to 0\.75 in"):
        checked_margin(margin)


def test_a_roll_too_long_for_a_page():
    with pytest.raises(SheetError, match="cannot be written"):
        read_paper("roll-24").cut_to(201.0)


def test_correction_is_wanted_over_measured_each_way():
    found = correction(6 - 1 / 32, 8 + 1 / 16)
    assert found.across == pytest.approx(6 / 5.96875)
    assert found.along == pytest.approx(8 / 8.0625)
    assert found
    assert not correction(6, 8)
    assert str(found) == "printer correction: across × 1.0052, along × 0.9922"
    assert correction(3.9375, 4.0, 4.0, 4.0).across == pytest.approx(4 / 3.9375)


def test_corrections_follow_on_one_another():
    both = correction(6.03, 8.0).after(correction(5.97, 8.0))
    assert both.across == pytest.approx(6 / 6.03 * 6 / 5.97)


@pytest.mark.parametrize(
    ("across", "along", "message"),
    [
        # A4 "fitted" on Letter prints at 94 %: that is the dialog.
        (6 * 0.94, 8.0, r"the bar across measures 5\.64 in for 6 in, 6\.0 % short: the print d"),
        (6.2, 8.0, r"the bar across measures 6\.2 in for 6 in, 3\.3 % long"),
        (6.0, 7.8, r"the bar along measures 7\.8 in for 8 in, 2\.5 % short"),
        (6.0, 8.2, r"the bar along measures 8\.2 in for 8 in, 2\.5 % long"),
        (0.0, 8.0, "cannot measure 0"),
        (-6.0, 8.0, "cannot measure -6"),
        (0.5, 8.0, r"measures 0\.5 in for 6 in, 91\.7 % short"),
        (nan, 8.0, "cannot measure nan"),
        (6.0, inf, "cannot measure inf"),
    ],
)
def test_what_no_correction_mends(across, along, message):
    with pytest.raises(SheetError, match=message):
        correction(across, along)


@pytest.mark.parametrize(
    ("across", "along", "message"),
    [
        (1.03, 1.0, r"correction of 1\.03 across is outside 0\.98 to 1\.02"),
        (1.0, 0.975, r"correction of 0\.975 along is outside"),
        (nan, 1.0, "correction of nan across"),
        (1.0, -inf, "correction of -inf along"),
    ],
)
def test_a_correction_outside_the_band_cannot_be_made_at_all(across, along, message):
    with pytest.raises(SheetError, match=message):
        Correction(across, along)


def test_two_per_cent_each_way_is_still_a_printer():
    """Both ends of the band are in it, and each way has its own factor."""
    for across, along in ((0.98, 1.02), (1.02, 0.98), (1.0, 1.02)):
        made = Correction(across, along)
        assert (made.across, made.along) == (across, along)
        assert made
        back = correction(6 / across, 8 / along)
        assert (back.across, back.along) == pytest.approx((across, along))
    assert not Correction(1.0, 1.0)
    first, then = Correction(1.01, 0.99), Correction(0.995, 1.005)
    both = then.after(first)
    assert (both.across, both.along) == pytest.approx((1.01 * 0.995, 0.99 * 1.005))


def test_a_shorter_bar_is_refused_by_its_own_length():
    with pytest.raises(SheetError, match=r"the bar along measures 5\.2 in for 5 in, 4\.0 % long"):
        correction(4.0, 5.2, 4.0, 5.0)
    with pytest.raises(SheetError, match=r"about 4 in$"):
        correction(0.0, 5.0, 4.0, 5.0)


@pytest.mark.parametrize(
    ("text", "factor", "written"),
    [
        ("full", 1.0, "FULL SIZE"),
        ("Full size", 1.0, "FULL SIZE"),
        ("1:1", 1.0, "FULL SIZE"),
        ("half", 0.5, "1 : 2"),
        ("quarter", 0.25, "1 : 4"),
        ("3 in = 1 ft", 0.25, '3" = 1\'-0"'),
        ('3" = 1\'-0"', 0.25, '3" = 1\'-0"'),
        ("1 1/2 in = 1 ft", 0.125, '1 1/2" = 1\'-0"'),
        ("3/4 in = 1 ft", 0.0625, '3/4" = 1\'-0"'),
        ("1:5", 0.2, "1 : 5"),
        ("1 : 10", 0.1, "1 : 10"),
        ("1/8", 0.125, "1 : 8"),
        ("2:1", 2.0, "2 : 1"),
    ],
)
def test_scales(text, factor, written):
    scale = read_scale(text)
    assert scale.factor == pytest.approx(factor)
    assert scale.text == written


@pytest.mark.parametrize(
    "text", ["", "big", "1:0", "0:1", "100:1", "10 1/8:1", "in = 1 ft", "1/0 in = 1 ft", "-1:5"]
)
def test_what_is_no_scale(text):
    with pytest.raises(SheetError, match=r"scale"):
        read_scale(text)


def test_ten_times_is_the_most_and_a_bar_counts_in_mm_where_the_ratio_is_of_fives():
    """1 : 5, 1 : 10, 1 : 20, 1 : 50 are the metric trades' scales (ISO 5455; from memory)."""
    assert read_scale("10:1").factor == 10
    metric = {text: read_scale(text).metric for text in ("1:5", "1:20", "1:50", "1:8", "1:16")}
    assert metric == {"1:5": True, "1:20": True, "1:50": True, "1:8": False, "1:16": False}
    assert not read_scale("6 in = 1 ft").metric
    assert FULL_SIZE.full
    assert not read_scale("2:1").full
    assert read_scale("6 in = 1 ft").factor == 0.5
    assert read_scale("12 in = 1 ft") is FULL_SIZE


@pytest.mark.parametrize(
    ("wide", "high", "asked", "better"),
    [
        (24.6, 1.0, "1:50", "1 : 24"),
        (1.0, 24.6, "1:50", "1 : 24"),  # the longer side counts
        (2.1, 1.0, "1:5", "1 : 2"),
        (1.9, 1.0, "1:5", "full size"),
        (9.1, 9.1, "1:19", "1 : 9"),
    ],
)
def test_a_scale_that_shows_nothing_is_answered_by_one_that_shows_twice_the_least(
    wide, high, asked, better
):
    """Half an inch on paper is the least: N in of wood show it at 1 : 2 N, and an inch at 1 : N."""
    edge = Drawing((Stroke(((7, 5), (7 + wide, 5 + high)), "cut"),))
    long_in = max(wide, high) * read_scale(asked).factor
    said = rf"drawing is {long_in:.2g} in long and leaves nothing to see: use {better} or larger"
    with pytest.raises(SheetError, match=said):
        to_scale(edge, read_scale(asked))
    left, bottom, right, top = to_scale(edge, read_scale(better.removesuffix(" size"))).bounds()
    assert max(right - left, top - bottom) >= 1.0 - 1e-9
    least = read_scale(f"1:{2 * max(wide, high):g}")
    assert to_scale(edge, least).strokes  # half an inch is seen


def test_a_scale_that_leaves_nothing_to_see():
    with pytest.raises(SheetError, match="leaves nothing to see: use 1 : 12 or larger"):
        to_scale(LINE, read_scale("1:100"))
    with pytest.raises(SheetError, match="nothing in the drawing"):
        to_scale(Drawing(), FULL_SIZE)


BARS = [*SCALES.values(), *(read_scale(text) for text in ("1:50", "1:100", "1:96", "2:1", "10:1"))]
ROOMS_IN = (0.05, 0.17, 0.4, 0.65, 1.0, 2.5, 4.0, 7.0, 16.5, 24.0, 40.0, 90.0, 160.0, 192.0)


@pytest.mark.parametrize("scale", BARS)
def test_a_scale_bar_is_as_long_as_it_says(scale):
    """Every figure stands over the length that it names, whatever the room; the longest that
    fits of lengths that are halved and halved again in whole numbers."""
    said = []
    for room_in in ROOMS_IN:
        bar = scale_bar(scale, room_in)
        left, half, right = bar.labels
        number, unit = right.text.split()
        inch = {"in": 1, "ft": 12, "mm": 1 / 25.4}[unit]
        assert (unit == "mm") == scale.metric
        assert (left.text, left.x) == ("0", 0)
        assert half.x == pytest.approx(float(half.text) * inch * scale.factor)
        assert right.x == pytest.approx(float(number) * inch * scale.factor)
        assert right.x <= room_in or number == ("10" if scale.metric else "1")
        (outline,) = bar.strokes
        xs, ys = zip(*outline.points, strict=True)
        assert (min(xs), max(xs), min(ys)) == (0, right.x, 0)
        assert outline.points[0] == outline.points[-1]
        assert len(set(outline.points)) == 4
        high = max(ys)
        assert 0.05 < high < 0.1
        fields = [area.polygon.bounds for area in bar.areas]
        quarter = right.x / 4  # ink, paper, ink, paper
        assert fields[0] == pytest.approx((0, 0, quarter, high))
        assert fields[1] == pytest.approx((2 * quarter, 0, 3 * quarter, high))
        for label in bar.labels:
            assert high < label.y < high + 0.05
            assert (label.ha, label.size_pt) == ("center", 8)
        said.append(float(number) * (12 if unit == "ft" else 1))
        assert unit != "in" or float(number) < 24
    allowed = (
        {10, 20, 40, 80, 100, 200, 400, 800, 1000, 2000, 4000}
        if scale.metric
        else {1, 2, 4, 8, 12, 24, 48, 96, 192}
    )
    assert set(said) <= allowed
    assert said == sorted(said)
    for room_in, length in zip(ROOMS_IN, said, strict=True):
        longer = min((one for one in allowed if one > length), default=None)
        per_inch = 25.4 if scale.metric else 1
        assert longer is None or longer / per_inch * scale.factor > room_in
    unsaid = max(x for x, _ in scale_bar(scale).strokes[0].points)
    assert unsaid == pytest.approx(scale_bar(scale, 4.0).labels[2].x)
