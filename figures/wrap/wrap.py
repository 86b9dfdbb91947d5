"""The full-size template that wraps the stock: the surfaces of a board, unrolled and lettered.

Heavy lines are cut or marked, dashed ones fold over an arris, waste is hatched. Whatever must
outlive the cut is written on the kept wood. Ids in the file: `mark-right-face`, `mark-top-edge`
and so on (a second plane's marks end in -2), `fold-...`, `datum`, `start-line`.

    wrap(answer)                              right face, top edge, left face, at true size
    wrap(answer, surfaces=ALL_ROUND)          the bottom edge too
    wrap(answer, backed=True)                 a hip over its bevels
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import shapely

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.ink.pens import Point
from figures.wood.unroll import on_paper
from figures.wrap.spread import (
    RIP_LENGTHS_IN,
    Spread,
    spread,
    usual_run,
)
from figures.wrap.wrap_lettering import Lettered, Squeeze, WrapLettering
from figures.wrap.wrap_words import backing_falls
from layout.answer.answer import Answer

_ALIKE = 1e-6
_SPECK_IN = 1e-3
"""A line as short as this cannot be seen [in]."""
_ROUND_IN = 1.0
"""How far the paper that is left out goes on past a wrap's lines [in]."""
NOTCH_IN = (0.16, 0.1)
"""How far a notch at a fold's end reaches in, and half its width [in on paper]."""
BEFORE_IN = 0.5
PAST_IN = 0.6
"""The least kept wood and waste shown beyond the marks [in on paper]."""
STEPS_IN = (0.25, 0.5, 1.0, 2.0, 6.0, 12.0, 1e9)
"""The start line stands a multiple of one of these from the long point [in of board]."""
BAND_IN = 2.0
"""The least kept wood shown beside the marks where what lies far from them is left out [in]."""


@dataclass(frozen=True)
class Wrap:
    """A wrap's lines in inches on paper, ready to be lettered.

    `laid` is what is drawn, `far` is paper that was left out since it lies far from the marks.
    """

    laid: Spread
    lines: Drawing
    factor: float
    far: Polygon | None = None

    def lettered(
        self,
        keep_off: Sequence[Polygon] = (),
        *,
        squeeze: Squeeze = Squeeze.NONE,
        first: Polygon | None = None,
        shared: bool = False,
    ) -> Lettered:
        """The wrap with its words, none of them on the areas to keep off; `first` and `shared` as
        for `WrapLettering.drawn`."""
        made = self._lettering if not keep_off else self._being_lettered(keep_off)
        return made.drawn(squeeze, first, shared)

    @cached_property
    def _lettering(self) -> WrapLettering:
        """The wrap with its names: the same, however far the notes give way."""
        return self._being_lettered([])

    def _being_lettered(self, keep_off: Sequence[Polygon]) -> WrapLettering:
        apart = [*keep_off, *([] if self.far is None else [self.far])]
        return WrapLettering(self.laid, self.lines, self.factor, apart)

    @property
    def size(self) -> Point:
        """Width and height of its lines [in]."""
        x0, y0, x1, y1 = self.lines.bounds(words=False)
        return x1 - x0, y1 - y0

    def keeps_within(self, sizes: Sequence[Point]) -> bool:
        """True where one of these widths and heights [in] holds it, words not counted."""
        wide, high = self.size
        return any(wide <= w + 1e-9 and high <= h + 1e-9 for w, h in sizes)


def lay(
    answer: Answer,
    surfaces: Sequence[str] | None = None,
    *,
    backed: bool = False,
    short: tuple[str, float] | None = None,
    length_in: float = RIP_LENGTHS_IN[0],
    factor: float = 1.0,
    strip_in: float | None = None,
    band: bool = False,
    before_in: float = BEFORE_IN,
) -> Wrap:
    """The lines of a joint's wrap, in inches on paper; x toward the head, right face at v = 0.

    `surfaces` is a run of sides that follow each other; `backed` wraps a hip or valley over its
    backing. `short` names a face of which only so much is shown, `strip_in` is how much is shown
    of both, `length_in` how much of a ripped board [in of board]. `factor` is the inches on
    paper for an inch of board: at other factors than 1 it is a study view. A `band` of a
    full-size wrap leaves out what lies far from the marks.
    `before_in` is the kept wood that is shown at least [in on paper].

    Raises SheetError for surfaces that cannot be wrapped.
    """
    run = tuple(surfaces) if surfaces is not None else usual_run(answer, backed=backed)
    laid = spread(
        answer,
        run,
        backed=backed,
        short=short,
        before_in=before_in / factor,
        past_in=PAST_IN / factor,
        step_in=next(step for step in STEPS_IN if step * factor >= 0.2),
        length_in=length_in,
        strip_in=strip_in,
    )
    drawn = lines(laid, factor)
    if not band:
        return Wrap(laid, drawn, factor)
    near = _near_marks(laid, BAND_IN + before_in)
    banded, far = _cut_out(drawn, near)
    return Wrap(laid, banded, factor, far)


def wrap(
    answer: Answer, surfaces: Sequence[str] | None = None, *, bare: bool = False, **more: Any
) -> Drawing:
    """The wrap of a joint with the words that stand on it, or without any; `more` as for `lay`."""
    laid = lay(answer, surfaces, **more)
    return laid.lines if bare else laid.lettered(squeeze=Squeeze.ON_WRAP).drawing


