"""Joints of long fascias, over tails whose places are given."""

from itertools import pairwise

import pytest

from layout.framing.fascia_joints import TailOnFascia, joints_on


def tails(*at_in: float) -> list[TailOnFascia]:
    return [TailOnFascia(f"C{k}", at) for k, at in enumerate(at_in, 1)]


@pytest.mark.parametrize(
    ("at_in", "length_in", "names"),
    [
        ((50, 100, 150), 200, []),  # one board
        ((90, 150, 210), 300, ["C2"]),  # the very middle
        ((90, 140, 170, 210), 300, ["C2"]),  # 140 is 10 in off the middle, 170 is 20
        ((40, 170, 260), 300, ["C2"]),  # 130 in and 170
        # 40 and 260 leave parts of 260 in, longer than 240: three boards instead, of 40, 220 and 40
        ((40, 260), 300, ["C1", "C2"]),
        # thirds of 600 at 200 and 400: 180, then half of the rest at 390; 240 at most is left
        ((180, 230, 390, 450), 600, ["C1", "C3"]),
        # 350 would leave 250: too long for a board, so 420
        ((180, 350, 420), 600, ["C1", "C3"]),
    ],
)
def test_a_joint_lies_on_the_tail_nearest_to_equal_parts(
    at_in: tuple[float, ...], length_in: float, names: list[str]
) -> None:
    joints = joints_on(tails(*at_in), length_in, 240)
    assert joints is not None
    assert [joint.stick for joint in joints] == names
    ends = [0.0, *(joint.at_in for joint in joints), length_in]
    assert max(b - a for a, b in pairwise(ends)) <= 240


@pytest.mark.parametrize("at_in", [(), (30,)])
def test_where_no_tails_allow_it_there_are_no_joints(at_in: tuple[float, ...]) -> None:
    assert joints_on(tails(*at_in), 300, 240) is None
