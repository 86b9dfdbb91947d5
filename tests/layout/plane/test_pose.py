"""A board's axes in the world: right-handed, upright, and rolled."""

import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.plane.corner import Corner
from layout.plane.pose import LaidWhenSeen, Pose, lay
from layout.vector import Z
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(100, 33), deadline=None)
parts = st.floats(-5.0, 5.0)
vectors = st.tuples(parts, parts, parts).map(np.array).filter(lambda v: np.linalg.norm(v) > 0.1)


def apart(along, up):
    return np.linalg.norm(np.cross(along, up)) > 0.05 * np.linalg.norm(along) * np.linalg.norm(up)


@SETTINGS
@given(vectors, vectors)
def test_axes_are_a_right_handed_frame(along, up):
    if not apart(along, up):
        return
    pose = lay(along, up)
    np.testing.assert_allclose(pose.axes @ pose.axes.T, np.eye(3), atol=1e-12)
    assert np.linalg.det(pose.axes) == pytest.approx(1.0)
    assert pose.head @ along == pytest.approx(np.linalg.norm(along))
    assert pose.up @ up > 0
    assert pose.left @ up == pytest.approx(0.0, abs=1e-9)


@SETTINGS
@given(vectors, vectors, vectors)
def test_world_and_board_directions_go_back_and_forth(along, up, v):
    if not apart(along, up):
        return
    pose = lay(along, up)
    np.testing.assert_allclose(pose.to_world(pose.to_board(v)), v, atol=1e-12)
    np.testing.assert_allclose(pose.to_board(pose.head), [1, 0, 0], atol=1e-12)
    np.testing.assert_allclose(pose.to_board(pose.left), [0, 1, 0], atol=1e-12)
    np.testing.assert_allclose(pose.to_board(pose.up), [0, 0, 1], atol=1e-12)


def test_left_is_the_left_hand_of_someone_who_looks_toward_the_head():
    """Looking north, west is at the left."""
    pose = lay(np.array([0.0, 1.0, 0.5]), np.array([0.0, 0.0, 1.0]))
    np.testing.assert_allclose(pose.left, [-1, 0, 0], atol=1e-15)


def test_a_roll_tips_the_top_edge_toward_the_right_face():
    pose = lay(np.array([0.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0]))
    tipped = pose.rolled(30.0)
    np.testing.assert_allclose(tipped.head, pose.head)
    assert tipped.up @ pose.left == pytest.approx(-0.5)
    assert tipped.up @ pose.up == pytest.approx(np.sqrt(3) / 2)
    np.testing.assert_allclose(pose.rolled(90.0).up, -pose.left, atol=1e-15)


@SETTINGS
@given(vectors, vectors, st.floats(-180, 180), st.floats(-180, 180))
def test_rolls_add_up_and_undo(along, up, first, second):
    if not apart(along, up):
        return
    pose = lay(along, up)
    twice, once = pose.rolled(first).rolled(second), pose.rolled(first + second)
    np.testing.assert_allclose(twice.axes, once.axes, atol=1e-12)
    np.testing.assert_allclose(pose.rolled(first).rolled(-first).axes, pose.axes, atol=1e-12)


def test_poses_broadcast():
    along = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 1.0]])
    pose = lay(along, np.array([0.0, 0.0, 1.0]))
    assert pose.axes.shape == (2, 3, 3)
    rolled = pose.rolled(np.array([10.0, 20.0]))
    for index, roll in enumerate((10.0, 20.0)):
        one = lay(along[index], np.array([0.0, 0.0, 1.0])).rolled(roll)
        np.testing.assert_allclose(rolled.axes[index], one.axes, atol=1e-15)
        seen = Pose(rolled.axes[index]).to_board(along[0])
        np.testing.assert_allclose(rolled.to_board(along[0])[index], seen, atol=1e-15)


def test_a_pose_laid_when_it_is_seen_is_the_one_laid_at_once():
    corner = Corner(33.0, 20.0, 110.0, -1.0)
    later = LaidWhenSeen(corner, "line", Z)
    assert "line" not in vars(corner), "nothing is worked out before it is looked at"
    again = pickle.loads(pickle.dumps(later))
    np.testing.assert_array_equal(later.axes, lay(corner.line, Z).axes)
    np.testing.assert_array_equal(again.head, later.head)
    np.testing.assert_array_equal(again.rolled(10.0).up, later.rolled(10.0).up)
