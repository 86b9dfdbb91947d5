"""A joint: a board posed in the roof, and the world planes of the cuts that end it.

What a catalogue entry returns. Everything else is read from it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from layout.plane.cut import ALONG, Cut, long_board, whole_section
from layout.plane.pose import Pose
from layout.stock import Stock
from layout.vector import Angle, Array, cross, dot, facing, unit, vector

SectionPoint = tuple[Angle, Angle]
"""A point of the section as fractions of the thickness and the depth."""
ONE_PLANE = 1e-12


@dataclass(frozen=True, eq=False)
class Plane:
    """One plane of a joint: unit world `normal` (..., 3), out of the kept wood.

    `through` is where it crosses the section, as fractions of thickness and depth: (0, 0) is
    the arris of right face and bottom edge, (0.5, 1) the middle of the top edge. `mate` is the
    board it lies against; a mitre's mate carries the same plane, turned round. `shapes` is the
    part of the section it cuts, ((y0, y1), (z0, z1)) in the same fractions, where that cannot
    be found from the joint's other plane. `before_in` is how far the plane lies before that
    point, square to itself, on the side of the kept wood [inches]: half of a common whose center
    line runs through it. A plane of a stick that stands in a roof says its point outright:
    `at_in` (3,), in board axes from the stick's datum [inches].
    """

    normal: Array
    mate_name: str
    mate: Pose
    through: SectionPoint = (0.0, 0.0)
    shapes: tuple[tuple[float, float], tuple[float, float]] | Array | None = None
    before_in: float = 0.0
    at_in: Array | None = None

    def point_in(self, normal: Array, stock: Stock) -> Array:
        """A point of the plane in board axes (..., 3) [inches]; `normal` is its own, in them."""
        if self.at_in is not None:
            return self.at_in
        y, z = self.through[0] * stock.thickness_in, self.through[1] * stock.depth_in
        at = vector(0.0, y, z)
        return at - self.before_in * normal if self.before_in else at

    def each(self, cases: int) -> "list[Plane]":
        """The planes of arrays (cases, ...), one after another."""
        normal, mate = np.broadcast_to(self.normal, (cases, 3)), self.mate.each(cases)
        y, z = (np.broadcast_to(part, (cases,)) for part in self.through)
        return [
            replace(self, normal=normal[case], mate=mate[case], through=(y[case], z[case]))
            for case in range(cases)
        ]

    @property
    def mate_words(self) -> str:
        """The board it lies against, as a sheet says it: "the hip", "this roof's fascia"."""
        for own, said in (("own ", "this roof's "), ("other ", "the other roof's ")):
            if self.mate_name.startswith(own):
                return said + self.mate_name.removeprefix(own)
        return f"the {self.mate_name}"


@dataclass(frozen=True, eq=False)
class Joint:
    """A board's `pose` and the `planes` of what is taken off it, the one asked for first.

    The kept wood lies behind every plane (`point=True`: each is a removal of its own, two cheeks
    come to a point), or behind any (`point=False`: they bound one removal, a notch or a hollow
    end). Where neither says it, `grouped` has the planes of each removal by their place in
    `planes`, and `point` is False. `rip` marks planes that run along the board and never end it.
    `unit_run` is the board's plan length over 12 of the common's run, divided by 12 (sqrt 2 for
    a square corner's hip). `bevels` are the world normals of the roof planes to which the top
    edge may be backed.
    """

    pose: Pose
    planes: tuple[Plane, ...]
    point: bool = True
    unit_run: Angle = 1.0
    bevels: tuple[Array, ...] = ()
    rip: bool = False
    grouped: tuple[tuple[int, ...], ...] = ()

    @property
    def removals(self) -> tuple[tuple[int, ...], ...]:
        """The planes of each removal by their place in `planes`."""
        every = tuple(range(len(self.planes)))
        return self.grouped or (tuple((i,) for i in every) if self.point else (every,))

    @cached_property
    def normals(self) -> tuple[Array, ...]:
        """The normal of every plane in board axes (..., 3)."""
        return tuple(self.pose.to_board(plane.normal) for plane in self.planes)

    def rolled(self, roll_deg: Angle) -> "Joint":
        """The same planes with the board rolled about its own length [degrees]."""
        return replace(self, pose=self.pose.rolled(roll_deg))

    def each(self, cases: int) -> Iterator["Joint"]:
        """The joints of arrays (cases, ...), one after another; what is no array is in them all."""
        pose, unit_run = self.pose.each(cases), np.broadcast_to(self.unit_run, (cases,))
        planes = [plane.each(cases) for plane in self.planes]
        bevels = [np.broadcast_to(bevel, (cases, 3)) for bevel in self.bevels]
        for case in range(cases):
            yield replace(
                self,
                pose=pose[case],
                planes=tuple(plane[case] for plane in planes),
                unit_run=float(unit_run[case]),
                bevels=tuple(bevel[case] for bevel in bevels),
            )

    def cuts(self, stock: Stock) -> tuple[Cut, ...]:
        """Every plane in board axes on this stock, with the part of the section it shapes."""
        cuts = tuple(
            Cut(normal, plane.point_in(normal, stock), _fraction_span(plane, stock))
            for plane, normal in zip(self.planes, self.normals, strict=True)
        )
        # One bevel alone may still start in the middle of an edge: where it does, the solid tells.
        alone = len(cuts) == 1 and not (self.rip and self.grouped)
        if alone or any(plane.shapes is not None for plane in self.planes):
            return cuts
        if self.grouped or any(plane.at_in is not None for plane in self.planes):
            return _surface_spans(cuts, self.removals, stock)
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
    normal = np.where(straight, toward, difference / np.where(straight, np.inf, size))
    return unit(facing(normal, toward))


def _fraction_span(plane: Plane, stock: Stock) -> Array:
    whole = whole_section(stock)
    return whole if plane.shapes is None else np.asarray(plane.shapes) * whole[:, 1:]


def _surface_spans(
    cuts: tuple[Cut, ...], removals: tuple[tuple[int, ...], ...], stock: Stock
) -> tuple[Cut, ...]:
    """The cuts, each with the part of the section over which its surface reaches, and the outline.

    Found from the solid; of arrays of cuts, from all solids at once.
    """
    cases = np.broadcast_shapes(*(cut.normal.shape[:-1] for cut in cuts))
    if cases:
        return tuple(_spanned(cut, cuts, removals, stock, cases) for cut in cuts)
    from layout.plane.solid import Solid  # few joints need solids, and `mark` would wait for them

    solid = Solid(long_board(stock), tuple(tuple(cuts[i] for i in group) for group in removals))
    spanned = []
    for cut in cuts:
        surfaces = solid.surfaces(cut)
        if not surfaces:
            spanned.append(replace(cut, span=np.zeros((2, 2)), outline=()))
            continue
        points = np.concatenate(surfaces)
        low, high = points[:, 1:].min(axis=0), points[:, 1:].max(axis=0)
        spanned.append(replace(cut, span=np.stack([low, high], axis=-1), outline=surfaces))
    return tuple(spanned)


def _spanned(
    cut: Cut,
    cuts: tuple[Cut, ...],
    removals: tuple[tuple[int, ...], ...],
    stock: Stock,
    cases: tuple[int, ...],
) -> Cut:
    """One of several cuts that are arrays, with the span and the corners of its surfaces."""
    flat = tuple(
        Cut(
            np.broadcast_to(one.normal, (*cases, 3)).reshape(-1, 3),
            np.broadcast_to(one.point, (*cases, 3)).reshape(-1, 3),
            one.span,
        )
        for one in cuts
    )
    own = next(made for made, one in zip(flat, cuts, strict=True) if one is cut)
    from layout.plane.surfaces import surface_corners

    points, there = surface_corners(
        long_board(stock), [[flat[i] for i in group] for group in removals], own
    )
    # Where a polygon has fewer corners, one of them is said again; where there is no surface, a
    # point of the plane stands for it, which leaves no gap.
    none = ~np.asarray(there.any(axis=1))[:, None, None]
    first = np.argmax(there, axis=1)[:, None, None]
    spare = np.where(none, own.point[:, None], np.take_along_axis(points, first, axis=1))
    corners = np.where(there[..., None], points, spare)
    across = np.where(none, 0.0, corners[..., 1:])
    span = np.stack([across.min(axis=1), across.max(axis=1)], axis=-1)
    shape = corners.shape[1:]
    return replace(cut, span=span.reshape(*cases, 2, 2), outline=(corners.reshape(*cases, *shape),))


def _active_span(cut: Cut, other: Cut, stock: Stock, point: bool) -> Array:
    """The part of the section on which `cut` is the surface of the kept wood.

    Both planes meet in a line that runs at one y (two cheeks, two bevels) or at one z. On one
    side of it the cut's own surface lies behind the other plane, on the other side before it:
    an end that comes to a point keeps the part behind, a hollow end the part before. On a
    rolled board the line crosses the section aslant; then the whole section is measured.
    """
    whole = whole_section(stock)
    line = cross(cut.normal, other.normal)
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
