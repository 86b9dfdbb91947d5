"""Small words that turn what is heard: each sentence beside what it means, written down by hand.

At 8 in 12 a jack of a square corner takes 33.69 degrees or 8 and 12 on its face, and 45 on the
saw or 12 x 12 / sqrt(208) = 9.985 on 12 on its edge (atan(8 / 12); 12 cos of that).
"""

from math import atan, degrees
from typing import Any

import pytest

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand
from layout.quantity import read_pitch
from lessons.settle.findings import ClaimVerdict, Finding
from lessons.settle.settle import settle

RIGHT, WRONG, OPEN, UNREAD = (
    ClaimVerdict.RIGHT, ClaimVerdict.WRONG, ClaimVerdict.OPEN, ClaimVerdict.UNREAD,
)  # fmt: skip
PITCH_DEG = degrees(atan(8 / 12))


@pytest.fixture(scope="module")
def right() -> dict[str, Answer]:
    names = ("hip-jack", "valley-jack", "hip-ridge-single", "hip-backing")
    return {name: answer(ask(name, pitch=read_pitch("8"))) for name in names}


def heard(right: dict[str, Answer], said: str, name: str = "hip-jack") -> Finding:
    return settle(right[name], [said], explained=False).findings[0]


def only(found: Finding) -> Any:
    """The one claim that a sentence was taken for, nothing of it left out."""
    assert not found.left_out, found.left_out
    (tried,) = found.tried
    return tried.lead.claim


def on_12(line: Any) -> float:
    """A line's numbers on the square: what stands across from 12."""
    assert (line.kind, line.first) == ("numbers", 12.0)
    return float(line.second)


@pytest.mark.parametrize(
    ("said", "tilt_deg"),
    [
        ("tilt by the pitch", PITCH_DEG),
        ("the angle on the saw is the same as the roof pitch", PITCH_DEG),
        ("tilt the saw 8 in 12", PITCH_DEG),
        ("bevel 10 in 12", degrees(atan(10 / 12))),
        ("saw half of 90 is 45", 45.0),
        ("tilt 45 = 45", 45.0),
        ("not 12 inches but 45 degrees on the saw", 45.0),
        ("bandsaw 45", 45.0),
        ("set my yardsaw 45", 45.0),
        ("saw 45 (you know)", 45.0),
        ("saw 45, not 38, on a jack", 45.0),
    ],
)
def test_one_tilt(right, said, tilt_deg):
    found = heard(right, said)
    claim = only(found)
    assert (claim.face, claim.edge) == (None, None)
    assert claim.tilt_deg == pytest.approx(tilt_deg)
    assert found.verdict is (RIGHT if tilt_deg == 45 else WRONG)


@pytest.mark.parametrize(
    "said",
    [
        "plumb 8 in 12 on the saw 45",
        "plumb 8 in 12 on the yardsaw 45",
        "plumb 8, I think 8 in 12, saw 45",
        "tilt 45, 8 in 12 pitch",
        "saw half of 90 so 45, plumb 8 in 12",
        "plumb 8 in 12, saw 45 not 38 on a hip jack",
        "plumb rise 8 run the saw at 45",  # that run is no roof's
    ],
)
def test_the_pitch_on_the_face_and_45_on_the_saw(right, said):
    found = heard(right, said)
    claim = only(found)
    assert (claim.face.kind, claim.face.first, claim.face.second) == ("plumb", 8, 12)
    assert claim.tilt_deg == 45
    assert found.verdict is RIGHT


@pytest.mark.parametrize(
    ("said", "number"),
    [
        ("edge 10, I think 10 on 12", 10),
        ("saw 45 across the edge 10 on 12", 10),
        ("edge 12 and 10 mark along the 12 side saw 45", 10),
        ("edge: tongue 10, blade 12, mark along the blade", 10),
        ("edge 12 and 9 1/2, mark along the 12", 9.5),
        ("edge nine and 15/16 on 12", 9.9375),
    ],
)
def test_one_number_on_the_edge(right, said, number):
    found = heard(right, said)
    claim = only(found)
    assert claim.face is None
    assert on_12(claim.edge) == number
    assert found.verdict is (RIGHT if abs(number - 9.985) < 1 / 16 else WRONG)


@pytest.mark.parametrize(
    "said",
    [
        "saw (10) 45",  # a number in parentheses was said too
        "tilt 45 (38 please)",
        "saw 45 (edge of the board)",
        "don't saw 8 in, saw 45 degrees",  # an angle does not stand in a length's place
        "not 10 mm, 45 degrees",
        "saw 45, not 38 on the saw",
        "40 is what he says but, it, should be 45",  # so many commas part it otherwise
        "saw 45, against the ridge",  # a jack meets the hip
        "plumb 8 in 12, saw 45 against the valley",
    ],
)
def test_what_is_not_plain_gets_no_verdict(right, said):
    assert heard(right, said).verdict is UNREAD


