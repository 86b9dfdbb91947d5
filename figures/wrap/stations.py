"""What a joint does to the board, and the named points of its marks on the arrises."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from figures.ink.pens import Point
from figures.wood.unroll import Traced
from layout.answer.answer import Answer

EDGES = ("top edge", "bottom edge", "right bevel", "left bevel")
_ALIKE = 1e-6
PLACE_DIGITS = 6
"""Places that agree to so many decimals are one."""


@dataclass(frozen=True)
class Station:
    """A named point of the cut on an arris: "LONG POINT", "short point"."""

    name: str
    at: Point


EndKind = Literal["end", "notch", "rip"]


def kind(answer: Answer) -> EndKind:
    """What a joint does to the board: ends it, notches it, or runs along it."""
    if answer.is_rip:
        return "rip"
    return "notch" if _is_notch(answer) else "end"


def _is_notch(answer: Answer) -> bool:
    """True where wood is left on both sides: the planes face opposite ends of the board."""
    ways = {bool(cut.normal[0] > 0) for cut in answer.cuts if not cut.runs_along}
    return len(ways) == 2


def stations(answer: Answer, surfaces: Sequence[Traced], toward: int) -> tuple[Station, ...]:
    """Where the cut crosses the edge's arrises and its middle: long points and short points.

    The first is the one that the start line is measured to.
    """
    edges = [one for one in surfaces if one.panel.name in EDGES]
    if _is_notch(answer):
        # The notch opens at one edge of those shown, and its line is measured at the right face.
        edge, line = next(
            (one, mark.line) for one in edges for mark in one.marks if mark.plane_index == 0
        )
        _, low, _, high = edge.panel.box
        right = high if edge.panel.name == "bottom edge" else low
        at = min(line, key=lambda point: abs(point[1] - right))
        mate = answer.question.joint.planes[0].mate_words
        return (Station(f"line against {mate}", at),)
    ends = {
        (round(x, PLACE_DIGITS), round(v, PLACE_DIGITS)): (x, v)
        for one in edges
        if one.panel.name != "bottom edge" or len(edges) == 1
        for mark in one.marks
        for x, v in mark.line
    }
    points = sorted(
        ends.values(), key=lambda point: (-toward * round(point[0], PLACE_DIGITS), point[1])
    )
    longest, shortest = points[0][0], points[-1][0]
    if abs(longest - shortest) < _ALIKE:
        return (Station("mark", points[0]),)
    named: list[Station] = []
    for x, v in points:
        if abs(x - longest) < _ALIKE:
            named.append(Station("LONG POINT", (x, v)))
        elif abs(x - shortest) < _ALIKE:
            named.append(Station("short point", (x, v)))
    return tuple(named)
