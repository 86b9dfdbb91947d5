"""Sticks as solids by a general-purpose library: the second way of building every joint.

The blank is a box moved to the stick's place; a single plane trims it, a notch is a box trimmed
by all its planes and then taken out. Nothing of the stick's own solid is used but its planes.
"""

import atexit
from collections.abc import Sequence
from itertools import combinations

import manifold3d
import numpy as np

from layout.framing.stick import CutPlane, Stick

OVERLAP_IN3, GAP_IN = 1e-6, 1e-6
MATED = {
    "hip-jack", "valley-jack", "common-ridge", "hip-ridge", "hip-ridge-single", "valley-ridge",
    "common-seat", "hip-seat", "valley-seat", "ridge end", "hip miter", "valley miter",
    "ridge miter", "gable-stud", "high-seat", "valley cheek", "valley end",
}  # fmt: skip
"""Cuts that are made for a mate: one without is a mistake."""
WHOLE = MATED | {"hip end", "valley end"}


KEPT: dict[int, tuple[Stick, manifold3d.Manifold]] = {}
"""Solids by the stick that each was made of, which is kept with it."""
atexit.register(KEPT.clear)  # before the library counts what is left of its own


def solid(stick: Stick) -> manifold3d.Manifold:
    """The stick as a manifold, made once."""
    if id(stick) not in KEPT:
        KEPT[id(stick)] = stick, _made(stick)
    return KEPT[id(stick)][1]


def _made(stick: Stick) -> manifold3d.Manifold:
    reach = stick.in_board(stick.corners)[:, 0]
    low, high = reach.min() - 20, reach.max() + 20
    axes = stick.pose.axes
    place = np.concatenate([axes.T, (stick.origin + low * axes[0])[:, None]], axis=1)
    size = (high - low, stick.stock.thickness_in, stick.stock.depth_in)
    made = manifold3d.Manifold.cube(size).transform(place)
    for removal in stick.removals:
        if len(removal) == 1:
            made = made.trim_by_plane(tuple(-removal[0].normal), -removal[0].level_in)
            continue
        box = np.array(made.bounding_box())
        wedge = manifold3d.Manifold.cube(tuple(box[3:] - box[:3] + 7), True)
        wedge = wedge.translate(tuple((box[3:] + box[:3]) / 2 + 0.37))
        for plane in removal:
            wedge = wedge.trim_by_plane(tuple(plane.normal), plane.level_in)
        made -= wedge
    return made


def overlaps(sticks: Sequence[Stick]) -> list[tuple[str, str, float]]:
    """Pairs of sticks that share more volume than OVERLAP_IN3."""
    solids = {stick.name: solid(stick) for stick in sticks}
    assert len(solids) == len(sticks), "two sticks carry one name"
    names = list(solids)
    boxes = np.array([made.bounding_box() for made in solids.values()])
    past = (boxes[:, None, :3] > boxes[None, :, 3:]).any(axis=-1)
    found = []
    for k, m in combinations(range(len(names)), 2):
        if not (past[k, m] or past[m, k]):
            shared = (solids[names[k]] ^ solids[names[m]]).volume()
            if shared > OVERLAP_IN3:
                found.append((names[k], names[m], shared))
    return found


def gaps(sticks: Sequence[Stick]) -> list[tuple[str, str, str, float]]:
    """Cuts whose stick stands farther than GAP_IN from the mate it names."""
    solids = {stick.name: solid(stick) for stick in sticks}
    found = []
    for stick in sticks:
        for plane in stick.planes:
            if plane.mate:
                gap = solids[stick.name].min_gap(solids[plane.mate], 1.0)
                if gap > GAP_IN:
                    found.append((stick.name, plane.says, plane.mate, gap))
    return found


def unmated(sticks: Sequence[Stick], cuts: set[str] = MATED) -> list[tuple[str, str]]:
    """Cuts made for a mate that lie against nothing."""
    every = ((stick, plane) for stick in sticks for plane in stick.planes)
    return [(s.name, p.says) for s, p in every if p.says in cuts and not p.mate]


def uncovered(sticks: Sequence[Stick], push_in: float = 1e-3) -> list[tuple[str, str, float]]:
    """Plumb cuts made for a mate that do not touch over their whole width [inches missing].

    A stick is pushed by a thousandth into what it lies against: what it bites there, seen along
    the cut, must reach as far to both sides as the cut itself. (Up and down a cheek may pass a
    shallower mate, sideways it may not.)
    """
    solids = {stick.name: solid(stick) for stick in sticks}
    boxes = np.array([solids[stick.name].bounding_box() for stick in sticks])
    past = (boxes[:, None, :3] > boxes[None, :, 3:] + 0.1).any(axis=-1)
    found = []
    for stick, away in zip(sticks, past | past.T, strict=True):
        near = [
            solids[other.name]
            for other, far in zip(sticks, away.tolist(), strict=True)
            if other is not stick and not far
        ]
        others = manifold3d.Manifold.batch_boolean(near, manifold3d.OpType.Add)
        for plane in stick.planes:
            if plane.says not in WHOLE or abs(plane.normal[2]) > 1e-9:
                continue
            across = np.array([-plane.normal[1], plane.normal[0], 0.0])
            own = np.concatenate(stick.surfaces(plane)) @ across
            bite = solids[stick.name].translate(tuple(push_in * plane.normal)) ^ others
            bite = bite.trim_by_plane(tuple(plane.normal), plane.level_in)
            points = np.array(bite.to_mesh().vert_properties)[:, :3] @ across
            missing = own.max() - own.min()
            if len(points):
                missing = max(points.min() - own.min(), own.max() - points.max())
            if missing > 5 * push_in:
                found.append((stick.name, plane.says, float(missing)))
    return found


def pressed_area_in2(stick: Stick, plane: CutPlane, mate: Stick, push_in: float = 1e-3) -> float:
    """The area over which a cut touches its mate, found by pushing it in and weighing the bite."""
    pushed = solid(stick).translate(tuple(push_in * plane.normal))
    return (pushed ^ solid(mate)).volume() / push_in
