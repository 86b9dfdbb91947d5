"""A question about one cut: which cut of the catalogue, in which roof, on which board."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from layout.cuts import End, Entry, Hand, find
from layout.errors import CutError
from layout.plane.corner import Corner
from layout.plane.joint import Joint
from layout.quantity import Pitch, read_pitch
from layout.stock import Stock, read_stock
from layout.vector import dot

if TYPE_CHECKING:
    from layout.answer.standing import Standing

SHARPEST_DEG = 15.0
"""Walls that meet at a sharper angle leave no room to frame a corner."""
SAME_NORMAL = 1e-9
"""Parts of unit normals that differ by no more are one plane's."""


@dataclass(frozen=True)
class Question:
    """A cut of the catalogue, and the roof, hand and board it is asked for.

    `corner_deg` is measured inside the building [degrees]; `roll_deg` tips the board about its
    own length. Build one with `ask`, which checks it. The end of a stick in a roof is a question
    too: `stands` has its planes in place.
    """

    entry: Entry
    end: End
    pitch: Pitch
    other_pitch: Pitch
    corner_deg: float
    hand: Hand
    stock: Stock
    roll_deg: float = 0.0
    stands: "Standing | None" = None

    @property
    def corner(self) -> Corner:
        """The corner of the roof, turned for this hand."""
        return Corner(
            self.pitch.slope_deg, self.other_pitch.slope_deg, self.corner_deg, self.hand.sign
        )

    def before_other_cuts(self) -> "Question":
        """The same on a board that no other cut of its stick has touched, as a paper is laid on."""
        if self.stands is None:
            return self
        return replace(self, stands=replace(self.stands, marks_in=(), gone=()))

    @cached_property
    def joint(self) -> Joint:
        """The board posed in the roof, and its planes."""
        if self.stands is not None:
            return self.stands.joint
        return self.entry.joint(self.corner, self.end).rolled(self.roll_deg)

    @cached_property
    def two_hands(self) -> bool:
        """Whether the other hand is another cut: a notch's is where its heels differ."""
        if self.entry.two_hands:
            return True
        other = replace(self, hand=self.hand.other).joint.normals
        return any(
            min(float(np.abs(normal - one).max()) for one in other) > SAME_NORMAL
            for normal in self.joint.normals
        )

    def on(self, stock: Stock) -> "Question":
        """The same question on another board; the planes are the same, and not sought again."""
        return replace(self, stock=stock).with_joint(self.joint)

    def with_joint(self, joint: Joint) -> "Question":
        """This question, told its joint, which is then not sought again; it is changed itself."""
        self.__dict__["joint"] = joint
        return self


def ask(
    name: str,
    *,
    pitch: Pitch | None = None,
    other_pitch: Pitch | None = None,
    corner_deg: float | None = None,
    hand: Hand = Hand.LEFT,
    stock: Stock | None = None,
    end: End | None = None,
    roll_deg: float = 0.0,
    placed: bool = True,
) -> Question:
    """Put a question about a cut, with the usual roof and board where nothing is said.

    `pitch` defaults to 8 in 12, `other_pitch` to the same, `stock` to the cut's usual board,
    `corner_deg` to the square corner. At a valley an angle below 180 is read as the angle
    between the walls outside, and kept as the angle inside. Raises CutError for a name, end or
    corner that this cut does not have, or a roof in which the board never meets its mate, and
    RoofError where both roofs lie in one plane. Where it need not be `placed`, the roof is not
    looked at: the cut may have no place there.
    """
    entry = find(name)
    pitch = pitch or read_pitch("8 in 12")
    corner = entry.usual_corner_deg if corner_deg is None else corner_deg
    if entry.meets == "valley" and corner < 180:
        corner = 360.0 - corner
    _check_corner(entry, corner)
    if end is not None and end not in entry.builders:
        raise CutError(f"{name} is cut at the {' and the '.join(entry.ends)}, not at the {end}")
    question = Question(
        entry,
        end or entry.ends[0],
        pitch,
        other_pitch or pitch,
        corner,
        hand,
        stock or read_stock(entry.stock),
        roll_deg,
    )
    if not placed:
        return question
    joint = question.joint  # refused here, at the border, and not where the answer is read
    if roll_deg and _is_notch(joint):
        raise CutError(
            f"{question.entry.name} is a notch in a rafter that stands plumb on its plate: rolled,"
            " the rafter does not sit on it; leave out --roll"
        )
    return question


def _is_notch(joint: Joint) -> bool:
    """Whether the planes leave wood on both sides along the board."""
    along = [float(dot(joint.pose.head, plane.normal)) for plane in joint.planes]
    return not joint.point and len(along) > 1 and min(along) < 0 < max(along)


def _check_corner(entry: Entry, corner_deg: float) -> None:
    sharp, reflex = SHARPEST_DEG, 360.0 - SHARPEST_DEG
    low, high = {
        "hip": (sharp, 180.0 - 1e-9),
        "valley": (180.0 + 1e-9, reflex),
    }.get(entry.meets, (sharp, reflex))
    if not low <= corner_deg <= high:
        below = f"{sharp:g} deg up to but not 180 deg"
        kind = {"hip": below, "valley": f"{below} between the walls"}.get(
            entry.meets, f"{sharp:g} to {reflex:g} deg"
        )
        raise CutError(
            f"a corner of {corner_deg:g} deg does not suit {entry.name};"
            f" give an angle from {kind}, such as 90"
        )
