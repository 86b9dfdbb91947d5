"""A bird's mouth measured on the stick, against the sizes that the run and the pitch ask for."""

import math
import re
from dataclasses import replace

import numpy as np
import pytest

from layout.framing.mouth import face_mouths, stick_mouth
from layout.framing.roof_frame import roof_frame
from layout.framing.roof_lines import roof_lines
from layout.framing.stick import Stick, plane_at
from layout.framing.summary import facts, length_words
from layout.job.job import Job
from layout.job.job_roof import framed
from layout.plane.pose import lay
from layout.stock import read_stock
from layout.vector import Z
from tests.drawn_roofs import framed_shape


def test_every_mouth_is_its_plans() -> None:
    """Commons and jacks by their pitch; hips by the seat over the plates' corner."""
    texts = {"size": "16' x 10'", "spacing": "24in", "end-pitch": "10 in 12", "hip": "2x10"}
    roof = framed(Job("yard", texts))
    pitches = {face.name: face.pitch for face in roof.faces}
    seen = set()
    for stick in roof.sticks:
        mouth = stick_mouth(stick)
        if mouth is None:
            assert not stick.on_plate
            continue
        if stick.role in ("common", "hip jack"):
            plan = roof.plan.mouth_of(pitches[stick.face])
        elif stick.role == "hip":
            seats = roof_frame(roof.plan, roof_lines(roof.plan.outline)).seats
            plan = seats[stick.name].mouth
            assert mouth.seat_in == pytest.approx(seats[stick.name].seat_in, abs=1e-6)
            assert mouth.above_plate_in == pytest.approx(plan.height_above_plate_in, abs=1e-6)
            assert mouth.notch_in == pytest.approx(plan.notch_depth_in, abs=1e-6)
            seen.add(stick.role)
            continue
        seen.add(stick.role)
        assert mouth.seat_in == pytest.approx(plan.seat_in, abs=1e-6)
        assert mouth.heel_in == pytest.approx(plan.heel_in, abs=1e-6)
        assert mouth.above_plate_in == pytest.approx(plan.height_above_plate_in, abs=1e-6)
        assert mouth.notch_in == pytest.approx(plan.notch_depth_in, abs=1e-6)
    assert seen == {"common", "hip jack", "hip"}


def test_a_roof_in_metric_says_no_inch() -> None:
    """Facts and lengths of a job in millimeters: 8 in 12 is 200 in 300 on a metric square."""
    roof = framed(Job("yard", {"size": "16' x 10'", "spacing": "48in", "end-pitch": "9 in 12"}))
    told = [*facts(roof, metric=True), length_words(roof.by_name["H1"], metric=True)]
    for line in told:
        assert "in 12" not in line
        assert not re.search(r"\d\"|\d'|\d in\b(?! 300)", line), line
    assert "front 200 in 300, overhang 305 mm" in " ".join(told)


def notched(*heels: tuple[float, float]) -> Stick:
    """A 2x6 up a 3-4-5 slope, level run 30, cut out below Z = -4 beyond each of these heels' plumb
    planes, of unit normals (nx, ny) through the datum's middle, (0, 3/4) in plan."""
    pose, stock = lay(np.array([0.6, 0.0, 0.8]), Z), read_stock("2x6")
    ends = [
        (plane_at(np.array([side, 0.0, 0.0]), np.array([at, 0.0, 0.0]), "end", end),)
        for side, at, end in ((1.0, 30.0, "head"), (-1.0, -9.0, "foot"))
    ]
    middle = np.array([0.0, 0.75, 0.0])
    seat = plane_at(-Z, -4 * Z, "seat", "foot")
    mouths = [(seat, plane_at(np.array([*way, 0.0]), middle, "heel", "foot")) for way in heels]
    removals = (*ends, *mouths)
    return Stick("S", "common", "own", stock, pose, -5.5 * pose.up, removals, 50.0, on_plate=True)


def test_a_mouth_by_hand_on_a_3_4_5_slope() -> None:
    """5.5 in square to the edge is 5.5 / 0.6 plumb; 4 are left above the seat, the heel takes the
    rest, the seat three quarters of that, and the notch 0.6 of it square to the edge."""
    heel = 5.5 / 0.6 - 4
    stick = notched((1.0, 0.0))
    mouth = stick_mouth(stick)
    assert mouth is not None
    assert mouth.seat_in == pytest.approx(0.75 * heel)
    assert mouth.heel_in == pytest.approx(heel)
    assert mouth.above_plate_in == pytest.approx(4)
    assert mouth.notch_in == pytest.approx(0.6 * heel)
    right, left = face_mouths(stick)
    assert (right.side, left.side) == ("right", "left")
    for face in (right, left):
        assert face.seat_in == pytest.approx(0.75 * heel)
        assert face.heel_in == pytest.approx(heel)
        assert face.notch_in == pytest.approx(0.6 * heel)
        assert face.heel_at_in == pytest.approx(0, abs=1e-9)
    assert stick_mouth(replace(stick, on_plate=False)) is None
    assert face_mouths(replace(stick, on_plate=False)) == ()
    assert stick_mouth(notched()) is None
    assert face_mouths(notched()) == ()


