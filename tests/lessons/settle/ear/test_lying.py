"""How a board lies on a miter saw, with the board in the hand: turned in space, cut, read back."""

from itertools import product

import numpy as np
import pytest

from layout.cuts import Hand
from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.lying import LiesTwiceError, turned
from lessons.settle.ear.trade_tokens import Token

# Who stands before the saw: x to the right, y away from them to the fence, z up.
RIGHT, AWAY, UP = np.eye(3)
# Board axes: x to the head, y to the left face, z to the top edge.
SIDES = {"left": (0, 1, 0), "right": (0, -1, 0), "top": (0, 0, 1), "bottom": (0, 0, -1)}


def part(*names: str) -> Clause:
    return Clause(None, [Token("cue", name, name) for name in names])


def board_in_space(down: str, head: int) -> np.ndarray:
    """The rotation from board axes to those of the saw, its columns the board's axes in space."""
    x = head * RIGHT
    side = np.array(SIDES[down], dtype=float)
    for fourth in range(4):  # the board rolled about its length until that side is down
        angle = fourth * np.pi / 2
        y = np.cos(angle) * AWAY + np.sin(angle) * UP
        turn = np.column_stack([x, y, np.cross(x, y)])
        if np.allclose(turn @ side, -UP):
            return turn
    raise AssertionError


def blade(swing: int, lean: int) -> np.ndarray:
    """The normal of the blade, to the right, a little swung and leaned.

    The front of the table is swung to the right: that is a turn about the upright, as seen from
    above counterclockwise. The top of the blade leans to the right: about the line away from them.
    """
    small = 0.1
    c, s = np.cos(swing * small), np.sin(swing * small)
    about_up = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])
    c, s = np.cos(lean * small), np.sin(lean * small)
    about_away = np.array([[c, 0, s], [0, 1, 0], [-s, 0, c]])
    return about_up @ about_away @ RIGHT


@pytest.mark.parametrize("end", [1, -1])
@pytest.mark.parametrize(("down", "head"), list(product(SIDES, (1, -1))))
def test_table_and_blade_cut_as_the_board_lies(end, down, head):
    lies = board_in_space(down, head)
    (fence,) = [side for side, out in SIDES.items() if np.allclose(lies @ out, AWAY)]
    waste = end * head
    places = (
        (f"{down}down", "headright" if head > 0 else "headleft"),
        (f"{down}down", "wasteright" if waste > 0 else "wasteleft"),
        (f"{down}down", f"{fence}fence"),
        (f"{down}down", f"{fence}fence", "headright" if head > 0 else "headleft"),
    )
    for place, swing, lean in product(places, (-1, 0, 1), (-1, 0, 1)):
        normal = lies.T @ (waste * blade(swing, lean))
        assert normal[0] * end > 0
        hand = {1: Hand.LEFT, -1: Hand.RIGHT}.get(int(np.sign(np.round(normal[1], 9))))
        leans = int(np.sign(np.round(normal[2] * end, 9)))
        top = {1: "foot", -1: "head"}.get(leans)
        said = [part(*place)]
        used = set()
        if swing:
            word = "toright" if swing > 0 else "toleft"
            said.append(part("table", word))
            used.add(word)
        if lean:
            word = ("leanright", "toright")[swing == 0] if lean > 0 else "leanleft"
            said.append(part("tilt", word))
            used.add(word)
        assert turned(said, end) == (hand, top, used), (place, swing, lean)


def test_without_a_place_no_side_of_the_saw_says_anything():
    swung = part("table", "toright")
    assert turned([swung], 1) is None
    assert turned([part("rightdown"), swung], 1) is None
    assert turned([part("headright"), swung], 1) is None
    assert turned([part("rightdown", "headright"), swung], 0) is None
    assert turned([part("rightdown", "headright"), part("toright")], 1) == (None, None, set())


@pytest.mark.parametrize(
    "names",
    [
        ("rightdown", "leftdown", "headright"),
        ("rightdown", "headright", "headleft"),
        ("rightdown", "headright", "headleft", "bottomfence"),
        ("rightdown", "headright", "wasteleft"),
        ("rightdown", "topfence", "bottomfence"),
        ("rightdown", "leftfence"),
        ("rightdown", "rightfence"),
        ("rightdown", "topfence", "headright"),
    ],
)
def test_a_board_that_cannot_lie_so(names):
    """Right face down, head to the right: the bottom edge is at the fence."""
    with pytest.raises(LiesTwiceError):
        turned([part(*names)], 1)
