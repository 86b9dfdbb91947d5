"""What carries a roof: faces, hips, valleys and ridges under the lines found from the walls.

A `RoofFrame` holds them with their meetings, the rails of the faces, and the plates.
"""

from dataclasses import dataclass, field
from itertools import combinations

import numpy as np

from layout.errors import FrameError, LengthError, RoofError
from layout.framing.carrier import Carrier, CarrierKind, ridge_top
from layout.framing.depth import check_carrier_depth
from layout.framing.face import Face
from layout.framing.high_wall import HighWall
from layout.framing.hipend import HipEnd
from layout.framing.meeting import Meeting, StickEnd, meetings
from layout.framing.plate import plates
from layout.framing.rail import Rail, origin_of, rails, ways_to_count
from layout.framing.roof_lines import RoofLine, RoofLines
from layout.framing.roof_plan import RoofPlan
from layout.framing.stick import CutPlane, Stick, WasteRegion, plane_at
from layout.framing.supporting import Supporting, supporting
from layout.length.drop import CarrierTop, hip_top, valley_top
from layout.length.seat import CarrierSeat, line_seat
from layout.plane.corner import Corner
from layout.quantity import write_degrees, write_feet, write_fraction
from layout.vector import Array, at_height

KINDS: dict[str, CarrierKind] = {"hip": "hip", "valley": "valley", "ridge": "ridge"}
SQUARE = 1e-9
NEAR_IN = 1e-5


@dataclass
class RoofFrame:
    """A roof's bones: `faces` by plane, `lines` by the roof line they stand under, and sticks.

    `square_ends` are the hip ends of ridges over a wall square to them, by their apex's place in
    `meetings`. `high_walls` are by the plane that climbs to them.
    """

    plan: RoofPlan
    roof: RoofLines
    faces: dict[int, Face]
    lines: dict[int, Carrier]
    meetings: tuple[Meeting, ...]
    square_ends: dict[int, HipEnd]
    high_walls: dict[int, HighWall]
    rails: tuple[Rail, ...]
    carriers: list[Stick] = field(default_factory=list)
    plates: tuple[Stick, ...] = ()
    seats: dict[str, CarrierSeat] = field(default_factory=dict)


def roof_frame(plan: RoofPlan, roof: RoofLines) -> RoofFrame:
    """Faces, carriers and plates over the outline of a plan that is taken as checked."""
    ways = ways_to_count(roof)
    faces = {k: _face(plan, roof, k, ways[k]) for k in roof.eave_planes}
    lines = _carriers(plan, roof, faces)
    ends = {
        lines[k].name: (at_height(line.foot), at_height(line.head))
        for k, line in enumerate(roof.lines)
        if k in lines
    }
    carried = {each.line: each for each in supporting(roof)}
    for k, each in carried.items():
        ends[lines[k].name] = (at_height(roof.lines[k].foot), at_height(each.head))
    plumb = [
        (at_height(-p.inward), at_height(p.level_in * p.inward))
        for p in roof.planes
        if p.kind != "eave"
    ]
    met = tuple(_without_plates(m, roof) for m in meetings(tuple(lines.values()), ends, plumb))
    made = RoofFrame(
        plan, roof, faces, lines, met, _square_ends(plan, met), _high_walls(plan, roof, faces),
        rails(roof, faces, lines, tuple(carried.values())),
    )  # fmt: skip
    _check_short(made)
    clips = _stand_all(made, ends, carried)
    tops = [_plate_top(made, k) for k in range(len(roof.outline.walls))]
    made.plates = plates(roof.outline, plan.plate, tops, clips)
    return made


def _face(plan: RoofPlan, roof: RoofLines, k: int, way: Array) -> Face:
    plane = roof.planes[k]
    assert plane.pitch is not None
    return Face(
        plane.name, plane.pitch, origin_of(roof, k, way), at_height(way),
        at_height(plane.inward), plan.mouth.height_above_plate_in,
        plan.overhang_of(plane.pitch), plan.fascia_in,
    )  # fmt: skip


def _carriers(plan: RoofPlan, roof: RoofLines, faces: dict[int, Face]) -> dict[int, Carrier]:
    found: dict[int, Carrier] = {}
    taken = dict.fromkeys(KINDS.values(), 0)
    for k, line in enumerate(roof.lines):
        if line.kind not in KINDS:
            continue
        kind = KINDS[line.kind]
        taken[kind] += 1
        own, other = _main_first(roof, line)
        found[k] = _carrier(
            plan, f"{kind[0].upper()}{taken[kind]}", kind, faces[own], faces[other], line
        )
    return found


