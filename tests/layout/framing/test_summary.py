"""A roof's facts and a stick's lengths in sentences, their numbers by hand at 8 in 12."""

import math

from layout.framing.outlines import rectangle
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.framing.summary import facts, left_to_drawings, length_words, rakes_left_open
from layout.quantity import read_pitch, write_feet
from tests.drawn_roofs import framed_shape

STRETCH = math.hypot(12, 8) / 12
ABOVE = 5.5 * STRETCH - 3.5 * 8 / 12
"""What is left over a seat of 3 1/2: 4.277."""


def test_the_facts_of_a_roof_with_a_lower_wing() -> None:
    """A ridge 1 1/2 in thick lies half its thickness' fall lower than its line: 1/2 in."""
    roof = framed_shape("a lower wing")
    low, high = (write_feet(ABOVE + run * 8 / 12 - 0.5) for run in (50, 90))
    names = ("front", "wing left", "wing right", "back")
    sides = "; ".join(f"{name} 8 in 12, overhang 12 in" for name in names)
    assert facts(roof) == [
        "Seat of the commons 3 1/2 in level; height above plate 4 1/4 in plumb at the outside of"
        " the wall; heel 2 5/16 in plumb.",
        f"Top of ridge R1: {low} above the top of the plates.",
        f"Top of ridge R2: {high} above the top of the plates.",
        f"Sides: {sides}. Overhangs are level, to the outside of the fascia, which is 3/4 in"
        " thick.",
    ]


def test_unlike_pitches_have_each_their_own_seat_and_heel() -> None:
    """By hand, 2x6 and a seat of 3 1/2 in at 7 in 12: 5.5 sqrt(193)/12 - 3.5 * 7/12 = 4.326 in
    stay above the plate, and the heel is 2.042. At 9 in 12 the rafter is 6.875 in plumb: a heel
    of 2.549, a seat of 3.399."""
    walls = rectangle(336, 216, read_pitch("7"), read_pitch("9"), ("hip", "gable"))
    roof = frame(RoofPlan.over(walls, spacing_in=48))
    assert facts(roof)[0] == (
        "Commons: on front, back seat 3 1/2 in level, heel 2 1/16 in plumb; on left seat 3 3/8 in"
        " level, heel 2 9/16 in plumb; height above plate 4 5/16 in plumb at the outside of the"
        " wall."
    )


def test_the_lengths_of_a_common_and_of_a_ridge() -> None:
    """90 in of run less half a ridge; a tail of 12 less the fascia; the board takes the plumb
    cut's slant more, 5.5 x 8/12. The wing's ridge ends aslant: three lengths, and no tail."""
    roof = framed_shape("a lower wing")
    length, tail = 89.25 * STRETCH, 11.25 * STRETCH
    assert length_words(roof.by_name["C1"]) == (
        "Along the top edge, from the plumb line over the outside of the wall: length"
        f" {write_feet(length)}; tail {write_feet(tail)} more. Takes"
        f" {write_feet(length + tail + 5.5 * 8 / 12)} of board"
    )
    ridge = length_words(roof.by_name["R1"])
    assert ridge.startswith(
        "Along the top edge, from cut to cut on one line: long point 9'-1 1/4\""
    )
    assert ridge.index("long point") < ridge.index(", middle ") < ridge.index(", short point ")
    assert "tail" not in ridge


def test_what_gables_and_a_missing_fascia_leave_to_say() -> None:
    plain, out = (
        frame(RoofPlan(120, 120, ends=("gable", "gable"), spacing_in=60, rake_overhang_in=over,
                       fascia_in=thick))
        for over, thick in ((0.0, 0.0), (8.0, 0.75))
    )  # fmt: skip
    assert facts(plain)[-1].endswith("Overhangs are level, to the outside of the fascia.")
    assert facts(out)[-1] == "Gables overhang 8 in, level, to the outside of the rake board."
    assert rakes_left_open(plain) == ()
    assert len(rakes_left_open(out)) == 1
    assert left_to_drawings(out)[-1].startswith("- How the gables' overhang is carried")
    assert len(left_to_drawings(out)) == len(left_to_drawings(plain)) + 1
    hipped = frame(RoofPlan(120, 120, spacing_in=60, rake_overhang_in=8.0))
    assert rakes_left_open(hipped) == ()
    assert not [said for said in facts(hipped) if said.startswith("Gables")]
