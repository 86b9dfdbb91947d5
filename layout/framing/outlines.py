"""Outlines that have a name: rectangle, L, T, shed, half-octagon end, equal sides.

Each is a walk from its front left corner along +X, the building at the left.
"""

from collections.abc import Sequence
from typing import Literal

import numpy as np

from layout.errors import FrameError
from layout.framing.walls import Outline, Wall, WallKind, walk
from layout.quantity import Pitch, write_feet

RoofEnd = Literal["hip", "gable", "bay"]
"""The end of a rectangle: a hipped wall, a gable, or half an octagon."""
OCTAGON = float(np.tan(np.radians(22.5)))
"""Side of an octagon over its width across the flats."""


def rectangle(
    length_in: float,
    width_in: float,
    pitch: Pitch,
    end_pitch: Pitch | None = None,
    ends: Sequence[RoofEnd] = ("hip", "hip"),
) -> Outline:
    """Front and back of `length_in` overall; `ends` are the left and the right one [inches].

    A half octagon of width w has three sides of w tan 22.5 and stands out by one of them times
    sin 45: all its walls and the front and back touch one circle.
    """
    side = width_in * OCTAGON
    straight = length_in - sum(side / np.sqrt(2) for end in ends if end == "bay")
    if straight <= 0:
        raise FrameError(
            f"the bays at the ends are longer than the roof of {write_feet(length_in)};"
            " give more length",
            about=["size"],
        )
    left, right = ends
    free = end_pitch or pitch
    turns = [45.0 if end == "bay" else 90.0 for end in (right, left)]
    return walk(
        [
            Wall(straight, turns[0], "eave", pitch, "front"),
            *_end_walls("right", "front", "back", right, width_in, free),
            Wall(straight, turns[1], "eave", pitch, "back"),
            *_end_walls("left", "back", "front", left, width_in, free),
        ],
        (side / np.sqrt(2) if left == "bay" else 0.0, 0.0),
    )


def _end_walls(
    name: str, first: str, last: str, end: RoofEnd, width_in: float, pitch: Pitch
) -> list[Wall]:
    if end != "bay":
        return [_named(_end(width_in, end, pitch), name)]
    side = width_in * OCTAGON
    return [
        Wall(side, 45.0, "eave", pitch, f"{name} {first}"),
        Wall(side, 45.0, "eave", pitch, name),
        Wall(side, 45.0, "eave", pitch, f"{name} {last}"),
    ]


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

    Ends are hip or gable here.

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
            " wall ask for an L",
            about=["wing-at", "wing", "size"],
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
    """A rectangle whose right end is half an octagon; `length_in` is the straight front."""
    overall = length_in + width_in * OCTAGON / float(np.sqrt(2))
    return rectangle(overall, width_in, pitch, None, (left, "bay"))


def equal_sided(count: int, side_in: float, pitch: Pitch) -> Outline:
    """`count` equal walls round a middle: a pyramid over 4, an octagon over 8."""
    if count < 3:
        raise FrameError(
            f"{count} equal sides close round nothing; give 3 or more", about=["equal"]
        )
    return walk([Wall(side_in, 360.0 / count, "eave", pitch)] * count)


def _end(length_in: float, kind: RoofEnd, pitch: Pitch) -> Wall:
    what: WallKind = "eave" if kind == "hip" else "gable"
    return Wall(length_in, 90.0, what, pitch if kind == "hip" else None)


def _named(wall: Wall, name: str) -> Wall:
    return Wall(wall.length_in, wall.turn_deg, wall.kind, wall.pitch, name)
