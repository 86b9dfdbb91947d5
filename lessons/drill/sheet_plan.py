"""Which drills a sheet puts: kinds in turn, and every lesson once before any comes twice."""

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import cycle
from random import Random

from lessons.course.lesson import DrillKind, Lesson, LessonError
from lessons.drill.dealer import places, shuffled

MIXED: tuple[DrillKind, ...] = ("number", "find-error", "number", "mark")
"""The kinds of a sheet's problems in turn, where all are mixed."""


def planned(
    lessons: Sequence[Lesson],
    kind: DrillKind | None,
    problems: int,
    rng: Random,
    had: Counter[str],
) -> list[tuple[Lesson, int]]:
    """So many drills, of one kind or of all mixed, each by its lesson and its place there.

    The lessons are dealt evenly, those first that came least often on the sheets before; `had`
    counts them by name and is brought up to date. Raises LessonError where no lesson has a
    problem of the kind.
    """
    kinds = _kinds(lessons, kind, problems)
    order = sorted(shuffled(rng, lessons), key=lambda one: had[one.name])
    piles: dict[tuple[str, DrillKind], list[int]] = {}
    plan: list[tuple[Lesson, int]] = []
    for wanted, lesson in zip(kinds, _spread(kinds, order), strict=True):
        pile = piles.setdefault((lesson.name, wanted), [])
        if not pile:
            pile.extend(shuffled(rng, places(lesson, wanted)))
        plan.append((lesson, pile.pop()))
        had[lesson.name] += 1
    return plan


def _kinds(lessons: Sequence[Lesson], kind: DrillKind | None, problems: int) -> list[DrillKind]:
    """The kind of each problem, a mark to make last.

    More than one mark only where nothing else is asked for, since each takes a page.
    """
    kinds = [
        wanted
        for wanted in ((kind,) if kind else MIXED)
        if any(places(lesson, wanted) for lesson in lessons)
    ]
    if not kinds:
        raise LessonError(f"no lesson here has a problem of the kind {kind or 'any'}")
    found: list[DrillKind] = []
    turns = cycle(kinds)
    while len(found) < problems:
        wanted = next(turns)
        if wanted != "mark" or wanted not in found or len(kinds) == 1:
            found.append(wanted)
    return sorted(found, key=lambda wanted: wanted == "mark")


def _spread(kinds: Sequence[DrillKind], lessons: Sequence[Lesson]) -> list[Lesson]:
    """The lesson of each problem: round after round, in each of which no lesson comes twice."""
    spread: dict[int, Lesson] = {}
    while len(spread) < len(kinds):
        left = {at: kind for at, kind in enumerate(kinds) if at not in spread}
        spread |= _once_each(left, lessons)
    return [spread[at] for at in range(len(kinds))]


def _once_each(kinds: Mapping[int, DrillKind], lessons: Sequence[Lesson]) -> dict[int, Lesson]:
    """A problem for each lesson, for as many as can have one, the earlier ones before the later.

    A lesson whose problems are all taken has one of theirs, if that other lesson can move to
    another kind, and so on: the augmenting path of a matching.
    """
    taken: dict[int, Lesson] = {}

    def give(lesson: Lesson, tried: set[int]) -> bool:
        for at, kind in kinds.items():
            if at in tried or not places(lesson, kind):
                continue
            tried.add(at)
            if at not in taken or give(taken[at], tried):
                taken[at] = lesson
                return True
        return False

    for lesson in lessons:
        give(lesson, set())
    return taken
