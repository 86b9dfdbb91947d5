"""A claim as it is said: its lines by trigonometry, its limits, its words, and its setting."""

from dataclasses import replace
from itertools import product
from math import atan, degrees

import numpy as np
import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Hand
from layout.quantity import read_pitch
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw
from lessons.settle.claim import SQUARE, Claim, ClaimedLine, ClaimError, claimed, write_claim
from lessons.settle.claim_repair import nearest_right
from lessons.settle.claim_setting import completed, setting_of, taken

PLUMB, LEVEL = ClaimedLine("plumb", 8, 12), ClaimedLine("level", 8, 12)
NUMBERS, ANGLE = ClaimedLine("numbers", 12, 10), ClaimedLine("degrees", 33.7)


def right(cut, **how):
    return answer(ask(cut, pitch=read_pitch("8"), **how))


JACK, VALLEY, BACKING = right("hip-jack"), right("valley-jack"), right("hip-backing")
RIGHT_JACK, SEAT, RIDGE = (
    right("hip-jack", hand=Hand.RIGHT),
    right("common-seat"),
    right("common-ridge"),
)


def named(true_answer):
    """The same in every process, as the places of its functions in memory are not."""
    return f"{true_answer.question.entry.name}-{true_answer.question.hand.value}"


def test_lines_have_the_angles_of_their_triangles():
    """A plumb line is marked along the rise, a level one along the run."""
    assert PLUMB.from_square_deg == pytest.approx(degrees(atan(8 / 12)))
    assert LEVEL.from_square_deg == pytest.approx(degrees(atan(12 / 8)))
    assert NUMBERS.from_square_deg == pytest.approx(degrees(atan(12 / 10)))
    assert ANGLE.from_square_deg == 33.7
    assert SQUARE.from_square_deg == 0
    for line in (PLUMB, LEVEL, NUMBERS, ANGLE, SQUARE):
        along, across = line.legs
        assert degrees(np.arctan2(along, across)) == pytest.approx(line.from_square_deg)


@pytest.mark.parametrize("number", [1e-6, 12.0, 10_000.0])
@pytest.mark.parametrize("kind", ["plumb", "level", "numbers"])
def test_any_number_lays_a_line_up_to_ten_thousand(kind, number):
    assert ClaimedLine(kind, number, 12.0).first == number
    assert ClaimedLine(kind, 12.0, number).second == number
    for wrong in (0.0, -1.0, 10_000.1):
        for pair in ((wrong, 12.0), (12.0, wrong)):
            with pytest.raises(ClaimError, match=r"cannot be laid on a square"):
                ClaimedLine(kind, *pair)


@pytest.mark.parametrize("angle", [0.0, 90.0, 120.0, -5.0])
def test_an_angle_of_a_mark_is_more_than_0_and_less_than_90(angle):
    with pytest.raises(ClaimError, match=rf"a mark at {angle:g}deg does not run across"):
        ClaimedLine("degrees", angle)
    assert ClaimedLine("degrees", 0.5).first == 0.5
    assert ClaimedLine("degrees", 89.5).first == 89.5


