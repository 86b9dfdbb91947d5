"""A named value of a lesson's text: its kind, its arguments, and how it is read from an answer."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from layout.answer.answer import Answer
from layout.errors import LayoutError
from lessons.say.units import UNITS, ValueKind, Written

Argument = Callable[[str], Any]
"""Reads one argument from its text; raises LayoutError for what it cannot be."""
Read = TypeVar("Read", bound=Callable[..., Any])


@dataclass(frozen=True)
class Value:
    """A named value: its kind, what each argument is read with, and how it is worked out.

    `work` takes the answer, then the arguments as `arguments_of` gives them.
    """

    name: str
    kind: ValueKind
    takes: tuple[Argument, ...]
    work: Callable[..., Written]

    @property
    def means(self) -> str:
        """What the value is, in a sentence."""
        return " ".join((self.work.__doc__ or "").split("\n\n")[0].split())

    @property
    def form(self) -> str:
        """How it is written in a text: its name, its arguments, one of its units."""
        arguments = "(...)" if self.takes else ""
        units = UNITS[self.kind]
        return f"{{{self.name}{arguments}{f':{units[0]}' if units else ''}}}"

    @property
    def arguments(self) -> int:
        """How many arguments the value takes."""
        return len(self.takes)

    def read(self, answer: Answer, *arguments: str) -> Written:
        """The value for this answer, the arguments being texts.

        Raises LayoutError where they do not suit, or the value does not exist here.
        """
        return self.work(answer, *self.arguments_of(arguments))

    def arguments_of(self, texts: tuple[str, ...]) -> tuple[Any, ...]:
        """The arguments read from their texts.

        Raises LayoutError where there are too many or too few, or one cannot be read.
        """
        if len(texts) != self.arguments:
            raise LayoutError(
                f"has {len(texts)} arguments where {self.name} takes {self.arguments}"
            )
        return tuple(take(text) for take, text in zip(self.takes, texts, strict=True))


_values: dict[str, Value] = {}


def value(kind: ValueKind, *takes: Argument) -> Callable[[Read], Read]:
    """Enter a function of an answer, and of its arguments, as a named value."""

    def register(read: Read) -> Read:
        _values[read.__name__] = Value(read.__name__, kind, takes, read)
        return read

    return register


def registered() -> dict[str, Value]:
    """Every value that has been entered so far, by name."""
    return dict(_values)
