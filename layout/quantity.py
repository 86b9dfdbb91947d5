"""Read the lengths, pitches and angles a carpenter writes, and write what one reads.

Lengths are inches inside the program, angles degrees, a pitch a rise on a run. Whatever is
read is echoed by the caller before it is used, since `1/2` is a ratio to one reader and half
a pitch to another.
"""

import math
import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache

from layout.errors import QuantityError

MM_PER_INCH = 25.4
STEEPEST_DEG = 85.0
"""Above this a surface is framed as a wall, and a rise on a 12 in run leaves every square."""
FLATTEST_DEG = 0.1
"""Below this, 1/48 in 12, water does not run and a level cut grows longer than any board."""
LARGEST = 1e6
"""No number in a quantity is larger: 16 miles in inches, a kilometre in millimeters."""

_PLAIN = r"(?:\d+\.\d*|\.\d+|\d+)"
NUMBER = rf"(?:\d+(?:\s+|\s*-\s*)\d+\s*/\s*\d+|\d+\s*/\s*\d+|{_PLAIN})"
_MIXED = r"(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*/\s*(\d+)"
_FEET = rf"""(?x)(?:(?P<feet>{NUMBER})\s*(?:'|ft\.?|feet|foot)\s*(?:-\s*(?=[\d.]))?)?
         (?:(?P<inches>{NUMBER})\s*(?:"|''|in\.?|inch(?:es)?)?)?"""
_METRIC = rf"({NUMBER})\s*(mm|cm|m)"
_ANGLE = rf"({NUMBER})\s*(?:deg(?:rees?)?|°)?"
_SLOPE = rf"({NUMBER})\s*(?:deg(?:rees?)?|°)"
_INCH_MARK = r"""(?:"|'')?"""
_RISE_ON_RUN = rf"({NUMBER})\s*{_INCH_MARK}\s*(?:in|on|:)\s*({NUMBER})\s*{_INCH_MARK}"
_RATIO = rf"({_PLAIN})\s*/\s*({_PLAIN})"
_SPAN_PITCH = rf"({NUMBER})\s*pitch"
_DRAWN_FRACTION = "([⁰¹²³⁴⁵⁶⁷⁸⁹]+)[⁄/]([₀₁₂₃₄₅₆₇₈₉]+)"
_RAISED = ("<super>", "<sub>")
_METRIC_UNITS = {"mm": 1 / MM_PER_INCH, "cm": 10 / MM_PER_INCH, "m": 1000 / MM_PER_INCH}


@cache
def _pattern(text: str) -> re.Pattern[str]:
    """A pattern made ready when it is first asked for: a command reads with few of them."""
    return re.compile(text)


def plain_text(text: str) -> str:
    """Fold ½, ⁵⁄₁₆, primes and no-break spaces into the characters the patterns know."""
    if text.isascii():
        return " ".join(text.split()).lower()
    text = _pattern(_DRAWN_FRACTION).sub(
        lambda m: unicodedata.normalize("NFKC", f" {m[1]}/{m[2]}"), text
    )
    folded = "".join(_plain_character(c) for c in text)
    for drawn, typed in (("⁄", "/"), ("′", "'"), ("″", '"'), ("’", "'"), ("”", '"'), ("−", "-")):
        folded = folded.replace(drawn, typed)
    return re.sub(r"\s+", " ", folded).strip().lower()


@lru_cache(maxsize=1024)
def _plain_character(character: str) -> str:
    """One character folded; a raised figure stays, so that 5² is refused and not read as 52."""
    kind = unicodedata.decomposition(character).split(" ")[0]
    if kind in _RAISED:
        return character
    gap = " " if kind == "<fraction>" else ""
    return gap + unicodedata.normalize("NFKC", character)


