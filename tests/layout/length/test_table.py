"""The square's rows against printed tables, and against the handbooks' closed forms."""

import math

import numpy as np
import pytest

from layout.errors import CutError, LayoutError, LengthError
from layout.length.run_length import Stepping
from layout.length.table import (
    FOOT,
    METRE,
    RafterRow,
    brace_row,
    brace_rows,
    polygon_row,
    rafter_row,
    rafter_rows,
)
from layout.quantity import Pitch, read_pitch
from layout.records import as_row, as_table
from tests.outside_csv import read_table


def in_12(rise: float) -> Pitch:
    return Pitch(rise, 12.0, f"{rise:g} in 12")


def number(row: RafterRow, quantity: str) -> float:
    if quantity.startswith("jack_") and quantity[5:].isdigit():
        return row.jack_differences[row.spacings.index(float(quantity[5:]))]
    return float(getattr(row, quantity))


@pytest.mark.parametrize("printed", read_table("rafter_table_printed"))
def test_row_gives_the_printed_number(printed: dict[str, str]) -> None:
    row = rafter_row(in_12(float(printed["rise_in_12"])))
    assert number(row, printed["quantity"]) == pytest.approx(
        float(printed["printed"]), abs=float(printed["tolerance"])
    )


@pytest.mark.parametrize("known", read_table("rafter_rows_2_to_18"))
def test_rows_from_2_to_18_give_the_closed_forms(known: dict[str, str]) -> None:
    row = rafter_row(in_12(float(known["rise_in_12"])))
    for quantity in ("common", "line", "jack_16", "jack_24", "jack_side_cut", "line_side_cut"):
        assert number(row, quantity) == pytest.approx(float(known[quantity]), abs=0.00051)
    assert row.own_drop == pytest.approx(float(known["drop"]), abs=0.000051)
    assert row.own_backing_deg == pytest.approx(float(known["backing_deg"]), abs=0.0051)
    octagon = polygon_row(8, in_12(float(known["rise_in_12"])))
    assert octagon.hip == pytest.approx(float(known["octagon_hip"]), abs=0.00051)


@pytest.mark.parametrize("rise", [r / 2 for r in range(4, 37)])
def test_rows_give_the_closed_forms_to_the_last_figure(rise: float) -> None:
    """C = sqrt(144 + r^2) and H = sqrt(288 + r^2), NAVEDTRA 14044 ch. 2; halves included."""
    c, h = math.hypot(12, rise), math.sqrt(288 + rise**2)
    row = rafter_row(in_12(rise), spacings_in=(19.2, 0.5))
    assert row.common == pytest.approx(c, abs=1e-12)
    assert row.line == pytest.approx(h, abs=1e-12)
    assert row.line_run == pytest.approx(math.sqrt(288), abs=1e-12)
    assert row.jack_differences == pytest.approx((19.2 * c / 12, c / 24), abs=1e-12)
    assert row.jack_side_cut == pytest.approx(144 / c, abs=1e-12)
    assert row.line_side_cut == pytest.approx(12 * math.sqrt(288) / h, abs=1e-12)
    # Griffith 1916 sec. 26: the bevel is the hip's slope, tan = r / H; its plumb height the drop
    assert row.own_backing_deg == pytest.approx(math.degrees(math.atan(rise / h)), abs=1e-12)
    assert row.own_drop == pytest.approx(0.75 * rise / math.sqrt(288), abs=1e-12)


def test_books_that_take_17_for_1697_step_a_longer_hip() -> None:
    """Hodgson's 19 1/4 at 9 and 19 3/4 at 10 in 12 come from 17, not from 16.97."""
    for rise, printed in ((9, 19.25), (10, 19.75)):
        assert Stepping(17, rise, 1, 0).step_in == pytest.approx(printed, abs=1 / 32)
        assert abs(rafter_row(in_12(rise)).line - printed) > 1 / 32


UNITS = {
    **dict.fromkeys(("common", "line", "line_run", "hip", "hip_run", "per_run"), 1000 / 12),
    **dict.fromkeys(("half_side", "half_side_over_run"), 1000 / 12),
    **dict.fromkeys(("jack_side_cut", "line_side_cut", "mitre", "over"), 100 / 12),
    **dict.fromkeys(("own_drop", "other_drop", "drop", "thickness"), 25.4),
    **dict.fromkeys(("spacings", "jack_differences"), 25.4),
}
"""What each number is multiplied by from the foot's table to the meter's; angles stay."""


