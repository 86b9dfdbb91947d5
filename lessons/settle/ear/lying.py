"""How a board lies on a miter saw, as it is said, and which way its table and blade then cut it.

Left and right are those of who stands before the saw. The table swings to the side of its front,
the blade leans to the side of its top. Which cheek comes out depends on the face that is down and
on the hand to which the head lies, so without both no side of the saw says anything.
"""

from collections.abc import Sequence

from layout.cuts import End, Hand
from layout.tools.travel import OUTWARD, SIDES, Side
from layout.vector import X, cross
from lessons.settle.ear.clauses import Clause

DOWN: dict[str, Side] = {
    "rightdown": "right", "leftdown": "left", "topdown": "top", "bottomdown": "bottom",
}  # fmt: skip
FENCE: dict[str, Side] = {
    "rightfence": "right", "leftfence": "left", "topfence": "top", "bottomfence": "bottom",
}  # fmt: skip
FLAT = {"flat", "rightdown", "leftdown", "topfence", "bottomfence"}
ONEDGE = {"onedge", "topdown", "bottomdown", "rightfence", "leftfence"}
HEAD = {"headright": 1, "headleft": -1}
WASTE = {"wasteright": 1, "wasteleft": -1}
TURNS = {"toright": 1, "toleft": -1, "right": 1, "left": -1}
LEANS = {"leanright": 1, "leanleft": -1}
AT_SAW = {*DOWN, *FENCE, *HEAD, *WASTE}
"""Words that place the board; alone they turn nothing."""
OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


class LiesTwiceError(Exception):
    """The board cannot lie as it is said to."""


def turned(parts: Sequence[Clause], end: int) -> tuple[Hand | None, End | None, set[str]] | None:
    """The cheek, the end to which the face mark's top leans, and the words that said so.

    None where it is not said how the board lies. Raises LiesTwiceError where that contradicts
    itself. `end` is +1 for a cut at the head.
    """
    names = {name for part in parts for name in part.names}
    downs = [DOWN[name] for name in names & DOWN.keys()]
    heads = {HEAD[name] for name in names & HEAD.keys()}
    heads |= {end * WASTE[name] for name in names & WASTE.keys()}
    fences = [FENCE[name] for name in names & FENCE.keys()]
    if len(downs) > 1 or len(heads) > 1 or len(fences) > 1:
        raise LiesTwiceError
    if not downs or not (heads or fences) or not end:
        return None
    above = OUTWARD[OPPOSITE[downs[0]]]
    lying = []
    for head in sorted(heads or HEAD.values()):
        away = cross(above, head * X)
        fence = next(side for side in SIDES if float(OUTWARD[side] @ away) > 0)
        if not fences or fences[0] == fence:
            lying.append((head, away))
    if len(lying) != 1:
        raise LiesTwiceError
    ((head, away),) = lying
    out = end * head  # +1 where the waste lies at the right
    used: set[str] = set()
    normal = end * X
    for part in parts:
        swings = part.names & TURNS.keys() if part.names & {"table"} else set()
        leans = part.names & LEANS.keys()
        if part.names & {"tilt", "bevel", "blade"} and not swings and not leans:
            leans = part.names & TURNS.keys()
        if swings:
            normal = normal + TURNS[min(swings)] * out * away
        if leans:
            normal = normal - {**TURNS, **LEANS}[min(leans)] * out * above
        used |= swings | leans
    _, y, z = (float(part) for part in normal)
    cheek = None if not y else Hand.LEFT if y > 0 else Hand.RIGHT
    top: End | None = None if not z else "head" if z * end < 0 else "foot"
    return cheek, top, used
