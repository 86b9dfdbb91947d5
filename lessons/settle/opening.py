"""Where a wrong cut gapes most against its mate."""

from dataclasses import dataclass

import numpy as np

from layout.answer.answer import Answer
from layout.plane.cut import ALONG
from layout.tools.fit import SAME_GAP_IN
from layout.vector import Array
from lessons.settle.findings import Judged


@dataclass(frozen=True)
class Opening:
    """Where a gap is widest: at the `face` (right, left, or the middle between two cheeks), at
    the `level` (top, bottom, or the inside of a notch); None for the whole length of either.

    `point` is "long point" or "heel" (the short point); None where no face is the longer one, or
    where the stick, cut for the other hand, has its long point on the other face.
    """

    face: str | None
    level: str | None
    point: str | None

    def __str__(self) -> str:
        if self.face is None:
            return f"along the {self.level} edge" if self.level else "all over"
        side = f"{self.point} ({self.face})" if self.point else self.face
        return f"at the {self.level} of the {side}" if self.level else f"all along the {side}"


def opening(answer: Answer, judged: Judged) -> Opening:
    """Where the claim's cut gapes most against its mate."""
    gaps = judged.fit.gaps_in
    corners = np.flatnonzero(gaps > gaps.max() - SAME_GAP_IN)
    (y0, y1), (z0, z1) = answer.cut.span
    stock = answer.question.stock
    # `Cut.corners` goes round the section; along a rip it goes twice along each face.
    at_y0 = {0, 1} if answer.is_rip else {0, 3}
    at_z0 = set() if answer.is_rip else {0, 1}
    near = {int(corner) in at_y0 for corner in corners}
    low = {int(corner) in at_z0 for corner in corners}
    spots = judged.fit.spots
    if spots is not None:  # the surface is no rectangle: by where its corners lie in it
        near, low = (_sides(spots[corners, axis]) for axis in (0, 1))
    face = level = point = None
    if len(near) == 1:
        y = float(y0 if True in near else y1)
        face = _between(y, stock.thickness_in, "right face", "left face", "middle")
        if answer.hand is not None and not answer.is_rip:
            # The cheek faces its own hand, so the other side of it is the longer one.
            cheek = float(answer.cut.normal[1])
            if cheek * float(judged.setting.normal[1]) >= 0:
                point = "long point" if (True in near) == (cheek > ALONG) else "heel"
    if len(low) == 1 and not answer.is_rip:
        z = float(z0 if True in low else z1)
        level = _between(z, stock.depth_in, "bottom", "top", "inside")
    return Opening(face, level, point)


def _sides(places: Array) -> set[bool]:
    """True alone where all lie at 0, False alone where all lie at 1, else both."""
    for at, found in ((0.0, {True}), (1.0, {False})):
        if np.all(np.abs(places - at) < SAME_GAP_IN):
            return found
    return {True, False}


def _between(value: float, whole: float, at_zero: str, at_whole: str, inside: str) -> str:
    if abs(value) < SAME_GAP_IN:
        return at_zero
    return at_whole if abs(value - whole) < SAME_GAP_IN else inside