@pytest.mark.parametrize(
    ("said", "message"),
    [
        ({}, "nothing is said of a mark or a tilt"),
        ({"tilt_deg": 90.0}, "tilted by 90 lies flat"),
        ({"tilt_deg": -1.0}, "tilted by -1 lies flat"),
        ({"rip": True, "gauge_in": (0.0, 0.3)}, "gauge of 0 with a drop of 0.3"),
        ({"rip": True, "gauge_in": (0.75, -0.1)}, "lays no bevel"),
        ({"rip": True, "gauge_in": (10_001.0, 0.1)}, "lays no bevel"),
        ({"rip": True, "gauge_in": (0.75, 10_001.0)}, "lays no bevel"),
        ({"rip": True, "gauge_in": (0.75, 0.3), "tilt_deg": 20.0}, "a rip is said either"),
        ({"rip": True, "tilt_deg": 20.0, "face": PLUMB}, "a rip is said either"),
        ({"rip": True, "tilt_deg": 20.0, "edge": NUMBERS}, "a rip is said either"),
        ({"rip": True, "tilt_deg": 20.0, "top": "head"}, "a rip is said either"),
        ({"tilt_deg": 20.0, "arris": "top"}, "of a rip alone"),
        ({"face": PLUMB, "edge": NUMBERS, "tilt_deg": 45.0}, "say the plane twice"),
        ({"edge": NUMBERS, "tilt_deg": 45.0}, "a saw on the face follows a face mark"),
        ({"face": PLUMB, "tilt_deg": 45.0, "shoe": "edge"}, "the shoe on the edge follows"),
        ({"edge": NUMBERS, "shoe": "edge"}, "the shoe on the edge follows"),
        ({"tilt_deg": 45.0, "table": True}, "a table and a tilt"),
        ({"face": PLUMB, "table": True}, "a table and a tilt"),
    ],
)
def test_what_is_no_claim(said, message):
    with pytest.raises(ClaimError, match=message):
        Claim(**said)


@pytest.mark.parametrize(
    ("claim", "words", "lacks"),
    [
        (Claim(face=PLUMB, tilt_deg=45), "plumb 8 in 12, saw 45", ""),
        (Claim(face=PLUMB, tilt_deg=0), "plumb 8 in 12, saw 0°", ""),
        (Claim(face=PLUMB, tilt_deg=24.9), "plumb 8 in 12, saw 24.9°", ""),
        (Claim(face=PLUMB, tilt_deg=25), "plumb 8 in 12, saw 25", ""),
        (Claim(face=PLUMB, edge=NUMBERS), "plumb 8 in 12, edge 10 on 12", ""),
        (Claim(face=LEVEL), "level 8 in 12", "an edge mark or the saw's tilt, such as"),
        (Claim(edge=NUMBERS), "edge 10 on 12", "a face mark, such as"),
        (Claim(tilt_deg=45), "saw 45", "a face mark, such as"),
        (Claim(tilt_deg=30, shoe="edge"), "shoe on the edge, tilt 30", "an edge mark, such as"),
        (
            Claim(edge=ANGLE, tilt_deg=30, shoe="edge"),
            "shoe on the edge, edge 33.7° from square, tilt 30",
            "",
        ),
        (Claim(face=SQUARE, edge=SQUARE), "square", ""),
        (Claim(face=SQUARE, tilt_deg=45), "face square, saw 45", ""),
        (Claim(face=PLUMB, edge=SQUARE), "plumb 8 in 12, edge square", ""),
        (Claim(face=ClaimedLine("numbers", 12, 8)), "face 8 on 12 mark 12", "an edge mark or"),
        (
            Claim(face=ANGLE, tilt_deg=45, table=True),
            "board flat: table 33.7, tilt 45",
            "",
        ),
        (
            Claim(face=SQUARE, tilt_deg=45, table=True),
            "board flat: table square, tilt 45",
            "",
        ),
        (
            Claim(face=PLUMB, tilt_deg=45, table=True),
            "board flat: table plumb 8 in 12, tilt 45",
            "",
        ),
        (Claim(rip=True, tilt_deg=30), "rip, saw 30", ""),
        (Claim(rip=True, gauge_in=(0.75, 0.3125)), "gauge 3/4 drop 5/16", ""),
        (Claim(rip=True, gauge_in=(0.75, 0.0)), "gauge 3/4 drop 0", ""),
        (
            Claim(rip=True, tilt_deg=30, arris="bottom", cheek=Hand.RIGHT),
            "rip, saw 30, right cheek, bottom edge",
            "",
        ),
        (
            Claim(face=PLUMB, tilt_deg=45, cheek=Hand.LEFT, top="head"),
            "plumb 8 in 12, saw 45, left cheek",
            "",
        ),
        (Claim(face=LEVEL, tilt_deg=45, top="foot"), "level 8 in 12, saw 45", ""),
        (
            Claim(face=PLUMB, tilt_deg=45, top="foot"),
            "face 12 on 8 mark 8, saw 45, top to foot",
            "",
        ),
        (
            Claim(face=LEVEL, tilt_deg=45, top="head"),
            "face 8 on 12 mark 12, saw 45, top to head",
            "",
        ),
        (
            Claim(face=ANGLE, tilt_deg=45, top="head"),
            "face 33.7° from square, saw 45, top to head",
            "",
        ),
    ],
)  # fmt: skip
def test_a_claim_in_words_and_what_it_lacks(claim, words, lacks):
    assert write_claim(claim) == words
    assert claim.missing.startswith(lacks)
    assert bool(claim.missing) == bool(lacks)
    assert str(claim) == words
    assert str(replace(claim, text="as said")) == "as said"


