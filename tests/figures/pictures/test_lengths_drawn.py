"""Lengths drawn: stepping off and out, jacks in a row, what the ridge takes off, the other end."""

from math import hypot

import numpy as np
import pytest
import shapely

from figures.ink.drawing import label_box
from figures.pictures.center_line import to_center_line
from figures.pictures.jack_row import jacks_unfolded
from figures.pictures.pictorial import at_other_end, other_end
from figures.pictures.ridge_taken import ridge_taken_off
from figures.pictures.rule_across import rule_across
from figures.pictures.stepped import stepped_in, stepped_out
from layout.errors import SheetError
from tests.views_of import length_in, one, scale_of, stroke, words

WIDE, COLUMN = (7.2, 2.35), (3.47, 3.6)
STEP_IN = {"8 in 12": 208**0.5, "12 in 12": 288**0.5}
"""The common for 12 of run: by the right triangle."""


@pytest.mark.parametrize("pitch", STEP_IN)
@pytest.mark.parametrize(("draw", "whole", "way"), [(stepped_in, 2, 1), (stepped_out, 1, -1)])
def test_whole_steps_and_a_part_of_one_lie_along_the_edge(draw, whole, way, pitch):
    """4 of 12 of run is a third of a step, so the last plumb line meets the edge there."""
    drawing = draw(one("common-ridge", pitch), WIDE)
    scale, step = scale_of(drawing), STEP_IN[pitch]
    wall, end = stroke(drawing, "building-line"), stroke(drawing, "end-line")
    (x0, y0), (x1, y1) = wall.points[0], end.points[0]
    assert y1 == pytest.approx(y0)
    assert (x1 - x0) / scale == pytest.approx(way * (whole + 1 / 3) * step)
    for line in (wall, end):
        (top_x, top_y), (low_x, low_y) = line.points
        rise, run = float(pitch.split()[0]), 12.0
        assert (top_x - low_x) / (top_y - low_y) == pytest.approx(rise / run)
    (part,) = (area.polygon.centroid for area in drawing.areas if area.gid == "part")
    laid = stroke(drawing, f"laid-{whole + 1}").points
    # Inward it is 4 from the edge along the arm that lies level, outward 4 from the heel.
    start = laid[0] if way > 0 else laid[1]
    assert hypot(part.x - start[0], part.y - start[1]) / scale == pytest.approx(4.0)
    said = " ".join(label.text for label in drawing.labels)
    assert ("the number 8" in said) == (way > 0)
    assert ("4 on the blade" in said) == (way < 0)
    (head,) = (label for label in drawing.labels if label.text == "HEAD")
    (foot,) = (label for label in drawing.labels if label.text == "foot")
    assert head.x > foot.x


def test_what_has_no_slope_is_not_stepped_off():
    with pytest.raises(SheetError, match="stepped off"):
        stepped_in(one("hip-backing"), WIDE)


@pytest.mark.parametrize("hand", ["left", "right"])
def test_each_jack_is_longer_by_the_common_difference(hand):
    """8 in 12, 16 in on center: 16 times 14.42 over 12 (the square's own table)."""
    drawing = jacks_unfolded(one("hip-jack", "8 in 12", hand), COLUMN)
    lengths = [length_in(stroke(drawing, f"jack-{n}")) / scale_of(drawing) for n in (1, 2, 3)]
    assert np.diff(lengths) == pytest.approx([16 * STEP_IN["8 in 12"] / 12] * 2)
    differences = [label for label in drawing.labels if label.gid == "difference"]
    assert [label.text for label in differences] == ["19\xa0¹⁄₄ in"] * 2
    corner = stroke(drawing, "hip").points[0][0]
    feet = [stroke(drawing, f"jack-{n}").points[0][0] for n in (1, 2, 3)]
    assert sorted(feet, key=lambda x: abs(x - corner)) == feet
    assert (feet[0] < corner) == (hand == "right"), "a right-hand jack's hip is at its right"
    for number, foot in enumerate(feet, start=1):
        (name,) = (label for label in drawing.labels if label.text == f"jack {number}")
        near = [abs(label_box(name).centroid.x - each) for each in feet]
        assert near[number - 1] == min(near), "a name stands at its own line"
        assert near[number - 1] < abs(foot - corner)


def test_half_the_ridge_is_level_and_more_along_the_edge():
    """3/4 in level at 12 in 12 is 3/4 times the root of two along the slope: 1 1/16."""
    drawing = ridge_taken_off(one("common-ridge", "12 in 12"), (3.47, 2.8))
    assert words(drawing, "level-value") == "³⁄₄ in"
    assert words(drawing, "along-value") == "1\xa0¹⁄₁₆ in"
    center, cut = stroke(drawing, "center").points, stroke(drawing, "cut-line").points
    assert (center[0][0] - cut[0][0]) / scale_of(drawing) == pytest.approx(0.75)


@pytest.mark.parametrize("hand", ["left", "right"])
def test_a_cripples_foot_is_drawn_with_its_cheek_the_other_way(hand):
    """Its two cheeks lie parallel, so at the foot it faces the other hand."""
    head = one("cripple-jack", hand=hand)
    foot = at_other_end(head)
    assert foot.question.end == "foot"
    assert np.asarray(foot.cut.normal) == pytest.approx(-np.asarray(head.cut.normal))
    drawing = other_end(head, COLUMN)
    assert "foot" in words(drawing, "heading")
    other = {"left": "RIGHT-HAND", "right": "LEFT-HAND"}[hand]
    assert other in words(drawing, "notes")
    with pytest.raises(SheetError, match="alone"):
        at_other_end(one("hip-jack"))


@pytest.mark.parametrize(("pitch", "reads"), [("9 in 12", "15"), ("18 in 12", "21\xa0⁵⁄₈")])
def test_a_rule_across_the_square_reads_the_rafter_for_one_step(pitch, reads):
    """9, 12 and 15 are a right triangle; 18 in 12 has its rise on the longer arm."""
    drawing = rule_across(one("common-ridge", pitch), (3.47, 2.8))
    size = length_in(stroke(drawing, "read")) / scale_of(drawing)
    rise = float(pitch.split()[0])
    assert size == pytest.approx(hypot(12.0, rise))
    assert words(drawing, "reads") == f"the rule reads {reads}"
    said = [label.text for label in drawing.labels]
    assert f"{max(rise, 12):g} on the blade" in said
    assert f"{min(rise, 12):g} on the tongue" in said


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("name", ["hip-jack", "hip-ridge-single"])
def test_a_shortening_is_drawn_from_center_line_to_side(name, hand):
    """Half of 1 1/2 in on a slant of 45: half the diagonal of a square, 1 1/16 in."""
    drawing = to_center_line(one(name, "9 in 12", hand), (3.47, 2.6))
    assert words(drawing, "level-value") == "1\xa0¹⁄₁₆ in"
    own, mates, cut = (
        shapely.LineString(stroke(drawing, gid).points)
        for gid in ("stick-center", "center-line", "cut-line")
    )
    meet, stop = own.intersection(mates.buffer(1e-6)), own.intersection(cut)
    assert (meet.centroid.x - stop.x) / scale_of(drawing) == pytest.approx(0.75 * 2**0.5, abs=1e-4)
    (x0, y0), (x1, y1) = cut.coords
    # Seen from above with the head at the right, the left face lies up the paper.
    left, right = (x0, x1) if y0 > y1 else (x1, x0)
    assert (right > left) == (hand == "left"), "a left-hand jack is longer at its right face"
    with pytest.raises(SheetError, match="slant"):
        to_center_line(one("common-ridge"), (3.47, 2.6))
