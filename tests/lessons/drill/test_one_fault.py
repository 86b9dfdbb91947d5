"""One thing is wrong: every faulty layout has one faulty line, every dispute one liar.

The lines are judged by the second solution in tests/resolved.py, which reads them as a carpenter
would and works the joint out from its own definitions, sharing no code with the program. 50 seeds
of every drill in the long run, each with every fault its lesson warns of; one in the default
suite.
"""

import re
from random import Random

import pytest

from layout.errors import LayoutError
from lessons.course.drilled import problems
from lessons.course.laid_out import laid_out
from lessons.course.lesson import catalog
from lessons.course.runner import asked
from lessons.drill.dealer import drawn_given
from lessons.drill.problem import given_words, put
from lessons.mistakes.cut_mistakes import mistakes
from lessons.say.units import System
from tests.counts import count
from tests.resolved import fits, plain, read_given

LESSONS = {
    name: lesson
    for name, lesson in catalog().items()
    if any(drill.mistake for drill in lesson.drills)
}


def wrong_lines(texts, true_answer):
    """The places of the lines that do not fit this roof and board."""
    given = read_given(plain(given_words(true_answer)))
    return [at for at, text in enumerate(texts) if not fits(plain(text), given)]


def check_dispute(texts):
    """The third claim must be held against one of the other two, not fit both."""
    about = [text.split()[0] for text in texts]
    if about.count("Face") == 2:
        (saw,) = [text for text in texts if text.startswith("Saw")]
        assert "along the face mark" not in saw
    if about.count("Saw") == 2:
        assert "Edge" in about or "Gauge" in about, texts


@pytest.mark.parametrize("name", LESSONS)
def test_of_the_problems_that_are_dealt_one_line_is_wrong(name):
    lesson, seen = LESSONS[name], 0
    for seed in range(count(50, 1)):
        rng = Random(f"one fault {name} {seed}")
        for place, drill in enumerate(lesson.drills):
            if drill.mistake is None:
                continue
            given = drawn_given(lesson, drill, rng)
            for fault in {drill.mistake, *(warned.name for warned in lesson.warned)}:
                try:
                    problem = put(lesson, place, given, fault=fault)
                except LayoutError:
                    continue  # not fair on this roof, or the fault shows in no line
                layout = problem.layout
                texts = [line.text for line in layout.lines]
                wrong = wrong_lines(texts, problem.true_answer)
                assert len(wrong) == 1, (given, fault, texts)
                assert layout.faulty == {layout.lines[wrong[0]].letter}
                if drill.kind == "dispute":
                    check_dispute(texts)
                seen += 1
    assert seen


@pytest.mark.parametrize("name", LESSONS)
def test_of_the_problems_on_paper_one_line_is_wrong(name):
    lesson = LESSONS[name]
    true_answer = asked(lesson)
    for problem in problems(lesson, true_answer, System.INCH):
        if problem.layout:
            texts = [re.sub(r"^[A-F]  ", "", line) for line in problem.layout]
            wrong = wrong_lines(texts, true_answer)
            assert [problem.answer[0]] == ["ABCDEF"[at] for at in wrong], texts
            assert problem.answer[1] == "."


def test_a_fault_that_spoils_both_marks_is_made_in_one_and_priced_there():
    lesson = LESSONS["unequal-pitches"]
    true_answer = asked(lesson)
    made = mistakes()["other-roofs-pitch"].made_on(true_answer)
    layout = laid_out(true_answer, made)
    assert layout.faulty == {"B"}
    assert layout.made.setting.face == true_answer.hand_setting(as_read=False).face
    assert layout.made.price_in < made.price_in


@pytest.mark.parametrize("hand", ["left", "right"])
def test_of_two_cheeks_the_shoe_rides_the_face_that_the_cheek_comes_out_of(hand):
    # From the other face the blade would go through the second cheek (common practice, no source).
    lesson = LESSONS["hip-double-cheek"]
    place = next(at for at, drill in enumerate(lesson.drills) if drill.kind == "find-error")
    problem = put(lesson, place, {**lesson.given, "hand": hand})
    saw = problem.layout.lines[2].text
    assert saw.startswith(f"Saw, shoe on the {hand} face")
    assert "in under the waste, toward the head" in saw


def test_a_saw_that_cannot_tilt_so_far_is_named_in_the_line():
    """Half of 110 degrees is 55, and common saws stop at 50 (common practice, no source)."""
    lesson = LESSONS["skew-corner"]
    for at, drill in enumerate(lesson.drills):
        if drill.kind not in ("find-error", "dispute"):
            continue
        saws = [ln.text for ln in put(lesson, at, lesson.given).layout.lines if ln.shows == "saw"]
        past = [text for text in saws if "tilt 55°" in text]
        assert past
        assert all(text.startswith("A saw that tilts so far, shoe on the ") for text in past)
        assert all(text.startswith("Saw, ") for text in saws if text not in past)
