"""Run a lesson: put its question, let both methods answer, and write it out only if they agree.

A lesson whose methods do not cut the joint's plane is refused, with the gap that was found: no
sheet may teach a way that does not fit.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from layout.answer import senses
from layout.answer.answer import Answer, answer
from layout.answer.question import Question, ask
from layout.answer.sense_words import hand_line
from layout.answer.wording import given_line
from layout.cuts import Hand
from layout.quantity import read_angle, read_pitch
from layout.stock import read_stock
from layout.tools.saw import SawLimits
from lessons.course.agreement import DisagreementError, checked, misfits_of
from lessons.course.drilled import problems
from lessons.course.glossary import explained
from lessons.course.lesson import Lesson, Step, Warned
from lessons.course.open_steps import open_steps
from lessons.course.pictures import mistake_picture, picture
from lessons.course.tables import table
from lessons.course.tables import texts as table_texts
from lessons.mistakes.cut_mistakes import Made, mistakes
from lessons.say.blocks import (
    Block,
    Boxed,
    Cautions,
    DrillsBlock,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    PictureBlock,
    Steps,
    TableBlock,
    Terms,
)
from lessons.say.units import System, written
from lessons.say.verdict_words import set_by_the_marks
from lessons.say.words import CAUTION

__all__ = ["DisagreementError", "Worked", "asked", "checked", "proved", "run", "written_out"]


@dataclass(frozen=True)
class Worked:
    """A lesson worked out for one roof and board: the answer and everything to be shown."""

    lesson: Lesson
    answer: Answer
    system: System
    blocks: tuple[Block, ...]


def asked(
    lesson: Lesson,
    given: Mapping[str, str] | None = None,
    system: System = System.INCH,
    limits: SawLimits | None = None,
) -> Answer:
    """Answer the lesson's question, with what is given in place of the lesson's own.

    `given` has the keys of a lesson's [given] table; `system` says which square is read, `limits`
    what the saw can be set to, a common one where nothing is said. Raises LayoutError for what
    cannot be read.
    """
    return answer(question(lesson, given), limits=limits, square_parts=system.square_parts)


def question(
    lesson: Lesson, given: Mapping[str, str] | None = None, placed: bool = True
) -> Question:
    """The lesson's question, as `ask` puts it; what is `given` takes the place of its own."""
    roof = {**lesson.given, **(given or {})}
    other = roof.get("other_pitch")
    own_stock, corner = roof.get("stock"), roof.get("corner")
    return ask(
        lesson.entry.name,
        pitch=read_pitch(roof.get("pitch", "8 in 12")),
        other_pitch=read_pitch(other) if other else None,
        corner_deg=read_angle(corner) if corner else None,
        hand=Hand(roof.get("hand", "left")),
        stock=read_stock(own_stock) if own_stock else None,
        end=lesson.end,
        roll_deg=float(roof.get("roll", "0")),
        placed=placed,
    )


def proved(lesson: Lesson) -> None:
    """Hold what the lesson states of roofs of its own against the joint there.

    Raises DisagreementError with file and line.
    """
    for stated in lesson.stated:
        if stated.when is None:
            for misfit in misfits_of(lesson, stated, asked(lesson, stated.given)):
                raise DisagreementError(f"{misfit}; the lesson is not printed")


def run(
    lesson: Lesson,
    given: Mapping[str, str] | None = None,
    system: System = System.INCH,
    limits: SawLimits | None = None,
) -> Worked:
    """Work a lesson out for a roof and a board, and for a saw with these limits.

    Raises DisagreementError where hand and saw do not put the joint's plane there, or the lesson
    states what is not so; LayoutError for what cannot be read or has no value here.
    """
    true_answer = asked(lesson, given, system, limits)
    proved(lesson)
    checked(lesson, true_answer)
    return written_out(lesson, true_answer, system)


def written_out(lesson: Lesson, true_answer: Answer, system: System = System.INCH) -> Worked:
    """Write a lesson out for an answer that was held against the joint: `run` does both.

    Raises LayoutError where one of its texts has no value here.
    """
    blocks = blocks_said(lesson, true_answer, system)
    terms = Terms(explained(_texts(blocks), lesson.words))
    blocks[-2:-2] = [Heading("Words"), terms]
    return Worked(lesson, true_answer, system, tuple(blocks))


