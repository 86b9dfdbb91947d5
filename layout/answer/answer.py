"""Everything said about one cut on one board: the marks, the settings, and both verdicts.

A question names a cut of the catalogue and what it stands in; the answer reads the joint's
plane once, hands each method nothing but the settings a carpenter would have, and measures
the plane that comes back against the joint's own.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal, TypeVar

import numpy as np

from layout.answer.question import Question
from layout.cuts import Hand
from layout.plane.cut import ALONG, Cut, mark_deg
from layout.plane.joint import Plane
from layout.quantity import nearest
from layout.tools.fit import SOUND_IN, Fit, fit
from layout.tools.saw import SawLimits, as_set
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from layout.tools.square import GRADUATION, Arm, Numbers, numbers
from layout.vector import Array, angle_deg, sign

T = TypeVar("T")
GAUGE_HALVES = 2
"""A marking gauge for a rip is set to half a division of the square: 1/32 in on an inch one."""
MILLIMETRE_PARTS = 25
"""Millimetres that stand for one unit of the square: 300 on a metric square's arm for 12."""
BESIDE_IN = 1e-6
SAME_ANGLE_DEG = 1e-10
"""Rounding alone; a coarser match would lay a line that misses by more than a sound method may."""


@dataclass(frozen=True)
class Mark:
    """A line on a surface of the board.

    `from_square_deg` is its angle from square across [degrees]. `lean` is +1 where its far end
    (the top of a face mark, the left of an edge mark) lies nearer the head, -1 nearer the foot,
    0 where it runs square across or straight along. `numbers` lay it with the square, None for
    a line square across or along the board; `base` says which of them is the round one, said
    first: the run, or 12. `parts` is how many divisions of the square make one of its units.
    """

    from_square_deg: float
    lean: int
    numbers: Numbers | None
    base: Literal["mark", "other"] = "mark"
    parts: int = GRADUATION

    @property
    def bevel_deg(self) -> float:
        """What a sliding bevel is set to, from the board's edge [degrees]."""
        return 90.0 - self.from_square_deg

    @property
    def runs_along(self) -> bool:
        """True for a line gauged along the board."""
        return self.from_square_deg > 90.0 - SAME_ANGLE_DEG

    @property
    def square(self) -> tuple[float, float] | None:
        """The two numbers as laid on the square, the round one first [inches]."""
        if self.numbers is None:
            return None
        pair = self.numbers.as_read(self.parts)
        return (pair.mark, pair.other) if self.base == "mark" else (pair.other, pair.mark)

    def legs(self, as_read: bool) -> tuple[float, float]:
        """Along and across parts of the line [any unit], exact or as laid on the square."""
        if self.numbers is None:
            return (1.0, 0.0) if self.runs_along else (0.0, 1.0)
        pair = self.numbers.as_read(self.parts) if as_read else self.numbers
        return pair.mark, pair.other


@dataclass(frozen=True)
class BevelMark:
    """A cut's line on one bevel of a backed top edge.

    `side` is the half of the edge on which the bevel lies, `from_square_deg` the line's angle
    from square across that bevel [degrees]. `lean` is +1 where the line's left end lies nearer
    the head, -1 nearer the foot, 0 where it runs square across or along the board.
    """

    side: Hand
    from_square_deg: float
    lean: int


@dataclass(frozen=True, eq=False)
class Verdict:
    """How a method's plane fits the joint: exact, and as its settings are read on the tool."""

    setting: Setting
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


def _across_name(y_in: float, thickness_in: float) -> str:
    """What lies so far from the right face: a face, the middle, or a line in between."""
    for at, name in (
        (0.0, "right face"),
        (thickness_in, "left face"),
        (thickness_in / 2, "middle of the thickness"),
    ):
        if abs(y_in - at) < BESIDE_IN:
            return name
    return "line between the faces"


