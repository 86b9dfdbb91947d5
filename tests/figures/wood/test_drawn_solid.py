"""Solids and their projections, against a general-purpose solid modeller and the plain cube."""

import manifold3d
import numpy as np
import pytest
import shapely

from figures.wood.drawn_solid import DrawnSolid, box, through
from figures.wood.projection import edges, looking
from figures.wood.unfolded import stick
from tests.views_of import CUTS, NAMES, answers

CUBE = box(np.zeros(3), np.ones(3))


def volume(solid: DrawnSolid) -> float:
    """Volume from the facets alone: a third of the sum of area times distance from the origin."""
    return sum(
        facet.polygon.area * float(facet.flat.normal @ facet.flat.origin) / 3
        for facet in solid.facets
    )


def manifold_of(shown, answer):
    """The same board cut by the modeller: a box, trimmed by each plane, or the union of both."""
    size = (shown.head_in - shown.foot_in, shown.thickness_in, shown.depth_in)
    whole = manifold3d.Manifold.cube(size).translate((shown.foot_in, 0.0, 0.0))
    kept = whole
    for removal in answer.question.joint.removals:
        parts = [
            kept.trim_by_plane(tuple(-cut.normal), float(-(cut.normal @ cut.point)))
            for cut in (answer.cuts[i] for i in removal)
        ]
        kept = manifold3d.Manifold.batch_boolean(parts, manifold3d.OpType.Add)
    return kept


@pytest.mark.parametrize("spec", CUTS, ids=NAMES)
def test_volume_and_silhouette_are_those_of_the_modeller(spec):
    asked = answers(spec)[0]
    shown = stick(asked)
    solid = manifold_of(shown, asked)
    assert volume(shown.solid) == pytest.approx(solid.volume(), rel=1e-6)
    eye = np.array([0.5, -0.7, 0.4])
    view = looking(eye)
    turn = np.stack([view.right, view.up, view.toward])
    turned = solid.transform(np.hstack([turn, np.zeros((3, 1))]))
    assert view.silhouette(shown.solid).area == pytest.approx(turned.project().area(), rel=1e-6)


def test_a_cube_seen_from_a_corner_hides_three_of_its_twelve_edges():
    """Nine edges seen and three hidden; in the isometric view each is sqrt(2/3) long."""
    found = edges(looking(np.array([1.0, 1.0, 1.0])), CUBE)
    seen = sum(each.visible.length for each in found)
    hidden = sum(each.hidden.length for each in found)
    assert seen == pytest.approx(9 * np.sqrt(2 / 3), rel=1e-4)
    assert hidden == pytest.approx(3 * np.sqrt(2 / 3), rel=1e-4)
    view = looking(np.array([1.0, 0.8, 0.6]))
    aside = edges(view, CUBE)
    corner = view.seen(np.eye(3)) - view.seen(np.zeros(3))
    lengths = np.hypot(*corner.T)
    assert sum(each.visible.length for each in aside) == pytest.approx(3 * lengths.sum(), rel=1e-4)
    assert sum(each.hidden.length for each in aside) == pytest.approx(lengths.sum(), rel=1e-4)


def test_a_wall_before_a_cube_hides_what_lies_behind_it():
    view = looking(np.array([0.0, -1.0, 0.0]))
    wall = box(np.array([0.5, -2.0, -1.0]), np.array([3.0, -1.0, 2.0]))
    shown = edges(view, CUBE, [wall])
    right_edges = [
        part
        for each in shown
        for part in shapely.get_parts(each.visible)
        if part.bounds[2] > 0.5 + 1e-6
    ]
    assert not right_edges


def test_a_mark_ends_where_the_other_plane_begins():
    """Planes cross on the top at (0.5, 0.25): a point and a hollow keep other parts of marks."""
    spot = np.array([0.5, 0.25, 0.0])
    slanted = through(np.array([1.0, 1.0, 0.0]) / np.sqrt(2), spot)
    level = through(np.array([0.0, 1.0, 0.0]), spot)
    point = DrawnSolid(CUBE.sides, (slanted, level))
    hollow = DrawnSolid(point.sides, point.cuts, removals=((0, 1),))
    flat = next(f.flat for f in point.facets if f.name == "top")
    assert point.mark(0, flat).length == pytest.approx(0.25 * np.sqrt(2))
    assert hollow.mark(0, flat).length == pytest.approx(0.5 * np.sqrt(2))
    assert point.mark(1, flat).length == pytest.approx(0.5)
    assert hollow.mark(1, flat).length == pytest.approx(0.5)
    # Under y = 1/4 and left of the slanted line; or under either of them.
    assert point.slice(flat).area == pytest.approx(0.25 * (0.75 + 0.5) / 2)
    assert hollow.slice(flat).area == pytest.approx(0.25 + 0.5**2 / 2)
