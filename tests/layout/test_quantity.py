"""Lengths, pitches and angles: what is read, what is refused, what is written."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import LayoutError, QuantityError
from layout.quantity import (
    FLATTEST_DEG,
    STEEPEST_DEG,
    Pitch,
    nearest,
    read_angle,
    read_length,
    read_number,
    read_pitch,
    write_at_least,
    write_degrees,
    write_feet,
    write_fraction,
    write_inches,
    write_length,
    write_long,
    write_metric,
    write_short,
    write_sixteenths,
)
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(2000, 60), deadline=None)
READERS = (read_number, read_length, read_angle, read_pitch)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("5 1/2", 5.5),
        ("5-1/2", 5.5),
        ("5 - 1/2", 5.5),
        ("5½", 5.5),
        ("5 ½", 5.5),
        ("½", 0.5),
        ("⁵⁄₁₆", 5 / 16),
        ("5⁵⁄₁₆", 5 + 5 / 16),
        ("5⁵/₁₆", 5 + 5 / 16),
        ("1⅟2", 1.5),
        ("5.5in", 5.5),
        ("5.5", 5.5),
        (".5", 0.5),
        ("5.", 5.0),
        ('5 1/2"', 5.5),
        ("5 1/2 inches", 5.5),
        ("5½″", 5.5),
        ("11/2", 5.5),
        ("38mm", 38 / 25.4),
        ("38 MM", 38 / 25.4),
        ("3cm", 3 / 2.54),
        ("1.2 m", 1200 / 25.4),
        ("1' 4 1/2\"", 16.5),
        ("1'-4 1/2\"", 16.5),
        ("1'-4-1/2\"", 16.5),
        ("1' - 4 1/2\"", 16.5),
        ("1′ 4½″", 16.5),
        ("1’ 4½”", 16.5),
        ("1'4", 16.0),
        ("2 ft 3 in", 27.0),
        ("2ft", 24.0),
        ("1 1/2'", 18.0),
        ("0", 0.0),
        ("  5\t1/2  ", 5.5),
        ("５．５", 5.5),
    ],
)
def test_lengths_are_read_as_they_are_written(text, inches):
    assert read_length(text) == pytest.approx(inches, rel=1e-15)


@pytest.mark.parametrize(
    "text",
    [
        "inf",
        "nan",
        "-3",
        "−3",
        "abc",
        "9x9x9",
        "1e3",
        "5,5",
        "1_0",
        "5²",
        "8³",
        "x₂",
        "'",
        "''",
        "1'-",
        "5/",
        "/5",
        "1/2/3",
        "0x5",
        "½½",
        "five",
        "",
        " ",
        "5 1/2 3",
        "3 4",
        "1' 2'",
        "5' 6' 7",
        "12 in 5",
        "5 mm 2",
        "1\n/",
    ],
)
def test_what_is_no_length_is_refused(text):
    with pytest.raises(QuantityError) as error:
        read_length(text)
    _one_line(error, text)
    assert "5 1/2" in str(error.value)


@pytest.mark.parametrize(
    ("text", "rise", "run", "said"),
    [
        ("8/12", 8, 12, "8 in 12"),
        ("8 in 12", 8, 12, "8 in 12"),
        ("8in12", 8, 12, "8 in 12"),
        ("8 on 12", 8, 12, "8 in 12"),
        ("8:12", 8, 12, "8 in 12"),
        ('8" in 12"', 8, 12, "8 in 12"),
        ("8 1/2″ on 12″", 8.5, 12, "8 1/2 in 12"),
        ("8'' : 12", 8, 12, "8 in 12"),
        ("8 : 12", 8, 12, "8 in 12"),
        ("8", 8, 12, "8 in 12"),
        ("8 1/2", 8.5, 12, "8 1/2 in 12"),
        ("8-1/2", 8.5, 12, "8 1/2 in 12"),
        ("8½ in 12", 8.5, 12, "8 1/2 in 12"),
        ("8.5/12", 8.5, 12, "8 1/2 in 12"),
        ("667/1000", 667, 1000, "667 in 1000"),
        ("1/3", 1, 3, "1 in 3"),
        ("1/3 pitch", 8, 12, "8 in 12"),
        ("¼ pitch", 6, 12, "6 in 12"),
        ("5/8 pitch", 15, 12, "15 in 12"),
        ("33.7deg", math.tan(math.radians(33.7)), 1, "33.7 deg"),
        ("33.7 degrees", math.tan(math.radians(33.7)), 1, "33.7 deg"),
        ("33.7°", math.tan(math.radians(33.7)), 1, "33.7 deg"),
        ("45 1/2 deg", math.tan(math.radians(45.5)), 1, "45.5 deg"),
        ("0.1", 0.1, 12, "0.1 in 12"),
    ],
)
def test_pitches_are_read_as_they_are_written(text, rise, run, said):
    pitch = read_pitch(text)
    assert pitch.rise == pytest.approx(rise, rel=1e-15)
    assert pitch.run == run
    assert str(pitch) == said
    assert pitch.slope_deg == pytest.approx(math.degrees(math.atan(rise / run)), rel=1e-15)
    assert pitch.rise_in_12 == pytest.approx(12 * rise / run)


@pytest.mark.parametrize(
    ("text", "value", "cure"),
    [
        ("inf", "'inf'", "8 in 12"),
        ("nan", "'nan'", "8 in 12"),
        ("abc", "'abc'", "8 in 12"),
        ("9x9x9", "'9x9x9'", "8 in 12"),
        ("", "''", "8 in 12"),
        ("--3", "'--3'", "8 in 12"),
        ("8²", "'8²'", "8 in 12"),
        ("-3", "-3 in 12", "8 in 12"),
        ("−3", "-3 in 12", "8 in 12"),
        ("0", "0 in 12", "8 in 12"),
        ("0deg", "0 deg", "8 in 12"),
        ("-10deg", "-10 deg", "8 in 12"),
        ("8 in 0", "8 in 0", "8 in 12"),
        ("8/0", "8 in 0", "8 in 12"),
        ("0.0000001", "1e-07 in 12", "1/4 in 12"),
        ("0.05deg", "0.05 deg", "1/4 in 12"),
        ("90deg", "90 deg", "85°"),
        ("85deg", "85 deg", "85°"),
        ("200 in 12", "200 in 12", "85°"),
        ("1/0 pitch", "'1/0'", "1/2"),
    ],
)
def test_what_is_no_pitch_is_refused(text, value, cure):
    with pytest.raises(QuantityError) as error:
        read_pitch(text)
    _one_line(error)
    assert value in str(error.value)
    assert cure in str(error.value)


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("digits", [7, 400, 5000])
def test_numbers_beyond_any_measure_are_refused(reader, digits):
    nines = "9" * digits
    for text in (nines, f"{nines}/1", f"1 {nines}/1", f"{nines}.5"):
        with pytest.raises(QuantityError) as error:
            reader(text)
        _one_line(error)
        assert len(str(error.value)) < 200
    with pytest.raises(QuantityError, match="beyond"):
        read_pitch(f"{nines}/12")


def test_a_number_too_long_to_be_read_is_told_by_its_beginning():
    for digits, shown in ((24, "9" * 24), (25, "9" * 20 + "...")):
        with pytest.raises(QuantityError) as error:
            read_number("9" * digits)
        assert str(error.value).startswith(f"'{shown}' is beyond any measure")


@pytest.mark.parametrize("text", ["-3", "nan", "inf", "", "abc", "45 46", "1/0"])
def test_what_is_no_angle_or_number_is_refused(text):
    for reader in (read_angle, read_number):
        with pytest.raises(QuantityError) as error:
            reader(text)
        _one_line(error, text)


@SETTINGS
@given(st.text(max_size=12))
def test_any_text_is_read_or_refused_in_one_line(text):
    """Nothing but a finite number or the one family of errors comes out."""
    for reader in READERS:
        value = _outcome(reader, text)
        if isinstance(value, LayoutError):
            assert len(str(value).splitlines()) == 1
        else:
            number = value.slope_deg if isinstance(value, Pitch) else value
            assert math.isfinite(number)
            assert number >= 0


@SETTINGS
@given(st.text(alphabet="0123456789/ -.½⅛⁵⁄₁₆'\"inftmcdegpitch:on", max_size=10))
def test_text_near_a_quantity_is_read_or_refused_in_one_line(text):
    test_any_text_is_read_or_refused_in_one_line.hypothesis.inner_test(text)


@SETTINGS
@given(st.integers(0, 600 * 64))
def test_a_length_written_in_fractions_reads_back(ticks):
    inches = ticks / 64
    assert read_length(write_fraction(inches, 64)) == inches
    assert read_length(write_feet(inches, 64)) == inches
    assert read_number(write_fraction(inches, 64)) == inches
    assert read_length(f"{write_fraction(inches, 64)} in") == inches


@SETTINGS
@given(st.integers(2, 24 * 64))
def test_a_pitch_said_reads_back(ticks):
    pitch = read_pitch(write_fraction(ticks / 64, 64))
    assert read_pitch(str(pitch)) == pitch


@SETTINGS
@given(st.floats(FLATTEST_DEG, STEEPEST_DEG - 0.01))
def test_a_slope_in_degrees_reads_back(degrees):
    pitch = read_pitch(f"{degrees:.6f}deg")
    assert pitch.slope_deg == pytest.approx(degrees, abs=1e-6)
    assert read_pitch(str(pitch)) == pitch


@SETTINGS
@given(st.floats(0.0, 500.0))
def test_sixteenths_err_by_a_thirty_second_at_most_and_say_which_way(inches):
    written = write_sixteenths(inches)
    number, _, word = written.partition(" s")
    off = inches - read_length(number)
    assert abs(off) <= 1 / 32 + 1e-12
    assert word == ("" if abs(off) <= 1 / 64 else ("trong" if off > 0 else "hy"))
    in_words = f"{number} in s{word}" if word else f"{number} in"
    if 1 / 64 < inches < 1 / 32:
        in_words = "under 1/32 in"
    assert write_length(inches) == f"{in_words} ({inches:.3f})"


@pytest.mark.parametrize(
    ("inches", "said"),
    [
        (8.4853, "8 1/2"),
        (8.47, "8 1/2 shy"),
        (8.53, "8 1/2 strong"),
        (8.5 + 1 / 64, "8 1/2"),
        (8.5 - 1 / 64, "8 1/2"),
        (8.5 + 1 / 64 + 1e-9, "8 1/2 strong"),
        (8.5 - 1 / 64 - 1e-9, "8 1/2 shy"),
        (11.98, "12 shy"),
        (0.0, "0"),
        (0.02, "0 strong"),
        (1 / 16, "1/16"),
        (-5.25, "-5 1/4"),
    ],
)
def test_shy_and_strong(inches, said):
    assert write_sixteenths(inches) == said


@pytest.mark.parametrize(
    ("inches", "said"),
    [
        (0.0, "0'-0\""),
        (11.99, "1'-0\""),
        (16.5, "1'-4 1/2\""),
        (12.0625, "1'-0 1/16\""),
        (-5.25, "-0'-5 1/4\""),
        (-16.5, "-1'-4 1/2\""),
        (-0.001, "0'-0\""),
    ],
)
def test_feet_and_inches(inches, said):
    assert write_feet(inches) == said


@pytest.mark.parametrize(
    ("degrees", "said"),
    [(45.0, "45°"), (33.690067, "33.69°"), (35.2, "35.2°"), (-0.001, "0°"), (-5.25, "-5.25°")],
)
def test_degrees(degrees, said):
    assert write_degrees(degrees) == said


def test_metric_is_written_to_the_half_millimetre():
    assert write_metric(1.5) == "38 mm"
    assert write_metric(5.5) == "139.5 mm"


@pytest.mark.parametrize(
    ("length", "inches", "metric"),
    [
        (3.5, "3 1/2 in", "89 mm"),
        (3.5001, "3 9/16 in", "89 mm"),
        (3.51, "3 9/16 in", "90 mm"),
        (3.5 + 1e-9, "3 1/2 in", "89 mm"),
        (0.0, "0 in", "0 mm"),
    ],
)
def test_what_must_not_be_cut_short_is_rounded_up(length, inches, metric):
    """88.9 mm to the next millimeter is 89, 89.15 mm is 90; rounding's billionth adds nothing."""
    assert write_at_least(length) == inches
    assert write_at_least(length, metric=True) == metric


