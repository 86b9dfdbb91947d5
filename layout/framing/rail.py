"""A face's rail: the line along its eave on which its rafters' places are counted.

Faces on both sides of a ridge count along one way from one end, so that their rafters stand
opposite each other; of the two ends the one is taken at which fewer of them begin at a valley.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from layout.cuts import End
from layout.framing.carrier import Carrier
from layout.framing.face import Face
from layout.framing.roof_lines import RoofLines
from layout.framing.stick import CutPlane
from layout.framing.supporting import Supporting
from layout.vector import Array, at_height

NEAR_IN = 1e-5
SAME_IN = 1e-9
SHY_IN = 1e-4


@dataclass(frozen=True)
class Fixed:
    """A rafter that stands in any case, and the head planes that replace its bounds' own."""

    position_in: float
    only: tuple[CutPlane, ...] = ()


@dataclass(frozen=True)
class Bound:
    """A carrier along a face, or its high wall, over positions `low_in` to `high_in` of its rail.

    `foot_in` and `head_in` are the positions of its two ends; `from_corner` tells that its foot
    stands over a corner of the walls, whence its tail runs on. `runs_on` marks the part of a
    supporting valley that lies inside the face.
    """

    line: Carrier | None
    foot_in: float
    head_in: float
    from_corner: bool
    level_run_in: float = 0.0
    runs_on: bool = False

    def cut(self, face: Face, end: End) -> CutPlane:
        """The plane in which a rafter of the face ends on it, at the rafter's head or foot.

        Under a valley that runs on inside the face a head lies against its other side.
        """
        assert self.line is not None
        if not (self.runs_on and end == "head"):
            return self.line.mate_plane(face)
        other = self.line.other if face is self.line.own else self.line.own
        side = self.line.mate_plane(other)
        return CutPlane(side.normal, side.level_in, "valley cheek", "head")

    @property
    def low_in(self) -> float:
        """The lower of both ends' positions [inches]."""
        return min(self.foot_in, self.head_in)

    @property
    def high_in(self) -> float:
        """The higher of both ends' positions [inches]."""
        return max(self.foot_in, self.head_in)

    def run_in(self, face: Face, position_in: float) -> float:
        """Level run from the face's building line to it at a position [inches]."""
        if self.line is None:
            return self.level_run_in
        return self.line.run_in(face, position_in)

    def inside(self, position_in: float) -> float:
        """The nearest position well within its stretch."""
        shy = min(SHY_IN, (self.high_in - self.low_in) / 4)
        return min(max(position_in, self.low_in + shy), self.high_in - shy)


@dataclass(frozen=True)
class Span:
    """A stretch of a face straight up the slope at one position: from `foot_in` to `head_in` run.

    `foot` is None at the eave.
    """

    foot_in: float
    head_in: float
    foot: Bound | None
    head: Bound | None


@dataclass(frozen=True)
class Rail:
    """One piece of a face with what bounds it, and the measures for laying out its rafters.

    Positions are the face's; the rail runs from `start_in` over `length_in`. The hips at its
    start and end reach their tops `start_hip_in` and `end_hip_in` in, 0 where there is none.
    `eaves` are its stretches with a wall under them.
    """

    plane: int
    face: Face
    area: BaseGeometry
    start_in: float
    length_in: float
    start_hip_in: float
    end_hip_in: float
    eaves: tuple[tuple[float, float], ...]
    bounds: tuple[Bound, ...]

    def spans(self, position_in: float) -> tuple[Span, ...]:
        """The stretches of the face at a position, from the eave up."""
        here: list[tuple[float, Bound | None]] = [
            (bound.run_in(self.face, position_in), bound)
            for bound in self.bounds
            if bound.low_in - SAME_IN <= position_in <= bound.high_in + SAME_IN
            and bound.high_in - bound.low_in > NEAR_IN
        ]
        if any(a - SAME_IN <= position_in <= b + SAME_IN for a, b in self.eaves):
            here.append((0.0, None))
        here.sort(key=lambda each: each[0])
        found = []
        for (low, foot), (high, head) in pairwise(here):
            middle = self.face.on_eave(position_in, (low + high) / 2)[:2]
            if high - low > NEAR_IN and self.area.distance(shapely.Point(middle)) < NEAR_IN:
                found.append(Span(low, high, foot, head))
        return tuple(found)


