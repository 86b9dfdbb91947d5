"""A problem to be answered: a lesson's drill put for one roof and one board.

A value is read from the lesson's own answer, the wrong ones from the planes that the known
mistakes cut on this very board. A problem that cannot be judged fairly is refused with the
reason: one whose right and wrong answers lie too near each other, or that no square, saw or
board can carry.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import isfinite
from typing import Literal

from layout.answer.answer import Answer
from layout.answer.sense_words import leaning
from layout.answer.wording import board_words, corner_words, pitch_words
from layout.errors import LayoutError
from layout.quantity import nearest, write_degrees
from layout.tools.saw import SawLimits, reaches
from layout.tools.square import BLADE_IN, SMALLEST_IN
from lessons.course.laid_out import LaidOut, disputed, laid_out
from lessons.course.lesson import Drill, Lesson
from lessons.course.named_text import read_name
from lessons.course.runner import asked
from lessons.course.wrong_answers import Wrong, made_here, paired_answers, wrong_answers
from lessons.say.units import System, ValueKind, written
from lessons.values.all_values import values

TOLERANCE: Mapping[ValueKind, float] = {"length": 1 / 16, "number": 1 / 16, "angle": 0.5}
"""How far off an answer may be and still be right [inches, inches, degrees]."""
GAP_TOLERANCE_IN = 1 / 32
CLEAR = 1.5
"""A mistake's answer lies farther than so many tolerances from the right one: read to the nearest
sixteenth, or half degree, it is still wrong."""
NEAR_SIXTEENTH_IN = 1 / 64
"""A value farther from a sixteenth than this is awkward to read off a square."""
LONGEST_CUT_IN = 30.0
"""A cut that runs farther along the board is not laid out in a drill."""
SEEN_PRICE_IN = 1 / 16
"""A fault that costs less is not worth looking for."""
LEAST_MEASURED_IN = 0.5
Measure = Literal["face", "edge", "drop"]
"""What is measured on a finished mark: how far the face mark or the edge mark runs along the
board, or how far a bevel along the board drops."""
MEASURED = {"face": "runs_down_face", "edge": "longer_by", "drop": "gauge_drop"}


class AwkwardError(LayoutError):
    """A problem that would not be fair; the text says why."""


@dataclass(frozen=True)
class Sought:
    """The value that answers a problem: as read, its unit, and the tolerance told beforehand.

    `pairs` are what two mistakes made at once come to. `sense` is the end, or the face, toward
    which a mark slants; empty where none is asked for.
    """

    name: str
    kind: ValueKind
    unit: str
    value: float | str
    tolerance: float
    wrongs: tuple[Wrong, ...]
    arguments: tuple[str, ...] = ()
    pairs: tuple[Wrong, ...] = ()
    sense: str = ""

    @property
    def named(self) -> str:
        """The value as a lesson names it, with its arguments."""
        return f"{self.name}({', '.join(self.arguments)})" if self.arguments else self.name

    def written(self, value: float | str, system: System) -> str:
        """A value of this kind as it is written in lessons."""
        return written(value, self.unit, system)


@dataclass(frozen=True)
class Problem:
    """A drill put for one roof and one board: what is asked, and what answers it.

    `sought` is the value asked for, `layout` the faulty layout of a find-error problem, or
    the claims of a dispute; the other is None. `measure` says what is measured on a full-size mark.
    """

    lesson: Lesson
    drill: Drill
    place: int
    given: Mapping[str, str]
    system: System
    true_answer: Answer
    sought: Sought | None = None
    layout: LaidOut | None = None
    measure: Measure | None = None

    @property
    def ask(self) -> str:
        """The drill's question for this roof and board."""
        return self.drill.ask.fill(self.true_answer, self.system)

    @property
    def because(self) -> str:
        """Why the answer is what it is.

        A layout with another fault than the drill's own is explained by that mistake.
        """
        if self.layout and self.layout.made.mistake.name != self.drill.mistake:
            return self.layout.made.mistake.why
        because = self.drill.because.fill(self.true_answer, self.system)
        return f"{because} {_run_words(self)}" if self.measure else because

    @property
    def hints(self) -> tuple[str, ...]:
        """The drill's hints, in the order in which they are given."""
        return tuple(hint.fill(self.true_answer, self.system) for hint in self.drill.hints)

    @property
    def answer_text(self) -> str:
        """The right answer, written out."""
        if self.layout is not None:
            return " and ".join(sorted(self.layout.faulty))
        assert self.sought is not None
        written = self.sought.written(self.sought.value, self.system)
        return f"{written} {self.sought.sense}".rstrip()

    @property
    def key(self) -> tuple[object, ...]:
        """What tells this problem from every other of the course."""
        fault = self.layout.made.mistake.name if self.layout else None
        return (self.lesson.name, self.place, tuple(sorted(self.given.items())), fault)


