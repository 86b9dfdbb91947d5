"""One roof plane by plain arithmetic: 6 in 12 over a wall askew in the world."""

import numpy as np
import pytest

from layout.framing.face import Face
from layout.quantity import read_pitch

ALONG, INWARD = np.array([0.8, 0.6, 0.0]), np.array([-0.6, 0.8, 0.0])
ORIGIN = np.array([30.0, -7.0, 0.0])


def face(overhang_in: float = 12.0) -> Face:
    return Face("front", read_pitch("6 in 12"), ORIGIN, ALONG, INWARD, 5.0, overhang_in, 0.75)


def test_a_point_of_the_roof() -> None:
    """9 along the eave and 20 inward it is 20 / 2 higher than over its wall."""
    plan = face().on_eave(9.0, 20.0)
    assert plan == pytest.approx(ORIGIN + 9 * ALONG + 20 * INWARD)
    top = face().lifted(plan)
    assert top == pytest.approx([*plan[:2], 15.0])
    assert face().slope == 0.5
    assert face().above_in(top + np.array([[0, 0, 0], [0, 0, 1.0]])) == pytest.approx(
        [0.0, 2 / np.sqrt(5)]
    )
    assert face().normal == pytest.approx((np.array([0, 0, 2.0]) - INWARD) / np.sqrt(5))
    assert face().upslope == pytest.approx((2 * INWARD + [0, 0, 1.0]) / np.sqrt(5))


@pytest.mark.parametrize(("overhang", "tail"), [(12.0, 11.25), (0.75, 0.0), (0.0, 0.0)])
def test_a_tail_ends_behind_its_fascia_or_over_the_wall(overhang: float, tail: float) -> None:
    assert face(overhang).tail_run_in == tail