def _value(number: str) -> float:
    """The value of text that matched NUMBER; a QuantityError over zero or beyond LARGEST."""
    mixed = _pattern(_MIXED).fullmatch(number)
    parts = mixed.groups() if mixed else (number, "0", "1")
    whole, top, bottom = (float(part or 0) for part in parts)
    if bottom == 0:
        raise QuantityError(f"{number!r} divides by zero; write a fraction such as 1/2")
    if max(whole, top, bottom) > LARGEST:
        shown = number if len(number) <= 24 else f"{number[:20]}..."
        raise QuantityError(f"{shown!r} is beyond any measure; give a number up to {LARGEST:.0f}")
    return whole + top / bottom


def read_number(text: str) -> float:
    """Read a plain number as a carpenter writes it.

    Raises QuantityError where the text is anything else.

    >>> read_number("8 1/2"), read_number("8-1/2"), read_number("8½"), read_number("17/2")
    (8.5, 8.5, 8.5, 8.5)
    """
    folded = plain_text(text)
    if _pattern(NUMBER).fullmatch(folded) is None:
        raise QuantityError(f"{text!r} is not a number; write it like 8 1/2, 8-1/2 or 8.5")
    return _value(folded)


def read_length(text: str) -> float:
    """Read a length and return it in inches; a bare number is inches.

    Raises QuantityError for anything that is not a length above or equal to zero.

    >>> read_length("5-1/2"), read_length("38.1mm"), read_length("1' 4 1/2\\"")
    (5.5, 1.5, 16.5)
    """
    folded = plain_text(text)
    metric = _pattern(_METRIC).fullmatch(folded) if folded.endswith("m") else None
    if metric is not None:
        return _value(metric[1]) * _METRIC_UNITS[metric[2]]
    parts = _pattern(_FEET).fullmatch(folded)
    if parts is None or not (parts["feet"] or parts["inches"]):
        raise QuantityError(
            f"{text!r} is not a length; write it like 5 1/2, 5.5in, 1' 4 1/2\" or 38mm"
        )
    return 12 * _value(parts["feet"] or "0") + _value(parts["inches"] or "0")


def read_building_length(text: str) -> float:
    """Read a length of a building: a run, a wall, an eave, a ridge; returns it in inches.

    A bare number would be inches to one and feet to another. Raises QuantityError for one, with
    both readings, and for what `read_length` refuses.

    >>> read_building_length("15'"), read_building_length("15 in")
    (180.0, 15.0)
    """
    value = read_length(text)
    bare = plain_text(text)
    if value > 0 and _pattern(NUMBER).fullmatch(bare):
        raise QuantityError(
            f"{bare!r} may be feet or inches; write {bare}' for feet or {bare}in for inches"
        )
    return value


def two_sides(text: str) -> tuple[str, str] | None:
    """The two texts on either side of the cross in `A x B`, None where there is no cross.

    >>> two_sides("24' × 16'"), two_sides("24'")
    (("24' ", " 16'"), None)
    """
    first, cross, second = text.lower().replace("×", "x").partition("x")
    return (first, second) if cross else None


@lru_cache
def read_angle(text: str) -> float:
    """Read an angle in degrees; `deg` or `°` may follow.

    Raises QuantityError for anything else.

    >>> read_angle("35 1/4"), read_angle("45°")
    (35.25, 45.0)
    """
    match = _pattern(_ANGLE).fullmatch(plain_text(text))
    if match is None:
        raise QuantityError(f"{text!r} is not an angle; write degrees like 45, 33.7deg or 35 1/4")
    return _value(match[1])


