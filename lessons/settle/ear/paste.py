"""A sentence to paste: what is near to what was said, in words that are understood."""

from dataclasses import replace

from lessons.settle.claim import FLAT_DEG, Claim, ClaimedLine, write_claim
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing

RUN_IN = 12.0


def sentence(claim: Claim, footing: Footing) -> str:
    """The claim in a sentence, its plumb line by the pitch and its degrees to the hundredth."""
    face = claim.face
    if face is not None and face == footing.plumb and footing.slopes and footing.run == RUN_IN:
        claim = replace(claim, face=ClaimedLine("plumb", footing.rise, RUN_IN), top="head")
    elif face is not None and face.kind == "degrees":
        claim = replace(claim, face=ClaimedLine("degrees", _hundredth(face.first)))
    if claim.tilt_deg is not None:
        claim = replace(claim, tilt_deg=_hundredth(claim.tilt_deg))
    return write_claim(claim)


def _hundredth(angle_deg: float) -> float:
    """The angle to the hundredth, where that is still one that ends a board."""
    rounded = round(angle_deg, 2)
    return rounded if 0 < rounded < FLAT_DEG else angle_deg


def pasted(loose: float | None, drafts: list[Draft], footing: Footing) -> str:
    """A sentence near what was said that is understood."""
    face = next((draft.face for draft in drafts if draft.face), None)
    tilt = next((draft.tilt_deg for draft in drafts if draft.tilt_deg is not None), loose)
    edge = next((draft.edge for draft in drafts if draft.edge), None)
    if tilt is not None and not 0 <= tilt < 90:
        tilt = None
    if footing.true_answer.is_rip:
        return write_claim(Claim(rip=True, tilt_deg=22.5 if tilt is None else tilt))
    if edge is not None and tilt is None:
        return sentence(Claim(face=face or _by_pitch(footing), edge=edge), footing)
    tilted = Claim(face=face or _by_pitch(footing), tilt_deg=45.0 if tilt is None else tilt)
    return sentence(tilted, footing)


def _by_pitch(footing: Footing) -> ClaimedLine:
    pitch = footing.true_answer.question.pitch
    rise = float(write_decimal(pitch.rise_in_12))
    return ClaimedLine("plumb", rise, 12.0)


def write_decimal(value: float) -> str:
    """A rise to the sixteenth, for a sentence to paste."""
    return f"{max(1, round(value * 16)) / 16:.4f}"


def shortened(quoted: str) -> str:
    """A quotation of no more than a hundred letters."""
    return quoted if len(quoted) <= 100 else f"{quoted[:100]}..."
