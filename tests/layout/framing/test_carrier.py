"""A hip's or valley's line and the stick under it, from the two roofs' heights alone.

A roof is a height over a plan point: so much over its wall, and its slope for each inch inward.
"""

import math
from dataclasses import replace

import numpy as np
import pytest

from layout.answer.question import SHARPEST_DEG
from layout.framing.carrier import Carrier, pruned, ridge_top
from layout.framing.face import Face
from layout.framing.stick import CutPlane, plane_at
from layout.length.drop import HipWay, ValleyWay
from layout.length.seat import PlateCorner, line_seat
from layout.plane.corner import Corner
from layout.quantity import Pitch, read_pitch
from tests.corner_lines import FOOT, HEIGHT, STOCK, line_of

LINES = [
    line_of((8, 8), 90.0, "backed"),
    line_of((6, 10), 90.0, "shifted"),
    line_of((10, 6), 90.0, "shifted", -1.0),
    line_of((9, 6), 120.0, "dropped", -1.0),
    line_of((8, 8), 270.0, "plain"),
    line_of((6, 10), 270.0, "hollowed"),
    line_of((10, 7), 240.0, "plain", -1.0),
]
each_line = pytest.mark.parametrize("line", LINES, ids=lambda line: f"{line.kind} {line.top.way}")


def height(face: Face, points: np.ndarray) -> np.ndarray:
    """Height of a roof over plan points."""
    rise = face.pitch.rise / face.pitch.run
    return HEIGHT + rise * ((points - face.origin)[..., :2] @ face.inward[:2])


@each_line
def test_the_line_lies_in_both_roofs_and_climbs(line: Carrier) -> None:
    over = line.foot + 30 * line.plan_line
    assert np.linalg.norm(line.plan_line) == pytest.approx(1)
    assert line.plan_line[2] == 0
    assert height(line.own, over) == pytest.approx(height(line.other, over))
    assert line.height_in(over) == pytest.approx(height(line.own, over))
    assert line.height_in(over) > HEIGHT
    climbed = line.foot + 7 * line.direction
    assert climbed[2] == pytest.approx(height(line.own, climbed) - HEIGHT)
    corner = line.corner()
    assert (corner.slope_deg, corner.other_slope_deg, corner.interior_deg) == (
        line.own.pitch.slope_deg, line.other.pitch.slope_deg, line.corner_deg)  # fmt: skip
    assert np.linalg.norm(line.direction) == pytest.approx(1)
    whole = math.hypot(30, float(height(line.own, over)) - HEIGHT)
    assert line.length_to(over) == pytest.approx(whole)
    for face in line.faces:
        at = float((over - line.foot) @ face.along)
        run = float((over - line.foot) @ face.inward)
        assert line.run_in(face, at) == pytest.approx(run)


@each_line
def test_each_roof_lies_on_its_own_side_of_the_line(line: Carrier) -> None:
    """Beside a hip the roof that is there is the lower one, beside a valley the higher."""
    for face, other in ((line.own, line.other), (line.other, line.own)):
        aside = line.aside(face)
        assert np.linalg.norm(aside) == pytest.approx(1)
        assert aside @ line.direction == pytest.approx(0)
        beside = line.foot + 30 * line.plan_line + aside
        here, there = height(face, beside), height(other, beside)
        assert (here > there) if line.kind == "valley" else (here < there)


def test_each_roof_is_the_lower_one_on_its_side_of_a_ridge_that_slopes() -> None:
    """A steep roof over a wall 20 degrees aslant of a flat one's, and both climb to one side of the
    line in which they meet."""
    x, y = np.array([1.0, 0, 0]), np.array([0, 1.0, 0])
    turned = np.array([math.sin(math.radians(20)), math.cos(math.radians(20)), 0])
    flat = Face("flat", read_pitch("3 in 12"), FOOT, x, y, HEIGHT)
    steep = Face("steep", read_pitch("12 in 12"), FOOT - 40 * turned, x, turned, HEIGHT - 20)
    top = ridge_top(flat, steep, STOCK)
    # at y from FOOT the flat one is 0.25 y up, the steep one 20 + y cos 20
    foot = FOOT + np.array([0, 20 / (0.25 - turned[1]), 0])
    assert flat.lifted(foot) == pytest.approx(steep.lifted(foot))
    for own, other in ((flat, steep), (steep, flat)):
        line = Carrier("R1", "ridge", own, other, 180.0, foot, x, STOCK, top)
        for face, beyond in ((own, other), (other, own)):
            point = foot + line.aside(face)
            here, there = face.lifted(point)[2], beyond.lifted(point)[2]
            assert here < there


