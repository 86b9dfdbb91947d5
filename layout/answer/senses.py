"""The senses of an answer as data: which way the blade runs, where the saw rides, what it reaches.

Read from the cut's plane, the board and the saw's limits. The words for them stand in
`sense_words`; a picture or a JSON object takes them from here, so that all say one thing.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, radians
from typing import Literal

from layout.answer.answer import Answer
from layout.errors import CutError
from layout.plane.cut import Cut
from layout.quantity import write_fraction, write_length
from layout.tools.miter import MiterSetting, miter_setting
from layout.tools.saw import SawKind, reaches
from layout.tools.travel import (
    ONE_WAY,
    SIDES,
    Below,
    Side,
    Start,
    Wood,
    lean,
    start_from,
    wide_side,
)

FACES: tuple[Side, Side] = ("right", "left")
EDGES: tuple[Side, Side] = ("top", "bottom")
StartAt = Start | Literal["inside"]
"""An end of the line, or the inside corner of a notch, where no saw can start."""
Way = Literal["face", "both faces", "edge", "handsaw"]
"""How the cut is reached: one pass on a face, half from each face, one pass on an edge, or with
the handsaw alone."""
TOUCHES_IN = 1e-9
THIN_MARGIN_IN = 1 / 16
"""A blade that reaches by less than this just comes through: worth saying."""


@dataclass(frozen=True)
class Sense:
    """A circular saw whose shoe rides one surface, and what its blade does.

    `below_shoe` says under which wood the blade runs in below the shoe; `toward` to which end of
    the board, None for a square blade and a rip; `toward_side` to which edge or face, for a rip.
    `wide_side_on` is the wood on which the wide side of the shoe rides (None: no matter, at a
    notch), `start_from` the end of
    the line at which each kind of saw starts (None: either). `needs_in` is how much blade the
    cut takes [inches], infinite for a blade that lies flat. `marked` tells whether the cut's own
    line lies on this surface of the finished board.
    """

    side: Side
    tilt_deg: float
    below_shoe: Below
    toward: Literal["head", "foot"] | None
    toward_side: Side | None
    wide_side_on: Wood | None
    start_from: Mapping[SawKind, StartAt | None]
    needs_in: float
    within_tilt: bool
    within_depth: bool
    marked: bool

    @property
    def on_face(self) -> bool:
        """True for a shoe on a wide face, False on an edge."""
        return self.side in FACES

    @property
    def within_reach(self) -> bool:
        """One pass of the saw from this surface makes the cut."""
        return self.within_tilt and self.within_depth

    @property
    def square(self) -> bool:
        """True for a blade that stands square to its shoe."""
        return self.below_shoe == "square"

    @property
    def body_leans_over(self) -> Wood | None:
        """The wood over which the saw leans above the board: the other one than below."""
        return {"under_waste": "kept", "under_kept": "waste"}.get(self.below_shoe)  # type: ignore[return-value]


@dataclass(frozen=True, eq=False)
class SawReach:
    """What a pass with the shoe on one surface asks of the saw, and whether this one has it.

    `needs_in` is how much blade it takes below the shoe, along the blade [inches].
    """

    tilt_deg: float
    needs_in: float
    within_tilt: bool
    within_depth: bool

    @property
    def within(self) -> bool:
        """One pass of the saw from this surface makes the cut."""
        return self.within_tilt and self.within_depth


def saw_reach(answer: Answer, *, face: bool) -> SawReach:
    """What a pass with the shoe on either face, or on either edge, takes of tilt and of blade."""
    cut, limits = answer.cut, answer.limits
    tilt = float(cut.face_tilt_deg if face else cut.edge_tilt_deg)
    needs = through_in(cut, face=face) / max(cos(radians(tilt)), 1e-12)
    return SawReach(
        tilt, needs, reaches(tilt, limits.tilt_deg), needs <= limits.depth_in + TOUCHES_IN
    )


def sense(answer: Answer, side: Side) -> Sense:
    """What a saw does whose shoe rides this surface, for the answer's plane."""
    cut, asks = answer.cut, saw_reach(answer, face=side in FACES)
    runs = lean(cut.normal, side)
    starts: dict[SawKind, StartAt | None] = {
        kind: start_from(cut.normal, side, kind) for kind in SawKind
    }
    rides: Wood | None = wide_side(cut.normal, side)
    if is_notch(answer):
        # A notch is sawn from its open edge to the inside corner: a square blade with either
        # side anywhere, a tilted one only by the saw that starts there.
        square = runs.below == "square"
        starts = {kind: "bottom" if square else _from_open_edge(at) for kind, at in starts.items()}
        rides = None if square else rides
    return Sense(
        side,
        asks.tilt_deg,
        runs.below,
        runs.toward,
        runs.toward_side,
        rides,
        starts,
        asks.needs_in,
        asks.within_tilt,
        asks.within_depth,
        is_marked(answer, side),
    )


