"""The saw set for a cut: what stands beside what it names."""

import pytest
import shapely

from figures.ink.drawing import label_box
from figures.pictures.saw_setting import setting
from tests.wraps import answered


@pytest.mark.parametrize(
    ("cut", "end", "high"), [("hip-backing", "foot", 4.6), ("hip-jack", "head", 9.2)]
)
def test_no_edge_is_named_on_the_motor(cut, end, high):
    """A motor has no top edge: each side of the board is named off the box of the motor, which
    stands over the wide side of the shoe, beside the board where that rides past its edge."""
    made = setting(answered(cut, end), (7.5, high))
    motors = [
        shapely.Polygon(stroke.points)
        for stroke in made.strokes
        if (stroke.gid or "").endswith("above.motor")
    ]
    sides = [one for one in made.labels if one.text in ("top edge", "bottom edge")]
    assert len(sides) == 2 * len(motors) > 0
    for one in sides:
        assert not any(label_box(one).intersects(motor) for motor in motors)
