"""What a jack set is asked for, and whether such jacks can stand."""

import math
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from layout.errors import LengthError, RoofError
from layout.length.birdsmouth import BirdsMouth, from_seat
from layout.length.drop import HipWay, ValleyWay
from layout.length.seat import PlateCorner
from layout.plane.corner import Corner
from layout.quantity import Pitch, read_pitch, write_feet, write_fraction
from layout.stock import Stock, read_stock


@dataclass(frozen=True)
class JackPlan:
    """What a set is asked for; every length in inches, angles in degrees.

    `line` is what the jacks meet. `corner_deg` is measured inside the building; at a valley an
    angle below 180 is read as the one between the walls outside. The first jack's middle stands
    `first_in` from the corner along either eave (None: one spacing), the rest `spacing_in` on.
    Give `eave_in`, from the corner along the own eave to the common at the hip's or valley's
    top, or `count`, the number of jacks on the own side. `overhang_in` belongs to the own
    roof; the other's follows from the level fascia. `longest_in` is the longest board there is
    to cut jacks from: a set that asks for more is refused before a stick is made.
    """

    line: Literal["hip", "valley"] = "hip"
    pitch: Pitch = field(default_factory=lambda: read_pitch("8 in 12"))
    other_pitch: Pitch | None = None
    corner_deg: float | None = None
    spacing_in: float = 16.0
    first_in: float | None = None
    eave_in: float | None = None
    count: int | None = None
    overhang_in: float = 0.0
    fascia_in: float = 0.0
    seat_in: float = 3.5
    plate_width_in: float = 3.5
    jack: Stock = field(default_factory=lambda: read_stock("2x6"))
    carrier: Stock = field(default_factory=lambda: read_stock("2x8"))
    ridge: Stock = field(default_factory=lambda: read_stock("2x8"))
    hip_way: HipWay = "backed"
    valley_way: ValleyWay = "plain"
    plate_corner: PlateCorner = "whole"
    longest_in: float = math.inf

    @property
    def inside_deg(self) -> float:
        """The corner inside the building [degrees]."""
        deg = self.corner_deg if self.corner_deg is not None else 90.0
        return 360.0 - deg if self.line == "valley" and deg < 180.0 else deg

    @property
    def corner(self) -> Corner:
        """The corner of the roof, the own eave along X."""
        other = self.other_pitch or self.pitch
        return Corner(self.pitch.slope_deg, other.slope_deg, self.inside_deg)

    @property
    def start_in(self) -> float:
        """From the corner to the first jack's middle [inches]."""
        return self.spacing_in if self.first_in is None else self.first_in

    @property
    def reach_in(self) -> float:
        """From the corner along the own eave to where the hip or valley tops out [inches].

        Raises LengthError unless exactly one of eave and count is given.
        """
        if (self.eave_in is None) == (self.count is None):
            raise LengthError("give either the eave's length or the number of jacks, one of both")
        if self.eave_in is not None:
            return self.eave_in
        assert self.count is not None
        if self.count < 1:
            raise LengthError(f"{self.count} jacks are none; give one or more")
        return self.start_in + self.count * self.spacing_in

    @property
    def mouth(self) -> BirdsMouth:
        """The own jacks' bird's mouth, whose height above plate every stick shares."""
        return from_seat(self.pitch.slope_deg, self.jack, self.seat_in)

    def check(self) -> None:
        """Raise LengthError or RoofError where this set leaves no jack, and say why."""
        if not self.spacing_in > 0:
            raise LengthError(
                f"a spacing of {self.spacing_in:g} in parts no jacks; give one such as 16"
            )
        if self.spacing_in < self.jack.thickness_in:
            raise LengthError(
                f"jacks {write_fraction(self.jack.thickness_in)} in thick at"
                f" {write_fraction(self.spacing_in)} in on center would stand in one another;"
                " give a wider spacing, such as 16"
            )
        if self.start_in <= 0:
            raise LengthError(
                f"the first jack cannot stand {self.start_in:g} in from the corner; give more"
            )
        if self.first_in is not None and self.start_in > self.reach_in:
            raise LengthError(
                f"the first jack, {write_feet(self.start_in)} from the corner, stands past the end"
                f" of the eave of {write_feet(self.reach_in)}; give it nearer or a longer eave"
            )
        if self.spacing_in > self.reach_in:
            raise LengthError(
                f"a spacing of {write_feet(self.spacing_in)} is longer than"
                f" the eave of {write_feet(self.reach_in)}; give a closer spacing or a longer eave"
            )
        valley = self.line == "valley"
        if (self.inside_deg > 180) != valley:
            raise RoofError(
                f"a corner of {self.inside_deg:g} deg inside carries no {self.line};"
                f" give one {'above' if valley else 'below'} 180, such as {270 if valley else 90}"
                + ("" if valley else ", or --on-valley")
            )
        corner = self.corner
        for eave in (corner.eave, corner.other_eave):
            along = float(corner.plan_line @ eave)
            if (-along if valley else along) < 1e-3:
                raise RoofError(
                    f"the {self.line} runs square to an eave or past it, so no jack ends on it"
                    " there; give pitches nearer each other"
                )
        self._check_stock(corner)
        run = self.reach_in * float(np.tan(np.radians(corner.plan_angle_deg)))
        if self.ridge.thickness_in / 2 >= run - self.seat_in:
            raise LengthError(
                f"a ridge {write_fraction(self.ridge.thickness_in)} in thick takes"
                f" {write_fraction(self.ridge.thickness_in / 2)} in off a run of {write_feet(run)}"
                f" whose seat takes {write_fraction(self.seat_in)} in; give a thinner ridge, a"
                " shorter seat or a longer eave"
            )

    def _check_stock(self, corner: Corner) -> None:
        """Refuse at the first jack that no board is long enough for, before any is framed.

        A jack at `at` along the eave has the run at * tan(plan angle), on the slope that over
        cos a; a hip's grow from the corner on, a valley's shrink. What the carrier and the ridge
        take off is allowed for in full, so nothing is refused here that could be cut.
        """
        growth = float(np.tan(np.radians(corner.plan_angle_deg))) / float(
            np.cos(np.radians(self.pitch.slope_deg))
        )
        off = growth * (self.carrier.thickness_in + self.ridge.thickness_in) + self.jack.depth_in
        most = (self.longest_in + off) / growth
        if self.line == "hip":
            steps = max(float(np.floor((most - self.start_in) / self.spacing_in)) + 1, 0.0)
            at, name = self.start_in + steps * self.spacing_in, f"A{steps + 1:.0f}"
            length = at * growth
            there = at < self.reach_in - 2 * self.jack.thickness_in
        else:
            length, name = (self.reach_in - self.start_in) * growth, "A1"
            there = length > self.longest_in + off
        if there:
            raise LengthError(
                f"{name} would be about {write_feet(length)} long, and the longest stock is"
                f" {write_feet(self.longest_in)}; give longer stock, fewer jacks or a shorter eave"
            )
