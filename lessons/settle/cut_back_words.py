"""A sawn end read back, in words."""

from layout.answer.sense_words import hand_line
from layout.answer.wording import given_line, on_run
from layout.quantity import write_degrees, write_length, write_metric
from lessons.say.hanging import hanging
from lessons.say.words import CAUTION
from lessons.settle.cut_back import CutBack
from lessons.settle.settle_notes import fits_words, near_words

LEAST_LOSS_IN = 1 / 32
"""A recut that takes less reads as no sixteenth."""
LARGEST_NUMBER = 1000
"""An edge mark of a larger number on 12 is square to any eye."""


def read_aloud(found: list[CutBack], *, decide: str = "--opens-at decides") -> str:
    """The plane that was cut, the tilt that was set, what went wrong, and the way to recut it.

    `decide` says how the user tells which of two planes it is.
    """
    answer = found[0].true_answer
    asked = answer.question
    where = "along the board" if answer.is_rip else asked.end
    lines = [f"{asked.entry.name}, {where}; {given_line(answer)}", hand_line(answer)]
    if len(found) > 1:
        lines.append(f"The gap alone leaves two: too little tilt, or too much. {decide}.")
    for one in found:
        lines += ["", *_one(one)]
    return "\n".join([*lines, "", *CAUTION])


def _one(found: CutBack) -> list[str]:
    lines = _bevel_lines(found) if found.true_answer.is_rip else _end_lines(found)
    answer = found.true_answer
    lines += hanging("AT THE MATE", fits_words(answer, found.judged))
    for index, one in enumerate(found.mistakes):
        near = near_words(one)
        text = f"{one.mistake.name.replace('-', ' ')}{near}: {one.mistake.does} {one.mistake.why}"
        lines += hanging("or" if index else "LOOKS LIKE", text)
    if not found.judged.fits:
        if not found.mistakes:
            lines += hanging("LOOKS LIKE", "none of the mistakes that this program knows")
        words = _rerip_words(found) if answer.is_rip else _recut_words(found)
        lines += hanging("RECUT", words)
    return lines


def _bevel_lines(found: CutBack) -> list[str]:
    answer = found.true_answer
    own = write_degrees(float(answer.cut.face_tilt_deg))
    lines = hanging("BEVEL", f"{write_degrees(found.tilt_deg)} from square to the face")
    lines += hanging("SAW", f"it was tilted {write_degrees(found.tilt_deg)}, shoe on the face")
    return lines + hanging("  right is", f"tilt {own}")


def _rerip_words(found: CutBack) -> str:
    off = write_length(abs(found.recut_in))
    if found.recut_in > 0:
        return f"rip it again from the same line on the edge: it drops {off} more down the face"
    return (
        f"it drops {off} too far down the face: that wood is gone, and the edge has to be lowered"
    )


def _end_lines(found: CutBack) -> list[str]:
    answer, number = found.true_answer, found.edge_number
    edge = f"{write_degrees(found.edge_deg)} from square across"
    if number is not None and number < LARGEST_NUMBER:
        said = on_run(number, metric=answer.metric)
        edge += f", side-cut number {said}"
        edge += "" if answer.metric else f" (exact {number:.3f})"
    lines = hanging("FACE MARK", f"{write_degrees(found.face_deg)} from square across")
    lines += hanging("EDGE MARK", edge)
    lines += hanging("SAW", f"it was tilted {write_degrees(found.tilt_deg)}, shoe on the face")
    own = write_degrees(float(answer.cut.face_tilt_deg))
    return lines + hanging(
        "  right is", f"face {write_degrees(answer.face.from_square_deg)}, tilt {own}"
    )


def _recut_words(found: CutBack) -> str:
    if found.recut_in < LEAST_LOSS_IN:
        return "it can be recut: the right cut starts from the same long point, which loses nothing"
    metric = found.true_answer.metric
    back = write_metric(found.recut_in) if metric else write_length(found.recut_in)
    return (
        f"the right cut, sawn into what is left, takes {back} off the longest point: only where"
        " the stick has that to spare"
    )
