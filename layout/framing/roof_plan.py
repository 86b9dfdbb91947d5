"""What a training roof is asked to be: shape, pitches, sizes, stock; and whether it can be."""

from dataclasses import dataclass, field
from functools import cached_property
from math import hypot
from typing import Any, Literal

from layout import usual
from layout.errors import FrameError, LengthError
from layout.framing.outlines import RoofEnd as RoofEnd
from layout.framing.outlines import ell, rectangle, tee
from layout.framing.walls import Outline, first_pitch
from layout.length.birdsmouth import BirdsMouth, from_height, from_seat
from layout.length.drop import HipWay, ValleyWay
from layout.length.seat import PlateCorner
from layout.length.tail import check_overhang
from layout.quantity import Pitch, read_length, read_pitch, write_feet, write_fraction
from layout.stock import Stock, covering_width_in, read_stock

HipHead = Literal["commons", "ridge"]
"""A hip's head comes up between the side common and the end common at the ridge's end, with two
cheeks; or lies with one cheek on the side of the ridge, which runs on to carry it."""
HighEnd = Literal["plate", "ledger"]
"""A shed's rafters bear on the plate of its high wall, or are cut to a ledger on a taller wall."""


@dataclass(frozen=True)
class Wing:
    """A second rectangle: it runs `length_in` out of the main front, `width_in` wide.

    Its left wall stands `at_in` from the main front's left corner: 0 makes an L, its outer wall
    in line with the main left end, more a T. `end` is its free end. Both its sides pitch
    `pitch`, or as the main roof; so does an L's outer corner on that wall.
    """

    length_in: float
    width_in: float
    end: RoofEnd = "hip"
    pitch: Pitch | None = None
    at_in: float = 0.0


