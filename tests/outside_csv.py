"""Reads the tables in tests/outside: comment lines name source, unit and tolerance."""

import csv
from pathlib import Path

FOLDER = Path(__file__).parent / "outside"


def read_table(name: str) -> list[dict[str, str]]:
    """The rows of a table as dictionaries by column; `#` lines are its header of comments."""
    with (FOLDER / f"{name}.csv").open(encoding="utf-8") as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    assert rows, f"{name}.csv holds no rows"
    return rows