SIGNS = list(product((1, -1), (1, -1)))


@pytest.mark.parametrize("true_answer", [JACK, RIGHT_JACK, VALLEY, SEAT], ids=named)
def test_a_setting_said_as_a_claim_is_that_setting_again(true_answer):
    """Whatever way it leans: the claim says both ways, and the joint lends only the end."""
    end = int(np.sign(true_answer.cut.normal[0]))
    settings = [ByHand((0, 12), 1, (0, 12), 1, end)]
    for one, two in SIGNS:
        settings += [
            ByHand((8, 12), one, (12, 10), two, end),
            BySaw(33.7, one, 40.0, two, end),
            BySawOnEdge(39.8, one, 30.0, two, end),
        ]
    for setting in settings:
        again = setting_of(claimed(setting), true_answer)
        assert np.asarray(again.normal) == pytest.approx(np.asarray(setting.normal), abs=1e-12)


def test_a_rip_said_as_a_claim_is_that_rip_again():
    for one, two in SIGNS:
        for setting in (RipByHand(0.75, 0.3, one, two), RipBySaw(23.0, one, two)):
            again = setting_of(claimed(setting), BACKING)
            assert np.asarray(again.normal) == pytest.approx(np.asarray(setting.normal), abs=1e-12)
            words = write_claim(claimed(setting))
            assert words.endswith("top edge" if one > 0 else "bottom edge")
            assert ("left cheek" in words) == (two < 0)


@pytest.mark.parametrize("true_answer", [JACK, RIGHT_JACK, VALLEY, SEAT, RIDGE], ids=named)
def test_what_a_claim_leaves_open_is_the_joint_s_own(true_answer):
    """The right parts alone, and the rest lent: the joint's own plane."""
    own = true_answer.cut
    tilt, edge_tilt = float(own.face_tilt_deg), float(own.edge_tilt_deg)
    face, edge = (
        ClaimedLine("degrees", mark.from_square_deg) if mark.lean else SQUARE
        for mark in (true_answer.face, true_answer.edge)
    )
    claims = [
        Claim(face=face), Claim(edge=edge), Claim(tilt_deg=tilt), Claim(face=face, edge=edge),
        Claim(tilt_deg=edge_tilt, shoe="edge"), Claim(face=face, tilt_deg=tilt),
    ]  # fmt: skip
    for claim in claims:
        whole = completed(claim, true_answer)
        assert not whole.missing
        normal = setting_of(whole, true_answer).normal
        assert np.asarray(normal) == pytest.approx(np.asarray(own.normal), abs=1e-9), claim
    left = replace(claims[3], cheek=Hand.LEFT)
    other = replace(claims[3], cheek=Hand.RIGHT)
    normals = [setting_of(one, true_answer).normal for one in (left, other)]
    assert normals[0][1] == pytest.approx(-normals[1][1])
    assert normals[0][1] >= -1e-12
    assert list(normals[0][::2]) == pytest.approx(list(normals[1][::2]))


