"""One hip or valley seen from both of its roofs, in a mirror, and at twice the size.

Walls at an odd angle and two pitches: what is said of the own roof from one side is what is said
of the other roof from the other side. Nothing here is taken from the formulas of the rooms.
"""

from dataclasses import fields
from itertools import product
from typing import Any

import numpy as np
import pytest

from layout.cuts import find
from layout.errors import LengthError, RoofError
from layout.length.drop import CarrierTop, falls, hip_top, valley_top
from layout.length.seat import bearing_in, line_seat
from layout.length.shortening import cheek_points, shorten
from layout.length.table import rafter_row
from layout.length.tail import level_overhang_in, line_tail, tail
from layout.plane.corner import Corner
from layout.quantity import Pitch
from layout.stock import Stock

SIZE = Stock("", 1.5, 7.25)
SLOPES = (28.0, 37.0)
HIP_DEG, VALLEY_DEG = 108.0, 250.0
ALL = [
    (corner_deg, way, plate)
    for corner_deg, ways in (
        (HIP_DEG, ("backed", "dropped", "shifted")),
        (VALLEY_DEG, ("plain", "hollowed")),
    )
    for way, plate in product(ways, ("whole", "clipped"))
]


def corner_of(corner_deg: float, own: float = SLOPES[0], other: float = SLOPES[1]) -> Corner:
    return Corner(own, other, corner_deg)


def from_the_other_roof(corner: Corner) -> Corner:
    """The same two roofs: the corner at the right of one eave stands at the left of the other."""
    return Corner(corner.other_slope_deg, corner.slope_deg, corner.interior_deg, -corner.hand)


def top_of(corner: Corner, way: str, stock: Stock = SIZE) -> CarrierTop:
    found = valley_top if bool(corner.reentrant) else hip_top
    return found(corner, stock, way)  # type: ignore[operator]


def plain(found: Any) -> dict[str, Any]:
    """The fields of a result by name; those of a part of it beside its own."""
    said: dict[str, Any] = {}
    for field in fields(found):
        value = getattr(found, field.name)
        said |= plain(value) if hasattr(value, "__dataclass_fields__") else {field.name: value}
    return said


def exchanged(said: dict[str, Any]) -> dict[str, Any]:
    """What is said of the own roof said of the other one, and the other way about."""
    pairs = {"own": "other", "other": "own"}
    return {
        "_".join([pairs.get(first, first), *rest]): value
        for name, value in said.items()
        for first, *rest in [name.split("_")]
    }


def same(one: dict[str, Any], two: dict[str, Any]) -> None:
    assert one.keys() == two.keys()
    for name, value in one.items():
        if isinstance(value, float):
            assert two[name] == pytest.approx(value, abs=1e-9), name
        elif not isinstance(value, Stock):
            assert two[name] == value, name


def twice(said: dict[str, Any]) -> dict[str, Any]:
    return {
        name: 2 * value if name.endswith("_in") and isinstance(value, float) else value
        for name, value in said.items()
    }


@pytest.mark.parametrize(("corner_deg", "way", "plate"), ALL)
def test_both_roofs_say_the_same_of_their_hip_or_valley(corner_deg, way, plate):
    here = corner_of(corner_deg)
    there, mirrored = from_the_other_roof(here), Corner(*SLOPES, corner_deg, -1.0)
    double = Stock("", 2 * SIZE.thickness_in, 2 * SIZE.depth_in)
    assert falls(there) == pytest.approx(falls(here)[::-1], abs=1e-12)
    assert falls(mirrored) == pytest.approx(falls(here), abs=1e-12)
    top = top_of(here, way)
    same(plain(top), exchanged(plain(top_of(there, way))))
    same(plain(top), plain(top_of(mirrored, way)))
    same(twice(plain(top)), plain(top_of(here, way, double)))
    seat = line_seat(here, top, SIZE, 4.25, plate)
    same(plain(seat), exchanged(plain(line_seat(there, top_of(there, way), SIZE, 4.25, plate))))
    same(plain(seat), plain(line_seat(mirrored, top_of(mirrored, way), SIZE, 4.25, plate)))
    two = line_seat(here, top_of(here, way, double), double, 8.5, plate)
    same(twice(plain(seat)), plain(two))
    theirs = line_seat(there, top_of(there, way), SIZE, 4.25, plate)
    for plate_in in (1.5, 3.5, 30.0):
        bears = bearing_in(here, seat, plate_in)
        assert bearing_in(there, theirs, plate_in) == pytest.approx(bears, abs=1e-9)
        assert bearing_in(here, two, 2 * plate_in) == pytest.approx(2 * bears, abs=1e-9)


