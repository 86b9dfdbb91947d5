"""Surfaces of many boards at once, against those of each board alone and against shapely."""

import numpy as np
import shapely

from layout.plane.cut import Cut
from layout.plane.solid import Solid
from layout.plane.surfaces import surface_corners

SIZE = (6.0, 1.5, 4.0)
SPAN = np.zeros((2, 2))


def cut(way: tuple[float, ...], point: tuple[float, ...]) -> Cut:
    """Of one board; the span is not asked for."""
    normal = np.array(way) / np.linalg.norm(way)
    return Cut(normal, np.array(point), SPAN)


def box() -> list[Cut]:
    ways = np.vstack([np.eye(3), -np.eye(3)])
    points = [*np.diag(SIZE), *np.zeros((3, 3))]
    return [cut(tuple(way), tuple(point)) for way, point in zip(ways, points, strict=True)]


def flat(corners: np.ndarray, axes: list[int]) -> shapely.Geometry:
    """The convex polygon of corners in no order, seen along the third axis."""
    return shapely.MultiPoint(corners[:, axes]).convex_hull


def test_a_plane_that_touches_an_edge_alone_leaves_no_surface() -> None:
    """The edges at y = 1.5, z = 4 and at x = 6, z = 4, and the corner of all three; once the plane
    has moved in by an inch along each way it cuts."""
    for way, point in (((0, 1, 1), (0, 1.5, 4)), ((1, 0, 2), (6, 0, 4)), ((1, 1, 1), SIZE)):
        touching = cut(way, point)
        _, there = surface_corners(box(), [[touching]], touching)
        assert not there.any(), way
        inner = tuple(at - step for at, step in zip(point, way, strict=True))
        inside = cut(way, inner)
        _, there = surface_corners(box(), [[inside]], inside)
        assert there.any(), way


def test_surfaces_of_a_notch_are_those_that_one_solid_has() -> None:
    """A seat aslant and a heel that meet, on boards of which each has its own slope."""
    seats = [cut((0.3 * k, 0.05, -1), (0, 0, 1.0)) for k in range(1, 5)]
    heels = [cut((-1, 0.1, -0.2 * k), (2.0, 0, 0)) for k in range(1, 5)]
    together = [
        Cut(np.array([one.normal for one in each]), np.array([one.point for one in each]), SPAN)
        for each in (seats, heels)
    ]
    for number, (own, axes) in enumerate(zip(together, ([0, 1], [1, 2]), strict=True)):
        points, there = surface_corners(box(), [together], own)
        for k in range(4):
            pair = (seats[k], heels[k])
            (alone,) = Solid(tuple(box()), (pair,)).surfaces(pair[number])
            found = flat(points[k][there[k]], axes)
            assert found.area > 0.1
            assert found.symmetric_difference(flat(alone, axes)).area < 1e-9
