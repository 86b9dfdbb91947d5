"""How every stick of the catalogue lies: where its head points and what its top edge looks at.

Common practice, no source: a rafter runs up its roof and stands plumb, a purlin follows the eave.
"""

import numpy as np
import pytest

from layout.cuts import catalogue
from layout.plane.corner import Corner

Z = np.array([0.0, 0.0, 1.0])
PLUMB = "plumb"
"""The sides stand plumb, and the top edge looks up."""
RAFTER = (lambda corner: corner.upslope, PLUMB)
ON_LINE = (lambda corner: corner.line, PLUMB)


def along_eave(corner):
    return -corner.eave


def up_the_side(corner):
    """Up a box's side that leans out over its eave as far as a roof would lean in."""
    return corner.upslope * np.array([1.0, -1.0, 1.0])


STICKS = {
    **dict.fromkeys(("brace", "common", "jack"), RAFTER),
    **dict.fromkeys(("hip", "valley"), ON_LINE),
    "gable-stud": (lambda corner: Z, lambda corner: corner.eave),
    "rake-board": RAFTER,
    "collar-tie": (lambda corner: -corner.inward, lambda corner: Z),
    "fascia-plumb": (along_eave, lambda corner: Z),
    "fascia-square": (along_eave, lambda corner: corner.normal),
    "purlin-plumb": (along_eave, lambda corner: Z),
    "purlin-square": (along_eave, lambda corner: corner.normal),
    "roof-board": (along_eave, lambda corner: corner.upslope),
    "splayed": (along_eave, up_the_side),
    "deck-valley-jack": RAFTER,
    # flat on the deck, so its edge lies in the deck, square to the line
    "sleeper": (
        lambda corner: corner.line,
        lambda corner: np.cross(corner.other_normal, corner.line),
    ),
}
ENDS = [(name, end) for name, entry in catalogue().items() for end in entry.ends]


@pytest.mark.parametrize("hand", [1.0, -1.0])
def test_a_box_s_next_side_is_the_same_board_mitered_or_butted(hand):
    """In one box the two cuts face different hands: the one's left is the other's right."""
    miter = catalogue()["splayed-miter"].joint(Corner(65.0, 75.0, 100.0, hand))
    butt = catalogue()["splayed-butt"].joint(Corner(65.0, 75.0, 100.0, -hand))
    np.testing.assert_array_equal(miter.pose.axes, butt.pose.axes)
    np.testing.assert_array_equal(miter.planes[0].mate.axes, butt.planes[0].mate.axes)


@pytest.mark.parametrize(("name", "end"), ENDS)
@pytest.mark.parametrize("hand", [1.0, -1.0])
def test_a_stick_lies_as_its_name_says(name, end, hand):
    """The corner may be turned about for the hand: one of both sides has the stick's lines."""
    entry = catalogue()[name]
    angle = {"hip": 100.0, "valley": 250.0, "either": 250.0}.get(entry.meets, 90.0)
    way, top = next(
        STICKS[key] for key in (name, entry.family, name.partition("-")[0]) if key in STICKS
    )
    off = []
    for side in (hand, -hand):
        corner = Corner(25.0, 35.0, angle, side)
        pose = entry.joint(Corner(25.0, 35.0, angle, hand), end).pose
        misses = [1.0 - float(pose.head @ way(corner))]
        if top is PLUMB:
            misses += [abs(float(pose.left @ Z)), float(pose.up @ Z <= 0)]
        else:
            misses.append(1.0 - abs(float(pose.up @ top(corner))))
        off.append(max(misses))
    assert min(off) == pytest.approx(0, abs=1e-12)
