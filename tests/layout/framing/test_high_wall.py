"""A shed's rafters at their upper wall, on a plate and on a ledger, at 5 in 12: 13 on the slope."""

import math
from dataclasses import replace

import numpy as np
import pytest

from layout.framing.face import Face
from layout.framing.high_wall import HighWall
from layout.framing.outlines import shed
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.length.birdsmouth import from_seat
from layout.quantity import read_pitch
from layout.stock import read_stock

SHED = shed(100, 110, read_pitch("5"))


def test_a_rafter_ends_plumb_on_its_ledger() -> None:
    """110 in of run less a ledger 1 1/2 in thick; the face mark is the roof's own 5 in 12."""
    roof = frame(RoofPlan.over(SHED, high="ledger", spacing_in=48))
    commons = [s for s in roof.rafters if s.role == "common"]
    (ledger,) = (s for s in roof.sticks if s.role == "ledger")
    # the whole of the back wall, its outside flush with the wall's, its arris in the roof
    assert ledger.corners[:, :2].min(axis=0) == pytest.approx([0, 110 - 1.5])
    assert ledger.corners[:, :2].max(axis=0) == pytest.approx([100, 110])
    top = roof.plan.mouth.height_above_plate_in + 5 / 12 * (110 - 1.5)
    assert ledger.corners[:, 2].max() == pytest.approx(top)
    assert ledger.name == "L1"
    assert len(commons) == 4
    for stick in commons:
        assert stick.measured().centre_in == pytest.approx((110 - 1.5) * 13 / 12, abs=1e-6)
        (head,) = (p for p in stick.planes if p.end == "head")
        assert head.mate == ledger.name
        question = stick.question(head)
        assert question is not None
        mark = float(question.joint.cuts(stick.stock)[0].face_mark_deg)
        assert mark == pytest.approx(math.degrees(math.atan(5 / 12)))
        assert mark == pytest.approx(float(stick.cut(head).face_mark_deg))


def test_a_rafter_runs_over_its_high_plate_as_far_as_over_the_low_one() -> None:
    """Both tails are 12 in level less a fascia of 3/4; both seats lie as deep in the wood."""
    roof = frame(RoofPlan.over(SHED, spacing_in=48))
    for stick in (s for s in roof.rafters if s.role == "common"):
        assert stick.tail_in == pytest.approx(11.25 * 13 / 12, abs=1e-6)
        assert stick.measured().centre_in == pytest.approx((110 + 11.25) * 13 / 12, abs=1e-6)
        mates = [p.mate for p in stick.planes if p.says in ("common-seat", "high-seat")]
        assert len(set(mates)) == 2
        assert "" not in mates


X, Y, Z = np.eye(3)
FACE = Face("front", read_pitch("6 in 12"), np.array([10.0, 20.0, 0.0]), X, Y, 3.5)
"""A roof that climbs 1 in 2 inward from a wall 20 in out, 3 1/2 in over its plate."""


def high_wall(ledger: str | None = None) -> HighWall:
    """The upper wall 100 in on, under 2x6 rafters with seats of 2 in on plates 5 1/2 in wide."""
    mouth = from_seat(FACE.pitch.slope_deg, read_stock("2x6"), 2.0)
    face = replace(FACE, height_in=mouth.height_above_plate_in)
    return HighWall(2, face, 100.0, mouth, 5.5, 11.0, read_stock(ledger) if ledger else None)


def test_the_high_seat_is_cut_where_the_rafters_bottom_edge_meets_it() -> None:
    """The bottom edge climbs 1 in 2 from 1 in under the low plate, where the seat is 2 in long: at
    2 in into the high plate, 96 1/2 in on, it is 96 1/2 / 2 - 1 in high."""
    high = high_wall()
    top = 96.5 / 2 - 1.0
    assert high.plate_top_in == pytest.approx(top)
    removals = high.head()
    for out in (-0.1, 0.1):  # of the heel, 94 1/2 in on, and of the end, 111 in on
        for up in (-0.1, 0.1):
            notch = FACE.origin + (94.5 + out) * Y + (top + up) * Z
            end = FACE.origin + (111 + out) * Y + (top + up) * Z + 7 * X
            for point, gone in ((notch, out > 0 and up < 0), (end, out > 0 or up < 0)):
                beyond = [all(p.beyond_in(point) > 0 for p in removal) for removal in removals]
                assert any(beyond) == gone
    assert [[p.says for p in r] for r in removals] == [["high-seat", "high-heel"], ["high-tail"]]
    assert all(p.end == "head" for removal in removals for p in removal)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("askew_deg", [0, 10, 20, 33, 50])
def test_a_ledger_stands_inside_its_wall_whichever_way_it_is_laid(
    turned: bool, askew_deg: float
) -> None:
    """A 2x8 over 60 in of wall, its outside on the wall's, its inner top arris in the roof."""
    turn = math.radians(askew_deg)
    x, y = (np.array([math.cos(a), math.sin(a), 0]) for a in (turn, turn + math.pi / 2))
    start, upper = FACE.origin, high_wall("2x8")
    high = replace(upper, face=replace(upper.face, along=x, inward=y))
    ends = np.stack([(start + 2 * x + 100 * y)[:2], (start + 62 * x + 100 * y)[:2]])
    stick = high.ledger_stick("L7", *(ends[::-1] if turned else ends))
    top = high.face.height_in + (100 - 1.5) / 2
    corners = (stick.corners - start) @ np.stack([x, y, Z]).T
    assert corners.min(axis=0) == pytest.approx([2, 98.5, top - 7.25])
    assert corners.max(axis=0) == pytest.approx([62, 100, top])
    assert stick.theoretical_in == pytest.approx(60)
    assert (stick.name, stick.role, stick.face) == ("L7", "ledger", "front")
    assert stick.pose.head == pytest.approx(-x if turned else x)
    assert [(p.says, p.end) for p in stick.planes] == [
        ("square end", "foot"), ("square end", "head")]  # fmt: skip
    foot, head = stick.planes
    assert foot.normal == pytest.approx(-stick.pose.head)
    assert head.normal == pytest.approx(stick.pose.head)


def test_a_rafters_cut_on_a_ledger_lies_on_its_inside() -> None:
    high = high_wall("2x8")
    ((plane,),) = high.head()
    assert plane.normal == pytest.approx(Y)
    assert float(plane.beyond_in(FACE.origin + 98.5 * Y + 5 * X + 2 * Z)) == pytest.approx(0)
    asked = plane.asked
    assert asked is not None
    assert (plane.says, plane.end) == ("common-ridge", "head")
    assert (asked.cut, asked.end, asked.corner_deg) == ("common-ridge", "head", 90.0)
    assert asked.pitch == asked.other_pitch == FACE.pitch
