"""Job files: the starter frames, what is wrong is told with its line, options win over the file."""

import json

import numpy as np
import pytest

from lessons.cli.main import run
from lessons.jobs.job_file import read_job


@pytest.fixture
def yard(tmp_path, monkeypatch, capsys):
    """A small roof of a training yard, as a job file in the current folder."""
    monkeypatch.chdir(tmp_path)
    text = """name = "yard"
[roof]
size = "16' x 10'"
pitch = "8 in 12"
[layout]
spacing = "24in"
"""
    (tmp_path / "yard.toml").write_text(text)
    return tmp_path / "yard.toml"


def said(capsys, *arguments):
    assert run(list(arguments)) == 0
    return capsys.readouterr().out


def refused(capsys, *arguments):
    assert run(list(arguments)) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert error.count("\n") == 1
    return error


def test_the_starter_can_be_framed_and_is_never_written_over(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert "wrote porch.toml" in said(capsys, "job", "new", "porch.toml")
    before = (tmp_path / "porch.toml").read_bytes()
    assert "can be framed, 65 sticks" in said(capsys, "job", "check", "porch.toml")
    assert "there already" in refused(capsys, "job", "new", "porch.toml")
    assert (tmp_path / "porch.toml").read_bytes() == before
    for line in before.decode().splitlines():
        assert len(line) <= 100


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('[roof]\npich = "9"', "line 2: [roof] has no 'pich'; did you mean 'pitch'?"),
        ('[roof]\nrafter = "2x6"', "line 2: rafter belongs in the section [stock]"),
        ('[rof]\npitch = "9"', "line 1: there is no section 'rof'; did you mean 'roof'?"),
        ('[roof]\npitch = "99x"', "line 2: '99x' is not a pitch"),
        ("[roof]\npitch = 9 in 12", "line 2"),
        ('[roof]\nhip-head = "sky"', "line 2: hip-head is commons or ridge, not 'sky'"),
        ("[roof]\npitch = true", "line 2: pitch is a text or a number"),
        ('[[wall]]\nturn = "90"', "wall 1 has no length"),
        ('[[wall]]\nlength = "9 ft"\nkind = "moat"', "eave, gable, high"),
        ('[[wall]]\nlength = "9 ft"\n[roof]\nsize = "9\' x 9\'"', "say the same thing"),
        ("[roof]\nsize = " + "[" * 3000, "nested too deep"),
        ("[roof]\nsize = " + "9" * 5000, "too many digits"),
        ('[layout]\nspacing = "40 ft"', "line 2: a spacing of 40'-0\" is longer than the eave"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(tmp_path, capsys, text, expected):
    path = tmp_path / "yard.toml"
    path.write_text(text)
    assert expected in refused(capsys, "job", "check", str(path))


def test_a_job_gives_what_is_not_said_and_an_option_wins(yard, capsys):
    own = json.loads(said(capsys, "mark", "hip-jack", "--job", "yard.toml", "--json"))
    assert own["given"]["pitch"] == "8 in 12"
    other = said(capsys, "mark", "hip-jack", "--job", "yard.toml", "--pitch", "9", "--json")
    assert json.loads(other)["given"]["pitch"] == "9 in 12"
    wider = json.loads(said(capsys, "roof", "--job=yard.toml", "--size", "20' x 10'", "--json"))
    usual = json.loads(said(capsys, "roof", "--job=yard.toml", "--json"))
    ridges = [
        next(s["long_in"] for s in one["sticks"] if s["role"] == "ridge") for one in (wider, usual)
    ]
    assert ridges[0] - ridges[1] == pytest.approx(48, abs=1e-9)
    assert yard.read_text().count("pitch") == 1


def test_sticks_and_pieces_stand_where_a_cut_may(yard, capsys):
    before = yard.read_bytes()
    stick = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--json")
    piece = said(capsys, "mark", "J-A:head", "--job", "yard.toml", "--json")
    assert json.loads(stick) == json.loads(piece)
    assert json.loads(stick)["cut"] == "J1:head"
    claimed = said(capsys, "settle", "J1:head", "--job", "yard.toml", "--claim", "saw 45")
    assert "J1:head" in claimed
    assert "give --job" in refused(capsys, "mark", "J1:head")
    assert "did you mean" in refused(capsys, "mark", "J99", "--job", "yard.toml")
    assert "several ends" in refused(capsys, "settle", "J1", "--job", "yard.toml")
    assert yard.read_bytes() == before, "a job is never changed by what is asked of it"


def test_a_stick_cut_wrong_is_read_back_with_what_it_loses(yard, capsys):
    """At tilt t along a face mark a the edge runs tan t / cos a over the thickness: 50 for 45
    runs 1.5 (tan 50 - tan 45) / cos 33.69 longer, and that is what a recut takes off."""
    told = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "tilt 50")
    face = np.arctan(8 / 12)
    lost = 1.5 * (np.tan(np.radians(50)) - 1) / np.cos(face)
    assert f"({lost:.3f}) farther in" in told
    assert "edge mark as tilt" in told
    flat = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "tilt 40")
    assert "No length is lost" in flat
    right = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "tilt 45")
    assert "leave it" in right
    two = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "gap 1/4")
    assert 'Say where it opens, "... at the heel"' in two
    after = two.split("approved drawings")[1].splitlines()
    told = [line[:22] for line in after if line[:2] in ("If", "J1")]
    assert told[::2] == ["If the saw was tilted "] * 2
    assert all(line.startswith("J1: ") for line in told[1::2])
    assert "does not say" in refused(
        capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "crooked"
    )
    assert "no end to read back" in refused(
        capsys, "mark", "C1:seat", "--job", "yard.toml", "--cut-as", "tilt 4"
    )


def test_a_job_is_read_as_it_is_written(yard):
    job = read_job(yard)
    assert (job.name, dict(job.texts)) == (
        "yard",
        {"size": "16' x 10'", "pitch": "8 in 12", "spacing": "24in"},
    )


def test_a_wings_pitch_and_a_gables_overhang_reach_the_roof(yard, capsys):
    """The wing's left side pitches 10 in 12; its rake climbs 4 ft and its overhang, by hand:
    a level fascia under 8 and 10 in 12 leaves 12 x 8 / 10 in over the steeper side."""
    more = 'wing = "6\' x 8\'"\nwing-pitch = "10"\nwing-end = "gable"\nrake-overhang = "9in"\n'
    yard.write_text(
        yard.read_text().replace("[layout]", more + "[stock]\nvalley = '2x12'\n[layout]")
    )
    rows = json.loads(said(capsys, "roof", "--job=yard.toml", "--json"))["trim"]
    rakes = [row["length_in"] for row in rows if row["board"] == "rake board"]
    assert rakes == pytest.approx([(48 + 12 * 8 / 10) * np.hypot(12, 10) / 12] * 2)
