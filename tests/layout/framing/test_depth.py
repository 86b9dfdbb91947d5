"""How deep a hip must be beside its jacks where its two roofs differ, derived by hand."""

import math

import pytest

from layout.errors import LengthError
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.quantity import read_pitch
from layout.stock import read_stock


def least_depth_in() -> float:
    """Pitches a = 6 and b = 10 in 12, 2x6 jacks, a hip 1 1/2 in thick, backed.

    In plan the hip runs x : y = tan a : tan b, and rises tan a * y per unit. Square across it
    roof a falls tan a * x to its own side and roof b tan b * y: each side's arris lies half a
    thickness that way. The plumb cut of a jack, 5.5 / cos, must end above the hip's bottom edge.
    """
    a, b = 6 / 12, 10 / 12
    x, y = a / math.hypot(a, b), b / math.hypot(a, b)
    plumb = max(
        5.5 * math.hypot(1, a) + 0.75 * a * x,
        5.5 * math.hypot(1, b) + 0.75 * b * y,
    )
    return plumb / math.hypot(1, a * y)


def test_a_hip_between_unlike_roofs_is_deep_enough_for_both_jacks() -> None:
    plan = {"pitch": read_pitch("6"), "end_pitch": read_pitch("10"), "spacing_in": 60}
    least = least_depth_in()
    shallow = read_stock(f"1.5in x {least - 0.02:.3f}in")
    with pytest.raises(LengthError, match="the cut would reach below it"):
        frame(RoofPlan(140, 120, hip=shallow, **plan))  # type: ignore[arg-type]
    deep = read_stock(f"1.5in x {least + 0.02:.3f}in")
    assert frame(RoofPlan(140, 120, hip=deep, **plan)).sticks  # type: ignore[arg-type]
