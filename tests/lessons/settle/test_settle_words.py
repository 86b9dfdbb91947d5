"""A settled argument said: who is right, where a gap opens, and what is behind it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand
from layout.quantity import read_pitch
from layout.tools.fit import Fit
from lessons.settle.claim import SQUARE, Claim, ClaimedLine
from lessons.settle.findings import ClaimVerdict, LengthFound, Settled
from lessons.settle.opening import opening
from lessons.settle.settle import settle
from lessons.settle.settle_notes import instead_words, reach_words
from lessons.settle.settle_words import headline, length_words, read_settled, verdict_words
from tests.counts import count

SAW_45 = "plumb 12 in 12, saw 45"
BY_HAND = "plumb 12 in 12, edge 8 1/2 on 12"
SAW_35 = "plumb 12 in 12, saw 35 1/4"
EDGE_45 = "plumb 12 in 12, edge 45deg"


def hip_jack(**asked: object) -> Answer:
    return answer(ask("hip-jack", pitch=read_pitch("12 in 12"), **asked))


def settled(true_answer: Answer, *texts: str) -> Settled:
    return settle(true_answer, texts)


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ([SAW_45], "RIGHT."),
        ([SAW_35], "WRONG by 5/16 in."),
        (["plumb 12 in 12"], "OPEN: it can be taken two ways, or leaves the plane open."),
        (["mumble"], "NOT UNDERSTOOD."),
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
        ([SAW_45, "plumb 12"], "CLAIM 1 IS RIGHT. CLAIM 2 IS OPEN."),
        ([SAW_45, "mumble"], "CLAIM 1 IS RIGHT. CLAIM 2 IS NOT UNDERSTOOD."),
    ],
)
def test_the_headline_says_who_is_right(texts, said):
    assert said in headline(settled(hip_jack(), *texts))


@pytest.mark.parametrize(
    ("cut", "text", "said"),
    [
        ("hip-jack", SAW_45, "right: fits: no gap"),
        ("hip-jack", BY_HAND, "right: fits: under 1/128 in (0.0018), within 1/32 in"),
        # Tilted too little, the far face of the cut, the longer one, does not reach the hip's
        # side: for a left cheek that is the right face, from edge to edge.
        ("hip-jack", SAW_35, "leaves 5/16 in (0.311) open all along the long point (right face)"),
        ("hip-jack", "plumb 12 in 12, saw 55", "all along the heel (left face)"),
        # Cut steeper than plumb, it touches at the top and opens at the bottom.
        ("common-ridge", "plumb 14 in 12, edge square", "along the bottom edge"),
        ("common-ridge", "plumb 10 in 12, edge square", "along the top edge"),
        ("common-ridge", "plumb 12 in 12, saw 5", "all along the left face"),
        # A stick cut for the other hand has its own long point on the left face.
        ("hip-jack", "saw 45, right-hand cut", "open all along the right face"),
        ("hip-ridge", "plumb 12 in 17, saw 40", "at the top of the long point (middle)"),
        ("hip-backing", "rip, saw 45", "all along the left face"),
        ("hip-jack", "plumb 12 in 12", "open: What is the saw's tilt, or the number on the edge?"),
        ("hip-jack", "tilt 8 1/2", "wrong: leaves a gap in every way that it can be meant"),
        ("hip-jack", "edge 54.74 degrees", "open: Which is meant: (a) or (b)?"),
        # 0.036 in is more than the 1/32 that is allowed, though both read as 1/32.
        ("common-ridge", "plumb 12 in 12, saw 1.38°", "leaves just over 1/32 in (0.036)"),
    ],
)
def test_one_verdict_in_words(cut, text, said):
    true_answer = answer(ask(cut, pitch=read_pitch("12 in 12")))
    (finding,) = settled(true_answer, text).findings
    assert said in verdict_words(true_answer, finding)


@settings(deadline=None, max_examples=count(60, 15), derandomize=True)
@given(line=st.floats(20, 70), tilt=st.floats(20, 70), hand=st.sampled_from(Hand))
def test_a_gap_opens_where_the_made_plane_stands_farthest_from_the_hip(line, tilt, hand):
    true_answer = hip_jack(hand=hand)
    (judged,) = settled(true_answer, f"face {line}deg, saw {tilt}deg").judged
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
    place = opening(true_answer, judged)
    assert place.face in (shortest[0], None)
    assert place.level in (shortest[1], None)
    longer = "right face" if hand is Hand.LEFT else "left face"
    assert place.point == (None if place.face is None else
                           "long point" if place.face == longer else "heel")  # fmt: skip


@pytest.mark.parametrize(
    ("gaps", "face", "level"),
    [
        ([1, 0, 0, 1], "right face", None),
        ([0, 1, 1, 0], "left face", None),
        ([1, 1, 0, 0], None, "bottom"),
        ([0, 0, 1, 1], None, "top"),
        ([0, 0, 0, 1], "right face", "top"),
    ],
)
def test_a_gap_along_one_side_of_an_outlined_surface_opens_along_it(gaps, face, level):
    """The corners go round from the right bottom to the left; each has its place in the surface."""
    true_answer = hip_jack()
    (judged,) = settled(true_answer, SAW_35).judged
    places = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    for spots in (None, places):
        place = opening(true_answer, replace(judged, fit=Fit(np.array(gaps, float), spots)))
        assert (place.face, place.level) == (face, level)


def test_a_side_said_two_ways_shows_what_each_comes_to():
    """The blade under the waste, on a face that is not named: one of both faces makes it fit."""
    text = read_settled(settled(hip_jack(), "plumb 12 in 12, saw 45, the blade in under the waste"))
    told = [line for line in text.splitlines() if line.startswith("  if meant ")]
    assert [line for line in told if "fits" in line] == [
        "  if meant   plumb 12 in 12, saw 45, left cheek: fits: no gap"
    ]
    assert any("right cheek: leaves 2 1/8 in" in line for line in told)  # 1 1/2 sqrt 2


def test_on_a_flat_roof_the_right_claim_is_still_told_by_the_square():
    """1/2 in 12 is 1 in 24: both numbers lie on the square, and say more than 2.39 degrees."""
    flat = answer(ask("hip-jack", pitch=read_pitch("0.5 in 12")))
    assert "instead    plumb 1 in 24, saw 45" in read_settled(
        settled(flat, "plumb 3 in 12, saw 45")
    )


def test_read_aloud_the_verdict_comes_first_and_the_cautions_last():
    text = read_settled(settled(hip_jack(), SAW_35, BY_HAND))
    lines = text.splitlines()
    assert lines[0].startswith("CLAIM 2 IS RIGHT. CLAIM 1 IS WRONG by 5/16 in.")
    assert "test cut on scrap" in lines[-3]
    assert "the approved drawings, local code and licensed practice govern" in lines[-1]
    assert "CLAIM 1      plumb 12 in 12, saw 35 1/4" in lines
    assert "  instead    plumb 12 in 12, saw 45: only the tilt changes" in lines
    assert "side number as tilt" in text
    assert "  looks like side number as tilt" in text
    assert "forty five on edge" not in text  # nobody spoke of an edge mark
    assert "it leans as the joint does: left cheek" in " ".join(text.split())
    assert max(map(len, lines[:-2])) <= 92


def test_it_repeats_before_it_judges():
    text = " ".join(
        read_settled(settled(hip_jack(), "edge 45", "plum 12 in 12", "saw 30", "dado 45")).split()
    )
    assert (
        "edge marked 45° from square across (face marked 45° from square across as this cut" in text
    )
    assert "('plum' taken for 'plumb')" in text
    assert "the mark on the face is right; alone it lets the plane swing about it" in text
    assert "OPEN Does the shoe ride the face or the edge?" in text
    assert "or shoe on the edge, tilt 30: fits: no gap" in text
    assert "UNREAD not understood at 'dado'" in text
    assert "say it like this, with a number for each N: plumb N in 12, saw N" in text


def test_a_reading_that_fits_another_way_is_said_to_fit_so():
    """30 is the jack's tilt with the shoe on the edge at 12 in 12: asin(sin 45 sin 45)."""
    text = " ".join(read_settled(settled(hip_jack(), "30")).split())
    assert (
        "open all along the long point (right face); as shoe on the edge, tilt 30 it fits" in text
    )
    assert text.count("it fits") == 1


