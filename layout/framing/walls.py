"""Walls as they are walked: how long each is, how far one turns at its end, what stands on it.

Someone walks once round the building on the outside of its walls and says at each wall its
length and at its end the turn, in degrees, plus to the left. Walked counterclockwise the
building lies at the left and the turns come to 360; walked clockwise they come to -360, and the
outline is read backward. An **eave** carries a roof of its own pitch, all eaves at one height; a
**gable** is a plumb wall up to the roofs beside it; a **high** wall is a shed's upper one, whose
plate is as high as the roof that climbs to it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations
from typing import Literal

import numpy as np
import shapely

from layout.errors import FrameError
from layout.quantity import Pitch, write_feet, write_fraction
from layout.vector import Array, sin_cos

WallKind = Literal["eave", "gable", "high"]
MOST_WALLS = 24
CLOSES_IN = 1 / 32
"""A wall measured to a sixteenth is this much out at most; walls that miss their start by no more
than so much each are closed."""
EXACT_IN = 1e-6
MOST_TURN_DEG = 170.0


@dataclass(frozen=True)
class Wall:
    """One wall as it is walked [inches, degrees]: `turn_deg` at its end is plus to the left.

    An eave has a `pitch`; a gable and a high wall have none. Without a `name` it is called by
    its number.
    """

    length_in: float
    turn_deg: float
    kind: WallKind = "eave"
    pitch: Pitch | None = None
    name: str = ""


@dataclass(frozen=True)
class Outline:
    """A closed walk round the building, counterclockwise: wall k runs from corner k to k + 1.

    Build it with `walk`. `corners` (n, 2) are plan points [inches]; `turn_deg` of a wall is at
    its end. `said` tells what was changed to close it.
    """

    walls: tuple[Wall, ...]
    corners: Array
    said: tuple[str, ...] = ()

    @cached_property
    def along(self) -> Array:
        """Unit vectors along the walls (n, 2)."""
        steps = np.roll(self.corners, -1, axis=0) - self.corners
        unit: Array = steps / np.hypot(steps[:, 0], steps[:, 1])[:, None]
        return unit

    @cached_property
    def inward(self) -> Array:
        """Unit vectors square to the walls, into the building (n, 2)."""
        return np.stack([-self.along[:, 1], self.along[:, 0]], axis=1)

    def interior_deg(self, corner: int) -> float:
        """The angle inside the building at a corner, where wall `corner` begins [degrees]."""
        return 180.0 - self.walls[corner - 1].turn_deg

    def points_in(self, corner: int) -> bool:
        """Whether a corner points into the building, so that a valley starts there."""
        return self.walls[corner - 1].turn_deg < 0

    @property
    def convex(self) -> bool:
        """Whether no corner points into the building."""
        return not any(self.points_in(corner) for corner in range(len(self.walls)))


def walk(walls: Sequence[Wall], start: tuple[float, float] = (0.0, 0.0)) -> Outline:
    """The outline of these walls; the first runs from `start` along +X.

    Raises FrameError where the walls are too few or too many, cannot stand as they are said, do
    not close, or cross.

    >>> from layout.quantity import read_pitch
    >>> four = [Wall(length, 90.0, "eave", read_pitch("8")) for length in (240, 160, 240, 160)]
    >>> walk(four).corners.tolist()
    [[0.0, 0.0], [240.0, 0.0], [240.0, 160.0], [0.0, 160.0]]
    """
    named = tuple(replace(wall, name=wall.name or f"wall {k + 1}") for k, wall in enumerate(walls))
    _check_each(named)
    total = sum(wall.turn_deg for wall in named)
    if abs(abs(total) - 360.0) > 1e-6:
        _refuse_turns(named, total)
    ways = _ways(named)
    lengths, said = _closed(named, ways)
    named = tuple(replace(wall, length_in=x) for wall, x in zip(named, lengths, strict=True))
    steps = np.array(lengths)[:, None] * ways
    corners = np.array(start) + np.concatenate([np.zeros((1, 2)), np.cumsum(steps, axis=0)[:-1]])
    if np.signbit(total):
        named, corners = _backward(named, corners)
    _check_crossing(named, corners)
    return Outline(named, np.round(corners, 12) + 0.0, said)


def _check_each(walls: Sequence[Wall]) -> None:
    if not 3 <= len(walls) <= MOST_WALLS:
        raise FrameError(
            f"{len(walls)} walls make no building here; give from 3 to {MOST_WALLS} of them"
        )
    for wall in walls:
        if not 0 < wall.length_in < 12 * 1000:
            raise FrameError(
                f"{wall.name} is {wall.length_in:g} in long; give a length such as 24'"
            )
        if not abs(wall.turn_deg) <= MOST_TURN_DEG:
            raise FrameError(
                f"after {wall.name} the walk turns by {wall.turn_deg:g} deg;"
                f" give a turn from -{MOST_TURN_DEG:g} to {MOST_TURN_DEG:g}, plus to the left"
            )
        if (wall.kind == "eave") != (wall.pitch is not None):
            has = "has no pitch" if wall.pitch is None else "has a pitch"
            raise FrameError(
                f"{wall.name} is {'an' if wall.kind == 'eave' else 'a'} {wall.kind} and {has};"
                " an eave has one, a gable and a high wall have none"
            )


def _refuse_turns(walls: Sequence[Wall], total: float) -> None:
    whole = math.copysign(360.0, total)
    last = walls[-1]
    raise FrameError(
        f"the turns come to {total:g} deg, {abs(whole - total):g}"
        f" {'too few' if abs(total) < 360 else 'too many'}: a walk once round comes to 360,"
        f" left turns plus; with all others right, the turn after {last.name} would be"
        f" {last.turn_deg + whole - total:g} instead of {last.turn_deg:g}"
    )


def _ways(walls: Sequence[Wall]) -> Array:
    """The walls' directions (n, 2), the first along +X."""
    headings = np.cumsum([0.0, *(wall.turn_deg for wall in walls[:-1])])
    sine, cosine = sin_cos(headings)
    return np.stack([cosine, sine], axis=1)


