"""What a shape of roof is put together from: faces, lines, ends of ridges, plates, and bays.

A roof_frame gathers the sticks that carry and the bays that rafters fill.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from layout.cuts import End
from layout.framing.carrier import Carrier, Kind, ridge_top
from layout.framing.depth import check_carrier_depth
from layout.framing.face import Face
from layout.framing.hipend import HipEnd
from layout.framing.plate import plate
from layout.framing.rafter import Edge
from layout.framing.roof_plan import RoofEnd, RoofPlan
from layout.framing.spacing import lay_out
from layout.framing.stick import CutPlane, Stick, WasteRegion, plane_at
from layout.length.drop import CarrierTop, hip_top, valley_top
from layout.length.seat import CarrierSeat, line_seat
from layout.plane.corner import Corner
from layout.quantity import Pitch
from layout.vector import Array, Z


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
    removals: tuple[WasteRegion, ...]
    hip_end: HipEnd | None

    def hip_of(self, face: Face) -> Carrier | None:
        """The hip that bounds a main face here."""
        hips = () if self.hip_end is None else self.hip_end.hips
        return next((hip for hip in hips if hip.own is face), None)


@dataclass
class RoofFrame:
    """What a shape yields: carriers and plates as sticks, and bays to be filled with rafters."""

    plan: RoofPlan
    carriers: list[Stick] = field(default_factory=list)
    plates: list[Stick] = field(default_factory=list)
    bays: list[Bay] = field(default_factory=list)
    lines: dict[str, Carrier] = field(default_factory=dict)
    seats: dict[str, CarrierSeat] = field(default_factory=dict)
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

    def line(self, kind: Kind, own: Face, other: Face, foot: Array, apex: Array) -> Carrier:
        """A hip, valley or ridge of this roof from one plan point to another."""
        plan, slopes = self.plan, (own.pitch.slope_deg, other.pitch.slope_deg)
        top: CarrierTop
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
        line = Carrier(name, kind, own, other, deg, foot, apex - foot, stock, top)
        if kind != "ridge":
            check_carrier_depth(line, plan.rafter)
        self.lines[name] = line
        return line

    def stand(self, line: Carrier, heads: Sequence[WasteRegion], apex: Array) -> None:
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

    def bear(self, line: Carrier, removals: Sequence[WasteRegion], apex: Array) -> None:
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


def free_end(
    s: RoofFrame,
    kind: RoofEnd,
    name: str,
    apex: Array,
    ridge: Carrier,
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


def _outward(ridge: Carrier, apex: Array) -> Array:
    """Unit level vector out of the building at a ridge's end."""
    at_start = float(np.abs(apex - ridge.foot).max()) < 1e-9
    return -ridge.plan_line if at_start else ridge.plan_line


def hip_edge(end: FreeEnd, face: Face, low_in: float, high_in: float) -> list[Edge]:
    hip = end.hip_of(face)
    return [] if hip is None else [Edge(hip, low_in, high_in)]


def fixed_at(
    plan: RoofPlan, face: Face, ridge: Carrier, end: FreeEnd, apex_at: float, wall_at: float
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
