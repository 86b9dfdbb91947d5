"""Options that commands share are declared once, and stand in each as options of its own."""

import inspect
from dataclasses import dataclass

import pytest

from lessons.cli.shared_options import spread


@dataclass(frozen=True)
class Board:
    """A group of options."""

    thick: int = 2
    deep: int = 6


def test_fields_take_the_place_of_their_group():
    def command(name: str, board: Board, loud: bool = False) -> tuple[str, Board, bool]:
        return name, board, loud

    made = spread(command)
    parameters = inspect.signature(made).parameters
    assert list(parameters) == ["name", "thick", "deep", "loud"]
    assert [one.default for one in parameters.values()][1:] == [2, 6, False]
    assert made(name="J1", thick=2, deep=8, loud=True) == ("J1", Board(2, 8), True)
    with pytest.raises(KeyError):
        made(name="J1", loud=True)


def test_a_command_without_groups_stays_as_it_is():
    assert spread(test_a_command_without_groups_stays_as_it_is).__name__.startswith("test_")


def test_every_command_but_job_itself_takes_a_job():
    from lessons.cli.main import COMMANDS, commands

    app = commands(COMMANDS)
    takes = {
        each.name
        for each in app.registered_commands
        if "job" in inspect.signature(each.callback).parameters
    }
    assert takes == set(COMMANDS) - {"job"}
