"""Lengths by step and by table, shortenings, bird's mouths, drops, seats and tails."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from layout.cuts import find
from layout.cuts.hip import line_pose
from layout.errors import LengthError, RoofError
from layout.length.birdsmouth import from_height, from_seat
from layout.length.code_sections import carrier
from layout.length.drop import falls, hip_top, valley_top
from layout.length.run_length import (
    jack_per_spacing,
    line_per_run,
    measure,
    step_off,
    total_rise_in,
)
from layout.length.seat import line_seat
from layout.length.shortening import cheek_points, shorten
from layout.length.tail import level_overhang_in, line_tail, tail
from layout.plane.corner import Corner
from layout.quantity import write_feet
from layout.stock import read_stock
from layout.vector import dot

TWO_BY_SIX, TWO_BY_EIGHT = read_stock("2x6"), read_stock("2x8")


def in_12(rise: float) -> float:
    return math.degrees(math.atan2(rise, 12))


def square_corner(rise: float, other: float | None = None, interior: float = 90.0) -> Corner:
    return Corner(in_12(rise), in_12(rise if other is None else other), interior)


@pytest.mark.parametrize(
    ("source", "rise", "run_in", "stick", "expected_in", "tolerance_in"),
    [
        ("NAV example 1: span 16', 7 in 12, 9' 3 1/8\"", 7, 96, "common", 111.125, 1 / 32),
        ("GRI: span 25', 1/4 pitch, 13.42 x 12.5", 6, 150, "common", 167.75, 0.05),
        ("GRI App. IV: span 25', 1/2 pitch, 17' 8 1/8\"", 12, 150, "common", 212.125, 1 / 64),
        ("NAV hip: span 30', 8 in 12, 23.45'", 8, 180, "hip or valley", 23.45 * 12, 0.06),
        ("NAV valley: span 30', 9 in 12, 15 x 19.21", 9, 180, "hip or valley", 288.15, 0.0105),
        ("ARM: 20' 8\" wide, 13 in 12, to the inch", 13, 124, "common", 183.0, 0.5),
        ("HOD list: 24' wide, 1/4 pitch, 13' 4.99\"", 6, 144, "common", 160.99, 0.01),
        ("HOD list: 60' wide, 1/4 pitch, 33' 6 1/2\"", 6, 360, "common", 402.5, 1 / 32),
        ("HOD list: 24' wide, 1/2 pitch, 16' 11 2/3\"", 12, 144, "common", 203.66, 0.05),
        ("NOY: run 12', 1/4 pitch, 13' 5\"", 6, 144, "common", 161.0, 1 / 16),
        ("NOY: run 11', 1/3 pitch, 13' 2 8/12\"", 8, 132, "common", 158 + 8 / 12, 1 / 24),
        ("NOY: run 7', 5/8 pitch, 11' 2 6/12\"", 15, 84, "common", 134.5, 1 / 12),
        ("NOY: run 11' 6\", 1/2 pitch, 16' 3 2/12\"", 12, 138, "common", 195 + 2 / 12, 1 / 24),
        ("MIL: 8 in 12 over 8 ft rises 5' 4\"", 8, 96, "rise", 64.0, 1e-9),
        ("HOD: 10 rise over 12, 12 ft run, 15' 7.446\"", 10, 144, "common", 187.446, 0.001),
    ],
)
def test_published_worked_examples(
    source: str, rise: float, run_in: float, stick: str, expected_in: float, tolerance_in: float
) -> None:
    corner = square_corner(rise)
    if stick == "rise":
        found = float(total_rise_in(corner, run_in))
    elif stick == "common":
        found = measure(corner, run_in, "common").table_in
    else:
        found = measure(corner, run_in, "hip or valley").table_in
    assert found == pytest.approx(expected_in, abs=tolerance_in), source


def test_thirteen_steps_and_the_odd_of_a_hip() -> None:
    """Cyclopedia of Architecture, steel square: 13' 6" corner, rise 9: 13 steps, 8 1/2 level."""
    found = measure(square_corner(9), 162, "hip or valley")
    assert found.steps == 13
    assert found.odd_level_in == pytest.approx(8.5, abs=1 / 64)
    assert write_feet(found.stepped_in) == "21'-7 5/16\""


