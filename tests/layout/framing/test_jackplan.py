"""What no board can be cut to, or no wall can carry, is refused before a stick is framed."""

import math
import time
from dataclasses import replace

import pytest

from layout.errors import LayoutError, LengthError, RoofError
from layout.framing.jackplan import JackPlan
from layout.framing.jackset import jack_set
from layout.quantity import Pitch, read_pitch
from layout.stock import read_stock
from tests.counts import count


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"count": 100_000_000}, r"A13 would be about .* the longest stock is 20'-0\""),
        ({"eave_in": 6000.0}, "A13 would be about"),
        ({"line": "valley", "eave_in": 6000.0}, "A1 would be about"),
        ({"spacing_in": 0.04, "eave_in": 144.0}, "would stand in one another"),
    ],
)
def test_an_impossible_set_is_refused_at_once(asked, said):
    started = time.process_time()
    with pytest.raises(LengthError, match=said):
        jack_set(JackPlan(**asked, longest_in=240.0))
    assert time.process_time() - started < 0.5


@pytest.mark.parametrize("rise", range(3, 19, 15 // count(5, 2)))
@pytest.mark.parametrize("line", ["hip", "valley"])
def test_nothing_that_can_be_cut_is_refused_before_it_is_framed(rise, line):
    """The early refusal against the framed solids: the longest set it passes needs longer stock."""
    pitch = read_pitch(f"{rise} in 12")
    passed = None
    for jacks in range(2, 20):
        plan = JackPlan(line, pitch, count=jacks, longest_in=240.0)
        try:
            plan.check()
        except LengthError:
            break
        passed = jacks
    else:
        raise AssertionError("the early refusal never comes")
    assert passed is not None
    deep = read_stock("2x12")
    framed = jack_set(JackPlan(line, pitch, count=passed + 1, carrier=deep, ridge=deep))
    longest = max(row.lengths.blank_in for row in framed.rows if row.side == "own")
    assert longest > 240.0


@pytest.mark.parametrize("line", ["hip", "valley"])
def test_a_set_cut_from_boards_of_just_its_length_is_not_refused(line):
    """Flat and without a tail, where a jack's board is hardly longer than its line."""
    deep = read_stock("2x12")
    plan = JackPlan(line, read_pitch("3 in 12"), count=3, overhang_in=0.0, carrier=deep, ridge=deep)
    longest = max(row.lengths.blank_in for row in jack_set(plan).rows)
    replace(plan, longest_in=longest).check()


def test_the_last_jack_before_the_hips_top_is_refused_too():
    """Reach 76 in: A3 stands at 72, 4 in before the common, and is 72 sqrt 208 / 12 = 86.5 long."""
    with pytest.raises(LengthError, match=r"A3 would be about 7'-2 .*longest stock is 5'-10\""):
        JackPlan(eave_in=76.0, spacing_in=24.0, longest_in=70.0).check()


def test_a_valleys_corner_is_taken_outside_or_inside_the_building():
    """90 and 270 are one corner; what is said above 180 stays as it is said."""
    inside = [JackPlan("valley", corner_deg=deg).inside_deg for deg in (90.0, 270.0, 180.5)]
    assert inside == [270.0, 270.0, 180.5]


NARROW = {"eave_in": 16.0, "spacing_in": 8.0, "seat_in": 8.0}


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"spacing_in": -1.0}, "a spacing of -1 in parts no jacks; give one such as 16"),
        ({"spacing_in": 1.0}, "jacks 1 1/2 in thick at 1 in on center would stand in one another"),
        ({"first_in": 0.0}, "the first jack cannot stand 0 in from the corner"),
        ({"eave_in": 12.0}, "a spacing of 1'-4\" is longer than the eave of 1'-0\""),
        ({"first_in": 90.0},
         "the first jack, 7'-6\" from the corner, stands past the end of the eave of 5'-0\""),
        ({"corner_deg": 190.0},
         "190 deg inside carries no hip; give one below 180, such as 90, or --on-valley"),
        ({"line": "valley", "corner_deg": 180.0}, "valley; give one above 180, such as 270"),
        (NARROW | {"ridge": read_stock("16in x 18in")}, "16 in thick takes 8 in off a run of 1'-4"),
        (NARROW | {"ridge": read_stock("16in x 18in")}, "whose seat takes 8 in"),
    ],
)  # fmt: skip
def test_what_is_refused_is_told_with_its_own_numbers(asked, said):
    """Over 16 in of eave at equal pitches the run is 16 in too: 16 / 2 + 8 is all of it."""
    with pytest.raises(LayoutError) as caught:
        JackPlan(**{"eave_in": 60.0} | asked).check()
    assert said in str(caught.value)


