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


def line_joint(
    corner: Corner,
    *planes: Plane,
    point: bool = True,
    rip: bool = False,
    grouped: tuple[tuple[int, ...], ...] = (),
) -> Joint:
    """A joint of the hip or valley: its pose, its run over the common's, its roof planes."""
    return Joint(
        line_pose(corner),
        planes,
        point=point,
        rip=rip,
        unit_run=corner.unit_run,
        bevels=(corner.normal, corner.other_normal),
        grouped=grouped,
    )


def roof_plane(corner: Corner, through: SectionPoint) -> Plane:
    """The own roof's plane as a bevel under its sheathing."""
    return Plane(corner.normal, "own sheathing", lay(corner.upslope, corner.normal), through)


def other_roof_plane(corner: Corner, through: SectionPoint) -> Plane:
    """The other roof's plane as a bevel under its sheathing."""
    sheathing = lay(corner.other_upslope, corner.other_normal)
    return Plane(corner.other_normal, "other sheathing", sheathing, through)


MIDDLE = (0.5, 0.0)
"""Where the line in which both roofs meet runs: over the middle of the thickness."""
HALF_COMMON_IN = FASCIA_IN = 0.75
"""The mates of two cheeks, where no roof is named: commons 1 1/2 in thick on the lines in which
the hip's line is met, fascias 3/4 in thick whose outer faces pass through it [inches]."""
NOTCH = 0.25
"""Where a seat is drawn, when no roof is named: its inner corner at this part of the depth."""


def plumb_stick(along: Array) -> Pose:
    """A level stick on edge that runs `along`, such as a ridge, a plate or a plumb fascia."""
    return lay(along, Z)


@entry("hip", "a hip's head between the two commons at the ridge's end: two cheeks", meets="hip")
def hip_ridge(corner: Corner) -> Joint:
    """Both cheeks lie against commons: the last of the own roof, and the other roof's end common.

    The hip comes up between them. A common of the own roof runs square to the own eave, so
    its side's normal is the eave; likewise on the other roof. Equal pitches on a square
    corner put 45 degrees on either side. The hip's middle stands under the line in which
    the roofs meet, and so do the commons' over theirs; their sides lie half a thickness nearer.
    Where the two roofs differ, the corner between both sides lies beside the hip's middle, and
    so does the hip's point.
    """
    own, other = (
        Plane(eave, name, lay(upslope, Z), MIDDLE, before_in=HALF_COMMON_IN)
        for eave, name, upslope in (
            (corner.eave, "own common", corner.upslope),
            (corner.other_eave, "end common", corner.other_upslope),
        )
    )
    return line_joint(corner, own, other)


@entry("hip", "a hip's head against the side of the ridge: one cheek", meets="hip")
def hip_ridge_single(corner: Corner) -> Joint:
    """One cheek lies along the side of a ridge that runs level with the own eave.

    The ridge's side is plumb and its normal is the own common's run: g is 90 - f.
    """
    return line_joint(corner, Plane(corner.inward, "ridge", plumb_stick(corner.eave)))


@entry(
    "hip",
    "a hip's head against its twin over the same end wall, where only these two meet",
    meets="hip",
)
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
    """The seat is level: square across the hip, 90 - h from square across its face.

    The corner of the plates points into the hip, so one notch goes round it: the wood that lies
    under the seat and inside both walls. Its heel is hollow, two plumb cuts along both walls.
    """
    return line_joint(corner, *seat_planes(corner), point=False, grouped=((0, 1, 2),))


def seat_planes(corner: Corner) -> tuple[Plane, Plane, Plane]:
    """A hip's or valley's seat and its heels along the own and the other wall.

    The walls meet under the line in which the roofs meet: all three pass through the middle.
    """
    at = (0.5, NOTCH)
    return (
        Plane(-Z, "plate", plumb_stick(corner.eave), at),
        Plane(corner.inward, "own wall", plumb_stick(corner.eave), at),
        Plane(corner.other_inward, "other wall", plumb_stick(corner.other_eave), at),
    )


@entry("hip", "a hip's tail behind the corner of two fascias: two cheeks", meets="hip", end="foot")
def hip_tail(corner: Corner) -> Joint:
    """Both cheeks lie behind plumb fascias, each along its own eave; the tail comes to a point.

    The outer corner of level fascias lies under the line in which the roofs meet; the corner of
    their backs, where the tail ends, lies beside it where the two roofs differ.
    """
    return line_joint(corner, *fascia_planes(corner))


def fascia_planes(corner: Corner) -> tuple[Plane, Plane]:
    """The backs of both fascias, which end a hip's or valley's tail."""
    own, other = (
        Plane(-inward, name, plumb_stick(eave), MIDDLE, before_in=FASCIA_IN)
        for inward, name, eave in (
            (corner.inward, "own fascia", corner.eave),
            (corner.other_inward, "other fascia", corner.other_eave),
        )
    )
    return own, other


@entry("hip", "the rip that brings a hip's top edge into both roof planes", meets="hip", end="foot")
def hip_backing(corner: Corner) -> Joint:
    """The top edge is ripped to both roof planes, from the middle of the edge down to the faces.

    The bevel runs along the hip: the hip lies in both roofs, so nx = 0. A bevel that drops k
    over a unit of thickness, seen square to the hip, has ny / nz = k.
    """
    middle = (0.5, 1.0)
    own, other = roof_plane(corner, middle), other_roof_plane(corner, middle)
    return line_joint(corner, own, other, rip=True)
