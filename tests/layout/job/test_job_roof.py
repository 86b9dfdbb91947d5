"""A job's texts read into the plan of a roof: every value arrives where its name says."""

import pytest

from layout.errors import FrameError, LayoutError
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan, Wing
from layout.job.job import Job, nearest_word
from layout.job.job_roof import find_ends, find_stick, read_end, roof_plan, size_texts, with_texts
from layout.quantity import read_pitch
from layout.stock import read_stock

EVERY = {
    "size": "30' x 18'",
    "pitch": "9 in 12",
    "end-pitch": "10 in 12",
    "ends": "gable, bay",
    "wing": "7' x 11'",
    "wing-at": "6'",
    "wing-end": "gable",
    "wing-pitch": "11 in 12",
    "spacing": "20in",
    "first": "13in",
    "overhang": "14in",
    "rake-overhang": "5in",
    "fascia": "1 1/2",
    "seat": "2 1/2",
    "hip-way": "dropped",
    "hip-head": "ridge",
    "high-wall": "ledger",
    "rafter": "2x8",
    "hip": "2x10",
    "valley": "2x12",
    "ridge": "1x10",
    "plate": "2x6",
}


def test_every_value_of_a_job_is_its_own_field():
    assert roof_plan(Job("yard", EVERY)) == RoofPlan(
        length_in=360.0,
        width_in=216.0,
        pitch=read_pitch("9"),
        end_pitch=read_pitch("10"),
        ends=("gable", "bay"),
        wing=Wing(84.0, 132.0, "gable", read_pitch("11"), 72.0),
        spacing_in=20.0,
        first_in=13.0,
        overhang_in=14.0,
        rake_overhang_in=5.0,
        fascia_in=1.5,
        seat_in=2.5,
        rafter=read_stock("2x8"),
        hip=read_stock("2x10"),
        valley=read_stock("2x12"),
        ridge=read_stock("1x10"),
        plate=read_stock("2x6"),
        hip_way="dropped",
        hip_head="ridge",
        high="ledger",
    )


def test_what_a_job_does_not_say_is_the_usual():
    assert roof_plan(Job("yard")) == RoofPlan(288.0, 192.0)
    wing = roof_plan(Job("yard", {"wing": "7' x 11'"})).wing
    assert wing == Wing(84.0, 132.0, "hip", None, 0.0)


@pytest.mark.parametrize(
    ("texts", "first_in"),
    [
        ({"spacing": "20in"}, None),
        ({"spacing": "20in", "start": "end common"}, None),
        ({"spacing": "20in", "start": "corner"}, 20.0),
        ({"spacing": "20in", "start": "corner", "first": "13in"}, 13.0),
    ],
)
def test_jacks_are_laid_from_where_the_job_starts(texts, first_in):
    assert roof_plan(Job("yard", texts)).first_in == first_in


def test_walls_are_walked_as_they_are_said():
    """A shed of 12 by 8 ft, its wall at the back high; then the same walls as four eaves."""
    sides = [
        {"length": "12'", "pitch": "5 in 12", "name": "front"},
        {"length": "8'", "kind": "gable"},
        {"length": "12'", "kind": "high", "turn": "90"},
        {"length": "8'", "kind": "gable", "pitch": "7 in 12"},
    ]
    plan = roof_plan(Job("shed", {"pitch": "6 in 12"}, tuple(sides)))
    walls = plan.outline.walls
    assert [wall.kind for wall in walls] == ["eave", "gable", "high", "gable"]
    assert [wall.length_in for wall in walls] == pytest.approx([144, 96, 144, 96])
    assert [wall.turn_deg for wall in walls] == pytest.approx([90] * 4)
    assert [wall.pitch for wall in walls] == [read_pitch("5"), None, None, None]
    assert walls[0].name == "front"
    four = [{"length": side["length"]} for side in sides]
    plain = roof_plan(Job("hut", {"pitch": "6 in 12"}, tuple(four)))
    assert {wall.pitch for wall in plain.outline.walls} == {read_pitch("6")}
    with pytest.raises(FrameError):
        roof_plan(Job("hut", {}, ({"length": "12'", "turn": "-45"}, *four[1:])))


def test_equal_walls():
    assert size_texts("8 x 6'") == (8, 72.0)
    walls = roof_plan(Job("bandstand", {"equal": "8 x 6'", "pitch": "7"})).outline.walls
    assert [(wall.length_in, wall.turn_deg, wall.pitch) for wall in walls] == [
        (pytest.approx(72), pytest.approx(45), read_pitch("7"))
    ] * 8
    for text in ("8", "6' x 8", "x 6'", "8' x 6'"):
        with pytest.raises(FrameError, match="how many x how long"):
            size_texts(text)


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ({"ends": "hip"}, "both ends"),
        ({"ends": "hip,hip,gable"}, "'hip,hip,gable' should name both ends"),
        ({"ends": "hip,flat"}, "not 'flat'"),
        ({"size": "24'"}, 'size "24\'" is no size'),
        ({"wing": "8'"}, 'wing "8\'" is no size'),
    ],
)
def test_what_cannot_be_read_is_told(texts, said):
    with pytest.raises(LayoutError) as told:
        roof_plan(Job("yard", texts))
    assert said in str(told.value)


def test_ends_of_a_ridge_are_read_in_any_letters():
    assert [read_end(text) for text in (" Hip", "GABLE ", "bay")] == ["hip", "gable", "bay"]


def test_a_stick_or_a_piece_is_found_by_its_name():
    roof = frame(RoofPlan(7.0 * 12, 6.0 * 12, spacing_in=16.0))
    stick, names = find_stick(roof, " j1 ")
    assert (stick.name, names) == ("J1", ("J1",))
    first, of_piece = find_stick(roof, "J-A")
    assert first.name == of_piece[0]
    assert len(of_piece) > 1
    assert all(name.startswith("J") for name in of_piece)
    for wrong, near in (("J-Z", "J-"), ("H-Z", "H-")):
        with pytest.raises(FrameError, match=f"{wrong}.*did you mean '{near}"):
            find_stick(roof, wrong)
    (head,) = find_ends(roof, "J1:HEAD")
    assert head.end == "head"
    every = find_ends(roof, "C1")
    assert [str(one.entry.name) for one in every] == ["C1:head", "C1:seat", "C1:foot"]
    with pytest.raises(FrameError, match="'tip' is no end of a stick; give one of head"):
        find_ends(roof, "C1:tip")


def test_texts_said_anew():
    job = Job("yard", {"pitch": "8", "end-pitch": "9"})
    other = with_texts(job, pitch=None, end_pitch="10", wing_at="3'")
    assert dict(other.texts) == {"pitch": "8", "end-pitch": "10", "wing-at": "3'"}
    assert dict(job.texts) == {"pitch": "8", "end-pitch": "9"}
    assert (other.said("pitch", "4"), other.said("size", "9' x 9'")) == ("8", "9' x 9'")
    assert (other.given("pitch"), other.given("size")) == ("8", None)


def test_the_nearest_word_or_the_first_few():
    known = tuple(f"{letter}{letter}" for letter in "abcdefghijklm")
    assert nearest_word("aab", known) == "did you mean 'aa'?"
    told = nearest_word("zz", known)
    assert told == f"give one of {', '.join(known[:12])} ..."
    assert nearest_word("zz", known[:12]) == f"give one of {', '.join(known[:12])}"
