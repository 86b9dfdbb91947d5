"""When a lesson comes back: later and later, as long as it is answered right.

A lesson stands on a step. A problem answered right at the first try and without a hint, on a day
when the lesson is due, moves it one step on; it is then due again after one day, and each further
step doubles the distance: 1, 2, 4, 8, 16, 32 days, and every 32 days from there. Doubling is the
plainest way to let distances grow; that practice spread over days is kept longer than the same
practice in one sitting is an old finding, first published by Ebbinghaus (Ueber das Gedaechtnis,
1885; from memory) and found again many times since. A wrong answer moves a lesson two steps back
and makes it due the next day. More right answers on a day when it is not due are practice and
move nothing. A lesson is mastered on the fourth step, once every kind of its problems has been
answered right.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from lessons.course.lesson import Lesson
from lessons.drill.progress import Attempt

DAYS = tuple(2**step for step in range(6))
"""Days until a lesson is due again, from its first step on: doubled at every step."""
BACK = 2
MASTERED_STEP = 4
RULE = (
    "A lesson answered right at the first try, without a hint, on a day when it is due, comes back"
    f" the next day, and then at double the distance each time: after"
    f" {', '.join(str(days) for days in DAYS[:-1])}, then {DAYS[-1]} days. Practice spread over"
    " days is kept longer than the same practice in one sitting. A wrong answer takes the lesson"
    f" two steps back, and it is due the next day. It is mastered on step {MASTERED_STEP}, with"
    " every kind of its problems answered right."
)


@dataclass(frozen=True)
class LessonStanding:
    """How a learner stands with one lesson; `due` is None for one never tried."""

    lesson: str
    step: int = 0
    due: date | None = None
    tried: int = 0
    right: int = 0
    kinds_right: frozenset[str] = frozenset()
    made: Mapping[str, int] = field(default_factory=dict)

    def after(self, attempt: Attempt) -> "LessonStanding":
        """The standing after one more attempt."""
        day = attempt.day
        clean = attempt.right and attempt.tries == 1 and attempt.hints == 0 and not attempt.shown
        step, due = self.step, self.due
        if not attempt.right and attempt.tries == 1:
            step, due = max(0, step - BACK), _after(day, 1)
        elif clean and (due is None or due <= day):
            step = min(step + 1, len(DAYS))
            due = _after(day, DAYS[step - 1])
        elif due is None:
            due = _after(day, 1)
        return LessonStanding(
            self.lesson,
            step,
            due,
            self.tried + (attempt.tries == 1),
            self.right + clean,
            self.kinds_right | ({attempt.kind} if clean else set()),
            Counter(self.made) + Counter(attempt.mistakes),
        )

    def mastered(self, lesson: Lesson) -> bool:
        """Whether the lesson has held over growing distances, in every kind of problem it has."""
        kinds = {drill.kind for drill in lesson.drills}
        return self.step >= MASTERED_STEP and kinds <= self.kinds_right


def _after(day: date, days: int) -> date:
    """The date this many days later, or the last that the calendar has."""
    return date.max if (date.max - day).days < days else day + timedelta(days=days)


def standings(attempts: Iterable[Attempt]) -> dict[str, LessonStanding]:
    """The standing with every lesson that was tried, by its name.

    Attempts count in the order of their days, whatever order they were written in.
    """
    standing: dict[str, LessonStanding] = {}
    for attempt in sorted(attempts, key=lambda one: one.moment):
        before = standing.get(attempt.lesson, LessonStanding(attempt.lesson))
        standing[attempt.lesson] = before.after(attempt)
    return standing


def comes_next(
    lessons: Mapping[str, Lesson], known: Mapping[str, LessonStanding], today: date
) -> list[str]:
    """The lessons to practice today: those that are due, longest due first, then one new one.

    Where nothing is due and nothing new, the one that will be due first.
    """
    seen = [known[name] for name in lessons if name in known and known[name].due is not None]
    in_time = sorted(seen, key=lambda one: one.due or today)
    due = [one.lesson for one in in_time if one.due and one.due <= today]
    new = [name for name in lessons if name not in known][:1]
    return due + new or [one.lesson for one in in_time[:1]]
