"""A stick in the roof: a blank at its place in the world, less the wood beyond its cuts.

World: X, Y level, Z up, inches. On the board x = 0 is the stick's **datum**, on its top edge:
plumb over the building line where it stands on a plate, else over the line its foot was laid
to. Lengths are read along the top edge from there, as a tape hooked on the plumb line gives
them; with plumb cuts every line along the board gives the same.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations

import numpy as np
from shapely import MultiPoint

from layout.answer.question import Question, ask
from layout.cuts import End, Hand
from layout.plane.cut import ALONG, Cut, whole_section
from layout.plane.pose import Pose
from layout.plane.solid import FLAT, Solid, beyond_in
from layout.quantity import Pitch
from layout.stock import Stock
from layout.vector import Array

NORMAL_DIGITS, LEVEL_DIGITS = 6, 5
"""Decimals in which the normals of like cuts agree, and their levels in inches."""
SAME_PLACE_IN = 1e-6
"""Cheeks that lie no farther apart than this are drawn in one place [inches]."""


@dataclass(frozen=True)
class CatalogueCut:
    """Where a plane stands in the catalogue: its cut, and the roof it is asked for in."""

    cut: str
    pitch: Pitch
    other_pitch: Pitch
    corner_deg: float
    end: End
    plane_index: int = 0


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
        return beyond_in(self, points)


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
    tells that its datum is the building line. `theoretical_in` is its length between center
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
    def solid(self) -> Solid[CutPlane]:
        """The board less its removals, in the world."""
        return Solid(self.blank, self.removals)

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

    def called(self, name: str, role: str) -> "Stick":
        """The same stick under a name and a role; what was found of its wood is kept."""
        again = replace(self, name=name, role=role)
        for found in ("blank", "solid", "planes"):
            if found in vars(self):
                vars(again)[found] = vars(self)[found]
        return again

    def against(self, mate_of: Callable[[CutPlane], str]) -> "Stick":
        """The same stick with each cut's `mate`; what was found of its wood is kept."""
        removals = tuple(
            tuple(replace(plane, mate=mate_of(plane)) for plane in removal)
            for removal in self.removals
        )
        again = replace(self, removals=removals)
        vars(again).update(blank=self.blank, solid=self.solid.with_planes(removals))
        return again

    @property
    def corners(self) -> Array:
        """Every corner of the convex parts in the world (k, 3) [inches]."""
        if not self.solid.part_corners:
            return np.empty((0, 3))
        corners: Array = np.concatenate(self.solid.part_corners)
        return corners

    @property
    def exists(self) -> bool:
        """False where the cuts leave no wood."""
        return bool(self.solid.part_corners)

    @cached_property
    def planes(self) -> tuple[CutPlane, ...]:
        """Every plane that shapes this stick: those on which a surface of it lies."""
        seen = (plane for removal in self.removals for plane in removal)
        return tuple(plane for plane in seen if self.surfaces(plane))

    def surfaces(self, plane: CutPlane) -> tuple[Array, ...]:
        """The convex polygons in which a surface lies on a plane, as `Solid.surfaces` has them."""
        return self.solid.surfaces(plane)

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
        left = ask(
            asked.cut,
            pitch=asked.pitch,
            other_pitch=asked.other_pitch,
            corner_deg=asked.corner_deg,
            hand=Hand.LEFT,
            stock=self.stock,
            end=asked.end,
        )
        return left if self._lies_as(left, plane) else replace(left, hand=Hand.RIGHT)

    def _lies_as(self, question: Question, plane: CutPlane) -> bool:
        """Whether a plane's cheek faces as in the question; of a square one, its joint's others.

        A level seat has no side: the heels of the same notch tell which way round it lies.
        """
        for one in (plane, *self._all_of(question)):
            if one.asked and (hand := self.hand(one)):
                return float(question.joint.normals[one.asked.plane_index][1]) * hand.sign > 0
        return True

    def _all_of(self, question: Question) -> list[CutPlane]:
        every = (plane for removal in self.removals for plane in removal)
        return [p for p in every if p.asked and p.asked.cut == question.entry.name]

    def drawn_true(self, question: Question, plane: CutPlane) -> bool:
        """Whether the catalogue's sheet has the cheeks of a plane's cut where this stick has them.

        A sheet slides along the board, and all cheeks with it. Where one would have to slide
        farther than another, they meet elsewhere across the thickness: on a hip that is shifted,
        or behind fascias and between commons of another thickness than the catalogue's.
        """
        slides = []
        for one in (plane, *(p for p in self._all_of(question) if p.asked != plane.asked)):
            if one.asked is None or self.hand(one) is None:
                continue
            joint, which = question.joint, one.asked.plane_index
            drawn = joint.planes[which].point_in(joint.normals[which], self.stock)
            cut = self.cut(one)
            apart = float(cut.normal @ (cut.point - drawn))
            along = float(cut.normal[0])
            slides.append(apart if joint.rip else apart / along)
        return max(slides, default=0.0) - min(slides, default=0.0) < SAME_PLACE_IN

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

    @cached_property
    def foot_reach_in(self) -> float:
        """How much board its foot takes below the datum, to its farthest corner [inches].

        More than the tail along the top edge where the tail's cut is plumb: its lower corner lies
        farther out.
        """
        return max(0.0, -float(self.in_board(self.corners)[:, 0].min()))

    def line_ends(self, y_in: float) -> tuple[float, float]:
        """Where the line at y on the top edge enters and leaves the wood, from the datum [inches].

        Rips do not end a line: it runs on the edge as it was before backing.
        """
        start = self.origin + y_in * self.pose.left + self.stock.depth_in * self.pose.up
        low, high = np.inf, -np.inf
        for normals, levels in self.solid.pieces:
            speed, room = normals @ self.pose.head, levels - normals @ start
            ends = np.abs(speed) > ALONG
            crossing = room[ends] / speed[ends]
            enter = crossing[speed[ends] < 0].max(initial=-np.inf)
            leave = crossing[speed[ends] > 0].min(initial=np.inf)
            if enter < leave:
                low, high = min(low, float(enter)), max(high, float(leave))
        return low, high

    def end_points(self, end: End) -> EndPoints:
        """The center, long point and short point of an end on the top edge."""
        ends = [self.line_ends(y) for y in self._lines]
        at = [high if end == "head" else low for low, high in ends]
        far, near = (max, min) if end == "head" else (min, max)
        return EndPoints(at[1], far(at), near(at))

    @property
    def tail_in(self) -> float:
        """What runs on below the building line, along the top edge, to its long point [inches].

        0 where a valley ends the stick before it comes there.
        """
        return max(0.0, -self.end_points("foot").long_in) if self.on_plate else 0.0

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
