"""A problem, its hints, its answer and what is wrong with an answer, as blocks of words.

The terminal and the printed sheets say the same.
"""

from collections.abc import Mapping

from lessons.course.laid_out import LaidOut
from lessons.course.wrong_answers import Wrong, misread
from lessons.drill.grading import MIRRORED, ROUNDING, Grade, price_words
from lessons.drill.problem import Measure, Problem, given_words, mark_sense
from lessons.mistakes.cut_mistakes import Misplaced, Proud
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

AS_LONG: Mapping[Measure, str] = {
    "edge": "As long a mark, but with its left end toward the {},",
    "face": "As long a mark, but with its top toward the {},",
    "drop": "As deep a drop, but on the {} face,",
}
"""A mark as long as the one that was given, slanting the other way."""
NEARLY_NONE: Mapping[Measure, str] = {
    "edge": "A line nearly square across the edge",
    "face": "A line nearly square across the face",
    "drop": "A bevel with nearly no drop",
}
"""What was given where a mistake leaves a mark of 0, which leans to no end."""
SHOULD: Mapping[Measure, str] = {
    "edge": "the edge mark's left end should slant toward the {}.",
    "face": "the face mark's top should slant toward the {}.",
    "drop": "the bevel should drop on the {} face.",
}


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
    given, besides = grade.read.said, ""
    if problem.measure and problem.sought and wrong.name != MIRRORED:
        sense, right = _mark_sense(problem, wrong), problem.sought.sense
        should = SHOULD[problem.measure].format(right)
        square = abs(float(wrong.value)) < ROUNDING
        if square or not grade.read.sense:
            besides = should[:1].upper() + should[1:]
        elif right != grade.read.sense:
            besides = f"Besides, {should}"
        if grade.read.sense and square:
            given = NEARLY_NONE[problem.measure]
        elif grade.read.sense and sense != grade.read.sense:
            given = AS_LONG[problem.measure].format(sense)
    said = f"{given} is what you get if {_after_if(wrong.does)} {wrong.why}"
    return " ".join(part for part in (said, price_words(wrong, problem), besides) if part)


def _mark_sense(problem: Problem, wrong: Wrong) -> str:
    """Toward which end a mark slants, or on which face a bevel drops, by a mistake: one that cuts
    another plane may turn it about, a slip of figures does not."""
    assert problem.measure is not None
    assert problem.sought is not None
    if wrong.made is None or isinstance(wrong.made, Misplaced | Proud):
        return problem.sought.sense
    return mark_sense(misread(problem.true_answer, wrong.made.setting), problem.measure)


def _after_if(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]
