"""What a training roof is asked to be: shape, pitches, sizes, stock; and whether it can be."""

from dataclasses import dataclass, field
from typing import Literal

from layout.birdsmouth import BirdsMouth, from_height, from_seat
from layout.drop import HipWay, ValleyWay
from layout.errors import FrameError, LengthError
from layout.quantity import Pitch, read_pitch, write_feet, write_fraction
from layout.seat import PlateCorner
from layout.stock import Stock, read_stock
from layout.tail import check_overhang

RoofEnd = Literal["hip", "gable"]
HipHead = Literal["commons", "ridge"]
"""A hip's head comes up between the side common and the end common at the ridge's end, with two
cheeks; or lies with one cheek on the side of the ridge, which runs on to carry it."""
LEAST_STEP_IN = 12.0
"""A wing narrower than the main roof by less than this leaves no stick between both ridges."""


@dataclass(frozen=True)
class Wing:
    """The second rectangle of an L: it runs `length_in` out of the main front, `width_in` wide.

    Its outer wall is in line with the main roof's left end; `end` is its free end.
    """

    length_in: float
    width_in: float
    end: RoofEnd = "hip"


@dataclass(frozen=True)
class RoofPlan:
    """A training roof over a rectangle `length_in` by `width_in`, or an L with a `wing` [inches].

    Measures run to the outside of the walls. The main roof pitches `pitch` to the long walls;
    hipped ends pitch `end_pitch`, or the same. `ends` are the left and the right end; an L's
    left end is its outer corner and always hipped. Rafters stand `spacing_in` on centre, the
    first jack `first_in` from each corner (None: laid from the commons at the hips' tops).
    `seat_in` is the commons' level seat (None: the plate's width). `overhang_in` belongs to the
    main roof, to the outside of a fascia of `fascia_in`; an end of another pitch gets the one
    that keeps the fascia level.
    """

    length_in: float
    width_in: float
    pitch: Pitch = field(default_factory=lambda: read_pitch("8 in 12"))
    end_pitch: Pitch | None = None
    ends: tuple[RoofEnd, RoofEnd] = ("hip", "hip")
    wing: Wing | None = None
    spacing_in: float = 16.0
    first_in: float | None = None
    overhang_in: float = 12.0
    fascia_in: float = 0.75
    seat_in: float | None = None
    rafter: Stock = field(default_factory=lambda: read_stock("2x6"))
    hip: Stock = field(default_factory=lambda: read_stock("2x8"))
    valley: Stock = field(default_factory=lambda: read_stock("2x8"))
    ridge: Stock = field(default_factory=lambda: read_stock("2x8"))
    plate: Stock = field(default_factory=lambda: read_stock("2x4"))
    hip_way: HipWay = "backed"
    valley_way: ValleyWay = "plain"
    hip_head: HipHead = "commons"
    plate_corner: PlateCorner = "whole"

    @property
    def ends_pitch(self) -> Pitch:
        """The pitch of the hipped ends."""
        return self.end_pitch or self.pitch

    @property
    def slope(self) -> float:
        """Rise of the main roof on a level run of 1."""
        return self.pitch.rise / self.pitch.run

    @property
    def end_slope(self) -> float:
        """Rise of the hipped ends on a level run of 1."""
        return self.ends_pitch.rise / self.ends_pitch.run

    @property
    def end_overhang_in(self) -> float:
        """The hipped ends' overhang that keeps the fascia level [inches]."""
        return self.overhang_in * self.slope / self.end_slope

    @property
    def mouth(self) -> BirdsMouth:
        """The commons' bird's mouth, whose height above plate every stick shares."""
        seat = self.plate.depth_in if self.seat_in is None else self.seat_in
        return from_seat(self.pitch.slope_deg, self.rafter, seat)

    def mouth_of(self, pitch: Pitch) -> BirdsMouth:
        """The bird's mouth of a rafter of this pitch at the shared height above plate."""
        return from_height(pitch.slope_deg, self.rafter, self.mouth.height_above_plate_in)

    def hip_run_in(self, span_in: float) -> float:
        """How far in from a hipped end the hips meet over a span [inches]."""
        return span_in / 2 * self.slope / self.end_slope

    def check(self) -> None:
        """Raise FrameError or LengthError where this roof cannot be framed, and say why."""
        self._check_sizes()
        self._check_shape()
        self._check_sticks()

    def _check_sizes(self) -> None:
        sizes = {"length": self.length_in, "width": self.width_in, "spacing": self.spacing_in}
        if self.wing is not None:
            sizes |= {"wing's length": self.wing.length_in, "wing's width": self.wing.width_in}
        for name, value in sizes.items():
            if not 0 < value < 12 * 1000:
                raise FrameError(f"a {name} of {value:g} in frames nothing; give one such as 24'")
        shortest = min(value for name, value in sizes.items() if name != "spacing")
        if self.spacing_in > shortest:
            raise LengthError(
                f"a spacing of {write_feet(self.spacing_in)} is longer than the eave of"
                f" {write_feet(shortest)}; give a spacing such as 16 or 24 in"
            )
        for overhang_in in (self.overhang_in, self.end_overhang_in):
            check_overhang(overhang_in, self.fascia_in)
        if self.first_in is not None and not 0 < self.first_in <= self.spacing_in:
            raise LengthError(
                f"the first jack cannot stand {self.first_in:g} in from the corner;"
                f" give more than 0 and at most the spacing of {write_fraction(self.spacing_in)} in"
            )

    def _check_shape(self) -> None:
        run_on = sum(self.hip_run_in(self.width_in) for end in self.ends if end == "hip")
        if self.wing is not None:
            self._check_wing(self.wing)
            run_on = self.width_in / 2 + (
                self.hip_run_in(self.width_in) if self.ends[1] == "hip" else 0.0
            )
        if self.length_in - run_on < self.spacing_in:
            raise FrameError(
                f"hips over a width of {write_feet(self.width_in)} leave no ridge in a length of"
                f" {write_feet(self.length_in)}; give a length of at least"
                f" {write_feet(run_on + self.spacing_in)}, the long way along the ridge"
            )

    def _check_wing(self, wing: Wing) -> None:
        if self.ends[0] == "gable":
            raise FrameError(
                "the outer corner of an L is hipped, since both roofs turn there;"
                " give 'hip' for the left end"
            )
        step = self.width_in - wing.width_in
        if step < 0:
            raise FrameError(
                f"the wing is {write_feet(-step)} wider than the main roof;"
                " call the wider rectangle the main one"
            )
        if 0 < step < LEAST_STEP_IN:
            raise FrameError(
                f"spans that differ by {write_fraction(step)} in leave no stick between the"
                f" ridges; make them equal, or {write_fraction(LEAST_STEP_IN)} in or more apart"
            )
        wing_hip = self.hip_run_in(wing.width_in) if wing.end == "hip" else 0.0
        if wing.length_in - wing_hip < -wing.width_in / 2 + self.spacing_in:
            raise FrameError(
                f"a hipped wing {write_feet(wing.width_in)} wide leaves no ridge in a length of"
                f" {write_feet(wing.length_in)}; give a longer wing, or a gable"
            )
        if self.length_in < wing.width_in + self.spacing_in:
            raise FrameError("the wing is as wide as the main roof is long: that is no L")

    def _check_sticks(self) -> None:
        self.mouth_of(self.ends_pitch)
        run = min(self.width_in, self.wing.width_in if self.wing else self.width_in) / 2
        room = run - self.mouth.seat_in
        if self.ridge.thickness_in / 2 >= room:
            raise LengthError(
                f"a ridge {write_fraction(self.ridge.thickness_in)} in thick takes"
                f" {write_fraction(self.ridge.thickness_in / 2)} in off a run of"
                f" {write_feet(run)} whose seat takes {write_fraction(self.mouth.seat_in)} in:"
                " no rafter is left; give a thinner ridge, a shorter seat or a wider roof"
            )
