"""Fascias, rake boards and roof boards by hand over plain shapes, and the roof's own sizes."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from layout.framing.outlines import ell, rectangle, shed
from layout.framing.roof_lines import roof_lines
from layout.framing.roof_plan import RoofPlan
from layout.framing.trim import TrimRow, course_rows, rake_rows, trim_rows
from layout.framing.trim_words import COURSES, trim_means, trim_table
from layout.framing.walls import Outline, Wall, walk
from layout.quantity import read_pitch
from layout.stock import read_stock

P, STEEP = read_pitch("8"), read_pitch("12")
STRETCH = math.hypot(12, 8) / 12


def rows_of(outline: Outline, **settings: float) -> list[tuple[object, ...]]:
    """Every row of a roof's trim; only its surface and its plan are asked for."""
    plan = RoofPlan.over(outline, **settings)
    roof = SimpleNamespace(surface=roof_lines(outline), plan=plan)
    return [
        (r.board, r.side, pytest.approx(r.length_in, abs=1e-6), r.left_end, r.right_end)
        for r in trim_rows(roof)  # type: ignore[arg-type]
    ]


def test_fascias_round_hips_and_a_valley() -> None:
    """Overhangs of 12 at 8 in 12, and 8 at 12 in 12 for one fascia: each corner moves out by both;
    at the inner corner of an L both lines come back in."""
    miter = "miter 45 deg"
    assert rows_of(rectangle(240, 160, P, STEEP), overhang_in=12.0) == [
        ("fascia", "front", 256, miter, miter), ("fascia", "right", 184, miter, miter),
        ("fascia", "back", 256, miter, miter), ("fascia", "left", 184, miter, miter),
    ]  # fmt: skip
    lengths = {row[1]: row[2].expected for row in rows_of(ell(330, 200, 130, 140, P))}
    assert lengths == pytest.approx({"wing end": 164, "inner": 130, "front": 190, "right": 224,
                                     "back": 354, "left": 354})  # fmt: skip


@pytest.mark.parametrize(("over", "out"), [(0.0, 0.0), (10.0, 9.25)])
def test_fascias_and_rakes_at_gables(over: float, out: float) -> None:
    """A fascia ends at the rake board's back; a rake board runs from its outside to the peak,
    80 + 12 in level, whatever the overhang."""
    outline = rectangle(240, 160, P, None, ("gable", "gable"))
    plumb = f"plumb {math.degrees(math.atan(8 / 12)):.2f} deg"
    rake = pytest.approx(92 * STRETCH)
    found = rows_of(outline, overhang_in=12.0, rake_overhang_in=over)
    assert sorted(row[1] for row in found if row[0] == "rake board") == [
        f"{end}, under {side}" for end in ("left", "right") for side in ("back", "front")
    ]
    for board, side, length, *ends in found:
        if board == "fascia":
            assert (length.expected, *ends) == (pytest.approx(240 + 2 * out), "square", "square")
        else:
            assert (length.expected, *ends) == (rake, plumb, plumb), side


def test_a_fascia_ends_flush_with_a_high_wall() -> None:
    """A shed's front between gables of 10 in; two roofs to a high wall at their right: their
    fascias run to its outside, 240 in, and 12 in on round the hip at the left."""
    fascias = [row for row in rows_of(shed(140, 110, P), rake_overhang_in=10.0)
               if row[0] == "fascia"]  # fmt: skip
    assert fascias == [("fascia", "front", 140 + 2 * 9.25, "square", "square")]
    plumb = f"plumb {math.degrees(math.atan(8 / 12)):.2f} deg"
    long = pytest.approx((110 + 12) * STRETCH)  # from the fascia's outside to the high wall's
    rakes = [row for row in rows_of(shed(140, 110, P), overhang_in=12.0, rake_overhang_in=10.0)
             if row[0] == "rake board"]  # fmt: skip
    assert [(side, length.expected, *ends) for _, side, length, *ends in rakes] == [
        (f"{gable}, under front", long, plumb, plumb) for gable in ("left", "right")
    ]
    walls = [Wall(240, 90, "eave", P, "front"), Wall(160, 90, "high", None, "right"),
             Wall(240, 90, "eave", P, "back"), Wall(160, 90, "eave", P, "left")]  # fmt: skip
    miter = "miter 45 deg"
    assert [row for row in rows_of(walk(walls), overhang_in=12.0) if row[0] == "fascia"] == [
        ("fascia", "front", 252, miter, "square"), ("fascia", "back", 252, "square", miter),
        ("fascia", "left", 184, miter, miter),
    ]  # fmt: skip


def test_courses_of_a_hip_roof() -> None:
    """A course 7.25 up the slope is 7.25 / stretch level, and a hip of one pitch takes that off at
    either end. The run of 80 holds 80 x stretch / 7.25 courses, the overhang of 12 likewise."""
    rows = {row.side: row for row in course_rows(
        roof_lines(rectangle(240, 160, P)), read_stock("1x8"), 0.0, lambda _: 12.0)}  # fmt: skip
    level = 7.25 / STRETCH
    assert set(rows) == {"front", "right", "back", "left"}
    for side, long in (("front", 240), ("right", 160), ("back", 240), ("left", 160)):
        row = rows[side]
        assert row.eave_in == pytest.approx(long)
        assert row.change_in == pytest.approx(-2 * level)
        assert row.courses == int(80 / level)
        assert (row.overhang_courses, row.strip_in) == (1, pytest.approx(12 * STRETCH - 7.25))
        assert (row.left_cut, row.right_cut) == ("hip", "hip")
        assert row.left_mark_deg == pytest.approx(row.right_mark_deg)
        assert row.left_mark_deg == pytest.approx(math.degrees(math.atan(1 / STRETCH)))


