"""The course's order: nothing is asked of a learner before the lesson that teaches it."""

import re
from collections.abc import Iterator
from functools import cache
from random import Random

import pytest

from layout.errors import LayoutError
from lessons.course.glossary import glossary
from lessons.course.lesson import catalog
from lessons.course.runner import Worked, run
from lessons.drill.dealer import drawn_given, places
from lessons.drill.problem import Problem, put
from lessons.say.blocks import DrillsBlock, Paragraph, Steps, TableBlock
from tests.counts import count

LESSONS = catalog()
WORDS = {term.word: re.compile(rf"\b{re.escape(term.word)}s?\b", re.I) for term in glossary()}
LINES = {
    "face": "face mark",
    "edge": "edge mark",
    "saw": "shoe",
    "mitre saw": "miter saw",
    "gauge": "gauge",
}
"""A line of a layout, by what it shows, and the word that its lesson teaches."""


@cache
def worked(name: str) -> Worked:
    return run(LESSONS[name])


def taught_by(name: str) -> str:
    """What a lesson teaches: its sentences, steps and tables, but none of its drills."""
    said = []
    for block in worked(name).blocks:
        match block:
            case Paragraph(text, _):
                said.append(text)
            case Steps(items):
                said += [text for text, _ in items]
                said += [shown.shows for _, shown in items if isinstance(shown, TableBlock)]
            case _:
                pass
    return "\n".join(said)


@cache
def so_far() -> dict[str, str]:
    """For each lesson, all that has been taught up to it and in it."""
    taught, all_of_it = {}, ""
    for name in LESSONS:
        all_of_it += "\n" + taught_by(name)
        taught[name] = all_of_it
    return taught


@cache
def dealt(name: str) -> tuple[Problem, ...]:
    """Problems of a lesson as they may be drawn, with every fault that it may show."""
    return tuple(_dealt(name))


def _dealt(name: str) -> Iterator[Problem]:
    lesson, rng = LESSONS[name], Random(name)
    for place in places(lesson):
        drill = lesson.drills[place]
        faults = [warned.name for warned in lesson.warned] if drill.mistake else [None]
        for fault in faults:
            for _ in range(count(20, 1)):
                try:
                    yield put(lesson, place, drawn_given(lesson, drill, rng), fault=fault)
                except LayoutError:
                    continue  # no fair problem: another is drawn


@pytest.mark.parametrize("name", LESSONS)
def test_no_word_stands_in_a_drill_before_it_is_taught(name):
    printed = [
        " ".join((one.ask, one.because, *one.hints, *one.layout))
        for block in worked(name).blocks
        if isinstance(block, DrillsBlock)
        for one in block.problems
    ]
    drawn = [" ".join((one.ask, *one.hints)) for one in dealt(name)]
    for asked in (*printed, *drawn):
        for word, pattern in WORDS.items():
            if pattern.search(asked):
                assert pattern.search(so_far()[name]), (word, asked)


@pytest.mark.parametrize("name", LESSONS)
def test_no_line_of_a_layout_comes_before_its_lesson(name):
    for problem in dealt(name):
        for line in problem.layout.lines if problem.layout else ():
            assert LINES[line.shows] in so_far()[name].lower(), (line, problem.given)


def test_no_corner_and_no_second_pitch_comes_before_its_lesson():
    skew, unequal = (LESSONS[name].number for name in ("skew-corner", "unequal-pitches"))
    for name, lesson in LESSONS.items():
        for problem in dealt(name):
            asked = problem.true_answer.question
            if lesson.number < skew:
                assert asked.corner_deg == lesson.entry.usual_corner_deg, (name, problem.given)
            if lesson.number < unequal:
                assert asked.pitch.slope_deg == asked.other_pitch.slope_deg, (name, problem.given)


def test_the_order_is_looked_at():
    assert "miter saw" not in so_far()["hip-jack"].lower()
    assert "miter saw" in so_far()["number-is-not-the-tilt"].lower()
    assert not WORDS["backing"].search(so_far()["hip-length"])
