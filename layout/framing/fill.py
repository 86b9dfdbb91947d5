"""A face filled with rafters: which stand where, and what cuts each at its foot and its head.

A rafter is laid along the span of its face at its place. Its end is cut by the side of the
carrier that bounds the span there, and by that of a carrier next to it where the rafter is wide
enough to reach it. Where both make an outward corner of the face the wood must lie behind both
planes: two removals. Where the corner points into the face, behind either: one removal of two
planes, and the end is hollow.
"""

from collections.abc import Sequence
from typing import Literal

import numpy as np

from layout.cuts import End
from layout.framing.carrier import Carrier
from layout.framing.face import Face
from layout.framing.rafter import foot_cuts, on_face, planed
from layout.framing.rail import Bound, Fixed, Rail, Span
from layout.framing.roof_frame import RoofFrame
from layout.framing.roof_plan import RoofPlan
from layout.framing.spacing import lay_out
from layout.framing.stick import CutPlane, Stick, WasteRegion
from layout.framing.too_short import too_short
from layout.stock import Stock

SAME_IN = 1e-9


def filled(frame: RoofFrame, rail: Rail) -> tuple[list[Stick], list[str]]:
    """The rafters of one face, and what was left out of it and why."""
    plan = frame.plan
    fixed = fixed_on(frame, rail)
    mouth = plan.mouth_of(rail.face.pitch)
    framed, missing = [], []
    for position in laid_out(plan, rail, fixed):
        kept = (each.only for each in fixed if abs(each.position_in - position) < SAME_IN)
        only = next(kept, ())
        for span in rail.spans(position):
            stick = _rafter(frame, rail, position, span, only)
            why = too_short(stick, mouth.seat_in)
            if why:
                missing.append(f"{_counted_from(rail.face, position)}: {why}")
                continue
            framed.append(stick)
    return framed, missing


def _counted_from(face: Face, position_in: float) -> str:
    """A place on a side, from the end where its positions begin as that is seen from outside."""
    right_outside = face.inward[1] * face.along[0] - face.inward[0] * face.along[1] > 0
    end = "left" if right_outside else "right"
    return (
        f"{face.name}, {position_in:g} in from the {end} end of this side as seen from outside,"
        " the overhang not counted"
    )


def laid_out(plan: RoofPlan, rail: Rail, fixed: Sequence[Fixed]) -> tuple[float, ...]:
    """Where the rafters of a face stand on its rail; two keep a thickness clear between them."""
    laid = lay_out(
        rail.length_in,
        rail.start_hip_in,
        rail.end_hip_in,
        plan.spacing_in,
        plan.first_in,
        [each.position_in - rail.start_in for each in fixed],
        2 * plan.rafter.thickness_in,
    )
    return tuple(rail.start_in + position for position in laid)


def fixed_on(frame: RoofFrame, rail: Rail) -> tuple[Fixed, ...]:
    """The rafters that stand in any case: flush with a gable, beside and between hips' tops.

    Those of another piece of the face are among them; `lay_out` takes what lies on the rail.
    """
    half = frame.plan.rafter.thickness_in / 2
    found = [Fixed(at) for at in _at_gables(frame, rail, half)]
    for k, meeting in enumerate(frame.meetings):
        here = [each for each in meeting.ends if rail.face in each.line.faces]
        if not here:
            continue
        at = float((meeting.at - rail.face.origin) @ rail.face.along)
        hip_end = frame.square_ends.get(k)
        between_hips = sum(e.line.kind == "hip" and e.end == "head" for e in here) == 2
        if hip_end is not None and rail.face is hip_end.end_face:
            found.append(Fixed(at, hip_end.end_common_heads()))
        elif hip_end is not None and hip_end.head == "commons":
            found.append(Fixed(at, (hip_end.ridge.mate_plane(rail.face),)))
        elif hip_end is None and between_hips and len(here) == 2:
            found.append(Fixed(at))
    return tuple(found)


def _at_gables(frame: RoofFrame, rail: Rail, half: float) -> list[float]:
    """Beside every gable at an end of the face, flush with the wall's outside."""
    walls = frame.roof.outline.walls
    found = []
    for wall in frame.roof.planes[rail.plane].walls:
        for beside, corner in ((wall - 1, wall), ((wall + 1) % len(walls), wall + 1)):
            if walls[beside].kind == "gable":
                point = frame.roof.outline.corners[corner % len(walls)]
                at = float((point - rail.face.origin[:2]) @ rail.face.along[:2])
                inside = float(-rail.face.along[:2] @ -frame.roof.outline.inward[beside])
                found.append(at + half * np.sign(inside))
    return found


