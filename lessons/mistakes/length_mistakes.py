"""The known mistakes of length: the right plane in the wrong place, or an edge left standing out.

A stick's length is worked out to the middle of the stick it meets. What is taken off there, the
shortening, is half of that stick's thickness, measured square to its side; the stick that is
met is taken to be a board of the same stock.
"""

from math import isfinite

from layout.answer.answer import Answer
from layout.errors import RoofError
from layout.length.drop import hip_top
from layout.length.run_length import common_per_run, jack_per_spacing, line_per_run
from layout.length.shortening import Shortening, shorten
from lessons.mistakes.mistake import misplaced, proud

CENTRED = frozenset(
    {
        "hip",
        "valley",
        "hip or valley",
        "ridge",
        "own common",
        "end common",
        "through valley",
    }
)
"""Mates that a length is worked out to the middle of; any other is met at its own surface."""
SQUARE_IN = 1e-9
USUAL_RUN_IN = 12.0
"""A mistake in working out a length is priced for one step of the common's run."""
USUAL_SPACING_IN = 16.0
ONE_RUN = 1e-9


def shortening(true_answer: Answer) -> Shortening | None:
    """What this plane takes off the stick, its mate being of the same stock [inches].

    None where the length is not worked out to the middle of the mate.
    """
    joint = true_answer.question.joint
    plane = true_answer.plane
    if plane.mate_name not in CENTRED:
        return None
    return shorten(joint.pose.head, plane.normal, true_answer.question.stock.thickness_in / 2)


@misplaced(
    "Nothing is taken off for the rafter or ridge that is met.",
    "The length runs to the middle of what is met; the wood ends at its side.",
)
def no_shortening(true_answer: Answer) -> float | None:
    """Too long by the whole shortening along the board."""
    taken = shortening(true_answer)
    return None if taken is None else taken.along_in


@misplaced(
    "The shortening is measured along the sloping edge.",
    "The shortening is a level measure, square back from the plumb line. Along the slope the"
    " same step of the rule reaches less far.",
)
def shortening_along_the_slope(true_answer: Answer) -> float | None:
    """The level shortening laid along the board."""
    taken = shortening(true_answer)
    return None if taken is None else taken.along_in - taken.level_in


@misplaced(
    "Half the straight thickness is taken off where two rafters meet on a slant.",
    "The slanting line through half the thickness is longer than the straight one.",
)
def square_shortening(true_answer: Answer) -> float | None:
    """Half the mate's thickness measured level along the stick, as if it were met square."""
    taken = shortening(true_answer)
    if taken is None or taken.level_in - taken.across_in < SQUARE_IN:
        return None
    return taken.along_in * (1 - taken.across_in / taken.level_in)


@proud(
    "The hip is set with a square top edge: neither backed nor dropped.",
    "Its middle lies in both roofs, but the roofs fall away from it to both sides.",
)
def no_drop_no_backing(true_answer: Answer) -> float | None:
    """The edge stands out by the drop that would have hidden it."""
    asked = true_answer.question
    if not asked.joint.bevels or asked.corner_deg > 180:
        return None
    try:
        return hip_top(asked.corner, asked.stock, "dropped").lowered_in
    except RoofError:
        return None


def _is_common(true_answer: Answer) -> bool:
    """True for a rafter that runs straight up its roof, from the plate on."""
    return true_answer.question.entry.family == "common"


def _climbs_on_a_slant(true_answer: Answer) -> bool:
    """True for a hip or a valley, whose run is longer than the common's."""
    joint = true_answer.question.joint
    return true_answer.stick_slope_deg > 0 and float(joint.unit_run) > 1 + ONE_RUN


@misplaced(
    "The run is taken for the length.",
    "The run is measured level. The rafter slopes, so it is longer for every step. The picture"
    " shows one step.",
)
def run_as_length(true_answer: Answer) -> float | None:
    """Too short by what the slope adds over one step."""
    if not _is_common(true_answer):
        return None
    return USUAL_RUN_IN * (1 - float(common_per_run(true_answer.question.corner)))


@misplaced(
    "The whole span is stepped off in place of the run.",
    "A common covers half the span: from the wall to the center of the ridge. The picture"
    " shows one step.",
)
def span_stepped_off(true_answer: Answer) -> float | None:
    """Too long by a whole length over one step."""
    if not _is_common(true_answer):
        return None
    return USUAL_RUN_IN * float(common_per_run(true_answer.question.corner))


@misplaced(
    "The common's number is taken for the hip or valley.",
    "For each step of the common the hip or valley runs farther, on a slant, so it is longer. The"
    " picture shows one step.",
)
def common_row_on_hip(true_answer: Answer) -> float | None:
    """Too short by the difference of both lengths over one step of the common."""
    if not _climbs_on_a_slant(true_answer):
        return None
    corner = true_answer.question.corner
    return USUAL_RUN_IN * float(common_per_run(corner) - line_per_run(corner))


@misplaced(
    "The spacing is added for each jack.",
    "The spacing is level, along the eave. Up the slope each jack grows by more.",
)
def spacing_as_difference(true_answer: Answer) -> float | None:
    """Too short, from one jack to the next, by what the slope adds to a spacing of 16 in."""
    if true_answer.question.entry.family != "jack" or shortening(true_answer) is None:
        return None
    grown = USUAL_SPACING_IN * float(jack_per_spacing(true_answer.question.corner))
    return USUAL_SPACING_IN - grown if isfinite(grown) else None
