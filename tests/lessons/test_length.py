"""`squaresaw length`: handbook lengths as they reach the reader, both ways."""

import json

import pytest

from lessons.cli.main import run


def said(capsys, *arguments: str) -> str:
    assert run(["length", *arguments]) == 0
    return capsys.readouterr().out


def test_griffiths_common_of_a_25_ft_span(capsys):
    # Griffith, Carpentry, 1916: span 25 ft, quarter pitch, 12.5 x 13.42 = 167.75 in by the
    # printed number; exact 167.705 in, 13' 11 11/16".
    text = said(capsys, "common", "--run", "12' 6\"", "--pitch", "1/4 pitch")
    assert "THEORETICAL 13'-11 11/16\" (167.705 in)" in text
    assert "13.42 for every 12 in" in text
    assert "the printed rounding makes it 0.045 in longer" in text


def test_the_navys_hip_over_a_30_ft_span(capsys):
    # NAVEDTRA 14044, Builder 3 & 2 vol. 2, ch. 2: span 30 ft, 8 in 12: total rise 10 ft, hip
    # 23.45 ft; half the ridge's 45 degree thickness comes off, 1 1/16 in for 1 1/2 in stock.
    answer = json.loads(said(capsys, "hip", "--run", "15'", "--pitch", "8", "--json"))
    found = answer["length"][0]
    assert found["table_in"] / 12 == pytest.approx(23.452, abs=0.0005)
    assert abs(found["disagree_in"]) < 1e-9
    assert answer["head"][0]["level_in"] == pytest.approx(1.0607, abs=5e-5)
    assert "rise 10'-0\"" in said(capsys, "hip", "--run", "15'", "--pitch", "8")


def test_the_navys_valley(capsys):
    # Same source: addition of 30 ft span at 9 in 12, 15 x 19.21 = 288.15 in.
    answer = json.loads(said(capsys, "valley", "--run", "15'", "--pitch", "9", "--json"))
    assert answer["length"][0]["table_in"] == pytest.approx(288.15, abs=0.01)


def test_a_dropped_hip_sits_deeper_than_a_backed_one(capsys):
    # Griffith: the drop is the plumb height of half the thickness at 17 and the rise, 0.354 at
    # 8 in 12.
    backed, dropped = (
        json.loads(said(capsys, "hip", "--run", "15'", "--pitch", "8", "--json", *more))
        for more in ([], ["--dropped"])
    )
    deeper = (
        backed["birdsmouth"][0]["height_above_plate_in"]
        - dropped["birdsmouth"][0]["height_above_plate_in"]
    )
    assert deeper == pytest.approx(0.3536, abs=5e-5)
    assert "the seat is cut deeper" in said(
        capsys, "hip", "--run", "15'", "--pitch", "8", "--dropped"
    )


def test_the_code_stands_beside_and_passes_no_verdict(capsys):
    text = said(capsys, "common", "--run", "10'")
    assert "R802.6" in text
    assert "R802.7" in text
    assert "adopted locally" in text


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["hip"], "--run"),
        (["hip", "--run", "0"], "no length"),
        (["jack", "--run", "8"], "'common', 'hip', 'valley'"),
        (["hip", "--run", "8'", "--corner", "180"], "does not suit"),
        (["common", "--run", "8'", "--seat", "12"], "does not fit"),
        (["common", "--run", "8'", "--overhang", "1/2"], "no tail"),
    ],
)
def test_bad_input_is_one_line(capsys, arguments, expected):
    assert run(["length", *arguments]) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert expected in error
    assert error.count("\n") == 1
