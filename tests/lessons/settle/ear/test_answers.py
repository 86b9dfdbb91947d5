"""Answers said in words are put in figures; what says more than one number is left alone."""

import pytest

from lessons.drill.grading import read_answer
from lessons.settle.ear.answers import in_figures
from tests.lessons.drill.test_grading import angle_problem, number_problem


@pytest.mark.parametrize(
    ("said", "figures"),
    [
        ("thirty-five and a quarter", "35.25"),
        ("about eight and a half on twelve", "8.5 on 12"),
        ("forty five degrees", "45 deg"),
        ("8⅖", "8.4"),
        ("5/16 of an inch", "0.3125 in"),
        ("three quarters of an inch", "0.75 in"),
        ("13 foot 3 and 11/16", "159.6875 in"),
        ("45 or 35", None),
        ("not 45", None),
        ("hello", None),
        ("fnord 8", None),
    ],
)
def test_answers_in_words(said, figures):
    assert in_figures(said) == figures


def test_a_drill_hears_them():
    assert read_answer(angle_problem(), "thirty-three and a half degrees").value == 33.5
    assert read_answer(number_problem(), "eight and a half").value == 8.5