def test_courses_are_counted_to_where_a_side_first_turns() -> None:
    """The front of an L runs from the valley to a hip up to the wing's ridge, over 140 / 2; at its
    left side that is where the valley comes up, though the roof goes on to 200 / 2."""
    l_roof = roof_lines(ell(330, 200, 130, 140, P))
    rows = {row.side: row for row in course_rows(l_roof, read_stock("1x8"))}
    assert (rows["front"].eave_in, rows["front"].change_in) == pytest.approx((190, 0))
    level = 7.25 / STRETCH
    assert rows["front"].courses == rows["left"].courses == int(70 / level)


def test_boards_alike_in_all_but_their_side_stand_in_one_line() -> None:
    rows = [TrimRow("fascia", side, long, long, "square", end) for side, long, end in (
        ("front", 96.0, "square"), ("left", 84.0, "square"), ("back", 96.0, "square"),
        ("right", 96.0, "miter 45 deg"))]  # fmt: skip
    head, lines = trim_table(rows)
    assert head == ["board", "side", "length", "takes", "left end", "right end"]
    assert lines == [
        ["fascia", "front; back", "8'-0\"", "8'-0\"", "square", "square"],
        ["fascia", "left", "7'-0\"", "7'-0\"", "square", "square"],
        ["fascia", "right", "8'-0\"", "8'-0\"", "square", "miter 45 deg"],
    ]


def test_a_rake_board_takes_its_width_times_the_slope_more_than_it_measures() -> None:
    """28 by 18 ft at 7 in 12, 16 in out: 124 in level are 124 x hypot(12, 7) / 12 = 143.555 along
    either edge. A 2x6's plumb cut there is 5 1/2 x hypot(12, 7) / 12 = 6.37, at the end's 9 in 12
    6.875, covered by 7 1/4 dressed; plumb ends set one edge 7 1/4 x 7 / 12 = 4.229 off the other,
    by the corners of the parallelogram below."""
    outline = rectangle(336, 216, read_pitch("7"), read_pitch("9"), ("hip", "gable"))
    plan = RoofPlan.over(outline, overhang_in=16.0, rake_overhang_in=8.0)
    roof = SimpleNamespace(surface=roof_lines(outline), plan=plan)
    rakes = rake_rows(roof)  # type: ignore[arg-type]
    assert plan.rake_width_in == 7.25
    assert [row.length_in for row in rakes] == pytest.approx([143.5553] * 2, abs=1e-4)
    slope, plumb_in = math.atan(7 / 12), 7.25 * math.hypot(12, 7) / 12
    up = math.cos(slope), math.sin(slope)
    corners = [(0, 0), (124, 124 * 7 / 12), (124, 124 * 7 / 12 - plumb_in), (0, -plumb_in)]
    along = [x * up[0] + y * up[1] for x, y in corners]
    for row in rakes:
        assert row.blank_in == pytest.approx(max(along) - min(along))
        assert row.blank_in == pytest.approx(143.5553 + 4.2292, abs=1e-4)
    deep = replace(plan, rafter=read_stock("2x12"))
    assert deep.rake_width_in == pytest.approx(11.25 * 1.25), "no dressed width covers it"


def test_the_words_say_where_left_is_and_for_what_width_rakes_are_bought() -> None:
    outline = rectangle(240, 160, P, None, ("gable", "hip"))
    for surface, gables in (
        (roof_lines(outline), True),
        (roof_lines(rectangle(240, 160, P)), False),
    ):
        plan = RoofPlan.over(surface.outline, overhang_in=12.0)
        told = trim_means(SimpleNamespace(surface=surface, plan=plan))  # type: ignore[arg-type]
        assert "Left and right end: as seen from outside, facing that wall." in told
        assert ("for a width of 0'-7 1/4\"" in told) == gables
    assert "Left and right cut: as seen from outside, facing that wall." in COURSES


def test_a_course_between_a_gable_and_a_hip() -> None:
    outline = rectangle(240, 160, P, None, ("gable", "hip"))
    rows = {r.side: r for r in course_rows(roof_lines(outline), read_stock("1x8"), 10.0)}
    assert [rows[s].eave_in for s in ("front", "back")] == pytest.approx([250, 250])
    assert [rows[s].change_in for s in ("front", "back")] == pytest.approx([-7.25 / STRETCH] * 2)
    assert (rows["front"].left_cut, rows["front"].right_cut) == ("square", "hip")
    assert (rows["back"].left_cut, rows["back"].right_cut) == ("hip", "square")
    assert rows["front"].left_mark_deg == rows["front"].left_tilt_deg == 0


def test_area_and_volume_by_hand() -> None:
    """At one pitch the roof's area is the plan's times the stretch. A hip roof 240 by 160 is a
    wedge over the ridge of 80 and a pyramid over both ends, 53 1/3 high."""
    roof = roof_lines(rectangle(240, 160, P))
    assert roof.plan_area_in2 == pytest.approx(240 * 160)
    assert roof.roof_area_in2 == pytest.approx(240 * 160 * STRETCH)
    high = 80 * 8 / 12
    assert roof.ridge_height_in == pytest.approx(high)
    assert roof.volume_in3 == pytest.approx(80 * 160 * high / 2 + 160 * 160 * high / 3)
    mixed = roof_lines(rectangle(240, 160, P, STEEP))  # ends rise 12 in 12: their hips reach 53 1/3
    ends = 2 * 160 * high / 2
    assert mixed.roof_area_in2 == pytest.approx(
        (240 * 160 - ends) * STRETCH + ends * math.sqrt(2))  # fmt: skip
