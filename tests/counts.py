"""How many: the long run's full count, or the default suite's small fixed share of it.

Both suites hold the same tests with the same assertions; only the counts differ. `.ci/long` sets
SQUARESAW_LONG=1.
"""

import os
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")
LONG = os.environ.get("SQUARESAW_LONG") == "1"
PART = os.environ.get("SQUARESAW_PART", "1/1")
"""Which part of a long test's own draws to make, as 2/5: for a long run in several sittings."""


def count(full: int, share: int | None = None) -> int:
    """`full` in the long run, `share` in the default suite (a hundredth where none is given)."""
    return full if LONG else share if share is not None else max(1, full // 100)


def part_of(items: Sequence[T], every: int, start: int = 0) -> list[T]:
    """All items in the long run; in the default suite every n-th of them, from one on."""
    return list(items) if LONG else list(items)[start % every :: every]


def drawn(full: int, share: int | None = None) -> range:
    """The numbers of the draws that a test makes, `count` of them, or the part of PART."""
    number, parts = map(int, PART.split("/"))
    most = count(full, share)
    return range(most * (number - 1) // parts, most * number // parts)
