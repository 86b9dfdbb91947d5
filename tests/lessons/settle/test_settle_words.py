"""A settled argument said: who is right, where a gap opens, and what is behind it."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand
from layout.quantity import read_pitch
from lessons.settle.grammar import read_claim
from lessons.settle.settle import Settled, settle
from lessons.settle.settle_words import headline, opening, read_settled, verdict_words

SAW_45 = "plumb 12 in 12, saw 45"
BY_HAND = "plumb 12 in 12, edge 8 1/2 on 12"
SAW_35 = "plumb 12 in 12, saw 35 1/4"
EDGE_45 = "plumb 12 in 12, edge 45deg"


def hip_jack(**asked: object) -> Answer:
    return answer(ask("hip-jack", pitch=read_pitch("12 in 12"), **asked))


def settled(right: Answer, *texts: str) -> Settled:
    return settle(right, [read_claim(text) for text in texts])


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ([SAW_45], "RIGHT."),
        ([SAW_35], "WRONG by 5/16 in."),
        (["plumb 12 in 12"], "OPEN: the claim fixes no plane."),
        ([SAW_45, BY_HAND], "BOTH ARE RIGHT. They cut the same plane, within under 1/128 in"),
        ([SAW_45, "saw flat 45 tilt 45"], "BOTH ARE RIGHT. They cut the same plane."),
        ([SAW_35, BY_HAND], "CLAIM 2 IS RIGHT. CLAIM 1 IS WRONG by 5/16 in."),
        (
            [EDGE_45, "plumb 12 in 12, edge 12 on 12"],
            "NEITHER IS RIGHT. CLAIM 1 IS WRONG by 5/16 in. CLAIM 2 IS WRONG by 5/16 in."
            " They cut the same plane, but not the joint's.",
        ),
        ([SAW_45, BY_HAND, "on edge 54.7 tilt 30"], "ALL ARE RIGHT."),
        ([SAW_45, SAW_35, BY_HAND], "CLAIMS 1 and 3 ARE RIGHT. CLAIM 2 IS WRONG"),
        ([SAW_45, SAW_35, BY_HAND], "Claims 1 and 3 cut the same plane"),
        ([SAW_35, EDGE_45, "square"], "NONE IS RIGHT."),
        ([SAW_45, "saw 45"], "CLAIM 1 IS RIGHT. CLAIM 2 IS OPEN: nothing fixes the plane."),
    ],
)
def test_the_headline_says_who_is_right(texts, said):
    assert said in headline(settled(hip_jack(), *texts))


@pytest.mark.parametrize(
    ("cut", "text", "said"),
    [
        ("hip-jack", SAW_45, "right: no gap, exact"),
        ("hip-jack", BY_HAND, "right: 0.0018 in, within 1/32 in"),
        # Tilted too little, the far face of the cut, the longer one, does not reach the hip's
        # side: for a left cheek that is the right face, from edge to edge.
        ("hip-jack", SAW_35, "wrong: opens 5/16 in (0.311) all along the long point (right face)"),
        ("hip-jack", "plumb 12 in 12, saw 55", "all along the heel (left face)"),
        # Cut steeper than plumb, it touches at the top and opens at the bottom.
        ("common-ridge", "plumb 14 in 12, edge square", "along the bottom edge"),
        ("common-ridge", "plumb 10 in 12, edge square", "along the top edge"),
        ("common-ridge", "plumb 12 in 12, saw 5", "all along the left face"),
        ("hip-ridge", "plumb 12 in 17, saw 40", "at the top of the long point (middle)"),
        ("hip-backing", "rip, saw 45", "all along the left face"),
        ("hip-jack", "plumb 12 in 12", "open: it lacks an edge mark or the saw's tilt"),
        ("hip-jack", "edge 45deg", "open: it lacks a face mark"),
    ],
)
def test_one_verdict_in_words(cut, text, said):
    right = answer(ask(cut, pitch=read_pitch("12 in 12")))
    (judged,) = settled(right, text).judged
    assert said in verdict_words(right, judged)


@settings(deadline=None, max_examples=60, derandomize=True)
@given(line=st.floats(20, 70), tilt=st.floats(20, 70), hand=st.sampled_from(Hand))
def test_a_gap_opens_where_the_made_plane_stands_farthest_from_the_hip(line, tilt, hand):
    right = hip_jack(hand=hand)
    (judged,) = settled(right, f"face {line}deg, saw {tilt}").judged
    # The face line runs by tan(line) for each inch up; the blade, tilted about it, sets the
    # far face back or forth by tan(tilt) / cos(line) for each inch of thickness.
    along = {}
    for side, y in (("right face", 0.0), ("left face", 1.5)):
        for level, z in (("bottom", 0.0), ("top", 5.5)):
            aside = y if hand is Hand.LEFT else 1.5 - y
            drawn_back = aside * np.tan(np.radians(tilt)) / np.cos(np.radians(line))
            made = z * np.tan(np.radians(line)) - drawn_back
            mate = z - aside * np.sqrt(2)  # the hip's side at 12 in 12
            along[side, level] = made - mate
    shortest = min(along, key=lambda corner: along[corner])
    place = opening(right, judged)
    assert place.face in (shortest[0], None)
    assert place.level in (shortest[1], None)
    longer = "right face" if hand is Hand.LEFT else "left face"
    assert place.point == (None if place.face is None else
                           "long point" if place.face == longer else "heel")  # fmt: skip


def test_read_aloud_the_verdict_comes_first_and_the_cautions_last():
    text = read_settled(settled(hip_jack(), SAW_35, BY_HAND))
    lines = text.splitlines()
    assert lines[0].startswith("CLAIM 2 IS RIGHT. CLAIM 1 IS WRONG by 5/16 in.")
    assert "test cut on scrap" in lines[-3]
    assert "the approved drawings, local code and licensed practice govern" in lines[-1]
    assert "CLAIM 1     plumb 12 in 12, saw 35 1/4" in lines
    assert "  instead   plumb 12 in 12, saw 45: only the tilt changes" in lines
    assert "side number as tilt" in text
    assert "  or        forty five on edge" in text
    assert "it leans as the joint does: left cheek, top to head" in " ".join(text.split())
    assert max(map(len, lines[:-2])) <= 92


def test_what_is_open_is_looked_at_with_the_joints_own():
    text = " ".join(read_settled(settled(hip_jack(), "edge 45deg", "plumb 12 in 12")).split())
    assert "with the joint's own face mark of 45°, it opens 5/16 in" in text
    assert "with the joint's own tilt of 45°, it fits" in text


def test_a_tilt_past_the_saw_is_told():
    right = answer(ask("hip-jack", pitch=read_pitch("8"), other_pitch=read_pitch("10")))
    text = " ".join(read_settled(settled(right, "plumb 8 in 12, saw 45")).split())
    assert "the tilt is past the 50° a common saw leans to" in text


def test_a_mistake_that_passes_by_luck_is_told():
    right = answer(ask("hip-jack", pitch=read_pitch("1 in 12")))
    text = " ".join(read_settled(settled(right, "plumb 1 in 12, edge 12 on 12")).split())
    assert text.startswith("RIGHT.")
    assert "It passes here by luck; elsewhere it costs more." in text
