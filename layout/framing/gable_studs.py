"""Gable studs: plumb sticks on the end wall's plate, cut under the gable's rafters.

The rafter's bottom edge climbs by the slope s along the wall, so studs a spacing apart differ by
s times the spacing, and each is cut to the rafter's slope across its thickness.
"""

from collections.abc import Iterator

from layout.framing.face import Face
from layout.framing.stick import CatalogueCut, Stick, plane_at
from layout.plane.pose import lay
from layout.stock import Stock
from layout.vector import Array, Z, vector

LEAST_IN = 6.0
"""A shorter stud is left out: the plate and the rafter are nailed to one another there."""


def gable_studs(
    face: Face,
    rafter: Stick,
    outward: Array,
    start: Array,
    runs: tuple[float, float],
    spacing_in: float,
    stock: Stock,
) -> Iterator[Stick]:
    """The studs under one gable rafter, from the ridge down, the first half a spacing from it.

    `start` (3,) is the wall's outside over which the rafter stands, at the face's building line;
    `outward` (3,) points out of the wall. `runs` are where the face's eave and its top stand.
    """
    low, high = runs
    half = stock.thickness_in / 2
    at = high - spacing_in / 2
    depth_plumb = rafter.stock.depth_in * (1 + face.slope**2) ** 0.5
    while at - half >= low:
        under = face.height_in + face.slope * at - depth_plumb
        if under - half * face.slope >= LEAST_IN:
            yield _stud(face, start + at * face.inward, outward, under, stock)
        at -= spacing_in


def _stud(face: Face, outside: Array, outward: Array, under_in: float, stock: Stock) -> Stick:
    pose = lay(Z, outward)
    middle = vector(outside[0], outside[1], 0.0)
    origin = middle - stock.thickness_in / 2 * pose.left - stock.depth_in * pose.up
    point = vector(outside[0], outside[1], under_in)
    asked = CatalogueCut("gable-stud", face.pitch, face.pitch, 90.0, "head")
    return Stick(
        f"stud under {face.name}", "gable stud", face.name, stock, pose, origin,
        (
            (plane_at(-Z, origin, "square end", "foot"),),
            (plane_at(face.normal, point, "gable-stud", "head", asked),),
        ),
        under_in,
    )  # fmt: skip