def test_a_tilt_past_the_saw_is_told():
    true_answer = answer(ask("hip-jack", pitch=read_pitch("8"), other_pitch=read_pitch("10")))
    text = " ".join(read_settled(settled(true_answer, "plumb 8 in 12, saw 45")).split())
    assert "is past the 50° this saw tilts. What remains: " in text


def test_a_mistake_that_passes_by_luck_is_told():
    true_answer = answer(ask("hip-jack", pitch=read_pitch("1 in 12")))
    text = " ".join(read_settled(settled(true_answer, "plumb 1 in 12, edge 12 on 12")).split())
    assert text.startswith("RIGHT.")
    assert "It passes here by luck; elsewhere it costs more." in text


def test_a_right_claim_that_no_saw_reaches_says_so():
    """An octagon's jack: 67.5 is the true tilt, and no circular saw tilts so far."""
    true_answer = answer(ask("hip-jack", pitch=read_pitch("12"), corner_deg=135.0))
    text = " ".join(read_settled(settled(true_answer, "plumb 12 in 12, saw 67.5")).split())
    assert text.startswith("RIGHT.")
    assert "but out of reach: a tilt of 67.5° is past the 50° this saw tilts" in text
    assert "with a handsaw" in text


@pytest.mark.parametrize(
    ("cut", "text", "said"),
    [
        ("hip-jack", "plumb 12 in 12, saw 40", "only the tilt changes"),
        ("hip-jack", "plumb 10 in 12, saw 45", "only the face mark changes"),
        ("hip-jack", "plumb 10 in 12, saw 30", "the face mark and the tilt change"),
        ("hip-jack", "plumb 12 in 12, edge 10 on 12", "only the edge mark changes"),
        ("hip-jack", "plumb 12 in 12, saw 45, right cheek", "only the cheek's side changes"),
        ("hip-jack", "face 45, saw 45, top to foot", "only the mark's lean changes"),
        ("hip-jack", "edge 12 on 12", "only the edge mark changes"),
        # A plumb line leans as a plumb line does: its lean is a change only of the same line.
        (
            "hip-jack",
            Claim(face=ClaimedLine("plumb", 12, 12), tilt_deg=45, top="foot"),
            "only the mark's lean changes",
        ),
        (
            "hip-jack",
            Claim(face=ClaimedLine("plumb", 10, 12), tilt_deg=45, top="foot"),
            "only the face mark changes",
        ),
        ("hip-backing", "gauge 3/4 drop 3/4", "only the gauge changes"),
        ("hip-backing", "rip, saw 10", "only the tilt changes"),
        ("hip-backing", "rip, saw 30, bottom edge", "only the edge changes"),
    ],
)
def test_what_changes_is_named_and_nothing_else(cut, text, said):
    """A hip's backing at 12 in 12 is atan(12 / sqrt(12^2 + 288)) = 30."""
    true_answer = answer(ask(cut, pitch=read_pitch("12 in 12")))
    (judged,) = settled(true_answer, text).judged
    assert instead_words(true_answer, judged) == said


@pytest.mark.parametrize(
    ("claim", "said"),
    [
        (Claim(edge=SQUARE, tilt_deg=60, shoe="edge"), "out of reach: it is past the 50° this"),
        (Claim(edge=SQUARE, tilt_deg=50, shoe="edge"), ""),
        (Claim(face=SQUARE, edge=SQUARE), ""),
    ],
)
def test_a_saw_on_the_edge_reaches_as_far_as_it_tilts(claim, said):
    assert reach_words(hip_jack(), claim).startswith(said)
    assert bool(reach_words(hip_jack(), claim)) == bool(said)


@pytest.mark.parametrize(
    ("said_in", "true_in", "metric", "words"),
    [
        (36.5, 36.0, False, "it: 36 in (36.000); what is said is 1/2 in too long"),
        (36.0, 36.5, False, "it: 3'-0 1/2\" (36.500 in); what is said is 1/2 in too short"),
        (10.0, 12.0, True, "it: 305 mm; what is said is 51 mm too short"),
    ],
)
def test_a_length_over_a_yard_is_told_in_feet(said_in, true_in, metric, words):
    found = LengthFound(ClaimVerdict.WRONG, said_in, true_in, "it")
    assert length_words(found, metric=metric) == words
