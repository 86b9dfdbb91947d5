"""Numbers as they are said: `thirty-five and a quarter`, `8 and a half`, `five sixteenths`."""

from collections.abc import Sequence

from lessons.settle.ear.lexicon import LONG_PARTS, ONES, PARTS, TENS

HALF_OF = ("inch", "inches", "in", "an", "degree", "degrees", "deg")
Raw = str
"""A word, or a number in figures, as it stands in the text."""


def spoken(words: Sequence[str], at: int) -> tuple[float, int] | None:
    """The number that begins at this word and how many words it takes; None where none does.

    Words that are figures already are not begun with, but may follow: `twelve and 1/2`.

    >>> spoken("thirty five and a quarter on".split(), 0)
    (35.25, 5)
    """
    whole = _whole(words, at)
    if whole is None:
        part = _part(words, at)
        if part and words[at] in ("half", "quarter") and _at(words, at + 1) not in HALF_OF:
            return None  # saw at half
        return part if part and not _of_something(words, at + part[1]) else None
    value, taken = whole
    if (part := _part(words, at)) is not None and part[1] > taken:  # three quarters
        return part
    point = _decimals(words, at + taken)
    if point is not None:
        return value + point[0], taken + point[1]
    rest = fraction_after(words, at + taken)
    return (value, taken) if rest is None else (value + rest[0], taken + rest[1])


def fraction_after(words: Sequence[str], at: int) -> tuple[float, int] | None:
    """The fraction that goes on after a whole number: `and a half`, `and 11/16`, `and three
    eighths`; with how many words it takes."""
    joined = int(at < len(words) and words[at] == "and")
    top, _, bottom = _at(words, at + joined).replace(" ", "").partition("/")
    if top.isdigit() and bottom.isdigit() and 0 < int(top) < int(bottom):  # nine and 5/8
        return int(top) / int(bottom), joined + 1
    part = _part(words, at + joined)
    if part is not None and not _of_something(words, at + joined + part[1]):
        return part[0], part[1] + joined
    return None


def _of_something(words: Sequence[str], at: int) -> bool:
    """`half the corner` is no number."""
    if list(words[at : at + 3]) == ["of", "an", "inch"]:
        return False
    return at < len(words) and words[at] in ("the", "of", "that", "my", "as", "a")


def _whole(words: Sequence[str], at: int) -> tuple[float, int] | None:
    word = _at(words, at)
    if word in TENS:
        ones = ONES.get(_at(words, at + 1), 0)
        return (TENS[word] + ones, 2) if 0 < ones < 10 else (TENS[word], 1)
    for tens, value in TENS.items():  # fortyfive
        if word.startswith(tens) and 0 < ONES.get(word.removeprefix(tens), 0) < 10:
            return value + ONES[word.removeprefix(tens)], 1
    if word not in ONES:
        return None
    value = ONES[word]
    if _at(words, at + 1) == "hundred":
        rest = _whole(words, at + 2 + (_at(words, at + 2) == "and"))
        more = (rest[0], rest[1] + (_at(words, at + 2) == "and")) if rest else (0, 0)
        return 100 * value + more[0], 2 + more[1]
    return value, 1


def _part(words: Sequence[str], at: int) -> tuple[float, int] | None:
    """A fraction alone: `a half`, `three quarters`, `five thirty-seconds`."""
    if _at(words, at) in ("half", "quarter"):
        return 1 / PARTS[_at(words, at)], 1 + _of_an(words, at + 1)
    if _at(words, at) == "a":
        top, taken = 1, 1
    elif (top := ONES.get(_at(words, at), 0)) > 0:
        taken = 1
    elif _at(words, at) in TENS and 0 < ONES.get(_at(words, at + 1), 0) < 10:  # 31 of 32
        top, taken = TENS[words[at]] + ONES[words[at + 1]], 2
        if LONG_PARTS.get((_at(words, at + 2), _at(words, at + 3))) is None:
            return None
    else:
        return None
    if (long := LONG_PARTS.get((_at(words, at + taken), _at(words, at + taken + 1)))) is not None:
        return top / long, taken + 2
    bottom = PARTS.get(_at(words, at + taken))
    if bottom is None:
        return None
    return top / bottom, taken + 1 + _of_an(words, at + taken + 1)


def _of_an(words: Sequence[str], at: int) -> int:
    """How many words stand between a part and its unit: `half an inch`."""
    return int(_at(words, at) == "an" and _at(words, at + 1) == "inch")


def _decimals(words: Sequence[str], at: int) -> tuple[float, int] | None:
    if _at(words, at) != "point":
        return None
    figures, taken = "", 1
    while (digit := ONES.get(_at(words, at + taken), 10)) < 10:
        figures += str(digit)
        taken += 1
    if not figures and (whole := _whole(words, at + taken)) is not None:  # point sixty-nine
        figures, taken = f"{whole[0]:.0f}", taken + whole[1]
    return (float(f"0.{figures}"), taken) if figures else None


def _at(words: Sequence[str], at: int) -> str:
    return words[at] if at < len(words) else ""
