"""A cut end stood against its mate, and the gap of the classic mistake worked out by hand."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.answer.question import ask
from layout.plane.cut import Cut, whole_section
from layout.quantity import read_pitch
from layout.stock import read_stock
from layout.tools import saw
from layout.tools.fit import Fit, fit
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(100, 33), deadline=None)
STOCK = read_stock("2x6")
parts = st.floats(-1.0, 1.0)


def jack(rise=12, hand_sign=1.0, thickness=1.5):
    """The jack's cheek on a square corner: plumb, 45 degrees in plan. Written down by hand."""
    slope = np.arctan(rise / 12)
    n = np.array([np.cos(slope), hand_sign, -np.sin(slope)]) * 0.5**0.5
    return Cut(n, np.zeros(3), np.array([[0.0, thickness], [0.0, 5.5]]))


@SETTINGS
@given(parts, parts)
def test_the_right_plane_fits_without_a_gap(y, z):
    normal = np.array([1.0, y, z]) / np.sqrt(1 + y * y + z * z)
    cut = Cut(normal, np.array([7.0, 0.3, 1.0]), whole_section(STOCK))
    assert fit(cut, normal).widest_in == pytest.approx(0, abs=1e-12)


@SETTINGS
@given(parts, parts, parts, parts)
def test_the_gap_is_what_opens_when_the_board_slides_home(y, z, wrong_y, wrong_z):
    """By sampling the cut surface: slide along the board to first contact, then measure.

    The clearance along the board at (y, z) is x_mate - x_wood; sliding takes away the
    smallest; what is left, square to the mate, is nx times that.
    """
    n = np.array([1.0, y, z]) / np.sqrt(1 + y * y + z * z)
    wrong = np.array([1.0, wrong_y, wrong_z]) / np.sqrt(1 + wrong_y**2 + wrong_z**2)
    ys, zs = np.meshgrid(np.linspace(0, 1.5, 5), np.linspace(0, 5.5, 5))
    clearance = -(n[1] * ys + n[2] * zs) / n[0] + (wrong[1] * ys + wrong[2] * zs) / wrong[0]
    gap = n[0] * (clearance - clearance.min())
    found = fit(Cut(n, np.zeros(3), whole_section(STOCK)), wrong)
    assert found.widest_in == pytest.approx(gap.max(), abs=1e-12)
    corners = [gap[0, 0], gap[0, -1], gap[-1, -1], gap[-1, 0]]
    np.testing.assert_allclose(found.gaps_in, corners, atol=1e-12)
    assert found.gaps_in.min() == 0


WRONG_TILTS = {
    # what is read, and the tilt that is set [degrees]
    "the number over 12 as it is read": np.degrees(np.arctan(8.5 / 12)),
    "the exact number over 12": np.degrees(np.arctan(72**0.5 / 12)),
    "the angle from the length, its complement": np.degrees(np.arctan(12 / 8.5)),
}


@pytest.mark.parametrize("said", WRONG_TILTS)
def test_the_side_cut_number_set_as_tilt(said):
    """12 in 12, 1 1/2 in stock: the fit against a derivation in plan that uses no plane.

    The line on the face is plumb, and a tilt turns the blade about it, so the wrong cut is
    plumb as well and the whole matter is seen in plan. The jack is a strip 1 1/2 wide, the
    hip's side a line at 45 degrees across it. The wrong end leaves the long point at the
    angle t from square across, so over the width w it falls behind by w tan t where the
    hip's side falls behind by w tan 45. Over the width the two differ along the jack by
    w |1 - tan t|; square to the hip's side that is times sin 45. With t too small the short
    point stands out too far, touches first, and the gap opens at the long point, on the
    side away from the cheek's; with t too large the long point touches.
    """
    tilt = WRONG_TILTS[said]
    by_hand = 1.5 * abs(1 - np.tan(np.radians(tilt))) * np.sin(np.radians(45))
    for sign in (1.0, -1.0):
        reference = jack(hand_sign=sign)
        wrong = saw.plane_from_face(45.0, 1, tilt, -sign, 1)
        found = fit(reference, wrong)
        assert found.widest_in == pytest.approx(by_hand, abs=1e-12)
        assert found.widest_in > 1 / 4  # a quarter of an inch: no one calls that a fit
        side = "right" if (tilt < 45) == (sign > 0) else "left"
        assert found.opens_at == f"along the {side} face"


def test_the_classic_mistake_in_sixty_fourths():
    """8 1/2 over 12 is 35.3 degrees instead of 45: nearly 20/64, five sixteenths."""
    assert WRONG_TILTS["the number over 12 as it is read"] == pytest.approx(35.311, abs=1e-3)
    found = fit(jack(), saw.plane_from_face(45.0, 1, 35.311, -1, 1)).widest_in
    assert round(float(found) * 64) == 20


