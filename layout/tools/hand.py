"""The plane by hand: a line on a face, a line on an edge, and the plane through both.

Built from the two lines alone, as points and directions in board axes; the saw's method, in
its own file, turns a blade about the face line and shares nothing with this one.
"""

import numpy as np

from layout.vector import Angle, Array, X, cross, facing, unit, vector


def face_line(mark: Angle, other: Angle, top_lean: Angle) -> Array:
    """Direction of a line on a wide face laid with two numbers on the square (..., 3).

    Its tangent from square across is mark / other; `top_lean` is +1 where its upper end leans
    toward the head, -1 toward the foot. With other = 0 the line runs along the board.
    """
    return vector(np.multiply(top_lean, mark), 0.0, other)


def edge_line(mark: Angle, other: Angle, left_lean: Angle) -> Array:
    """Direction of a line on an edge laid with two numbers on the square (..., 3).

    `left_lean` is +1 where its end at the left face leans toward the head, -1 toward the foot.
    """
    return vector(np.multiply(left_lean, mark), other, 0.0)


def plane_through(face: Array, edge: Array, waste: Array) -> Array:
    """Normal of the plane through a face line and an edge line that meet at an arris (..., 3).

    `waste` is any direction into the waste, on whose side the normal points: out of the kept
    wood. Three points fix a plane: the arris, one farther along each line; the normal is the
    cross product of the two steps.
    """
    return unit(facing(cross(face, edge), waste))


def plane_along(face_gauge_in: Angle, edge_gauge_in: Angle, top: Angle, right: Angle) -> Array:
    """Normal of a rip through two gauged lines along the board (..., 3).

    One line is gauged on a face, `face_gauge_in` from the arris; the other on the edge,
    `edge_gauge_in` from the same arris. `top` is +1 where the arris is on the top edge, -1 on
    the bottom; `right` is +1 where it is on the right face, -1 on the left. The waste is the
    corner between both lines: the normal points to it.
    """
    step = vector(0.0, np.multiply(right, edge_gauge_in), np.multiply(top, face_gauge_in))
    arris = vector(0.0, np.negative(right), top)
    return unit(facing(cross(X, step), arris))
