"""The plane by hand holds both lines; it is found from them alone."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.tools.hand import edge_line, face_line, plane_along, plane_through
from layout.vector import X
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(150, 50), deadline=None)
numbers = st.floats(0.0, 24.0)
some = st.floats(0.5, 24.0)
signs = st.sampled_from((1.0, -1.0))


@SETTINGS
@given(numbers, some, signs, numbers, some, signs, signs)
def test_the_plane_holds_both_lines(mark, other, top, edge_mark, edge_other, left, end):
    face, edge = face_line(mark, other, top), edge_line(edge_mark, edge_other, left)
    normal = plane_through(face, edge, end * X)
    assert normal @ normal == pytest.approx(1)
    assert end * normal[0] > 0
    up_the_face = np.array([top * mark / other, 0.0, 1.0])
    over_the_edge = np.array([left * edge_mark / edge_other, 1.0, 0.0])
    assert normal @ up_the_face == pytest.approx(0, abs=1e-12)
    assert normal @ over_the_edge == pytest.approx(0, abs=1e-12)


def test_the_jack_at_12_in_12():
    """By hand: 12 and 12 on the face, 12 and 8.485 on the edge; plumb cheek (1, root 2, -1) / 2."""
    face, edge = face_line(12, 12, 1), edge_line(12, 72**0.5, -1)
    np.testing.assert_allclose(plane_through(face, edge, X), [0.5, 0.5**0.5, -0.5])
    np.testing.assert_allclose(plane_through(face, edge, -X), [-0.5, -(0.5**0.5), 0.5])


@SETTINGS
@given(st.floats(0.01, 5), st.floats(0.01, 5), signs, signs)
def test_a_gauged_rip_holds_both_lines(drop, across, top, right):
    normal = plane_along(drop, across, top, right)
    assert normal[0] == 0
    assert normal @ normal == pytest.approx(1)
    # the arris at the origin is waste: the lines lie below it and beside it
    on_face, on_edge = np.array([0.0, 0.0, -top * drop]), np.array([0.0, right * across, 0.0])
    assert normal @ on_face == pytest.approx(normal @ on_edge, abs=1e-12)
    assert normal @ on_face < 0


def test_lines_broadcast():
    marks = np.array([4.0, 8.0, 12.0])
    many = plane_through(face_line(marks, 12, 1), edge_line(12, 9, np.array([1, -1, 1])), X)
    for index, (mark, left) in enumerate(zip(marks, (1, -1, 1), strict=True)):
        one = plane_through(face_line(mark, 12, 1), edge_line(12, 9, left), X)
        np.testing.assert_array_equal(many[index], one)
    assert plane_along(np.array([0.1, 0.2]), 0.75, 1, np.array([1, -1])).shape == (2, 3)
