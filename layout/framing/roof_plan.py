"""What a training roof is asked to be: shape, pitches, sizes, stock; and whether it can be."""

from dataclasses import dataclass, field
from typing import Literal

from layout.errors import FrameError, LengthError
from layout.length.birdsmouth import BirdsMouth, from_height, from_seat
from layout.length.drop import HipWay, ValleyWay
from layout.length.seat import PlateCorner
from layout.length.tail import check_overhang
from layout.quantity import Pitch, read_pitch, write_feet, write_fraction
from layout.stock import Stock, read_stock

RoofEnd = Literal["hip", "gable"]
HipHead = Literal["commons", "ridge"]
"""A hip's head comes up between the side common and the end common at the ridge's end, with two
cheeks; or lies with one cheek on the side of the ridge, which runs on to carry it."""
LEAST_STEP_IN = 6.0
"""Ridges of an L nearer to each other than this, in plan, leave no stick between them."""
SAME_IN = 1e-6


@dataclass(frozen=True)
class Wing:
    """The second rectangle of an L: it runs `length_in` out of the main front, `width_in` wide.

    Its outer wall is in line with the main roof's left end; `end` is its free end. Both its
    sides pitch `pitch`, or as the main roof; so does the L's outer corner on that wall.
    """

    length_in: float
    width_in: float
    end: RoofEnd = "hip"
    pitch: Pitch | None = None


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
        """The pitch of the hipped free ends."""
        return self.end_pitch or self.pitch

    @property
    def wing_pitch(self) -> Pitch:
        """The pitch of the wing's sides."""
        return (self.wing.pitch if self.wing else None) or self.pitch

    def overhang_of(self, pitch: Pitch) -> float:
        """The overhang of a roof of this pitch that keeps the fascia level [inches]."""
        return self.overhang_in * _slope(self.pitch) / _slope(pitch)

    @property
    def mouth(self) -> BirdsMouth:
        """The commons' bird's mouth, whose height above plate every stick shares."""
        seat = self.plate.depth_in if self.seat_in is None else self.seat_in
        return from_seat(self.pitch.slope_deg, self.rafter, seat)

    def mouth_of(self, pitch: Pitch) -> BirdsMouth:
        """The bird's mouth of a rafter of this pitch at the shared height above plate."""
        return from_height(pitch.slope_deg, self.rafter, self.mouth.height_above_plate_in)

    def hip_run_in(self, span_in: float, pitch: Pitch | None = None) -> float:
        """How far in from a hipped end the hips meet over a span of this pitch [inches]."""
        return span_in / 2 * _slope(pitch or self.pitch) / _slope(self.ends_pitch)

    def wing_hip_run_in(self) -> float:
        """How far in from the wing's free end its hips meet, 0 at a gable [inches]."""
        if self.wing is None or self.wing.end == "gable":
            return 0.0
        return self.hip_run_in(self.wing.width_in, self.wing_pitch)

    @property
    def heel_in(self) -> float:
        """How far in from an L's outer wall its main ridge begins [inches]."""
        return self.width_in / 2 * _slope(self.pitch) / _slope(self.wing_pitch)

    @property
    def turn_in(self) -> float:
        """How far behind the main front the wing's ridge meets the front roof [inches]."""
        width = self.wing.width_in if self.wing else 0.0
        return width / 2 * _slope(self.wing_pitch) / _slope(self.pitch)

    @property
    def equal_ridges(self) -> bool:
        """Whether an L's two ridges are of one height."""
        return abs(self.width_in / 2 - self.turn_in) < SAME_IN

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
        for pitch in (self.pitch, self.ends_pitch, self.wing_pitch):
            check_overhang(self.overhang_of(pitch), self.fascia_in)
        if self.first_in is not None and not 0 < self.first_in <= self.spacing_in:
            raise LengthError(
                f"the first jack cannot stand {self.first_in:g} in from the corner;"
                f" give more than 0 and at most the spacing of {write_fraction(self.spacing_in)} in"
            )

    def _check_shape(self) -> None:
        run_on = sum(self.hip_run_in(self.width_in) for end in self.ends if end == "hip")
        if self.wing is not None:
            self._check_wing(self.wing)
            run_on = self.heel_in + (
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
        step = self.width_in / 2 - self.turn_in  # from ridge to ridge, across the main roof
        if step < 0 and not self.equal_ridges:
            widest_in = wing.width_in * self.width_in / 2 / self.turn_in
            raise FrameError(
                "the wing's ridge is higher than the main one; call the higher roof the main one,"
                f" or give a wing up to {write_feet(widest_in)} wide"
            )
        if step < LEAST_STEP_IN and not self.equal_ridges:
            raise FrameError(
                f"ridges {write_fraction(step)} in apart leave no stick between them;"
                f" make both of one height, or {write_fraction(LEAST_STEP_IN)} in or more apart"
            )
        if wing.length_in + self.turn_in - self.wing_hip_run_in() < self.spacing_in:
            raise FrameError(
                f"a hipped wing {write_feet(wing.width_in)} wide leaves no ridge in a length of"
                f" {write_feet(wing.length_in)}; give a longer wing, or a gable"
            )
        if self.length_in < wing.width_in + self.spacing_in:
            raise FrameError("the wing is as wide as the main roof is long: that is no L")

    def _check_sticks(self) -> None:
        for pitch in (self.ends_pitch, self.wing_pitch):
            self.mouth_of(pitch)
        run = min(self.width_in, self.wing.width_in if self.wing else self.width_in) / 2
        room = run - self.mouth.seat_in
        if self.ridge.thickness_in / 2 >= room:
            raise LengthError(
                f"a ridge {write_fraction(self.ridge.thickness_in)} in thick takes"
                f" {write_fraction(self.ridge.thickness_in / 2)} in off a run of"
                f" {write_feet(run)} whose seat takes {write_fraction(self.mouth.seat_in)} in:"
                " no rafter is left; give a thinner ridge, a shorter seat or a wider roof"
            )


def _slope(pitch: Pitch) -> float:
    """Rise on a level run of 1."""
    return pitch.rise / pitch.run
