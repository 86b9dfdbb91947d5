"""The command line as instructor, apprentice and foreman use it: words, JSON, and bad input."""

import json
import os
import subprocess
import sys

import pytest

from layout.cuts import catalogue
from lessons.cli.main import run


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert run(list(arguments)) == 0
    return capsys.readouterr().out


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert run(list(arguments)) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert error.count("\n") == 1, "an error is one line"
    return error


def test_mark_can_be_read_aloud(capsys):
    text = said(capsys, "mark", "hip-jack", "--pitch", "12 in 12", "--stock", "2x6")
    # Common practice, no source: 12 in 12 takes 8 1/2 on 12, and the saw 45 degrees.
    assert "side-cut number 8 1/2 on 12 (exact 8.485)" in text
    assert "8 1/2 on the blade, 12 on the tongue; mark along the tongue" in text
    assert "tilt 45° (the saw's bevel setting), shoe on a wide face" in text
    assert "the cheek faces left" in text
    assert "BOTH FIT: by handsaw and by saw it is the same plane" in text


def test_mark_defaults_to_8_in_12_on_a_2x6(capsys):
    given = json.loads(said(capsys, "mark", "hip-jack", "--json"))["given"]
    assert given["pitch"] == "8 in 12"
    assert given["stock"] == {"name": "2x6", "thickness_in": 1.5, "depth_in": 5.5}


def test_the_json_contract(capsys):
    answer = json.loads(said(capsys, "mark", "hip-jack", "--pitch", "12 in 12", "--json"))
    assert answer["schema"] == 1
    assert (answer["cut"], answer["end"], answer["hand"]) == ("hip-jack", "head", "left")
    assert answer["given"]["slope_deg"] == pytest.approx(45, abs=1e-12)
    assert answer["plane"]["normal"] == pytest.approx([0.5, 0.5**0.5, -0.5], abs=1e-12)
    assert answer["plane"]["point_in"] == [0, 0, 0]
    assert answer["face_mark"]["from_square_deg"] == pytest.approx(45, abs=1e-9)
    assert answer["face_mark"]["square"] == [12, 12]
    assert answer["edge_mark"]["from_square_deg"] == pytest.approx(54.735610317245346, abs=1e-9)
    assert answer["edge_mark"]["square"] == [12, 8.5]
    assert answer["edge_mark"]["number_on_12"] == pytest.approx(72**0.5, abs=1e-9)
    assert answer["saw"]["on_face"]["tilt_deg"] == pytest.approx(45, abs=1e-9)
    assert answer["saw"]["on_edge"]["tilt_deg"] == pytest.approx(30, abs=1e-9)
    for method in ("hand", "saw"):
        assert answer["methods"][method]["gap_exact_in"] < 1e-9
        assert answer["methods"][method]["sound"] is True
    assert answer["agree"] is True
    assert answer["tolerance_in"] == 1 / 32


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_every_cut_has_json_without_nan(capsys, name):
    for hand in ("left", "right"):
        text = said(capsys, "mark", name, "--hand", hand, "--json")
        json.loads(text, parse_constant=lambda constant: pytest.fail(f"{constant} is not JSON"))
        assert "same plane" in said(capsys, "mark", name, "--hand", hand)


def test_a_double_cheek_tells_both_cheeks(capsys):
    text = said(capsys, "mark", "hip-ridge", "--pitch", "8 in 12", "--other-pitch", "10 in 12")
    assert "SECOND CUT   against the end common, the cheek faces right" in text


