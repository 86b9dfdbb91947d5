"""Thickness comes first: a board given the other way round is taken, with a line that says so."""

import json

import pytest

from lessons.cli.main import run


@pytest.mark.parametrize(
    "arguments",
    [
        ["mark", "hip-jack", "--stock", "140mm x 38mm"],
        ["jacks", "--count", "1", "--overhang", "0", "--hip", "2x12", "--ridge", "140mm x 38mm"],
        ["length", "common", "--run", "12'", "--ridge", "140 x 38 mm"],
    ],
    ids=lambda words: words[0],
)
def test_a_board_thicker_than_deep_is_said_to_lie_on_its_flat(capsys, arguments):
    assert run(arguments) == 0
    out, error = capsys.readouterr()
    assert out
    assert error.count("\n") == 1
    assert "lies on its flat; the order is thickness x depth" in error
    assert "on its edge is 38" in error


def test_json_stays_json(capsys):
    assert run(["mark", "hip-jack", "--stock", "5in x 2in", "--json"]) == 0
    out, error = capsys.readouterr()
    assert json.loads(out)
    assert "a board 5in thick and 2in deep lies on its flat" in error


@pytest.mark.parametrize("board", ["2x6", "4x4", "38mm x 140mm", "2in x 2in"])
def test_a_board_on_its_edge_is_not_spoken_of(capsys, board):
    assert run(["mark", "hip-jack", "--stock", board]) == 0
    assert capsys.readouterr().err == ""


def test_a_board_that_cannot_be_read_is_refused_alone(capsys):
    assert run(["mark", "hip-jack", "--stock", "board"]) == 2
    assert capsys.readouterr().err.count("\n") == 1
