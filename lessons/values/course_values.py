"""The values that lessons need beside a cut's own: leans in words, halves, drawn triangles."""

from layout.answer.answer import Answer
from layout.answer.sense_words import leaning
from layout.errors import LayoutError
from layout.length.run_length import UNIT_RUN_IN
from layout.length.shortening import shorten
from layout.quantity import write_degrees
from layout.stock import read_stock
from layout.vector import sin_cos
from lessons.values.length_values import (
    common_length,
    line_length,
    line_run,
    own_row,
    own_run,
    plan_angle,
    plan_number,
    plumb_depth,
    shortening_along,
    some_length,
)
from lessons.values.mark_values import edge_number
from lessons.values.value import value

RIDGE_BOARD = read_stock("2x8")
"""The ridge of a lesson is a two-by: half of it comes off a common."""


@value("angle")
def right_angle(_: Answer) -> float:
    """A right angle: 90 degrees."""
    return 90.0


@value("angle")
def half_corner(answer: Answer) -> float:
    """Half the angle between the walls, measured on the side on which it is below 180."""
    corner_deg = answer.question.corner_deg
    return min(corner_deg, 360.0 - corner_deg) / 2


@value("angle")
def whole_corner(answer: Answer) -> float:
    """The angle between the walls, measured on the side on which it is below 180."""
    return 2 * half_corner(answer)


@value("word")
def kept_end(answer: Answer) -> str:
    """The end of the board toward which the kept wood lies."""
    return "foot" if answer.cut.at_head else "head"


@value("word")
def face_lean_words(answer: Answer) -> str:
    """The lean of the face mark: its top slants toward an end."""
    if answer.face.numbers is None:
        return "square across"
    return f"its top slants toward the {leaning(answer.face)}"


@value("word")
def edge_lean_words(answer: Answer) -> str:
    """The lean of the edge mark: its left end slants toward an end."""
    if answer.edge.numbers is None:
        return "square across"
    return f"its left end slants toward the {leaning(answer.edge)}"


@value("word")
def short_face_words(answer: Answer) -> str:
    """Of the two face marks, which lies nearer which end."""
    if answer.hand is None:
        return "Both face marks stand side by side."
    hand = answer.hand
    return (
        f"The mark on the {hand.value} face lies nearer the {kept_end(answer)} than the one on the"
        f" {hand.other.value} face"
    )


@value("number")
def plan_across(answer: Answer) -> float:
    """How far the joint's plan line goes across the board while the board runs its own run."""
    return plan_number(answer) * own_run(answer) / UNIT_RUN_IN


@value("number")
def drawn_across(answer: Answer) -> float:
    """Across in the drawn triangle whose long leg is the board's own length for 12 of run."""
    return edge_number(answer) * own_row(answer) / UNIT_RUN_IN


@value("number")
def first_leg(answer: Answer) -> float:
    """Leg A of the three triangles that find a leaning board's tilt: the leg beside the plan angle,
    the long side being 12."""
    return UNIT_RUN_IN * float(sin_cos(plan_angle(answer))[1])


@value("number")
def second_leg(answer: Answer) -> float:
    """Leg B of these triangles: in the third, across from the tilt, the long side being 12."""
    return UNIT_RUN_IN * float(sin_cos(answer.cut.face_tilt_deg)[0])


@value("length")
def half_ridge(answer: Answer) -> float:
    """Half the thickness of the ridge, a two-by, measured level along a common."""
    del answer
    return RIDGE_BOARD.thickness_in / 2


@value("length")
def half_ridge_along(answer: Answer) -> float:
    """Half the thickness of the ridge, measured along this board as it slopes."""
    joint = answer.question.joint
    plane = answer.plane
    return shorten(joint.pose.head, plane.normal, RIDGE_BOARD.thickness_in / 2).along_in


@value("length", some_length)
def tail_length(answer: Answer, overhang_in: float) -> float:
    """Length of the tail along the rafter for a level overhang, to the plumb end."""
    return overhang_in * own_row(answer) / own_run(answer)


@value("length")
def tail_height(answer: Answer) -> float:
    """Plumb height of the end of a plumb-cut tail: the plumb depth of the board."""
    return plumb_depth(answer)


@value("length", some_length)
def total_rise(answer: Answer, run_in: float) -> float:
    """How far this roof climbs over a run of the common."""
    return run_in * answer.question.pitch.rise_in_12 / UNIT_RUN_IN


@value("word")
def notch_way(answer: Answer) -> str:
    """The end of the board toward which the seat runs from the inside corner of the notch."""
    if answer.question.entry.name != "common-seat":
        raise LayoutError(f"{answer.question.entry.name} is no seat of a bird's mouth")
    return "head"


@value("length")
def some_run(answer: Answer) -> float:
    """A common's run that goes with the pitch, so that drills differ: 8 ft and half a foot for
    each inch of rise."""
    return 96.0 + 6.0 * round(answer.question.pitch.rise_in_12)


@value("length")
def common_length_there(answer: Answer) -> float:
    """Length of a common over that run, nothing taken off."""
    return common_length(answer, some_run(answer))


@value("length")
def line_length_there(answer: Answer) -> float:
    """Length of the hip or valley over that run of the common, nothing taken off."""
    return line_length(answer, some_run(answer))


@value("length")
def line_run_there(answer: Answer) -> float:
    """Level run of the hip or valley over that run of the common."""
    return some_run(answer) * line_run(answer) / UNIT_RUN_IN


@value("length")
def half_cheek(answer: Answer) -> float:
    """How far a cheek from the center of the edge to a face runs along the board."""
    return answer.question.stock.thickness_in / 2 * UNIT_RUN_IN / edge_number(answer)


@value("length")
def both_shortenings_along(answer: Answer) -> float:
    """What comes off along the board where both ends are shortened alike."""
    return 2 * shortening_along(answer)


@value("length")
def short_point_back(answer: Answer) -> float:
    """How far behind its figured length the short point of a shortened stick lies, along it."""
    return shortening_along(answer) + answer.long_minus_short_in / 2


@value("number")
def eave_for_run(answer: Answer) -> float:
    """How far along the eave the hip or valley goes while the common runs 12, for a board that
    lies along the eave."""
    return UNIT_RUN_IN * UNIT_RUN_IN / plan_number(answer)


@value("word")
def four_angles(answer: Answer) -> str:
    """The four angles of the cut in the order of their size."""
    angles = {
        answer.face.from_square_deg,
        answer.edge.from_square_deg,
        answer.edge.bevel_deg,
        float(answer.cut.face_tilt_deg),
    }
    return ", ".join(write_degrees(angle) for angle in sorted(angles))
