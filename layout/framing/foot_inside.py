"""The foot of a rafter that ends before it comes to the outside of the wall.

Its lengths run from the plumb line over the outside of the wall, where no wood of it is left: the
foot cut is found by how far it lies from that line, toward the head, on either face.
"""

from layout.framing.cutlist import piece_groups
from layout.framing.roof import TrainingRoof
from layout.framing.stick import Stick
from layout.quantity import write_long, write_short

LEAST_IN = 1e-6
SIDES = ("right", "left")


def foot_inside_in(stick: Stick) -> tuple[float, float] | None:
    """How far the foot cut lies toward the head from the plumb line, on the top edge [inches].

    At the right and the left face; minus toward the foot. None for a stick that comes to the line,
    or that has none.
    """
    if not stick.on_plate:
        return None
    right, left = (stick.line_ends(y)[0] for y in (0.0, stick.stock.thickness_in))
    return (right, left) if max(right, left) > LEAST_IN else None


def foot_inside_words(stick: Stick, *, metric: bool = False) -> str:
    """Where the foot cut lies on either face, and how far it is from the head; else empty."""
    found = foot_inside_in(stick)
    if found is None:
        return ""
    at, long = [], []
    for side, y, far in zip(SIDES, (0.0, stick.stock.thickness_in), found, strict=True):
        way = "head" if far > 0 else "foot"
        at.append(f"{write_short(abs(far), metric=metric)} toward the {way} on the {side} face")
        head = stick.line_ends(y)[1]
        long.append(f"{write_long(head - far, metric=metric)} on the {side} face")
    return (
        "Foot cut on the top edge, from the plumb line over the outside of the wall:"
        f" {', '.join(at)}. From the foot cut to the head along the top edge: {', '.join(long)}."
    )


def pieces_inside(roof: TrainingRoof, *, metric: bool = False) -> list[str]:
    """The same for every piece of a cut list that has such a foot, by the piece's name."""
    told = {
        mark: foot_inside_words(sticks[0], metric=metric)
        for mark, sticks in piece_groups(roof).items()
    }
    return [f"{mark}: {said}" for mark, said in told.items() if said]