@pytest.mark.parametrize("side", [1, -1])
def test_a_slant_heel_leaves_either_face_elsewhere(side: int) -> None:
    """At 45 degrees in plan it goes 3/4 in level to the foot on one face and to the head on the
    other; along the board that is 3/4 / 0.6, and the seat is as much longer and shorter."""
    seat = 0.75 * (5.5 / 0.6 - 4)
    right, left = face_mouths(notched((math.sqrt(0.5), side * math.sqrt(0.5))))
    for face, level in ((right, side * 0.75), (left, -side * 0.75)):
        assert face.heel_at_in == pytest.approx(level / 0.6)
        assert face.seat_in == pytest.approx(seat - level)
        assert face.heel_in == pytest.approx((seat - level) * 4 / 3)


def check_faces(stick: Stick, seat_in: float, toward_head: float) -> None:
    """Both faces' mouths at 8 in 12 and a square corner: the walls' lines at 45 degrees in plan
    leave each face 3/4 in level from the middle of the thickness."""
    slope = 8 / math.hypot(12, 12)
    assert [face.side for face in face_mouths(stick)] == ["right", "left"]
    for face in face_mouths(stick):
        assert face.heel_at_in == pytest.approx(toward_head * 0.75 * math.hypot(1, slope))
        assert face.seat_in == pytest.approx(seat_in - toward_head * 0.75)
        assert face.heel_in == pytest.approx(face.seat_in * slope)


def test_every_hip_and_valley_has_one_mouth_on_both_faces() -> None:
    """Four hips of a square are one piece, two valleys of a wing a pair, wherever they stand. A
    hip's two heels keep wood behind both walls, a valley's behind neither."""
    slope = 8 / math.hypot(12, 12)
    height = 5.5 * math.hypot(12, 8) / 12 - 3.5 * 8 / 12
    for name, role, toward_head in (("a square", "hip", 1), ("a lower wing", "valley", -1)):
        sticks = [s for s in framed_shape(name).sticks if s.role == role]
        assert len(sticks) == {"hip": 4, "valley": 2}[role]
        for stick in sticks:
            mouth = stick_mouth(stick)
            assert mouth is not None
            assert mouth.above_plate_in == pytest.approx(height)
            plumb = stick.stock.depth_in * math.hypot(1, slope)
            assert mouth.seat_in == pytest.approx((plumb - height) / slope)
            assert mouth.heel_in == pytest.approx(plumb - height)
            sine = slope / math.hypot(1, slope)
            assert mouth.middle_notch_in == pytest.approx(mouth.seat_in * sine)
            # A valley's notch is deepest on its faces, where its heels lie nearest the foot.
            on_face = (mouth.seat_in - toward_head * 0.75) * sine
            assert [f.notch_in for f in face_mouths(stick)] == pytest.approx([on_face] * 2)
            assert mouth.notch_in == pytest.approx(max(mouth.middle_notch_in, on_face))
            check_faces(stick, mouth.seat_in, toward_head)


def test_the_table_lists_the_deepest_notch_of_a_valley() -> None:
    """7 in 12 against 10 in 12 on a square corner. In plan the valley's line runs 7 in
    away from the wing's wall while it runs 10 in away from the other: it climbs 10 in 12 times 7
    over the root of 149, 0.478 to 1. Plumb, 9 1/4 in measure 10.25 in; 6.352 in are left above
    the plate, so the heel is 3.900 in and the seat 8.161 in. On the face where the heel
    lies 3/4 in times 10/7 nearer the foot, level, the seat is 9.233 in, and the
    notch that times the sine: 3.981 in.
    """
    texts = {"size": "32' x 20'", "wing": "12' x 14'", "pitch": "7 in 12", "spacing": "48in"}
    boards = {"rafter": "2x8", "hip": "2x10", "valley": "2x10", "fascia": "1 1/2"}
    roof = framed(Job("yard", {**texts, **boards, "wing-pitch": "10 in 12"}))
    slope = 10 / 12 * 7 / math.hypot(7, 10)
    height = 7.25 * math.hypot(12, 7) / 12 - 3.5 * 7 / 12
    seat = (9.25 * math.hypot(1, slope) - height) / slope + 0.75 * 10 / 7
    deepest = seat * slope / math.hypot(1, slope)
    assert deepest == pytest.approx(3.981, abs=1e-3)
    told = {c.what: c.here_in for c in roof.comparisons}
    assert told["depth of the valley's notch, square to the edge"] == pytest.approx(deepest)
    faces = face_mouths(roof.by_name["V1"])
    assert max(face.notch_in for face in faces) == pytest.approx(deepest)
