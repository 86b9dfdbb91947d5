"""The end of a ridge where two hips come up: their heads, the ridge's end and the end common."""

from dataclasses import dataclass

import numpy as np

from layout.cuts import End
from layout.framing.carrier import Carrier
from layout.framing.face import Face
from layout.framing.roof_plan import HipHead
from layout.framing.stick import CatalogueCut, CutPlane, WasteRegion, plane_at
from layout.stock import Stock
from layout.vector import Array


@dataclass(frozen=True)
class HipEnd:
    """A ridge that ends over `apex` (3,), the plan point in which its hips' lines meet.

    `outward` (3,) is the unit level vector from the ridge to the end. `hips` are one or two
    lines, each with a main face as own and the end's face as other.
    """

    apex: Array
    outward: Array
    end_face: Face
    ridge: Carrier
    rafter: Stock
    hips: tuple[Carrier, ...]
    head: HipHead

    @property
    def ridge_end_in(self) -> float:
        """How far the ridge runs on past the apex [inches].

        Between commons it ends flush with the side commons; else it carries both hips' cheeks,
        to where their outer faces reach its sides.
        """
        if self.head == "commons":
            return self.rafter.thickness_in / 2
        return max(self._cheek_end_in(hip) for hip in self.hips)

    def ridge_removals(self) -> tuple[WasteRegion, ...]:
        """The ridge's square end, and its top ripped under the end's roof."""
        end = self.apex + self.ridge_end_in * self.outward
        face = self.end_face
        which: End = "head" if float(self.outward @ self.ridge.direction) > 0 else "foot"
        return (
            (plane_at(self.outward, end, "square end", which),),
            (plane_at(face.normal, face.lifted(face.origin), "ridge bevel", which),),
        )

    def hip_heads(self, hip: Carrier) -> tuple[WasteRegion, ...]:
        """The head of one of the hips: two cheeks between commons, or one on the ridge."""
        if self.head == "ridge":
            return (hip.ridge_head(self.ridge, hip.own),)
        half = self.rafter.thickness_in / 2
        along_end = hip.own.inward  # the end wall runs square to the main walls
        own = plane_at(
            -self.outward,
            self.apex + half * self.outward,
            "hip-ridge",
            "head",
            hip.ask("hip-ridge", 0),
        )
        other = plane_at(
            along_end,
            self.apex - half * along_end,
            "hip-ridge",
            "head",
            hip.ask("hip-ridge", 1),
        )
        return ((own,), (other,))

    def end_common_heads(self) -> tuple[CutPlane, ...]:
        """The head planes of the end common: the ridge's end, and the hips it stands between."""
        face = self.end_face
        asked = CatalogueCut("common-ridge", face.pitch, face.pitch, 90.0, "head")
        end = self.apex + self.ridge_end_in * self.outward
        flush = plane_at(face.inward, end, "common-ridge", "head", asked)
        if self.head == "commons":
            return (flush,)
        return (flush, *(hip.mate_plane(face) for hip in self.hips))

    def _cheek_end_in(self, hip: Carrier) -> float:
        """How far past the apex a hip's outer face reaches the ridge's side [inches]."""
        side = self.apex - self.ridge.stock.thickness_in / 2 * hip.own.inward
        ways = np.stack([self.outward[:2], hip.plan_line[:2]], axis=1)
        start = hip.near_point(self.end_face)[:2] - side[:2]
        return float(np.linalg.solve(ways, start)[0])
