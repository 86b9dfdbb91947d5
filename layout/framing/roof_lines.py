"""The roof over an outline: its planes, and the lines in which they meet, in plan and height.

World plan axes as in `walls`; heights are over the level eave line, where every eave's plane
passes over the outside of its wall. Walls that lie in one line and carry one pitch share one
plane. On a convex outline the roof is the least of the walls' planes at every plan point; where
corners point inward the level line that climbs (`level_line`) says which plane lies where.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from layout.errors import FrameError
from layout.framing.level_line import SAME_IN, SweptRoof, Trace, WallSide, climb
from layout.framing.walls import Outline, WallKind
from layout.quantity import Pitch
from layout.vector import Array, angle_deg

RoofLineKind = Literal["hip", "valley", "ridge", "rake", "top", "break"]
"""A rake is the roof's edge over a gable, a top its edge over a high wall, a break a level line
below which a roof is of another pitch than above."""
GRID_IN = 1e-7


@dataclass(frozen=True)
class RoofPlane:
    """The plane over one or more walls in a line; `inward` (2,) and n.p = `level_in` at the wall.

    A plumb wall (gable, high) is kept among them with no pitch, as the edge of other planes.
    """

    name: str
    walls: tuple[int, ...]
    kind: WallKind
    pitch: Pitch | None
    inward: Array
    level_in: float

    @property
    def slope(self) -> float:
        """Rise on a level run of 1; raises FrameError for a plumb wall."""
        if self.pitch is None:
            raise FrameError(f"{self.name} is a {self.kind} and carries no roof of its own")
        return self.pitch.rise / self.pitch.run

    def height_in(self, points: Array) -> Array:
        """Height of the plane over the eave line at plan points (..., 2) [inches] (...)."""
        height: Array = self.slope * (points @ self.inward - self.level_in)
        return height


@dataclass(frozen=True)
class RoofLine:
    """A line in which two planes meet, from its `foot` up to its `head` (plan points (2,)).

    `left` and `right` are the planes at the left and the right hand of someone who looks from
    foot to head. `corner` is the corner of the walls where it starts, None where it starts from
    other lines. `interior_deg` is the angle inside the building between the two planes' walls:
    below 180 at a hip, above at a valley, 180 at a ridge over like-lying walls.
    """

    kind: RoofLineKind
    left: int
    right: int
    foot: Array
    head: Array
    foot_height_in: float
    head_height_in: float
    corner: int | None
    interior_deg: float

    @property
    def run_in(self) -> float:
        """Level length [inches]."""
        return float(np.hypot(*(self.head - self.foot)))

    @property
    def length_in(self) -> float:
        """Length along the line [inches]."""
        return float(np.hypot(self.run_in, self.head_height_in - self.foot_height_in))

    @property
    def slope_deg(self) -> float:
        """Slope above level [degrees]."""
        return float(angle_deg(self.head_height_in - self.foot_height_in, self.run_in))

    @property
    def way(self) -> Array:
        """Unit plan vector from foot to head (2,)."""
        step: Array = self.head - self.foot
        way: Array = step / np.hypot(*step)
        return way

    @property
    def sloping_ridge(self) -> bool:
        """A line between two falling planes that starts from no corner, and is not level."""
        return self.kind == "hip" and self.corner is None


@dataclass(frozen=True)
class RoofLines:
    """The roof over an outline: planes, lines, and each plane's plan area.

    `open_places` says where two answers are possible, both named.
    """

    outline: Outline
    planes: tuple[RoofPlane, ...]
    lines: tuple[RoofLine, ...]
    areas: tuple[BaseGeometry, ...]
    open_places: tuple[str, ...]

    @cached_property
    def eave_planes(self) -> tuple[int, ...]:
        """The planes that carry a roof, by index."""
        return tuple(k for k, plane in enumerate(self.planes) if plane.kind == "eave")

    def height_in(self, point: Array) -> float:
        """Height of the roof over a plan point (2,) inside the outline [inches]."""
        at = shapely.Point(point)
        near = min(self.eave_planes, key=lambda k: float(self.areas[k].distance(at)))
        return float(self.planes[near].height_in(point))

    @property
    def ridge_height_in(self) -> float:
        """The roof's highest point over the eave line [inches]."""
        return max(line.head_height_in for line in self.lines)

    @property
    def plan_area_in2(self) -> float:
        """The roof's level area [square inches]: the outline's."""
        return float(sum(self.areas[k].area for k in self.eave_planes))

    @property
    def roof_area_in2(self) -> float:
        """The roof's area along its slopes, without overhangs [square inches]."""
        return float(
            sum(self.areas[k].area * np.hypot(1.0, self.planes[k].slope) for k in self.eave_planes)
        )

    @property
    def volume_in3(self) -> float:
        """What lies between the roof and the level of the eave line [cubic inches].

        A plane's mean height over its area is its height over the area's centroid.
        """
        total = 0.0
        for k in self.eave_planes:
            middle = self.areas[k].centroid
            total += self.areas[k].area * float(
                self.planes[k].height_in(np.array([middle.x, middle.y]))
            )
        return total


