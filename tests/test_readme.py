"""The README is true: its answer is the program's, its commands exist, its pictures are there."""

import json
import re
import shlex
from pathlib import Path

import pytest

from lessons.cli.main import COMMANDS, run

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
BLOCKS = re.findall(r"```sh\n(.*?)```", README, flags=re.DOTALL)
LINES = [
    line.split("  #")[0].split(" #")[0].strip()
    for block in BLOCKS
    for line in block.splitlines()
    if line.startswith("squaresaw")
]


@pytest.mark.parametrize("line", LINES)
def test_every_command_and_option_exists(line, capsys):
    words = shlex.split(line)
    assert words[1] in COMMANDS
    assert run([words[1], "-h"]) == 0
    told = capsys.readouterr().out
    for word in words[2:]:
        if word.startswith("-"):
            assert re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", told), word


def test_the_answer_shown_is_the_answer_given(capsys):
    command, shown = re.search(
        r"<!-- answer: (.*?) -->\n```text\n(.*?)```", README, re.DOTALL
    ).groups()
    assert run(shlex.split(command)) == 0
    assert capsys.readouterr().out == shown


def test_every_claim_shown_is_judged_as_shown(capsys):
    """The table of claims, said to the program one by one."""
    cut, table = re.search(r"<!-- claims: (.*?) -->\n(.*?)\n\n", README, re.DOTALL).groups()
    rows = [row.strip("|").split("|") for row in table.splitlines()[2:]]
    assert len(rows) >= 8
    for said, judged in ((one.strip(), other.strip()) for one, other in rows):
        assert run(["settle", *shlex.split(cut), "--claim", said, "--json"]) == 0
        (claim,) = json.loads(capsys.readouterr().out)["claims"]
        assert claim["verdict"] == judged, said


def test_two_commands_set_up_everything():
    setup = [line for line in README.splitlines() if line.startswith("python3 -m venv ")]
    assert len(setup) == 2
    assert "squaresaw lesson hip-jack" in setup[0]
    assert "pytest" in setup[1]


def test_every_picture_is_there_and_every_command_is_told():
    for picture in re.findall(r"!\[.*?\]\((.*?)\)", README):
        assert (ROOT / picture).is_file(), picture
    told = {shlex.split(line)[1] for line in LINES} | set(
        re.findall(r"`squaresaw ([a-z-]+)", README)
    )
    assert set(COMMANDS) <= told
