"""Boards that lie against each other by hand: over how much, and which counts as the mate."""

import math
from dataclasses import replace

import numpy as np
import pytest

from layout.framing.contact import contacts, mated
from layout.framing.stick import Stick, WasteRegion, plane_at
from layout.plane.pose import lay
from layout.stock import read_stock

Z = np.array([0.0, 0.0, 1.0])
LONG = 20.0


def board(
    name: str, along: np.ndarray, origin: np.ndarray, *more: WasteRegion, toward: np.ndarray = Z
) -> Stick:
    """A 2x6 from `origin`, its lower right arris, 20 in along, square at both ends."""
    pose = lay(along, toward)
    ends = (
        (plane_at(-pose.head, origin, "foot", "foot"),),
        (plane_at(pose.head, origin + LONG * pose.head, "head", "head"),),
    )
    return Stick(name, "post", "", read_stock("2x6"), pose, origin, (*ends, *more), LONG)


WAYS = [
    np.array([math.cos(a) * math.cos(b), math.sin(a) * math.cos(b), math.sin(b)])
    for a, b in ((0, 0), (math.pi, 0), (math.pi / 2, 0), (0.7, 0), (3.9, 0), (0.7, 0.5), (2, -1))
]
each_way = pytest.mark.parametrize("way", WAYS)


@each_way
@pytest.mark.parametrize("turned", [False, True])
def test_a_butt_joint_touches_over_what_both_cover(way: np.ndarray, turned: bool) -> None:
    """The mate stands 2 in higher up the depth: 3 1/2 of 5 1/2 in touch, 1 1/2 in wide; another
    below it touches over 1 1/2 in of the rest. Which of them comes first is all one."""
    one = board("A", way, np.array([3.0, 4.0, 5.0]))
    x, y, z = one.pose.axes
    head = one.origin + LONG * x
    high = board("B", y, head + 1.5 * x - 9 * y + 2 * z, toward=z)  # its right face lies at +x
    low = board("C", -y, head + 9 * y - 5 * z, toward=z)  # its left face does
    assert high.pose.left == pytest.approx(-x)
    sticks = (low, high, one) if turned else (one, high, low)
    found = {(c.stick, c.says, c.mate): c for c in contacts(sticks)}
    assert set(found) == {("A", "head", "B"), ("A", "head", "C")}
    for mate, up in (("B", 3.5), ("C", 0.5)):
        contact = found["A", "head", mate]
        assert contact.area_in2 == pytest.approx(1.5 * up)
        assert contact.share == pytest.approx(up / 5.5)
    told = {s.name: {p.says: p.mate for p in s.planes} for s in mated(sticks)}
    assert told["A"] == {"foot": "", "head": "B"}
    assert told["B"] == told["C"] == {"foot": "", "head": ""}
    assert [s.name for s in mated(sticks)] == [s.name for s in sticks]


@each_way
def test_what_only_meets_in_an_arris_or_faces_the_same_way_is_no_mate(way: np.ndarray) -> None:
    one = board("A", way, np.array([3.0, 4.0, 5.0]))
    x, y, z = one.pose.axes
    head = one.origin + LONG * x
    beside = board("B", y, head + 1.5 * x + 1.5 * y, toward=z)  # from arris to arris
    above = board("C", y, head + 1.5 * x - 9 * y + 5.5 * z, toward=z)
    apart = board("D", y, head + 1.5001 * x - 9 * y, toward=z)
    equal = board("E", x, one.origin)  # at the very same place: both heads look one way
    for other in (beside, above, apart, equal):
        assert contacts((one, other)) == ()
    assert [p.mate for p in mated((one, beside, above, apart, equal))[0].planes] == ["", ""]


def test_planes_through_one_point_are_no_contact_where_they_lean_apart() -> None:
    """Both pass through the middle of the world, so that both have one level; neither has a part
    of its normal up, so that those agree too."""
    x = WAYS[0]
    one = board("A", x, -LONG * x)
    for lean in (0.0, 1e-3, 0.3):
        away = np.array([math.cos(lean), math.sin(lean), 0.0])
        along = np.cross(Z, away)
        mate = board("B", along, 1.5 * away - 9 * along)
        assert mate.pose.left == pytest.approx(-away)
        assert bool(contacts((one, mate))) == (lean == 0.0)


@each_way
def test_both_sides_of_a_notch_touch_what_stands_in_it(way: np.ndarray) -> None:
    """A seat 8 in long and a heel 1 in high, 1 1/2 in thick, on a plate that is 5 1/2 in wide."""
    level = np.array([way[0], way[1], 0.0]) / math.hypot(way[0], way[1])
    one = board("A", level, np.array([3.0, 4.0, 5.0]))
    x, y, z = one.pose.axes
    corner = one.origin + 8 * x + 1 * z
    notch = (plane_at(-z, corner, "seat", "foot"), plane_at(-x, corner, "heel", "foot"))
    one = replace(one, removals=(*one.removals, notch))
    # a 2x6 lies flat under the seat, its edge against the heel
    plate = board("P", y, corner - 9 * y - 5.5 * x - 1.5 * z, toward=x)
    assert plate.pose.left == pytest.approx(z)
    found = {c.says: c for c in contacts((plate, one))}
    assert found["seat"].area_in2 == pytest.approx(1.5 * 5.5)
    assert found["seat"].share == pytest.approx(5.5 / 8)
    assert found["seat"].mate == "P"
    assert found["heel"].area_in2 == pytest.approx(1.5 * 1.0)
