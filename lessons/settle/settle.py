"""Settle claims about a cut: each one's plane, its gap on this stock, and what is behind it.

What is said is heard first (`lessons.settle.ear`), in every way it can be meant. A claim becomes
a setting by its own method, from its own words; the joint lends it the end of the stick, the way
it leans where the claim does not say, and what nobody disputes. The setting's plane is stood
against the joint's mate and against the planes of the other claims and of the known mistakes.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from itertools import combinations

import numpy as np

from layout.answer.answer import Answer
from layout.tools.fit import SOUND_IN, Fit, fit
from layout.tools.setting import ByHand, BySaw, Setting
from layout.vector import Array
from lessons.mistakes.cut_mistakes import Made, Mistake, made_on
from lessons.settle.claim import Claim, ClaimError
from lessons.settle.claim_repair import nearest_right
from lessons.settle.claim_setting import completed, setting_of, taken
from lessons.settle.ear.heard_reading import Reading
from lessons.settle.ear.hearing import Heard, hear

MOST_CLAIMS = 500
SAME_LINE_DEG = 1e-6
LEAST_ROOFS = 5
"""A rule that was tried in fewer is not judged."""
KNOWN_WITHIN_IN = 1 / 32
"""Settings read on the tool stray this far from the mistake that they come from."""


class ClaimVerdict(StrEnum):
    """What is found of a claim; an open one is asked back, an unread one was not understood."""

    RIGHT = "right"
    WRONG = "wrong"
    OPEN = "open"
    UNREAD = "unread"


@dataclass(frozen=True)
class Explained:
    """A known mistake near a claim: the widest gap between its plane and the claim's [inches]."""

    mistake: Mistake
    off_in: float

    @property
    def same(self) -> bool:
        """The claim says the mistake's own plane, not one near it."""
        return self.off_in < SOUND_IN


@dataclass(frozen=True)
class Judged:
    """A claim and what was found of it.

    `whole` is the claim with what was missing taken from the joint. `taken` has the words for
    the way it leans where the claim did not say. `instead` is the nearest right claim by the
    same method, None for one that is right. `mistakes` stand nearest first.
    """

    claim: Claim
    whole: Claim
    setting: Setting
    fit: Fit
    tolerance_in: float
    taken: tuple[str, ...]
    mistakes: tuple[Explained, ...]
    instead: Claim | None

    @property
    def gap_in(self) -> float:
        """The widest gap against the mate [inches]."""
        return float(self.fit.widest_in)

    @property
    def exact(self) -> bool:
        """The claim says the joint's own plane, to the last digit."""
        return self.gap_in < SOUND_IN

    @property
    def fits(self) -> bool:
        """The gap stays within the tolerance."""
        return self.gap_in <= self.tolerance_in

    @property
    def verdict(self) -> ClaimVerdict:
        """Right where it fits, wrong where it does not; open where it says a right mark on the
        face and nothing of the tilt of a cheek, which is what such a cut is argued about."""
        if not self.fits:
            return ClaimVerdict.WRONG
        return ClaimVerdict.OPEN if self.lacks_tilt else ClaimVerdict.RIGHT

    @property
    def lacks_tilt(self) -> bool:
        """It says a face mark alone, and this cut leans through the thickness."""
        claim = self.claim
        said = claim.edge is not None or claim.tilt_deg is not None or self.whole.rip
        return not said and bool(self.whole.tilt_deg)


