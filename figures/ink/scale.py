"""Scales: full size for what is cut from, smaller for what is studied.

A scale is inches on paper for one inch of wood. It is written as draughtsmen write it, FULL
SIZE, 1 : 2 or 3" = 1'-0", and a study sheet carries a bar that shrinks with any copy of it.

    read_scale("half"), read_scale("1 1/2 in = 1 ft"), read_scale("1:10")
    to_scale(drawing, scale), scale_bar(scale)
"""

import re
from dataclasses import dataclass

import shapely

from figures.ink.drawing import Area, Drawing, Label, Stroke
from figures.ink.lettering import fraction_text
from figures.ink.pens import MM_PER_IN
from layout.errors import QuantityError, SheetError
from layout.quantity import read_number, write_fraction

LEAST_SEEN_IN = 0.5
"""A drawing smaller than this both ways shows nothing [in on paper]."""
ENLARGED_MOST = 10.0
BARS_MM: tuple[int, ...] = (10, 20, 40, 80, 100, 200, 400, 800, 1000, 2000, 4000)
BARS_IN: tuple[int, ...] = (1, 2, 4, 8, 12, 24, 48, 96, 192)
"""Lengths of scale bars, in millimeters and in inches of wood."""
FEET_FROM_IN = 24
"""From this length on a bar counts in feet [in of wood]."""
BAR_HIGH_IN, BAR_WORDS_UP_IN, BAR_PT = 0.08, 0.1, 8
"""How high a scale bar is and how high its figures stand [in], and how large they are [pt]."""


@dataclass(frozen=True)
class Scale:
    """Inches on paper for an inch of wood, and the words for it; `metric` bars count in mm."""

    factor: float
    text: str
    metric: bool = False

    @property
    def full(self) -> bool:
        """True where a template may be cut from."""
        return self.factor == 1.0


FULL_SIZE = Scale(1.0, "FULL SIZE")
SCALES = {
    "full": FULL_SIZE,
    "half": Scale(1 / 2, "1 : 2"),
    "quarter": Scale(1 / 4, "1 : 4"),
    "3 in = 1 ft": Scale(3 / 12, '3" = 1\'-0"'),
    "1 1/2 in = 1 ft": Scale(1.5 / 12, '1 1/2" = 1\'-0"'),
    "1:5": Scale(1 / 5, "1 : 5", metric=True),
    "1:10": Scale(1 / 10, "1 : 10", metric=True),
}
"""The scales a study sheet is usually drawn at, by the name they are asked for."""

_PER_FOOT = re.compile(r"(.+?)\s*(?:in|\")\s*=\s*1\s*(?:ft|foot|'(?:-0\")?)")


def read_scale(text: str) -> Scale:
    """The scale that words stand for: a name of SCALES, a ratio, or inches to the foot.

    Raises SheetError for what is no scale, or would enlarge more than ten times.

    >>> read_scale('3" = 1\\'-0"').factor
    0.25
    """
    words = " ".join(text.split()).casefold().removesuffix(" size")
    if words in SCALES:
        return SCALES[words]
    colon = ":" if ":" in words else "/"
    above, colon, below = words.partition(colon)
    try:
        if match := _PER_FOOT.fullmatch(words):
            inches = read_number(match[1])
            scale = Scale(inches / 12, f'{write_fraction(inches, 64)}" = 1\'-0"')
        elif colon:
            large, small = read_number(above), read_number(below)
            written = f"{above.strip()} : {below.strip()}"
            scale = Scale(large / small if small else 0.0, written, metric=small % 5 == 0)
        else:
            raise QuantityError(text)
    except QuantityError:
        raise SheetError(
            f"no scale is called {text!r}: use {', '.join(SCALES)} or a ratio as 1:8"
        ) from None
    if not 0 < scale.factor <= ENLARGED_MOST:
        raise SheetError(f"{text!r} is no scale: use {', '.join(SCALES)} or a ratio as 1:8")
    return FULL_SIZE if scale.factor == 1.0 else scale


def to_scale(drawing: Drawing, scale: Scale) -> Drawing:
    """The drawing as large as it is on paper; words keep their size.

    Dimensions and other things measured on paper are added afterwards. Raises SheetError where
    the drawing would be too small to show anything.
    """
    scaled = drawing if scale.full else drawing.scaled(scale.factor)
    check_seen(scaled, scale)
    return scaled


def check_seen(drawing: Drawing, scale: Scale) -> None:
    """Raise SheetError for a drawing in inches on paper that shows nothing at its scale."""
    left, bottom, right, top = drawing.bounds(words=False)
    size = max(right - left, top - bottom)
    if size < LEAST_SEEN_IN:
        enough = size / scale.factor / LEAST_SEEN_IN
        better = f"1 : {int(enough / 2)}" if enough >= 4 else "full size"
        raise SheetError(
            f"at {scale.text} the drawing is {size:.2g} in long and leaves nothing to see:"
            f" use {better} or larger"
        )


def scale_bar(scale: Scale, room_in: float = 4.0) -> Drawing:
    """A bar of real lengths at a scale, its zero at the origin, no longer than `room_in` [in].

    Four fields, ink and paper in turn; inches, feet or millimeters by the scale.
    """
    if scale.metric:
        per_inch, steps = MM_PER_IN, BARS_MM
    else:
        per_inch, steps = 1.0, BARS_IN
    fitting = [step for step in steps if step / per_inch * scale.factor <= room_in]
    length = (fitting or steps[:1])[-1]
    drawn = length / per_inch * scale.factor
    high = BAR_HIGH_IN
    fields = tuple(
        Area(shapely.box(drawn * i / 4, 0, drawn * (i + 1) / 4, high), "ink") for i in (0, 2)
    )
    outline = Stroke(((0, 0), (drawn, 0), (drawn, high), (0, high), (0, 0)), "bar", "scale-bar")
    unit, counts = ("mm", length) if scale.metric else ("in", length)
    if not scale.metric and length >= FEET_FROM_IN:
        unit, counts = "ft", length // 12
    labels = (
        Label("0", 0, BAR_WORDS_UP_IN, BAR_PT, ha="center"),
        Label(f"{counts / 2:g}", drawn / 2, BAR_WORDS_UP_IN, BAR_PT, ha="center"),
        Label(f"{counts} {unit}", drawn, BAR_WORDS_UP_IN, BAR_PT, ha="center"),
    )
    return Drawing((outline,), fields, labels)


def scale_words(scale: Scale) -> str:
    """The scale as it is lettered on a sheet, with real fractions."""
    return fraction_text(scale.text)
