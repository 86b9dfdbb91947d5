"""Where a cut's surface shows on a wide face of the finished stick, after all other cuts."""

from itertools import pairwise

import numpy as np

from layout.framing.stick import CutPlane, Stick
from layout.vector import Array

ON_FACE_IN = 1e-6


def on_face(stick: Stick, planes: tuple[CutPlane, ...], y_in: float) -> Array:
    """The points at which the surfaces of these planes meet the plane at y: (k, 2), x and z.

    In board axes [inches]. A corner on the plane counts, else a face would be met or missed
    by the last rounding. None (0, 2) where no surface comes so far.
    """
    found: list[tuple[float, float]] = []
    for plane in planes:
        for polygon in stick.surfaces(plane):
            points = stick.in_board(polygon)
            found += [(float(x), float(z)) for x, y, z in points if abs(y - y_in) < ON_FACE_IN]
            for p, q in pairwise([*points, points[0]]):
                if (p[1] - y_in) * (q[1] - y_in) < 0:
                    spot = p + (y_in - p[1]) / (q[1] - p[1]) * (q - p)
                    found.append((float(spot[0]), float(spot[2])))
    return np.array(found).reshape(-1, 2)


def mark_left_in(stick: Stick, planes: tuple[CutPlane, ...], y_in: float) -> float:
    """How long a cut's mark at y is on the finished stick [inches], 0 where it has none."""
    points = on_face(stick, planes, y_in)
    if not len(points):
        return 0.0
    apart = points[:, None, :] - points[None, :, :]
    return float(np.hypot(apart[..., 0], apart[..., 1]).max())