@pytest.mark.parametrize("said", ["33.7 and 45", "33.7, 45"])
def test_two_angles_may_stand_either_way_round(right, said):
    tried = heard(right, said).tried
    ways = {(one.lead.claim.face.first, one.lead.claim.tilt_deg) for one in tried}
    assert {(33.7, 45), (45, 33.7)} <= ways


def test_a_slope_off_the_edge_asks_which_line(right):
    found = heard(right, "8 in 12 off the edge").heard
    assert found.quoted == "8 in 12"
    assert "which line is that against the edge" in found.why


def test_another_roof_s_pitch_leaves_the_setting_to_paste(right):
    found = heard(right, "a jack on a 9 in 12 roof takes saw 45")
    assert found.verdict is UNREAD
    assert found.heard.paste == "saw 45"


def test_half_a_degree_is_no_half_of_a_number(right):
    found = heard(right, "edge fifteen and half degrees")
    assert {one.lead.claim.edge.first for one in found.tried} == {15.5, 74.5}


def test_a_second_angle_in_parentheses_is_the_face_s(right):
    found = heard(right, "tilt 45 (35)")
    assert found.verdict is WRONG
    assert {one.lead.claim.face.first for one in found.tried} == {35, 55}


def test_a_face_mark_said_again_in_degrees_may_be_just_that(right):
    """From square across or off the edge; 50 degrees is neither, and is something more."""
    for again in ("33.7", "56.3"):
        found = heard(right, f"plumb 8 in 12, so {again}")
        assert found.verdict is OPEN
        assert found.tried[0].lead.claim.tilt_deg is None
    more = heard(right, "plumb 8 in 12, so 50").tried
    assert all(one.lead.claim.tilt_deg or one.lead.claim.edge for one in more)


@pytest.mark.parametrize("name", ["hip-jack", "valley-jack"])
def test_the_shoe_on_the_edge_tells_which_way_the_face_mark_leans(right, name):
    """A plumb face mark leans its top toward the head. On the top edge the outward normal is up:
    the hip jack's cheek looks down (its share up the depth is minus), so the blade runs in under
    the kept wood; the valley jack's, at the other end, looks up, so under the waste."""
    true, false = ("kept wood", "waste") if name == "hip-jack" else ("waste", "kept wood")
    said = "shoe on the edge, edge 10 on 12, saw 23.1, in under the {}"
    assert heard(right, said.format(true), name).verdict is RIGHT
    assert only(heard(right, said.format(true), name)).top == "head"
    assert heard(right, said.format(false), name).verdict is WRONG
    assert only(heard(right, said.format(false), name)).top == "foot"


@pytest.mark.parametrize(("name", "cheek"), [("hip-jack", Hand.LEFT), ("valley-jack", Hand.RIGHT)])
def test_the_nearer_mark_tells_the_hand(right, name, cheek):
    """A cheek faces the side of the shorter face: at the head the one whose mark lies nearer the
    foot, at the foot the other."""
    line = "the line on the left face lies nearer the foot than the one on the right face"
    assert only(heard(right, f"plumb 8 in 12, saw 45, {line}", name)).cheek is cheek


def test_a_hip_s_run_in_place_of_the_common_s(right):
    said = "seventeen instead of twelve on a hip, and 45 on the saw"
    claim = only(heard(right, said, "hip-ridge-single"))
    assert (claim.face.first, claim.face.second, claim.tilt_deg) == (8, 17, 45)


def test_half_the_corner_on_the_table(right):
    (tried,) = heard(right, "miter saw flat, table at half the corner").tried
    assert tried.lead.claim.face.from_square_deg == 45


@pytest.mark.parametrize(
    ("said", "gauge_in"),
    [
        ("drop a quarter", (0.75, 0.25)),
        ("back it a quarter", (0.75, 0.25)),
        ("gauge a half drop a quarter", (0.5, 0.25)),
        ("gauge half inch, drop quarter inch", (0.5, 0.25)),
        ("gauge half an inch, drop a quarter of an inch", (0.5, 0.25)),
        ("drop a half an inch", (0.75, 0.5)),
    ],
)
def test_halves_and_quarters(right, said, gauge_in):
    assert only(heard(right, said, "hip-backing")).gauge_in == gauge_in


def test_two_other_lines_are_each_left_out_in_turn(right):
    """Both may be another board's: it is asked about, not given up."""
    found = heard(right, "the level ones 56.3, saw 45, plumb is 33.7")
    assert found.verdict is OPEN
    assert set(found.left_out) == {"level ones 56.3", "plumb 33.7"}
