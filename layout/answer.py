"""Everything said about one cut on one board: the marks, the settings, and both verdicts.

A question names a cut of the catalogue and what it stands in; the answer reads the joint's
plane once, hands each method nothing but the settings a carpenter would have, and measures
the plane that comes back against the joint's own.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from layout import hand as by_hand
from layout import saw as by_saw
from layout.cut import ALONG, Cut, mark_deg
from layout.cuts import Hand
from layout.fit import SOUND_IN, Fit, fit
from layout.quantity import nearest
from layout.question import Question
from layout.saw import SawLimits, as_set
from layout.square import Numbers, numbers
from layout.vector import Array, X, angle_deg

GAUGE_PARTS = 32
"""A marking gauge for a rip is set to the nearest 1/32 in."""
SAME_ANGLE_DEG = 1e-10
"""Rounding alone; a coarser match would lay a line that misses by more than a sound method may."""


@dataclass(frozen=True)
class Mark:
    """A line on a surface of the board.

    `from_square_deg` is its angle from square across [degrees]. `lean` is +1 where its far end
    (the top of a face mark, the left of an edge mark) lies nearer the head, -1 nearer the foot,
    0 where it runs square across or straight along. `numbers` lay it with the square, None for
    a line square across or along the board.
    """

    from_square_deg: float
    lean: int
    numbers: Numbers | None

    @property
    def bevel_deg(self) -> float:
        """What a sliding bevel is set to, from the board's edge [degrees]."""
        return 90.0 - self.from_square_deg

    @property
    def runs_along(self) -> bool:
        """True for a line gauged along the board."""
        return self.from_square_deg > 90.0 - SAME_ANGLE_DEG

    def legs(self, as_read: bool) -> tuple[float, float]:
        """Along and across parts of the line [any unit], exact or as laid in sixteenths."""
        if self.numbers is None:
            return (1.0, 0.0) if self.runs_along else (0.0, 1.0)
        pair = self.numbers.as_read() if as_read else self.numbers
        return pair.mark, pair.other


@dataclass(frozen=True)
class Gauges:
    """A rip's two lines: how far across the edge it reaches, how far it drops there [inches].

    `top` +1 for the top edge, -1 for the bottom; `right` +1 where the wood is lower at the
    right face, -1 at the left.
    """

    across_in: float
    drop_in: float
    top: float
    right: float


@dataclass(frozen=True)
class Verdict:
    """How a method's plane fits the joint: exact, and as its settings are read on the tool."""

    normal: Array
    exact: Fit
    read: Fit
    tolerance_in: float

    @property
    def sound(self) -> bool:
        """The method itself is right: with exact settings no gap opens."""
        return bool(self.exact.widest_in < SOUND_IN)

    @property
    def good_enough(self) -> bool:
        """With settings as read on the tool the gap stays within the tolerance."""
        return bool(self.read.widest_in <= self.tolerance_in)