@dataclass(frozen=True)
class Tried:
    """One reading of a claim, judged: its parts must all be right; `otherwise` only if unsaid."""

    reading: Reading
    parts: tuple[Judged, ...]
    otherwise: tuple[Judged, ...] = ()

    @property
    def lead(self) -> Judged:
        """The part that decides: the one that gapes most among the wrong, else the first open."""
        order = {ClaimVerdict.WRONG: 0, ClaimVerdict.OPEN: 1, ClaimVerdict.RIGHT: 2}
        return min(self.parts, key=lambda part: (order[part.verdict], -part.gap_in))

    @property
    def rescued(self) -> bool:
        """Wrong as it is usually meant, right in another way that it may be meant."""
        return self.lead.verdict is ClaimVerdict.WRONG and any(one.fits for one in self.otherwise)

    @property
    def aside(self) -> bool:
        """It says a side that can be taken two ways, and one of them fits."""
        fits = self.lead.fits or any(one.fits for one in self.otherwise)
        return bool(self.reading.unplaced) and fits

    @property
    def verdict(self) -> ClaimVerdict:
        """The lead's; open where what is left unsaid, or said two ways, decides."""
        return ClaimVerdict.OPEN if self.rescued or self.aside else self.lead.verdict


@dataclass(frozen=True)
class RuleFound:
    """What a rule comes to over many roofs: where it holds, where it fails, and the worst.

    `holds` and `fails` are in words, empty for nowhere; `worst` is the roof of the widest gap.
    `instead` is the rule as it should be said. `tried` counts the roofs, `fitted` those it fits,
    `beyond` those of them where this saw does not make the cut in one pass on a face.
    """

    verdict: ClaimVerdict
    holds: str
    fails: str
    worst: str
    worst_in: float
    instead: str
    tried: int
    fitted: int
    beyond: int = 0

    @property
    def enough(self) -> bool:
        """Whether it was tried in enough roofs to say anything: a stick of one job was not."""
        return self.tried >= LEAST_ROOFS


@dataclass(frozen=True)
class LengthFound:
    """A claim about a length, judged [inches]: what was said, and what it is.

    `what` says in words which length was meant; `true_in` is None where the building is not
    known. `question` would close an open one.
    """

    verdict: ClaimVerdict
    said_in: float
    true_in: float | None
    what: str
    question: str = ""

    @property
    def off_in(self) -> float | None:
        """How far what was said is from what it is; plus is too long."""
        return None if self.true_in is None else self.said_in - self.true_in


@dataclass(frozen=True)
class Finding:
    """What was said, how it was heard, and each reading judged; no reading, no verdict.

    `rule` is there for a claim that is to hold always or never, and for one that names where its
    number comes from; it decides where the claim says so.
    """

    heard: Heard
    tried: tuple[Tried, ...] = ()
    rule: RuleFound | None = None
    length: LengthFound | None = None

    @property
    def text(self) -> str:
        """The claim as it was said."""
        return self.heard.text

    @property
    def verdict(self) -> ClaimVerdict:
        """Unread without a reading; with several, what all of them come to, else open."""
        if self.length is not None:
            return self.length.verdict
        if not self.tried:
            return ClaimVerdict.UNREAD
        if self.rule is not None and self.heard.rule is not None:
            return self.rule.verdict if self.rule.enough else ClaimVerdict.OPEN
        verdicts = {one.verdict for one in self.tried}
        return verdicts.pop() if len(verdicts) == 1 else ClaimVerdict.OPEN

    @property
    def judged(self) -> Judged:
        """What decides: of the reading that gapes least where all are wrong, else of the first."""
        if self.verdict is ClaimVerdict.WRONG and len(self.tried) > 1:
            return min((one.lead for one in self.tried), key=lambda lead: lead.gap_in)
        return self.tried[0].lead

    @property
    def several(self) -> bool:
        """Whether it can be meant in several ways, though all of them come to one verdict."""
        return len(self.tried) > 1 and self.heard.rule is None and self.verdict in (
            ClaimVerdict.RIGHT, ClaimVerdict.WRONG
        )  # fmt: skip