def test_what_is_taken_for_granted_is_said():
    whole = Claim(face=PLUMB, tilt_deg=45)
    assert list(taken(whole, JACK)) == ["left cheek", "top to head"]
    assert list(taken(whole, RIGHT_JACK)) == ["right cheek", "top to head"]
    assert list(taken(replace(whole, top="head"), VALLEY)) == ["left cheek"]
    assert list(taken(Claim(face=SQUARE, edge=SQUARE), JACK)) == []
    assert list(taken(Claim(face=PLUMB, edge=SQUARE), SEAT)) == ["top to foot"]
    assert list(taken(Claim(face=PLUMB, tilt_deg=0), JACK)) == ["top to head"]
    assert list(taken(Claim(face=SQUARE, tilt_deg=20), RIDGE)) == ["either cheek alike"]
    on_edge = Claim(edge=NUMBERS, tilt_deg=30, shoe="edge")
    assert list(taken(on_edge, JACK)) == ["left cheek", "top to head"]
    assert list(taken(replace(on_edge, edge=SQUARE), JACK)) == ["top to head"]
    assert list(taken(replace(on_edge, tilt_deg=0), JACK)) == ["left cheek"]
    rip = Claim(rip=True, gauge_in=(0.75, 0.3))
    assert list(taken(rip, BACKING)) == [f"{BACKING.hand.value} cheek", "top edge"]
    assert list(taken(replace(rip, arris="bottom", cheek=Hand.LEFT), BACKING)) == []


def test_a_claim_of_the_wrong_kind_is_refused():
    with pytest.raises(ClaimError, match="is of a rip, but hip-jack ends the board"):
        setting_of(Claim(rip=True, tilt_deg=20), JACK)
    with pytest.raises(ClaimError, match="ends the board, but hip-backing is a rip along it"):
        setting_of(Claim(face=PLUMB, tilt_deg=20), BACKING)
    with pytest.raises(ClaimError, match=r"'saw 45' leaves the plane open: it lacks a face mark"):
        setting_of(Claim(tilt_deg=45), JACK)
    assert completed(Claim(tilt_deg=20), BACKING).rip


@pytest.mark.parametrize(
    ("true_answer", "wrong", "put_right"),
    [
        (JACK, "plumb 8 in 12, saw 40", Claim(face=PLUMB, tilt_deg=45)),
        (JACK, "plumb 9 in 12, saw 45", Claim(face=PLUMB, tilt_deg=45, top="head")),
        (JACK, "face 30, saw 45", Claim(face=ClaimedLine("degrees", 33.5), tilt_deg=45)),
        (JACK, "plumb 8 in 12, edge 12 on 12", Claim(face=PLUMB, edge=NUMBERS)),
        (JACK, "plumb 8 in 12, edge square", Claim(face=PLUMB, edge=NUMBERS)),
        (JACK, "edge 12 on 12, tilt 30", None),
        (JACK, "right cheek", Claim(face=PLUMB, tilt_deg=45, cheek=Hand.LEFT)),
        (RIGHT_JACK, "plumb 8 in 12, saw 30", Claim(face=PLUMB, tilt_deg=45)),
        (VALLEY, "plumb 8 in 12, saw 30", Claim(face=PLUMB, tilt_deg=45)),
        (SEAT, "level 9 in 12", Claim(face=LEVEL, edge=SQUARE, top="foot")),
        (RIDGE, "plumb 9 in 12", Claim(face=PLUMB, edge=SQUARE, top="head")),
        (BACKING, "gauge", Claim(rip=True, gauge_in=(0.75, 5 / 16))),
        (BACKING, "rip", Claim(rip=True, tilt_deg=23.0)),
    ],
)
def test_a_wrong_claim_is_put_right_in_the_part_that_was_wrong(true_answer, wrong, put_right):
    """At 8 in 12 a jack takes 8 and 12, 45, or 10 on 12 (12 cos(slope) = 9.98); a hip's backing
    is atan(8 / sqrt(64 + 288)) = 23.1, to the half degree 23, over 3/4 in a drop of 5/16."""
    said = {
        "plumb 8 in 12, saw 40": Claim(face=PLUMB, tilt_deg=40),
        "plumb 9 in 12, saw 45": Claim(face=ClaimedLine("plumb", 9, 12), tilt_deg=45),
        "face 30, saw 45": Claim(face=ClaimedLine("degrees", 30), tilt_deg=45),
        "plumb 8 in 12, edge 12 on 12": Claim(face=PLUMB, edge=ClaimedLine("numbers", 12, 12)),
        "plumb 8 in 12, edge square": Claim(face=PLUMB, edge=SQUARE),
        "edge 12 on 12, tilt 30": Claim(
            edge=ClaimedLine("numbers", 12, 12), tilt_deg=25, shoe="edge"
        ),
        "right cheek": Claim(face=PLUMB, tilt_deg=45, cheek=Hand.RIGHT),
        "plumb 8 in 12, saw 30": Claim(face=PLUMB, tilt_deg=30),
        "level 9 in 12": Claim(face=ClaimedLine("level", 9, 12), edge=SQUARE),
        "plumb 9 in 12": Claim(face=ClaimedLine("plumb", 9, 12), edge=SQUARE),
        "gauge": Claim(rip=True, gauge_in=(0.75, 0.5)),
        "rip": Claim(rip=True, tilt_deg=30),
    }[wrong]
    mended = nearest_right(said, true_answer)
    fit = true_answer.fit(setting_of(mended, true_answer))
    assert float(fit.widest_in) <= true_answer.tolerance_in
    assert (mended.shoe, mended.rip) == (said.shoe, said.rip)
    assert (mended.tilt_deg is None, mended.edge is None) == (
        said.tilt_deg is None, said.edge is None,
    )  # fmt: skip
    if put_right is not None:
        assert replace(mended, top=put_right.top or mended.top) == replace(
            put_right, top=put_right.top or mended.top
        )


