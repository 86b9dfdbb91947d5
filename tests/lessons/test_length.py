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


def test_each_face_of_a_hip_between_two_pitches_has_its_own_rip_and_heel(capsys):
    """By hand, 7 in 12 against 9 in 12: the hip's plan line goes 9 in in from this roof's wall and
    7 in from the other's, sqrt(130) in long. A face 3/4 in off it crosses this roof's wall
    3/4 * 7/9 = 0.583 in and the other's 3/4 * 9/7 = 0.964 in up the line. This roof falls 49 and
    the other 81 on 12 sqrt(130) square across the line; square to the edge of a hip that rises
    63/12 on sqrt(130), over 3/4 in, that is 0.244 and 0.403 in. With one pitch both are alike:
    3/4 in, and 3/4 * 8/sqrt(352) = 0.320 in at 8 in 12.
    """
    lines = said(capsys, "hip", "--run", "9'", "--pitch", "7", "--other-pitch", "9").splitlines()
    first = next(i for i, line in enumerate(lines) if line.startswith("  heel "))
    own, other, rip, other_rip = (line[13:] for line in lines[first : first + 4])
    assert own.startswith("on the face toward this roof 9/16 in strong (0.583) level")
    assert other.startswith("on the face toward the other roof 15/16 in strong (0.964) level")
    assert own.endswith("toward the head")
    assert "reaches 1/4 in (0.244) down the face toward this roof" in rip
    assert "reaches 3/8 in strong (0.403) down the face toward the other roof" in other_rip
    alike = said(capsys, "hip", "--run", "9'", "--pitch", "8")
    assert alike.count("  heel       on the faces 3/4 in (0.750) level") == 1
    assert alike.count("the rip reaches 5/16 in (0.320) down the faces, square") == 1
    assert "toward this roof" not in alike
    valley = said(capsys, "valley", "--run", "9'", "--pitch", "8")
    assert "on the faces 3/4 in (0.750) level from the middle's, toward the foot" in valley


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
        (["hip", "--run", "1mm"], "a run of 1mm is too short for a hip"),
        (["hip", "--run", "1mm", "--units", "metric", "--json"], "give a longer run, such as 12'"),
        # A ridge 1 1/2 in thick takes half of it off the common's run.
        (["common", "--run", "3/4in"], "a run of 3/4in is too short for a common"),
        (["jack", "--run", "8"], "stick cannot be 'jack'; say common, hip or valley"),
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


def test_the_other_head_of_a_hip_is_asked_of_the_command_that_has_it(capsys):
    """Both commands that the line names run as they stand there."""
    line = " ".join(said(capsys, "hip", "--run", "8'").split())
    assert "`squaresaw roof` gives those, and `squaresaw roof --hip-head ridge` these" in line
    assert run(["roof", "--hip-head", "ridge"]) == 0
