"""The faces, hips, valleys, ridges and plates of a rectangle or an L, put together.

The main rectangle stands on X from 0 to its length and Y from 0 to its width, its ridge along
X. A wing stands on X from 0 to its width and runs out of the front to -Y; its ridge runs along
Y. The L's outer corner (X = 0, Y = width) is hipped, its inner corner carries the valley.

Both faces of a ridge count their rafters along one rail, from a free end, so that rafters stand
opposite each other.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from layout.cuts import End
from layout.drop import LineTop, hip_top, valley_top
from layout.framing.depth import check_carrier_depth
from layout.framing.face import Face
from layout.framing.hipend import HipEnd
from layout.framing.line import Kind, Line, ridge_top
from layout.framing.plan import HipHead, RoofEnd, RoofPlan
from layout.framing.plate import plate
from layout.framing.rafter import Edge
from layout.framing.spacing import lay_out
from layout.framing.stick import CutPlane, Removal, Stick, plane_at
from layout.quantity import Pitch
from layout.roof import Corner
from layout.seat import LineSeat, line_seat
from layout.vector import Array, X, Y, Z, vector


@dataclass(frozen=True)
class Fixed:
    """A rafter that stands in any case, and the head planes that replace its edges' own."""

    position_in: float
    only: tuple[CutPlane, ...]


@dataclass(frozen=True)
class Bay:
    """A face to be filled with rafters along a rail of `length_in` that is its eave produced.

    The hips at the rail's start and end reach their tops `start_hip_in` and `end_hip_in` in, 0
    where there is none. The face carries rafters up to `to_in` on the rail.
    """

    face: Face
    edges: tuple[Edge, ...]
    length_in: float
    start_hip_in: float
    end_hip_in: float
    to_in: float
    fixed: tuple[Fixed, ...]


@dataclass(frozen=True)
class FreeEnd:
    """An end of a ridge over an outside wall, hipped or gabled; `run_in` is its hips' level run.

    `apex` (3,) is the plan point where the ridge's line ends, `removals` what ends the ridge.
    """

    run_in: float
    apex: Array
    removals: tuple[Removal, ...]
    hip_end: HipEnd | None

    def hip_of(self, face: Face) -> Line | None:
        """The hip that bounds a main face here."""
        hips = () if self.hip_end is None else self.hip_end.hips
        return next((hip for hip in hips if hip.own is face), None)


@dataclass
class Skeleton:
    """What a shape yields: carriers and plates as sticks, and bays to be filled with rafters."""

    plan: RoofPlan
    carriers: list[Stick] = field(default_factory=list)
    plates: list[Stick] = field(default_factory=list)
    bays: list[Bay] = field(default_factory=list)
    lines: dict[str, Line] = field(default_factory=dict)
    seats: dict[str, LineSeat] = field(default_factory=dict)
    clips: list[tuple[Array, CutPlane]] = field(default_factory=list)

    def face(self, name: str, at: Array, along: Array, inward: Array, pitch: Pitch) -> Face:
        """A face of this pitch whose building line passes through a plan point."""
        plan = self.plan
        return Face(
            name,
            pitch,
            at,
            along,
            inward,
            plan.mouth.height_above_plate_in,
            plan.overhang_of(pitch),
            plan.fascia_in,
        )

    def line(self, kind: Kind, own: Face, other: Face, foot: Array, apex: Array) -> Line:
        """A hip, valley or ridge of this roof from one plan point to another."""
        plan, slopes = self.plan, (own.pitch.slope_deg, other.pitch.slope_deg)
        top: LineTop
        if kind == "hip":
            stock, deg = plan.hip, 90.0
            top = hip_top(Corner(*slopes, deg), stock, plan.hip_way)
        elif kind == "valley":
            stock, deg = plan.valley, 270.0
            top = valley_top(Corner(*slopes, deg), stock, plan.valley_way)
        else:
            stock, deg, top = plan.ridge, 180.0, ridge_top(own, plan.ridge)
        taken = sum(line.kind == kind for line in self.lines.values())
        name = f"{kind[0].upper()}{taken + 1}"
        line = Line(name, kind, own, other, deg, foot, apex - foot, stock, top)
        if kind != "ridge":
            check_carrier_depth(line, plan.rafter)
        self.lines[name] = line
        return line

    def stand(self, line: Line, heads: Sequence[Removal], apex: Array) -> None:
        """Stand a hip or valley on its corner of the plates, up to a plan point of its line."""
        seat = line_seat(
            line.corner(),
            line.top,
            line.stock,
            self.plan.mouth.height_above_plate_in,
            self.plan.plate_corner,
        )
        self.seats[line.name] = seat
        if line.kind == "hip" and seat.plate_corner == "clipped":
            at = line.foot + seat.centre_heel_in * line.plan_line
            clip = plane_at(-line.plan_line, at, "corner clip", "foot")
            self.clips.append((line.foot, clip))
        removals = (
            *heads,
            *line.tail_removals(),
            *line.seat_removals(seat),
            *line.rip_removals(),
        )
        self.carriers.append(line.stick(removals, line.length_to(apex), line.kind, True))

    def bear(self, line: Line, removals: Sequence[Removal], apex: Array) -> None:
        """Put in a ridge or a hip that stands on no plate, up to a plan point of its line."""
        self.carriers.append(line.stick(removals, line.length_to(apex), line.kind, False))

    def walls(self, corners: Sequence[tuple[str, Array, Array]]) -> None:
        """Plates along the walls, each named, from point to point, with the building at left."""
        for name, start, end in corners:
            inward = np.cross(Z, (end - start) / np.linalg.norm(end - start))
            reach = self.plan.plate.depth_in + 1e-6
            clips = [
                clip
                for corner, clip in self.clips
                if min(np.linalg.norm(corner - start), np.linalg.norm(corner - end)) < reach
            ]
            self.plates.append(plate(name, start, end, inward, self.plan.plate, clips))


