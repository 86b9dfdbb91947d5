"""A drawing has one name, whether a lesson asks for it or the command line does."""

import pytest

from figures.pictures.composed import DRAWN
from lessons.course.lesson_data import PICTURES
from lessons.course.pictures import DRAWN_BY, SHOWS


def test_lessons_and_views_call_the_same_drawing_by_the_same_name():
    views = {
        f"{draws[0].__module__}.{draws[0].__name__}": view
        for view, draws in DRAWN.items()
        if len(draws) == 1
    }
    shared = {name: views[".".join(by)] for name, by in DRAWN_BY.items() if ".".join(by) in views}
    assert len(shared) >= 6
    assert {name: view for name, view in shared.items() if name != view} == {}


@pytest.mark.parametrize("name", PICTURES)
def test_every_picture_of_a_lesson_is_drawn_and_said(name):
    assert name in SHOWS
    assert name in DRAWN_BY or name == "wrong-tilt"
