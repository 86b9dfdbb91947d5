"""Where lines of a roof meet: how the sticks that end there are cut to one another.

Two rules. At the **square end of a ridge**, where two hips of one end wall come up, `HipEnd`
holds: between commons, or with one cheek on the ridge's side. Everywhere else **each stick comes
to a point between its neighbors**: seen from above, two neighbors' facing sides cross in a
point Q, and the plumb plane through Q and the meeting point C ends them both. All these planes
pass through C, so the sticks fill the whole round without gap or overlap; with sticks of one
thickness the plane halves the angle between them. A stick whose line runs through is not cut,
and the others end on its side.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from layout.cuts import End
from layout.framing.carrier import Carrier
from layout.framing.stick import CutPlane, WasteRegion, plane_at
from layout.vector import Array, at_height

STRAIGHT = 1e-9
NEAR_STRAIGHT = 1e-6


@dataclass(frozen=True)
class StickEnd:
    """One end of a carrier at a meeting: `out` (2,) runs along it in plan, away from there."""

    line: Carrier
    end: End

    @property
    def out(self) -> Array:
        """Unit plan vector away from the meeting (2,)."""
        way: Array = self.line.plan_line[:2] * (1.0 if self.end == "foot" else -1.0)
        return way

    @property
    def heading(self) -> float:
        """The angle of `out`, counterclockwise from +X [radians]."""
        return float(np.arctan2(self.out[1], self.out[0]))

    def side_in(self, turn: float) -> float:
        """From the line to the stick's side at the left (turn 1) or right (-1) of `out`."""
        square = turn * np.array([-self.out[1], self.out[0]])
        own = float(self.line.aside(self.line.own)[:2] @ square) > 0
        return self.line.side_in(self.line.own if own else self.line.other)


@dataclass(frozen=True)
class Meeting:
    """A plan point `at` (3,) where lines meet: the stick ends there, and what runs through.

    `through` are carriers whose line passes the point, `walls` plumb walls' planes that stand
    there, as cuts with the normal out of the building.
    """

    at: Array
    ends: tuple[StickEnd, ...]
    through: tuple[Carrier, ...] = ()
    walls: tuple[tuple[Array, Array], ...] = ()

    def removals(self, mine: StickEnd) -> tuple[WasteRegion, ...]:
        """What ends one of the sticks here: planes to its neighbors, to what runs through, or to
        a plumb wall."""
        planes = [self._on_wall(mine, *wall) for wall in self.walls]
        planes += [self._on_side(mine, line) for line in self.through]
        alone: list[WasteRegion] = [(plane,) for plane in planes]
        return (*alone, *(self._to_neighbors(mine) if len(self.ends) > 1 else ()))

    def _on_wall(self, mine: StickEnd, outward: Array, point: Array) -> CutPlane:
        square = abs(float(outward[:2] @ mine.out)) > 1 - STRAIGHT
        says = "square end" if square else "wall end"
        return plane_at(outward, point, says, mine.end)

    def _on_side(self, mine: StickEnd, line: Carrier) -> CutPlane:
        face = next(f for f in line.faces if float(line.aside(f)[:2] @ mine.out) > 0)
        if mine.line.kind == "valley" and mine.end == "head" and face in mine.line.faces:
            return mine.line.ridge_head(line, face)[0]
        side = line.mate_plane(face)
        return CutPlane(side.normal, side.level_in, f"{mine.line.kind} end", mine.end)

    def _to_neighbors(self, mine: StickEnd) -> tuple[WasteRegion, ...]:
        """The planes to both neighbors: the wood lies behind both, or, where together they open
        by more than half a turn, behind either."""
        order = sorted(self.ends, key=lambda each: each.heading)
        at = order.index(mine)
        planes: list[CutPlane] = []
        opening = 0.0
        for step, turn in ((1, 1.0), (-1, -1.0)):
            other = order[(at + step) % len(order)]
            if self._parted(mine, other, turn):
                continue
            way = self._between(mine, other, turn)
            normal = turn * at_height(np.array([-way[1], way[0]]))
            planes.append(plane_at(normal, self.at, f"{mine.line.kind} miter", mine.end))
            heading = float(np.arctan2(way[1], way[0]))
            opening += (turn * (heading - mine.heading)) % (2 * np.pi)
        if len(planes) == 2 and float(planes[0].normal @ planes[1].normal) > 1 - STRAIGHT:
            planes.pop()
        if len(planes) == 2 and opening > np.pi:
            return (tuple(planes),)
        return tuple((plane,) for plane in planes)

    def _parted(self, mine: StickEnd, other: StickEnd, turn: float) -> bool:
        """Whether something that runs through lies between two neighbors."""
        gap = _gap(mine, other, turn)
        headings = []
        for line in self.through:
            along = line.plan_line[:2]
            headings += [float(np.arctan2(s * along[1], s * along[0])) for s in (1, -1)]
        return any(
            0 < (turn * (heading - mine.heading)) % (2 * np.pi) < gap for heading in headings
        )

    def _between(self, mine: StickEnd, other: StickEnd, turn: float) -> Array:
        """Unit plan vector from C toward the neighbors' common point Q (2,).

        mine: C + t out + side; other: C + s out' + side'; equal sides put Q on the halving line.
        """
        heading = mine.heading + turn * _gap(mine, other, turn) / 2
        halving: Array = np.array([np.cos(heading), np.sin(heading)])
        sides = mine.side_in(turn), other.side_in(-turn)
        ways = np.stack([mine.out, -other.out], axis=1)
        if abs(sides[0] - sides[1]) < STRAIGHT or abs(float(np.linalg.det(ways))) < NEAR_STRAIGHT:
            return halving
        left = turn * np.array([-mine.out[1], mine.out[0]])
        right = -turn * np.array([-other.out[1], other.out[0]])
        reach = float(np.linalg.solve(ways, sides[1] * right - sides[0] * left)[0])
        common: Array = reach * mine.out + sides[0] * left
        common /= np.hypot(*common)
        return common