@pytest.mark.parametrize("rise", range(2, 19))
@pytest.mark.parametrize("stick", ["common", "hip or valley"])
def test_stepping_and_table_agree_over_twenty_feet(rise: int, stick: str) -> None:
    for run_in in (240.0, 239.0, 236.5, 121.25, 7.0):
        found = measure(square_corner(rise), run_in, stick)  # type: ignore[arg-type]
        assert abs(found.disagree_in) < 1 / 64
        assert found.disagree_in == pytest.approx(0, abs=1e-9)
        # a number printed to 0.01 is at most 0.005 off, so 20 of them at most 0.1
        assert abs(found.rounding_in) <= 0.005 * run_in / 12 + 1e-12
        exact = found.table_in / (run_in / 12)
        assert found.rounding_in == pytest.approx((round(exact, 2) - exact) * run_in / 12, abs=1e-9)


def test_printed_rounding_moves_the_answer_more_than_the_methods_differ() -> None:
    found = measure(square_corner(8), 240)
    assert found.table_number == 14.42
    assert found.rounding_in == pytest.approx(-0.0441, abs=1e-4)
    hip = measure(square_corner(8), 240, "hip or valley")
    assert hip.level_in == pytest.approx(16.9706, abs=1e-4)
    laid = math.hypot(17, 8) - math.hypot(16.970563, 8)
    assert hip.laid_in == pytest.approx(20 * laid, abs=1e-4)


def test_a_run_needs_a_length() -> None:
    for run_in in (0.0, -12.0, math.inf, math.nan):
        with pytest.raises(LengthError, match="has no length"):
            measure(square_corner(8), run_in)
    with pytest.raises(LengthError):
        step_off(12, 8, 0)


@given(
    rise=st.floats(2, 18),
    other=st.floats(2, 18),
    interior=st.one_of(st.floats(60, 150), st.floats(210, 300)),
)
def test_lengths_end_on_the_line_of_both_roofs(rise: float, other: float, interior: float) -> None:
    """Walking up the line over one unit of the own run, then a jack up to it: both meet."""
    corner = square_corner(rise, other, interior)
    run = 37.0
    top = run * float(line_per_run(corner)) * corner.line
    assert float(dot(top, corner.inward)) == pytest.approx(run, abs=1e-9)
    along = abs(float(dot(top, corner.eave)))
    if along > 1.0:
        jack = along * float(jack_per_spacing(corner))
        assert jack * float(dot(corner.upslope, corner.inward)) == pytest.approx(run, abs=1e-8)
    for normal in (corner.normal, corner.other_normal):
        assert float(dot(top, normal)) == pytest.approx(0, abs=1e-9)


# --- shortening -------------------------------------------------------------------------------


def test_shortening_by_the_rules_of_the_navy_course() -> None:
    """NAVEDTRA 14044 ch. 2: half the ridge; half the 45 degree thickness of ridge, common, hip."""
    corner = square_corner(8)
    half, diagonal = 0.75, 0.75 * math.sqrt(2)
    ridge = cheek_points(find("common-ridge").joint(corner), TWO_BY_SIX, half)
    assert ridge.shortening.level_in == pytest.approx(half, abs=1e-12)
    for name in ("hip-ridge-single", "hip-ridge"):
        hip = cheek_points(find(name).joint(corner), TWO_BY_EIGHT, half)
        assert hip.shortening.level_in == pytest.approx(diagonal, abs=1e-12)
    jack = cheek_points(find("hip-jack").joint(corner), TWO_BY_SIX, half)
    assert jack.shortening.level_in == pytest.approx(1.0607, abs=5e-5)
    valley = cheek_points(
        find("valley-jack").joint(square_corner(8, interior=270)), TWO_BY_SIX, half
    )
    assert valley.shortening.level_in == pytest.approx(diagonal, abs=1e-12)


@given(rise=st.floats(2, 18), other=st.floats(2, 18), interior=st.floats(60, 140))
def test_shortening_is_half_the_hip_over_the_sine_of_the_plan_angle(
    rise: float, other: float, interior: float
) -> None:
    """Common practice, no source: (t / 2) / sin of the plan angle between jack and hip."""
    corner = square_corner(rise, other, interior)
    between = math.radians(90 - float(corner.plan_angle_deg))
    # Where the hip leans past square to the eave no jack of this roof comes to it.
    assume(between > 0.05 and float(corner.plan_line[0]) * float(corner.eave[0]) > 0)
    joint = find("hip-jack").joint(corner)
    points = cheek_points(joint, TWO_BY_SIX, 0.75)
    assert points.shortening.level_in == pytest.approx(0.75 / math.sin(between), rel=1e-9)
    assert points.shortening.along_in == pytest.approx(
        points.shortening.level_in / math.cos(math.radians(in_12(rise))), rel=1e-9
    )
    # long to short is the thickness over the tangent, level; the centre lies midway
    assert (points.long_in - points.short_in) * math.cos(
        math.radians(in_12(rise))
    ) == pytest.approx(1.5 / math.tan(between), rel=1e-9)
    assert points.long_in + points.short_in == pytest.approx(2 * points.centre_in, abs=1e-9)