def _closed(walls: Sequence[Wall], ways: Array) -> tuple[list[float], tuple[str, ...]]:
    """Lengths that close the walk, and what was changed for it.

    The walk misses its start by m = sum of length x way. One wall closes it where m runs along
    that wall; else two do: with ways a and b, x a + y b = -m has one answer, and the two walls
    that change least are taken.
    """
    lengths = [float(wall.length_in) for wall in walls]
    miss = np.array(lengths) @ ways
    size = float(np.hypot(*miss))
    if size <= EXACT_IN:
        return _nudged(lengths, ways, miss), ()
    best, changes = np.inf, {}
    for k, way in enumerate(ways):
        step = -float(miss @ way)
        closes = np.hypot(*(miss + step * way)) <= EXACT_IN and lengths[k] + step > 0
        if closes and abs(step) < best:
            best, changes = abs(step), {k: step}
    if not changes:
        for one, two in combinations(range(len(walls)), 2):
            pair = np.stack([ways[one], ways[two]], axis=1)
            if abs(np.linalg.det(pair)) < 1e-3:
                continue
            steps = np.linalg.solve(pair, -miss)
            fits = lengths[one] + steps[0] > 0 and lengths[two] + steps[1] > 0
            if fits and float(np.abs(steps).sum()) < best:
                best = float(np.abs(steps).sum())
                changes = {one: float(steps[0]), two: float(steps[1])}
    said = " and ".join(
        f"{walls[k].name} {write_feet(lengths[k] + step, 64)} instead of"
        f" {write_feet(lengths[k], 64)}"
        for k, step in changes.items()
    )
    if size > CLOSES_IN * len(walls) or not changes:
        raise FrameError(
            f"the walls do not close: they end {write_feet(size)} from their start;"
            f" they would close with {said}"
        )
    for k, step in changes.items():
        lengths[k] += step
    return lengths, (f"the walls missed closing by {write_fraction(size, 64)} in: taken as {said}",)


def _nudged(lengths: list[float], ways: Array, miss: Array) -> list[float]:
    """Lengths without the last rounding, so that the last corner is the first."""
    changed: Array = np.array(lengths) - np.linalg.lstsq(ways.T, miss, rcond=None)[0]
    return [float(x) for x in changed]


def _backward(walls: tuple[Wall, ...], corners: Array) -> tuple[tuple[Wall, ...], Array]:
    """A clockwise walk read the other way: the last wall first, every turn the other way.

    Backward, wall k ends where it began, at the turn after wall k - 1.
    """
    turned = tuple(
        replace(walls[k], turn_deg=-walls[k - 1].turn_deg) for k in range(len(walls) - 1, -1, -1)
    )
    return turned, np.concatenate([corners[:1], corners[:0:-1]])


def _check_crossing(walls: Sequence[Wall], corners: Array) -> None:
    segments = shapely.linestrings(np.stack([corners, np.roll(corners, -1, axis=0)], axis=1))
    for one, two in combinations(range(len(walls)), 2):
        near = two - one == 1 or (one == 0 and two == len(walls) - 1)
        if not near and segments[one].distance(segments[two]) < EXACT_IN:
            raise FrameError(
                f"{walls[one].name} and {walls[two].name} cross or touch;"
                " walk once round the outside, plus turns to the left"
            )


def first_pitch(outline: Outline) -> Pitch:
    """The pitch of the first eave; raises FrameError where no wall is one."""
    for wall in outline.walls:
        if wall.pitch is not None:
            return wall.pitch
    raise FrameError("no wall of these is an eave, so no roof stands on them; give one a pitch")
