"""Mitres, and the part of the section that each of two planes shapes."""

from dataclasses import replace

import manifold3d
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.cuts import find
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane, mitre
from layout.plane.pose import lay
from layout.stock import read_stock
from layout.tools.fit import fit
from layout.vector import X, Y, Z
from tests.counts import count
from tests.second_way import surfaces

SETTINGS = settings(derandomize=True, max_examples=count(300, 20), deadline=None)
STOCK = read_stock("2x6")
SIZE = (STOCK.thickness_in, STOCK.depth_in)
BOARD = lay(X, Z)
ROOT = np.sqrt(0.5)


def two(first, second, *, through=(0.5, 0.0), point=True, roll=0.0):
    planes = (Plane(np.array(n) / np.linalg.norm(n), "", BOARD, through) for n in (first, second))
    return Joint(BOARD, tuple(planes), point=point).rolled(roll)


def test_two_boards_at_a_right_angle_mitre_at_45():
    """Outer faces look south and west, the own board's head points west."""
    np.testing.assert_allclose(mitre(-Y, -X, -X), [-ROOT, ROOT, 0])


@SETTINGS
@given(*(st.floats(-1, 1) for _ in range(6)))
def test_both_faces_lie_alike_to_a_mitre(a, b, c, d, e, f):
    """The plane leans equally from both outer faces, and holds the line in which they meet."""
    ours, theirs = np.array([a, b, c]), np.array([d, e, f])
    if min(np.linalg.norm(ours), np.linalg.norm(theirs)) < 0.1:
        return
    ours, theirs = ours / np.linalg.norm(ours), theirs / np.linalg.norm(theirs)
    if np.linalg.norm(ours - theirs) < 0.01:
        return
    normal = mitre(ours, theirs, X)
    assert normal @ ours == pytest.approx(-(normal @ theirs), abs=1e-12)
    assert normal @ np.cross(ours, theirs) == pytest.approx(0, abs=1e-12)
    assert normal[0] >= 0


def test_boards_in_line_butt_square():
    np.testing.assert_array_equal(mitre(-Y, -Y, X), X)
    both = mitre(np.array([-Y, -Y]), np.array([-Y, -X]), np.array([X, -X]))
    np.testing.assert_allclose(both, [[1, 0, 0], [-ROOT, ROOT, 0]])


def test_a_single_plane_shapes_the_whole_section():
    (cut,) = Joint(BOARD, (Plane(X, "", BOARD, (1.0, 1.0)),)).cuts(STOCK)
    assert cut.span.tolist() == [[0, 1.5], [0, 5.5]]
    assert cut.point.tolist() == [0, 1.5, 5.5]


@pytest.mark.parametrize("point", [True, False])
def test_two_cheeks_share_the_thickness(point):
    """A point: the left cheek, facing left, lies at the left. A hollow: at the right."""
    left, right = two((1, 1, 0), (1, -1, 0), point=point).cuts(STOCK)
    halves = [[0.75, 1.5], [0, 0.75]] if point else [[0, 0.75], [0.75, 1.5]]
    assert [cut.span[0].tolist() for cut in (left, right)] == halves
    assert left.span[1].tolist() == right.span[1].tolist() == [0, 5.5]


@pytest.mark.parametrize("point", [True, False])
def test_two_planes_may_share_the_depth(point):
    up, down = two((1, 0, 1), (1, 0, -1), through=(0.0, 0.25), point=point).cuts(STOCK)
    parts = [[1.375, 5.5], [0, 1.375]] if point else [[0, 1.375], [1.375, 5.5]]
    assert [cut.span[1].tolist() for cut in (up, down)] == parts
    assert up.span[0].tolist() == down.span[0].tolist() == [0, 1.5]


def test_planes_that_meet_aslant_are_measured_over_the_whole_section():
    """Rolled, two cheeks meet in a line that runs across the section: no rectangle is theirs."""
    for cut in two((1, 1, 0), (1, -1, 0), roll=20.0).cuts(STOCK):
        assert cut.span.tolist() == [[0, 1.5], [0, 5.5]]
    # a quarter turn brings the line up the depth's way again
    left, right = two((1, 1, 0), (1, -1, 0), through=(0.5, 0.5), roll=90.0).cuts(STOCK)
    assert sorted([left.span[1].tolist(), right.span[1].tolist()]) == [[0, 2.75], [2.75, 5.5]]


