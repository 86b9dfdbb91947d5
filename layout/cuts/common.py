"""The common rafter: every cut lies square across its thickness, so every tilt is 0.

The common stands plumb and runs straight up the own roof. Its planes are plumb, level, or
square to itself; with the slope a, in board axes:

    plumb (0, 1, 0) -> (cos a, 0, -sin a): face mark a from square across
    level (0, 0, 1) -> (sin a, 0, cos a): face mark 90 - a from square across
    square x        -> (1, 0, 0): face mark 0
"""

from layout.cuts import entry
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane
from layout.plane.pose import Pose, lay
from layout.vector import Z

NOTCH = 0.25
"""Where the bird's mouth is drawn: its inner corner a quarter of the depth above the bottom edge.

Only the drawing uses it; the lengths module works the notch out from the height above plate.
"""
NOTCHED = ((0.0, 1.0), (0.0, NOTCH))


def common_pose(corner: Corner) -> Pose:
    """A rafter of the own roof: plumb, its head up the slope."""
    return lay(corner.upslope, Z)


def plate_pose(corner: Corner) -> Pose:
    """The wall plate, or anything else that runs level along the own eave."""
    return lay(corner.eave, Z)


@entry("common", "a common's head against the ridge", meets="nothing", two_hands=False)
def common_ridge(corner: Corner) -> Joint:
    """The head lies against the ridge board, which runs level along the own eave: a plumb cut."""
    plane = Plane(corner.inward, "ridge", plate_pose(corner))
    return Joint(common_pose(corner), (plane,))


@entry("common", "the level seat of the bird's mouth", meets="nothing", end="foot", two_hands=False)
def common_seat(corner: Corner) -> Joint:
    """The seat lies on the plate: a level cut, ending at the heel.

    The wood under the seat and inside the heel goes; what is above the one or outside the
    other stays, so the notch is hollow.
    """
    return Joint(common_pose(corner), (_seat(corner), _heel(corner)), point=False)


@entry("common", "the plumb heel of the bird's mouth", meets="nothing", two_hands=False)
def common_heel(corner: Corner) -> Joint:
    """The heel stands against the outside of the wall: a plumb cut, ending at the seat."""
    return Joint(common_pose(corner), (_heel(corner), _seat(corner)), point=False)


@entry("common", "a tail cut plumb for the fascia", meets="nothing", end="foot", two_hands=False)
def common_tail_plumb(corner: Corner) -> Joint:
    """The tail ends plumb behind a fascia that runs level along the own eave."""
    return Joint(common_pose(corner), (Plane(-corner.inward, "fascia", plate_pose(corner)),))


@entry("common", "a tail cut square to the rafter", meets="nothing", end="foot", two_hands=False)
def common_tail_square(corner: Corner) -> Joint:
    """The tail ends square to the rafter, behind a fascia that leans with the roof."""
    fascia = lay(corner.eave, corner.normal)
    return Joint(common_pose(corner), (Plane(-corner.upslope, "fascia", fascia),))


@entry("common", "a tail cut level for the soffit", meets="nothing", end="foot", two_hands=False)
def common_tail_level(corner: Corner) -> Joint:
    """The underside of the tail is cut level over a soffit."""
    return Joint(common_pose(corner), (Plane(-Z, "soffit", plate_pose(corner)),))


def _seat(corner: Corner) -> Plane:
    return Plane(-Z, "plate", plate_pose(corner), (0.0, NOTCH), NOTCHED)


def _heel(corner: Corner) -> Plane:
    return Plane(corner.inward, "wall", plate_pose(corner), (0.0, NOTCH), NOTCHED)
