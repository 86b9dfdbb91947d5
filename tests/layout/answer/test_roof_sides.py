"""On which side of a hip or valley either roof lies, from where each mate stands in the plan."""

import pytest

from layout.answer.sense_words import roof_sides
from layout.cuts import Hand
from layout.quantity import read_pitch
from tests.views_of import one

SAME = {
    "hip-ridge": "its common comes up on its own roof's side, and the cheek faces it",
    "hip-tail": "its fascia runs along its own eave, before the tail, and the cheek faces it",
    "hip-backing": "its bevel falls on its own roof's side, and so it faces that side",
    "valley-seat": "along 135° between eaves at 0° and 270°, its wall's inside at 90° is right,"
    " where the eave at 0° is",
}
OPPOSITE = {
    "hip-seat": "along 45° between eaves at 0° and 90°, the inside of the wall at 0° is at 90°,"
    " left of the hip, and its roof lies over that wall, right of it",
    "valley-backing": "a valley's own roof rises from it, so that its bevel falls the other way",
}


@pytest.mark.parametrize("hand", Hand)
@pytest.mark.parametrize("name", [*SAME, *OPPOSITE])
def test_each_roof_lies_where_its_mate_stands(name, hand):
    other = {"left": "right", "right": "left"}
    side = hand.value if name in SAME else other[hand.value]
    asked = one(name, "7", hand.value, other_pitch=read_pitch("9"))
    line = "valley" if name.startswith("valley") else "hip"
    assert roof_sides(asked) == (
        f"Seen from the foot, this roof (7 in 12) lies on the {side} of the {line},"
        f" the other (9 in 12) on its {other[side]}."
    )


def test_where_both_roofs_are_alike_or_the_stick_lies_in_one_no_side_is_told():
    for name, pitch in (("hip-ridge", "9"), ("hip-jack", "7"), ("common-seat", "7")):
        asked = one(name, "9", other_pitch=read_pitch(pitch))
        assert roof_sides(asked) == ""
