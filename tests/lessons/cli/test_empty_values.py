"""An option with nothing behind it is refused: the default would cut another board unasked."""

import pytest

from lessons.cli.main import run


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["mark", "hip-jack", "--stock", ""], "--stock is given an empty value; write its BOARD"),
        (["mark", "hip-jack", "--stock", "  "], "--stock is given an empty value"),
        (["mark", "hip-jack", "--stock="], "--stock is given an empty value"),
        (["mark", "hip-jack", "--other-pitch", "", "--json"], "or leave --other-pitch out"),
        (["jacks", "--on-valley", "--lengths", ""], "--lengths is given an empty value"),
        (["jacks", "--first", ""], "--first is given an empty value"),
        (["length", "hip", "--run", ""], "--run is given an empty value; write its LENGTH after"),
        (["mark", "hip-jack", "--job", ""], "--job is given an empty value; write its FILE"),
        (["table", "-o", ""], "-o is given an empty value"),
        (["template", "hip-jack", "-o", "a.pdf", "--printer", ""], "--printer is given an empty"),
    ],
)
def test_an_empty_value_is_one_line(capsys, tmp_path, monkeypatch, arguments, said):
    monkeypatch.chdir(tmp_path)
    assert run(arguments) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert said in error
    assert error.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_an_option_that_must_be_given_is_not_said_to_be_left_out(capsys):
    assert run(["length", "hip", "--run", ""]) == 2
    assert "leave" not in capsys.readouterr().err


@pytest.mark.parametrize(
    "arguments",
    [
        ["mark", "--json", ""],  # a flag takes no value: the word behind it is no option's
        ["mark", "hip-jack", "--", "--stock", ""],
        ["mark", "hip-jack", "--roll", "--stock="],  # a value that ends like an option's
    ],
)
def test_what_is_no_option_s_empty_value_is_left_to_the_command(capsys, arguments):
    assert run(arguments) == 2
    error = capsys.readouterr().err
    assert "empty value" not in error
    assert error.count("\n") == 1
