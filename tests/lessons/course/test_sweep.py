"""`squaresaw check`: the whole course agrees, and what does not is told with its place."""

import json
import re
from pathlib import Path

import pytest

import layout.tools.saw
import layout.tools.setting
from layout.answer.wording import given_line
from layout.errors import CutError, LayoutError, RoofError
from layout.tools.fit import SOUND_IN
from layout.vector import sin_cos, vector
from lessons.cli.main import run
from lessons.course import sweep as course_sweep
from lessons.course.lesson import catalog, parse_lesson
from lessons.course.runner import asked, written_out
from lessons.course.sweep import PITCHES, STOCKS, TAUGHT_EVERY, cases, sweep
from lessons.say.units import UNITS, System
from lessons.values.all_values import values
from tests.counts import LONG, count, part_of

TRIED = {}
"""What cuts came to that several lessons have in common."""
HERE = Path(__file__).parents[3]


def source(name: str) -> str:
    return (HERE / "lessons" / "course" / "catalog" / f"{name}.toml").read_text("utf-8")


@pytest.mark.parametrize("name", catalog())
def test_the_course_agrees_over_the_whole_sweep(name, monkeypatch):
    stocks = STOCKS[:: count(1, 3)]
    monkeypatch.setattr("lessons.course.sweep.PITCHES", PITCHES[:: count(1, 5)])
    monkeypatch.setattr("lessons.course.sweep.STOCKS", stocks)
    lesson = catalog()[name]
    swept = sweep(lesson, kept=TRIED)
    assert swept.fault is None
    assert swept.exact_in < SOUND_IN
    roofs = len(list(cases(lesson)))
    # Own board and five more for each roof; some roofs have no place for a cut, none has many.
    assert swept.cases >= (1 + len(stocks)) * roofs * 0.85
    assert 0 <= swept.read_in < 0.25


