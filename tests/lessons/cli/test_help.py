"""Every command's help: a sentence that is not cut off, two examples that run, plain metavars."""

import io
import re
import shlex

import pytest

from lessons.cli.examples import EXAMPLES
from lessons.cli.main import COMMANDS, run
from tests.counts import LONG


def told(capsys, *arguments):
    assert run([*arguments, "-h"]) == 0
    return capsys.readouterr().out


def test_the_list_of_commands_cuts_nothing_off(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    listed = told(capsys).split("Commands:\n")[1]
    assert [line.split()[0] for line in listed.splitlines() if line[:3].strip()] == list(COMMANDS)
    assert "..." not in listed


@pytest.mark.parametrize("command", COMMANDS)
def test_a_commands_help_is_plain(command, capsys):
    text = told(capsys, command)
    assert "Examples:" in text
    for example in EXAMPLES[command]:
        assert example in text
    assert len(EXAMPLES[command]) >= 2
    for raw in ("<str>", "TEXT", "[LESSON]...]", "INTEGER", "FLOAT", "PATH"):
        assert raw not in text, f"{raw} says nothing to a carpenter"
    for british in ("mitre", "centre", "practise", "licence", "colour"):
        assert not re.search(british, text, flags=re.IGNORECASE)


GIVEN = {
    "names.txt": "Ann\nBo\n",
    "ann.csv": "learner,lesson,right,mistakes\nAnn,hip-jack,yes,\n",
    "bo.csv": "learner,lesson,right,mistakes\nBo,hip-jack,no,side-number-as-tilt\n",
}
"""What an example finds in the folder, by the names it uses."""
DRAWN = {"packet", "book", "yard-check", "worksheet", "bench", "picture", "template", "check"}
"""Commands that take seconds: one example in the default suite, both in the long run.

In the default suite the job is a small gable too: every end of its sticks is drawn full size."""
QUICKER = {"yard-check": 0}
"""Which example the default suite draws, where it is not the last: a narrow board is quicker."""
SMALL = (("24' x 16'", "6' x 6'"), ('"hip,hip"', '"gable,gable"'), ('"16in"', '"36in"'))
ELSEWHERE = {"live"}
"""Commands that stay until they are stopped: the tests of the page run them in a browser."""


@pytest.mark.parametrize(
    "line",
    [
        line
        for command in COMMANDS
        if command not in ELSEWHERE
        for line in (
            EXAMPLES[command]
            if LONG or command not in DRAWN
            else [EXAMPLES[command][QUICKER.get(command, -1)]]
        )
    ],
)
def test_an_example_runs(line, capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "data"))
    monkeypatch.setattr("sys.stdin", io.StringIO("45\n" * 20))
    words = shlex.split(line)
    for name, text in GIVEN.items():
        (tmp_path / name).write_text(text)
    if "porch.toml" in words and words[1:3] != ["job", "new"]:
        assert run(["job", "new", "porch.toml"]) == 0
        capsys.readouterr()
        porch = tmp_path / "porch.toml"
        for old, new in () if LONG else SMALL:
            assert old in porch.read_text()
            porch.write_text(porch.read_text().replace(old, new))
    assert words[0] == "squaresaw"
    assert run(words[1:]) == 0
    out = capsys.readouterr().out
    assert out
    if "-o" in words:
        assert (tmp_path / words[words.index("-o") + 1]).stat().st_size > 0
