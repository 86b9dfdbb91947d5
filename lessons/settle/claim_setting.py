"""From a claim to a setting: its own words, its own method, and as little as can be of the joint.

The joint lends the end of the stick that is cut, and the way the cut leans where the claim does
not say. What a claim leaves open can be lent too, so that what it does say can be looked at.
"""

from collections.abc import Iterator
from dataclasses import replace

from layout.answer.answer import Answer
from layout.cuts import End, Hand
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from layout.vector import sign
from lessons.settle.claim import SQUARE, Arris, Claim, ClaimedLine, ClaimError


def setting_of(claim: Claim, true_answer: Answer) -> Setting:
    """The setting a whole claim says: its own numbers, made at the joint's end of the stick.

    It leans as it says, else as the joint does. Raises ClaimError for a claim that leaves the
    plane open, or says a rip where the joint has none.
    """
    _check_kind(claim, true_answer)
    if claim.missing:
        raise ClaimError(
            f"the claim {str(claim)!r} leaves the plane open: it lacks {claim.missing}"
        )
    side = _sidesign(claim, true_answer)
    if claim.rip:
        top = _arrissign(claim, true_answer)
        if claim.gauge_in is not None:
            return RipByHand(*claim.gauge_in, top, -side)
        assert claim.tilt_deg is not None
        return RipBySaw(claim.tilt_deg, top, -side)
    end = sign(true_answer.cut.normal[0])
    lean = _topsign(claim, true_answer)
    if claim.shoe == "edge":
        assert claim.edge is not None
        assert claim.tilt_deg is not None
        angle = claim.edge.from_square_deg
        return BySawOnEdge(angle, -side * end, claim.tilt_deg, -lean * end, end)
    assert claim.face is not None
    if claim.tilt_deg is not None:
        return BySaw(claim.face.from_square_deg, lean, claim.tilt_deg, -side, end)
    assert claim.edge is not None
    return ByHand(claim.face.legs, lean, claim.edge.legs, -side * end, end)


def _check_kind(claim: Claim, true_answer: Answer) -> None:
    name = true_answer.question.entry.name
    tilt_alone = claim.face is None and claim.edge is None and claim.gauge_in is None
    if claim.rip and not true_answer.is_rip:
        raise ClaimError(
            f"the claim {str(claim)!r} is of a rip, but {name} ends the board;"
            " say a face mark, as in plumb 8 in 12, saw 45"
        )
    if true_answer.is_rip and not (claim.rip or tilt_alone):
        raise ClaimError(
            f"the claim {str(claim)!r} ends the board, but {name} is a rip along it;"
            " say gauge 3/4 drop 5/16, or rip, saw 22 1/2"
        )


def completed(claim: Claim, true_answer: Answer) -> Claim:
    """The claim with what it lacks taken from the joint, exact."""
    _check_kind(claim, true_answer)
    if true_answer.is_rip:
        return replace(claim, rip=True)
    if claim.shoe == "edge":
        return claim if claim.edge else replace(claim, edge=_lent_edge(true_answer))
    if claim.face is None:
        claim = replace(claim, face=_lent_face(true_answer))
    if claim.edge is None and claim.tilt_deg is None:
        claim = replace(claim, tilt_deg=float(true_answer.cut.face_tilt_deg))
    return claim


def _lent_face(true_answer: Answer) -> ClaimedLine:
    """The joint's own face mark, exact."""
    return (
        ClaimedLine("degrees", true_answer.face.from_square_deg)
        if true_answer.face.lean
        else SQUARE
    )


def _lent_edge(true_answer: Answer) -> ClaimedLine:
    """The joint's own edge mark, exact."""
    return (
        ClaimedLine("degrees", true_answer.edge.from_square_deg)
        if true_answer.edge.lean
        else SQUARE
    )


def _sidesign(claim: Claim, true_answer: Answer) -> int:
    """+1 for a cheek that faces left; where the joint has no hand, both are alike."""
    return 1 if (claim.cheek or true_answer.hand or Hand.LEFT) is Hand.LEFT else -1


def _topsign(claim: Claim, true_answer: Answer) -> int:
    """+1 where the face mark's upper end leans toward the head."""
    if claim.top is not None:
        return 1 if claim.top == "head" else -1
    return true_answer.face.lean or 1


def _arrissign(claim: Claim, true_answer: Answer) -> int:
    """+1 for a rip that takes off the top edge's arris."""
    if claim.arris is not None:
        return 1 if claim.arris == "top" else -1
    return sign(true_answer.cut.normal[2])


def taken(claim: Claim, true_answer: Answer) -> Iterator[str]:
    """The words for each way a claim leans without saying so; none where it stands square."""
    leans_aside = bool(claim.tilt_deg) if claim.shoe == "face" else claim.edge != SQUARE
    leans_aside = leans_aside or claim.edge not in (None, SQUARE) or claim.gauge_in is not None
    if claim.cheek is None and leans_aside:
        yield f"{true_answer.hand.value} cheek" if true_answer.hand else "either cheek alike"
    if claim.rip:
        if claim.arris is None:
            yield f"{arris_of(true_answer)} edge"
        return
    leans_along = claim.face not in (None, SQUARE) or (claim.shoe == "edge" and claim.tilt_deg)
    if claim.top is None and leans_along:
        yield f"top to {top_of(true_answer)}" if true_answer.face.lean else "either way along alike"


def top_of(true_answer: Answer) -> End:
    """The end toward which the joint's face mark leans its upper end."""
    return "head" if true_answer.face.lean > 0 else "foot"


def arris_of(true_answer: Answer) -> Arris:
    """The edge whose arris the joint's rip takes off."""
    return "top" if true_answer.cut.normal[2] > 0 else "bottom"
