"""A claim taken apart: its pieces, what it turns down itself, and which words are a number's."""

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from lessons.settle.ear.clauses import Clause, carried, clauses
from lessons.settle.ear.contrast import without_contrast
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.hearing import parted
from lessons.settle.ear.measures import measured
from lessons.settle.ear.trade_tokens import Token, listen


def piece(token: Token) -> str:
    """A number with its unit and how fine it is; a word's meaning; `?` before a strange word."""
    if token.kind == "number":
        ratio = "" if token.ratio is None else f" {token.ratio[0]:g}/{token.ratio[1]:g}"
        fine = f" {token.fine:+.4f}" if token.fine else ""
        return f"<{token.value:g}{token.unit}{ratio}{fine}>"
    return {"cue": token.name, "passed": f"({token.text})", "unknown": f"?{token.text}"}.get(
        token.kind, token.text
    )


@pytest.mark.parametrize(
    ("said", "pieces"),
    [
        ("8 1/2 in 12, saw 45°", "<8.5> in <12> , saw <45deg>"),
        ("plumb 8 in 12 - saw 45", "plumb <8> in <12> ; saw <45>"),
        ("side-cut 10 on 12", "sidecut <10> on <12>"),
        ("plumb: 8:12", "plumb : <8> : <12>"),
        ("saw 45\nedge 10", "saw <45> ; edge <10>"),
        ("seven and a half on twelve", "<7.5> on <12>"),
        # 9 x 12 + 4 1/4
        ("9 foot 4 and 1/4", "<112.25ft>"),
        ("9' 4 1/4\"", "<112.25ft>"),
        ("9'-4 1/4\"", "<112.25ft>"),
        # Half way from a sixty-fourth to a thirty-second: 0.0234
        ("a hair over 45", "<45 +0.0234>"),
        ("45 and a hair shy", "<45 -0.0234>"),
        ("10 strong on 12", "<10 +0.0234> on <12>"),
        # 25.4 mm are an inch, exactly.
        ("45 mm", "<1.77165in>"),
        ("4.5 cm", "<1.77165in>"),
        ("10 in (9.985)", "<9.985in?>"),
        ("10 (9.985) on 12", "<9.985> on <12>"),
        ("plumb 8 in 12 (so they say), saw 45", "plumb <8> in <12> , saw <45>"),
        ("the left one, saw 45", "(the) left (one) , saw <45>"),
        ("one inch", "<1in>"),
        ("Bob says 45", "(bob) (says) <45>"),
        ("Bob: saw 45", "(bob) : saw <45>"),
        ("8 in a 12", "<8> in (a) <12>"),
        ("45 in the saw", "<45in?> (the) saw"),
        ("plumb 8 in", "plumb <8in?>"),
        ("5/12", "<0.416667 5/12>"),
        ("17/12", "<1.41667 17/12>"),
        ("3/4", "<0.75>"),
        ("5/7", "?5/7"),  # no rule is parted in sevenths
        ("trimsaw 45", "saw <45>"),  # a saw by the name that somebody gives it
        ("hacksaw 45", "?hacksaw <45>"),
        (".5 on 12", "<0.5> on <12>"),
        ("45.", "<45>"),
    ],
)
def test_a_claim_s_words_and_numbers(said, pieces):
    assert " ".join(piece(token) for token in listen(said).tokens) == pieces


