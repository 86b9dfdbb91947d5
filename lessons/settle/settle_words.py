"""A settled argument in words to be read aloud: the verdict first, then each claim."""

import textwrap
from collections.abc import Iterator, Sequence

from layout.answer.answer import Answer
from layout.answer.gap_words import gap_over_limit, write_gap
from layout.answer.sense_words import hand_line
from layout.answer.wording import given_line, short_answer
from layout.quantity import write_feet, write_inches, write_metric
from layout.tools.fit import SOUND_IN
from lessons.say.hanging import WIDEST, hanging
from lessons.say.words import CAUTION
from lessons.settle.findings import ClaimVerdict, Finding, LengthFound, Settled
from lessons.settle.heard_words import question_words, repeated
from lessons.settle.settle_notes import fits_words, notes


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
            case ClaimVerdict.OPEN if one.left_out:
                return "OPEN: a part of it was not understood."
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
        fits = finding.heard.rule == "always" and finding.tried[0].lead.fits
        here = ", though it fits here" if fits else ""
        return f"up to {gap_over_limit(finding.rule.worst_in, limit_in, metric=metric)}{here}"
    least = " at least, however it is meant" if finding.several else ""
    return f"{gap_over_limit(finding.judged.gap_in, limit_in, metric=metric)}{least}"


def _off_words(found: LengthFound, *, metric: bool) -> str:
    assert found.off_in is not None  # it is asked of a wrong length, which was measured
    off_in = abs(found.off_in)
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
    if finding.length is not None and finding.left_out:
        said = f"{question_words(answer, finding)} {finding.length.question}"
        return f"open: {said.strip()}"
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


def lean_line(settled: Settled) -> str:
    """How claims are taken to lean where they do not say; empty where all of them do."""
    taken = dict.fromkeys(way for judged in settled.judged for way in judged.taken)
    if not taken:
        return ""
    return (
        f"Where a claim does not say how it leans, it leans as the joint does: {', '.join(taken)}"
    )


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
