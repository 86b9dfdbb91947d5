"""Vectors against numpy's own products and against right angles known by hand."""

import numpy as np
import pytest

from layout.vector import (
    X,
    Y,
    Z,
    angle_deg,
    at_height,
    cross,
    dot,
    facing,
    sign,
    sin_cos,
    unit,
    vector,
)

DRAWN = np.random.default_rng(5).normal(size=(2, 4, 6, 3))
ONE, TWO = DRAWN


def test_products_are_numpy_s_own():
    """Library: numpy's cross and einsum, on arrays and on one vector that broadcasts."""
    for a, b in ((ONE, TWO), (ONE[0, 0], TWO), (ONE, TWO[0, 0]), (ONE[0, 0], TWO[0, 0])):
        np.testing.assert_allclose(cross(a, b), np.cross(a, b), atol=1e-15)
        np.testing.assert_allclose(dot(a, b), np.einsum("...i,...i->...", a, b), atol=1e-15)
    np.testing.assert_array_equal([cross(X, Y), cross(Y, Z), cross(Z, X)], [Z, X, Y])


def test_a_unit_vector_keeps_its_way():
    np.testing.assert_allclose(unit(np.array([3.0, 0.0, -4.0])), [0.6, 0.0, -0.8])
    np.testing.assert_allclose(np.linalg.norm(unit(ONE), axis=-1), 1.0)
    np.testing.assert_allclose(np.cross(unit(ONE), ONE), 0.0, atol=1e-12)
    assert (dot(unit(ONE), ONE) > 0).all()


def test_a_vector_is_turned_to_face_another():
    turned = facing(ONE, TWO)
    assert (dot(turned, TWO) >= 0).all()
    np.testing.assert_array_equal(np.abs(turned), np.abs(ONE))
    np.testing.assert_array_equal(facing(X, X), X)
    np.testing.assert_array_equal(facing(X, -X), -X)
    np.testing.assert_array_equal(facing(X, Y), X)  # square to it, it stays


def test_components_broadcast():
    np.testing.assert_array_equal(vector(1, 2.0, np.float64(3)), [1, 2, 3])
    assert vector(1, 2, 3).dtype == float
    many = vector(np.arange(3.0), 7.0, np.array([[1.0], [2.0]]))
    assert many.shape == (2, 3, 3)
    np.testing.assert_array_equal(many[1, 2], [2, 7, 2])
    np.testing.assert_array_equal(vector(np.arange(2.0), 5.0, 6.0)[1], [1, 5, 6])
    np.testing.assert_array_equal(at_height(np.array([[3.0, 4.0]]), 2.0), [[3, 4, 2]])
    np.testing.assert_array_equal(at_height(np.array([3.0, 4.0])), [3, 4, 0])


def test_right_angles_are_exact_and_no_other_is_touched():
    turns = np.arange(-360.0, 361.0, 90.0)
    sine, cosine = sin_cos(turns)
    np.testing.assert_allclose(sine, np.tile([0, 1, 0, -1], 3)[:9], atol=0)
    np.testing.assert_allclose(cosine, np.tile([1, 0, -1, 0], 3)[:9], atol=0)
    for near in (1e-13, 90 + 1e-13, 180 - 5e-14, 37.0, 60.0):
        sine, cosine = sin_cos(near)
        assert sine == np.sin(np.radians(near))
        assert cosine == np.cos(np.radians(near))


@pytest.mark.parametrize(
    ("opposite", "adjacent", "degrees"),
    [(1, 1, 45), (-1, 1, 45), (1, -1, 45), (3**0.5, 1, 60), (0, 2, 0), (2, 0, 90), (-5, 0, 90)],
)
def test_angles_by_hand(opposite, adjacent, degrees):
    assert angle_deg(opposite, adjacent) == pytest.approx(degrees)


def test_signs_of_settings_are_whole_numbers():
    assert [sign(value) for value in (2.5, -0.1, 0.0)] == [1, -1, 0]
    assert type(sign(np.float64(2.5))) is int
