"""A drill in the terminal: one problem at a time, asked, answered, judged and explained.

The session is given how to read a line and how to say one, and where to keep an attempt; it
ends on the word `quit`, at the end of the input, and when it is interrupted. An attempt is kept
the moment it is judged.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from random import Random

from layout.errors import QuantityError
from layout.quantity import write_fraction
from layout.tools.saw import SawLimits
from lessons.course.lesson import DrillKind, Lesson, LessonError
from lessons.course.wrong_answers import Wrong
from lessons.drill.dealer import Deck, places, shuffled
from lessons.drill.grading import Grade, grade, read_answer, tolerance_words
from lessons.drill.mistake_names import mistake_facts
from lessons.drill.problem import Problem
from lessons.drill.problem_words import answer_words, diagnosis_words, problem_blocks, worked_blocks
from lessons.drill.progress import Attempt, now
from lessons.say.blocks import Block, Facts, Heading, Paragraph
from lessons.say.how_many import how_many
from lessons.say.plain import in_words
from lessons.say.units import System

WORDS = "Besides an answer you may type: hint, show, skip, quit."
NEAR = 4
"""A wrong answer within this many tolerances is called near."""
QUIT, HINT = ("quit", "exit", "q"), ("hint", "?")
PROMPT, WHICH_PROMPT = "> ", "which? "

Keep = Callable[[Attempt], None]


class Stopped(Exception):  # noqa: N818  (not a fault: the learner has had enough)
    """The learner ends the session."""


@dataclass
class SessionTally:
    """What a session came to: problems put, those right at the first try, mistakes met."""

    put: int = 0
    right: int = 0
    made: Counter[str] = field(default_factory=Counter)


def dealt(
    lessons: Sequence[Lesson],
    rng: Random,
    count: int,
    kind: DrillKind | None = None,
    system: System = System.INCH,
    limits: SawLimits | None = None,
) -> Iterator[Problem]:
    """Problems from these lessons in turn, each lesson's kinds mixed.

    Raises LessonError where no lesson has a problem of that kind.
    """
    having = [lesson for lesson in lessons if places(lesson, kind)]
    if not having:
        kinds = ", ".join(sorted({drill.kind for lesson in lessons for drill in lesson.drills}))
        raise LessonError(f"there is no problem of the kind {kind} here; there are {kinds}")
    deck = Deck(rng, system, limits)
    turns: dict[str, list[int]] = {}
    for number in range(count):
        lesson = having[number % len(having)]
        left = turns.setdefault(lesson.name, [])
        if not left:
            left.extend(shuffled(rng, places(lesson, kind)))
        yield deck.deal(lesson, left.pop())


class Session:
    """Problems put to one learner one after the other, until they end or the learner stops."""

    def __init__(
        self, hear: Callable[[str], str], say: Callable[[str], None], keep: Keep, rng: Random
    ) -> None:
        self.hear, self.say, self.keep = hear, say, keep
        self.likes = Deck(Random(f"like {rng.random()}"))
        self.tally = SessionTally()

    def run(self, problems: Iterator[Problem], count: int) -> SessionTally:
        """Put problem after problem until they or the learner's patience end."""
        try:
            for number, problem in enumerate(problems, start=1):
                self._head(problem, number, count)
                Asking(self, problem).run()
        except (EOFError, KeyboardInterrupt, Stopped):
            self.say("")
        return self.tally

    def tell(self, *blocks: Block) -> None:
        """Say blocks of words."""
        self.say(in_words(blocks))

    def like(self, problem: Problem) -> Problem:
        """A problem of the same drill with other numbers."""
        self.likes.system, self.likes.limits = problem.system, problem.true_answer.limits
        for _ in range(20):
            like = self.likes.deal(problem.lesson, problem.place)
            other_numbers = like.given.get("pitch") != problem.given.get("pitch")
            if other_numbers and like.measure == problem.measure:
                break
        return like

    def _head(self, problem: Problem, number: int, count: int) -> None:
        lesson = problem.lesson
        self.tell(Heading(f"Problem {number} of {count}: lesson {lesson.number}, {lesson.title}"))
        self.tell(*problem_blocks(problem))
        self.say("")
        self.tell(Paragraph(tolerance_words(problem)))
        if number == 1:
            self.say(WORDS)


