"""Settle claims about a cut: each one's plane, its gap on this stock, and what is behind it.

What is said is heard first (`lessons.settle.ear`), in every way it can be meant. A claim becomes
a setting by its own method, from its own words; the joint lends it the end of the stick, the way
it leans where the claim does not say, and what nobody disputes. The setting's plane is stood
against the joint's mate and against the planes of the other claims and of the known mistakes.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np

from layout.answer.answer import Answer
from layout.tools.setting import ByHand, BySaw, Setting
from layout.vector import Array
from lessons.mistakes.cut_mistakes import Made, made_on
from lessons.settle.claim import Claim, ClaimError
from lessons.settle.claim_repair import nearest_right
from lessons.settle.claim_setting import completed, setting_of, taken
from lessons.settle.ear.heard_reading import Reading
from lessons.settle.ear.hearing import Heard, hear
from lessons.settle.ear.second_hearing import hear_every_arm, hear_without_another_s
from lessons.settle.findings import (
    ClaimVerdict,
    Explained,
    Finding,
    Judged,
    Settled,
    Tried,
    gaps_between_in,
)

MOST_CLAIMS = 500
SAME_LINE_DEG = 1e-6
ONE_PLANE_DIGITS = 6
"""Mistakes as far from a cut as one another, to so many decimals of an inch, are one plane."""
SAME_NORMAL = 1e-12
"""Two unit normals whose parts are nearer than this are one, but for the rounding of floats."""
KNOWN_WITHIN_IN = 1 / 32
"""Settings read on the tool stray this far from the mistake that they come from."""


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
    return Settled(true_answer, tuple(_settled(true_answer, one, known) for one in said))


def _settled(true_answer: Answer, said: str | Heard | Claim, known: "_Known | None") -> Finding:
    """What is found of one claim; of words, in every way that they can be meant."""
    found = _found(true_answer, _heard(said, true_answer), known)
    if isinstance(said, Claim):
        return found
    if known is not None:
        found = _with_every_arm(true_answer, found, known)
    return _without_another_s(true_answer, found, known)


def _with_every_arm(true_answer: Answer, found: Finding, known: "_Known") -> Finding:
    """The same; where nothing fits, with the readings that mark along the other number too."""
    if not found.tried or any(one.verdict is not ClaimVerdict.WRONG for one in found.tried):
        return found
    several = len(found.tried) > 1
    least_in = min(one.lead.gap_in for one in found.tried) if several else 0.0
    more = hear_every_arm(found.heard.text, true_answer)
    others = _found(true_answer, replace(found.heard, readings=more), known).tried
    others = tuple(
        one for one in others if one.verdict is not ClaimVerdict.WRONG or one.lead.gap_in < least_in
    )
    return replace(found, tried=(*found.tried, *others))


def _without_another_s(true_answer: Answer, found: Finding, known: "_Known | None") -> Finding:
    """The same, where no line that is named may be another board's; else both ways of taking it.

    Where both come to one verdict, that stands. Where only the rest can be read, or it is a rule,
    it is asked about with the words of that part left out.
    """
    heard = hear_without_another_s(found.heard.text, true_answer)
    if heard is None:
        return found
    others = _found(true_answer, heard, known).tried
    asked = Finding(replace(heard, text=found.text, mended=found.heard.mended), others)
    if not found.tried or found.left_out:
        return asked if len(others) == 1 else _unoffered(found)
    if found.heard.rule is not None and others:
        return asked
    if not others:
        return replace(found, heard=replace(found.heard, left_out=heard.left_out))
    sole = found.verdict if found.verdict is not ClaimVerdict.OPEN else None
    new = [one for one in others if not any(_same(one, other) for other in found.tried)]
    if sole is None and len(found.tried) == 1:
        return found
    return replace(found, tried=(*found.tried, *(one for one in new if one.verdict is not sole)))


def _unoffered(found: Finding) -> Finding:
    """The same, with nothing to paste: its numbers may be another board's."""
    return replace(found, heard=replace(found.heard, paste=""))


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
        and bool(np.all(np.abs(a.setting.normal - b.setting.normal) < SAME_NORMAL))
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
        off_in = gaps_between_in(self.true_answer, self.normals, setting.normal)
        order = sorted(
            (i for i in range(len(self.made)) if self._could_make(setting, self.made[i])),
            key=lambda i: (
                round(float(off_in[i]), ONE_PLANE_DIGITS),
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
