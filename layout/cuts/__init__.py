"""The catalogue of cuts: one file a family, each entry a pose and its planes.

An entry is a function of a `Corner` that returns a `Joint`, under the `entry` decorator. Files
in this package are found by themselves; to add a cut, write one function in one of them. Build
it for any corner that comes: the catalogue turns the corner about so that the first plane's
cheek faces the hand that was asked for.
"""

import importlib
import pkgutil
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum
from functools import cache
from typing import Literal

import numpy as np

from layout.errors import CutError
from layout.plane.corner import Corner
from layout.plane.cut import ALONG
from layout.plane.joint import Joint
from layout.vector import Array, Flags

End = Literal["head", "foot"]
Meets = Literal["nothing", "hip", "valley", "either"]
"""What stands at the corner for this cut: decides which angles between the walls make sense."""

Builder = Callable[[Corner], Joint]

ALSO_CALLED = {
    "rafter": "common-ridge",
    "plumb-cut": "common-ridge or hip-ridge",
    "seat-cut": "common-seat or hip-seat",
    "tail-cut": "common-tail-plumb or common-tail-level",
    **dict.fromkeys(("birdsmouth", "birds-mouth", "notch"), "common-seat or common-heel"),
    **dict.fromkeys(("cheek-cut", "side-cut"), "hip-jack or valley-jack"),
    **dict.fromkeys(("bevel-cut", "backing-bevel"), "hip-backing or valley-backing"),
}
"""What the trade calls cuts of several sticks, and the names they have here."""


class Hand(Enum):
    """The side to which a cheek faces for someone at the foot who looks toward the head."""

    LEFT = "left"
    RIGHT = "right"

    @property
    def sign(self) -> float:
        """+1 for left, -1 for right: the sign of the cut's ny."""
        return 1.0 if self is Hand.LEFT else -1.0

    @property
    def other(self) -> "Hand":
        """The opposite hand."""
        return Hand.RIGHT if self is Hand.LEFT else Hand.LEFT


@dataclass(frozen=True, eq=False)
class Entry:
    """A cut of the catalogue: what it is called, where it stands, how its joint is built.

    `builders` has one function for each end of the stick that this cut is made on. `stock` is
    the usual board; `two_hands` tells whether left and right differ. (A notch asked for by its
    level seat has none, and yet its heels differ where the pitches do: `Question.two_hands`.)
    """

    name: str
    family: str
    says: str
    meets: Meets
    stock: str
    two_hands: bool
    builders: dict[End, Builder]

    @property
    def ends(self) -> tuple[End, ...]:
        """The ends of the stick that carry this cut, the first being the usual one."""
        return tuple(self.builders)

    @property
    def usual_corner_deg(self) -> float:
        """The square corner for this cut, measured inside the building [degrees]."""
        return 270.0 if self.meets == "valley" else 90.0

    def joint(self, corner: Corner, end: End | None = None) -> Joint:
        """The joint at this corner, turned so that its first cheek faces the corner's hand.

        `corner.hand` is read as the hand of the cut, +1 left, -1 right, not as the side on
        which the corner lies: that follows. Raises CutError for an end without this cut, and
        for a roof in which the board never comes to what it should be cut against.
        """
        end = end or self.ends[0]
        joint = self._turned(corner, end)
        if np.any(_astray(joint, end)):
            raise CutError(
                f"{self.name} has no place in this roof: its {end} never comes to the"
                f" {joint.planes[0].mate_name}, which leans away; give pitches nearer to each"
                " other or a corner nearer to square"
            )
        return joint

    def has_place(self, corner: Corner, end: End | None = None) -> Flags:
        """In which of many corners this cut has a place (...); `joint` refuses the others.

        Raises CutError for an end without this cut.
        """
        end = end or self.ends[0]
        return ~_astray(self._turned(corner, end), end)

    def _turned(self, corner: Corner, end: End) -> Joint:
        """The joint, its first cheek facing the corner's hand, whether it has a place or not."""
        build = self.builders.get(end)
        if build is None:
            raise CutError(f"{self.name} is cut at the {' and '.join(self.ends)}, not at the {end}")
        joint = build(replace(corner, hand=1.0))
        hand = corner.hand * _turn(joint)
        return joint if np.all(hand == 1.0) else build(replace(corner, hand=hand))


