"""Wrong ways of working out a value: what each answers, whatever plane it would cut.

A mistake of `lessons.mistakes` sets a tool and so cuts a plane; a slip goes wrong on the way to
a number: the wrong leg, a half left out, a step forgotten. It bears the name of such a mistake
where it is one. Each is a function of the same answer, derived from the right way by hand. Those
of angles and numbers on the square stand in `angle_slips`, those of lengths in `length_slips`.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from lessons.values.value import registered

Work = Callable[..., float | None]
"""Takes the answer, then the value's own arguments; None where the slip cannot be made."""


@dataclass(frozen=True)
class Slip:
    """A wrong way to one value: its name, what is done, why it is wrong, and what it answers.

    `factor` is true for one that multiplies the right value whatever else is done, so that two
    of them can be made at once.
    """

    name: str
    does: str
    why: str
    work: Work
    factor: bool = False


_slips: dict[str, list[Slip]] = {}


def registered_slips() -> dict[str, tuple[Slip, ...]]:
    """Every slip that has been entered so far, by the value that it spoils."""
    return {name: tuple(of) for name, of in _slips.items()}


def slip(values: str, name: str, does: str, why: str, work: Work, *, factor: bool = False) -> None:
    """Enter a slip on the way to each of these values."""
    for value in values.split():
        assert value in registered(), value
        _slips.setdefault(value, []).append(Slip(name, does, why, work, factor))


def work_of(name: str) -> Callable[..., Any]:
    """The right way to a value."""
    return registered()[name].work
