"""The values a lesson's text may name, each read from the answer to the lesson's question.

A text writes `{name:unit}`, or `{name(argument):unit}` for a value that takes one. What a name
means, which kind it is of and which arguments it takes is entered once: in `mark_values` for
the roof, the marks and the settings, in `sense_values` and `shoe_values` for what turns a saw, in
`joint_values` for mistakes and for a joint's second plane, in `length_values` for lengths, in
`course_values` for what only lessons say. `angle_slips` and `length_slips` enter the wrong ways.
"""

from lessons.values import (
    angle_slips,
    course_values,
    joint_values,
    length_slips,
    length_values,
    mark_values,
    sense_values,
    shoe_values,
)
from lessons.values.slips import Slip, registered_slips
from lessons.values.value import Value, registered

__all__ = ["Slip", "Value", "slips", "values"]

# Importing them has entered their values, and the wrong ways to those.
_ = (mark_values, sense_values, shoe_values, joint_values, length_values, course_values)
_slips_entered = (angle_slips, length_slips)


def values() -> dict[str, Value]:
    """Every named value by name."""
    return registered()


def slips(name: str) -> tuple[Slip, ...]:
    """Every slip on the way to the value of that name."""
    return registered_slips().get(name, ())
