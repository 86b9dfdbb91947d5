"""Every word answered for: which words of the trade took no part in what was read.

A word that is heard and not used is the way to a misreading: it may have turned the sense. So what
a reading comes to answers for the words that can have led to it, and for no others; one word left
over makes the claim refused, with that word quoted.
"""

from collections.abc import Iterator, Sequence

from lessons.settle.claim import SQUARE, Claim
from lessons.settle.ear.claimed_lean import SIDES
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_measure import HeardMeasure, Item, is_cue
from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.lying import AT_SAW, FLAT, LEANS, ONEDGE, TURNS
from lessons.settle.ear.number_sources import AS_COMMON
from lessons.settle.ear.part_meanings import ASIDE, THROUGH
from lessons.settle.ear.trade_tokens import Token

JOINING = {"and", "then", "on", "in", "over", "always", "never", "rafter", "roof", "corner",
           "degrees", "atright", "bothends", *SIDES}  # fmt: skip
"""Words that join, or that something else answers for: rules, and sides that are asked about."""
MARKED = {"face", "tool", "markalong", "fromsquare", "slidingbevel", "offedge", "ahead",
          "aheadhalf", "overdepth", "leftface", "rightface", "rise", "run", "armside"}  # fmt: skip
RIPPED = {"rip", "gauge", "drop", "fromface", "fromedge", "edge", "face", "top", "bottom",
          "bottomedge", "toparris", "bottomarris", "leftface", "rightface", "sidecut", "onedge",
          "shoeface", "shoeedge", "run", "bevel"}  # fmt: skip
SAWN = {"saw", "tilt", "bevel", "blade", "shoe", "mitersaw", "fromsquare", "leftface", "rightface",
        "run"}  # fmt: skip
MATES = {"tohip": "hip", "tovalley": "valley", "toridge": "ridge"}
CHOOSING = ("+", "/")
"""Signs that leave a choice, or make a sum."""
PARTS = {"heel": "heel", "seat": "seat", "birdsmouth": "seat", "ridge": "ridge", "nose": "ridge",
         "backing": "rip", "tail": "tail"}  # fmt: skip
"""Words for a part of a rafter, and what a cut that makes it has in its description."""


def left_over(
    items: Sequence[Item], claims: Sequence[Claim], draft: Draft, footing: Footing
) -> Iterator[tuple[str, str]]:
    """Each word that took no part, and what is wrong with it."""
    allowed = JOINING | set(_answered(claims, draft, footing))
    if draft.shoe == "face" and any(is_cue(item, "shoe") for item in items):
        allowed |= {"face"}  # the shoe rides it; of the saw alone it says no more than a mark's
    if any(is_cue(item, "ahead") for item in items) and any(claim.edge for claim in claims):
        allowed |= {"longpoint", "shortpoint"}
    for at, item in enumerate(items):
        if not isinstance(item, Token):
            continue
        if item.kind == "mark" and item.text in CHOOSING:
            yield item.text, "it leaves a choice or a sum; say one thing"
        if item.kind != "cue":
            continue
        if item.name in ("blade", "bladearm", "tongue") and _own_arm(items, at, claims):
            continue
        if item.name in allowed or lexicon().group[item.name] == "stick":
            continue
        if item.text in ("along the", "line on the") or (item.text == "slope" and claims[0].rip):
            continue
        if item.name == "square" and _names_the_tool(items, at):
            continue
        yield item.text, "it takes no part in what I understood; leave it out, or say it so"


def may_be_left_out(word: str) -> bool:
    """Whether a claim may be asked about without a word that took no part in it.

    Not without one that says what a number is, of which mark, or how long something is.
    """
    known = lexicon()
    named = known.group.get(known.phrases.get(tuple(word.split()), ""), "")
    return word not in CHOOSING and named not in ("mark", "saw", "miter", "length", "rip")


def elsewhere(cue: Token, footing: Footing) -> str:
    """Why a word speaks of another stick, part or end than this cut's; empty where it does not."""
    asked = footing.true_answer.question
    name, says = asked.entry.name, asked.entry.says
    about = f"this is about {name} at the {asked.end}"
    if cue.name in ("head", "foot") and cue.name != asked.end and not footing.true_answer.is_rip:
        return f"it is the other end; {about}"
    part = next((PARTS[word] for word in cue.text.split() if word in PARTS), "")
    if part and lexicon().group[cue.name] in ("mark", "rip"):
        return "" if part in says else f"it names another part; {about}"
    if lexicon().group[cue.name] != "stick" or cue.name in ("rafter", "roof", "corner"):
        return ""
    if cue.name == "octagon":
        return "" if abs(asked.corner_deg - 135) < 1 else "this corner is no octagon's"
    if cue.name in MATES:
        return "" if MATES[cue.name] in says else f"nothing meets that here; {about}"
    own = {asked.entry.family, *_first_stick(says), *name.split("-")[:1]}
    own |= {"hipjack"} if name == "hip-jack" else {"valleyjack"} if name == "valley-jack" else set()
    own |= {"cripple", "jack"} if name == "cripple-jack" else set()
    own |= {"jack", "valleyjack"} if name == "deck-valley-jack" else set()
    own -= {"hip", "valley"} if asked.entry.family == "jack" else set()
    own |= {"sheathing"} if name == "roof-board" else set()
    return "" if cue.name in own else f"it names another stick; {about}"


