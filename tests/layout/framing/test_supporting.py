"""The supporting valley: which of two runs on, how far, and what lies against it.

Lengths by the square alone: over a run of 12 at 8 in 12 a valley of a square corner is
sqrt(12^2 + 12^2 + 8^2) long.
"""

import math

import numpy as np
import pytest

from layout.framing.ends import end_question, places
from layout.framing.outlines import tee
from layout.framing.roof import frame
from layout.framing.roof_lines import roof_lines
from layout.framing.roof_plan import RoofPlan
from layout.framing.supporting import supporting
from layout.framing.walls import Wall, walk
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.drawn_roofs import through

P = read_pitch("8")
GABLES = ("gable", "gable", "gable")
ON_12 = math.sqrt(12**2 + 12**2 + 8**2) / 12


def test_one_valley_of_a_lower_wing_runs_to_the_main_ridge() -> None:
    """A wing 100 in wide on a roof 180 in wide: one valley has the main run of 90 in, the other
    the wing's run of 50 in, and it ends with the wing's ridge on the first one's sides."""
    plan = RoofPlan.over(
        tee(300, 180, 80, 60, 100, P, ends=GABLES), spacing_in=48, valley=read_stock("2x10")
    )
    roof = frame(plan)
    valleys = sorted((roof.by_name[n] for n in ("V1", "V2")), key=lambda v: v.theoretical_in)
    assert [v.theoretical_in for v in valleys] == pytest.approx([50 * ON_12, 90 * ON_12])
    short, long = valleys
    ridge = next(s for s in roof.sticks if s.role == "ridge" and s.blank_in < 200)
    assert {plane.mate for plane in short.planes if plane.end == "head"} >= {long.name}
    assert long.name in {plane.mate for plane in ridge.planes}
    # jacks of the main roof's front stand on both sides of what runs on
    beside = {p.says for s in roof.rafters if s.face == "front" for p in s.planes
              if p.mate == long.name}  # fmt: skip
    assert "valley cheek" in beside
    # Past the turn, 50 in of level run up, the edge on the wing's side is planed to the main roof.
    # There that roof lies 3/4 / sqrt 2 in run lower: square below the edge, the place is nearer.
    assert "bevel" in places(long)
    assert "bevel" not in places(short)
    bevel = end_question(long, "bevel", roof.by_name).stands
    fall, sine = 0.75 / math.sqrt(2) * 8 / 12, 8 / (12 * ON_12)
    assert bevel is not None
    assert bevel.starts_in == pytest.approx(50 * ON_12 - fall * sine, abs=1e-6)


@pytest.mark.parametrize("at", [40.0, 160.0])
def test_the_valley_that_runs_on_is_the_one_that_meets_the_ridge(at: float) -> None:
    """Hipped ends leave the ridge from 90 to 210 in. A wing of 100 in from 40 has valleys that
    rise at 45 from 40 and 140 and would meet the ridge's line at 130 and at 50: only the first
    does. The other wing is its mirror. The turn lies over half the wing's width."""
    roof = roof_lines(tee(300, 180, at, 60, 100, P))
    (only,) = supporting(roof)
    corner, meets = (at, at + 90) if at < 100 else (at + 100, at + 10)
    depth = roof.planes[only.inside].level_in
    inward = roof.planes[only.inside].inward
    line = roof.lines[only.line]
    along = np.array([1.0, 0.0])
    assert float(line.foot @ along) == pytest.approx(corner + _left(roof), abs=1e-4)
    assert float(only.head @ along) == pytest.approx(meets + _left(roof), abs=1e-4)
    assert float(only.turn @ inward) - depth == pytest.approx(50, abs=1e-4)
    assert float(only.head @ inward) - depth == pytest.approx(90, abs=1e-4)
    assert {only.inside, only.far} & {line.left, line.right} == {only.inside}


def test_the_same_valley_runs_on_wherever_the_walk_begins() -> None:
    walls = list(tee(300, 180, 40, 60, 100, P).walls)
    for k in range(len(walls)):
        roof = roof_lines(walk([*walls[k:], *walls[:k]]))
        (only,) = supporting(roof)
        assert float(np.hypot(*(only.head - roof.lines[only.line].foot))) == pytest.approx(
            90 * math.sqrt(2), abs=1e-4
        )


def _left(roof) -> float:  # type: ignore[no-untyped-def]
    return float(roof.outline.corners[:, 0].min())


def test_no_valley_runs_on_where_the_ridges_meet_or_nearly_do() -> None:
    """A wing as wide as the main roof has its ridge. One 12 in narrower has its valleys' heads
    6 in before it, 6 x sqrt 2 = 8.5 in along them: nearer than 9; one 14 in narrower, 9.9 in."""
    found = [supporting(roof_lines(tee(400, 180, 100, 60, wing, P))) for wing in (180, 168, 166)]
    assert [len(each) for each in found] == [0, 0, 1]


@pytest.mark.parametrize(("over", "way"), [(0.3, -1), (-0.3, 1)])
def test_no_valley_runs_on_under_another_wings_tip(over: float, way: int) -> None:
    """A wing of 100 in begins 200 in along: its left valley would run on from (250, 50), at 45
    degrees, to the ridge 200 in deep. Beside it a steep wing of 140 in, at 20 in 12, ends 175 in
    deep, where that line is 375 in along: a tip that reaches over it, by less than an inch of
    the line, sends the other valley on, the other way."""
    steep = read_pitch("20")
    assert 70 * 20 / 8 == 175
    gap = 375 - over - 70 - 300
    walls = [
        Wall(200, -90, "eave", P), Wall(40, 90, "eave", P), Wall(100, 90, "gable"),
        Wall(40, -90, "eave", P), Wall(gap, -90, "eave", P), Wall(40, 90, "eave", steep),
        Wall(140, 90, "gable"), Wall(40, -90, "eave", steep), Wall(200, 90, "eave", P),
        Wall(400, 90, "gable"), Wall(640 + gap, 90, "eave", P), Wall(400, 90, "gable"),
    ]  # fmt: skip
    (first,) = (s for s in supporting(roof_lines(walk(walls))) if s.turn[1] < 100)
    assert first.turn == pytest.approx([250, 50])
    assert first.head == pytest.approx([250 + way * 150, 200])


def test_a_valley_that_would_end_where_others_meet_leaves_it_to_its_twin() -> None:
    """Hipped, 400 x 180: the main ridge runs from 90 to 310, 90 in deep. A wing of 180 in at the
    back has its own ridge and both valleys meet there, at 200. Of a wing 100 in wide at the front,
    from 110, one valley would rise to just that point, and the other to 210 - 90 = 120."""
    points = [(0, 0), (110, 0), (110, -60), (210, -60), (210, 0), (400, 0), (400, 180), (290, 180),
              (290, 330), (110, 330), (110, 180), (0, 180)]  # fmt: skip
    roof = roof_lines(through(points))
    (only,) = supporting(roof)
    assert only.head[:2] == pytest.approx([120, 90])
