"""A hip's lines on plates that are wider than its seat: from rim to rim, by the square corner."""

import math

import numpy as np
import pytest

from layout.framing.crossing import crossings
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.stock import read_stock


def test_a_short_seats_lines_run_over_the_whole_plate() -> None:
    """Plates 5 1/2 in wide, common seats of 3: in plan each face runs at 45 degrees, 1 1/2 / sqrt 2
    off the corner's own line, to the inside edge or to the other plate's side.

    The wood itself ends where the hip's bottom edge, 7.25 in square below its top, comes down to
    the plate: (7.25 / cos - height over the plate) / tan of the hip's slope along its line.
    """
    roof = frame(RoofPlan(160, 120, spacing_in=48, seat_in=3.0, plate=read_stock("2x6")))
    found = {(one.carrier, one.stick): one for one in crossings(roof.sticks)}
    off = 1.5 / math.sqrt(2)
    right, left = found["P1", "H1"].lines
    assert [p.edge for p in right[1:]] == ["outside edge", "inside edge"]
    assert [p.along_in for p in right[1:]] == pytest.approx([off, 5.5 + off], abs=1e-4)
    assert [p.edge for p in left[1:]] == ["end", "inside edge"]
    assert left[1].across_in == pytest.approx(off, abs=1e-4)
    assert left[2].along_in == pytest.approx(5.5 - off, abs=1e-4)
    slope = 8 / math.hypot(12, 12)
    height = 5.5 * math.hypot(12, 8) / 12 - 3 * 8 / 12
    seat = (7.25 * math.hypot(1, slope) - height) / slope
    assert seat < 5.5 * math.sqrt(2)
    reach = (np.array(found["P1", "H1"].outline) @ [1, 1]).max() / math.sqrt(2)
    assert reach == pytest.approx(seat, abs=1e-4)
