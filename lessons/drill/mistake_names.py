"""The mistakes that results name: by the sentence of a sheet's key, or by their short names.

The key of a sheet and its table of answers say each mistake in a sentence, with the gap behind
it: "The saw is tilted to 45 degrees out of habit. Gap 23/64 in." What a drill keeps has the
short names, `forty-five-as-tilt`, with spaces between.
"""

import re
from collections.abc import Iterable, Mapping
from functools import cache

from layout.errors import LayoutError
from lessons.drill.grading import MIRRORED
from lessons.mistakes.cut_mistakes import mistakes
from lessons.say.blocks import Facts
from lessons.say.how_many import how_many
from lessons.values.all_values import slips, values

BETWEEN = re.compile(r";|\s/\s|\bOr:")
"""Between two mistakes: a semicolon, and what stands there in the table and on the key."""
GAP = re.compile(r"\s*\bGap .*$")
ALSO = "and"
"""Between the short names of two mistakes made at once."""
MIRRORED_SAYS = "The mark slants the other way."
"""What is done in a mark of the other hand, whichever end it should slant toward."""


class MistakeNameError(LayoutError):
    """Words that name no known mistake."""


def mistakes_named(text: str) -> tuple[str, ...]:
    """The short names of the mistakes that a cell of results names, in its order.

    Two are kept apart by a semicolon. Raises MistakeNameError for words that name none.
    """
    parts = (" ".join(part.split()) for part in BETWEEN.split(text))
    return tuple(name for part in parts if part for name in _named(part))


def mistake_words(name: str) -> str:
    """The sentence that lessons use for the mistake of that short name; the name of one that no
    lesson has, as a file from elsewhere may hold."""
    return _said().get(name, name)


def mistake_facts(met: Iterable[tuple[str, int]]) -> Facts:
    """How many times each mistake was met, by its short name, and what is done in it."""
    return Facts(tuple((how_many(times, "time"), mistake_words(name)) for name, times in met))


def _named(part: str) -> list[str]:
    """One sentence, with or without the wrong answer before it and the gap behind; or names."""
    said = GAP.sub("", part)
    for sentence in (said, said.partition(": ")[2]):
        if _plain(sentence) in _sentences():
            return [_sentences()[_plain(sentence)]]
    names = [word for word in part.casefold().split() if word != ALSO]
    if not set(names) <= set(_sentences().values()):
        raise MistakeNameError(
            f"no mistake is called {part[:60]!r}; write the key's sentence, or a short name such"
            " as wrong-hand, with a semicolon between two"
        )
    return names


@cache
def _sentences() -> Mapping[str, str]:
    """The short name of every known mistake and slip, by what is done."""
    return {_plain(does): name for does, name in _every()}


@cache
def _said() -> Mapping[str, str]:
    """What is done, by the short name; the first where two values share a slip's name."""
    return {name: does for does, name in reversed(_every())}


@cache
def _every() -> tuple[tuple[str, str], ...]:
    """What is done and the short name, of every known mistake and slip."""
    return (
        *((one.does, one.name) for one in mistakes().values()),
        *((one.does, one.name) for value in values() for one in slips(value)),
        (MIRRORED_SAYS, MIRRORED),
    )


def _plain(sentence: str) -> str:
    """Without what a spreadsheet or a hand may change: capitals, curly quotes, the last stop."""
    return sentence.replace("\u2019", "'").casefold().rstrip(". ")