@each_line
def test_the_stick_stands_plumb_between_its_sides(line: Carrier) -> None:
    """Its faces lie as far from the line as its top says; its top edge lies as its way asks."""
    stick = line.stick((), 50.0, line.kind, True)
    t, d = stick.stock.thickness_in, stick.stock.depth_in
    assert stick.theoretical_in == 50.0
    assert (stick.on_plate, stick.role, stick.name) == (True, line.kind, "L1")
    assert stick.face == "own / other"
    assert stick.pose.left[2] == pytest.approx(0)
    on_line = line.foot + HEIGHT * np.array([0, 0, 1])
    assert stick.in_board(on_line)[0] == pytest.approx(
        line.top.lowered_in * line.direction[2], abs=1e-9
    )
    arris = {}
    for face in line.faces:
        point = line.near_point(face)
        beside = float((point - line.foot) @ line.aside(face))
        assert beside == pytest.approx(line.side_in(face))
        across = float(stick.in_board(point)[1])
        y = 0.0 if across < t / 2 else t
        assert across == pytest.approx(y, abs=1e-9)
        arris[face.name] = stick.origin + y * stick.pose.left + d * stick.pose.up
    assert line.top.own_side_in + line.top.other_side_in == pytest.approx(t)
    out = [float(arris[f.name][2] - height(f, arris[f.name])) for f in line.faces]
    middle = stick.origin + t / 2 * stick.pose.left + d * stick.pose.up
    low = float(middle[2] - height(line.own, middle))
    match line.top.way:
        case "shifted":
            assert out == pytest.approx([0, 0])
        case "dropped":
            assert max(out) == pytest.approx(0)
        case "hollowed":
            assert min(out) == pytest.approx(0)
        case "backed" | "plain":
            assert low == pytest.approx(0)
    assert (max(out) > 1e-9) == (line.top.way in ("backed", "hollowed"))


@each_line
def test_a_rafter_ends_on_the_side_that_faces_its_roof(line: Carrier) -> None:
    """The cut looks at the stick from the roof's side; it is asked for with its own pitch first."""
    cut, end = ("valley-jack", "foot") if line.kind == "valley" else ("hip-jack", "head")
    for face, other in ((line.own, line.other), (line.other, line.own)):
        plane = line.mate_plane(face)
        assert plane.normal[2] == 0
        assert plane.normal @ line.aside(face) == pytest.approx(-1)
        assert float(plane.beyond_in(line.near_point(face))) == pytest.approx(0)
        assert float(plane.beyond_in(line.foot)) == pytest.approx(line.side_in(face))
        assert (plane.says, plane.end) == (cut, end)
        asked = plane.asked
        assert asked is not None
        assert (asked.cut, asked.pitch, asked.other_pitch, asked.end) == (
            cut, face.pitch, other.pitch, end)  # fmt: skip
        assert asked.corner_deg == line.corner_deg


@each_line
def test_its_tail_ends_behind_both_fascias(line: Carrier) -> None:
    """Each fascia's back stands its overhang less 3/4 in outside its wall. Wood outside both is
    waste at either corner; outside one alone it is kept at a valley, whose tail is hollow."""
    removals = line.tail_removals()
    for u, v in ((-0.1, -0.1), (-0.1, 0.1), (0.1, -0.1), (0.1, 0.1)):
        # the plan point so far inside of each fascia's back
        ways = np.stack([face.inward[:2] for face in line.faces])
        outs = np.array([face.overhang_in - 0.75 for face in line.faces])
        plan = np.linalg.solve(ways, np.array([u, v]) - outs)
        point = FOOT + np.array([*plan, 3.0])
        gone = any(all(p.beyond_in(point) > 0 for p in removal) for removal in removals)
        outside = (u < 0, v < 0)
        assert gone == (all(outside) if line.kind == "valley" else any(outside))
    for k, plane in enumerate(p for removal in removals for p in removal):
        assert plane.asked is not None
        assert (plane.asked.plane_index, plane.asked.end, plane.end) == (k, "foot", "foot")
        assert (plane.asked.pitch, plane.asked.other_pitch) == (line.own.pitch, line.other.pitch)


