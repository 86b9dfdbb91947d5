"""Where the shoe of a circular saw rides, and what follows: the wide side, and the way to go.

Every direction is read from the plane's own normal. On a surface with outward normal u the part
m = n . u says where the saw blade runs below the shoe: in under the waste (m > 0), in under the
kept wood (m < 0), or straight down. A common saw tilts so that the lower edge of its blade swings
in under the wide, motor side of its shoe (common practice, no source), so the wide side rides on
that side of the line. Facing along the travel the wide side is at the left of a blade-right saw
and at the right of a blade-left one.
"""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, cast

import numpy as np

from figures.wood.solid import Flat
from figures.wood.unfolded import Edge, Face, Stick, Where, mark_ends
from layout.answer.answer import Answer
from layout.vector import Array, X, unit

Surface = Literal["right face", "left face", "top edge", "bottom edge"]
SawKind = Literal["blade-left", "blade-right", "tilts-both-ways"]
SAW_KINDS: tuple[SawKind, ...] = ("blade-right", "blade-left")
"""The two common kinds, in the order in which they are said."""
Below = Literal["under the waste", "under the kept wood", "square"]
OPPOSITE: dict[Surface, Surface] = {
    "right face": "left face",
    "left face": "right face",
    "top edge": "bottom edge",
    "bottom edge": "top edge",
}
_SNAP = 1e-6
_STANDS = 1e-9


@dataclass(frozen=True)
class Shoe:
    """The shoe on one surface of a stick, along the line that the plane leaves there.

    `start` and `end` (3,) are the line's ends, in board axes; `across` (3,) lies in the surface
    square to the line and points to the waste, `out` (3,) out of the wood.
    """

    shown: Stick
    surface: Surface
    where: Where
    start: Array
    end: Array
    across: Array
    out: Array

    @property
    def flat(self) -> Flat:
        """The surface, as it lies on the paper when it is seen from above."""
        return self.shown.flat(self.where)

    @property
    def leans(self) -> int:
        """+1 where the blade below the shoe runs in under the waste, -1 under the kept wood."""
        part = float(self.shown.cut.normal @ self.out)
        return 0 if abs(part) < _STANDS else (1 if part > 0 else -1)

    @property
    def tilt_deg(self) -> float:
        """The saw's tilt on this surface, from square [degrees]."""
        cut = self.shown.cut
        return float(cut.face_tilt_deg if self.where == "face" else cut.edge_tilt_deg)

    @property
    def below(self) -> Below:
        """Where the blade runs below the shoe, in words."""
        if self.leans == 0:
            return "square"
        return "under the waste" if self.leans > 0 else "under the kept wood"

    @property
    def toward(self) -> str | None:
        """The end of the board toward which the blade runs below the shoe; None where none is.

        On a rip it runs toward an edge or a face, and no end is named.
        """
        side = self.leans * float(self.shown.cut.normal[0])
        if abs(side) < _STANDS:
            return None
        return "head" if side > 0 else "foot"

    @property
    def wide(self) -> Array:
        """The way from the line to the wide side of the shoe, in the surface (3,).

        A blade that stands square leaves the choice: the wide side rides on the kept wood.
        """
        way: Array = self.across * (self.leans or -1)
        return way

    @property
    def wide_on(self) -> Literal["kept", "waste"]:
        """The side of the line on which the wide side of the shoe rides."""
        return "waste" if self.leans > 0 else "kept"

    def travel(self, kind: SawKind) -> Array:
        """The way the saw goes along the line, unit (3,), for a kind of saw.

        Left of the travel is out x travel; a blade-right saw has its wide side there.
        """
        way = np.cross(self.wide, self.out)
        return -way if kind == "blade-left" else way

    def starts(self, kind: SawKind) -> tuple[Array, str]:
        """Where this saw starts: the end of the line (3,), and the side of the board it lies on."""
        ahead = float((self.end - self.start) @ self.travel(kind))
        spot = self.start if ahead > 0 else self.end
        return spot, self.side_at(spot)

    def side_at(self, spot: Array) -> str:
        """The side of the surface on which a point of its border lies, in words."""
        if self.shown.cut.runs_along:
            return "head end" if float(spot @ X) > 0 else "foot end"
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
        near = shown_face(self.shown)
        far = OPPOSITE[near]
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
        eye = np.cross(self.across, self.out)
        ahead = float((self.end - self.start) @ eye)
        return self.side_at(self.end if ahead > 0 else self.start)


def on_surface(shown: Stick, surface: Surface) -> tuple[Stick, Where]:
    """The stick with this surface shown, and whether that is its face or its edge."""
    side, kind = surface.split()
    if kind == "face":
        return replace(shown, face=cast(Face, side)), "face"
    return replace(shown, edge=cast(Edge, side)), "edge"


def shoe_on(shown: Stick, surface: Surface) -> Shoe | None:
    """The shoe on a surface of the stick; None where the plane leaves no line there."""
    stick, where = on_surface(shown, surface)
    flat = stick.flat(where)
    ends = mark_ends(stick, flat, stick.which)
    if ends is None:
        return None
    start, end = flat.placed(np.array(ends))
    out, normal = flat.normal, stick.cut.normal
    across = unit(normal - (normal @ out) * out)
    return Shoe(stick, surface, where, start, end, across, out)


def shown_face(shown: Stick) -> Surface:
    """The face that a stick shows, as a surface."""
    return "right face" if shown.face == "right" else "left face"


def face_shoes(answer: Answer, shown: Stick) -> tuple[Shoe, ...]:
    """The shoe on each wide face that has a line: the one where the wide side rides kept first.

    Where the blade stands square, or only one face has a line, the shown face comes first.
    """
    own = shown_face(shown)
    found = [each for side in (own, OPPOSITE[own]) if (each := shoe_on(shown, side)) is not None]
    return tuple(sorted(found, key=lambda each: each.leans > 0))
