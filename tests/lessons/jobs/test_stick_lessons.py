"""A stick's name in lesson, drill and worksheet: its own roof, board and hand are put."""

import csv
import json

import pytest

from lessons.cli.main import run


@pytest.fixture
def yard(tmp_path, monkeypatch):
    """A roof of two pitches in a training yard."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "yard.toml").write_text(
        '[roof]\nsize = "16\' x 10\'"\npitch = "8 in 12"\nend-pitch = "10 in 12"\n'
        '[layout]\nspacing = "24in"\n[stock]\nrafter = "2x8"\nhip = "2x10"\n'
    )
    return tmp_path


def said(capsys, *arguments):
    assert run([*arguments, "--job", "yard.toml"]) == 0
    return capsys.readouterr().out


def test_a_lesson_on_a_stick_is_on_its_roof_board_and_hand(capsys, yard):
    one = json.loads(said(capsys, "mark", "J1:head", "--json"))
    told = " ".join(said(capsys, "lesson", "J1").split())
    assert "The cheek cut of a hip jack" in told
    pitch, other = (one["given"][key].split(" (")[0] for key in ("pitch", "other_pitch"))
    assert f"{pitch} ({one['face_mark']['from_square_deg']:.2f}°)" in told
    assert f"other roof {other}" in told
    assert "board 2x8" in told
    assert f"{one['saw']['on_face']['tilt_deg']:.2f}°" in told
    assert run(["lesson", "J1"]) == 2
    assert "needs its job" in capsys.readouterr().err
    assert run(["lesson", "P1", "--job", "yard.toml"]) == 2
    assert "no lesson teaches P1" in capsys.readouterr().err


def test_worksheet_problems_are_the_sticks_own(capsys, yard):
    """The hip's head and a jack's, as often as they are asked; the seed makes them again."""
    ask = ("worksheet", "H1:head", "J1:head", "--seed", "4", "--problems", "6")
    said(capsys, *ask, "--answers", "key.csv")
    rows = list(csv.DictReader((yard / "key.csv").read_text().splitlines()))
    stock = {"hip-ridge": "2x10", "hip-jack": "2x8"}
    for cut, name in (("hip-ridge", "H1:head"), ("hip-jack", "J1:head")):
        one = json.loads(said(capsys, "mark", name, "--json"))["given"]
        mine = [row for row in rows if row["cut"] == cut]
        assert mine
        for row in mine:
            assert {row["pitch"], row["other_pitch"]} == {"8 in 12", "10 in 12"}
            assert row["stock"] == stock[cut]
            assert one["stock"]["name"] == stock[cut]
    said(capsys, *ask, "--answers", "again.csv")
    assert (yard / "again.csv").read_text() == (yard / "key.csv").read_text()


def test_drills_on_a_job_stand_on_its_roof(capsys, yard, monkeypatch):
    monkeypatch.setattr("builtins.input", lambda prompt: "quit")
    told = said(capsys, "drill", "hip-jack", "--no-save", "--seed", "3", "--problems", "1")
    assert "pitch 8 in 12; other roof 10 in 12" in " ".join(told.split())
    told = said(capsys, "drill", "J1:head", "--no-save", "--seed", "3", "--problems", "1")
    assert "2x8" in told
