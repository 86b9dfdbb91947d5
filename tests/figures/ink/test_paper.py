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
        (6.0, 8.2, r"the bar along measures 8\.2 in for 8 in, 2\.5 % long"),
        (0.0, 8.0, "cannot measure 0"),
        (-6.0, 8.0, "cannot measure -6"),
        (nan, 8.0, "cannot measure nan"),
        (6.0, inf, "cannot measure inf"),
    ],
)
def test_what_no_correction_mends(across, along, message):
    with pytest.raises(SheetError, match=message):
        correction(across, along)


def test_a_correction_outside_the_band_cannot_be_made_at_all():
    with pytest.raises(SheetError, match="outside"):
        Correction(1.03, 1.0)


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


@pytest.mark.parametrize("text", ["", "big", "1:0", "0:1", "100:1", "in = 1 ft", "1/0 in = 1 ft"])
def test_what_is_no_scale(text):
    with pytest.raises(SheetError, match=r"scale"):
        read_scale(text)


def test_a_scale_that_leaves_nothing_to_see():
    with pytest.raises(SheetError, match="leaves nothing to see: use 1 : 12 or larger"):
        to_scale(LINE, read_scale("1:100"))
    with pytest.raises(SheetError, match="nothing in the drawing"):
        to_scale(Drawing(), FULL_SIZE)


@pytest.mark.parametrize("scale", [*SCALES.values(), read_scale("1:50"), read_scale("2:1")])
def test_a_scale_bar_is_as_long_as_it_says(scale):
    bar = scale_bar(scale)
    xs = [x for x, _ in bar.strokes[0].points]
    number, unit = bar.labels[-1].text.split()
    real_in = float(number) * {"in": 1, "ft": 12, "mm": 1 / 25.4}[unit]
    assert max(xs) == pytest.approx(real_in * scale.factor)
    assert max(xs) <= 4.0
    assert min(xs) == 0.0