def test_metric_row_is_the_same_roof() -> None:
    usual = rafter_row(in_12(8))
    assert (usual.spacings, usual.thickness, usual.per_run) == ((16, 24), 1.5, 12)
    for make in (
        lambda unit: rafter_row(in_12(8), in_12(7), 100.0, thickness_in=2.0, unit=unit),
        lambda unit: polygon_row(8, in_12(9), thickness_in=2.0, unit=unit),
    ):
        foot, meter = make(FOOT), make(METRE)
        assert (foot.unit, meter.unit) == ("in", "mm")
        for name, value in vars(foot).items():
            if not isinstance(value, str):
                exact = np.asarray(value) * UNITS.get(name, 1.0)
                np.testing.assert_allclose(getattr(meter, name), exact, rtol=1e-12, err_msg=name)
    metric = rafter_row(Pitch(667, 1000, "667 in 1000"), unit=METRE)
    assert metric.common == pytest.approx(usual.common / 12 * 1000, abs=0.5)


def test_a_metric_brace_is_the_same_brace() -> None:
    inch, metric = brace_row(36, 27), brace_row(36, 27, METRE)
    assert (metric.run, metric.rise, metric.unit) == (36 * 25.4, 27 * 25.4, "mm")
    assert metric.length == pytest.approx(45 * 25.4)
    assert (metric.post_mark_deg, metric.beam_mark_deg) == (inch.post_mark_deg, inch.beam_mark_deg)


def test_unequal_pitches_of_a_printed_example() -> None:
    """Hodgson, division C: span 24', rise 10', side run 12', end run 16', square corner."""
    side, end = Pitch(10, 12, "side"), Pitch(10, 16, "end")
    row, other = rafter_row(side, end), rafter_row(end, side)
    assert row.line_run * 12 / 12 == pytest.approx(20, abs=1e-9)  # hip run 20 ft over 12 ft
    assert row.common == pytest.approx(187.446 / 12, abs=1e-3)  # 15' 7 7/16" over a run of 12'
    assert other.common * 16 == pytest.approx(226.4159, abs=1e-3)  # 18' 10 7/16", not his 19'
    # end length on blade, side run on tongue, cut on blade: atan(12 / 18.868) from the length
    assert math.degrees(math.atan(12 / other.jack_side_cut)) == pytest.approx(90 - 32.46, abs=0.01)
    assert math.degrees(math.atan(12 / row.jack_side_cut)) == pytest.approx(90 - 45.69, abs=0.01)
    # level setbacks t/2 x 16/12 and t/2 x 12/16 on the seat line 20 : 10
    assert row.own_drop == pytest.approx(0.75 * 0.6667, abs=1e-4)
    assert row.other_drop == pytest.approx(0.75 * 0.375, abs=1e-4)
    # hip against the ridge: BJ = 15 on tongue, the hip's 22.36 on blade, 8.05 over 12
    assert row.line_side_cut == pytest.approx(12 * 15 / 22.3607, abs=1e-3)


@pytest.mark.parametrize("interior", [60.0, 90.0, 120.0, 135.0])
def test_irregular_corner_obeys_the_law_of_sines(interior: float) -> None:
    """sin f tan a = sin(w - f) tan b: both roofs climb alike along their line."""
    a, b = in_12(8), in_12(7)
    row, other = rafter_row(a, b, interior), rafter_row(b, a, interior)
    f = math.radians(row.plan_angle_deg)
    assert math.sin(f) * 8 == pytest.approx(math.sin(math.radians(interior) - f) * 7, abs=1e-12)
    assert row.plan_angle_deg + other.plan_angle_deg == pytest.approx(interior, abs=1e-9)
    assert row.own_backing_deg == pytest.approx(other.other_backing_deg, abs=1e-9)
    assert row.line_slope_deg == pytest.approx(other.line_slope_deg, abs=1e-9)


def test_valley_rows_equal_hip_rows_but_for_the_drop() -> None:
    hip, valley = rafter_row(in_12(8)), rafter_row(in_12(8), corner_deg=270.0)
    for name in ("common", "line", "jack_side_cut", "line_side_cut"):
        assert getattr(valley, name) == pytest.approx(getattr(hip, name), abs=1e-12)
    assert valley.jack_differences == pytest.approx(hip.jack_differences)
    assert valley.own_drop == pytest.approx(-hip.own_drop)


@pytest.mark.parametrize("printed", read_table("braces_printed"))
def test_brace_gives_the_printed_length(printed: dict[str, str]) -> None:
    brace = brace_row(float(printed["run_in"]), float(printed["rise_in"]))
    assert brace.length == pytest.approx(
        float(printed["printed_in"]), abs=float(printed["tolerance_in"])
    )


