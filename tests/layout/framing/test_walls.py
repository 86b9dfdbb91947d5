"""Walls as they are walked: what closes, what is refused, and what is changed to close."""

import numpy as np
import pytest

from layout.errors import FrameError
from layout.framing.outlines import equal_sided, tee
from layout.framing.walls import Wall, walk
from layout.quantity import read_pitch

P = read_pitch("8")


def eave(length, turn=90.0):
    return Wall(length, turn, "eave", P)


def test_a_walk_ends_where_it_began():
    for count in (3, 5, 8, 24):
        outline = equal_sided(count, 77.7, P)
        last = outline.corners[-1] + 77.7 * outline.along[-1]
        assert last == pytest.approx(outline.corners[0], abs=1e-9)
        assert [outline.interior_deg(k) for k in range(count)] == pytest.approx(
            [180 - 360 / count] * count
        )
        # from the middle of the outline every wall is as far as half a side over tan(180 / n)
        middle = outline.corners.mean(axis=0)
        inside = ((middle - outline.corners) * outline.inward).sum(axis=1)
        assert inside == pytest.approx([77.7 / 2 / np.tan(np.pi / count)] * count)


def test_a_clockwise_walk_is_read_backward():
    lengths, turns = (100, 60, 40, 50, 60, 110), (-90, -90, 90, -90, -90, -90)
    there = [eave(*each) for each in zip(lengths, turns, strict=True)]
    outline = walk(there)
    assert sum(wall.turn_deg for wall in outline.walls) == pytest.approx(360)
    assert outline.walls[0].name == "wall 6"
    x, y = outline.corners.T
    area = 0.5 * (x @ np.roll(y, -1) - y @ np.roll(x, -1))
    assert area == pytest.approx(100 * 60 + 60 * 50)  # counterclockwise: the area is plus


@pytest.mark.parametrize(
    ("walls", "says"),
    [
        ([eave(240), eave(160), eave(240), eave(159)],
         r"do not close: they end 0'-1\" from .* wall 4 13'-4\" instead of 13'-3\"|"
         r"do not close: they end 0'-1\" from .* wall 2 13'-3\" instead of 13'-4\""),
        ([eave(240), eave(160), eave(230), eave(155)],
         r"do not close: .* would close with wall . .* and wall . .* instead of"),
        ([eave(240), eave(160), eave(240), eave(160, 80)],
         r"turns come to 350 deg, 10 too few.*turn after wall 4 would be 90 instead of 80"),
        ([eave(240), eave(160)], "2 walls make no building"),
        ([eave(240)] * 25, "25 walls"),
        ([eave(240), eave(160), eave(0), eave(160)], "wall 3 is 0 in long"),
        ([eave(240), eave(160), eave(240, 175), eave(160, 5)], "turns by 175 deg"),
        ([Wall(240, 90, "gable", P), eave(160), eave(240), eave(160)], "a gable and has a pitch"),
        ([Wall(240, 90, "eave"), eave(160), eave(240), eave(160)], "an eave and has no pitch"),
        ([eave(300), eave(200), eave(250), eave(50), eave(200, -90), eave(100, -90),
          eave(150, -90), eave(120), eave(100), eave(170)], "wall 3 and wall 8 cross or touch|"
         "wall 4 and wall 9 cross or touch|wall 5 and wall 8 cross or touch"),
    ],
)  # fmt: skip
def test_what_is_no_outline_says_why(walls, says):
    with pytest.raises(FrameError, match=says) as caught:
        walk(walls)
    assert "\n" not in str(caught.value)


def test_sixteenths_are_closed_and_said():
    """A bay measured to a sixteenth misses by less than an eighth: the least change closes it."""
    side = 79.5  # 192 tan 22.5 = 79.529
    bay = [eave(side, 45)] * 3
    outline = walk([eave(200, 45), *bay, eave(200), eave(192)])
    assert len(outline.said) == 1
    assert "missed closing by" in outline.said[0]
    lengths = np.array([wall.length_in for wall in outline.walls])
    assert np.abs(lengths @ outline.along).max() < 1e-9
    changed = np.abs(lengths - [200, side, side, side, 200, 192])
    assert changed.max() < 0.1
    assert (changed > 1e-9).sum() <= 2


def test_a_t_has_no_wing_at_its_corner():
    with pytest.raises(FrameError, match="ask for an L"):
        tee(300, 200, 0, 100, 120, P)


def test_the_same_walls_are_changed_at_any_size():
    """A rectangle out both ways and the same one 1 : 100, its walls shorter than an inch."""
    lengths = np.array([90, 50, 89.98, 49.99])
    full, small = (walk([eave(x) for x in scale * lengths]) for scale in (1, 0.01))
    assert full.corners[2] == pytest.approx(full.corners[1] + full.corners[3])
    assert small.corners == pytest.approx(full.corners / 100, abs=1e-6)


def test_what_was_missed_is_said_in_a_rules_fractions():
    outline = walk([eave(240), eave(160), eave(240), eave(160 - 3 / 64)])
    assert "missed closing by 3/64 in" in outline.said[0]


def test_no_wall_is_closed_to_less_than_nothing():
    """15 in too far west: the first wall, 10 in and westward, has none to give; another gives."""
    turns = (-90, 90, 90, 90, 90, 90)
    lengths = (10, 50, 105, 110, 100, 60)
    walls = [eave(*each) for each in zip(lengths, turns, strict=True)]
    with pytest.raises(FrameError, match="would close with") as caught:
        walk(walls)
    assert "wall 3 7'-6\" instead of 8'-9\"" in str(caught.value)
