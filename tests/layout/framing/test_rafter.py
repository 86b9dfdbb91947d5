"""Rafters up one side by hand: where they begin and end, what they are called, what they ask."""

import math
from functools import cache

import numpy as np
import pytest

from layout.framing.face import Face
from layout.framing.outlines import rectangle, tee
from layout.framing.rafter import Edge, foot_cuts, on_face, planed, rafter, without_notch
from layout.framing.roof_frame import RoofFrame, roof_frame
from layout.framing.roof_lines import roof_lines
from layout.framing.roof_plan import RoofPlan
from layout.framing.walls import Outline
from layout.quantity import read_pitch
from layout.stock import read_stock
from layout.vector import vector
from tests.drawn_roofs import DEEP, P, framed_shape

STOCK = read_stock("2x6")
STRETCH = math.hypot(12, 8) / 12
SIDE = Face("side", P, vector(5, 7, 0), vector(1, 0, 0), vector(0, 1, 0), 4.0, 12.0, 0.75)


@cache
def bones(gables: bool) -> RoofFrame:
    """A hip roof 300 by 180, or one with gables and a wing 100 wide from 80 on."""
    outline: Outline = (
        tee(300, 180, 80, 60, 100, P, ends=("gable",) * 3) if gables else rectangle(300, 180, P)
    )
    return roof_frame(RoofPlan.over(outline, valley=DEEP, spacing_in=48), roof_lines(outline))


def side_of(frame: RoofFrame, name: str) -> Face:
    return next(face for face in frame.faces.values() if face.name == name)


def edges(frame: RoofFrame, face: Face) -> list[Edge]:
    """What bounds a side, over the positions of its roof line."""
    found = []
    for k, line in frame.lines.items():
        if face in line.faces:
            ends = [frame.roof.lines[k].foot, frame.roof.lines[k].head]
            at = sorted(float((end - face.origin[:2]) @ face.along[:2]) for end in ends)
            found.append(Edge(line, *at))
    return found


def test_a_board_up_the_slope() -> None:
    """Its datum lies in the roof 5 in up from the wall, its middle 30 in along."""
    stick = on_face(SIDE, 30.0, 5.0, 60.0, STOCK, (), True)
    assert (stick.name, stick.role, stick.face) == ("side at 30 in", "common", "side")
    assert stick.theoretical_in == pytest.approx(60 * STRETCH)
    assert stick.on_plate
    datum = stick.origin + 0.75 * stick.pose.left + 5.5 * stick.pose.up
    assert datum == pytest.approx([35, 12, 4 + 5 * 8 / 12])
    assert stick.pose.head == pytest.approx(np.array([0, 12, 8]) / math.hypot(12, 8))


def test_a_foot_asks_for_a_commons_cuts() -> None:
    """The tail plumb behind the fascia, 12 less 3/4 out; a level seat on the plate, plumb heel."""
    ((tail,), (seat, heel)) = foot_cuts(SIDE)
    said = [(p.says, p.end, p.asked.end if p.asked else None) for p in (tail, seat, heel)]
    assert said == [
        ("common-tail-plumb", "foot", "foot"), ("common-seat", "foot", "foot"),
        ("common-heel", "foot", "head"),
    ]  # fmt: skip
    for plane in (tail, seat, heel):
        assert plane.asked is not None
        assert (plane.asked.pitch, plane.asked.other_pitch) == (P, P)
        assert plane.asked.corner_deg == 90
        assert plane.asked.cut == plane.says
    assert float(tail.beyond_in(vector(0, 7 - 11.25, 0))) == pytest.approx(0)
    assert float(tail.beyond_in(vector(0, 7 - 12, 0))) == pytest.approx(0.75)
    assert float(seat.beyond_in(vector(0, 9, -1))) == pytest.approx(1)
    assert float(heel.beyond_in(vector(0, 9, 0))) == pytest.approx(2)


def test_rafters_between_hips_and_a_ridge() -> None:
    face = side_of(bones(False), "front")
    for at, run, role in ((30, 30, "hip jack"), (140, 90, "common"), (280, 20, "hip jack")):
        stick = rafter(face, edges(bones(False), face), at, STOCK)
        assert (stick.role, stick.on_plate) == (role, True)
        assert stick.theoretical_in == pytest.approx(run * STRETCH)
        seat = {"common-seat", "common-heel", "common-tail-plumb"}
        assert seat <= {plane.says for plane in stick.planes}
        left = {plane.says for removal in without_notch(stick) for plane in removal}
        assert seat & left == {"common-tail-plumb"}
    assert rafter(face, (), 30, STOCK).theoretical_in == 0


def test_rafters_over_a_valley() -> None:
    """The wing's valleys leave the front at 80 and 180 at 45 degrees."""
    face = side_of(bones(True), "front")
    for at, start in ((100, 20), (150, 30)):
        stick = rafter(face, edges(bones(True), face), at, STOCK)
        assert (stick.role, stick.on_plate) == ("valley jack", False)
        assert stick.theoretical_in == pytest.approx((90 - start) * STRETCH)
        datum = stick.origin + 5.5 * stick.pose.up
        assert float((datum - face.origin) @ face.inward) == pytest.approx(start)


def test_the_corner_past_a_hip_is_planed_to_the_other_roof() -> None:
    frame = bones(False)
    hip = next(line for line in frame.lines.values() if line.kind == "hip")
    for face, other in (hip.faces, hip.faces[::-1]):
        plane = planed(hip, face)
        assert (plane.says, plane.end) == ("planed corner", "head")
        assert plane.normal == pytest.approx(other.normal)
        assert float(plane.beyond_in(other.lifted(other.origin + 9 * other.inward))) == (
            pytest.approx(0))  # fmt: skip


@pytest.mark.parametrize("end", ["6", "12"])
def test_a_shifted_hips_arrises_lie_each_in_its_own_roof(end: str) -> None:
    """Of two pitches: the stick stands aside of its line until both top arrises are in a roof."""
    outline = rectangle(300, 180, P, read_pitch(end))
    frame = roof_frame(
        RoofPlan.over(outline, hip=DEEP, hip_way="shifted", spacing_in=48), roof_lines(outline)
    )
    hips = [line for line in frame.lines.values() if line.kind == "hip"]
    assert len(hips) == 4
    for line in hips:
        stick = next(s for s in frame.carriers if s.name == line.name)
        left = stick.origin + 1.5 * stick.pose.left + stick.stock.depth_in * stick.pose.up
        arrises = {1: left, -1: left - 1.5 * stick.pose.left}
        for face in line.faces:
            side = np.sign(float(line.aside(face) @ stick.pose.left))
            assert float(face.above_in(arrises[int(side)])) == pytest.approx(0, abs=1e-9)


def test_a_valley_ends_on_a_ridge_as_the_catalogue_has_it() -> None:
    """The valley that runs on to the main ridge is cut to its side, the other one to the first."""
    roof = framed_shape("a lower wing")
    long, short = sorted(
        (s for s in roof.sticks if s.role == "valley"), key=lambda s: -s.theoretical_in
    )
    (head,) = (p for p in long.planes if p.says == "valley-ridge")
    assert head.asked is not None
    assert roof.by_name[head.mate].role == "ridge"
    assert {p.mate for p in short.planes if p.end == "head"} >= {long.name}
    assert "valley-ridge" not in {p.says for p in short.planes}
