"""A plane in board axes and the marks it leaves: worked by hand, and on lines laid in it."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.plane.cut import Cut, long_board, mark_deg, tilt_deg, whole_section
from layout.stock import read_stock
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(150, 50), deadline=None)
STOCK = read_stock("2x6")
HALF, ROOT = 0.5, np.sqrt(0.5)
angles = st.floats(-80.0, 80.0)


def cut(*normal, point=(0.0, 0.0, 0.0)):
    n = np.array(normal, dtype=float)
    return Cut(n / np.linalg.norm(n), np.array(point), whole_section(STOCK))


@pytest.mark.parametrize(
    ("normal", "face", "edge", "face_tilt", "edge_tilt", "number"),
    [
        ((1, 0, 0), 0, 0, 0, 0, np.inf),
        ((ROOT, 0, -ROOT), 45, 0, 0, 45, np.inf),
        ((ROOT, ROOT, 0), 0, 45, 45, 0, 12),
        # the jack at 12 in 12: common practice, no source: 8 1/2 on 12, saw at 45
        ((HALF, ROOT, -HALF), 45, 54.735610, 45, 30, 8.485281),
        ((-HALF, -ROOT, HALF), 45, 54.735610, 45, 30, 8.485281),
        ((1, 1, 1), 45, 45, 35.264390, 35.264390, 12),
        ((0, ROOT, ROOT), 90, 90, 45, 45, 0),
    ],
)
def test_marks_and_tilts_by_hand(normal, face, edge, face_tilt, edge_tilt, number):
    c = cut(*normal)
    assert c.face_mark_deg == pytest.approx(face, abs=1e-6)
    assert c.edge_mark_deg == pytest.approx(edge, abs=1e-6)
    assert c.face_tilt_deg == pytest.approx(face_tilt, abs=1e-6)
    assert c.edge_tilt_deg == pytest.approx(edge_tilt, abs=1e-6)
    assert c.edge_number == pytest.approx(number, abs=1e-6)
    assert c.at_head == (normal[0] > 0)
    assert c.runs_along == (normal[0] == 0)


@SETTINGS
@given(angles, angles, st.sampled_from((1.0, -1.0)), st.floats(0, 1.5), st.floats(0, 5.5))
def test_the_plane_holds_its_marks(top, left, end, y, z):
    """Lines laid on a face and on an edge, and the plane through both: they are its marks."""
    over_face = np.array([np.tan(np.radians(top)), 0.0, 1.0])
    over_edge = np.array([np.tan(np.radians(left)), 1.0, 0.0])
    normal = np.cross(over_edge, over_face)
    c = cut(*(normal * np.sign(normal[0]) * end), point=(3.0, 1.5, 5.5))
    assert c.face_mark_deg == pytest.approx(abs(top), abs=1e-9)
    assert c.edge_mark_deg == pytest.approx(abs(left), abs=1e-9)
    assert c.top_lean == pytest.approx(np.tan(np.radians(top)), abs=1e-9)
    assert c.left_lean == pytest.approx(np.tan(np.radians(left)), abs=1e-9)
    x = 3.0 + over_face[0] * (z - 5.5) + over_edge[0] * (y - 1.5)
    assert c.x_at(y, z) == pytest.approx(x, abs=1e-9)
    if abs(left) > 1e-6:
        assert c.edge_number == pytest.approx(12 / np.tan(np.radians(abs(left))), rel=1e-9)


@SETTINGS
@given(st.floats(0.01, 1.0), st.floats(-1, 1), st.floats(-1, 1))
def test_a_mark_on_any_surface_is_the_line_in_both(x, y, z):
    """On a surface of the board at any roll: the line common to it and the cut, laid by hand."""
    normal = cut(x, y, z).normal
    for roll in np.radians([0.0, 20.0, 90.0, 130.0, 200.0]):
        surface = np.array([0.0, np.cos(roll), np.sin(roll)])
        across = np.array([0.0, -np.sin(roll), np.cos(roll)])
        # a step of 1 across the surface moves the mark along by -n.across / nx
        along = -(normal @ across) / normal[0]
        assert mark_deg(normal, surface) == pytest.approx(np.degrees(np.arctan(abs(along))))
        assert np.sin(np.radians(tilt_deg(normal, surface))) == pytest.approx(
            abs(normal @ surface), abs=1e-12
        )


def test_corners_go_round_the_section_and_lie_in_the_plane():
    c = cut(HALF, ROOT, -HALF, point=(1.0, 0.0, 0.0))
    corners = c.corners()
    assert corners[:, 1:].tolist() == [[0, 0], [1.5, 0], [1.5, 5.5], [0, 5.5]]
    np.testing.assert_allclose((corners - c.point) @ c.normal, 0, atol=1e-12)
    # by hand: at 12 in 12 the top runs on by the depth, the left falls short by t root 2
    np.testing.assert_allclose(
        corners[:, 0], [1.0, 1 - 1.5 * 2**0.5, 6.5 - 1.5 * 2**0.5, 6.5], atol=1e-12
    )


def test_a_rip_is_a_strip_an_inch_long():
    """Over the edge where it has a nz, up the face where it is a plumb strip."""
    bevel = Cut(np.array([0.0, -0.6, 0.8]), np.array([0.0, 0.75, 5.5]), whole_section(STOCK))
    corners = bevel.corners()
    assert corners[:, 0].tolist() == [0, 1, 1, 0]
    np.testing.assert_allclose(corners[:, 1], [0, 0, 1.5, 1.5])
    np.testing.assert_allclose(
        corners[:, 2], 5.5 + 0.75 * np.array([-0.75 - 0.25, -1, 1, 1]) * 0.75
    )
    strip = Cut(np.array([0.0, 1.0, 0.0]), np.array([0.0, 0.5, 0.0]), whole_section(STOCK))
    assert strip.corners()[:, 1].tolist() == [0.5] * 4
    assert strip.corners()[:, 2].tolist() == [0, 0, 5.5, 5.5]
    assert np.isinf(strip.x_at(0.0, 0.0))


@pytest.mark.parametrize("normal", [(0.0, -0.6, 0.8), (0.0, 0.6, -0.8), (0.0, 1.0, 0.0)])
def test_the_strip_of_a_rip_is_its_two_lines(normal):
    span = np.array([[0.25, 1.25], [0.5, 4.5]])
    rip = Cut(np.array(normal), np.array([0.0, 0.75, 5.0]), span)
    np.testing.assert_allclose(rip.strip, rip.corners()[[0, 2]], atol=1e-12)
    for line in rip.strip:
        assert line @ rip.normal == pytest.approx(rip.level_in)
    np.testing.assert_array_equal(rip.reached(), rip.corners())


def test_the_surface_that_a_plane_reaches_lies_on_it():
    """An outline taken from another plane, moved along the board; without one, the corners."""
    outline = (np.array([[9.0, 0.0, 0.0], [7.0, 1.5, 0.0], [8.0, 0.5, 5.5]]), np.zeros((1, 3)))
    plain = cut(HALF, ROOT, -HALF, point=(3.0, 0.0, 1.0))
    told = Cut(plain.normal, plain.point, plain.span, outline)
    reached = told.reached()
    np.testing.assert_array_equal(reached[:, 1:], np.concatenate(outline)[:, 1:])
    np.testing.assert_allclose((reached - plain.point) @ plain.normal, 0, atol=1e-12)
    np.testing.assert_array_equal(plain.reached(), plain.corners())
    assert Cut(plain.normal, plain.point, plain.span, ()).reached().shape == (0, 3)


def test_a_long_board_is_bounded_on_all_six_sides():
    """Each plane's wood lies inward: the section's size, and 10,000 in either way."""
    reach = {tuple(one.normal.tolist()): one.level_in for one in long_board(STOCK)}
    assert reach == {
        (0, -1, 0): 0.0,
        (0, 1, 0): 1.5,
        (0, 0, -1): 0.0,
        (0, 0, 1): 5.5,
        (-1, 0, 0): 1e4,
        (1, 0, 0): 1e4,
    }


def test_cuts_broadcast():
    normals = np.array([[HALF, ROOT, -HALF], [0.6, 0.0, 0.8], [0.0, -0.6, 0.8]])
    many = Cut(normals, np.zeros(3), whole_section(STOCK))
    assert many.corners().shape == (3, 4, 3)
    for index in range(3):
        one = Cut(normals[index], np.zeros(3), whole_section(STOCK))
        np.testing.assert_array_equal(many.corners()[index], one.corners())
        for name in [
            "face_mark_deg",
            "edge_mark_deg",
            "face_tilt_deg",
            "edge_tilt_deg",
            "edge_number",
        ]:
            assert getattr(many, name)[index] == getattr(one, name)
        assert many.runs_along[index] == one.runs_along
