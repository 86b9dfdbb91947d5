"""What stands behind the lessons of a book: hints to all drills, and the words explained once."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.ink.paper import Paper
from figures.page.flow import Row, beside, hung, picture, space, under, words
from figures.page.sheet import Page, clear_field
from figures.page.two_columns import column_width
from figures.pictures.word_sketch import SKETCHES, word_sketch
from lessons.course.runner import Worked
from lessons.pages.leaf import Leaf
from lessons.pages.lesson_rows import INDENT_IN, SMALL_PT, opened_rows
from lessons.pages.paged import column_leaves, lesson_title
from lessons.say.blocks import DrillsBlock, ProblemBlock, Terms

OPEN_TITLE = "The same steps, left open"
OPEN_SAY = "Do these after the lesson and before its drills."
HINTS_SAY = "Cover the page with a card, and uncover one line at a time."


def open_leaves(all_worked: Sequence[Worked], paper: Paper) -> tuple[Leaf, ...]:
    """The steps of every lesson for another pitch, with blanks to write in."""
    blank = Page(paper, Drawing(), title=OPEN_TITLE, given=OPEN_SAY, scale=None)
    left, _, right, _ = clear_field(blank)
    column = column_width(right - left)
    return _bare(column_leaves(_opened(all_worked, column), blank))


def _opened(all_worked: Sequence[Worked], width_in: float) -> Iterator[Row]:
    """Each set of lines once, with the lessons that it belongs to."""
    of_lessons: dict[ProblemBlock, list[Worked]] = {}
    for worked in all_worked:
        for block in worked.blocks:
            if isinstance(block, DrillsBlock) and block.opened is not None:
                of_lessons.setdefault(block.opened, []).append(worked)
    for opened, lessons in of_lessons.items():
        numbers = [str(worked.lesson.number) for worked in lessons]
        title = (
            lesson_title(lessons[0])
            if len(lessons) == 1
            else f"Lessons {', '.join(numbers[:-1])} and {numbers[-1]}"
        )
        yield words(title, width_in, SMALL_PT, bold=True, with_next=True)
        yield from opened_rows(opened, width_in, SMALL_PT)


def hint_leaves(all_worked: Sequence[Worked], paper: Paper) -> tuple[Leaf, ...]:
    """The hints of every lesson, one line under the other."""
    blank = Page(paper, Drawing(), title="Hints, one at a time", given=HINTS_SAY, scale=None)
    left, _, right, _ = clear_field(blank)
    column = column_width(right - left)
    return _bare(column_leaves(_hints(all_worked, column), blank))


def _hints(all_worked: Sequence[Worked], width_in: float) -> Iterator[Row]:
    yield words(HINTS_SAY, width_in, SMALL_PT)
    yield space(0.08)
    for worked in all_worked:
        yield words(lesson_title(worked), width_in, SMALL_PT, bold=True, with_next=True)
        for block in worked.blocks:
            if not isinstance(block, DrillsBlock):
                continue
            for number, problem in enumerate(block.problems, start=1):
                if problem.hints:
                    lines = "\n".join(problem.hints)
                    said = words(lines, width_in - INDENT_IN, SMALL_PT)
                    yield hung(str(number), said, INDENT_IN, SMALL_PT)
        yield space(0.08)


def word_leaves(all_worked: Sequence[Worked], paper: Paper) -> tuple[Leaf, ...]:
    """Every word that the lessons explain, once, in the order of the alphabet."""
    blank = Page(paper, Drawing(), title="Words", given="Trade words of this book", scale=None)
    left, _, right, _ = clear_field(blank)
    column = column_width(right - left)
    explained = {
        word: means
        for worked in reversed(all_worked)
        for block in worked.blocks
        if isinstance(block, Terms)
        for word, means in block.rows
    }
    rows = [
        _word(word, means, column)
        for word, means in sorted(explained.items(), key=lambda item: item[0].casefold())
    ]
    return _bare(column_leaves(rows, blank))


def _word(word: str, means: str, column_in: float) -> Row:
    """A word, what it means, and its sketch where it can be drawn."""
    names = column_in * 0.33
    said = beside(
        words(word, names - 0.08, SMALL_PT, bold=True),
        words(means, column_in - names, SMALL_PT),
        names,
    )
    if word not in SKETCHES:
        return said
    return under([said, picture(word_sketch(word)).indented(names)])


def _bare(leaves: tuple[Leaf, ...]) -> tuple[Leaf, ...]:
    return tuple(replace(leaf, anchors=()) for leaf in leaves)
