"""A class: its roll, its sheets with names, and what its results say."""

import csv
import re
import shlex
from pathlib import Path

import pypdfium2
import pytest

from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.drill.roster import (
    Result,
    RosterError,
    class_table,
    read_names,
    read_results,
    read_roll,
    roll_text,
    table_text,
)
from lessons.drill.worksheet import Series, sheets
from tests.counts import count
from tests.measure import pdf_text

WRONG_HAND_SAYS = "The cheek leans the wrong way: two of one hand in place of a pair."
NAMES = ("Ann Alder", "Bo Birch", "Cy Cedar")


def test_a_roll_is_read_back():
    assert read_names(" Ann  Alder \n\nBo Birch\nCy Cedar\n", "names.txt") == NAMES
    assert read_roll(roll_text(NAMES), "roll.csv") == NAMES
    assert roll_text(("=Ann",)).splitlines()[1] == "1,'=Ann"
    assert read_roll(roll_text(("=Ann",)), "roll.csv") == ("=Ann",)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "no name in it"),
        ("Ann\nAnn\n", r"n\.txt:2: 'Ann' is there twice"),
        ("A" * 61, r"n\.txt:1: a name has at most 60 letters"),
        ("A\x1b[31m", "all printable"),
    ],
)
def test_what_is_no_roll_is_told_with_its_line(text, said):
    with pytest.raises(RosterError, match=said):
        read_names(text, "n.txt")


def test_results_tell_who_can_do_what():
    text = (
        "learner,lesson,right,mistakes\n"
        "Ann,one-plane,yes,\nAnn,one-plane,yes,\nAnn,hip-jack,no,wrong-hand\n"
        "Bo,one-plane,no,face-line-only wrong-hand\nBo,one-plane,,\n"
    )
    results = read_results(text, "r.csv", catalog())
    assert results[0] == Result("Ann", "one-plane", True)
    assert len(results) == 4, "what is not graded is passed over"
    made = class_table(results, ["one-plane", "reading-the-square", "hip-jack"])
    assert made.learners == ("Ann", "Bo")
    assert made.lessons == ("one-plane", "hip-jack")
    assert str(made.tallies["Ann", "one-plane"]) == "2 of 2"
    assert made.tallies["Ann", "one-plane"].can
    assert not made.tallies["Ann", "hip-jack"].can
    assert made.next_lesson == {"Ann": "reading-the-square", "Bo": "one-plane"}
    assert made.commonest[0] == ("wrong-hand", 2)
    head, ann, _ = csv.reader(table_text(made).splitlines())
    assert head == ["learner", "one-plane", "hip-jack", "next lesson"]
    assert ann == ["Ann", "2 of 2", "0 of 1", "reading-the-square"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("learner,right\nAnn,yes\n", "no column lesson"),
        ("learner,lesson,right\nAnn,one-plane,perhaps\n", r"r\.csv:2: right is 'perhaps'"),
        (
            "learner,lesson,right\nAnn,one-plane,yes\nAnn,hipjak,yes\n",
            r"^r\.csv:3: lesson: there is no lesson called 'hipjak'; did you mean .*hip-jack",
        ),
        ("learner,lesson,right\nAnn,,yes\n", r"^r\.csv:2: lesson: there is no lesson called ''"),
        (
            "learner,lesson,right,mistakes\nAnn,one-plane,no,roof rise\n",
            r"r\.csv:2: mistakes: no mistake is called 'roof rise'; write the key's sentence, or a"
            " short name such as wrong-hand, with a semicolon between two",
        ),
    ],
)
def test_results_that_cannot_be_read_are_told(text, said):
    with pytest.raises(RosterError, match=said):
        read_results(text, "r.csv", catalog())


def test_sheets_of_a_class_differ_in_lessons_and_spread_the_faulty_line():
    learners = tuple(f"Learner {i}" for i in range(12))
    series = Series(tuple(catalog().values()), (), 5, kind="find-error", learners=learners)
    made = [sheet for sheet, _ in zip(sheets(series), learners, strict=False)]
    plans = [tuple(problem.lesson.name for problem in sheet.problems) for sheet in made]
    assert len(set(plans)) == len(plans)
    letters = [p.layout.faulty for sheet in made for p in sheet.problems]
    times = {letter: sum(letter in faulty for faulty in letters) for letter in "ABC"}
    assert max(times.values()) <= 0.6 * len(letters), times


