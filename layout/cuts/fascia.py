"""Fascias mitered where two eaves meet at a corner.

Each runs level along its own eave, its head at the corner. Both outer faces meet in a line,
both inner faces in another; the miter is the plane through the two, midway between the boards.
"""

from layout.cuts import entry
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane, mitre
from layout.plane.pose import lay
from layout.vector import Z


@entry("fascia", "a plumb fascia mitered at the corner", meets="either", stock="1x6")
def fascia_plumb(corner: Corner) -> Joint:
    """Plumb boards: square across the face, tilted by 90 less half the angle between the walls.

    The pitch has no say: outer faces are -inward, and their difference is level.
    """
    along = -corner.eave
    normal = mitre(-corner.inward, -corner.other_inward, along)
    plane = Plane(normal, "other fascia", lay(-corner.other_eave, Z))
    return Joint(lay(along, Z), (plane,))


@entry(
    "fascia", "a fascia square to the rafters, mitered at the corner", meets="either", stock="1x6"
)
def fascia_square(corner: Corner) -> Joint:
    """Boards on tails cut square lean out by the pitch: a compound miter.

    Outer faces are the rafters' directions, down the slopes. On a square corner of equal
    slope a: n ~ (1, -+1, 0) along and across the eave, so on the leaning board
    n = (1, -+cos a, -+sin a) / sqrt 2; face mark tan = sin a, tilt sin = cos a / sqrt 2.
    """
    along = -corner.eave
    normal = mitre(-corner.upslope, -corner.other_upslope, along)
    plane = Plane(normal, "other fascia", lay(-corner.other_eave, corner.other_normal))
    return Joint(lay(along, corner.normal), (plane,))
