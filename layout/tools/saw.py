"""The plane by saw: a line on the surface under the shoe, and the blade tilted about it.

The blade starts square to the surface, with its own normal lying in the surface square to the
line; tilting turns that normal about the line by the tilt. Built from angles alone; the hand's
method, in its own file, passes a plane through two lines and shares nothing with this one.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from layout.quantity import nearest
from layout.vector import Angle, Array, sin_cos, vector


class SawKind(StrEnum):
    """A circular saw by the side of its blade, seen from behind the saw, or by how it tilts."""

    BLADE_LEFT = "blade-left"
    BLADE_RIGHT = "blade-right"
    BOTH_WAYS = "tilts-both-ways"


@dataclass(frozen=True)
class SawLimits:
    """What a common saw can be set to; every limit belongs to the user's own saw.

    `tilt_deg` is how far a blade leans from square, `turn_deg` how far a miter saw's table
    turns from square, `step_deg` the division its tilt scale is read to. `depth_in` is how much
    of the blade stands below the shoe, measured along the blade: 2 1/2 in of a 7 1/4 in blade
    (from memory). `kind` is None where nobody said which saw it is.
    """

    tilt_deg: float = 50.0
    turn_deg: float = 50.0
    step_deg: float = 0.5
    depth_in: float = 2.5
    kind: SawKind | None = None


def as_set(tilt_deg: Angle, step_deg: float = 0.5) -> Array:
    """The tilt as it is set on a real saw, to the nearest `step_deg` [degrees]."""
    return np.floor(np.asarray(tilt_deg) / step_deg + 0.5) * step_deg


def plane_from_face(
    line_deg: Angle, top_lean: Angle, tilt_deg: Angle, toward_waste: Angle, at_head: Angle
) -> Array:
    """Normal of the cut with the shoe on the right face, out of the kept wood (..., 3).

    `line_deg` is the face line's angle from square across, `top_lean` +1 where its upper end
    leans toward the head. `tilt_deg` leans the blade: `toward_waste` +1 where its far edge, deep
    in the wood, runs in under the waste, -1 where it runs in under the kept wood. `at_head` is +1
    for a cut whose waste lies toward the head, -1 toward the foot.

    Upright, the blade's normal is w = (cos l, 0, -lean sin l), turned to the waste. The far edge
    goes into the wood along +y; running it under the waste by t turns the normal back against
    that: n = w cos t - y sin t.
    """
    line_sine, line_cosine = sin_cos(line_deg)
    sine, cosine = sin_cos(tilt_deg)
    upright_x = np.multiply(at_head, line_cosine)
    upright_z = np.multiply(at_head, -np.multiply(top_lean, line_sine))
    return vector(upright_x * cosine, -np.multiply(toward_waste, sine), upright_z * cosine)


def plane_from_edge(
    line_deg: Angle, left_lean: Angle, tilt_deg: Angle, toward_waste: Angle, at_head: Angle
) -> Array:
    """Normal of the cut with the shoe on the top edge, out of the kept wood (..., 3).

    `line_deg` is the edge line's angle from square across, `left_lean` +1 where its end at the
    left face leans toward the head; `tilt_deg` and `toward_waste` as on the face. The same turn
    about a line on the edge: upright w = (cos l, -lean sin l, 0) turned to the waste, and the
    far edge goes into the wood along -z, so n = w cos t + z sin t under the waste.
    """
    line_sine, line_cosine = sin_cos(line_deg)
    sine, cosine = sin_cos(tilt_deg)
    upright_x = np.multiply(at_head, line_cosine)
    upright_y = np.multiply(at_head, -np.multiply(left_lean, line_sine))
    return vector(upright_x * cosine, upright_y * cosine, np.multiply(toward_waste, sine))


def rip_from_face(tilt_deg: Angle, top: Angle, right: Angle) -> Array:
    """Normal of a rip with the shoe on a face and the line gauged along it (..., 3).

    `top` is +1 where the waste is the arris of the top edge, -1 of the bottom; `right` +1 where
    it is the right face's, -1 the left's. Upright, the blade's normal stands straight up the
    depth; the tilt turns it toward the face under the shoe.
    """
    sine, cosine = sin_cos(tilt_deg)
    return vector(0.0, -np.multiply(right, sine), np.multiply(top, cosine))


def reaches(angle_deg: float, limit_deg: float) -> bool:
    """Whether a saw with this limit can be set to the angle, a hundredth of a degree forgiven."""
    return nearest(angle_deg, 100) <= limit_deg
