"""What the one who teaches a lesson gets: time, materials, what goes wrong, and how to grade.

The form says what is measured on the cut piece, with which tool, and how far off it may be for
full and for half marks. What was set instead can be read back with squaresaw read.
"""

from collections.abc import Iterator, Sequence

from figures.page.flow import LEAD_IN, Row, beside, framed, space, table, under, words
from layout.answer.answer import Answer
from layout.answer.sense_words import leaning
from layout.answer.wording import number_words, write_numbers
from layout.quantity import nearest, write_degrees
from layout.tools.setting import RipByHand
from lessons.course.runner import Worked
from lessons.pages.lesson_rows import heading_rows
from lessons.say.asked_words import asked_words
from lessons.say.how_many import how_many
from lessons.say.units import System, write_gap_limit, written

SMALL_PT = 9.0
POINTS_MARK, POINTS_HAND, POINTS_TILT = 20, 10, 20
POINTS_IN_ALL = 100
"""The gap has what the marks and the tilt leave of these."""
HEAD = ("Measure", "Should be", "Full", "Half", "Points", "Got")
PARTS = (2.3, 2.1, 0.75, 0.75, 0.65, 0.6)
HALF_OF = 2.0
"""Half the points for twice the limit."""


def teach_rows(worked: Worked, width_in: float) -> Iterator[Row]:
    """The notes over a lesson: minutes, what to bring, what goes wrong, what to ask."""
    teach = worked.lesson.teach
    if teach is None:
        return
    names, inside = 0.85, width_in - 0.16
    right, system = worked.answer, worked.system
    said = [
        ("Time", f"{teach.minutes} minutes"),
        ("Bring", teach.bring.fill(right, system)),
        ("Goes wrong", teach.watch.fill(right, system)),
        ("Ask", teach.ask.fill(right, system)),
    ]
    rows = [words("FOR THE INSTRUCTOR", inside, SMALL_PT, bold=True)]
    rows += [
        beside(
            words(name, names - 0.08, SMALL_PT, bold=True),
            words(text, inside - names, SMALL_PT),
            names,
        )
        for name, text in said
    ]
    yield framed(under(rows), width_in)
    yield space(0.08)


FRONT = "For the instructor"
COURSE_HEAD = ("Lesson", "Minutes", "Bring, with the scrap to cut")
COURSE_PARTS = (2.5, 0.7, 4.3)
MARK_SHEETS = (
    "Print worksheets with squaresaw worksheet. The same seed prints the same sheet; its key goes"
    " to another file.",
    "A number: right within the limit that the key tells. The key names the mistake that leads to a"
    " wrong value: ask for it, and count it once.",
    "Find the error: half for the line, half for the reason.",
    "A mark on the board: a third each for the face mark, the edge mark and the waste. A mark that"
    " leans the other way is wrong, whatever its angle.",
    "Put results in a file for each learner: yes or no under right, the key's sentence under"
    " mistakes, a semicolon between two. squaresaw class read says who can do what, which"
    " mistakes are commonest, and who needs which lesson next.",
)
GRADE_PIECES = (
    "A form stands at the end of each lesson. Check the piece on the bench with a square, a sliding"
    " bevel and a feeler gauge. Give full points within the first limit, half within the second,"
    " none beyond.",
    "A piece cut to the other hand gets no points for its gap.",
    "Let the learner say what was set before squaresaw read says it.",
)


def instructor_rows(all_worked: Sequence[Worked], width_in: float) -> Iterator[Row]:
    """The course at a glance: minutes, scrap to cut, how to mark sheets and grade pieces."""
    taught = [worked for worked in all_worked if worked.lesson.teach is not None]
    minutes = 0
    lines = []
    for worked in taught:
        teach = worked.lesson.teach
        assert teach is not None
        minutes += teach.minutes
        bring = teach.bring.fill(worked.answer, worked.system)
        lines.append((worked.lesson.heading, str(teach.minutes), bring))
    part = width_in / sum(COURSE_PARTS)
    yield words(
        f"{how_many(len(taught), 'lesson')}:"
        f" {minutes // 60} h {minutes % 60} min in all, without breaks.",
        width_in,
        bold=True,
    )
    yield space(0.06)
    yield from table(COURSE_HEAD, lines, [share * part for share in COURSE_PARTS], SMALL_PT)
    for title, said in (
        ("How to mark the sheets", MARK_SHEETS),
        ("How to grade the cut pieces", GRADE_PIECES),
    ):
        yield from heading_rows(title, width_in)
        for line in said:
            yield words(line, width_in, SMALL_PT)
            yield space(0.04)


