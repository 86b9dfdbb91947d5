"""Two numbers on the framing square: they fit its arms, and they lay the angle asked for."""

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.tools.square import (
    BLADE_IN,
    CLOSE_IN,
    SMALLEST_IN,
    TONGUE_IN,
    Numbers,
    fits,
    numbers,
    search,
)
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(200, 50), deadline=None)
angles = st.floats(0.001, 89.999)


def test_the_square_is_the_trade_s_own():
    """24 x 2 blade, 16 in tongue: NAVEDTRA 14044, chapter 2; Noyes, Handwork in Wood."""
    assert (BLADE_IN, TONGUE_IN) == (24.0, 16.0)


@pytest.mark.parametrize(
    ("mark", "other", "arm", "pair"),
    [
        (8, 12, "tongue", (8, 12)),  # a common's plumb cut, 8 in 12, marked along the rise
        (12, 8, "tongue", (12, 8)),  # its seat, marked along the run
        (12, 8.485, "tongue", (12, 8.485)),  # the jack's cheek at 12 in 12
        (8, 16.97, "tongue", (8, 16.97)),  # a hip's plumb cut
        (16.97, 8, "blade", (16.97, 8)),  # its seat: 16.97 is longer than the tongue
        (24, 12, "blade", (24, 12)),
        (12, 30, "tongue", (6, 15)),  # halved
        (30, 12, "tongue", (15, 6)),
        (24, 16.97, "tongue", (12, 8.485)),
        (48, 40, "tongue", (12, 10)),  # halved twice
    ],
)
def test_numbers_by_hand(mark, other, arm, pair):
    laid = numbers(mark, other)
    assert (laid.mark, laid.other, laid.mark_arm) == (*pair, arm)
    assert laid.other_arm != arm
    by_arm = {arm: laid.mark, laid.other_arm: laid.other}
    assert (laid.blade, laid.tongue) == (by_arm["blade"], by_arm["tongue"])


@SETTINGS
@given(angles, st.floats(0.01, 60.0))
def test_numbers_lay_the_angle_and_fit_the_arms(angle, size):
    mark, other = size * np.sin(np.radians(angle)), size * np.cos(np.radians(angle))
    laid = numbers(mark, other)
    assert laid.from_square_deg == pytest.approx(angle, abs=1e-9)
    assert 0 < laid.blade <= BLADE_IN
    assert 0 < laid.tongue <= TONGUE_IN


@SETTINGS
@given(angles)
def test_a_search_finds_the_best_pair_of_sixteenths(angle):
    """Against every pair of sixteenths on the arms, each in turn. By trial, no library."""
    mark, other = np.sin(np.radians(angle)), np.cos(np.radians(angle))
    laid = search(mark, other)
    assert laid.from_square_deg == pytest.approx(angle, abs=1e-9)
    small = min(laid.mark, laid.other)
    assert abs(small - laid.as_read().blade) < CLOSE_IN or (
        abs(small - laid.as_read().tongue) <= CLOSE_IN + 1e-12
    )
    steepness = min(mark, other) / max(mark, other)
    best = np.inf
    for ticks in range(1, int(BLADE_IN * 16) + 1):
        exact = ticks / 16 * steepness
        off = abs(exact - round(exact * 16) / 16)
        if exact <= TONGUE_IN and off <= CLOSE_IN:
            best = min(best, off / (ticks / 16))
    assert abs(small - round(small * 16) / 16) / max(laid.mark, laid.other) <= best + 1e-12


@pytest.mark.parametrize(("mark", "other"), [(100.0, 33.3), (33.3, 100.0), (150.0, 41.3)])
def test_numbers_too_long_to_halve_twice_are_searched_for(mark, other):
    """An eighth of them would fit the arms, but as read (12 1/2 and 4 3/16 for 4.1625) it lays
    0.1 degrees off; among all pairs of sixteenths there is one far nearer."""
    exact = math.degrees(math.atan2(mark, other))
    read = numbers(mark, other).as_read()
    assert read.from_square_deg == pytest.approx(exact, abs=0.02)
    eighth = Numbers(mark / 8, other / 8, "tongue").as_read()
    assert abs(eighth.from_square_deg - exact) > 0.05


@SETTINGS
@given(st.floats(0.01, 30.0), st.floats(0.01, 30.0))
def test_an_arm_is_named_only_where_both_numbers_fit(mark, other):
    arm = fits(mark, other)
    holds = {
        "tongue": mark <= TONGUE_IN and other <= BLADE_IN,
        "blade": mark <= BLADE_IN and other <= TONGUE_IN,
    }
    if min(mark, other) < SMALLEST_IN or not any(holds.values()):
        assert arm is None
    else:
        assert holds[arm]


@pytest.mark.parametrize(
    ("mark", "other", "arms"),
    [
        (1.0, 12.0, ("tongue", "blade")),
        (1.0 - 1e-12, 12.0, ("tongue", "blade")),
        (0.999, 12.0, (None, None)),
        (12.0, 0.999, (None, None)),
        (16.0 + 4e-15, 24.0 + 4e-15, ("tongue", "tongue")),
        (16.01, 24.0, (None, None)),
        (24.0, 16.0, ("blade", "blade")),
        (24.0, 16.01, (None, None)),
        (24.01, 16.0, (None, None)),
        (16.01, 16.0, ("blade", "blade")),
        (16.0, 16.01, ("tongue", "tongue")),
        (16.0, 16.0, ("tongue", "blade")),
    ],
)
def test_the_arms_that_hold_both_numbers(mark, other, arms):
    """At the arms' very ends, 16 and 24, and at the smallest number, 1; where either way does, the
    arm that is asked for."""
    assert (fits(mark, other, "tongue"), fits(mark, other, "blade")) == arms


def test_numbers_are_read_to_the_sixteenth():
    laid = Numbers(8.4853, 12.0, "tongue").as_read()
    assert (laid.mark, laid.other, laid.mark_arm) == (8.5, 12.0, "tongue")
    coarse = Numbers(8.4, 12.0, "blade").as_read(2)
    assert (coarse.mark, coarse.other) == (8.5, 12.0)


def test_a_nearly_square_and_a_nearly_straight_line_can_still_be_laid():
    for mark, other in product((1e-6, 12.0), repeat=2):
        laid = numbers(mark, other)
        assert max(laid.blade, laid.tongue) >= SMALLEST_IN
        assert laid.blade <= BLADE_IN
        assert laid.tongue <= TONGUE_IN
