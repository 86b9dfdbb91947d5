"""A brace between a post and a beam: the pitch is its rise on its run, equal or not."""

from layout.cuts import entry
from layout.cuts.common import common_pose
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane
from layout.plane.pose import lay
from layout.vector import Z


@entry("brace", "a brace from beam to post", meets="nothing", name="brace", two_hands=False)
def brace_head(corner: Corner) -> Joint:
    """The upper end lies against the side of the post: plumb, so n = (cos a, 0, -sin a)."""
    return Joint(common_pose(corner), (Plane(corner.inward, "post", lay(Z, corner.inward)),))


@entry("brace", "", meets="nothing", name="brace", end="foot", two_hands=False)
def brace_foot(corner: Corner) -> Joint:
    """The lower end stands on the beam: level, so n = (-sin a, 0, -cos a)."""
    return Joint(common_pose(corner), (Plane(-Z, "beam", lay(corner.inward, Z)),))
