"""The course's order: a lesson asks for nothing before it is taught, and has a number of its own.

A lesson asks in its drills. What it and the lessons before it teach stands in their steps and
sentences, and in what they say of the fit.
"""

import re
from collections.abc import Iterator, Mapping

from layout.answer.answer import Answer
from lessons.course.glossary import glossary
from lessons.course.laid_out import disputed, laid_out
from lessons.course.lesson import Drill, Lesson
from lessons.course.lesson_rules import held_steps
from lessons.course.runner import asked
from lessons.course.tables import table
from lessons.mistakes.cut_mistakes import mistakes
from lessons.say.units import System


def order_faults(lesson: Lesson, course: Mapping[str, Lesson]) -> Iterator[str]:
    """Each trade word in a lesson's drills that no lesson up to it has taught, and a taken number.

    `course` holds the course's lessons; one of the same name is the lesson itself, as it was.
    """
    others = [one for one in course.values() if one.name != lesson.name]
    free = max((one.number for one in others), default=0) + 1
    if lesson.name in course and lesson.number > free:
        yield (
            f"{lesson.able.where}: its number, {lesson.number}, leaves a hole in the course; the"
            f" next free one is {free}"
        )
    for one in others:
        if one.number == lesson.number:
            yield (
                f"{lesson.able.where}: its number, {lesson.number}, is that of {one.name}; the next"
                f" free one is {free}"
            )
    before = [one for one in others if one.number <= lesson.number]
    taught = "\n".join(said for one in (*before, lesson) for said in _taught(one))
    answer = asked(lesson)
    for drill in lesson.drills:
        if drill.when.holds(answer):
            yield from _untaught(lesson, drill, answer, taught)


def _untaught(lesson: Lesson, drill: Drill, answer: Answer, taught: str) -> Iterator[str]:
    texts = (drill.ask, drill.because, *drill.hints)
    said = [(text.where, text.fill(answer)) for text in texts]
    said += [(drill.ask.where, text) for text in _lines(lesson, drill, answer)]
    for term in glossary():
        pattern = re.compile(rf"\b{re.escape(term.word)}s?\b", re.I)
        where = next((where for where, text in said if pattern.search(text)), None)
        if where is not None and not pattern.search(taught):
            yield (
                f"{where}: no lesson up to this one teaches {term.word!r}; say it in a step, or"
                " give the lesson a later number"
            )


def _lines(lesson: Lesson, drill: Drill, answer: Answer) -> list[str]:
    """The lines of a drill's layout, or its claims, with the drill's own fault."""
    made = mistakes()[drill.mistake].made_on(answer) if drill.mistake else None
    if made is None:
        return []
    if drill.kind == "dispute":
        layout = disputed(answer, made, System.INCH)
    else:
        layout = laid_out(answer, made, System.INCH, miter=lesson.taught_miter)
    return [line.text for line in layout.lines]


def _taught(lesson: Lesson) -> Iterator[str]:
    answer = asked(lesson)
    yield lesson.able.fill(answer)
    for step in held_steps(lesson, answer):
        yield step.say.fill(answer)
        shown = table(step.table, answer, System.INCH) if step.table else None
        if shown is not None:
            yield shown.shows
    yield from (step.say.fill(answer) for step in lesson.agree if step.when.holds(answer))
