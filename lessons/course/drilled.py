"""A lesson's drills worked out on its own answer: what is asked, hints, the answer, the reason."""

from collections.abc import Iterator
from dataclasses import replace

from layout.answer.answer import Answer
from lessons.course.laid_out import LaidOut, disputed, laid_out
from lessons.course.lesson import Drill, Lesson
from lessons.course.named_text import read_name
from lessons.course.pictures import outline_picture, picture
from lessons.mistakes.cut_mistakes import Made, mistakes
from lessons.say.blocks import Problem
from lessons.say.units import System, written
from lessons.values.all_values import values


def problems(lesson: Lesson, right: Answer, system: System) -> tuple[Problem, ...]:
    """The drills that can be set on this answer, in the lesson's order.

    A fault that leaves no gap on this cut cannot be found on it: that drill is left out, and so
    is one whose condition does not hold here.
    """
    return tuple(_worked(lesson, right, system))


def _worked(lesson: Lesson, right: Answer, system: System) -> Iterator[Problem]:
    for drill in lesson.drills:
        if not drill.when.holds(right):
            continue
        asked = Problem(
            drill.ask.fill(right, system),
            "",
            drill.because.fill(right, system),
            tuple(hint.fill(right, system) for hint in drill.hints),
        )
        if drill.kind in ("number", "choose"):
            yield replace(asked, answer=_value(str(drill.answer), right, system))
        elif drill.kind == "mark":
            yield replace(
                asked,
                answer="Both marks are laid out like this.",
                outline=outline_picture(right),
                solved=picture("views", right),
            )
        else:
            made = mistakes()[str(drill.mistake)].made_on(right)
            layout = _layout(lesson, drill, right, made, system) if made else None
            if made is not None and layout is not None and layout.faulty:
                gap = written(made.price_in, "gap", system)
                letters = " and ".join(sorted(layout.faulty))
                yield replace(
                    asked,
                    answer=f"{letters}. {made.mistake.does} {made.says(gap)}",
                    layout=tuple(f"{line.letter}  {line.text}" for line in layout.lines),
                )


def _layout(lesson: Lesson, drill: Drill, right: Answer, made: Made, system: System) -> LaidOut:
    if drill.kind == "dispute":
        return disputed(right, made, system)
    return laid_out(right, made, system, miter=lesson.taught_miter)


def _value(place: str, right: Answer, system: System) -> str:
    name, arguments, unit = read_name(place)
    return written(values()[name].read(right, *arguments), unit, system)
