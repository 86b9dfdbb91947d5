"""Settle claims about a cut: each one's plane, its gap on this stock, and what is behind it.

A claim becomes a setting by its own method, from its own words; the joint lends it only the end
of the stick, and the way it leans where the claim does not say. The setting's plane is stood
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
from layout.tools.setting import Setting
from layout.vector import Array
from lessons.mistakes.cut_mistakes import Mistake, made_on
from lessons.settle.claim import Claim, ClaimError
from lessons.settle.claim_repair import nearest_right
from lessons.settle.claim_setting import completed, setting_of, taken

MOST_CLAIMS = 6
KNOWN_WITHIN_IN = 1 / 32
"""Settings read on the tool stray this far from the mistake that they come from."""


class Verdict(StrEnum):
    """What is found of a claim; an open one fixes no plane by itself."""

    RIGHT = "right"
    WRONG = "wrong"
    OPEN = "open"


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
    def verdict(self) -> Verdict:
        """Right where it fits, wrong where it does not, open where the plane is not fixed."""
        if self.claim.missing and not self.whole.rip:
            return Verdict.OPEN
        return Verdict.RIGHT if self.fits else Verdict.WRONG


@dataclass(frozen=True)
class Settled:
    """Every claim judged, and which of them say one plane."""

    answer: Answer
    judged: tuple[Judged, ...]

    @property
    def right(self) -> tuple[int, ...]:
        """The right claims, counted from 1."""
        return self._with(Verdict.RIGHT)

    @property
    def wrong(self) -> tuple[int, ...]:
        """The wrong claims, counted from 1."""
        return self._with(Verdict.WRONG)

    @property
    def open(self) -> tuple[int, ...]:
        """The claims that fix no plane, counted from 1."""
        return self._with(Verdict.OPEN)

    @cached_property
    def apart_in(self) -> Array:
        """Widest gap between each pair of claims' cuts stood together [inches] (n, n)."""
        normals = np.stack([judged.setting.normal for judged in self.judged])
        gaps = _apart_in(self.answer, normals[:, None, :], normals)
        worst: Array = np.maximum(gaps, gaps.T)
        return worst

    @cached_property
    def same_plane(self) -> tuple[tuple[int, ...], ...]:
        """Groups of claims, counted from 1, any two of which fit each other within tolerance."""
        groups: list[list[int]] = []
        for index, judged in enumerate(self.judged):
            if judged.verdict is Verdict.OPEN:
                continue
            for group in groups:
                if all(self.apart_in[index, i] <= judged.tolerance_in for i in group):
                    group.append(index)
                    break
            else:
                groups.append([index])
        return tuple(tuple(i + 1 for i in group) for group in groups if len(group) > 1)

    def apart(self, numbers: Sequence[int]) -> float:
        """Widest gap between any two of these claims, counted from 1 [inches]."""
        return max(float(self.apart_in[i - 1, j - 1]) for i, j in combinations(numbers, 2))

    def _with(self, verdict: Verdict) -> tuple[int, ...]:
        return tuple(i for i, one in enumerate(self.judged, start=1) if one.verdict is verdict)


def settle(right: Answer, claims: Sequence[Claim]) -> Settled:
    """Judge one to six claims about this cut.

    Raises ClaimError for fewer or more, and for a claim of a rip about a cut that ends the
    board, or the other way about.
    """
    if not claims:
        raise ClaimError('there is no claim to settle; give one: --claim "plumb 8 in 12, saw 45"')
    if len(claims) > MOST_CLAIMS:
        raise ClaimError(
            f"{len(claims)} claims are too many to settle at once; give {MOST_CLAIMS} at most"
        )
    known = _Known(right)
    return Settled(right, tuple(_judged(right, claim, known) for claim in claims))


class _Known:
    """The mistakes that can be made on a cut, with their planes side by side."""

    def __init__(self, right: Answer) -> None:
        self.right = right
        self.made = made_on(right)
        normals = [made.setting.normal for made in self.made]
        self.normals: Array = np.stack(normals) if normals else np.empty((0, 3))

    def near(self, setting: Setting) -> list[Explained]:
        """Every mistake with its distance from a setting's plane, nearest first.

        Of mistakes that come to one plane, the one made by the setting's own method leads.
        """
        off_in = _apart_in(self.right, self.normals, setting.normal)
        order = sorted(
            range(len(self.made)),
            key=lambda i: (
                round(float(off_in[i]), 6),
                type(self.made[i].setting) is not type(setting),
                self.made[i].mistake.name,
            ),
        )
        return [Explained(self.made[i].mistake, float(off_in[i])) for i in order]


def _judged(right: Answer, claim: Claim, known: _Known) -> Judged:
    whole = completed(claim, right)
    setting = setting_of(whole, right)
    found = right.fit(setting)
    gap = float(found.widest_in)
    mistakes = tuple(
        one for one in known.near(setting) if one.off_in <= KNOWN_WITHIN_IN and one.off_in < gap
    )
    return Judged(
        claim,
        whole,
        setting,
        found,
        right.tolerance_in,
        tuple(taken(whole, right)),
        mistakes,
        None if gap <= right.tolerance_in else nearest_right(whole, right),
    )


def _apart_in(right: Answer, mates: Array, made: Array) -> Array:
    """Widest gap of each cut against the mate of another, on this stock [inches] (...).

    `mates` and `made` are normals (..., 3) that broadcast.
    """
    return fit(replace(right.cut, normal=mates), made).widest_in
