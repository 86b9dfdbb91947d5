"""Every name is put: where nothing stands, else where it crosses the fewest lines."""

from figures.ink.drawing import Drawing, Label, Stroke
from figures.place.least_crossed import least_crossed

LINES = Drawing(
    strokes=tuple(Stroke(((0.0, y), (4.0, y)), "visible", f"line-{y}") for y in (0.0, 1.0, 1.02))
)


def label(y: float, text: str = "C7") -> Label:
    return Label(text, 2.0, y, 8.0, "center", "center")


def test_the_first_free_place_is_taken():
    (put,) = least_crossed([[label(0.0), label(0.5), label(2.0)]], LINES, 0.02)
    assert put.y == 0.5


def test_where_no_place_is_free_the_name_crosses_the_fewest_lines():
    (put,) = least_crossed([[label(1.01), label(0.0)]], LINES, 0.02)
    assert put.y == 0.0


def test_a_name_would_rather_cross_lines_than_another_name():
    first, second = least_crossed(
        [[label(0.5)], [label(0.5, "C8"), label(1.01, "C8")]], LINES, 0.02
    )
    assert (first.y, second.y) == (0.5, 1.01)


def test_a_name_is_put_even_where_it_must_touch_another():
    put = list(least_crossed([[label(0.5)], [label(0.5, "C8")]], LINES, 0.02))
    assert [one.text for one in put] == ["C7", "C8"]
