"""How values are written in inches and in millimetres."""

import pytest

from layout.answer.answer import MILLIMETRE_PARTS, answer
from layout.answer.question import ask
from layout.answer.wording import given_line
from layout.quantity import read_pitch
from layout.stock import read_stock
from lessons.say.units import System, written


@pytest.mark.parametrize(
    ("value", "unit", "inch", "metric"),
    [
        (1.5, "in", "1 1/2 in", "38 mm"),
        (8.4853, "in", "8 1/2 in", "216 mm"),
        (4.9576, "fine", "4 31/32 in", "126 mm"),
        (8.4853, "square", "8 1/2", "212"),
        (12.0, "square", "12", "300"),
        (9.6, "laid", "9 5/8 shy", "240"),
        (9.62, "laid", "9 5/8", "240"),
        (11.0769, "laid", "11 1/16", "277"),
        (16.9706, "laid", "17 shy", "424"),
        (5.6569, "laid", "5 11/16 shy", "141"),
        (16.9706, "square", "17", "424"),
        (14.4222, "table", "14.42", "1201.9"),
        (8.4025, "reckoned", "8.4", "210.1"),
        (12.0, "table", "12", "1000"),
        (0.353553, "gap", "23/64 in", "9.0 mm"),
        (0.001, "gap", "under 1/128 in", "under 0.05 mm"),
        (0.0, "gap", "no gap", "no gap"),
        (33.690067, "deg", "33.69°", "33.69°"),
        (51.5, "ft", "4'-3 1/2\"", "1308 mm"),
    ],
)
def test_a_value_in_both_systems(value, unit, inch, metric):
    assert written(value, unit, System.INCH) == inch
    assert written(value, unit, System.METRIC) == metric


def test_numbers_round_once_to_the_millimetre():
    # 10.854 on 12 is 271.35 on 300; by way of 10 7/8 it would come out as 272.
    assert written(10.854, "square", System.METRIC) == "271"


def test_pitches_and_boards_follow_the_system():
    assert written(read_pitch("8"), "", System.METRIC) == "200 in 300"
    assert written(read_pitch("8 1/2"), "", System.METRIC) == "212.5 in 300"
    assert written(read_pitch("35deg"), "", System.METRIC) == "35 deg"
    assert written(read_pitch("700/1000"), "", System.METRIC) == "700 in 1000"
    assert written(read_stock("2x6"), "", System.METRIC) == "2x6 (38 x 140 mm)"
    assert written(read_stock("38mm x 140mm"), "", System.METRIC) == "38 x 140 mm"
    assert written(read_stock("2x6"), "", System.INCH) == "2x6 (1 1/2 x 5 1/2 in)"
    pair = (read_pitch("8"), read_pitch("6"))
    assert written(pair, "", System.INCH) == "8 in 12 and 6 in 12"


def test_the_given_line_in_millimetres():
    question = ask("hip-jack", other_pitch=read_pitch("6"))
    line = given_line(answer(question, square_parts=MILLIMETRE_PARTS))
    assert "200 in 300 (33.69°); other roof 150 in 300" in line
    assert "38 x 140 mm" in line
    assert " in)" not in line


def test_a_metric_square_is_read_to_the_millimetre():
    # On a run of 300 a millimetre is finer than a sixteenth on 12.
    inch, metric = (
        answer(ask("hip-jack", pitch=read_pitch("10")), square_parts=system.square_parts)
        for system in System
    )
    assert inch.edge.square == (12.0, 9.1875)
    assert metric.edge.square == (12.0, 9.2)  # 230 on 300
    # 12 * 12 / sqrt(244) = 9.2186: both rules are read to their nearest division.
    assert abs(metric.edge.square[1] - 9.2186) <= 1 / 50
    assert abs(inch.edge.square[1] - 9.2186) <= 1 / 32
