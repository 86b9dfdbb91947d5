"""A training roof in one go: every stick at its place, named as the trade names it."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from layout.framing.carrier import Carrier
from layout.framing.contact import contacts, mated
from layout.framing.end_wall import end_walls
from layout.framing.face import Face
from layout.framing.fill import filled
from layout.framing.rafter import without_notch
from layout.framing.roof_frame import check_sticks, roof_frame
from layout.framing.roof_lines import RoofLines, roof_lines
from layout.framing.roof_plan import RoofPlan
from layout.framing.stick import Stick
from layout.length.code_sections import Comparison, bearing, carrier, notch
from layout.length.seat import CarrierSeat, bearing_in
from layout.quantity import Pitch

PREFIX = {"common": "C", "hip jack": "J", "valley jack": "VJ", "cripple jack": "CJ"}
END_WALL = {"gable stud": "G", "ledger": "L"}


@dataclass(frozen=True)
class TrainingRoof:
    """A roof framed from its plan: `sticks` in the order carriers, rafters, studs, plates.

    `surface` is the roof as planes and lines, its heights over the eaves' building lines.
    `faces` and `lines` are what they stand under; `seats` the hips' and valleys' seats by name.
    `left_out` says in words which rafters of the layout were not framed, and why.
    """

    plan: RoofPlan
    surface: RoofLines
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
        sides: dict[Pitch, dict[str, None]] = {}
        for face in self.faces:
            sides.setdefault(face.pitch, {})[face.name] = None
        found: list[Comparison] = []
        for pitch, names in sides.items():
            rafter = "rafter" if len(sides) == 1 else f"{', '.join(names)} rafter"
            found += plan.mouth_of(pitch).comparisons(width, rafter)
        for line in self.lines:
            cut_end_in = max(plan.mouth_of(face.pitch).plumb_depth_in for face in line.faces)
            found.append(carrier(line.kind, line.stock.depth_in, cut_end_in))
            if line.name in self.seats:
                seat = self.seats[line.name]
                found.append(bearing(line.kind, bearing_in(line.corner(), seat, width)))
                found.append(notch(line.kind, seat.deepest_notch_in, line.stock.depth_in))
        return tuple(dict.fromkeys(found))


def frame(plan: RoofPlan) -> TrainingRoof:
    """Frame the roof of a plan.

    Raises FrameError for a shape that cannot be framed, LengthError for sticks that cannot be
    cut so, each with what would work.
    """
    plan.check()
    surface = roof_lines(plan.outline)
    check_sticks(surface)
    bones = roof_frame(plan, surface)
    rafters: list[Stick] = []
    left_out: list[str] = []
    for rail in bones.rails:
        framed, missing = filled(bones, rail)
        rafters += framed
        left_out += missing
    rafters = _without_idle_notches(rafters, bones.plates)
    rafters += end_walls(bones, rafters)
    sticks = mated(_named([*bones.carriers, *rafters, *bones.plates]))
    return TrainingRoof(
        plan,
        surface,
        sticks,
        tuple(rail.face for rail in bones.rails),
        tuple(bones.lines.values()),
        bones.seats,
        tuple(left_out),
    )


def _without_idle_notches(rafters: Sequence[Stick], plates: Sequence[Stick]) -> list[Stick]:
    """The rafters, with a bird's mouth only where its seat lies on a plate.

    A valley jack may pass inside the plate, low enough for the notch to touch it but bear on
    nothing.
    """
    low = [stick for stick in rafters if not stick.on_plate]
    seated = {c.stick for c in contacts([*low, *plates]) if c.says == "common-seat"}
    return [
        stick
        if stick.on_plate or stick.name in seated
        else replace(stick, removals=without_notch(stick))
        for stick in rafters
    ]


def _named(sticks: Sequence[Stick]) -> tuple[Stick, ...]:
    """The sticks under the trade's letters and running numbers."""
    taken: Counter[str] = Counter()
    named = []
    for stick in sticks:
        prefix = (PREFIX | END_WALL).get(stick.role)
        if prefix is None:
            named.append(stick)
            continue
        taken[prefix] += 1
        named.append(stick.called(f"{prefix}{taken[prefix]}", stick.role))
    return tuple(named)