@dataclass(frozen=True)
class Pitch:
    """A roof slope kept as it was said: `rise` up on `run` level, both in the same unit.

    A pitch said in degrees has run 1 and rise tan(slope). Raises QuantityError unless the
    slope lies from FLATTEST_DEG to below STEEPEST_DEG.
    """

    rise: float
    run: float
    said: str

    def __post_init__(self) -> None:
        if not (math.isfinite(self.rise) and math.isfinite(self.run) and self.run > 0):
            raise QuantityError(f"a pitch of {self.said} has no run; write it like 8 in 12")
        if self.rise <= 0:
            raise QuantityError(
                f"a pitch of {self.said} does not rise; a roof cut needs a rise, such as 8 in 12"
            )
        if self.slope_deg < FLATTEST_DEG:
            raise QuantityError(
                f"a pitch of {self.said} is flat; give a slope of {FLATTEST_DEG:g}° or more,"
                " such as 1/4 in 12"
            )
        if self.slope_deg >= STEEPEST_DEG:
            raise QuantityError(
                f"a pitch of {self.said} is {self.slope_deg:.1f}°, a wall and not a roof;"
                f" give a slope below {STEEPEST_DEG:.0f}°"
            )

    @property
    def slope_deg(self) -> float:
        """Angle of the roof above level [degrees]."""
        return math.degrees(math.atan2(self.rise, self.run))

    @property
    def rise_in_12(self) -> float:
        """Rise on a run of 12 [same unit as the 12]."""
        return 12 * self.rise / self.run

    def __str__(self) -> str:
        return self.said


@lru_cache
def read_pitch(text: str) -> Pitch:
    """Read a roof pitch: `8 in 12`, `8/12`, `8:12`, `8`, `667/1000`, `33.7deg`, `1/3 pitch`.

    Inch marks may stand behind a rise and a run: `8" in 12"`. A bare number is a rise in 12. A
    ratio is rise over run; with the word *pitch* behind it, it is rise over span, as the trade
    says it. Raises QuantityError for anything else, and for a slope no roof has.

    >>> str(read_pitch("8/12")), str(read_pitch("1/3 pitch")), str(read_pitch("45 deg"))
    ('8 in 12', '8 in 12', '45 deg')
    """
    folded = plain_text(text)
    negative = folded.startswith("-")
    folded = folded.removeprefix("-")
    if (match := _pattern(_RISE_ON_RUN).fullmatch(folded)) or (
        match := _pattern(_RATIO).fullmatch(folded)
    ):
        rise, run = _value(match[1]), _value(match[2])
    elif match := _pattern(_SLOPE).fullmatch(folded):
        degrees = -_value(match[1]) if negative else _value(match[1])
        if degrees >= STEEPEST_DEG:
            raise QuantityError(
                f"a slope of {degrees:g} deg is a wall and not a roof;"
                f" give a slope below {STEEPEST_DEG:.0f}°"
            )
        return Pitch(math.tan(math.radians(degrees)), 1.0, f"{degrees:.10g} deg")
    elif match := _pattern(_SPAN_PITCH).fullmatch(folded):
        rise, run = 24 * _value(match[1]), 12.0
    elif _pattern(NUMBER).fullmatch(folded):
        rise, run = _value(folded), 12.0
    else:
        raise QuantityError(
            f"{text!r} is not a pitch; write it like 8 in 12, 8/12, 8:12, 8 or 33.7deg"
        )
    sign = "-" if negative else ""
    return Pitch(-rise if negative else rise, run, f"{sign}{_said(rise)} in {_said(run)}")


def _said(value: float) -> str:
    """The value as a fraction where it is one to the 64th, else as a decimal."""
    whole, rest = divmod(value, 1)
    top = round(rest * 64)
    if rest * 64 != top or top == 0:
        return f"{value:.10g}"
    shrink = math.gcd(top, 64)
    fraction = f"{top // shrink}/{64 // shrink}"
    return f"{int(whole)} {fraction}" if whole else fraction


def nearest(value: float, parts: int) -> float:
    """The value rounded to the nearest 1/`parts` (16 for a sixteenth); halves go up."""
    return math.floor(value * parts + 0.5) / parts


