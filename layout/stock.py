"""Boards and their dressed sizes.

Nominal names carry the dry dressed sizes of the American Softwood Lumber Standard, PS 20
(from memory): 1x is 3/4 in thick, 2x 1 1/2, 4x 3 1/2; a width of 4 dresses to 3 1/2, 6 to
5 1/2, 8 to 7 1/4, 10 to 9 1/4, 12 to 11 1/4. Any other section is given by its real size.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from layout.errors import QuantityError, StockError
from layout.quantity import MM_PER_INCH, read_length, write_fraction

THICKNESS_IN = {1: 0.75, 2: 1.5, 4: 3.5}
DEPTH_IN = {2: 1.5, 3: 2.5, 4: 3.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25}
SMALLEST_IN, LARGEST_IN = 0.25, 24.0


@dataclass(frozen=True)
class Stock:
    """A rectangular section: `thickness_in` across the edge, `depth_in` across the face [inches].

    Raises StockError where a side lies outside SMALLEST_IN..LARGEST_IN.
    """

    name: str
    thickness_in: float
    depth_in: float

    def __post_init__(self) -> None:
        for side, value in (("thickness", self.thickness_in), ("depth", self.depth_in)):
            if not SMALLEST_IN <= value <= LARGEST_IN:
                raise StockError(
                    f"a {side} of {value:g} in is no board;"
                    f" give one from {SMALLEST_IN:g} to {LARGEST_IN:g} in"
                )

    def __str__(self) -> str:
        real = f"{write_fraction(self.thickness_in, 64)} x {write_fraction(self.depth_in, 64)}"
        return self.name if self.name == real else f"{self.name} ({real} in)"


def covering_width_in(least_in: float) -> float:
    """The narrowest dressed width that covers this much [inches]; where none does, this much."""
    return min((width for width in DEPTH_IN.values() if width >= least_in), default=least_in)


@lru_cache
def read_stock(text: str) -> Stock:
    """Read `2x6` as a nominal name, `38mm x 140mm` or `1 1/2 x 5 1/2` as a real size.

    A pair of whole numbers without a unit is a nominal name and must be in the standard;
    everything else is thickness by depth as measured. Raises StockError with what would work.

    >>> read_stock("2x6").depth_in, read_stock("1 1/2 x 5 1/2").depth_in
    (5.5, 5.5)
    """
    folded = " ".join(text.split()).lower().replace("×", "x")
    sides = [side.strip() for side in folded.split("x")]
    if len(sides) != 2 or not all(sides):
        raise StockError(f"{text!r} is not a board; write it like 2x6 or 38mm x 140mm")
    if all(re.fullmatch(r"\d+", side) for side in sides):
        thickness, depth = (int(side) for side in sides)
        if thickness not in THICKNESS_IN or depth not in DEPTH_IN or thickness > depth:
            likely = "mm" if max(thickness, depth) > LARGEST_IN else "in"
            first = ""
            if depth in THICKNESS_IN and thickness in DEPTH_IN and thickness > depth:
                first = f" the thickness comes first, as in {depth}x{thickness};"
            raise StockError(
                f"{text!r} is no dressed size (1x, 2x or 4x by 2 to 12);{first}"
                f" for a real size give the unit, as in {thickness}{likely} x {depth}{likely}"
            )
        return Stock(f"{thickness}x{depth}", THICKNESS_IN[thickness], DEPTH_IN[depth])
    if re.fullmatch(r"\d{1,2}/4", sides[0]) and int(sides[0][:-2]) > 4:
        raise StockError(
            f"{text!r} is a mill's name whose board is thinner; give the real size and its unit,"
            " as in 1in x 5 1/2in"
        )
    unit = re.search(r"(mm|cm|in|\")$", sides[1])
    if unit and re.fullmatch(r"[\d.]+", sides[0]):
        sides[0] += unit[1]  # 38x140mm: one unit serves both sides
    try:
        thickness_in, depth_in = (read_length(side) for side in sides)
    except QuantityError:
        raise StockError(f"{text!r} is not a board; write it like 2x6 or 38mm x 140mm") from None
    _check_side("thickness", sides[0], thickness_in)
    _check_side("depth", sides[1], depth_in)
    return Stock(" x ".join(sides), thickness_in, depth_in)


def _check_side(side: str, said: str, value_in: float) -> None:
    """Raise StockError where no board has this side [in], in the unit in which it was said."""
    if SMALLEST_IN <= value_in <= LARGEST_IN:
        return
    unit_in, unit = (1 / MM_PER_INCH, "mm") if said.endswith("m") else (1.0, "in")
    least, most = SMALLEST_IN / unit_in, LARGEST_IN / unit_in
    raise StockError(
        f"a {side} of {said} is no board; give one from {least:g} to {most:g} {unit}"
        f", and the unit with it, as in 38mm x 140mm"
    )