def grade_rows(worked: Worked, width_in: float) -> Iterator[Row]:
    """The form by which the cut piece is graded, across the page."""
    teach = worked.lesson.teach
    if teach is None:
        return
    wide = 2 * width_in + 0.25
    part = wide / sum(PARTS)
    lines = list(grade_lines(worked.answer, worked.system))
    rows = [
        words("GRADING THE CUT PIECE", wide, SMALL_PT, bold=True),
        *table(HEAD, lines, [share * part for share in PARTS], SMALL_PT),
    ]
    if teach.grade is not None:
        rows.append(
            words(f"Also: {teach.grade.fill(worked.answer, worked.system)}", wide, SMALL_PT)
        )
    rows.append(words(READ_BACK.format(read_command(worked.answer)), wide, SMALL_PT))
    rows.append(words(POINTS_LINE.format(POINTS_IN_ALL), wide, SMALL_PT, bold=True))
    drawing = under(rows)
    yield space(0.12)
    yield Row(drawing.drawing, drawing.height_in + LEAD_IN, wide=True)


BLANK = "____"
READ_BACK = "What was set? Measure the sawn end, fill in and type: {}"
POINTS_LINE = "Name ____________________________   Points ______ of {}"


def read_command(true_answer: Answer) -> str:
    """The command that says what was set, with blanks for what is measured on the sawn end."""
    words = f"squaresaw read {asked_words(true_answer.question)}"
    if true_answer.is_rip:
        return f'{words} --across "{BLANK}" --drop "{BLANK}"'
    if true_answer.metric:
        words += " --units metric"
    if true_answer.face.numbers is not None:
        words += f' --face "{BLANK} from square"'
    if true_answer.edge.numbers is not None:
        words += f' --edge "{BLANK} from square"'
    return words


def grade_lines(true_answer: Answer, system: System) -> Iterator[tuple[str, ...]]:
    """A line for each thing measured: where, what it should be, both limits, points, white.

    The points come to POINTS_IN_ALL.
    """
    left = POINTS_IN_ALL
    for where, wanted, full, half, points in _measured(true_answer, system):
        left -= points
        yield where, wanted, full, half, str(points), ""
    mate = true_answer.plane.mate_words
    limit = true_answer.tolerance_in
    full, half = (write_gap_limit(size, system) for size in (limit, HALF_OF * limit))
    yield f"Gap against {mate}, with a feeler gauge", "closed", full, half, str(left), ""


def _measured(true_answer: Answer, system: System) -> Iterator[tuple[str, str, str, str, int]]:
    """What is measured on the piece itself: where, what it should be, both limits, points."""
    limit = true_answer.tolerance_in
    full, half = (write_gap_limit(size, system) for size in (limit, HALF_OF * limit))
    metric = system.is_metric
    if true_answer.is_rip:
        gauges = true_answer.hand_setting(as_read=False)
        assert isinstance(gauges, RipByHand)
        across, drop = (written(v, "gap", system) for v in (gauges.across_in, gauges.drop_in))
        yield "Line on the edge, with a rule", f"{across} across", full, half, POINTS_MARK
        yield "Line on the face, with a rule", f"{drop} down", full, half, POINTS_MARK
    else:
        for name, mark, end in (
            ("Face", true_answer.face, "top"),
            ("Edge", true_answer.edge, "left end"),
        ):
            if mark.numbers is None:
                yield f"{name}, with the square", "square across", full, half, POINTS_MARK
                continue
            said = write_numbers(mark.numbers, metric=metric)
            pair = f"{said} ({write_degrees(mark.from_square_deg)} from square)"
            one, two = (number_words(size, metric=metric) for size in (1 / 16, 1 / 8))
            yield f"{name} mark, with the square on the sawn line", pair, one, two, POINTS_MARK
            yield f"Its {end}", f"toward the {leaning(mark)}", "so", "", POINTS_HAND
    tilt = write_degrees(nearest(float(true_answer.cut.face_tilt_deg), 4))
    line = "line on the face" if true_answer.is_rip else "face mark"
    where = f"Across the cut, sliding bevel square to the {line}"
    yield where, f"{tilt} from square", "1/2°", "1°", POINTS_TILT
