"""A page of statements: each line about its own cut, on one correction sheet."""

import json
from dataclasses import replace
from functools import cache

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Hand
from layout.quantity import read_pitch
from layout.stock import read_stock
from lessons.cli.main import run
from lessons.settle.statements import StatementError, has_own_cut, statements
from lessons.settle.statements_page import read_statements
from tests.measure import pdf_text

LINES = (
    "hip-jack, pitch 8: the side-cut number is the saw's angle",
    "hip-jack, pitch 8, corner 135: half the corner on the saw",
    "hip-ridge-single, pitch 9, board 2x8: 12 for 17",
    "common-ridge, pitch 6: plumb 6, saw square",
    "always 45 on jacks",
    "mumble",
)


def usual():
    return answer(ask("hip-jack"))


@cache
def judged_lines():
    """The lines, one that holds nowhere, one of a length, and one that holds everywhere."""
    more = ("common-ridge: always plumb 20 in 12", "hip-jack: first jack 18",
            "common-ridge: saw square on any roof")  # fmt: skip
    return statements([*LINES, *more], usual())


def test_each_line_is_judged_about_its_own_cut():
    found = judged_lines()[: len(LINES)]
    verdicts = [one.finding.verdict.value for one in found]
    assert verdicts == ["wrong", "right", "wrong", "right", "wrong", "unread"]
    assert found[0].so == "wrong: set saw 45"
    # Half of 135 is past a saw that tilts 50: right, and out of reach.
    assert "past the 50° this saw tilts" in found[1].so
    assert found[1].holds == "equal pitches, at any corner"
    assert found[2].answer.question.stock.name == "2x8"
    assert found[2].so == "wrong: set plumb 9 in 17"
    assert found[4].holds == "equal pitches, square corner"
    assert [one.own for one in found] == [True] * 4 + [False] * 2


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("hip-jack, roof 8: saw 45", "line 1: 'roof 8' names no cut"),
        ("hip-jack, pitch fnord: saw 45", "line 1: 'fnord' is not a pitch"),
        ("hip-jack, hand both: saw 45", "line 1: 'both' is no hand"),
    ],
)
def test_a_head_that_cannot_be_read_is_refused(line, why):
    with pytest.raises(StatementError, match=why):
        statements([line], usual())


def test_the_sheet(capsys, tmp_path):
    path = tmp_path / "said.txt"
    path.write_text("\n".join(LINES), encoding="utf-8")
    sheet = tmp_path / "sheet.pdf"
    assert run(["settle", "hip-jack", "--claims-from", str(path), "-o", str(sheet)]) == 0
    out = capsys.readouterr().out
    assert f"wrote {sheet}" in out
    text = " ".join(pdf_text(sheet).split())
    for head in ("Said", "Is so", "Where it holds", "What it cost", "Try it on scrap"):
        assert head in text
    assert "the side-cut number is the saw's" in text
    path.write_text("\n".join(LINES[:2]), encoding="utf-8")
    assert run(["settle", "hip-jack", "--claims-from", str(path), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)["statements"]
    assert [one["verdict"] for one in told] == ["wrong", "right"]


@pytest.mark.parametrize(
    ("line", "own"),
    [
        ("hip-jack: saw 45", True),
        ("hip-jack, pitch 8: saw 45", True),
        ("pitch 8: saw 45", True),
        ("board 2x8: saw 45", True),
        ("board flat: table 45, tilt 30", False),
        ("by handsaw: edge 8 1/2 on 12", False),
        ("hip-jack", False),
        ("saw 45", False),
    ],
)
def test_a_line_names_its_own_cut_or_roof_before_a_colon(line, own):
    assert has_own_cut(line) == own


def test_what_a_line_does_not_name_is_as_on_the_command_line():
    """Of another cut that is the pitch and the hand: its corner and its board are its own."""
    question = ask("hip-jack", pitch=read_pitch("9"), other_pitch=read_pitch("7"), corner_deg=120,
                   hand=Hand.RIGHT, stock=read_stock("2x10"))  # fmt: skip
    usual_answer = replace(answer(question), tolerance_in=1 / 8)
    lines = ("hip-jack, pitch 8: mumble", "hip-jack, against 10, corner 100: mumble",
             "hip-jack, board 2x4, hand left: mumble", "valley-jack: mumble")  # fmt: skip
    made = [one.answer for one in statements(lines, usual_answer)]
    asked = [one.question for one in made]
    assert [one.tolerance_in for one in made] == [1 / 8] * 4
    assert [one.entry.name for one in asked] == ["hip-jack"] * 3 + ["valley-jack"]
    assert [str(one.pitch) for one in asked] == ["8 in 12", "9 in 12", "9 in 12", "9 in 12"]
    assert [str(one.other_pitch) for one in asked] == ["8 in 12", "10 in 12", "9 in 12", "9 in 12"]
    assert [one.corner_deg for one in asked] == [120, 100, 120, 270]
    assert [one.hand for one in asked] == [Hand.RIGHT, Hand.RIGHT, Hand.LEFT, Hand.RIGHT]
    assert [one.stock.name for one in asked][:3] == ["2x10", "2x10", "2x4"]
    assert asked[3].stock == ask("valley-jack").stock
    foot = answer(ask("cripple-jack", end="foot"))
    lines = ("cripple-jack, pitch 6: mumble", "hip-jack, pitch 6: mumble")
    assert [one.answer.question.end for one in statements(lines, foot)] == ["foot", "head"]


def test_each_part_of_the_sheet_is_there_where_there_is_something_to_say():
    found = judged_lines()
    right_rule, _, luck = found[3], found[4], found[6]
    assert right_rule.so.startswith("right: ")
    assert "; here " in right_rule.so
    assert "; but " not in right_rule.so
    # The line of 6 in 12 is 5 1/2 / cos 26.57 long; 15 in 12 lies at 51.34: 6.149 sin 24.77.
    assert right_rule.cost == "here no gap; at worst 2 37/64 in (2.577) at 15 in 12"
    assert (found[8].cost, found[8].so[:6]) == ("here no gap", "right:")
    assert found[4].so.startswith("wrong as a rule: follow the face mark by the pitch")
    assert "at worst" in found[4].cost
    assert luck.holds == "nowhere"
    length = found[7]
    assert length.so.startswith("wrong: from the corner to its middle: 16 in")
    assert (length.test, length.holds) == ("measure one that is built", "")
    assert "2 in" in length.cost
    told = read_statements(found).split("\n\n")
    margins = [{line[:9].strip() for line in one.splitlines()} - {""} for one in told]
    for number, (one, words) in enumerate(zip(found, margins, strict=False), start=1):
        said = {"is so"} | {name for name, text in (("holds", one.holds), ("cost", one.cost),
                                                    ("try it", one.test)) if text}  # fmt: skip
        assert words == {str(number), *said, *(["say"] if number == 6 else [])}
    assert found[5].so.startswith("unread")
