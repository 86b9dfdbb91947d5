"""A board in the roof: its own axes, seen from the world."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from layout.vector import Angle, Array, cross, dot, sin_cos, unit


@dataclass(frozen=True, eq=False)
class Pose:
    """The axes of a board as rows of `axes` (..., 3, 3): x to the head, y left, z up the depth.

    Rows are unit world vectors, right-handed: y points to the left hand of someone who
    stands at the foot and looks toward the head.
    """

    axes: Array

    def each(self, cases: int) -> "list[Pose]":
        """The poses of arrays (cases, 3, 3), one after another."""
        return [Pose(axes) for axes in np.broadcast_to(self.axes, (cases, 3, 3))]

    def to_board(self, world: Array) -> Array:
        """Turn world directions (..., 3) into board axes (..., 3)."""
        turned: Array = np.einsum("...ij,...j->...i", self.axes, world)
        return turned

    def to_world(self, board: Array) -> Array:
        """Turn board directions (..., 3) into world axes (..., 3)."""
        turned: Array = np.einsum("...ij,...i->...j", self.axes, board)
        return turned

    @property
    def head(self) -> Array:
        """World unit vector along the board toward its head (..., 3)."""
        return self.axes[..., 0, :]

    @property
    def left(self) -> Array:
        """World unit vector across the thickness toward the left face (..., 3)."""
        return self.axes[..., 1, :]

    @property
    def up(self) -> Array:
        """World unit vector up the depth toward the top edge (..., 3)."""
        return self.axes[..., 2, :]

    def rolled(self, roll_deg: Angle) -> "Pose":
        """The board rolled about its own length; plus tips its top edge toward its right face."""
        sine, cosine = (part[..., None] for part in sin_cos(roll_deg))
        return _pose(
            self.head, cosine * self.left + sine * self.up, cosine * self.up - sine * self.left
        )


class LaidWhenSeen(Pose):
    """A pose that is worked out when its axes are first looked at.

    For a mate that many ask no more of than its name. `along` names the corner's vector along
    which the board lies, such as "line".
    """

    def __init__(self, corner: object, along: str, depth_toward: Array) -> None:
        vars(self).update(_laid=(corner, along, depth_toward))

    @cached_property
    def axes(self) -> Array:
        """The axes as `lay` finds them (..., 3, 3)."""
        corner, along, depth_toward = vars(self)["_laid"]
        return lay(getattr(corner, along), depth_toward).axes


def lay(along: Array, depth_toward: Array) -> Pose:
    """Lay a board along a world direction, its top edge as near as it can to `depth_toward`.

    Both are world vectors (..., 3) of any length, not parallel. The depth is the part of
    `depth_toward` square to the length: z = d - (d.x) x, then y = z cross x.
    """
    head = unit(along)
    up = unit(depth_toward - dot(depth_toward, head)[..., None] * head)
    return _pose(head, cross(up, head), up)


def _pose(head: Array, left: Array, up: Array) -> Pose:
    axes = np.empty((*np.broadcast(head, left, up).shape, 3))
    for row, axis in enumerate((head, left, up)):
        axes[..., row, :] = axis
    return Pose(axes)
