"""One cut in many roofs: the joints of all of them worked out together, in arrays.

Each question is then told its own joint, so that an answer to it is what `answer` gives.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from layout.answer.question import Question
from layout.cuts import End, Entry
from layout.errors import RoofError
from layout.plane.corner import Corner
from layout.plane.cut import Cut
from layout.plane.joint import Joint
from layout.stock import Stock
from layout.vector import Flags


@dataclass(frozen=True)
class Many:
    """Questions about one end of one cut, each knowing its joint, and all joints as arrays (n,).

    `places` are the questions' places among those that were asked.
    """

    questions: tuple[Question, ...]
    places: tuple[int, ...]
    joint: Joint

    def cuts(self, stock: Stock) -> tuple[Cut, ...]:
        """Every plane of the joint on this board, arrays of cuts (n,)."""
        cases = len(self.questions)
        return tuple(
            replace(
                cut,
                normal=np.broadcast_to(cut.normal, (cases, 3)),
                point=np.broadcast_to(cut.point, (cases, 3)),
                span=np.broadcast_to(cut.span, (cases, 2, 2)),
            )
            for cut in self.joint.cuts(stock)
        )


def in_many(questions: Sequence[Question]) -> Many | None:
    """Those of the questions whose roof has a place for the cut; None where none of them has.

    They ask for one end of one cut with one roll, each in a roof of its own, and stand in no
    framed roof.
    """
    first = questions[0]
    found = _placed(first.entry, first.end, _corners(questions)).tolist()
    places = tuple(place for place, placed in enumerate(found) if placed)
    if not places:
        return None
    placed = [questions[place] for place in places]
    joint = first.entry.joint(_corners(placed), first.end).rolled(first.roll_deg)
    told = (
        replace(question).with_joint(one)
        for question, one in zip(placed, joint.each(len(placed)), strict=True)
    )
    return Many(tuple(told), places, joint)


def _corners(questions: Sequence[Question]) -> Corner:
    corners = [question.corner for question in questions]
    parts = ("slope_deg", "other_slope_deg", "interior_deg", "hand")
    return Corner(*(np.array([getattr(one, part) for one in corners]) for part in parts))


def _placed(entry: Entry, end: End, corner: Corner) -> Flags:
    """In which of these corners (n,) the cut has a place."""
    cases = np.shape(corner.slope_deg)
    try:
        return np.broadcast_to(entry.has_place(corner, end), cases)
    except RoofError:  # one corner whose roofs are one plane refuses all: it is sought by halves
        half = cases[0] // 2
        if not half:
            return np.zeros(cases, dtype=bool)
        parts = (_part(corner, 0, half), _part(corner, half, cases[0]))
        return np.concatenate([_placed(entry, end, part) for part in parts])


def _part(corner: Corner, start: int, stop: int) -> Corner:
    parts = (corner.slope_deg, corner.other_slope_deg, corner.interior_deg, corner.hand)
    return Corner(*(np.asarray(part)[start:stop] for part in parts))
