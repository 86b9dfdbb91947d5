"""Wall plates: flat boards whose outer edges are the building lines; an eave's top is Z = 0.

At a square corner one plate runs through and the other butts on it: of two walls the one with
the even number runs through. At any other corner both are mitered along its halving line.
"""

from collections.abc import Sequence, Set

from layout.cuts import End
from layout.framing.carrier import pruned
from layout.framing.stick import CutPlane, Stick, WasteRegion, plane_at
from layout.framing.walls import Outline
from layout.plane.pose import lay
from layout.stock import Stock
from layout.vector import at_height, unit

SQUARE = 1e-9


def plates(
    outline: Outline,
    stock: Stock,
    tops_in: Sequence[float | None],
    clips: dict[int, CutPlane],
) -> tuple[Stick, ...]:
    """A plate for every wall, P1 and on as they are walked; `tops_in` are their tops' heights,
    None where no plate lies.

    `clips` are cut off both plates at a corner, by the corner's index. Plates of unlike heights
    do not meet: each runs to the outside of the other's wall.
    """
    count = len(outline.walls)
    return tuple(
        _plate(
            f"P{k + 1}", outline, k, stock, top,
            [clips[c] for c in (k, (k + 1) % count) if c in clips],
            tuple(_end(outline, k, c, stock, tops_in) for c in (k, (k + 1) % count)),
        )
        for k, top in enumerate(tops_in)
        if top is not None
    )  # fmt: skip


def _plate(
    name: str,
    outline: Outline,
    wall: int,
    stock: Stock,
    top_in: float,
    clips: Sequence[CutPlane],
    ends: Sequence[CutPlane],
) -> Stick:
    along, inward = (at_height(v[wall]) for v in (outline.along, outline.inward))
    start = at_height(outline.corners[wall], top_in)
    removals: list[WasteRegion] = [(end,) for end in ends]
    removals += [(clip,) for clip in clips]
    whole = Stick(
        name, "plate", "walls", stock, lay(along, inward), start, tuple(removals),
        outline.walls[wall].length_in,
    )  # fmt: skip
    return pruned(whole)


def _end(
    outline: Outline, wall: int, corner: int, stock: Stock, tops_in: Sequence[float | None]
) -> CutPlane:
    """The plane in which a wall's plate ends at one of its corners.

    A plate that runs through ends on the outside of the other wall, or, where the corner points
    inward, on its inside; the butting one ends on the inside, or there on the outside, of the
    one that runs through.
    """
    at_start = corner == wall
    which: End = "foot" if at_start else "head"
    other = (corner - 1 if at_start else corner) % len(outline.walls)
    point = at_height(outline.corners[corner])
    its = at_height(outline.inward[other])
    inward = outline.points_in(corner)
    if abs(float(outline.along[wall] @ outline.along[other])) < SQUARE:
        through = tops_in[wall] != tops_in[other] or wall == _runs_through({wall, other})
        outward = its if inward else -its
        deep = through == inward
        return plane_at(outward, point + deep * stock.depth_in * its, "square end", which)
    ways = [at_height(outline.along[k]) for k in (wall, other)]
    halving = unit(ways[0] + ways[1])
    return plane_at(-halving if at_start else halving, point, "plate miter", which)


def _runs_through(pair: Set[int]) -> int:
    even = [k for k in pair if k % 2 == 0]
    return even[0] if len(even) == 1 else min(pair)
