"""Which words belong to which number: a claim taken apart where it breathes.

A claim is parted at commas and at *and*; inside a part, the words before a number are its own,
and so are those that follow it with *on*, *across* or *down*. A part that is a number alone takes
the words of the part before it, else of the one behind it.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field

from lessons.settle.ear.heard_measure import HeardMeasure, Item, is_cue
from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.trade_tokens import Token

TIED = ("on ", "across ", "down ", "over ", "along ", "off ")
CROSSING = ("across ", "over ")
FOLLOWING = {"down", "along", "follow", "following", "follows", "ride", "riding", "up"}
LINED = {"a", "an", "the", "at", "it's", "is", "it", "its", "cut", "line", "angle", "about",
         "roughly", "around", "set", "of", "that's", "just", "be", "get", "make", "so", "mark",
         "marked", "for", "chop", "use", "you", "your", "plain", "=", "do", "lay", "bout", "say",
         "call", "which", "makes", "comes", "gives", "give", "take", "or"}  # fmt: skip
"""Words beside an angle that speak of nothing else than of its line."""
BINDING = ("mark", "saw", "miter", "square", "rip", "source", "length")
"""Sections of the lexicon whose words say what a number is."""


@dataclass
class Clause:
    """A measure and the words that are its own, in order; the measure is None for words alone.

    `followed` is set where the words behind it run along something: `45 down the plumb line`;
    `apart` where no other number stands in its part, nor a word that is not `LINED`.
    """

    measure: HeardMeasure | None
    cues: list[Token] = field(default_factory=list)
    behind: list[Token] = field(default_factory=list)
    strange: list[str] = field(default_factory=list)
    followed: bool = False
    apart: bool = False

    @property
    def names(self) -> set[str]:
        """What its words mean."""
        names = {cue.name for cue in (*self.cues, *self.behind)}
        if any(
            c.name == "edge" and c.text.startswith(CROSSING) for c in (*self.cues, *self.behind)
        ):
            names.add("crosses")
        return names | {"edge"} if "sidecut" in names else names

    @property
    def lonely(self) -> bool:
        """A number alone, with no word to say what it is."""
        return self.measure is not None and self.measure.kind == "one" and not self.bound

    @property
    def bound(self) -> bool:
        """Whether any word says what its number is."""
        return any(lexicon().group.get(name) in BINDING for name in self.names)


def clauses(items: Sequence[Item]) -> list[Clause]:
    """The claim's parts in order, each with one measure or none."""
    parts: list[list[Item]] = [[]]
    for item in items:
        breaks = isinstance(item, Token) and item.kind == "break"
        if breaks or is_cue(item, "and", "then"):
            parts.append([])
        else:
            parts[-1].append(item)
    found = [clause for part in parts if part for clause in _parted(part)]
    _inherit(found)
    return [clause for clause in found if clause.measure or clause.cues or clause.strange]


def carried(found: Sequence[Clause]) -> list[Clause]:
    """The parts, where one without a surface of its own takes that of the part before it.

    Only for what the square or the sliding bevel lays: `edge mark: 10 on the blade, ...`.
    """
    done: list[Clause] = []
    surface: Token | None = None
    for clause in found:
        names = clause.names
        told = [cue for cue in (*clause.cues, *clause.behind) if cue.name in ("face", "edge")]
        if len({cue.name for cue in told}) == 1:
            surface = told[0]
        elif names & {"plumb", "level"}:
            surface = None
        laid = clause.measure is not None and (
            clause.measure.kind == "pair" or names & {"slidingbevel", "offedge"}
        )
        if laid and surface is not None and not names & {"face", "edge", "plumb", "level"}:
            clause = Clause(clause.measure, [surface, *clause.cues], clause.behind, clause.strange)
        done.append(clause)
    return done


def _parted(part: list[Item]) -> list[Clause]:
    measures = [at for at, item in enumerate(part) if isinstance(item, HeardMeasure)]
    if not measures:
        return [_filled(Clause(None), part)]
    edges = [0]
    for first, second in itertools.pairwise(measures):
        edges.append(_split(part, first, second, edges[-1]))
    edges.append(len(part))
    done = []
    for at, start, end in zip(measures, edges, edges[1:], strict=False):
        measure = part[at]
        assert isinstance(measure, HeardMeasure)
        clause = _filled(Clause(measure), part[start:at])
        _filled(clause, part[at + 1 : end], behind=True)
        beside = [item for item in part if isinstance(item, Token)]
        clause.apart = len(measures) == 1 and all(_is_lined(item) for item in beside)
        done.append(clause)
    return done


def _is_lined(item: Token) -> bool:
    told = item.name in ("fromsquare", "offedge", "bothends", "degrees")
    stick = lexicon().group.get(item.name) == "stick"
    return told or stick or set(item.text.split()) <= LINED


def _filled(clause: Clause, items: Sequence[Item], *, behind: bool = False) -> Clause:
    for item in items:
        if isinstance(item, Token):
            if item.kind == "cue":
                (clause.behind if behind else clause.cues).append(item)
                clause.followed |= behind and item.name in ("on", "run")
            elif item.kind == "passed" and behind and not clause.behind:
                clause.followed |= bool(FOLLOWING.intersection(item.text.split()))
            elif item.kind == "unknown":
                clause.strange.append(item.text)
    return clause


def _split(part: list[Item], first: int, second: int, start: int) -> int:
    """Where the words between two numbers divide: what is tied to the first stays with it."""
    between = part[first + 1 : second]
    at, tied = 0, 0
    while at < len(between):
        item = between[at]
        starts = isinstance(item, Token) and (
            item.text.startswith(TIED) or item.text in ("on", "across", "down", "along", "for")
        )
        if not starts:
            break
        ends = at
        while ends < len(between) and not _binds(between[ends]):
            ends += 1
        if ends >= len(between):
            break
        at = tied = ends + 1
    if not at and between and is_cue(between[0], "pitch", "roof") and part[first].kind == "ratio":
        at = tied = 1  # 12/12 pitch, so saw 45
    binding = [place for place, item in enumerate(between) if _binds(item)]
    left_has = any(_binds(item) for item in part[start:first])
    right_has = any(_binds(item) for item in part[second + 1 :])
    if tied and not right_has and not [place for place in binding if place >= tied] and left_has:
        tied = 0  # plumb 12 in 12 on the saw 45: the saw is the 45's
    if not tied and not left_has and right_has:
        tied = len(between)  # 45 saw 33.7 plumb
    return first + 1 + tied


def _binds(item: Item) -> bool:
    return isinstance(item, Token) and item.kind == "cue" and lexicon().group[item.name] in BINDING


def _inherit(found: list[Clause]) -> None:
    """A number alone takes the words of its neighbor that has words and no number."""
    for at, clause in enumerate(found):
        if clause.measure is None or clause.bound or clause.strange:
            continue
        if clause.measure.kind == "ratio":
            continue  # 12 in 12 says for itself what it is
        pair = clause.measure.kind == "pair"  # laid for the line that is named beside it
        before = found[at - 1] if at else None
        behind = found[at + 1] if at + 1 < len(found) else None
        for near in (before, behind):
            whole = near is not None and near.names & {"plumbblade", "plumb", "level"} and not pair
            if near is not None and near.measure is None and near.bound and not whole:
                clause.cues = [*near.cues, *clause.cues]
                near.cues, near.behind = [], []
                break
