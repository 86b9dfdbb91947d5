"""An end of a stick that stands in a roof, asked about like any cut of the catalogue."""

from dataclasses import dataclass

from layout.plane.cut import Cut
from layout.plane.joint import Joint


@dataclass(frozen=True)
class Use:
    """Sticks that have one end in common, and how their tape reads on the end as it is drawn.

    A point at x on the drawn end lies `offset_in` + x from their datum, plus toward the head
    [inches]; `datum` says in words where that is. `foot_in` is how much board lies below a plumb
    line there, so how far from the board's end it is drawn at least; 0 for another datum.
    """

    name: str
    sticks: tuple[str, ...]
    offset_in: float
    datum: str
    foot_in: float = 0.0


@dataclass(frozen=True)
class Standing:
    """What is known of an end where it belongs to a stick that stands in a roof.

    `joint` has the end's planes in place, x counted from the stick's datum. `uses` are the sticks
    with this end, `rips` the bevels along the top edge of a stick that is backed besides.
    `starts_in` is where a bevel begins that runs on to the head, from the datum [inches].
    `marks_in` is how long each plane's mark is on the right and the left face of the finished
    stick [inches], where that is known. `gone` are the planes, by their place in the joint, that
    another cut takes away with their wood: a jack's heel, where the valley ends its foot before
    the outside of the wall.
    """

    joint: Joint
    uses: tuple[Use, ...]
    rips: tuple[Cut, ...] = ()
    starts_in: float | None = None
    marks_in: tuple[tuple[float, float], ...] = ()
    gone: tuple[int, ...] = ()
