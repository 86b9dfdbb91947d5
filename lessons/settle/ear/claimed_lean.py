"""Which way it leans, as far as a claim says so in words that can be read one way only."""

from collections.abc import Sequence
from dataclasses import dataclass

from layout.cuts import End, Hand
from lessons.settle.claim import Arris
from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.lying import LEANS, TURNS, LiesTwiceError, turned

PLAIN = {"lefthand": Hand.LEFT, "righthand": Hand.RIGHT}
FACES = {"leftface", "rightface"}
TOWARD = {"towardhead": "head", "towardfoot": "foot", "towardtop": "top", "towardbottom": "bottom"}
SIDES = {"vague", *TOWARD, *TURNS, *LEANS}
"""Words of a side that say nothing certain by themselves."""
TOPS: dict[str, End] = {"tophead": "head", "topfoot": "foot"}


@dataclass(frozen=True)
class Sensed:
    """The senses that were said; `left_end` +1 where the edge mark's left end leans to the head.

    `unplaced` are words about a side that fit no surface, so that the claim can be taken two
    ways; `twice` names a sense said two ways; `named` is set where a line is called plumb or level.
    """

    cheek: Hand | None = None
    top: End | None = None
    arris: Arris | None = None
    left_end: int = 0
    unplaced: tuple[str, ...] = ()
    twice: str = ""
    named: bool = False


def sensed(parts: Sequence[Clause], end: int, *, hollow: bool = False) -> Sensed:
    """Read the senses of all parts together; `end` is +1 for a cut at the head.

    Two cheeks run from the middle back from the end, those of a `hollow` end on toward it.

    Below a shoe on the left face a blade that runs in under the waste leaves a cheek that faces
    left; under the kept wood, one that faces right. On the right face it is the other way about.
    """
    cheeks: set[Hand] = set()
    tops: set[End] = set()
    arrises: set[Arris] = set()
    left_ends: set[int] = set()
    unplaced: list[str] = []
    everywhere = {name for part in parts for name in part.names}
    face: set[str] = everywhere & FACES if len(everywhere & FACES) == 1 else set()
    leans = "plumbblade" not in everywhere  # a square blade runs under neither
    twice = ""
    used: set[str] = set()
    try:
        lying = turned(parts, end)
    except LiesTwiceError:
        lying, twice = None, "how the board lies"
    if lying is not None:
        cheek, top, used = lying
        cheeks |= set() if cheek is None else {cheek}
        tops |= set() if top is None else {top}
    blade = ""
    for part in parts:
        names = part.names
        face = names & FACES or face
        cheeks |= {PLAIN[name] for name in names & PLAIN.keys()}
        tops |= {TOPS[name] for name in names & TOPS.keys()}
        if end and names & {"leftnearfoot", "rightnearfoot"}:
            shorter = Hand.LEFT if "leftnearfoot" in names else Hand.RIGHT  # at the head
            cheeks.add(shorter if end > 0 else shorter.other)
        if middle := names & {"middlehead", "middlefoot"}:  # two cheeks: back from their point
            back = ("middlehead" in middle) == ((end < 0) != hollow)
            twice = twice if back else "which way the edge marks run"
        left_ends |= {1} if "leftendhead" in names else set()
        left_ends |= {-1} if "leftendfoot" in names else set()
        for cue in (*part.cues, *part.behind):
            if cue.name == "fromedge":
                arrises |= {"top"} if "top" in cue.text else set()
                arrises |= {"bottom"} if "bottom" in cue.text else set()
        arrises |= {"top"} if "toparris" in names else set()
        arrises |= {"bottom"} if names & {"bottomarris", "bottomedge"} else set()
        for sense in names & {"bladekept", "bladewaste"} if leans else ():
            cheek = _cheek(sense, face)
            if cheek is not None:
                cheeks.add(cheek)
            elif everywhere & {"shoeedge"} and not end:
                continue  # on the edge of a rip the blade runs toward a face, told by the hand
            elif everywhere & {"shoeedge"}:
                tops.add("foot" if (sense == "bladewaste") == (end > 0) else "head")
            else:
                unplaced.append("which way the blade runs, without the face under the shoe")
        blade = next(iter(names & {"bladekept", "bladewaste"}), blade)
        for cue in (*part.cues, *part.behind):
            if cue.name not in SIDES or cue.name in used:
                continue
            if cue.name not in TOWARD or not blade:
                unplaced.append(cue.text)
            elif end and cue.name in ("towardhead", "towardfoot"):
                out = (cue.name == "towardhead") == (end > 0)  # toward the end that is cut off
                twice = twice if out == (blade == "bladewaste") else "which way the blade runs"
            elif not end and cue.name in ("towardtop", "towardbottom"):
                waste = (cue.name == "towardtop") == (blade == "bladewaste")
                arrises |= {"top" if waste else "bottom"}
            else:
                unplaced.append(cue.text)
    twice = twice or next(
        (
            what
            for what, said in (
                ("which way the cheek faces", cheeks),
                ("which way the face mark leans", tops),
                ("which edge", arrises),
                ("which way the edge mark leans", left_ends),
            )
            if len(said) > 1
        ),
        "",
    )
    return Sensed(
        next(iter(cheeks), None),
        next(iter(tops), None),
        next(iter(arrises), None),
        next(iter(left_ends), 0),
        tuple(dict.fromkeys(unplaced)),
        twice,
        bool(everywhere & {"plumb", "level"}),
    )


def _cheek(sense: str, names: set[str]) -> Hand | None:
    faces = names & FACES
    if len(faces) != 1:
        return None
    face = Hand.LEFT if "leftface" in faces else Hand.RIGHT
    return face if sense == "bladewaste" else face.other
