"""The lengths a lesson's text may name: runs, table numbers, shortenings, drops, seats.

Whatever a stick meets is taken to be a board of the same stock.
"""

import numpy as np

from layout.answer.answer import Answer
from layout.errors import LayoutError
from layout.length.drop import CarrierTop, falls, hip_top, valley_top
from layout.length.run_length import UNIT_RUN_IN, common_per_run, jack_per_spacing, line_per_run
from layout.length.shortening import Shortening
from layout.quantity import read_building_length, read_length
from layout.vector import angle_deg, sin_cos
from lessons.mistakes import length_mistakes
from lessons.values.value import value

NOTCH_SHARE = 0.25
"""The bird's mouth in a lesson is notched a quarter of the depth, square to the edge."""


def some_length(text: str) -> float:
    """A length above nothing [inches]. Raises LayoutError for any other text."""
    length_in = read_length(text)
    if length_in <= 0:
        raise LayoutError(f"a length of {text} is none; give one such as 12 ft")
    return length_in


def building_run(text: str) -> float:
    """A run of a building above nothing [inches].

    Raises LayoutError for any other text, and for a bare number, which may be feet or inches.
    """
    return some_length(text) and read_building_length(text)


@value("length", some_length)
def length(_: Answer, length_in: float) -> float:
    """A length that is said outright, to be written in the reader's units."""
    return length_in


@value("number", some_length)
def number(_: Answer, number_in: float) -> float:
    """A number on the inch square that is said outright: 12, or 300 on a metric one."""
    return number_in


@value("number")
def rise(answer: Answer) -> float:
    """Rise of the own roof on a run of 12."""
    return answer.question.pitch.rise_in_12


@value("number")
def other_rise(answer: Answer) -> float:
    """Rise of the other roof on a run of 12."""
    return answer.question.other_pitch.rise_in_12


@value("number")
def own_run(answer: Answer) -> float:
    """The stick's own level run while the common runs 12."""
    return UNIT_RUN_IN * float(np.asarray(answer.question.joint.unit_run))


@value("number")
def line_run(answer: Answer) -> float:
    """The hip's or valley's level run while the common runs 12."""
    return UNIT_RUN_IN * float(answer.question.corner.unit_run)


@value("number")
def own_row(answer: Answer) -> float:
    """The stick's own length while the common runs 12."""
    return own_run(answer) / float(sin_cos(answer.stick_slope_deg)[1])


@value("number")
def plan_number(answer: Answer) -> float:
    """The side-cut number that the cut would have if the stick lay level: 12 tan(plan angle)."""
    joint = answer.question.joint
    along, across = joint.pose.head[:2], answer.plane.normal[:2]
    turn = abs(float(along[0] * across[1] - along[1] * across[0]))
    if turn == 0:
        raise LayoutError("the joint is square to the stick in plan, so no number lays it on 12")
    return UNIT_RUN_IN * abs(float(along @ across)) / turn


@value("number")
def common_row(answer: Answer) -> float:
    """Length of the own common over a run of 12."""
    return UNIT_RUN_IN * float(common_per_run(answer.question.corner))


@value("number")
def line_row(answer: Answer) -> float:
    """Length of the hip or valley over 12 of the common's run."""
    return UNIT_RUN_IN * float(line_per_run(answer.question.corner))


@value("length", building_run)
def common_length(answer: Answer, run_in: float) -> float:
    """Length of the own common over a run, nothing taken off."""
    return run_in * float(common_per_run(answer.question.corner))


@value("length", building_run)
def line_length(answer: Answer, run_in: float) -> float:
    """Length of the hip or valley over a run of the common, nothing taken off."""
    return run_in * float(line_per_run(answer.question.corner))


@value("length", some_length)
def common_difference(answer: Answer, spacing_in: float) -> float:
    """How much longer each own jack is than the one before, at a spacing on center."""
    return spacing_in * float(jack_per_spacing(answer.question.corner))


@value("angle")
def line_slope(answer: Answer) -> float:
    """Slope of the hip or valley above level."""
    return float(answer.question.corner.line_slope_deg)


@value("angle")
def plan_angle(answer: Answer) -> float:
    """Angle in plan between the stick and the joint's plane, 90 where they cross square."""
    joint = answer.question.joint
    along, across = joint.pose.head[:2], answer.plane.normal[:2]
    return float(angle_deg(along @ across, along[0] * across[1] - along[1] * across[0]))


@value("angle")
def plan_turn(answer: Answer) -> float:
    """Angle in plan from square across the stick to the joint's plane, 0 where it is square."""
    return 90.0 - plan_angle(answer)


@value("length")
def half_thickness(answer: Answer) -> float:
    """Half the thickness of the board."""
    return answer.question.stock.thickness_in / 2


@value("length")
def shortening(answer: Answer) -> float:
    """What the mate takes off the stick, measured level along it."""
    return _shortening(answer).level_in


@value("length")
def shortening_along(answer: Answer) -> float:
    """What the mate takes off the stick, measured along the board."""
    return _shortening(answer).along_in


def _shortening(answer: Answer) -> Shortening:
    taken = length_mistakes.shortening(answer)
    if taken is None:
        raise LayoutError(f"{answer.question.entry.name} is not shortened: it meets no center line")
    return taken


@value("length")
def plumb_depth(answer: Answer) -> float:
    """Depth of the board measured plumb."""
    return answer.question.stock.depth_in / float(sin_cos(answer.stick_slope_deg)[1])


@value("length")
def notch(answer: Answer) -> float:
    """Depth of the bird's mouth, square to the edge: a quarter of the board."""
    return NOTCH_SHARE * answer.question.stock.depth_in


@value("length")
def seat(answer: Answer) -> float:
    """Level length of the seat of that bird's mouth."""
    return notch(answer) / float(sin_cos(answer.stick_slope_deg)[0])


@value("length")
def heel(answer: Answer) -> float:
    """Plumb length of the heel of that bird's mouth."""
    return notch(answer) / float(sin_cos(answer.stick_slope_deg)[1])


@value("length")
def height_above_plate(answer: Answer) -> float:
    """What stays of the plumb depth above the seat of that bird's mouth."""
    return plumb_depth(answer) - heel(answer)


@value("length")
def common_above_plate(answer: Answer) -> float:
    """Height above plate of the own common, as deep as this board and notched by a quarter."""
    kept_in = answer.question.stock.depth_in * (1 - NOTCH_SHARE)
    return kept_in * float(common_per_run(answer.question.corner))


@value("length")
def drop(answer: Answer) -> float:
    """How far an unbacked hip is lowered, plumb, to bring its edge under both roofs."""
    corner, stock = answer.question.corner, answer.question.stock
    return hip_top(corner, stock, "dropped").lowered_in


@value("angle")
def backing(answer: Answer) -> float:
    """Bevel of the hip's or valley's edge under the own roof, from square."""
    return _top(answer).own_bevel_deg


@value("angle")
def other_backing(answer: Answer) -> float:
    """Bevel of the hip's or valley's edge under the other roof, from square."""
    return _top(answer).other_bevel_deg


@value("number")
def fall(answer: Answer) -> float:
    """Plumb fall of the own roof over 12 level, square away from the hip or valley."""
    return UNIT_RUN_IN * abs(falls(answer.question.corner)[0])


def _top(answer: Answer) -> CarrierTop:
    corner, stock = answer.question.corner, answer.question.stock
    if bool(corner.reentrant):
        return valley_top(corner, stock)
    return hip_top(corner, stock)
