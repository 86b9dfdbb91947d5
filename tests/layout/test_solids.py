"""Every cut of the catalogue against a solid board that is cut in the world.

The solid and its cutting planes come from `tests/second_way.py`, which knows nothing of
`layout`; the marks and tilts are then measured on the mesh. Library: manifold3d.
"""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.cuts import catalogue
from layout.errors import CutError
from layout.plane.corner import Corner
from layout.stock import read_stock
from tests.counts import count
from tests.second_way import (
    WAYS,
    Roof,
    cut_board,
    mark_from_square,
    second_way,
    surfaces,
    tilt_from_square,
)

SAME = 1e-9
SAME_DEG = float(np.degrees(1e-9))
EVERY_END = [(name, end) for name, entry in catalogue().items() for end in entry.ends]
CORNERS = {"hip": (60.0, 150.0), "valley": (210.0, 300.0)}

rises = st.floats(0.5, 24.0)
hands = st.sampled_from((1.0, -1.0))


def corners(meets):
    if meets == "either":
        return st.one_of(*(st.floats(*CORNERS[kind]) for kind in CORNERS))
    return st.floats(*CORNERS.get(meets, (60.0, 150.0)))


def slope_deg(rise):
    return float(np.degrees(np.arctan2(rise, 12.0)))


def test_every_entry_has_a_second_way():
    """A cut without one fails here and tells where to write it."""
    for name, end in EVERY_END:
        second_way(name, end, Roof(0.5, 0.5, catalogue()[name].usual_corner_deg), 1.0)
    assert set(WAYS) == set(EVERY_END), "a second way of a cut that the catalogue does not have"


@pytest.mark.parametrize(("name", "end"), EVERY_END)
@settings(derandomize=True, max_examples=count(200, 6), deadline=None)
@given(data=st.data())
def test_marks_and_tilts_are_those_of_the_solid(name, end, data):
    entry = catalogue()[name]
    rise, other, hand = data.draw(rises), data.draw(rises), data.draw(hands)
    other = data.draw(st.sampled_from((rise, other)))
    angle = data.draw(st.one_of(st.just(entry.usual_corner_deg), corners(entry.meets)))
    roof = Roof(rise / 12, other / 12, angle)
    corner = Corner(slope_deg(rise), slope_deg(other), angle, hand)
    stick = second_way(name, end, roof, hand)
    if not stick.reaches:
        with pytest.raises(CutError, match=name):
            entry.joint(corner, end)
        return
    joint = entry.joint(corner, end)
    stock = read_stock(entry.stock)
    size = (stock.thickness_in, stock.depth_in)
    np.testing.assert_allclose(joint.pose.axes, stick.axes, atol=SAME)
    found = surfaces(cut_board(stick, size), stick.axes, size)
    cuts = joint.cuts(stock)
    found = [surface for surface in found if surface.area > 1e-9]
    shown = [cut for cut in cuts if np.all(np.ptp(cut.span, axis=1) > 1e-9)]
    assert len(cuts) == len(stick.planes)
    assert len(found) == len(shown)
    for cut in shown:
        surface = max(found, key=lambda s: float(s.normal @ cut.normal))
        np.testing.assert_allclose(cut.normal, surface.normal, atol=SAME)
        _compare_marks(cut, surface, size)
        _compare_corners(cut, surface, stock)


def _compare_marks(cut, surface, size):
    read = 0
    for level in (0.0, size[0]):
        mark, tilt = mark_from_square(surface, 1, level, 2), tilt_from_square(surface, 1, level)
        if mark is not None:
            assert cut.face_mark_deg == pytest.approx(mark, abs=SAME_DEG)
            assert cut.face_tilt_deg == pytest.approx(tilt, abs=SAME_DEG)
            read += 1
    for level in (0.0, size[1]):
        mark, tilt = mark_from_square(surface, 2, level, 1), tilt_from_square(surface, 2, level)
        if mark is not None:
            assert cut.edge_mark_deg == pytest.approx(mark, abs=SAME_DEG)
            assert cut.edge_tilt_deg == pytest.approx(tilt, abs=SAME_DEG)
            read += 1
    assert read, "the cut reaches no side of the board"


def _compare_corners(cut, surface, stock):
    """The part of the section that the cut shapes is the surface that the solid shows."""
    inside = cut.reached()
    if np.any(inside[:, 2] > stock.depth_in + 1e-9) or np.any(inside[:, 2] < -1e-9):
        return  # a rip deeper than the board: the solid has a narrower face
    if cut.outline is not None:
        low, high = surface.points.min(axis=0), surface.points.max(axis=0)
        np.testing.assert_allclose(cut.span, np.stack([low, high], axis=1)[1:], atol=1e-7)
        seen = int(np.argmax(np.abs(cut.normal)))
        flat = [shapely.Polygon(np.delete(part, seen, axis=1)) for part in cut.outline]
        whole = shapely.unary_union(flat).area / abs(cut.normal[seen])
        assert whole == pytest.approx(surface.area, rel=1e-6)
        return
    axes = [1, 2] if cut.runs_along else [0, 1, 2]
    for point in inside[:, axes]:
        nearest = np.min(np.max(np.abs(surface.points[:, axes] - point), axis=1))
        assert nearest < 1e-8
    length = float(np.ptp(surface.points[:, 0])) if cut.runs_along else 1.0
    assert area(inside) * length == pytest.approx(surface.area, rel=1e-9)


def area(polygon):
    first, *rest = polygon
    parts = [np.cross(p - first, q - first) for p, q in pairwise(rest)]
    return float(np.linalg.norm(np.sum(parts, axis=0)) / 2)
