"""A joint's wrap laid out before it is lettered: which surfaces, how much of them, which lines.

Chosen by what the joint is. A cut at an end is wrapped right face, top edge, left face; a notch
or a bevel at the bottom edge is wrapped round that edge; a rip shows a strip of each face along
the edge, and the end grain on a flap. The paper ends at the start line, on the kept side, a
round distance from the long point.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil

import numpy as np

from figures.ink.pens import Point
from figures.wood.unroll import (
    Panel,
    Traced,
    cropped,
    end_flap,
    section,
    stretched,
    traced,
    unrolled,
)
from figures.wrap.stations import EDGES, Station, kind, stations
from layout.answer.answer import Answer
from layout.errors import SheetError
from layout.tools.setting import RipByHand

RIP_LENGTHS_IN = (12.0, 9.0, 7.0, 5.0, 4.0)
"""Lengths of board that a rip is drawn along; the first is the usual one [in]."""
PAST_GAUGE_IN, PAST_NOTCH_IN = 0.6, 0.4
"""Face shown beyond a gauge line and beyond a notch [in]."""
FAR_IN = 1e5
"""Longer than any mark on any board [in]."""
_ALIKE = 1e-6

OVER_TOP = ("right face", "top edge", "left face")
OVER_BACKED = ("right face", "right bevel", "left bevel", "left face")
UNDER_BOTTOM = ("left face", "bottom edge", "right face")
ALL_ROUND = (*OVER_TOP, "bottom edge")
OPENS_AT = "bottom arris of the right face"
"""The arris that a notch opens at, on the face that it is measured on."""


@dataclass(frozen=True)
class Fold:
    """Where the paper bends over an arris: its line on the paper [in] and the arris's name."""

    line: tuple[Point, Point]
    arris: str

    @property
    def gid(self) -> str:
        """The arris as an id."""
        return f"fold-{self.arris.replace(' ', '-')}"


@dataclass(frozen=True)
class Spread:
    """The unrolled surfaces of one joint, in inches of board, x toward the head, v up.

    `toward` is +1 where the waste lies toward the head, -1 toward the foot; `start_x` is where
    the paper ends on the kept side [in], None for a rip. `stop_short` names a face whose mark
    runs off the paper. `part` is 1 or 2 for one of the two papers of a long cut, of which only
    both ends are drawn; `as_top` is true where its edge bears the marks of the other's.
    """

    answer: Answer
    surfaces: tuple[Traced, ...]
    folds: tuple[Fold, ...]
    stations: tuple[Station, ...]
    toward: int
    start_x: float | None
    stop_short: str | None = None
    part: int = 0
    as_top: bool = False

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of the paper on the board's sides, flap left out [in]."""
        boxes = [one.panel.box for one in self.surfaces if one.panel.name != "end"]
        x0, v0, x1, v1 = (np.array(side) for side in zip(*boxes, strict=True))
        return float(x0.min()), float(v0.min()), float(x1.max()), float(v1.max())

    @cached_property
    def by_name(self) -> dict[str, Traced]:
        """The surfaces by name."""
        return {one.panel.name: one for one in self.surfaces}

    @property
    def lowest(self) -> Panel:
        """The panel at the foot of the paper."""
        return self.surfaces[0].panel

    @property
    def highest(self) -> Panel:
        """The panel at the head of the paper, flap left out."""
        return next(one.panel for one in reversed(self.surfaces) if one.panel.name != "end")

    def whole(self, panel: Panel) -> bool:
        """True where a side is shown from arris to arris."""
        return abs(panel.box[3] - panel.box[1] - self.widths[panel.name]) < _ALIKE

    @cached_property
    def widths(self) -> dict[str, float]:
        """The whole width of each side [in]."""
        sides = section(self.answer, backed="right bevel" in self.by_name)
        return {side.name: side.width_in for side in sides}

    @property
    def hollow(self) -> tuple[float, float] | None:
        """The v under which a hollowed edge is deepest, and how deep it gets there [in].

        None for all but a rip that hollows its edge.
        """
        flap = self.by_name.get("end")
        if flap is None or self.answer.question.joint.point or len(self.answer.cuts) < 2:
            return None
        hinge = flap.panel.box[0] if self.toward > 0 else flap.panel.box[2]
        ends = [end for mark in flap.marks for end in mark.line]
        x, v = max(ends, key=lambda end: abs(end[0] - hinge))
        return v, abs(x - hinge)

    @property
    def datum(self) -> tuple[float, str]:
        """The v of the line that is laid on the board first, and the arris it lies on.

        A notch is laid by the edge it opens at: that is where it is cut, so that is on whatever
        paper shows it. Else the free edge of a face that is shown whole, the right one if it can
        be; else the right face's fold.
        """
        folds = self._folds_along
        if kind(self.answer) == "notch" and OPENS_AT in folds.values():
            return next((v, arris) for v, arris in folds.items() if arris == OPENS_AT)
        for name in ("right face", "left face"):
            if name not in self.by_name or not self.whole(self.by_name[name].panel):
                continue
            _, low, _, high = self.by_name[name].panel.box
            free = [v for v in (low, high) if all(abs(v - fold) > _ALIKE for fold in folds)]
            if len(free) == 1:
                foot = (free[0] == low) == (name == "right face")
                return free[0], f"{'bottom' if foot else 'top'} arris of the {name}"
        return next((v, arris) for v, arris in folds.items() if arris.endswith("right face"))

    @property
    def laid_by(self) -> str:
        """What of the paper is laid on that arris: its "edge", or its "fold"."""
        return "fold" if self.datum[1] in self._folds_along.values() else "edge"

    @property
    def _folds_along(self) -> dict[float, str]:
        """The arrises that the paper is folded over along the board, by their v [in]."""
        return {
            fold.line[0][1]: fold.arris for fold in self.folds if fold.line[0][1] == fold.line[1][1]
        }

    def stays(self, panel: str) -> bool:
        """True where a rip's lines on a surface bound no waste there, or no kept wood.

        Such a line is where two bevels meet, or the arris that one starts from: it is left
        standing and nothing is sawn along it.
        """
        if not self.answer.is_rip or panel == "end":
            return False
        one = self.by_name[panel]
        return bool(min(one.kept.area, one.waste.area) < _ALIKE)

    @property
    def long_from_start_in(self) -> float:
        """From the start line to the first station along the board [in]."""
        assert self.start_x is not None
        return abs(self.stations[0].at[0] - self.start_x)


