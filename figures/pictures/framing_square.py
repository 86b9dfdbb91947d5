"""The framing square as it lies on a surface of the stick: its heel, its arms, its numbers.

It is drawn true: blade 24 x 2, tongue 16 x 1 1/2, broken off where no more is needed. It is laid
from the side on which there is wood to hold it, with the heel over the board or off it, so that
the arm to mark along reaches right across.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.wood.unfolded import UnfoldedStick, Where, broken, mark_ends
from layout.tools.square import BLADE_IN, TONGUE_IN, Arm, Numbers
from layout.vector import Array

LENGTH_IN = {"blade": BLADE_IN, "tongue": TONGUE_IN}
WIDTH_IN = {"blade": 2.0, "tongue": 1.5}
PAST_IN = 1.2
"""How much of an arm is drawn past its number [in]."""
TICK_IN, HALF_TICK_IN = 0.42, 0.22
"""Length of the graduations at whole and at half inches [in]."""
DOT_IN = 0.035
"""Radius of the dot at a number [in on paper]."""
_SNAP = 1e-6


@dataclass(frozen=True)
class Laid:
    """A square on a surface [in of wood]: its heel, the ways along both arms, and the numbers.

    `mark_way` runs from the heel along the arm to mark along, `other_way` along the other. Each
    arm lies on the side of its own outer edge to which the other arm points.
    """

    heel: Array
    mark_way: Array
    other_way: Array
    mark_arm: Arm
    mark_in: float
    other_in: float
    mark_shown_in: float
    other_shown_in: float

    @property
    def other_arm(self) -> Arm:
        """The arm that is only held."""
        return "blade" if self.mark_arm == "tongue" else "tongue"

    @property
    def mark_spot(self) -> Array:
        """Where the number on the arm to mark along lies, on the arris (2,) [in]."""
        return self.heel + self.mark_in * self.mark_way

    @property
    def other_spot(self) -> Array:
        """Where the number on the other arm lies, on the arris (2,) [in]."""
        return self.heel + self.other_in * self.other_way

    def arm(self, length_in: float, along: Array, inner: Array, width_in: float) -> Polygon:
        """An arm from the heel: its outer edge along `along`, its body on the side of `inner`."""
        sides = (
            0 * along,
            length_in * along,
            width_in * inner,
            length_in * along + width_in * inner,
        )
        return shapely.MultiPoint([self.heel + side for side in sides]).convex_hull

    @cached_property
    def mark_steel(self) -> Polygon:
        """The arm to mark along, as far as it is drawn [in]."""
        return self.arm(self.mark_shown_in, self.mark_way, self.other_way, WIDTH_IN[self.mark_arm])

    @cached_property
    def other_steel(self) -> Polygon:
        """The arm that is only held, as far as it is drawn [in]."""
        wide = WIDTH_IN[self.other_arm]
        return self.arm(self.other_shown_in, self.other_way, self.mark_way, wide)

    @cached_property
    def shape(self) -> Polygon:
        """The square as far as it is drawn [in]."""
        return shapely.union(self.mark_steel, self.other_steel)


def laid(shown: UnfoldedStick, where: Where, numbers: Numbers) -> Laid:
    """The square on a surface of the stick, laid from the side where there is wood to hold it."""
    near, step, width = _mark_line(shown, where)
    across_in = width / abs(step[1])
    # The line through both arrises, should the plane only mark a part of the width.
    shared = near
    other = near + step * across_in
    hypotenuse = float(np.hypot(numbers.mark, numbers.other))
    order = (
        ((0, 1), (1, 1), (0, -1), (1, -1)) if where == "face" else tuple(product((0, 1), (1, -1)))
    )
    best: tuple[float, Laid] | None = None
    for far_side, over in order:
        spot, into = (shared, step) if not far_side else (other, -step)
        heel = spot + over * numbers.mark * into
        beside = spot + over * np.sign(into[0]) * np.array([hypotenuse, 0.0])
        # Mark along the arm from the arris: back to the heel, or on past the number.
        reach = numbers.mark if over > 0 else LENGTH_IN[numbers.mark_arm] - numbers.mark
        wrong = max(0.0, across_in - reach) * 10
        if (beside[0] - spot[0]) * shown.to_kept < 0:
            wrong += 5.0
        square = Laid(
            heel,
            -over * into,
            (beside - heel) / numbers.other,
            numbers.mark_arm,
            numbers.mark,
            numbers.other,
            _shown(
                numbers.mark_arm, numbers.mark + (0.0 if over > 0 else min(across_in, 3 * width))
            ),
            _shown(numbers.other_arm, numbers.other),
        )
        if best is None or wrong < best[0] - _SNAP:
            best = wrong, square
    assert best is not None
    return best[1]


def laid_across(shown: UnfoldedStick, where: Where) -> Laid:
    """The square for a mark square across: the blade flush with the arris, the tongue across."""
    near, into, width = _mark_line(shown, where)
    along = np.array([shown.to_kept or 1.0, 0.0])
    return Laid(near, into, along, "tongue", 0.0, 0.0, min(TONGUE_IN, width + 2.5), 7.0)


def _mark_line(shown: UnfoldedStick, where: Where) -> tuple[Array, Array, float]:
    """Where the mark starts on a surface, its unit vector (2,), and the surface's width [in]."""
    flat = shown.flat(where)
    ends = mark_ends(shown, flat, shown.plane_index)
    assert ends is not None
    near, far = (np.array(end) for end in ends)
    _, low, _, high = shown.solid.whole(flat).bounds
    return near, (far - near) / np.hypot(*(far - near)), float(high - low)