@dataclass(frozen=True)
class Answer:
    """The marks and settings of one plane of a joint, and the verdict on both methods."""

    question: Question
    cuts: tuple[Cut, ...]
    which: int = 0
    tolerance_in: float = 1 / 32
    limits: SawLimits = field(default_factory=SawLimits)

    @property
    def cut(self) -> Cut:
        """The plane this answer is about."""
        return self.cuts[self.which]

    @property
    def hand(self) -> Hand | None:
        """The side the cheek faces; None where the plane runs square through the thickness."""
        side = float(self.cut.normal[1])
        if abs(side) <= ALONG:
            return None
        return Hand.LEFT if side > 0 else Hand.RIGHT

    @property
    def is_rip(self) -> bool:
        """True for a bevel that runs along the board."""
        return bool(self.cut.runs_along)

    @property
    def stick_slope_deg(self) -> float:
        """Slope of the board itself above level [degrees]."""
        return float(np.degrees(np.arcsin(np.clip(self.question.joint.pose.head[2], -1, 1))))

    @cached_property
    def face(self) -> Mark:
        """The mark on the wide face."""
        tangent = float(np.tan(np.radians(self.cut.face_mark_deg)))
        return self._mark(
            float(self.cut.face_mark_deg),
            float(self.cut.normal[2]),
            lambda: self._face_numbers(tangent),
        )

    @cached_property
    def edge(self) -> Mark:
        """The mark on the edge."""
        return self._mark(
            float(self.cut.edge_mark_deg),
            float(self.cut.normal[1]),
            lambda: numbers(12.0, float(self.cut.edge_number)),
        )

    @property
    def backed_edges(self) -> tuple[tuple[Hand, float], ...]:
        """The mark on each bevelled half of a backed top edge, from square across [degrees].

        They differ from the mark on the square edge: the surface itself is tilted.
        """
        marks = []
        for bevel in self.question.joint.bevels:
            surface = self.question.joint.pose.to_board(bevel)
            side = Hand.LEFT if surface[1] > 0 else Hand.RIGHT
            marks.append((side, float(mark_deg(self.cut.normal, surface))))
        return tuple(sorted(marks, key=lambda pair: pair[0].value))

    @cached_property
    def gauges(self) -> Gauges | None:
        """Where a rip's lines are gauged; None for a cut that ends the board."""
        if not self.is_rip:
            return None
        start, _, end, _ = self.cut.corners()
        return Gauges(
            abs(float(end[1] - start[1])),
            abs(float(end[2] - start[2])),
            float(np.sign(self.cut.normal[2])),
            float(-np.sign(self.cut.normal[1])),
        )

    @property
    def blade_leans_to_waste(self) -> int:
        """+1 where a blade whose shoe rides the right face leans over the waste, -1 under the
        kept wood, 0 where it stands square; on the left face it is the other way about."""
        return 0 if self.hand is None else (1 if self.hand is Hand.RIGHT else -1)

    @property
    def long_minus_short_in(self) -> float:
        """How much longer the longer face is than the shorter one, along any line [inches]."""
        if self.is_rip:
            return 0.0
        return abs(float(self.cut.left_lean)) * self.question.stock.thickness_in

    @property
    def runs_down_face_in(self) -> float:
        """How far the face mark runs along the board over the whole depth [inches]."""
        return 0.0 if self.is_rip else abs(float(self.cut.top_lean)) * self.question.stock.depth_in

    @cached_property
    def by_hand(self) -> Verdict:
        """The plane through the face line and the edge line, against the joint's."""
        return self._verdict(self._hand_normal(as_read=False), self._hand_normal(as_read=True))

    @cached_property
    def by_saw(self) -> Verdict:
        """The plane of the tilted blade along the face line, against the joint's."""
        return self._verdict(self._saw_normal(as_read=False), self._saw_normal(as_read=True))

    @property
    def agree(self) -> bool:
        """Both methods are sound, and both good enough as read on the tools."""
        return all(v.sound and v.good_enough for v in (self.by_hand, self.by_saw))

    def _mark(self, from_square_deg: float, part: float, lay: Callable[[], Numbers]) -> Mark:
        if self.is_rip:
            return Mark(90.0, 0, None)
        if abs(part) <= ALONG:
            return Mark(0.0, 0, None)
        lean = int(np.sign(-part / float(self.cut.normal[0])))
        return Mark(from_square_deg, lean, lay())

    def _face_numbers(self, tangent: float) -> Numbers:
        """The stick's own run and rise where the mark is plumb or level, else 12 and a number."""
        run = 12.0 * float(np.asarray(self.question.joint.unit_run))
        rise = run * float(np.tan(np.radians(self.stick_slope_deg)))
        mark = float(self.cut.face_mark_deg)
        if abs(mark - self.stick_slope_deg) < SAME_ANGLE_DEG:
            return numbers(rise, run)
        if abs(90.0 - mark - self.stick_slope_deg) < SAME_ANGLE_DEG:
            return numbers(run, rise)
        return numbers(12.0 * tangent, 12.0) if tangent <= 1 else numbers(12.0, 12.0 / tangent)

    def _hand_normal(self, as_read: bool) -> Array:
        if self.gauges is not None:
            g = self.gauges
            drop = nearest(g.drop_in, GAUGE_PARTS) if as_read else g.drop_in
            return by_hand.plane_along(drop, g.across_in, g.top, g.right)
        face = by_hand.face_line(*self.face.legs(as_read), self.face.lean)
        edge = by_hand.edge_line(*self.edge.legs(as_read), self.edge.lean)
        return by_hand.plane_through(face, edge, X if self.cut.at_head else -X)

    def _saw_normal(self, as_read: bool) -> Array:
        tilt = float(self.cut.face_tilt_deg)
        if as_read:
            tilt = float(as_set(tilt, self.limits.step_deg))
        if self.gauges is not None:
            return by_saw.rip_from_face(tilt, self.gauges.top, self.gauges.right)
        line_deg = float(angle_deg(*self.face.legs(as_read)))
        if not as_read:
            line_deg = self.face.from_square_deg
        at_head = 1.0 if self.cut.at_head else -1.0
        return by_saw.plane_from_face(
            line_deg, self.face.lean, tilt, self.blade_leans_to_waste, at_head
        )

    def _verdict(self, exact: Array, read: Array) -> Verdict:
        return Verdict(exact, fit(self.cut, exact), fit(self.cut, read), self.tolerance_in)


def answer(
    question: Question,
    *,
    tolerance_in: float = 1 / 32,
    limits: SawLimits | None = None,
) -> Answer:
    """Answer a question about a cut: the first plane of its joint on its stock."""
    cuts = question.joint.cuts(question.stock)
    return Answer(question, cuts, 0, tolerance_in, limits or SawLimits())
