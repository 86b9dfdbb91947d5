"""Problems packed for the page: dealt, worded and diagnosed as `drill` does it in the terminal.

The same seed gives the same problems in the same order. The page reads an answer and holds it
against the packed values within the packed tolerance; whatever it says then is packed too.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from random import Random
from typing import Any

from lessons.bench.pack import packed_scene, rounded
from lessons.bench.swing import swing
from lessons.course.lesson import Lesson
from lessons.drill.grading import SENSES, Grade, Read, choices, mirrored, tolerance_words
from lessons.drill.problem import Problem
from lessons.drill.problem_words import (
    answer_words,
    diagnosis_words,
    problem_blocks,
    worked_blocks,
)
from lessons.drill.session import NEAR, Session, dealt, unexplained_words
from lessons.say.blocks import Block, Facts, Heading, Paragraph
from lessons.say.contract import JsonObject
from lessons.say.units import System, written

SAID = "\ue000"
"""Stands in a packed sentence where the page puts the answer as it was read."""
SEED, PROBLEMS = 1, 8
"""The seed of the page's problems, and how many of them each lesson has."""


def packed_drills(
    lessons: Iterable[Lesson],
    seed: int = SEED,
    count: int = PROBLEMS,
    on_lesson: Callable[[], None] = lambda: None,
) -> list[JsonObject]:
    """Every lesson with its problems for this seed, as `drill LESSON --seed` puts them."""
    packed = []
    for lesson in lessons:
        packed.append(
            {
                "name": lesson.name,
                "number": lesson.number,
                "title": lesson.title,
                "problems": _problems(lesson, seed, count),
            }
        )
        on_lesson()
    return packed


def _problems(lesson: Lesson, seed: int, count: int) -> list[JsonObject]:
    rng = Random(seed)
    # A session draws from the same numbers before its first problem is dealt.
    session = Session(lambda _: "", lambda _: None, lambda _: None, rng)
    return [packed_problem(problem, session) for problem in dealt([lesson], rng, count)]


def packed_problem(problem: Problem, session: Session) -> JsonObject:
    """One problem with its hints, a like one worked, its answer, and its known wrong answers."""
    sought = problem.sought
    drill = problem.drill
    # A mark is drawn on the page, not measured on wood; a bevel along the board still is.
    drawn = problem.measure is not None and not problem.true_answer.is_rip
    told = replace(problem, measure=None) if drawn else problem
    return {
        "kind": drill.kind,
        "drill": " ".join(part for part in (drill.kind, drill.answer, drill.mistake) if part),
        "given": "; ".join(f"{key} {text}" for key, text in problem.given.items()),
        "asked": packed_blocks(problem_blocks(told)),
        "tolerance": tolerance_words(problem),
        "hints": list(problem.hints),
        "like": packed_blocks(worked_blocks(session.like(problem))),
        "answer": told.because if drawn else answer_words(problem),
        "reason": answer_words(problem) if problem.layout else told.because,
        "drawn": drawn,
        "scene": packed_scene(problem.true_answer),
        "sought": None
        if sought is None
        else {
            "name": sought.name,
            "kind": sought.kind,
            "value": sought.value,
            "tolerance": sought.tolerance,
            "near": NEAR * sought.tolerance,
            "choices": choices(sought) if sought.kind == "word" else [],
        },
        "sense": None if drawn else _sense(problem),
        "swing": swing(problem),
        **_unexplained(problem),
        "wrongs": [] if sought is None else [_wrong(problem, wrong) for wrong in sought.wrongs],
        "pairs": [] if sought is None else [_wrong(problem, wrong) for wrong in sought.pairs],
        "layout": _layout(problem),
    }


def _sense(problem: Problem) -> JsonObject | None:
    """The words that say which way a measured mark runs, the right one, and what is said of an
    answer with the other."""
    sought = problem.sought
    if sought is None or problem.measure is None:
        return None
    _, words = SENSES[problem.measure]
    return {"words": words, "right": sought.sense, "mirrored": _wrong(problem, mirrored(sought))}


def _unexplained(problem: Problem) -> JsonObject:
    """What is said of an answer that no mistake explains, near the right one and far from it."""
    sought = problem.sought
    if sought is None:
        return {"far": unexplained_words(problem, Grade(Read(SAID, SAID), False))}
    if isinstance(sought.value, str):
        return {"far": unexplained_words(problem, Grade(Read("", ""), False))}
    near, far = sought.value + 2 * sought.tolerance, sought.value + 2 * NEAR * sought.tolerance
    return {
        "close": unexplained_words(problem, Grade(Read(near, ""), False)),
        "far": unexplained_words(problem, Grade(Read(far, ""), False)),
    }


def _wrong(problem: Problem, wrong: Any) -> JsonObject:
    """A wrong answer, and what is said of it: of a measured mark for each way that it may slant,
    and for a mark of 0, which slants no way."""
    senses = (*(SENSES[problem.measure][1] if problem.measure else ()), "")
    told = {sense: Grade(Read(wrong.value, SAID, sense=sense), False, (wrong,)) for sense in senses}
    return {
        "name": wrong.name,
        "does": wrong.does,
        "value": wrong.value,
        "words": {sense: diagnosis_words(problem, each, wrong) for sense, each in told.items()},
        "normal": None if wrong.made is None else rounded(wrong.made.setting.normal),
        "gap": None if wrong.made is None else written(wrong.made.price_in, "gap", System.INCH),
    }


def _layout(problem: Problem) -> JsonObject | None:
    layout = problem.layout
    if layout is None:
        return None
    return {
        "letters": [line.letter for line in layout.lines],
        "faulty": sorted(layout.faulty),
        "normal": rounded(layout.made.setting.normal),
        "gap": written(layout.made.price_in, "gap", System.INCH),
        "mistake": layout.made.mistake.name,
    }


def packed_blocks(blocks: Iterable[Block]) -> list[JsonObject]:
    """Blocks of words as data: a paragraph, strong or not, or rows of a name and a text."""
    packed: list[JsonObject] = []
    for block in blocks:
        match block:
            case Heading(text) | Paragraph(text, False):
                packed.append({"text": text})
            case Paragraph(text, True):
                packed.append({"text": text, "strong": True})
            case Facts(rows):
                packed.append({"rows": [list(row) for row in rows]})
            case _:
                raise TypeError(f"a problem has no block of the kind {type(block).__name__}")
    return packed