@dataclass(frozen=True, eq=False)
class Answer:
    """The marks and settings of one plane of a joint, and the verdict on both methods.

    `square_parts` is how many divisions of the square make one of its units: sixteenths on an
    inch square, 25 where millimeters are laid, a run of 300 for 12.
    """

    question: Question
    cuts: tuple[Cut, ...]
    plane_index: int = 0
    tolerance_in: float = 1 / 32
    limits: SawLimits = field(default_factory=SawLimits)
    square_parts: int = GRADUATION

    def once(self, key: object, work: Callable[[], T]) -> T:
        """What `work` finds of this answer, found when its reader first asks by this key.

        It lives as long as the answer, so that a lesson's many sentences ask once for a value.
        """
        kept: dict[object, T] = self.__dict__.setdefault("_kept", {})
        if key not in kept:
            kept[key] = work()
        return kept[key]

    @property
    def metric(self) -> bool:
        """True where the square is read in millimeters, and so all else."""
        return self.square_parts == MILLIMETRE_PARTS

    @property
    def plane(self) -> Plane:
        """The plane of the joint this answer is about, in the world, with its mate."""
        return self.question.joint.planes[self.plane_index]

    @property
    def cut(self) -> Cut:
        """The plane this answer is about, in board axes."""
        return self.cuts[self.plane_index]

    @cached_property
    def others(self) -> tuple["Answer", ...]:
        """The same said of the joint's other planes: the second cheek, the heel of a seat."""
        return tuple(
            replace(self, plane_index=plane_index)
            for plane_index in range(len(self.cuts))
            if plane_index != self.plane_index
        )

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

    @cached_property
    def stick_slope_deg(self) -> float:
        """Slope of the board itself above level [degrees]."""
        return float(np.degrees(np.arcsin(np.clip(self.question.joint.pose.head[2], -1, 1))))

    @cached_property
    def face(self) -> Mark:
        """The mark on the wide face: the stick's run and rise where plumb or level, else on 12."""
        angle = float(self.cut.face_mark_deg)
        tangent = float(np.tan(np.radians(angle)))
        run = 12.0 * float(np.asarray(self.question.joint.unit_run))
        rise = run * float(np.tan(np.radians(self.stick_slope_deg)))
        plumb = abs(angle - self.stick_slope_deg) < SAME_ANGLE_DEG
        level = abs(90.0 - angle - self.stick_slope_deg) < SAME_ANGLE_DEG
        if not (plumb or level):
            run, rise, plumb = 12.0, 12.0 * min(tangent, 1 / max(tangent, 1e-9)), tangent <= 1
        mark, other = (rise, run) if plumb else (run, rise)
        base: Literal["mark", "other"] = "other" if plumb else "mark"
        mark_arm: Arm = "tongue" if plumb else "blade"
        return self._line(angle, float(self.cut.normal[2]), mark, other, base, mark_arm)

    @cached_property
    def edge(self) -> Mark:
        """The mark on the edge: 12 on the arm marked along, the edge number on the other."""
        number = float(self.cut.edge_number)
        angle = float(self.cut.edge_mark_deg)
        return self._line(angle, float(self.cut.normal[1]), 12.0, number, "mark", "tongue")

    @property
    def backed_edges(self) -> tuple[BevelMark, ...]:
        """The mark on each beveled half of a backed top edge, left then right.

        They differ from the mark on the square edge, in the end toward which they slant too: the
        surface itself is tilted. On a hip's crown the bevel that faces more to the left lies on
        the left half; in a valley's hollow it lies on the right half. Empty for a cut that never
        comes through the top edge, as a notch in the bottom edge, and for a rip along it.
        """
        bevels = self.question.joint.bevels
        stock = self.question.stock
        if not bevels or self.is_rip or self.cut.span[1, 1] < stock.depth_in - BESIDE_IN:
            return ()
        surfaces = [self.question.joint.pose.to_board(bevel) for bevel in bevels]
        surfaces.sort(key=lambda surface: float(surface[1]), reverse=True)
        if self.question.corner.interior_deg > 180.0:
            surfaces.reverse()
        return tuple(
            BevelMark(side, float(mark_deg(self.cut.normal, surface)), self._lean_on(surface))
            for side, surface in zip((Hand.LEFT, Hand.RIGHT), surfaces, strict=True)
        )

    def _lean_on(self, surface: Array) -> int:
        """Which way the mark's left end leans on a surface that looks up: +1 head, -1 foot, 0.

        One step to the left in the surface, square across it, is t = (0, sz, -sy). On the cut
        n.(x, t) = 0, so that x = -(n.t) / nx.
        """
        along, across, up = (float(part) for part in self.cut.normal)
        step = across * float(surface[2]) - up * float(surface[1])
        return 0 if abs(step) <= ALONG else sign(-step / along)

    @property
    def runs_under_waste(self) -> int:
        """+1 where, below a shoe on the right face, the blade runs in under the waste, -1 under
        the kept wood, 0 where it stands square; on the left face it is the other way about."""
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

    def hand_setting(self, as_read: bool) -> ByHand | RipByHand:
        """What is marked by hand, exact or to the division of the tool."""
        cut = self.cut
        if self.is_rip:
            start, end = cut.strip
            drop = abs(float(end[2] - start[2]))
            return RipByHand(
                abs(float(end[1] - start[1])),
                nearest(drop, GAUGE_HALVES * self.square_parts) if as_read else drop,
                sign(cut.normal[2]),
                -sign(cut.normal[1]),
            )
        return ByHand(
            self.face.legs(as_read),
            self.face.lean,
            self.edge.legs(as_read),
            self.edge.lean,
            sign(cut.normal[0]),
        )

    def saw_setting(self, as_read: bool) -> BySaw | RipBySaw:
        """The line the saw follows and its tilt, exact or to the divisions of square and saw."""
        cut = self.cut
        tilt = float(cut.face_tilt_deg)
        if as_read:
            tilt = float(as_set(tilt, self.limits.step_deg))
        if self.is_rip:
            return RipBySaw(tilt, sign(cut.normal[2]), -sign(cut.normal[1]))
        line = float(angle_deg(*self.face.legs(True))) if as_read else self.face.from_square_deg
        end = sign(cut.normal[0])
        return BySaw(line, self.face.lean, tilt, self.runs_under_waste, end)

    def edge_saw_setting(self) -> BySawOnEdge | None:
        """The same cut with the shoe on the top edge, along the edge mark; None for a rip."""
        if self.is_rip:
            return None
        cut = self.cut
        return BySawOnEdge(
            self.edge.from_square_deg,
            self.edge.lean,
            float(cut.edge_tilt_deg),
            sign(cut.normal[2]),
            sign(cut.normal[0]),
        )

    @cached_property
    def by_hand(self) -> Verdict:
        """The plane through the face line and the edge line, against the joint's."""
        return self._verdict(self.hand_setting(False), self.hand_setting(True))

    @cached_property
    def by_saw(self) -> Verdict:
        """The plane of the tilted blade along the face line, against the joint's."""
        return self._verdict(self.saw_setting(False), self.saw_setting(True))

    def fit(self, setting: Setting) -> Fit:
        """Stand the cut that this setting makes against the joint's mate, on this stock."""
        return replace(fit(self.cut, setting.normal), sides=self._sides)

    @property
    def _sides(self) -> tuple[str, str, str, str]:
        """What bounds the part of the section that this plane shapes: right, left, bottom, top.

        A rip's corners stand in pairs at the two lines that it runs along the board.
        """
        stock = self.question.stock
        (y0, y1), (z0, z1) = ((float(a), float(b)) for a, b in self.cut.span)
        across = [_across_name(y, stock.thickness_in) for y in (y0, y1)]
        if self.is_rip:
            return across[0], across[1], across[0], across[1]
        low = "bottom edge" if abs(z0) < BESIDE_IN else "inside corner"
        high = "top edge" if abs(z1 - stock.depth_in) < BESIDE_IN else "inside corner"
        return across[0], across[1], low, high

    @property
    def agree(self) -> bool:
        """Both methods are sound, and both good enough as read on the tools."""
        return all(v.sound and v.good_enough for v in (self.by_hand, self.by_saw))

    def _line(
        self,
        from_square_deg: float,
        part: float,
        mark: float,
        other: float,
        base: Literal["mark", "other"],
        mark_arm: Arm,
    ) -> Mark:
        if self.is_rip:
            return Mark(90.0, 0, None)
        if abs(part) <= ALONG:
            return Mark(0.0, 0, None)
        lean = sign(-part / float(self.cut.normal[0]))
        laid = numbers(mark, other, mark_arm)
        return Mark(from_square_deg, lean, laid, base, self.square_parts)

    def _verdict(self, exact: Setting, read: Setting) -> Verdict:
        return Verdict(exact, self.fit(exact), self.fit(read), self.tolerance_in)


def answer(
    question: Question,
    *,
    tolerance_in: float = 1 / 32,
    limits: SawLimits | None = None,
    square_parts: int = GRADUATION,
) -> Answer:
    """Answer a question about a cut: the first plane of its joint on its stock."""
    cuts = question.joint.cuts(question.stock)
    return Answer(question, cuts, 0, tolerance_in, limits or SawLimits(), square_parts)
