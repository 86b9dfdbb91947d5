"""The lexicon: phrases of the trade and what each of them means, read once from its file.

A word that it does not have is taken for a slip of the pen where one slip (a letter left out,
added, wrong, or two exchanged) leads to exactly one word of the trade.
"""

import tomllib
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

FILE = Path(__file__).with_name("lexicon.toml")
LETTERS = "abcdefghijklmnopqrstuvwxyz"
SHORTEST_SLIP = 3
"""A shorter word is one slip away from too many others."""
FILLER, PLAIN = "filler", "plain"
SHORT_WORD = 4
"""In a word this short only two letters exchanged, or one left out, is taken for a slip."""
LONG_FILLER = 5
"""A shorter word is not taken for a slip of one that is passed over."""
PASSED = (FILLER, PLAIN)
"""Sections of words without a meaning of their own: those passed over, those never mended."""
NOISE = "noise"
UNTRADED = ("refuse", "reference", NOISE)
"""Sections of plain English: nobody's slip is mended to one of their words."""
ONES = dict(
    zip(
        [
            "zero",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        ],
        range(20),
        strict=True,
    )
)
TENS = dict(
    zip(
        ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"],
        range(20, 100, 10),
        strict=True,
    )
)
PARTS = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4,
    "fourths": 4, "eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16,
}  # fmt: skip
LONG_PARTS = {("thirty", "second"): 32, ("thirty", "seconds"): 32,
              ("sixty", "fourth"): 64, ("sixty", "fourths"): 64}  # fmt: skip
OTHER_NUMBER_WORDS = ("hundred", "point", "second", "seconds", "and", "a")


@dataclass(frozen=True)
class Lexicon:
    """`phrases` maps words in a row to what they mean; `passed` are words that no claim turns on,
    `plain` words that are no slips, though nothing is known of them.
    `group` has the section that a meaning stands under, `trade` every single word of a phrase,
    `targets` the words that a slip of the pen may stand for.
    """

    phrases: dict[tuple[str, ...], str]
    group: dict[str, str]
    passed: frozenset[str]
    plain: frozenset[str]
    trade: frozenset[str]
    targets: frozenset[str]
    longest: int

    def knows(self, word: str) -> bool:
        """Whether a word stands in any phrase, is a number's, or is plain English."""
        return (
            word in self.trade or word in self.passed or word in self.plain or word in NUMBER_WORDS
        )

    @cached_property
    def _longest_slip(self) -> int:
        """How long a slip can be, a letter more than any word: a word of thousands is none, and
        to try each of its letters would take a gigabyte."""
        return 1 + max(map(len, self.targets | self.passed))

    def slip_of(self, word: str) -> str | None:
        """The one word of the trade that this may be a slip of; None where none or several are."""
        if not SHORTEST_SLIP <= len(word) <= self._longest_slip or self.knows(word):
            return None
        exchanged = _exchanged(word)
        if fillers := sorted(exchanged & self.passed):
            return fillers[0]  # teh is the, and nobody's ten
        near = exchanged & self.targets
        if len(near) == 1:
            return near.pop()
        slips = _one_slip_from(word)
        near = slips & self.targets
        if (
            not near
            and len(word) >= LONG_FILLER
            and len(fillers := sorted(slips & self.passed)) == 1
        ):
            return fillers[0]
        if len(near) > 1:  # a letter left out or doubled is a likelier slip than a wrong one
            near = {other for other in near if len(other) != len(word)} or near
        if len(word) <= SHORT_WORD:  # plum is plumb; tile, rib and hit are other words
            near = {other for other in near if len(other) > len(word)}
        return near.pop() if len(near) == 1 else None


NUMBER_WORDS = frozenset([*ONES, *TENS, *PARTS, *OTHER_NUMBER_WORDS])


@cache
def lexicon() -> Lexicon:
    """The lexicon of the file beside this module."""
    sections = tomllib.loads(FILE.read_text(encoding="utf-8"))
    phrases: dict[tuple[str, ...], str] = {}
    group: dict[str, str] = {}
    passed: dict[str, set[str]] = {section: set() for section in PASSED}
    for section, meanings in sections.items():
        for meaning, said in meanings.items():
            if section in PASSED:
                passed[section].update(said)
                continue
            group[meaning] = section
            for phrase in said:
                phrases.setdefault(tuple(phrase.split()), meaning)
    trade = {word for phrase in phrases for word in phrase}
    targets = {
        word
        for phrase, meaning in phrases.items()
        for word in phrase
        if group[meaning] not in UNTRADED and word not in passed[FILLER] | passed[PLAIN]
    }
    targets |= NUMBER_WORDS
    return Lexicon(
        phrases,
        group,
        frozenset(passed[FILLER]),
        frozenset(passed[PLAIN]),
        frozenset(trade),
        frozenset(word for word in targets if len(word) >= SHORTEST_SLIP),
        max(len(phrase) for phrase in phrases),
    )


def _exchanged(word: str) -> set[str]:
    """Two neighboring letters in each other's place."""
    return {word[:i] + word[i + 1] + word[i] + word[i + 2 :] for i in range(len(word) - 1)}


def _one_slip_from(word: str) -> set[str]:
    """Every string one slip away: a letter less, more or other, or two neighbors exchanged."""
    cuts = [(word[:i], word[i:]) for i in range(len(word) + 1)]
    less = {left + right[1:] for left, right in cuts if right}
    other = {left + c + right[1:] for left, right in cuts if right for c in LETTERS}
    more = {left + c + right for left, right in cuts for c in LETTERS}
    return less | _exchanged(word) | other | more