def test_long_and_short_lengths_in_either_unit():
    assert (write_short(3.53), write_short(3.53, metric=True)) == ("3 1/2 in", "89.5 mm")
    assert (write_long(51.5), write_long(51.5, metric=True)) == ("4'-3 1/2\"", "1308 mm")
    assert write_inches(3.667) == "3 11/16 in shy"


@pytest.mark.parametrize(
    ("length", "said"),
    [
        (0.0, "0 in"),
        (1 / 64, "0 in"),
        (0.025, "under 1/32 in"),
        (0.0312, "under 1/32 in"),
        (1 / 32, "1/16 in shy"),
    ],
)
def test_a_length_is_not_said_to_be_a_strong_nothing(length, said):
    """Nothing is not strong: under half a sixteenth (1/32, 0.03125) a length rounds to 0 in."""
    assert write_inches(length) == said


@SETTINGS
@given(st.floats(-100, 100), st.sampled_from([2, 16, 32, 64]))
def test_nearest_errs_by_half_a_part_at_most(value, parts):
    assert abs(nearest(value, parts) - value) <= 0.5 / parts + 1e-12
    assert nearest(value, parts) * parts == round(nearest(value, parts) * parts)


def _outcome(reader, text):
    try:
        return reader(text)
    except LayoutError as error:
        return error


def _one_line(error, text=None):
    message = str(error.value)
    assert len(message.splitlines()) == 1
    if text is not None:
        assert repr(text) in message
