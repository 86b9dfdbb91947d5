"""Hip rafters: a plumb stick over the line in which two roofs meet at an outside corner.

The hip stands plumb along that line. Its slope h has tan h = tan a sin f, with the own slope a
and the plan angle f between hip and own eave; 12 of the common's run are 12 / sin f of the
hip's: 16.97, called 17, on a square corner. A plumb plane whose plan normal makes the angle g
with the hip's plan line reads (cos g cos h, +-sin g, -cos g sin h) in board axes.
"""

from layout.cuts import entry
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane, SectionPoint
from layout.plane.pose import Pose, lay
from layout.vector import Array, Z, dot


def line_pose(corner: Corner) -> Pose:
    """A stick that stands plumb over the hip or valley, its head up the line."""
    return lay(corner.line, Z)


def line_joint(corner: Corner, *planes: Plane, point: bool = True, rip: bool = False) -> Joint:
    """A joint of the hip or valley: its pose, its run over the common's, its roof planes."""
    return Joint(
        line_pose(corner),
        planes,
        point=point,
        rip=rip,
        unit_run=corner.unit_run,
        bevels=(corner.normal, corner.other_normal),
    )


def roof_plane(corner: Corner, through: SectionPoint) -> Plane:
    """The own roof's plane as a bevel under its sheathing."""
    return Plane(corner.normal, "own sheathing", lay(corner.upslope, corner.normal), through)


def other_roof_plane(corner: Corner, through: SectionPoint) -> Plane:
    """The other roof's plane as a bevel under its sheathing."""
    sheathing = lay(corner.other_upslope, corner.other_normal)
    return Plane(corner.other_normal, "other sheathing", sheathing, through)


MIDDLE = (0.5, 0.0)
"""Two cheeks meet in a plumb line through the middle of the thickness."""


def plumb_stick(along: Array) -> Pose:
    """A level stick on edge that runs `along`, such as a ridge, a plate or a plumb fascia."""
    return lay(along, Z)


@entry("hip", "a hip's head between the two commons at the ridge's end: two cheeks", meets="hip")
def hip_ridge(corner: Corner) -> Joint:
    """Both cheeks lie against commons: the last of the own roof, and the other roof's end common.

    The hip comes up between them. A common of the own roof runs square to the own eave, so
    its side's normal is the eave; likewise on the other roof. Equal pitches on a square
    corner put 45 degrees on either side. The angles hold in any roof; where the two roofs
    differ, the hip's middle is set to the corner between both commons' sides, which then lies
    a little beside the line in which the roofs meet.
    """
    own = Plane(corner.eave, "own common", lay(corner.upslope, Z), MIDDLE)
    other = Plane(corner.other_eave, "end common", lay(corner.other_upslope, Z), MIDDLE)
    return line_joint(corner, own, other)


@entry("hip", "a hip's head against the side of the ridge: one cheek", meets="hip")
def hip_ridge_single(corner: Corner) -> Joint:
    """One cheek lies along the side of a ridge that runs level with the own eave.

    The ridge's side is plumb and its normal is the own common's run: g is 90 - f.
    """
    return line_joint(corner, Plane(corner.inward, "ridge", plumb_stick(corner.eave)))


@entry("hip", "a hip's head against its twin, where there is no ridge", meets="hip")
def hip_to_hip(corner: Corner) -> Joint:
    """Two hips over one end wall meet in the plumb plane midway between them.

    The twin is the mirror image over the other roof's end, so the plane's normal runs along
    the other eave.
    """
    along_wall = dot(corner.line, corner.other_eave)[..., None] * corner.other_eave
    twin_line = corner.line - 2 * along_wall
    return line_joint(corner, Plane(corner.other_eave, "twin hip", lay(twin_line, Z)))


@entry("hip", "the level seat of a hip on the plate", meets="hip", end="foot", two_hands=False)
def hip_seat(corner: Corner) -> Joint:
    """The seat is level: square across the hip, 90 - h from square across its face."""
    return line_joint(corner, Plane(-Z, "plate", plumb_stick(corner.eave)))


@entry("hip", "a hip's tail behind the corner of two fascias: two cheeks", meets="hip", end="foot")
def hip_tail(corner: Corner) -> Joint:
    """Both cheeks lie behind plumb fascias, each along its own eave; the tail comes to a point."""
    own = Plane(-corner.inward, "own fascia", plumb_stick(corner.eave), MIDDLE)
    other = Plane(-corner.other_inward, "other fascia", plumb_stick(corner.other_eave), MIDDLE)
    return line_joint(corner, own, other)


@entry("hip", "the rip that brings a hip's top edge into both roof planes", meets="hip", end="foot")
def hip_backing(corner: Corner) -> Joint:
    """The top edge is ripped to both roof planes, from the middle of the edge down to the faces.

    The bevel runs along the hip: the hip lies in both roofs, so nx = 0. A bevel that drops k
    over a unit of thickness, seen square to the hip, has ny / nz = k.
    """
    middle = (0.5, 1.0)
    own, other = roof_plane(corner, middle), other_roof_plane(corner, middle)
    return line_joint(corner, own, other, rip=True)
