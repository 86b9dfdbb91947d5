"""The catalogue's register: what an entry says of itself, and how a second end joins the first."""

import numpy as np
import pytest

from layout import cuts
from layout.errors import CutError
from layout.plane.corner import Corner


@pytest.fixture
def empty(monkeypatch):
    """A register without a cut in it."""
    monkeypatch.setattr(cuts, "_entries", {})
    return cuts._entries


def a_new_cut(corner):
    return corner


def its_other_end(corner):
    return corner


def test_a_cut_is_called_as_its_function_is(empty):
    made = cuts.entry("yard", "a cut of the yard", meets="valley", end="foot")(a_new_cut)
    assert made is a_new_cut
    (cut,) = empty.values()
    assert list(empty) == ["a-new-cut"]
    assert (cut.name, cut.family, cut.says) == ("a-new-cut", "yard", "a cut of the yard")
    assert (cut.meets, cut.stock, cut.two_hands) == ("valley", "2x6", True)
    assert cut.builders == {"foot": a_new_cut}
    assert (cut.ends, cut.usual_corner_deg) == (("foot",), 270.0)


@pytest.mark.parametrize("first_says", [True, False])
def test_two_ends_of_one_name_are_one_cut(empty, first_says):
    about = {"meets": "hip", "name": "post", "stock": "4x4", "two_hands": False}
    said = "a post's ends"
    cuts.entry("yard", said if first_says else "", **about)(a_new_cut)
    cuts.entry("yard", "" if first_says else said, **about, end="foot")(its_other_end)
    cut = empty["post"]
    assert (cut.name, cut.says, cut.ends) == ("post", said, ("head", "foot"))
    assert cut.builders == {"head": a_new_cut, "foot": its_other_end}
    assert (cut.stock, cut.two_hands, cut.usual_corner_deg) == ("4x4", False, 90.0)
    with pytest.raises(CutError, match="the foot of post is entered twice"):
        cuts.entry("yard", "", **about, end="foot")(a_new_cut)
    assert empty["post"].builders == {"head": a_new_cut, "foot": its_other_end}


def test_one_roof_without_a_place_refuses_all_that_are_asked_at_once():
    """4 in 12 beside 12 in 12 over walls at 150 degrees: the hip leans past square to an eave."""
    one, all_three = Corner(30.0, 30.0, 150.0), np.array([30.0, 18.43, 30.0])
    jack = cuts.find("hip-jack")
    corner = Corner(all_three, np.array([30.0, 45.0, 30.0]), 150.0)
    assert jack.has_place(corner).tolist() == [True, False, True]
    with pytest.raises(CutError, match="hip-jack has no place in this roof: its head never comes"):
        jack.joint(corner)
    assert bool(jack.has_place(one))
    assert jack.joint(one).planes[0].mate_name == "hip"
    with pytest.raises(CutError, match="cut at the head, not at the foot"):
        jack.has_place(one, "foot")


def test_hands():
    left, right = cuts.Hand.LEFT, cuts.Hand.RIGHT
    assert (left.sign, right.sign) == (1.0, -1.0)
    assert (left.other, right.other) == (right, left)
