"""Wall plates in plan: together the strip inside the walls, each point of it under one board."""

import numpy as np
import pytest
import shapely

from layout.framing.outlines import ell, equal_sided, rectangle
from layout.framing.plate import plates
from layout.framing.stick import plane_at
from layout.framing.walls import Outline, Wall, walk
from layout.quantity import read_pitch
from layout.stock import read_stock

P = read_pitch("8")
PLATE = read_stock("2x4")
FIVE = ((200, 90), (120, 45), (100, 45), (129.289321881, 90), (190.710678119, 90))
"""Five walls, one of them 100 in long at 135 degrees: 50 x sqrt 2 either way."""


def eaves(*walls: tuple[float, float]) -> Outline:
    return walk([Wall(float(x), turn, "eave", P) for x, turn in walls])


def made(outline: Outline, tops=None, clips=None):  # type: ignore[no-untyped-def]
    return plates(outline, PLATE, tops or [0.0] * len(outline.walls), clips or {})


@pytest.mark.parametrize(
    "outline",
    [rectangle(240, 160, P), ell(330, 200, 130, 140, P), equal_sided(8, 72, P),
     equal_sided(5, 90, P), eaves(*FIVE)],
    ids=["rectangle", "L", "octagon", "pentagon", "one slant corner"],
)  # fmt: skip
def test_plates_fill_the_strip_inside_the_walls_once(outline: Outline) -> None:
    sticks = made(outline)
    assert [stick.name for stick in sticks] == [f"P{k + 1}" for k in range(len(outline.walls))]
    whole = shapely.Polygon(outline.corners)
    strip = whole.difference(whole.buffer(-3.5, join_style="mitre", mitre_limit=20))
    parts = [shapely.Polygon(stick.plan_outline) for stick in sticks]
    assert sum(part.area for part in parts) == pytest.approx(strip.area, rel=1e-6)
    assert shapely.union_all(parts).symmetric_difference(strip).area < 1e-3
    for stick, wall in zip(sticks, outline.walls, strict=True):
        assert stick.theoretical_in == pytest.approx(wall.length_in)
        heights = stick.corners[:, 2]
        assert (heights.min(), heights.max()) == pytest.approx((-1.5, 0))
        assert stick.end_points("foot").long_in < stick.end_points("head").long_in
        assert [plane.end for plane in stick.planes] == ["foot", "head"]


def lengths(outline: Outline, tops=None) -> list[float]:  # type: ignore[no-untyped-def]
    return [stick.blank_in for stick in made(outline, tops)]


def test_of_two_walls_the_one_with_the_even_number_runs_through() -> None:
    """Counted from 0: front and back of a rectangle; of the last and the first of five the first.
    Where the corner points inward the one that runs through goes on across the other's width."""
    assert lengths(rectangle(240, 160, P)) == pytest.approx([240, 153, 240, 153])
    five = eaves(*FIVE)
    assert lengths(five)[0] == pytest.approx(200)
    assert lengths(five)[4] == pytest.approx(190.710678119 - 3.5)
    turns = (90, -90, 90, 90, 90, 90)
    bent = eaves(*zip((100, 60, 50, 90, 150, 150), turns, strict=True))
    assert lengths(bent) == pytest.approx([100, 60 - 3.5, 50 + 3.5, 90 - 7, 150, 150 - 7])


def test_plates_of_unlike_heights_run_to_the_outside_of_each_others_walls() -> None:
    assert lengths(rectangle(240, 160, P), [0.0, 9.0, 0.0, 9.0]) == pytest.approx([240, 160] * 2)
    high = made(rectangle(240, 160, P), [0.0, None, 30.0, 0.0])
    assert [stick.name for stick in high] == ["P1", "P3", "P4"]
    assert high[1].corners[:, 2].max() == pytest.approx(30)
    assert [stick.blank_in for stick in high] == pytest.approx([240, 240, 156.5])


def test_a_clip_is_cut_off_both_plates_of_its_corner() -> None:
    """At 45 degrees 2 in up the corner's line: legs of 2 sqrt 2, off the one that runs through and
    as far as it reaches off the other."""
    corner, way = np.array([240.0, 0.0, 0.0]), np.array([-1.0, 1.0, 0.0]) / 2**0.5
    clip = plane_at(-way, corner + 2 * way, "corner clip", "foot")
    clipped = made(rectangle(240, 160, P), clips={1: clip})
    whole = made(rectangle(240, 160, P))
    lost = [
        shapely.Polygon(b.plan_outline).area - shapely.Polygon(a.plan_outline).area
        for a, b in zip(clipped, whole, strict=True)
    ]
    assert lost == pytest.approx([4, 0, 0, 0], abs=1e-6)
    deep = plane_at(-way, corner + 4 * way, "corner clip", "foot")
    cut = made(rectangle(240, 160, P), clips={1: deep})
    assert [any(p.says == "corner clip" for p in s.planes) for s in cut] == [
        True, True, False, False]  # fmt: skip
