"""What is told of a whole roof's lines and sides, by hand from its walls."""

import math

import pytest

from layout.framing.facts import line_rows, side_rows, tops_over_plates
from layout.framing.outlines import rectangle
from layout.framing.roof_lines import roof_lines
from layout.quantity import read_pitch
from tests.drawn_roofs import framed_shape, small_ell

MAIN, ENDS = read_pitch("6"), read_pitch("10")


def test_every_line_of_a_hipped_rectangle() -> None:
    """216 by 140 at 6 and 10 in 12: hips run 42 along the fronts and 70 in, 35 up."""
    rows = line_rows(roof_lines(rectangle(216, 140, MAIN, ENDS)), 4.25)
    run = math.hypot(42, 70)
    hips = [row for row in rows if row.kind == "hip"]
    assert [row.name for row in rows if row.kind == "hip"] == ["H1", "H2", "H3", "H4"]
    assert {frozenset(row.sides.split(" / ")) for row in hips} == {
        frozenset((main, end)) for main in ("front", "back") for end in ("left", "right")
    }
    for row in hips:
        assert (row.corner_deg, row.run_in) == (pytest.approx(90), pytest.approx(run))
        assert row.length_in == pytest.approx(math.hypot(run, 35))
        assert row.slope_deg == pytest.approx(math.degrees(math.atan2(35, run)))
        assert row.top_in == pytest.approx(35 + 4.25)
        first = row.sides.split(" / ")[0]
        along, inward = (42, 70) if first in ("front", "back") else (70, 42)
        assert row.plan_angle_deg == pytest.approx(math.degrees(math.atan2(inward, along)))
    (ridge,) = (row for row in rows if row.kind == "ridge")
    assert (ridge.name, set(ridge.sides.split(" / "))) == ("R1", {"front", "back"})
    assert (ridge.run_in, ridge.length_in) == (pytest.approx(216 - 84), pytest.approx(216 - 84))
    assert (ridge.slope_deg, ridge.plan_angle_deg) == (pytest.approx(0), pytest.approx(0))
    assert ridge.top_in == pytest.approx(35 + 4.25)
    assert len(rows) == 5


def test_a_skew_line_is_measured_from_its_first_sides_wall() -> None:
    """A hip over a corner of 110 or 70 degrees at equal pitches halves it."""
    rows = line_rows(framed_shape("a half-octagon end and a gable").surface)
    blunt = [row for row in rows if row.kind == "hip"]
    assert [row.plan_angle_deg for row in blunt] == pytest.approx([67.5] * len(blunt))
    assert {round(row.corner_deg, 6) for row in blunt} == {135.0}
    assert blunt[0].top_in == pytest.approx(min(row.top_in for row in rows if row.kind == "ridge"))


def test_every_sides_rise_over_the_plates() -> None:
    """Each side as high as its highest line: half its span times its slope, and what stands over
    the plate; the wing's 10 in of run for each 12 at 12 in 12."""
    roof = small_ell()
    rows = {row.side: row for row in side_rows(roof)}
    assert list(rows) == [
        face.name for k in roof.surface.eave_planes for face in roof.faces
        if face.name == roof.surface.planes[k].name
    ]  # fmt: skip
    for face in roof.faces:
        row = rows[face.name]
        highest = max(
            line.head_height_in
            for line in roof.surface.lines
            if face.name in (roof.surface.planes[line.left].name,
                             roof.surface.planes[line.right].name)
        )  # fmt: skip
        assert row.rise_in == pytest.approx(highest + row.height_above_plate_in)
        assert row.pitch == str(face.pitch)
        assert row.slope_deg == pytest.approx(
            math.degrees(math.atan(face.pitch.rise / face.pitch.run))
        )
        # both heights together are the rafter's whole plumb depth
        plumb = roof.plan.rafter.depth_in * math.hypot(1, face.pitch.rise / face.pitch.run)
        assert row.height_above_plate_in + row.heel_in == pytest.approx(plumb)
        assert row.seat_in * face.pitch.rise / face.pitch.run == pytest.approx(row.heel_in)
    assert rows["front"].rise_in == pytest.approx(90 * 6 / 12 + rows["front"].height_above_plate_in)


def test_the_tops_of_ridges_ledgers_and_high_plates() -> None:
    """Each as high as its solid; sticks on the eaves' plates, and the plates, are not told."""
    for roof in (small_ell(), framed_shape("a shed")):
        told = {row.name: row.top_in for row in tops_over_plates(roof)}
        high = {
            s.name: float(s.corners[:, 2].max())
            for s in roof.sticks
            if s.role == "ridge" or (s.role == "plate" and s.corners[:, 2].min() > 0)
        }
        assert told == pytest.approx(high)
        assert told
