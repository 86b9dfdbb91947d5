"""Drawings: moved, turned, cut and searched for words that collide."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from figures.ink.drawing import Area, Drawing, Label, Stroke, collisions, label_box
from figures.ink.hatch import BAND_IN, hatched
from figures.ink.pens import pen, pieces
from layout.errors import SheetError

SQUARE = Drawing(
    (Stroke(((0, 0), (4, 0), (4, 2), (0, 2), (0, 0)), "visible", "outline"),),
    (Area(shapely.box(1, 0, 4, 2), "waste"),),
    (Label("WASTE", 2.5, 1, 14, "center", "center", halo=True),),
)


def test_moved_turned_and_scaled_act_on_every_part():
    moved = SQUARE.moved(1, 2).turned(90).scaled(2)
    assert moved.strokes[0].points[:3] == ((-4, 2), (-4, 10), (-8, 10))
    assert moved.areas[0].polygon.bounds == (-8, 4, -4, 10)
    label = moved.labels[0]
    assert (label.x, label.y, label.rotation_deg) == pytest.approx((-6, 7, 90))
    assert label.size_pt == 14


def test_bounds_hold_the_words():
    words = Drawing(labels=(Label("plumb cut", 10, 5),))
    x0, y0, x1, y1 = (SQUARE + words).bounds()
    assert (x0, y0) == (0, 0)
    assert (x1, y1) == pytest.approx(label_box(words.labels[0]).bounds[2:])
    assert x1 > 10.6


def test_an_empty_drawing_has_no_bounds():
    with pytest.raises(SheetError, match="nothing in the drawing"):
        Drawing().bounds()


@given(
    angle=st.floats(-720, 720),
    before=st.floats(-180, 180),
    ha=st.sampled_from(["left", "center", "right"]),
    va=st.sampled_from(["bottom", "center", "top"]),
)
def test_turned_words_cover_the_turned_box_and_stay_readable(angle, before, ha, va):
    label = Label("fold", 1.0, 2.0, ha=ha, va=va, rotation_deg=before)
    (turned,) = Drawing(labels=(label,)).turned(angle).labels
    wanted = shapely.affinity.rotate(label_box(label), angle, origin=(0, 0))
    assert shapely.hausdorff_distance(label_box(turned), wanted) < 1e-9
    assert -90 - 1e-6 < turned.rotation_deg <= 90 + 1e-6


def test_clipping_keeps_order_dashes_and_whole_labels_only():
    line = Drawing((Stroke(((0, 0), (3, 0), (3, 4)), "fold", "arris"),), (), SQUARE.labels)
    cut = line.clipped((1, -1, 2.8, 3)) + line.clipped((2.8, -1, 5, 5))
    first, second = cut.strokes
    assert first.points == ((1, 0), (2.8, 0))
    assert second.points == ((2.8, 0), (3, 0), (3, 4))
    assert (first.start_in, second.start_in) == pytest.approx((1.0, 2.8))
    assert len(cut.labels) == 0
    assert len(line.clipped((0, 0, 5, 5)).labels) == 1
    assert len(line.clipped((1, -1, 2.8, 3), part_labels=True).labels) == 1


@given(x=st.floats(0.05, 5.95), y=st.floats(-0.9, 2.9))
def test_four_quarters_have_all_the_ink_of_the_whole(x, y):
    whole = Drawing((Stroke(((0, 0), (5, 2), (1, 2.5), (6, -0.5)), "hidden"),))
    boxes = ((-9, -9, x, y), (x, -9, 9, y), (-9, y, x, 9), (x, y, 9, 9))
    ink = [piece for s in whole.strokes for piece in pieces(s.points, pen(s.pen), s.start_in)]
    parts = [
        piece
        for box in boxes
        for s in whole.clipped(box).strokes
        for piece in pieces(s.points, pen(s.pen), s.start_in)
    ]
    want, got = shapely.MultiLineString(ink), shapely.MultiLineString(parts)
    assert got.length == pytest.approx(want.length, abs=1e-7)
    assert want.buffer(1e-7).covers(got)


def test_what_lies_under_a_tool_is_cut_away():
    left = SQUARE.without(shapely.box(1, -1, 2.2, 3))
    assert sum(shapely.LineString(s.points).length for s in left.strokes) == pytest.approx(9.6)
    assert left.areas[0].polygon.area == pytest.approx(3.6)
    assert left.labels == ()
    assert SQUARE.without(shapely.box(8, 8, 9, 9)) == SQUARE


def test_collisions_find_words_on_words_and_words_on_marks():
    low = Label("plumb cut", 0, 0)
    high = Label("level cut", 0.2, 0.05)
    cut = Stroke(((0.3, -1), (0.3, 1)), "cut", "mark")
    clear = Label("clear", 5, 5, rotation_deg=30)
    found = collisions(Drawing((cut,), (), (low, high, clear)))
    assert sorted(str(each) for each in found) == [
        "'level cut' lies on a cut line mark",
        "'plumb cut' lies on a cut line mark",
        "'plumb cut' overlaps 'level cut'",
    ]


def test_words_may_lie_on_hatching_and_may_touch():
    label = Label("WASTE", 0, 0)
    height = label_box(label).bounds[3]
    hatch = Stroke(((0.1, -1), (0.1, 1)), "hatch")
    assert collisions(Drawing((hatch,), (), (label, Label("ab", 0, height)))) == ()
    assert len(collisions(Drawing((hatch,), (), (label,)), {"hatch"})) == 1


def test_clearance_finds_what_is_merely_close():
    near = Drawing((Stroke(((-1, -0.02), (3, -0.02)), "cut"),), (), (Label("near", 0, 0),))
    assert collisions(near) == ()
    assert len(collisions(near, clearance_in=0.03)) == 1


def test_waste_is_hatched_in_a_band_along_its_outline_and_clear_of_its_word():
    close = Label("WASTE", 2.5, 1.95, 14, "center", "top", halo=True)
    drawing = hatched(replace(SQUARE, labels=(close,)))
    lines = [shapely.LineString(s.points) for s in drawing.strokes if s.pen == "hatch"]
    waste = SQUARE.areas[0].polygon
    assert len(lines) > 20
    assert drawing.areas == ()
    for line in lines:
        assert waste.buffer(1e-9).covers(line)
        assert max(waste.exterior.distance(shapely.Point(p)) for p in line.coords) < BAND_IN + 1e-9
        assert not line.intersects(label_box(close))


def test_hatching_never_runs_along_an_edge():
    leaning = shapely.Polygon([(0, 0), (3, 3), (3, 0)])
    for stroke in hatched(Drawing(areas=(Area(leaning, "section"),))).strokes:
        (x0, y0), (x1, y1) = stroke.points
        assert abs((x1 - x0) - (y1 - y0)) > 0.01


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: Stroke(((0, 0),), "cut"), "needs two points"),
        (lambda: Stroke(((0, 0), (1, 0)), "ink"), "no pen is called 'ink'"),
        (lambda: Area(shapely.box(0, 0, 1, 1), "grey"), "no fill is called 'grey'"),
    ],
)
def test_bad_parts_are_refused(make, message):
    with pytest.raises(SheetError, match=message):
        make()
