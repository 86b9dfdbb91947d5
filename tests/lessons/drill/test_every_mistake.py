"""Every mistake that a lesson names, in problem after problem of that lesson.

The answer that the mistake builds is told as that mistake, two at once as the pair; what lies
within the tolerance is right, and what is mirrored is not. 50 draws of every drill in the long
run, one in the default suite.
"""

from collections.abc import Iterator
from dataclasses import replace
from random import Random

import pytest

from layout.errors import LayoutError
from lessons.course.lesson import Lesson, catalog
from lessons.course.wrong_answers import Wrong
from lessons.drill.dealer import drawn_given, places
from lessons.drill.grading import Grade, grade
from lessons.drill.problem import Problem, put
from lessons.mistakes.cut_mistakes import mistakes
from tests.counts import LONG, count

LESSONS = catalog()
OTHER = {"head": "foot", "foot": "head", "left": "right", "right": "left"}
WITHIN = 0.999
"""An answer so many tolerances off is still within."""


def drawn(lesson: Lesson) -> Iterator[Problem]:
    """Problems of a lesson: each drill once a draw, a faulty one with every fault named."""
    for seed in range(count(50, 1)):
        rng = Random(f"{lesson.name} {seed}")
        for place in places(lesson):
            drill = lesson.drills[place]
            given = drawn_given(lesson, drill, rng)
            faults = [warned.name for warned in lesson.warned] if drill.mistake else [None]
            for fault in faults:
                try:
                    yield put(lesson, place, given, fault=fault)
                except LayoutError:
                    continue  # no fair problem: the roof, or a mistake too near the truth


def answered(problem: Problem, value: float | str, sense: str = "") -> Grade:
    """A value typed exactly, a mark's with the end or face toward which it slants."""
    text = value if isinstance(value, str) else f"{value:.12f}"
    return grade(problem, f"{text} {sense or problem.sought.sense}".rstrip())


def check_layout(problem: Problem) -> None:
    layout = problem.layout
    assert layout.faulty
    for line in layout.lines:
        assert grade(problem, line.letter).right == (line.letter in layout.faulty)


def check_right(problem: Problem) -> None:
    """Right within the tolerance on either side, and told no mistake; mirrored it is wrong."""
    sought = problem.sought
    if isinstance(sought.value, str):
        assert answered(problem, sought.value).right
        return
    for off in (-WITHIN, -0.5, 0.0, 0.5, WITHIN):
        value = sought.value + off * sought.tolerance
        if value <= 0:
            continue  # nobody answers with less than nothing
        judged = answered(problem, value)
        assert judged.right, (problem.given, value)
        assert judged.wrongs == ()
        if problem.measure is not None:
            mirrored = answered(problem, value, OTHER[sought.sense])
            assert not mirrored.right
            assert [wrong.name for wrong in mirrored.wrongs] == ["mirrored-mark"]


def told(problem: Problem, wrongs: tuple[Wrong, ...]) -> set[str]:
    """The mistakes whose answers were diagnosed as what they are; fails for one that is not."""
    names = set()
    for wrong in wrongs:
        if isinstance(wrong.value, float) and wrong.value <= 0:
            continue  # no length or angle that can be typed
        judged = answered(problem, wrong.value)
        assert not judged.right, (problem.given, wrong.name, wrong.value)
        assert wrong.name in [one.name for one in judged.wrongs], (problem.given, wrong.name)
        names.add(wrong.name)
    return names


def check_pairs(problem: Problem) -> None:
    """Two mistakes at once are told as the pair, unless one alone gives that answer as well."""
    sought = problem.sought
    for pair in sought.pairs:
        if pair.value <= 0 or abs(pair.value - sought.value) <= sought.tolerance:
            continue
        names = [one.name for one in answered(problem, pair.value).wrongs]
        alone = [
            one.name for one in sought.wrongs if abs(one.value - pair.value) <= sought.tolerance
        ]
        assert names
        assert pair.name in names or set(names) <= set(alone), (problem.given, pair.name, names)


@pytest.mark.parametrize("name", LESSONS)
def test_every_mistake_that_a_lesson_names_is_diagnosed_where_it_answers(name):
    lesson, seen = LESSONS[name], set()
    for problem in drawn(lesson):
        if problem.layout is not None:
            check_layout(problem)
            seen.add(problem.layout.made.mistake.name)
            continue
        check_right(problem)
        seen |= told(problem, problem.sought.wrongs)
        check_pairs(problem)
    if LONG:
        # What leaves every mark right and answers no number of its lesson is told on the page.
        named = {warned.name for warned in lesson.warned if mistakes()[warned.name].shows}
        assert named <= seen


def test_a_wrong_tolerance_would_be_seen():
    lesson = LESSONS["hip-jack"]
    problem = put(lesson, 0, {"pitch": "12 in 12"})
    check_right(problem)
    narrow = replace(problem, sought=replace(problem.sought, tolerance=0.5))
    with pytest.raises(AssertionError):
        told(
            narrow, tuple(replace(w, value=narrow.sought.value + 0.4) for w in narrow.sought.wrongs)
        )