def _near_marks(laid: Spread, kept_in: float) -> Polygon:
    """The paper from `kept_in` before the marks to a little past them, along the board [in]."""
    back, on = -laid.toward * kept_in, laid.toward * PAST_IN
    found = [
        shapely.MultiPoint([(x + off, v) for x, v in mark.line for off in (back, on)]).convex_hull
        for one in laid.surfaces
        for mark in one.marks
    ]
    return shapely.union_all(found).intersection(shapely.box(*laid.box))


def _cut_out(drawn: Drawing, near: Polygon) -> tuple[Drawing, Polygon]:
    """The lines on a part of the paper, a thin line round it, and what lies outside it."""
    round_it = shapely.buffer(shapely.box(*drawn.bounds()), _ROUND_IN, join_style="mitre")
    far = shapely.difference(round_it, near)
    # What runs along the border belongs to the paper that is kept.
    left = drawn.without(shapely.buffer(far, -_ALIKE))
    lined = shapely.union_all([shapely.linestrings(stroke.points) for stroke in left.strokes])
    border = shapely.difference(shapely.boundary(near), shapely.buffer(lined, _ALIKE))
    strokes = tuple(
        Stroke(tuple((float(x), float(y)) for x, y in part.coords), "guide", "paper-end")
        for part in shapely.get_parts(shapely.line_merge(border))
        if part.length > _SPECK_IN
    )
    return Drawing(left.strokes + strokes, left.areas), far


def lines(laid: Spread, factor: float = 1.0) -> Drawing:
    """All lines and hatched areas of a wrap, without words, in inches on paper."""
    strokes = [
        Stroke(tuple((x * factor, v * factor) for x, v in points), pen, gid)
        for points, pen, gid in _borders(laid)
    ]
    notches = _notches(laid, factor)
    strokes += [Stroke(notch, "guide", "notch") for notch in notches]
    cut_out = shapely.union_all([shapely.Polygon(notch) for notch in notches])
    areas = []
    for one in laid.surfaces:
        waste = shapely.difference(on_paper(one.waste, factor), cut_out)
        if waste.area > 0:
            areas.append(Area(waste, "waste", f"waste-{one.panel.gid}"))
    return Drawing(tuple(strokes), tuple(areas))


PenLine = tuple[tuple[Point, ...], str, str]
"""Points [in of board], pen and id."""


def _borders(laid: Spread) -> list[PenLine]:
    """Outline, folds and marks; a line lies under those that follow it."""
    x0, v0, x1, v1 = laid.box
    datum, _ = laid.datum
    folded = {fold.line[0][1] for fold in laid.folds}
    found: list[PenLine] = []
    for v, panel in ((v0, laid.lowest), (v1, laid.highest)):
        line = ((x0, v), (x1, v))
        if v == datum and v not in folded:
            found.append((line, "datum", "datum"))
        elif laid.whole(panel):
            found.append((line, "visible", "free-arris"))
        else:
            found.append((line, "guide", "paper-end"))
    flap = laid.by_name.get("end")
    for x in (x0, x1):
        if x == laid.start_x:
            found.append((((x, v0), (x, v1)), "visible", "start-line"))
        elif flap is None or x not in (flap.panel.box[0], flap.panel.box[2]):
            found.append((((x, v0), (x, v1)), "guide", "paper-end"))
        else:
            # The end of the board; on the edge it is a fold, under the flap.
            _, low, _, high = flap.panel.box
            found.append((((x, v0), (x, low)), "visible", "board-end"))
            found.append((((x, high), (x, v1)), "visible", "board-end"))
            out = flap.panel.box[0] if x == flap.panel.box[2] else flap.panel.box[2]
            found.append((((x, low), (out, low), (out, high), (x, high)), "visible", "flap"))
    found += [(fold.line, "fold", fold.gid) for fold in laid.folds]
    for one in laid.surfaces:
        for mark in one.marks:
            second = "" if mark.plane_index == 0 else f"-{mark.plane_index + 1}"
            with_pen = "stays" if laid.stays(one.panel.name) else "cut"
            found.append((mark.line, with_pen, f"mark-{one.panel.gid}{second}"))
    found += [(((x0, v), (x1, v)), "guide", "backing-gauge") for v in _backing_gauges(laid)]
    hollow = laid.hollow
    if hollow is not None:
        found.append((((x0, hollow[0]), (x1, hollow[0])), "guide", "deepest"))
    return found


def _backing_gauges(laid: Spread) -> list[float]:
    """The v of the lines to which the top edge is backed after the end is cut, face by face."""
    depth = laid.answer.question.stock.depth_in
    found = []
    for side, down in backing_falls(laid.answer):
        face = laid.by_name.get(f"{side.value} face")
        if face is None:
            continue
        _, low, _, high = face.panel.box
        v = (depth - down - float(face.panel.origin[2])) / float(face.panel.up[2])
        if low + _ALIKE < v < high - _ALIKE:
            found.append(v)
    return found


def _notches(laid: Spread, factor: float) -> list[tuple[Point, Point, Point]]:
    """A notch at each end of each fold along the board, where the arris is seen through it.

    None where a flap hangs, and none on a study view.
    """
    if factor != 1.0:
        return []
    deep, half = NOTCH_IN
    x0, _, x1, _ = laid.box
    flap = laid.by_name.get("end")
    found = []
    for fold in laid.folds:
        (ax, v), (bx, w) = fold.line
        for x, inward in ((x0, deep), (x1, -deep)):
            if v == w and {ax, bx} == {x0, x1} and (flap is None or x not in flap.panel.box[::2]):
                found.append(((x, v + half), (x + inward, v), (x, v - half)))
    return found
