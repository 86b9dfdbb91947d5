"""`squaresaw settle` as the foreman uses it: words, JSON, files, and bad input."""

import json
import subprocess
import sys

import pytest

from lessons.cli.main import run

TWO = ("--claim", "plumb 12 in 12, saw 35 1/4", "--claim", "plumb 12 in 12, edge 8 1/2 on 12")


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert run(["settle", *arguments]) == 0
    return capsys.readouterr().out


def test_the_verdict_is_read_aloud(capsys):
    text = said(capsys, "hip-jack", "--pitch", "12 in 12", *TWO)
    assert text.startswith("CLAIM 2 IS RIGHT. CLAIM 1 IS WRONG by 5/16 in.")


def test_it_takes_the_options_of_mark(capsys):
    text = said(
        capsys, "hip-jack", "--pitch", "8", "--other-pitch", "10", "--hand", "right",
        "--stock", "2x10", "--corner", "95", "--tolerance", "1/4", "--max-tilt", "60",
        "--claim", "plumb 8 in 12, saw 54",
    )  # fmt: skip
    assert "8 in 12 (33.69°); other roof 10 in 12; corner 95°; board 2x10" in text
    assert "RIGHT-HAND" in text
    assert "within 1/4 in" in text


def test_the_json_contract(capsys):
    found = json.loads(said(capsys, "hip-jack", "--pitch", "12 in 12", *TWO, "--json"))
    assert found["schema"] == 1
    assert (found["cut"], found["end"], found["hand"]) == ("hip-jack", "head", "left")
    assert found["given"]["pitch"] == "12 in 12"
    assert found["tolerance_in"] == 1 / 32
    assert (found["right"], found["wrong"], found["open"]) == ([2], [1], [])
    assert found["same_plane"] == []
    assert found["finding"].startswith("CLAIM 2 IS RIGHT.")
    # Claim 2 is as good as the joint, so claim 1 gapes at it much as it does at the hip: less
    # than the slip from 45 to 35 degrees seen along the board, more than seen square to it.
    assert found["apart_in"][0][1] == found["apart_in"][1][0]
    assert 0.30 < found["apart_in"][0][1] < 0.40
    assert found["apart_in"][0][0] < 1e-9
    one, two = found["claims"]
    assert one["claim"] == one["read_as"] == "plumb 12 in 12, saw 35 1/4"
    assert (one["method"], two["method"]) == ("saw", "hand")
    assert (one["verdict"], two["verdict"]) == ("wrong", "right")
    assert one["gap_in"] == pytest.approx(0.311, abs=1e-3)
    assert one["opens"] == {"face": "right face", "level": None, "point": "long point"}
    assert [each["name"] for each in one["mistakes"]] == [
        "side-number-as-tilt",
    ]
    assert one["mistakes"][0]["same_plane"] is False
    assert one["instead"] == "plumb 12 in 12, saw 45"
    assert one["leans_as_joint"] == ["left cheek"]
    assert (two["exact"], two["instead"], two["mistakes"]) == (False, None, [])
    assert sum(part**2 for part in two["normal"]) == pytest.approx(1, abs=1e-12)


def test_open_and_unread_claims_in_json(capsys):
    found = json.loads(
        said(capsys, "hip-jack", "--claim", "plumb 8 in 12", "--claim", "fnord 8", "--json")
    )
    one, two = found["claims"]
    assert (one["verdict"], two["verdict"]) == ("open", "unread")
    assert one["missing"].startswith("an edge mark or the saw's tilt")
    assert one["question"] == "What is the saw's tilt, or the number on the edge?"
    assert "plumb mark by 8 in 12 on the face" in one["heard"]
    assert (found["open"], found["unread"]) == ([1], [2])
    assert two["read_as"] is two["gap_in"] is None
    assert two["quoted"] == "fnord"
    assert two["why_unread"].startswith("I do not know")
    assert one["quoted"] is one["why_unread"] is one["paste"] is one["rule"] is None
    assert two["question"] is two["method"] is two["missing"] is None
    assert (one["leans_as_joint"], two["leans_as_joint"]) == (["left cheek"], [])
    assert (two["paste"], two["form"]) == (None, "plumb N in 12, saw N")


def test_claims_from_a_file(capsys, tmp_path):
    path = tmp_path / "said.txt"
    path.write_text("# two men\nplumb 8, saw 45\n\nbevel 39 3/4\n", encoding="utf-8")
    text = said(capsys, "hip-jack", "--claims-from", str(path))
    assert text.startswith("CLAIM 1 IS RIGHT. CLAIM 2 IS WRONG by 11/64 in.")


def test_one_bad_claim_does_not_lose_the_good_ones(capsys):
    text = said(capsys, "hip-jack", "--claim", "about right", "--claim", "saw 45")
    assert text.startswith("CLAIM 2 IS RIGHT. CLAIM 1 IS NOT UNDERSTOOD.")


def test_in_a_terminal_the_claims_are_asked_for(capsys, monkeypatch):
    answers = iter(["plumb 8, saw 45", "saw 40", ""])
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("typer.prompt", lambda *_, **__: next(answers))
    assert said(capsys, "hip-jack").startswith("CLAIM 1 IS RIGHT. CLAIM 2 IS WRONG")


def test_files_are_written(capsys, tmp_path):
    for name in ("settled.pdf", "settled.svg"):
        text = said(capsys, "hip-jack", *TWO, "-o", str(tmp_path / name), "--paper", "A4")
        assert f"wrote {tmp_path / name}" in text
        assert (tmp_path / name).stat().st_size > 1000
    out = said(capsys, "hip-jack", *TWO, "-o", str(tmp_path / "both.pdf"), "--json")
    json.loads(out)
    assert (tmp_path / "both.pdf").exists()


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["hip-jack"], 'there is no claim to settle; give one: --claim "plumb 8 in 12, saw 45"'),
        (["hip-jack", "--claim", "about right"], '"about right": nothing is said of a mark'),
        (["hip-jack", "--claim", "plumb 8 in 12, fnord 45"], '"fnord": I do not know'),
        (["hip-jack", "--claim", "it's not 45"], "with a number for each N: plumb N in 12, saw N"),
        (["hip-jack", "--claims-from", "none.txt"], "none.txt cannot be read"),
        (["hip-jack", "--claim", ""], "--claim is given an empty value; write its CLAIM"),
        (["hip-jack", "--claim", "gauge 3/4 drop 1/4"], "is of a rip"),
        (["hip-backing", "--claim", "plumb 8 in 12, saw 45"], "is a rip along it"),
        (["hip-jak", *TWO], "did you mean hip-jack"),
        ([*TWO], "no cut is named"),
        (["hip-jack", *TWO, "-o", "settled.doc"], ".pdf or .svg"),
        (["hip-jack", *TWO, "-o", "no/such/folder.pdf"], "there is no folder"),
        (["hip-jack", *TWO, "-o", "settled.pdf", "--paper", "napkin"], "no paper is called"),
    ],
)
def test_bad_input_is_one_line_and_nothing_is_written(
    capsys, tmp_path, monkeypatch, arguments, expected
):
    monkeypatch.chdir(tmp_path)
    assert run(["settle", *arguments]) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert error.count("\n") == 1
    assert expected in error
    assert list(tmp_path.iterdir()) == []


def test_without_a_file_nothing_is_drawn():
    program = (
        "import sys; from lessons.cli.main import run;"
        "run(['settle', 'hip-jack', '--claim', 'plumb 8 in 12, saw 40']);"
        "sys.exit(any(m.split('.')[0] in ('matplotlib', 'shapely', 'pypdf') for m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