class Asking:
    """One problem being answered: how many answers and hints it has had."""

    def __init__(self, session: Session, problem: Problem) -> None:
        self.session, self.problem = session, problem
        self.tries = self.hints = 0
        self.counted = False
        self.typed_ahead = ""

    def run(self) -> None:
        """Hear answers until the problem is done, shown or skipped."""
        while True:
            text = self.typed_ahead or self.session.hear(PROMPT).strip()
            self.typed_ahead = ""
            word = text.casefold()
            if word in QUIT:
                raise Stopped
            if word == "skip":
                return
            if word == "show":
                self._keep(False, shown=True)
                self.session.tell(Paragraph(f"Answer: {answer_words(self.problem)}"))
                return
            if word in HINT:
                self._hint()
            elif not text:
                self.session.say(WORDS)
            elif self._judge(text):
                return

    def _judge(self, text: str) -> bool:
        """Judge an answer; True where it is right."""
        try:
            judged = grade(self.problem, text)
        except QuantityError as error:
            self.session.tell(Paragraph(str(error)))
            return False
        self.tries += 1
        said = f"Read as {judged.read.said}."
        if judged.right:
            self._keep(True, judged)
            form = f" {judged.read.form}" if judged.read.form else ""
            self.session.tell(Paragraph(f"{said} Right.{form}"))
            self.session.tell(Paragraph(self._reason()))
            return True
        self.session.tell(Paragraph(said))
        self._diagnose(judged)
        return False

    def _reason(self) -> str:
        return answer_words(self.problem) if self.problem.layout else self.problem.because

    def _diagnose(self, judged: Grade) -> None:
        session, problem = self.session, self.problem
        wrongs = judged.wrongs
        try:
            if len(wrongs) > 1:
                wrongs = self._which(judged, wrongs)
        except (EOFError, KeyboardInterrupt):
            self._keep(False, judged)  # undecided: it counts as none of them
            raise
        self._keep(False, judged, wrongs)
        if self.typed_ahead:
            return
        if wrongs:
            session.tell(Paragraph(diagnosis_words(problem, judged, wrongs[0])))
        else:
            session.tell(Paragraph(unexplained_words(problem, judged)))
        session.say("Try again, or type hint.")

    def _which(self, judged: Grade, wrongs: tuple[Wrong, ...]) -> tuple[Wrong, ...]:
        """Several mistakes give this answer: ask which way was taken.

        Whatever else a drill takes is taken here too: it leaves the question undecided, so that
        the answer counts as none of these mistakes, and is what the drill goes on with.
        """
        session = self.session
        session.tell(
            Paragraph(f"More than one way leads to {judged.read.said}. Which is nearest to yours?"),
            Facts(
                (
                    *((str(i), wrong.does) for i, wrong in enumerate(wrongs, start=1)),
                    (str(len(wrongs) + 1), "Another way."),
                )
            ),
        )
        while True:
            typed = session.hear(WHICH_PROMPT).strip()
            chosen = typed.rstrip(".")
            if chosen in [str(i) for i in range(1, len(wrongs) + 2)]:
                return wrongs[int(chosen) - 1 : int(chosen)]
            if self._goes_on(typed):
                self.typed_ahead = typed
                return ()
            session.say(f"Type a number from 1 to {len(wrongs) + 1}, or another answer.")

    def _goes_on(self, typed: str) -> bool:
        """Whether a drill takes this: one of its words, or an answer that can be read."""
        if typed.casefold() in (*QUIT, *HINT, "skip", "show"):
            return True
        try:
            read_answer(self.problem, typed)
        except QuantityError:
            return False
        return True

    def _hint(self) -> None:
        hints = self.problem.hints
        if self.hints < len(hints):
            self.session.tell(Paragraph(hints[self.hints]))
        elif self.hints == len(hints):
            self.session.tell(*worked_blocks(self.session.like(self.problem)))
        else:
            self.session.say("There is no other hint; `show` gives the worked answer.")
            return
        self.hints += 1

    def _keep(
        self,
        right: bool,
        judged: Grade | None = None,
        wrongs: tuple[Wrong, ...] = (),
        shown: bool = False,
    ) -> None:
        problem, tally = self.problem, self.session.tally
        if not self.counted:
            self.counted = True
            tally.put += 1
            tally.right += right and not self.hints
        tally.made.update(wrong.name for wrong in wrongs)
        drill = problem.drill
        attempt = Attempt(
            when=now(),
            lesson=problem.lesson.name,
            drill=" ".join(part for part in (drill.kind, drill.answer, drill.mistake) if part),
            kind=drill.kind,
            right=right,
            tries=self.tries + shown,
            hints=self.hints,
            shown=shown,
            answered=str(judged.read.value) if judged else "",
            mistakes=tuple(wrong.name for wrong in wrongs),
            given=dict(problem.given),
        )
        self.session.keep(attempt)


def unexplained_words(problem: Problem, judged: Grade) -> str:
    """What is said of a wrong answer that no known mistake gives: of a word, why, by the hint."""
    if problem.layout is not None:
        return f"Line {judged.read.value} is as it should be."
    sought = problem.sought
    assert sought is not None
    if isinstance(judged.read.value, str) or isinstance(sought.value, str):
        return " ".join(("That does not fit here.", *problem.hints[:1]))
    if abs(judged.read.value - sought.value) <= NEAR * sought.tolerance:
        unit = "°" if sought.kind == "angle" else ""
        near = NEAR * sought.tolerance
        within = f"{near:g}{unit}" if unit else write_fraction(near, 64)
        return f"Near, within {within}: work it out once more, and read it finer."
    return "That does not fit here, and no mistake this program knows leads to it."


def over(tally: SessionTally) -> list[Block]:
    """What a session came to, in words."""
    if tally.put == 0:
        return [Paragraph("Nothing was answered.")]
    blocks: list[Block] = [
        Paragraph(
            f"{how_many(tally.put, 'problem')},"
            f" {tally.right} right at the first try without a hint."
        )
    ]
    if tally.made:
        blocks += [Heading("Met on the way"), mistake_facts(sorted(tally.made.items()))]
    return blocks
