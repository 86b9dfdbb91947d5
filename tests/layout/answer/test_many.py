"""One cut in many roofs at once says of each what a single question says."""

from itertools import product

import numpy as np
import pytest

from layout.answer.many import in_many
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.errors import CutError, RoofError
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.counts import part_of

RISES = ("3 in 12", "9 in 12", "17 1/2 in 12")
CORNERS = {
    "nothing": (90.0,),
    "hip": (60.0, 90.0, 135.0),
    "valley": (225.0, 270.0, 315.0),
    "either": (90.0, 135.0, 270.0),
}
BOARD = read_stock("4x8")


def told(entry, end, roof):
    own, other, corner_deg, hand = roof
    pitches = {"pitch": read_pitch(own), "other_pitch": read_pitch(other)}
    return {**pitches, "corner_deg": corner_deg, "hand": hand, "end": end}


@pytest.mark.parametrize(
    ("name", "end"),
    part_of([(name, end) for name, entry in catalogue().items() for end in entry.ends], 4),
)
def test_each_of_many_is_the_single_question(name, end):
    entry = catalogue()[name]
    roofs = list(product(RISES, RISES, CORNERS[entry.meets], Hand))
    many = in_many([ask(name, **told(entry, end, roof), placed=False) for roof in roofs])
    cuts = many.cuts(BOARD)
    at = dict(zip(many.places, range(len(many.questions)), strict=True))
    for place, roof in enumerate(roofs):
        try:
            single = ask(name, **told(entry, end, roof))
        except (CutError, RoofError):
            assert place not in at
            continue
        case = at.pop(place)
        assert many.questions[case] is not single
        for together, alone in zip(cuts, single.joint.cuts(BOARD), strict=True):
            np.testing.assert_allclose(together.normal[case], alone.normal, atol=1e-14)
            np.testing.assert_allclose(together.point[case], alone.point, atol=1e-12)
            np.testing.assert_allclose(together.span[case], alone.span, atol=1e-9)
        told_joint = many.questions[case].joint
        np.testing.assert_allclose(told_joint.pose.axes, single.joint.pose.axes, atol=1e-14)
        assert many.questions[case].pitch == single.pitch
    assert not at


def test_a_corner_of_one_roof_plane_refuses_no_other():
    """Walls in line under one pitch are one roof, without a line; the rest have theirs."""
    corners = (90.0, 60.0, 180.0, 135.0, 270.0)
    questions = [
        ask("purlin-square", corner_deg=corner_deg, placed=False) for corner_deg in corners
    ]
    with pytest.raises(RoofError):
        _ = questions[2].joint
    many = in_many(questions)
    assert many.places == (0, 1, 3, 4)
    assert in_many(questions[2:3]) is None
    for pair, place in (((2, 0), 1), ((0, 2), 0)):
        two = in_many([questions[case] for case in pair])
        assert two.places == (place,)
