"""Edges ripped to a roof: which arris the bevel begins at, from the corners of the board alone."""

import numpy as np
import pytest

from layout.answer.question import ask
from layout.cuts import Hand
from layout.quantity import Pitch
from layout.stock import read_stock


def pitch(deg):
    return Pitch(float(np.tan(np.radians(deg))), 1.0, f"{deg} deg")


@pytest.mark.parametrize("hand", list(Hand))
@pytest.mark.parametrize(
    ("own", "other", "corner", "obtuse"),
    [(25.0, 35.0, 270.0, False), (40.0, 20.0, 250.0, False), (65.0, 65.0, 300.0, True)],
)
def test_a_sleeper_s_edge_is_brought_under_the_roof(own, other, corner, obtuse, hand):
    """Of both arrises along the outer edge one lies in the roof's plane, and the other one, which
    would stand out of it, is taken off. Mostly the first is the one on the deck."""
    said = ask(
        "sleeper-edge", pitch=pitch(own), other_pitch=pitch(other), corner_deg=corner, hand=hand
    )
    (cut,) = said.joint.cuts(said.stock)
    arrises = np.array([[0.0, y, 0.0] for y in (0.0, said.stock.thickness_in)])
    out = arrises @ cut.normal - cut.level_in
    assert out.min() == pytest.approx(0, abs=1e-12)
    assert out.max() > 0.1
    roofs = said.corner
    assert (float(roofs.normal @ roofs.other_normal) < 0) == obtuse
    deck = int(said.joint.pose.left[2] < 0)  # the face that looks down: 1 is the left one
    assert (np.argmin(out) == deck) != obtuse


@pytest.mark.parametrize("hand", list(Hand))
@pytest.mark.parametrize("name", ["hip-backing", "valley-backing"])
def test_a_backing_lies_in_both_roofs(name, hand):
    """A hip's bevels meet on the middle of the edge; a valley's begin at the arris of the face on
    their own roof's side, and the hollow between them is what lies under neither."""
    corner = 110.0 if name == "hip-backing" else 250.0
    said = ask(name, pitch=pitch(25), other_pitch=pitch(35), corner_deg=corner, hand=hand,
               stock=read_stock("4x8"))  # fmt: skip
    thick, depth = said.stock.thickness_in, said.stock.depth_in
    cuts = said.joint.cuts(said.stock)
    assert len(cuts) == 2
    edge = {at: np.array([0.0, at * thick, depth]) for at in (0.0, 0.5, 1.0)}
    for cut in cuts:
        out = {at: float(point @ cut.normal) - cut.level_in for at, point in edge.items()}
        side = 1.0 if cut.normal[1] > 0 else 0.0
        if name == "hip-backing":
            assert out[0.5] == pytest.approx(0, abs=1e-12)
            assert out[side] > 0.1 > -0.1 > out[1.0 - side]
        else:
            # The roof over a face rises away from the valley: its normal leans to the other face.
            assert out[1.0 - side] == pytest.approx(0, abs=1e-12)
            assert out[0.5] > 0.1