@SETTINGS
@given(st.floats(0.5, 24.0), st.floats(0.5, 3.5), st.sampled_from((1.0, -1.0)))
def test_the_mistake_at_any_pitch(rise, thickness, sign):
    """The same plan view: the number over 12 is 12 cos a, so tan t = cos a, whatever the hand."""
    slope = np.arctan(rise / 12)
    tilt = np.degrees(np.arctan(np.cos(slope)))
    by_hand = thickness * (1 - np.cos(slope)) * 0.5**0.5
    wrong = saw.plane_from_face(np.degrees(slope), 1, tilt, -sign, 1)
    assert fit(jack(rise, sign, thickness), wrong).widest_in == pytest.approx(by_hand, abs=1e-12)


def test_the_catalogue_s_jack_is_the_one_written_down_by_hand():
    question = ask("hip-jack", pitch=read_pitch("12 in 12"))
    (cut,) = question.joint.cuts(question.stock)
    np.testing.assert_allclose(cut.normal, jack().normal, atol=1e-15)


def test_a_rip_is_pressed_on_square():
    """A bevel of 30 degrees cut at 28: over half the thickness the gap is the leg times sin 2."""
    stock = np.array([[0.0, 0.75], [0.0, 5.5]])
    bevel = Cut(np.array([0.0, -0.5, 0.75**0.5]), np.array([0.0, 0.75, 5.5]), stock)
    wrong = saw.rip_from_face(28.0, 1, 1)
    leg = 0.75 / np.cos(np.radians(28))
    assert fit(bevel, wrong).widest_in == pytest.approx(leg * np.sin(np.radians(2)))


@pytest.mark.parametrize(
    ("y", "z"), [(0.0, 0.0), (0.0, 0.6), (-0.4, 0.0), (0.7, 0.3), (-0.2, 0.3), (0.1, -0.5)]
)
def test_a_surface_told_by_its_outline_opens_where_the_rectangle_does(y, z):
    """Half the thickness and some of the depth, once as a span and once as the same outline."""
    span = np.array([[0.75, 1.5], [0.5, 4.0]])
    reference = Cut(np.array([1.0, 0.0, 0.0]), np.zeros(3), span)
    wrong = np.array([1.0, y, z])
    wrong /= np.sqrt(wrong @ wrong)
    outlined = replace(reference, outline=(reference.corners(),))
    plain, told = fit(reference, wrong), fit(outlined, wrong)
    assert told.widest_in == pytest.approx(plain.widest_in, abs=1e-12)
    assert told.opens_at == plain.opens_at
    np.testing.assert_allclose(told.spots, [(0, 0), (1, 0), (1, 1), (0, 1)], atol=1e-12)


@pytest.mark.parametrize(
    ("wide", "place"),
    [
        ("1000", "at the bottom of the right face"),
        ("0100", "at the bottom of the left face"),
        ("0010", "at the top of the left face"),
        ("0001", "at the top of the right face"),
        ("1100", "along the bottom edge"),
        ("0110", "along the left face"),
        ("0011", "along the top edge"),
        ("1001", "along the right face"),
        ("1010", "all over"),
        ("1110", "all over"),
        ("1111", "all over"),
    ],
)
def test_where_a_gap_opens_by_its_corners(wide, place):
    """Corners go right bottom, left bottom, left top, right top; a millionth more is no more."""
    gaps = np.array([0.2 if each == "1" else 0.1 for each in wide]) + 1e-8 * np.arange(4)
    assert Fit(gaps).opens_at == place
    round_ = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)])
    order = [2, 0, 3, 1]
    assert Fit(gaps[order], round_[order]).opens_at == place
    notch = replace(Fit(gaps), sides=("right face", "middle of the thickness", "inside corner", ""))
    if wide == "0100":
        assert notch.opens_at == "where the inside corner meets the middle of the thickness"


@pytest.mark.parametrize(
    ("spots", "place"),
    [
        ([(0.0, 0.4)], "along the right face"),
        ([(1.0, 0.4), (1.0, 1.0)], "along the left face"),
        ([(0.3, 0.0), (0.8, 0.0)], "along the bottom edge"),
        ([(0.3, 1.0), (1.0, 1.0)], "along the top edge"),
        ([(0.3, 0.4)], "all over"),
        ([(0.0, 0.4), (0.4, 0.0)], "all over"),
        ([(1.0, 0.0), (1.0, 0.0)], "at the bottom of the left face"),
    ],
)
def test_where_a_gap_opens_between_the_corners(spots, place):
    """An outline has corners between those of the section: named by the bound they all lie on."""
    narrow = [(0.1, 0.2), (0.9, 0.9)]
    gaps = np.array([0.3] * len(spots) + [0.1, 0.0])
    assert Fit(gaps, np.array([*spots, *narrow])).opens_at == place


def test_a_plane_that_leaves_no_surface_leaves_no_gap():
    none = replace(jack(), outline=())
    assert fit(none, np.array([1.0, 0.0, 0.0])).widest_in == 0


def test_fits_broadcast():
    tilts = np.array([30.0, 40.0, 45.0])
    found = fit(jack(), saw.plane_from_face(45.0, 1, tilts, -1, 1))
    assert found.gaps_in.shape == (3, 4)
    for index, tilt in enumerate(tilts):
        one = fit(jack(), saw.plane_from_face(45.0, 1, tilt, -1, 1))
        assert found.widest_in[index] == one.widest_in
