"""The tilt at full size: its lines stand as far apart as the saw is set."""

from itertools import combinations

import pytest
import shapely

from figures.ink.drawing import collisions, label_box
from figures.pictures.tilt_angle import tilt_angle
from figures.wrap.note_blocks import TILT_SIZES_IN
from layout.errors import SheetError
from tests.views_of import lean_deg, length_in, stroke, words


@pytest.mark.parametrize("tilt_deg", [0.5, 3.0, 22.5, 35.264, 45.0, 60.0, 82.0])
def test_the_blade_leans_off_square_by_the_tilt(tilt_deg):
    drawing = tilt_angle(tilt_deg)
    blade, shoe = stroke(drawing, "tilt-blade"), stroke(drawing, "tilt-shoe")
    assert lean_deg(blade) == pytest.approx(tilt_deg, abs=1e-9)
    assert lean_deg(shoe) == pytest.approx(90.0, abs=1e-9)
    assert blade.points[0] == pytest.approx(shoe.points[0]), "both lines meet at one corner"
    assert min(length_in(blade), length_in(shoe)) >= 1.9, "long enough to lay a tool to"
    assert words(drawing, "tilt-value").startswith("tilt ")
    assert not collisions(drawing)
    left, bottom, _, _ = drawing.bounds()
    assert (left, bottom) == pytest.approx((0.0, 0.0))


def test_the_words_name_the_angle_off_square_and_not_the_rest_of_90():
    """They never stand between the saw blade and the shoe."""
    for tilt_deg in range(2, 84, 3):
        drawing = tilt_angle(tilt_deg)
        (value,) = (label for label in drawing.labels if label.gid == "tilt-value")
        (x0, y0), (x1, y1) = stroke(drawing, "tilt-blade").points
        turn = (x1 - x0) * (value.y - y0) - (y1 - y0) * (value.x - x0)
        assert turn > 0, f"at {tilt_deg} the words stand under the blade"


@pytest.mark.parametrize(("high_in", "shoe_in"), TILT_SIZES_IN)
def test_no_line_passes_through_words(high_in, shoe_in):
    """By geometry: no stroke and no arrowhead meets the rectangle of any word, grown by 0.02 in."""
    for halves in range(4, 121):
        drawing = tilt_angle(halves / 2, high_in, shoe_in)
        lines = [shapely.linestrings(one.points) for one in drawing.strokes]
        lines += [area.polygon for area in drawing.areas]
        boxes = [label_box(label, 0.02) for label in drawing.labels]
        for label, box in zip(drawing.labels, boxes, strict=True):
            assert not any(line.intersects(box) for line in lines), (halves / 2, label.text)
        assert not any(a.intersects(b) for a, b in combinations(boxes, 2)), halves / 2


def test_a_square_blade_needs_no_figure_and_a_flat_one_is_refused():
    assert not tilt_angle(0.0)
    with pytest.raises(SheetError, match="85"):
        tilt_angle(88.0)
