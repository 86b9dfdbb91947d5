"""The values a lesson's text may name, each read from the answer to the lesson's question.

A text writes `{name:unit}`, or `{name(argument):unit}` for a value that takes one. What a name
means, which kind it is of and which arguments it takes is entered once: in `mark_values` for
the roof, the marks and the settings, in `sense_values` for what turns a saw, in `joint_values`
for mistakes and for a joint's second plane, in `length_values` for lengths.
"""

from lessons.values import joint_values, length_values, mark_values, sense_values
from lessons.values.value import Value, registered

__all__ = ["Value", "values"]

_ = (
    mark_values,
    sense_values,
    joint_values,
    length_values,
)  # importing them has entered their values


def values() -> dict[str, Value]:
    """Every named value by name."""
    return registered()