def skeleton(plan: RoofPlan) -> Skeleton:
    """Faces, carriers and plates of the plan's shape; the plan is taken as checked."""
    return _rectangle(plan) if plan.wing is None else _ell(plan, plan.wing.width_in)


def _rectangle(plan: RoofPlan) -> Skeleton:
    s, length, width = Skeleton(plan), plan.length_in, plan.width_in
    left_front, left_back = _at(0, 0), _at(0, width)
    right_front, right_back = _at(length, 0), _at(length, width)
    front = s.face("front", left_front, X, Y, plan.pitch)
    back = s.face("back", left_back, X, -Y, plan.pitch)
    left_in, right_in = (plan.hip_run_in(width) if e == "hip" else 0.0 for e in plan.ends)
    apexes = _at(left_in, width / 2), _at(length - right_in, width / 2)
    ridge = s.line("ridge", front, back, *apexes)
    left = _free_end(s, plan.ends[0], "left", apexes[0], ridge, (left_front, left_back))
    right = _free_end(s, plan.ends[1], "right", apexes[1], ridge, (right_front, right_back))
    s.bear(ridge, (*left.removals, *right.removals), apexes[1])
    for face in (front, back):
        edges = [Edge(ridge, left_in, length - right_in)]
        edges += _hip_edge(left, face, 0.0, left_in) + _hip_edge(
            right, face, length - right_in, length
        )
        fixed = (
            *_fixed(plan, face, ridge, left, left_in, 0.0),
            *_fixed(plan, face, ridge, right, length - right_in, length),
        )
        s.bays.append(Bay(face, tuple(edges), length, left_in, right_in, length, fixed))
    depth = plan.plate.depth_in
    s.walls(
        [
            ("P1", left_front, right_front),
            ("P2", right_back, left_back),
            ("P3", _at(length, depth), _at(length, width - depth)),
            ("P4", _at(0, width - depth), _at(0, depth)),
        ]
    )
    return s


