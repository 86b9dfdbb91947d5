"""A shed's rafters at their upper wall, on a plate and on a ledger, at 5 in 12: 13 on the slope."""

import math

import pytest

from layout.framing.outlines import shed
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.quantity import read_pitch

SHED = shed(100, 110, read_pitch("5"))


def test_a_rafter_ends_plumb_on_its_ledger() -> None:
    """110 in of run less a ledger 1 1/2 in thick; the face mark is the roof's own 5 in 12."""
    roof = frame(RoofPlan.over(SHED, high="ledger", spacing_in=48))
    commons = [s for s in roof.rafters if s.role == "common"]
    (ledger,) = (s for s in roof.sticks if s.role == "ledger")
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
