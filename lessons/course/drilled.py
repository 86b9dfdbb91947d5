"""A lesson's drills worked out on its own answer: what is asked, hints, the answer, the reason."""

from collections.abc import Iterator
from dataclasses import replace

from layout.answer.answer import Answer
from lessons.course.laid_out import LaidOut, disputed, laid_out
from lessons.course.lesson import Drill, Lesson
from lessons.course.named_text import read_name
from lessons.course.pictures import outline_picture, picture
from lessons.mistakes.cut_mistakes import Made, mistakes
from lessons.say.blocks import ProblemBlock
from lessons.say.units import System, written
from lessons.values.all_values import values


def problems(lesson: Lesson, true_answer: Answer, system: System) -> tuple[ProblemBlock, ...]:
    """The drills that can be set on this answer, in the lesson's order.

    A fault that leaves no gap on this cut cannot be found on it: that drill is left out, and so
    is one whose condition does not hold here.
    """
    return tuple(_worked(lesson, true_answer, system))


def _worked(lesson: Lesson, true_answer: Answer, system: System) -> Iterator[ProblemBlock]:
    for drill in lesson.drills:
        if not drill.when.holds(true_answer):
            continue
        asked = ProblemBlock(
            drill.ask.fill(true_answer, system),
            "",
            drill.because.fill(true_answer, system),
            tuple(hint.fill(true_answer, system) for hint in drill.hints),
        )
        if drill.kind in ("number", "choose"):
            yield replace(asked, answer=_value(str(drill.answer), true_answer, system))
        elif drill.kind == "mark":
            yield replace(
                asked,
                answer="Both marks are laid out like this.",
                outline=outline_picture(true_answer),
                solved=picture("faces", true_answer),
            )
        else:
            made = mistakes()[str(drill.mistake)].made_on(true_answer)
            layout = _layout(lesson, drill, true_answer, made, system) if made else None
            if made is not None and layout is not None and layout.faulty:
                made = layout.made  # in one line alone, where it would spoil two
                gap = written(made.price_in, "gap", system)
                letters = " and ".join(sorted(layout.faulty))
                yield replace(
                    asked,
                    answer=f"{letters}. {made.mistake.does} {made.says(gap)}",
                    layout=tuple(f"{line.letter}  {line.text}" for line in layout.lines),
                )


def _layout(
    lesson: Lesson, drill: Drill, true_answer: Answer, made: Made, system: System
) -> LaidOut:
    if drill.kind == "dispute":
        return disputed(true_answer, made, system)
    return laid_out(true_answer, made, system, miter=lesson.taught_miter)


def _value(place: str, true_answer: Answer, system: System) -> str:
    name, arguments, unit = read_name(place)
    return written(values()[name].read(true_answer, *arguments), unit, system)