def _from_open_edge(start: StartAt | None) -> StartAt:
    return "bottom" if start in (None, "bottom") else "inside"


def senses(answer: Answer) -> Mapping[Side, Sense]:
    """The senses on all four surfaces."""
    return {side: sense(answer, side) for side in SIDES}


def through_in(cut: Cut, *, face: bool) -> float:
    """How far the blade goes in square to its shoe [inches]: across the part that it shapes."""
    if cut.runs_along:
        start, end = cut.strip
        return abs(float(end[1] - start[1]) if face else float(end[2] - start[2]))
    low, high = cut.span[0 if face else 1]
    return float(high - low)


def is_marked(answer: Answer, side: Side) -> bool:
    """Whether the cut's own line lies on this surface of the finished board."""
    stock, cut = answer.question.stock, answer.cut
    axis, level = {
        "right": (0, 0.0),
        "left": (0, stock.thickness_in),
        "bottom": (1, 0.0),
        "top": (1, stock.depth_in),
    }[side]
    if cut.runs_along:
        start, end = cut.strip
        ends = [(float(point[1]), float(point[2])) for point in (start, end)]
        other = stock.depth_in if axis == 0 else stock.thickness_in
        return any(
            abs(point[axis] - level) < TOUCHES_IN
            and -TOUCHES_IN <= point[1 - axis] <= other + TOUCHES_IN
            for point in ends
        )
    return any(abs(float(bound) - level) < TOUCHES_IN for bound in cut.span[axis])


def shoe_side(answer: Answer) -> Side:
    """The face for which a saw's setting is said: the right one, or of two cheeks the cheek's own.

    The shoe of one of two cheeks rides the face that the cheek comes out of: from the other one
    the blade would go through the second cheek.
    """
    return "right" if answer.is_rip or is_marked(answer, "right") else "left"


def is_hollow(answer: Answer) -> bool:
    """True for a notch or a hollow end: wood stays behind the plane, past its inside corner."""
    return len(answer.cuts) > 1 and not answer.question.joint.point


def is_cut_short(answer: Answer) -> bool:
    """True for a seat whose heel another cut takes away: it runs out through that cut."""
    stands = answer.question.stands
    return stands is not None and bool(stands.gone)


def others_left(answer: Answer) -> tuple[Answer, ...]:
    """The joint's other planes that the finished stick still has."""
    stands = answer.question.stands
    gone = stands.gone if stands is not None else ()
    return tuple(one for one in answer.others if one.plane_index not in gone)


def is_notch(answer: Answer) -> bool:
    """True where the planes take a notch out of the board, which runs on to both sides of it."""
    ways = [bool(cut.normal[0] > 0) for cut in answer.cuts if not cut.runs_along]
    return not answer.question.joint.point and any(ways) and not all(ways)


def faces(answer: Answer) -> tuple[Sense, ...]:
    """The faces on which the cut can be lined and sawn, the steadier one first.

    Steadier is the face where the wide side of the shoe rides on the kept wood. A rip is gauged
    on one face: the one to which its bevel falls, where its line lies there.
    """
    return tuple(sense(answer, side) for side in _face_sides(answer))


def _face_sides(answer: Answer) -> tuple[Side, ...]:
    return answer.once("face sides", lambda: _sought_face_sides(answer))


def _sought_face_sides(answer: Answer) -> tuple[Side, ...]:
    normal = answer.cut.normal
    told = [side for side in FACES if is_marked(answer, side)]
    told = told or list(FACES)  # a rip that runs out of the board
    if answer.is_rip:
        told.sort(key=lambda side: lean(normal, side).below != "under_waste")
        return tuple(told[:1])
    return tuple(sorted(told, key=lambda side: wide_side(normal, side) != "kept"))


def edges(answer: Answer) -> tuple[Sense, ...]:
    """The edges on which the cut can be lined and sawn through, the steadier one first."""
    told = [sense(answer, side) for side in _edge_sides(answer)]
    return tuple(sorted(told, key=lambda one: one.wide_side_on != "kept"))