def test_a_plane_past_another_leaves_no_surface():
    """Two ends an inch apart: the nearer one is the end, of the other one no wood is left."""
    far, near = (Plane(X, "", BOARD, at_in=np.array([x, 0.0, 0.0])) for x in (1.0, 0.0))
    none, whole = Joint(BOARD, (far, near)).cuts(STOCK)
    assert none.span.tolist() == [[0, 0], [0, 0]]
    assert none.outline == ()
    assert whole.span.tolist() == [[0, 1.5], [0, 5.5]]


def test_a_single_rip_needs_no_other_plane():
    """Its strip lies over the whole thickness; grouped, it is cut out of the solid: the same."""
    bevel = Plane(np.array([0.0, -0.6, 0.8]), "", BOARD, (0.0, 0.9))
    (alone,) = Joint(BOARD, (bevel,), rip=True).cuts(STOCK)
    (told,) = Joint(BOARD, (bevel,), point=False, rip=True, grouped=((0,),)).cuts(STOCK)
    assert alone.span.tolist() == [[0, 1.5], [0, 5.5]]
    assert alone.outline is None
    assert told.outline is not None
    # From 4.95 in up the right face it climbs 3/4 in an inch, and leaves the top at 0.7333 in.
    np.testing.assert_allclose(told.span, [[0, 0.55 * 4 / 3], [4.95, 5.5]])


def test_planes_past_others_leave_no_surface_in_arrays():
    """Two boards at once: of one the second end is the nearer, of the other the first."""
    ways = np.array([X, X])
    first = Plane(ways, "", BOARD, at_in=np.array([[1.0, 0.0, 0.0], [-1.0, 0.0, 0.0]]))
    second = Plane(ways, "", BOARD, at_in=np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 0.0]]))
    cuts = Joint(BOARD, (first, second)).cuts(STOCK)
    whole, none = [[0, 1.5], [0, 5.5]], [[0, 0], [0, 0]]
    assert [cut.span.tolist() for cut in cuts] == [[none, whole], [whole, none]]
    for cut in cuts:
        gaps = fit(cut, np.array([[0.6, 0.8, 0.0]] * 2)).widest_in
        assert sorted(gaps > 0.5) == [False, True]


def test_a_plane_may_say_what_it_shapes():
    plane = Plane(X, "", BOARD, (0.0, 0.25), ((0.0, 1.0), (0.0, 0.25)))
    other = Plane(Z, "", BOARD, (0.0, 0.25), ((0.0, 0.5), (0.0, 1.0)))
    first, second = Joint(BOARD, (plane, other), point=False).cuts(STOCK)
    assert first.span.tolist() == [[0, 1.5], [0, 1.375]]
    assert second.span.tolist() == [[0, 0.75], [0, 5.5]]


def test_what_one_of_two_planes_says_holds_for_the_joint():
    """Where one says what it shapes, the other shapes all that it does not say otherwise; where
    one says its point outright, both surfaces are found from the solid."""
    cheek = Plane(np.array([ROOT, ROOT, 0.0]), "", BOARD, (0.5, 0.0))
    told = replace(cheek, normal=np.array([ROOT, -ROOT, 0.0]), shapes=((0.0, 0.25), (0.0, 1.0)))
    for planes in ((cheek, told), (told, cheek)):
        spans = {cut.span[0, 1] for cut in Joint(BOARD, planes).cuts(STOCK)}
        assert spans == {1.5, 0.375}
    placed = replace(told, shapes=None, at_in=np.array([0.0, 0.75, 0.0]))
    for planes in ((cheek, placed), (placed, cheek)):
        cuts = Joint(BOARD, planes).cuts(STOCK)
        assert all(cut.outline for cut in cuts)
        halves = sorted(cut.span[0].tolist() for cut in cuts)
        np.testing.assert_allclose(halves, [[0, 0.75], [0.75, 1.5]], atol=1e-12)


@SETTINGS
@given(
    *(st.floats(-1.5, 1.5) for _ in range(3)),
    st.booleans(),
    st.floats(0.1, 0.9),
)
def test_the_parts_are_the_surfaces_of_the_solid(left, right, top, point, across):
    """Two cheeks that meet in a line up the depth, against a solid. Library: manifold3d.

    Both hold the line (top, 0, 1), so normals are (1, -lean, -top).
    """
    if abs(left - right) < 0.05:
        return
    joint = two((1, left, -top), (1, right, -top), through=(across, 0.0), point=point)
    board = manifold3d.Manifold.cube((60.0, *SIZE)).translate((-30, 0, 0))
    waste = board
    for plane in joint.planes:
        level = float(plane.normal @ [0, across * SIZE[0], 0])
        if point:
            board = board.trim_by_plane(tuple(-plane.normal), -level)
        waste = waste.trim_by_plane(tuple(plane.normal), level)
    found = surfaces(board if point else board - waste, np.eye(3), SIZE)
    for cut in joint.cuts(STOCK):
        surface = max(found, key=lambda s: float(s.normal @ cut.normal))
        assert surface.points[:, 1].min() == pytest.approx(cut.span[0, 0], abs=1e-9)
        assert surface.points[:, 1].max() == pytest.approx(cut.span[0, 1], abs=1e-9)


