"""The price of each known mistake, against derivations written out here."""

from math import atan, cos, radians, sin, sqrt, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.answer import answer
from layout.cuts import Hand, catalogue
from layout.quantity import Pitch, read_pitch
from layout.question import ask
from layout.stock import read_stock
from lessons.mistakes import made_on, mistakes


def price(cut: str, mistake: str, **asked) -> float:
    made = mistakes()[mistake].made_on(answer(ask(cut, **asked)))
    assert made is not None
    return made.price_in


def test_the_number_as_tilt_at_12_in_12_costs_five_sixteenths():
    # With the face mark at 45 degrees, a tilt b moves the far side of the cut by t tan b,
    # square to the mark. Square to the hip, whose plane leans by 45 degrees from the face's
    # normal, the right tilt loses t (tan 45 - tan b) cos 45. The number 8.485 on 12 reads
    # b = 35.26 degrees.
    b = atan(sqrt(72) / 12)
    by_hand = 1.5 * (tan(radians(45)) - tan(b)) * cos(radians(45))
    got = price("hip-jack", "side-number-as-tilt", pitch=read_pitch("12"))
    assert got == pytest.approx(by_hand, abs=1e-12)
    assert round(got * 16) == 5


@settings(deadline=None, max_examples=40, derandomize=True)
@given(rise=st.floats(1, 20))
def test_the_number_as_tilt_at_any_pitch_on_a_square_corner(rise):
    b = atan(12 / sqrt(144 + rise**2))
    by_hand = 1.5 * abs(1 - tan(b)) * cos(radians(45))
    got = price("hip-jack", "side-number-as-tilt", pitch=Pitch(rise, 12, "any"))
    assert got == pytest.approx(by_hand, abs=1e-9)


def test_45_on_the_edge_costs_what_the_edge_line_loses():
    # Over the thickness the right edge line runs t * 12 / number along the board, a 45 degree
    # line t; square to the hip the difference shrinks by sin 45 cos(slope) = nx.
    for rise in (4, 8, 12):
        number = 144 / sqrt(144 + rise**2)
        nx = sin(radians(45)) * 12 / sqrt(144 + rise**2)
        by_hand = 1.5 * (12 / number - 1) * nx
        assert price("hip-jack", "forty-five-on-edge", pitch=read_pitch(str(rise))) == (
            pytest.approx(by_hand, abs=1e-12)
        )


def test_two_lefts_gape_by_the_thickness_twice():
    # The mirrored cheek leaves its mate by twice the tilt's run: t * 2 tan 45 * cos 45.
    assert price("hip-jack", "wrong-hand") == pytest.approx(1.5 * 2 * cos(radians(45)), abs=1e-12)


def test_12_for_17_costs_the_difference_of_the_two_plumb_lines():
    # With a face line at l and a tilt t the plane is x = z tan l - y tan t / cos l. The right
    # one has l = h, the hip's slope; the wrong one l = a, the common's. Square to the right
    # plane a length along the board shrinks by cos h cos t, and the gap is the spread of the
    # difference over the section: both terms grow toward the same corner.
    for rise in (4.0, 8.0, 12.0):
        a, h, t = atan(rise / 12), atan(rise / sqrt(288)), radians(45)
        by_hand = (
            cos(h) * cos(t) * (5.5 * (tan(a) - tan(h)) + 1.5 * tan(t) * (1 / cos(a) - 1 / cos(h)))
        )
        got = price("hip-ridge-single", "twelve-for-seventeen", pitch=Pitch(rise, 12, "any"))
        assert got == pytest.approx(by_hand, abs=1e-12)


def test_a_mistake_that_costs_nothing_is_not_one():
    # A plumb purlin's face mark is square across: its edge mark is its tilt.
    right = answer(ask("purlin-plumb"))
    assert mistakes()["edge-mark-as-tilt"].made_on(right) is None
    # At equal pitches there is no other roof's pitch to take.
    assert mistakes()["other-roofs-pitch"].made_on(answer(ask("hip-jack"))) is None
    # A jack runs 12 to 12: there is no 17 to miss.
    assert mistakes()["twelve-for-seventeen"].made_on(answer(ask("hip-jack"))) is None


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_mistakes_on_every_cut_cost_something_and_mirror(name):
    pitches = {"pitch": read_pitch("7"), "other_pitch": read_pitch("10")}
    left, right = (made_on(answer(ask(name, hand=hand, **pitches))) for hand in Hand)
    assert [m.mistake.name for m in left] == [m.mistake.name for m in right]
    for one, other in zip(left, right, strict=True):
        assert one.price_in > 0
        assert one.price_in == pytest.approx(other.price_in, abs=1e-9)


def test_a_thicker_board_pays_more():
    thin, thick = (
        price("hip-jack", "side-number-as-tilt", stock=read_stock(name)) for name in ("1x6", "2x6")
    )
    assert thick == pytest.approx(2 * thin, abs=1e-12)