def roof_lines(outline: Outline, *, steeper_goes_on: bool = False) -> RoofLines:
    """Find the planes over an outline and the lines in which they meet.

    Raises FrameError where a plumb wall stands at a corner that points inward, where walls in
    one line carry unlike roofs, and where the roof never closes.
    """
    _check_plumb_walls(outline)
    planes, of_wall = _planes(outline)
    loop = [of_wall[k] for k in range(len(of_wall)) if of_wall[k] != of_wall[k - 1]]
    sides = [
        WallSide(p.name, p.inward, p.level_in, 0.0 if p.pitch is None else 1.0 / p.slope)
        for p in planes
    ]
    swept = climb(sides, loop, steeper_goes_on=steeper_goes_on)
    lines = [_line(outline, planes, trace) for trace in _joined(swept)]
    areas = tuple(_area(swept.areas.get(k, [])) for k in range(len(planes)))
    open_places = tuple(dict.fromkeys(swept.open_places))
    return RoofLines(outline, planes, tuple(sorted(lines, key=_order)), areas, open_places)


def _check_plumb_walls(outline: Outline) -> None:
    walls = outline.walls
    if all(wall.kind != "eave" for wall in walls):
        raise FrameError("no wall of these is an eave, so no roof stands on them; give one a pitch")
    for k, wall in enumerate(walls):
        for corner, end in ((k, "begins"), ((k + 1) % len(walls), "ends")):
            if wall.kind != "eave" and outline.points_in(corner):
                raise FrameError(
                    f"{wall.name} is a {wall.kind} and {end} at a corner that points into the"
                    " building, where the roof beside it would pass over it;"
                    " give it an eave with a pitch"
                )


def _planes(outline: Outline) -> tuple[tuple[RoofPlane, ...], list[int]]:
    """Each wall's plane, one for walls in a line with one pitch, and the plane of every wall."""
    found: list[RoofPlane] = []
    of_wall: list[int] = []
    for k, wall in enumerate(outline.walls):
        inward = outline.inward[k]
        level = float(outline.corners[k] @ inward)
        for j, plane in enumerate(found):
            in_line = (
                float(plane.inward @ inward) > 1 - 1e-12 and abs(plane.level_in - level) < SAME_IN
            )
            if in_line and plane.kind == wall.kind and _slope(plane.pitch) == _slope(wall.pitch):
                found[j] = RoofPlane(
                    plane.name, (*plane.walls, k), wall.kind, plane.pitch, plane.inward,
                    plane.level_in,
                )  # fmt: skip
                of_wall.append(j)
                break
        else:
            of_wall.append(len(found))
            found.append(RoofPlane(wall.name, (k,), wall.kind, wall.pitch, inward, level))
    for k, j in enumerate(of_wall):
        before = of_wall[k - 1]
        if j != before and float(found[j].inward @ found[before].inward) > 1 - 1e-12:
            raise FrameError(
                f"{outline.walls[k - 1].name} and {outline.walls[k].name} run on in one line with"
                " unlike roofs, and where one ends is not said; give both one kind and pitch"
            )
    return tuple(found), of_wall


def _slope(pitch: Pitch | None) -> float | None:
    return None if pitch is None else pitch.rise / pitch.run


def _joined(swept: SweptRoof) -> list[Trace]:
    """Pieces of one line end to end as one: two planes meet in one straight line."""
    left = list(swept.traces)
    joined: list[Trace] = []
    while left:
        trace = left.pop(0)
        grown = True
        while grown:
            grown = False
            for other in left:
                both = _end_to_end(trace, other)
                if both is not None:
                    trace, grown = both, True
                    left.remove(other)
                    break
        joined.append(trace)
    return joined


def _end_to_end(one: Trace, two: Trace) -> Trace | None:
    if (one.left, one.right) != (two.left, two.right):
        if (one.left, one.right) != (two.right, two.left) or not (one.level and two.level):
            return None
        two = Trace(two.right, two.left, two.end, two.start, two.end_in, two.start_in, True)
    if (one.level, one.step) != (two.level, two.step):
        return None
    for a, b in ((one, two), (two, one)):
        if float(np.abs(a.end - b.start).max()) < SAME_IN:
            return Trace(
                a.left, a.right, a.start, b.end, a.start_in, b.end_in, a.level, a.valley, a.step
            )
    return None


def _line(outline: Outline, planes: Sequence[RoofPlane], trace: Trace) -> RoofLine:
    left, right = planes[trace.left], planes[trace.right]
    kinds = {left.kind, right.kind}
    kind: RoofLineKind
    if trace.step:
        kind = "break"
    elif "high" in kinds and trace.level:
        kind = "top"
    elif kinds & {"gable", "high"}:
        kind = "rake"
    elif trace.level:
        kind = "ridge"
    else:
        kind = "valley" if trace.valley else "hip"
    near = np.abs(outline.corners - trace.start).max(axis=1)
    starts = int(near.argmin()) if near.min() < SAME_IN and trace.start_in == 0.0 else None
    sine = left.inward[0] * right.inward[1] - left.inward[1] * right.inward[0]
    turn = float(np.degrees(np.arctan2(sine, left.inward @ right.inward)))
    return RoofLine(
        kind, trace.left, trace.right, trace.start, trace.end, trace.start_in, trace.end_in,
        starts, 180.0 if trace.level else 180.0 - turn,
    )  # fmt: skip


def _area(quads: Sequence[Array]) -> BaseGeometry:
    """The union of a plane's plan quadrangles, joined on a grid far finer than any mark."""
    polygons = [shapely.set_precision(shapely.Polygon(quad).buffer(0), GRID_IN) for quad in quads]
    return shapely.simplify(shapely.union_all(polygons, grid_size=GRID_IN), 10 * GRID_IN)


def _order(line: RoofLine) -> tuple[int, int, float]:
    kinds = ("ridge", "hip", "valley", "top", "rake", "break")
    corner = line.corner if line.corner is not None else 1000
    return kinds.index(line.kind), corner, line.foot_height_in
