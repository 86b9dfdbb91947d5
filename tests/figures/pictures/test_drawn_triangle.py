"""The triangle on a board that finds the edge mark: its sides, its figures, and how it hangs."""

from math import atan2, degrees, hypot

import pytest
import shapely

from figures.ink.drawing import label_box
from figures.pictures.drawn_triangle import edge_triangle
from tests.views_of import one, stroke, words

ROOM = (3.47, 3.6)
"""A column of a lesson's page."""
CUTS = ["hip-jack", "valley-jack", "hip-ridge-single", "valley-ridge", "purlin-square"]


def long_dimensions(drawing):
    """The dimension lines, without their extension lines, longest first."""
    lines = [
        shapely.LineString(line.points)
        for line in drawing.strokes
        if line.pen == "dimension" and len(line.points) == 2
    ]
    return sorted(lines, key=lambda line: -line.length)


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("name", CUTS)
def test_every_length_stands_on_its_own_dimension_line(name, hand):
    """A figure that floats beside the drawing, or under the wrong side, names another length."""
    drawing = edge_triangle(one(name, "8 in 12", hand), ROOM)
    figures = [label for label in drawing.labels if label.text.endswith(")")]
    assert len(figures) == 2
    for label in figures:
        box = label_box(label)
        (line,) = [each for each in long_dimensions(drawing)[:3] if each.distance(box) < 0.06]
        along = (line.coords[1][0] - line.coords[0][0], line.coords[1][1] - line.coords[0][1])
        upright = abs(along[1]) > abs(along[0])
        assert upright == (label.rotation_deg == 90.0)
        middle = line.project(box.centroid) / line.length
        assert middle == pytest.approx(0.5, abs=0.02)


def test_the_base_of_a_hips_triangle_says_17_and_its_length_the_rafters():
    drawing = edge_triangle(one("hip-ridge-single", "9 in 12"), ROOM)
    said = {label.text.split(" (")[0]: label_box(label) for label in drawing.labels}
    base = shapely.LineString(stroke(drawing, "eave").points)
    assert said["17"].centroid.y < base.bounds[1], "below the side that runs across"
    assert said["19\xa0³⁄₁₆"].centroid.x > base.bounds[2], "beside the rafter's own length"


@pytest.mark.parametrize("hand", ["left", "right"])
def test_under_a_valley_the_triangle_hangs_from_the_ridge(hand):
    """There a jack runs from the ridge down to the valley: the eave has no part in it."""
    drawing = edge_triangle(one("valley-jack", "9 in 12", hand), ROOM)
    ridge, jack, valley = (stroke(drawing, gid) for gid in ("eave", "length", "edge-mark"))
    assert min(y for _, y in ridge.points) == max(y for _, y in jack.points)
    assert valley.points[0] == ridge.points[0]
    assert valley.points[1] == jack.points[1]
    (x0, y0), (x1, y1) = valley.points
    assert y1 < y0
    # 9 in 12: the common is 15 long, the edge mark 12 along it and 9 5/8 off it.
    (j0, j1) = jack.points
    size = hypot(j1[0] - j0[0], j1[1] - j0[1]) / 15.0
    assert degrees(atan2(abs(x1 - x0), abs(y1 - y0))) == pytest.approx(38.66, abs=0.01)
    assert abs(x1 - x0) / size == pytest.approx(12.0)
    (p, q) = stroke(drawing, "read").points
    assert abs(q[0] - p[0]) / size == pytest.approx(9.6)
    assert (p[1] - j1[1]) / size == pytest.approx(12.0), "12 up from where valley and jack meet"
    assert words(drawing, "read-value") == "9\xa0⁵⁄₈"
    assert any(label.text.endswith("(ridge)") and label.y > y0 for label in drawing.labels)
    hip = edge_triangle(one("hip-jack", "9 in 12", hand), ROOM)
    assert stroke(hip, "edge-mark").points[1][1] > stroke(hip, "edge-mark").points[0][1]
