"""The same layout once more on another roof, its steps left open: between worked and alone.

A learner who has followed the steps writes in what each of them comes to for another pitch, before
there is nothing but a bare board (fading: a step more is left out each time).
"""

import re
from collections.abc import Iterator
from dataclasses import replace

from layout.answer.answer import Answer, answer
from layout.answer.wording import METRIC_RUN
from layout.errors import LayoutError
from layout.length.run_length import UNIT_RUN_IN
from layout.quantity import Pitch, read_pitch
from lessons.course.laid_out import LaidLine, right_lines
from lessons.course.named_text import read_named_text
from lessons.say.blocks import ProblemBlock
from lessons.say.units import System

FOR = "The same steps for {pitches}"
WRITE_IN = " on {stock}. Write in what is left open."
BECAUSE = "Each is found as in the steps above, for this roof."
OPEN = "_" * 8
STEP_UP, STEEPEST, STEP_DOWN = 2.0, 12.0, 3.0
"""The other roof is steeper by so much in 12; past the steepest, flatter by so much."""
_NUMBER = r"(?<![\w/])\d+(?:\.\d+)?(?: \d+/\d+|/\d+)?(?: (?:shy|strong))?(?:°| in\b| mm\b)?"
_LEFT_OPEN = re.compile(
    rf"{_NUMBER}|square across(?=\.)|(?<=marked along the )(?:blade|tongue)"
    r"|(?<=toward the )(?:head|foot|top edge|bottom edge|right|left)"
    r"|(?<=under the )(?:kept wood|waste)"
    r"|(?<=across the )(?:top|bottom)|(?<=down the )(?:right|left)|(?<=low at the )(?:right|left)"
)


def open_steps(true_answer: Answer, system: System) -> ProblemBlock | None:
    """The layout of the same cut at another pitch, with blanks for its numbers and directions.

    None for a stick of a roof, whose pitch is given, and where the other roof cannot be framed.
    """
    key = "open steps", system
    return true_answer.once(key, lambda: _left_open_steps(true_answer, system))


def _left_open_steps(true_answer: Answer, system: System) -> ProblemBlock | None:
    other = at_another_pitch(true_answer)
    if other is None:
        return None
    lines = right_lines(other, system)
    asked = "".join((FOR, *_more(other), WRITE_IN))
    return ProblemBlock(
        read_named_text(asked, __name__).fill(other, system),
        " ".join(f"{line.letter}: {line.text}" for line in lines),
        BECAUSE,
        layout=tuple(f"{line.letter}  {left_open(line, system)}" for line in lines),
    )


def _more(other: Answer) -> Iterator[str]:
    """What must be known besides the pitch: a corner that is not square, and the hand."""
    if other.question.entry.meets != "nothing" and abs(other.question.corner_deg % 180 - 90) > 1e-6:
        yield ", {corner}"
    if other.hand is not None:
        yield ", a {hand}-hand rip" if other.is_rip else ", a {hand}-hand cut"


def left_open(line: LaidLine, system: System) -> str:
    """A line with a blank for each number but the run of a common, each arm, side and direction."""
    run = f"{METRIC_RUN if system.is_metric else UNIT_RUN_IN:g}"
    return _LEFT_OPEN.sub(lambda found: run if found[0] == run else OPEN, line.text)


def at_another_pitch(true_answer: Answer) -> Answer | None:
    """The same cut at a pitch nearby; the other roof keeps to it where both have one pitch."""
    question = true_answer.question
    if question.stands is not None:
        return None
    alike = question.other_pitch.slope_deg == question.pitch.slope_deg
    for pitch in _pitches(question.pitch):
        other = pitch if alike else question.other_pitch
        if not alike and pitch.slope_deg == other.slope_deg:
            continue
        try:
            asked = replace(question, pitch=pitch, other_pitch=other)
            return replace(
                answer(
                    asked,
                    tolerance_in=true_answer.tolerance_in,
                    limits=true_answer.limits,
                    square_parts=true_answer.square_parts,
                ),
                plane_index=true_answer.plane_index,
            )
        except LayoutError:
            continue
    return None


def _pitches(own: Pitch) -> Iterator[Pitch]:
    """Pitches near this one, the likeliest first."""
    rise = round(own.rise_in_12)
    steps = (STEP_UP, -STEP_DOWN) if rise + STEP_UP <= STEEPEST else (-STEP_DOWN, STEP_UP)
    for step in steps:
        if rise + step >= 2:
            yield read_pitch(f"{rise + step:g} in 12")
