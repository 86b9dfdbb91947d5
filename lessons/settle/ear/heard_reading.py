"""From what the parts of a claim come to, put together, to the claims that it can be."""

from dataclasses import dataclass, replace

from layout.cuts import End, Hand
from layout.tools.setting import RipByHand
from lessons.settle.claim import SQUARE, Claim, ClaimedLine, ClaimError
from lessons.settle.ear.claimed_lean import Sensed
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.part_meanings import THROUGH
from lessons.settle.ear.single import UnreadError

SIDE = (
    "Which side is that? Say left-hand cut or right-hand cut, or on which face the shoe rides and"
    " whether the blade below it runs in under the waste or under the kept wood."
)


LIES = "Does the board lie flat on the table, or stand on its edge against the fence?"


RIDES = "Does the shoe ride the face or the edge?"


@dataclass(frozen=True)
class Reading:
    """One way to understand a claim.

    `claims` must all hold: a mark on the edge and a tilt said together are two. `otherwise` are
    other ways to complete it, which only `question` can tell apart; `notes` say where a value
    comes from that was not said as a number. `unplaced` are words of a side that can be taken two
    ways: the claim and `otherwise` are both of them.
    """

    claims: tuple[Claim, ...]
    otherwise: tuple[Claim, ...] = ()
    question: str = ""
    notes: tuple[str, ...] = ()
    unplaced: tuple[str, ...] = ()


def reading_of(draft: Draft, sense: Sensed, footing: Footing) -> Reading:
    """The claims of one reading, with every side that it can be meant for where one is unplaced."""
    reading = _said(draft, sense, footing)
    if not reading.unplaced:
        return reading
    lead = reading.claims[0]
    turned = [replace(lead, cheek=_side(lead.cheek, footing).other)]
    if lead.face is not None and lead.face != SQUARE:
        top = _end(lead.top, footing)
        turned += [replace(one, top=top) for one in (lead, *turned)]
    return replace(reading, otherwise=(*reading.otherwise, *turned), question=SIDE)


def _side(said: Hand | None, footing: Footing) -> Hand:
    return said or footing.true_answer.hand or Hand.LEFT


def _end(said: End | None, footing: Footing) -> End:
    """The other end than the one to which the face mark's top leans as it stands."""
    return "foot" if (said or footing.top) == "head" else "head"


def _said(draft: Draft, sense: Sensed, footing: Footing) -> Reading:
    lean: dict[str, object] = {
        "cheek": sense.cheek or draft.cheek,
        "top": sense.top or draft.top,
        "arris": sense.arris or draft.arris,
    }
    if sense.cheek is None and sense.left_end:
        lean["cheek"] = Hand.LEFT if sense.left_end == -footing.end else Hand.RIGHT
    notes, unplaced = draft.notes, sense.unplaced
    if footing.true_answer.is_rip or draft.rip:
        return Reading(_rip(draft, lean, footing), notes=notes, unplaced=unplaced)
    lean.pop("arris")
    if draft.turn is not None or (draft.miter and draft.lay is not None):
        return _on_table(draft, lean, notes, unplaced)
    face = _leaning(draft.face, draft.top, sense)
    edge = draft.edge
    if edge == SQUARE and THROUGH in notes:  # of the saw where one is spoken of, else of the edge
        notes = tuple(note for note in notes if note != THROUGH)
        if draft.tilt_deg:
            raise UnreadError("square through", "the saw is tilted, so it does not cut square")
        edge = None if draft.tilt_deg == 0 else edge
    if face == SQUARE and edge is None and draft.tilt_deg is None and "square" in notes:
        edge = SQUARE
    onedge = draft.shoe == "edge" or (draft.lay == "edge" and draft.tilt_deg is not None)
    if draft.tilt_deg is None:
        return Reading((_claim(face=face, edge=edge, **lean),), notes=notes, unplaced=unplaced)
    if onedge:
        sawn = _claim(edge=edge, tilt_deg=draft.tilt_deg, shoe="edge", **lean)
        also = () if face is None else (_claim(face=face, **lean),)
        return Reading((sawn, *also), notes=notes, unplaced=unplaced)
    sawn = _claim(face=face, tilt_deg=draft.tilt_deg, **lean)
    if edge is not None:
        return Reading((sawn, _claim(face=face, edge=edge, **lean)), (), "", notes, unplaced)
    if face is None and draft.shoe is None and draft.tilt_deg > 0 and not draft.miter:
        lean.pop("top")
        other = _claim(tilt_deg=draft.tilt_deg, shoe="edge", **lean)
        return Reading((sawn,), (other,), RIDES, notes, unplaced)
    return Reading((sawn,), notes=notes, unplaced=unplaced)


