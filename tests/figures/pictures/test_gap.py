"""The wrong cut against its mate: the gap on the paper is the gap that is measured."""

from math import cos, radians, sin

import numpy as np
import pytest
import shapely

from figures.ink.drawing import label_box
from figures.pictures.captions import gap_words
from figures.pictures.gap import gap_against_mate
from figures.pictures.stood_cut import standing
from layout.cuts import Hand
from lessons.mistakes.cut_mistakes import made_on, mistakes
from tests.counts import part_of
from tests.views_of import CUTS, NAMES, answers, one, scale_of, stroke, strokes, words

ROOM = (7.0, 4.2)


@pytest.mark.parametrize("spec", part_of(CUTS, 5, 0), ids=part_of(NAMES, 5, 0))
def test_the_gap_is_drawn_as_wide_as_the_fit_measures_it(spec):
    for asked in answers(spec):
        for made in made_on(asked)[:1]:
            drawing = gap_against_mate(asked, made.setting, ROOM)
            (gap,) = (area.polygon for area in drawing.areas if area.gid == "gap")
            left, _, right, _ = gap.bounds
            mate_x = strokes(drawing, "mate-face")[0].points[0][0]
            assert right == pytest.approx(mate_x, abs=1e-9), "it touches the mate"
            assert (right - left) / scale_of(drawing) == pytest.approx(made.price_in, abs=1e-6)
            assert words(drawing, "gap-value").startswith(said(made.price_in))


def said(gap_in):
    from figures.ink.lettering import fraction_text

    return fraction_text(gap_words(gap_in).removeprefix("gap "))


@pytest.mark.parametrize("spec", part_of(CUTS, 5, 1), ids=part_of(NAMES, 5, 1))
def test_the_stick_is_slid_until_it_touches_and_no_farther(spec):
    for asked in answers(spec):
        for setting in (asked.hand_setting(True), *(m.setting for m in made_on(asked)[:1])):
            stands = standing(asked, setting)
            assert stands.corners[:, 0].max() == pytest.approx(0, abs=1e-9)
            assert -stands.corners[:, 0] == pytest.approx(asked.fit(setting).gaps_in, abs=1e-9)


def test_the_side_cut_number_as_tilt_gapes_as_worked_out_by_hand():
    """Across 1 1/2 in the cut is t / cos(wrong) long and off by the difference of the tilts."""
    asked = one("hip-jack", "12 in 12")
    setting = mistakes()["side-number-as-tilt"].settings(asked)
    wrong = radians(35.26438968)
    by_hand = 1.5 / cos(wrong) * sin(radians(45) - wrong)
    drawing = gap_against_mate(asked, setting, ROOM)
    (gap,) = (area.polygon for area in drawing.areas if area.gid == "gap")
    left, _, right, _ = gap.bounds
    assert (right - left) / scale_of(drawing) == pytest.approx(by_hand, abs=1e-6)
    assert words(drawing, "gap-value") == "⁵⁄₁₆ in"


@pytest.mark.parametrize("hand", ["left", "right"])
def test_beside_it_the_end_of_the_gap_is_enlarged_as_it_is_and_says_so(hand):
    """Every way alike: the joint keeps its angles, and is not another one with a larger gap."""
    asked = one("hip-jack", "8 in 12", hand)
    setting = mistakes()["side-number-as-tilt"].settings(asked)
    drawing = gap_against_mate(asked, setting, (3.47, 2.8))
    areas = {area.gid: area.polygon.bounds for area in drawing.areas}
    true, large = (areas[gid][2] - areas[gid][0] for gid in ("gap", "gap-enlarged"))
    times = int(words(drawing, "times-larger").split()[2])
    assert large == pytest.approx(true * times)
    (x0, y0), (x1, y1) = stroke(drawing, "made-cut").points
    (u0, v0), (u1, v1) = stroke(drawing, "made-cut-enlarged").points
    assert (u1 - u0) * (y1 - y0) == pytest.approx((v1 - v0) * (x1 - x0)), "the same angle"
    (mate,) = strokes(drawing, "mate-face-enlarged")
    assert mate.points[0][0] == pytest.approx(mate.points[1][0])
    assert areas["gap-enlarged"][2] == pytest.approx(mate.points[0][0]), "it touches the mate"
    # The circle stands about the wide end of the true gap.
    left, low, right, high = shapely.LineString(stroke(drawing, "circle").points).bounds
    widest = min((x0, y0), (x1, y1))
    assert left < widest[0] < right
    assert low < widest[1] < high
    assert words(drawing, "gap-value") == "¹¹⁄₆₄ in"