def test_double_cheek_has_its_long_point_in_the_middle() -> None:
    points = cheek_points(find("hip-ridge").joint(square_corner(8)), TWO_BY_EIGHT, 0.75)
    assert points.long_in == pytest.approx(points.centre_in, abs=1e-12)
    assert points.short_in < points.long_in


def test_double_cheek_off_the_middle_where_pitches_differ() -> None:
    """Where 8 meets 6 the corner of both commons lies off the hip's middle: the point does too."""
    corner = square_corner(8, 6)
    points = cheek_points(find("hip-ridge").joint(corner), TWO_BY_EIGHT, 0.75)
    # the corner of the commons' sides, 3/4 back from both, seen along the hip's plan line
    back = -0.75 * (corner.eave + corner.other_eave)[:2]
    forward = float(back @ corner.plan_line[:2]) * np.sign(float(corner.eave @ corner.plan_line))
    run_part = float(np.hypot(*line_pose(corner).head[:2]))
    assert points.long_in == pytest.approx(forward / run_part, abs=1e-9)
    assert points.long_in > points.centre_in


def test_a_stick_beside_its_mate_is_not_shortened() -> None:
    with pytest.raises(LengthError, match="runs beside"):
        shorten(np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0]), 0.75)


# --- bird's mouth -----------------------------------------------------------------------------


@given(rise=st.floats(2, 18), seat=st.floats(0.5, 3.5))
def test_seat_and_height_above_plate_are_one_mouth(rise: float, seat: float) -> None:
    by_seat = from_seat(in_12(rise), TWO_BY_EIGHT, seat)
    by_height = from_height(in_12(rise), TWO_BY_EIGHT, by_seat.height_above_plate_in)
    assert by_height.seat_in == pytest.approx(seat, abs=1e-9)
    assert by_height.heel_in == pytest.approx(seat * rise / 12, abs=1e-9)
    assert by_height.height_above_plate_in + by_height.heel_in == pytest.approx(
        7.25 * math.hypot(12, rise) / 12, abs=1e-9
    )
    assert by_height.notch_depth_in + by_height.left_in == pytest.approx(7.25, abs=1e-9)
    # square to the edge the notch is the height of a right triangle of seat and heel
    assert by_height.notch_depth_in == pytest.approx(
        seat * by_height.heel_in / math.hypot(seat, by_height.heel_in), abs=1e-9
    )


def test_mouth_stands_beside_the_code_without_a_verdict() -> None:
    """Residential code R802.6 (bearing 1 1/2 in) and R802.7 (notch d/4), from memory."""
    mouth = from_seat(in_12(8), TWO_BY_SIX, 3.5)
    bearing, notch = mouth.comparisons(plate_width_in=3.0)
    assert (bearing.section, bearing.here_in, bearing.code_in) == ("R802.6", 3.0, 1.5)
    assert notch.section == "R802.7"
    assert notch.here_in == pytest.approx(3.5 * 8 / math.hypot(12, 8))
    assert notch.code_in == pytest.approx(5.5 / 4)
    words = " ".join(
        f"{c.what} {c.says} {c.advice}" for c in (bearing, notch, carrier("hip", 7, 8))
    )
    assert "adopted locally" in words
    assert not {"pass", "fail", "ok"} & set(words.lower().split())


def test_a_seat_that_cuts_the_rafter_through_is_refused() -> None:
    with pytest.raises(LengthError, match=r"does not fit 2x6.*up to"):
        from_seat(in_12(12), TWO_BY_SIX, 8.0)
    # at 45 degrees, times root 2: 7 25/32 plumb, 23/64 over the notch, a seat up to 5 1/4 root 2
    with pytest.raises(LengthError, match=r"8 in leaves no .* above 3/8 and below 7 3/4 in"):
        from_height(45.0, TWO_BY_SIX, 8.0)
    with pytest.raises(LengthError, match=r"seat of 8 in does .* above 0 and up to 7 7/16 in"):
        from_seat(45.0, TWO_BY_SIX, 8.0)
    with pytest.raises(LengthError, match="leaves no bird's mouth"):
        from_height(in_12(8), TWO_BY_SIX, 0.1)
    with pytest.raises(LengthError):
        from_seat(in_12(8), TWO_BY_SIX, -1.0)


