"""Check bars and the small square: how a user sees that a sheet came out at its true size.

A bar 6 in across and a bar 8 in along, with 15 and 20 cm on their other side, since a small
square alone hides an error: one per cent is 1/10 in over a face of 9 1/4 in, but only 1/50 in
on a 2 in square. The mark is the center of a bar's end tick. On paper too small for a bar it is
a whole number of inches shorter and says so.
"""

from functools import cache

from figures.ink.correction import ACROSS_IN, ALONG_IN
from figures.ink.drawing import Drawing, Label, Stroke
from figures.ink.lettering import fraction_text, line_width_em, wrapped
from figures.ink.pens import PT_PER_IN
from layout.errors import SheetError

CM_PER_IN = 2.54
STRIP_IN = 0.32
"""Depth of the strip that holds a check bar [in]."""
SQUARE_IN = 2.0
SMALL_SQUARE_IN = 1.0
"""Side of the square, and of the one for a page that has no room for it [in]."""
_SQUARE_TICK_IN = 0.09
_IN_IN, _NOTICE_DOWN_IN, _TEXT_DOWN_IN = 0.12, 0.1, 0.26
"""Where words stand in the square: off its sides and its foot, and under its top [in]."""
NOTICE = (
    "Print at 100 %, actual size. Do not fit. Measure both check bars, then the square. True"
    " within 1/64 in (0.5 mm): use the sheet. Within 1/32 in: print again with a correction."
    " Further out: the print dialog is wrong, print again."
)
FEW_NOTICE = (
    "Print at 100 %, actual size. Measure both bars and the square. True within 1/64 in (0.5 mm):"
    " use the sheet; within 1/32 in: print with a correction; else the print dialog is wrong."
)
"""The same in fewer words, for a sheet that would else take a second one."""
_SIZE_PT = 8.0
_LINE_IN = 0.13
"""Height of a bar's line in its strip [in]."""
_TICK_IN = 0.02
"""What an end tick takes beyond a bar's length [in]."""
_END_UP_IN, _INCH_UP_IN, _FIVE_DOWN_IN = 0.1, 0.06, 0.05
"""Lengths of the ticks over a bar's ends, at each inch, and under it at each fifth cm [in]."""
_END_WORDS_IN = 0.35
"""What the words of a bar leave of its length for those at its end [in]."""
_WORDS_AT = (0.04, _LINE_IN + 0.075)
_OFF_TICK_IN, _INCHES_UP_IN, _CM_UP_IN = 0.03, _LINE_IN + 0.005, _LINE_IN - 0.125
"""Where a bar's words stand in its strip, and how far those at its end are off their tick [in]."""


@cache
def check_bar(way: str, room_in: float, notes: tuple[str, ...] = ()) -> Drawing:
    """A check bar in its strip, from the origin to the right, in the room there is [in].

    `way` is "across" for the 6 in bar or "along" for the 8 in one. Of the notes, those that
    fit are written after the bar's own words. Raises SheetError where not an inch fits.
    """
    nominal, nominal_cm = (ACROSS_IN, 15) if way == "across" else (ALONG_IN, 20)
    length = min(nominal, float(int(room_in - _TICK_IN)))
    if length < 1:
        raise SheetError(f"{room_in:.3g} in of paper hold no check bar: use larger paper")
    cm = nominal_cm if length == nominal else int(length * CM_PER_IN)
    y = _LINE_IN
    strokes = [Stroke(((0.0, y), (length, y)), "bar", f"check-bar-{way}")]
    for inch in range(int(length) + 1):
        reach = _END_UP_IN if inch in (0, int(length)) else _INCH_UP_IN
        strokes.append(Stroke(((float(inch), y), (float(inch), y + reach)), "bar"))
    end = cm / CM_PER_IN
    strokes.append(Stroke(((0.0, y), (0.0, 0.0)), "bar"))
    strokes.append(Stroke(((end, y), (end, 0.0)), "bar", f"check-bar-{way}-cm"))
    for five in range(5, cm, 5):
        strokes.append(
            Stroke(((five / CM_PER_IN, y), (five / CM_PER_IN, y - _FIVE_DOWN_IN)), "bar")
        )
    # The words end short of the "6 in" at the bar's end.
    room = (length - _END_WORDS_IN) * PT_PER_IN / _SIZE_PT
    words = f"{way.upper()}: measure {length:g} in above, {cm} cm below."
    if line_width_em(words) > room:
        words = f"{way.upper()}."
    for note in notes:
        longer = f"{words} {note}"
        if note and line_width_em(longer) <= room:
            words = longer
    labels = (
        Label(words, *_WORDS_AT, _SIZE_PT),
        Label(f"{length:g} in", length - _OFF_TICK_IN, _INCHES_UP_IN, _SIZE_PT, ha="right"),
        Label(f"{cm} cm", end - _OFF_TICK_IN, _CM_UP_IN, _SIZE_PT, ha="right"),
    )
    return Drawing(tuple(strokes), (), labels)


@cache
def check_square(side_in: float = SQUARE_IN) -> Drawing:
    """The square with ticks at 5 cm, its lower left corner at the origin.

    The 2 in square holds the notice about scale. The small one, with ticks at 2.5 cm,
    has no room for it.
    """
    s, t = side_in, _SQUARE_TICK_IN
    big = side_in == SQUARE_IN
    tick_cm = 5.0 if big else 2.5
    cm = tick_cm / CM_PER_IN
    square = Drawing(
        (
            Stroke(((0, 0), (s, 0), (s, s), (0, s), (0, 0)), "bar", "check-square"),
            Stroke(((cm, 0), (cm, t)), "bar", "check-square-x-cm"),
            Stroke(((0, cm), (t, cm)), "bar", "check-square-y-cm"),
        )
    )
    if not big:
        words = f"{s:g} in square,\nticks at\n{tick_cm:g} cm"
        return square + Drawing(labels=(Label(words, s / 2, s / 2, _SIZE_PT, "center", "center"),))
    words = wrapped(fraction_text(NOTICE), _SIZE_PT, s - 2 * _IN_IN)
    return square + Drawing(
        labels=(
            Label("NOTICE", _IN_IN, s - _NOTICE_DOWN_IN, _SIZE_PT, va="top", bold=True),
            Label(words, _IN_IN, s - _TEXT_DOWN_IN, _SIZE_PT, va="top"),
            Label(
                f"{s:g} in square, ticks at {tick_cm:g} cm", s / 2, _IN_IN, _SIZE_PT, ha="center"
            ),
        )
    )
