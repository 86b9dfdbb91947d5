"""A claim: what someone says about a cut, in the trade's words, and nothing more.

    plumb 12 in 12, saw 45                  a face mark, and the saw's tilt
    plumb 12 in 12, edge 8 1/2 on 12        a face mark and an edge mark, by hand
    board flat: table 33.7, tilt 45         a miter saw: table and tilt
    on edge 54.7 tilt 30                    the shoe on the edge, or the board on its edge
    gauge 3/4 drop 5/16                     a rip between two gauged lines
    rip, saw 22 1/2                         a rip, sawn with the blade tilted

A claim may also say which way the cut leans (`left cheek`, `top to head`, `top edge`). What it
does not say stays None: `lessons.settle.ear` hears claims, `lessons.settle.settle` judges them.
"""

from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from layout.cuts import End, Hand
from layout.errors import LayoutError
from layout.quantity import write_fraction
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from layout.vector import angle_deg, sin_cos

FLAT_DEG = 90.0
"""A mark or a tilt of this many degrees never ends a board."""
LARGEST = 10_000.0
"""Numbers only lay an angle by their ratio; past this one of them is a slip of the pen."""

USUAL_ARM = 12.0
"""Along this arm an edge mark is drawn where none is named: the side-cut number on 12."""
LIKE_A_NUMBER = 25.0
"""A smaller angle without a degree sign may be taken for a number on the square."""

LineKind = Literal["square", "plumb", "level", "numbers", "degrees"]
ShoeOn = Literal["face", "edge"]
Arris = Literal["top", "bottom"]


class ClaimError(LayoutError):
    """Words that are no claim about a cut, or a claim that contradicts itself."""


@dataclass(frozen=True)
class ClaimedLine:
    """A mark as it is said; `first` and `second` are numbers on the square, or an angle.

    "plumb" and "level" have rise and run, "numbers" the one marked along and the other,
    "degrees" an angle from square across [degrees], "square" nothing. Raises ClaimError for
    numbers that lay no line across a board.
    """

    kind: LineKind
    first: float = 0.0
    second: float = 0.0

    def __post_init__(self) -> None:
        if self.kind == "degrees" and not 0 < self.first < FLAT_DEG:
            raise ClaimError(
                f"a mark at {self.first:g}deg does not run across the board;"
                " give more than 0 and less than 90, or say square"
            )
        if self.kind in ("plumb", "level", "numbers"):
            for number in (self.first, self.second):
                if not 0 < number <= LARGEST:
                    raise ClaimError(f"{number:g} cannot be laid on a square; give 12, or 8 1/2")

    @property
    def legs(self) -> tuple[float, float]:
        """Along and across parts of the line [any unit]."""
        if self.kind == "square":
            return 0.0, 1.0
        if self.kind == "degrees":
            sine, cosine = sin_cos(self.first)
            return float(sine), float(cosine)
        return (self.second, self.first) if self.kind == "level" else (self.first, self.second)

    @property
    def from_square_deg(self) -> float:
        """The line's angle from square across [degrees]."""
        return self.first if self.kind == "degrees" else float(angle_deg(*self.legs))


SQUARE = ClaimedLine("square")