@pytest.mark.parametrize(
    ("corner_deg", "way"),
    [(HIP_DEG, "backed"), (HIP_DEG, "dropped"), (HIP_DEG, "shifted"), (VALLEY_DEG, "hollowed")],
)
def test_a_top_edge_is_beveled_by_the_angle_between_it_and_its_roof(corner_deg, way):
    """Seen along the line, a square edge looks up and a roof along its normal: the bevel lies
    between. Over half the thickness it falls by its tangent; plumb that is more."""
    corner = corner_of(corner_deg)
    up = np.array([0.0, 0.0, 1.0]) - corner.line[2] * corner.line
    plumb_part = float(np.linalg.norm(up))
    own, other = (
        np.degrees(np.arccos(normal @ up / plumb_part))
        for normal in (corner.normal, corner.other_normal)
    )
    top = top_of(corner, way)
    assert (top.own_bevel_deg, top.other_bevel_deg) == pytest.approx((own, other))
    assert abs(own - other) > 5
    assert top.thickness_in == SIZE.thickness_in
    assert top.own_side_in + top.other_side_in == pytest.approx(SIZE.thickness_in)
    own_rip, other_rip = (0.75 * np.tan(np.radians(deg)) for deg in (own, other))
    deeper = max(own_rip, other_rip)
    rips = (top.own_rip_in, top.other_rip_in, top.middle_rip_in)
    assert rips == pytest.approx(
        {"backed": (own_rip, other_rip, 0.0), "hollowed": (0.0, 0.0, deeper)}.get(way, (0, 0, 0))
    )
    lowered = {"backed": 0.0, "dropped": deeper, "hollowed": -deeper}.get(way)
    if lowered is not None:
        assert top.lowered_in * plumb_part == pytest.approx(lowered)
    if way == "hollowed":
        assert top_of(corner, "plain").lowered_in == 0


@pytest.mark.parametrize("slopes", [(20.0, 45.0), (45.0, 20.0)])
def test_a_line_from_which_one_roof_alone_turns_away_is_neither_hip_nor_valley(slopes):
    """The steep roof's water runs across the line and on down the flat one."""
    for corner_deg, top in ((150.0, hip_top), (210.0, valley_top)):
        corner = Corner(*slopes, corner_deg)
        assert np.prod(falls(corner)) < 0
        assert np.max(np.abs(falls(corner))) < 1
        with pytest.raises(RoofError, match="both roofs must"):
            top(corner, SIZE)


def test_a_common_s_tail_by_its_triangle():
    """Level 3 and 4 plumb make 5 along; an overhang of 9 less the fascia's 3/4."""
    corner = Corner(float(np.degrees(np.arctan2(3, 4))), 45.0)
    found = tail(corner, 9.0, 0.75)
    assert (found.overhang_in, found.fascia_in) == (9.0, 0.75)
    assert (found.run_in, found.along_in, found.fall_in) == pytest.approx(
        (8.25, 8.25 * 5 / 4, 8.25 * 3 / 4)
    )
    flush = tail(corner, 0.0, 0.75)
    assert (flush.run_in, flush.along_in, flush.fall_in) == (0, 0, 0)
    none = line_tail(corner, SIZE, 0.0, 0.75)
    assert none.theoretical_in == none.centre_in == none.long_in == 0
    for overhang_in, fascia_in in ((0.75, 0.75), (-1.0, 0.75), (0.0, -0.75)):
        with pytest.raises(LengthError, match="leaves no tail"):
            tail(corner, overhang_in, fascia_in)


