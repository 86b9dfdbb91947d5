"""A settled argument in words to be read aloud: the verdict first, then each claim."""

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from layout.answer.answer import Answer
from layout.answer.gap_words import gap_and_decimals, gap_over_limit, write_gap, write_limit
from layout.answer.sense_words import beyond_words, hand_line
from layout.answer.wording import given_line, short_answer
from layout.plane.cut import ALONG
from layout.quantity import write_degrees, write_feet, write_inches, write_metric
from layout.tools.fit import SAME_GAP_IN, SOUND_IN
from layout.tools.saw import reaches
from layout.vector import Array
from lessons.say.hanging import WIDEST, hanging
from lessons.say.words import CAUTION
from lessons.settle.claim import Claim
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.paste import sentence
from lessons.settle.heard_words import heard_words, question_words, repeated
from lessons.settle.settle import (
    ClaimVerdict,
    Explained,
    Finding,
    Judged,
    LengthFound,
    RuleFound,
    Settled,
    Tried,
)

UNTOLD_IN = 0.0005


@dataclass(frozen=True)
class Note:
    """A sentence about a claim, with a word for the margin and, where it has one, a title."""

    margin: str
    text: str
    title: str = ""

    def __str__(self) -> str:
        return f"{self.title}: {self.text}" if self.title else self.text


@dataclass(frozen=True)
class Opening:
    """Where a gap is widest: at the `face` (right, left, or the middle between two cheeks), at
    the `level` (top, bottom, or the inside of a notch); None for the whole length of either.

    `point` is "long point" or "heel" (the short point); None where no face is the longer one.
    """

    face: str | None
    level: str | None
    point: str | None

    def __str__(self) -> str:
        if self.face is None:
            return f"along the {self.level} edge" if self.level else "all over"
        side = f"{self.point} ({self.face})" if self.point else self.face
        return f"at the {self.level} of the {side}" if self.level else f"all along the {side}"


def opening(answer: Answer, judged: Judged) -> Opening:
    """Where the claim's cut gapes most against its mate."""
    gaps = judged.fit.gaps_in
    corners = np.flatnonzero(gaps > gaps.max() - SAME_GAP_IN)
    (y0, y1), (z0, z1) = answer.cut.span
    stock = answer.question.stock
    # `Cut.corners` goes round the section; along a rip it goes twice along each face.
    at_y0 = {0, 1} if answer.is_rip else {0, 3}
    at_z0 = set() if answer.is_rip else {0, 1}
    near = {int(corner) in at_y0 for corner in corners}
    low = {int(corner) in at_z0 for corner in corners}
    spots = judged.fit.spots
    if spots is not None:  # the surface is no rectangle: by where its corners lie in it
        near, low = (_sides(spots[corners, axis]) for axis in (0, 1))
    face = level = point = None
    if len(near) == 1:
        y = float(y0 if True in near else y1)
        face = _between(y, stock.thickness_in, "right face", "left face", "middle")
        if answer.hand is not None and not answer.is_rip:
            # The cheek faces its own hand, so the other side of it is the longer one.
            longer_y0 = float(answer.cut.normal[1]) > ALONG
            point = "long point" if (True in near) == longer_y0 else "heel"
    if len(low) == 1 and not answer.is_rip:
        z = float(z0 if True in low else z1)
        level = _between(z, stock.depth_in, "bottom", "top", "inside")
    return Opening(face, level, point)


def _sides(places: Array) -> set[bool]:
    """True alone where all lie at 0, False alone where all lie at 1, else both."""
    for at, found in ((0.0, {True}), (1.0, {False})):
        if np.all(np.abs(places - at) < SAME_GAP_IN):
            return found
    return {True, False}


def _between(value: float, whole: float, at_zero: str, at_whole: str, inside: str) -> str:
    if abs(value) < SAME_GAP_IN:
        return at_zero
    return at_whole if abs(value - whole) < SAME_GAP_IN else inside


def gap_words(gap_in: float, tolerance_in: float, *, metric: bool = False) -> str:
    """A gap with the decimals beside it; *just over* where it reads as the tolerance does."""
    words = gap_over_limit(gap_in, tolerance_in, metric=metric)
    over = words.removesuffix(write_gap(gap_in, metric=metric))
    return f"{over}{gap_and_decimals(gap_in, metric=metric)}"


