"""What was heard said back in plain words, the question that closes it, and what is noted of it."""

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.quantity import read_pitch
from lessons.settle.argument import argued
from lessons.settle.conditions import RoofCondition, conditioned, placed
from lessons.settle.findings import ClaimVerdict
from lessons.settle.heard_words import question_words, repeated
from lessons.settle.lengths import Building
from lessons.settle.settle_notes import notes

FACE_LENT = "face marked 33.69° from square across as this cut is"
FLAT = "saw with its shoe on the face, tilted 45°"


def settled(cut, said):
    return argued(answer(ask(cut, pitch=read_pitch("8"))), [said], Building(run_in=72.0))


@pytest.mark.parametrize(
    ("cut", "said", "heard", "question"),
    [
        ("hip-jack", "plumb 8 in 12, saw 45", f"plumb mark by 8 in 12 on the face, {FLAT}", ""),
        ("hip-jack", "saw 45", f"{FLAT} ({FACE_LENT})", ""),
        (
            "hip-jack",
            "edge 10 on 12",
            f"edge mark by 10 on 12, marked along the 12 ({FACE_LENT})",
            "",
        ),
        (
            "hip-jack",
            "plumb 8 in 12",
            "plumb mark by 8 in 12 on the face (saw tilted 45° as this cut needs)",
            "What is the saw's tilt, or the number on the edge?",
        ),
        (
            "common-ridge",
            "plumb 8 in 12",
            "plumb mark by 8 in 12 on the face (saw blade square as this cut needs)",
            "",
        ),
        (
            "hip-jack",
            "plumb 8 in 12, saw 0",
            "plumb mark by 8 in 12 on the face, saw with its shoe on the face, blade square to it",
            "",
        ),
        (
            "hip-jack",
            "shoe on the edge, tilt 30",
            "saw with its shoe on the edge, tilted 30° (edge marked 50.24° from square across as"
            " this cut is)",
            "",
        ),
        (
            "hip-jack",
            "miter saw flat: table square, tilt 45",
            "miter saw, board flat, table square, tilt 45°",
            "",
        ),
        (
            "hip-jack",
            "table 33.7, tilt 45, flat",
            "miter saw, board flat, table 33.7°, tilt 45°",
            "",
        ),
        (
            "hip-jack",
            "bevle 45, not 40, on the saw",
            f"{FLAT} (bevel is taken for the saw's tilt; {FACE_LENT})"
            " ('bevle' taken for 'bevel'; '40' turned down)",
            "",
        ),
        (
            "hip-jack",
            "saw 45 blorb",
            f"{FLAT} ({FACE_LENT})",
            "I left out 'blorb'. Say whether that changes what is meant.",
        ),
        (
            "hip-jack",
            "saw 45 blorb snarf",
            f"{FLAT} ({FACE_LENT})",
            "I left out 'blorb', 'snarf'. Say whether one of them changes what is meant.",
        ),
        (
            "hip-backing",
            "gauge 3/4, drop 5/16, top arris",
            "rip gauged 3/4 in, dropping 5/16 in, top edge",
            "",
        ),
        ("hip-backing", "rip, saw 23", "rip with the saw tilted 23°", ""),
        (
            "hip-jack",
            "right-hand cut, face 33.7, saw 45, top leans to the foot",
            f"face marked 33.7° from square across, {FLAT}, right-hand cut, face mark's top toward"
            " the foot",
            "",
        ),
        ("hip-jack", "edge 30 on 12", f"edge marked 21.8° from square across ({FACE_LENT})", ""),
        (
            "hip-jack",
            "edge 10.01 on 12",
            f"edge mark by 10 (10.01) on 12, marked along the 12 ({FACE_LENT})",
            "",
        ),
        (
            "hip-jack",
            "45",
            f"(a) {FLAT} ({FACE_LENT}); or (b) edge marked 45° from square across ({FACE_LENT});"
            " or (c) face marked 45° from square across (saw tilted 45° as this cut needs)",
            "Which is meant: (a) or (b) or (c)?",
        ),
        ("hip-jack", "drop it 3/8", "3/8 in, as the drop of the hip, plumb", ""),
        (
            "hip-jack",
            "hip is 9 ft 4 9/16 to the middle of the ridge",
            "9'-4 9/16\", as the hip to the middle of the ridge",
            "",
        ),
        ("hip-jack", "mumble", "", ""),
    ],
)
def test_what_was_heard_is_said_back(cut, said, heard, question):
    made = settled(cut, said)
    (finding,) = made.findings
    assert repeated(made.answer, finding) == heard
    assert question_words(made.answer, finding) == question


EQUAL = RoofCondition("equal pitches", equal=True)
UNEQUAL = RoofCondition("unequal pitches", equal=False)
SQUARE = RoofCondition("square corner", square=True)
CROOKED = RoofCondition("a corner that is not square", square=False)
BOTH = RoofCondition("equal pitches, square corner", equal=True, square=True)


