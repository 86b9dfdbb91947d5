"""A page of statements: each line about its own cut, on one correction sheet."""

import json

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from lessons.cli.main import run
from lessons.settle.statements import StatementError, statements
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


def test_each_line_is_judged_about_its_own_cut():
    found = statements(LINES, usual())
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