def test_check_prints_a_line_for_each_lesson(capsys):
    assert run(["check", "hip-jack", "splayed-box"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == 2
    assert lines[0].startswith("hip-jack     ")
    assert " cases  exact " in lines[0]
    assert "exact no gap; as read 1/8 in (0.120)  one plane; 24 need finer settings" in lines[0]
    # An octagon's corner takes 67.5 at equal pitches, past the 50 of a common saw.
    assert re.search(r"; \d+ out of this saw's reach$", lines[0])


def test_check_counts_the_blade_too(capsys):
    """A seat is sawn square through the whole thickness: 3/4 in of a 1x6, 3 1/2 in of a 4x8."""

    def out_of_reach(*more):
        assert run(["check", "birds-mouth", "--json", *more]) == 0
        (one,) = json.loads(capsys.readouterr().out)["lessons"]
        assert one["past_saw"] == 0
        assert one["cases"] == 6 * 14  # boards, roofs
        return one["out_of_reach"]

    assert out_of_reach() == 14
    assert out_of_reach("--blade-depth", "4in") == 0
    assert out_of_reach("--blade-depth", "1in") == 5 * 14


def test_check_in_json(capsys):
    assert run(["check", "hip-jack", "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    assert said["agree"] is True
    (one,) = said["lessons"]
    assert one["lesson"] == "hip-jack"
    assert one["cases"] > 1000
    assert one["gap_exact_in"] < SOUND_IN
    assert one["fault"] is None


def test_a_wrong_saw_is_found_and_told(monkeypatch, capsys):
    def half_a_degree_off(line_deg, top_lean, tilt_deg, toward_waste, at_head):
        sine, cosine = sin_cos(tilt_deg * 1.01)
        line_sine, line_cosine = sin_cos(line_deg)
        x, z = at_head * line_cosine, -at_head * top_lean * line_sine
        return vector(x * cosine, -toward_waste * sine, z * cosine)

    monkeypatch.setattr(layout.tools.saw, "plane_from_face", half_a_degree_off)
    monkeypatch.setattr("lessons.course.sweep.PITCHES", PITCHES[:: count(1, 3)])
    swept = sweep(catalog()["hip-jack"])
    assert not swept.sound
    assert swept.fault.startswith("lessons/course/catalog/hip-jack.toml: by saw leaves ")
    assert " on " in swept.fault
    assert "in 12" in swept.fault
    assert swept.exact_in > 1 / 64
    # The hand is right still, and a lesson without a tilt does not suffer.
    assert sweep(catalog()["reading-the-square"]).sound
    assert run(["check", "hip-jack"]) == 1
    out, _ = capsys.readouterr()
    assert "DISAGREES: lessons/course/catalog/hip-jack.toml: by saw leaves" in out
    # Nor is it printed.
    assert run(["lesson", "hip-jack"]) == 2
    assert "the lesson is not printed" in capsys.readouterr().err


def test_a_wrong_hand_is_found_and_told(monkeypatch):
    right = layout.tools.setting.ByHand.normal.fget

    def leaning_in(self):
        normal = right(self)
        return normal + 1e-6 * vector(0.0, 1.0, 0.0)

    monkeypatch.setattr(layout.tools.setting.ByHand, "normal", property(leaning_in))
    fault = sweep(catalog()["valley-jack"]).fault
    assert fault.startswith("lessons/course/catalog/valley-jack.toml: by hand leaves ")
    assert "hand" in fault


@pytest.mark.parametrize(
    ("name", "old", "new", "said"),
    [
        # The course's most expensive sentence, put into a copy of a lesson.
        ("cheek-by-saw", 'tilt = "45"', 'tilt = "39.76"', "tilt 39.76 leaves 11/64 in"),
        ("hip-jack", 'edge = "12 on 8 1/2"', 'edge = "12 on 12"', "edge 12 on 12 leaves 5/16 in"),
        ("valley", 'face = "8 on 17"', 'face = "8 on 12"', "face 8 on 12 leaves "),
        # True on a square corner, and stated for others too.
        (
            "skew-corner",
            'when = "equal pitches, square corner"',
            'when = "equal pitches"',
            "tilt 45 leaves ",
        ),
    ],
)
def test_a_lesson_that_states_a_wrong_method_is_refused(name, old, new, said, tmp_path, capsys):
    text = source(name)
    assert old in text
    copy = tmp_path / f"{name}.toml"
    copy.write_text(text.replace(old, new), encoding="utf-8")
    line = text[: text.index("[[check]]")].count("\n") + 1
    assert run(["check", name, "--catalog", str(tmp_path)]) == 1
    out = capsys.readouterr().out
    assert f"DISAGREES: {copy}:" in out
    assert said in out
    told = int(out.split(f"{copy}:")[1].split(":")[0])
    assert told >= line
    assert copy.read_text().splitlines()[told - 1] == "[[check]]"


def test_what_a_lesson_states_is_held_against_every_roof(monkeypatch):
    # Only the first roof of the sweep, a square corner, is taught with all its texts.
    monkeypatch.setattr("lessons.course.sweep.TAUGHT_EVERY", 10_000)
    text = source("skew-corner").replace(
        'when = "equal pitches, square corner"\ntilt = "45"', 'when = "other corner"\ntilt = "45"'
    )
    lesson = parse_lesson("copy", "copy.toml", text.replace('corner = "110"', "", 1))
    assert "tilt 45 leaves" in str(sweep(lesson).fault)


def test_a_text_without_a_value_is_found(tmp_path):
    # Right on the lesson's own roof; where both marks of a mitre are asked for it is not.
    text = source("plumb-and-level").replace(
        "Some of its cuts stand plumb",
        "{edge_number:square} Some of its cuts stand plumb",
    )
    fault = sweep(parse_lesson("copy", "copy.toml", text)).fault
    assert fault.startswith("copy.toml:")
    assert "has no number on 12" in fault


def test_a_text_without_a_value_in_a_later_roof_alone_is_found(monkeypatch):
    """The other roof has a place for the cut in the first roof of the sweep, and not in all."""
    monkeypatch.setattr("lessons.course.sweep.STOCKS", STOCKS[:1])
    text = source("one-plane").replace('able = "', 'able = "{other_tilt:deg} ', 1)
    fault = sweep(parse_lesson("copy", "copy.toml", text)).fault
    assert fault.startswith("copy.toml:4: hip-jack has no place in this roof")
    assert "other roof 4 in 12; corner 135" in fault


def test_an_unknown_lesson_is_bad_input(capsys):
    assert run(["check", "hip-jak"]) == 2
    assert "did you mean hip-jack" in capsys.readouterr().err


# Conditions tell which roofs of the sweep a lesson is written out in: one of those that it tells
# apart stands for all.
TOLD = ("one-plane", "hip-double-cheek", "backing-or-dropping")
"""A jack, two cheeks, and a rip."""


def written_in_full(lesson):
    """The first fault of a lesson that is written out in every taught roof, in both units."""
    for given in list(cases(lesson))[:: course_sweep.TAUGHT_EVERY]:
        for system in System:
            try:
                true_answer = asked(lesson, given, system)
            except (CutError, RoofError):
                continue
            try:
                written_out(lesson, true_answer, system)
            except LayoutError as error:
                return f"{error} ({given_line(true_answer)})"
    return None


@pytest.mark.parametrize("name", TOLD)
def test_roofs_in_which_the_same_holds_are_told_in_the_same_way(name, monkeypatch):
    """A value put into a lesson has none in the sweep where it has none in every taught roof."""
    monkeypatch.setattr("lessons.course.sweep.TAUGHT_EVERY", count(TAUGHT_EVERY, 90))
    monkeypatch.setattr("lessons.course.sweep.PITCHES", PITCHES[:: count(1, 2)])
    monkeypatch.setattr("lessons.course.sweep.STOCKS", STOCKS[:1])
    text, tried, faults = source(name), {}, set()
    head, able, rest = text.partition('able = "')
    plain = [one for _, one in sorted(values().items()) if not one.takes]
    for value in part_of(plain, 70, len(name)):
        units = UNITS[value.kind]
        place = f"{{{value.name}{f':{units[0]}' if units else ''}}}"
        lesson = parse_lesson("copy", "copy.toml", f"{head}{able}{place} {rest}")
        said = sweep(lesson, kept=tried).fault
        assert said == written_in_full(lesson), place
        faults.add(said is None)
    assert faults == {True, False} or not LONG
