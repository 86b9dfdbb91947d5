"""What is found of claims: each one's cut, gap and verdict, and which of them are one plane."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from itertools import combinations

import numpy as np

from layout.answer.answer import Answer
from layout.tools.fit import SOUND_IN, Fit, fit
from layout.tools.setting import Setting
from layout.vector import Array
from lessons.mistakes.cut_mistakes import Mistake
from lessons.settle.claim import Claim
from lessons.settle.ear.heard_reading import Reading
from lessons.settle.ear.hearing import Heard

LEAST_ROOFS = 5
"""A rule that was tried in fewer is not judged."""


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
        order = (ClaimVerdict.WRONG, ClaimVerdict.OPEN, ClaimVerdict.RIGHT)
        return min(self.parts, key=lambda part: (order.index(part.verdict), -part.gap_in))

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
    known. `question` would close an open one. `left_out` are words that it was heard without.
    """

    verdict: ClaimVerdict
    said_in: float
    true_in: float | None
    what: str
    question: str = ""
    left_out: tuple[str, ...] = ()

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
    def left_out(self) -> tuple[str, ...]:
        """The words that it was heard without, and is asked about."""
        return self.heard.left_out if self.length is None else self.length.left_out

    @property
    def verdict(self) -> ClaimVerdict:
        """Unread without a reading; with several, what all of them come to, else open.

        Open too where it was heard without some of its words: they may turn it.
        """
        if (self.tried or self.length is not None) and self.left_out:
            return ClaimVerdict.OPEN
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
        if self.verdict is ClaimVerdict.WRONG:
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
        gaps = gaps_between_in(self.answer, normals[:, None, :], normals)
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


def gaps_between_in(true_answer: Answer, mates: Array, made: Array) -> Array:
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