def headline(settled: Settled) -> str:
    """Who is right, in a sentence or three."""
    return " ".join([_verdict_sentence(settled), *_together(settled)])


def _verdict_sentence(settled: Settled) -> str:
    findings, count = settled.findings, len(settled.findings)
    right, wrong = settled.right, settled.wrong
    if count == 1:
        one = findings[0]
        if one.length is not None and one.verdict is ClaimVerdict.OPEN:
            return "OPEN."
        match one.verdict:
            case ClaimVerdict.RIGHT:
                return "RIGHT, however it is meant." if one.several else "RIGHT."
            case ClaimVerdict.WRONG:
                return f"WRONG by {_called(one, metric=settled.answer.metric)}."
            case ClaimVerdict.OPEN:
                return "OPEN: it can be taken two ways, or leaves the plane open."
            case ClaimVerdict.UNREAD:
                return "NOT UNDERSTOOD."
    if len(right) == count:
        return f"{'BOTH' if count == 2 else 'ALL'} ARE RIGHT."
    parts = []
    if len(wrong) == count:
        parts.append(f"{'NEITHER' if count == 2 else 'NONE'} IS RIGHT.")
    if right:
        parts.append(f"{_claims(right)} RIGHT.")
    parts += [
        f"CLAIM {i} IS WRONG by {_called(findings[i - 1], metric=settled.answer.metric)}."
        for i in wrong
    ]
    if settled.open:
        parts.append(f"{_claims(settled.open)} OPEN.")
    if settled.unread:
        parts.append(f"{_claims(settled.unread)} NOT UNDERSTOOD.")
    return " ".join(parts)


def _called(finding: Finding, *, metric: bool) -> str:
    if finding.length is not None:
        return _off_words(finding.length, metric=metric)
    limit_in = finding.judged.tolerance_in
    if finding.rule is not None and finding.heard.rule is not None:
        return f"up to {gap_over_limit(finding.rule.worst_in, limit_in, metric=metric)}"
    least = " at least, however it is meant" if finding.several else ""
    return f"{gap_over_limit(finding.judged.gap_in, limit_in, metric=metric)}{least}"


def _off_words(found: LengthFound, *, metric: bool) -> str:
    off_in = abs(found.off_in or 0.0)
    return write_metric(off_in) if metric else write_inches(off_in)


def _claims(numbers: Sequence[int]) -> str:
    one = len(numbers) == 1
    return f"{'CLAIM' if one else 'CLAIMS'} {listed(numbers)} {'IS' if one else 'ARE'}"


def _together(settled: Settled) -> Iterator[str]:
    """Which claims cut one plane; and whether it is the joint's."""
    count = len(settled.findings)
    for group in settled.same_plane:
        who = "They" if len(group) == count else f"Claims {listed(group)}"
        apart = settled.apart(group)
        close = (
            ""
            if apart < SOUND_IN
            else f", within {write_gap(apart, metric=settled.answer.metric)} of each other"
        )
        ours = " but not the joint's" if set(group) <= set(settled.wrong) else ""
        yield f"{who} cut the same plane{',' if ours and not close else ''}{close}{ours}."


def listed(numbers: Sequence[int]) -> str:
    """1 and 2; 1, 2 and 3."""
    *before, last = (str(number) for number in numbers)
    return f"{', '.join(before)} and {last}" if before else last


def verdict_words(answer: Answer, finding: Finding) -> str:
    """One claim's verdict, its gap, and where that opens."""
    if finding.length is not None:
        return f"{finding.verdict.value}: {length_words(finding.length, metric=answer.metric)}"
    match finding.verdict:
        case ClaimVerdict.UNREAD:
            quoted = f" at {finding.heard.quoted!r}" if finding.heard.quoted else ""
            return f"unread: not understood{quoted}: {finding.heard.why}"
        case ClaimVerdict.OPEN:
            return f"open: {question_words(answer, finding)}"
        case verdict if finding.rule is not None and finding.heard.rule is not None:
            rule = finding.rule
            as_rule = "it holds as a rule" if verdict is ClaimVerdict.RIGHT else "it is no rule"
            return f"{verdict.value}: {as_rule}; it fits in {rule.fitted} of {rule.tried} roofs"
        case verdict if finding.several:
            every = "fits" if verdict is ClaimVerdict.RIGHT else "leaves a gap"
            return f"{verdict.value}: {every} in every way that it can be meant"
        case verdict:
            return f"{verdict.value}: {fits_words(answer, finding.judged)}"


