"""A gap in words: the one writer of gaps for the terminal, sheets, lessons, claims and pictures."""

from layout.quantity import MM_PER_INCH, write_fraction
from layout.tools.fit import SOUND_IN

SMALLEST_IN = 1 / 128
"""A gap of less would read as no sixty-fourth at all."""
SMALLEST_MM = 0.05
NO_GAP = "no gap"


def write_gap(gap_in: float, *, metric: bool = False) -> str:
    """A gap to the sixty-fourth of an inch, or to the tenth of a millimeter.

    >>> write_gap(0.1), write_gap(0.004), write_gap(0.0), write_gap(0.1, metric=True)
    ('3/32 in', 'under 1/128 in', 'no gap', '2.5 mm')
    """
    if gap_in < SOUND_IN:
        return NO_GAP
    if metric:
        gap_mm = gap_in * MM_PER_INCH
        return f"{gap_mm:.1f} mm" if gap_mm >= SMALLEST_MM else "under 0.05 mm"
    if gap_in < SMALLEST_IN:
        return "under 1/128 in"
    return f"{write_fraction(gap_in, 64)} in"


def write_limit(limit_in: float, *, metric: bool = False) -> str:
    """The widest gap that will do, in the same divisions."""
    if metric:
        return f"{limit_in * MM_PER_INCH:.1f} mm"
    return f"{write_fraction(limit_in, 64)} in"


def gap_and_decimals(gap_in: float, *, metric: bool = False) -> str:
    """A gap with its decimals beside it, for who wants to compare."""
    words = write_gap(gap_in, metric=metric)
    if gap_in < SOUND_IN or metric:
        return words
    return f"{words} ({gap_in:.3f})" if gap_in >= 1 / 64 else f"{words} ({gap_in:.4f})"


def gap_over_limit(gap_in: float, limit_in: float, *, metric: bool = False) -> str:
    """A gap that is held against a limit: one that reads like the limit is said to be over it."""
    words = write_gap(gap_in, metric=metric)
    if gap_in > limit_in and words == write_limit(limit_in, metric=metric):
        return f"just over {words}"
    return words


def fits_or_leaves(gap_in: float, limit_in: float, *, metric: bool = False) -> str:
    """A cut's verdict in the trade's words: "fits", or "leaves 5/16 in open"."""
    if gap_in <= limit_in:
        return "fits"
    return f"leaves {gap_over_limit(gap_in, limit_in, metric=metric)} open"
