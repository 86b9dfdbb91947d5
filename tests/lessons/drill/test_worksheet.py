"""A class of thirty sheets: every key solved again from the words printed on the sheet alone."""

import csv
import re
import shlex
from pathlib import Path
from random import Random

import numpy as np
import pypdfium2
import pytest

from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.course.named_text import read_name
from lessons.drill.dealer import Deck
from lessons.drill.grading import grade, tolerance_words
from lessons.say.units import System
from tests import resolved
from tests.counts import count
from tests.measure import pdf_pieces
from tests.resolved import Given, number, plain, read_given

SHEETS, SEED = count(30, 6), 20
LINE = re.compile(r"\b([A-D]) ((?:Face|Edge|Saw|Miter|Gauge).*?\.)(?= [A-DF] ?)")


@pytest.fixture(scope="module")
def printed(tmp_path_factory) -> tuple[list[str], list[dict[str, str]], Path]:
    """The text of every page, and the table of answers."""
    folder = tmp_path_factory.mktemp("class")
    pdf, table = folder / "class.pdf", folder / "answers.csv"
    drawn = ["--sheets", str(SHEETS), "--seed", str(SEED)]
    code = run(["worksheet", *drawn, "-o", str(pdf), "--answers", str(table)])
    assert code == 0
    document = pypdfium2.PdfDocument(pdf)
    texts = [plain(page.get_textpage().get_text_bounded()) for page in document]
    with table.open(newline="", encoding="utf-8") as file:
        return texts, list(csv.DictReader(file)), pdf


def sheet_texts(texts: list[str]) -> dict[int, str]:
    """The words of each sheet's problems, its text pages joined."""
    sheets: dict[int, str] = {}
    for text in texts:
        match = re.search(r"page \d+ of \d+, sheet (\d+), seed 20, version \S+", text)
        if match and "Practice sheet" in text:
            body = text.split("Sheet " + match[1] + " of those drawn by")[0]
            sheets[int(match[1])] = sheets.get(int(match[1]), "") + " " + body
    return sheets


def key_texts(texts: list[str]) -> dict[int, str]:
    """The words of each sheet's key."""
    pages = [text.split(" KEY to sheets")[0] for text in texts if "KEY to sheets" in text]
    parts = re.split(r"Key to sheet (\d+), seed 20", " ".join(pages))
    return {int(n): text for n, text in zip(parts[1::2], parts[2::2], strict=True)}


def numbered(text: str, count: int) -> list[str]:
    """The text of each problem, from its number to the next one's."""
    places, at = [], 0
    for i in range(1, count + 1):
        found = re.compile(rf"(?:^|\s){i}\. ").search(text, at)
        assert found is not None, (i, text)
        places.append(found.end())
        at = found.end()
    ends = [*places[1:], len(text)]
    return [text[start:end] for start, end in zip(places, ends, strict=True)]


def problems(printed) -> list[tuple[str, str, dict[str, str]]]:
    """Every problem as it stands on its sheet, on its key, and in the table."""
    texts, table, _ = printed
    sheets, keys = sheet_texts(texts), key_texts(texts)
    assert sorted(sheets) == sorted(keys) == list(range(1, SHEETS + 1))
    found = []
    for at in range(1, SHEETS + 1):
        rows = [row for row in table if row["sheet"] == str(at)]
        asked, keyed = numbered(sheets[at], len(rows)), numbered(keys[at], len(rows))
        found += list(zip(asked, keyed, rows, strict=True))
    return found


def given_of(text: str) -> Given:
    match = re.search(r"Given: (.*?(?: in| mm)\)?)\.", text)
    assert match is not None, text
    return read_given(match[1])


def printed_value(text: str) -> float:
    """The first value of a key: 8 1/2, 1 13/16 in, 45°."""
    match = re.match(r"(\d+/\d+|[\d.]+(?: \d+/\d+)?)(°| in|)", text)
    assert match is not None, text
    return number(match[1]) if "/" in match[1] else float(match[1])


def printed_gap(text: str) -> float:
    match = re.search(r"The gap is ([\d /]+) in, ", text)
    assert match is not None, text
    return number(match[1])


