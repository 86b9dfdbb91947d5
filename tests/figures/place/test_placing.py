"""Words find white paper near what they name, or say that there is none."""

import pytest
import shapely

from figures.ink.drawing import Area, Drawing, Label, Stroke, collisions, label_box
from figures.place.dimension import dimension
from figures.place.placing import NoRoomError, Words, from_labels, in_area, placed

ROOM = (0.0, 0.0, 4.0, 2.0)
LINE = Drawing((Stroke(((0.0, 1.0), (4.0, 1.0)), "cut"),))


def test_words_stand_near_their_spot_and_off_the_line():
    drawing = placed(LINE, [Words("arris", (2.0, 1.0))], ROOM)
    (label,) = drawing.labels
    assert not collisions(drawing)
    assert label_box(label).distance(shapely.Point(2.0, 1.0)) < 0.25


def test_words_make_way_for_words():
    drawing = placed(LINE, [Words("one", (2.0, 1.0)), Words("two", (2.0, 1.0))], ROOM)
    assert not collisions(drawing)


def test_words_keep_to_the_side_that_is_preferred():
    for way, above in ((90.0, True), (-90.0, False)):
        (label,) = placed(LINE, [Words("here", (2.0, 1.0), ways=(way,))], ROOM).labels
        assert (label.y > 1.0) == above


def test_a_leader_reaches_from_afar_and_crosses_no_words():
    crowd = Drawing(labels=(Label("X" * 12, 2.0, 1.0, 30, "center", "center"),))
    drawing = placed(crowd, [Words("far", (2.0, 1.6), always=True)], ROOM)
    assert not collisions(drawing)
    assert len(drawing.strokes) == 1


def test_words_in_hatching_clear_it():
    area = shapely.box(0.2, 0.2, 2.2, 1.2)
    drawing = placed(Drawing(areas=(Area(area, "waste"),)), in_area("WASTE", area), ROOM)
    (label,) = drawing.labels
    assert label.halo
    assert area.covers(label_box(label))


def test_words_that_must_stand_on_hatching_clear_it_too():
    everywhere = Drawing(areas=(Area(shapely.box(*ROOM), "waste"),))
    (label,) = placed(everywhere, [Words("45°", (2.0, 1.0))], ROOM).labels
    assert label.halo


def test_where_there_is_no_room_it_is_said():
    full = Drawing(tuple(Stroke(((0.0, y / 20), (4.0, y / 20)), "cut") for y in range(41)))
    with pytest.raises(NoRoomError):
        placed(full, [Words("nowhere", (2.0, 1.0))], ROOM)
    assert not placed(full, [Words("nowhere", (2.0, 1.0), optional=True)], ROOM).labels


def test_nothing_is_named_in_an_area_of_nothing():
    assert in_area("WASTE", shapely.Polygon()) == ()


def test_a_name_that_finds_no_room_in_its_own_area_is_led_to_it():
    """Beside a board WASTE would be read of the end that it happens to stand at."""
    area = shapely.box(1.0, 0.9, 1.3, 1.0)
    drawing = placed(Drawing(areas=(Area(area, "waste"),)), in_area("WASTE", area), ROOM)
    (label,), (lead,) = drawing.labels, drawing.strokes
    assert not area.intersects(label_box(label))
    assert any(area.covers(shapely.Point(point)) for point in lead.points)


def test_a_figure_stands_on_its_dimension_line():
    """Close over it, where a draughtsman puts it, and not moved off for want of white."""
    lines, wanted = from_labels(dimension((1.0, 1.0), (3.0, 1.0), "14 7/16 (common)", 0.4))
    (own,) = dimension((1.0, 1.0), (3.0, 1.0), "14 7/16 (common)", 0.4).labels
    assert placed(lines, wanted, ROOM).labels == (own,)
