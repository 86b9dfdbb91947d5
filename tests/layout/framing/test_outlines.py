"""Outlines that have a name stand where they say: their front on Y = 0, their left on X = 0."""

import pytest

from layout.framing.outlines import bay_end, ell, rectangle, shed, tee
from layout.quantity import read_pitch

P = read_pitch("8")


@pytest.mark.parametrize(
    ("made", "low", "high"),
    [
        (lambda: rectangle(240, 160, P), (0, 0), (240, 160)),
        (lambda: rectangle(240, 160, P, None, ("bay", "bay")), (0, 0), (240, 160)),
        (lambda: bay_end(120, 150, P), (0, 0), (120 + 150 * (2**0.5 - 1) / 2**0.5, 150)),
        (lambda: shed(140, 110, P), (0, 0), (140, 110)),
        (lambda: ell(330, 200, 130, 140, P), (0, -130), (330, 200)),
        (lambda: tee(330, 200, 90, 70, 120, P), (0, -70), (330, 200)),
        (lambda: tee(330, 200, 0.5, 70, 120, P), (0, -70), (330, 200)),
    ],
    ids=["rectangle", "bays", "bay end", "shed", "ell", "tee", "tee near a corner"],
)  # fmt: skip
def test_overall_size_and_place(made, low, high):
    """An octagon's side is sqrt 2 - 1 of its width: half a turn in eight equal ones."""
    outline = made()
    assert outline.corners.min(axis=0) == pytest.approx(low, abs=1e-9)
    assert outline.corners.max(axis=0) == pytest.approx(high, abs=1e-9)
    front = next(k for k, wall in enumerate(outline.walls) if wall.name == "front")
    assert outline.corners[front][1] == pytest.approx(0, abs=1e-9)
