"""The ear: what it writes it hears, in any order and through slips, and it never picks."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.quantity import read_pitch
from lessons.settle.claim import SQUARE, Claim, ClaimedLine, write_claim
from lessons.settle.claim_setting import completed, setting_of
from lessons.settle.ear.hearing import Heard, hear
from tests.counts import count

PLUMB_12, PLUMB_8 = ClaimedLine("plumb", 12, 12), ClaimedLine("plumb", 8, 12)
NUMBER_8_5 = ClaimedLine("numbers", 12, 8.5)


def cut(name: str = "hip-jack", pitch: str = "8 in 12") -> Answer:
    return answer(ask(name, pitch=read_pitch(pitch)))


JACK, BACKING, VALLEY = cut(pitch="12"), cut("hip-backing"), cut("valley-jack")


def heard_claim(text: str, true_answer: Answer = JACK) -> Claim:
    """The one claim that is heard; every lean that a plumb line gives itself taken off."""
    heard = hear(text, true_answer)
    assert len(heard.readings) == 1, heard
    (claim,) = heard.readings[0].claims
    return claim


def offered(found: Heard) -> str:
    """The sentence that is offered; a form with a number that is no slip in each place."""
    filled = found.form.replace("N in N", "8 in 17").replace("N", "30 1/2")
    return found.paste or filled.replace("30 1/2 in 1", "8 in 1")


def fractions(least: float, most: float) -> st.SearchStrategy[float]:
    """Whole sixteenths, and any other number."""
    sixteenths = st.integers(int(least * 16) + 1, int(most * 16)).map(lambda n: n / 16)
    return sixteenths | st.floats(least, most, exclude_min=True, exclude_max=True)


ANGLES = fractions(0.0, 89.9)
ON_SQUARE = fractions(0.05, 24.0) | st.sampled_from([8.0, 8.5, 12.0, 17.0])
"""Numbers on the square; those that come up often stand on the face and on the edge at once."""
LINES = (
    st.just(SQUARE)
    | st.builds(ClaimedLine, st.sampled_from(["plumb", "level", "numbers"]), ON_SQUARE, ON_SQUARE)
    | st.builds(ClaimedLine, st.just("degrees"), ANGLES)
)
EDGES = LINES.filter(lambda line: line.kind in ("square", "numbers", "degrees"))
CHEEKS = st.none() | st.sampled_from(Hand)
LEANS = {"cheek": CHEEKS, "top": st.sampled_from(["head", "foot"])}
RIPS = {
    "rip": st.just(True),
    "cheek": CHEEKS,
    "arris": st.none() | st.sampled_from(["top", "bottom"]),
}
CLAIMS = st.one_of(
    st.builds(Claim, face=LINES, edge=EDGES, **LEANS),
    st.builds(Claim, face=LINES, tilt_deg=ANGLES, **LEANS),
    st.builds(Claim, face=LINES, tilt_deg=ANGLES, table=st.just(True), **LEANS),
    st.builds(Claim, edge=EDGES, tilt_deg=ANGLES, shoe=st.just("edge"), **LEANS),
    st.builds(Claim, tilt_deg=ANGLES, shoe=st.just("edge"), **LEANS),
    st.builds(Claim, face=LINES, **LEANS),
    st.builds(Claim, edge=EDGES, **LEANS),
    st.builds(Claim, tilt_deg=ANGLES, **LEANS),
)
RIP_CLAIMS = st.one_of(
    st.builds(Claim, gauge_in=st.tuples(ON_SQUARE, ON_SQUARE), **RIPS),
    st.builds(Claim, tilt_deg=ANGLES, **RIPS),
)


def same_plane(one: Claim, other: Claim, true_answer: Answer) -> bool:
    normals = [
        setting_of(completed(claim, true_answer), true_answer).normal for claim in (one, other)
    ]
    return bool(abs(normals[0] - normals[1]).max() < 1e-9)


@settings(max_examples=count(1000, 40))
@given(claim=CLAIMS)
def test_what_a_claim_writes_is_heard_as_the_same_plane(claim):
    for text in (write_claim(claim), write_claim(claim).upper()):
        found = hear(text, JACK)
        assert len(found.readings) == 1, (text, found)
        assert len(found.readings[0].claims) == 1, (text, found)
        assert same_plane(found.readings[0].claims[0], claim, JACK), text


@settings(max_examples=count(300, 20))
@given(claim=RIP_CLAIMS)
def test_what_a_rip_writes_is_heard_as_the_same_plane(claim):
    found = hear(write_claim(claim), BACKING)
    assert len(found.readings) == 1, found
    assert same_plane(found.readings[0].claims[0], claim, BACKING)


@pytest.mark.parametrize(
    ("text", "claim"),
    [
        ("plumb 12 in 12, saw 45", Claim(face=PLUMB_12, tilt_deg=45)),
        ("plumb 12 in 12, edge 8 1/2 on 12", Claim(face=PLUMB_12, edge=NUMBER_8_5)),
        ("edge 8-1/2 on 12 plumb 12/12", Claim(face=PLUMB_12, edge=NUMBER_8_5)),
        ("Plumb cut 12:12 and edge mark 8½ on 12", Claim(face=PLUMB_12, edge=NUMBER_8_5)),
        ("plumb 8 in 12, edge 8 1/2 on 12 mark 12", Claim(face=PLUMB_8, edge=NUMBER_8_5)),
        ("plumb 8 in 12, edge 8 1/2 on 12, mark the 12", Claim(face=PLUMB_8, edge=NUMBER_8_5)),
        ('plumb 8 in 12; edge 8 1/2" on 12"', Claim(face=PLUMB_8, edge=NUMBER_8_5)),
        ("plumb 8 in 12, tilt 35 1/4", Claim(face=PLUMB_8, tilt_deg=35.25)),
        ("plumb 8 in 12 with saw tilted to 35.25°", Claim(face=PLUMB_8, tilt_deg=35.25)),
        ("plumb 8 1/2 in 17, saw at 45deg", Claim(face=ClaimedLine("plumb", 8.5, 17), tilt_deg=45)),
        ("plumb 33.7deg, saw 45", Claim(face=ClaimedLine("degrees", 33.7), tilt_deg=45)),
        ("level 8 in 12, edge square", Claim(face=ClaimedLine("level", 8, 12), edge=SQUARE)),
        (
            "face 33.7deg, edge 45deg",
            Claim(face=ClaimedLine("degrees", 33.7), edge=ClaimedLine("degrees", 45)),
        ),
        (
            "face 12 and 8 mark 8, edge 10 on 12",
            Claim(face=ClaimedLine("numbers", 8, 12), edge=ClaimedLine("numbers", 12, 10)),
        ),
        (
            "face 12 and 8 mark along 12, edge 12 and 10 mark 10",
            Claim(face=ClaimedLine("numbers", 12, 8), edge=ClaimedLine("numbers", 10, 12)),
        ),
        ("edge 45deg", Claim(edge=ClaimedLine("degrees", 45))),
        (
            "saw flat 33.7 tilt 45",
            Claim(face=ClaimedLine("degrees", 33.7), tilt_deg=45, table=True),
        ),
        ("flat 0 tilt 45", Claim(face=SQUARE, tilt_deg=45, table=True)),
        (
            "on edge 54.7 tilt 30",
            Claim(edge=ClaimedLine("degrees", 54.7), tilt_deg=30, shoe="edge"),
        ),
        ("saw on edge 8 1/2 on 12, tilt 30", Claim(edge=NUMBER_8_5, tilt_deg=30, shoe="edge")),
        ("square", Claim(face=SQUARE, edge=SQUARE)),
        ("square, saw 45", Claim(face=SQUARE, tilt_deg=45)),
        (
            "plumb 8 in 12, saw 45, left cheek, top to the head",
            Claim(face=PLUMB_8, tilt_deg=45, cheek=Hand.LEFT),
        ),
        ("twelve in twelve down the face, forty-five on the saw",
         Claim(face=PLUMB_12, tilt_deg=45)),
        ("45 saw 33.7 plumb", Claim(face=ClaimedLine("degrees", 33.7), tilt_deg=45)),
        ("plumb 12, edge 8⅖ on 12", Claim(face=PLUMB_12, edge=ClaimedLine("numbers", 12, 8.4))),
        ("tlit 45, plum 12 in 12", Claim(face=PLUMB_12, tilt_deg=45)),
    ],
)  # fmt: skip
def test_claims_as_they_are_said(text, claim):
    heard = heard_claim(text)
    if (claim.face and claim.face.kind == "plumb") or "plum" in text:
        assert heard.top == "head"
    elif claim.face and claim.face.kind == "level":
        assert heard.top == "foot"
    assert Claim(**{**vars(heard), "top": None}) == claim


@pytest.mark.parametrize(
    ("text", "claim"),
    [
        ("gauge 3/4 drop 5/16", Claim(rip=True, gauge_in=(0.75, 0.3125))),
        ("gauge 3/4 in, drop 5/16 in", Claim(rip=True, gauge_in=(0.75, 0.3125))),
        ("gauge 127mm, drop 25.4mm", Claim(rip=True, gauge_in=(5.0, 1.0))),
        ("back it five sixteenths", Claim(rip=True, gauge_in=(0.75, 0.3125))),
        ("rip, saw 22 1/2, top arris", Claim(rip=True, tilt_deg=22.5, arris="top")),
        ("backing bevel 23 degrees", Claim(rip=True, tilt_deg=23)),
    ],
)
def test_rips_as_they_are_said(text, claim):
    assert heard_claim(text, BACKING) == claim


@pytest.mark.parametrize(
    ("words", "cheek"),
    [
        # Where the blade cuts, below the shoe: under the waste it leaves a cheek that faces the
        # shoe's own side (the sense is derived in `layout.tools.saw`).
        ("on the left face the blade runs in under the waste", Hand.LEFT),
        ("right face, under the waste", Hand.RIGHT),
        ("under the kept wood on the left face", Hand.RIGHT),
        ("shoe on the right face, in under the kept wood", Hand.LEFT),
        ("the blade in under the waste, shoe on the left face", Hand.LEFT),
        ("the blade in under the kept wood, shoe on the left face", Hand.RIGHT),
        ("long point on the right face", Hand.LEFT),
        ("left end toward the foot", Hand.LEFT),
        ("right-hand cut", Hand.RIGHT),
    ],
)
def test_the_blade_s_run_says_the_cheek(words, cheek):
    assert heard_claim(f"plumb 8 in 12, saw 45, {words}").cheek is cheek


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("tilt 8 1/2", 2),
        ("45 degrees", 3),
        ("edge 35 1/4 degrees", 2),
        ("12 and 8 1/2 on the square", 4),
        ("45 and 30 on the miter saw", 2),
        ("edge 12 and 10", 2),
    ],
)
def test_what_can_be_meant_two_ways_is_kept_two_ways(text, count):
    assert len(hear(text, JACK).readings) == count


def test_a_table_and_a_blade_whose_sides_tell_nothing_are_kept_for_all_four_cuts():
    """A board flat on the table: it swings to two sides and the blade leans to two."""
    (reading,) = hear("table 33.69 left, tilt 45 right", JACK).readings
    assert reading.unplaced
    made = (completed(one, JACK) for one in (*reading.claims, *reading.otherwise))
    flat = [setting_of(one, JACK).normal for one in made if one.shoe == "face"]
    assert len({tuple(np.sign(normal)) for normal in flat}) == 4


@pytest.mark.parametrize(
    ("text", "quoted"),
    [
        ("plumb 12 in 12, dado 45", "dado"),
        ("it's not 45", "not"),
        ("45 or 35", "or"),
        ("saw 45 minus 10", "minus"),
        ("saw 40 to 45", "40 to 45"),
        ("plumb 8 in 12, saw 95", "95"),
        ("plumb 8 in 12, saw -5", "-5"),
        ("plumb 8 in 12, saw 45, tilt 40", "plumb 8 in 12, saw 45, tilt 40"),
        ("plumb 8 in 12, level 8 in 12", "plumb 8 in 12, level 8 in 12"),
        ("plumb 0 in 12, saw 45", "plumb 0 in 12"),
        ("shoe on the face", "shoe on the face"),
        ("hello", "hello"),
        ("", ""),
        ("9" * 2000, "9" * 100 + "..."),
        ("saw 8 ft", "8 ft"),
        ("edge 10 on 12 and face 33.7 and 45", "45"),
        # The side-cut number is the edge's, and the pitch is the face's.
        ("edge by the pitch, plumb 8 in 12", "the pitch"),
        ("face by the side number, saw 45", "the side-cut number"),
    ],
)
def test_what_is_not_understood_is_quoted_beside_a_sentence_that_is(text, quoted):
    found = hear(text, JACK)
    assert not found.readings
    assert found.quoted == quoted
    assert found.why
    assert "\n" not in found.why
    assert len(hear(offered(found), JACK).readings) == 1
    assert found.offer


@pytest.mark.parametrize(
    ("name", "text", "offer"),
    [
        ("hip-jack", "it's not 45 or 40, it's 35", ""),
        ("hip-jack", "plumb 8 in 12, dado 45", ""),
        ("hip-jack", "saw 40, blorbs", "saw 40"),
        ("hip-jack", "12 in 12, but forget the 45", ""),
        ("common-seat", "it's 33 blorbs 7 off the bottom edge", ""),
        ("hip-ridge", "a hip always gets 17 on the square, never 14", ""),
        ("hip-ridge", "saw 45 and 17", ""),
        ("common-ridge", "plumb 5 in 12, blorbs", "plumb 5 in 12"),
        ("hip-backing", "backing's never more than thirty", ""),
        ("hip-jack", "half the corner, so 30", ""),
    ],
)
def test_nothing_is_offered_that_was_not_understood(name, text, offer):
    found = hear(text, cut(name))
    assert not found.readings or found.left_out
    assert found.paste == offer
    assert hear(offered(found), cut(name)).readings
    assert not set("0123456789") & set(found.form.replace("in 12", "").replace("in 17", ""))


@pytest.mark.parametrize(
    ("name", "text", "claims"),
    [  # how a hip, a seat and a tail are laid out on the square: common practice, no source
        ("hip-ridge", "10 on 17, saw 45", ["plumb 10 in 17, saw 45"]),
        ("hip-ridge", "ten an seventeen, saw 45", ["plumb 10 in 17, saw 45"]),
        ("valley-ridge", "9 n 17, lean it 45", ["plumb 9 in 17, saw 45"]),
        ("hip-tail", "6 and 17", ["plumb 6 in 17"]),
        ("hip-seat", "8 on 17", ["plumb 8 in 17", "level 8 in 17"]),
        ("valley-ridge", "edge 9 on 17", ["edge 9 on 17 mark 17"]),
        ("rake-board", "8 on 12 and square through", ["plumb 8 in 12, edge square"]),
        ("rake-board", "eight on twelve, straight through", ["plumb 8 in 12, edge square"]),
        ("common-ridge", "five on twelve, saw dead square", ["plumb 5 in 12, saw 0°"]),
        ("common-seat", "seat 8 on 12 square to the face", ["level 8 in 12, edge square"]),
        ("common-seat", "33 point 7 off the bottom edge", ["face 56.3° from square"]),
        ("common-ridge", "leave the saw at 90, plumb 8 in 12", ["plumb 8 in 12, saw 0°"]),
        ("hip-ridge", "plumb 8 in 17, saw 45 both cheeks", ["plumb 8 in 17, saw 45"]),
        ("hip-jack", "thirty degrees an' a quarter on the face, 45 on the bevel",
         ["face 30 1/4° from square, saw 45"]),
        ("hip-jack", "half the corner, so 45", ["saw 45"]),
        ("hip-jack", "ya saw's at 45, give or take", ["saw 45"]),
        ("common-seat", "34 degrees",
         ["saw 34", "face 34° from square", "face 56° from square"]),
    ],
)  # fmt: skip
def test_site_talk_is_heard_as_it_is_meant(name, text, claims):
    found = hear(text, cut(name))
    assert [[write_claim(one) for one in r.claims] for r in found.readings] == [[c] for c in claims]


SAID = (
    "plumb level face edge square saw tilt flat on rip gauge drop in and mark leans top to head"
    " left cheek 8 12 8½ 1/2 17/2 45deg 3/0 ° : , - . mm not table miter tongue blade corner half"
)


@settings(max_examples=count(1000, 50))
@given(
    text=st.text(max_size=40) | st.lists(st.sampled_from(SAID.split()), max_size=9).map(" ".join)
)
def test_any_text_is_heard_or_answered(text):
    found = hear(text, VALLEY)
    assert isinstance(found, Heard)
    assert bool(found.readings) != bool(found.why)
    assert found.text.isprintable()


def test_degrees_as_they_are_printed_are_an_angle():
    """No square shows 18.43; and an edge that is marked square across has no bevel to set."""
    ridge = cut("common-ridge", "4 in 12")
    for text in ("face mark 18.43", "sliding bevel 71.57 off the edge"):
        (reading,) = hear(text, ridge).readings
        assert reading.claims[0].face is not None
        assert reading.claims[0].face.from_square_deg == pytest.approx(18.43)


def test_a_cut_and_its_mate_are_heard_by_their_names():
    for name in sorted(catalogue()):
        right = cut(name)
        words = name.replace("-", " ")
        mate = right.plane.mate_words
        said = "rip, saw 20" if right.is_rip else "saw 20"
        for text in (f"{words}: {said}", f"{said} against {mate}"):
            heard = hear(text, right)
            assert not heard.left_out, text
            assert not heard.readings or len(heard.readings) == 1, text


@pytest.mark.parametrize("text", ["", "  ", "\n\t"])
def test_an_empty_claim_is_no_claim(text):
    found = hear(text, JACK)
    assert found.readings == ()
    assert found.why == "an empty claim says nothing"