def _edge_sides(answer: Answer) -> tuple[Side, ...]:
    return () if is_hollow(answer) else tuple(s for s in EDGES if is_marked(answer, s))


def from_both_in(answer: Answer) -> float | None:
    """How much blade it takes from each of two faces to meet in the middle [inches].

    None where that is no way: for a rip, a notch or hollow, and one of two cheeks.
    """
    if answer.is_rip or is_hollow(answer) or len(_face_sides(answer)) < 2:
        return None
    return saw_reach(answer, face=True).needs_in / 2


def way(answer: Answer) -> Way:
    """The first way in which this saw reaches the cut; never both faces as a cure for the tilt."""
    return answer.once("way", lambda: _sought_way(answer))


def _sought_way(answer: Answer) -> Way:
    on_face = saw_reach(answer, face=True)
    if on_face.within:
        return "face"
    half = from_both_in(answer) if on_face.within_tilt else None
    if half is not None and half <= answer.limits.depth_in + TOUCHES_IN:
        return "both faces"
    on_edge = _edge_sides(answer) and saw_reach(answer, face=False).within
    return "edge" if on_edge else "handsaw"


def within_reach(answer: Answer) -> bool:
    """Whether this saw reaches the plane in any way at all."""
    return way(answer) != "handsaw"


def joint_within_reach(answer: Answer) -> bool:
    """Whether this saw reaches every plane of the joint."""
    return all(within_reach(one) for one in (answer, *answer.others))


@dataclass(frozen=True, eq=False)
class LongPoint:
    """Where a slanted end reaches farthest along the board, and how far past which other place.

    `y_in` and `past_y_in` are measured from the right face [inches], `by_in` along the board.
    """

    y_in: float
    past_y_in: float
    by_in: float


def long_point(answer: Answer) -> LongPoint | None:
    """The long side of this plane's own part of the section; None for a rip or a square cut.

    A cut at the head reaches farther where x is larger: x falls toward the side that the cheek
    faces, at the foot likewise.
    """
    if answer.hand is None or answer.is_rip:
        return None
    low, high = (float(bound) for bound in answer.cut.span[0])
    far, near = (low, high) if float(answer.cut.normal[1]) > 0 else (high, low)
    return LongPoint(far, near, abs(float(answer.cut.left_lean)) * (high - low))


def face_shift_in(answer: Answer) -> float:
    """How much nearer the head the mark lies on the left face than on the right one [inches]."""
    return float(answer.cut.left_lean) * answer.question.stock.thickness_in


def miter(answer: Answer) -> tuple[MiterSetting, MiterSetting] | None:
    """The board flat and the board on edge; None for rips, notches and hollow ends."""
    if answer.is_rip or is_hollow(answer):
        return None
    normal = answer.cut.normal
    return miter_setting(normal, flat=True), miter_setting(normal, flat=False)


def miter_reaches(answer: Answer, laid: MiterSetting) -> bool:
    """Whether the table turns and the blade tilts so far."""
    limits = answer.limits
    return reaches(laid.table_deg, limits.turn_deg) and reaches(laid.tilt_deg, limits.tilt_deg)


def rip_falls_past(answer: Answer) -> float | None:
    """How far a rip falls where that is more than the board is deep [inches]; else None."""
    if not answer.is_rip:
        return None
    start, end = answer.cut.strip
    fall = abs(float(end[2] - start[2]))
    return fall if fall > answer.question.stock.depth_in else None


def check_rip(answer: Answer) -> None:
    """Raise CutError for a rip that falls past the board's other edge."""
    fall = rip_falls_past(answer)
    if fall is not None:
        raise CutError(
            f"this bevel falls {write_length(fall)} on a board"
            f" {write_fraction(answer.question.stock.depth_in, 64)} in deep: it runs out of the"
            " board; give a deeper board or a thinner one"
        )


def slant_in(answer: Answer) -> float:
    """How far the cut runs along the board from its nearest to its farthest corner [inches]."""
    corners = answer.cut.corners()[..., 0]
    return 0.0 if answer.is_rip else float(corners.max() - corners.min())


def one_way(answer: Answer) -> tuple[SawKind, ...]:
    """The saws to speak of: the one that was named, else both that tilt one way."""
    return ONE_WAY if answer.limits.kind is None else (answer.limits.kind,)