@dataclass(frozen=True)
class RoofPlan:
    """A training roof over a rectangle `length_in` by `width_in`, one with a `wing`, or `walls`.

    Measures run to the outside of the walls [inches]. Over a rectangle the roof pitches `pitch`
    to the long walls; its ends pitch `end_pitch`, or the same, and `ends` are the left and the
    right one; an L's left end is its outer corner and always hipped. `walls`, where given, say
    the whole shape with every pitch (see `over`), and a shed's rafters end as `high` says.
    Rafters stand `spacing_in` on center, the first jack `first_in` from each corner (None: laid
    from the rafter at the hips' tops). `seat_in` is the commons' level seat (None: the plate's
    width). `overhang_in` belongs to the sides that pitch `pitch`, to the outside of a fascia of
    `fascia_in`; a side of another pitch gets the one that keeps the fascia level.
    `rake_overhang_in` is every gable's, to the outside of a rake board as thick as the fascia;
    0 lays that board on the wall. It lengthens fascias and roof boards, and no stick.
    """

    length_in: float = 0.0
    width_in: float = 0.0
    pitch: Pitch = field(default_factory=lambda: read_pitch(usual.PITCH))
    end_pitch: Pitch | None = None
    ends: tuple[RoofEnd, RoofEnd] = ("hip", "hip")
    wing: Wing | None = None
    spacing_in: float = read_length(usual.SPACING)
    first_in: float | None = None
    overhang_in: float = read_length(usual.OVERHANG)
    rake_overhang_in: float = read_length(usual.RAKE_OVERHANG)
    fascia_in: float = read_length(usual.FASCIA)
    seat_in: float | None = None
    rafter: Stock = field(default_factory=lambda: read_stock(usual.RAFTER))
    hip: Stock = field(default_factory=lambda: read_stock(usual.HIP))
    valley: Stock = field(default_factory=lambda: read_stock(usual.VALLEY))
    ridge: Stock = field(default_factory=lambda: read_stock(usual.RIDGE))
    plate: Stock = field(default_factory=lambda: read_stock(usual.PLATE))
    hip_way: HipWay = "backed"
    valley_way: ValleyWay = "plain"
    hip_head: HipHead = "commons"
    plate_corner: PlateCorner = "whole"
    walls: Outline | None = None
    high: HighEnd = "plate"

    @classmethod
    def over(cls, walls: Outline, **settings: Any) -> "RoofPlan":
        """A plan over any outline; its first eave's pitch is the main one."""
        return cls(walls=walls, **({"pitch": first_pitch(walls)} | settings))

    @cached_property
    def outline(self) -> Outline:
        """The walls as they are walked: given, or those of the rectangle or L."""
        if self.walls is not None:
            return self.walls
        if self.wing is None:
            return rectangle(self.length_in, self.width_in, self.pitch, self.end_pitch, self.ends)
        wing, ends = self.wing, (self.wing.end, self.ends[1])
        if wing.at_in > 0:
            return tee(
                self.length_in, self.width_in, wing.at_in, wing.length_in, wing.width_in,
                self.pitch, wing.pitch, self.end_pitch, (*self.ends, wing.end),
            )  # fmt: skip
        return ell(
            self.length_in, self.width_in, wing.length_in, wing.width_in, self.pitch,
            wing.pitch, self.end_pitch, ends,
        )  # fmt: skip

    @property
    def stud(self) -> Stock:
        """The stock of gable studs: the plate's."""
        return self.plate

    def overhang_of(self, pitch: Pitch) -> float:
        """The overhang of a roof of this pitch that keeps the fascia level [inches]."""
        return self.overhang_in * _slope(self.pitch) / _slope(pitch)

    @property
    def rake_back_in(self) -> float:
        """How far outside a gable wall the back of its rake board stands, level [inches]."""
        return max(0.0, self.rake_overhang_in - self.fascia_in)

    @property
    def rake_width_in(self) -> float:
        """How wide a rake board is taken to be, to buy it long enough [inches].

        The narrowest dressed width that covers the rafters' deepest plumb cut, as their fascia
        does, with which the rake board is commonly cut from one stock (common practice, no source).
        """
        steepest = max(_slope(pitch) for pitch in self.pitches)
        return covering_width_in(self.rafter.depth_in * hypot(1.0, steepest))

    @property
    def mouth(self) -> BirdsMouth:
        """The commons' bird's mouth, whose height above plate every stick shares."""
        seat = self.plate.depth_in if self.seat_in is None else self.seat_in
        return from_seat(self.pitch.slope_deg, self.rafter, seat)

    def mouth_of(self, pitch: Pitch) -> BirdsMouth:
        """The bird's mouth of a rafter of this pitch at the shared height above plate."""
        return from_height(pitch.slope_deg, self.rafter, self.mouth.height_above_plate_in)

    def check(self) -> None:
        """Raise FrameError or LengthError where this roof cannot be framed, and say why."""
        self._check_sizes()
        self._check_ridge()

    def _check_sizes(self) -> None:
        sizes = {"spacing": (self.spacing_in, "spacing")}
        if self.walls is None:
            sizes |= {"length": (self.length_in, "size"), "width": (self.width_in, "size")}
        if self.wing is not None:
            sizes["wing's length"] = (self.wing.length_in, "wing")
            sizes["wing's width"] = (self.wing.width_in, "wing")
        for name, (value, key) in sizes.items():
            if not 0 < value < 12 * 1000:
                raise FrameError(
                    f"a {name} of {value:g} in frames nothing; give one such as 24'", about=[key]
                )
        if self.wing is not None:
            self._check_wing(self.wing)
        shortest = min(wall.length_in for wall in self.outline.walls)
        if self.spacing_in > shortest and self.walls is None:
            raise LengthError(
                f"a spacing of {write_feet(self.spacing_in)} is longer than the eave of"
                f" {write_feet(shortest)}; give a spacing such as 16 or 24 in",
                about=["spacing", "size"],
            )
        for pitch in self.pitches:
            check_overhang(self.overhang_of(pitch), self.fascia_in)
            self.mouth_of(pitch)
        self._check_rakes()
        if self.first_in is not None and not 0 < self.first_in <= self.spacing_in:
            raise LengthError(
                f"the first jack cannot stand {self.first_in:g} in from the corner;"
                " give more than 0 and at most the spacing of"
                f" {write_fraction(self.spacing_in)} in",
                about=["first", "spacing"],
            )

    def _check_rakes(self) -> None:
        over, thick = self.rake_overhang_in, self.fascia_in
        if over < 0 or 0 < over < thick:
            raise LengthError(
                f"a rake overhang of {write_fraction(over)} in does not hold a rake board"
                f" {write_fraction(thick)} in thick; give a longer one, or 0 for none",
                about=["rake-overhang", "fascia"],
            )

    def _check_wing(self, wing: Wing) -> None:
        if "bay" in (*self.ends, wing.end):
            raise FrameError(
                "a bay ends a roof without a wing here; say the walls as walked",
                about=["ends" if "bay" in self.ends else "wing-end"],
            )
        if wing.at_in > 0:
            return
        if self.ends[0] == "gable":
            raise FrameError(
                "the outer corner of an L is hipped, since both roofs turn there;"
                " give 'hip' for the left end",
                about=["ends"],
            )
        if self.length_in < wing.width_in + self.spacing_in:
            raise FrameError(
                "the wing is as wide as the main roof is long: that is no L",
                about=["wing", "size"],
            )

    def _check_ridge(self) -> None:
        """A rectangle's or L's ridge must leave wood on its rafters."""
        if self.walls is not None:
            return
        spans = [self.width_in, *([self.wing.width_in] if self.wing else [])]
        run = min(*spans, self.length_in) / 2
        room = run - self.mouth.seat_in
        if self.ridge.thickness_in / 2 >= room:
            raise LengthError(
                f"a ridge {write_fraction(self.ridge.thickness_in)} in thick takes"
                f" {write_fraction(self.ridge.thickness_in / 2)} in off a run of"
                f" {write_feet(run)} whose seat takes {write_fraction(self.mouth.seat_in)} in:"
                " no rafter is left; give a thinner ridge, a shorter seat or a wider roof",
                about=["ridge", "seat", "size"],
            )

    @property
    def pitches(self) -> tuple[Pitch, ...]:
        """Every pitch of the outline, once each."""
        return tuple(dict.fromkeys(w.pitch for w in self.outline.walls if w.pitch is not None))


def _slope(pitch: Pitch) -> float:
    """Rise on a level run of 1."""
    return pitch.rise / pitch.run
