"""The wood that stays, stood against its mate: they touch over the whole cut and never cross.

The cut board comes from `tests/second_way.py`; the mate is a solid laid in the pose that the
catalogue names for it, with one of its long sides on the plane. Where no side of the mate is
parallel to the plane the two boards mitre, and the mate is cut by the same plane turned round.
Library: manifold3d.
"""

import manifold3d
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.cuts import catalogue
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane
from layout.stock import read_stock
from tests.counts import count
from tests.layout.test_solids import EVERY_END, area, corners, hands, rises, slope_deg
from tests.second_way import Roof, cut_board, posed, second_way, surfaces

MITRES = {
    "fascia-plumb",
    "fascia-square",
    "hip-to-hip",
    "rake-board",
    "roof-board",
    "sleeper-head",
    "splayed-miter",
}
STEP_IN = 1e-5


def long_side(mate, normal):
    """The mate's axis (1 across, 2 up) whose sides are parallel to the plane, or None."""
    along = np.abs(mate.axes @ normal)
    axis = 1 + int(np.argmax(along[1:]))
    return axis if along[axis] > 1 - 1e-12 else None


def posed_roof(name, end, data):
    """A joint in a random roof, and the board that the second way cuts for it."""
    entry = catalogue()[name]
    rise, hand = data.draw(rises), data.draw(hands)
    other = data.draw(st.one_of(st.just(rise), rises))
    angle = data.draw(st.one_of(st.just(entry.usual_corner_deg), corners(entry.meets)))
    stick = second_way(name, end, Roof(rise / 12, other / 12, angle), hand)
    if not stick.reaches:
        return None
    joint = entry.joint(Corner(slope_deg(rise), slope_deg(other), angle, hand), end)
    stock = read_stock(entry.stock)
    return joint, stock, cut_board(stick, (stock.thickness_in, stock.depth_in))


@pytest.mark.parametrize(("name", "end"), EVERY_END)
@settings(derandomize=True, max_examples=count(100, 5), deadline=None)
@given(data=st.data())
def test_the_mate_touches_the_whole_cut_and_crosses_no_wood(name, end, data):
    drawn = posed_roof(name, end, data)
    if drawn is None:
        return
    joint, stock, wood = drawn
    section = stock.thickness_in * stock.depth_in
    for i, (plane, cut) in enumerate(zip(joint.planes, joint.cuts(stock), strict=True)):
        if np.any(np.ptp(cut.span, axis=1) < 1e-9):
            continue  # the other plane leaves this one no surface
        side = long_side(plane.mate, plane.normal)
        assert (side is None) == (name in MITRES), (
            f"no long side of {name}'s {plane.mate_name} lies on the plane: turn the mate's pose,"
            " or enter the cut in MITRES if both boards are cut by the plane"
        )
        surface = joint.pose.to_world(cut.reached())
        if cut.runs_along:
            if np.any(cut.corners()[:, 2] > stock.depth_in) or np.any(cut.corners()[:, 2] < 0):
                continue  # a rip deeper than the board
            head = tuple(joint.pose.head)
            wood = wood.trim_by_plane(head, 0.0).trim_by_plane(tuple(-joint.pose.head), -1.0)
        mate = mitred(plane, surface, stock) if side is None else slab(plane, side, surface)
        pressed = mate.translate(tuple(-STEP_IN * plane.normal))
        mate, pressed = (ended_in_hollow(m, joint, stock, i) for m in (mate, pressed))
        assert (wood ^ mate).volume() < 1e-9 * section
        shown = area(surface) if cut.outline is None else solid_area(wood, joint, cut, stock)
        touching = shown * STEP_IN
        assert (wood ^ pressed).volume() == pytest.approx(touching, rel=0.01)


def slab(plane, side, surface):
    """A slab in the mate's pose, one side on the plane, that covers the cut surface."""
    axes = plane.mate.axes
    middle, spread = surface.mean(axis=0), np.ptp(surface @ axes.T, axis=0)
    low, high = -spread - 1.0, spread + 1.0
    outward = float(axes[side] @ plane.normal) > 0
    low[side], high[side] = (0.0, 3.0) if outward else (-3.0, 0.0)
    box = manifold3d.Manifold.cube(tuple(high - low)).translate(tuple(low))
    return posed(box, axes, middle)


def ended_in_hollow(mate, joint, stock, which):
    """In a hollow each mate ends where the others begin, as two fascias meet in the corner.

    Of a plane that two notches share the mate is an L, as two plates are.
    """
    cuts = joint.cuts(stock)
    parts = []
    for removal in joint.removals:
        if which in removal:
            part = mate
            for other in removal:
                if other != which:
                    at = joint.pose.to_world(cuts[other].point)
                    normal = joint.planes[other].normal
                    part = part.trim_by_plane(tuple(normal), float(normal @ at))
            parts.append(part)
    return sum(parts[1:], parts[0])


def solid_area(wood, joint, cut, stock):
    """Area of a cut's surface that is no rectangle of the section, measured on the solid."""
    found = surfaces(wood, joint.pose.axes, (stock.thickness_in, stock.depth_in))
    return max(found, key=lambda s: float(s.normal @ cut.normal)).area


def mate_end(plane, stock, beyond=0.0):
    """The cut surface of a stick of the same section in the mate's pose, the plane turned round.

    `beyond` makes the stick deeper at either edge [inches].
    """
    turned = Joint(plane.mate, (Plane(-plane.normal, "", plane.mate),))
    (cut,) = turned.cuts(stock)
    low, high = -beyond, stock.depth_in + beyond
    section = [(y, z) for z in (low, high) for y in (0.0, stock.thickness_in)]
    return plane.mate.to_world(np.array([[cut.x_at(y, z), y, z] for y, z in section]))


