"""A training roof in one go: every stick at its place, named as the trade names it."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from layout.framing.carrier import Carrier
from layout.framing.contact import contacts, mated
from layout.framing.face import Face
from layout.framing.rafter import rafter
from layout.framing.roof_frame import Bay, bay_positions
from layout.framing.roof_plan import RoofPlan
from layout.framing.shape import roof_frame
from layout.framing.stick import Stick
from layout.length.code_sections import Comparison, bearing, carrier, notch
from layout.length.seat import CarrierSeat, bearing_in

PREFIX = {"common": "C", "hip jack": "J", "valley jack": "VJ", "cripple jack": "CJ"}


@dataclass(frozen=True)
class TrainingRoof:
    """A roof framed from its plan: `sticks` in the order carriers, rafters, plates.

    `faces` and `lines` are what they stand under; `seats` the hips' and valleys' seats by name.
    `left_out` says in words which rafters of the layout were not framed, and why.
    """

    plan: RoofPlan
    sticks: tuple[Stick, ...]
    faces: tuple[Face, ...]
    lines: tuple[Carrier, ...]
    seats: dict[str, CarrierSeat]
    left_out: tuple[str, ...]

    @cached_property
    def by_name(self) -> dict[str, Stick]:
        """Every stick by its name."""
        return {stick.name: stick for stick in self.sticks}

    @property
    def rafters(self) -> tuple[Stick, ...]:
        """Commons, jacks and cripples."""
        return tuple(stick for stick in self.sticks if stick.role in PREFIX)

    @property
    def comparisons(self) -> tuple[Comparison, ...]:
        """Bearings, notches and depths beside the code's sections; numbers only, each once."""
        plan, width = self.plan, self.plan.plate.depth_in
        pitches = dict.fromkeys(face.pitch for face in self.faces)
        mouths = [plan.mouth_of(pitch) for pitch in pitches]
        found = [said for mouth in mouths for said in mouth.comparisons(width)]
        for line in self.lines:
            cut_end_in = max(plan.mouth_of(face.pitch).plumb_depth_in for face in line.faces)
            found.append(carrier(line.kind, line.stock.depth_in, cut_end_in))
            if line.name in self.seats:
                seat = self.seats[line.name]
                found.append(bearing(line.kind, bearing_in(line.corner(), seat, width)))
                found.append(notch(line.kind, seat.mouth.notch_depth_in, line.stock.depth_in))
        return tuple(dict.fromkeys(found))


def frame(plan: RoofPlan) -> TrainingRoof:
    """Frame the roof of a plan.

    Raises FrameError for a shape that cannot be framed, LengthError for sticks that cannot be
    cut so, each with what would work.
    """
    plan.check()
    bones = roof_frame(plan)
    rafters: list[Stick] = []
    left_out: list[str] = []
    for bay in bones.bays:
        framed, missing = _fill(plan, bay)
        rafters += framed
        left_out += missing
    rafters = _without_idle_notches(rafters, bones.plates)
    sticks = mated(_named([*bones.carriers, *rafters, *bones.plates]))
    return TrainingRoof(
        plan,
        sticks,
        tuple(bay.face for bay in bones.bays),
        tuple(bones.lines.values()),
        bones.seats,
        tuple(left_out),
    )


def _fill(plan: RoofPlan, bay: Bay) -> tuple[list[Stick], list[str]]:
    """The rafters of one bay, and what was left out of it."""
    fixed = {each.position_in: each.only for each in bay.fixed}
    framed, missing = [], []
    mouth = plan.mouth_of(bay.face.pitch)
    rail = bay_positions(plan, bay.length_in, bay.start_hip_in, bay.end_hip_in, bay.fixed)
    for position in rail:
        if position > bay.to_in:
            continue
        only = fixed.get(position, ())
        stick = rafter(bay.face, bay.edges, position, plan.rafter, only)
        short_in = stick.measured().short_in if stick.exists else 0.0
        least_in = mouth.seat_in if stick.on_plate else plan.rafter.thickness_in
        if short_in * float(np.hypot(*stick.pose.head[:2])) < least_in:
            missing.append(
                f"{stick.name} is too short to frame: its head would stand over its own foot"
            )
            continue
        framed.append(stick)
    return framed, missing


def _without_idle_notches(rafters: Sequence[Stick], plates: Sequence[Stick]) -> list[Stick]:
    """The rafters, with a bird's mouth only where its seat lies on a plate.

    A valley jack may pass inside the plate, low enough for the notch to touch it but bear on
    nothing.
    """
    seated = {c.stick for c in contacts([*rafters, *plates]) if c.says == "common-seat"}
    return [
        stick
        if stick.name in seated
        else replace(stick, removals=tuple(r for r in stick.removals if len(r) == 1))
        for stick in rafters
    ]


def _named(sticks: Sequence[Stick]) -> tuple[Stick, ...]:
    """The sticks under the trade's letters and running numbers."""
    taken: Counter[str] = Counter()
    named = []
    for stick in sticks:
        prefix = PREFIX.get(stick.role)
        if prefix is None:
            named.append(stick)
            continue
        taken[prefix] += 1
        named.append(replace(stick, name=f"{prefix}{taken[prefix]}"))
    return tuple(named)
