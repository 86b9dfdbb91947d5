"""The surface that a plane leaves on a board, for many boards at once.

What `solid` finds of one solid, a polygon at a time, is found here of as many as there are cases,
in arrays: where each surface reaches, and its corners. All cases have planes of the same order,
and only where they stand differs.
"""

from collections.abc import Sequence
from itertools import product

import numpy as np

from layout.plane.cut import Cut
from layout.plane.solid import FLAT, SAME_IN, threes
from layout.vector import Array, Flags, cross, dot


def surface_corners(
    blank: Sequence[Cut], removals: Sequence[Sequence[Cut]], cut: Cut
) -> tuple[Array, Flags]:
    """The corners of all polygons of a cut's surface (n, k, 3) [inches], and which are any (n, k).

    `cut` is one of the `removals`, whose planes have shape (n, 3) or (3,). A surface is where the
    wood behind the cut lies beyond the other planes of its own removal, for each choice of one
    plane of every other removal that the wood lies behind. A polygon without area, and one of a
    part that holds no wood, is none. Corners of a polygon may be said twice.
    """
    parts = []
    for own in (removal for removal in removals if any(plane is cut for plane in removal)):
        beyond = [plane for plane in own if plane is not cut]
        for choice in product(*(removal for removal in removals if removal is not own)):
            parts.append(_polygon([*blank, *choice, cut], beyond, cut))
    points, there = zip(*parts, strict=True)
    return np.concatenate(points, axis=1), np.concatenate(there, axis=1)


def _polygon(behind: Sequence[Cut], beyond: Sequence[Cut], cut: Cut) -> tuple[Array, Flags]:
    """The corners that lie on the cut, of the convex solid behind some planes and beyond others."""
    normals = [plane.normal for plane in behind] + [-plane.normal for plane in beyond]
    levels = [_level(plane) for plane in behind] + [-_level(plane) for plane in beyond]
    points, corner = _corners(_side_by_side(normals, 2), _side_by_side(levels, 1))
    off = np.abs(dot(points, cut.normal[..., None, :]) - _level(cut)[..., None])
    on = corner & (off <= SAME_IN)
    holds_wood = np.any(corner & ~on, axis=1)
    most = max(3, int(on.sum(axis=1).max()))
    first = np.argsort(~on, axis=1, kind="stable")[:, :most]
    there = np.take_along_axis(on, first, axis=1)
    kept = np.take_along_axis(points, first[..., None], axis=1)
    kept = np.where(there[..., None], kept, kept[:, :1])
    normal = np.broadcast_to(cut.normal, (len(kept), 3))
    return kept, there & (holds_wood & (_area(kept, normal) > SAME_IN))[:, None]


def _level(cut: Cut) -> Array:
    return dot(cut.normal, cut.point)


def _side_by_side(of_planes: Sequence[Array], axes: int) -> Array:
    """What is known of each plane, as one array (n, planes, ...); `axes` of a case and a plane."""
    cases = np.broadcast_shapes(*(each.shape[: each.ndim - axes + 1] for each in of_planes), (1,))
    rows = [
        np.broadcast_to(each, (*cases, *each.shape[each.ndim - axes + 1 :])) for each in of_planes
    ]
    return np.stack(rows, axis=1)


def _corners(normals: Array, levels: Array) -> tuple[Array, Flags]:
    """Where every three planes meet (n, c, 3), and which of these points lie behind all (n, c).

    As `solid.convex_corners` finds them: normals (n, m, 3), levels (n, m).
    """
    one, two, three = threes(levels.shape[1])
    crossed = cross(normals[:, :, None, :], normals[:, None, :, :])
    spanned = dot(normals[:, one], crossed[:, two, three])
    meet = np.abs(spanned) > FLAT
    points = (
        levels[:, one, None] * crossed[:, two, three]
        + levels[:, two, None] * crossed[:, three, one]
        + levels[:, three, None] * crossed[:, one, two]
    ) / np.where(meet, spanned, np.inf)[..., None]
    behind = points @ normals.swapaxes(1, 2) <= levels[:, None, :] + SAME_IN
    return points, meet & np.all(behind, axis=2)


def _area(points: Array, normal: Array) -> Array:
    """Areas of convex polygons whose corners (n, k, 3) stand in no order [square inches] (n,)."""
    spokes = points - points.mean(axis=1, keepdims=True)
    farthest = np.argmax(dot(spokes, spokes), axis=1)
    first = np.take_along_axis(spokes, farthest[:, None, None], axis=1)
    second = cross(np.broadcast_to(normal[:, None, :], first.shape), first)
    turn = np.arctan2(dot(spokes, second), dot(spokes, first))
    order = np.argsort(turn, axis=1)
    round_ = np.take_along_axis(spokes, order[..., None], axis=1)
    total = cross(round_, np.roll(round_, -1, axis=1)).sum(axis=1)
    area: Array = np.sqrt(dot(total, total)) / 2
    return area
