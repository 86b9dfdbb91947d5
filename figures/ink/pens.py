"""Named pens: what each kind of line means, how wide it is and how it is broken.

Widths are millimeters on paper and follow the line-width series of ISO 128 (0.25, 0.35, 0.5,
0.7; wide to narrow 2 : 1), dashes are in multiples of the width (12 dash, 3 gap, 24 long dash),
both from memory. The mark is the center of the line. Black says everything; a color only says
it again, and each colored pen also has a pattern of its own.

    pen("fold").width_pt            points
    pieces(points, pen("fold"))     the dashes, as lines, so that they agree where pages meet
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot, isfinite

from layout.errors import SheetError

Point = tuple[float, float]

MM_PER_IN = 25.4
PT_PER_IN = 72.0

BLACK = "#000000"
BLUE = "#0072b2"
VERMILION = "#d55e00"
GREEN = "#00805c"


@dataclass(frozen=True)
class Pen:
    """A kind of line: width on paper [mm], dash pattern [multiples of the width] and color.

    The pattern is dash, gap, dash, gap ..., and empty for a continuous line. Ends are butt and
    corners round, since any other end makes a line longer than it is.
    """

    name: str
    width_mm: float
    pattern: tuple[float, ...] = ()
    colour: str = BLACK

    @property
    def width_pt(self) -> float:
        """Width of the line [pt]."""
        return self.width_mm / MM_PER_IN * PT_PER_IN

    @property
    def dashes_in(self) -> tuple[float, ...]:
        """Lengths of dash, gap, dash, gap ... on paper [in]; empty for a continuous line."""
        return tuple(part * self.width_mm / MM_PER_IN for part in self.pattern)


DASHED = (12.0, 3.0)
CHAIN = (24.0, 3.0, 4.0, 3.0)
DOUBLE_CHAIN = (24.0, 3.0, 4.0, 3.0, 4.0, 3.0)

PENS = {
    each.name: each
    for each in (
        Pen("cut", 0.7),  # saw here: the heaviest line on any sheet
        Pen("stays", 0.5, DOUBLE_CHAIN),  # a line that cuts run out in and that is left standing
        Pen("visible", 0.5),  # an edge that is seen
        Pen("fold", 0.5, DASHED),  # an arris the paper folds over
        Pen("datum", 0.5, CHAIN),  # the one edge or line all else is measured from
        Pen("guide", 0.25),  # a line to work by, never cut
        Pen("hidden", 0.25, DASHED),  # an edge behind wood
        Pen("centre", 0.25, CHAIN),  # an axis of symmetry
        Pen("phantom", 0.25, DOUBLE_CHAIN),  # another position, the stock before the cut
        Pen("dimension", 0.25),  # dimension and extension lines
        Pen("hatch", 0.25),  # waste, sections
        Pen("trim", 0.25, (40.0, 6.0)),  # where one page is cut to lie on the next
        Pen("cross", 0.25),  # registration crosses
        Pen("frame", 0.25),  # strips and boxes round the drawing
        Pen("bar", 0.25),  # check bars and scale bars
        Pen("hand", 0.5, CHAIN, BLUE),  # the plane laid out with the square
        Pen("saw", 0.5, (24.0, 4.0), GREEN),  # the plane as the saw is set
        Pen("wrong", 0.5, DOUBLE_CHAIN, VERMILION),  # a claim that does not hold
    )
}

MARKS = frozenset({"cut", "stays", "visible", "fold", "datum", "guide", "hand", "saw", "wrong"})
"""Pens whose lines are marked, cut or measured: no label may lie across them."""

FILLS: dict[str, str | None] = {
    "waste": None,  # hatched along the outline, see figures.ink.hatch
    "section": None,  # hatched all over: wood that has been cut through
    "wood": "#ffffff",
    "paper": "#ffffff",
    "steel": "#ececec",
    "ink": BLACK,
    "gap": VERMILION,
}
"""Colour of each kind of area, or None where hatching alone shows it."""


def pen(name: str) -> Pen:
    """The pen of that name; raises SheetError for a name that no pen has."""
    try:
        return PENS[name]
    except KeyError:
        raise SheetError(f"no pen is called {name!r}: use one of {', '.join(PENS)}") from None


def pieces(
    points: Sequence[Point], with_pen: Pen, start_in: float = 0.0
) -> Iterator[tuple[Point, ...]]:
    """The inked pieces of a line drawn with a pen, as lines of their own, in the line's order.

    `start_in` [in] is how far along the dash pattern the first point lies, so that a line cut
    in two at a page's edge keeps its dashes. A continuous pen gives the line back whole.
    """
    dashes = with_pen.dashes_in
    if not dashes:
        yield tuple(points)
        return
    period = sum(dashes)
    if not isfinite(start_in) or period <= 0:
        raise SheetError(f"the dashes of a line cannot start at {start_in} in")
    # Where in the pattern the pen stands: which part, and how much of that part is left.
    part, left = 0, dashes[0]
    into = start_in % period
    while into >= left:
        into -= left
        part = (part + 1) % len(dashes)
        left = dashes[part]
    left -= into
    piece: list[Point] = [points[0]]
    for (x0, y0), (x1, y1) in pairwise(points):
        length = hypot(x1 - x0, y1 - y0)
        done = 0.0
        while length - done > left:
            done += left
            here = (x0 + (x1 - x0) * done / length, y0 + (y1 - y0) * done / length)
            if part % 2 == 0:
                yield (*piece, here)
            piece = [here]
            part = (part + 1) % len(dashes)
            left = dashes[part]
        left -= length - done
        piece.append((x1, y1))
    if part % 2 == 0 and len(piece) > 1:
        yield tuple(piece)
