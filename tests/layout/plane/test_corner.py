"""Two roof planes and the line where they meet: by hand, by limits, in the mirror."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import RoofError
from layout.plane.corner import Corner
from layout.vector import sin_cos
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(500, 30), deadline=None)
slopes = st.floats(2.0, 75.0)
outside = st.floats(30.0, 170.0)
reentrant = st.floats(190.0, 330.0)
either = st.one_of(outside, reentrant)
signs = st.sampled_from((1.0, -1.0))


def height(slope_deg, inward, point):
    return np.tan(np.radians(slope_deg)) * (inward @ point)


@SETTINGS
@given(slopes, slopes, either, signs)
def test_the_line_lies_in_both_roofs_and_rises(a, b, w, hand):
    corner = Corner(a, b, w, hand)
    assert corner.line @ corner.normal == pytest.approx(0, abs=1e-12)
    assert corner.line @ corner.other_normal == pytest.approx(0, abs=1e-12)
    assert corner.line[2] > 0
    assert corner.line @ corner.line == pytest.approx(1)
    assert np.tan(np.radians(corner.line_slope_deg)) == pytest.approx(corner.line_rise)
    run = np.hypot(*corner.line[:2])
    assert corner.line[2] / run == pytest.approx(corner.line_rise)


@SETTINGS
@given(slopes, slopes, either, signs)
def test_the_irregular_corner_obeys_its_closed_form(a, b, w, hand):
    """sin f tan a = sin(w - f) tan b, with f from the own eave: both roofs are as high there.

    By hand: a step of 1 along the line lies sin f from the own wall and sin(w - f) from the
    other one. At an outside corner the line lies between the walls, at a re-entrant one
    beyond both, where w - f is read as f - (w - 180) from the other wall's other side.
    """
    corner = Corner(a, b, w, hand)
    f = np.degrees(np.arctan2(corner.plan_line[1], hand * corner.plan_line[0]))
    assert 0 < f < 180
    ours = np.sin(np.radians(f)) * np.tan(np.radians(a))
    theirs = np.sin(np.radians(w - f)) * np.tan(np.radians(b))
    assert ours == pytest.approx(theirs, rel=1e-9)
    assert corner.plan_angle_deg == pytest.approx(min(f, 180 - f), abs=1e-9)
    assert corner.unit_run == pytest.approx(1 / np.sin(np.radians(f)), rel=1e-12)
    assert corner.line_rise == pytest.approx(ours, rel=1e-9)


@SETTINGS
@given(slopes, slopes, either, signs)
def test_the_walls_stand_as_they_are_said(a, b, w, hand):
    corner = Corner(a, b, w, hand)
    inside = np.degrees(
        np.arctan2(
            hand * (corner.eave[0] * corner.other_eave[1] - corner.eave[1] * corner.other_eave[0]),
            corner.eave @ corner.other_eave,
        )
    )
    assert inside % 360 == pytest.approx(w, abs=1e-9)
    for eave, inward in ((corner.eave, corner.inward), (corner.other_eave, corner.other_inward)):
        assert eave @ inward == pytest.approx(0, abs=1e-15)
    # a point in the building, halfway round between both walls
    half = np.radians(w / 2)
    inner = np.array([hand * np.cos(half), np.sin(half), 0.0])
    assert corner.inward @ inner > 0
    assert corner.other_inward @ inner > 0
    assert corner.upslope @ corner.eave == 0
    assert np.degrees(np.arcsin(corner.upslope[2])) == pytest.approx(a)
    assert np.degrees(np.arcsin(corner.other_upslope[2])) == pytest.approx(b)
    assert corner.reentrant == (w > 180)


@SETTINGS
@given(slopes, slopes, either, signs)
def test_across_points_to_where_the_own_plane_is_higher(a, b, w, hand):
    """So over the other roof at a hip, where the lower plane shows, and home at a valley."""
    corner = Corner(a, b, w, hand)
    beside = corner.plan_line + corner.across
    ours, theirs = height(a, corner.inward, beside), height(b, corner.other_inward, beside)
    assert ours > theirs
    own_side = corner.eave @ corner.across
    assert own_side > 0 if w > 180 else own_side < 0


@pytest.mark.parametrize("w", [90.0, 270.0])
@SETTINGS
@given(rise=st.floats(0.5, 24.0), hand=signs)
def test_a_square_corner_of_equal_pitch(w, rise, hand):
    """By hand: the diagonal of a square is 12 root 2 = 16.97, at 45 degrees."""
    a = np.degrees(np.arctan(rise / 12))
    corner = Corner(a, a, w, hand)
    assert corner.plan_angle_deg == pytest.approx(45, abs=1e-9)
    assert 12 * corner.unit_run == pytest.approx(np.sqrt(288))
    assert corner.line_slope_deg == pytest.approx(np.degrees(np.arctan(rise / np.sqrt(288))))


def test_the_hip_of_two_pitches_on_a_square_corner():
    """By hand, 6 and 12 in 12: as high after 12 one way as after 6 the other, tan f = 6 / 12.

    f is counted from the eave of the steep roof: a step of 12 along it meets 6 square to it.
    """
    steep, flat = np.degrees(np.arctan([12 / 12, 6 / 12]))
    corner = Corner(steep, flat)
    assert np.tan(np.radians(corner.plan_angle_deg)) == pytest.approx(6 / 12)
    assert 12 * corner.unit_run == pytest.approx(np.hypot(12, 24))


@SETTINGS
@given(slopes, slopes, either)
def test_hands_mirror_to_the_last_bit(a, b, w):
    left, right = Corner(a, b, w, 1.0), Corner(a, b, w, -1.0)
    flip = np.array([-1.0, 1.0, 1.0])
    for name in [
        "eave",
        "other_eave",
        "inward",
        "other_inward",
        "normal",
        "other_normal",
        "across",
        "plan_line",
        "line",
        "upslope",
        "other_upslope",
    ]:
        assert np.array_equal(getattr(left, name), getattr(right, name) * flip), name
    for name in ("line_rise", "line_slope_deg", "plan_angle_deg", "unit_run"):
        assert getattr(left, name) == getattr(right, name)


@SETTINGS
@given(slopes, slopes, either)
def test_exchanging_the_roofs_exchanges_the_hands(a, b, w):
    """The other roof seen as the own one: the same line, with the corner on the other side."""
    ours, theirs = Corner(a, b, w, 1.0), Corner(b, a, w, -1.0)
    assert ours.line_slope_deg == pytest.approx(theirs.line_slope_deg, abs=1e-9)
    for seen, own in (
        ("other_eave", "eave"),
        ("other_inward", "inward"),
        ("other_upslope", "upslope"),
        ("other_normal", "normal"),
    ):
        assert ours.line @ getattr(ours, seen) == pytest.approx(
            theirs.line @ getattr(theirs, own), abs=1e-9
        )


def test_flat_roofs_a_millionth_of_a_degree_out_of_one_plane_meet_in_a_line():
    corner = Corner(0.2, 0.2, 180 - 1e-6)
    for normal in (corner.normal, corner.other_normal):
        assert float(corner.line @ normal) == pytest.approx(0, abs=1e-9)
    assert float(corner.plan_angle_deg) == pytest.approx(90, abs=1e-3)


def test_one_plane_has_no_line():
    with pytest.raises(RoofError) as error:
        _ = Corner(30.0, 30.0, 180.0).line
    assert len(str(error.value).splitlines()) == 1
    assert "180 deg" in str(error.value)
    with pytest.raises(RoofError):
        _ = Corner(np.array([20.0, 30.0]), 30.0, 180.0).line


def test_arrays_of_corners_are_their_corners_one_by_one():
    a, b = np.array([10.0, 20.0, 30.0]), np.array([[15.0], [40.0]])
    hand = np.array([1.0, -1.0, 1.0])
    many = Corner(a, b, 100.0, hand)
    assert many.line.shape == (2, 3, 3)
    for row in range(2):
        for column in range(3):
            one = Corner(a[column], b[row, 0], 100.0, hand[column])
            for name in ("line", "across", "plan_line", "other_upslope"):
                whole = np.broadcast_to(getattr(many, name), (2, 3, 3))
                np.testing.assert_allclose(whole[row, column], getattr(one, name), atol=1e-15)


def test_right_angles_are_exact():
    sine, cosine = sin_cos(np.array([0.0, 90.0, 180.0, 270.0, 360.0, -90.0]))
    assert sine.tolist() == [0.0, 1.0, 0.0, -1.0, 0.0, -1.0]
    assert cosine.tolist() == [1.0, 0.0, -1.0, 0.0, 1.0, 0.0]