def _astray(joint: Joint, end: End) -> Flags:
    """Where planes do not end the board there, or bevels both lean one way (...).

    At an oblique corner with very unequal pitches the hip or valley leans past square to
    an eave. Jacks of that roof then rise away from it, and its edge has no ridge or
    hollow in the middle to back: one roof climbs on across it.
    """
    normals = joint.normals
    if joint.rip:
        sides = [np.sign(n[..., 1]) for n in normals]
        alike: Flags = sides[0] == sides[1] if len(sides) == 2 else sides[0] != sides[0]
        return alike
    ends = normals if joint.point else normals[:1]
    sign = 1.0 if end == "head" else -1.0
    astray: Flags = np.any([sign * n[..., 0] <= ALONG for n in np.broadcast_arrays(*ends)], axis=0)
    return astray


_entries: dict[str, Entry] = {}


def entry(
    family: str,
    says: str,
    *,
    meets: Meets,
    name: str | None = None,
    end: End = "head",
    stock: str = "2x6",
    two_hands: bool = True,
) -> Callable[[Builder], Builder]:
    """Enter a function from `Corner` to `Joint` in the catalogue, under its own name.

    A stick cut at both ends is entered twice under one `name`, once for each `end`. Both
    entries say the same family, stock, meets and hands; raises CutError where they do not, and
    for an end that is entered already.
    """

    def register(build: Builder) -> Builder:
        called = name or build.__name__.replace("_", "-")
        new = Entry(called, family, says, meets, stock, two_hands, {end: build})
        known = _entries.get(called)
        _entries[called] = _joined(known, new) if known else new
        return build

    return register


def _turn(joint: Joint) -> Array:
    """+1 where a corner at the left gave a left cheek, -1 where it gave a right one (...).

    The first plane that has a side decides: where the first cheek of two comes out square
    through the thickness, the second one still faces left or right.
    """
    sides = [normal[..., 1] for normal in joint.normals]
    turn = np.ones_like(sides[0])
    for side in reversed(sides):
        turn = np.where(np.abs(side) > ALONG, np.where(side < 0, -1.0, 1.0), turn)
    return turn


def _joined(known: Entry, new: Entry) -> Entry:
    """One cut with another end; raises CutError where the two entries cannot be one cut's.

    A file copied without a new name would else replace a cut's planes without a word.
    """
    end, build = next(iter(new.builders.items()))
    if end in known.builders:
        there = known.builders[end]
        raise CutError(
            f"the {end} of {new.name} is entered twice, in {there.__module__} and in"
            f" {build.__module__}; give one of them another name"
        )
    for field in ("family", "meets", "stock", "two_hands"):
        if getattr(known, field) != getattr(new, field):
            raise CutError(
                f"{new.name}: its {end} is entered with {field} = {getattr(new, field)!r}, its"
                f" {known.ends[0]} with {getattr(known, field)!r}; a cut has one"
            )
    if new.says and known.says and new.says != known.says:
        raise CutError(f"{new.name} is said to be {known.says!r} and {new.says!r}; say it once")
    return replace(known, says=known.says or new.says, builders=known.builders | new.builders)


@cache
def catalogue() -> dict[str, Entry]:
    """Every cut by name, family by family."""
    for module in pkgutil.iter_modules(__path__):
        importlib.import_module(f"{__name__}.{module.name}")
    return dict(sorted(_entries.items(), key=lambda item: item[1].family))


def find(name: str) -> Entry:
    """The cut of that name; raises CutError that offers the nearest names.

    Spaces stand for hyphens, capitals do not matter, and the British spelling is read too.
    """
    cuts = catalogue()
    plain = "-".join(name.lower().replace("mitre", "miter").split())
    if plain in cuts:
        return cuts[plain]
    import difflib  # Only a wrong name needs it, and every start would pay for it.

    near = ALSO_CALLED.get(plain.replace("'", "").replace("\u2019", "")) or " or ".join(
        difflib.get_close_matches(plain, cuts, n=3, cutoff=0.4)
    )
    offer = f"did you mean {near}?" if near else "`squaresaw cuts` lists them all"
    raise CutError(f"there is no cut called {name!r}; {offer}")
