"""Sheets for a class: every sheet the same kinds of problems, with other numbers.

Sheets are drawn one after another from one seed, so a sheet's number and the seed lead to the
sheet and its key again, however many sheets there were.
"""

import shlex
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random

from layout.answer.wording import METRIC_RUN, board_words, pitch_words
from layout.errors import LayoutError
from layout.quantity import MM_PER_INCH
from layout.tools.saw import SawLimits
from lessons.course.lesson import DrillKind, Lesson, LessonError
from lessons.course.wrong_answers import Wrong
from lessons.drill.dealer import Deck
from lessons.drill.grading import FULL_RUN, told_tolerance
from lessons.drill.problem import Problem, Sought, measures, put
from lessons.drill.problem_words import layout_price
from lessons.drill.sheet_plan import planned
from lessons.say.units import System, write_gap_limit
from lessons.say.version import version

MOST_SHEETS = 500
FAULT_TRIES = 3
"""Faulty layouts of which one is taken, so that no line is the faulty one too often."""
USUAL_PROBLEMS = 4
AGAIN = "again.pdf"
"""The file of a command that is printed on a sheet: another than what holds the whole class."""


@dataclass(frozen=True)
class Series:
    """What all sheets of a class share; a sheet is made again from this and its number.

    `named` are the lessons as the command named them, none for the whole course. Where there are
    `learners`, each sheet bears a name, and other lessons than the one before it; `roll` is the
    file of their names, as the command named it.
    """

    lessons: tuple[Lesson, ...]
    named: tuple[str, ...]
    seed: int
    problems: int = USUAL_PROBLEMS
    kind: DrillKind | None = None
    system: System = System.INCH
    catalog: str = ""
    learners: tuple[str, ...] = ()
    limits: SawLimits = field(default_factory=SawLimits)
    job: str = ""
    roll: str = ""

    @property
    def command(self) -> str:
        """The command that draws these sheets again, before it says how many and where to.

        What is usual is left unsaid, but not beside a job, whose file may say otherwise.
        """
        words = ["squaresaw", "worksheet", *self.named, "--seed", str(self.seed)]
        if self.problems != USUAL_PROBLEMS:
            words += ["--problems", str(self.problems)]
        if self.kind is not None:
            words += ["--kind", self.kind]
        if self.job or self.system is not System.INCH:
            words += ["--units", self.system.value]
        words += self._saw_words()
        if self.roll:
            words += ["--class", self.roll]
        if self.catalog:
            words += ["--catalog", self.catalog]
        if self.job:
            words += ["--job", self.job]
        return shlex.join(words)

    def _saw_words(self) -> list[str]:
        """The options of a saw that is not the common one."""
        usual, words = SawLimits(), []
        if self.job or self.limits.tilt_deg != usual.tilt_deg:
            words += ["--max-tilt", f"{self.limits.tilt_deg:.10g}"]
        if self.job or self.limits.depth_in != usual.depth_in:
            words += ["--blade-depth", f"{self.limits.depth_in:.10g}in"]
        if self.limits.kind is not None:
            words += ["--saw", self.limits.kind.value]
        return words

    def sheet_command(self, number: int) -> str:
        """The command that prints a sheet again, with those before it; a class has them all."""
        many = f" --sheets {number}" if number > 1 and not self.learners else ""
        return f"{self.command}{many} -o {AGAIN}"

    def key_command(self, number: int) -> str:
        """The command that prints a sheet's key again."""
        return f"{self.command} --key-of {number} -o {AGAIN}"

    def learner(self, number: int) -> str:
        """Whose sheet it is; empty where no names were given."""
        return self.learners[number - 1] if number <= len(self.learners) else ""

    def stamp(self, number: int) -> str:
        """Sheet, seed and version, as every page of the sheet and its key bear them."""
        return f"sheet {number}, seed {self.seed}, version {version()}"


@dataclass(frozen=True)
class Worksheet:
    """One sheet: its number in the series, counted from 1, and its problems."""

    series: Series
    number: int
    problems: tuple[Problem, ...]


@dataclass(frozen=True)
class Meaning:
    """A usual wrong answer, as it is written, and what leads to it."""

    answer: str
    does: tuple[str, ...]


def sheets(series: Series) -> Iterator[Worksheet]:
    """The sheets of a series, one after another without end.

    Raises LessonError where no lesson has a problem of the kind, or a drill no fair problem.
    """
    rng = Random(series.seed)
    had: Counter[str] = Counter()
    plan = _planned(series, rng, had)
    deck = Deck(rng, series.system, series.limits)
    number = 1
    faults: Counter[str] = Counter()
    while True:
        if series.learners and number > 1:
            plan = _planned(series, rng, had)
        yield Worksheet(series, number, tuple(_dealt(deck, one, faults) for one in plan))
        number += 1


def _planned(series: Series, rng: Random, had: Counter[str]) -> list[tuple[Lesson, int]]:
    return planned(series.lessons, series.kind, series.problems, rng, had)


def _dealt(deck: Deck, drill: tuple[Lesson, int], faults: Counter[str]) -> Problem:
    """A problem of the drill; of faulty layouts the one whose faulty line has come least often."""
    lesson, place = drill
    tries = FAULT_TRIES if lesson.drills[place].mistake else 1
    dealt = [deck.deal(lesson, place) for _ in range(tries)]
    best = min(dealt, key=lambda problem: _times(problem, faults))
    if best.layout is not None:
        faults.update(best.layout.faulty)
    return best


