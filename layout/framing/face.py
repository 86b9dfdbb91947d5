"""One roof plane over one wall, and the rafters' common settings under it."""

from dataclasses import dataclass
from functools import cached_property

from layout.quantity import Pitch
from layout.vector import Array, Z, unit, vector


@dataclass(frozen=True)
class Face:
    """A roof plane: it passes `height_in` over the building line and rises inward.

    `origin` (3,) is a point of the building line at Z = 0, `along` the unit level vector in
    which positions on the eave are counted, `inward` the unit level vector square to the wall
    into the building. `overhang_in` runs to the outside of a fascia of `fascia_in`.
    """

    name: str
    pitch: Pitch
    origin: Array
    along: Array
    inward: Array
    height_in: float
    overhang_in: float = 0.0
    fascia_in: float = 0.0

    @property
    def slope(self) -> float:
        """Rise on a level run of 1."""
        return self.pitch.rise / self.pitch.run

    @cached_property
    def normal(self) -> Array:
        """Unit normal of the plane, up out of the roof (3,)."""
        return unit(Z - self.slope * self.inward)

    @cached_property
    def upslope(self) -> Array:
        """Unit vector straight up the roof (3,)."""
        return unit(self.inward + self.slope * Z)

    @property
    def tail_run_in(self) -> float:
        """Level run of the tail, from the building line to the fascia's back [inches].

        Without an overhang there is no tail: the rafter ends plumb over the building line.
        """
        return max(0.0, self.overhang_in - self.fascia_in)

    def on_eave(self, position_in: float, run_in: float = 0.0) -> Array:
        """The plan point at a position along the eave and a level run inward (3,), at Z = 0."""
        return self.origin + position_in * self.along + run_in * self.inward

    def lifted(self, point: Array) -> Array:
        """The point of the roof plane plumb over a plan point (3,)."""
        run = float((point - self.origin) @ self.inward)
        lifted: Array = vector(point[0], point[1], self.height_in + self.slope * run)
        return lifted

    def above_in(self, points: Array) -> Array:
        """How far points (..., 3) lie out of the roof plane, square to it [inches] (...)."""
        out: Array = (points - self.lifted(self.origin)) @ self.normal
        return out
