"""Lessons by the name of a job's stick, and lessons on the job's own roof and boards.

`J6:head` stands for the lessons about the cut at that end, each on that stick's own roof, board
and hand.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from layout.answer.question import Question
from layout.framing.ends import PLACES, place_of, places
from layout.framing.stick import Stick
from layout.job.job import Job
from layout.job.job_roof import find_ends, find_stick, framed
from lessons.cli import job_option
from lessons.cli.commands.options import is_stick
from lessons.course.lesson import Lesson, LessonError, find_lesson
from lessons.drill.dealer import fair_on_roof


def lessons_on_job(
    lessons: Mapping[str, Lesson], names: Sequence[str], job: Job | None
) -> list[Lesson]:
    """The lessons of these names, a stick's standing for all that teach its cut; on the job's
    roof and boards where there is one. Raises LessonError or CutError for a name that is none.
    """
    chosen: dict[str, Lesson] = {}
    for name in names:
        found = _of_stick(lessons, name) if is_stick(name) else [find_lesson(lessons, name)]
        for one in found:
            fitted = one if job is None or is_stick(name) else _on_roof(one, job)
            chosen.setdefault(one.name, fitted)
    return list(chosen.values())


def drilled_on_job(
    lessons: Mapping[str, Lesson], names: Sequence[str], job: Job | None
) -> list[Lesson]:
    """The same lessons, with the drills alone that are fair there. Raises LessonError where none
    is."""
    chosen = lessons_on_job(lessons, names, job)
    if job is None:
        return chosen
    fair = [one for each in chosen if (one := fair_on_roof(each)).drills]
    if not fair:
        raise LessonError(f"no problem about {', '.join(names)} is fair on this roof and board")
    return fair


def lesson_on_stick(lessons: Mapping[str, Lesson], name: str) -> Lesson:
    """The one lesson that teaches a stick's cut: the one called like it, else the last."""
    found = _of_stick(lessons, name)
    return next((one for one in found if one.name == one.entry.name), found[-1])


def _of_stick(lessons: Mapping[str, Lesson], name: str) -> list[Lesson]:
    """Every lesson on a cut of the stick's end, on its roof, board and hand, in their order.

    Without an end the stick's first cut with a lesson, from the head on.
    """
    roof = framed(job_option.needed())
    stick, _ = find_stick(roof, name.partition(":")[0])
    find_ends(roof, name)  # an end that is none is told there
    _, _, where = name.partition(":")
    wanted = [p for p in PLACES if p == where.strip().lower()] or places(stick)
    cuts: list[str] = []
    for place in wanted:
        for asked in _catalogue_cuts(stick, place):
            cuts.append(asked.entry.name)
            found = [
                replace(one, on_roof=_given(asked))
                for one in lessons.values()
                if one.entry.name == asked.entry.name and one.end in (None, asked.end)
            ]
            if found:
                return found
    which = f"of {', '.join(dict.fromkeys(cuts))} " if cuts else ""
    raise LessonError(f"no lesson {which}teaches {name}; `squaresaw lesson` lists them all")


def _catalogue_cuts(stick: Stick, place: str) -> list[Question]:
    """What the catalogue calls the cuts of one place of a stick."""
    found = (
        stick.question(plane)
        for removal in stick.removals
        if place_of(stick, removal) == place
        for plane in removal
    )
    return [asked for asked in found if asked is not None]


def _given(asked: Question) -> dict[str, str]:
    """A question as a lesson's own values."""
    given = {"pitch": str(asked.pitch), "stock": asked.stock.name}
    if asked.other_pitch.slope_deg != asked.pitch.slope_deg:
        given["other_pitch"] = str(asked.other_pitch)
    if asked.entry.meets != "nothing":
        given["corner"] = f"{asked.corner_deg:.10g}"
    if asked.two_hands:
        given["hand"] = asked.hand.value
    return given


def _on_roof(lesson: Lesson, job: Job) -> Lesson:
    """A lesson on the job's pitches and stock, where the job names them."""
    said = {"pitch": job.given("pitch"), "stock": job.given(job_option.role(lesson.entry.name))}
    if lesson.entry.meets != "nothing":
        said["other_pitch"] = job.given("end-pitch")
    return replace(lesson, on_roof={key: text for key, text in said.items() if text is not None})
