"""A rule held against every roof: where it holds, where it fails, and the worst that it does.

A claim with *always*, *never* or *any pitch* is no claim about one cut. It is heard anew in each
of a few dozen roofs (pitches from 3 to 18 in 12, several corners, equal and unequal pitches) and
judged there by what it says; what it leaves unsaid is lent by each joint. A rule of *never* says
that its setting is right nowhere.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from layout.answer.answer import Answer, answer
from layout.answer.question import Question, ask
from layout.answer.senses import way
from layout.answer.wording import corner_words
from layout.cuts import End, Hand
from layout.errors import LayoutError
from layout.quantity import Pitch, read_pitch
from layout.stock import Stock
from lessons.settle.claim import write_claim
from lessons.settle.conditions import RoofCondition, conditioned, placed
from lessons.settle.ear.hearing import Rule, hear
from lessons.settle.findings import ClaimVerdict, Finding, RuleFound, Settled
from lessons.settle.settle import settle

PITCHES = ("3 in 12", "5 in 12", "6 in 12", "8 in 12", "10 in 12", "12 in 12", "15 in 12")
OTHER_PITCHES = ("4 in 12", "9 in 12", "14 in 12")
CORNERS_DEG = (60.0, 90.0, 120.0, 135.0)
SCATTERED = "only here and there"
LUCK = 0.1
"""A setting that fits in no more than a tenth of the roofs fits them by luck."""
HALF_CORNER = "tilt half the corner"
DECIDING: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("the corner alone", ()),
    ("the corner and from the other roof's pitch", ("other_pitch",)),
)
"""What may decide a tilt beside the corner, the least first, by the question's own names."""
TILT_DIGITS = 6
"""Tilts that agree to so many decimals of a degree are one."""
SOURCES = ("half the corner", "the angle of the side-cut number", "the pitch's own angle")


@dataclass(frozen=True)
class Place:
    """One roof in which a rule was tried, and how it came out; `gap_in` is its widest gap."""

    answer: Answer
    finding: Finding

    @property
    def equal(self) -> bool:
        """Whether both roofs have one pitch."""
        asked = self.answer.question
        return abs(asked.pitch.slope_deg - asked.other_pitch.slope_deg) < 1e-9

    @property
    def square(self) -> bool:
        """Whether the walls meet square."""
        corner = self.answer.question.corner_deg
        return min(abs(corner - 90), abs(corner - 270)) < 1e-9

    @property
    def fits(self) -> bool:
        """Whether what the rule says fits here."""
        return all(part.fits for part in self.finding.tried[0].parts)

    @property
    def beyond(self) -> bool:
        """Whether the saw that was told of does not reach here, in one pass on a face."""
        return any(part.whole.tilt_deg for part in self.finding.tried[0].parts) and (
            way(self.answer) != "face"
        )

    @property
    def gap_in(self) -> float:
        """The widest gap that it leaves here [inches]."""
        return max(part.gap_in for part in self.finding.tried[0].parts)

    def __str__(self) -> str:
        asked = self.answer.question
        where = str(asked.pitch)
        if not self.equal:
            where += f" against {asked.other_pitch}"
        return where if asked.entry.meets == "nothing" else (
            f"{where}, {corner_words(asked.corner_deg)}"
        )  # fmt: skip


