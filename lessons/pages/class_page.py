"""What a class can do, on one printed page: a table, the commonest mistakes, and who needs what."""

from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.ink.lettering import text_size
from figures.ink.paper import Paper
from figures.page.flow import Row, beside, space, stacked, table, words
from figures.page.sheet import Page, clear_field
from layout.errors import SheetError
from lessons.drill.mistake_names import mistake_words
from lessons.drill.roster import ClassTable
from lessons.pages.lesson_rows import heading_rows
from lessons.say.how_many import how_many
from lessons.say.version import version

SIZES_PT = (10.0, 9.0, 8.0)
LESSON_IN = 0.62
"""Width of a lesson's column [in]."""
TIMES_IN = 0.8
"""Width of the column that says how often a mistake was made [in]."""


def class_page(made: ClassTable, numbers: dict[str, int], paper: Paper) -> Page:
    """The page; lessons are named by their numbers. Raises SheetError where it takes more."""
    blank = Page(
        paper,
        Drawing(),
        title="What the class can do",
        given=f"{how_many(len(made.learners), 'learner')}, {how_many(len(made.lessons), 'lesson')}",
        scale=None,
        version=f"version {version()}",
        description="Learners by lessons: how many answers of how many were right.",
    )
    left, bottom, right, top = clear_field(blank)
    for size in SIZES_PT:
        rows = _rows(made, numbers, right - left, size)
        if rows and sum(row.height_in for row in rows) <= top - bottom:
            return replace(blank, drawing=stacked(rows).moved(left, top))
    raise SheetError(
        f"no page of {paper.name} holds {how_many(len(made.learners), 'learner')} and"
        f" {how_many(len(made.lessons), 'lesson')}: use larger paper, or write a .csv"
    )


def _rows(made: ClassTable, numbers: dict[str, int], width_in: float, size_pt: float) -> list[Row]:
    """Every row at this size; none where the table is wider than the paper."""
    named = max((text_size(name, size_pt)[0] for name in made.learners), default=1.0) + 0.15
    last = 0.9
    lesson = (width_in - named - last) / max(1, len(made.lessons))
    if lesson < LESSON_IN * size_pt / SIZES_PT[0]:
        return []
    lesson = min(lesson, 1.2)
    heads = [f"Lesson {numbers[name]}" if name in numbers else name for name in made.lessons]
    lines = []
    for learner in made.learners:
        tallies = [made.tallies.get((learner, name)) for name in made.lessons]
        cells = [f"{tally}{'' if tally.can else ' *'}" if tally else "" for tally in tallies]
        follows = made.next_lesson[learner]
        lines.append([learner, *cells, str(numbers.get(follows or "", "all done"))])
    widths = [named, *([lesson] * len(heads)), last]
    rows = [*table(("Learner", *heads, "Next lesson"), lines, widths, size_pt)]
    rows += [space(0.1), words("* does not go yet: under three right of four.", width_in, size_pt)]
    if made.commonest:
        rows += [*heading_rows("Commonest mistakes", width_in)]
        rows += [
            beside(
                words(how_many(times, "time"), TIMES_IN, size_pt),
                words(mistake_words(name), width_in - TIMES_IN, size_pt),
                TIMES_IN,
            )
            for name, times in made.commonest
        ]
    return rows
