"""The corrections measured on each printer, kept by its name in the user's data folder."""

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from layout.errors import SheetError
from layout.quantity import read_length, two_sides
from lessons.say.data_folder import data_folder

if TYPE_CHECKING:
    from figures.ink.correction import Correction


def measured(text: str) -> "Correction":
    """Read what the check bars measure, ACROSS x ALONG, and return the correction.

    In inches against 6 and 8 in, in millimetres or centimetres against 15 and 20 cm. Raises
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
    from figures.ink.correction import Correction

    known = _known()
    if printer not in known:
        names = f"known are {', '.join(known)}" if known else "none is known yet"
        raise SheetError(
            f"no correction is kept for the printer {printer!r} ({names});"
            " print a sheet, measure its bars and give --printed-bars with --printer"
        )
    across, along = known[printer]
    return Correction(across, along)


def keep(printer: str, found: "Correction") -> "Correction":
    """Keep a correction for a printer, upon the one its sheet was printed with, and return both."""
    from figures.files.press import save_whole

    known = _known()
    total = found.after(kept(printer)) if printer in known else found
    known[printer] = (total.across, total.along)
    path = _path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise SheetError(f"cannot write {str(path.parent)!r}: {error.strerror}") from None
    save_whole({path: json.dumps(known, indent=1).encode()})
    return total


def _path() -> Path:
    return data_folder() / "printers.json"


def _known() -> dict[str, tuple[float, float]]:
    path = _path()
    try:
        read: Any = json.loads(path.read_text("utf-8"))
        return {str(name): (float(pair[0]), float(pair[1])) for name, pair in read.items()}
    except FileNotFoundError:
        return {}
    except (OSError, ValueError, AttributeError, TypeError, IndexError, KeyError):
        raise SheetError(
            f"{str(path)!r} cannot be read; mend it, or delete it and measure each printer again"
        ) from None