@dataclass(frozen=True)
class Ruled:
    """A rule tried in many roofs; `here` is the roof that was asked about."""

    rule: Rule
    here: Place
    places: tuple[Place, ...]

    @property
    def verdict(self) -> ClaimVerdict:
        """Right where *always* never fails, or *never* is met by luck alone.

        What fits wherever a condition holds that can be named does not fit by luck.
        """
        fitted = sum(place.fits for place in self.places)
        if self.rule == "never":
            if any(chosen and all(one.fits for one in chosen) for _, chosen in self._conditions()):
                return ClaimVerdict.WRONG
            return ClaimVerdict.RIGHT if fitted <= LUCK * len(self.places) else ClaimVerdict.WRONG
        return ClaimVerdict.RIGHT if fitted == len(self.places) else ClaimVerdict.WRONG

    @cached_property
    def worst(self) -> Place:
        """The roof where it gapes most."""
        return max(self.places, key=lambda place: place.gap_in)

    @cached_property
    def holds_where(self) -> str:
        """In words, the widest condition under which it fits everywhere; empty for none."""
        for words, chosen in self._conditions():
            if chosen and all(place.fits for place in chosen):
                return words
        fitting = [place for place in self.places if place.fits]
        if not fitting:
            return ""
        named = list(dict.fromkeys(str(place) for place in fitting))
        few = "; ".join(named[:3])
        return f"{SCATTERED}: {few}{' and others' if len(named) > 3 else ''}"

    @property
    def named(self) -> bool:
        """Whether it holds under a condition that can be named."""
        return bool(self.holds_where) and not self.holds_where.startswith(SCATTERED)

    @property
    def fails_where(self) -> str:
        """In words, a condition under which it fits nowhere or not always; empty for none."""
        if self.here.answer.question.entry.meets == "nothing":  # it has neither corner nor mate
            if all(place.fits for place in self.places):
                return ""
            return "other pitches" if self.holds_where else "every pitch"
        equal = [p for p in self.places if p.equal]
        square = [p for p in self.places if p.square]
        both = [p for p in equal if p.square]
        crooked = [p for p in self.places if not p.square]
        unequal = [p for p in self.places if not p.equal]
        names = [
            ("unequal pitches", unequal),
            ("a corner that is not square", crooked),
            ("equal pitches, square corner", both),
        ]
        if equal and all(place.fits for place in equal):
            names = names[:1]  # what fails at other corners fails there for the pitches
        elif square and all(place.fits for place in square):
            names = names[1:2]
        return "; ".join(
            name for name, chosen in names if chosen and not all(place.fits for place in chosen)
        )

    def _conditions(self) -> Iterator[tuple[str, list[Place]]]:
        yield "at every pitch and corner that was tried", list(self.places)
        if self.here.answer.question.entry.meets == "nothing":
            return
        yield "equal pitches, at any corner", [p for p in self.places if p.equal]
        yield "square corner, at any pitches", [p for p in self.places if p.square]
        yield "equal pitches, square corner", [p for p in self.places if p.equal and p.square]


def with_rules(settled: Settled) -> Settled:
    """The same findings, with what each rule among them comes to in other roofs."""
    true_answer = settled.answer
    found = []
    for finding in settled.findings:
        rule = None if finding.rule is not None else _rule_of(finding)
        tried = None if rule is None else ruled(finding, rule, true_answer)
        if tried is not None and (tried.enough or finding.heard.rule is not None):
            finding = replace(finding, rule=tried)
        found.append(finding)
    return replace(settled, findings=tuple(found))


def _rule_of(finding: Finding) -> Rule | None:
    """The rule that a claim is: said so, or its value named by where it comes from."""
    if finding.heard.rule is not None or not finding.tried:
        return finding.heard.rule
    notes = finding.tried[0].reading.notes
    return "always" if any(note.startswith(SOURCES) for note in notes) else None


def ruled(
    finding: Finding, rule: Rule, true_answer: Answer, only: RoofCondition | None = None
) -> RuleFound | None:
    """Try a rule in many roofs, or in those `only` where a condition holds.

    Several readings are each tried as they are written; where they come to two verdicts the rule
    is open. None where nothing could be tried.
    """
    texts = [finding.text]
    if len(finding.tried) > 1:
        texts = [write_claim(tried.lead.claim) for tried in finding.tried]
    found = []
    for text in texts:
        here = _tried(text, true_answer)
        if here is None:
            continue
        tried = (here, *(_tried(text, roof) for roof in roofs(true_answer.question)))
        places = [place for place in tried if place is not None]
        if only is not None:
            places = [p for p in places if only.holds(equal=p.equal, square=p.square)]
        if places:
            found.append(Ruled(rule, here, tuple(places)))
    if not found:
        return None
    best = max(found, key=lambda one: (one.named, sum(place.fits for place in one.places)))
    alike = len({one.verdict for one in found}) == 1
    holds = best.holds_where
    if only is not None and only.square:
        holds = holds.removesuffix(", at any corner")
    if only is not None and only.equal:
        holds = holds.removesuffix(", at any pitches")
    return RuleFound(
        best.verdict if alike else ClaimVerdict.OPEN,
        f"{only.words}: {holds}" if only is not None and holds else holds,
        best.fails_where,
        str(best.worst),
        best.worst.gap_in,
        should_be(true_answer),
        len(best.places),
        sum(place.fits for place in best.places),
        sum(place.fits and place.beyond for place in best.places),
    )


