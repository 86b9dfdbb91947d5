"""A set of jacks for one hip or one valley: their places, lengths, hands and pieces.

Jacks stand on center along both eaves, counted from the corner of the building. A hip's jacks
rise from the plates to the hip and grow by the common difference from the corner on; a
valley's rise from the valley to the ridges, the longest next to the corner, on the eaves
produced. Every stick is a solid at its place; the lengths are read from it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from layout.errors import LengthError
from layout.framing.carrier import Carrier, ridge_top
from layout.framing.contact import mated
from layout.framing.cutlist import Lengths, lengths_of
from layout.framing.depth import check_carrier_depth
from layout.framing.face import Face
from layout.framing.hipend import HipEnd
from layout.framing.jackplan import JackPlan
from layout.framing.mouth import stick_mouth
from layout.framing.rafter import Edge, rafter, without_notch
from layout.framing.stick import CutPlane, Stick, WasteRegion, plane_at
from layout.framing.too_short import too_short
from layout.length.birdsmouth import from_height
from layout.length.boards import KERF_IN, USUAL_LENGTHS_IN, Board, Piece, cut_from_stock
from layout.length.code_sections import Comparison, bearing, carrier, notch
from layout.length.drop import hip_top, valley_top
from layout.length.run_length import jack_per_spacing
from layout.length.seat import CarrierSeat, bearing_in, line_seat
from layout.length.tail import check_overhang, level_overhang_in
from layout.plane.corner import Corner
from layout.quantity import write_feet, write_fraction
from layout.stock import Stock
from layout.vector import Array

RoofSide = Literal["own", "other"]
LETTER: dict[RoofSide, str] = {"own": "A", "other": "B"}


@dataclass(frozen=True)
class JackRow:
    """One jack of a set [inches].

    `side` is the roof it belongs to and `hand` the side its cheek faces. `position_in` is from
    the corner along that roof's eave to its middle. The theoretical length runs from the building
    line to the hip's center line, or from the valley's to the ridge's. `pair` names the same jack
    of the other hand on the other roof, empty where there is none.
    """

    name: str
    side: RoofSide
    hand: str
    position_in: float
    lengths: Lengths
    pair: str


@dataclass(frozen=True)
class JackSet:
    """A set of jacks: the hip or valley, the ridges at its top, and the jacks from the corner on.

    `seat` is the hip's or valley's on the plates. The common differences belong to the own and
    the other roof, each over one spacing. `left_out` says which places carry no jack, and why.
    """

    plan: JackPlan
    carrier: Stick
    ridges: tuple[Stick, ...]
    own: tuple[Stick, ...]
    other: tuple[Stick, ...]
    rows: tuple[JackRow, ...]
    seat: CarrierSeat
    own_difference_in: float
    other_difference_in: float
    left_out: tuple[str, ...]

    @property
    def sticks(self) -> tuple[Stick, ...]:
        """Every stick of the set."""
        return (self.carrier, *self.ridges, *self.own, *self.other)

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Left and right jacks of one length, once each."""
        return tuple((row.name, row.pair) for row in self.rows if row.pair and row.side == "own")

    @property
    def comparisons(self) -> tuple[Comparison, ...]:
        """Bearing, notch and the carrier's depth beside the code's sections; numbers only."""
        width = self.plan.plate_width_in
        steepest = max(jack.stock.depth_in / _level_part(jack) for jack in (*self.own, *self.other))
        return (
            *self._seats_compared(width),
            carrier(self.plan.line, self.plan.carrier.depth_in, steepest),
            bearing(self.plan.line, bearing_in(self.plan.corner, self.seat, width)),
            notch(self.plan.line, self.seat.deepest_notch_in, self.plan.carrier.depth_in),
        )

    def _seats_compared(self, width_in: float) -> Iterator[Comparison]:
        """Each roof's seat and notch on its longest jack, once where the pitches are alike; none
        for jacks that stand on no plate."""
        sides = {"A jack": self.own, "B jack": self.other}
        if self.plan.other_pitch in (None, self.plan.pitch):
            sides = {"jack": self.own or self.other}
        for name, jacks in sides.items():
            longest = max(jacks, key=lambda jack: jack.theoretical_in, default=None)
            mouth = stick_mouth(longest) if longest is not None else None
            if mouth is not None:
                yield bearing(name, min(mouth.seat_in, width_in))
                yield notch(name, mouth.notch_in, self.plan.jack.depth_in)

    def boards(
        self, lengths_in: Sequence[float] = USUAL_LENGTHS_IN, kerf_in: float = KERF_IN
    ) -> tuple[Board, ...]:
        """The jacks cut from boards of these lengths, and what is left over."""
        longest = max(lengths_in, default=0.0)
        for row in self.rows:
            tail_in = row.lengths.tail_in
            if tail_in > longest > 0:
                raise LengthError(
                    f"an overhang of {write_feet(self.plan.overhang_in)} asks for a tail of"
                    f" {write_feet(tail_in)}, longer than the stock of {write_feet(longest)};"
                    " give a shorter overhang or longer stock"
                )
        return cut_from_stock(
            [Piece(row.name, row.lengths.blank_in) for row in self.rows], lengths_in, kerf_in
        )


