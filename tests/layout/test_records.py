"""Results as rows: what is plain stands in the row, in order; what it came from does not."""

from dataclasses import dataclass

import numpy as np
import pytest

from layout.records import Part, as_row, as_table


@dataclass(frozen=True)
class Size(Part):
    long_in: float
    short_in: float


@dataclass(frozen=True)
class Row:
    name: str
    size: Size
    at_in: tuple[float, ...]
    way: np.ndarray
    sound: bool
    note: str | None = None


@dataclass(frozen=True)
class Other:
    note: str
    count: int


ROW = Row("J1", Size(9.0, 7.0), (1.0, 2.0), np.zeros(3), True)


def test_a_row_has_the_plain_fields_in_order():
    assert list(as_row(ROW).items()) == [
        ("name", "J1"),
        ("long_in", 9.0),
        ("short_in", 7.0),
        ("at_in_1", 1.0),
        ("at_in_2", 2.0),
        ("sound", True),
        ("note", None),
    ]
    mixed = Row("J2", Size(1.0, 1.0), (1.0, np.zeros(2)), np.zeros(3), False)  # type: ignore[arg-type]
    assert not [name for name in as_row(mixed) if name.startswith("at_in")]
    with pytest.raises(TypeError, match="dict is no dataclass"):
        as_row({})


def test_a_table_of_unlike_rows_has_a_place_for_every_name():
    header, rows = as_table([ROW, Other("spliced", 3)])
    assert header == ("name", "long_in", "short_in", "at_in_1", "at_in_2", "sound", "note", "count")
    assert rows == [
        ("J1", 9.0, 7.0, 1.0, 2.0, True, None, None),
        (None, None, None, None, None, None, "spliced", 3),
    ]
