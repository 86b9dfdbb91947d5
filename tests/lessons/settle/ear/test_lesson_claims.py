"""What a lesson states, and what a drill or a worksheet is answered, said to the same ear.

A lesson's `[[check]]` is held against the joint as numbers; here it is said in words, as a
carpenter would, and must be heard as one reading that fits. A worksheet's own answer, with words
about it that say nothing, is graded as right.
"""

from collections.abc import Iterator

import pytest

from layout.quantity import write_fraction
from lessons.course.lesson import catalog
from lessons.course.lesson_data import Lesson, Stated
from lessons.course.runner import asked
from lessons.drill.grading import grade
from lessons.drill.worksheet import Series, sheet_of
from lessons.settle.settle import settle
from tests.counts import count

STATED = [
    (lesson, stated)
    for lesson in catalog().values()
    for stated in lesson.stated
    if stated.when is None or stated.when.holds(asked(lesson, stated.given))
]


def in_words(stated: Stated) -> Iterator[str]:
    face, edge, tilt = stated.face, stated.edge, stated.tilt_deg
    if face is not None:
        one, two = (write_fraction(number) for number in face)
        yield f"on the face {one} and {two}, mark the {one}"
    if edge is not None:
        one, two = (write_fraction(number) for number in edge)
        yield f"on the top edge {one} and {two}, cut the {one}"
        yield f"edge mark runs {one} along the board for {two} across"
    if tilt is not None:
        yield f"lay the saw over to {tilt:g} degrees"


def test_lessons_state_something():
    assert len(STATED) >= 8


@pytest.mark.parametrize(
    ("lesson", "stated"), STATED, ids=[f"{one.name}:{said.line}" for one, said in STATED]
)
def test_what_a_lesson_states_is_heard_and_fits(lesson: Lesson, stated: Stated):
    true_answer = asked(lesson, stated.given)
    for text in in_words(stated):
        (found,) = settle(true_answer, [text]).findings
        assert len(found.tried) == 1, text
        assert found.judged.fits, text


@pytest.mark.parametrize("number", range(1, count(30, 2) + 1))
def test_a_worksheet_s_answers_are_heard_in_words(number):
    series = Series(tuple(catalog().values()), (), 14, problems=6, kind="number")
    for problem in sheet_of(series, number).problems:
        answer = problem.answer_text
        for said in (answer, f"well, it's about {answer}", f"I reckon {answer}, give or take"):
            assert grade(problem, said).right, (problem.drill.ask, said)
