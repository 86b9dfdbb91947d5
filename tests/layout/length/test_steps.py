"""Steps of the square, a table's number and the odd inches, by hand for 8 in 12."""

import math

import numpy as np
import pytest

from layout.length.run_length import Stepping, TableLength, measure, step_off, total_rise_in
from layout.plane.corner import Corner

SLOPE = math.degrees(math.atan2(8, 12))
ROOF = Corner(SLOPE, SLOPE)


def test_steps_of_a_hip_by_hand() -> None:
    """8 in 12 over 8 ft 5 in: eight steps, and 5/12 of a ninth; a hip steps 17 for 16.97.

    On the square as laid: 17 and 8 by eight, then 7 1/16 of the 17 (5/12 of 16.97 is 7.07).
    """
    found = measure(ROOF, 101, "hip or valley")
    assert (found.stick, found.run_in, found.steps) == ("hip or valley", 101, 8)
    assert (found.level_in, found.rise_in) == pytest.approx((math.sqrt(288), 8))
    assert found.odd_level_in == pytest.approx(math.sqrt(288) * 5 / 12)
    stepping = step_off(math.sqrt(288), 8, 101)
    assert stepping.step_in == pytest.approx(math.sqrt(352))
    assert stepping.odd_in == pytest.approx(math.sqrt(352) * 5 / 12)
    assert found.stepped_in == pytest.approx(math.sqrt(352) * 101 / 12)
    laid = stepping.as_laid()
    assert (laid.level_in, laid.rise_in, laid.steps) == (16 + 15.5 / 16 + 0.5 / 16, 8, 8)
    assert laid.odd_level_in == 7 + 1 / 16
    assert stepping.as_laid(1) == Stepping(17, 8, 8, 7)
    assert found.laid_in == pytest.approx(
        math.hypot(17, 8) * (8 + 7.0625 / 17) - found.stepped_in, abs=1e-12
    )
    common = measure(ROOF, 101)
    assert (common.stick, common.level_in, common.odd_level_in) == ("common", 12, 5)
    assert common.table_in == pytest.approx(math.hypot(12, 8) * 101 / 12)


def test_a_run_of_less_than_a_step_is_all_odd_inches() -> None:
    short = step_off(12, 8, 0.5)
    assert (short.steps, short.odd_level_in) == (0, 0.5)
    assert short.length_in == pytest.approx(math.hypot(12, 8) / 24)
    whole = step_off(12, 8, 24)
    assert (whole.steps, whole.odd_level_in) == (2, 0)


def test_a_table_s_number_is_for_a_foot_of_run() -> None:
    """14.4222 an inch table prints as 14.42; over 20 ft that is 0.0444 short."""
    number = TableLength(14.4222, 240.0)
    assert number.printed == 14.42
    assert number.length_in == pytest.approx(288.444)
    assert number.printed_length_in == pytest.approx(288.4)
    assert number.rounding_in == pytest.approx(-0.044)
    assert TableLength(14.4222, 240.0, 1).printed == 14.4


def test_a_roof_rises_by_its_slope() -> None:
    rises = total_rise_in(ROOF, np.array([12.0, 96.0]))
    np.testing.assert_allclose(rises, [8, 64])