def test_a_class_from_roll_to_printed_table(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "names.txt").write_text("\n".join(NAMES), "utf-8")
    assert run(["class", "new", "names.txt"]) == 0
    arguments = ["--class", "roll.csv", "-o", "sheets.pdf", "--key", "key.pdf"]
    lessons = ["hip-jack", "two-runs", "--problems", "2", "--kind", "number", "--seed", "3"]
    assert run(["worksheet", *lessons, *arguments, "--answers", "results.csv"]) == 0
    with pypdfium2.PdfDocument(tmp_path / "sheets.pdf") as document:
        count = len(document)
    pages = [pdf_text(tmp_path / "sheets.pdf", i) for i in range(count)]
    for name, page in zip(NAMES, pages, strict=True):
        assert name in page
        assert "KEY" not in page
    assert "KEY to sheets 1 to 3" in pdf_text(tmp_path / "key.pdf", 0)
    text = (tmp_path / "results.csv").read_text("utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    assert [row["learner"] for row in rows] == [name for name in NAMES for _ in range(2)]
    for row in rows:
        row["right"] = "no" if row["learner"] == "Bo Birch" else "yes"
        row["mistakes"] = "wrong-hand" if row["right"] == "no" else ""
    with (tmp_path / "graded.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0])
        writer.writeheader()
        writer.writerows(rows)
    capsys.readouterr()
    assert run(["class", "read", "graded.csv", "-o", "table.pdf"]) == 0
    said = capsys.readouterr().out
    assert "Bo Birch" in said
    assert f"2 times {WRONG_HAND_SAYS}" in " ".join(said.split())
    assert "wrong-hand" not in said
    with pypdfium2.PdfDocument(tmp_path / "table.pdf") as document:
        assert len(document) == 1
    printed = pdf_text(tmp_path / "table.pdf", 0)
    assert "Cy Cedar" in printed
    assert "Next lesson" in " ".join(printed.split())
    assert WRONG_HAND_SAYS in " ".join(printed.split())
    assert "wrong-hand" not in printed
    assert run(["class", "read", "graded.csv", "-o", "table.csv"]) == 0
    assert "Ann Alder" in (tmp_path / "table.csv").read_text("utf-8")


def test_a_file_given_twice_is_refused(tmp_path, monkeypatch, capsys):
    """By whatever name: the answers in it would count double."""
    tmp_path = tmp_path / "here"
    tmp_path.mkdir()
    monkeypatch.chdir(tmp_path)
    (tmp_path / "r.csv").write_text("learner,lesson,right\nAnn,one-plane,yes\n", "utf-8")
    (tmp_path / "also.csv").symlink_to("r.csv")
    for again in ("r.csv", "./r.csv", "../here/r.csv", "also.csv"):
        assert run(["class", "read", "r.csv", again, "-o", "table.csv"]) == 2
        out, error = capsys.readouterr()
        assert out == ""
        assert error.count("\n") == 1
        shown = str(Path(again))
        assert f"{shown!r} is the same file as 'r.csv'" in error
        assert not (tmp_path / "table.csv").exists()
    (tmp_path / "other.csv").write_text("learner,lesson,right\nAnn,one-plane,yes\n", "utf-8")
    assert run(["class", "read", "r.csv", "other.csv"]) == 0
    assert "2 of 2" in capsys.readouterr().out, "two files of the same words are two days"


JOB = """
[roof]
size = "24 ft x 16 ft"

[saw]
max-tilt = "45"
kind = "blade-left"

[print]
units = "metric"
"""


@pytest.mark.parametrize(
    "options",
    [
        "--class 'our roll.csv' --problems 3 --kind number --units metric",
        "--class 'our roll.csv' --max-tilt 60 --blade-depth 4 --saw blade-left",
        "--job yard.toml --max-tilt 50 --units inch",
        "--class 'our roll.csv'",
    ][: count(4, 3)],
)
def test_the_command_on_a_key_draws_that_sheet_again(tmp_path, monkeypatch, options):
    """What is printed on the paper is run as it stands: the answers are those of the sheet.

    The last asks for the usual saw and inches beside a job with another saw and millimeters.
    """
    monkeypatch.chdir(tmp_path)
    (tmp_path / "our roll.csv").write_text(roll_text(NAMES), "utf-8")
    (tmp_path / "yard.toml").write_text(JOB, "utf-8")
    drawn = f"worksheet hip-jack backing-or-dropping fascia --seed 21 --sheets 2 {options}"
    assert run([*shlex.split(drawn), "--key", "key.pdf", "--answers", "all.csv"]) == 0
    key = " ".join(pdf_text(tmp_path / "key.pdf", i) for i in range(page_count("key.pdf")))
    again = re.match(r"squaresaw (.*? --key-of 2) ", " ".join(key.split("Again: ")[2].split()))
    assert run([*shlex.split(again[1]), "--answers", "again.csv"]) == 0
    every = csv.DictReader((tmp_path / "all.csv").read_text("utf-8").splitlines())
    one = csv.DictReader((tmp_path / "again.csv").read_text("utf-8").splitlines())
    assert list(one) == [row for row in every if row["sheet"] == "2"]


def page_count(file: str) -> int:
    with pypdfium2.PdfDocument(file) as document:
        return len(document)


def test_every_place_is_looked_at_before_anything_is_written(tmp_path, capsys):
    sheets_pdf = tmp_path / "w.pdf"
    nowhere = tmp_path / "nodir" / "a.csv"
    assert run(["worksheet", "hip-jack", "-o", str(sheets_pdf), "--answers", str(nowhere)]) == 2
    assert "there is no folder" in capsys.readouterr().err
    assert not sheets_pdf.exists()
    assert run(["class", "grade", "x.csv"]) == 2
    assert "use `class new` or `class read`" in capsys.readouterr().err
