"""A question is complete, or it is refused in one line."""

import numpy as np
import pytest

from layout.answer.question import ask
from layout.cuts import ALSO_CALLED, Hand, catalogue
from layout.errors import CutError, RoofError
from layout.quantity import read_pitch
from layout.stock import read_stock


def test_what_is_not_said_is_the_usual():
    question = ask("hip-jack")
    assert str(question.pitch) == "8 in 12"
    assert question.other_pitch == question.pitch
    assert question.corner_deg == 90.0
    assert question.hand is Hand.LEFT
    assert question.stock.name == "2x6"
    assert question.end == "head"
    assert question.roll_deg == 0.0
    assert ask("valley-jack").corner_deg == 270.0
    assert ask("valley-jack").end == "foot"
    assert ask("roof-board").stock.name == "1x8"


@pytest.mark.parametrize(
    ("name", "other", "corner_deg", "two"),
    [
        ("hip-seat", "7", 90.0, False), ("hip-seat", "7", 120.0, False),
        ("hip-seat", "9", 90.0, True), ("valley-seat", "7", 270.0, False),
        ("valley-seat", "9", 270.0, True), ("common-seat", "9", 90.0, False),
        ("collar-tie", "9", 90.0, False), ("rake-board", "9", 90.0, False),
        ("hip-tail", "7", 90.0, True), ("hip-jack", "9", 90.0, True),
    ],
)  # fmt: skip
def test_a_seats_hands_differ_where_its_heels_do(name, other, corner_deg, two):
    """Under like pitches the hip halves the corner: both heels lean alike, one notch does for
    either hand. Under 7 and 9 in 12 it runs 9 along for 7 across: its heels lean apart."""
    asked = ask(name, pitch=read_pitch("7"), other_pitch=read_pitch(other), corner_deg=corner_deg)
    assert asked.two_hands is two


def test_what_is_said_is_kept():
    pitch, other = read_pitch("9 in 12"), read_pitch("35deg")
    question = ask(
        "cripple-jack",
        pitch=pitch,
        other_pitch=other,
        corner_deg=100.0,
        hand=Hand.RIGHT,
        stock=read_stock("2x8"),
        end="foot",
        roll_deg=5.0,
    )
    assert (question.pitch, question.other_pitch) == (pitch, other)
    assert (question.corner_deg, question.hand, question.end) == (100.0, Hand.RIGHT, "foot")
    assert (question.stock.name, question.roll_deg) == ("2x8", 5.0)
    corner = question.corner
    assert (corner.slope_deg, corner.other_slope_deg) == (pitch.slope_deg, other.slope_deg)
    assert (corner.interior_deg, corner.hand) == (100.0, -1.0)


@pytest.mark.parametrize("name", catalogue())
def test_every_cut_can_be_asked_for_at_either_end_it_has(name):
    for end in catalogue()[name].ends:
        for hand in Hand:
            question = ask(name, end=end, hand=hand)
            assert len(question.joint.cuts(question.stock)) in (1, 2, 3)


def test_walls_at_a_valley_may_be_measured_outside():
    outside, inside = ask("valley-jack", corner_deg=90.0), ask("valley-jack", corner_deg=270.0)
    assert outside.corner_deg == inside.corner_deg == 270.0
    assert ask("valley-jack", corner_deg=100.0).corner_deg == 260.0
    # walls a degree and less out of line: what is past 180 is the inside already
    assert ask("valley-jack", corner_deg=180.5).corner_deg == 180.5
    assert ask("valley-jack", corner_deg=179.5).corner_deg == 180.5
    assert ask("hip-ridge", corner_deg=179.5, placed=False).corner_deg == 179.5
    # a stick that meets either keeps what was said
    assert ask("fascia-plumb", corner_deg=270.0).corner_deg == 270.0
    assert ask("fascia-plumb", corner_deg=90.0).corner_deg == 90.0


