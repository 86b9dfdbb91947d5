"""A lesson's drills worked out on its own answer: what is asked, hints, the answer, the reason."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from layout.answer.answer import Answer
from layout.answer.sense_words import end_words, setting_words
from layout.quantity import write_degrees
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from lessons.course.lesson import Drill, Lesson
from lessons.course.named_text import read_name
from lessons.course.pictures import outline_picture, picture
from lessons.mistakes.cut_mistakes import mistakes
from lessons.say.blocks import ProblemBlock
from lessons.say.units import System, written
from lessons.values.all_values import values

SQUARE_DEG = 1e-6
"""A blade that leans by less stands square."""


def problems(lesson: Lesson, true_answer: Answer, system: System) -> tuple[ProblemBlock, ...]:
    """The drills that can be set on this answer, in the lesson's order.

    A fault that leaves no gap on this cut cannot be found on it: that drill is left out, and so
    is one whose condition does not hold here.
    """
    return tuple(_worked(lesson.drills, true_answer, system))


def _worked(drills: Iterable[Drill], true_answer: Answer, system: System) -> Iterator[ProblemBlock]:
    for drill in drills:
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
                solved=picture("views", true_answer),
            )
        else:
            made = mistakes()[str(drill.mistake)].made_on(true_answer)
            if made is not None:
                gap = written(made.price_in, "gap", system)
                yield replace(
                    asked,
                    answer=f"{made.mistake.does} {made.says(gap)}",
                    layout=tuple(_laid_out(made.setting, system)),
                )


def _value(place: str, true_answer: Answer, system: System) -> str:
    name, arguments, unit = read_name(place)
    return written(values()[name].read(true_answer, *arguments), unit, system)


def _laid_out(setting: Setting, system: System) -> Iterator[str]:
    """A finished layout in words, as it can be read off the board and the saw."""
    match setting:
        case ByHand(face, top_lean, edge, left_lean):
            yield f"Face: {_numbers(face, system)}{_leans('top', top_lean)}."
            yield f"Edge: {_numbers(edge, system)}{_leans('left end', left_lean)}."
        case BySaw(line_deg, top_lean, tilt_deg):
            yield f"Face: {write_degrees(line_deg)} from square across{_leans('top', top_lean)}."
            if tilt_deg < SQUARE_DEG:
                yield "Saw: the blade stands square to its shoe."
                return
            yield (
                f"Saw: shoe on the right face, tilted {write_degrees(tilt_deg)};"
                f" {setting_words(setting)}."
            )
        case BySawOnEdge(line_deg, left_lean, tilt_deg):
            yield (
                f"Board on its edge, saw along the edge mark: {write_degrees(line_deg)} from"
                f" square across{_leans('left end', left_lean)}."
            )
            yield f"Tilt: {write_degrees(tilt_deg)}."
        case RipByHand(across_in, drop_in, _, right):
            low = "right" if right > 0 else "left"
            yield (
                f"Gauged {written(across_in, 'gap', system)} across the edge, falling"
                f" {written(drop_in, 'gap', system)} toward the {low} face."
            )
        case RipBySaw(tilt_deg, _, right):
            low = "right" if right > 0 else "left"
            yield f"Rip with the saw tilted {write_degrees(tilt_deg)}, low at the {low} face."


def _numbers(pair: tuple[float, float], system: System) -> str:
    if pair[0] == 0:
        return "square across"
    along, held = (written(number, "square", system) for number in pair)
    return f"marked along {along}, with {held} held on the other arm"


def _leans(end: str, lean: int) -> str:
    if lean == 0:
        return ""
    return f"; the {end} leans toward the {end_words(lean)}"
