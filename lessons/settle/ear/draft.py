"""What a claim comes to while it is being understood: the parts of one reading, put together."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, replace
from itertools import islice, product
from typing import Any, Literal

from layout.cuts import End, Hand
from lessons.settle.claim import Arris, ClaimedLine, ShoeOn

SAME_DEG = 0.06
"""A mark said twice, in degrees and on the square, is one mark within this."""
SIXTEENTH_DEG = 0.16
"""What reading one of two numbers to the sixteenth turns a line by, at most: atan(1/32 / 12)."""
MOST_READINGS = 12


@dataclass(frozen=True)
class Draft:
    """Parts of one reading; None for what was not said.

    `turn` is the miter saw's table as a line, `lay` how the board lies there. `notes` say where a
    value comes from that was not said as a number, `unplaced` words that were passed over though
    they seem to say which way something leans.
    """

    face: ClaimedLine | None = None
    edge: ClaimedLine | None = None
    tilt_deg: float | None = None
    shoe: ShoeOn | None = None
    turn: ClaimedLine | None = None
    lay: Literal["flat", "edge"] | None = None
    miter: bool = False
    rip: bool = False
    across_in: float | None = None
    drop_in: float | None = None
    cheek: Hand | None = None
    top: End | None = None
    arris: Arris | None = None
    notes: tuple[str, ...] = ()
    unplaced: tuple[str, ...] = ()

    @property
    def says(self) -> bool:
        """Whether anything is said of a mark or a setting."""
        told = (self.face, self.edge, self.tilt_deg, self.turn, self.across_in, self.drop_in)
        return any(one is not None for one in told)


ASIDE = ("notes", "unplaced")


class TwiceError(Exception):
    """One thing said in two ways that differ."""

    def __init__(self, what: str) -> None:
        super().__init__(what)
        self.what = what


NAMES = {
    "face": "the mark on the face",
    "edge": "the mark on the edge",
    "tilt_deg": "the tilt",
    "shoe": "where the shoe rides",
    "turn": "the table",
    "lay": "how the board lies",
    "across_in": "the gauge",
    "drop_in": "the drop",
    "cheek": "the hand",
    "top": "which way the face mark leans",
    "arris": "which edge",
}


def together(first: Draft, second: Draft) -> Draft:
    """Both drafts as one. Raises TwiceError where they contradict each other."""
    merged: dict[str, Any] = {}
    for field in fields(Draft):
        one, two = getattr(first, field.name), getattr(second, field.name)
        if field.name in ("notes", "unplaced"):
            merged[field.name] = (*one, *(word for word in two if word not in one))
        elif isinstance(one, bool):
            merged[field.name] = one or two
        elif one is None or two is None or one == two:
            merged[field.name] = two if one is None else one
        else:
            merged[field.name] = _same(field.name, one, two)
    return Draft(**merged)


def _same(name: str, one: object, two: object) -> object:
    """Two ways of saying one value; the one with more places is kept."""
    if isinstance(one, ClaimedLine) and isinstance(two, ClaimedLine):
        apart = abs(one.from_square_deg - two.from_square_deg)
        exact = next((line for line in (one, two) if line.kind == "degrees"), None)
        if SAME_DEG <= apart < SIXTEENTH_DEG and exact is not None and one.kind != two.kind:
            return exact
        if apart < SAME_DEG:
            kept = next((line for line in (one, two) if line.kind in ("plumb", "level")), exact)
            return kept or one
    elif isinstance(one, float | int) and isinstance(two, float | int):
        near = SAME_DEG if name == "tilt_deg" else 1 / 32
        if abs(one - two) < near:
            return one if _places(one) >= _places(two) else two
    raise TwiceError(NAMES.get(name, name))


def _places(value: float) -> int:
    return len(f"{value:.6f}".rstrip("0"))


def combined(choices: Iterable[list[Draft]]) -> tuple[list[Draft], str]:
    """Every reading that the parts allow; with what is said twice, where none is left."""
    twice = ""
    done: list[Draft] = []
    for parts in islice(_products(choices), 64):
        whole = Draft()
        try:
            for part in parts:
                whole = together(whole, part)
        except TwiceError as error:
            twice = twice or error.what
            continue
        if not any(_alike(whole, other) for other in done):
            done.append(whole)
    done = [one for one in done if not any(_less(one, other) for other in done)]
    return done[:MOST_READINGS], "" if done else twice


def _less(one: Draft, other: Draft) -> bool:
    """Whether a draft swallows the table's number, which another gives a place of its own."""
    if one.turn is not None or other.turn is None:
        return False
    told = {f.name: getattr(one, f.name) for f in fields(Draft) if f.name not in ASIDE}
    more = {f.name: getattr(other, f.name) for f in fields(Draft) if f.name not in ASIDE}
    return told != more and all(value in (None, False, more[name]) for name, value in told.items())


def _products(choices: Iterable[list[Draft]]) -> Iterator[tuple[Draft, ...]]:
    return product(*choices)


def _alike(one: Draft, two: Draft) -> bool:
    return replace(one, notes=()) == replace(two, notes=())
