"""Studs under one gable rafter, and which rafters of a roof have some, by hand."""

import math

import numpy as np
import pytest

from layout.framing.face import Face
from layout.framing.gable_studs import gable_studs
from layout.framing.outlines import tee
from layout.framing.rafter import on_face
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofPlan
from layout.framing.stick import Stick
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.drawn_roofs import framed_shape

X, Y = np.array([0.8, 0.6, 0]), np.array([-0.6, 0.8, 0])
"""Into the wall and along it: askew in the world, so that neither is one of its axes."""
AXES = np.stack([X, Y, np.array([0, 0, 1.0])])
START = np.array([20.0, -9.0, 0.0])
STUD = read_stock("2x4")


def studs_of(face: Face, spacing_in: float, high_in: float = 60.0) -> list[Stick]:
    """Under a rafter flush with a wall whose outside runs along Y from START, the building at X.

    Its plate is 3 1/4 in wide.
    """
    rafter = on_face(face, 20.75, 0.0, high_in, read_stock("2x6"), (), True)
    return list(gable_studs(face, rafter, -X, START, (3.25, high_in), spacing_in, STUD))


def test_studs_stand_from_half_a_spacing_beside_the_ridge_down_to_the_plate() -> None:
    """A roof 20 in over its plate at 12 in 12, ridge over 60 in: 2x6s measure 5.5 sqrt 2 plumb.

    Middles at 52, 36, 20 and 4 in; the last one's low edge is the plate's inside, 3 1/4 in.
    """
    face = Face("left", read_pitch("12 in 12"), START - 20 * X, X, Y, 20.0)
    made = studs_of(face, 16.0)
    assert len(made) == 4
    for stud, at in zip(made, (52, 36, 20, 4), strict=True):
        corners = (stud.corners - START) @ AXES.T
        assert corners.min(axis=0) == pytest.approx([0, at - 0.75, 0])
        under = 20 + at - 5.5 * math.sqrt(2)
        assert corners.max(axis=0) == pytest.approx([3.5, at + 0.75, under + 0.75])
        low = corners[np.abs(corners[:, 1] - (at - 0.75)) < 1e-9]
        assert low[:, 2].max() == pytest.approx(under - 0.75)
        assert stud.theoretical_in == pytest.approx(under)
        assert (stud.role, stud.face, stud.on_plate) == ("gable stud", "left", False)
        foot, head = stud.planes
        assert (foot.end, head.end) == ("foot", "head")
        question = stud.question(head)
        assert question is not None
        normal = question.joint.cuts(STUD)[0].normal
        assert normal == pytest.approx(stud.cut(head).normal)
        assert head.asked is not None
        assert head.asked.corner_deg == 90.0
    assert studs_of(face, 113.0) == []  # at 3 1/2 in it would stand in the plate


def test_a_stud_shorter_than_six_inches_is_left_out() -> None:
    """Its short side counts: at 6 in 12 half its thickness takes 3/8 in off its middle."""
    plumb = 5.5 * math.hypot(12, 6) / 12
    for more, stands in ((0.01, True), (-0.01, False)):
        height = 6 + 0.375 + plumb - 6 + more  # at 12 in from the wall the roof is 6 in higher
        face = Face("left", read_pitch("6 in 12"), START - 20 * X, X, Y, height)
        places = [float((s.corners.mean(axis=0) - START) @ Y) for s in studs_of(face, 16.0, 20.0)]
        assert places == pytest.approx([12.0] if stands else [])


@pytest.mark.parametrize("name", ["a shed", "a half-octagon end and a gable"])
def test_every_gable_has_studs_within_its_wall_and_none_elsewhere(name: str) -> None:
    check_studs(framed_shape(name))


def test_a_wings_gable_has_its_own_studs() -> None:
    p, end = read_pitch("8"), ("gable", "hip", "gable")
    check_studs(frame(RoofPlan.over(tee(150, 70, 30, 30, 64, p, ends=end), spacing_in=40,
                                    valley=read_stock("2x10"))))  # fmt: skip


def test_no_stud_stands_in_the_plate_under_the_eave() -> None:
    """On plates 7 1/4 in wide, steep: at 7 in from the wall one would be 8 1/4 in high."""
    plan = RoofPlan(60, 62, read_pitch("18"), ends=("gable", "gable"), seat_in=1.5, spacing_in=48,
                    plate=read_stock("2x8"))  # fmt: skip
    assert not [s for s in frame(plan).sticks if s.role == "gable stud"]


def check_studs(roof: TrainingRoof) -> None:
    """By hand from the walls: over half a wall of a gable, or a whole one of a shed, studs stand
    from half a spacing beside the top on, where they are 6 in high, outsides flush."""
    outline = roof.surface.outline
    studs = [s for s in roof.sticks if s.role == "gable stud"]
    found = []
    for k, wall in enumerate(outline.walls):
        if wall.kind != "gable":
            continue
        start, inward, along = outline.corners[k], outline.inward[k], outline.along[k]
        here = []
        for stud in studs:
            out = (stud.corners[:, :2] - start) @ inward
            if np.ptp(out) == pytest.approx(3.5) and out.min() == pytest.approx(0, abs=1e-9):
                here.append(float(((stud.corners[:, :2] - start) @ along).mean()))
        found += here
        shed = any(w.kind == "high" for w in outline.walls)
        run = wall.length_in if shed else wall.length_in / 2
        spacing, least = roof.plan.spacing_in, roof.plan.plate.depth_in + 0.75
        ats = np.arange(run - spacing / 2, least, -spacing)
        (pitch,) = {face.pitch for face in roof.faces}
        slope = pitch.rise / pitch.run
        under = (
            roof.plan.mouth.height_above_plate_in
            + slope * (ats - 0.75)
            - 5.5 * math.hypot(1, slope)
        )
        # from the low wall of a shed, whichever way it is walked, or from both eaves of a gable
        ats = ats[under >= 6]
        ways = ats, wall.length_in - ats
        right = [sorted(way) for way in ways] if shed else [sorted(np.concatenate(ways))]
        assert any(sorted(here) == pytest.approx(each) for each in right), wall.name
    assert len(found) == len(studs) > 0