@dataclass(frozen=True)
class Claim:
    """What was said: `None` for what was not.

    `face` and `edge` are marks. `tilt_deg` is the saw's [degrees], its shoe on the `shoe`
    surface; `table` is set where a miter saw was named. A `rip` runs along the board;
    `gauge_in` is its breadth over the edge and its drop [inches]. `cheek` is the side the cut
    faces, `top` the end toward which the face mark's upper end leans, `arris` the edge that a
    rip takes off. `text` is the claim as it was written, and no part of what it means.

    Raises ClaimError for a claim that says its plane twice, or what no tool follows.
    """

    face: ClaimedLine | None = None
    edge: ClaimedLine | None = None
    tilt_deg: float | None = None
    shoe: ShoeOn = "face"
    table: bool = False
    rip: bool = False
    gauge_in: tuple[float, float] | None = None
    cheek: Hand | None = None
    top: End | None = None
    arris: Arris | None = None
    text: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        _check_numbers(self)
        marked = self.face is not None or self.edge is not None
        if not marked and self.tilt_deg is None and self.gauge_in is None:
            raise ClaimError("nothing is said of a mark or a tilt; say plumb 8 in 12, saw 45")
        if self.rip and (marked or self.top or (self.tilt_deg is None) == (self.gauge_in is None)):
            raise ClaimError("a rip is said either as gauge 3/4 drop 5/16 or as rip, saw 22 1/2")
        if self.arris and not self.rip:
            raise ClaimError("top edge or bottom edge is said of a rip alone")
        if None not in (self.face, self.edge, self.tilt_deg):
            raise ClaimError(
                "an edge mark and a tilt say the plane twice; make two claims of it,"
                " one by hand and one by saw"
            )
        if self.tilt_deg is not None and self.shoe == "face" and self.edge is not None:
            raise ClaimError(
                "a saw on the face follows a face mark; say plumb 8 in 12, saw 45,"
                " or on edge 45 tilt 30 for the shoe on the edge"
            )
        if self.shoe == "edge" and (self.face or self.tilt_deg is None):
            raise ClaimError("the shoe on the edge follows an edge mark; say on edge 45 tilt 30")
        if self.table and (self.face is None or self.tilt_deg is None):
            raise ClaimError("a miter saw takes a table and a tilt; say flat: table 33, tilt 45")

    def __str__(self) -> str:
        return self.text or write_claim(self)

    @property
    def missing(self) -> str:
        """What must still be said to fix the plane; empty for a whole claim."""
        if self.rip:
            return ""
        if self.shoe == "edge":
            return "" if self.edge else "an edge mark, such as edge 10 on 12"
        if self.face is None:
            return "a face mark, such as plumb 8 in 12"
        if self.edge is None and self.tilt_deg is None:
            return "an edge mark or the saw's tilt, such as edge 10 on 12, or saw 45"
        return ""


def _check_numbers(claim: Claim) -> None:
    tilt, gauge = claim.tilt_deg, claim.gauge_in
    if tilt is not None and not 0 <= tilt < FLAT_DEG:
        raise ClaimError(f"a blade tilted by {tilt:g} lies flat; give 0 and more, less than 90")
    if gauge is not None:
        across, drop = gauge
        if not (0 < across <= LARGEST and 0 <= drop <= LARGEST):
            raise ClaimError(
                f"a gauge of {across:g} with a drop of {drop:g} lays no bevel;"
                " say gauge 3/4 drop 5/16"
            )


def write_claim(claim: Claim) -> str:
    """The claim in the grammar's own words; read again it is the same claim, to the last digit.

    >>> write_claim(Claim(face=ClaimedLine("plumb", 12, 12), edge=ClaimedLine("numbers", 12, 8.5)))
    'plumb 12 in 12, edge 8 1/2 on 12'
    """
    parts: list[str] = []
    claim = as_it_leans(claim)
    if claim.gauge_in is not None:
        across, drop = claim.gauge_in
        parts.append(f"gauge {_number(across)} drop {_number(drop)}")
    elif claim.rip:
        parts.append("rip")
    if claim.table and claim.face is not None and claim.tilt_deg is not None:
        turn = claim.face
        table = _number(turn.first) if turn.kind == "degrees" else write_line(turn, "face")
        table = "square" if turn.kind == "square" else table
        parts.append(f"board flat: table {table}, tilt {_angle(claim.tilt_deg)}")
    elif claim.shoe == "edge" and claim.tilt_deg is not None:
        parts.append("shoe on the edge")
        if claim.edge is not None:
            parts.append(write_line(claim.edge, "edge"))
        parts.append(f"tilt {_angle(claim.tilt_deg)}")
    elif claim.face == SQUARE and claim.edge == SQUARE:
        parts.append("square")
    else:
        parts += [
            write_line(line, where)
            for line, where in ((claim.face, "face"), (claim.edge, "edge"))
            if line is not None
        ]
        if claim.tilt_deg is not None:
            parts.append(f"saw {_angle(claim.tilt_deg)}")
    return ", ".join([*parts, *lean_words(claim)])