def _gap(mine: StickEnd, other: StickEnd, turn: float) -> float:
    """The angle from one end's heading to another's, turning left (1) or right (-1) [radians].

    Two ends at one point have two headings, so it is never 0.
    """
    return float((turn * (other.heading - mine.heading)) % (2 * np.pi))


def meetings(
    lines: Sequence[Carrier],
    ends: dict[str, tuple[Array, Array]],
    walls: Iterable[tuple[Array, Array]],
) -> tuple[Meeting, ...]:
    """Every point where a carrier ends over the building, with what meets there.

    `ends` are each carrier's foot and head (3,), `walls` the plumb walls' outward normals and a
    point of each. A hip's or valley's foot over a corner of the walls is no meeting.
    """
    places: list[Array] = []
    at: dict[int, list[StickEnd]] = {}
    plumb = list(walls)
    for line in lines:
        tips: tuple[End, End] = ("foot", "head")
        for end, point in zip(tips, ends[line.name], strict=True):
            k = next((j for j, p in enumerate(places) if np.abs(p - point).max() < 1e-5), None)
            if k is None:
                k = len(places)
                places.append(point)
            at.setdefault(k, []).append(StickEnd(line, end))
    found = []
    for k, place in enumerate(places):
        here = {each.line.name for each in at[k]}
        through = tuple(
            line for line in lines if line.name not in here and _on(ends[line.name], place)
        )
        standing = tuple(w for w in plumb if abs(float((place - w[1]) @ w[0])) < 1e-5)
        found.append(Meeting(place, tuple(at[k]), through, standing))
    return tuple(found)


def _on(ends: tuple[Array, Array], place: Array) -> bool:
    """Whether a plan point lies inside a line's stretch."""
    way = (ends[1] - ends[0])[:2]
    long = float(np.hypot(*way))
    step = (place - ends[0])[:2]
    along = float(step @ way) / long
    off = abs(float(step[0] * way[1] - step[1] * way[0])) / long
    return off < 1e-5 and 1e-5 < along < long - 1e-5
