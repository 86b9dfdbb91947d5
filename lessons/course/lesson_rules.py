"""What the course asks of a lesson beyond what it takes to teach from it.

It names its aim, shows its steps, warns of what costs something, hints at every number, and says
one thing in a sentence. `squaresaw lesson check` holds lessons to these rules and those in
`taught_before`. Each fault is one line: file, line, what is wrong and what would be right.
"""

import re
from collections.abc import Iterator

from layout.answer.answer import Answer
from layout.errors import LayoutError
from lessons.course.lesson import Lesson, Step
from lessons.course.lesson_file import OF_COURSE
from lessons.course.named_text import NamedText
from lessons.course.pictures import picture
from lessons.course.runner import Worked
from lessons.mistakes.cut_mistakes import mistakes
from lessons.say.blocks import Mistaken

AIM = "After this lesson you can "
LEAST_PICTURES, LEAST_COSTLY = 3, 2
MOST_WORDS, MEAN_WORDS, STEP_WORDS = 33, 14, 42
"""Most words of a sentence, of sentences on average, and of a step: longer ones are two."""
FORMULA = re.compile(r"\b(?:tangent|cosine|sine|square root)\b")
ROOM_IN = (7.2, 6.2)
"""The largest room that a page has for a picture [in]."""
_SENTENCE_END = re.compile(r"(?<=[.?!])\s+")


def rule_faults(worked: Worked) -> Iterator[str]:
    """Each way in which a lesson does not keep the rules, as it is worked out on its own roof."""
    lesson = worked.lesson
    if not lesson.able.text.startswith(AIM):
        yield f"{lesson.able.where}: able should begin with {AIM.strip()!r}"
    yield from _missing_parts(worked)
    yield from _never_made(worked)
    yield from _unhinted(lesson)
    yield from _long_words(worked)
    yield from _formulas(worked)
    yield from _undrawn(worked)


def held_steps(lesson: Lesson, answer: Answer) -> tuple[Step, ...]:
    """All that a lesson does step by step on this roof; the aside is none of it."""
    steps = (*lesson.situation, *lesson.drawn, *lesson.by_hand, *lesson.by_saw)
    return tuple(step for step in steps if step.when.holds(answer))


def _missing_parts(worked: Worked) -> Iterator[str]:
    lesson = worked.lesson
    kinds = {drill.kind for drill in lesson.drills}
    if not lesson.cautions:
        yield f"{lesson.able.where}: it has no caution of its own; write cautions = [...] here"
    pictures = sum(1 for step in held_steps(lesson, worked.answer) if step.picture)
    if pictures < LEAST_PICTURES:
        yield (
            f"{lesson.situation[0].say.where}: its steps show {pictures} pictures; show"
            f" {LEAST_PICTURES} or more, such as picture = 'plan'"
        )
    costly = [block for block in worked.blocks if isinstance(block, Mistaken)]
    costly = [block for block in costly if not block.price.startswith("The gap is nothing")]
    if len(costly) < LEAST_COSTLY:
        yield (
            f"{lesson.warned[0].where}: {len(costly)} of its mistakes cost something on this cut;"
            f" warn of {LEAST_COSTLY} or more that do"
        )
    if missing := [kind for kind in OF_COURSE if kind not in kinds]:
        where = lesson.drills[0].ask.where if lesson.drills else lesson.able.where
        yield f"{where}: it has no drill of the kind {' or '.join(missing)}; add one of each"


def _never_made(worked: Worked) -> Iterator[str]:
    """Mistakes that leave nothing open on the lesson's own cut: it would warn of what cannot be."""
    lesson, answer = worked.lesson, worked.answer
    named = [(one.name, one.where, one.when) for one in lesson.warned]
    named += [(one.mistake, one.ask.where, one.when) for one in lesson.drills if one.mistake]
    for name, where, when in named:
        if when.holds(answer) and mistakes()[name].made_on(answer) is None:
            made = ", ".join(name for name, one in mistakes().items() if one.made_on(answer))
            yield f"{where}: {name!r}: this mistake is never made on this cut; made are {made}"


def _unhinted(lesson: Lesson) -> Iterator[str]:
    for drill in lesson.drills:
        if drill.kind == "number" and not drill.hints:
            yield f"{drill.ask.where}: a number drill needs a hint or more; write hints = [...]"


def _long_words(worked: Worked) -> Iterator[str]:
    lesson, lengths = worked.lesson, []
    for text in _texts(lesson, worked.answer):
        said = text.fill(worked.answer, worked.system)
        for sentence in _SENTENCE_END.split(said):
            if sentence.endswith((".", "?", "!")):
                lengths.append(len(sentence.split()))
                if lengths[-1] > MOST_WORDS:
                    yield (
                        f"{text.where}: a sentence of {lengths[-1]} words; make two of it, at most"
                        f" {MOST_WORDS} each"
                    )
    for step in held_steps(lesson, worked.answer):
        count = len(step.say.fill(worked.answer, worked.system).split())
        if count > STEP_WORDS:
            yield (
                f"{step.say.where}: a step of {count} words; make two of it, at most"
                f" {STEP_WORDS} each"
            )
    mean = sum(lengths) / max(len(lengths), 1)
    if mean > MEAN_WORDS:
        yield (
            f"{lesson.able.where}: its sentences have {mean:.1f} words on average; shorten the"
            f" longest, to {MEAN_WORDS} or less"
        )


def _texts(lesson: Lesson, answer: Answer) -> Iterator[NamedText]:
    """Every text of the lesson that holds on this roof."""
    yield lesson.able
    yield from (step.say for step in held_steps(lesson, answer))
    said = (*lesson.aside, *lesson.agree)
    yield from (step.say for step in said if step.when.holds(answer))
    warnings = (warned for warned in lesson.warned if warned.when.holds(answer))
    yield from (warned.say for warned in warnings if warned.say)
    for drill in lesson.drills:
        if drill.when.holds(answer):
            yield from (drill.ask, drill.because, *drill.hints)


def _formulas(worked: Worked) -> Iterator[str]:
    for step in held_steps(worked.lesson, worked.answer):
        if found := FORMULA.search(step.say.text):
            yield (
                f"{step.say.where}: {found[0]!r} is of a formula; put it under [[aside]], and find"
                " the number by drawing or by the table"
            )


def _undrawn(worked: Worked) -> Iterator[str]:
    """Pictures that find no room on a page, or cannot show this cut."""
    for step in held_steps(worked.lesson, worked.answer):
        if step.picture is None:
            continue
        try:
            picture(step.picture, worked.answer).draw(ROOM_IN)
        except LayoutError as error:
            yield f"{step.say.where}: the picture {step.picture!r}: {error}"
