"""Face view and edge view: the lines on the paper are the marks of the plane."""

import numpy as np
import pytest
import shapely

from figures.ink.drawing import label_box
from figures.pictures.middle import marks_through_middle
from figures.pictures.views import face_and_edge_views
from layout.stock import read_stock
from tests.counts import part_of
from tests.views_of import CUTS, NAMES, answers, lean_deg, one, scale_of, stroke, strokes, words

ROOM = (7.0, 4.0)


@pytest.mark.parametrize("spec", part_of(CUTS, 5, 0), ids=part_of(NAMES, 5, 0))
@pytest.mark.parametrize("pitch", ["3 in 12", "12 in 12"])
def test_marks_lean_as_the_layout_says(spec, pitch):
    for asked in answers(spec, pitch):
        drawing = face_and_edge_views(asked, ROOM)
        if asked.is_rip:
            # The bevel from square to the face is its tilt, seen from the end.
            bevel = 90.0 - lean_deg(stroke(drawing, "end-mark"))
            assert bevel == pytest.approx(float(asked.cut.face_tilt_deg), abs=1e-6)
            continue
        face, edge = stroke(drawing, "face-mark"), stroke(drawing, "edge-mark")
        assert lean_deg(face) == pytest.approx(float(asked.cut.face_mark_deg), abs=1e-6)
        assert lean_deg(edge) == pytest.approx(float(asked.cut.edge_mark_deg), abs=1e-6)
        assert face.points[0] == pytest.approx(edge.points[0], abs=1e-9), "they meet at the arris"


def test_the_sense_of_each_mark_is_the_boards():
    """A left-hand jack's top leans to the head; the far end of its edge mark to the foot."""
    drawing = face_and_edge_views(one("hip-jack", hand="left"), ROOM)
    (arris_x, _), (low_x, _) = stroke(drawing, "face-mark").points
    (_, _), (far_x, _) = stroke(drawing, "edge-mark").points
    assert words(drawing, "heading").startswith("Right face")
    assert low_x < arris_x
    assert far_x < arris_x
    right = face_and_edge_views(one("hip-jack", hand="right"), ROOM)
    (arris_x, _), (far_x, _) = stroke(right, "edge-mark").points
    assert far_x > arris_x
    assert "RIGHT-HAND" in words(right, "notes")


def test_the_waste_is_on_the_side_of_the_end_that_is_cut():
    for name, at_right in (("hip-jack", True), ("valley-jack", False)):
        drawing = face_and_edge_views(one(name), ROOM)
        waste = next(area for area in drawing.areas if area.gid == "face-waste")
        arris_x = stroke(drawing, "face-mark").points[0][0]
        centre = waste.polygon.centroid.x
        assert (centre > arris_x) == at_right
        assert words(drawing, "waste-word") == "WASTE"


def test_the_board_is_as_deep_and_as_thick_as_its_scale_says():
    asked = one("hip-jack")
    drawing = face_and_edge_views(asked, ROOM)
    scale = scale_of(drawing)
    face_y = stroke(drawing, "face").points[0][1]
    arris_y = stroke(drawing, "arris").points[0][1]
    edge_y = stroke(drawing, "edge").points[0][1]
    assert arris_y - face_y == pytest.approx(5.5 * scale)
    assert edge_y - arris_y == pytest.approx(1.5 * scale)


def test_twelve_in_twelve_reads_the_well_known_angles():
    """45 on the face and 54.74 on the edge: 12 and 8 1/2 on the square (common practice)."""
    drawing = face_and_edge_views(one("hip-jack", "12 in 12"), ROOM)
    assert words(drawing, "face-angle") == "45°"
    assert words(drawing, "edge-angle") == "54.74°"


def test_two_cheeks_show_both_marks_on_the_edge():
    drawing = face_and_edge_views(one("hip-ridge"), ROOM)
    (own,), (other,) = strokes(drawing, "edge-mark"), strokes(drawing, "edge-mark-2")
    assert own.points[1] == pytest.approx(other.points[0], abs=1e-9)
    assert np.sign(own.points[1][0] - own.points[0][0]) != np.sign(
        other.points[1][0] - other.points[0][0]
    )


def test_a_birds_mouth_keeps_the_board_on_both_sides():
    drawing = face_and_edge_views(one("common-seat"), ROOM)
    assert len(strokes(drawing, "break")) == 2
    assert words(drawing, "heading").startswith("Right face, and the bottom edge folded down")


def test_a_bevel_is_gauged_from_its_end_view():
    drawing = face_and_edge_views(one("hip-backing", "8 in 12"), ROOM)
    assert words(drawing, "across") == "³⁄₄ in"
    assert words(drawing, "drop") == "⁵⁄₁₆ in"


def test_a_bevel_is_shown_on_the_face_where_its_line_is_gauged():
    for hand in ("left", "right"):
        for name in ("hip-backing", "sleeper-edge"):
            asked = one(name, hand=hand)
            drawing = face_and_edge_views(asked, ROOM)
            shown = words(drawing, "heading").split()[0].lower()
            mark = stroke(drawing, "face-mark").points
            arris = stroke(drawing, "arris").points
            fall = abs(mark[0][1] - arris[0][1]) / scale_of(drawing)
            assert fall == pytest.approx(asked.hand_setting(as_read=False).drop_in)
            assert shown == ("right" if asked.hand_setting(as_read=False).right > 0 else "left")


def test_the_waste_of_a_hollow_end_is_no_longer_than_it_must_be():
    drawing = face_and_edge_views(one("valley-tail"), ROOM)
    assert len(strokes(drawing, "break")) == 1


@pytest.mark.parametrize("name", ["common-ridge", "common-tail-level", "hip-jack"])
@pytest.mark.parametrize("tall_in", [2.6, 3.2])
def test_the_arrow_to_the_head_has_a_shaft_and_a_word_at_either_end(name, tall_in):
    """On a narrow board drawn small it must not shrink to its own head, with both words there."""
    asked = one(name, "4 in 12", stock=read_stock("2x4"))
    drawing = face_and_edge_views(asked, (3.47, tall_in))
    (arrow,) = (area.polygon for area in drawing.areas if area.gid == "to-head")
    left, low, right, high = arrow.bounds
    assert right - left > 0.45
    head, foot = (next(x for x in drawing.labels if x.text == said) for said in ("HEAD", "foot"))
    middle = (left + right) / 2
    places = [label_box(label).centroid.x for label in (head, foot)]
    assert (places[0] - middle) * (places[1] - middle) < 0, "one at either end"
    wide = [x for x, y in arrow.exterior.coords if abs(y - (low + high) / 2) > 0.05]
    assert (wide[0] - middle) * (places[0] - middle) > 0, "its head points at HEAD"
    for label in (head, foot):
        assert label_box(label).distance(arrow) < 0.25


@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_middle_line_is_named_from_its_kept_end(hand):
    """An arrow that runs among the marks looks like one more of them."""
    drawing = marks_through_middle(one("hip-jack", "9 in 12", hand), (3.47, 3.0))
    (middle,) = (line.points for line in drawing.strokes if line.gid == "middle-line")
    level = middle[0][1]
    (lead,) = (
        shapely.LineString(line.points)
        for line in drawing.strokes
        if line.pen == "dimension"
        and abs(line.points[0][1] - level) < 1e-6
        and min(middle)[0] < line.points[0][0] < min(middle)[0] + 0.5
    )
    for gid in ("face-mark", "edge-mark", "first-mark", "square-across"):
        for line in strokes(drawing, gid):
            assert not lead.intersects(shapely.LineString(line.points)), gid
