"""`--cut-as`: a stick's end that is cut already, what it was, and what becomes of the stick."""

import re

from layout.answer.answer import Answer
from layout.errors import CutError
from layout.framing.roof import TrainingRoof
from layout.framing.salvage import LEAST_IN, Salvage, salvage
from layout.framing.stick import Stick
from layout.quantity import read_angle, read_length, write_degrees, write_feet, write_length
from lessons.settle.cut_back import CutBack, read_back, read_sawn
from lessons.settle.cut_back_words import read_aloud

TILT = re.compile(r"(?:saw|tilt|saw tilt)\s+(.+)", re.IGNORECASE)
EDGE = re.compile(r"edge\s+(.+)", re.IGNORECASE)
WHERE = 'Say where it opens, "... at the heel" or "... at the long point"'
GAP = re.compile(r"gap\s+(.+?)(?:\s+at\s+the\s+(long point|heel))?", re.IGNORECASE)


def cut_as(true_answer: Answer, said: str) -> list[CutBack]:
    """Read what an end was cut as: `tilt 40`, `edge 8 3/8 on 12`, `gap 3/16 [at the heel]`.

    Raises CutError for words that say none of these.
    """
    text = " ".join(said.split())
    name, _, place = true_answer.question.entry.name.partition(":")
    if place not in ("head", "foot"):
        raise CutError(f"a {place} has no end to read back; ask for {name}:head or {name}:foot")
    if found := TILT.fullmatch(text):
        return read_sawn(true_answer, read_angle(found[1]))
    if found := EDGE.fullmatch(text):
        return read_back(true_answer, edge=found[1])
    if found := GAP.fullmatch(text):
        return read_back(true_answer, gap_in=read_length(found[1]), opens_at=found[2])
    raise CutError(
        f'{said!r} does not say how an end is cut; say "tilt 40", "edge 8 3/8 on 12" or'
        ' "gap 3/16 at the heel"'
    )


def told(roof: TrainingRoof, stick: Stick, found: list[CutBack]) -> str:
    """The end read back, and for each reading what becomes of the stick."""
    lines = [read_aloud(found, decide=WHERE), ""]
    for one in found:
        if len(found) > 1:
            lines.append(f"If the saw was tilted {write_degrees(one.tilt_deg)}:")
        lines += _what_now(salvage(roof, stick, one.recut_in), fits=one.judged.fits)
    return "\n".join(lines)


def _what_now(left: Salvage, *, fits: bool) -> list[str]:
    name = left.stick.name
    if fits:
        return [f"{name}: it fits as it is cut; leave it."]
    if left.lost_in < LEAST_IN:
        return [f"{name}: recut it from the same long point. No length is lost."]
    lost = write_length(left.lost_in)
    lines = [f"{name}: the recut end lies {lost} farther in: too short for its place as it is."]
    if left.same_board:
        lines.append(
            f"  Its other end not cut yet: move the whole stick {lost} along its board, which has"
            f" {write_feet(left.left_in)} left over."
        )
    if left.shorter is not None:
        piece, other = left.shorter
        lines.append(
            f"  Else it fits piece {piece} ({other.name}): the same ends, board"
            f" {write_feet(other.blank_in)} in place of {write_feet(left.stick.blank_in)}."
        )
    elif not left.same_board:
        lines.append("  No shorter piece of the cut list has the same ends: the stick is scrap.")
    return lines
