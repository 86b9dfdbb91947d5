"""Dimensions and lettering."""

from math import cos, degrees, radians, sin

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from figures.ink.drawing import collisions, label_box
from figures.ink.lettering import fraction_text, line_width_em, text_size, wrapped
from figures.place.dimension import FIRST_IN, angle_dimension, dimension, leader
from layout.errors import SheetError


@given(angle=st.floats(-180, 180), length=st.floats(1.0, 20.0), side=st.sampled_from([1, -1]))
def test_a_dimension_stands_off_the_part_and_its_words_off_every_line(angle, length, side):
    q = (2 + length * cos(radians(angle)), 1 + length * sin(radians(angle)))
    drawn = dimension((2, 1), q, "5 1/2", side * FIRST_IN)
    part = shapely.LineString([(2, 1), q])
    first, second, line = (shapely.LineString(s.points) for s in drawn.strokes)
    assert line.length == pytest.approx(length)
    assert line.distance(part) == pytest.approx(FIRST_IN)
    for extension in (first, second):
        assert extension.distance(part) == pytest.approx(1 / 16)
        assert extension.length == pytest.approx(FIRST_IN - 1 / 16 + 1 / 8)
    tips = shapely.MultiPoint([area.polygon.exterior.coords[0] for area in drawn.areas])
    assert shapely.hausdorff_distance(tips, shapely.MultiPoint(line.coords)) < 1e-9
    assert collisions(drawn, {"dimension"}) == ()
    (label,) = drawn.labels
    assert label.text == "5\u00a0¹⁄₂"
    assert label_box(label).distance(line) == pytest.approx(0.03)
    assert -90 < label.rotation_deg <= 90 + 1e-6
    up = radians(label.rotation_deg + 90)
    middle, words = line.centroid, label_box(label).centroid
    assert (words.x - middle.x) * cos(up) + (words.y - middle.y) * sin(up) > 0


@pytest.mark.parametrize("length", [0.05, 0.2, 0.35, 0.5])
def test_words_that_do_not_fit_stand_beyond(length):
    drawn = dimension((0, 0), (length, 0), "1 13/16", FIRST_IN)
    box = label_box(drawn.labels[0])
    assert collisions(drawn, {"dimension"}) == ()
    assert all(box.distance(area.polygon) > 0 for area in drawn.areas)
    between = [
        area.polygon.bounds[0] >= 0 and area.polygon.bounds[2] <= length for area in drawn.areas
    ]
    assert all(between) == (length >= 0.31)


def test_a_dimension_of_nothing_is_refused():
    with pytest.raises(SheetError, match="needs two points"):
        dimension((1, 1), (1, 1), "0")


@given(start=st.floats(-360, 360), sweep=st.floats(4, 300), sign=st.sampled_from([1, -1]))
def test_an_arc_runs_between_its_directions_and_its_words_stand_clear(start, sweep, sign):
    end = start + sign * sweep
    drawn = angle_dimension((3, 4), 2.0, start, end, "33 1/2 deg")
    arc = drawn.strokes[0].points
    for (x, y), way in ((arc[0], start), (arc[-1], end)):
        assert (x - 3, y - 4) == pytest.approx((2 * cos(radians(way)), 2 * sin(radians(way))))
    line = shapely.LineString(arc)
    assert degrees(line.length / 2) == pytest.approx(sweep, rel=1e-3)
    (label,) = drawn.labels
    assert label.text == "33\u00a0¹⁄₂°"
    assert label_box(label).distance(shapely.Point(3, 4)) > 2.0
    if sweep > 20:
        wedge = [(3, 4), *(_on(2.3, start + (end - start) * i / 90) for i in range(91))]
        for area in drawn.areas:
            assert shapely.Polygon(wedge).buffer(0.02).covers(area.polygon)
    tips = {area.polygon.exterior.coords[0] for area in drawn.areas}
    assert all(min(abs(x - a) + abs(y - b) for a, b in (arc[0], arc[-1])) < 1e-9 for x, y in tips)


def _on(radius, way):
    return 3 + radius * cos(radians(way)), 4 + radius * sin(radians(way))


def test_an_arc_of_nothing_is_refused():
    with pytest.raises(SheetError, match="cannot be drawn"):
        angle_dimension((0, 0), 1.0, 30, 30, "0")


@pytest.mark.parametrize("elbow", [(2, 1), (-2, 1), (2, -1), (-2, -1)])
def test_a_leader_points_at_its_tip(elbow):
    drawn = leader((0, 0), elbow, "crown")
    assert drawn.areas[0].polygon.exterior.coords[0] == pytest.approx((0, 0))
    assert collisions(drawn, {"dimension"}) == ()


@pytest.mark.parametrize(
    ("plain", "real"),
    [
        ("8 1/2", "8\u00a0¹⁄₂"),
        ("4'-3 1/2\"", "4'-3\u00a0¹⁄₂\""),
        ("2 13/16 in by 5/16", "2\u00a0¹³⁄₁₆ in by ⁵⁄₁₆"),
        ("8 in 12", "8 in 12"),
        ("page 1 of 2", "page 1 of 2"),
        ("1/2/2025", "1/2/2025"),
        ("and/or", "and/or"),
    ],
)
def test_real_fractions(plain, real):
    assert fraction_text(plain) == real


def test_the_font_has_every_sign_we_letter():
    from matplotlib.ft2font import FT2Font

    from figures.ink.lettering import font

    signs = fraction_text("0 123/456 7/8 9/10") + "\u00a0⁄×÷°±−′″Ø¼½¾"
    for bold in (False, True):
        have = FT2Font(font(bold).get_file()).get_charmap()
        assert [sign for sign in signs if ord(sign) not in have] == []


def test_lines_of_wrapped_words_fit_and_no_word_is_lost():
    words = "the stock is held and the offcut is carried so that the kerf stays open"
    lines = wrapped(words, 8, 1.5)
    assert lines.replace("\n", " ") == words
    assert all(line_width_em(line) * 8 / 72 <= 1.5 for line in lines.split("\n"))
    assert text_size(lines, 8)[0] <= 1.5
    assert text_size("a\nb", 10)[1] > text_size("a", 10)[1] * 2