def test_a_stick_is_shortened_along_itself_and_level():
    """A stick on a 3-4-5 slope, turned by a 5-12-13 triangle in plan: by hand."""
    along = np.array([12 / 13 * 4 / 5, 5 / 13 * 4 / 5, 3 / 5])
    short = shorten(along, np.array([0.0, -1.0, 0.0]), 0.75)
    assert short.across_in == 0.75
    assert short.level_in == pytest.approx(0.75 * 13 / 5)
    assert short.along_in == pytest.approx(0.75 * 13 / 5 * 5 / 4)


@pytest.mark.parametrize("corner_deg", [HIP_DEG, VALLEY_DEG])
def test_both_roofs_say_the_same_of_a_tail(corner_deg):
    here = corner_of(corner_deg)
    there = from_the_other_roof(here)
    ours = line_tail(here, SIZE, 14.0, 0.75)
    theirs = line_tail(there, SIZE, level_overhang_in(here, 14.0), 0.75)
    same(plain(ours), exchanged(plain(theirs)))
    twice_as_large = line_tail(here, Stock("", 3.0, 14.5), 28.0, 1.5)
    same(twice(plain(ours)), plain(twice_as_large))
    # The corner of the fascias lies its overhang outside each wall; the line runs straight to it.
    outside = -ours.theoretical_in * here.line
    assert float(outside @ here.inward) == pytest.approx(-ours.own_overhang_in)
    assert float(outside @ here.other_inward) == pytest.approx(-ours.other_overhang_in)
    # Down the middle of the stick, its end touches the back of the first fascia it comes to; a
    # hollow end reaches as far as the last one.
    level = np.hypot(*here.line[:2])
    backs = [
        (over - 0.75) / float(here.plan_line @ inward) / level
        for over, inward in (
            (ours.own_overhang_in, here.inward),
            (ours.other_overhang_in, here.other_inward),
        )
    ]
    reaches = max(backs) if bool(here.reentrant) else min(backs)
    assert ours.centre_in == pytest.approx(reaches)


@pytest.mark.parametrize(("slopes", "corner_deg"), [(SLOPES, 108.0), (SLOPES[::-1], 75.0)])
def test_a_clip_is_square_across_its_hip_and_clears_both_faces(slopes, corner_deg):
    """The plates' corner is cut from wall to wall along one line, square to the hip in plan,
    through the farther of the two points in which the hip's faces cross the walls."""
    corner = corner_of(corner_deg, *slopes)
    top = hip_top(corner, SIZE, "backed")
    clip = line_seat(corner, top, SIZE, 4.25, "clipped")
    own, other = clip.own_clip_in * corner.eave, clip.other_clip_in * corner.other_eave
    assert float((own - other) @ corner.plan_line) == pytest.approx(0, abs=1e-12)
    assert float(own @ corner.plan_line) == pytest.approx(clip.centre_heel_in)
    whole = line_seat(corner, top, SIZE, 4.25)
    aside = -corner.across
    for heel, side, inward in (
        (whole.own_heel_in, top.own_side_in, corner.inward),
        (whole.other_heel_in, -top.other_side_in, corner.other_inward),
    ):
        on_face = heel * corner.plan_line + side * aside
        assert float(on_face @ inward) == pytest.approx(0, abs=1e-12)
    assert clip.centre_heel_in == max(whole.own_heel_in, whole.other_heel_in)


