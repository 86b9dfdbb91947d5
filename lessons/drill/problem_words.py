"""A problem, its hints, its answer and what is wrong with an answer, as blocks of words.

The terminal and the printed sheets say the same.
"""

from lessons.course.laid_out import LaidOut
from lessons.course.wrong_answers import Wrong
from lessons.drill.grading import Grade, price_words
from lessons.drill.problem import Problem, given_words
from lessons.say.blocks import Block, Facts, Paragraph
from lessons.say.units import written

MEASURE_WORDS = {
    "edge": "how far the edge mark runs along the board, carried right across the edge",
    "face": "how far the face mark runs along the board, carried right across the face",
    "drop": "how far the bevel drops on the face, from the arris to the gauged line",
}
ON_WOOD = (
    "For the outline take an offcut, or draw the board on paper at full size. Mark it, then"
    " measure {what}. What do you read?"
)


def problem_blocks(problem: Problem) -> list[Block]:
    """What is given, what is asked, and the lines of a finished layout."""
    blocks: list[Block] = [
        Paragraph(f"Given: {given_words(problem.true_answer, problem.system)}."),
        Paragraph(problem.ask, strong=True),
    ]
    if problem.layout is not None:
        blocks.append(layout_lines(problem.layout))
    if problem.measure is not None:
        blocks.append(Paragraph(ON_WOOD.format(what=MEASURE_WORDS[problem.measure])))
    return blocks


def layout_lines(layout: LaidOut) -> Facts:
    """The lettered lines of a finished layout."""
    return Facts(tuple((line.letter, line.text) for line in layout.lines))


def answer_words(problem: Problem) -> str:
    """The right answer and the reason; for a fault, also what should stand, and the price."""
    if problem.layout is None:
        return f"{problem.answer_text}. {problem.because}"
    layout = problem.layout
    should = " ".join(
        f"Line {line.letter} should read: {line.text}"
        for line in layout.true_lines
        if line.letter in layout.faulty
    )
    does = layout.made.mistake.does
    return f"{problem.answer_text}. {does} {should} {layout_price(problem)} {problem.because}"


def layout_price(problem: Problem) -> str:
    """What the fault of a finished layout costs on this board."""
    assert problem.layout is not None
    made = problem.layout.made
    return made.says(written(made.price_in, "gap", problem.system))


def worked_blocks(problem: Problem) -> list[Block]:
    """A like problem with its answer, for the last hint."""
    return [
        Paragraph("A like problem, worked:"),
        *problem_blocks(problem),
        Paragraph(f"Its answer: {answer_words(problem)}"),
    ]


def diagnosis_words(problem: Problem, grade: Grade, wrong: Wrong) -> str:
    """What leads to this answer, why it does not fit, and what it costs."""
    said = f"{grade.read.said} is what you get if {_after_if(wrong.does)} {wrong.why}"
    return f"{said} {price_words(wrong, problem)}".rstrip()


def _after_if(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]