# --- drop, backing, seat ----------------------------------------------------------------------


def arrises(corner: Corner, own_in: float, other_in: float, low_in: float) -> list[np.ndarray]:
    """Own and other top arris over the corner as points in the world, the roof line at 0."""
    aside = corner.across if bool(corner.reentrant) else -corner.across
    down = np.array([0.0, 0.0, -low_in])
    return [own_in * aside + down, -other_in * aside + down]


@pytest.mark.parametrize("rise", range(2, 19))
def test_drop_and_backing_put_the_arrises_in_the_same_planes(rise: int) -> None:
    corner = square_corner(rise)
    dropped = hip_top(corner, TWO_BY_EIGHT, "dropped")
    backed = hip_top(corner, TWO_BY_EIGHT, "backed")
    # NAVEDTRA 14044 fig. 2-34 and Griffith sec. 26: half the thickness level, plumb at r in 17
    assert dropped.lowered_in == pytest.approx(0.75 * rise / math.sqrt(288), abs=1e-12)
    plumb_rip = backed.own_rip_in / math.cos(math.radians(float(corner.line_slope_deg)))
    assert plumb_rip == pytest.approx(dropped.lowered_in, abs=1e-12)
    for side, normal in zip(
        arrises(corner, 0.75, 0.75, dropped.lowered_in),
        (corner.normal, corner.other_normal),
        strict=True,
    ):
        assert float(dot(side, normal)) == pytest.approx(0, abs=1e-12)


@given(rise=st.floats(4, 14), other=st.floats(4, 14), interior=st.floats(70, 130))
def test_shifted_hip_has_both_arrises_in_their_planes(
    rise: float, other: float, interior: float
) -> None:
    corner = square_corner(rise, other, interior)
    if min(falls(corner)) < 0.01:
        return
    top = hip_top(corner, TWO_BY_EIGHT, "shifted")
    assert top.own_side_in + top.other_side_in == pytest.approx(1.5, abs=1e-12)
    points = arrises(corner, top.own_side_in, top.other_side_in, top.lowered_in)
    for point, normal in zip(points, (corner.normal, corner.other_normal), strict=True):
        assert float(dot(point, normal)) == pytest.approx(0, abs=1e-9)
    # its faces cross both walls equally far up: the heel is square by itself
    seat = line_seat(corner, top, TWO_BY_EIGHT, 4.0)
    assert seat.own_heel_in == pytest.approx(seat.other_heel_in, abs=1e-8)
    # a hip that is only dropped stays under both roofs and touches the steeper fall
    low = hip_top(corner, TWO_BY_EIGHT, "dropped")
    heights = [
        float(dot(point, normal))
        for point, normal in zip(
            arrises(corner, 0.75, 0.75, low.lowered_in),
            (corner.normal, corner.other_normal),
            strict=True,
        )
    ]
    assert max(heights) == pytest.approx(0, abs=1e-9)


def test_hollowed_valley_is_raised_by_what_a_hip_is_dropped() -> None:
    valley = square_corner(8, interior=270)
    assert valley_top(valley, TWO_BY_EIGHT).lowered_in == 0
    hollowed = valley_top(valley, TWO_BY_EIGHT, "hollowed")
    dropped = hip_top(square_corner(8), TWO_BY_EIGHT, "dropped")
    assert -hollowed.lowered_in == pytest.approx(dropped.lowered_in, abs=1e-12)
    assert hollowed.middle_rip_in == pytest.approx(
        hip_top(square_corner(8), TWO_BY_EIGHT, "backed").own_rip_in, abs=1e-12
    )