@pytest.mark.parametrize(
    ("said", "rest", "condition"),
    [
        ("if the pitches are equal, saw 45", "saw 45", EQUAL),
        ("saw 45 where the corner is square", "saw 45", SQUARE),
        ("saw 45 if the pitches differ", "saw 45", UNEQUAL),
        ("if the corner isn’t square, saw 40", "saw 40", CROOKED),
        ("if both roofs have the same pitch and the corner is square, saw 45", "saw 45", BOTH),
        ("if my dog barks, saw 45", "if my dog barks, saw 45", None),
        ("if the pitches are equal and my dog barks, saw 45", None, None),
        ("saw 45", "saw 45", None),
    ],
)
def test_a_condition_is_taken_off_a_claim(said, rest, condition):
    assert conditioned(said) == (rest or said, condition)


@pytest.mark.parametrize(
    ("said", "rest", "condition"),
    [
        (
            "on a square corner with equal pitches the saw is always 45",
            "the saw is always 45",
            BOTH,
        ),
        ("with unequal pitches, saw 40", "saw 40", UNEQUAL),
        ("where the corner is not square, saw 40", "saw 40", CROOKED),
        ("where the corner isn’t square, saw 40", "saw 40", CROOKED),
        # An octagon's corner is one of many that are not square: what holds there is no rule.
        ("on an octagon, saw 67 1/2", "on an octagon, saw 67 1/2", None),
        ("saw 45", "saw 45", None),
    ],
)
def test_a_condition_said_without_an_if_is_taken_off_too(said, rest, condition):
    assert placed(said) == (rest, condition)


def test_a_condition_holds_of_the_roofs_it_names():
    roofs = [(equal, square) for equal in (True, False) for square in (True, False)]
    for condition, held in (
        (EQUAL, [True, True, False, False]),
        (UNEQUAL, [False, False, True, True]),
        (SQUARE, [True, False, True, False]),
        (CROOKED, [False, True, False, True]),
        (BOTH, [True, False, False, False]),
    ):
        assert [condition.holds(equal=e, square=s) for e, s in roofs] == held


@pytest.mark.parametrize(
    ("cut", "said", "margins"),
    [
        ("hip-jack", "plumb 8 in 12, saw 45", []),
        ("hip-jack", "plumb 8 in 12, saw 38", ["instead", "try it"]),
        ("hip-jack", "plumb 8 in 12", ["so far"]),
        ("hip-jack", "mumble", ["say"]),
        ("hip-jack", "saw 45 blorb", ["as heard", "if so, say"]),
        # Two settings, a rule, or a side said two ways: no one sentence says the same.
        ("hip-jack", "face 33.7 degrees, edge 10 on 12, saw 45 blorb", ["as heard"]),
        ("hip-jack", "always saw 45 blorb", ["as heard"]),
        ("hip-jack", "saw 45, right side blorb", ["as heard"]),
        ("hip-jack", "45", ["(a)", "(b)", "(c)"]),
        ("hip-jack", "drop it 3/8", []),
    ],
)
def test_each_verdict_has_its_notes(cut, said, margins):
    made = settled(cut, said)
    (finding,) = made.findings
    told = list(notes(made, finding))
    assert [one.margin for one in told if one.margin in margins] == margins
    extra = {one.margin for one in told} - set(margins)
    seldom = {"instead", "try it", "so far", "say", "as heard", "if so, say", "(a)", "here"}
    assert not extra & seldom, extra
    assert all(one.text for one in told)


def test_of_two_mistakes_the_first_is_told_and_the_other_but_named_where_room_is_short():
    """A fascia's half corner is 45 degrees: it may be habit, or the angle seen from above."""
    made = settled("fascia-square", "tilt 45")
    (finding,) = made.findings
    first, second = (one for one in notes(made, finding) if one.margin in ("looks like", "or"))
    assert {first.title, second.title} == {"forty five as tilt", "plan angle as tilt"}
    short = [
        one for one in notes(made, finding, first_only=True) if one.margin in ("looks like", "or")
    ]
    assert short[0] == first
    assert [one.text for one in short[1:]] == [second.title]


def test_what_holds_on_an_octagon_is_judged_there_and_nowhere_else():
    """Half of 135 degrees is the jack's tilt at any pitch, where both roofs have one."""
    said = "on an octagon the saw takes 67 1/2"
    there = answer(ask("hip-jack", pitch=read_pitch("8"), corner_deg=135))
    (finding,) = argued(there, [said], Building()).findings
    assert finding.verdict is ClaimVerdict.RIGHT
    (elsewhere,) = settled("hip-jack", said).findings
    assert elsewhere.verdict is ClaimVerdict.UNREAD
    assert elsewhere.heard.why == "this corner is no octagon's"
