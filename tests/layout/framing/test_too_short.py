"""What is said of a rafter left out is true of it, and tells its place by an end one can find."""

import re

import pytest

from layout.framing.jackplan import JackPlan
from layout.framing.jackset import jack_set
from layout.framing.too_short import too_short
from layout.job.job import Job
from layout.job.job_roof import framed

ELL = {
    "size": "32' x 20'", "wing": "12' x 14'", "pitch": "7 in 12", "wing-end": "gable",
    "overhang": "12in", "rake-overhang": "12in", "fascia": "1 1/2", "rafter": "2x8",
    "hip": "2x10", "valley": "2x10", "ridge": "2x10", "spacing": "16in",
}  # fmt: skip


def said(**more):
    """The one place that is told of."""
    (line,) = framed(Job("ell", {**ELL, **more})).left_out
    return line


def test_a_block_by_the_valley_is_told_by_its_length():
    """The wing's 14 ft run north: the inner side ends at 224 in, 3 1/2 in short of where valley and
    ridge meet. Half the ridge and half the valley, square to the eave, leave it a shorter side of
    1.44 in level, 1.67 in up 7 in 12; one thickness of 1 1/2 in, aslant 45 degrees, makes the
    other side longer by 1 1/2 in level, 1.74 in."""
    line = said()
    assert line.startswith("inner, 224 in from the left end of this side as seen from outside")
    assert "1 11/16 to 3 3/8 in along its top edge" in line
    assert "at least its thickness, 1 1/2 in" in line
    slope = (1 + (7 / 12) ** 2) ** 0.5
    assert pytest.approx(1.5 * slope, abs=1e-3) == 3.4029 - 1.6663
    assert 1.6663 / slope < 1.5
    assert "foot" not in line, "both its ends are plumb: neither stands over the other"


def test_a_jack_on_the_plate_must_run_over_its_seat():
    line = said(**{"wing-pitch": "10 in 12"})
    # The back wall faces away: who stands behind the house has its east corner, 32 ft, at the left.
    assert line.startswith("back, 380 in from the left end of this side as seen from outside")
    assert "3 7/8 to 6 5/16 in along its top edge" in line
    assert "at least the length of its seat, 3 1/2 in" in line
    slope = (1 + (7 / 12) ** 2) ** 0.5
    assert 3.861 / slope < 3.5, "its shorter side runs 3.34 in level"


def test_a_set_of_jacks_says_the_same():
    made = jack_set(JackPlan(count=5, first_in=2.0))
    short = [line for line in made.left_out if "too short" in line]
    assert short
    for line in short:
        assert re.match(r"(own|other) side, 2 in from the corner: too short to frame, ", line)
        assert "over its own foot" not in line


def test_what_is_long_enough_has_no_reason():
    roof = framed(Job("ell", ELL))
    assert not any(too_short(stick, 3.5) for stick in roof.rafters)


def test_a_side_counted_from_its_right_end_says_so():
    """At 13 in on center the jacks come down from the hip's top, 120 in from the corner, to 3 in
    from it. The wing stands at the front's left end, so the front's only such corner is the right
    one, as one sees it who stands before the house."""
    told = framed(Job("ell", {**ELL, "spacing": "13in"})).left_out
    (front,) = [line for line in told if line.startswith("front")]
    assert 120 - 9 * 13 == 3
    assert front.startswith("front, 3 in from the right end of this side as seen from outside")
