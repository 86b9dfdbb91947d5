"""What to say instead: a sentence with what was understood, else the form of a claim."""

from collections.abc import Sequence, Set
from dataclasses import replace

from layout.cuts import End
from lessons.settle.claim import FLAT_DEG, Claim, ClaimedLine, ClaimError, LineKind, write_claim
from lessons.settle.ear.draft import Draft, TwiceError, together
from lessons.settle.ear.footing import Footing

RUN_IN = 12.0
SAME_DEG = 1e-6


def sentence(claim: Claim, footing: Footing) -> str:
    """The claim in a sentence, its plumb line by the pitch, its numbers to the hundredth."""
    face = claim.face
    if face is not None and (named := _named(face, claim.top, footing)):
        kind, top = named
        claim = replace(claim, face=ClaimedLine(kind, footing.rise, RUN_IN), top=top)
    elif face is not None:
        claim = replace(claim, face=_read_off(face))
    if claim.edge is not None:
        claim = replace(claim, edge=_read_off(claim.edge))
    if claim.tilt_deg is not None:
        claim = replace(claim, tilt_deg=_hundredth(claim.tilt_deg))
    return write_claim(claim)


def _named(face: ClaimedLine, top: End | None, footing: Footing) -> tuple[LineKind, End] | None:
    """The plumb or level line that this is, and its top's end; None where it is neither.

    Only the way that it leans tells them apart, as claimed, else as this cut's own mark: at 12 in
    12 both stand 45° from square, and a line by the plumb line's angle may lean as a level one.
    """
    if not footing.slopes or footing.run != RUN_IN:
        return None
    leans = top or footing.top
    lines: list[tuple[LineKind, End, ClaimedLine]] = [
        ("plumb", "head", footing.plumb),
        ("level", "foot", footing.level),
    ]
    for kind, end, line in lines:
        by_pitch = ClaimedLine(kind, footing.rise, RUN_IN)
        own = abs(by_pitch.from_square_deg - line.from_square_deg) < SAME_DEG  # no stud's
        if own and face == line and leans == end:
            return kind, end
    return None


def _read_off(line: ClaimedLine) -> ClaimedLine:
    """The line with numbers and degrees that a tool shows: the 64th, else the hundredth."""
    if line.kind == "degrees":
        return replace(line, first=_hundredth(line.first))
    first, second = (
        number if number * 64 == round(number * 64) else round(number, 2) or number
        for number in (line.first, line.second)
    )
    return replace(line, first=first, second=second)


def _hundredth(angle_deg: float) -> float:
    """The angle to the hundredth, where that is still one that ends a board."""
    rounded = round(angle_deg, 2)
    return rounded if 0 < rounded < FLAT_DEG else angle_deg


def pasted(choices: Sequence[Sequence[Draft]], footing: Footing) -> str:
    """What was understood for certain, in a sentence; empty where nothing was.

    Of parts that can be meant in several ways nothing is offered, nor is anything put in a role
    that it was not given.
    """
    whole = Draft()
    for drafts in choices:
        if len(drafts) == 1:
            try:
                whole = together(whole, drafts[0])
            except TwiceError:
                return ""
    try:
        return _of_draft(whole, footing)
    except ClaimError:  # what no tool follows is nothing to paste
        return ""


def _of_draft(whole: Draft, footing: Footing) -> str:
    if whole.rip and whole.across_in is not None and whole.drop_in is not None:
        return write_claim(Claim(rip=True, gauge_in=(whole.across_in, whole.drop_in)))
    if footing.true_answer.is_rip:
        tilt = whole.tilt_deg
        return "" if tilt is None else write_claim(Claim(rip=True, tilt_deg=tilt))
    plain = whole.turn is None and whole.lay is None and whole.shoe != "edge"
    if not plain or (whole.edge is not None and whole.tilt_deg is not None):
        return ""
    if whole.face is None and whole.edge is None and whole.tilt_deg is None:
        return ""
    return sentence(
        Claim(face=whole.face, edge=whole.edge, tilt_deg=whole.tilt_deg, top=whole.top), footing
    )


LENGTHS = {
    "dropit": "drop it N in", "shorten": "shorten it N in", "halfthick": "shorten it N in",
    "difference": "common difference N in", "firstjack": "first jack N in",
    "seatlength": "seat length N in", "heelheight": "height above plate N in",
    "heelcut": "heel height N in",
}  # fmt: skip
"""How a length is said, by the word that was heard of it."""


def form_of(footing: Footing, names: Set[str] = frozenset()) -> str:
    """The lines that this cut has, with N for each number: what a claim about it says.

    By the `names` of what was said: of an edge mark, of a miter saw, of a length or of a rule.
    """
    true_answer = footing.true_answer
    if length := next((form for name, form in LENGTHS.items() if name in names), ""):
        return length
    rule = "always " if names & {"always", "never"} else ""
    if true_answer.is_rip:
        return f"{rule}rip, saw N"
    kind = "level" if footing.is_level else "plumb" if footing.is_plumb else ""
    slanted = true_answer.hand is not None
    if names & {"table", "mitersaw"} and true_answer.face.lean:
        return f"{rule}board flat: table N, tilt {'N' if slanted else '0'}"
    run = "12" if footing.run == RUN_IN else "N"  # 17, or 12: that is what is argued about on a hip
    face = f"{kind} N in {run}" if kind else "face N on N mark N" if true_answer.face.lean else ""
    edge = "saw N" if slanted else "saw square"
    sawn = names & {"saw", "tilt", "bevel", "blade", "shoe"}
    if slanted and names & {"edge", "sidecut", "sidenumber", "top"} and not sawn:
        edge = "edge N on 12"
    if rule:  # the pitch is what a rule leaves open
        return f"{rule}{edge}"
    return f"{face}, {edge}" if face else f"face square, {edge}"


def shortened(quoted: str) -> str:
    """A quotation of no more than a hundred letters."""
    return quoted if len(quoted) <= 100 else f"{quoted[:100]}..."
