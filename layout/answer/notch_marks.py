"""How long a notch's mark is on a face: from the bottom edge to the inside corner, no farther.

A cut that ends a board marks the face from edge to edge. A notch's plane marks it only where the
wood beyond lies beyond the notch's other planes too: on the face at y, with x(z) on the plane,
each other plane n.p >= level leaves a half line of z, and the mark is what all of them leave.
"""

import numpy as np

from layout.answer.answer import Answer


def mark_on_face_in(answer: Answer, *, left: bool) -> float:
    """The length of the plane's mark on the left or right face [inches], 0 where it has none."""
    stock, cut = answer.question.stock, answer.cut
    y = stock.thickness_in if left else 0.0
    ends: list[float] = []
    for group in answer.question.joint.removals:
        if answer.plane_index not in group:
            continue
        low, high = 0.0, stock.depth_in
        for which in group:
            if which == answer.plane_index:
                continue
            other = answer.cuts[which]
            at = [
                float(other.normal @ np.array([cut.x_at(y, z), y, z])) - other.level_in
                for z in (0.0, stock.depth_in)
            ]
            climb = (at[1] - at[0]) / stock.depth_in
            if abs(climb) < 1e-12:
                low, high = (low, high) if at[0] >= -1e-9 else (1.0, 0.0)
            elif climb > 0:
                low = max(low, -at[0] / climb)
            else:
                high = min(high, -at[0] / climb)
        if high > low:
            ends += [low, high]
    if not ends:
        return 0.0
    return (max(ends) - min(ends)) * float(np.hypot(1.0, cut.top_lean))
