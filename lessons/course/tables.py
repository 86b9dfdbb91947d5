"""The tables that a lesson names, each worked out for the lesson's own roof and board."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from math import atan2, degrees

from layout.answer.answer import Answer, answer
from layout.answer.wording import METRIC_RUN, number_words
from layout.errors import LayoutError
from layout.length.run_length import UNIT_RUN_IN, common_per_run, jack_per_spacing, line_per_run
from layout.quantity import Pitch, read_pitch, write_degrees
from layout.stock import Stock, read_stock
from lessons.mistakes.cut_mistakes import mistakes
from lessons.say.blocks import TableBlock
from lessons.say.units import System, written
from lessons.values.length_values import plan_number

RISES = (3, 4, 5, 6, 7, 8, 9, 10, 12)
"""Rises on 12 that a rafter table in a lesson has a row for."""
GAP_RISES = (3, 6, 8, 9, 12, 15)
THICKNESSES = ("1x6", "2x6", "4x6")
SPACINGS_IN = (16.0, 24.0)
SIDE_NUMBER = "side-number-as-tilt"


def gap_by_pitch(true_answer: Answer, system: System) -> TableBlock:
    """The gap of a tilt set by the side-cut number, by pitch and by thickness of the board."""
    boards = [read_stock(name) for name in THICKNESSES]
    rows = []
    for rise in GAP_RISES:
        pitch = read_pitch(f"{rise} in 12")
        here = _at(true_answer, pitch, boards[0])
        cells = [_gap(here, board, system) for board in boards]
        rows.append((_pitch(pitch, system), *cells))
    thick = (f"board {written(board.thickness_in, 'in', system)} thick" for board in boards)
    return TableBlock(("Pitch", *thick), tuple(rows), "The gap left by a tilt set to the number")


def _gap(on_first: Answer, board: Stock, system: System) -> str:
    """The gap on this board; the joint is sought on the first one alone."""
    asked = on_first.question.on(board)
    here = answer(asked, tolerance_in=on_first.tolerance_in, limits=on_first.limits)
    made = mistakes()[SIDE_NUMBER].made_on(here)
    return "nothing" if made is None else written(made.price_in, "gap", system)


def two_pitches(true_answer: Answer, system: System) -> TableBlock:
    """The same cut at several pitches: what moves with the pitch, and what does not."""
    own = true_answer.question.pitch
    steeper = read_pitch("12 in 12")
    shallow = read_pitch("5 in 12")
    pitches = sorted({p.rise_in_12: p for p in (shallow, own, steeper)}.items())
    rows = [_flat(true_answer, system)]
    for _, pitch in pitches:
        here = _at(true_answer, pitch, true_answer.question.stock)
        rows.append(
            (
                _pitch(pitch, system),
                write_degrees(here.face.from_square_deg),
                f"{_number(here, system)} on {number_words(UNIT_RUN_IN, metric=system.is_metric)}",
                write_degrees(here.edge.bevel_deg),
                write_degrees(float(here.cut.face_tilt_deg)),
            )
        )
    head = ("Pitch", "Face mark", "Side-cut number", "It lays, off the edge", "Tilt of the saw")
    return TableBlock(head, tuple(rows), "One corner, several pitches")


def _flat(true_answer: Answer, system: System) -> tuple[str, ...]:
    """The row of a roof without pitch, where the edge lies in the plan and the number shows it."""
    number = plan_number(true_answer)
    off_edge = degrees(atan2(number, UNIT_RUN_IN))
    run = number_words(UNIT_RUN_IN, metric=system.is_metric)
    return (
        f"0 in {METRIC_RUN * UNIT_RUN_IN:g}" if system.is_metric else "0 in 12",
        write_degrees(0.0),
        f"{written(number, 'square', system)} on {run}",
        write_degrees(off_edge),
        write_degrees(90.0 - off_edge),
    )


def _number(here: Answer, system: System) -> str:
    return written(float(here.cut.edge_number), "square", system)


def four_numbers(true_answer: Answer, system: System) -> TableBlock:
    """The four angles of one cut: what each is, and which tool it is for."""
    del system
    rows = (
        (
            "face mark",
            "on the face, from square across",
            true_answer.face.from_square_deg,
            "square",
        ),
        (
            "edge mark",
            "on the edge, from square across",
            true_answer.edge.from_square_deg,
            "square",
        ),
        ("edge mark", "on the edge, off the edge", true_answer.edge.bevel_deg, "sliding bevel"),
        ("tilt", "square to the face mark", float(true_answer.cut.face_tilt_deg), "saw"),
    )
    return TableBlock(
        ("Name", "Where it is measured", "Here", "Tool"),
        tuple((name, where, write_degrees(angle), tool) for name, where, angle, tool in rows),
        "Four angles of one cut",
    )


def rafter_table(true_answer: Answer, system: System) -> TableBlock:
    """Lengths of common and hip or valley over one unit of run, pitch by pitch."""
    rows = []
    for rise in RISES:
        pitch = read_pitch(f"{rise} in 12")
        corner = _at(true_answer, pitch, true_answer.question.stock).question.corner
        common, line = (
            written(UNIT_RUN_IN * float(per(corner)), "table", system)
            for per in (common_per_run, line_per_run)
        )
        rows.append((_pitch(pitch, system), common, line))
    run = "a meter" if system.is_metric else "a foot"
    head = ("Pitch", f"Common, for {run} of run", f"Hip or valley, for {run} of the common's run")
    unit = "millimeters" if system.is_metric else "inches"
    return TableBlock(head, tuple(rows), f"Rafter table: {unit} of rafter")


def jack_table(true_answer: Answer, system: System) -> TableBlock:
    """How much longer each jack is than the one before, pitch by pitch and by spacing."""
    rows = []
    for rise in RISES:
        pitch = read_pitch(f"{rise} in 12")
        corner = _at(true_answer, pitch, true_answer.question.stock).question.corner
        per = float(jack_per_spacing(corner))
        cells = (written(per * spacing, "in", system) for spacing in SPACINGS_IN)
        rows.append((_pitch(pitch, system), *cells))
    spaced = (f"Jacks {written(spacing, 'in', system)} on center" for spacing in SPACINGS_IN)
    return TableBlock(("Pitch", *spaced), tuple(rows), "Common difference of jacks")


def _pitch(pitch: Pitch, system: System) -> str:
    run = METRIC_RUN * UNIT_RUN_IN
    return f"{pitch.rise_in_12 * METRIC_RUN:g} in {run:g}" if system.is_metric else str(pitch)


def _at(true_answer: Answer, pitch: Pitch, board: Stock) -> Answer:
    """The same cut on a roof of one pitch and a board."""
    asked = replace(true_answer.question, pitch=pitch, other_pitch=pitch, stock=board)
    return answer(asked, tolerance_in=true_answer.tolerance_in, limits=true_answer.limits)


TABLES: dict[str, Callable[[Answer, System], TableBlock]] = {
    "gap-by-pitch": gap_by_pitch,
    "two-pitches": two_pitches,
    "four-numbers": four_numbers,
    "rafter-table": rafter_table,
    "jack-table": jack_table,
}
"""The tables a lesson may ask for by name."""


def table(name: str, true_answer: Answer, system: System) -> TableBlock | None:
    """The table of that name for this answer; None where the roof has no such cut."""
    return true_answer.once(("table", name, system), lambda: _table(name, true_answer, system))


def _table(name: str, true_answer: Answer, system: System) -> TableBlock | None:
    try:
        return TABLES[name](true_answer, system)
    except LayoutError:
        return None


def texts(of: TableBlock) -> Sequence[str]:
    """Every text that stands in a table."""
    return (of.shows, *of.head, *(cell for row in of.rows for cell in row))
