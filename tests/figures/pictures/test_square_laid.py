"""The framing square on the stick: its numbers on the arris, its arm on the mark."""

import numpy as np
import pytest
import shapely

from figures.ink.drawing import label_box
from figures.pictures.framing_square import laid
from figures.pictures.square_laid import square_on_edge, square_on_face
from figures.wood.unfolded import stick
from tests.counts import part_of
from tests.views_of import CUTS, NAMES, answers, lean_deg, one, scale_of, stroke, strokes, words

ROOM = (7.0, 4.2)
ON = {"face": square_on_face, "edge": square_on_edge}


def dot(drawing, gid):
    (found,) = (area.polygon.centroid for area in drawing.areas if area.gid == gid)
    return np.array([found.x, found.y])


@pytest.mark.parametrize("where", ["face", "edge"])
@pytest.mark.parametrize("spec", part_of(CUTS, 5, 0), ids=part_of(NAMES, 5, 0))
def test_both_numbers_lie_on_one_arris_as_far_apart_as_they_make(spec, where):
    for asked in answers(spec)[:1]:
        mark = asked.face if where == "face" else asked.edge
        if asked.is_rip or mark.numbers is None:
            continue
        drawing = ON[where](asked, ROOM)
        ours, other = dot(drawing, "mark-number"), dot(drawing, "other-number")
        apart = np.hypot(mark.numbers.mark, mark.numbers.other) * scale_of(drawing)
        assert ours[1] == pytest.approx(other[1], abs=1e-9)
        assert abs(ours[0] - other[0]) == pytest.approx(apart, abs=1e-6)
        line = stroke(drawing, f"{where}-mark")
        assert lean_deg(line) == pytest.approx(mark.from_square_deg, abs=1e-6)
        start, end = (np.array(point) for point in line.points)
        off = np.cross([*(end - start), 0], [*(ours - start), 0])[2] / np.hypot(*(end - start))
        assert abs(off) < 1e-6, "the number on the arm marked along stands on the mark's line"


@pytest.mark.parametrize("name", ["hip-jack", "hip-seat", "purlin-square", "valley-jack"])
def test_the_square_is_a_square(name):
    """Heel to number is the number, the arms stand square, their widths are 1 1/2 and 2."""
    asked = one(name)
    shown = stick(asked, kept_in=30.0)
    square = laid(shown, "face", asked.face.numbers)
    assert np.hypot(*(square.mark_spot - square.heel)) == pytest.approx(asked.face.numbers.mark)
    assert np.hypot(*(square.other_spot - square.heel)) == pytest.approx(asked.face.numbers.other)
    assert square.mark_way @ square.other_way == pytest.approx(0, abs=1e-12)
    whole = square.mark_shown_in, square.other_shown_in
    tongue, blade = whole if square.mark_arm == "tongue" else whole[::-1]
    assert square.shape.area == pytest.approx(1.5 * tongue + 2.0 * blade - 1.5 * 2.0)


def test_the_square_lies_where_there_is_wood_to_hold_it():
    for name, hand in (("hip-jack", "left"), ("hip-jack", "right"), ("valley-jack", "left")):
        asked = one(name, hand=hand)
        for where in ("face", "edge"):
            shown = stick(asked, kept_in=30.0)
            mark = asked.face if where == "face" else asked.edge
            square = laid(shown, where, mark.numbers)
            kept = np.sign(square.other_spot[0] - square.mark_spot[0])
            assert kept == shown.to_kept


def test_the_numbers_are_read_as_on_a_real_square():
    drawing = square_on_edge(one("hip-jack", "12 in 12"), ROOM)
    assert words(drawing, "mark-words") == "12 on the tongue"
    assert words(drawing, "other-words") == "8\u00a0¹⁄₂ on the blade"


def test_what_the_square_covers_is_dashed_and_the_mark_is_not_covered():
    drawing = square_on_face(one("hip-jack"), ROOM)
    (square,) = (area.polygon for area in drawing.areas if area.gid == "square")
    for line in drawing.strokes:
        if line.gid in ("face", "arris"):
            covered = shapely.intersection(shapely.linestrings(line.points), square).length
            assert covered < 1e-6
    assert any(line.gid == "under-square" for line in drawing.strokes)
    mark = shapely.linestrings(stroke(drawing, "face-mark").points)
    assert shapely.intersection(mark, square.buffer(-0.01)).length < 1e-9


def test_a_mark_square_across_is_drawn_along_the_tongue():
    asked = one("hip-seat")
    drawing = square_on_edge(asked, ROOM)
    assert "mark along the tongue" in {label.text for label in drawing.labels}
    assert lean_deg(stroke(drawing, "edge-mark")) == pytest.approx(0, abs=1e-9)


def test_a_bevel_is_gauged_on_face_and_edge():
    """The bevel falls half the thickness times the hip's own slope, seen square to the hip."""
    face = square_on_face(one("hip-backing", "8 in 12"), ROOM)
    assert any(area.gid == "gauge" for area in face.areas)
    assert any("gauge set to ⁵⁄₁₆ in" in label.text for label in face.labels)
    line, arris = stroke(face, "face-mark"), strokes(face, "arris")[0]
    fall = abs(arris.points[0][1] - line.points[0][1]) / scale_of(face)
    assert fall == pytest.approx(0.75 * 8 / np.sqrt(288 + 64), rel=1e-9)
    edge = square_on_edge(one("hip-backing", "8 in 12"), ROOM)
    assert any("gauge set to ³⁄₄ in" in label.text for label in edge.labels)


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize(("where", "tall_in", "one_to"), [("face", 2.35, 10), ("edge", 2.8, 10)])
def test_in_a_column_the_square_is_large_enough_to_be_read(where, tall_in, one_to, hand):
    """An edge 1 1/2 in wide at 1 : 24 is a stripe on which mark, dot and hatching run together."""
    asked = one("hip-jack", "8 in 12", hand)
    drawing = ON[where](asked, (3.47, tall_in))
    assert scale_of(drawing) >= 1 / one_to
    (waste,) = (label for label in drawing.labels if label.text == "WASTE")
    areas = [area.polygon for area in drawing.areas if area.fill == "waste"]
    inside = any(area.contains(label_box(waste)) for area in areas)
    tips = [shapely.Point(line.points[0]) for line in drawing.strokes if line.pen == "dimension"]
    near = [tip for tip in tips if any(area.distance(tip) < 1e-6 for area in areas)]
    assert inside or near, "WASTE is led to the waste"


@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_line_of_a_gauge_is_large_enough_and_its_distance_stands_beside_it(hand):
    """5/16 in down a face 5 1/2 in wide: drawn whole, the line lies on the arris."""
    drawing = square_on_face(one("hip-backing", "8 in 12", hand), (3.47, 2.35))
    assert scale_of(drawing) >= 1 / 4
    (pin,) = (area.polygon.centroid for area in drawing.areas if area.gid == "pin")
    (said,) = (label for label in drawing.labels if label.text == "⁵⁄₁₆ in")
    _, low, _, high = label_box(said).bounds
    assert min(abs(low - pin.y), abs(high - pin.y)) < 0.35