def _shown(arm: Arm, needed_in: float) -> float:
    """How much of an arm is drawn: past its number, or all of it where little is left."""
    whole = LENGTH_IN[arm]
    return whole if needed_in + 2 * PAST_IN > whole else needed_in + PAST_IN


def square_lines(square: Laid, factor: float) -> Drawing:
    """The outline of the square, its graduations, its breaks, and dots at the two numbers."""
    drawing = Drawing()
    ends = []
    ticks = []
    for arm, shown_in, along, inner in (
        (square.mark_arm, square.mark_shown_in, square.mark_way, square.other_way),
        (square.other_arm, square.other_shown_in, square.other_way, square.mark_way),
    ):
        for half in range(1, int(2 * shown_in) + 1):
            # Graduations begin where the other arm's body no longer lies.
            at = square.heel + half / 2 * along
            long = TICK_IN if half % 2 == 0 else HALF_TICK_IN
            ticks.append(Stroke((_pair(at), _pair(at + long * inner)), "guide", "graduation"))
        end = square.heel + shown_in * along
        whole = shown_in >= LENGTH_IN[arm] - _SNAP
        ends.append((whole, end, end + WIDTH_IN[arm] * inner))
    outline = shapely.boundary(square.shape)
    for whole, p, q in ends:
        if not whole:
            outline = outline.difference(shapely.LineString([p, q]).buffer(1e-7))
            drawing += broken(_pair(p * factor), _pair(q * factor), 0.04, 0.05)
    lines = shapely.get_parts(shapely.line_merge(outline))
    strokes = tuple(
        Stroke(tuple((float(x), float(y)) for x, y in line.coords), "guide", "square-outline")
        for line in lines
        if line.geom_type in ("LineString", "LinearRing")
    )
    drawing += Drawing((*ticks, *strokes)).scaled(factor)
    dots = (
        Area(shapely.Point(*(spot * factor)).buffer(DOT_IN), "ink", gid)
        for spot, gid in ((square.mark_spot, "mark-number"), (square.other_spot, "other-number"))
        if square.mark_in
    )
    return drawing + Drawing(areas=tuple(dots))


def _pair(spot: Array) -> tuple[float, float]:
    return float(spot[0]), float(spot[1])
