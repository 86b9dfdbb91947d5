"""The level line of a roof as it climbs: where all roof planes stand at one height.

Cut the roof level at height h over its eaves. The cut is a closed line whose every side lies on
the plane of one wall, h / slope inside that wall; a gable's side stays where it is. As h grows
the sides move in and their corners trace the hips and valleys; where sides vanish or touch, the
line changes its order or falls into several, and where two sides come to lie on one another
from both sides they leave a ridge behind. (A weighted straight skeleton of the outline.)

A corner of sides a and b: n_a.p = c_a + h v_a and n_b.p = c_b + h v_b with v = 1 / slope, so
p = A + B h, and every distance between a corner and a side is linear in h: the next change is
the least root.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from layout.errors import FrameError
from layout.quantity import write_feet
from layout.vector import Array

SAME_IN = 1e-6
"""Plan points nearer than this are one, and changes within so small a climb happen at once."""
STILL = 1e-12
MOST_CHANGES = 400


@dataclass(frozen=True)
class WallSide:
    """The plane over a wall as its level cut moves: at height h it is the line n.p = c + h v.

    `inward` (2,) is n, `level_in` c, `speed` v, the run on a rise of 1, 0 for a plumb wall.
    """

    name: str
    inward: Array
    level_in: float
    speed: float

    @property
    def along(self) -> Array:
        """Unit vector along the side with the building at the left (2,)."""
        along: Array = np.array([self.inward[1], -self.inward[0]])
        return along

    def beside(self, other: "WallSide") -> float:
        """The sine of the left turn from this side to another."""
        return -float(self.along @ other.inward)


@dataclass(frozen=True)
class Trace:
    """A straight piece of a line in plan between two heights, with the sides on both hands.

    Seen from `start` to `end`, both (2,), side `left` lies at the left. `level` marks a ridge.
    """

    left: int
    right: int
    start: Array
    end: Array
    start_in: float
    end_in: float
    level: bool = False
    valley: bool = False
    step: bool = False


@dataclass(frozen=True)
class SweptRoof:
    """All that the climbing line leaves: pieces of lines, and for each side its plan quadrangles.

    `open_places` says in words where two roofs might go on and one was taken.
    """

    traces: tuple[Trace, ...]
    areas: dict[int, list[Array]]
    open_places: tuple[str, ...] = ()


@dataclass
class _Climb:
    """The climb under way: what has been left behind so far."""

    sides: Sequence[WallSide]
    steeper_goes_on: bool
    traces: list[Trace] = field(default_factory=list)
    areas: dict[int, list[Array]] = field(default_factory=lambda: defaultdict(list))
    open_places: list[str] = field(default_factory=list)


def climb(
    sides: Sequence[WallSide], loop: Sequence[int], *, steeper_goes_on: bool = False
) -> SweptRoof:
    """Let the level line of these sides climb until nothing is left of it.

    `loop` names the sides in order, the building at the left, no two neighbours parallel.
    Where two roofs of unlike pitch come to one level line, the flatter goes on above it, or the
    steeper where asked. Raises FrameError where the roof never closes.
    """
    state = _Climb(sides, steeper_goes_on)
    todo: list[tuple[list[int], float]] = [(list(loop), 0.0)]
    for _ in range(MOST_CHANGES):
        if not todo:
            return SweptRoof(tuple(state.traces), dict(state.areas), tuple(state.open_places))
        todo += _to_next_change(state, *todo.pop())
    raise FrameError("the roof over these walls has too many lines; give fewer walls")


def _to_next_change(state: _Climb, loop: list[int], height: float) -> list[tuple[list[int], float]]:
    """Climb with one closed line to its next change, and leave the lines that it becomes."""
    here = [state.sides[k] for k in loop]
    base, move = _corners(here)
    until = _next_change_in(here, base, move, height)
    if until is None:
        names = ", ".join(dict.fromkeys(side.name for side in here))
        raise FrameError(f"the roof never closes over {names}; give one of them another kind")
    before, after = base + height * move, base + until * move
    after = _snapped(after)
    count = len(loop)
    for k in range(count):
        nxt = (k + 1) % count
        quad = np.array([before[k], before[nxt], after[nxt], after[k]])
        state.areas[loop[k]].append(quad)
        if float(np.hypot(*(after[k] - before[k]))) > SAME_IN:
            # seen from the corner into the building, the side that ends there lies at the left
            valley = here[k - 1].beside(here[k]) < 0
            state.traces.append(
                Trace(loop[k - 1], loop[k], before[k], after[k], height, until, valley=valley)
            )
    return [(each, until) for each in _relinked(state, loop, after, until)]


def _corners(sides: Sequence[WallSide]) -> tuple[Array, Array]:
    """The corners where each side begins, as A + B h: both (n, 2)."""
    base, move = [], []
    for k, side in enumerate(sides):
        last = sides[k - 1]
        rows = np.stack([last.inward, side.inward])
        base.append(np.linalg.solve(rows, [last.level_in, side.level_in]))
        move.append(np.linalg.solve(rows, [last.speed, side.speed]))
    return np.array(base), np.array(move)


def _next_change_in(
    sides: Sequence[WallSide], base: Array, move: Array, height: float
) -> float | None:
    """The least height above this one at which a side vanishes or a corner meets a side."""
    count = len(sides)
    found: list[float] = []
    for j, side in enumerate(sides):
        nxt = (j + 1) % count
        long0, long1 = (float((m[nxt] - m[j]) @ side.along) for m in (base, move))
        if long1 < -STILL:
            found.append(-long0 / long1)
        for k in range(count):
            if k in (j, nxt):
                continue
            far0 = float(base[k] @ side.inward) - side.level_in
            far1 = float(move[k] @ side.inward) - side.speed
            if far1 >= -STILL:
                continue
            at = -far0 / far1
            point, start, end = (m + at * v for m, v in ((base[k], move[k]), (base[j], move[j]),
                                                         (base[nxt], move[nxt])))  # fmt: skip
            along = float((point - start) @ side.along)
            if -SAME_IN <= along <= float((end - start) @ side.along) + SAME_IN:
                found.append(at)
    later = [at for at in found if at > height + 1e-9]
    return min(later, default=None)


def _snapped(points: Array) -> Array:
    """The points with those that are one made equal."""
    out = points.copy()
    for k in range(len(out)):
        for j in range(k):
            if float(np.abs(out[k] - out[j]).max()) < SAME_IN:
                out[k] = out[j]
                break
    return out


def _relinked(state: _Climb, loop: list[int], points: Array, height: float) -> list[list[int]]:
    """The closed lines that a line becomes at a change.

    Every side is parted where another corner touches it. Parts of no length go; two parts that
    run against each other on one stretch leave a ridge, and go. What is left is linked again,
    at every point with the sharpest turn to the left: that is the least way round the wood.
    """
    pieces: dict[tuple[int, int], int] = {}
    nodes = _nodes(points)
    where = {k: _index(nodes, points[k]) for k in range(len(loop))}
    for k, side in enumerate(loop):
        start, end = where[k], where[(k + 1) % len(loop)]
        for a, b in _parted(nodes, start, end, state.sides[side]):
            pieces[a, b] = side
    for a, b in list(pieces):
        if (a, b) in pieces and (b, a) in pieces:
            right, left = pieces.pop((a, b)), pieces.pop((b, a))  # each side's wood is at its left
            state.traces.append(Trace(left, right, nodes[a], nodes[b], height, height, level=True))
    loops = [_merged(state, nodes, chain, height) for chain in _chains(nodes, pieces)]
    return [each for each in loops if len(each) >= 3]


def _nodes(points: Array) -> list[Array]:
    nodes: list[Array] = []
    for point in points:
        if not any(np.array_equal(point, node) for node in nodes):
            nodes.append(point)
    return nodes


def _index(nodes: Sequence[Array], point: Array) -> int:
    return next(k for k, node in enumerate(nodes) if np.array_equal(node, point))


def _parted(nodes: Sequence[Array], start: int, end: int, side: WallSide) -> list[tuple[int, int]]:
    """A side as pieces from node to node, parted at every node that lies on it."""
    if start == end:
        return []
    reach = float((nodes[end] - nodes[start]) @ side.along)
    on = [(0.0, start), (reach, end)]
    for k, node in enumerate(nodes):
        step = node - nodes[start]
        along, off = float(step @ side.along), abs(float(step @ side.inward))
        if k not in (start, end) and off < SAME_IN and SAME_IN < along < reach - SAME_IN:
            on.append((along, k))
    order = [k for _, k in sorted(on)]
    return list(pairwise(order))


def _chains(
    nodes: Sequence[Array], pieces: dict[tuple[int, int], int]
) -> list[list[tuple[int, tuple[int, int]]]]:
    """Closed chains of pieces, each with its side, linked by the sharpest left turn."""
    leaving: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for piece in pieces:
        leaving[piece[0]].append(piece)
    chains = []
    left = dict.fromkeys(pieces)
    while left:
        first = piece = next(iter(left))
        chain = []
        while True:
            chain.append((pieces[piece], piece))
            left.pop(piece, None)
            came = nodes[piece[1]] - nodes[piece[0]]
            options = [each for each in leaving[piece[1]] if each in left or each == first]
            if not options:
                break
            piece = max(options, key=lambda each: _turn(came, nodes[each[1]] - nodes[each[0]]))
            if piece == first:
                break
        chains.append(chain)
    return chains


def _turn(came: Array, goes: Array) -> float:
    return float(np.arctan2(came[0] * goes[1] - came[1] * goes[0], came @ goes))


def _merged(
    state: _Climb,
    nodes: Sequence[Array],
    chain: list[tuple[int, tuple[int, int]]],
    height: float,
) -> list[int]:
    """A chain as sides in order, pieces of one side joined, and two roofs in one line made one."""
    sides = [side for side, _ in chain]
    for k in range(len(chain)):
        last, here = sides[k - 1], sides[k]
        if last == here or not _in_line(state.sides[last], state.sides[here]):
            continue
        slow, fast = sorted((last, here), key=lambda s: state.sides[s].speed)
        on, off = (slow, fast) if state.steeper_goes_on else (fast, slow)
        names = [state.sides[s].name for s in (on, off)]
        state.open_places.append(
            f"{names[0]} and {names[1]} come to one level line {write_feet(height)} over the eaves"
            f" with unlike pitches: above it either roof may go on; here {names[0]}'s does"
        )
        for j, side in enumerate(sides):
            if side == off and _touches(chain, sides, j, on):
                a, b = chain[j][1]
                state.traces.append(Trace(on, off, nodes[a], nodes[b], height, height, step=True))
                sides[j] = on
    joined: list[int] = []
    for side in sides:
        if not joined or joined[-1] != side:
            joined.append(side)
    while len(joined) > 1 and joined[0] == joined[-1]:
        joined.pop()
    return joined


def _in_line(one: WallSide, other: WallSide) -> bool:
    return float(one.along @ other.along) > 1 - 1e-12


def _touches(
    chain: list[tuple[int, tuple[int, int]]], sides: Sequence[int], k: int, on: int
) -> bool:
    return on in (sides[k - 1], sides[(k + 1) % len(sides)])