@pytest.mark.parametrize("corner_deg", [HIP_DEG, VALLEY_DEG])
@pytest.mark.parametrize("plate", ["whole", "clipped"])
def test_a_seat_bears_as_far_as_it_stands_on_a_plate(corner_deg, plate):
    """Found by walking up the middle of the stick over the plates, a hundredth of an inch a step.

    A plate lies from its wall inward over its width; under a hip either will do, at a valley's
    inside corner the block on which both cross.
    """
    corner = corner_of(corner_deg)
    way = "plain" if bool(corner.reentrant) else "backed"
    seat = line_seat(corner, top_of(corner, way), SIZE, 4.25, plate)
    for width in (1.5, 2.5, 3.5):
        steps = np.arange(max(0.0, seat.centre_heel_in), seat.mouth.seat_in, 0.01)
        deep = [
            steps * float(corner.plan_line @ inward)
            for inward in (corner.inward, corner.other_inward)
        ]
        on = [part < width for part in deep]
        stands = on[0] & on[1] if bool(corner.reentrant) else on[0] | on[1]
        assert bearing_in(corner, seat, width) == pytest.approx(stands.sum() * 0.01, abs=0.02)


@pytest.mark.parametrize("corner_deg", [HIP_DEG, VALLEY_DEG])
def test_both_rows_of_a_table_say_the_same_of_their_hip_or_valley(corner_deg):
    """The length over a run of each roof differs as these runs do; falls and drops change sides."""
    pitches = [Pitch(float(np.tan(np.radians(deg))), 1.0, "") for deg in SLOPES]
    own = rafter_row(pitches[0], pitches[1], corner_deg)
    other = rafter_row(pitches[1], pitches[0], corner_deg)
    assert own.line / own.line_run == pytest.approx(other.line / other.line_run)
    rise = float(np.tan(np.radians(SLOPES[0]))), float(np.tan(np.radians(SLOPES[1])))
    assert own.line / other.line == pytest.approx(rise[0] / rise[1])
    assert own.line_slope_deg == pytest.approx(other.line_slope_deg)
    between = {HIP_DEG: HIP_DEG, VALLEY_DEG: VALLEY_DEG - 180.0}[corner_deg]
    plan = own.plan_angle_deg, other.plan_angle_deg
    assert sum(plan) in (pytest.approx(between), pytest.approx(180.0 - between))
    assert (own.own_drop, own.other_drop) == pytest.approx((other.other_drop, other.own_drop))
    assert own.own_backing_deg == pytest.approx(other.other_backing_deg)
    assert own.other_backing_deg == pytest.approx(other.own_backing_deg)
    assert own.own_drop != pytest.approx(own.other_drop, rel=0.05)


@pytest.mark.parametrize("name", ["hip-ridge", "hip-tail"])
def test_cheeks_end_where_their_mates_sides_stand(name):
    """Two mates at unlike distances: their sides are walked to along lines of the board."""
    corner = corner_of(HIP_DEG)
    joint = find(name).joint(corner)
    across = (0.75, 1.25)
    points = cheek_points(joint, SIZE, *across)
    lines = np.linspace(-0.75, 0.75, 3001)
    axes = joint.pose.axes
    toward = 1.0 if name == "hip-ridge" else -1.0
    ends = [
        min(
            (-off - float(plane.normal @ axes[1]) * y) / (toward * float(plane.normal @ axes[0]))
            for plane, off in zip(joint.planes, across, strict=True)
        )
        for y in lines
    ]
    assert points.centre_in == pytest.approx(ends[1500], abs=1e-9)
    assert points.long_in == pytest.approx(max(ends), abs=1e-3)
    assert points.short_in == pytest.approx(min(ends), abs=1e-9)
    assert points.shortening.along_in == -points.centre_in
    assert points.shortening.across_in == across[0]
    assert points.shortening.level_in == pytest.approx(
        points.shortening.along_in * np.cos(np.radians(float(corner.line_slope_deg)))
    )
