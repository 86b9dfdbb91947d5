"""The saw that the learner has, told to lessons, drills, worksheets, books and roofs."""

import re
from random import Random

import pytest

from layout.tools.saw import SawKind, SawLimits
from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.course.runner import asked as asked_for
from lessons.drill.dealer import Deck
from lessons.drill.problem import AwkwardError, put
from lessons.drill.worksheet import Series
from tests.counts import LONG

ONE_SAW = {"blade-left": "bottom edge", "blade-right": "top edge"}
"""Where each saw starts a right-hand hip jack on its steadier face: facing the way a blade-left
saw goes, its wide side is at the right (common practice, no source)."""


def said(capsys, *arguments):
    assert run(list(arguments)) == 0
    return " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize(("kind", "edge"), ONE_SAW.items())
def test_a_lesson_speaks_of_the_saw_that_is_named(capsys, kind, edge):
    text = said(capsys, "lesson", "hip-jack", "--hand", "right", "--saw", kind)
    steps = text[text.index("BY SAW") : text.index("DO THEY FIT?")]
    assert f"So start at the {edge}." in steps
    assert "blade-left" not in steps
    assert "blade-right" not in steps


def test_a_lesson_follows_the_reach_of_the_saw(capsys):
    # 1.5 / cos 45 = 2.12 in of blade in one pass, half of that from each face.
    usual = said(capsys, "lesson", "hip-jack")
    assert "So start at the" in usual
    short = said(capsys, "lesson", "hip-jack", "--blade-depth", "2in")
    assert "one pass of this saw does not make the cut" in short
    assert "saw half from each, tilt 45°, 1 1/16 in of saw blade" in short
    assert "On the other face start at the same edge." in short
    weak = said(capsys, "lesson", "hip-jack", "--max-tilt", "40")
    assert "saw along the face mark and the edge mark with a handsaw" in weak
    # A 4x6 square across takes 3 1/2 in: from both faces.
    thick = said(capsys, "lesson", "plumb-and-level", "--stock", "4x6")
    assert "saw half from each, tilt 0°, 1 3/4 in of saw blade" in thick


def test_a_drill_asks_for_no_tilt_past_the_saw_that_is_named():
    """The other rise over this roof's rise is the tilt's tangent: 12 over 8 makes 56.31."""
    lesson = catalog()["unequal-pitches"]
    place = next(i for i, one in enumerate(lesson.drills) if one.answer == "tilt:deg")
    given = {"pitch": "8 in 12", "other_pitch": "12 in 12", "corner": "90"}
    with pytest.raises(AwkwardError, match="past a common saw"):
        put(lesson, place, given)
    far = SawLimits(tilt_deg=60.0)
    assert put(lesson, place, given, limits=far).sought.value == pytest.approx(56.31, abs=0.005)
    dealt = Deck(Random(1), limits=far).deal(lesson, place)
    assert dealt.true_answer.limits == far


@pytest.mark.parametrize(
    ("corner", "reach", "past"), [("100", 50.0, False), ("100", 45.0, True), ("110", 50.0, True)]
)
def test_a_question_doubts_a_tilt_only_past_the_saw(corner, reach, past):
    """At one pitch the tilt is half the corner: 50 of 100, which a saw that tilts to 50 reaches
    and one that tilts to 45 does not, and 55 of 110."""
    lesson = catalog()["skew-corner"]
    place = next(i for i, one in enumerate(lesson.drills) if one.answer == "tilt:deg")
    given = {"pitch": "7 in 12", "corner": corner, "stock": "2x6", "hand": "left"}
    asked = asked_for(lesson, given, limits=SawLimits(tilt_deg=reach))
    question = lesson.drills[place].ask.fill(asked)
    assert question.endswith(f"for this jack, shoe on the face{', if it could' * past}?")


def test_bad_limits_are_refused_by_every_command(capsys, tmp_path):
    every = (
        ["lesson", "hip-jack"],
        ["drill", "hip-jack", "--preview", "1"],
        ["worksheet", "hip-jack", "-o", str(tmp_path / "a.pdf")],
        ["book", "hip-jack", "-o", str(tmp_path / "a.pdf")],
        ["check", "hip-jack"],
        ["roof"],
    )
    for arguments in every if LONG else every[-1:]:
        assert run([*arguments, "--max-tilt", "95"]) == 2
        assert "no saw leans to 95 degrees" in capsys.readouterr().err
        assert run([*arguments, "--blade-depth", "0"]) == 2
        assert "below the shoe is no circular saw's" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_a_worksheet_says_the_saw_in_its_command():
    saw = SawLimits(tilt_deg=45.0, depth_in=2.0, kind=SawKind.BLADE_RIGHT)
    words = Series((), ("hip-jack",), 3, limits=saw).command
    assert words.endswith("--max-tilt 45 --blade-depth 2in --saw blade-right")
    assert Series((), ("hip-jack",), 3).command == "squaresaw worksheet hip-jack --seed 3"


def test_the_cut_list_says_how_the_saw_reaches_each_cut(capsys):
    """Of a square corner at one pitch, jacks and hips take 45 degrees and a seat none."""

    def cuts(*more):
        assert run(["roof", "--size", "8' x 6'", *more]) == 0
        text = capsys.readouterr().out
        lines = text[text.index("\nCUTS\n") :].split("\n\n")[0].splitlines()
        found = [re.split(r"\s{2,}", line)[:5] for line in lines if re.match(r"[a-z]+-", line)]
        return {(row[0], row[2]): row[4] for row in found}

    weak = cuts("--max-tilt", "40")
    assert weak["hip-jack", "left"] == weak["hip-jack", "right"] == "handsaw"
    assert weak["hip-backing", "left"] == "one pass on a face"
    assert weak["common-seat", "-"] == "one pass on a face, to the inside corner"
    known = cuts("--saw", "blade-right", "--blade-depth", "2in")
    assert known["hip-jack", "left"] == "half from each face"  # 1.5 / cos 45 = 2.12
    assert known["common-tail-plumb", "-"] == "right face, from the top edge"