def test_arrays_of_joints_are_their_joints_one_by_one():
    first = np.array([[1.0, 1.0, 0.2], [1.0, 0.3, 0.2]])
    second = np.array([[1.0, -1.0, 0.2], [1.0, -0.5, 0.2]])
    first, second = (n / np.linalg.norm(n, axis=-1)[:, None] for n in (first, second))
    across = np.array([0.5, 0.25])
    planes = tuple(Plane(n, "", BOARD, (across, 0.0)) for n in (first, second))
    many = Joint(BOARD, planes).cuts(STOCK)
    for index in range(2):
        planes = (Plane(n[index], "", BOARD, (across[index], 0.0)) for n in (first, second))
        for ours, one in zip(many, Joint(BOARD, tuple(planes)).cuts(STOCK), strict=True):
            np.testing.assert_array_equal(ours.span[index], one.span)
            np.testing.assert_array_equal(ours.corners()[index], one.corners())


@pytest.mark.parametrize("name", ["hip-seat", "valley-seat"])
@pytest.mark.parametrize("board", ["1x6", "2x6", "4x8"])
def test_surfaces_of_many_joints_are_those_of_each(name, board):
    """Two ways to one surface: a notch round a corner found by arrays, and one solid at a time."""
    entry, stock = find(name), read_stock(board)
    drawn = np.random.default_rng(11)
    cases = count(60, 6)
    turn = 180.0 if name == "valley-seat" else 0.0
    roofs = (
        drawn.uniform(2, 60, cases),
        drawn.uniform(2, 60, cases),
        drawn.uniform(30, 150, cases) + turn,
        np.ones(cases),
    )
    corner = Corner(*(part[entry.has_place(Corner(*roofs))] for part in roofs))
    many = entry.joint(corner)
    cases = len(corner.slope_deg)
    together = many.cuts(stock)
    gaps = []
    for case, one in enumerate(many.each(cases)):
        for cut, alone in zip(together, one.cuts(stock), strict=True):
            assert cut.span[case] == pytest.approx(alone.span, abs=1e-9)
            (corners,) = (points[case] for points in cut.outline)
            sole = np.concatenate([*alone.outline, np.empty((0, 3))])
            apart = np.linalg.norm(corners[:, None, :] - sole[None, :, :], axis=-1)
            if len(sole):
                # Every corner of the one is a corner of the other.
                assert apart.min(axis=0).max() < 1e-7
                assert apart.min(axis=1).max() < 1e-7
            made = alone.normal + np.array([0.01, -0.02, 0.015])
            made = made / np.linalg.norm(made)
            widest = fit(cut, np.broadcast_to(made, (cases, 3))).widest_in[case]
            assert widest == pytest.approx(float(fit(alone, made).widest_in), abs=1e-9)
            gaps.append(widest)
    assert max(gaps) > 0.01


def test_joints_of_arrays_come_apart_one_by_one():
    """What a joint of arrays holds of a case is what the case's own corner builds."""
    slopes = np.array([20.0, 35.0, 50.0])
    entry = find("valley-backing")
    for case, one in enumerate(entry.joint(Corner(slopes, 30.0, 270.0, 1.0)).each(3)):
        alone = entry.joint(Corner(float(slopes[case]), 30.0, 270.0, 1.0))
        np.testing.assert_allclose(one.pose.axes, alone.pose.axes, atol=1e-15)
        assert one.unit_run == pytest.approx(float(alone.unit_run), abs=1e-15)
        for ours, theirs in zip(one.planes, alone.planes, strict=True):
            np.testing.assert_allclose(ours.normal, theirs.normal, atol=1e-15)
            np.testing.assert_allclose(ours.mate.axes, theirs.mate.axes, atol=1e-15)
            assert [float(part) for part in ours.through] == list(theirs.through)
        for ours, theirs in zip(one.bevels, alone.bevels, strict=True):
            np.testing.assert_allclose(ours, theirs, atol=1e-15)