def test_every_key_is_solved_again_from_the_printed_sheet(printed):
    solved = {"number": 0, "mark": 0, "find-error": 0, "gap": 0}
    for asked, keyed, row in problems(printed):
        given = given_of(asked)
        kind = row["kind"]
        solved[kind] += 1
        if kind == "find-error":
            lines = dict(LINE.findall(asked))
            assert len(lines) in (3, 4) or (len(lines) == 2 and "Gauge" in asked), asked
            faulty = [letter for letter, text in lines.items() if not resolved.fits(text, given)]
            assert " and ".join(faulty) == re.match(r"[A-D](?: and [A-D])*", keyed)[0], asked
            if len(given.stick.planes) == 1 and not any("Gauge" in text for text in lines.values()):
                price = printed_gap(keyed)
                gaps = resolved.gaps(lines, given)
                # Numbers as read, to the sixteenth, leave a little more or less than exact ones.
                assert any(abs(price - gap) <= 0.05 + 0.03 * price for gap in gaps), (asked, keyed)
                solved["gap"] += 1
            continue
        true = resolved.answer(row["asked_for"], given)
        off = abs(printed_value(keyed) - true)
        assert off <= (0.005001 if "°" in keyed.split(" ")[0] else 1 / 32 + 1e-9), (asked, keyed)
    assert all(count >= SHEETS // 2 for count in solved.values()), solved


def test_sheets_differ_and_keys_say_what_wrong_answers_mean(printed):
    texts, table, _ = printed
    problems_of = {}
    for row in table:
        problems_of.setdefault(row["sheet"], []).append(
            tuple(row[name] for name in ("lesson", "pitch", "hand", "stock", "asked_for", "answer"))
        )
    assert len({tuple(rows) for rows in problems_of.values()}) == SHEETS
    # Same kinds on every sheet.
    kinds = {tuple(row["kind"] for row in table if row["sheet"] == n) for n in problems_of}
    assert len(kinds) == 1
    keys = key_texts(texts)
    for row in table:
        for wrong in filter(None, row["wrong_answers"].split("; ")):
            answer, _, means = wrong.partition(": ")
            assert answer in keys[int(row["sheet"])]
            assert " ".join(means.split(" / ")[0].split()) in keys[int(row["sheet"])]


def test_no_key_stands_before_the_last_sheet(printed):
    texts, _, _ = printed
    first_key = next(i for i, text in enumerate(texts) if "KEY to sheets" in text)
    assert all("KEY to sheets" in text for text in texts[first_key:])
    assert not any("Because:" in text for text in texts[:first_key])


def test_a_sheets_number_leads_to_its_key_again(printed, capsys):
    texts, table, _ = printed
    assert run(["worksheet", "--seed", str(SEED), "--key-of", str(SHEETS // 2)]) == 0
    said = plain(capsys.readouterr().out)
    rows = [row for row in table if row["sheet"] == str(SHEETS // 2)]
    assert len(rows) > 1
    for row in rows:
        assert f"Answer: {row['answer']}." in said
    assert (
        f"squaresaw worksheet --seed {SEED} --key-of {SHEETS // 2}" in key_texts(texts)[SHEETS // 2]
    )


def test_full_size_boards_measure_true(printed):
    texts, table, pdf = printed
    pages = [i for i, text in enumerate(texts) if "mark this board" in text]
    assert len(pages) == sum(row["kind"] == "mark" for row in table)
    for index in pages[:: len(pages) // 4]:
        assert "FULL SIZE" in texts[index]
        size = re.search(r"board \S+ \(([\d /]+) x ([\d /]+) in\)", texts[index])
        sides = [p for p in pdf_pieces(pdf, index) if p.length_in > 7 and p.width_in > 0.018]
        assert len(sides) == 2, "the free sides of face and edge"
        one, other = (np.array(side.points[0]) for side in sides)
        apart = np.linalg.norm(one - other)
        assert apart == pytest.approx(number(size[1]) + number(size[2]), abs=1e-5)


def test_lessons_and_kinds_can_be_chosen(tmp_path, capsys):
    name = next(iter(catalog()))
    table = tmp_path / "key.csv"
    arguments = ["worksheet", name, "--seed", "3", "--sheets", "2", "--answers", str(table)]
    assert run([*arguments, "--kind", "find-error", "--problems", "3"]) == 0
    rows = list(csv.DictReader(table.read_text("utf-8").splitlines()))
    assert len(rows) == 6
    assert {row["kind"] for row in rows} == {"find-error"}
    assert {row["lesson"] for row in rows} == {name}
    capsys.readouterr()


@pytest.mark.parametrize(
    ("arguments", "without"),
    [
        (["hip-jack", "fascia", "--problems", "2"], None),
        (["hip-jack", "fascia", "--problems", "2", "--kind", "choose"], "fascia"),
        (["--problems", "2"], None),
    ],
)
def test_a_lesson_asked_for_that_no_sheet_has_is_told(tmp_path, capsys, arguments, without):
    """Of these two lessons the jack's alone has a problem of choosing; where none is named, that
    two problems are not of every lesson is nothing to tell."""
    table = tmp_path / "key.csv"
    assert run(["worksheet", *arguments, "--seed", "21", "--answers", str(table)]) == 0
    told = [line for line in capsys.readouterr().out.splitlines() if line.startswith("no sheet")]
    expected = f"no sheet has a problem from {without}; give more --problems, or another --kind"
    assert told == ([expected] if without else [])


def test_a_bevel_along_the_board_has_no_runs_to_measure(capsys):
    arguments = ["worksheet", "backing-or-dropping", "--kind", "mark", "--problems", "1"]
    assert run([*arguments, "--seed", "1", "--key-of", "1"]) == 0
    said = plain(capsys.readouterr().out)
    assert "The bevel drops" in said
    assert "Measured:" not in said


def test_metric_sheets_are_in_millimetres(capsys):
    arguments = ["worksheet", "hip-jack", "splayed-box", "--units", "metric", "--problems", "8"]
    assert run([*arguments, "--seed", "1", "--key-of", "1"]) == 0
    said = plain(capsys.readouterr().out)
    assert " mm)" in said
    assert not re.search(r"\d in\b(?! \d)", said)


TO_UNIT = {"mm": 25.4, "mm on 300": 300 / 12, "in": 1.0, "in on 12": 1.0, "deg": 1.0}
"""A unit of the table for an inch, for an inch on a run of 12, or for a degree."""
TOLD = re.compile(r"(half a degree|1\.5 mm|0\.7 mm|1/16|1/32) either way")
IN_FIGURES = {
    "half a degree": 0.5, "1.5 mm": 1.5, "0.7 mm": 0.7, "1/16": 1 / 16, "1/32": 1 / 32,
}  # fmt: skip


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_a_row_of_the_table_is_in_the_units_of_its_sheet(tmp_path, monkeypatch, capsys, units):
    """Given, answer, exact value and tolerance as the sheet prints them; the exact value is solved
    again from the words of the sheet."""
    monkeypatch.chdir(tmp_path)
    lessons = ["hip-jack", "valley", "skew-corner", "cheek-by-saw", "reading-the-square"]
    sheet = ["worksheet", *lessons, "--seed", "4", "--units", units, "--problems", "12"]
    assert run([*sheet, "--answers", "all.csv", "-o", "sheet.pdf"]) == 0
    with pypdfium2.PdfDocument("sheet.pdf") as document:
        texts = [plain(page.get_textpage().get_text_bounded()) for page in document]
    body = " ".join(text.split(" of those drawn by")[0] for text in texts if "Given: " in text)
    with Path("all.csv").open(newline="", encoding="utf-8") as file:
        table = list(csv.DictReader(file))
    solved = set()
    for asked, row in zip(numbered(body, len(table)), table, strict=True):
        assert f"pitch {row['pitch']};" in asked
        assert f"board {row['stock']}" in asked
        if row["kind"] == "find-error":
            assert row["unit"] == {"inch": "in", "metric": "mm"}[units]
            assert float(row["gap"]) > {"inch": 1 / 16, "metric": 25.4 / 16}[units] - 1e-6
            continue
        told = TOLD.search(asked)
        if told is None:
            assert (row["unit"], row["tolerance"]) == ("", "")
            continue
        assert float(row["tolerance"]) == IN_FIGURES[told[1]]
        assert (row["unit"][:2] == "mm") == (units == "metric" and row["unit"] != "deg")
        printed = re.match(r"[\d./ ]*\d", row["answer"])[0]
        shown = number(printed) if "/" in printed else float(printed)
        assert abs(shown - float(row["exact"])) <= (0.51 if row["unit"][:2] == "mm" else 1 / 31)
        if units == "inch":
            true = resolved.answer(row["asked_for"], given_of(asked))
            assert float(row["exact"]) == pytest.approx(true * TO_UNIT[row["unit"]], abs=1e-6)
        solved.add(row["unit"])
    length = {"inch": "in", "metric": "mm"}[units]
    assert {length, {"inch": "in on 12", "metric": "mm on 300"}[units]} <= solved
    for row in table:
        row["right"], row["mistakes"] = "no", row["wrong_answers"].split("; ")[0]
        if row["kind"] == "find-error":
            row["right"], row["mistakes"] = "yes", ""
    with Path("graded.csv").open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, table[0])
        writer.writeheader()
        writer.writerows(table)
    capsys.readouterr()
    assert run(["class", "read", "graded.csv"]) == 0
    assert "COMMONEST MISTAKES" in capsys.readouterr().out


def test_what_is_told_in_metric_is_no_more_than_what_is_right():
    """1/16 in is 1.59 mm, or 1.56 mm on a run of 300; 1/32 in is 0.79 mm."""
    assert min(25.4 / 16, 300 / 12 / 16) > 1.5
    assert 25.4 / 32 > 0.7
    deck = Deck(Random(1), System.METRIC)
    lesson = catalog()["cheek-by-saw"]
    place = next(i for i, one in enumerate(lesson.drills) if str(one.answer).endswith(":gap"))
    problem = deck.deal(lesson, place)
    assert "0.7 mm either way is right" in tolerance_words(problem)
    gap_mm = problem.sought.value * 25.4
    assert grade(problem, f"{gap_mm + 0.69:.4f}").right
    assert not grade(problem, f"{gap_mm + 0.9:.4f}").right


@pytest.mark.parametrize(
    "options",
    [
        "--class 'our roll.csv' --units metric",
        "--key-of 2",
        "--sheets 3 --problems 5",
        "--class 'our roll.csv' --problems 5",
    ][: count(4, 2)],
)
def test_every_command_on_a_sheet_runs_as_it_is_printed(tmp_path, monkeypatch, options):
    """Read off the paper and run: what is drawn has the same page again, word for word."""
    monkeypatch.chdir(tmp_path)
    Path("our roll.csv").write_text("number,name\n1,Ann Alder\n2,Bo Birch\n", "utf-8")
    drawn = f"worksheet hip-double-cheek --seed 11 -o sheets.pdf {options}"
    assert run(shlex.split(drawn)) == 0
    texts = page_texts("sheets.pdf")
    printed = [
        (page, re.search(r"(?:drawn by|Again): squaresaw (worksheet .*?\.pdf)", text))
        for page, text in enumerate(texts)
    ]
    commands = [(page, found[1]) for page, found in printed if found]
    assert commands
    for page, command in commands:
        Path("again.pdf").unlink(missing_ok=True)
        assert run(shlex.split(command)) == 0
        if "KEY to sheets" in texts[page]:
            problem = re.search(r"Key to sheet \d+, seed 11 .*? 1\. (.*?)\. ", texts[page])[1]
            assert problem in " ".join(page_texts("again.pdf"))
        else:
            assert texts[page] in page_texts("again.pdf")


def page_texts(file: str) -> list[str]:
    """The words of every page."""
    with pypdfium2.PdfDocument(file) as document:
        return [plain(page.get_textpage().get_text_bounded()) for page in document]


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["worksheet"], "say where the sheets go"),
        (["worksheet", "--key-of", "3"], "give --seed too"),
        (["worksheet", "-o", "sheets.txt"], "must end in .pdf"),
        (["worksheet", "hip-jak", "-o", "x.pdf"], "did you mean hip-jack"),
        (["worksheet", "-o", "no/such/folder/x.pdf"], "there is no folder"),
        (["worksheet", "-o", "x.pdf", "--paper", "napkin"], "no paper is called"),
        (["worksheet", "--sheets", "0", "-o", "x.pdf"], "--sheets"),
    ],
)
def test_bad_input_is_one_line(capsys, tmp_path, monkeypatch, arguments, expected):
    monkeypatch.chdir(tmp_path)
    assert run(arguments) == 2
    _, error = capsys.readouterr()
    assert expected in error
    assert error.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_every_lessons_answers_have_a_second_solution():
    for lesson in catalog().values():
        for drill in lesson.drills:
            if drill.answer:
                name, _, _ = read_name(drill.answer)
                assert name in {*resolved.VALUES, *resolved.WORDS}, (
                    f"{name}: write its solution in tests/resolved.py"
                )
