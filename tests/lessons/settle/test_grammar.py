"""The grammar of claims: what it writes it reads, and it points at the word it cannot read."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.cuts import Hand
from layout.errors import LayoutError
from lessons.settle.claim import SQUARE, Claim, ClaimError, Line, write_claim
from lessons.settle.grammar import read_claim

PLUMB_12, PLUMB_8 = Line("plumb", 12, 12), Line("plumb", 8, 12)
NUMBER_8_5 = Line("numbers", 12, 8.5)


def fractions(least: float, most: float) -> st.SearchStrategy[float]:
    """Whole sixteenths, and any other number."""
    sixteenths = st.integers(int(least * 16) + 1, int(most * 16)).map(lambda n: n / 16)
    return sixteenths | st.floats(least, most, exclude_min=True, exclude_max=True)


ANGLES = fractions(0.0, 89.9)
ON_SQUARE = fractions(0.0, 1000.0)
LINES = (
    st.just(SQUARE)
    | st.builds(Line, st.sampled_from(["plumb", "level", "numbers"]), ON_SQUARE, ON_SQUARE)
    | st.builds(Line, st.just("degrees"), ANGLES)
)
EDGES = LINES.filter(lambda line: line.kind in ("square", "numbers", "degrees"))
DEGREES = st.builds(Line, st.just("degrees"), ANGLES)
CHEEKS = st.none() | st.sampled_from(Hand)
TOPS = st.none() | st.sampled_from(["head", "foot"])
LEANS = {"cheek": CHEEKS, "top": TOPS}
RIPS = {
    "rip": st.just(True),
    "cheek": CHEEKS,
    "arris": st.none() | st.sampled_from(["top", "bottom"]),
}
CLAIMS = st.one_of(
    st.builds(Claim, face=LINES, edge=EDGES, **LEANS),
    st.builds(Claim, face=LINES, tilt_deg=ANGLES, **LEANS),
    st.builds(Claim, face=DEGREES, tilt_deg=ANGLES, table=st.just(True), **LEANS),
    st.builds(Claim, edge=EDGES, tilt_deg=ANGLES, shoe=st.just("edge"), **LEANS),
    st.builds(Claim, gauge_in=st.tuples(ON_SQUARE, ON_SQUARE), **RIPS),
    st.builds(Claim, tilt_deg=ANGLES, **RIPS),
    st.builds(Claim, face=LINES, **LEANS),
    st.builds(Claim, edge=EDGES, **LEANS),
    st.builds(Claim, tilt_deg=ANGLES, **LEANS),
)


SAID = (
    "plumb level face edge square saw tilt flat on rip gauge drop in and mark leans top to head"
    " left cheek 8 12 8½ 1/2 17/2 45deg 3/0 ° : , - . mm"
)


# "square" alone is a whole square cut, so an edge or a face said square stands with its word.
@settings(deadline=None, max_examples=400, derandomize=True)
@given(claim=CLAIMS)
def test_what_the_grammar_writes_it_reads(claim):
    text = write_claim(claim)
    assert read_claim(text) == claim
    assert read_claim(text.upper()) == claim
    assert read_claim(text.replace(",", " ").replace(" ", "   ")) == claim


@settings(deadline=None, max_examples=300, derandomize=True)
@given(
    text=st.text(max_size=40) | st.lists(st.sampled_from(SAID.split()), max_size=9).map(" ".join)
)
def test_any_text_is_a_claim_or_one_line_of_error(text):
    told = ""
    try:
        claim = read_claim(text)
    except ClaimError as error:
        told = str(error)
    if told:
        assert told.isprintable()
        assert "\n" not in told
    else:
        assert read_claim(write_claim(claim)) == claim


@pytest.mark.parametrize(
    ("text", "claim"),
    [
        ("plumb 12 in 12, saw 45", Claim(face=PLUMB_12, tilt_deg=45)),
        ("plumb 12 in 12, edge 8 1/2 on 12", Claim(face=PLUMB_12, edge=NUMBER_8_5)),
        ("edge 8-1/2 on 12 plumb 12/12", Claim(face=PLUMB_12, edge=NUMBER_8_5)),
        ("Plumb cut 12:12 and edge mark 8½ on 12", Claim(face=PLUMB_12, edge=NUMBER_8_5)),
        ('plumb 8 in 12; edge 8 1/2" on 12"', Claim(face=PLUMB_8, edge=NUMBER_8_5)),
        ("plumb 8 in 12, tilt 35 1/4", Claim(face=PLUMB_8, tilt_deg=35.25)),
        ("plumb 8 in 12 with saw tilted to 35.25°", Claim(face=PLUMB_8, tilt_deg=35.25)),
        ("plumb 8 1/2 in 17, saw at 45deg", Claim(face=Line("plumb", 8.5, 17), tilt_deg=45)),
        ("plumb 33.7deg, saw 45", Claim(face=Line("degrees", 33.7), tilt_deg=45)),
        ("level 8 in 12, edge square", Claim(face=Line("level", 8, 12), edge=SQUARE)),
        (
            "face 33.7deg, edge 45deg",
            Claim(face=Line("degrees", 33.7), edge=Line("degrees", 45)),
        ),
        (
            "face 12 and 8 mark 8, edge 10 on 12",
            Claim(face=Line("numbers", 8, 12), edge=Line("numbers", 12, 10)),
        ),
        (
            "face 12 and 8 mark along 12, edge 12 and 10 mark 10",
            Claim(face=Line("numbers", 12, 8), edge=Line("numbers", 10, 12)),
        ),
        ("edge 45deg", Claim(edge=Line("degrees", 45))),
        (
            "saw flat 33.7 tilt 45",
            Claim(face=Line("degrees", 33.7), tilt_deg=45, table=True),
        ),
        ("flat 0 tilt 45", Claim(face=SQUARE, tilt_deg=45)),
        ("on edge 54.7 tilt 30", Claim(edge=Line("degrees", 54.7), tilt_deg=30, shoe="edge")),
        ("saw on edge 8 1/2 on 12, tilt 30", Claim(edge=NUMBER_8_5, tilt_deg=30, shoe="edge")),
        ("square", Claim(face=SQUARE, edge=SQUARE)),
        ("square, saw 45", Claim(face=SQUARE, tilt_deg=45)),
        ("gauge 3/4 drop 5/16", Claim(rip=True, gauge_in=(0.75, 0.3125))),
        ("gauge 127mm, drop 25.4mm", Claim(rip=True, gauge_in=(5.0, 1.0))),
        ("rip, saw 22 1/2, top edge", Claim(rip=True, tilt_deg=22.5, arris="top")),
        (
            "plumb 8 in 12, saw 45, left cheek, top to the head",
            Claim(face=PLUMB_8, tilt_deg=45, cheek=Hand.LEFT, top="head"),
        ),
    ],
)
def test_claims_as_they_are_said(text, claim):
    assert read_claim(text) == claim
    assert read_claim(text).text == text


@pytest.mark.parametrize(
    ("words", "cheek"),
    [
        # A blade that leans over the waste leaves a cheek that looks back at the shoe's side.
        ("over the waste on the left face", Hand.LEFT),
        ("toward waste on right face", Hand.RIGHT),
        ("under on the left face", Hand.RIGHT),
        ("under the kept wood on the right face", Hand.LEFT),
    ],
)
def test_the_blade_s_lean_says_the_cheek(words, cheek):
    assert read_claim(f"plumb 8 in 12, saw 45, leans {words}").cheek is cheek


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("plumb 12 off 12", "stops at 'off', letter 10"),
        ("plumb 12", "ends too soon: after the rise comes 'in' and the run"),
        ("plumb, saw 45", "stops at ',', letter 6"),
        ("plumb 12 in 12, edge 8 1/2", "ends too soon: after 'edge 8 1/2' comes 'on 12' or 'deg'"),
        ("face 8 on 12", "stops at 'on', letter 8"),
        ("face 12 and 8", "ends too soon: say which number to mark along"),
        ("face 12 and 8 mark 9", "stops at '9', letter 20"),
        ("plumb 8 in 12, sow 45", "stops at 'sow', letter 16"),
        ("plumb 8 in 12, saw", "ends too soon: after the saw comes its tilt"),
        ("plumb 8 in 12, saw 95", "stops at '95', letter 20"),
        ("plumb 8 in 12, saw -5", "stops at '-5', letter 20"),
        ("plumb 8 in 12, saw 45, tilt 40", "stops at 'tilt', letter 24: the tilt is said already"),
        ("plumb 8 in 12, level 8 in 12", "stops at 'level', letter 16"),
        ("square, plumb 8 in 12", "stops at 'plumb', letter 9"),
        ("plumb 0 in 12, saw 45", "stops at '0', letter 7"),
        ("plumb 1/0 in 12", "stops at '1/0', letter 7"),
        ("face 90deg, saw 45", "stops at '90deg', letter 6"),
        ("saw flat 33.7", "ends too soon: the tilt comes next"),
        ("on edge", "ends too soon: after 'on edge' comes the edge mark's angle"),
        ("on top", "stops at 'top', letter 4: after 'on' comes edge"),
        ("gauge 3/4 by 5/16", "stops at 'by', letter 11: the drop comes next"),
        ("plumb 8 in 12, saw 45, left side", "stops at 'side', letter 29"),
        ("plumb 8 in 12, saw 45, leans over the waste", "ends too soon: say on which face"),
        ("plumb 8 in 12, saw 45, top right", "stops at 'right', letter 28"),
        ("plumb 8 in 12\nsaw\t45 !", "stops at '!', letter 22"),
        ("hello", "stops at 'hello', letter 1: a claim begins with plumb"),
        ("", "says nothing"),
        (" ,, ", "says nothing"),
        ("9" * 2000, "2000 letters"),
        ("left cheek", "nothing is said of a mark or a tilt"),
        ("plumb 8 in 12, edge 9 on 12, saw 45", "make two claims of it"),
        ("edge 45deg, saw 30", "a saw on the face follows a face mark"),
        ("plumb 8 in 12, on edge 45 tilt 30", "say the plane twice"),
        ("gauge 3/4 drop 1/4, saw 22", "a rip is said either as"),
        ("plumb 8 in 12, saw 45, top edge", "said of a rip alone"),
        ("gauge 0 drop 1/4", "lays no bevel"),
    ],
)
def test_text_that_is_no_claim_is_pointed_at(text, where):
    with pytest.raises(ClaimError) as refused:
        read_claim(text)
    assert where in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("text", "missing"),
    [
        ("plumb 8 in 12", "an edge mark or the saw's tilt"),
        ("face square", "an edge mark or the saw's tilt"),
        ("edge 45deg", "a face mark"),
        ("saw 45", "a face mark"),
        ("plumb 8 in 12, saw 45", ""),
        ("on edge 45 tilt 30", ""),
        ("square", ""),
        ("rip, saw 20", ""),
    ],
)
def test_an_open_claim_tells_what_is_missing(text, missing):
    told = read_claim(text).missing
    assert told.startswith(missing) if missing else told == ""


def test_a_claim_error_is_the_users_own():
    assert issubclass(ClaimError, LayoutError)