FINE_IN = 1 / 500
"""Finer than the sixteenth and the half degree that tools are read to."""


@pytest.mark.parametrize("cut", ["hip-jack", "valley-jack", "hip-ridge-single", "common-seat"])
def test_where_what_is_read_will_not_do_it_is_put_right_in_finer_numbers(cut):
    """To the thousandth of an inch and the hundredth of a degree, with the same kind of line."""
    fine = answer(ask(cut, pitch=read_pitch("7")), tolerance_in=FINE_IN)
    slope = fine.stick_slope_deg
    plumb = fine.face.lean > 0
    kind = "plumb" if plumb else "level"
    for said in (
        Claim(face=ClaimedLine("numbers", 5, 12), edge=ClaimedLine("numbers", 12, 11)),
        Claim(face=ClaimedLine(kind, 5, 12), edge=ClaimedLine("numbers", 12, 11)),
        Claim(face=ClaimedLine("degrees", 20), tilt_deg=30),
        Claim(face=ClaimedLine(kind, 5, 12), tilt_deg=30),
        Claim(edge=ClaimedLine("degrees", 20), tilt_deg=20, shoe="edge"),
    ):
        mended = nearest_right(said, fine)
        assert float(fine.fit(setting_of(mended, fine)).widest_in) <= FINE_IN, said
        if mended.tilt_deg is not None:
            assert round(mended.tilt_deg, 2) == mended.tilt_deg
        if mended.face is not None:
            degrees_said = said.face.kind == "degrees"
            assert mended.face.kind == ("degrees" if degrees_said else kind)
            assert mended.face.from_square_deg == pytest.approx(
                slope if plumb else 90 - slope, abs=0.02
            )
            assert all(round(n, 3) == n for n in (mended.face.first, mended.face.second))
            assert degrees_said or max(mended.face.first, mended.face.second) in (12, 16.971)
        if mended.edge not in (None, SQUARE):
            assert all(round(n, 3) == n for n in (mended.edge.first, mended.edge.second))
            assert mended.edge.kind == said.edge.kind


