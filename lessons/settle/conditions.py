"""A condition of a claim: `if both pitches are equal, tilt half the corner`.

A condition that can be named makes the claim a rule for the roofs in which it holds. Anything
else behind *if* is left in the claim, which is then refused for it.
"""

import re
from dataclasses import dataclass

from lessons.settle.ear.lexicon import lexicon

IF = r"(?:if|when|where|wherever|whenever|as long as|so long as|provided)"
_BEFORE = re.compile(rf"^\s*{IF}\b(?P<when>[^,:]+?)(?:,|:|\bthen\b)(?P<rest>.+)$", re.I | re.S)
_BEHIND = re.compile(rf"^(?P<rest>.+?),?\s+{IF}\b(?P<when>.+)$", re.I | re.S)
_PITCHES = (
    r"(?:(?:both|the|two) )*(?:roofs?|pitch(?:es)?|slopes?)(?: (?:of|on) (?:both|the two) roofs)?"
)
_PLACED = r"(?:(?:\b(?:on|at|over|with|for|in|and|where)|,)\s+)*(?:\b(?:a|an|any|the)\s+)?"
UNEQUAL, EQUAL = "unequal pitches", "equal pitches"
CROOKED, SQUARE = "a corner that is not square", "square corner"
PATTERNS = (
    (UNEQUAL, rf"unequal pitch(?:es)?|{_PITCHES} (?:differ|are unequal|are different)"),
    (EQUAL, rf"equal pitch(?:es)?|{_PITCHES} (?:are equal|are the same|match|are alike)"
     r"|both roofs have (?:one|the same) pitch|both pitches the same"
     r"|both roofs (?:are )?the same(?: pitch)?|both roofs alike"),
    (CROOKED, r"(?:the )?(?:corner|walls?) (?:is|are) (?:not|out of) square"
     r"|(?:the )?corner isn't square"),
    (SQUARE, r"(?:(?:the|a) )?square corner|(?:the )?corner is (?:square|90(?: degrees)?)"
     r"|(?:the )?walls (?:are|meet) square"),
)  # fmt: skip


@dataclass(frozen=True)
class RoofCondition:
    """What must hold of a roof; None where nothing is said of its pitches, or of its corner."""

    words: str
    equal: bool | None = None
    square: bool | None = None

    def holds(self, *, equal: bool, square: bool) -> bool:
        """Whether a roof with equal pitches or not, over a square corner or not, is meant."""
        return self.equal in (None, equal) and self.square in (None, square)


def conditioned(text: str) -> tuple[str, RoofCondition | None]:
    """The claim without its condition, and the condition; None where none is understood.

    >>> conditioned("if the pitches are equal, half the corner on the saw")
    ('half the corner on the saw', RoofCondition(words='equal pitches', equal=True, square=None))
    """
    for pattern in (_BEFORE, _BEHIND):
        match = pattern.match(text)
        found = None if match is None else _condition(match["when"])
        if match is not None and found is not None:
            return match["rest"].strip(), found
    return text, None


def placed(text: str) -> tuple[str, RoofCondition | None]:
    """A text without its condition, and that condition, where it is said without an *if*.

    >>> placed("on a square corner with equal pitches the saw is always 45")[0]
    'the saw is always 45'
    """
    names = []
    rest = text.replace("’", "'")
    for name, pattern in PATTERNS:
        rest, count = re.subn(rf"{_PLACED}\b(?:{pattern})\b", " ; ", rest, flags=re.I)
        if count:
            names.append(name)
    if not names:
        return text, None
    rest = re.sub(r"\s*;[\s;,]*(?:and\b|but\b|then\b|;|,|\s)*", " ; ", rest)
    return rest.strip(" ;,.:"), _named(names)


def _condition(said: str) -> RoofCondition | None:
    """Every word of a condition takes part in it, or says nothing, as in a claim."""
    left = " ".join(said.lower().replace("’", "'").split())
    names = []
    for name, pattern in PATTERNS:
        left, count = re.subn(rf"\b(?:{pattern})\b", " ", left)
        if count:
            names.append(name)
    idle = lexicon().passed | {"and", "with", "on", "in"}
    if not names or any(word not in idle for word in re.findall(r"[\w']+", left)):
        return None
    return _named(names)


def _named(names: list[str]) -> RoofCondition:
    """The condition of these patterns' names."""
    equal = False if UNEQUAL in names else True if EQUAL in names else None
    square = False if CROOKED in names else True if SQUARE in names else None
    return RoofCondition(", ".join(names), equal, square)
