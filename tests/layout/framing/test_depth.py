"""How deep a hip or valley must be beside its jacks where its roofs differ, derived by hand."""

import math
import re

import pytest

from layout.errors import LengthError
from layout.framing.depth import check_carrier_depth
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.quantity import read_pitch, write_fraction
from layout.stock import read_stock
from tests.corner_lines import line_of

JACK = read_stock("2x6")


def least_depths_in(
    own: float, other: float, sense: int, way: str = "backed"
) -> tuple[float, float]:
    """Beside the own and the other roof's jacks, for a stick 1 1/2 in thick on a square corner.

    In plan the line runs x : y = tan a : tan b, and rises tan a * y per unit. Square across it
    roof a falls tan a * x to its own side and roof b tan b * y at a hip (sense 1), and rises as
    much at a valley (-1): each side's arris lies half a thickness that way. The plumb cut of a
    jack, 5.5 / cos, must end above the stick's bottom edge. A dropped hip hangs lower by the
    larger of both falls; a shifted one has both its arrises in the roofs.
    """
    a, b = own / 12, other / 12
    x, y = a / math.hypot(a, b), b / math.hypot(a, b)
    falls = sense * 0.75 * a * x, sense * 0.75 * b * y
    if way == "dropped":
        falls = falls[0] - max(falls), falls[1] - max(falls)
    if way == "shifted":
        falls = 0.0, 0.0
    plumb = 5.5 * math.hypot(1, a) + falls[0], 5.5 * math.hypot(1, b) + falls[1]
    return plumb[0] / math.hypot(1, a * y), plumb[1] / math.hypot(1, a * y)


@pytest.mark.parametrize(
    ("deg", "way", "sense"),
    [
        (90.0, "backed", 1),
        (90.0, "dropped", 1),
        (90.0, "shifted", 1),
        (270.0, "plain", -1),
    ],
)
@pytest.mark.parametrize("rises", [(6, 10), (10, 6), (8, 8)])
def test_a_stick_between_unlike_roofs_is_deep_enough_for_both_jacks(
    rises: tuple[int, int], deg: float, way: str, sense: int
) -> None:
    least = max(least_depths_in(*rises, sense, way))
    shallow, deep = (read_stock(f"1.5in x {least + more:.4f}in") for more in (-0.01, 0.01))
    check_carrier_depth(line_of(rises, deg, way, stock=deep), JACK)  # type: ignore[arg-type]
    line = line_of(rises, deg, way, stock=shallow)  # type: ignore[arg-type]
    with pytest.raises(LengthError, match="the cut would reach below it") as caught:
        check_carrier_depth(line, JACK)
    cut, depth = (
        write_fraction(x) for x in (5.5 * math.hypot(1, max(rises) / 12), shallow.depth_in)
    )
    said = str(caught.value)
    assert f"the jack's plumb cut {cut} in," in said
    assert f"(depth of the stock {depth} in beside {cut} in:" in said
    (side,) = re.findall(r"measures (.*) in plumb", said)
    assert side in (cut, write_fraction(5.5 * math.hypot(1, max(rises) / 12) - 0.01))


def test_a_roofs_hips_are_held_to_their_jacks() -> None:
    least = max(least_depths_in(6, 10, 1))
    shallow = read_stock(f"1.5in x {least - 0.02:.3f}in")
    with pytest.raises(LengthError, match="the cut would reach below it"):
        frame(RoofPlan(140, 120, pitch=read_pitch("6"), end_pitch=read_pitch("10"), hip=shallow,
                       spacing_in=60))  # fmt: skip