@pytest.mark.parametrize(
    "asked",
    [
        {"first_in": 0.5},
        {"spacing_in": 1.5},
        {"spacing_in": 60.0},
        {"first_in": 60.0},
        NARROW | {"ridge": read_stock("15.9in x 18in")},
        {"corner_deg": 179.0},
        {"line": "valley", "corner_deg": 181.0},
    ],
)
def test_what_can_just_stand_is_not_refused(asked):
    JackPlan(**{"eave_in": 60.0} | asked).check()


@pytest.mark.parametrize(("off", "fits"), [(-7e-4, False), (7e-4, False), (5e-3, True)])
@pytest.mark.parametrize("swapped", [False, True])
def test_a_hip_square_to_an_eave_or_nearly_so_has_no_jacks_there(off, fits, swapped):
    """Walls at 120 degrees. A hip that leaves square to one eave, less `off` radians, leaves the
    other at 30 degrees more; both roofs are as high there where the one rises sin(30 + off) /
    cos(off) times the other."""
    rise = 12 * math.sin(math.radians(30) + off) / math.cos(off)
    pitches = Pitch(rise, 12.0, "flat"), Pitch(12.0, 12.0, "steep")
    own, other = pitches[::-1] if swapped else pitches
    plan = JackPlan("hip", own, other, 120.0, eave_in=400.0)
    if fits:
        plan.check()
    else:
        with pytest.raises(RoofError, match="runs square to an eave or past it"):
            plan.check()


def test_what_a_plan_says_is_where_its_jacks_stand():
    """From the corner to the top: the eave as it is said, or so many spaces past the first."""
    assert JackPlan(eave_in=100.0).reach_in == 100.0
    assert JackPlan(count=3).reach_in == 16 * 4
    assert JackPlan(count=3, first_in=9.0, spacing_in=24.0).reach_in == 9 + 3 * 24
    for none in (0, -2):
        with pytest.raises(LengthError, match=f"{none} jacks are none; give one or more"):
            _ = JackPlan(count=none).reach_in
    assert JackPlan(count=1).reach_in == 32
    one, two = JackPlan(), JackPlan(other_pitch=read_pitch("4 in 12"))
    slope = math.degrees(math.atan(8 / 12))
    assert (one.corner.slope_deg, one.corner.other_slope_deg) == pytest.approx((slope, slope))
    assert two.corner.slope_deg == pytest.approx(slope)
    assert two.corner.other_slope_deg == pytest.approx(math.degrees(math.atan(4 / 12)))
    assert JackPlan(corner_deg=100.0).corner.interior_deg == 100.0


@pytest.mark.parametrize("line", ["hip", "valley"])
def test_what_carrier_and_ridge_and_the_slanting_ends_take_off_is_allowed_for_in_full(line):
    """At 12 in 12 the third jack's line is 48 sqrt 2 long. A carrier 3 1/2 in thick and a ridge of
    3/4 take at most sqrt 2 times as much off, plumb ends of a 2x6 reach 5 1/2 in past it."""
    plan = JackPlan(line, read_pitch("12"), count=3, carrier=read_stock("4x12"),
                    ridge=read_stock("1x12"))  # fmt: skip
    least = 48 * math.sqrt(2) - (3.5 + 0.75) * math.sqrt(2) - 5.5
    replace(plan, longest_in=least + 0.01).check()
    name = "A3" if line == "hip" else "A1"
    with pytest.raises(LengthError, match=f"^{name} would be about 5'-7 7/8\" long"):
        replace(plan, longest_in=least - 0.01).check()


def test_the_first_jack_is_named_where_none_can_be_cut():
    with pytest.raises(LengthError, match=r'^A1 would be about 1.-7 1/4" long, .* is 0.-5"; '):
        JackPlan(count=3, longest_in=5.0).check()
    # a place 2 in before the common at the hip's top carries no jack, and asks for no board
    JackPlan(eave_in=74.0, spacing_in=24.0, longest_in=70.0).check()