@each_line
def test_its_top_is_ripped_into_both_roofs_or_left_square(line: Carrier) -> None:
    """What stands out of the roof is waste: at a hip out of either plane, at a valley of both."""
    removals = line.rip_removals()
    if line.top.way not in ("backed", "hollowed"):
        assert removals == ()
        return
    for step in (-0.5, 0.0, 0.5):
        for up in (-0.01, 0.01):
            point = line.foot + 20 * line.plan_line + step * line.aside(line.own)
            roofs = [float(height(face, point)) for face in line.faces]
            point[2] = (max(roofs) if line.kind == "valley" else min(roofs)) + up
            gone = any(all(p.beyond_in(point) > 0 for p in removal) for removal in removals)
            assert gone == (up > 0)
    planes = [p for removal in removals for p in removal]
    assert [p.asked.plane_index for p in planes if p.asked] == [0, 1]


def test_a_ridge_lies_below_the_steeper_roof_by_half_its_thickness() -> None:
    """Walls 100 in apart, 6 in 12 and 9 in 12: both roofs are 30 in up at 60 in from the first.

    A ridge 1 1/2 in thick comes down 3/4 x the steeper slope, so that no arris stands out."""
    pitches: tuple[Pitch, Pitch] = read_pitch("6 in 12"), read_pitch("9 in 12")
    x, y = np.array([1.0, 0, 0]), np.array([0, 1.0, 0])
    own = Face("front", pitches[0], np.zeros(3), x, y, HEIGHT)
    far = Face("back", pitches[1], np.array([0, 100.0, 0]), x, -y, HEIGHT)
    top = ridge_top(own, far, STOCK)
    assert top.lowered_in == pytest.approx(0.75 * 9 / 12)
    assert (top.way, top.own_side_in, top.other_side_in) == ("dropped", 0.75, 0.75)
    slopes = [math.degrees(math.atan(rise / 12)) for rise in (6, 9)]
    assert [top.own_bevel_deg, top.other_bevel_deg] == pytest.approx(slopes)
    assert ridge_top(far, own, STOCK).lowered_in == top.lowered_in
    ridge = Carrier("R1", "ridge", own, far, 180.0, np.array([0, 60.0, 0]), -x, STOCK, top)
    assert ridge.direction == pytest.approx(-x)
    for face, toward in ((own, y), (far, -y)):
        plane = ridge.mate_plane(face)
        assert plane.normal == pytest.approx(toward)
        assert float(plane.beyond_in(np.array([0, 60.0, 0]))) == pytest.approx(0.75)
        asked = plane.asked
        assert asked is not None
        assert (asked.pitch, asked.other_pitch) == (face.pitch, face.pitch)
        assert (asked.corner_deg, asked.end, asked.cut) == (90.0, "head", "common-ridge")
    stick = ridge.stick((), 10.0, "ridge", False)
    top_edge = stick.origin + stick.stock.depth_in * stick.pose.up
    assert top_edge[2] == pytest.approx(HEIGHT + 30 - 0.75 * 9 / 12)


