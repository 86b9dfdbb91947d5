"""Which way a saw travels, against a small model of a saw that is set down on the board.

The model knows a saw's own frame alone: it travels ahead, its shoe lies flat, its wide side lies
at the right of a blade-left saw and at the left of a blade-right one (by the names), and tilted,
the lower edge of its blade swings in under the wide side (common practice, no source).
"""

import numpy as np
import pytest

from layout.tools.saw import SawKind
from layout.tools.travel import OUTWARD, SIDES, lean, start_from, travel, wide_side
from tests.counts import count

ONE_WAY = (SawKind.BLADE_LEFT, SawKind.BLADE_RIGHT)
CASES = count(400, 60)


def normals(seed):
    """Unit normals of ends: every octant, and those square to a face or an edge."""
    random = np.random.default_rng(seed)
    found = random.normal(size=(CASES, 3))
    found[::7, 1] = 0.0
    found[1::7, 2] = 0.0
    return found / np.linalg.norm(found, axis=1)[:, None]


def rips(seed):
    found = normals(seed)
    found[:, 0] = 0.0
    found = found[np.linalg.norm(found, axis=1) > 0.1]
    return found / np.linalg.norm(found, axis=1)[:, None]


def model(ahead, up, kind, tilt):
    """The saw set down: where its wide side lies from the line, and where its blade runs below."""
    left = np.cross(up, ahead)
    wide = left if kind == "blade-right" else -left
    return wide, np.cos(tilt) * -up + np.sin(tilt) * wide


def fits(ahead, up, kind, normal):
    """Whether the model, going this way, sweeps the plane: its blade lies in it at its tilt."""
    tilt = np.arcsin(abs(normal @ up))
    _, down = model(ahead, up, kind, tilt)
    return abs(normal @ down) < 1e-9


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("kind", ONE_WAY)
def test_the_saw_goes_the_one_way_in_which_its_blade_lies_in_the_plane(side, kind):
    up = OUTWARD[side]
    for normal in [*normals(3), *rips(4)]:
        line = np.cross(normal, up)
        if np.linalg.norm(line) < 1e-6:
            continue
        line = line / np.linalg.norm(line)
        ways = [way for way in (line, -line) if fits(way, up, kind, normal)]
        way = travel(normal, side, kind)
        if abs(normal @ up) < 1e-9:
            assert len(ways) == 2  # a blade that stands square may go either way
            wide, _ = model(way, up, kind, 0.0)
            assert wide @ normal < 0  # then the wide side rides on the kept wood
            continue
        (right,) = ways
        assert way == pytest.approx(right, abs=1e-9)
        wide, down = model(right, up, kind, np.arcsin(abs(normal @ up)))
        assert wide_side(normal, side) == ("waste" if wide @ normal > 0 else "kept")
        runs = lean(normal, side)
        flat = down + (down @ up) * -up
        assert runs.below == ("under_waste" if flat @ normal > 0 else "under_kept")
        if abs(normal[0]) > 1e-12:
            assert runs.toward == ("head" if down[0] > 0 else "foot")
        else:
            assert runs.toward is None
            assert OUTWARD[runs.toward_side] @ down > 1e-9
            assert runs.toward_side not in (side,)


@pytest.mark.parametrize("kind", ONE_WAY)
def test_one_saw_goes_the_same_way_along_the_depth_from_either_face(kind):
    other = next(one for one in ONE_WAY if one is not kind)
    for normal in normals(5):
        if min(abs(normal[0]), abs(normal[1])) < 1e-6:
            continue
        right, left = (travel(normal, face, kind) for face in ("right", "left"))
        assert np.sign(right[2]) == np.sign(left[2])
        assert np.sign(travel(normal, "right", other)[2]) == -np.sign(right[2])
        assert start_from(normal, "right", kind) == start_from(normal, "left", kind)
        assert start_from(normal, "right", other) != start_from(normal, "right", kind)


def test_where_to_start_is_the_end_the_travel_leaves():
    for normal in [*normals(6), *rips(7)]:
        for side in SIDES:
            for kind in ONE_WAY:
                way = travel(normal, side, kind)
                if way is None:
                    continue
                start = start_from(normal, side, kind)
                axis = {"head": (1, 0, 0), "foot": (-1, 0, 0)}.get(start)
                axis = OUTWARD[start] if axis is None else np.array(axis)
                assert way @ axis < 0
                assert way @ way == pytest.approx(1)
                assert (start in ("head", "foot")) == (abs(normal[0]) < 1e-12)


def test_a_saw_that_tilts_both_ways_may_start_at_either_end():
    assert travel(normals(8)[0], "right", SawKind.BOTH_WAYS) is None
    assert start_from(normals(8)[0], "right", SawKind.BOTH_WAYS) is None


def test_a_blade_that_lies_flat_on_the_surface_has_no_way_to_go():
    assert travel(np.array([0.0, 0.0, 1.0]), "top", SawKind.BLADE_LEFT) is None
