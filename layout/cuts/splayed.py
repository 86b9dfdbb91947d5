"""A box with sloping sides, any number of them: the hopper, mitered or butted.

The pitch is the slope of the own side above level, the other pitch the next side's; the angle
between the walls is the box's corner in plan, 180 - 360/n for n equal sides. The sides lean
outward going up, so the own side runs along the own eave's line and rises away from the
building. A board lies in it with square edges, its depth up the side.
"""

from layout.cuts import entry
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane, mitre
from layout.plane.pose import lay
from layout.vector import Array, Z, unit


def side_up(inward: Array, slope: Array) -> Array:
    """Unit vector up a side that leans away from `inward` with this rise on a run of 1 (..., 3)."""
    return unit(slope[..., None] * Z - inward)


def side_outward(inward: Array, slope: Array) -> Array:
    """Unit normal of such a side, out of the box and down (..., 3)."""
    return unit(-slope[..., None] * inward - Z)


@entry("splayed", "a splayed box's side, mitered at the corner", meets="hip", stock="1x8")
def splayed_miter(corner: Corner) -> Joint:
    """Sides of one thickness meet midway between them.

    For n equal sides that lean s from plumb: the outer normals differ by a level vector, so
    the face mark has tan = sin s tan(180/n), and the tilt sin = cos s sin(180/n).
    """
    along = -corner.eave
    own = side_outward(corner.inward, corner.slope)
    other = side_outward(corner.other_inward, corner.other_slope)
    next_side = lay(-corner.other_eave, side_up(corner.other_inward, corner.other_slope))
    pose = lay(along, side_up(corner.inward, corner.slope))
    return Joint(pose, (Plane(mitre(own, other, along), "next side", next_side),))


@entry("splayed", "a splayed box's side, butted inside the next", meets="hip", stock="1x8")
def splayed_butt(corner: Corner) -> Joint:
    """The side ends on the inner face of the next: the plane is that face.

    For four equal sides that lean s from plumb the outer normals have the product sin^2 s:
    n.y is their angle's cosine, so the tilt has sin = sin^2 s.
    """
    other = side_outward(corner.other_inward, corner.other_slope)
    next_side = lay(-corner.other_eave, side_up(corner.other_inward, corner.other_slope))
    pose = lay(-corner.eave, side_up(corner.inward, corner.slope))
    return Joint(pose, (Plane(other, "next side", next_side),))