def _main_first(roof: RoofLines, line: RoofLine) -> tuple[int, int]:
    """A line's planes, the one with a ridge at the line's head first: the main roof's."""
    at_ridge = {
        plane
        for each in roof.lines
        if each.kind == "ridge"
        and min(np.abs(end - line.head).max() for end in (each.foot, each.head)) < 1e-5
        for plane in (each.left, each.right)
    }
    pair = (line.left, line.right)
    return pair if pair[0] in at_ridge else (pair[1], pair[0])


def _carrier(
    plan: RoofPlan, name: str, kind: CarrierKind, own: Face, other: Face, line: RoofLine
) -> Carrier:
    corner = Corner(own.pitch.slope_deg, other.pitch.slope_deg, line.interior_deg)
    top: CarrierTop
    try:
        if kind == "hip":
            stock, top = plan.hip, hip_top(corner, plan.hip, plan.hip_way)
        elif kind == "valley":
            stock, top = plan.valley, valley_top(corner, plan.valley, plan.valley_way)
        else:
            stock, top = plan.ridge, ridge_top(own, other, plan.ridge)
    except RoofError as error:
        raise RoofError(f"between {own.name} and {other.name}: {error}") from None
    made = Carrier(
        name, kind, own, other, line.interior_deg, at_height(line.foot),
        at_height(line.head - line.foot), stock, top,
    )  # fmt: skip
    if kind != "ridge":
        check_carrier_depth(made, plan.rafter)
    return made


def _without_plates(meeting: Meeting, roof: RoofLines) -> Meeting:
    """A meeting without the feet that stand over corners of the walls."""
    at_corner = np.abs(roof.outline.corners - meeting.at[:2]).max(axis=1).min() < 1e-5
    ends = tuple(e for e in meeting.ends if not (at_corner and e.end == "foot"))
    return Meeting(meeting.at, ends, meeting.through, meeting.walls)


def _square_ends(plan: RoofPlan, met: tuple[Meeting, ...]) -> dict[int, HipEnd]:
    found = {}
    for k, meeting in enumerate(met):
        ridges = [e for e in meeting.ends if e.line.kind == "ridge"]
        hips = [e for e in meeting.ends if e.line.kind == "hip"]
        plain = len(ridges) == 1 and len(hips) == 2 and len(meeting.ends) == 3
        if not plain or meeting.through or meeting.walls:
            continue
        ridge, (one, two) = ridges[0], hips
        shared = [f for f in one.line.faces if f in two.line.faces]
        mains = {one.line.own.name, two.line.own.name}
        if len(shared) != 1 or mains != {f.name for f in ridge.line.faces}:
            continue
        outward = at_height(-ridge.out)
        if abs(float(outward @ shared[0].inward)) < 1 - SQUARE or one.end != two.end:
            continue
        found[k] = HipEnd(
            meeting.at, outward, shared[0], ridge.line, plan.rafter, (one.line, two.line),
            plan.hip_head,
        )  # fmt: skip
    return found


def _high_walls(plan: RoofPlan, roof: RoofLines, faces: dict[int, Face]) -> dict[int, HighWall]:
    found = {}
    for line in roof.lines:
        if line.kind != "top":
            continue
        plane, wall = (line.left, line.right) if line.left in faces else (line.right, line.left)
        face, high = faces[plane], roof.planes[wall]
        run = float(roof.outline.corners[high.walls[0]] @ face.inward[:2])
        run -= roof.planes[plane].level_in
        tail = max(0.0, plan.overhang_in - plan.fascia_in)
        found[plane] = HighWall(
            high.walls[0], face, run, plan.mouth_of(face.pitch), plan.plate.depth_in, tail,
            plan.ridge if plan.high == "ledger" else None,
        )  # fmt: skip
    return found


def _check_short(made: RoofFrame) -> None:
    """Raise LengthError where two corners or meetings lie nearer than their sticks are wide."""
    least = 4 * made.plan.plate.depth_in
    for wall in made.roof.outline.walls:
        if wall.length_in < least:
            raise LengthError(
                f"{wall.name} is {write_fraction(wall.length_in)} in long, too short for the"
                f" plates that meet at its ends; give {write_fraction(least)} in or more"
            )
    stocks = (made.plan.rafter, made.plan.hip, made.plan.ridge, made.plan.valley)
    least = 2 * max(stock.thickness_in for stock in stocks)
    for one, other in combinations(made.meetings, 2):
        apart = float(np.hypot(*(one.at - other.at)[:2]))
        if one.ends and other.ends and apart < least:
            names = sorted({e.line.name for m in (one, other) for e in m.ends})
            raise LengthError(
                f"{', '.join(names)} meet in two places {write_fraction(apart)} in apart, nearer"
                f" than the sticks are thick; give walls or pitches that bring them to one point"
                f" or {write_fraction(least)} in or more apart"
            )
    for line in (made.roof.lines[k] for k in made.lines):
        if line.run_in < least:
            raise LengthError(
                f"a {line.kind} of {write_fraction(line.run_in)} in is shorter than the sticks at"
                f" its ends are thick; give walls that make it {write_fraction(least)} in or"
                " more, or none of it"
            )


