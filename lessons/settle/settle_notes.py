"""What is to be said of a claim beside its verdict: what it comes to, what to set instead."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from layout.answer.answer import Answer
from layout.answer.gap_words import gap_and_decimals, gap_over_limit, write_gap, write_limit
from layout.answer.sense_words import beyond_words
from layout.quantity import write_degrees
from layout.tools.saw import reaches
from lessons.say.how_many import how_many
from lessons.settle.claim import Claim
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.paste import sentence
from lessons.settle.findings import (
    ClaimVerdict,
    Explained,
    Finding,
    Judged,
    RuleFound,
    Settled,
    Tried,
)
from lessons.settle.heard_words import heard_words
from lessons.settle.opening import opening

UNTOLD_IN = 0.0005


@dataclass(frozen=True)
class Note:
    """A sentence about a claim, with a word for the margin and, where it has one, a title."""

    margin: str
    text: str
    title: str = ""

    def __str__(self) -> str:
        return f"{self.title}: {self.text}" if self.title else self.text


def notes(settled: Settled, finding: Finding, *, first_only: bool = False) -> Iterator[Note]:
    """What else is to be said of a claim; `first_only` but names the mistakes after the first."""
    answer = settled.answer
    if finding.length is not None:
        return
    if finding.tried and finding.left_out:
        yield from _without_words(answer, finding)
        return
    if not finding.tried:
        yield Note("say", finding.heard.paste or finding.heard.offer)
        return
    if finding.rule is not None:
        if finding.rule.enough:
            yield from _rule_notes(finding.rule, metric=answer.metric)
        if finding.heard.rule is not None:
            yield Note("here", _tried_words(answer, finding.tried[0]))
            return
    if finding.verdict is ClaimVerdict.OPEN:
        yield from _open_notes(answer, finding)
        return
    if finding.several:
        yield from _open_notes(answer, finding)
        right: dict[str, list[str]] = {}
        for letter, tried in zip("abcdefghijkl", finding.tried, strict=False):
            if tried.lead.instead is not None:
                right.setdefault(claim_words(answer, tried.lead.instead), []).append(f"({letter})")
        for said, letters in right.items():
            yield Note("instead", f"for {' and '.join(letters)}", said)
        return
    yield from _part_notes(answer, finding.tried[0])
    judged = finding.judged
    mistaken = list(_mistake_notes(judged))
    if first_only and len(mistaken) > 1:
        yield mistaken[0]
        yield Note("or", "; ".join(note.title for note in mistaken[1:]))
    else:
        yield from mistaken
    if finding.verdict is ClaimVerdict.RIGHT and (beyond := reach_words(answer, judged.whole)):
        yield Note("but", beyond)
    if judged.instead is not None:
        yield Note("instead", instead_words(answer, judged), claim_words(answer, judged.instead))
        yield Note("try it", test_cut_words(answer, judged))


def _without_words(answer: Answer, finding: Finding) -> Iterator[Note]:
    """What a claim comes to without the words that were left out, and how to say it without."""
    if len(finding.tried) > 1:
        yield from _open_notes(answer, finding)
        return
    (tried,) = finding.tried
    yield Note("as heard", _tried_words(answer, tried))
    if len(tried.parts) == 1 and not tried.reading.unplaced and finding.heard.rule is None:
        yield Note("if so, say", claim_words(answer, tried.lead.claim))


def _rule_notes(rule: RuleFound, *, metric: bool) -> Iterator[Note]:
    """Where a rule holds and where it does not, what it leaves at worst, and how to say it."""
    counted = f"it fits in {rule.fitted} of {rule.tried} roofs tried"
    yield Note("holds", f"{rule.holds or 'nowhere'}; {counted}")
    if rule.fails and rule.fitted < rule.tried:
        yield Note("fails", rule.fails)
        yield Note(
            "at worst", f"{gap_and_decimals(rule.worst_in, metric=metric)} open, at {rule.worst}"
        )
    if rule.beyond:
        yield Note("but", f"in {how_many(rule.beyond, 'roof')} where it fits, this saw cannot make"
                          " the cut in one pass on a face of this board")  # fmt: skip
    yield Note("the rule", rule.instead)


def _open_notes(answer: Answer, finding: Finding) -> Iterator[Note]:
    """What each reading comes to, so that the answer to the question is the verdict."""
    if len(finding.tried) > 1:
        for letter, tried in zip("abcdefghijkl", finding.tried, strict=False):
            yield Note(
                f"({letter})", f"{heard_words(answer, tried)}: {_tried_words(answer, tried)}"
            )
        return
    tried = finding.tried[0]
    if tried.aside:
        told: dict[str, None] = {}
        for one in (tried.lead, *tried.otherwise):
            claim = replace(one.claim, cheek=one.claim.cheek or answer.hand)
            told[f"{claim_words(answer, claim)}: {fits_words(answer, one)}"] = None
        yield from (Note("if meant", words) for words in told)
        return
    if tried.rescued:
        usual, other = tried.lead, next(one for one in tried.otherwise if one.fits)
        yield Note("as usual", f"{claim_words(answer, usual.claim)}: {fits_words(answer, usual)}")
        yield Note("or", f"{claim_words(answer, other.claim)}: {fits_words(answer, other)}")
        return
    yield Note("so far", "the mark on the face is right; alone it lets the plane swing about it")


def _tried_words(answer: Answer, tried: Tried) -> str:
    said = fits_words(answer, tried.lead)
    if tried.rescued:
        other = next(one for one in tried.otherwise if one.fits)
        return f"{said}; as {claim_words(answer, other.claim)} it fits"
    return said


def _part_notes(answer: Answer, tried: Tried) -> Iterator[Note]:
    """A claim that says the plane twice is judged by each half."""
    if len(tried.parts) > 1:
        for part in tried.parts:
            yield Note("part", f"{claim_words(answer, part.claim)}: {fits_words(answer, part)}")


def test_cut_words(answer: Answer, judged: Judged) -> str:
    """The cut on scrap that shows who is right."""
    mate = answer.plane.mate_words
    gap = gap_over_limit(judged.gap_in, judged.tolerance_in, metric=answer.metric)
    return (
        f"saw one scrap as claimed, one as above, and stand each against {mate}:"
        f" the first leaves {gap} open"
    )


def _mistake_notes(judged: Judged) -> Iterator[Note]:
    """Every mistake that explains the claim; where several do, nothing says which it was."""
    fine = bool(judged.fits and judged.mistakes)
    for index, one in enumerate(judged.mistakes):
        near = near_words(one)
        luck = " It passes here by luck; elsewhere it costs more." if fine else ""
        yield Note(
            "or" if index else "looks like",
            f"{one.mistake.does} {one.mistake.why}{luck}",
            f"{one.mistake.name.replace('-', ' ')}{near}",
        )


def near_words(one: Explained) -> str:
    """How near a claim comes to a mistake's plane; empty where nobody could tell them apart."""
    return f" (within {one.off_in:.4f} in)" if one.off_in >= UNTOLD_IN else ""


