"""Results as rows: the field names of a dataclass are the header, units and all.

The same names serve as columns of a text table, as a CSV header and as JSON keys, so a result
is described in one place, its dataclass.
"""

from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from typing import Any

Value = str | int | float | bool | None
_PLAIN = (str, int, float, bool)


class Part:
    """A part of a row that several kinds of row share: its fields stand in the row as its own."""


def as_row(item: Any) -> dict[str, Value]:
    """The plain fields of a dataclass by name, in order; a tuple of numbers is spread out.

    A `Part` is spread out in its place. A field `x_in` that holds (1.0, 2.0) becomes `x_in_1`
    and `x_in_2`. Fields that hold other objects (a pose, a corner) are left out: they are what
    the row was computed from.

    >>> from layout.stock import Stock
    >>> as_row(Stock("2x6", 1.5, 5.5))
    {'name': '2x6', 'thickness_in': 1.5, 'depth_in': 5.5}
    """
    if not is_dataclass(item):
        raise TypeError(f"{type(item).__name__} is no dataclass")
    row: dict[str, Value] = {}
    for field in fields(item):
        value = getattr(item, field.name)
        if isinstance(value, Part):
            row.update(as_row(value))
        elif value is None or isinstance(value, _PLAIN):
            row[field.name] = value
        elif isinstance(value, tuple) and all(isinstance(part, _PLAIN) for part in value):
            row.update({f"{field.name}_{i}": part for i, part in enumerate(value, start=1)})
    return row


def as_table(items: Sequence[Any]) -> tuple[tuple[str, ...], list[tuple[Value, ...]]]:
    """Header and rows of several results; a name that an item lacks stands as None in its row."""
    rows = [as_row(item) for item in items]
    header = tuple(dict.fromkeys(name for row in rows for name in row))
    return header, [tuple(row.get(name) for name in header) for row in rows]
