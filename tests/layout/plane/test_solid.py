"""Solids behind planes, against boxes by hand and a general-purpose mesh library (manifold3d)."""

from dataclasses import dataclass

import manifold3d
import numpy as np
import pytest

from layout.plane.solid import Solid, beyond_in, convex_corners, going_round, polygon_area

SIZE = (6.0, 1.5, 4.0)


@dataclass(frozen=True, eq=False)
class Half:
    """A plane by its normal and how far it lies along it."""

    normal: np.ndarray
    level_in: float


def half(way, level):
    normal = np.array(way, dtype=float)
    size = np.linalg.norm(normal)
    return Half(normal / size, level / size)


def box(size=SIZE):
    ways = np.vstack([np.eye(3), -np.eye(3)])
    return tuple(half(way, level) for way, level in zip(ways, (*size, 0, 0, 0), strict=True))


def meshed(removals):
    """The same wood by the library: a cube less what lies beyond all planes of each removal."""
    wood = manifold3d.Manifold.cube(SIZE)
    for removal in removals:
        waste = manifold3d.Manifold.cube(SIZE)
        for plane in removal:
            waste = waste.trim_by_plane(tuple(plane.normal), plane.level_in)
        wood = wood - waste
    return wood


def area_on(wood, plane):
    """The area of a mesh on a plane, looking out of the wood."""
    mesh = wood.to_mesh64()
    corners = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    twice = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    on = np.all(np.abs(corners @ plane.normal - plane.level_in) < 1e-7, axis=1)
    return float(np.linalg.norm(twice[on & (twice @ plane.normal > 0)], axis=1).sum()) / 2


END = (half((1, 0.4, -0.3), 4.0),)
NOTCH = (half((0, 0, -1), -1.25), half((1, 0, 0), 2.0))
ROUND = (half((0, 0, 1), 2.5), half((1, 1, 0), 2.25), half((1, -1, 0), 0.75))


@pytest.mark.parametrize(
    "removals", [(END,), (NOTCH,), (ROUND,), (END, NOTCH), (END, NOTCH, ROUND)]
)
def test_surfaces_are_those_of_a_mesh(removals):
    """Of one removal's planes, where no two polygons overlap; their corners lie on the plane."""
    solid, wood = Solid(box(), removals), meshed(removals)
    for plane in (p for removal in removals for p in removal):
        polygons = solid.surfaces(plane)
        assert solid.surfaces(plane) is polygons
        for polygon in polygons:
            np.testing.assert_allclose(beyond_in(plane, polygon), 0, atol=1e-9)
        if len(removals) == 1:
            found = sum(polygon_area(polygon) for polygon in polygons)
            assert found == pytest.approx(area_on(wood, plane), rel=1e-9)
    hulls = [manifold3d.Manifold.hull_points(part) for part in solid.part_corners]
    parts = sum(hulls[1:], hulls[0])
    assert parts.volume() == pytest.approx(wood.volume(), rel=1e-9)
    assert (parts - wood).volume() == pytest.approx(0, abs=1e-9)


def test_a_face_of_the_blank_is_what_its_removals_leave():
    """The end at x = 6 of a board that is notched there: 1.5 wide, 4 less 1.25 high."""
    solid = Solid(box(), (NOTCH,))
    end = solid.blank[0]
    assert sum(map(polygon_area, solid.surfaces(end))) == pytest.approx(1.5 * 2.75)
    assert len(solid.pieces) == 2
    assert [len(part) for part in solid.part_corners] == [8, 8]


def test_corners_of_a_box_are_said_once():
    solid = Solid(box(), ())
    (corners,) = solid.part_corners
    assert len(corners) == 8
    assert {tuple(corner) for corner in np.round(corners, 9).tolist()} == {
        (x, y, z) for x in (0, 6) for y in (0, 1.5) for z in (0, 4)
    }
    # Planes said again, or that only touch a corner, add none; one that is past it leaves nothing.
    touching = (*box(), box()[0], half((1, 1, 1), 11.5))
    again = convex_corners(
        np.array([p.normal for p in touching]), np.array([p.level_in for p in touching])
    )
    assert len(again) == 8
    none = (*box(), half((1, 0, 0), -1.0))
    assert not len(
        convex_corners(np.array([p.normal for p in none]), np.array([p.level_in for p in none]))
    )


def test_a_part_that_is_flat_has_no_surface():
    """A cut along the very end takes nothing, and one along the other end leaves nothing."""
    for level, count in ((6.0, 1), (0.0, 0)):
        plane = half((1, 0, 0), level)
        assert len(Solid(box(), ((plane,),)).surfaces(plane)) == count


@pytest.mark.parametrize("drawn", [(), (0,), (0, 1, 2, 3)])
def test_wood_behind_the_same_planes_is_the_same_wood(drawn):
    """Two notches that share a plane; over there each has one of its own, and less surface on it
    than both have together. Whatever was found before, nothing is found otherwise."""
    shared, low, high = half((1, 0, 0), 3.0), half((0, 0, -1), -1.0), half((0, 0, 1), 3.0)
    first = Solid(box(), ((shared, low), (shared, high)))
    _ = first.part_corners if drawn else None
    for which in drawn:
        first.surfaces((shared, low, high, first.blank[0])[which])
    again = tuple(tuple(Half(p.normal, p.level_in) for p in group) for group in first.removals)
    same, fresh = first.with_planes(again), Solid(first.blank, again)
    for plane in (*first.blank, *(p for group in again for p in group)):
        for ours, theirs in zip(same.surfaces(plane), fresh.surfaces(plane), strict=True):
            np.testing.assert_array_equal(ours, theirs)
    np.testing.assert_array_equal(same.part_corners, fresh.part_corners)
    if drawn == (0, 1, 2, 3):  # what was found is not found again
        assert same.surfaces(again[0][1]) is first.surfaces(low)
        assert same.surfaces(again[1][1]) is first.surfaces(high)
        assert same.part_corners is first.part_corners
    apart = [len(same.surfaces(group[0])) for group in again]
    assert min(apart) > 0
    assert len(first.surfaces(shared)) == sum(apart)


def test_a_polygon_goes_round_and_has_its_area():
    drawn = np.random.default_rng(3)
    angles = np.sort(drawn.uniform(0, 2 * np.pi, 7))
    one, two = np.array([0.6, 0.8, 0.0]), np.array([0.0, 0.0, 1.0])
    normal = np.cross(one, two)
    ring = 3 * np.cos(angles)[:, None] * one + 3 * np.sin(angles)[:, None] * two + [5.0, 6.0, 7.0]
    mixed = ring[drawn.permutation(7)]
    ordered = going_round(mixed, normal)
    at = int(np.argmin(np.abs(ring - ordered[0]).max(axis=1)))
    np.testing.assert_allclose(ordered, np.roll(ring, -at, axis=0), atol=1e-12)
    # By the shoelace rule, over the angles at the middle.
    gaps = np.diff([*angles, angles[0] + 2 * np.pi])
    assert polygon_area(ordered) == pytest.approx(4.5 * np.sin(gaps).sum())
    assert polygon_area(np.array([[0.0, 0, 0], [3, 0, 0], [3, 0, 4]])) == pytest.approx(6)
