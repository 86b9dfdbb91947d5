"""How long a notch's mark is on a face: from the bottom edge to the inside corner, no farther.

A cut that ends a board marks the face from edge to edge. A notch's plane marks it only where the
wood beyond lies beyond the notch's other planes too: on the face at y, with x(z) on the plane,
each other plane n.p >= level leaves a half line of z, and the mark is what all of them leave.
Where another notch has taken the wood, there is nothing to mark.
"""

import numpy as np

from layout.answer.answer import Answer

MarkPart = tuple[float, float]
"""The part of a mark between two heights above the bottom edge [inches]."""


def mark_on_face_in(answer: Answer, *, left: bool) -> float:
    """The length of the plane's mark on the left or right face [inches], 0 where it has none.

    Of a stick in a roof, the length that is left when all its other cuts are made.
    """
    stands = answer.question.stands
    if stands is not None and stands.marks_in:
        return stands.marks_in[answer.plane_index][1 if left else 0]
    y = answer.question.stock.thickness_in if left else 0.0
    marks: list[MarkPart] = []
    gone: list[MarkPart] = []
    for group in answer.question.joint.removals:
        (marks if answer.plane_index in group else gone).append(_beyond(answer, group, y))
    for low, high in gone:
        marks = [
            part
            for bottom, top in marks
            for part in ((bottom, min(top, low)), (max(bottom, high), top))
        ]
    ends = [end for bottom, top in marks if top > bottom for end in (bottom, top)]
    if not ends:
        return 0.0
    return (max(ends) - min(ends)) * float(np.hypot(1.0, answer.cut.top_lean))


def _beyond(answer: Answer, group: tuple[int, ...], y_in: float) -> MarkPart:
    """Where the plane's line on the face at `y_in` lies beyond all other planes of a removal."""
    depth_in, cut = answer.question.stock.depth_in, answer.cut
    low, high = 0.0, depth_in
    for which in group:
        if which == answer.plane_index:
            continue
        other = answer.cuts[which]
        at = [
            float(other.normal @ np.array([cut.x_at(y_in, z), y_in, z])) - other.level_in
            for z in (0.0, depth_in)
        ]
        climb = (at[1] - at[0]) / depth_in
        if abs(climb) < 1e-12:
            high = high if at[0] > 0 else low
        elif climb > 0:
            low = max(low, -at[0] / climb)
        else:
            high = min(high, -at[0] / climb)
    return low, max(low, high)