@dataclass(frozen=True)
class Settled:
    """Every claim judged, and which of them say one plane. Claims are counted from 1."""

    answer: Answer
    findings: tuple[Finding, ...]

    @property
    def read(self) -> tuple[tuple[int, Finding], ...]:
        """The claims that were understood, with their numbers."""
        return tuple((i, one) for i, one in enumerate(self.findings, start=1) if one.tried)

    @property
    def judged(self) -> tuple[Judged, ...]:
        """What decides of each claim that was understood."""
        return tuple(finding.judged for _, finding in self.read)

    @property
    def right(self) -> tuple[int, ...]:
        """The right claims."""
        return self._with(ClaimVerdict.RIGHT)

    @property
    def wrong(self) -> tuple[int, ...]:
        """The wrong claims."""
        return self._with(ClaimVerdict.WRONG)

    @property
    def open(self) -> tuple[int, ...]:
        """The claims that are asked back."""
        return self._with(ClaimVerdict.OPEN)

    @property
    def unread(self) -> tuple[int, ...]:
        """The claims that were not understood."""
        return self._with(ClaimVerdict.UNREAD)

    @cached_property
    def apart_in(self) -> Array:
        """Widest gap between each pair of understood claims' cuts stood together [in] (n, n)."""
        if not self.judged:
            return np.zeros((0, 0))
        normals = np.stack([judged.setting.normal for judged in self.judged])
        gaps = _apart_in(self.answer, normals[:, None, :], normals)
        worst: Array = np.maximum(gaps, gaps.T)
        return worst

    @cached_property
    def same_plane(self) -> tuple[tuple[int, ...], ...]:
        """Groups of claims any two of which fit each other within tolerance."""
        groups: list[list[int]] = []
        settled = [
            i
            for i, (_, one) in enumerate(self.read)
            if one.verdict is not ClaimVerdict.OPEN and not one.several
        ]
        for index in settled:
            for group in groups:
                if all(self.apart_in[index, i] <= self.answer.tolerance_in for i in group):
                    group.append(index)
                    break
            else:
                groups.append([index])
        return tuple(tuple(self.read[i][0] for i in group) for group in groups if len(group) > 1)

    def apart(self, numbers: Sequence[int]) -> float:
        """Widest gap between any two of these claims [inches]."""
        places = [i for i, (number, _) in enumerate(self.read) if number in numbers]
        return max(float(self.apart_in[i, j]) for i, j in combinations(places, 2))

    def _with(self, verdict: ClaimVerdict) -> tuple[int, ...]:
        return tuple(i for i, one in enumerate(self.findings, start=1) if one.verdict is verdict)


def settle(
    true_answer: Answer, said: Sequence[str | Heard | Claim], *, explained: bool = True
) -> Settled:
    """Judge what is said about this cut. Raises ClaimError for nothing said, or far too much.

    Without `explained` no mistake is looked for that would explain a wrong claim.
    """
    if not said:
        raise ClaimError('there is no claim to settle; give one: --claim "plumb 8 in 12, saw 45"')
    if len(said) > MOST_CLAIMS:
        raise ClaimError(
            f"{len(said)} claims are too many to settle at once; give {MOST_CLAIMS} at most"
        )
    known = _Known(true_answer) if explained else None
    return Settled(
        true_answer, tuple(_found(true_answer, _heard(one, true_answer), known) for one in said)
    )


def _heard(said: str | Heard | Claim, true_answer: Answer) -> Heard:
    if isinstance(said, Claim):
        return Heard(str(said), (Reading((said,)),))
    return hear(said, true_answer) if isinstance(said, str) else said


def _found(true_answer: Answer, heard: Heard, known: "_Known | None") -> Finding:
    tried: list[Tried] = []
    trouble = ""
    for reading in heard.readings:
        try:
            parts = tuple(_judged(true_answer, claim, known) for claim in reading.claims)
        except ClaimError as error:
            trouble = str(error)
            continue
        otherwise = tuple(_judged(true_answer, claim, known) for claim in reading.otherwise)
        one = Tried(reading, parts, otherwise)
        if not any(_same(one, other) for other in tried):
            tried.append(one)
    if trouble and not tried:
        heard = replace(heard, readings=(), quoted=heard.text, why=trouble,
                        paste="", form=hear("", true_answer).form)  # fmt: skip
    return Finding(heard, tuple(tried))


