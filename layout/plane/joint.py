"""A joint: a board posed in the roof, and the world planes of the cuts that end it.

What a catalogue entry returns. Everything else is read from it.
"""

from dataclasses import dataclass, replace

import numpy as np

from layout.plane.cut import ALONG, Cut, whole_section
from layout.plane.pose import Pose
from layout.stock import Stock
from layout.vector import Angle, Array, dot, facing, unit, vector

SectionPoint = tuple[Angle, Angle]
"""A point of the section as fractions of the thickness and the depth."""
ONE_PLANE = 1e-12


@dataclass(frozen=True)
class Plane:
    """One plane of a joint: unit world `normal` (..., 3), out of the kept wood.

    `through` is where it crosses the section, as fractions of thickness and depth: (0, 0) is
    the arris of right face and bottom edge, (0.5, 1) the middle of the top edge. `mate` is the
    board it lies against; a mitre's mate carries the same plane, turned round. `shapes` is the
    part of the section it cuts, ((y0, y1), (z0, z1)) in the same fractions, where that cannot
    be found from the joint's other plane.
    """

    normal: Array
    mate_name: str
    mate: Pose
    through: SectionPoint = (0.0, 0.0)
    shapes: tuple[tuple[float, float], tuple[float, float]] | None = None


@dataclass(frozen=True)
class Joint:
    """A board's `pose` and one or two `planes`, the one asked for first.

    With two planes the kept wood lies behind both (`point=True`: the end comes to a point) or
    behind either (`point=False`: the end is hollow). `rip` marks planes that run along the
    board and never end it. `unit_run` is the board's plan length over 12 of the common's run,
    divided by 12 (sqrt 2 for a square corner's hip). `bevels` are the world normals of the
    roof planes to which the top edge may be backed.
    """

    pose: Pose
    planes: tuple[Plane, ...]
    point: bool = True
    unit_run: Angle = 1.0
    bevels: tuple[Array, ...] = ()
    rip: bool = False

    def rolled(self, roll_deg: Angle) -> "Joint":
        """The same planes with the board rolled about its own length [degrees]."""
        return replace(self, pose=self.pose.rolled(roll_deg))

    def cuts(self, stock: Stock) -> tuple[Cut, ...]:
        """Every plane in board axes on this stock, with the part of the section it shapes."""
        size = (stock.thickness_in, stock.depth_in)
        cuts = tuple(
            Cut(
                self.pose.to_board(plane.normal),
                vector(0.0, plane.through[0] * size[0], plane.through[1] * size[1]),
                _fraction_span(plane, stock),
            )
            for plane in self.planes
        )
        if len(cuts) == 1 or any(plane.shapes is not None for plane in self.planes):
            return cuts
        first, second = cuts
        return (
            replace(first, span=_active_span(first, second, stock, self.point)),
            replace(second, span=_active_span(second, first, stock, self.point)),
        )


def mitre(surface: Array, mate_surface: Array, toward: Array) -> Array:
    """Unit normal of the plane in which two boards of one thickness meet, on the side `toward`.

    Both outer faces pass through one line, and both inner faces, moved in by the same
    thickness, through another; points on either line are equally far from both outer faces,
    so the plane's normal is the difference of the faces' unit normals. Where both faces lie
    in one plane the boards butt square. All arguments (..., 3).
    """
    difference = surface - mate_surface
    size = np.sqrt(dot(difference, difference))[..., None]
    straight = size <= ONE_PLANE
    normal = np.where(straight, toward, difference / np.where(straight, 1.0, size))
    return unit(facing(normal, toward))


def _fraction_span(plane: Plane, stock: Stock) -> Array:
    whole = whole_section(stock)
    return whole if plane.shapes is None else np.array(plane.shapes) * whole[:, 1:]


def _active_span(cut: Cut, other: Cut, stock: Stock, point: bool) -> Array:
    """The part of the section on which `cut` is the surface of the kept wood.

    Both planes meet in a line that runs at one y (two cheeks, two bevels) or at one z. On one
    side of it the cut's own surface lies behind the other plane, on the other side before it:
    an end that comes to a point keeps the part behind, a hollow end the part before. On a
    rolled board the line crosses the section aslant; then the whole section is measured.
    """
    whole = whole_section(stock)
    line = np.cross(cut.normal, other.normal)
    aslant = np.abs(line) > ALONG
    if np.any(aslant[..., 1]) and np.any(aslant[..., 2]):
        return whole
    axis = 1 if np.any(aslant[..., 1]) else 0
    rows = np.stack(np.broadcast_arrays(cut.normal, other.normal, line), axis=-2)
    levels = np.stack(
        np.broadcast_arrays(
            dot(cut.normal, cut.point), dot(other.normal, other.point), np.zeros(line.shape[:-1])
        ),
        axis=-1,
    )
    split = np.linalg.solve(rows, levels[..., None])[..., axis + 1, 0]
    split = np.clip(split, 0.0, whole[axis, 1])
    in_plane = np.eye(3)[axis + 1] - cut.normal[..., axis + 1, None] * cut.normal
    step = -cut.point[..., axis + 1] / in_plane[..., axis + 1]
    at_zero = cut.point + step[..., None] * in_plane
    before = dot(other.normal, at_zero - other.point) > 0
    low = before != point
    span = np.broadcast_to(whole, (*split.shape, 2, 2)).copy()
    span[..., axis, 0] = np.where(low, 0.0, split)
    span[..., axis, 1] = np.where(low, split, whole[axis, 1])
    return span