def lean_words(claim: Claim) -> list[str]:
    """The words of a claim that say which way the cut leans."""
    words = []
    if claim.cheek is not None:
        words.append(f"{claim.cheek.value} cheek")
    if claim.top is not None and not leans_by_name(claim):
        words.append(f"top to {claim.top}")
    if claim.arris is not None:
        words.append(f"{claim.arris} edge")
    return words


def as_it_leans(claim: Claim) -> Claim:
    """The claim, with the numbers alone of a plumb or level line that leans as neither does."""
    line = claim.face
    sloped = line is not None and line.kind in ("plumb", "level")
    if line is None or not sloped or claim.top is None or leans_by_name(claim):
        return claim
    return replace(claim, face=ClaimedLine("numbers", *line.legs))


def leans_by_name(claim: Claim) -> bool:
    """A plumb line's top leans to the head and a level line's to the foot: no word is needed."""
    kind = claim.face.kind if claim.face else ""
    return (kind, claim.top) in (("plumb", "head"), ("level", "foot"))


def write_line(line: ClaimedLine, where: str) -> str:
    """A mark in the grammar's words; `where` is face or edge."""
    first, second = _number(line.first), _number(line.second)
    match line.kind:
        case "square":
            return f"{where} square"
        case "degrees":
            return f"{where} {first}° from square"
        case "numbers" if where == "edge" and line.first == USUAL_ARM:
            return f"edge {second} on {first}"
        case "numbers":
            return f"{where} {second} on {first} mark {first}"
        case _:
            return f"{line.kind} {first} in {second}"


def _angle(value: float) -> str:
    """A tilt; small ones with their sign, since they could be numbers on the square."""
    return f"{_number(value)}{'°' if value < LIKE_A_NUMBER else ''}"


def _number(value: float) -> str:
    """A fraction to the 64th where it is one, else every digit that tells the value apart."""
    if value * 64 == round(value * 64):
        return write_fraction(value, 64)
    return np.format_float_positional(value, trim="-")


def claimed(setting: Setting) -> Claim:
    """The claim that says a setting, with which way it leans."""
    match setting:
        case RipByHand(across, drop, top, right):
            return Claim(rip=True, gauge_in=(across, drop), cheek=_side(-right), arris=_arris(top))
        case RipBySaw(tilt, top, right):
            return Claim(rip=True, tilt_deg=tilt, cheek=_side(-right), arris=_arris(top))
        case ByHand(face, top_lean, edge, left_lean, end):
            return Claim(
                face=_line(*face),
                edge=_line(*edge),
                cheek=_side(-left_lean * end) if edge[0] else None,
                top=_end(top_lean) if face[0] else None,
            )
        case BySaw(line_deg, top_lean, tilt, toward_waste, end):
            return Claim(
                face=_degrees(line_deg),
                tilt_deg=tilt,
                cheek=_side(-toward_waste) if tilt else None,
                top=_end(top_lean) if line_deg else None,
            )
        case BySawOnEdge(line_deg, left_lean, tilt, toward_waste, end):
            return Claim(
                edge=_degrees(line_deg),
                tilt_deg=tilt,
                shoe="edge",
                cheek=_side(-left_lean * end) if line_deg else None,
                top=_end(-toward_waste * end) if tilt else None,
            )


def _line(mark: float, other: float) -> ClaimedLine:
    return ClaimedLine("numbers", mark, other) if mark else SQUARE


def _degrees(angle: float) -> ClaimedLine:
    return ClaimedLine("degrees", angle) if angle else SQUARE


def _side(sign: int) -> Hand | None:
    return None if sign == 0 else (Hand.LEFT if sign > 0 else Hand.RIGHT)


def _end(sign: int) -> End | None:
    return None if sign == 0 else ("head" if sign > 0 else "foot")


def _arris(sign: int) -> Arris | None:
    return None if sign == 0 else ("top" if sign > 0 else "bottom")
