"""Settings and marks in words: every number beside its own name, in inches and in millimeters."""

from dataclasses import replace

import pytest

from layout.answer import gap_words, sense_words
from layout.answer.answer import MILLIMETRE_PARTS, answer
from layout.answer.question import ask
from layout.answer.wording import (
    board_words,
    corner_words,
    given_line,
    number_words,
    on_run,
    pitch_words,
    sentence,
    short_answer,
    size_words,
    write_numbers,
)
from layout.quantity import read_pitch
from layout.stock import read_stock
from layout.tools.saw import SawLimits
from layout.tools.square import Numbers
from tests.views_of import one


def test_two_numbers_on_the_square():
    """A jack's cheek at 12 in 12: 12 and 8 1/2 (any handbook); 300 and 212 on a metric square."""
    assert write_numbers(Numbers(12.0, 72**0.5, "tongue")) == (
        "8 1/2 on the blade, 12 on the tongue; mark along the tongue"
    )
    assert write_numbers(Numbers(12.0, 72**0.5, "blade"), metric=True) == (
        "300 on the blade, 212 on the tongue; mark along the blade"
    )
    # 1 is a number like any other; what reads 0 is no number to lay.
    assert write_numbers(Numbers(1.0, 12.0, "tongue")).startswith("12 on the blade, 1 on the")
    assert write_numbers(Numbers(12.0, 1.0, "blade")).startswith("12 on the blade, 1 on the")
    assert write_numbers(Numbers(0.03, 12.0, "tongue")).startswith("square across")
    assert write_numbers(Numbers(12.0, 0.03, "blade")).startswith("straight along")
    assert write_numbers(Numbers(0.03, 12.0, "tongue"), metric=True).startswith("300 on")


def test_a_number_stands_beside_its_run():
    assert on_run(72**0.5) == "212 on 300"
    assert on_run(72**0.5, metric=False) == "8 1/2 on 12"
    assert (number_words(8.03), number_words(8.03, metric=True)) == ("8", "201")


def test_sizes_and_sentences():
    assert size_words(1.53) == "1 17/32 in"
    assert size_words(1.53, 16) == "1 1/2 in"
    assert size_words(1.53, metric=True) == "39 mm"
    assert sentence("the blade stands square") == "The blade stands square."


def test_a_pitch_and_a_board_in_either_unit():
    pitch, board = read_pitch("8 1/2 in 12"), read_stock("2x6")
    assert (pitch_words(pitch), pitch_words(pitch, metric=True)) == ("8 1/2 in 12", "212.5 in 300")
    assert pitch_words(read_pitch("35deg"), metric=True) == "35 deg"
    assert board_words(board) == "2x6 (1 1/2 x 5 1/2 in)"
    assert board_words(board, metric=True) == "2x6 (38 x 140 mm)"
    assert board_words(read_stock("38mm x 140mm"), metric=True) == "38 x 140 mm"


def test_a_corner_is_said_from_the_side_on_which_it_is_small():
    assert corner_words(100.0) == "corner 100°"
    assert corner_words(180.0) == "corner 180°"
    assert corner_words(250.0) == "inside corner 110°"
    assert corner_words(180.5) == "inside corner 179.5°"


def test_the_given_line_says_what_differs_from_the_usual():
    plain = one("hip-jack", "8 in 12")
    assert given_line(plain) == "8 in 12 (33.69°); corner 90°; board 2x6 (1 1/2 x 5 1/2 in)"
    more = one("hip-jack", "12 in 12", other_pitch=read_pitch("6 in 12"), roll_deg=5.0)
    assert given_line(more) == (
        "12 in 12 (45°); other roof 6 in 12; corner 90°; rolled 5°; board 2x6 (1 1/2 x 5 1/2 in)"
    )
    assert "corner" not in given_line(one("common-seat"))


def test_a_cut_in_one_line():
    """12 in 12: face and tilt 45, 8 1/2 on 12 (handbooks); a hip's backing there is 30 degrees."""
    jack, backing = one("hip-jack", "12 in 12"), one("hip-backing", "12 in 12")
    assert short_answer(jack) == "face 45°, edge 8 1/2 on 12, tilt 45°"
    metric = replace(jack, square_parts=MILLIMETRE_PARTS)
    assert short_answer(metric) == "face 45°, edge 212 on 300, tilt 45°"
    assert short_answer(one("common-tail-plumb", "9 in 12")).endswith("edge square, tilt 0°")
    assert short_answer(backing) == "rip, tilt 30°"
    assert (backing.face.lean, backing.edge.lean) == (0, 0)
    assert backing.face.from_square_deg == backing.edge.from_square_deg == 90.0
    assert backing.face.bevel_deg == 0.0


