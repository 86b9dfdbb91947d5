"""The faces, hips, valleys, ridges and plates of a rectangle or an L, put together.

The main rectangle stands on X from 0 to its length and Y from 0 to its width, its ridge along
X. A wing stands on X from 0 to its width and runs out of the front to -Y; its ridge runs along
Y. The L's outer corner (X = 0, Y = width) is hipped, its inner corner carries the valley.

Both faces of a ridge count their rafters along one rail, from a free end, so that rafters stand
opposite each other.
"""

from collections.abc import Sequence

import numpy as np

from layout.framing.carrier import Carrier
from layout.framing.face import Face
from layout.framing.hipend import HipEnd
from layout.framing.rafter import Edge
from layout.framing.roof_frame import (
    Bay,
    Fixed,
    RoofFrame,
    bay_positions,
    fixed_at,
    free_end,
    hip_edge,
)
from layout.framing.roof_plan import HipHead, RoofPlan
from layout.framing.stick import CutPlane, WasteRegion, plane_at
from layout.vector import Array, X, Y, vector


def roof_frame(plan: RoofPlan) -> RoofFrame:
    """Faces, carriers and plates of the plan's shape; the plan is taken as checked."""
    return _rectangle(plan) if plan.wing is None else _ell(plan, plan.wing.width_in)


def _rectangle(plan: RoofPlan) -> RoofFrame:
    s, length, width = RoofFrame(plan), plan.length_in, plan.width_in
    left_front, left_back = _at(0, 0), _at(0, width)
    right_front, right_back = _at(length, 0), _at(length, width)
    front = s.face("front", left_front, X, Y, plan.pitch)
    back = s.face("back", left_back, X, -Y, plan.pitch)
    left_in, right_in = (plan.hip_run_in(width) if e == "hip" else 0.0 for e in plan.ends)
    apexes = _at(left_in, width / 2), _at(length - right_in, width / 2)
    ridge = s.line("ridge", front, back, *apexes)
    left = free_end(s, plan.ends[0], "left", apexes[0], ridge, (left_front, left_back))
    right = free_end(s, plan.ends[1], "right", apexes[1], ridge, (right_front, right_back))
    s.bear(ridge, (*left.removals, *right.removals), apexes[1])
    for face in (front, back):
        edges = [Edge(ridge, left_in, length - right_in)]
        edges += hip_edge(left, face, 0.0, left_in) + hip_edge(
            right, face, length - right_in, length
        )
        fixed = (
            *fixed_at(plan, face, ridge, left, left_in, 0.0),
            *fixed_at(plan, face, ridge, right, length - right_in, length),
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


def _ell(plan: RoofPlan, wing_width: float) -> RoofFrame:
    assert plan.wing is not None
    s, length, width, out = RoofFrame(plan), plan.length_in, plan.width_in, plan.wing.length_in
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
    main_end = free_end(s, plan.ends[1], "right", far, main_ridge, corners)
    corners = _at(wing_width, -out), _at(0, -out)
    wing_end = free_end(s, plan.wing.end, "wing end", near, wing_ridge, corners)

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
        left_fixed = (*fixed_at(plan, left, wing_ridge, wing_end, wing_in, 0.0), king)
        laid = bay_positions(plan, out + width, wing_end.run_in, width / 2, left_fixed)
        ridge_top_in = _wing_ridge_top_in(plan, wing_ridge, broken, left, laid)
        top = plane_at(Y, _at(0, ridge_top_in - out), "square end", "head")
    s.stand(valley, valley_heads, turn)
    s.bear(main_ridge, (*main_end.removals, *heel_end.ridge_removals()), heel)
    s.bear(wing_ridge, (*wing_end.removals, (top,)), turn)

    # the main roof's rail counts from the right end, the wing's from its free end
    heel_at, inside_at = length - plan.heel_in, length - wing_width
    main = [Edge(main_ridge, main_in, heel_at)]
    back_edges = [*main, Edge(heel_hip, heel_at, length), *hip_edge(main_end, back, 0.0, main_in)]
    front_edges = [
        *main,
        Edge(valley, inside_at, length - wing_width / 2),
        *hip_edge(main_end, front, 0.0, main_in),
    ]
    left_edges = [
        Edge(wing_ridge, wing_in, turned, to_in=ridge_top_in),
        Edge(heel_hip, out + width / 2, out + width),
        *hip_edge(wing_end, left, 0.0, wing_in),
    ]
    if broken is not None:
        front_edges.append(Edge(broken, heel_at, length - wing_width / 2))
        left_edges.append(Edge(broken, turned, out + width / 2, from_in=ridge_top_in))
    inner_edges = [
        Edge(wing_ridge, wing_in, turned),
        Edge(valley, out, turned),
        *hip_edge(wing_end, inner, 0.0, wing_in),
    ]
    for face, edges, ridge, end, to in (
        (front, front_edges, main_ridge, main_end, length - wing_width / 2),
        (back, back_edges, main_ridge, main_end, length),
        (inner, inner_edges, wing_ridge, wing_end, turned),
        (left, left_edges, wing_ridge, wing_end, out + width),
    ):
        on_main = ridge is main_ridge
        fixed = fixed_at(plan, face, ridge, end, main_in if on_main else wing_in, 0.0)
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


def _at(x: float, y: float) -> Array:
    return vector(x, y, 0.0)


def _foot_on(side: CutPlane) -> WasteRegion:
    """The foot of a hip that stands in the corner between a ridge and a valley."""
    return (CutPlane(side.normal, side.level_in, "hip foot", "foot"),)


def _wing_ridge_top_in(
    plan: RoofPlan, wing_ridge: Carrier, broken: Carrier, left: Face, positions: Sequence[float]
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