def test_a_roll_turns_the_board_and_not_the_roof():
    flat, tipped = ask("purlin-plumb"), ask("purlin-plumb", roll_deg=30.0)
    np.testing.assert_array_equal(flat.joint.planes[0].normal, tipped.joint.planes[0].normal)
    np.testing.assert_allclose(flat.joint.pose.head, tipped.joint.pose.head)
    assert tipped.joint.pose.up @ flat.joint.pose.left == pytest.approx(-0.5)


def test_a_notch_cannot_be_rolled():
    """A bird's mouth sits on a level plate in a rafter that stands plumb (common practice, no
    source); every other cut takes a rolled board."""
    notches = {name for name in catalogue() if name.endswith(("-seat", "-heel"))}
    assert notches == {"common-seat", "common-heel", "hip-seat", "valley-seat"}
    for name in catalogue():
        if name in notches:
            with pytest.raises(CutError, match="does not sit on it; leave out --roll"):
                ask(name, roll_deg=5.0)
            ask(name, roll_deg=0.0)
        else:
            assert ask(name, roll_deg=5.0).roll_deg == 5.0


@pytest.mark.parametrize("hand", list(Hand))
def test_a_purlin_rolled_to_the_roof_is_the_purlin_square_to_it(hand):
    """The plumb purlin, tipped by the slope, down the slope: two entries, one stick."""
    slope = read_pitch("8 in 12").slope_deg
    square = ask("purlin-square", hand=hand)
    plumb = ask("purlin-plumb", hand=hand)
    roll = slope * float(np.sign(-square.joint.pose.up @ plumb.joint.pose.left))
    rolled = ask("purlin-plumb", hand=hand, roll_deg=roll)
    np.testing.assert_allclose(rolled.joint.pose.axes, square.joint.pose.axes, atol=1e-12)


@pytest.mark.parametrize(
    ("name", "corner", "cure"),
    [
        ("hip-jack", 0.0, "from 15 deg up to but not 180 deg"),
        ("hip-jack", 14.9, "from 15 deg up to but not 180 deg"),
        ("hip-jack", 180.0, "from 15 deg up to but not 180 deg"),
        ("hip-jack", 270.0, "from 15 deg up to but not 180 deg"),
        ("hip-jack", float("nan"), "from 15 deg up to but not 180 deg"),
        ("hip-jack", float("inf"), "from 15 deg up to but not 180 deg"),
        ("hip-jack", -90.0, "from 15 deg up to but not 180 deg"),
        ("valley-jack", 180.0, "between the walls"),
        ("valley-jack", 10.0, "between the walls"),
        ("valley-jack", 350.0, "between the walls"),
        ("fascia-plumb", 350.0, "from 15 to 345 deg"),
    ],
)
def test_a_corner_that_cannot_be_framed_is_refused(name, corner, cure):
    with pytest.raises(CutError) as error:
        ask(name, corner_deg=corner)
    message = str(error.value)
    assert len(message.splitlines()) == 1
    assert name in message
    assert cure in message


def test_an_unknown_cut_or_end_is_refused():
    with pytest.raises(CutError, match="hip-jack"):
        ask("hip-jak")
    with pytest.raises(CutError, match="did you mean") as told:
        ask("jack")  # more names are near: three are offered, no list
    assert str(told.value).count(" or ") == 2
    with pytest.raises(CutError, match="head, not at the foot"):
        ask("hip-jack", end="foot")
    with pytest.raises(CutError, match="head and the foot"):
        ask("cripple-jack", end="middle")


def test_a_roof_without_a_place_for_the_cut_is_refused_at_once():
    flat, steep = read_pitch("2 in 12"), read_pitch("12 in 12")
    with pytest.raises(CutError, match="hip-jack"):
        ask("hip-jack", pitch=flat, other_pitch=steep, corner_deg=135.0)
    with pytest.raises(RoofError, match="180"):
        ask("purlin-plumb", corner_deg=180.0)


def test_what_the_trade_calls_cuts_leads_to_their_names() -> None:
    """Every name that is offered is one of the catalogue, and no trade name is."""
    for said, offered in ALSO_CALLED.items():
        assert said not in catalogue()
        assert set(offered.split(" or ")) <= set(catalogue())
