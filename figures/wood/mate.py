"""The joint in the world: the stick as it lies there, and what its planes lie against.

A joint says which way a mate runs; where it stands follows from the plane that both share. Most
mates lie against the cut with a side of their own. Where none of their sides is the plane, the
joint is a mitre: the mate runs off from the cut as the stick runs up to it.
"""

from dataclasses import dataclass

import numpy as np

from figures.wood.drawn_solid import DrawnSolid, HalfSpace, box, through
from figures.wood.unfolded import UnfoldedStick
from layout.answer.answer import Answer
from layout.plane.joint import Plane
from layout.plane.pose import Pose
from layout.vector import Array

SHEET_IN = 0.625
BOARD_IN, DOUBLE_IN, WALL_IN = 0.75, 3.5, 9.0
SHEETS = frozenset({"deck", "sheathing", "own sheathing", "other sheathing", "soffit"})
SECTIONS_IN = {
    "plate": (DOUBLE_IN, 1.5),
    "wall": (DOUBLE_IN, WALL_IN),
    "post": (DOUBLE_IN, DOUBLE_IN),
    "beam": (DOUBLE_IN, DOUBLE_IN),
    "fascia": (BOARD_IN, 5.5),
    "own fascia": (BOARD_IN, 5.5),
}
"""Thickness and depth of mates that are not sawn from the stick's own stock; common practice.

Only the drawing uses them: no measure depends on how thick a mate is.
"""
_ONE = 1e-9


def mate_words(name: str) -> str:
    """A mate's name as a sheet says it: what is the board's own roof's is this roof's."""
    for own, said in (("own ", "this roof's "), ("other ", "the other roof's ")):
        if name.startswith(own):
            return said + name.removeprefix(own)
    return name


def the_mate(name: str) -> str:
    """A mate's name after a preposition: with an article where it has none of its own."""
    said = mate_words(name)
    return said if said.startswith(("this ", "the ")) else f"the {said}"


@dataclass(frozen=True)
class Mate:
    """A mate's solid in the world, its name, and the unit vector it runs along (3,)."""

    name: str
    solid: DrawnSolid
    along: Array
    is_sheet: bool


def in_world(shown: UnfoldedStick, pose: Pose) -> DrawnSolid:
    """The stick's kept wood in world axes, the board's own origin at the world's."""

    def turned(space: HalfSpace) -> HalfSpace:
        return HalfSpace(pose.to_world(space.normal), space.level)

    solid = shown.solid
    return DrawnSolid(
        {name: turned(side) for name, side in solid.sides.items()},
        tuple(turned(cut) for cut in solid.cuts),
        solid.removals,
    )


def mates(
    answer: Answer, shown: UnfoldedStick, reach_in: float, sheet_in: float | None = None
) -> tuple[Mate, ...]:
    """What the stick lies against, in world axes, each reaching `reach_in` past the cut.

    Sheets reach `sheet_in` past it, the same where it is not given [in]. Two cheeks or two
    bevels bring both mates, which meet midway between their planes; of any other joint only
    the answer's own is shown.
    """
    joint, pose = answer.question.joint, answer.question.joint.pose
    stick = in_world(shown, pose)
    cheeks = [abs(float(cut.normal[1])) > _ONE for cut in answer.cuts]
    against = (
        range(len(answer.cuts)) if len(answer.cuts) > 1 and all(cheeks) else [answer.plane_index]
    )
    found = []
    for i in against:
        plane = joint.planes[i]
        is_sheet = sheet_in is not None and plane.mate_name in SHEETS
        mate = _mate(plane, i, stick, shown, sheet_in if is_sheet and sheet_in else reach_in)
        for j in against:
            if j != i:
                mate = _mitred(mate, stick.cuts[i], stick.cuts[j], joint.point)
        found.append(mate)
    return tuple(found)