def given_words(true_answer: Answer, system: System = System.INCH) -> str:
    """The roof and board of a problem in one line; nothing in it answers anything."""
    question, metric = true_answer.question, system.is_metric
    parts = [
        f"{question.entry.name}, {question.end}",
        f"pitch {pitch_words(question.pitch, metric=metric)}",
    ]
    if question.other_pitch.slope_deg != question.pitch.slope_deg:
        parts.append(f"other roof {pitch_words(question.other_pitch, metric=metric)}")
    if question.entry.meets != "nothing":
        parts.append(corner_words(question.corner_deg))
    if question.roll_deg:
        parts.append(f"board rolled {question.roll_deg:g}°")
    if true_answer.hand is not None:
        parts.append(f"{true_answer.hand.value} hand")
    parts.append(f"board {board_words(question.stock, metric=metric)}")
    return "; ".join(parts)


def put(
    lesson: Lesson,
    place: int,
    given: Mapping[str, str],
    system: System = System.INCH,
    *,
    fault: str | None = None,
    measure: Measure | None = None,
    limits: SawLimits | None = None,
) -> Problem:
    """Put the lesson's drill at `place` for a roof and a board, and a saw with these limits.

    `fault` names the mistake in a faulty layout or claim, the drill's own if none is named;
    `measure` what is measured on a mark. Raises AwkwardError where the problem would not be fair,
    LayoutError where the roof cannot be framed.
    """
    drill = lesson.drills[place]
    true_answer = asked(lesson, given, limits=limits)
    if not drill.when.holds(true_answer):
        raise AwkwardError(f"this is only asked where: {drill.when}")
    _check_size(lesson, true_answer)
    problem = Problem(lesson, drill, place, given, system, true_answer)
    if drill.mistake is not None:
        layout = _layout(problem, fault or drill.mistake)
        return replace(problem, layout=layout)
    if drill.kind == "mark":
        seen = measure or measures(true_answer)[0]
        sought = _sought(true_answer, MEASURED[seen], (), "in")
        return replace(
            problem, sought=replace(sought, sense=mark_sense(true_answer, seen)), measure=seen
        )
    name, arguments, unit = read_name(str(drill.answer))
    sought = _sought(true_answer, name, arguments, unit)
    _check_tilt(lesson, true_answer, name)
    return replace(problem, sought=sought)


def measures(true_answer: Answer) -> tuple[Measure, ...]:
    """What can be measured on the finished mark. Raises AwkwardError where nothing can."""
    if true_answer.is_rip:
        return ("drop",)
    runs: dict[Measure, float] = {
        "edge": true_answer.long_minus_short_in,
        "face": true_answer.runs_down_face_in,
    }
    found = tuple(name for name, run_in in runs.items() if run_in >= LEAST_MEASURED_IN)
    if not found:
        raise AwkwardError(
            "neither mark runs half an inch along the board, so none can be measured"
        )
    return found


def _sought(true_answer: Answer, name: str, arguments: tuple[str, ...], unit: str) -> Sought:
    known = values()[name]
    value = known.read(true_answer, *arguments)
    if not isinstance(value, float | str):
        raise AwkwardError(f"{name} is given, so it is nothing to ask for")
    tolerance = GAP_TOLERANCE_IN if unit == "gap" else TOLERANCE.get(known.kind, 0.0)
    wrongs = wrong_answers(true_answer, name, arguments)
    pairs = paired_answers(wrongs, value, known.kind)
    sought = Sought(name, known.kind, unit, value, tolerance, wrongs, arguments, pairs)
    _check_value(sought)
    return sought