def jack_set(plan: JackPlan) -> JackSet:
    """Lay out, frame and measure a set of jacks.

    Raises LengthError for spacings, starts, seats and stock that leave no jack, and RoofError
    for a corner at which no such jacks stand.

    >>> made = jack_set(JackPlan(count=5))
    >>> [round(row.lengths.theoretical_in, 2) for row in made.rows if row.side == "own"]
    [19.23, 38.46, 57.69, 76.92, 96.15]
    >>> made.pairs[0]
    ('A1', 'B1')
    """
    plan.check()
    corner = plan.corner
    faces = _faces(plan, corner)
    line = _carrier_line(plan, corner, faces)
    check_carrier_depth(line, plan.jack)
    apex = line.foot + plan.reach_in / abs(float(line.plan_line @ corner.eave)) * line.plan_line
    ridges, ridge_sticks, heads = _top(plan, line, apex)
    seat = line_seat(
        corner, line.top, plan.carrier, plan.mouth.height_above_plate_in, plan.plate_corner
    )
    stick = line.stick(
        (*heads, *line.tail_removals(), *line.seat_removals(seat), *line.rip_removals()),
        line.length_to(apex),
        plan.line,
        True,
    )
    framed: dict[RoofSide, list[tuple[float, Stick]]] = {}
    left_out: list[str] = []
    sides: tuple[tuple[RoofSide, Face], ...] = (("own", faces[0]), ("other", faces[1]))
    for side, face in sides:
        reach = abs(float(apex @ face.along))
        framed[side], missing = _jacks(plan, side, face, line, ridges, reach)
        left_out += missing
    placed = [at for side in framed.values() for at, _ in side]
    sticks = mated([stick, *ridge_sticks, *(jack for side in framed.values() for _, jack in side)])
    start, own_count = 1 + len(ridge_sticks), len(framed["own"])
    own, other = sticks[start : start + own_count], sticks[start + own_count :]
    if not own and not other:
        raise LengthError("no jack stands on this eave; give a longer eave or a closer spacing")
    swapped = Corner(corner.other_slope_deg, corner.slope_deg, corner.interior_deg)
    return JackSet(
        plan,
        sticks[0],
        sticks[1:start],
        own,
        other,
        _rows(own, other, placed),
        seat,
        plan.spacing_in * float(jack_per_spacing(corner)),
        plan.spacing_in * float(jack_per_spacing(swapped)),
        tuple(left_out),
    )


def _faces(plan: JackPlan, corner: Corner) -> tuple[Face, Face]:
    """Both roofs over the corner in the middle of the world, positions counted from it to where
    the jacks stand."""
    toward = -1.0 if plan.line == "valley" else 1.0
    other_pitch = plan.other_pitch or plan.pitch
    height = plan.mouth.height_above_plate_in
    other_overhang = level_overhang_in(corner, plan.overhang_in)
    for overhang_in in (plan.overhang_in, other_overhang):
        check_overhang(overhang_in, plan.fascia_in)
    origin = np.zeros(3)
    return (
        Face("own", plan.pitch, origin, toward * corner.eave, corner.inward, height,
             plan.overhang_in, plan.fascia_in),
        Face("other", other_pitch, origin, toward * corner.other_eave, corner.other_inward, height,
             other_overhang, plan.fascia_in),
    )  # fmt: skip


def _carrier_line(plan: JackPlan, corner: Corner, faces: tuple[Face, Face]) -> Carrier:
    own, other = faces
    top = (
        valley_top(corner, plan.carrier, plan.valley_way)
        if plan.line == "valley"
        else hip_top(corner, plan.carrier, plan.hip_way)
    )
    return Carrier(
        "V1" if plan.line == "valley" else "H1",
        plan.line,
        own,
        other,
        plan.inside_deg,
        own.origin,
        corner.plan_line,
        plan.carrier,
        top,
    )


def _ridge(face: Face, name: str, apex: Array, toward: Array, stock: Stock) -> Carrier:
    """A ridge over the apex, level with a face's eave, and a like roof on its far side."""
    run = float(apex @ face.inward)
    far = replace(
        face,
        name=f"far {face.name}",
        origin=2 * run * face.inward,
        inward=-face.inward,
    )
    return Carrier(
        name, "ridge", face, far, 180.0, apex, toward, stock, ridge_top(face, far, stock)
    )