def usual_run(answer: Answer, *, backed: bool = False) -> tuple[str, ...]:
    """The surfaces a joint is wrapped over where nothing else is asked.

    A notch opens at the bottom edge, so its paper runs under it, whatever was done to the top.
    """
    if not answer.question.joint.point and kind(answer) == "notch":
        return UNDER_BOTTOM
    if backed:
        return OVER_BACKED
    if answer.is_rip and float(answer.cut.normal[2]) < 0:
        return UNDER_BOTTOM
    return OVER_TOP


def all_round_run(*, backed: bool = False) -> tuple[str, ...]:
    """All sides of the board, from the right face over the top edge to the bottom one."""
    return (*(OVER_BACKED if backed else OVER_TOP), "bottom edge")


def spread(
    answer: Answer,
    run: Sequence[str],
    *,
    backed: bool = False,
    short: tuple[str, float] | None = None,
    before_in: float = 0.5,
    past_in: float = 0.6,
    step_in: float = 0.5,
    length_in: float = RIP_LENGTHS_IN[0],
    strip_in: float | None = None,
    part: int = 0,
    between: tuple[float, float] | None = None,
) -> Spread:
    """The surfaces of a run with `before_in` of kept wood shown and `past_in` of waste [in].

    `short` names a face of which only so much is shown, from its fold [in], and `strip_in` is
    how much is shown of both; the start line stands a multiple of `step_in` from the long point.
    A rip is drawn along `length_in`. A `part` is one of two papers; `between` are the least and
    the greatest x of the ends of marks that it shows [in].
    """
    panels = unrolled(section(answer, backed=backed), run, -FAR_IN, FAR_IN)
    if answer.is_rip:
        return _rip(answer, panels, length_in, before_in)
    if short is not None:
        panels = _short_face(panels, *short)
    if strip_in is not None:
        for name in ("right face", "left face"):
            panels = _short_face(panels, name, strip_in)
    wide = _traced(answer, panels)
    xs = [x for one in wide for mark in one.marks for x, _ in mark.line]
    if not xs:
        raise SheetError(f"{answer.question.entry.name} leaves no mark on {', '.join(run)}")
    if between is not None:
        xs = [x for x in xs if between[0] - _ALIKE <= x <= between[1] + _ALIKE]
    toward = 1 if bool(answer.cut.at_head) else -1
    points = stations(answer, wide, toward)
    back, front = (min(xs), max(xs)) if toward > 0 else (max(xs), min(xs))
    reach = toward * (points[0].at[0] - back) + before_in
    start = points[0].at[0] - toward * ceil(reach / step_in - _ALIKE) * step_in
    end = front + toward * past_in
    made = tuple(stretched(panel, min(start, end), max(start, end)) for panel in panels)
    return Spread(
        answer,
        _traced(answer, made),
        _folds(made),
        points,
        toward,
        start,
        short[0] if short is not None and kind(answer) == "end" else None,
        part,
    )


