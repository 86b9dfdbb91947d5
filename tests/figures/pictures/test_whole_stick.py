"""A whole stick: its drawing is as long as the frame says, at the scale it names."""

from functools import cache

import pytest

from figures.ink.drawing import collisions
from figures.pictures.whole_stick import datum_line, whole_stick
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from tests.counts import LONG
from tests.views_of import words

ROOM = (10.0, 6.4)
STICKS = ("C1", "J1", "H1", "R1", "P1") if LONG else ("C1", "J1")


@cache
def roof():
    return frame(RoofPlan(288, 192))


def scale_of(drawing):
    over, under = words(drawing, "scale").split(" : ")
    return float(over) / float(under)


@pytest.mark.parametrize("name", STICKS)
def test_the_side_view_is_the_sticks_length_at_the_scale_it_names(name):
    stick = roof().by_name[name]
    drawing = whole_stick(stick, ROOM)
    assert not collisions(drawing)
    left, bottom, right, top = drawing.bounds()
    assert left > -1e-9
    assert bottom > -1e-9
    assert right < ROOM[0] + 1e-9
    assert top < ROOM[1] + 1e-9
    for view, high in (("side", stick.stock.depth_in), ("top", stick.stock.thickness_in)):
        points = [p for line in drawing.strokes if line.gid == view for p in line.points]
        us, vs = zip(*points, strict=True)
        assert max(us) - min(us) == pytest.approx(stick.blank_in * scale_of(drawing), abs=1e-6)
        assert max(vs) - min(vs) == pytest.approx(high * scale_of(drawing), abs=1e-6)


def test_the_lengths_stand_on_the_picture():
    said = [label.text for label in whole_stick(roof().by_name["C1"], ROOM).labels]
    # By hand: run 96 in less half a 1 1/2 in ridge, over 12 to 14.4222; tail run 11 1/4 likewise.
    assert "9'-6\xa0¹⁄₂\"" in said
    assert said.count("1'-1\xa0¹⁄₂\"") == 2, "the tail on the whole board and on its foot"
    assert '3\xa0¹⁄₂"' in said, "the seat is the plate's width"


def test_the_datum_stands_plumb_over_the_building_line():
    stick = roof().by_name["C1"]
    (x0, z0), (x1, z1) = datum_line(stick)
    pose = stick.pose
    way = (x1 - x0) * pose.head + (z1 - z0) * pose.up
    assert abs(way[:2]).max() < 1e-9
    assert datum_line(roof().by_name["R1"]) is None


def test_a_short_stick_shows_on_the_whole_board_what_a_long_ones_ends_show():
    """The shortest jack has no larger ends: its points, seat and heel stand on its one picture.

    By hand: its cheek at 45 runs 1 1/2 in level over the thickness, times 14.4222 / 12.
    """
    said = [label.text for label in whole_stick(roof().by_name["J1"], (7.5, 4.5)).labels]
    assert "The foot" not in said
    assert {"long point", "right face", '3\xa0¹⁄₂"', '2\xa0⁵⁄₁₆"', '1\xa0¹³⁄₁₆"'} <= set(said)