def rails(
    roof: RoofLines,
    faces: dict[int, Face],
    lines: dict[int, Carrier],
    carried: Sequence[Supporting] = (),
) -> tuple[Rail, ...]:
    """A rail for every piece of every face; `lines` are carriers by their roof line's index.

    `carried` are valleys that run on inside a face and bound its rafters there on both sides.
    """
    way = ways_to_count(roof)
    return tuple(
        _rail(roof, k, part, faces[k], lines, way[k], carried)
        for k in roof.eave_planes
        for part in shapely.get_parts(roof.areas[k])
    )


def ways_to_count(roof: RoofLines) -> dict[int, Array]:
    """For every eave plane the unit plan vector in which its rail counts (2,)."""
    group = {k: k for k in roof.eave_planes}
    for line in roof.lines:
        if line.kind == "ridge":  # its planes are eaves': else it were a rake or a top
            low, high = sorted((group[line.left], group[line.right]))
            group = {k: low if g == high else g for k, g in group.items()}
    found = {}
    for first in dict.fromkeys(group.values()):
        plane = roof.planes[first]
        way = np.array([plane.inward[1], -plane.inward[0]])
        members = [k for k, g in group.items() if g == first]
        if _valleys(roof, members, way) < _valleys(roof, members, -way):
            way = -way
        found.update(dict.fromkeys(members, way))
    return found


def _eave_ends(roof: RoofLines, walls: Sequence[int], way: Array) -> list[tuple[float, int]]:
    """Positions of the corners at both ends of walls in one line, with the corners."""
    corners = roof.outline.corners
    ends = [c % len(corners) for wall in walls for c in (wall, wall + 1)]
    return [(float(corners[c] @ way), c) for c in ends]


def _valleys(roof: RoofLines, planes: Sequence[int], way: Array) -> int:
    """How many planes' walls end at a corner that points inward, on the far side along `way`."""
    ends = (max(_eave_ends(roof, roof.planes[k].walls, way))[1] for k in planes)
    return sum(roof.outline.points_in(corner) for corner in ends)


def _rail(
    roof: RoofLines,
    plane: int,
    part: BaseGeometry,
    face: Face,
    lines: dict[int, Carrier],
    way: Array,
    carried: Sequence[Supporting],
) -> Rail:
    zero = float(face.origin[:2] @ way)
    walls = [wall for wall in roof.planes[plane].walls if _beside(roof, wall, part)]
    ends = [(at - zero, corner) for at, corner in _eave_ends(roof, walls, way)]
    reach = shapely.get_coordinates(part) @ way - zero
    (first_at, first), (last_at, last) = min(ends), max(ends)
    start = float(reach.min()) if roof.outline.points_in(first) else first_at
    stop = float(reach.max()) if roof.outline.points_in(last) else last_at
    bounds, tops = [], {}
    for k, line in enumerate(roof.lines):
        if plane not in (line.left, line.right) or line.kind in ("rake", "break"):
            continue
        foot, head = (float(p @ way) - zero for p in (line.foot, line.head))
        if line.kind == "hip" and line.corner is not None:
            tops[line.corner] = head
        run = float(line.foot @ face.inward[:2]) - roof.planes[plane].level_in
        bounds.append(Bound(lines.get(k), foot, head, line.corner is not None, run))
    for each in carried:
        if each.inside == plane:
            foot, head = (float(p @ way) - zero for p in (each.turn, each.head))
            bounds.append(Bound(lines[each.line], foot, head, False, runs_on=True))
    return Rail(
        plane, face, part, start, stop - start,
        max(0.0, tops.get(first, start) - start),
        max(0.0, stop - tops.get(last, stop)),
        tuple(_eave_of(roof, wall, way, zero) for wall in walls), tuple(bounds),
    )  # fmt: skip


def _beside(roof: RoofLines, wall: int, part: BaseGeometry) -> bool:
    """Whether a wall carries this part of its plane."""
    corners = roof.outline.corners
    middle = (corners[wall] + corners[(wall + 1) % len(corners)]) / 2
    return float(part.distance(shapely.Point(middle))) < NEAR_IN


def _eave_of(roof: RoofLines, wall: int, way: Array, start: float) -> tuple[float, float]:
    corners = roof.outline.corners
    one, two = (float(corners[c % len(corners)] @ way) - start for c in (wall, wall + 1))
    return min(one, two), max(one, two)


def origin_of(roof: RoofLines, plane: int, way: Array) -> Array:
    """Where a plane's rail begins (3,): the corner at its start, or, where that points inward,
    the foot on its building line of what reaches farthest back."""
    at, corner = min(_eave_ends(roof, roof.planes[plane].walls, way))
    point = roof.outline.corners[corner]
    if roof.outline.points_in(corner):
        back = float((shapely.get_coordinates(roof.areas[plane]) @ way).min())
        point = point + (back - at) * way
    return at_height(point)
