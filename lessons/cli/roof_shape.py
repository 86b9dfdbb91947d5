"""What a roof's options say of its shape: sizes, walls, ends, words to choose from.

Each reader raises FrameError that names the option and what would be right.
"""

from collections.abc import Sequence
from typing import TypeVar

from layout.errors import FrameError
from layout.framing.outlines import equal_sided
from layout.framing.roof_plan import RoofEnd
from layout.framing.walls import Outline, walk
from layout.framing.walls_text import read_walls
from layout.quantity import (
    Pitch,
    read_building_length,
    two_sides,
)

Word = TypeVar("Word", bound=str)


def size_pair(text: str, option: str) -> tuple[float, float]:
    """Length and width [inches] of a size such as 24' x 16'."""
    sides = two_sides(text)
    if sides is None:
        raise FrameError(f"{option} {text!r} is no size; write length x width, such as 24' x 16'")
    return read_building_length(sides[0]), read_building_length(sides[1])


def read_outline(walls: str | None, equal: str | None, pitch: Pitch) -> Outline | None:
    """The walls as they are walked, or equal ones; None where --size says the shape."""
    if walls is not None:
        return walk(read_walls(walls))
    if equal is None:
        return None
    sides = two_sides(equal)
    if sides is None or not sides[0].strip().isdigit():
        raise FrameError(f"--equal {equal!r}: write how many x how long, such as 8 x 6'")
    return equal_sided(int(sides[0]), read_building_length(sides[1]), pitch)


def read_end(text: str) -> RoofEnd:
    """How a roof ends: hip, gable or bay."""
    ends: dict[str, RoofEnd] = {"hip": "hip", "gable": "gable", "bay": "bay"}
    end = ends.get(text.strip().lower())
    if end is None:
        raise FrameError(f"an end is hip or gable, or a half-octagon bay, not {text!r}")
    return end


def read_ends(text: str) -> tuple[RoofEnd, RoofEnd]:
    """The left and the right end, with a comma between them."""
    parts = text.split(",")
    if len(parts) != 2:
        raise FrameError(f"--ends {text!r} should name both ends, such as hip,gable")
    return read_end(parts[0]), read_end(parts[1])


def one_of(text: str, known: Sequence[Word], option: str) -> Word:
    """The one of the known words that a text is, small or large."""
    found = next((word for word in known if word == text.strip().lower()), None)
    if found is None:
        raise FrameError(f"{option} {text!r}: give one of {', '.join(known)}")
    return found