def mark_sense(true_answer: Answer, measure: Measure) -> str:
    """The end toward which a mark slants, or the face on which a bevel drops."""
    if measure == "drop":
        return str(values()["gauge_face"].read(true_answer))
    return leaning(true_answer.face if measure == "face" else true_answer.edge)


def _layout(problem: Problem, fault: str) -> LaidOut:
    lesson, true_answer, system = problem.lesson, problem.true_answer, problem.system
    made = next((one for one in made_here(true_answer) if one.mistake.name == fault), None)
    if made is None:
        raise AwkwardError(f"the mistake {fault!r} cannot be made here, or costs nothing")
    if problem.drill.kind == "dispute":
        layout = disputed(true_answer, made, system)
    else:
        layout = laid_out(true_answer, made, system, miter=lesson.taught_miter)
    if not layout.faulty:
        raise AwkwardError(f"the mistake {fault!r} does not show in what is read off the tools")
    if layout.made.price_in < SEEN_PRICE_IN:
        raise AwkwardError(f"the mistake {fault!r} costs less than 1/16 in here")
    return layout


def _check_value(sought: Sought) -> None:
    """Refuse a value no tool carries, and wrong answers that cannot be told from the right one."""
    value = sought.value
    if isinstance(value, str):
        return
    if not isfinite(value):
        raise AwkwardError(f"{sought.name} has no value here")
    if sought.kind == "number" and not SMALLEST_IN <= value <= BLADE_IN:
        raise AwkwardError(f"{sought.name} lies off the square")
    for wrong in sought.wrongs:
        if abs(float(wrong.value) - value) <= CLEAR * sought.tolerance:
            raise AwkwardError(
                f"{wrong.name} gives nearly the right {sought.name}, so it cannot be told"
            )


def off_sixteenth_in(sought: Sought | None) -> float:
    """How far a number or length lies from the nearest sixteenth [inches]; 0 for all else."""
    if sought is None or isinstance(sought.value, str) or sought.kind == "angle":
        return 0.0
    if sought.unit in ("gap", "decimal"):
        return 0.0
    return abs(sought.value - nearest(sought.value, 16))


def _run_words(problem: Problem) -> str:
    """Where a measured run comes from: the width that the mark crosses, and its angle."""
    right, system = problem.true_answer, problem.system
    stock, sought = right.question.stock, problem.sought
    assert sought is not None
    run = sought.written(sought.value, system)
    if problem.measure == "drop":
        return f"The bevel drops {run} on the face."
    surface, width_in, mark = (
        ("edge", stock.thickness_in, right.edge)
        if problem.measure == "edge"
        else ("face", stock.depth_in, right.face)
    )
    width = written(width_in, "in", system)
    angle = write_degrees(mark.from_square_deg)
    return (
        f"Across {width} of {surface}, at {angle} from square, a mark runs {run} along the board."
    )


def _check_size(lesson: Lesson, true_answer: Answer) -> None:
    if true_answer.is_rip:
        return
    if true_answer.runs_down_face_in + true_answer.long_minus_short_in > LONGEST_CUT_IN:
        own = asked(lesson)
        if own.runs_down_face_in + own.long_minus_short_in <= LONGEST_CUT_IN:
            raise AwkwardError(f"the cut runs more than {LONGEST_CUT_IN:g} in along the board")


def _check_tilt(lesson: Lesson, true_answer: Answer, name: str) -> None:
    """Refuse a tilt past the saw, unless the lesson itself is about such a tilt."""
    if name not in ("tilt", "edge_tilt"):
        return
    limit = true_answer.limits.tilt_deg
    tilt, own = (
        float(one.cut.face_tilt_deg if name == "tilt" else one.cut.edge_tilt_deg)
        for one in (true_answer, asked(lesson))
    )
    if not reaches(tilt, limit) and reaches(own, limit):
        raise AwkwardError(f"a tilt of {tilt:.1f}° lies past a common saw")
