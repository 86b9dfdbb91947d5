"""Every name is put: at its own lines, else with a line to them, else where it crosses least."""

import shapely

from figures.ink.drawing import Drawing, Label, Stroke, label_box
from figures.place.least_crossed import NamePlaces, least_crossed

LINES = Drawing(
    strokes=tuple(Stroke(((0.0, y), (4.0, y)), "visible", f"line-{y}") for y in (0.0, 1.0, 1.02))
)


def label(y, text="C7"):
    return Label(text, 2.0, y, 8.0, "center", "center")


def named(places, *, own="line-0.0", spots=(), text="C7"):
    return NamePlaces(label(0.0, text), own, tuple(label(y, text) for y in places), tuple(spots))


def test_the_first_free_place_near_its_own_line_is_taken():
    put = least_crossed([named([0.0, 0.6, 0.2])], LINES, 0.02)
    assert [one.y for one in put.labels] == [0.2], "0.6 is nearer to the line at 1"
    assert not put.strokes


def test_where_no_place_is_its_own_a_line_leads_to_a_dot_on_what_it_names():
    put = least_crossed([named([0.0, 0.9], spots=[(2.0, 0.0)])], LINES, 0.02)
    (line,), (dot,), (words,) = put.strokes, put.areas, put.labels
    assert dot.polygon.centroid.distance(shapely.Point(2.0, 0.0)) < 1e-9
    assert min(shapely.Point(at).distance(dot.polygon.centroid) for at in line.points) < 1e-9
    lines = [shapely.linestrings(one.points) for one in (*LINES.strokes, line)]
    assert not any(one.intersects(label_box(words)) for one in lines)


def test_a_line_from_a_name_runs_over_no_other_name_and_along_no_stick():
    told = [named([], spots=[(2.0, 0.0)], text=f"C{at}") for at in range(8)]
    put = least_crossed(told, LINES, 0.02)
    lines = {
        one.gid.removeprefix("leader-"): shapely.linestrings(one.points) for one in put.strokes
    }
    assert lines
    for name, line in lines.items():
        others = [label_box(one) for one in put.labels if one.text != name]
        assert not any(line.intersects(box) for box in others)
        (x0, y0), (x1, y1) = line.coords
        assert abs(y1 - y0) > 0.1 * abs(x1 - x0), "level lines are sticks here"


def test_where_no_place_is_free_the_name_crosses_the_fewest_lines():
    (put,) = least_crossed([named([1.01, 0.0])], LINES, 0.02).labels
    assert put.y == 0.0


def test_a_name_would_rather_cross_lines_than_another_name():
    told = [named([0.2]), named([0.2, 1.01], text="C8")]
    first, second = least_crossed(told, LINES, 0.02).labels
    assert (first.y, second.y) == (0.2, 1.01)


def test_a_name_is_put_even_where_it_must_touch_another():
    put = least_crossed([named([0.2]), named([0.2], text="C8")], LINES, 0.02).labels
    assert [one.text for one in put] == ["C7", "C8"]