def mitred(plane, surface, stock):
    """The mitre's other board, its middle on the cut's middle.

    Boards whose pitches differ meet over their thickness, not over their depth: the other
    board is made deeper, so that it covers the cut where both faces meet in one line each.
    """
    theirs = mate_end(plane, stock, beyond=0.0 if plane.mate_name == "twin" else 300.0)
    axes = plane.mate.axes
    low, high = (theirs @ axes.T).min(axis=0), (theirs @ axes.T).max(axis=0)
    low[0], high[0] = low[0] - 9.0, high[0] + 9.0
    box = manifold3d.Manifold.cube(tuple(high - low)).translate(tuple(low))
    stick = posed(box, axes).trim_by_plane(tuple(plane.normal), float(plane.normal @ theirs[0]))
    return stick.translate(tuple(surface.mean(axis=0) - theirs.mean(axis=0)))


@pytest.mark.parametrize("name", sorted(MITRES))
@settings(derandomize=True, max_examples=count(100, 5), deadline=None)
@given(rise=rises, hand=hands, data=st.data())
def test_boards_of_equal_pitch_mitre_edge_to_edge(name, rise, hand, data):
    """With equal pitches both cut surfaces are one figure, to the last corner."""
    entry = catalogue()[name]
    angle = entry.usual_corner_deg
    if name not in ("sleeper-head", "rake-board"):
        angle = data.draw(corners(entry.meets))
    stock = read_stock(entry.stock)
    joint = entry.joint(Corner(slope_deg(rise), slope_deg(rise), angle, hand))
    ours = joint.pose.to_world(joint.cuts(stock)[0].corners())
    theirs = mate_end(joint.planes[0], stock)
    ours, theirs = ours - ours.mean(axis=0), theirs - theirs.mean(axis=0)
    for corner in ours:
        assert np.min(np.max(np.abs(theirs - corner), axis=1)) < 1e-9


@pytest.mark.parametrize("name", sorted(MITRES))
@pytest.mark.parametrize("hand", [1.0, -1.0])
def test_boards_of_equal_pitch_are_mirror_images_in_their_miter(name, hand):
    """The mate runs up to the miter too, so head meets head, top meets top and inner face meets
    inner face: every axis of the one is the other's, seen in the plane of the miter. The mate is
    laid right-handed, so its left face is the mirror image of the right one."""
    entry = catalogue()[name]
    angle = {"hip": 100.0, "either": 250.0}.get(entry.meets, entry.usual_corner_deg)
    if name == "sleeper-head":
        angle = entry.usual_corner_deg
    joint = entry.joint(Corner(25.0, 25.0, angle, hand))
    (plane,) = joint.planes
    mirror = np.eye(3) - 2.0 * np.outer(plane.normal, plane.normal)
    seen = joint.pose.axes @ mirror * np.array([[1.0], [-1.0], [1.0]])
    np.testing.assert_allclose(plane.mate.axes, seen, atol=1e-12)


@pytest.mark.parametrize(("name", "end"), EVERY_END)
def test_mates_of_both_hands_are_mirror_images(name, end):
    """Head and top of a mate in the left cut's roof are those of the right's, seen in a mirror."""
    entry = catalogue()[name]
    angle = {"hip": 100.0, "valley": 250.0, "either": 250.0}.get(entry.meets, 90.0)
    left, right = (entry.joint(Corner(25.0, 35.0, angle, hand), end) for hand in (1.0, -1.0))
    flip = np.array([-1.0, 1.0, 1.0])
    for ours, theirs in zip(left.planes, right.planes, strict=True):
        for axis in (0, 2):
            seen = theirs.mate.axes[axis] * flip
            # a slab is the same slab end for end, but its depth must go the same way
            same = np.abs(seen @ ours.mate.axes[axis]) if axis == 0 else seen @ ours.mate.axes[2]
            assert same == pytest.approx(1.0, abs=1e-12)


RUNS = {
    "post": lambda corner: np.array([0.0, 0.0, 1.0]),
    "beam": lambda corner: corner.inward,
    **dict.fromkeys(
        ("ridge", "plate", "wall", "own wall", "fascia", "own fascia", "soffit"),
        lambda corner: corner.eave,
    ),
    **dict.fromkeys(
        ("other wall", "other fascia", "other roof's board", "next side"),
        lambda corner: corner.other_eave,
    ),
    **dict.fromkeys(("hip", "valley", "deck"), lambda corner: corner.line),
    **dict.fromkeys(
        ("own common", "end rafter", "own sheathing", "sheathing"), lambda corner: corner.upslope
    ),
    **dict.fromkeys(("end common", "other sheathing"), lambda corner: corner.other_upslope),
}
"""Which way a mate lies by its name: a ridge along the eaves, a hip up the line of both roofs."""


@pytest.mark.parametrize(("name", "end"), EVERY_END)
def test_a_mate_runs_as_its_name_says(name, end):
    """What a mate is called says how it stands; common practice, no source. The corner may be
    turned about for the hand, so that either side's lines will do."""
    entry = catalogue()[name]
    angle = {"hip": 100.0, "valley": 250.0, "either": 250.0}.get(entry.meets, 90.0)
    sides = [Corner(25.0, 35.0, angle, hand) for hand in (1.0, -1.0)]
    for plane in entry.joint(sides[0], end).planes:
        if plane.mate_name.startswith(("twin", "through")):
            continue  # the other board of a miter, and the valley from the far corner
        head = plane.mate.head
        off = [1.0 - abs(float(head @ RUNS[plane.mate_name](side))) for side in sides]
        assert min(off) == pytest.approx(0, abs=1e-12), plane.mate_name