def _short_face(panels: Sequence[Panel], name: str, shown_in: float) -> tuple[Panel, ...]:
    """The panels with only a strip of one face, along the arris it is folded over."""
    last = panels[-1].name == name
    if not last and panels[0].name != name:
        raise SheetError(f"a {name} that is folded on both sides is shown whole")
    at = len(panels) - 1 if last else 0
    _, bottom, _, top = panels[at].box
    shown = min(shown_in, top - bottom)
    strip = (bottom, bottom + shown) if last else (top - shown, top)
    return tuple(cropped(p, *strip) if i == at else p for i, p in enumerate(panels))


def _rip(answer: Answer, panels: Sequence[Panel], length_in: float, before_in: float) -> Spread:
    """A strip of each face along the ripped edge, and the end grain on a flap."""
    setting = answer.hand_setting(as_read=False)
    depth = answer.question.stock.depth_in
    if isinstance(setting, RipByHand) and setting.drop_in > depth:
        raise SheetError(
            f"the bevel falls {setting.drop_in:.4g} in, past a board {depth:.4g} in deep:"
            " use deeper stock"
        )
    at_head = answer.question.end == "head"
    x0, x1 = (-length_in, 0.0) if at_head else (0.0, length_in)
    panels = [stretched(panel, x0, x1) for panel in panels]
    edge = next(panel for panel in panels if panel.name in EDGES)
    _, low, _, high = edge.box
    strips = []
    for one in _traced(answer, panels):
        _, bottom, _, top = one.panel.box
        if one.panel.name not in EDGES:
            above = bottom >= high - _ALIKE
            vs = [v for mark in one.marks for _, v in mark.line]
            gauge = max([0.0, *((v - bottom) if above else (top - v) for v in vs)])
            shown = min(gauge + PAST_GAUGE_IN + before_in, top - bottom)
            bottom, top = (bottom, bottom + shown) if above else (top - shown, top)
        strips.append(cropped(one.panel, bottom, top))
    into = min(_deepest_in(answer, edge) + PAST_GAUGE_IN, depth)
    flap = end_flap(edge, into, at_head=at_head)
    hinge = x1 if at_head else x0
    folds = (*_folds(strips), Fold(((hinge, low), (hinge, high)), "end of the board"))
    return Spread(
        answer, _traced(answer, [*strips, flap]), folds, (), 1 if at_head else -1, None, None
    )


def _deepest_in(answer: Answer, edge: Panel) -> float:
    """How far from an edge the bevels of a rip get, as the end grain shows it [in]."""
    removals = answer.question.joint.removals
    flap = traced(end_flap(edge, FAR_IN, at_head=True), answer.cuts, removals)
    return max(x - edge.box[2] for mark in flap.marks for x, _ in mark.line)


def _traced(answer: Answer, panels: Sequence[Panel]) -> tuple[Traced, ...]:
    removals = answer.question.joint.removals
    return tuple(traced(panel, answer.cuts, removals) for panel in panels)


def _folds(panels: Sequence[Panel]) -> tuple[Fold, ...]:
    folds = []
    for below, above in pairwise(panels):
        x0, _, x1, v = below.box
        arris = arris_between(below.name, above.name, in_middle=_as_far_across(below, above))
        folds.append(Fold(((x0, v), (x1, v)), arris))
    return tuple(folds)


def _as_far_across(one: Panel, other: Panel) -> bool:
    """Whether two whole sides take as much of the board's thickness."""
    y, other_y = ((panel.box[3] - panel.box[1]) * float(panel.up[1]) for panel in (one, other))
    return abs(y - other_y) < _ALIKE


def arris_between(one: str, other: str, *, in_middle: bool = True) -> str:
    """The name of the arris that two sides of the board share.

    Two bevels of a backed edge meet in its middle, but for a valley's between two pitches: its
    trough lies nearer the face toward which the steeper bevel rises.
    """
    if "bevel" in one and "bevel" in other:
        return "middle of the top edge" if in_middle else "trough of the backing"
    face = one if "face" in one else other
    end = "bottom" if "bottom edge" in (one, other) else "top"
    return f"{end} arris of the {face}"


def off_paper(one: Spread) -> tuple[str, float] | None:
    """Where the mark of a face that stops short meets its far arris: the arris and the x [in]."""
    if one.stop_short is None:
        return None
    face = one.by_name[one.stop_short]
    # The far arris is the one that is not folded, on the board's other side of the face.
    bottom = "top arris" in one.folds[0].arris
    stock = one.answer.question.stock
    y = 0.0 if one.stop_short == "right face" else stock.thickness_in
    z = 0.0 if bottom else stock.depth_in
    x = float(one.answer.cuts[face.marks[0].plane_index].x_at(y, z))
    return f"{'bottom' if bottom else 'top'} arris of the {one.stop_short}", x


def notch_in(answer: Answer) -> float:
    """How much of a face a notch needs, from the edge it opens at [in]; nothing for other cuts."""
    if kind(answer) != "notch":
        return 0.0
    return PAST_NOTCH_IN + max(float(cut.span[1, 1]) for cut in answer.cuts)
