"""The plan of the joint: the plane edge-on, at its true angle."""

import numpy as np
import pytest

from figures.pictures.edge_on import plan_of_joint, sight
from layout.cuts import Hand
from layout.quantity import read_pitch
from tests.counts import part_of
from tests.views_of import CUTS, NAMES, answers, arcs, one, stroke, words

ROOM = (7.0, 4.2)


@pytest.mark.parametrize("spec", part_of(CUTS, 5, 0), ids=part_of(NAMES, 5, 0))
def test_the_plane_is_seen_edge_on(spec):
    for asked in answers(spec):
        normal = asked.question.joint.pose.to_world(asked.cut.normal)
        assert normal @ sight(asked).view.toward == pytest.approx(0, abs=1e-9)


def degrees_in(text):
    return float(text.split()[-1].removesuffix("°"))


@pytest.mark.parametrize("pitch", ["2 in 12", "8 in 12", "20 in 12"])
def test_a_square_corner_is_forty_five_in_plan_at_every_pitch(pitch):
    """The cheek of a jack follows the hip: 45 degrees in plan on a square corner, any pitch."""
    for name in ("hip-jack", "valley-jack", "hip-ridge", "purlin-square"):
        drawing = plan_of_joint(one(name, pitch), ROOM)
        assert words(drawing, "heading").startswith("Plan of the joint")
        assert words(drawing, "angle") == "plan angle 45°"


def test_unequal_pitches_turn_the_plan_line_by_the_ratio_of_the_rises():
    """The hip runs where both roofs are as high: its plan line leans 8 to 12 from the eave."""
    asked = one("hip-jack", "8 in 12", other_pitch=read_pitch("12 in 12"))
    drawing = plan_of_joint(asked, ROOM)
    own_from_eave = np.degrees(np.arctan2(12, 8))
    assert degrees_in(words(drawing, "angle")) == pytest.approx(90 - own_from_eave, abs=0.01)
    (x0, y0), (x1, y1) = stroke(drawing, "trace").points
    lean = np.degrees(np.arctan2(abs(y1 - y0), abs(x1 - x0)))
    assert lean == pytest.approx(90 - own_from_eave, abs=1e-6)


def test_where_a_plan_does_not_tell_an_elevation_stands_and_says_so():
    seat = plan_of_joint(one("common-seat", "8 in 12"), ROOM)
    assert words(seat, "heading") == "Elevation of the joint, seen level"
    (_, y0), (_, y1) = stroke(seat, "trace").points
    assert y0 == pytest.approx(y1, abs=1e-9), "a seat is level"
    ridge = plan_of_joint(one("common-ridge", "8 in 12"), ROOM)
    (x0, _), (x1, _) = stroke(ridge, "trace").points
    assert x0 == pytest.approx(x1, abs=1e-9), "a plumb cut stands plumb"
    backing = plan_of_joint(one("hip-backing"), ROOM)
    assert words(backing, "heading").startswith("Section of the joint")


@pytest.mark.parametrize("hand", list(Hand))
def test_a_board_seen_along_its_run_is_seen_from_the_foot(hand):
    """Hands are named from the foot: seen from the head, right and left would change over."""
    asked = one("deck-valley-jack", "9 in 12", other_pitch=read_pitch("6 in 12"), hand=hand)
    head = asked.question.joint.pose.head
    assert sight(asked).view.toward @ head < -0.5


def test_the_mate_lies_against_the_trace():
    drawing = plan_of_joint(one("hip-jack"), ROOM)
    (x0, y0), (x1, y1) = stroke(drawing, "trace").points
    way = np.array([x1 - x0, y1 - y0]) / np.hypot(x1 - x0, y1 - y0)
    across = np.array([-way[1], way[0]])
    sides = [np.array(line.points) for line in drawing.strokes if line.gid == "mate"]
    off = [abs(float(across @ (point - np.array([x0, y0])))) for side in sides for point in side]
    assert min(off) < 1e-6


def test_the_angle_is_opened_over_the_wood_that_is_kept():
    """The head lies to the right, so the stick and its angle lie to the left of the trace."""
    drawing = plan_of_joint(one("hip-jack"), ROOM)
    (arc,) = arcs(drawing)
    trace = stroke(drawing, "trace").points
    assert max(x for x, _ in arc.points) < max(x for x, _ in trace)
    low, high = sorted(y for _, y in trace)
    assert sum(low < y < high for _, y in arc.points) > len(arc.points) / 2


def test_a_plan_says_the_tilt_where_it_is_not_the_plan_angle():
    """Square corner, 8 and 6 in 12: from above the hip leaves the jack at atan(8/6), and the tilt
    is what is left of a right angle, atan(6/8)."""
    drawing = plan_of_joint(one("hip-jack", "8 in 12", other_pitch=read_pitch("6 in 12")), ROOM)
    assert words(drawing, "angle") == "plan angle 53.13°"
    assert words(drawing, "tilt") == "tilt 36.87°"
    (x0, _), (x1, _) = stroke(drawing, "square-across").points
    assert x0 == pytest.approx(x1, abs=1e-9)
    (u0, v0), (u1, v1) = stroke(drawing, "tilt-ray").points
    turned = np.degrees(np.arctan2(abs(u1 - u0), abs(v1 - v0)))
    assert turned == pytest.approx(36.8699, abs=1e-3)
    assert not any(s.gid == "tilt-ray" for s in plan_of_joint(one("hip-jack"), ROOM).strokes)


def test_the_ridge_runs_on_in_line_with_the_end_common():
    drawing = plan_of_joint(one("hip-ridge", "8 in 12"), ROOM)
    ridge = [s for s in drawing.strokes if s.gid == "ridge"]
    assert ridge
    assert "ridge" in {label.text for label in drawing.labels}
    spots = np.array([spot for s in ridge for spot in s.points])
    (x0, _), (x1, _) = stroke(drawing, "trace").points
    # On a square corner it stands at 45 degrees to the hip, and wholly beyond its point.
    assert spots[:, 0].min() >= max(x0, x1) - 1e-6
