"""Which drills a sheet puts: the lessons dealt evenly, whatever the seed."""

from collections import Counter
from dataclasses import replace
from random import Random

import pytest

from lessons.course.lesson import Lesson, LessonError, catalog
from lessons.drill.dealer import places
from lessons.drill.sheet_plan import planned

LESSONS = catalog()
NAMED = [LESSONS[name] for name in ("hip-jack", "backing-or-dropping", "skew-corner", "fascia")]
SEEDS = (*range(1, 12), 21)


def only(name: str, *kinds: str) -> Lesson:
    """The lesson with its drills of these kinds alone."""
    lesson = LESSONS[name]
    return replace(lesson, drills=tuple(one for one in lesson.drills if one.kind in kinds))


def drawn(lessons, problems, seed, *, kind=None, had=None) -> list[tuple[str, str, int]]:
    """Lesson, kind and place of each problem of one sheet."""
    plan = planned(lessons, kind, problems, Random(seed), Counter[str]() if had is None else had)
    return [(lesson.name, lesson.drills[place].kind, place) for lesson, place in plan]


@pytest.mark.parametrize("seed", SEEDS)
def test_every_lesson_comes_once_before_any_comes_twice(seed):
    """By count: of four lessons four problems have each once, two have two of them; of six
    problems, twice over four and two left, two lessons have a second one."""
    for problems, times in ((2, [1, 1]), (4, [1, 1, 1, 1]), (6, [1, 1, 2, 2])):
        named = Counter(name for name, _, _ in drawn(NAMED, problems, seed))
        assert sorted(named.values()) == times
    assert {name for name, _, _ in drawn(NAMED[:2], 2, seed)} == {one.name for one in NAMED[:2]}


@pytest.mark.parametrize("seed", SEEDS)
def test_kinds_come_in_turn_with_one_mark_at_the_end(seed):
    kinds = [kind for _, kind, _ in drawn(NAMED, 6, seed)]
    assert kinds == ["number", "find-error", "number", "number", "find-error", "mark"]
    assert {kind for _, kind, _ in drawn(NAMED, 3, seed, kind="mark")} == {"mark"}


@pytest.mark.parametrize("seed", SEEDS)
def test_a_lesson_of_one_kind_has_its_problem_from_one_that_can_move(seed):
    """By hand: the first and third problem want a number, the second a fault. A lesson of numbers
    alone can have no other; so where both may have the number, the other lesson has the fault."""
    numbers, either = only("hip-jack", "number"), only("fascia", "number", "find-error")
    assert [name for name, _, _ in drawn([numbers, either], 2, seed)] == ["hip-jack", "fascia"]
    three = [numbers, only("fascia", "find-error"), only("skew-corner", "mark")]
    named = [name for name, _, _ in drawn(three, 4, seed)]
    assert named == ["hip-jack", "fascia", "hip-jack", "skew-corner"]


@pytest.mark.parametrize("seed", SEEDS)
def test_over_the_sheets_of_a_class_no_lesson_runs_ahead(seed):
    """By count: four of five lessons a sheet, so after five sheets each came four times."""
    five, had = [*NAMED, LESSONS["valley"]], Counter[str]()
    for sheet in range(1, 6):
        drawn(five, 4, seed + sheet, had=had)
        assert max(had.values()) - min(had[one.name] for one in five) <= 1
    assert set(had.values()) == {4}


@pytest.mark.parametrize("seed", SEEDS)
def test_a_lessons_drills_of_a_kind_all_come_before_one_comes_again(seed):
    lesson = LESSONS["birds-mouth"]
    put = [place for _, _, place in drawn([lesson], 3, seed, kind="number")]
    assert sorted(put) == places(lesson, "number")
    assert len(put) == 3


def test_the_seed_draws_the_plan():
    assert drawn(NAMED, 4, 21) == drawn(NAMED, 4, 21)
    assert len({tuple(drawn(NAMED, 4, seed)) for seed in SEEDS}) > len(SEEDS) / 2


def test_a_kind_that_no_lesson_has_is_told():
    with pytest.raises(LessonError, match="no lesson here has a problem of the kind dispute"):
        drawn([LESSONS["fascia"]], 4, 1, kind="dispute")
