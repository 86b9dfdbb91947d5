"""Where the shoe of a circular saw rides on a stick: the line, the wide side, and the way to go.

What the saw blade does below the shoe, where the wide side rides and where each saw starts are
the answer's own senses (`layout.answer.senses`); here they get their places on the board.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from figures.wood.drawn_solid import DrawnFlat
from figures.wood.unfolded import UnfoldedStick, Where, mark_ends
from layout.answer.answer import Answer
from layout.answer.sense_words import START, SURFACE
from layout.answer.senses import Sense, faces, sense
from layout.tools.saw import SawKind
from layout.tools.travel import Side, Wood
from layout.vector import Array, X, cross, unit

OPPOSITE: dict[Side, Side] = {"right": "left", "left": "right", "top": "bottom", "bottom": "top"}
_SNAP = 1e-6


@dataclass(frozen=True)
class Shoe:
    """The shoe on one surface of a stick, along the line that the plane leaves there.

    `start` and `end` (3,) are the line's ends, in board axes; `across` (3,) lies in the surface
    square to the line and points to the waste, `out` (3,) out of the wood. `wide_on` is the wood
    under the wide side; where that is no matter, at a notch, it is the kept wood.
    """

    shown: UnfoldedStick
    sense: Sense
    wide_on: Wood
    where: Where
    start: Array
    end: Array
    across: Array
    out: Array

    @property
    def flat(self) -> DrawnFlat:
        """The surface, as it lies on the paper when it is seen from above."""
        return self.shown.flat(self.where)

    @property
    def surface(self) -> str:
        """The surface in words."""
        return SURFACE[self.sense.side]

    @property
    def to_wide(self) -> float:
        """+1 where the wide side of the shoe rides on the waste, -1 on the kept wood."""
        return 1.0 if self.wide_on == "waste" else -1.0

    @property
    def wide(self) -> Array:
        """The way from the line to the wide side of the shoe, in the surface (3,)."""
        way: Array = self.across * self.to_wide
        return way

    def starts(self, kind: SawKind) -> Array | None:
        """The end of the line at which this saw starts (3,); None where either will do."""
        start = self.sense.start_from[kind]
        if start is None:
            return None
        at = (end for end in (self.start, self.end) if self.side_at(end) == START[start])
        return next(at, None)

    def side_at(self, spot: Array) -> str:
        """The side of the surface on which a point of its border lies, in words."""
        if self.shown.cut.runs_along:
            middle = (self.start + self.end) / 2
            return "head" if float((spot - middle) @ X) > 0 else "foot"
        _, v = self.flat.seen(spot)
        low, high = self.sides
        _, bottom, _, top = self.shown.solid.whole(self.flat).bounds
        if abs(v - bottom) < _SNAP:
            return low
        return high if abs(v - top) < _SNAP else "inside corner"

    @property
    def sides(self) -> tuple[str, str]:
        """What lies below and above the surface on the paper: edges beside a face, or faces."""
        if self.where == "face":
            return "bottom edge", "top edge"
        near, far = SURFACE[self.shown.face], SURFACE[OPPOSITE[self.shown.face]]
        return (near, far) if self.shown.edge == "top" else (far, near)

    @property
    def bearing_in(self) -> float:
        """How much board lies beside the line under the wide side, square to the line [in].

        Measured on a rip, where it is the same along the line; else the board runs on.
        """
        if not self.shown.cut.runs_along:
            return np.inf
        v = float(self.flat.seen(self.start)[1])
        _, bottom, _, top = self.shown.solid.whole(self.flat).bounds
        return float(top - v if float(self.wide @ self.flat.v) > 0 else v - bottom)

    @cached_property
    def eye_side(self) -> str:
        """The side from which the section is seen, kept wood at the left and waste at the right."""
        eye = cross(self.across, self.out)
        ahead = float((self.end - self.start) @ eye)
        return self.side_at(self.end if ahead > 0 else self.start)


def on_surface(shown: UnfoldedStick, side: Side) -> tuple[UnfoldedStick, Where]:
    """The stick with this surface shown, and whether that is its face or its edge."""
    if side == "left" or side == "right":
        return replace(shown, face=side), "face"
    return replace(shown, edge=side), "edge"


def shoe_on(answer: Answer, shown: UnfoldedStick, side: Side) -> Shoe | None:
    """The shoe on a surface of the stick; None where the plane leaves no line there."""
    stick, where = on_surface(shown, side)
    flat = stick.flat(where)
    ends = mark_ends(stick, flat, stick.plane_index)
    if ends is None:
        return None
    start, end = flat.placed(np.array(ends))
    out, normal = flat.normal, stick.cut.normal
    across = unit(normal - (normal @ out) * out)
    told = sense(answer, side)
    both_ways = answer.limits.kind is SawKind.BOTH_WAYS
    wide_on: Wood = "kept" if both_ways else told.wide_side_on or "kept"
    return Shoe(stick, told, wide_on, where, start, end, across, out)


def face_shoes(answer: Answer, shown: UnfoldedStick) -> tuple[Shoe, ...]:
    """The shoe on each wide face that has a line: the one where the wide side rides kept first.

    A rip is gauged and sawn on one face alone.
    """
    told = [sense_on.side for sense_on in faces(answer)] or [shown.face]
    found = (shoe_on(answer, shown, side) for side in told)
    marked = [each for each in found if each is not None]
    return tuple(sorted(marked, key=lambda each: each.wide_on == "waste"))
