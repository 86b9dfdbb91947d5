"""The corrections measured on each printer, kept by its name in the user's data folder."""

import sqlite3
from contextlib import AbstractContextManager
from pathlib import Path
from typing import TYPE_CHECKING

from layout.errors import SheetError
from layout.quantity import read_length, two_sides
from lessons.say.data_folder import data_folder
from lessons.say.store import store

if TYPE_CHECKING:
    from figures.ink.correction import Correction


def measured(text: str) -> "Correction":
    """Read what the check bars measure, ACROSS x ALONG, and return the correction.

    In inches against 6 and 8 in, in millimeters or centimeters against 15 and 20 cm. Raises
    SheetError for what is no pair of lengths, and where the print dialog must be at fault.
    """
    from figures.ink.correction import ACROSS_IN, ALONG_IN, correction

    sides = two_sides(text)
    if sides is None:
        raise SheetError(f"{text!r} is no pair of bars; write ACROSS x ALONG, such as 5 31/32 x 8")
    across, along = sides
    metric = along.strip().endswith("m")
    if metric and across.strip()[-1:].isdigit():
        across += along.strip().lstrip("0123456789./ -½¼¾")
    nominal = (read_length("150mm"), read_length("200mm")) if metric else (ACROSS_IN, ALONG_IN)
    return correction(read_length(across), read_length(along), *nominal)


def kept(printer: str) -> "Correction":
    """The correction kept for a printer. Raises SheetError where none is."""
    if _path().exists():
        with _store() as database:
            known = _known(database)
    else:
        known = {}
    if printer not in known:
        names = f"known are {', '.join(known)}" if known else "none is known yet"
        raise SheetError(
            f"no correction is kept for the printer {printer!r} ({names});"
            " print a sheet, measure its bars and give --printed-bars with --printer"
        )
    return known[printer]


def keep(printer: str, found: "Correction") -> "Correction":
    """Keep a printer's correction, multiplied by the one in use, and return the product."""
    with _store() as database:
        known = _known(database)
        total = found.after(known[printer]) if printer in known else found
        database.execute(
            "INSERT OR REPLACE INTO printer VALUES (?, ?, ?)",
            (printer, total.across, total.along),
        )
    return total


SCHEMA = "CREATE TABLE IF NOT EXISTS printer (name TEXT PRIMARY KEY, across REAL, along REAL)"


def _path() -> Path:
    return data_folder() / "printers.sqlite"


def _store() -> AbstractContextManager[sqlite3.Connection]:
    return store(_path(), SCHEMA, SheetError)


def _known(database: sqlite3.Connection) -> dict[str, "Correction"]:
    from figures.ink.correction import Correction

    rows = database.execute("SELECT name, across, along FROM printer ORDER BY name")
    return {str(name): Correction(float(across), float(along)) for name, across, along in rows}
