"""A layout stick: a strip at full size with the length of every jack of a set marked on it.

The strip is laid on a jack's top edge with its start at the plumb line over the building line
(or at a valley jack's foot); the marks give the long and the short point of every jack.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import shapely

from figures.ink.drawing import Area, Drawing, Label, Stroke
from figures.ink.lettering import fraction_text, text_size
from layout.answer.wording import size_words
from layout.framing.jackset import JackRow

WIDE_IN = 2.5
"""Width of the strip [in]: it stands on a 2x edge folded, or lies on a face."""
BEYOND_IN = 2.0
"""Paper beyond the longest jack's long point [in]."""
APART_IN = 0.5
"""Paper between two strips [in]."""
NAME_PT, NOTE_PT = 14.0, 9.0
BESIDE_IN = 0.07
"""From a line to its words [in]."""
SAME_IN = 1e-6


@dataclass(frozen=True)
class StickMark:
    """One jack's marks from the start of the strip [in]: both points, and whose they are."""

    names: str
    long_in: float
    short_in: float


def marks(rows: Sequence[JackRow]) -> tuple[StickMark, ...]:
    """The marks of a set, from the start on; jacks of one length share a mark."""
    found: list[StickMark] = []
    for row in sorted(rows, key=lambda one: one.lengths.long_in):
        if found and abs(found[-1].long_in - row.lengths.long_in) < SAME_IN:
            last = found.pop()
            found.append(StickMark(f"{last.names} {row.name}", last.long_in, last.short_in))
        else:
            found.append(StickMark(row.name, row.lengths.long_in, row.lengths.short_in))
    return tuple(found)


def layout_sticks(rows: Sequence[JackRow], start: str, *, metric: bool = False) -> Drawing:
    """A strip for the set, or one for each roof where their jacks differ, one over the other."""
    if all(row.pair for row in rows):
        return layout_stick(rows, start, metric=metric)
    sides = [[row for row in rows if row.side == side] for side in ("other", "own")]
    whose = {"own": "this roof's jacks", "other": "the other roof's jacks"}
    strips = [
        layout_stick(side, f"{start}; {whose[side[0].side]}", metric=metric)
        for side in sides
        if side
    ]
    return sum(
        (strip.moved(0.0, i * (WIDE_IN + APART_IN)) for i, strip in enumerate(strips)), Drawing()
    )


def layout_stick(rows: Sequence[JackRow], start: str, *, metric: bool = False) -> Drawing:
    """A strip at full size, its start at the origin; `start` says what it is hooked on."""
    found = marks(rows)
    end = found[-1].long_in + BEYOND_IN
    outline = ((0, 0), (end, 0), (end, WIDE_IN), (0, WIDE_IN), (0, 0))
    drawing = Drawing(
        (
            Stroke(outline, "guide", "strip"),
            Stroke(((0, 0), (0, WIDE_IN)), "datum", "start"),
        ),
        (Area(shapely.box(found[-1].long_in, 0, end, WIDE_IN), "waste"),),
        (Label(f"START: {start}", 0.12, 0.08, NOTE_PT, bold=True),),
    )
    for mark in found:
        drawing += _mark(mark, metric)
    return drawing


def _mark(mark: StickMark, metric: bool) -> Drawing:
    """A heavy line at the long point, a narrow one at the short point, each with its own words.

    The words run up the strip along the outer side of their line, so that none stand between
    the two; a jack with a square end has one line.
    """
    long, short = mark.long_in, mark.short_in
    ends = f"long point {_size(long, metric)}", f"short point {_size(short, metric)}"
    drawing = _line(mark.names, ends[0], long, 1.0, "cut", f"long-{mark.names}")
    if abs(long - short) < SAME_IN:
        return drawing
    return drawing + _line(mark.names, ends[1], short, -1.0, "guide", f"short-{mark.names}")


def _size(at_in: float, metric: bool) -> str:
    return fraction_text(size_words(at_in, 16, metric=metric))


def _line(names: str, says: str, at: float, side: float, pen: str, gid: str) -> Drawing:
    """One line across the strip, and its words on one side of it."""
    x = at + side * BESIDE_IN
    below = text_size(names, NAME_PT, True)[1] + 0.04
    ha: Literal["left", "right"] = "left" if side > 0 else "right"
    return Drawing(
        (Stroke(((at, 0), (at, WIDE_IN)), pen, gid),),
        (),
        (
            Label(names, x, WIDE_IN - 0.06, NAME_PT, ha, "top", bold=True, halo=True),
            Label(
                says,
                x,
                WIDE_IN - below - 0.1,
                NOTE_PT,
                "right",
                "top" if side > 0 else "bottom",
                rotation_deg=90.0,
                halo=True,
            ),
        ),
    )
