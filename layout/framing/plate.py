"""Wall plates: flat boards whose outer edges are the building lines and whose tops are Z = 0."""

from collections.abc import Sequence

from layout.framing.carrier import pruned
from layout.framing.stick import CutPlane, Stick, WasteRegion, plane_at
from layout.plane.pose import lay
from layout.stock import Stock
from layout.vector import Array


def plate(
    name: str,
    start: Array,
    end: Array,
    inward: Array,
    stock: Stock,
    clips: Sequence[CutPlane] = (),
) -> Stick:
    """A plate along a wall from `start` to `end`, both (3,) on the building line at Z = 0.

    It lies flat, its depth inward; `clips` are cut off its corners.
    """
    length = float(((end - start) @ (end - start)) ** 0.5)
    along = (end - start) / length
    pose = lay(along, inward)
    top = start if float(pose.left[2]) < 0 else start - stock.thickness_in * pose.left
    removals: list[WasteRegion] = [
        (plane_at(-along, start, "square end", "foot"),),
        (plane_at(along, end, "square end", "head"),),
        *((clip,) for clip in clips),
    ]
    return pruned(Stick(name, "plate", "walls", stock, pose, top, tuple(removals), length))
