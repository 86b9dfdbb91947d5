"""Rows of results as a text table, CSV or JSON."""

import csv
import io
import json
from collections.abc import Mapping, Sequence
from typing import Any

from layout.records import Value, as_row, as_table

SCHEMA = 1


def text_table(head: Sequence[str], lines: Sequence[Sequence[str]], *, left: bool = False) -> str:
    """Columns set to their widest cell, numbers to the right; a head may have two lines.

    `left` sets every column to the left, for cells that are words.

    >>> print(text_table(["pitch", "common\\nper ft"], [["8 in 12", "14.42"]]))
             common
    pitch    per ft
    8 in 12   14.42
    """
    heads = [name.split("\n") for name in head]
    deep = max(len(parts) for parts in heads)
    top = [[[""] * (deep - len(parts)) + parts for parts in heads][i] for i in range(len(heads))]
    rows = [[parts[level] for parts in top] for level in range(deep)]
    rows += [list(line) for line in lines]
    widths = [max(len(row[i]) for row in rows) for i in range(len(heads))]
    out = []
    for row in rows:
        cells = [row[0].ljust(widths[0])]
        set_to = str.ljust if left else str.rjust
        cells += [set_to(cell, width) for cell, width in zip(row[1:], widths[1:], strict=True)]
        out.append("  ".join(cells).rstrip())
    return "\n".join(out)


def csv_text(items: Sequence[Any]) -> str:
    """Dataclass results as CSV: field names with their units as the header, nothing rounded."""
    header, rows = as_table(items)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(rows)
    return out.getvalue()


def csv_rows(rows: Sequence[Mapping[str, Any]]) -> str:
    """Rows with one set of keys as CSV: the keys as the header, nothing rounded."""
    out = io.StringIO()
    writer = csv.DictWriter(out, list(rows[0]) if rows else [], lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def json_text(what: str, items: Sequence[Any], **beside: Any) -> str:
    """Dataclass results as one JSON object: a schema number and a list under `what`."""
    return json_lists({what: items}, **beside)


def json_lists(lists: Mapping[str, Sequence[Any]], **beside: Any) -> str:
    """Several lists of dataclass results as one JSON object, each under its name."""
    rows: dict[str, list[dict[str, Value]]] = {
        name: [as_row(item) for item in items] for name, items in lists.items()
    }
    return json.dumps({"schema": SCHEMA, **beside, **rows}, indent=1, allow_nan=False)
