"""A setting said by a number, a side or an end of its own is refused; by a value it passes.

The sentences are made up here; right for one roof, and wrong for the next (common practice, no
source).
"""

import pytest

from lessons.course.bound import unbound
from lessons.course.lesson import catalog

BAD = [
    "Set the tilt to 45 degrees.",
    "Tilt the saw to forty-five.",
    "Set the saw's bevel at 22 1/2°.",
    "Tilt it twenty-two and a half.",
    "The tilt is half of ninety.",
    "The face mark runs 33.69 from square across.",
    "Mark along the tongue at 8 1/2.",
    "Lay 12 on the blade and 8 on the tongue.",
    "The side-cut number is seventeen.",
    "Turn the table to 31.6 degrees.",
    "The blade leans left.",
    "The mark slants toward the head.",
    "The mark's top leans to the foot.",
    "Lean the saw toward the waste.",
    "Below the shoe the blade runs in under the waste.",
    "The wide side of the shoe rides on the kept wood.",
    "Ride the shoe on the left face.",
    "Start at the top edge.",
    "The cut starts from the bottom edge.",
    "Mark the right-hand jack's cheek on its left side.",
    "Saw with the motor to the left.",
    "Keep the waste at your right.",
]
GOOD = [
    "Set the tilt to {tilt:deg}.",
    "Tilt the saw to {tilt:deg}, unplugged.",
    "The tilt is one thing, the side-cut number another.",
    "Lay {face_blade:square} on the blade and {face_tongue:square} on the tongue.",
    "Mark along the {face_arm}; {face_lean_words}.",
    "The side-cut number is {edge_number:square} on {number(12):square}.",
    "Turn the table to {face_angle:deg}.",
    "Ride the {steadier_face}: {blade_on_steadier_face}.",
    "There, {wide_on_steadier_face}. So {start}.",
    "The waste lies toward the {waste_end}.",
    "Two marks fix the plane. So do one mark and a tilt.",
    "Draw the face mark again on the other face.",
    "Measure the length along the top edge, from mark to mark.",
    "Square both marks across the bottom edge.",
    "Cut 2 boards, each 6 ft long.",
    "Stand at the foot and look toward the {waste_end}.",
    "Lift a long hip with 2 people. Then lay the marks.",
    "A jack stands at each end of the hip.",
]


@pytest.mark.parametrize("sentence", BAD)
def test_a_setting_of_one_roof_is_refused(sentence):
    found = unbound(sentence)
    assert found is not None
    said, write = found
    assert said in sentence
    assert "{" in write


@pytest.mark.parametrize("sentence", GOOD)
def test_a_setting_from_a_value_passes(sentence):
    assert unbound(sentence) is None


def test_each_bad_sentence_is_found_among_good_ones():
    """In the midst of a step, as well as alone."""
    for sentence in BAD:
        assert unbound(f"{GOOD[0]} {sentence} {GOOD[10]}") is not None


def test_the_course_is_held_to_it():
    assert len(catalog()) > 20  # read with the rule on, or not at all
