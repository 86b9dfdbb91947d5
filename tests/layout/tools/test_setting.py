"""Every kind of setting, read off a plane by plain tangents, puts that plane back."""

import numpy as np
import pytest

from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw
from tests.counts import count

DRAWN = np.random.default_rng(17).normal(size=(count(200, 40), 3))
NORMALS = DRAWN / np.linalg.norm(DRAWN, axis=1)[:, None]


@pytest.mark.parametrize("n", NORMALS, ids=range(len(NORMALS)))
def test_an_end_is_put_back_by_all_three_ways(n):
    """A line on the right face leans by -nz / nx a unit up, one on an edge by -ny / nx to the
    left; the blade leans by the sine of what the plane has of the surface under the shoe."""
    top, left, end = (int(np.sign(part)) for part in (-n[2] / n[0], -n[1] / n[0], n[0]))
    face, edge = (abs(n[2]), abs(n[0])), (abs(n[1]), abs(n[0]))
    by_hand = ByHand(face, top, edge, left, end)
    np.testing.assert_allclose(by_hand.normal, n, atol=1e-12)
    tilt, edge_tilt = (np.degrees(np.arcsin(abs(part))) for part in (n[1], n[2]))
    line, edge_line = (np.degrees(np.arctan2(*legs)) for legs in (face, edge))
    on_face = BySaw(line, top, tilt, -int(np.sign(n[1])), end)
    np.testing.assert_allclose(on_face.normal, n, atol=1e-12)
    on_edge = BySawOnEdge(edge_line, left, edge_tilt, int(np.sign(n[2])), end)
    np.testing.assert_allclose(on_edge.normal, n, atol=1e-12)


@pytest.mark.parametrize("top", [1, -1])
@pytest.mark.parametrize("right", [1, -1])
def test_a_rip_is_put_back_by_both_ways(top, right):
    """3/4 over the edge and 1/2 down the face: n is to (0, 1/2, 3/4) as the waste lies."""
    n = np.array([0.0, -right * 0.5, top * 0.75]) / np.hypot(0.5, 0.75)
    np.testing.assert_allclose(RipByHand(0.75, 0.5, top, right).normal, n, atol=1e-12)
    tilt = np.degrees(np.arctan2(0.5, 0.75))
    np.testing.assert_allclose(RipBySaw(tilt, top, right).normal, n, atol=1e-12)
