"""What is heard of numbers that belong together, beside the words that stay between them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeGuard

from lessons.settle.ear.trade_tokens import Token

IDLE = ("a", "an", "the", "every", "each", "at", "is", "set", "of", "to", "it", "be")


@dataclass(frozen=True)
class HeardMeasure:
    """One thing said in numbers.

    `kind` is angle-or-number ("one"), "ratio" (`first` in or on `second`, the word between as
    `joint`), "mixed" (the same in two units), "pair" (two numbers on the square, `along` the one
    marked along), "range" (two numbers with *to* between them, which say nothing certain).
    """

    kind: str
    first: float
    text: str
    second: float = 0.0
    joint: str = ""
    along: float | None = None
    unit: str = ""
    fine: float = 0.0

    @property
    def unarmed(self) -> bool:
        """Two numbers on the square of which none is said to be marked along."""
        return self.kind == "pair" and self.along is None

    @property
    def value(self) -> float:
        """The number with what *shy* or *strong* take off or add."""
        return self.first + self.fine


Item = Token | HeardMeasure


def is_cue(item: Item, *names: str) -> bool:
    """Whether an item is a word of the trade with one of these meanings."""
    return isinstance(item, Token) and item.kind == "cue" and item.name in names


def is_number(item: Item) -> TypeGuard[Token]:
    """Whether an item is a number that was not yet joined with another."""
    return isinstance(item, Token) and item.kind == "number"


def idle(item: Item) -> bool:
    """Whether an item is a word that may stand inside a measure and says nothing."""
    return isinstance(item, Token) and item.kind == "passed" and item.text in IDLE


def next_said(items: Sequence[Item], at: int) -> int:
    """The place of the next item that says something."""
    while at < len(items) and idle(items[at]):
        at += 1
    return at