def _rafter(
    frame: RoofFrame, rail: Rail, position: float, span: Span, only: Sequence[CutPlane]
) -> Stick:
    """The rafter over one span: `only` takes the place of the planes of its head's bounds."""
    face, stock = rail.face, frame.plan.rafter
    if only:
        removals: list[WasteRegion] = [(plane,) for plane in only]
        removals += [(planed(hip, face),) for hip in _hips_over(rail, position, stock)]
    else:
        removals = _cuts(frame, rail, position, span, "head")
    removals += _cuts(frame, rail, position, span, "foot")
    removals += foot_cuts(face)
    start, on_plate = span.foot_in, span.foot is None
    return on_face(face, position, start, span.head_in - start, stock, removals, on_plate)


def _hips_over(rail: Rail, position: float, stock: Stock) -> list[Carrier]:
    """The hips whose stretch a rafter's thickness reaches into."""
    half = stock.thickness_in / 2
    return [
        bound.line
        for bound in rail.bounds
        if bound.line is not None
        and bound.line.kind == "hip"
        and bound.low_in < position + half
        and bound.high_in > position - half
    ]


def _cuts(frame: RoofFrame, rail: Rail, position: float, span: Span, end: End) -> list[WasteRegion]:
    """The removals at one end of a rafter."""
    bounding = span.head if end == "head" else span.foot
    if bounding is not None and bounding.line is None:
        return list(frame.high_walls[rail.plane].head())
    both: list[CutPlane] = []
    if bounding is not None and bounding.line is not None:
        both.append(bounding.cut(rail.face, end))
    alone: list[WasteRegion] = []
    own = [each.line for each in (span.foot, span.head) if each is not None]
    for bound in rail.bounds:
        if any(bound.line is line for line in own):
            continue  # one stick, a valley and what runs on of it: the wood keeps to one side
        corner = _corner_with(frame, rail, position, span, end, bound)
        if corner is not None:
            plane = bound.cut(rail.face, end)
            if corner == "outward" or not both:
                alone.append((plane,))
            else:
                both.append(plane)
    return [*([tuple(both)] if both else []), *alone]


def _corner_with(
    frame: RoofFrame, rail: Rail, position: float, span: Span, end: End, bound: Bound
) -> Literal["outward", "inward"] | None:
    """The corner that another bound makes at this end of a span; None where it is out of reach.

    Near the span the face ends at the lower of two heads where its corner points outward, at
    the higher where it points inward; at its feet the other way about.
    """
    plan = frame.plan
    reach = plan.rafter.thickness_in / 2 + 2 * max(
        plan.hip.thickness_in, plan.valley.thickness_in, plan.ridge.thickness_in
    )
    bounding = span.head if end == "head" else span.foot
    if bounding is None and end == "foot" and _over_tail(rail, position, bound, reach):
        return "outward"
    if not bound.low_in - reach < position < bound.high_in + reach:
        return None
    at = bound.inside(position)
    beside = [
        each
        for each in rail.spans(at)
        if (each.head if end == "head" else each.foot) is bound
        and each.foot_in < span.head_in
        and each.head_in > span.foot_in
        and not _behind(each.foot if end == "head" else each.head, bounding)
    ]
    if not beside:
        return None
    if bounding is None:
        return "outward"
    its, mine = bound.run_in(rail.face, at), bounding.run_in(rail.face, at)
    return "outward" if (its <= mine) == (end == "head") else "inward"


def _behind(far: Bound | None, bounding: Bound | None) -> bool:
    """Whether a span beside lies on the other side of the stick that bounds this one."""
    return (
        far is not None
        and bounding is not None
        and far.line is not None
        and far.line is bounding.line
    )


def _over_tail(rail: Rail, position: float, bound: Bound, reach: float) -> bool:
    """Whether a valley's tail, before its corner of the walls, runs under a position's tail."""
    line = bound.line
    if line is None or line.kind != "valley" or not bound.from_corner:
        return False
    run = bound.run_in(rail.face, bound.head_in)
    out = bound.foot_in - (bound.head_in - bound.foot_in) / run * rail.face.tail_run_in
    low, high = sorted((bound.foot_in, out))
    return low - reach < position < high + reach
