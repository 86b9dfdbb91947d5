"""Two cheeks against both mates at once: a point laid beside its place opens on the roof."""

from functools import cache

import numpy as np
import pytest

from layout.answer import together
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.framing.ends import end_question
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.quantity import read_pitch
from layout.stock import read_stock


@cache
def hip_head(end_pitch="12"):
    pitches = read_pitch("8"), read_pitch(end_pitch)
    plan = RoofPlan(288, 192, *pitches, hip=read_stock("2x10"), spacing_in=48.0)
    roof = frame(plan)
    return answer(end_question(roof.by_name["H1"], "head", roof.by_name))


@pytest.mark.parametrize("end_pitch", ["4", "8", "9", "12"])
def test_exact_cheeks_lie_against_both_mates(end_pitch):
    for fit in together.exact(hip_head(end_pitch)):
        assert float(fit.widest_in) < 1e-9


def test_the_catalogue_stands_where_the_roof_does():
    """8 and 12 in 12: the ends on the top edge lie 1.643 apart, by the framed solid."""
    own = hip_head()
    listed = answer(
        ask("hip-ridge", pitch=read_pitch("8"), other_pitch=read_pitch("12"),
            stock=read_stock("2x10"))
    )  # fmt: skip
    for one in (own, listed):
        ends = [[cut.x_at(y, 9.25) for cut in one.cuts] for y in (0.0, 1.5)]
        start = together._start(one)
        short = min(min(pair) for pair in ends)
        assert start[0] - short == pytest.approx(1.643, abs=5e-4)


def test_a_point_in_the_middle_of_the_edge_gapes():
    """The point drawn mid-edge, as each cheek alone would allow, opens 3/8 in on one cheek.

    By hand: planes at 3/4 in from the line, n and m; put through the middle instead the end
    slides until the nearer plane touches, and the other stands off by the difference of both
    planes' places along the board times its nx.
    """
    own = hip_head()
    at = [float(cut.x_at(0.75, 0.0)) for cut in own.cuts]
    slide = min(at)
    by_hand = max((x - slide) * abs(float(c.normal[0])) for x, c in zip(at, own.cuts, strict=True))
    assert by_hand == pytest.approx(3 / 8, abs=0.02)
    every = sorted((own, *own.others), key=lambda one: one.plane_index)
    settings = [one.hand_setting(False) for one in every]
    laid = together.together(own, settings, np.array([0.0, 0.75, 9.25]))
    assert float(laid.widest_in) == pytest.approx(by_hand, abs=1e-9)


def test_as_read_they_stay_within_the_limit_at_equal_pitches():
    for fit in together.as_read(hip_head("8")):
        assert float(fit.widest_in) < 1 / 32
    for name, two in (
        ("hip-ridge", True),
        ("hip-tail", True),
        ("hip-jack", False),
        ("hip-backing", False),  # two bevels, and no end
        ("valley-tail", False),  # two cheeks of a hollow
        ("common-seat", False),
    ):
        assert together.has_two_cheeks(answer(ask(name))) == two
