"""The steps left open: what is printed gives nothing away, and what is written in fits.

Each true line is read again by `tests.resolved`, which has the plane from plain points: a second
way from words to the cut.
"""

import re

import pytest

from layout.answer.wording import board_words
from lessons.course.laid_out import right_lines
from lessons.course.lesson import catalog
from lessons.course.open_steps import OPEN, at_another_pitch
from lessons.course.runner import asked, run
from lessons.drill.problem import given_words
from lessons.say.blocks import DrillsBlock, ProblemBlock
from lessons.say.units import System
from tests import resolved

LESSONS = catalog()
NUMBER = re.compile(r"\d+")


def faded(name: str, system: System = System.INCH) -> ProblemBlock:
    worked = run(LESSONS[name], None, system)
    (drills,) = [b for b in worked.blocks if isinstance(b, DrillsBlock)]
    return drills.opened


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("name", LESSONS)
def test_every_lesson_leaves_its_steps_open_before_its_drills(name, system):
    block = faded(name, system)
    assert ",," not in block.ask
    assert block.ask.startswith("The same steps for ")
    assert all(OPEN in line for line in block.layout)
    # The only number left on a line is the run that the square is read on.
    left = [found for line in block.layout for found in NUMBER.findall(line)]
    assert set(left) <= {"300" if system is System.METRIC else "12"}
    assert block.answer not in "\n".join(block.layout)


@pytest.mark.parametrize("name", LESSONS)
def test_what_belongs_into_the_blanks_is_one_line_of_the_answer_each(name):
    block = faded(name)
    for line in block.layout:
        letter, _, text = line.partition("  ")
        pattern = re.escape(text).replace(re.escape(OPEN), "(.+?)")
        assert re.search(rf"{letter}: {pattern}", block.answer), line


@pytest.mark.parametrize("name", LESSONS)
def test_the_other_roof_is_another_and_the_board_the_same(name):
    own = asked(LESSONS[name])
    other = at_another_pitch(own)
    assert other.question.pitch.slope_deg != own.question.pitch.slope_deg
    assert board_words(other.question.stock) == board_words(own.question.stock)
    alike = own.question.other_pitch.slope_deg == own.question.pitch.slope_deg
    assert alike == (other.question.other_pitch.slope_deg == other.question.pitch.slope_deg)


@pytest.mark.parametrize("name", LESSONS)
def test_the_answer_fits_the_other_roof_by_the_second_way(name):
    other = at_another_pitch(asked(LESSONS[name]))
    roof = resolved.read_given(given_words(other))
    lines = re.split(r" ?[A-F]: ", faded(name).answer)[1:]
    assert len(lines) == len(faded(name).layout)
    assert [line for line in lines if not resolved.fits(line, roof)] == []


def test_a_line_of_the_lessons_own_roof_does_not_fit_the_other():
    own, other = asked(LESSONS["hip-jack"]), at_another_pitch(asked(LESSONS["hip-jack"]))
    roof = resolved.read_given(given_words(other))
    face, edge, saw = (line.text for line in right_lines(own))
    assert not resolved.fits(face, roof)
    assert not resolved.fits(edge, roof)
    assert resolved.fits(saw, roof)  # the tilt stays: that is the lesson
