"""A line that is named with its number, and may be another board's or another cut's.

`Saw 39 1/4, a plumb one would be 45` says of this fascia nothing but the saw. Where a line is
named that this cut does not have, or a word stands by that sets one thing beside another, the
claim is heard without that part too: no verdict rests on it alone.
"""

import re
from collections.abc import Sequence

from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_measure import Item
from lessons.settle.ear.single import TILTS

NAMED = {"plumb", "level", "square", "anotherone"}
SAYS = {"square", "squarethrough", "plumbblade", "plumb", "level", "halfcorner", "sidenumber"}
"""Words that say a mark or a setting with no number beside them."""
NO_LINE = {"tool", "tongue", "bladearm", "markalong", "slidingbevel", "plumbblade"}
"""Beside these *square* is the tool, or *plumb* the blade."""
SET_BESIDE = re.compile(
    r"\b(?:ones?(?! pass)|would|being|too|as well|for this|this is|this one|here"
    r"|(?:other|another|different) (?:kind|sort)|usually|normally|ordinary|regular|unlike)\b"
    r"|\b(?:plumb|level|square|seat|heel) (?:(?!cut|line|mark)[a-z]+ ){0,2}"
    r"(?:is|are|was|takes?|gets?|wants?|needs?|has|have|uses?)\b"
    r"|\b(?:is|are) (?:plumb|level|square)\b"
    r"|\b(?:is|are|for|on|with) (?:an?|the|his|your|any|every) (?:plumb|level|square)\b"
    r"(?! (?:cut|line|mark))"
)


def of_another(said: str, parts: Sequence[Clause], footing: Footing) -> list[Clause]:
    """The parts that may be another's; none where nothing else is said of this cut.

    A line by its rise on its run, told before a setting, is how a mark is laid: it is this cut's,
    right or wrong.
    """
    beside = SET_BESIDE.search(said) is not None
    return [
        part
        for at, part in enumerate(parts)
        if _may_be(part, footing, beside=beside)
        and any(
            _tells(other) and (beside or place < at or _is_angle(part) or other.lonely)
            for place, other in enumerate(parts)
            if other is not part
        )
    ]


def without(items: Sequence[Item], part: Clause) -> list[Item]:
    """The pieces without those of a part."""
    return [item for item in items if not _belongs(item, part)]


def words_of(items: Sequence[Item], part: Clause) -> str:
    """A part as it is quoted when the claim is heard without it."""
    return " ".join(item.text for item in items if _belongs(item, part))


def _belongs(item: Item, part: Clause) -> bool:
    return any(item is one for one in (*part.cues, *part.behind, part.measure))


def _may_be(part: Clause, footing: Footing, *, beside: bool) -> bool:
    names = part.names & NAMED
    if "anotherone" in names:
        return True  # a plumb one
    if beside and "tool" in part.names:
        names = names | {"square"}  # on the square kind it is 45
    if not names or part.names & (NO_LINE if not beside else NO_LINE - {"tool"}):
        return False
    if beside:
        return part.measure is not None or not footing.slopes or _is_foreign(names, footing)
    sawn = part.names & (TILTS - {"rip"})
    return part.measure is not None and not sawn and _is_foreign(names, footing)


def _is_angle(part: Clause) -> bool:
    return part.measure is not None and part.measure.kind == "one"


def _is_foreign(names: set[str], footing: Footing) -> bool:
    """Whether a line is named that is not this cut's own mark on the face."""
    own = {"plumb"} if footing.is_plumb else {"level"} if footing.is_level else set()
    if footing.true_answer.face.lean == 0:
        own = {"square"}
    return not names & own


def _tells(part: Clause) -> bool:
    return part.measure is not None or bool(part.names & SAYS)
