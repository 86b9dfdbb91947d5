"""Two cheeks tried as the joint stands: one end against both mates at once, in place.

A cheek tried alone may be slid until it touches its own mate. In the roof both cheeks are one
end and both mates stand where they stand, so the end is slid until either touches, and every gap
is what is left then. Both cheeks start from the point at which their marks meet on the edge.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from layout.answer.answer import Answer
from layout.plane.cut import Cut, long_board
from layout.tools.fit import Fit
from layout.tools.setting import Setting
from layout.vector import Array

CHEEKS = 2


def has_two_cheeks(answer: Answer) -> bool:
    """True for an end that comes to a point between two mates."""
    return len(answer.cuts) == CHEEKS and answer.question.joint.point and not answer.is_rip


def together(answer: Answer, settings: Sequence[Setting], start: Array | None = None) -> Fit:
    """The gaps of an end whose cheeks are made with these settings, both mates in place [inches].

    One setting for each of the joint's planes, in their order. `start` (3,) is the point in
    which both cheeks are begun, in board axes: where the right marks meet, if not said.
    """
    from layout.plane.solid import Solid, beyond_in  # two cheeks alone need it

    start = _start(answer) if start is None else start
    made = [
        replace(cut, normal=np.asarray(setting.normal, dtype=float), point=start, outline=None)
        for cut, setting in zip(answer.cuts, settings, strict=True)
    ]
    solid = Solid(long_board(answer.question.stock), tuple((cut,) for cut in made))
    surfaces = [solid.surfaces(cut) for cut in made]
    corners = np.concatenate([points for parts in surfaces for points in parts])
    # A mate is all that lies beyond its plane: no corner of the end may stand in either.
    room = [-beyond_in(cut, corners) / float(abs(cut.normal[0])) for cut in answer.cuts]
    slide = float(np.concatenate(room).min())
    gaps = [
        -beyond_in(cut, points) - slide * abs(float(cut.normal[0]))
        for cut, parts in zip(answer.cuts, surfaces, strict=True)
        for points in parts
    ]
    return Fit(np.maximum(np.concatenate(gaps), 0.0))


def as_read(answer: Answer) -> tuple[Fit, Fit]:
    """Both cheeks as read on the tools, by handsaw and by saw."""
    every = _in_order(answer)
    return (
        together(answer, [one.hand_setting(True) for one in every]),
        together(answer, [one.saw_setting(True) for one in every]),
    )


def exact(answer: Answer) -> tuple[Fit, Fit]:
    """Both cheeks with exact settings, by handsaw and by saw."""
    every = _in_order(answer)
    return (
        together(answer, [one.hand_setting(False) for one in every]),
        together(answer, [one.saw_setting(False) for one in every]),
    )


def _in_order(answer: Answer) -> list[Answer]:
    return sorted((answer, *answer.others), key=lambda one: one.plane_index)


def _start(answer: Answer) -> Array:
    """The point at which both marks meet on the top edge (3,)."""
    first, second = answer.cuts
    edge = Cut(np.array([0.0, 0.0, 1.0]), np.zeros(3), first.span)
    rows = np.stack([first.normal, second.normal, edge.normal])
    levels = np.array([first.level_in, second.level_in, answer.question.stock.depth_in])
    return np.linalg.solve(rows, levels)
