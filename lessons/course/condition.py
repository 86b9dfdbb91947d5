"""When a part of a lesson holds: `when = "equal pitches, square corner"`.

A sentence that is true only in some roofs says in which; elsewhere it is left out. The
conditions are few and fixed, each read from the answer to the lesson's question, and several
with commas between them must all hold.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from layout.answer import senses
from layout.answer.answer import Answer
from layout.answer.answer import answer as answered
from layout.answer.question import Question
from layout.errors import CutError, LayoutError
from layout.tools.saw import reaches

SAME_DEG = 1e-9


def _equal_pitches(answer: Answer) -> bool:
    asked = answer.question
    return abs(asked.pitch.slope_deg - asked.other_pitch.slope_deg) < SAME_DEG


def _square_corner(answer: Answer) -> bool:
    corner_deg = answer.question.corner_deg
    return min(abs(corner_deg - 90), abs(corner_deg - 270)) < SAME_DEG


def _saw_reaches(answer: Answer) -> bool:
    return reaches(float(answer.cut.face_tilt_deg), answer.limits.tilt_deg)


def _one_pass_each(answer: Answer) -> bool:
    return all(senses.way(one) == "face" for one in (answer, *answer.others))


def within_tolerance(answer: Answer) -> bool:
    """Whether both methods, as read on the tools, leave no more than the tolerance."""
    return answer.by_hand.good_enough and answer.by_saw.good_enough


def _exchanged(answer: Answer) -> Answer | None:
    """The same cut in the other roof, whose pitch is then the own one; None without a place."""
    return answer.once("exchanged", lambda: _sought_in_the_other_roof(answer.question))


def _sought_in_the_other_roof(asked: Question) -> Answer | None:
    try:
        return answered(replace(asked, pitch=asked.other_pitch, other_pitch=asked.pitch))
    except CutError:
        return None


def _other_past_the_saw(answer: Answer) -> bool:
    other = _exchanged(answer)
    return other is not None and not reaches(float(other.cut.face_tilt_deg), answer.limits.tilt_deg)


CONDITIONS: dict[str, Callable[[Answer], bool]] = {
    "equal pitches": _equal_pitches,
    "unequal pitches": lambda answer: not _equal_pitches(answer),
    "square corner": _square_corner,
    "other corner": lambda answer: not _square_corner(answer),
    "outside corner": lambda answer: answer.question.corner_deg < 180,
    "inside corner": lambda answer: answer.question.corner_deg > 180,
    "saw reaches": _saw_reaches,
    "past the saw": lambda answer: not _saw_reaches(answer),
    "within reach": senses.joint_within_reach,
    "out of reach": lambda answer: not senses.joint_within_reach(answer),
    "no single pass": lambda answer: senses.way(answer) != "face",
    "one pass": lambda answer: senses.way(answer) == "face",
    "one pass each": _one_pass_each,
    "no single pass each": lambda answer: not _one_pass_each(answer),
    "from both faces": lambda answer: senses.way(answer) == "both faces",
    "blade tilted": lambda answer: answer.hand is not None,
    "blade square": lambda answer: answer.hand is None,
    "notch": senses.is_notch,
    "no notch": lambda answer: not senses.is_notch(answer),
    "two cheeks": lambda answer: len(answer.cuts) > 1 and not senses.is_notch(answer),
    "one plane": lambda answer: len(answer.cuts) == 1,
    "miter saw": lambda answer: senses.miter(answer) is not None,
    "face mark leans": lambda answer: answer.face.lean != 0,
    "face mark square": lambda answer: answer.face.lean == 0 and not answer.is_rip,
    "edge mark leans": lambda answer: answer.edge.lean != 0,
    "edge mark square": lambda answer: answer.edge.lean == 0 and not answer.is_rip,
    "cut in both roofs": lambda answer: _exchanged(answer) is not None,
    "other roof past the saw": _other_past_the_saw,
    "within tolerance": within_tolerance,
    "beyond tolerance": lambda answer: not within_tolerance(answer),
}
"""What each condition asks of an answer."""


class ConditionError(LayoutError):
    """A condition that nothing can decide."""


@dataclass(frozen=True)
class Condition:
    """Conditions that must all hold; with none of them it always holds."""

    names: tuple[str, ...] = ()

    def holds(self, answer: Answer) -> bool:
        """Whether every one of the conditions holds for this answer."""
        return all(_holds(name, answer) for name in self.names)

    def __str__(self) -> str:
        return ", ".join(self.names)


def _holds(name: str, answer: Answer) -> bool:
    """Whether one condition holds, asked of an answer once."""
    return answer.once(("when", name), lambda: CONDITIONS[name](answer))


def all_held(answer: Answer) -> tuple[bool, ...]:
    """Which of all conditions hold for this answer, in their order.

    Answers of one cut and one system for which the same ones hold are told in the same words.
    """
    return tuple(_holds(name, answer) for name in CONDITIONS)


ALWAYS = Condition()


def read_condition(text: str) -> Condition:
    """Read conditions with commas between them; raises ConditionError for one that is unknown.

    >>> read_condition("equal pitches, square corner").names
    ('equal pitches', 'square corner')
    """
    names = tuple(" ".join(part.split()) for part in text.split(","))
    for name in names:
        if name not in CONDITIONS:
            raise ConditionError(
                f"{name!r} is no condition; use one or more of {', '.join(CONDITIONS)}"
            )
    return Condition(names)
