"""The tables of a lesson, each row worked out a second way."""

from fractions import Fraction
from math import sqrt

import pytest

from lessons.course.lesson import catalog
from lessons.course.runner import asked
from lessons.course.tables import table
from lessons.say.units import System

LESSON = catalog()["number-is-not-the-tilt"]


@pytest.mark.parametrize("corner", ["90", "110"])
def test_a_roof_without_pitch_is_the_end_of_ever_flatter_ones(corner):
    (flat, *_) = table("two-pitches", asked(LESSON, {"corner": corner}), System.INCH).rows
    nearly = asked(LESSON, {"corner": corner, "pitch": "0.1 deg"})
    assert flat[:2] == ("0 in 12", "0°")
    off_edge, tilt = (float(cell.rstrip("°")) for cell in flat[3:])
    assert off_edge == pytest.approx(nearly.edge.bevel_deg, abs=0.006)
    assert tilt == pytest.approx(float(nearly.cut.face_tilt_deg), abs=0.006)
    # In plan the hip splits the corner: no pitch is left in the number.
    assert off_edge == pytest.approx(float(corner) / 2 if corner == "90" else 35.0, abs=0.006)
    assert flat[2] == ("12 on 12" if corner == "90" else "8 3/8 on 12")


def test_the_gap_table_has_a_row_for_eight_in_twelve():
    rows = table("gap-by-pitch", asked(LESSON), System.INCH).rows
    (row,) = [row for row in rows if row[0] == "8 in 12"]
    # Both tilts drawn through the thickness lie 1 - 9.985 / 12 of it apart along the board, and
    # sqrt(1/2) of that square to the cut at 45 degrees.
    for thickness, cell in zip((0.75, 1.5, 3.5), row[1:], strict=True):
        drawn = thickness * (1 - 9.985 / 12) * sqrt(0.5)
        assert float(Fraction(cell.removesuffix(" in"))) == pytest.approx(drawn, abs=1 / 128)
