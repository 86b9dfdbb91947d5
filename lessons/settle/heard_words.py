"""What was heard, said back in plain words before it is judged."""

from collections.abc import Iterator

from layout.answer.answer import Answer
from layout.quantity import write_degrees, write_feet, write_fraction, write_inches
from layout.tools.square import BLADE_IN
from lessons.settle.claim import SQUARE, Claim, ClaimedLine, as_it_leans, leans_by_name
from lessons.settle.findings import ClaimVerdict, Finding, Judged, Tried

NEAR_64TH = 1e-9
YARD_IN = 36.0


def repeated(answer: Answer, finding: Finding) -> str:
    """What was heard, every reading of it, with slips that were mended; empty if nothing was."""
    if finding.length is not None:
        said = write_inches(finding.length.said_in)
        if finding.length.said_in > YARD_IN:
            said = write_feet(finding.length.said_in)
        return f"{said}, as {finding.length.what}" if finding.length.what else said
    if not finding.tried:
        return ""
    ways = [heard_words(answer, tried) for tried in finding.tried]
    text = ways[0] if len(ways) == 1 else "; or ".join(
        f"({letter}) {way}" for letter, way in zip("abcdefghijkl", ways, strict=False)
    )  # fmt: skip
    return f"{text}{_aside(finding)}"


def _aside(finding: Finding) -> str:
    mended = ", ".join(f"{said!r} taken for {taken!r}" for said, taken in finding.heard.mended)
    denied = ", ".join(repr(words) for words in finding.heard.denied)
    told = [*([mended] if mended else []), *([f"{denied} turned down"] if denied else [])]
    return f" ({'; '.join(told)})" if told else ""


def heard_words(answer: Answer, tried: Tried) -> str:
    """One reading: what it marks and sets, where that comes from, and what the joint lends."""
    said = "; and ".join(_claim_words(part.claim) for part in tried.parts)
    more = [*tried.reading.notes, *_lent(answer, tried.parts[0])]
    if tried.reading.unplaced:
        words = ", ".join(repr(word) for word in tried.reading.unplaced)
        more.append(f"{words} says no side for certain")
    return f"{said} ({'; '.join(more)})" if more else said


def _claim_words(claim: Claim) -> str:
    claim = as_it_leans(claim)
    parts = list(_marks(claim))
    tilt = None if claim.tilt_deg is None else write_degrees(claim.tilt_deg)
    if claim.rip:
        parts = [_rip_words(claim)]
    elif claim.table and claim.face and tilt:
        parts = [f"miter saw, board flat, table {_turn(claim.face)}, tilt {tilt}"]
    elif claim.shoe == "edge" and tilt:
        parts.append(f"saw with its shoe on the edge, tilted {tilt}")
    elif claim.tilt_deg == 0:
        parts.append("saw with its shoe on the face, blade square to it")
    elif tilt:
        parts.append(f"saw with its shoe on the face, tilted {tilt}")
    if claim.cheek is not None:
        parts.append(f"{claim.cheek.value}-hand cut")
    if claim.top is not None and not leans_by_name(claim):
        parts.append(f"face mark's top toward the {claim.top}")
    if claim.arris is not None:
        parts.append(f"{claim.arris} edge")
    return ", ".join(parts)


def _rip_words(claim: Claim) -> str:
    if claim.gauge_in is not None:
        across, drop = (_number(one) for one in claim.gauge_in)
        return f"rip gauged {across} in, dropping {drop} in"
    assert claim.tilt_deg is not None
    return f"rip with the saw tilted {write_degrees(claim.tilt_deg)}"


def _turn(line: ClaimedLine) -> str:
    return "square" if line == SQUARE else write_degrees(line.from_square_deg)


def _marks(claim: Claim) -> Iterator[str]:
    for where, line in (("face", claim.face), ("edge", claim.edge)):
        if line is not None:
            yield _mark_words(where, line)


def _mark_words(where: str, line: ClaimedLine) -> str:
    first, second = _number(line.first), _number(line.second)
    if line.kind == "numbers" and max(line.first, line.second) > BLADE_IN:
        return f"{where} marked {write_degrees(line.from_square_deg)} from square across"
    match line.kind:
        case "square":
            return f"{where} marked square across"
        case "degrees":
            return f"{where} marked {write_degrees(line.first)} from square across"
        case "numbers" if where == "edge":
            return f"edge mark by {second} on {first}, marked along the {first}"
        case "numbers":
            return f"face mark by {second} and {first}, marked along the {first}"
        case kind:
            return f"{kind} mark by {first} in {second} on the face"


def _number(value: float) -> str:
    if abs(value * 64 - round(value * 64)) < NEAR_64TH:
        return write_fraction(value, 64)
    return f"{write_fraction(value)} ({value:.4g})"


def _lent(answer: Answer, judged: Judged) -> Iterator[str]:
    """What the joint lends where nothing was said."""
    claim, whole = judged.claim, judged.whole
    if claim.rip or whole.rip:
        return
    if claim.face is None and whole.face is not None:
        angle = write_degrees(whole.face.from_square_deg)
        yield f"face marked {angle} from square across as this cut is"
    if claim.edge is None and claim.shoe == "edge" and whole.edge is not None:
        angle = write_degrees(whole.edge.from_square_deg)
        yield f"edge marked {angle} from square across as this cut is"
    if claim.tilt_deg is None and claim.edge is None and whole.tilt_deg is not None:
        tilt = f"tilted {write_degrees(whole.tilt_deg)}" if whole.tilt_deg else "blade square"
        yield f"saw {tilt} as this cut needs"


def question_words(answer: Answer, finding: Finding) -> str:
    """The one question that would close an open claim; empty for any other."""
    if finding.left_out and finding.verdict is ClaimVerdict.OPEN:
        words = ", ".join(repr(word) for word in finding.left_out)
        them = "that changes" if len(finding.left_out) == 1 else "one of them changes"
        return f"I left out {words}. Say whether {them} what is meant."
    if finding.rule is not None and finding.heard.rule is not None and not finding.rule.enough:
        return (
            "Does it hold in other roofs? A stick of one roof cannot tell: ask it of a cut of the"
            " catalogue, such as hip-jack."
        )
    if finding.several:
        return ""
    if len(finding.tried) > 1:
        letters = "abcdefghijkl"[: len(finding.tried)]
        return f"Which is meant: {' or '.join(f'({letter})' for letter in letters)}?"
    if finding.length is not None:
        return finding.length.question
    if not finding.tried:
        return ""
    tried = finding.tried[0]
    if tried.rescued or tried.aside:
        return tried.reading.question
    if tried.lead.lacks_tilt and tried.lead.fits:
        return "What is the saw's tilt, or the number on the edge?"
    return ""
