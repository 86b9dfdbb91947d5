"""Which rectangles share a sheet: each comes in several shapes, and one shape of each must fit.

together([shapes_of_one, shapes_of_other], [(7.1, 9.1), (9.6, 6.6)])
"""

from collections.abc import Sequence
from dataclasses import dataclass

from figures.ink.pens import Point

_LOOSE = 1e-9


@dataclass(frozen=True)
class PackedSpot:
    """Where a rectangle stands in a field: which of its shapes, turned or not, lower left [in]."""

    shape: int
    turned: bool
    at: Point


def together(
    units: Sequence[Sequence[Point]], fields: Sequence[Point]
) -> tuple[int, tuple[PackedSpot, ...]] | None:
    """The first field that holds a shape of each unit, and where; None where none does.

    Units are lists of widths and heights [in]. They stand beside or over one another, from the
    lower right corner.
    """
    for index, (wide, high) in enumerate(fields):
        found = _arranged(units, wide, 0.0, high)
        if found is not None:
            return index, found
    return None


def _arranged(
    units: Sequence[Sequence[Point]], right: float, bottom: float, top: float
) -> tuple[PackedSpot, ...] | None:
    if not units:
        return ()
    for i, (across, up) in enumerate(units[0]):
        for turned, (wide, high) in ((False, (across, up)), (True, (up, across))):
            if wide > right + _LOOSE or high > top - bottom + _LOOSE:
                continue
            spot = PackedSpot(i, turned, (right - wide, bottom))
            for rest in ((right - wide, bottom, top), (right, bottom + high, top)):
                others = _arranged(units[1:], *rest)
                if others is not None:
                    return (spot, *others)
    return None


def least(shapes: Sequence[Point]) -> tuple[int, ...]:
    """The shapes of which no other is as narrow and as low, as places in their list."""
    kept: list[int] = []
    for i in sorted(range(len(shapes)), key=lambda i: (shapes[i][0], shapes[i][1])):
        if not kept or shapes[i][1] < shapes[kept[-1]][1] - _LOOSE:
            kept.append(i)
    return tuple(kept)
