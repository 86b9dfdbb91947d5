"""The miter saw against a model that turns its table and leans its blade over a board laid down."""

import numpy as np
import pytest

from layout.tools.miter import miter_setting
from layout.tools.travel import OUTWARD
from tests.counts import count

CASES = count(400, 80)


def blade(setting):
    """The blade's normal in the saw's frame: right, away, up. The table turns to the left where
    its front, toward the operator, swings left; the blade leans left where its top does."""
    turn = np.radians(setting.table_deg) * {"left": 1, "right": -1, None: 0}[setting.table]
    lean = np.radians(setting.tilt_deg) * {"left": 1, "right": -1, None: 0}[setting.lean]
    front = np.array([-np.sin(turn), -np.cos(turn), 0.0])
    square = np.array([np.cos(turn), -np.sin(turn), 0.0])
    top = np.cos(lean) * np.array([0.0, 0.0, 1.0]) - np.sin(lean) * square
    return np.cross(front, top)


def laid(setting, normal):
    """The board's normal in the saw's frame, from what the setting says of how the board lies."""
    right = np.array([1.0, 0.0, 0.0]) if setting.head == "right" else np.array([-1.0, 0.0, 0.0])
    axes = [right, OUTWARD[setting.fence], OUTWARD[setting.up]]
    assert np.linalg.det(axes) == pytest.approx(1.0)  # no mirror image of the board
    assert (OUTWARD[setting.up] == -OUTWARD[setting.down]).all()
    return np.array(axes) @ normal


@pytest.mark.parametrize("flat", [True, False])
def test_the_blade_lies_in_the_plane(flat):
    random = np.random.default_rng(11)
    for index in range(CASES):
        normal = random.normal(size=3)
        if index % 5 == 0:
            normal[1 + index % 2] = 0.0
        if index % 11 == 0:
            normal[1:] = 0.0
        normal /= np.linalg.norm(normal)
        setting = miter_setting(normal, flat=flat)
        assert setting.up in (("left", "right") if flat else ("top", "bottom"))
        there = laid(setting, normal)
        assert np.linalg.norm(np.cross(blade(setting), there)) == pytest.approx(0, abs=1e-9)
        assert there[0] > 0, "the waste lies at the right"
        assert setting.waste == "right"
        assert setting.lean in ("left", None), "every miter saw leans left"


def test_a_jack_as_the_trade_sets_it():
    """12 in 12 on a square corner (common practice, no source): 45 on the table, 45 of tilt."""
    flat = miter_setting(np.array([0.5, 0.5**0.5, -0.5]), flat=True)
    assert (flat.table_deg, flat.tilt_deg) == (pytest.approx(45), pytest.approx(45))
    edge = miter_setting(np.array([0.5, 0.5**0.5, -0.5]), flat=False)
    assert (edge.table_deg, edge.tilt_deg) == (pytest.approx(54.7356, abs=1e-4), pytest.approx(30))