def _ell(plan: RoofPlan, wing_width: float) -> Skeleton:
    assert plan.wing is not None
    s, length, width, out = Skeleton(plan), plan.length_in, plan.width_in, plan.wing.length_in
    front = s.face("front", _at(length, 0), -X, Y, plan.pitch)
    back = s.face("back", _at(length, width), -X, -Y, plan.pitch)
    inner = s.face("inner", _at(wing_width, -out), Y, -X, plan.wing_pitch)
    left = s.face("left", _at(0, -out), Y, X, plan.wing_pitch)
    main_in = plan.hip_run_in(width) if plan.ends[1] == "hip" else 0.0
    wing_in = plan.wing_hip_run_in()
    heel, turn = _at(plan.heel_in, width / 2), _at(wing_width / 2, plan.turn_in)
    far, near = _at(length - main_in, width / 2), _at(wing_width / 2, wing_in - out)
    inside, outside = _at(wing_width, 0), _at(0, width)
    main_ridge = s.line("ridge", front, back, far, heel)
    wing_ridge = s.line("ridge", inner, left, near, turn)
    valley = s.line("valley", front, inner, inside, turn)
    heel_hip = s.line("hip", back, left, outside, heel)
    equal = plan.equal_ridges
    broken = None if equal else s.line("hip", front, left, turn, heel)
    hips = (heel_hip,) if broken is None else (heel_hip, broken)
    head: HipHead = "ridge" if equal else plan.hip_head
    heel_end = HipEnd(heel, -X, left, main_ridge, plan.rafter, hips, head)
    corners = _at(length, 0), _at(length, width)
    main_end = _free_end(s, plan.ends[1], "right", far, main_ridge, corners)
    corners = _at(wing_width, -out), _at(0, -out)
    wing_end = _free_end(s, plan.wing.end, "wing end", near, wing_ridge, corners)

    s.stand(heel_hip, heel_end.hip_heads(heel_hip), heel)
    wing_side = wing_ridge.mate_plane(inner)
    valley_heads = [valley.ridge_head(wing_ridge, inner)]
    king = Fixed(out + width / 2, heel_end.end_common_heads())
    turned = out + plan.turn_in  # where both ridges' lines cross, on the wing's rail
    if broken is None:
        valley_heads.append(valley.ridge_head(main_ridge, front))
        ridge_top_in = turned
        top = plane_at(Y, main_ridge.near_point(front), "square end", "head")
    else:
        foot = [_foot_on(wing_side), _foot_on(valley.mate_plane(front))]
        s.bear(broken, (*heel_end.hip_heads(broken), *foot, *broken.rip_removals()), heel)
        left_fixed = (*_fixed(plan, left, wing_ridge, wing_end, wing_in, 0.0), king)
        laid = bay_positions(plan, out + width, wing_end.run_in, width / 2, left_fixed)
        ridge_top_in = _wing_ridge_top_in(plan, wing_ridge, broken, left, laid)
        top = plane_at(Y, _at(0, ridge_top_in - out), "square end", "head")
    s.stand(valley, valley_heads, turn)
    s.bear(main_ridge, (*main_end.removals, *heel_end.ridge_removals()), heel)
    s.bear(wing_ridge, (*wing_end.removals, (top,)), turn)

    # the main roof's rail counts from the right end, the wing's from its free end
    heel_at, inside_at = length - plan.heel_in, length - wing_width
    main = [Edge(main_ridge, main_in, heel_at)]
    back_edges = [*main, Edge(heel_hip, heel_at, length), *_hip_edge(main_end, back, 0.0, main_in)]
    front_edges = [
        *main,
        Edge(valley, inside_at, length - wing_width / 2),
        *_hip_edge(main_end, front, 0.0, main_in),
    ]
    left_edges = [
        Edge(wing_ridge, wing_in, turned, to_in=ridge_top_in),
        Edge(heel_hip, out + width / 2, out + width),
        *_hip_edge(wing_end, left, 0.0, wing_in),
    ]
    if broken is not None:
        front_edges.append(Edge(broken, heel_at, length - wing_width / 2))
        left_edges.append(Edge(broken, turned, out + width / 2, from_in=ridge_top_in))
    inner_edges = [
        Edge(wing_ridge, wing_in, turned),
        Edge(valley, out, turned),
        *_hip_edge(wing_end, inner, 0.0, wing_in),
    ]
    for face, edges, ridge, end, to in (
        (front, front_edges, main_ridge, main_end, length - wing_width / 2),
        (back, back_edges, main_ridge, main_end, length),
        (inner, inner_edges, wing_ridge, wing_end, turned),
        (left, left_edges, wing_ridge, wing_end, out + width),
    ):
        on_main = ridge is main_ridge
        fixed = _fixed(plan, face, ridge, end, main_in if on_main else wing_in, 0.0)
        if on_main and head == "commons":
            fixed += (Fixed(heel_at, (ridge.mate_plane(face),)),)
        if face is left:
            fixed += (king,)
        rail, end_hip = (length, plan.heel_in) if on_main else (out + width, width / 2)
        s.bays.append(Bay(face, tuple(edges), rail, end.run_in, end_hip, to, fixed))
    depth = plan.plate.depth_in
    s.walls(
        [
            ("P1", _at(wing_width - depth, 0), _at(length, 0)),
            ("P2", _at(length, width), outside),
            ("P3", _at(length, depth), _at(length, width - depth)),
            ("P4", _at(0, width - depth), _at(0, depth - out)),
            ("P5", _at(0, -out), _at(wing_width, -out)),
            ("P6", _at(wing_width, depth - out), inside),
        ]
    )
    return s


