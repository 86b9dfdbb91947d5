"""Walls written in one line: `24', 90, 8 in 12; 16', 90, gable; ...`.

Each wall is its length, the turn at its end in degrees (plus or `left` to the left, minus or
`right` to the right), and its pitch, `gable` or `high`; walls are parted by semicolons.
"""

from layout.errors import FrameError, LayoutError
from layout.framing.walls import Wall, WallKind
from layout.quantity import Pitch, read_angle, read_building_length, read_pitch


def read_walls(text: str) -> tuple[Wall, ...]:
    """Read walls as they are walked. Raises FrameError with the wall that cannot be read.

    >>> [(w.length_in, w.turn_deg, w.kind) for w in read_walls("24', 90, 8; 16ft, right 45, gable")]
    [(288.0, 90.0, 'eave'), (192.0, -45.0, 'gable')]
    """
    said = [part for part in text.split(";") if part.strip()]
    return tuple(_wall(part.strip(), k + 1) for k, part in enumerate(said))


def _wall(text: str, number: int) -> Wall:
    fields = [field.strip() for field in text.split(",")]
    if len(fields) != 3:
        raise FrameError(
            f"wall {number} {text!r} should say length, turn and pitch, such as 24', 90, 8 in 12"
        )
    try:
        length, turn = read_building_length(fields[0]), read_turn(fields[1])
        kind, pitch = read_kind(fields[2])
    except LayoutError as error:
        raise FrameError(f"wall {number}: {error}") from None
    return Wall(length, turn, kind, pitch)


def read_turn(text: str) -> float:
    """A turn in degrees, plus to the left.

    >>> read_turn("90"), read_turn("left 45"), read_turn("right 90"), read_turn("-90")
    (90.0, 45.0, -90.0, -90.0)
    """
    word, _, rest = text.strip().lower().partition(" ")
    if word in ("left", "right"):
        angle = read_angle(rest)
        return angle if word == "left" else -angle
    bare = text.strip()
    return -read_angle(bare[1:]) if bare.startswith("-") else read_angle(bare.lstrip("+"))


def read_kind(text: str) -> tuple[WallKind, Pitch | None]:
    """What stands on a wall: `gable`, `high`, or an eave by its pitch."""
    word = text.strip().lower()
    if word == "gable":
        return "gable", None
    if word == "high":
        return "high", None
    return "eave", read_pitch(text)
