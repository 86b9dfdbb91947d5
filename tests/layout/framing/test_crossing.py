"""A hip's lines on plates that are wider than its seat: from rim to rim, by the square corner."""

import math

import numpy as np
import pytest
import shapely

from layout.framing.contact import contacts
from layout.framing.crossing import crossings
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.stock import read_stock
from tests.drawn_roofs import framed_shape, small_ell


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


@pytest.mark.parametrize("name", ["a small L", "a half-octagon end and a gable"])
def test_every_line_runs_on_a_face_from_rim_to_rim(name: str) -> None:
    """Carried back to where the plate lies in the world, both ends of a line lie on the very face
    of the stick; and a stick is told on just those plates on which its seat lies."""
    roof = small_ell() if name == "a small L" else framed_shape(name)
    found = crossings(roof.sticks)
    seated = {
        (c.mate, c.stick)
        for c in contacts(roof.sticks)
        if c.says in ("hip-seat", "valley-seat") and roof.by_name[c.mate].role == "plate"
    }
    told = [(one.carrier, one.stick) for one in found]
    assert len(told) == len(set(told))
    assert set(told) == seated
    plates = [s.name for s in roof.sticks if s.role == "plate"]
    assert [plate for plate, _ in told] == sorted((p for p, _ in told), key=plates.index)
    for plate in plates:
        middles = [float(np.mean(one.outline, axis=0)[0]) for one in found if one.carrier == plate]
        assert middles == sorted(middles)
    for one in found:
        plate, stick = roof.by_name[one.carrier], roof.by_name[one.stick]
        start = plate.in_board(plate.corners)[:, 0].min()
        length, width = plate.blank_in, plate.stock.depth_in
        rim = {"outside edge": (1, 0.0), "inside edge": (1, width)}
        assert 1 <= len(one.lines) <= 2
        for face, *ends in one.lines:
            assert (ends[0].across_in, ends[0].along_in) < (ends[1].across_in, ends[1].along_in)
            for point in ends:
                at = (point.along_in, point.across_in)
                world = plate.origin + (start + at[0]) * plate.pose.head + at[1] * plate.pose.up
                across = float(stick.in_board(world)[1])
                side = 0.0 if face == "right face" else stick.stock.thickness_in
                assert across == pytest.approx(side, abs=1e-5)
                if point.edge == "end":
                    assert min(abs(at[0]), abs(at[0] - length)) < 1e-5
                    assert 1e-5 <= at[1] <= width - 1e-5
                else:
                    which, level = rim[point.edge]
                    assert at[which] == pytest.approx(level, abs=1e-5)
        corners = np.array(one.outline)
        assert corners.min() > -1e-6
        assert (corners - [length, width]).max() < 1e-6
        touch = max(c.area_in2 for c in contacts((stick, plate)) if c.says == f"{stick.role}-seat")
        # a valley's seat is hollow at the corner of the plates, and the outline goes round it
        wood = shapely.Polygon(corners).area
        assert wood == pytest.approx(touch, abs=0.02) or (
            stick.role == "valley" and touch < wood < 1.1 * touch
        )