def test_seat_of_a_hip_with_the_corner_whole_and_clipped() -> None:
    corner = square_corner(8)
    common = from_seat(in_12(8), TWO_BY_SIX, 3.5)
    height = common.height_above_plate_in
    backed = hip_top(corner, TWO_BY_EIGHT, "backed")
    whole = line_seat(corner, backed, TWO_BY_EIGHT, height)
    assert whole.mouth.height_above_plate_in == pytest.approx(height)
    clipped = line_seat(corner, backed, TWO_BY_EIGHT, height, "clipped")
    # at 45 degrees a face crosses the wall half the thickness up the hip; the clip's legs are
    # that times sqrt 2 (common practice, no source)
    assert clipped.centre_heel_in == pytest.approx(0.75, abs=1e-12)
    assert clipped.own_clip_in == pytest.approx(0.75 * math.sqrt(2), abs=1e-12)
    assert clipped.seat_in == pytest.approx(whole.seat_in - 0.75, abs=1e-12)
    dropped = line_seat(corner, hip_top(corner, TWO_BY_EIGHT, "dropped"), TWO_BY_EIGHT, height)
    assert height - dropped.mouth.height_above_plate_in == pytest.approx(0.35355, abs=1e-5)


def test_a_valley_heel_points_into_the_corner() -> None:
    corner = square_corner(8, interior=270)
    seat = line_seat(corner, valley_top(corner, TWO_BY_EIGHT), TWO_BY_EIGHT, 4.25)
    assert seat.own_heel_in == pytest.approx(-0.75, abs=1e-12)
    squared = line_seat(corner, valley_top(corner, TWO_BY_EIGHT), TWO_BY_EIGHT, 4.25, "clipped")
    assert squared.centre_heel_in == pytest.approx(-0.75, abs=1e-12)
    assert squared.own_clip_in == 0
    # where 8 meets 6 the faces cross the walls unlike; squared off, the heel clears both
    unlike = square_corner(8, 6, 270)
    whole = line_seat(unlike, valley_top(unlike, TWO_BY_EIGHT), TWO_BY_EIGHT, 4.25)
    assert (whole.own_heel_in, whole.other_heel_in) == pytest.approx((-1.0, -0.5625))
    cut = line_seat(unlike, valley_top(unlike, TWO_BY_EIGHT), TWO_BY_EIGHT, 4.25, "clipped")
    assert cut.centre_heel_in == pytest.approx(-1.0)


def test_hips_belong_outside_and_valleys_inside() -> None:
    with pytest.raises(RoofError, match="fall away"):
        hip_top(square_corner(8, interior=270), TWO_BY_EIGHT)
    with pytest.raises(RoofError, match="rise from a valley"):
        valley_top(square_corner(8), TWO_BY_EIGHT)
    with pytest.raises(RoofError, match="nearer each other"):
        hip_top(square_corner(4, 12, 150), TWO_BY_EIGHT)


# --- tails ------------------------------------------------------------------------------------


def test_tail_of_a_common() -> None:
    found = tail(square_corner(9), 16.75, 0.75)
    assert (found.run_in, found.along_in, found.fall_in) == pytest.approx((16, 20, 12))
    with pytest.raises(LengthError, match="leaves no tail"):
        tail(square_corner(9), 0.5, 0.75)
    assert tail(square_corner(9), 0.0).along_in == 0


def test_tail_of_a_hip_is_mitred_half_its_thickness_back() -> None:
    """Griffith 1916 sec. 24: on a square corner half the thickness, straight back from the end."""
    corner = square_corner(8)
    found = line_tail(corner, TWO_BY_EIGHT, 16)
    level = math.cos(math.radians(float(corner.line_slope_deg)))
    assert found.long_in == pytest.approx(16 * 18.7617 / 12, abs=1e-3)
    assert (found.long_in - found.short_in) * level == pytest.approx(0.75, abs=1e-12)
    octagon = Corner(in_12(8), in_12(8), 135.0)
    eight = line_tail(octagon, TWO_BY_EIGHT, 16)
    level = math.cos(math.radians(float(octagon.line_slope_deg)))
    # ib., sec. 38: an octagon takes 5/12 of that
    assert (eight.long_in - eight.short_in) * level / 0.75 == pytest.approx(5 / 12, abs=0.003)


def test_level_fascia_needs_overhangs_in_inverse_ratio() -> None:
    corner = square_corner(12, 6)
    assert level_overhang_in(corner, 12) == pytest.approx(24)
    found = line_tail(corner, TWO_BY_EIGHT, 12)
    assert found.theoretical_in == pytest.approx(math.hypot(12, 24, 12))


def test_a_valley_tail_is_hollow() -> None:
    found = line_tail(square_corner(8, interior=270), TWO_BY_EIGHT, 16, 0.75)
    assert found.centre_in == pytest.approx(found.short_in)
    assert found.long_in > found.short_in