def test_a_tilt_beyond_the_saw_offers_another_honest_way(capsys):
    text = said(capsys, "mark", "hip-jack", "--pitch", "8", "--other-pitch", "10")
    assert "is past the 50° this saw tilts" in text
    assert "out of reach: a tilt" not in said(
        capsys, "mark", "hip-jack", "--pitch", "8", "--other-pitch", "10", "--max-tilt", "60"
    )


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["mark", "hip-jack", "--pitch", "abc"], "'abc' is not a pitch; write it like 8 in 12"),
        (["mark", "hip-jack", "--pitch", "-3"], "a pitch of -3 in 12 does not rise"),
        (["mark", "hip-jack", "--pitch", "0"], "a pitch of 0 in 12 does not rise"),
        (["mark", "hip-jack", "--pitch", "inf"], "'inf' is not a pitch"),
        (["mark", "hip-jack", "--pitch", "nan"], "'nan' is not a pitch"),
        (["mark", "hip-jack", "--pitch", "89deg"], "a wall and not a roof"),
        (["mark", "hip-jack", "--stock", "9x9x9"], "'9x9x9' is not a board"),
        (["mark", "hip-jack", "--stock", "2x5"], "'2x5' is no dressed size"),
        (["mark", "hip-jak"], "did you mean hip-jack"),
        (["mark", "hip-jack", "--corner", "180"], "does not suit hip-jack"),
        (["mark", "hip-jack", "--sides", "2"], "2 sides cannot be framed"),
        (["mark", "hip-jack", "--sides", "8", "--corner", "135"], "give one of them"),
        (["mark", "hip-jack", "--end", "foot"], "cut at the head, not at the foot"),
        (["mark", "hip-jack", "--hand", "up"], "--hand cannot be 'up'; say left or right"),
        (["mark", "hip-jack", "--tolerance", "0"], "lets nothing pass"),
        (["mark", "hip-jack", "--tilt-step", "0"], "cannot be set"),
        (["mark", "hip-jack", "--max-tilt", "95"], "no saw leans"),
        (["mark", "hip-jack", "--pitch", "8", "--no-such"], "--no-such"),
        (["mark"], "no cut is named; `squaresaw cuts` lists them all"),
        (["template"], "no cut is named; `squaresaw cuts` lists them all"),
        (["template", "hip-jack"], "no file to write is named; name one, as in -o sheet.pdf"),
        (["mark", "hip-jack", "pitch", "7"], "'pitch 7' is left over; an option begins with two"),
        (["mark", "rafter"], "did you mean common-ridge?"),
        (["mark", "bird\u2019s-mouth"], "did you mean common-seat or common-heel?"),
        (["mark", "Bird's mouth"], "did you mean common-seat or common-heel?"),
        (["mark", "side-cut"], "did you mean hip-jack or valley-jack?"),
        (["mark", "hip-jack", "--corner", "octagon"], "90 square, 135 an octagon, 270 an inside"),
        (["lesson", "hip-backing"], "a cut and no lesson; to learn it take backing-or-dropping"),
        (["mrk", "hip-jack"], "did you mean 'mark'?"),
    ],
)
def test_bad_input_is_one_line_that_says_what_would_be_right(capsys, arguments, expected):
    assert expected in refused(capsys, *arguments)


def test_answering_at_once_loads_nothing_that_draws_or_serves():
    slow = ("matplotlib", "shapely", "pypdf", "starlette", "uvicorn", "jinja2")
    program = (
        "import sys; from lessons.cli.main import run; run(['mark', 'hip-jack']);"
        f"sys.exit(any(m.split('.')[0] in {slow} for m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()


def test_a_closed_pipe_is_no_error():
    program = "from lessons.cli.main import main; main(['cuts'])"
    done = subprocess.run(
        f'{sys.executable} -c "{program}" | head -1',
        shell=True,
        capture_output=True,
        check=False,
    )
    assert done.stderr == b""


def process(*arguments, **options):
    return subprocess.run(
        [sys.executable, "-m", "lessons", *arguments],
        stderr=subprocess.PIPE,
        text=True,
        timeout=60,
        check=False,
        **options,
    )


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="this system has no full device")
def test_a_full_standard_output_is_one_line_and_2():
    with open("/dev/full", "w") as full:
        done = process("mark", "hip-jack", stdout=full)
    assert done.returncode == 2
    assert done.stderr == ("squaresaw: cannot write to standard output: No space left on device\n")


def test_closed_streams_are_no_fault():
    for closed in ("<&-", ">&-", "<&- >&-"):
        line = f'exec "{sys.executable}" -m lessons mark hip-jack {closed}'
        done = subprocess.run(["sh", "-c", line], capture_output=True, text=True, check=False)
        assert (done.returncode, done.stderr) == (0, "")


def test_no_home_and_no_passwd_entry_is_one_line(tmp_path, monkeypatch, capsys):
    for name in ("HOME", "USERPROFILE", "XDG_DATA_HOME", "SQUARESAW_DATA"):
        monkeypatch.delenv(name, raising=False)

    def no(*_):
        raise RuntimeError("Could not determine home directory.")

    monkeypatch.setattr("pathlib.Path.home", no)
    told = refused(
        capsys, "template", "hip-jack", "--printer", "yard", "-o", str(tmp_path / "a.pdf")
    )
    assert "no home folder" in told


def test_an_error_is_short_and_does_nothing_to_a_terminal(capsys):
    assert len(refused(capsys, "mark", "x" * 1_000_000)) <= 300
    assert len(refused(capsys, "mark", "hip-jack", "--pitch", "8 " * 500_000)) <= 300
    assert "\x1b" not in refused(capsys, "mark", "hip-jack", "--pitch", "\x1b[2J8")


def test_the_version_is_said(capsys):
    assert said(capsys, "--version").startswith("squaresaw 0.")