def _mate(
    plane: Plane, plane_index: int, stick: DrawnSolid, shown: UnfoldedStick, reach_in: float
) -> Mate:
    rows = plane.mate.axes
    normal, level = stick.cuts[plane_index].normal, stick.cuts[plane_index].level
    facing = rows @ normal
    against = int(np.argmax(np.abs(facing)))
    is_sheet = plane.mate_name in SHEETS
    thickness, depth = SECTIONS_IN.get(plane.mate_name, (shown.thickness_in, shown.depth_in))
    if is_sheet:
        depth = SHEET_IN
    if abs(facing[against]) < 1 - _ONE:
        return _mitre(plane, normal, level, stick, shown, reach_in)
    facet = next(f for f in stick.facets if f.name == f"cut {plane_index}")
    spots = facet.edges().reshape(-1, 3) @ rows.T
    low, high = spots.min(axis=0), spots.max(axis=0)
    low[0], high[0] = low[0] - reach_in, high[0] + reach_in
    others = [cut.normal for i, cut in enumerate(stick.cuts) if i != plane_index]
    for axis, size in ((1, thickness), (2, depth)):
        if axis == against:
            near = level * float(np.sign(facing[axis]))
            ends = (near, near + size * float(np.sign(facing[axis])))
            low[axis], high[axis] = min(ends), max(ends)
        elif is_sheet:
            low[axis], high[axis] = low[axis] - reach_in, high[axis] + reach_in
        else:
            covers = axis == 2
            low[axis], high[axis] = _span(
                float(low[axis]), float(high[axis]), size, covers, rows[axis], others
            )
    return Mate(plane.mate_name, box(low, high, rows), rows[0], is_sheet)


def _span(
    low: float, high: float, size: float, covers: bool, along: Array, others: list[Array]
) -> tuple[float, float]:
    """Where a mate of this size lies across the cut, from `low` to `high` along its own axis [in].

    Away from the wood that the joint's other plane keeps; without one, flush with the top where
    it must cover the cut, and else in its middle.
    """
    if covers:
        size = max(size, high - low)
    if others:
        return (low, low + size) if float(others[0] @ along) > 0 else (high - size, high)
    if covers:
        return high - size, high
    middle = (low + high) / 2
    return middle - size / 2, middle + size / 2


def _mitre(
    plane: Plane,
    normal: Array,
    level: float,
    stick: DrawnSolid,
    shown: UnfoldedStick,
    reach_in: float,
) -> Mate:
    """A mate of the stick's own stock that runs off from the plane, its middle line the stick's."""
    rows = plane.mate.axes
    away = rows[0] if float(rows[0] @ normal) > 0 else -rows[0]
    head = stick.sides["head"].normal
    left, top = stick.sides["left"], stick.sides["top"]
    middle = left.normal * (left.level - shown.thickness_in / 2)
    middle = middle + top.normal * (top.level - shown.depth_in / 2)
    crossing = middle + head * (level - float(normal @ middle)) / float(normal @ head)
    half = np.array([0.0, shown.thickness_in / 2, shown.depth_in / 2])
    far = np.array([2 * reach_in + 20.0, 0.0, 0.0])
    whole = box(-half - far, half + far, rows, crossing)
    ends = through(away, crossing + (reach_in + 2.0) * away)
    return Mate(
        plane.mate_name,
        DrawnSolid(whole.sides, (HalfSpace(-normal, -level), ends)),
        away,
        False,
    )


def _mitred(mate: Mate, own: HalfSpace, other: HalfSpace, point: bool) -> Mate:
    """The mate as far as the plane midway between its own cut and the other one's mate."""
    sign = 1.0 if point else -1.0
    normal = sign * (other.normal - own.normal)
    size = float(np.sqrt(normal @ normal))
    half = HalfSpace(normal / size, sign * (other.level - own.level) / size)
    return Mate(
        mate.name, DrawnSolid(mate.solid.sides, (*mate.solid.cuts, half)), mate.along, mate.is_sheet
    )
