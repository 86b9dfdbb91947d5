"""A class: its roll of names, and what results say of who can do what.

A roll is a CSV file with a number and a name for each learner. Results are CSV files with a row
for each answer: what `squaresaw drill --progress -o NAME.csv` writes, or the answers of
worksheets with their `right` column filled in, and in `mistakes` the key's sentence.
"""

import csv
import io
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from layout.errors import LayoutError
from lessons.course.lesson import Lesson, LessonError, find_lesson
from lessons.drill.mistake_names import MistakeNameError, mistakes_named
from lessons.drill.progress import as_cell

MOST_LEARNERS = 500
LONGEST_NAME = 60
NEEDED = ("learner", "lesson", "right")
YES = frozenset({"yes", "y", "true", "1", "right", "x"})
NO = frozenset({"no", "n", "false", "0", "wrong"})
GOOD_SHARE = 0.75
"""A lesson answered right at least so often is one that the learner can do."""
COMMONEST = 8


class RosterError(LayoutError):
    """A roll or results that cannot be read."""


@dataclass(frozen=True)
class Result:
    """One judged answer of a learner, and the mistakes that gave it."""

    learner: str
    lesson: str
    right: bool
    mistakes: tuple[str, ...] = ()


@dataclass(frozen=True)
class ClassTally:
    """A learner's answers in one lesson: how many, and how many right."""

    asked: int = 0
    right: int = 0

    @property
    def can(self) -> bool:
        """Whether the learner can do it."""
        return self.asked > 0 and self.right >= GOOD_SHARE * self.asked

    def __str__(self) -> str:
        return f"{self.right} of {self.asked}" if self.asked else ""


@dataclass(frozen=True)
class ClassTable:
    """What a class can do: a tally for each learner and lesson, and the commonest mistakes.

    `next_lesson` names for each learner the first lesson of the course that does not go yet;
    None for one who can do all of these.
    """

    learners: tuple[str, ...]
    lessons: tuple[str, ...]
    tallies: Mapping[tuple[str, str], ClassTally]
    commonest: tuple[tuple[str, int], ...]
    next_lesson: Mapping[str, str | None]


def read_names(text: str, where: str) -> tuple[str, ...]:
    """The names of a class, a line each. Raises RosterError with file and line."""
    names: list[str] = []
    for number, line in enumerate(text.splitlines(), start=1):
        name = " ".join(line.split())
        if not name:
            continue
        if len(name) > LONGEST_NAME or not name.isprintable():
            raise RosterError(
                f"{where}:{number}: a name has at most {LONGEST_NAME} letters, all printable"
            )
        if name in names:
            raise RosterError(f"{where}:{number}: {name!r} is there twice; tell the two apart")
        names.append(name)
    if not names:
        raise RosterError(f"{where}: there is no name in it; write one a line")
    if len(names) > MOST_LEARNERS:
        raise RosterError(f"{where}: a class has at most {MOST_LEARNERS} names")
    return tuple(names)


def roll_text(names: Sequence[str]) -> str:
    """The roll as a CSV file: a number and a name a row."""
    return _csv(("number", "name"), [(str(i), name) for i, name in enumerate(names, start=1)])


def read_roll(text: str, where: str) -> tuple[str, ...]:
    """The names of a roll. Raises RosterError for what is none."""
    rows = list(csv.DictReader(io.StringIO(text)))
    if not rows or "name" not in rows[0]:
        raise RosterError(f"{where} is no roll; make one with `squaresaw class new NAMES.txt`")
    return read_names("\n".join((row["name"] or "").lstrip("'") for row in rows), where)


def read_results(text: str, where: str, lessons: Mapping[str, Lesson]) -> list[Result]:
    """The answers of one file of results, in these lessons.

    Raises RosterError with file and line.
    """
    reader = csv.DictReader(io.StringIO(text))
    try:
        rows = list(reader)
    except csv.Error as error:
        raise RosterError(f"{where}: {error}") from None
    missing = [name for name in NEEDED if name not in (reader.fieldnames or ())]
    if missing:
        raise RosterError(
            f"{where}: no column {' and no column '.join(missing)}; results have"
            f" {', '.join(NEEDED)}, and mistakes if known"
        )
    found = []
    for line, row in enumerate(rows, start=2):
        said = (row["right"] or "").strip().casefold()
        if not said:
            continue  # not graded
        if said not in YES | NO:
            raise RosterError(f"{where}:{line}: right is {said[:20]!r}; write yes or no")
        learner = " ".join((row["learner"] or "").lstrip("'").split()) or "nobody named"
        try:
            mistakes = mistakes_named(row.get("mistakes") or "")
        except MistakeNameError as error:
            raise RosterError(f"{where}:{line}: mistakes: {error}") from None
        try:
            lesson = find_lesson(lessons, (row["lesson"] or "").strip()).name
        except LessonError as error:
            raise RosterError(f"{where}:{line}: lesson: {error}") from None
        found.append(Result(learner, lesson, said in YES, mistakes))
    return found


def class_table(results: Iterable[Result], course: Sequence[str]) -> ClassTable:
    """What these results say, the lessons in the order of the course, learners by name."""
    tallies: dict[tuple[str, str], ClassTally] = {}
    mistakes: Counter[str] = Counter()
    for one in results:
        before = tallies.get((one.learner, one.lesson), ClassTally())
        tallies[one.learner, one.lesson] = ClassTally(before.asked + 1, before.right + one.right)
        mistakes.update(one.mistakes)
    learners = tuple(sorted({learner for learner, _ in tallies}, key=str.casefold))
    met = {lesson for _, lesson in tallies}
    lessons = (*(name for name in course if name in met), *sorted(met - set(course)))
    nothing = ClassTally()
    next_lesson = {
        learner: next(
            (name for name in course if not tallies.get((learner, name), nothing).can), None
        )
        for learner in learners
    }
    commonest = tuple(sorted(mistakes.items(), key=lambda item: (-item[1], item[0]))[:COMMONEST])
    return ClassTable(learners, lessons, tallies, commonest, next_lesson)


def table_text(table: ClassTable) -> str:
    """The table as a CSV file, a learner a row."""
    head = ("learner", *table.lessons, "next lesson")
    rows = [
        (
            learner,
            *(str(table.tallies.get((learner, name), "")) for name in table.lessons),
            table.next_lesson[learner] or "",
        )
        for learner in table.learners
    ]
    return _csv(head, rows)


def _csv(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    table = io.StringIO()
    writer = csv.writer(table, lineterminator="\n")
    writer.writerow(head)
    writer.writerows([as_cell(cell) for cell in row] for row in rows)
    return table.getvalue()