def test_brace_marks_and_the_usual_table() -> None:
    brace = brace_row(18, 24)
    assert brace.post_mark_deg == pytest.approx(math.degrees(math.atan2(24, 18)))
    assert brace.post_mark_deg + brace.beam_mark_deg == pytest.approx(90)
    rows = brace_rows()
    assert [row.run for row in rows[:3]] == [24, 27, 30]
    assert (rows[-1].run, rows[-1].rise, rows[-1].length) == pytest.approx((18, 24, 30))


@pytest.mark.parametrize("share", [1 / 48, 1.0, 48.0])
def test_a_brace_of_any_size_is_cut_alike(share: float) -> None:
    """Similar triangles: every length by the share (legs under an inch too), the marks as they
    were. 3, 4, 5 has a right angle (Euclid I.48)."""
    brace = brace_row(24 * share, 18 * share)
    assert brace.length == pytest.approx(30 * share)
    assert (brace.run, brace.rise) == pytest.approx((24 * share, 18 * share))
    assert brace.post_mark_deg == pytest.approx(math.degrees(math.atan2(18, 24)))


@pytest.mark.parametrize("printed", read_table("polygons_printed"))
def test_polygon_gives_the_printed_number(printed: dict[str, str]) -> None:
    row = polygon_row(int(printed["sides"]), in_12(float(printed["rise_in_12"])))
    assert getattr(row, printed["quantity"]) == pytest.approx(
        float(printed["printed"]), abs=float(printed["tolerance"])
    )


def test_polygon_against_griffith_rules() -> None:
    """Griffith 1916 secs. 39 and 41: jack side cut atan(4.97 / C); setback t/2 tan(180/n)."""
    row = polygon_row(8, in_12(8), thickness_in=2.0)
    tan = math.tan(math.radians(22.5))
    assert row.jack_side_cut == pytest.approx(144 * tan / row.common, abs=1e-9)
    assert row.drop / math.tan(math.radians(row.hip_slope_deg)) == pytest.approx(5 / 12, abs=1 / 64)
    assert row.drop == pytest.approx(tan * 8 / (12 / math.cos(math.radians(22.5))), abs=1e-12)
    assert row.jack_differences[0] == pytest.approx(16 * row.common / 12 / tan, abs=1e-9)


def test_square_is_a_polygon_of_four_sides() -> None:
    four, row = polygon_row(4, in_12(8)), rafter_row(in_12(8))
    assert four.hip == pytest.approx(row.line, abs=1e-12)
    assert four.drop == pytest.approx(row.own_drop, abs=1e-12)
    assert four.jack_side_cut == pytest.approx(row.jack_side_cut, abs=1e-12)


def test_rows_carry_their_own_header() -> None:
    header, rows = as_table(rafter_rows([read_pitch("8"), read_pitch("8 1/2")]))
    assert header[:3] == ("pitch", "other_pitch", "corner_deg")
    assert len(rows) == 2
    assert len(rows[0]) == len(header)
    assert rows[1][header.index("pitch")] == "8 1/2 in 12"
    assert as_row(brace_row(36, 48))["length"] == pytest.approx(60)


def test_wrong_rows_are_refused() -> None:
    with pytest.raises(LengthError, match="three or more"):
        polygon_row(2, in_12(8))
    with pytest.raises(LengthError, match="below 85"):
        brace_row(1, 36)
    with pytest.raises(LengthError, match="spacing of 0"):
        rafter_row(in_12(8), spacings_in=(0,))
    with pytest.raises(LayoutError, match="one plane"):
        rafter_row(in_12(8), corner_deg=180)
    for spacing in (-16.0, math.inf, math.nan):
        with pytest.raises(LengthError, match="parts no jacks"):
            polygon_row(8, in_12(8), spacings_in=(16.0, spacing))
    for leg in (0.0, -1.0):
        for legs in ((leg, 36), (36, leg)):
            with pytest.raises(LengthError, match="leg without length"):
                brace_row(*legs)


@pytest.mark.parametrize(("corner", "jack"), [(120.0, "hip-jack"), (240.0, "valley-jack")])
def test_a_roof_whose_jacks_never_come_to_the_line_is_refused_by_their_name(corner, jack):
    with pytest.raises(CutError, match=f"^{jack} has no place in this roof"):
        rafter_row(read_pitch("2 1/2"), read_pitch("14"), corner)