def blocks_said(lesson: Lesson, true_answer: Answer, system: System) -> list[Block]:
    """All that a lesson says for an answer, but for its words: what they mean is sought in it.

    Raises LayoutError where one of its texts has no value here.
    """

    def steps(of: tuple[Step, ...]) -> Steps:
        return Steps(
            tuple(
                (step.say.fill(true_answer, system), _shown(step, true_answer, system))
                for step in of
                if step.when.holds(true_answer)
            )
        )

    drawn, aside = steps(lesson.drawn), steps(lesson.aside)
    blocks: list[Block] = [
        Heading(lesson.heading, 1),
        Paragraph(lesson.able.fill(true_answer, system), strong=True),
        Cautions((*(text.fill(true_answer, system) for text in lesson.cautions), *CAUTION)),
        Heading("The situation"),
        Facts(
            (
                (_given_head(true_answer), given_line(true_answer)),
                ("Hand", _hand(true_answer)),
            )
        ),
        steps(lesson.situation),
        *((Heading(_drawn_head(drawn)), drawn) if drawn.items else ()),
        Heading("By handsaw"),
        steps(lesson.by_hand),
        Heading("By saw"),
        steps(lesson.by_saw),
        *(
            (Boxed("With a calculator", tuple(text for text, _ in aside.items)),)
            if aside.items
            else ()
        ),
        Heading("Do they fit?"),
        *(
            Paragraph(step.say.fill(true_answer, system))
            for step in lesson.agree
            if step.when.holds(true_answer)
        ),
        Facts(
            (
                ("By handsaw", set_by_the_marks(true_answer.by_hand, system)),
                ("By saw", _fits_by_saw(true_answer, system)),
            )
        ),
        Heading("What goes wrong, and the gap it leaves"),
        *_mistakes(lesson, true_answer, system),
        Heading("Drills"),
        DrillsBlock(problems(lesson, true_answer, system), open_steps(true_answer, system)),
    ]
    return blocks


def _fits_by_saw(true_answer: Answer, system: System) -> str:
    if not senses.within_reach(true_answer):
        return "not with this saw"
    return set_by_the_marks(true_answer.by_saw, system)


def _hand(true_answer: Answer) -> str:
    """Which hand the cut is; where it has two cheeks, which way the other one faces."""
    words = hand_line(true_answer)
    if true_answer.hand is None or true_answer.is_rip:
        return words
    others = [one.hand.value for one in true_answer.others if one.hand is not None]
    return " ".join((words, *(f"The second cheek faces {side}." for side in others)))


def _given_head(true_answer: Answer) -> str:
    """What is given: a roof and a board, but for a box its sides and their board."""
    return "Sides and board" if true_answer.question.entry.family == "splayed" else "Roof and board"


def _drawn_head(drawn: Steps) -> str:
    """What the ways to the numbers are called: by drawing alone, or by the table as well."""
    by_table = any(text.startswith(("By the table", "By figures")) for text, _ in drawn.items)
    return "By drawing, or by figures" if by_table else "By drawing, without a table"


def _shown(step: Step, true_answer: Answer, system: System) -> PictureBlock | TableBlock | None:
    if step.picture:
        return picture(step.picture, true_answer)
    return table(step.table, true_answer, system) if step.table else None


def _texts(blocks: Iterable[Block]) -> Iterator[str]:
    """Every text that a reader may stumble over; the cautions are plain speech."""
    for block in blocks:
        match block:
            case Heading(text, _) | Paragraph(text, _):
                yield text
            case Steps(items):
                for text, shown in items:
                    yield text
                    if isinstance(shown, TableBlock):
                        yield from table_texts(shown)
            case TableBlock():
                yield from table_texts(block)
            case Boxed(title, lines):
                yield from (title, *lines)
            case Facts(rows):
                yield from (f"{name} {means}" for name, means in rows)
            case Mistaken(title, text, price, _):
                yield from (title, text, price)
            case DrillsBlock(asked_for):
                for one in asked_for:
                    yield from (one.ask, one.answer, one.because, *one.hints, *one.layout)
            case Cautions() | Terms():
                pass


def _mistakes(lesson: Lesson, true_answer: Answer, system: System) -> list[Block]:
    known = mistakes()
    blocks: list[Block] = []
    for warned in lesson.warned:
        if not warned.when.holds(true_answer):
            continue
        made = known[warned.name].made_on(true_answer)
        if made is None:
            blocks.append(Paragraph(f"{known[warned.name].does} {_harmless(warned, true_answer)}"))
            continue
        blocks.append(
            _priced(
                made,
                warned.say.fill(true_answer, system) if warned.say else "",
                true_answer,
                system,
            )
        )
    return blocks


def _harmless(warned: Warned, true_answer: Answer) -> str:
    """Why a mistake costs nothing on this roof and board; its lesson's own roof has one that does.

    What the lesson says of it there is left out: it tells what the mistake would set.
    """
    if mistakes()[warned.name].tried_on(true_answer) is None:
        return "On this cut it cannot be made, or it changes nothing."
    return "On this roof and board it changes nothing."


def _priced(made: Made, say: str, true_answer: Answer, system: System) -> Mistaken:
    price = made.says(written(made.price_in, "gap", system))
    text = " ".join(part for part in (made.mistake.why, say) if part)
    shows = f"{made.mistake.does} {price}"
    return Mistaken(made.mistake.does, text, price, mistake_picture(true_answer, made, shows))
