"""Collar ties: level sticks on edge that hold two opposite rafters together, high in the roof."""

from layout.cuts import entry
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane
from layout.plane.pose import lay
from layout.vector import Z


@entry("tie", "a collar tie's end, trimmed to the roof", meets="nothing", two_hands=False)
def collar_tie(corner: Corner) -> Joint:
    """The tie lies beside the rafters, its head toward the own eave, and must not stand out.

    The plane is the own roof's. With x level toward the eave and the slope a, the roof's normal
    leans to the eave by sin a and stands up by cos a: n = (sin a, 0, cos a). The face mark is
    90 - a from square across: the level cut's, since tie and roof make the angle a.
    """
    sheathing = lay(corner.upslope, corner.normal)
    return Joint(lay(-corner.inward, Z), (Plane(corner.normal, "sheathing", sheathing),))