def _first_stick(says: str) -> Iterator[str]:
    words = says.replace("'s", "").replace(",", "").replace(":", "").split()
    group = lexicon().group
    yield from [word for word in words if group.get(word) == "stick"][:1]


def _own_arm(items: Sequence[Item], at: int, claims: Sequence[Claim]) -> bool:
    """`the seat, along the blade`: a level line runs along the run's arm, a plumb one the other."""
    arm = items[at]
    before = [item for item in items[:at] if isinstance(item, Token) and item.kind == "cue"]
    if not before or before[-1].name != "markalong" or not isinstance(arm, Token):
        return False
    if any(isinstance(one, HeardMeasure) and one.unarmed for one in items[:at]):
        return True  # which number lies on that arm is asked
    tops = {claim.top for claim in claims if claim.face is not None}
    return tops == ({"head"} if arm.name == "tongue" else {"foot"})


def _names_the_tool(items: Sequence[Item], at: int) -> bool:
    """`square 10 on the blade, ...`: the word is the tool's before what is laid on it."""
    for item in items[at + 1 :]:
        if isinstance(item, HeardMeasure):
            return item.kind == "pair"
        if item.kind != "passed" and item.text not in (":", "on"):
            return False
    return False


def _answered(claims: Sequence[Claim], draft: Draft, footing: Footing) -> Iterator[str]:
    """What the words of a reading can have been."""
    said = " ".join(draft.notes)
    faces = [claim.face for claim in claims if claim.face is not None]
    edges = [claim.edge for claim in claims if claim.edge is not None]
    tilts = [claim.tilt_deg for claim in claims if claim.tilt_deg is not None]
    if claims[0].rip:
        yield from RIPPED
    if faces:
        yield from MARKED
        yield from _sloped(claims, footing)
    if edges:
        yield from ("middlehead", "middlefoot") if footing.true_answer.others else ()
        yield from MARKED - {"face"}
        yield from ("edge", "top", "bottomedge", "sidecut", "sidenumber", "bevel")
    if tilts:
        yield from SAWN
        yield from ("sidecut",) if footing.true_answer.hand is not None else ()
        yield from ("shoeface",) if any(claim.shoe == "face" for claim in claims) else ()
    if any(claim.shoe == "edge" for claim in claims):
        yield from ("shoeedge", "edge", "top", "bottomedge", "sidecut")
    if 0.0 in tilts:
        yield from ("plumbblade", "square")
    if THROUGH in said and (SQUARE in edges or 0.0 in tilts):
        yield "squarethrough"
    if SQUARE in (*faces, *edges, draft.turn):
        yield "square"
    if draft.turn is not None or (draft.miter and draft.lay is not None):
        yield from ("table", "mitersaw", *AT_SAW)
    if draft.lay is not None and (draft.turn is not None or tilts):
        yield from (*(FLAT if draft.lay == "flat" else ONEDGE), *AT_SAW)
    for claim in claims:
        if claim.cheek is not None:
            yield from ("lefthand", "righthand", "leftendhead", "leftendfoot", "bladekept",
                        "bladewaste", "leftnearfoot", "rightnearfoot")  # fmt: skip
        if claim.top is not None:
            yield from ("tophead", "topfoot", "bladekept", "bladewaste")
    if ASIDE in said:
        yield from ("plumb", "level", "fromsquare")
    if not any(tilts):
        yield from ("bladekept", "bladewaste")
    yield from ("pitch",) if "pitch" in said or faces else ()
    for name, words in (
        ("otherpitch", "other roof's pitch"),
        ("sidenumber", "side-cut number"),
        ("halfcorner", "half the corner"),
        ("halfpitch", "half the pitch"),
        ("edgeangle", "edge mark's angle"),
        ("hiprun", "on a run of"),
        ("hip", "on a run of"),
        ("ascommon", AS_COMMON),
    ):
        if words in said:
            yield name
    yield from (*TURNS, *LEANS, "head", "foot")


def _sloped(claims: Sequence[Claim], footing: Footing) -> Iterator[str]:
    """A plumb line's top leans to the head, a level one's to the foot."""
    yield from (claim.face.kind for claim in claims if claim.face is not None)
    tops = {claim.top for claim in claims}
    if not footing.slopes or "head" in tops:
        yield "plumb"
    if not footing.slopes or "foot" in tops:
        yield "level"
