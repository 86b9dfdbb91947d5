"""Outlines that have a name stand where they say: their front on Y = 0, their left on X = 0."""

import pytest

from layout.errors import FrameError
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
        (lambda: tee(330, 200, 209.5, 70, 120, P), (0, -70), (330, 200)),
        (lambda: bay_end(0.5, 150, P), (0, 0), (0.5 + 150 * (2**0.5 - 1) / 2**0.5, 150)),
    ],
    ids=["rectangle", "bays", "bay end", "shed", "ell", "tee", "tee near a corner",
         "tee near the other corner", "all bay"],
)  # fmt: skip
def test_overall_size_and_place(made, low, high):
    """An octagon's side is sqrt 2 - 1 of its width: half a turn in eight equal ones."""
    outline = made()
    assert outline.corners.min(axis=0) == pytest.approx(low, abs=1e-9)
    assert outline.corners.max(axis=0) == pytest.approx(high, abs=1e-9)
    front = next(k for k, wall in enumerate(outline.walls) if wall.name == "front")
    assert outline.corners[front][1] == pytest.approx(0, abs=1e-9)


def test_every_wall_lies_where_its_name_says():
    """Front is low Y, back high Y, left low X, right high X, as seen from the middle."""
    bays = rectangle(240, 160, P, None, ("bay", "bay"))
    count = len(bays.walls)
    middle = bays.corners.mean(axis=0)
    found = {}
    for k, wall in enumerate(bays.walls):
        x, y = (bays.corners[k] + bays.corners[(k + 1) % count]) / 2 - middle
        sides = [name for far, name in ((x < -60, "left"), (x > 60, "right")) if far]
        sides += [name for far, name in ((y < -45, "front"), (y > 45, "back")) if far]
        found[wall.name] = " ".join(sides)
    assert len(found) == count == 8
    assert all(name == said for name, said in found.items())


def test_bays_longer_than_the_roof_are_refused():
    with pytest.raises(FrameError) as caught:
        rectangle(92, 160, P, None, ("bay", "bay"))
    assert str(caught.value) == (
        "the bays at the ends are longer than the roof of 7'-8\"; give more length"
    )
