"""How many: the long run's full count, or the default suite's small fixed share of it.

Both suites hold the same tests with the same assertions; only the counts differ. `.ci/long` sets
SQUARESAW_LONG=1.
"""

import os

LONG = os.environ.get("SQUARESAW_LONG") == "1"


def count(full: int, share: int | None = None) -> int:
    """`full` in the long run, `share` in the default suite (a hundredth where none is given)."""
    return full if LONG else share if share is not None else max(1, full // 100)
