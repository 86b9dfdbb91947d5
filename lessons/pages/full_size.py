"""The full-size sheets of a book: each template and each bare board once, with a name of its own.

Lessons about one cut of one roof share a template; drills on boards of one size share a bare
board. A sheet's name stands on it and in the lessons that refer to it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from figures.ink.drawing import Drawing
from figures.ink.paper import Paper
from figures.page.sheet import Page
from figures.page.tiling import PrintSetup, pages
from layout.answer.answer import Answer
from layout.answer.wording import board_words, given_line
from layout.errors import SheetError
from lessons.course.runner import Worked
from lessons.say.blocks import DrillsBlock

MOST_BOARD_PAGES = 2
"""A bare board that takes more sheets is marked on scrap, and none is printed."""
LONGEST_BOARD_IN = 8.0
"""A cut that runs farther is marked on a scrap board [in]."""


@dataclass(frozen=True)
class BoundSheet:
    """A template or a bare board at full size: its name, what it is, its pages, who uses it."""

    name: str
    says: str
    pages: tuple[Page, ...]
    lessons: tuple[int, ...]


@dataclass(frozen=True)
class SheetPlan:
    """The full-size sheets that some lessons need, each once, before the templates are drawn.

    A lesson can name its sheets from here. `templates` are those who use each, its first the one
    that it is drawn for; the bare boards are drawn, since only then is known which are printed.
    """

    templates: tuple[tuple[Worked, ...], ...]
    boards: tuple[BoundSheet, ...]
    setup: PrintSetup

    def template_name(self, worked: Worked) -> str:
        """The name of a lesson's template, such as T3; empty where it has none."""
        for number, users in enumerate(self.templates, start=1):
            if any(one.lesson.number == worked.lesson.number for one in users):
                return _template_name(number)
        return ""

    def board_name(self, worked: Worked) -> str:
        """The name of the bare board of a lesson's mark drill; empty where it has none."""
        number = worked.lesson.number
        return next((one.name for one in self.boards if number in one.lessons), "")

    def drawings(self) -> Iterator[Callable[[], BoundSheet]]:
        """What draws each template.

        Raises SheetError, which names the lesson, where the paper cannot carry it.
        """
        for number, users in enumerate(self.templates, start=1):
            yield partial(_template, number, users, self.setup)

    def drawn(self) -> tuple[BoundSheet, ...]:
        """All sheets, templates first; raises as `drawings` does."""
        return (*(draw() for draw in self.drawings()), *self.boards)


def sheet_plan(all_worked: Sequence[Worked], paper: Paper, *, templates: bool) -> SheetPlan:
    """Every full-size sheet that these lessons need, once."""
    setup = PrintSetup(paper)
    marked = [one for one in all_worked if _marks(one) and _short(one.answer)]
    return SheetPlan(
        tuple(map(tuple, _once(all_worked, _template_key))) if templates else (),
        tuple(_named_boards(_once(marked, _board_key), setup)),
        setup,
    )


def _once(all_worked: Sequence[Worked], key: object) -> list[list[Worked]]:
    """Lessons grouped by what they share, in the order in which each group begins."""
    groups: dict[object, list[Worked]] = {}
    for worked in all_worked:
        groups.setdefault(key(worked.answer), []).append(worked)  # type: ignore[operator]
    return list(groups.values())


def _template_key(answer: Answer) -> tuple[object, ...]:
    asked = answer.question
    return (
        asked.entry.name,
        asked.end,
        asked.pitch.slope_deg,
        asked.other_pitch.slope_deg,
        asked.corner_deg if asked.entry.meets != "nothing" else None,
        answer.hand,
        asked.stock,
        asked.roll_deg,
    )


def _outline(answer: Answer) -> Drawing:
    from figures.pictures.marking import marking_outline

    return marking_outline(answer)


def _board_key(answer: Answer) -> tuple[object, ...]:
    """A board of one size serves every short cut on it, a rip apart."""
    return answer.question.stock, answer.is_rip


def _short(answer: Answer) -> bool:
    """Whether the marks of this cut fit a board that a sheet carries."""
    left, _, right, _ = _outline(answer).bounds(words=False)
    return right - left <= LONGEST_BOARD_IN


def _marks(worked: Worked) -> bool:
    return any(
        problem.outline is not None
        for block in worked.blocks
        if isinstance(block, DrillsBlock)
        for problem in block.problems
    )


def _template_name(number: int) -> str:
    return f"T{number}"


def _template(number: int, users: Sequence[Worked], setup: PrintSetup) -> BoundSheet:
    from figures.wrap.template import template_pages

    name, worked = _template_name(number), users[0]
    try:
        made = template_pages(worked.answer, setup)
    except SheetError as error:
        lesson = worked.lesson.name
        raise SheetError(f"lesson {lesson} does not fit {setup.paper.name}: {error}") from error
    titled = tuple(replace(page, title=f"{name}  {page.title}") for page in made)
    asked = worked.answer.question
    hand = f", {worked.answer.hand.value}-hand" if worked.answer.hand else ""
    says = f"{asked.entry.name}, {asked.end}{hand}"
    return BoundSheet(name, says, titled, tuple(one.lesson.number for one in users))


def _named_boards(groups: Sequence[Sequence[Worked]], setup: PrintSetup) -> list[BoundSheet]:
    made: list[BoundSheet] = []
    for users in groups:
        worked = users[0]
        lessons = tuple(one.lesson.number for one in users)
        name, metric = f"B{len(made) + 1}", worked.system.is_metric
        board = board_words(worked.answer.question.stock, metric=metric)
        sheets = bare_board(
            worked.answer,
            setup,
            title=f"{name}  Bare board to mark, {board}",
            given=f"For the mark drills of {_listed(lessons)}",
            description="A bare board at full size, to be marked. " + given_line(worked.answer),
        )
        if len(sheets) <= MOST_BOARD_PAGES:
            made.append(BoundSheet(name, f"bare board, {board}", sheets, lessons))
    return made


def bare_board(
    answer: Answer,
    setup: PrintSetup,
    *,
    title: str,
    given: str = "",
    version: str = "",
    description: str = "",
) -> tuple[Page, ...]:
    """A bare board at full size on the fewest sheets.

    A board as long as the paper leaves no room for the notes beside it: it is drawn shorter,
    rather than behind a sheet that holds cautions alone.
    """
    from figures.pictures.marking import LONGEST_IN, SHORTER_IN, marking_outline

    made = [
        pages(
            marking_outline(answer, longest),
            setup,
            title=title,
            given=given,
            version=version,
            description=description,
        )
        for longest in (LONGEST_IN, SHORTER_IN)
    ]
    return min(made, key=lambda sheets: (len(sheets), not sheets[0].drawing.strokes))


def _listed(numbers: Sequence[int]) -> str:
    *most, last = map(str, numbers)
    return f"lessons {', '.join(most)} and {last}" if most else f"lesson {last}"