def _same(one: Tried, other: Tried) -> bool:
    """Two readings that put the same planes there are one."""
    if len(one.parts) != len(other.parts) or len(one.otherwise) != len(other.otherwise):
        return False
    pairs = zip((*one.parts, *one.otherwise), (*other.parts, *other.otherwise), strict=True)
    return all(
        a.claim.missing == b.claim.missing
        and bool(np.allclose(a.setting.normal, b.setting.normal, rtol=0.0, atol=1e-12))
        for a, b in pairs
    )


class _Known:
    """The mistakes that can be made on a cut, with their planes side by side."""

    def __init__(self, true_answer: Answer) -> None:
        self.true_answer = true_answer

    @cached_property
    def made(self) -> tuple[Made, ...]:
        """Each mistake that can be made here; looked for only where a claim was understood."""
        return tuple(made_on(self.true_answer))

    @cached_property
    def normals(self) -> Array:
        """The plane of each (n, 3)."""
        normals = [made.setting.normal for made in self.made]
        return np.stack(normals) if normals else np.empty((0, 3))

    def near(self, setting: Setting) -> list[Explained]:
        """Every mistake that this way of saying it can make, nearest plane first.

        A mistake about an edge mark is none of a saw's, and the other way about. Of mistakes that
        come to one plane, the one made by the setting's own method leads.
        """
        off_in = _apart_in(self.true_answer, self.normals, setting.normal)
        order = sorted(
            (i for i in range(len(self.made)) if self._could_make(setting, self.made[i])),
            key=lambda i: (
                round(float(off_in[i]), 6),
                type(self.made[i].setting) is not type(setting),
                self.made[i].mistake.name,
            ),
        )
        return [Explained(self.made[i].mistake, float(off_in[i])) for i in order]

    def _could_make(self, setting: Setting, made: Made) -> bool:
        if isinstance(setting, ByHand):
            if not isinstance(made.setting, BySaw):
                return True
            own = self.true_answer.face.from_square_deg
            return abs(made.setting.line_deg - own) > SAME_LINE_DEG
        return not isinstance(made.setting, ByHand)


def _judged(true_answer: Answer, claim: Claim, known: _Known | None) -> Judged:
    whole = completed(claim, true_answer)
    setting = setting_of(whole, true_answer)
    found = true_answer.fit(setting)
    gap = float(found.widest_in)
    near = known.near(setting) if known is not None else []
    mistakes = tuple(one for one in near if one.off_in <= KNOWN_WITHIN_IN and one.off_in < gap)
    return Judged(
        claim,
        whole,
        setting,
        found,
        true_answer.tolerance_in,
        tuple(taken(whole, true_answer)),
        mistakes,
        None if gap <= true_answer.tolerance_in else _instead(claim, whole, true_answer),
    )


def _instead(claim: Claim, whole: Claim, true_answer: Answer) -> Claim:
    """The nearest right claim, without what was lent where it stayed as it was lent."""
    found = nearest_right(whole, true_answer)
    if claim.face is None and found.face == whole.face:
        found = replace(found, face=None)
    if claim.edge is None and found.shoe == "edge" and found.edge == whole.edge:
        found = replace(found, edge=None)
    lent = claim.tilt_deg is None and claim.edge is None and claim.gauge_in is None
    if lent and found.tilt_deg == whole.tilt_deg and found.face is not None:
        found = replace(found, tilt_deg=None)
    return found


def _apart_in(true_answer: Answer, mates: Array, made: Array) -> Array:
    """Widest gap of each cut against the mate of another, on this stock [inches] (...).

    `mates` and `made` are normals (..., 3) that broadcast; a cut whose surface is no rectangle
    of the section is stood against its mate one by one.
    """
    if true_answer.cut.outline is None or true_answer.is_rip:
        return fit(replace(true_answer.cut, normal=mates), made).widest_in
    mates, made = np.broadcast_arrays(mates, made)
    pairs = zip(mates.reshape(-1, 3), made.reshape(-1, 3), strict=True)
    gaps = [float(fit(replace(true_answer.cut, normal=mate), one).widest_in) for mate, one in pairs]
    return np.array(gaps).reshape(mates.shape[:-1])
