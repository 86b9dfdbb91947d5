"""What no board can be cut to, or no wall can carry, is refused before a stick is framed."""

import time
from dataclasses import replace

import pytest

from layout.errors import LengthError
from layout.framing.jackplan import JackPlan
from layout.framing.jackset import jack_set
from layout.quantity import read_pitch
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
