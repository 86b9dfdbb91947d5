"""Outlines that have a name: rectangle, L, T, shed, half-octagon end, equal sides.

Each is a walk from its front left corner along +X, the building at the left.
"""

from collections.abc import Sequence
from typing import Literal

import numpy as np

from layout.errors import FrameError
from layout.framing.walls import Outline, Wall, WallKind, walk
from layout.quantity import Pitch

RoofEnd = Literal["hip", "gable"]


def rectangle(
    length_in: float,
    width_in: float,
    pitch: Pitch,
    end_pitch: Pitch | None = None,
    ends: Sequence[RoofEnd] = ("hip", "hip"),
) -> Outline:
    """Front and back of `length_in`; `ends` are the left and the right one [inches]."""
    left, right = (_end(width_in, end, end_pitch or pitch) for end in ends)
    return walk(
        [
            Wall(length_in, 90.0, "eave", pitch, "front"),
            _named(right, "right"),
            Wall(length_in, 90.0, "eave", pitch, "back"),
            _named(left, "left"),
        ]
    )


def ell(
    length_in: float,
    width_in: float,
    wing_length_in: float,
    wing_width_in: float,
    pitch: Pitch,
    wing_pitch: Pitch | None = None,
    end_pitch: Pitch | None = None,
    ends: Sequence[RoofEnd] = ("hip", "hip"),
) -> Outline:
    """A rectangle with a wing out of the left end of its front; `ends` are the wing's, the right.

    The main front stands on Y = 0, the left wall on X = 0; the left wall pitches as the wing.
    """
    side, free = wing_pitch or pitch, end_pitch or pitch
    wing_end, right = ends
    return walk(
        [
            _named(_end(wing_width_in, wing_end, free), "wing end"),
            Wall(wing_length_in, -90.0, "eave", side, "inner"),
            Wall(length_in - wing_width_in, 90.0, "eave", pitch, "front"),
            _named(_end(width_in, right, free), "right"),
            Wall(length_in, 90.0, "eave", pitch, "back"),
            Wall(width_in + wing_length_in, 90.0, "eave", side, "left"),
        ],
        (0.0, -wing_length_in),
    )


def tee(
    length_in: float,
    width_in: float,
    wing_at_in: float,
    wing_length_in: float,
    wing_width_in: float,
    pitch: Pitch,
    wing_pitch: Pitch | None = None,
    end_pitch: Pitch | None = None,
    ends: Sequence[RoofEnd] = ("hip", "hip", "hip"),
) -> Outline:
    """A rectangle with a wing out of its front, its left side `wing_at_in` from the left corner.

    `ends` are the left, the right and the wing's.
    """
    side, free = wing_pitch or pitch, end_pitch or pitch
    left, right, wing = ends
    rest = length_in - wing_at_in - wing_width_in
    if wing_at_in <= 0 or rest <= 0:
        raise FrameError(
            "the wing of a T stands between the corners of the front; for one in line with an end"
            " wall ask for an L"
        )
    return walk(
        [
            Wall(wing_at_in, -90.0, "eave", pitch, "front"),
            Wall(wing_length_in, 90.0, "eave", side, "wing left"),
            _named(_end(wing_width_in, wing, free), "wing end"),
            Wall(wing_length_in, -90.0, "eave", side, "wing right"),
            Wall(rest, 90.0, "eave", pitch, "front, right of the wing"),
            _named(_end(width_in, right, free), "right"),
            Wall(length_in, 90.0, "eave", pitch, "back"),
            _named(_end(width_in, left, free), "left"),
        ]
    )


def shed(length_in: float, width_in: float, pitch: Pitch) -> Outline:
    """One roof from the front up to a high wall at the back, a gable at either end."""
    return walk(
        [
            Wall(length_in, 90.0, "eave", pitch, "front"),
            Wall(width_in, 90.0, "gable", None, "right"),
            Wall(length_in, 90.0, "high", None, "back"),
            Wall(width_in, 90.0, "gable", None, "left"),
        ]
    )


def bay_end(length_in: float, width_in: float, pitch: Pitch, left: RoofEnd = "hip") -> Outline:
    """A rectangle whose right end is half an octagon; `length_in` is the straight front.

    A half octagon of width w has sides of w tan 22.5: all its walls touch one circle.
    """
    side = width_in * float(np.tan(np.radians(22.5)))
    bays = [
        Wall(side, 45.0, "eave", pitch, name) for name in ("right front", "right", "right back")
    ]
    return walk(
        [
            Wall(length_in, 45.0, "eave", pitch, "front"),
            *bays,
            Wall(length_in, 90.0, "eave", pitch, "back"),
            _named(_end(width_in, left, pitch), "left"),
        ]
    )


def equal_sided(count: int, side_in: float, pitch: Pitch) -> Outline:
    """`count` equal walls round a middle: a pyramid over 4, an octagon over 8."""
    if count < 3:
        raise FrameError(f"{count} equal sides close round nothing; give 3 or more")
    return walk([Wall(side_in, 360.0 / count, "eave", pitch)] * count)


def _end(length_in: float, kind: RoofEnd, pitch: Pitch) -> Wall:
    what: WallKind = "eave" if kind == "hip" else "gable"
    return Wall(length_in, 90.0, what, pitch if kind == "hip" else None)


def _named(wall: Wall, name: str) -> Wall:
    return Wall(wall.length_in, wall.turn_deg, wall.kind, wall.pitch, name)
