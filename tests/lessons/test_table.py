"""`squaresaw table`: rows as text, CSV, JSON and a printed card.

The numbers themselves are held to handbooks in tests/outside; here they are held to be the ones
that reach the reader.
"""

import csv
import io
import json

import pypdfium2
import pytest

from lessons.cli.main import run
from lessons.cli.tabular import text_table


def said(capsys, *arguments: str) -> str:
    assert run(["table", *arguments]) == 0
    return capsys.readouterr().out


def test_the_usual_rows_run_from_2_to_18(capsys):
    lines = said(capsys).splitlines()
    rows = [line for line in lines if " in 12 " in line and line[0].isdigit()]
    assert [int(row.split()[0]) for row in rows] == list(range(2, 19))
    # NAVEDTRA 14044, Builder 3 & 2 vol. 2, ch. 2: 8 in 12 has 14.42, 18.76, 19.23 and 10.
    eight = next(row for row in rows if row.startswith("8 in 12"))
    assert eight.split()[3:] == [
        "14.42",
        "18.76",
        "19.23",
        "28.84",
        "10",
        "10",
        "7/8",
        "23.09°",
        "0.354",
    ]


def test_csv_and_json_carry_the_same_unrounded_numbers(capsys):
    (row,) = csv.DictReader(io.StringIO(said(capsys, "7 1/2", "--csv")))
    answer = json.loads(said(capsys, "7 1/2", "--json"))
    assert answer["schema"] == 1
    assert float(row["common"]) == answer["rows"][0]["common"]
    assert float(row["common"]) == pytest.approx((144 + 7.5**2) ** 0.5, abs=1e-12)


def test_irregular_rows_show_what_differs(capsys):
    text = said(capsys, "8", "--other-pitch", "10")
    assert "other" in text
    assert "51.34°" in text
    assert "plan" not in said(capsys, "8")


def test_a_valley_is_called_a_valley(capsys):
    assert "inside corner 90°" in said(capsys, "8", "--on-valley")


def test_metric_rows_are_over_a_metre(capsys):
    text = said(capsys, "45deg", "--units", "metric")
    assert "over 1000 mm" in text
    assert "1414" in text
    assert "at 400" in text


def test_octagon_and_brace_rows(capsys):
    # Griffith, Carpentry, 1916: the octagon's tangent is 4.97 over 12, its hip runs 13.
    (row,) = json.loads(said(capsys, "9", "--sides", "8", "--json"))["rows"]
    assert row["mitre"] == pytest.approx(4.97, abs=0.005)
    assert row["hip_run"] == pytest.approx(13, abs=1 / 64)
    # Hodgson, ABC of the Steel Square: 36 and 36 have a brace of 50.91.
    assert "50.91" in said(capsys, "--brace", "36 x 36")
    assert said(capsys, "--braces").count(" x ") >= 14


def test_the_card_is_searchable(capsys, tmp_path):
    card = tmp_path / "rows.pdf"
    said(capsys, "8", "12", "-o", str(card))
    text = pypdfium2.PdfDocument(card)[0].get_textpage().get_text_range()
    assert "14.42" in text
    assert "WARNING" in text


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["eight"], "'eight' is not a pitch"),
        (["8", "--sides", "2"], "2 sides"),
        (["8", "--corner", "180"], "does not suit"),
        (["8", "--corner", "270"], "carries a valley and no hip; give --on-valley with it"),
        (["8", "--spacing", "0"], "parts no jacks"),
        (["--brace", "36"], "RUN x RISE"),
        (["--brace", "0 x 36"], "leg without length"),
        (["8", "-o", "rows.txt"], ".pdf or .svg"),
    ],
)
def test_bad_input_is_one_line(capsys, arguments, expected):
    assert run(["table", *arguments]) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert expected in error
    assert error.count("\n") == 1


def test_columns_line_up():
    text = text_table(["a", "long\nhead"], [["x", "1"], ["yy", "22"]])
    assert text == "    long\na   head\nx      1\nyy    22"


def test_half_a_side_stands_over_the_run_that_the_table_names(capsys):
    """Octagon: 12 tan 22.5 = 4.97 over 12 of the common's run (Griffith 1916: 4.97)."""
    line = said(capsys, "6", "--sides", "8").splitlines()[-1]
    assert " 4.97 " in line
    assert " 2.49 " not in line
    row = json.loads(said(capsys, "6", "--sides", "8", "--json"))["rows"][0]
    assert row["half_side_over_run"] == pytest.approx(4.97, abs=0.005)


def test_a_valley_is_not_dropped(capsys):
    assert said(capsys, "8", "--on-valley").splitlines()[-1].rstrip().endswith(" -")
    assert said(capsys, "8").splitlines()[-1].rstrip().endswith("0.354")
