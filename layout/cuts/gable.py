"""The gable end: studs under the end rafter, and the rake boards that meet at the peak.

The gable wall runs the way the own common runs. At the peak the other roof comes up from the
far side, so `other_slope_deg` is its slope; the angle between the walls plays no part.
"""

from layout.cuts import entry
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane, mitre
from layout.plane.pose import lay
from layout.vector import Z, unit


@entry("gable", "a gable stud's head under the end rafter", meets="nothing", stock="2x4")
def gable_stud(corner: Corner) -> Joint:
    """The stud stands plumb, its depth through the wall; its head lies under the rafter.

    The underside of the rafter is the own roof's plane: n = (cos a, +-sin a, 0). The mark is
    square across the face, and runs at the slope a across the edge: the saw tilts by a.
    """
    plane = Plane(corner.normal, "end rafter", lay(corner.upslope, corner.normal))
    return Joint(lay(Z, corner.eave), (plane,))


@entry(
    "gable",
    "a rake board's head against its twin at the peak",
    meets="nothing",
    stock="1x6",
    two_hands=False,
)
def rake_board(corner: Corner) -> Joint:
    """Two rake boards of one depth meet at the peak midway between them: plumb at equal slopes."""
    far_up = unit(-corner.inward + corner.other_slope[..., None] * Z)
    far_normal = unit(corner.other_slope[..., None] * corner.inward + Z)
    plane = Plane(mitre(corner.normal, far_normal, corner.upslope), "twin", lay(far_up, Z))
    return Joint(lay(corner.upslope, Z), (plane,))
