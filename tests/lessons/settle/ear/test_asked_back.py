"""Words that a claim is heard without, and what it turns down itself: said back, never judged."""

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from lessons.settle.ear.hearing import hear
from lessons.settle.findings import ClaimVerdict
from lessons.settle.heard_words import question_words, repeated
from lessons.settle.settle import settle
from lessons.settle.settle_words import read_settled

JACK = answer(ask("hip-jack"))


@pytest.mark.parametrize(
    ("text", "left_out"),
    [
        ("saw 45, hogwash", ("hogwash",)),
        ("no, 45 on the saw", ("no",)),
        ("saw 45 both sides", ("both sides",)),
        ("if the pitch is 8, saw 45", ("if",)),
        ("plumb 8 on the tongue, saw 45", ("tongue",)),
        ("he's wrong, my uncle blathered of 45 on the saw", ("wrong", "blathered")),
    ],
)
def test_what_is_heard_without_a_word_is_asked_about_and_gets_no_verdict(text, left_out):
    (found,) = settle(JACK, [text]).findings
    assert set(found.left_out) == set(left_out)
    assert found.verdict is ClaimVerdict.OPEN
    assert found.judged.fits
    assert all(word in question_words(JACK, found) for word in left_out)


@pytest.mark.parametrize(
    "text",
    ["always 8 and 12, plumb is 33 3/4", "always bevel the edge 45, plumb is 33 3/4"],
)
def test_a_rule_of_several_meanings_that_is_asked_about_is_said_back_by_letter(text):
    settled = settle(JACK, [text])
    (found,) = settled.findings
    assert found.verdict is ClaimVerdict.OPEN
    assert len(found.tried) > 1
    said = read_settled(settled)
    assert "I left out 'plumb 33 3/4'" in said
    assert all(f"\n  ({letter})" in said for letter in "abcd"[: len(found.tried)])


@pytest.mark.parametrize(
    "text",
    ["tilt > 45", "tilt ≈ 45", "tilt 45 percent", "saw 45 or so more", "45 or 40 on the saw",
     "tilt and table 45", "saw 45, three words unknown: foo bar baz qux quux corge"],
)  # fmt: skip
def test_what_turns_a_number_is_refused_outright(text):
    found = hear(text, JACK)
    assert not found.readings
    assert found.quoted


@pytest.mark.parametrize(
    ("text", "denied"),
    [
        ("not 40, it's 45 on the saw", ("40",)),
        ("45 on the saw, not 40", ("40",)),
        ("only a fool sets it at forty, it's 45 on the saw", ("forty",)),
        ("my uncle swore by 9 on 12 on the edge, but I mark 10 on 12", ("9 on 12",)),
        ("not on the face, on the edge: ten on twelve", ("face",)),
    ],
)
def test_what_a_claim_turns_down_is_said_back_and_never_judged(text, denied):
    (found,) = settle(JACK, [text]).findings
    assert found.heard.denied == denied
    assert found.verdict is ClaimVerdict.RIGHT
    assert f"{denied[0]!r} turned down" in repeated(JACK, found)


@pytest.mark.parametrize(
    ("text", "form"),
    [
        ("the edge is never more than that", "always edge N on 12"),
        ("swing the miter saw or tilt it", "board flat: table N, tilt N"),
        ("drop it or not", "drop it N in"),
        ("shorten it or not", "shorten it N in"),
        ("what is the common difference or what", "common difference N in"),
    ],
)
def test_the_form_that_is_offered_can_hold_what_was_said(text, form):
    assert hear(text, JACK).form == form


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("fascia-square", "saw 39 1/4, a plumb one would be 45"),
        ("fascia-square", "tilt 39 1/4, the plumb fascia takes 45"),
        ("purlin-square", "saw 36, plumb ones 45"),
        ("common-tail-level", "33 3/4 is plumb, this is 56 1/4"),
        ("common-tail-plumb", "square this one, plumb the 26 1/2 one"),
        ("common-seat", "56 1/4, plumb is 33 3/4"),
        ("hip-jack", "tilt 45, level is 56 1/4"),
        ("hip-jack", "45, the level is 56 1/4"),
        ("common-ridge", "33 3/4, level 56 1/4"),
        ("gable-stud", "33 3/4 on the saw, the plumb cut of the rafter is 33 3/4 too"),
    ],
)
def test_a_line_told_beside_the_claim_gets_no_sole_verdict(name, text):
    """An aside about another line or board may be one: it is asked about, or refused."""
    (found,) = settle(answer(ask(name)), [text]).findings
    assert found.verdict in (ClaimVerdict.OPEN, ClaimVerdict.UNREAD)


def test_this_cut_s_own_line_told_beside_the_tilt_is_part_of_the_claim():
    (found,) = settle(JACK, ["saw 45, plumb line 33.7"]).findings
    assert len(found.tried) == 1
    assert found.verdict is ClaimVerdict.RIGHT
