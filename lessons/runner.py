"""Run a lesson: put its question, let both methods answer, and write it out only if they agree.

A lesson whose methods do not cut the joint's plane is refused, with the gap that was found: no
sheet may teach a way that does not fit.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from layout.answer import Answer, answer
from layout.cuts import Hand
from layout.errors import LayoutError
from layout.quantity import read_angle, read_pitch
from layout.question import ask
from layout.stock import read_stock
from layout.wording import given_line, hand_line
from lessons.blocks import (
    Block,
    Cautions,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    Steps,
    Terms,
)
from lessons.lesson import Lesson, Step
from lessons.mistakes import Made, mistakes
from lessons.pictures import gap_picture, picture
from lessons.units import System, written
from lessons.words import CAUTION, verdict_line, write_gap


class DisagreementError(LayoutError):
    """A lesson whose methods do not put the joint's plane there."""


@dataclass(frozen=True)
class Worked:
    """A lesson worked out for one roof and board: the answer and everything to be shown."""

    lesson: Lesson
    answer: Answer
    system: System
    blocks: tuple[Block, ...]


def asked(lesson: Lesson, given: Mapping[str, str] | None = None) -> Answer:
    """Answer the lesson's question, with what is given in place of the lesson's own.

    `given` has the keys of a lesson's [given] table. Raises LayoutError for what cannot be read.
    """
    roof = {**lesson.given, **(given or {})}
    other = roof.get("other_pitch")
    own_stock, corner = roof.get("stock"), roof.get("corner")
    return answer(
        ask(
            lesson.entry.name,
            pitch=read_pitch(roof.get("pitch", "8 in 12")),
            other_pitch=read_pitch(other) if other else None,
            corner_deg=read_angle(corner) if corner else None,
            hand=Hand(roof.get("hand", "left")),
            stock=read_stock(own_stock) if own_stock else None,
            end=lesson.end,
            roll_deg=float(roof.get("roll", "0")),
        )
    )


def checked(lesson: Lesson, right: Answer) -> None:
    """Refuse a lesson whose methods do not agree. Raises DisagreementError with the gap found."""
    for method, verdict in (("by hand", right.by_hand), ("by saw", right.by_saw)):
        if not verdict.sound:
            raise DisagreementError(
                f"{lesson.path}: {method} leaves {write_gap(float(verdict.exact.widest_in))}"
                f" {verdict.exact.opens_at} on {given_line(right)}; the lesson is not printed"
            )


def run(
    lesson: Lesson,
    given: Mapping[str, str] | None = None,
    system: System = System.INCH,
) -> Worked:
    """Work a lesson out for a roof and a board.

    Raises DisagreementError where hand and saw do not put the joint's plane there, LayoutError
    for what cannot be read or has no value here.
    """
    right = asked(lesson, given)
    checked(lesson, right)

    def steps(of: tuple[Step, ...]) -> Steps:
        return Steps(
            tuple(
                (
                    step.say.fill(right, system),
                    picture(step.picture, right) if step.picture else None,
                )
                for step in of
            )
        )

    blocks: list[Block] = [
        Heading(f"{lesson.number}. {lesson.title}", 1),
        Paragraph(lesson.able.fill(right, system), strong=True),
        Heading("The situation"),
        steps(lesson.situation),
        Heading("Given"),
        Facts((("Roof and board", given_line(right)), ("Hand", hand_line(right)))),
        Heading("By hand, with the square"),
        steps(lesson.by_hand),
        Heading("By saw, with the blade tilted"),
        steps(lesson.by_saw),
        Heading("Do they agree?"),
        *(Paragraph(text.fill(right, system)) for text in lesson.agree),
        Facts(
            (
                ("By hand", verdict_line("", right.by_hand).strip()),
                ("By saw", verdict_line("", right.by_saw).strip()),
            )
        ),
        Heading("What goes wrong, and what it costs"),
        *_mistakes(lesson, right, system),
        Heading("Words"),
        Terms(tuple(lesson.words.items())),
        Cautions((*(text.fill(right, system) for text in lesson.cautions), *CAUTION)),
    ]
    return Worked(lesson, right, system, tuple(blocks))


def _mistakes(lesson: Lesson, right: Answer, system: System) -> list[Block]:
    known = mistakes()
    blocks: list[Block] = []
    for warned in lesson.warned:
        made = known[warned.name].made_on(right)
        if made is None:
            words = f"{known[warned.name].does} On this cut it happens to leave no gap."
            blocks.append(Paragraph(words))
            continue
        blocks.append(
            _priced(made, warned.say.fill(right, system) if warned.say else "", right, system)
        )
    return blocks


def _priced(made: Made, say: str, right: Answer, system: System) -> Mistaken:
    gap = written(made.price_in, "gap", system)
    price = f"The gap is {gap}, {made.fit.opens_at}, on this {right.question.stock.name}."
    text = " ".join(part for part in (made.mistake.why, say) if part)
    shows = f"{made.mistake.does} {price}"
    return Mistaken(made.mistake.does, text, price, gap_picture(right, made.setting, shows))
