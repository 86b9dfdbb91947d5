"""What the one who teaches a lesson gets: time, materials, what goes wrong, and how to grade.

The form says what is measured on the cut piece, with which tool, and how far off it may be for
full and for half marks. What was set instead can be read back with `squaresaw read`.
"""

from collections.abc import Iterator

from figures.page.flow import LEAD_IN, Row, beside, framed, space, table, under, words
from layout.answer.answer import Answer
from layout.answer.sense_words import leaning
from layout.answer.wording import number_words, write_numbers
from layout.quantity import nearest, write_degrees
from layout.tools.setting import RipByHand
from lessons.course.runner import Worked
from lessons.say.units import System, write_gap_limit, written

SMALL_PT = 9.0
POINTS_MARK, POINTS_HAND, POINTS_FIT, POINTS_TILT = 20, 10, 30, 20
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
    rows.append(words(READ_BACK, wide, SMALL_PT))
    drawing = under(rows)
    yield space(0.12)
    yield Row(drawing.drawing, drawing.height_in + LEAD_IN, wide=True)


READ_BACK = (
    "Type what you measured into `squaresaw read`: it says what was set. Name of the learner"
    " ____________________  points ______"
)


def grade_lines(true_answer: Answer, system: System) -> Iterator[tuple[str, ...]]:
    """A line for each thing measured: where, what it should be, both limits, points, white."""
    limit = true_answer.tolerance_in
    full, half = (write_gap_limit(size, system) for size in (limit, HALF_OF * limit))
    metric = system.is_metric
    if true_answer.is_rip:
        gauges = true_answer.hand_setting(as_read=False)
        assert isinstance(gauges, RipByHand)
        drop = written(gauges.drop_in, "gap", system)
        yield ("Line on the face, with a rule", f"{drop} down", full, half, str(POINTS_MARK), "")
    else:
        for name, mark, end in (
            ("face", true_answer.face, "top"),
            ("edge", true_answer.edge, "left end"),
        ):
            if mark.numbers is None:
                yield (f"{name.capitalize()}, with the square", "square across", full, half,
                       str(POINTS_MARK), "")  # fmt: skip
                continue
            pair = write_numbers(mark.numbers, metric=metric)
            one = number_words(1 / 16, metric=metric)
            yield (f"{name.capitalize()} mark, with the square on the sawn line", pair, one,
                   number_words(1 / 8, metric=metric), str(POINTS_MARK), "")  # fmt: skip
            yield (f"Its {end}", f"toward the {leaning(mark)}", "so", "", str(POINTS_HAND), "")
    tilt = write_degrees(nearest(float(true_answer.cut.face_tilt_deg), 4))
    yield ("Across the cut, sliding bevel square to the face mark",
           f"{tilt} from square", "1/2°", "1°", str(POINTS_TILT), "")  # fmt: skip
    mate = true_answer.plane.mate_words
    yield (f"Gap against {mate}, with a feeler gauge", "closed", full, half,
           str(POINTS_FIT), "")  # fmt: skip