def write_fraction(value_in: float, parts: int = 16) -> str:
    """Write inches as a whole number and a reduced fraction, to the nearest 1/`parts`.

    >>> write_fraction(8.4853), write_fraction(0.26), write_fraction(12.0)
    ('8 1/2', '1/4', '12')
    """
    ticks = math.floor(abs(value_in) * parts + 0.5)
    sign = "-" if value_in < 0 and ticks else ""
    whole, top = divmod(ticks, parts)
    if top == 0:
        return f"{sign}{whole}"
    shrink = math.gcd(top, parts)
    fraction = f"{top // shrink}/{parts // shrink}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def write_sixteenths(value_in: float) -> str:
    """Write inches to the nearest sixteenth, with *shy* or *strong* more than a 64th off.

    Shy: the true length falls short of the sixteenth named; strong: it runs past it.

    >>> write_sixteenths(8.4853), write_sixteenths(5.979), write_sixteenths(6.02)
    ('8 1/2', '6 shy', '6 strong')
    """
    return write_fraction(value_in) + _off_word(value_in)


def _off_word(value_in: float) -> str:
    off = value_in - nearest(value_in, 16)
    return "" if abs(off) <= 1 / 64 else (" strong" if off > 0 else " shy")


def write_inches(value_in: float) -> str:
    """Write a length to the nearest sixteenth with its unit.

    Of a length that is more than a 64th but rounds to nothing it is said what it stays under.

    >>> write_inches(8.4853), write_inches(3.667), write_inches(0.025)
    ('8 1/2 in', '3 11/16 in shy', 'under 1/32 in')
    """
    if 1 / 64 < value_in < 1 / 32:
        return "under 1/32 in"
    return f"{write_fraction(value_in)} in{_off_word(value_in)}"


def write_length(value_in: float) -> str:
    """Write a length for reading aloud: sixteenths, and the decimals beside them [inches].

    >>> write_length(8.4853)
    '8 1/2 in (8.485)'
    """
    return f"{write_inches(value_in)} ({value_in:.3f})"


def write_feet(value_in: float, parts: int = 16) -> str:
    """Write a length in feet and inches as it stands on drawings.

    >>> write_feet(51.5), write_feet(12.75)
    ('4\\'-3 1/2"', '1\\'-0 3/4"')
    """
    ticks = math.floor(abs(value_in) * parts + 0.5)
    sign = "-" if value_in < 0 and ticks else ""
    feet, rest = divmod(ticks, 12 * parts)
    inches, top = divmod(rest, parts)
    fraction = f" {write_fraction(top / parts, parts)}" if top else ""
    return f"{sign}{feet}'-{inches}{fraction}\""


def write_degrees(angle_deg: float) -> str:
    """Write an angle to a hundredth of a degree, without idle zeros.

    >>> write_degrees(45.0), write_degrees(33.690067)
    ('45°', '33.69°')
    """
    return f"{round(angle_deg, 2) + 0.0:.10g}°"  # + 0.0: no minus before a zero


def write_metric(value_in: float) -> str:
    """Write a length in millimeters to the half millimeter.

    >>> write_metric(1.5)
    '38 mm'
    """
    return f"{nearest(value_in * MM_PER_INCH, 2):g} mm"


def write_long(value_in: float, *, metric: bool = False) -> str:
    """Write a stick's length: feet and inches, or millimeters.

    >>> write_long(51.5), write_long(51.5, metric=True)
    ('4\\'-3 1/2"', '1308 mm')
    """
    return write_metric(value_in) if metric else write_feet(value_in)


def write_at_least(value_in: float, *, metric: bool = False) -> str:
    """Write a length that must not be cut short: up to the next sixteenth, or millimeter.

    >>> write_at_least(21.007), write_at_least(3.667), write_at_least(3.5)
    ('21 1/16 in', '3 11/16 in', '3 1/2 in')
    """
    step = 1 / MM_PER_INCH if metric else 1 / 16
    return write_short(math.ceil(value_in / step - 1e-6) * step, metric=metric)


def write_short(value_in: float, *, metric: bool = False) -> str:
    """Write a small length: inches to the sixteenth, or millimeters.

    >>> write_short(3.5), write_short(3.5, metric=True)
    ('3 1/2 in', '89 mm')
    """
    return write_metric(value_in) if metric else f"{write_fraction(value_in)} in"