def under_condition(text: str, true_answer: Answer) -> Finding | None:
    """A claim with a condition that can be named, as a rule for the roofs where that holds."""
    rest, only = conditioned(text)
    if only is None:  # on a square corner the saw is always 45
        rest, only = placed(text)
        only = only if hear(rest, true_answer).rule else None
    if only is None:
        return None
    (finding,) = settle(true_answer, [rest]).findings
    rule: Rule = finding.heard.rule or "always"
    found = ruled(finding, rule, true_answer, only) if finding.tried else None
    heard = replace(finding.heard, text=hear(text, true_answer).text)
    if found is None:
        return replace(finding, heard=heard)
    return replace(finding, heard=replace(heard, rule=rule), rule=found)


def _tried(text: str, true_answer: Answer) -> Place | None:
    heard = replace(hear(text, true_answer), rule=None)
    (finding,) = settle(true_answer, [heard], explained=False).findings
    return Place(true_answer, finding) if len(finding.tried) == 1 else None


def roofs(asked: Question) -> tuple[Answer, ...]:
    """The same cut in other roofs: each pitch alone and against others, at each corner."""
    return _roofs(*_roof_key(asked))


def _roof_key(asked: Question) -> tuple[str, str, Hand, Stock, End]:
    return asked.entry.name, asked.entry.meets, asked.hand, asked.stock, asked.end


@lru_cache(maxsize=8)
def _in_roofs(
    text: str, name: str, meets: str, hand: Hand, stock: Stock, end: End
) -> tuple[Place | None, ...]:
    """What a rule comes to in each of them: a sheet asks it for every wrong claim about a cut."""
    return tuple(_tried(text, roof) for roof in _roofs(name, meets, hand, stock, end))


@lru_cache(maxsize=8)
def _roofs(name: str, meets: str, hand: Hand, stock: Stock, end: End) -> tuple[Answer, ...]:
    """They are the same ones for every rule about a cut."""
    found: list[Answer] = []
    corners: Sequence[float | None] = [None] if meets == "nothing" else CORNERS_DEG
    for pitch in PITCHES:
        others = [pitch] if meets == "nothing" else [pitch, *OTHER_PITCHES]
        for other in others:
            for corner in corners:
                roof = _roof((name, hand, stock, end), read_pitch(pitch), read_pitch(other), corner)
                if roof is not None:
                    found.append(roof)
    return tuple(found)


def _roof(
    cut: tuple[str, Hand, Stock, End], pitch: Pitch, other: Pitch, corner: float | None
) -> Answer | None:
    name, hand, stock, end = cut
    try:
        return answer(
            ask(
                name,
                pitch=pitch,
                other_pitch=other,
                corner_deg=corner,
                hand=hand,
                stock=stock,
                end=end,
            )
        )
    except LayoutError:
        return None


def should_be(true_answer: Answer) -> str:
    """The rule for this cut as it should be said."""
    asked = true_answer.question
    if true_answer.is_rip:
        return "the bevel follows from the pitches and the corner; take it from the mark"
    if true_answer.hand is None:
        return "saw the plumb or level line with the blade square to the face, at every pitch"
    if asked.entry.meets == "nothing":
        return "the tilt follows from the roof's own pitch; take it from the mark of that cut"
    if asked.joint.bevels:  # a hip or a valley
        return (
            "a hip or valley over a square corner between equal pitches takes its rise on 17"
            " (16.97); elsewhere take its face mark and its tilt from the mark of that cut"
        )
    tries = [_tried(HALF_CORNER, true_answer), *_in_roofs(HALF_CORNER, *_roof_key(asked))]
    equal = [one for one in tries if one is not None and one.equal]
    if equal and all(one.fits for one in equal):
        return (
            "follow the face mark by the pitch and tilt the saw to half the corner, at any corner,"
            " where both roofs have one pitch; elsewhere take the tilt from the mark of that cut."
            " The side-cut number lays the line on the edge and is never a tilt"
        )
    return (
        f"the tilt follows from {_decides(asked)}; take it from the mark of that cut. The side-cut"
        " number lays the line on the edge and is never a tilt"
    )


def _decides(asked: Question) -> str:
    """What the saw's tilt follows from, as many roofs show: the least that leaves it no choice."""
    for words, names in DECIDING:
        tilts: dict[tuple[object, ...], set[float]] = {}
        for one in roofs(asked):
            key = (one.question.corner_deg, *(getattr(one.question, name) for name in names))
            tilt = round(float(one.cut.face_tilt_deg), TILT_DIGITS)
            tilts.setdefault(key, set()).add(tilt)
        if all(len(found) == 1 for found in tilts.values()):
            return words
    return "the corner and from both pitches"