def test_a_blade_that_is_a_sixteenth_short_is_not_said_to_do():
    """What a cut takes is rounded up, what a saw has is rounded down; whole ones stay."""
    for mm in range(1, 101):
        for hair in (-1e-9, 0.0, 1e-9):
            assert sense_words._needs(mm / 25.4 + hair, True) == f"{mm} mm"
            assert sense_words._has(mm / 25.4 + hair, True) == f"{mm} mm"
    assert (sense_words._needs(1.9, True), sense_words._has(1.9, True)) == ("49 mm", "48 mm")
    for hair in (-1e-9, 0.0, 1e-9):
        assert sense_words._needs(2.0625 + hair, False) == "2 1/16 in"
        assert sense_words._has(2.0625 + hair, False) == "2 1/16 in"
    assert (sense_words._needs(2.07, False), sense_words._has(2.07, False)) == (
        "2 1/8 in",
        "2 1/16 in",
    )
    assert sense_words._needs(24.0, False) == "24 in"
    assert sense_words._needs(24.1, False) == "more than any saw has"


def test_why_a_saw_does_not_reach_and_what_remains():
    """A jack at 12 in 12 tilts 45 and takes 2.12 in of saw blade, 1.06 in from each of two faces,
    where the left mark lies 2.12 in nearer the foot; 6.35 in at 30 degrees from the edge."""
    jack = answer(ask("hip-jack", pitch=read_pitch("12 in 12")))
    short = replace(jack, limits=SawLimits(depth_in=1.5))
    assert sense_words.beyond_words(short) == (
        "out of reach: it takes 2 1/8 in of saw blade below the shoe, this saw has 1 1/2 in,"
        " both measured along the blade."
        " What remains: mark both faces and saw half from each, tilt 45°, 1 1/16 in of saw blade"
        " below the shoe, measured along the blade; the left face's mark lies 2 1/8 in"
        " nearer the foot than the right face's mark"
    )
    steep = replace(jack, limits=SawLimits(tilt_deg=40.0, depth_in=6.5))
    assert sense_words.beyond_words(steep) == (
        "out of reach: a tilt of 45° is past the 40° this saw tilts. What remains: run the shoe on"
        " the top edge, along the edge mark, tilt 30°"
    )
    none = replace(jack, limits=SawLimits(tilt_deg=40.0))
    assert sense_words.beyond_words(none).endswith(
        "What remains: saw along the face mark and the edge mark with a handsaw"
    )
    assert sense_words.beyond_words(jack) == ""
    just = replace(jack, limits=SawLimits(depth_in=2.15))
    assert sense_words.margin_words(just, 1.5 * 2**0.5) == (
        "only just: it takes 2 1/8 in of saw blade, this saw has 2 1/8 in; try the depth on scrap"
    )
    assert sense_words.margin_words(jack, 1.5 * 2**0.5) == ""


@pytest.mark.parametrize(
    ("gap_in", "words", "metric"),
    [
        (0.0, "no gap", "no gap"),
        (0.9e-9, "no gap", "no gap"),
        (0.001, "under 1/128 in", "under 0.05 mm"),
        (0.0078, "under 1/128 in", "0.2 mm"),
        (1 / 128, "1/64 in", "0.2 mm"),
        (0.0155, "1/64 in", "0.4 mm"),
        (1 / 64, "1/64 in", "0.4 mm"),
        (0.02, "1/64 in", "0.5 mm"),
        (5 / 16, "5/16 in", "7.9 mm"),
        (1.5, "1 1/2 in", "38.1 mm"),
    ],
)
def test_a_gap_in_words(gap_in, words, metric):
    assert gap_words.write_gap(gap_in) == words
    assert gap_words.write_gap(gap_in, metric=True) == metric
    decimals = gap_words.gap_and_decimals(gap_in)
    assert decimals.startswith(words)
    if gap_in > 1e-9:
        told = decimals.removeprefix(words).strip(" ()")
        assert abs(float(told) - gap_in) <= (0.00051 if gap_in >= 1 / 64 else 0.000051)
        assert len(told) == len("0.000" if gap_in >= 1 / 64 else "0.0000")
    assert gap_words.gap_and_decimals(gap_in, metric=True) == metric


def test_a_gap_held_against_a_limit():
    limit = 1 / 32
    assert gap_words.fits_or_leaves(limit, limit) == "fits"
    assert gap_words.fits_or_leaves(0.0313, limit) == "leaves just over 1/32 in open"
    assert gap_words.fits_or_leaves(0.05, limit) == "leaves 3/64 in open"
    assert gap_words.gap_over_limit(0.0311, limit) == "1/32 in"
    assert gap_words.write_limit(limit) == "1/32 in"
    assert gap_words.write_limit(limit, metric=True) == "0.8 mm"
    assert gap_words.fits_or_leaves(0.032, limit, metric=True) == "leaves just over 0.8 mm open"
    assert gap_words.fits_or_leaves(0.05, limit, metric=True) == "leaves 1.3 mm open"
