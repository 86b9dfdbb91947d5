"""A stick in the roof: a blank at its place in the world, less the wood beyond its cuts.

World: X, Y level, Z up, inches. On the board x = 0 is the stick's **datum**, on its top edge:
plumb over the building line where it stands on a plate, else over the line its foot was laid
to. Lengths are read along the top edge from there, as a tape hooked on the plumb line gives
them; with plumb cuts every line along the board gives the same.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import combinations, product

import numpy as np
import numpy.typing as npt
from shapely import MultiPoint

from layout.answer.question import Question, ask
from layout.cuts import End, Hand
from layout.plane.cut import ALONG, Cut, whole_section
from layout.plane.pose import Pose
from layout.quantity import Pitch
from layout.stock import Stock
from layout.vector import Array, cross

SAME_IN = 1e-8
"""Points nearer than this are one; a corner this far beyond a plane still lies on it."""
FLAT = 1e-6
"""Three planes whose unit normals span less than this meet in no point worth the name."""


@dataclass(frozen=True)
class CatalogueCut:
    """Where a plane stands in the catalogue: its cut, and the roof it is asked for in."""

    cut: str
    pitch: Pitch
    other_pitch: Pitch
    corner_deg: float
    end: End
    which: int = 0


@dataclass(frozen=True)
class CutPlane:
    """A cut's plane in the world: unit `normal` (3,) out of the kept wood, `level_in` = n.p.

    `says` names the cut, `end` where on the stick it is made. `asked` leads to its marks in the
    catalogue. `mate` is the stick it lies against, empty until the roof is put together, and
    where nothing stands there.
    """

    normal: Array
    level_in: float
    says: str
    end: End
    asked: CatalogueCut | None = None
    mate: str = ""

    def beyond_in(self, points: Array) -> Array:
        """How far points (..., 3) lie beyond the plane, in the waste [inches] (...)."""
        distance: Array = points @ self.normal - self.level_in
        return distance


def plane_at(
    normal: Array,
    point: Array,
    says: str,
    end: End,
    asked: CatalogueCut | None = None,
) -> CutPlane:
    """The plane with this unit normal through a point of the world, both (3,)."""
    return CutPlane(normal, float(normal @ point), says, end, asked)


WasteRegion = tuple[CutPlane, ...]
"""The wood that lies beyond every one of these planes goes: one plane for an end or a rip, two
for a notch or a hollow end, three for a notch round a corner."""


@dataclass(frozen=True)
class EndPoints:
    """An end's points on the top edge, along the board from the datum [inches].

    `long_in` is the point farthest out at this end, `short_in` the one farthest in, `centre_in`
    lies on the middle of the thickness.
    """

    centre_in: float
    long_in: float
    short_in: float


@dataclass(frozen=True)
class Stick:
    """A stick at its place: `origin` (3,) is where its right face, bottom edge and datum meet.

    `role` is its name in the trade, `face` the roof it belongs to, `name` its own. `on_plate`
    tells that its datum is the building line. `theoretical_in` is its length between centre
    lines, nothing taken off, from the datum.
    """

    name: str
    role: str
    face: str
    stock: Stock
    pose: Pose
    origin: Array
    removals: tuple[WasteRegion, ...]
    theoretical_in: float
    on_plate: bool = False

    @cached_property
    def pieces(self) -> tuple[tuple[Array, Array], ...]:
        """The solid as convex parts that overlap: normals (n, 3) and levels (n,), inside n.p <= d.

        Wood stays where it lies behind at least one plane of every removal; each choice of one
        plane a removal gives one part.
        """
        return tuple(self._behind(choice) for choice in product(*self.removals))

    @cached_property
    def blank(self) -> tuple[CutPlane, ...]:
        """The four long sides of the board: right and left face, bottom and top edge."""
        y, z = self.pose.left, self.pose.up
        far = self.origin + self.stock.thickness_in * y + self.stock.depth_in * z
        return (
            plane_at(-y, self.origin, "right face", "foot"),
            plane_at(y, far, "left face", "foot"),
            plane_at(-z, self.origin, "bottom edge", "foot"),
            plane_at(z, far, "top edge", "foot"),
        )

    def _behind(
        self, planes: Sequence[CutPlane], beyond: Sequence[CutPlane] = ()
    ) -> tuple[Array, Array]:
        """The board behind some planes and beyond others, as normals and levels."""
        kept = [*self.blank, *planes]
        normals = [plane.normal for plane in kept] + [-plane.normal for plane in beyond]
        levels = [plane.level_in for plane in kept] + [-plane.level_in for plane in beyond]
        return np.array(normals), np.array(levels)

    @cached_property
    def part_corners(self) -> tuple[Array, ...]:
        """Corners of each convex part in the world, (k, 3) each; empty parts are left out."""
        found = (convex_corners(*part) for part in self.pieces)
        return tuple(points for points in found if len(points) >= 4)

    @property
    def corners(self) -> Array:
        """Every corner of the convex parts in the world (k, 3) [inches]."""
        if not self.part_corners:
            return np.empty((0, 3))
        corners: Array = np.concatenate(self.part_corners)
        return corners

    @property
    def exists(self) -> bool:
        """False where the cuts leave no wood."""
        return bool(self.part_corners)

    @cached_property
    def planes(self) -> tuple[CutPlane, ...]:
        """Every plane that shapes this stick: those on which a surface of it lies."""
        seen = (plane for removal in self.removals for plane in removal)
        return tuple(plane for plane in seen if self.surfaces(plane))

    def surfaces(self, plane: CutPlane) -> tuple[Array, ...]:
        """The convex polygons, each (k, 3) and going round, in which a surface lies on a plane.

        `plane` is one of the removals' or of `blank`. A removal's surface is where the wood
        behind this plane lies beyond all its other planes: in a notch, each up to the corner.
        Polygons may overlap; one without area (an edge that only touches) is left out.
        """
        if id(plane) not in self._drawn:
            self._drawn[id(plane)] = plane, self._surfaces(plane)
        return self._drawn[id(plane)][1]

    @cached_property
    def _drawn(self) -> dict[int, tuple[CutPlane, tuple[Array, ...]]]:
        """Surfaces already found, by their plane's identity, each with its plane to keep it."""
        return {}

    def _surfaces(self, plane: CutPlane) -> tuple[Array, ...]:
        own = next((r for r in self.removals if any(p is plane for p in r)), (plane,))
        rest = [removal for removal in self.removals if removal is not own]
        others = [p for p in own if p is not plane]
        polygons = []
        for choice in product(*rest):
            points = convex_corners(*self._behind([*choice, plane], others))
            on = points[np.abs(plane.beyond_in(points)) <= SAME_IN]
            if 3 <= len(on) < len(points):  # else the part is flat, and holds no wood
                polygon = _going_round(on, plane.normal)
                if polygon_area(polygon) > SAME_IN:
                    polygons.append(polygon)
        return tuple(polygons)

    def in_board(self, points: Array) -> Array:
        """World points (..., 3) in board axes from the datum [inches]."""
        return self.pose.to_board(points - self.origin)

    def cut(self, plane: CutPlane) -> Cut:
        """One of the planes in board axes, over the whole section."""
        normal = self.pose.to_board(plane.normal)
        on_plane = self.origin - float(plane.beyond_in(self.origin)) * plane.normal
        return Cut(normal, self.in_board(on_plane), whole_section(self.stock))

    def hand(self, plane: CutPlane) -> Hand | None:
        """The side to which a plane's cheek faces; None where it runs square across."""
        side = float(self.pose.left @ plane.normal)
        if abs(side) <= FLAT:
            return None
        return Hand.LEFT if side > 0 else Hand.RIGHT

    def question(self, plane: CutPlane) -> Question | None:
        """The catalogue's question about one of the planes, to print its marks and template."""
        if plane.asked is None:
            return None
        asked = plane.asked
        first = plane if asked.which == 0 else self._first_of(asked.cut)
        return ask(
            asked.cut,
            pitch=asked.pitch,
            other_pitch=asked.other_pitch,
            corner_deg=asked.corner_deg,
            hand=self.hand(first) or Hand.LEFT,
            stock=self.stock,
            end=asked.end,
        )

    def _first_of(self, cut: str) -> CutPlane:
        """The plane whose cheek names the hand of a cut of two planes."""
        every = (plane for removal in self.removals for plane in removal)
        return next(p for p in every if p.asked and p.asked.cut == cut and p.asked.which == 0)

    @property
    def plan_outline(self) -> Array:
        """The stick seen from above, as a convex outline that goes round (k, 2) [inches]."""
        hull = MultiPoint(self.corners[:, :2]).convex_hull
        return np.array(hull.exterior.coords)[:-1]

    @cached_property
    def blank_in(self) -> float:
        """The length of board this stick takes: its corners' whole reach along it [inches]."""
        along = self.in_board(self.corners)[:, 0]
        return float(along.max() - along.min())

    def line_ends(self, y_in: float) -> tuple[float, float]:
        """Where the line at y on the top edge enters and leaves the wood, from the datum [inches].

        Rips do not end a line: it runs on the edge as it was before backing.
        """
        start = self.origin + y_in * self.pose.left + self.stock.depth_in * self.pose.up
        low, high = np.inf, -np.inf
        for normals, levels in self.pieces:
            speed, room = normals @ self.pose.head, levels - normals @ start
            ends = np.abs(speed) > ALONG
            crossing = room[ends] / speed[ends]
            enter = crossing[speed[ends] < 0].max(initial=-np.inf)
            leave = crossing[speed[ends] > 0].min(initial=np.inf)
            if enter < leave:
                low, high = min(low, float(enter)), max(high, float(leave))
        return low, high

    def end_points(self, end: End) -> EndPoints:
        """The centre, long point and short point of an end on the top edge."""
        ends = [self.line_ends(y) for y in self._lines]
        at = [high if end == "head" else low for low, high in ends]
        far, near = (max, min) if end == "head" else (min, max)
        return EndPoints(at[1], far(at), near(at))

    @property
    def tail_in(self) -> float:
        """What runs on below the building line, along the top edge, to its long point [inches]."""
        return -self.end_points("foot").long_in if self.on_plate else 0.0

    def measured(self) -> EndPoints:
        """Lengths along the top edge on the middle, the longest and the shortest line [inches].

        From the plumb line over the building line where the stick stands on a plate (the tail
        is extra), else from cut to cut on the same line.
        """
        ends = [self.line_ends(y) for y in self._lines]
        lengths = [high if self.on_plate else high - low for low, high in ends]
        return EndPoints(lengths[1], max(lengths), min(lengths))

    @cached_property
    def _lines(self) -> tuple[float, ...]:
        """Lines across the thickness on which a long or a short point can lie [inches]."""
        thickness = self.stock.thickness_in
        lines = [0.0, thickness / 2, thickness]
        cuts = [self.cut(plane) for removal in self.removals for plane in removal]
        ending = [cut for cut in cuts if not bool(cut.runs_along)]
        for one, other in combinations(ending, 2):
            turn = float(one.left_lean - other.left_lean)
            if abs(turn) > FLAT:
                depth = self.stock.depth_in
                y = float(other.x_at(0.0, depth) - one.x_at(0.0, depth)) / turn
                if 0 < y < thickness:
                    lines.append(y)
        return tuple(lines)


