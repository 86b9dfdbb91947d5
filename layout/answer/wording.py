"""Settings and marks in the words of the trade: strings for sheets, lessons and the terminal."""

import re

from layout.answer.answer import MILLIMETRE_PARTS, Answer
from layout.quantity import (
    MM_PER_INCH,
    Pitch,
    nearest,
    write_degrees,
    write_fraction,
    write_metric,
    write_sixteenths,
)
from layout.stock import Stock
from layout.tools.square import GRADUATION, Numbers

METRIC_RUN = MILLIMETRE_PARTS
"""Millimetres laid on a metric square for an inch on an inch square: a run of 12 becomes 300."""

NOMINAL = re.compile(r"\d+x\d+")
"""A board's name that is not its real size, such as 2x6."""


def given_line(answer: Answer) -> str:
    """The roof and the board the answer is for, in the units it is asked in."""
    asked, metric = answer.question, answer.metric
    pitch = pitch_words(asked.pitch, metric=metric)
    parts = [f"{pitch} ({write_degrees(asked.pitch.slope_deg)})"]
    if asked.other_pitch.slope_deg != asked.pitch.slope_deg:
        parts.append(f"other roof {pitch_words(asked.other_pitch, metric=metric)}")
    if asked.entry.meets != "nothing":
        parts.append(corner_words(asked.corner_deg))
    if asked.roll_deg:
        parts.append(f"rolled {write_degrees(asked.roll_deg)}")
    parts.append(f"board {board_words(asked.stock, metric=metric)}")
    return "; ".join(parts)


def sentence(text: str) -> str:
    """Words as a sentence: the first letter large, a full stop behind them."""
    return f"{text[0].upper()}{text[1:]}."


def size_words(value_in: float, parts: int = 32, *, metric: bool = False) -> str:
    """A length to the nearest 1/`parts` in, or to the half millimeter."""
    if metric:
        return write_metric(value_in)
    return f"{write_fraction(value_in, parts)} in"


def number_words(number: float, *, metric: bool = False) -> str:
    """A number on the square to the nearest sixteenth, or millimeter of a metric square."""
    return f"{nearest(number * METRIC_RUN, 1):.10g}" if metric else write_fraction(number)


def pitch_words(pitch: Pitch, *, metric: bool = False) -> str:
    """A pitch as it was said; in metric one on a run of 12 is put on the metric square's 300."""
    if metric and pitch.said.endswith(" in 12"):
        return f"{nearest(pitch.rise_in_12 * METRIC_RUN, 2):.10g} in {12 * METRIC_RUN}"
    return str(pitch)


def board_words(stock: Stock, *, metric: bool = False) -> str:
    """A board's name, and its real size where the name is not that already."""
    if not metric:
        return str(stock)
    sides = (nearest(side * MM_PER_INCH, 1) for side in (stock.thickness_in, stock.depth_in))
    real = " x ".join(f"{side:.10g}" for side in sides)
    return f"{stock.name} ({real} mm)" if NOMINAL.fullmatch(stock.name) else f"{real} mm"


def corner_words(corner_deg: float) -> str:
    """The angle between the walls, from the side on which it is below 180 degrees."""
    if corner_deg > 180:
        return f"inside corner {write_degrees(360 - corner_deg)}"
    return f"corner {write_degrees(corner_deg)}"


def short_answer(answer: Answer) -> str:
    """Face, edge and tilt in one line, for lists and captions."""
    if answer.is_rip:
        return f"rip, tilt {write_degrees(float(answer.cut.face_tilt_deg))}"
    number = float(answer.cut.edge_number)
    edge = "edge square"
    if answer.edge.numbers:
        edge = f"edge {on_run(number) if answer.metric else f'{write_sixteenths(number)} on 12'}"
    return (
        f"face {write_degrees(answer.face.from_square_deg)}, {edge},"
        f" tilt {write_degrees(float(answer.cut.face_tilt_deg))}"
    )


def on_run(number: float, *, metric: bool = True) -> str:
    """A side-cut number beside the run that it belongs to, 12 or 300."""
    return f"{number_words(number, metric=metric)} on {12 * METRIC_RUN if metric else 12}"


def write_numbers(numbers: Numbers, *, metric: bool = False) -> str:
    """How the square is laid: a number on each arm, and the arm to mark along."""
    pair = numbers.as_read(METRIC_RUN if metric else GRADUATION)
    if pair.mark == 0:
        return "square across, nearer than any two numbers lay it"
    if pair.other == 0:
        return "straight along, nearer than any two numbers lay it"
    blade, tongue = (number_words(side, metric=metric) for side in (pair.blade, pair.tongue))
    return f"{blade} on the blade, {tongue} on the tongue; mark along the {pair.mark_arm}"
