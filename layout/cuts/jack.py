"""Jack rafters: commons cut short by a hip above them, a valley below them, or both.

A jack stands plumb and runs like the own roof's common; the hip or valley stands plumb over the
line where both roofs meet. The plane between them is the near side of the hip or valley, so it
stands plumb along that line. With slope a, and the line at plan angle f to the eave:

    n = (-sin f, cos f, 0) turned into board axes = (cos f cos a, sin f, -cos f sin a)

The tilt asin |ny| = f knows nothing of the pitch; on a square corner with equal pitches f = 45.
"""

from layout.cuts import entry
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane
from layout.plane.pose import LaidWhenSeen, Pose, lay
from layout.vector import Z


def jack_pose(corner: Corner) -> Pose:
    """A rafter of the own roof: plumb, its head up the slope."""
    return lay(corner.upslope, Z)


@entry("jack", "a jack's head against the side of the hip", meets="hip")
def hip_jack(corner: Corner) -> Joint:
    """The jack's head meets the side of the hip: one plumb cheek along the hip.

    The hip lies where the other roof begins; `across` points over it, out of the jack.
    """
    hip = LaidWhenSeen(corner, "line", Z)
    return Joint(jack_pose(corner), (Plane(corner.across, "hip", hip),))


@entry("jack", "a jack's foot on the side of the valley", meets="valley", end="foot")
def valley_jack(corner: Corner) -> Joint:
    """The jack's foot meets the side of the valley: one plumb cheek along the valley.

    `across` points to the own roof's side of the valley, so the wood ends against it.
    """
    valley = LaidWhenSeen(corner, "line", Z)
    return Joint(jack_pose(corner), (Plane(-corner.across, "valley", valley),))


@entry(
    "jack",
    "a cripple between hip and valley, a cheek at each end",
    meets="hip",
    name="cripple-jack",
)
def cripple_jack_head(corner: Corner) -> Joint:
    """The cripple's head meets the hip as any hip jack's does."""
    return hip_jack(corner)


@entry("jack", "", meets="hip", name="cripple-jack", end="foot")
def cripple_jack_foot(corner: Corner) -> Joint:
    """The cripple's foot meets a valley that runs beside the hip.

    Hip and valley rise between the same two roofs over walls turned by the same angle, so
    their plan lines are parallel and the foot's plane is the head's, turned round.
    """
    valley = LaidWhenSeen(corner, "line", Z)
    return Joint(jack_pose(corner), (Plane(-corner.across, "valley", valley),))