def test_no_lean_is_said_that_the_joint_does_not_have():
    """A stud's mark is square over its face; a common's cut has no cheek."""
    stud = right("gable-stud")
    said = Claim(face=PLUMB, tilt_deg=20, cheek=stud.hand, top="head")
    mended = nearest_right(said, stud)
    assert (mended.face, mended.top, mended.cheek) == (SQUARE, None, stud.hand)
    turned = nearest_right(Claim(face=SQUARE, tilt_deg=20, table=False, cheek=Hand.RIGHT), RIDGE)
    assert (turned.cheek, turned.tilt_deg) == (None, 0)
    assert turned.face.kind == "plumb"
    leaning = setting_of(Claim(face=ANGLE, tilt_deg=20), stud)  # either way along alike
    assert leaning.top_lean == 1
    table = nearest_right(Claim(face=PLUMB, tilt_deg=20, table=True), stud)
    assert not table.table
    assert nearest_right(Claim(face=PLUMB, tilt_deg=40, table=True), JACK).table
    kept = nearest_right(Claim(face=PLUMB, tilt_deg=40, text="as said"), JACK)
    assert kept.text == ""
    assert kept.top is None  # a plumb line's lean goes without saying
    leans = nearest_right(Claim(face=ANGLE, tilt_deg=45, top="foot"), JACK)
    assert (leans.top, leans.face) == ("head", ANGLE)


@pytest.mark.parametrize(
    "cut", ["purlin-square", "fascia-square", "splayed-miter", "sleeper-head", "roof-board",
            "collar-tie", "common-ridge", "common-seat", "common-tail-level", "valley-tail"]
)  # fmt: skip
@pytest.mark.parametrize("pitch", ["8", "12"])
def test_a_mark_is_put_right_as_plumb_or_level_only_where_it_is(cut, pitch):
    """A plumb line stands at the stick's own slope from square and its top leans to the head, a
    level one a quarter turn from it; a stick that lies level has neither slope. At 12 in 12 both
    lie at 45 degrees, and only the lean tells them apart."""
    there = answer(ask(cut, pitch=read_pitch(pitch)))
    mark, slope = there.face, there.stick_slope_deg
    said = Claim(face=ClaimedLine("numbers", 5, 12), tilt_deg=float(there.cut.face_tilt_deg))
    plumb = mark.lean > 0 and mark.from_square_deg == pytest.approx(slope)
    level = mark.lean < 0 and mark.from_square_deg == pytest.approx(90 - slope)
    own = nearest_right(said, there).face
    assert own.kind == ("plumb" if plumb else "level" if level else "numbers")
    assert own.from_square_deg == pytest.approx(mark.from_square_deg, abs=0.4)


def test_a_mark_near_square_or_near_the_board_s_length_is_put_right_too():
    """1/8 in 12 is 0.6 degrees: half a degree as read. At 1/25 in 12 a level mark lies 0.19 off
    the board's length: no half degree but 90 says so, and 90 runs along the board."""
    ridge = answer(ask("common-ridge", pitch=read_pitch("0.125")))
    said = Claim(face=ClaimedLine("degrees", 10), edge=SQUARE)
    assert nearest_right(said, ridge).face == ClaimedLine("degrees", 0.5)
    seat = answer(ask("common-seat", pitch=read_pitch("0.04")))
    said = Claim(face=ClaimedLine("degrees", 80), edge=SQUARE)
    mended = nearest_right(said, seat)
    assert mended.face.kind == "level"
    assert float(seat.fit(setting_of(mended, seat)).widest_in) <= seat.tolerance_in
    # Where the walls turn by a tenth of a degree a plumb purlin is mitered by half of that: 0.01
    # on 12 reads as nothing on a square.
    purlin = answer(ask("purlin-plumb", pitch=read_pitch("8"), corner_deg=179.9))
    edge = nearest_right(Claim(face=SQUARE, edge=ClaimedLine("numbers", 12, 12)), purlin).edge
    assert (edge.kind, edge.first) == ("degrees", pytest.approx(0.05))


def test_a_claim_that_is_wrong_in_every_part_is_put_right_in_every_part():
    """8 in 12 is 33.69, to the half degree 33.5; a left jack's mark leans to the head."""
    said = Claim(
        face=ClaimedLine("degrees", 20), tilt_deg=20, cheek=Hand.RIGHT, top="foot", text="so"
    )
    assert nearest_right(said, JACK) == Claim(
        face=ClaimedLine("degrees", 33.5), tilt_deg=45, cheek=Hand.LEFT, top="head"
    )