def _leaning(face: ClaimedLine | None, top: End | None, sense: Sensed) -> ClaimedLine | None:
    """The line on the face, which is no plumb or level one where it is said to lean otherwise."""
    if face is None or sense.top is None or top in (None, sense.top):
        return face
    if sense.named:
        raise UnreadError("top", "a plumb line's top leans to the head, a level one's to the foot")
    return ClaimedLine("numbers", *face.legs) if face.kind in ("plumb", "level") else face


def _on_table(
    draft: Draft, lean: dict[str, object], notes: tuple[str, ...], unplaced: tuple[str, ...]
) -> Reading:
    """A miter saw's setting; where nobody says how the board lies it lies flat."""
    turn, tilt = draft.turn, draft.tilt_deg
    if draft.shoe == "edge" or draft.lay == "edge":
        turn = turn or draft.edge
        if tilt is None:
            return Reading((_claim(edge=turn, **lean),), (), "", notes, unplaced)
        return Reading((_claim(edge=turn, tilt_deg=tilt, shoe="edge", **lean),), (), "", notes,
                       unplaced)  # fmt: skip
    turn = turn or draft.face
    if tilt is None:
        return Reading((_claim(face=turn, **lean),), (), "", notes, unplaced)
    table = turn is not None
    flat = _claim(face=turn, tilt_deg=tilt, table=table, **lean)
    if draft.lay == "flat" or turn is None:
        return Reading((flat,), (), "", notes, unplaced)
    on_edge = _claim(edge=turn, tilt_deg=tilt, shoe="edge", cheek=lean.get("cheek"))
    return Reading((flat,), (on_edge,), LIES, notes, unplaced)


def _rip(draft: Draft, lean: dict[str, object], footing: Footing) -> tuple[Claim, ...]:
    side = {"cheek": lean["cheek"], "arris": lean["arris"]}
    across, drop = draft.across_in, draft.drop_in
    if draft.face or draft.edge or draft.turn:
        raise ClaimError(
            f"{footing.true_answer.question.entry.name} is a rip along the board; say"
            " gauge 3/4 drop 5/16, or rip, saw 22 1/2"
            if footing.true_answer.is_rip
            else "a rip has no mark across the board; say gauge 3/4 drop 5/16"
        )
    tilt = draft.tilt_deg
    if tilt is not None and (draft.shoe == "edge" or draft.lay == "edge"):
        tilt = 90.0 - tilt  # along the board, a tilt from the edge is the rest of one from the face
    if across is None and drop is None:
        return (_claim(rip=True, tilt_deg=tilt, **side),)
    if drop is None:
        raise ClaimError("how far does the bevel drop? say gauge 3/4 drop 5/16")
    if across is None:
        gauges = footing.true_answer.hand_setting(as_read=False)
        across = round(gauges.across_in, 9) if isinstance(gauges, RipByHand) else None
    if across is None:
        raise ClaimError("across what breadth? say gauge 3/4 drop 5/16")
    gauged = _claim(rip=True, gauge_in=(across, drop), **side)
    if tilt is None:
        return (gauged,)
    return gauged, _claim(rip=True, tilt_deg=tilt, **side)


def _claim(**said: object) -> Claim:
    return Claim(**said)  # type: ignore[arg-type]