@pytest.mark.parametrize(
    ("said", "left", "denied"),
    [
        ("saw 45, not 38", "saw 45", "38"),
        ("45 on the edge, not on the saw", "45 on the edge", "the saw"),
        ("45 instead of 38 on the saw", "45 on the saw", "38"),
        ("set it 45 rather than 38 and mark 8 in 12", "set it 45 and mark 8 in 12", "38"),
        # One run in place of the other.
        ("17, not 12, on a hip", "17 for 12 , on a hip", "12"),
        ("use 17, never 12", "use 17 for 12", "12"),
        ("plumb 8 on 17, not 12", "plumb 8 on 17", "12"),
        ("Not 40, it's 45 on the saw", "it's 45 on the saw", "40"),
        ("he swears by 40, but I set 45", "i set 45", "40"),
        ("40 is no good, saw 45", "saw 45", "40"),
        ("never 38, saw 45", "saw 45", "38"),
        ("don't saw 40, saw 45", "saw 45", "40"),
        ("not 38 but 45 on the saw", "45 on the saw", "38"),
        ("not on the face, on the edge: ten and twelve", "on the edge : ten and twelve", "face"),
        ("edge 10 on 12, not 8 on 12", "edge 10 on 12", "8 on 12"),
        ("table 45, not tilt", "table 45", "tilt"),
        # Nothing of its kind is put in its place: it stays as it was said.
        ("no, no, saw 45", "no no saw 45", ""),
        ("not over 45, saw 40", "not over 45 , saw 40", ""),
        ("if not 40, saw 45", "if not 40 , saw 45", ""),
        ("saw 45, not 45", "saw 45 , not 45", ""),
        ("saw 45 degrees, not 45 mm", "saw 45 degrees , not 45 mm", ""),
        ("saw 45, not on the saw", "saw 45 , not on the saw", ""),
        ("but I mark 9 5/8", "but i mark 9 5/8", ""),
        ("mark 12 and 8, not the 8 side", "mark 12 and 8 , not the 8 side", ""),
    ],
)
def test_what_a_claim_turns_down_beside_what_it_says(said, left, denied):
    tokens, turned_down = without_contrast(listen(said).tokens)
    assert (" ".join(token.text for token in tokens), ", ".join(turned_down)) == (left, denied)


def part(clause: Clause) -> str:
    number = clause.measure.text if clause.measure else "-"
    strange = "".join(f" ?{word}" for word in clause.strange)
    marks = f"{' followed' * clause.followed}{' apart' * clause.apart}"
    return f"{number}: {' '.join(sorted(clause.names))}{strange}{marks}".strip()


@pytest.mark.parametrize(
    ("said", "parts"),
    [
        ("plumb 8 in 12, saw 45", "8 in 12: plumb | 45: saw"),
        ("plumb 12 in 12 on the saw 45", "12 in 12: plumb | 45: on saw"),
        ("45 saw 33.7 plumb", "45: saw | 33.7: plumb"),
        ("12/12 pitch saw 45", "12/12: pitch | 45: saw"),
        ("saw 45 for the cheek plumb 8 in 12", "45: edge saw sidecut | 8 in 12: plumb"),
        ("saw 45 along the line 8 in 12 plumb", "45: saw | 8 in 12: plumb"),
        ("45 down the plumb line", "45: plumb followed"),
        ("mark across the edge 45", "45: crosses edge markalong"),
        ("across the face 45", "45: face"),
        ("edge mark: 10 on the blade, 12 on the tongue",
         "10 on the blade, 12 on the tongue: edge"),
        # A number alone takes the words that stand alone beside it, not those of a line.
        ("saw, 45", "45: saw apart"),
        ("45, saw", "45: saw apart"),
        ("plumb, 45", "-: plumb | 45:  apart"),
        ("12 in 12, saw", "12 in 12:  apart | -: saw"),
        ("edge, 12 and 10 mark the 12", "12 and 10: edge apart"),
        ("saw 45 then edge 10", "45: saw | 10: edge"),
        ("45 gramophone", "45:  ?gramophone"),
        ("about 45 degrees", "45 degrees:  apart"),
        ("hip 45", "45: hip apart"),
        ("sliding bevel 35 off the edge", "35: offedge slidingbevel"),
    ],
)  # fmt: skip
def test_which_words_are_a_number_s(said, parts):
    found = carried(clauses(measured(listen(said).tokens)))
    assert " | ".join(part(clause) for clause in found) == parts


@pytest.mark.parametrize(
    ("cut", "said", "parts"),
    [
        ("hip-jack", "on edge 33.7", "33.7: edge"),
        ("hip-jack", "saw 45 on edge", "45: onedge saw"),
        ("hip-jack", "on edge table 54.7", "54.7: onedge table"),
        ("hip-jack", "board on edge 54.7", "54.7: onedge"),
        ("hip-backing", "saw 23 on edge", "23: edge saw"),
    ],
)
def test_on_edge_is_a_mark_s_where_no_saw_is_spoken_of(cut, said, parts):
    found = parted(listen(said), Footing(answer(ask(cut)))).parts
    assert " | ".join(part(clause) for clause in found) == parts
