"""Rafters too short to be framed: which they are, and what is said of a place left empty.

The shorter side of a rafter that stands on a plate must run level over the whole of its seat, of
any other over its own thickness: a shorter piece is a block, and splits where it is nailed (common
practice, no source).
"""

from math import isfinite

import numpy as np

from layout.framing.stick import Stick
from layout.quantity import write_fraction


def too_short(stick: Stick, seat_in: float) -> str:
    """Why a rafter is left out as too short, in words; empty where it is long enough.

    `seat_in` is the level seat of a bird's mouth on this roof [inches].
    """
    least_in = seat_in if stick.on_plate else stick.stock.thickness_in
    measured = stick.measured() if stick.exists else None
    if measured is None or not isfinite(measured.long_in):
        return "too short to frame, no wood would be left along its top edge"
    level = float(np.hypot(*stick.pose.head[:2]))
    if measured.short_in * level >= least_in:
        return ""
    said = "the length of its seat" if stick.on_plate else "its thickness"
    return (
        f"too short to frame, {_length_words(measured.short_in, measured.long_in)} along its top"
        f" edge; its shorter side must run level at least {said}, {write_fraction(least_in)} in"
    )


def _length_words(short_in: float, long_in: float) -> str:
    """From the short to the long point, where there is any length at the short one."""
    long = write_fraction(long_in)
    if short_in < 1 / 32:
        return f"its longer side {long} in and its shorter side nothing"
    short = write_fraction(short_in)
    return f"{long} in" if short == long else f"{short} to {long} in"