@cache
def _threes(count: int) -> tuple[npt.NDArray[np.intp], ...]:
    return tuple(np.array(list(combinations(range(count), 3)), dtype=np.intp).T)


def convex_corners(normals: Array, levels: Array) -> Array:
    """Corners (k, 3) of the convex solid behind all planes n.p <= d; normals (n, 3), levels (n,).

    Every three planes meet in a point or not at all; a corner is such a point behind all:
    p = (d1 n2xn3 + d2 n3xn1 + d3 n1xn2) / (n1.n2xn3).
    """
    one, two, three = _threes(len(levels))
    crossed = cross(normals[:, None, :], normals[None, :, :])
    spanned = np.einsum("ij,ij->i", normals[one], crossed[two, three])
    meet = np.abs(spanned) > FLAT
    one, two, three, spanned = one[meet], two[meet], three[meet], spanned[meet]
    points: Array = (
        levels[one, None] * crossed[two, three]
        + levels[two, None] * crossed[three, one]
        + levels[three, None] * crossed[one, two]
    ) / spanned[:, None]
    inside = points[np.all(points @ normals.T <= levels + SAME_IN, axis=1)]
    apart = np.abs(inside[:, None, :] - inside[None, :, :]).max(axis=-1) > SAME_IN
    first = np.all(apart | ~np.tri(len(inside), k=-1, dtype=bool), axis=1)
    return inside[first]


def polygon_area(polygon: Array) -> float:
    """Area of a plane polygon (k, 3) that goes round [square inches]."""
    spokes = polygon - polygon[0]
    total: Array = cross(spokes[1:-1], spokes[2:]).sum(axis=0)
    return float(np.linalg.norm(total)) / 2


def _going_round(points: Array, normal: Array) -> Array:
    """The points of a convex polygon put in order round their middle."""
    middle = points.mean(axis=0)
    first = points[np.argmax(np.linalg.norm(points - middle, axis=1))] - middle
    second = cross(normal, first)
    turn = np.arctan2((points - middle) @ second, (points - middle) @ first)
    ordered: Array = points[np.argsort(turn)]
    return ordered