@each_line
@pytest.mark.parametrize("corner", ["whole", "clipped"])
def test_its_seat_fits_the_plates_corner(line: Carrier, corner: PlateCorner) -> None:
    """Whole, a hip is notched where both plates may stand, inside of both walls; a valley inside of
    either. Clipped, both are notched from one line on, square across the stick."""
    where = Corner(line.own.pitch.slope_deg, line.other.pitch.slope_deg, line.corner_deg)
    seat = line_seat(where, line.top, STOCK, HEIGHT, corner)
    removals = line.seat_removals(seat)
    inward = np.stack([face.inward[:2] for face in line.faces])
    for u, v in ((0.5, 0.5), (0.5, -0.5), (-0.5, 0.5), (-0.5, -0.5), (6, 6)):
        plan = np.linalg.solve(inward, [u, v])
        for z in (-0.1, 0.1):
            point = FOOT + np.array([*plan, z])
            gone = any(all(p.beyond_in(point) > 0 for p in removal) for removal in removals)
            if corner == "clipped":
                stands = float((point - FOOT) @ line.plan_line) > seat.centre_heel_in
            else:
                stands = (u > 0 or v > 0) if line.kind == "valley" else (u > 0 and v > 0)
            assert gone == (stands and z < 0)
    for plane in (p for removal in removals for p in removal):
        level = plane.says == f"{line.kind}-seat"
        assert level or plane.says == f"{line.kind} heel"
        assert (plane.asked is not None) == (level or corner == "whole")
        assert plane.end == "foot"
    first, *heels = (plane.asked for removal in removals for plane in removal if plane.asked)
    assert first.plane_index == 0
    assert [one.plane_index for one in heels if one.plane_index] == (
        [1, 2] if corner == "whole" else []
    )


@each_line
def test_its_cheek_on_a_ridge_faces_it(line: Carrier) -> None:
    """Of the two roofs the one named first is that whose eave the ridge is level with."""
    for face, other in ((line.own, line.other), (line.other, line.own)):
        far = replace(face, origin=face.origin + 200 * face.inward, inward=-face.inward)
        at = np.asarray(face.origin + 100 * face.inward)
        ridge = Carrier(
            "R1", "ridge", face, far, 180.0, at, face.along, STOCK, ridge_top(face, far, STOCK)
        )
        ((plane,),) = (line.ridge_head(ridge, face),)
        assert plane.normal == pytest.approx(face.inward)
        assert float(plane.beyond_in(at)) == pytest.approx(0.75)
        cut = "valley-ridge" if line.kind == "valley" else "hip-ridge-single"
        assert (plane.says, plane.end) == (cut, "head")
        asked = plane.asked
        assert asked is not None
        assert (asked.cut, asked.pitch, asked.other_pitch) == (cut, face.pitch, other.pitch)
        assert (asked.corner_deg, asked.end) == (line.corner_deg, "head")


@pytest.mark.parametrize("deg", [SHARPEST_DEG, 360 - SHARPEST_DEG])
def test_a_sharper_corner_than_the_catalogues_is_asked_of_nobody(deg: float) -> None:
    way: HipWay | ValleyWay = "plain" if deg > 180 else "backed"
    blunt, sharp = deg, deg + (-0.5 if deg < 180 else 0.5)
    for at, known in ((blunt, True), (sharp, False)):
        line = line_of((8, 8), at, way)
        assert line.in_catalogue is known
        assert (line.mate_plane(line.own).asked is not None) is known
        assert all((p.asked is not None) is known for r in line.tail_removals() for p in r)


def test_a_notch_is_kept_where_one_of_its_planes_leaves_a_surface() -> None:
    """A stick 40 in long, and three removals: both ends, a notch of which one plane passes under
    the whole stick, and an end that lies beyond the other."""
    line = LINES[0]
    foot, head = line.pose.head, -line.pose.head
    stick = line.stick((), 40.0, "hip", True)
    start = stick.origin

    def at(x: float, normal: np.ndarray, says: str) -> CutPlane:
        return plane_at(normal, start + x * line.pose.head, says, "foot")

    ends = (at(0, head, "foot"),), (at(40, foot, "head"),)
    under = plane_at(line.pose.up, start - line.pose.up, "under", "foot")
    notch = (at(30, foot, "end"), under)
    idle = (at(41, foot, "idle"),)
    kept = pruned(replace(stick, removals=(*ends, notch, idle))).removals
    assert [[plane.says for plane in removal] for removal in kept] == [["foot"], ["end", "under"]]