def _stand_all(
    made: RoofFrame, ends: dict[str, tuple[Array, Array]], carried: dict[int, Supporting]
) -> dict[int, CutPlane]:
    """Stand every carrier with its cuts; the clips of plates under the hips, by corner."""
    clips: dict[int, CutPlane] = {}
    for k, line in made.lines.items():
        removals: list[WasteRegion] = []
        for m, meeting in enumerate(made.meetings):
            for each in meeting.ends:
                if each.line is line:
                    removals += _cut_at(made, m, each)
        roof_line = made.roof.lines[k]
        on_plate = roof_line.corner is not None and line.kind != "ridge"
        if on_plate:
            seat = line_seat(
                line.corner(), line.top, line.stock, made.plan.mouth.height_above_plate_in,
                made.plan.plate_corner,
            )  # fmt: skip
            made.seats[line.name] = seat
            removals += [*line.tail_removals(), *line.seat_removals(seat)]
            if line.kind == "hip" and seat.plate_corner == "clipped":
                at = line.foot + seat.centre_heel_in * line.plan_line
                assert roof_line.corner is not None
                clips[roof_line.corner] = plane_at(-line.plan_line, at, "corner clip", "foot")
        removals += line.rip_removals()
        if k in carried:
            removals.append(_under_main_roof(made, carried[k]))
        apex = ends[line.name][1]
        made.carriers.append(line.stick(removals, line.length_to(apex), line.kind, on_plate))
    return clips


def _under_main_roof(made: RoofFrame, carried: Supporting) -> WasteRegion:
    """What a supporting valley loses past the wing's ridge: the wood above the main roof.

    Past that ridge the roof is the main plane alone: the wing's far side, carried on, lies under
    it there, and below the turn over all of the stick. So what goes lies above both.
    """
    main, far = (
        plane_at(face.normal, face.lifted(face.origin), "supporting backing", "head")
        for face in (made.faces[carried.inside], made.faces[carried.far])
    )
    return main, far


def _cut_at(made: RoofFrame, m: int, mine: StickEnd) -> tuple[WasteRegion, ...]:
    hip_end = made.square_ends.get(m)
    if hip_end is None:
        return made.meetings[m].removals(mine)
    if mine.line.kind == "ridge":
        return hip_end.ridge_removals()
    return hip_end.hip_heads(mine.line)


def _plate_top(made: RoofFrame, wall: int) -> float | None:
    """The height of a wall's plate over the eaves' plates [inches], None under a ledger."""
    high = next((h for h in made.high_walls.values() if h.wall == wall), None)
    if high is None:
        return 0.0
    return None if high.ledger is not None else high.plate_top_in


def no_sticks(roof: RoofLines) -> str:
    """Where and why a roof gets no sticks, in one sentence; empty where it gets them."""
    walls = roof.outline.walls
    if len(walls) > 12:
        return f"sticks go up to 12 walls, and these are {len(walls)}"
    if roof.open_places:
        return f"two answers: {roof.open_places[0]}"
    for line in roof.lines:
        left, right = roof.planes[line.left], roof.planes[line.right]
        skew = not _square_to(left.inward, right.inward)
        if line.sloping_ridge and skew and not roof.outline.convex:
            return (
                f"a sloping ridge between {left.name} and {right.name},"
                f" {write_feet(line.length_in)} long at {write_degrees(line.slope_deg)}, beside"
                " corners that point inward"
            )
    for k, wall in enumerate(walls):
        for corner in (k, (k + 1) % len(walls)):
            if wall.kind != "eave" and abs(roof.outline.interior_deg(corner) - 90.0) > 1e-9:
                return f"{wall.name} is a {wall.kind} that does not stand square to its neighbors"
    for k, plane in enumerate(roof.planes):
        tops = (line for line in roof.lines if line.kind == "top" and k in (line.left, line.right))
        top, whole = sum(line.run_in for line in tops), sum(walls[w].length_in for w in plane.walls)
        if plane.kind == "high" and 0.0 < top < whole - NEAR_IN:
            # past a hip's head its plate would stand in the air over the roof beside it
            return (
                f"{plane.name} is a high wall of {write_feet(whole)}, and the roof climbs to it"
                f" over {write_feet(top)} alone; make the wall at each end of it a gable"
            )
    return ""


def _square_to(one: Array, two: Array) -> bool:
    return abs(float(one @ two)) < SQUARE


def check_sticks(roof: RoofLines) -> None:
    """Raise FrameError with the sentence of `no_sticks`."""
    said = no_sticks(roof)
    if said:
        raise FrameError(f"no sticks for this roof: {said}")