def _times(problem: Problem, faults: Counter[str]) -> int:
    return sum(faults[letter] for letter in problem.layout.faulty) if problem.layout else 0


def sheet_of(series: Series, number: int) -> Worksheet:
    """The sheet of that number."""
    if not 1 <= number <= MOST_SHEETS:
        raise LessonError(f"there is no sheet {number}; sheets are numbered 1 to {MOST_SHEETS}")
    return next(sheet for sheet in sheets(series) if sheet.number == number)


def meanings(problem: Problem) -> list[Meaning]:
    """What each usual wrong answer to a problem means; equal ones stand together."""
    if problem.layout is not None:
        return _of_lines(problem)
    sought = problem.sought
    assert sought is not None
    grouped: dict[str, list[str]] = {}
    for wrong in sorted(sought.wrongs, key=_order):
        written = sought.written(wrong.value, problem.system)
        grouped.setdefault(written, []).append(_leads(wrong, problem.system))
    return [Meaning(written, tuple(does)) for written, does in grouped.items()]


def _order(wrong: Wrong) -> tuple[float, str]:
    value = wrong.value
    return (0.0, value) if isinstance(value, str) else (value, "")


def _leads(wrong: Wrong, system: System) -> str:
    if wrong.made is None:
        return wrong.does
    how = f", {wrong.made.method}" if wrong.made.method else ""
    return f"{wrong.does} Gap {write_gap_limit(wrong.made.price_in, system)}{how}."


def _of_lines(problem: Problem) -> list[Meaning]:
    layout = problem.layout
    assert layout is not None
    fine = [line.letter for line in layout.lines if line.letter not in layout.faulty]
    if not fine:
        return []
    letters = " or ".join(fine)
    return [Meaning(letters, ("What this line says fits this roof and board.",))]


def marked_runs(problem: Problem) -> list[str]:
    """For a mark: both its runs along the board, for the one who checks it."""
    if problem.drill.kind != "mark" or problem.true_answer.is_rip:
        return []
    told = []
    for measure in measures(problem.true_answer):
        try:
            other = put(
                problem.lesson,
                problem.place,
                problem.given,
                problem.system,
                measure=measure,
                limits=problem.true_answer.limits,
            )
        except LayoutError:
            continue  # what cannot be told from a mistake is not for measuring
        told.append(f"the {measure} mark runs {other.answer_text} along the board")
    return told


def fault_words(problem: Problem) -> str:
    """A faulty layout's key: the line, what is wrong, what it should read, and the gap."""
    layout = problem.layout
    assert layout is not None
    should = " ".join(line.text for line in layout.true_lines if line.letter in layout.faulty)
    return f"{layout.made.mistake.does} It should read: {should} {layout_price(problem)}"


def _row_unit(problem: Problem) -> str:
    """What the figures of a problem's row are in; empty where it has none."""
    sought, system = problem.sought, problem.system
    length = "mm" if system.is_metric else "in"
    if sought is None:
        return length
    if sought.kind == "number":
        return f"{length} on {FULL_RUN[system]}"
    return {"length": length, "angle": "deg"}.get(sought.kind, "")


def _exact(sought: Sought, system: System) -> str:
    """The right answer unrounded, in the unit of its row."""
    value = sought.value
    if isinstance(value, str):
        return value
    if system.is_metric and sought.kind == "number":
        value *= METRIC_RUN
    elif system.is_metric and sought.kind == "length":
        value *= MM_PER_INCH
    return f"{value:.10g}"


def _tolerance(sought: Sought, system: System) -> str:
    return "" if isinstance(sought.value, str) else f"{told_tolerance(sought, system):g}"


def rows(sheet: Worksheet) -> Iterator[dict[str, str]]:
    """The sheet's answers for a table, a problem a row, given and answered as on the sheet.

    `exact`, `tolerance` and `gap` are in the row's `unit`.
    """
    system = sheet.series.system
    metric = system.is_metric
    for place, problem in enumerate(sheet.problems, start=1):
        sought, asked = problem.sought, problem.true_answer.question
        layout = problem.layout
        yield {
            "learner": sheet.series.learner(sheet.number),
            "sheet": str(sheet.number),
            "seed": str(sheet.series.seed),
            "version": version(),
            "problem": str(place),
            "lesson": problem.lesson.name,
            "kind": problem.drill.kind,
            "cut": asked.entry.name,
            "end": asked.end,
            "pitch": pitch_words(asked.pitch, metric=metric),
            "other_pitch": pitch_words(asked.other_pitch, metric=metric),
            "corner_deg": f"{asked.corner_deg:g}",
            "hand": problem.true_answer.hand.value if problem.true_answer.hand else "",
            "stock": board_words(asked.stock, metric=True) if metric else asked.stock.name,
            "asked_for": sought.named if sought else "faulty line",
            "answer": problem.answer_text,
            "unit": _row_unit(problem),
            "exact": _exact(sought, system) if sought else "",
            "tolerance": _tolerance(sought, system) if sought else "",
            "gap": f"{layout.made.price_in * (MM_PER_INCH if metric else 1):.6f}" if layout else "",
            "right": "",
            "mistakes": "",
            "wrong_answers": "; ".join(
                f"{meaning.answer}: {' / '.join(meaning.does)}" for meaning in meanings(problem)
            ),
        }
