"""The supporting valley: of two valleys under one main roof, one runs on to the main ridge.

Where a wing's ridge is lower than the main one, both its valleys and its ridge end in one point
inside the main roof, on nothing. One valley is carried on along its own line, which lies in the
main roof, up to the main ridge; the other valley and the wing's ridge are cut to its side.
"""

from dataclasses import dataclass

import numpy as np
import shapely

from layout.framing.roof_lines import RoofLine, RoofLines
from layout.vector import Array

CLEAR_IN = 9.0
"""Nearer to another meeting than this the valley is not carried on, and all three are mitered."""


@dataclass(frozen=True)
class Supporting:
    """A valley that runs on, by its index in the roof's lines, from `turn` to `head` (2,).

    There it lies in the plane `inside`, above the level of the wing's `far` side.
    """

    line: int
    inside: int
    far: int
    turn: Array
    head: Array


def supporting(roof: RoofLines) -> tuple[Supporting, ...]:
    """Every valley of a roof that is carried on to a higher ridge."""
    found = []
    for ridge in roof.lines:
        if ridge.kind != "ridge":
            continue
        for end in (ridge.foot, ridge.head):
            here = [k for k, line in enumerate(roof.lines) if line is not ridge and _at(line, end)]
            valleys = [k for k in here if roof.lines[k].kind == "valley"]
            if len(here) == 2 and len(valleys) == 2:
                runs_on = (_carried(roof, one, other) for one, other in (valleys, valleys[::-1]))
                found += [each for each in runs_on if each is not None][:1]
    return tuple(found)


def _at(line: RoofLine, point: Array) -> bool:
    return min(float(np.abs(p - point).max()) for p in (line.foot, line.head)) < 1e-5


def _carried(roof: RoofLines, one: int, other: int) -> Supporting | None:
    """The first of two valleys carried on, None where it meets no ridge in the clear."""
    line = roof.lines[one]
    shared = {line.left, line.right} & {roof.lines[other].left, roof.lines[other].right}
    if len(shared) != 1:
        return None
    (inside,) = shared
    (far,) = {roof.lines[other].left, roof.lines[other].right} - shared
    for ridge in roof.lines:
        if ridge.kind != "ridge" or inside not in (ridge.left, ridge.right):
            continue
        ways = np.stack([line.way, -ridge.way], axis=1)
        if abs(float(np.linalg.det(ways))) < 1e-6:
            continue
        on, along = (float(x) for x in np.linalg.solve(ways, ridge.foot - line.head))
        head = line.head + on * line.way
        inner = shapely.LineString([line.head, head])
        clear = on > CLEAR_IN and CLEAR_IN < along < ridge.run_in - CLEAR_IN
        apart = all(
            float(np.hypot(*(p - head))) > CLEAR_IN
            for each in roof.lines
            for p in (each.foot, each.head)
        )
        if clear and apart and inner.difference(roof.areas[inside].buffer(1e-5)).length < 1e-4:
            return Supporting(one, inside, far, line.head, head)
    return None
