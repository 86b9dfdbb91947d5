"""Hips, valleys and ridges: sticks that stand plumb under the line in which two roofs meet."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

import numpy as np

from layout.answer.question import SHARPEST_DEG
from layout.framing.face import Face
from layout.framing.stick import CatalogueCut, CutPlane, Stick, WasteRegion, plane_at
from layout.length.drop import CarrierTop
from layout.length.seat import CarrierSeat
from layout.plane.corner import Corner
from layout.plane.pose import Pose, lay
from layout.stock import Stock
from layout.vector import Array, Z, cross, unit, vector

CarrierKind = Literal["hip", "valley", "ridge"]


@dataclass(frozen=True)
class Carrier:
    """The line in which the `own` and the `other` roof meet, and the stick that stands under it.

    `foot` (3,) is the plan point from which it is measured: the corner of the building, or a
    ridge's datum. It runs along `toward` (3,), any level vector on the line's head side.
    """

    name: str
    kind: CarrierKind
    own: Face
    other: Face
    corner_deg: float
    foot: Array
    toward: Array
    stock: Stock
    top: CarrierTop

    @property
    def faces(self) -> tuple[Face, Face]:
        """The own and the other roof."""
        return self.own, self.other

    @cached_property
    def direction(self) -> Array:
        """Unit vector along the line to its head (3,): square to both roofs' normals."""
        along = unit(cross(self.own.normal, self.other.normal))
        return along if float(along @ self.toward) > 0 else -along

    @cached_property
    def plan_line(self) -> Array:
        """Unit level vector along the line (3,)."""
        return unit(vector(self.direction[0], self.direction[1], 0.0))

    @property
    def pose(self) -> Pose:
        """The stick stands plumb along the line."""
        return lay(self.direction, Z)

    def aside(self, face: Face) -> Array:
        """Unit level vector from the line to a face's side of it (3,).

        There the face's own plane is the lower one at a hip or ridge, the higher at a valley.
        """
        square = vector(-self.plan_line[1], self.plan_line[0], 0.0)
        # Square to the line lies the difference a i - b j of both climbs, a and b the slopes. For
        # which side is higher i - j will do: (i - j)(a i - b j) = (a + b)(1 - ij) is above 0.
        higher = float((self.own.inward - self.other.inward) @ square) > 0
        own_side = square if higher == (self.kind == "valley") else -square
        return own_side if face is self.own else -own_side

    def side_in(self, face: Face) -> float:
        """Level distance from the line to the stick's face on that side [inches]."""
        return self.top.own_side_in if face is self.own else self.top.other_side_in

    def near_point(self, face: Face) -> Array:
        """A plan point on the stick's face on that side (3,)."""
        return self.foot + self.side_in(face) * self.aside(face)

    def run_in(self, face: Face, position_in: float) -> float:
        """Level run from a face's building line to the line, at a position on its eave [inches].

        Both cross where on_eave + run * inward + u * plan_line = foot.
        """
        ways = np.stack([face.inward[:2], self.plan_line[:2]], axis=1)
        start = face.on_eave(position_in)[:2]
        return float(np.linalg.solve(ways, self.foot[:2] - start)[0])

    def length_to(self, apex: Array) -> float:
        """Theoretical length along the line from its foot to a plan point on it [inches]."""
        run = float((apex - self.foot) @ self.plan_line)
        return run / float(np.hypot(*self.direction[:2]))

    def mate_plane(self, face: Face) -> CutPlane:
        """The plane in which a rafter of this face ends on the stick."""
        other = self.other if face is self.own else self.own
        cut, end = _RAFTER_CUT[self.kind]
        asked: CatalogueCut | None = None
        if self.kind == "ridge":
            asked = CatalogueCut(cut, face.pitch, face.pitch, 90.0, end)
        elif self.in_catalogue:
            asked = CatalogueCut(cut, face.pitch, other.pitch, self.corner_deg, end)
        return plane_at(-self.aside(face), self.near_point(face), cut, end, asked)

    def corner(self) -> Corner:
        """The two faces as a corner of the catalogue."""
        return Corner(self.own.pitch.slope_deg, self.other.pitch.slope_deg, self.corner_deg)

    def height_in(self, point: Array) -> float:
        """Height of the line itself over a plan point on it [inches]."""
        own, _ = self.faces  # the other is as high there
        return float(own.lifted(point)[2])

    def stick(
        self, removals: Sequence[WasteRegion], theoretical_in: float, role: str, on_plate: bool
    ) -> Stick:
        """The stick with these cuts, pruned of those that touch no wood.

        Its datum lies plumb over `foot`, its top edge `lowered_in` under the line.
        """
        pose = self.pose
        own_at_left = float(self.aside(self.own) @ pose.left) > 0
        right = self.top.other_side_in if own_at_left else self.top.own_side_in
        middle = vector(self.foot[0], self.foot[1], self.height_in(self.foot) - self.top.lowered_in)
        origin = middle - right * pose.left - self.stock.depth_in * pose.up
        whole = Stick(
            self.name,
            role,
            f"{self.own.name} / {self.other.name}",
            self.stock,
            pose,
            origin,
            tuple(removals),
            theoretical_in,
            on_plate,
        )
        return pruned(whole)

    # the cuts of a hip or valley ---------------------------------------------------------------

    def ridge_head(self, ridge: "Carrier", face: Face) -> WasteRegion:
        """The cheek on the side of a ridge that runs level with one of the two faces' eaves."""
        side = ridge.mate_plane(face)
        other = self.other if face is self.own else self.own
        cut = f"{self.kind}-ridge" if self.kind == "valley" else "hip-ridge-single"
        asked = CatalogueCut(cut, face.pitch, other.pitch, self.corner_deg, "head")
        return (CutPlane(side.normal, side.level_in, cut, "head", asked),)

    def tail_removals(self) -> tuple[WasteRegion, ...]:
        """The tail behind the corner of both fascias: a point at a hip, hollow at a valley."""
        cut = f"{self.kind}-tail"
        planes = tuple(
            plane_at(
                -face.inward,
                face.origin - face.tail_run_in * face.inward,
                cut,
                "foot",
                self.ask(cut, i),
            )
            for i, face in enumerate((self.own, self.other))
        )
        return (planes,) if self.kind == "valley" else tuple((plane,) for plane in planes)

    def seat_removals(self, seat: CarrierSeat) -> tuple[WasteRegion, ...]:
        """The bird's mouth on the corner of the plates, whole or clipped."""
        cut = f"{self.kind}-seat"
        level = plane_at(-Z, 0 * Z, cut, "foot", self.ask(cut))
        heel = f"{self.kind} heel"
        if seat.plate_corner == "clipped":
            at = self.foot + seat.centre_heel_in * self.plan_line
            return ((level, plane_at(self.plan_line, at, heel, "foot")),)
        own, other = (
            plane_at(face.inward, self.foot, heel, "foot", self.ask(cut, i))
            for i, face in enumerate((self.own, self.other), start=1)
        )
        return ((level, own), (level, other)) if self.kind == "valley" else ((level, own, other),)

    def rip_removals(self) -> tuple[WasteRegion, ...]:
        """The top edge ripped into both roofs, where its way asks for it."""
        if self.top.way not in ("backed", "hollowed"):
            return ()
        cut = f"{self.kind}-backing"
        planes = tuple(
            plane_at(face.normal, face.lifted(face.origin), cut, "foot", self.ask(cut, i))
            for i, face in enumerate((self.own, self.other))
        )
        return (planes,) if self.kind == "valley" else tuple((plane,) for plane in planes)

    @property
    def in_catalogue(self) -> bool:
        """Whether the catalogue has a corner as sharp as the two roofs' walls make."""
        return SHARPEST_DEG <= self.corner_deg <= 360.0 - SHARPEST_DEG

    def ask(self, cut: str, plane_index: int = 0) -> CatalogueCut | None:
        """Where one of this stick's own cuts stands in the catalogue, None where it has none."""
        if not self.in_catalogue:
            return None
        end: Literal["head", "foot"] = "head" if "ridge" in cut else "foot"
        return CatalogueCut(
            cut, self.own.pitch, self.other.pitch, self.corner_deg, end, plane_index
        )


_RAFTER_CUT: dict[str, tuple[str, Literal["head", "foot"]]] = {
    "hip": ("hip-jack", "head"),
    "valley": ("valley-jack", "foot"),
    "ridge": ("common-ridge", "head"),
}


def ridge_top(own: Face, other: Face, stock: Stock) -> CarrierTop:
    """A ridge lowered until neither arris of its square top edge stands out of its roof.

    Under like roofs both arrises lie in them, else that under the steeper.
    """
    half = stock.thickness_in / 2
    return CarrierTop(
        "dropped",
        stock.thickness_in,
        half,
        half,
        half * max(own.slope, other.slope),
        own.pitch.slope_deg,
        other.pitch.slope_deg,
    )


def pruned(stick: Stick) -> Stick:
    """The stick without the cuts that leave no surface on it."""
    kept = tuple(
        removal for removal in stick.removals if any(stick.surfaces(plane) for plane in removal)
    )
    return stick if len(kept) == len(stick.removals) else replace(stick, removals=kept)
