"""How a paper goes on its board and how its cut is sawn: what is said in which case."""

import pytest

from figures.wrap import wrap_steps
from figures.wrap.wrap_sawing import SECOND_CHEEK, SECOND_RIP, saw_heading, saw_kinds, sawing_words
from layout.tools.saw import SawKind
from tests.wraps import answered


@pytest.mark.parametrize(
    ("kind", "asked", "begins", "ends"),
    [
        ("end", {}, "Square a line round the board, START. Cut the paper out", wrap_steps.SAW_SIDE),
        ("notch", {}, "Square a line round the board, START. Cut the paper", wrap_steps.SAW_SIDE),
        (
            "end",
            {"few": True},
            "Square a line round the board, START. Cut out,",
            wrap_steps.HATCHED,
        ),
        ("end", {"few": True, "shared": True}, "Start line START; edge on the ARRIS.", "ARRIS."),
        ("notch", {"shared": True, "laid_by": "fold"}, "Start line START; fold on", "ARRIS."),
        ("rip", {}, "Cut the paper out. Hang it over the end of the board,", wrap_steps.SAW_SIDE),
        ("rip", {"shared": True}, "Cut the paper out. Hang it over", wrap_steps.SAW_SIDE),
        ("rip", {"few": True}, "Cut out. Hang over the end, align the ARRIS,", wrap_steps.HATCHED),
        ("rip", {"few": True, "shared": True}, "Cut out. Hang over the", wrap_steps.HATCHED),
    ],
)
def test_how_a_paper_goes_on_its_board(kind, asked, begins, ends):
    said = wrap_steps.steps(kind, "START", "ARRIS", **asked)
    assert said.startswith(begins)
    assert said.endswith(ends)
    assert "ARRIS" in said
    assert ("START" in said) == (kind != "rip")


@pytest.mark.parametrize("few", [False, True])
@pytest.mark.parametrize(("laid_by", "other"), [("edge", "fold"), ("fold", "edge")])
def test_what_lies_on_the_arris_is_said_as_it_is(laid_by, other, few):
    said = wrap_steps.steps("notch", "START", "ARRIS", laid_by=laid_by, few=few)
    assert f"{laid_by} on the ARRIS" in said
    assert f"{other} on the ARRIS" not in said


@pytest.mark.parametrize(
    ("apart", "metric", "far"),
    [
        (0.0, False, "on start line 1"),
        (1e-12, False, "on start line 1"),
        (-2.0, False, "2 in (51 mm) from start line 1 toward the head"),
        (10.0, False, "10 in (254 mm) from start line 1 toward the head"),
        (10.0, True, "254 mm from start line 1 toward the head"),
    ],
)
@pytest.mark.parametrize("few", [False, True])
def test_where_the_second_paper_stands(apart, metric, far, few):
    said = wrap_steps.join_steps(apart, "head", "ARRIS", metric=metric, few=few)
    assert said.startswith(f"Start line 2 stands {far}{';' if few else ': square it'}")
    assert said.endswith(wrap_steps.HATCHED if few else wrap_steps.SAW_SIDE)
    first = wrap_steps.ends_steps("START", "ARRIS", few=few)
    assert ("start line 1 lies on it" in first) == few
    assert "START" in first
    assert "ARRIS" in first


def test_a_set_says_for_which_boards_it_is_good():
    long, short = (wrap_steps.steps_of_all(few=few) for few in (False, True))
    assert len(short) < len(long)
    for said in (long, short):
        assert said.startswith("For each paper: square a line round the board")
        assert "edge or " in said
        assert "1/16 in (1.5 mm)" in said


@pytest.mark.parametrize(
    ("kinds", "heading"),
    [
        ((), "BY SAW"),
        ((None,), "BY SAW"),
        ((SawKind.BLADE_LEFT,), "BY SAW, with a blade-left saw"),
        ({SawKind.BLADE_LEFT, SawKind.BLADE_RIGHT}, "BY SAW"),
    ],
)
def test_directions_for_one_kind_of_saw_name_it(kinds, heading):
    assert saw_heading("BY SAW", kinds) == heading


def test_a_cut_of_the_catalogue_is_for_any_saw():
    assert saw_kinds(answered("hip-jack", "head")) == ()


@pytest.mark.parametrize(
    ("cut", "end", "pitch", "stock", "shoes"),
    [
        ("hip-jack", "head", "8", "2x6", ["right face"]),
        ("hip-jack", "head", "8", "4x6", ["right face", "left face"]),
        ("hip-ridge", "head", "8", "2x6", ["left face", "right face"]),
        ("hip-tail", "foot", "8", "2x6", ["left face", "right face"]),
        ("sleeper-edge", "foot", "4", "2x8", []),
        ("hip-backing", "foot", "8", "2x8", ["left face", "right face"]),
    ],
)
def test_the_shoe_rides_where_the_blade_reaches(cut, end, pitch, stock, shoes):
    """A 4x6's 3 1/2 in take 4.95 in of blade at 45 degrees: from both faces, half from each; a tilt
    past 50 degrees is left to the handsaw (a usual saw tilts to about 50; common practice). The
    first cheek's offcut bears the shoe for the second; a rip's is a sliver that bears nothing, so a
    straight board is clamped beside the edge both times (as the lesson has it)."""
    heard = sawing_words(answered(cut, end, pitch=pitch, stock=stock))
    places = [part.partition(",")[0] for part in heard.split("Shoe on the ")[1:]]
    assert places == shoes
    assert (SECOND_CHEEK in heard) == (cut in ("hip-ridge", "hip-tail"))
    assert (SECOND_RIP in heard) == (cut == "hip-backing")
    assert heard.count("Start at the") == len(shoes)


def test_a_plane_beyond_the_saw_is_cut_by_handsaw_beside_those_that_are_sawn():
    """The level cut of a 4x4 hip's mouth runs through 3 1/2 in square: no usual saw is so deep."""
    heard = sawing_words(answered("hip-seat", "foot", pitch="4", stock="4x4"))
    assert heard.startswith("Against the plate: Saw along the face mark and the edge mark with a")
    assert heard.count("Shoe on the") == 2
