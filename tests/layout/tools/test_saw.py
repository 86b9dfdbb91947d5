"""The plane by saw holds the face line and leans by the tilt, to the side that is said."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.tools.saw import (
    SawLimits,
    as_set,
    plane_from_edge,
    plane_from_face,
    reaches,
    rip_from_face,
)
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(150, 50), deadline=None)
lines = st.floats(0.0, 85.0)
tilts = st.floats(0.0, 60.0)
signs = st.sampled_from((1.0, -1.0))


@SETTINGS
@given(lines, signs, tilts, signs, signs)
def test_the_plane_holds_the_line_and_leans_by_the_tilt(line, top, tilt, waste, end):
    normal = plane_from_face(line, top, tilt, waste, end)
    assert normal @ normal == pytest.approx(1)
    assert end * normal[0] > 0
    up_the_face = np.array([top * np.tan(np.radians(line)), 0.0, 1.0])
    assert normal @ up_the_face == pytest.approx(0, abs=1e-12)
    # an inch into the wood the blade stands off by tan(tilt), square to the line on the face
    out = np.array([normal[0], 0.0, normal[2]])
    out = out / np.linalg.norm(out)
    into = np.array([0.0, 1.0, 0.0]) + waste * np.tan(np.radians(tilt)) * out
    assert normal @ into == pytest.approx(0, abs=1e-12)


@SETTINGS
@given(lines, signs, tilts, signs, signs)
def test_the_plane_from_the_edge_holds_the_line_and_leans_by_the_tilt(line, left, tilt, waste, end):
    """The shoe rides the top edge, so the blade goes down the depth."""
    normal = plane_from_edge(line, left, tilt, waste, end)
    assert normal @ normal == pytest.approx(1)
    assert end * normal[0] > 0
    over_the_edge = np.array([left * np.tan(np.radians(line)), 1.0, 0.0])
    assert normal @ over_the_edge == pytest.approx(0, abs=1e-12)
    out = np.array([normal[0], normal[1], 0.0])
    out = out / np.linalg.norm(out)
    into = np.array([0.0, 0.0, -1.0]) + waste * np.tan(np.radians(tilt)) * out
    assert normal @ into == pytest.approx(0, abs=1e-12)


def test_the_jack_at_12_in_12():
    """Common practice, no source: plumb line at 45, saw at 45, for every jack's cheek.

    A left cheek: its long point is on the right face, so from there the blade leans under
    the wood that stays.
    """
    normal = plane_from_face(45.0, 1, 45.0, -1, 1)
    np.testing.assert_allclose(normal, [0.5, 0.5**0.5, -0.5])


@SETTINGS
@given(tilts, signs, signs)
def test_a_rip_leans_toward_the_face_under_the_shoe(tilt, top, right):
    normal = rip_from_face(tilt, top, right)
    assert normal[0] == 0
    assert np.degrees(np.arctan2(abs(normal[1]), abs(normal[2]))) == pytest.approx(tilt)
    assert top * normal[2] > 0
    assert right * normal[1] <= 0


@pytest.mark.parametrize(
    ("tilt", "step", "set_to"),
    [(35.26, 0.5, 35.5), (35.24, 0.5, 35.0), (35.26, 0.25, 35.25), (44.74, 0.5, 44.5), (45, 1, 45)],
)
def test_a_tilt_is_set_to_the_scale(tilt, step, set_to):
    assert as_set(tilt, step) == set_to


def test_limits():
    usual = SawLimits()
    assert (usual.tilt_deg, usual.turn_deg, usual.step_deg) == (50.0, 50.0, 0.5)
    assert reaches(50.0, 50.0)
    assert reaches(50.004, 50.0)
    assert not reaches(50.01, 50.0)
    # A saw that goes just so far can be set so far, wherever that is.
    assert all(reaches(quarter / 4, quarter / 4) for quarter in range(1, 240))


def test_settings_broadcast():
    line, tilt = np.array([10.0, 20.0, 30.0]), np.array([[5.0], [45.0]])
    many = plane_from_face(line, 1, tilt, -1, np.array([1, -1, 1]))
    assert many.shape == (2, 3, 3)
    np.testing.assert_array_equal(many[1, 1], plane_from_face(20.0, 1, 45.0, -1, -1))
    assert rip_from_face(line, 1, -1).shape == (3, 3)