def gap_words(gap_in: float, tolerance_in: float, *, metric: bool = False) -> str:
    """A gap with the decimals beside it; *just over* where it reads as the tolerance does."""
    words = gap_over_limit(gap_in, tolerance_in, metric=metric)
    over = words.removesuffix(write_gap(gap_in, metric=metric))
    return f"{over}{gap_and_decimals(gap_in, metric=metric)}"


def fits_words(answer: Answer, judged: Judged) -> str:
    """Whether one setting fits, and where it leaves how much open."""
    if judged.exact:
        return "fits: no gap"
    if judged.fits:
        gap = gap_and_decimals(judged.gap_in, metric=answer.metric)
        return f"fits: {gap}, within {write_limit(judged.tolerance_in, metric=answer.metric)}"
    gap = gap_words(judged.gap_in, judged.tolerance_in, metric=answer.metric)
    return f"leaves {gap} open {opening(answer, judged)}"


def claim_words(answer: Answer, claim: Claim) -> str:
    """A claim as one would say it about this cut, to the hundredth of a degree."""
    return sentence(claim, Footing(answer))


def instead_words(answer: Answer, judged: Judged) -> str:
    """What changes to make the nearest right setting by the claim's own method."""
    assert judged.instead is not None
    words = _changes(judged.whole, judged.instead)
    if beyond := reach_words(answer, judged.instead):
        words += f"; {beyond}"
    return words


def reach_words(answer: Answer, claim: Claim) -> str:
    """Why this saw does not make a right cut set so, and what remains; empty where it does.

    A board on its edge may stand on a miter saw, so there the tilt alone is held against the saw.
    """
    if claim.tilt_deg is None:
        return ""
    if claim.shoe == "face":
        return beyond_words(answer)
    if reaches(claim.tilt_deg, answer.limits.tilt_deg):
        return ""
    return f"out of reach: it is past the {write_degrees(answer.limits.tilt_deg)} this saw tilts"


def _changes(said: Claim, instead: Claim) -> str:
    names = {
        "face": "the face mark",
        "edge": "the edge mark",
        "tilt_deg": "the tilt",
        "gauge_in": "the gauge",
        "cheek": "the cheek's side",
        "top": "the mark's lean",
        "arris": "the edge",
    }
    named = {line.kind for line in (said.face, instead.face) if line} & {"plumb", "level"}
    if said.face != instead.face and named:
        names.pop("top")  # a plumb line leans as a plumb line does
    for lent in ("face", "edge", "tilt_deg"):
        if getattr(instead, lent) is None:
            names.pop(lent)
    changed = [name for key, name in names.items() if getattr(said, key) != getattr(instead, key)]
    if len(changed) == 1:
        return f"only {changed[0]} changes"
    return f"{' and '.join(changed)} change"