def length_words(found: LengthFound, *, metric: bool = False) -> str:
    """What a length is, and how far off what was said of it is."""
    if found.question or found.off_in is None or found.true_in is None:
        return found.question
    true = f"{found.what}: {_size(found.true_in, metric=metric)}"
    if found.verdict is ClaimVerdict.RIGHT:
        return true
    way = "too long" if found.off_in > 0 else "too short"
    return f"{true}; what is said is {_off_words(found, metric=metric)} {way}"


def _size(value_in: float, *, metric: bool) -> str:
    """A length in inches, and in feet where it is longer than a yard; or in millimeters."""
    if metric:
        return write_metric(value_in)
    plain = f"{write_inches(value_in)} ({value_in:.3f})"
    return f"{write_feet(value_in)} ({value_in:.3f} in)" if value_in > 36 else plain


def fits_words(answer: Answer, judged: Judged) -> str:
    """Whether one setting fits, and where it leaves how much open."""
    if judged.exact:
        return "fits: no gap"
    if judged.fits:
        gap = gap_and_decimals(judged.gap_in, metric=answer.metric)
        return f"fits: {gap}, within {write_limit(judged.tolerance_in, metric=answer.metric)}"
    gap = gap_words(judged.gap_in, judged.tolerance_in, metric=answer.metric)
    return f"leaves {gap} open {opening(answer, judged)}"


def lean_line(settled: Settled) -> str:
    """How claims are taken to lean where they do not say; empty where all of them do."""
    taken = dict.fromkeys(way for judged in settled.judged for way in judged.taken)
    if not taken:
        return ""
    return (
        f"Where a claim does not say how it leans, it leans as the joint does: {', '.join(taken)}"
    )


def notes(settled: Settled, finding: Finding, *, first_only: bool = False) -> Iterator[Note]:
    """What else is to be said of a claim; `first_only` but names the mistakes after the first."""
    answer = settled.answer
    if finding.length is not None:
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
    if judged.instead is not None and finding.verdict is ClaimVerdict.WRONG:
        yield Note("instead", instead_words(answer, judged), claim_words(answer, judged.instead))
        yield Note("try it", test_cut_words(answer, judged))


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
        roofs = "roof" if rule.beyond == 1 else "roofs"
        yield Note("but", f"in {rule.beyond} {roofs} where it fits, this saw does not make the cut"
                          " in one pass on a face of this board")  # fmt: skip
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


def joint_words(answer: Answer) -> str:
    """What is right here, in one line, and against what."""
    mate = answer.plane.mate_words
    return f"The correct cut against {mate}: {short_answer(answer)}"


def read_settled(settled: Settled) -> str:
    """The whole finding: who is right, what was asked, each claim, the cautions."""
    answer = settled.answer
    asked = answer.question
    place = "along the board" if answer.is_rip else f"at the {asked.end}"
    lines = [
        *textwrap.wrap(headline(settled), WIDEST),
        "",
        f"{asked.entry.name}, {place}; {given_line(answer)}",
        hand_line(answer),
        joint_words(answer),
    ]
    if said_of_none := lean_line(settled):
        lines += textwrap.wrap(said_of_none, WIDEST)
    for number, finding in enumerate(settled.findings, start=1):
        lines += ["", *hanging(f"CLAIM {number}", finding.text)]
        if heard := repeated(answer, finding):
            lines += hanging("  I heard", heard)
        verdict, _, rest = verdict_words(answer, finding).partition(": ")
        lines += hanging(f"  {verdict.upper()}", rest)
        for note in notes(settled, finding):
            lines += hanging(f"  {note.margin}", str(note))
    return "\n".join([*lines, "", *CAUTION])