def _top(
    plan: JackPlan, line: Carrier, apex: Array
) -> tuple[dict[str, Carrier], list[Stick], tuple[WasteRegion, ...]]:
    """The ridges at the top by face, as sticks too, and the head cuts of the hip or valley."""
    own, other = line.faces
    run_on, other_on = (plan.spacing_in + abs(float(apex @ face.along)) for face in (own, other))
    if plan.line == "hip":
        ridge = _ridge(own, "R1", apex, own.along, plan.ridge)
        end = HipEnd(apex, -own.along, other, ridge, plan.jack, (line,), "ridge")
        far = plane_at(own.along, apex + run_on * own.along, "square end", "head")
        stick = ridge.stick((*end.ridge_removals(), (far,)), run_on, "ridge", False)
        return {"own": ridge}, [stick], end.hip_heads(line)
    own_ridge = _ridge(own, "R1", apex, -own.along, plan.ridge)
    other_ridge = _ridge(other, "R2", apex, -other.along, plan.ridge)
    near = own_ridge.mate_plane(own)
    past = _crossing_in(own_ridge, other_ridge, other, own)
    end_at = apex + past * own.along
    sticks = [
        own_ridge.stick(
            (
                (plane_at(own.along, end_at, "square end", "foot"),),
                (plane_at(-own.along, apex - run_on * own.along, "square end", "head"),),
            ),
            run_on,
            "ridge",
            False,
        ),
        other_ridge.stick(
            (
                (CutPlane(near.normal, near.level_in, "ridge end", "foot"),),
                (plane_at(-other.along, apex - other_on * other.along, "square end", "head"),),
            ),
            other_on,
            "ridge",
            False,
        ),
    ]
    heads = (line.ridge_head(own_ridge, own), line.ridge_head(other_ridge, other))
    return {"own": own_ridge, "other": other_ridge}, sticks, heads


def _crossing_in(own_ridge: Carrier, other_ridge: Carrier, other: Face, own: Face) -> float:
    """How far past the apex the other ridge's far side meets the own ridge's near side: half a
    ridge times the tangent of half the corner between the walls outside, always past it."""
    far_face = other_ridge.other
    ways = np.stack([own.along[:2], other.along[:2]], axis=1)
    start = other_ridge.near_point(far_face) - own_ridge.near_point(own)
    return float(np.linalg.solve(ways, start[:2])[0])


def _jacks(
    plan: JackPlan,
    side: RoofSide,
    face: Face,
    line: Carrier,
    ridges: dict[str, Carrier],
    reach_in: float,
) -> tuple[list[tuple[float, Stick]], list[str]]:
    """One side's jacks with their positions, from the corner on, and what was left out."""
    edges = [Edge(line, 0.0, reach_in)]
    if side in ridges:
        edges.append(Edge(ridges[side], 0.0 if plan.line == "valley" else reach_in, np.inf))
    mouth = from_height(face.pitch.slope_deg, plan.jack, face.height_in)
    clear = 2 * plan.jack.thickness_in
    made: list[tuple[float, Stick]] = []
    missing: list[str] = []
    count = int(np.ceil((reach_in - plan.start_in) / plan.spacing_in - 1e-9))
    for k in range(max(count, 0)):
        at = plan.start_in + k * plan.spacing_in
        place = f"{side} side, {write_fraction(at)} in from the corner"
        jack = rafter(face, edges, at, plan.jack)
        why = too_short(jack, mouth.seat_in)
        if why:
            missing.append(f"{place}: {why}")
        elif plan.line == "hip" and reach_in - at < clear:
            missing.append(f"{place}: the common at the hip's top stands there")
        else:
            jack = _without_idle_notch(jack, face, plan.plate_width_in)
            made.append((at, jack.called(f"{LETTER[side]}{len(made) + 1}", jack.role)))
    return made, missing


def _without_idle_notch(jack: Stick, face: Face, plate_width_in: float) -> Stick:
    """The jack without a bird's mouth whose seat lies inside the plate and bears on nothing."""
    seats = [
        polygon
        for plane in jack.planes
        if plane.says == "common-seat"
        for polygon in jack.surfaces(plane)
    ]
    if seats and float((np.concatenate(seats) @ face.inward).min()) < plate_width_in:
        return jack
    return replace(jack, removals=without_notch(jack))


def _level_part(stick: Stick) -> float:
    """Level run of a length of 1 along a stick."""
    return float(np.hypot(*stick.pose.head[:2]))


def _rows(
    own: tuple[Stick, ...], other: tuple[Stick, ...], placed: Sequence[float]
) -> tuple[JackRow, ...]:
    sides: list[tuple[RoofSide, Stick]] = [("own", s) for s in own] + [("other", s) for s in other]
    rows = []
    for (side, stick), at in zip(sides, placed, strict=True):
        cheek = next(p for p in stick.planes if p.says in ("hip-jack", "valley-jack"))
        hand = stick.hand(cheek)
        rows.append(
            JackRow(
                name=stick.name,
                side=side,
                hand="" if hand is None else hand.value,
                position_in=at,
                lengths=lengths_of(stick),
                pair="",
            )
        )
    return tuple(replace(row, pair=_pair_of(row, rows)) for row in rows)


def _pair_of(row: JackRow, rows: Sequence[JackRow]) -> str:
    """The jack of the other side and hand with the same lengths."""
    for mate in rows:
        one, other = (
            (each.long_in, each.short_in, each.tail_in) for each in (mate.lengths, row.lengths)
        )
        same = np.allclose(one, other, rtol=0.0, atol=1e-6)
        if mate.side != row.side and mate.hand != row.hand and same:
            return mate.name
    return ""