def test_a_gap_that_is_plain_to_see_is_drawn_once():
    asked = one("hip-jack", "6 in 12")
    (made,) = (each for each in made_on(asked) if each.mistake.name == "wrong-hand")
    drawing = gap_against_mate(asked, made.setting, ROOM)
    assert not strokes(drawing, "circle")
    assert not strokes(drawing, "made-cut-enlarged")


@pytest.mark.parametrize("hand", ["left", "right"])
def test_no_name_stands_in_wood_that_it_does_not_name(hand):
    """'board' in the mate's hatching would make a board of the mate."""
    for name, mistake in (("hip-jack", "side-number-as-tilt"), ("fascia-square", "wrong-hand")):
        asked = one(name, "9 in 12", hand)
        setting = mistakes()[mistake].settings(asked)
        drawing = gap_against_mate(asked, setting, (3.47, 2.8))
        sections = [area.polygon for area in drawing.areas if area.gid == "mate-section"]
        (board,) = (label for label in drawing.labels if label.text == "board")
        assert not any(section.intersects(label_box(board)) for section in sections)


def test_the_right_setting_leaves_no_gap():
    asked = one("hip-jack")
    drawing = gap_against_mate(asked, asked.saw_setting(as_read=False), ROOM)
    assert words(drawing, "gap-value") == "no gap"
    assert not any(area.gid == "gap-enlarged" for area in drawing.areas)
    made = np.array(stroke(drawing, "made-cut").points)
    assert made[:, 0] == pytest.approx(stroke(drawing, "mate-face").points[0][0], abs=1e-9)


def test_a_board_on_edge_is_sawn_on_a_miter_saw_and_no_shoe_rides_its_edge():
    """Common practice, no source: an edge that narrow bears no shoe."""
    asked = one("purlin-square", "9 in 12")
    setting = mistakes()["flat-tilt-on-edge"].settings(asked)
    said = " ".join(label.text for label in gap_against_mate(asked, setting, (7.0, 4.2)).labels)
    assert "as on a miter saw" in said.replace("\n", " ")
    assert "Shoe" not in said


def test_gaps_are_said_in_sixty_fourths():
    assert gap_words(0.0) == "no gap"
    assert gap_words(0.001) == "gap under 1/128 in"
    assert gap_words(0.009) == "gap 1/64 in"
    assert gap_words(0.178) == "gap 11/64 in"


@pytest.mark.parametrize("hand", ["left", "right"])
def test_in_a_wide_room_both_faces_and_the_long_point_are_named(hand):
    """A left-hand jack is longer at its right face; there the number as a tilt gapes."""
    asked = one("hip-jack", "9 in 12", hand)
    setting = mistakes()["side-number-as-tilt"].settings(asked)
    drawing = gap_against_mate(asked, setting, ROOM)
    named = {label.text: label_box(label).centroid for label in drawing.labels}
    (low, high) = sorted(stroke(drawing, "made-cut").points, key=lambda point: point[1])
    middle = (low[1] + high[1]) / 2
    longer, shorter = ("right face", "left face") if hand == "left" else ("left face", "right face")
    over = named[longer].y > middle
    assert (named["long point"].y > middle) == over
    assert (named[shorter].y > middle) != over
    tip = min(
        (line.points[0] for line in drawing.strokes if line.pen == "dimension"),
        key=lambda point: (
            np.hypot(point[0] - low[0], point[1] - low[1])
            if not over
            else np.hypot(point[0] - high[0], point[1] - high[1])
        ),
    )
    assert tip == pytest.approx(high if over else low, abs=1e-6), "an arrow to the very corner"


@pytest.mark.parametrize("name", ["hip-ridge", "hip-seat"])
def test_a_cheek_that_reaches_one_face_alone_is_drawn_without_the_names_of_both(name):
    for asked in answers((name, "head" if name == "hip-ridge" else "foot", Hand.LEFT)):
        made = made_on(asked)[0]
        drawing = gap_against_mate(asked, made.setting, ROOM)
        assert not [label for label in drawing.labels if label.text == "long point"]