# --- what both shapes share -------------------------------------------------------------------


def _at(x: float, y: float) -> Array:
    return vector(x, y, 0.0)


def _free_end(
    s: Skeleton,
    kind: RoofEnd,
    name: str,
    apex: Array,
    ridge: Line,
    corners: tuple[Array, Array],
) -> FreeEnd:
    """End a ridge at an outside wall, whose corners lie under the own and the other main face.

    A gable ends it square over the building line; a hipped end puts in both hips and the end's
    own bay.
    """
    wall = corners[1] - corners[0]
    middle = (corners[0] + corners[1]) / 2
    run = float(np.linalg.norm(apex - middle))
    if kind == "gable":
        outward = _outward(ridge, apex)
        which: End = "head" if outward is ridge.plan_line else "foot"
        return FreeEnd(0.0, apex, ((plane_at(outward, apex, "square end", which),),), None)
    outward = (middle - apex) / run
    span = float(np.linalg.norm(wall))
    end_face = s.face(name, corners[0], wall / span, -outward, s.plan.ends_pitch)
    mains = (ridge.own, ridge.other)
    hips = tuple(
        s.line("hip", main, end_face, corner, apex)
        for main, corner in zip(mains, corners, strict=True)
    )
    plan = s.plan
    hip_end = HipEnd(apex, outward, end_face, ridge, plan.rafter, hips, plan.hip_head)
    for hip in hips:
        s.stand(hip, hip_end.hip_heads(hip), apex)
    edges = (Edge(hips[0], 0.0, span / 2), Edge(hips[1], span / 2, span))
    king = Fixed(span / 2, hip_end.end_common_heads())
    s.bays.append(Bay(end_face, edges, span, span / 2, span / 2, span, (king,)))
    return FreeEnd(run, apex, hip_end.ridge_removals(), hip_end)


def _outward(ridge: Line, apex: Array) -> Array:
    """Unit level vector out of the building at a ridge's end."""
    at_start = float(np.abs(apex - ridge.foot).max()) < 1e-9
    return -ridge.plan_line if at_start else ridge.plan_line


def _hip_edge(end: FreeEnd, face: Face, low_in: float, high_in: float) -> list[Edge]:
    hip = end.hip_of(face)
    return [] if hip is None else [Edge(hip, low_in, high_in)]


def _fixed(
    plan: RoofPlan, face: Face, ridge: Line, end: FreeEnd, apex_at: float, wall_at: float
) -> tuple[Fixed, ...]:
    """The rafters that an end asks for: at a gable one flush with the wall, at a hip's top the
    common that the hip comes up beside."""
    only = (ridge.mate_plane(face),)
    if end.hip_end is not None:
        if plan.hip_head == "ridge":
            return ()
        return (Fixed(apex_at, only),)
    half = plan.rafter.thickness_in / 2
    position = half if wall_at == 0 else wall_at - half
    return (Fixed(position, only),)


def _foot_on(side: CutPlane) -> Removal:
    """The foot of a hip that stands in the corner between a ridge and a valley."""
    return (CutPlane(side.normal, side.level_in, "hip foot", "foot"),)


def _wing_ridge_top_in(
    plan: RoofPlan, wing_ridge: Line, broken: Line, left: Face, positions: Sequence[float]
) -> float:
    """Where the wing's ridge ends on its rail: past the whole foot of the hip that it carries.

    Where a rafter of the outer face would straddle the ridge's end, it runs on to that
    rafter's far side: the roof there is level along it.
    """
    ways = np.stack([wing_ridge.plan_line[:2], -broken.plan_line[:2]], axis=1)
    side = wing_ridge.near_point(wing_ridge.own)
    past = float(np.linalg.solve(ways, (broken.near_point(left) - side)[:2])[0])
    top = float((side - left.origin) @ left.along) + past
    half = plan.rafter.thickness_in / 2
    return max([top, *(p + half for p in positions if abs(p - top) < half)])


def bay_positions(
    plan: RoofPlan, length_in: float, start_hip_in: float, end_hip_in: float, fixed: Sequence[Fixed]
) -> tuple[float, ...]:
    """Where a bay's rafters stand on its rail; two keep a thickness clear between them."""
    return lay_out(
        length_in,
        start_hip_in,
        end_hip_in,
        plan.spacing_in,
        plan.first_in,
        [each.position_in for each in fixed],
        2 * plan.rafter.thickness_in,
    )
