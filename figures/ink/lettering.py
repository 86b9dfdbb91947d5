"""How large lettering is on paper, measured in the font that draws it.

All sheets are lettered in the DejaVu Sans that comes with matplotlib, taken from its file and
not from the machine's fonts, so that a label is as wide on one machine as on the next. A line
of text stands on its baseline; its height is from the lowest to the highest letter of the
font's usual set, so that labels of different words line up.

    text_size("plumb cut", 10)        (width_in, height_in)
    fraction_text('4\\'-3 1/2"')       real fractions with a fixed space before them
    wrapped("long words ...", 8, 3)   the lines that fit 3 in
"""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from figures.ink.pens import PT_PER_IN

if TYPE_CHECKING:
    from matplotlib.font_manager import FontProperties

ASCENT_EM = 0.76
"""Height of tall letters above the baseline [em]: b, d, l and brackets of DejaVu Sans."""
DESCENT_EM = 0.24
"""Depth of p, q and brackets below the baseline [em]."""
LINE_EM = 1.22
"""From one baseline to the next [em]."""

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
KNOWN_WORD = r"[!-~\u00a0-\u02ff\u2010-\u2027\u2030-\u205e\u2070-\u23ff\u25a0-\u25ff]+"
"""A word that no space changes, which runs from left to right."""
_KNOWN_WORD = re.compile(KNOWN_WORD)
_widths: dict[tuple[str, bool], float] = {}
"""Widths of words that were measured [em]; `bold` words apart."""
_FRACTION = re.compile(r"(?<![\d/.])(?:(\d+)[ \u00a0])?(\d{1,3})/(\d{1,3})(?![\d/])")


@cache
def fraction_text(text: str) -> str:
    """The text with every plain fraction set as a real one, a fixed space before it.

    A whole number and a bare fraction are easily misread (2 13/16 as 21 3/16), so the figures
    are raised and lowered about U+2044 and held to the whole number by U+00A0.

    >>> fraction_text("8 1/2 in")
    '8\\xa0¹⁄₂ in'
    >>> fraction_text("5/16")
    '⁵⁄₁₆'
    """

    def real(match: re.Match[str]) -> str:
        whole, above, below = match.groups()
        fraction = f"{above.translate(_RAISED)}⁄{below.translate(_LOWERED)}"
        return f"{whole}\u00a0{fraction}" if whole else fraction

    return _FRACTION.sub(real, text)


@cache
def font(bold: bool = False) -> "FontProperties":
    """The font of every label; `bold` for titles and words that warn."""
    from pathlib import Path

    import matplotlib
    from matplotlib.font_manager import FontProperties

    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return FontProperties(fname=Path(matplotlib.get_data_path()) / "fonts" / "ttf" / name)


@cache
def _measure(bold: bool) -> tuple[Any, Any, float]:
    from matplotlib.textpath import TextToPath

    measure = TextToPath()
    return measure, font(bold), measure.FONT_SCALE


def _widths_em(words: Sequence[str], bold: bool) -> list[float]:
    """Widths of words [em], kerning inside them included; those that are new measured at once."""
    new = [word for word in dict.fromkeys(words) if (word, bold) not in _widths]
    if new:
        together = [word for word in new if _KNOWN_WORD.fullmatch(word)] if _knows_layout() else []
        _widths.update(((word, bold), wide) for word, wide in _laid_widths_em(together, bold))
        for word in new:
            if (word, bold) not in _widths:
                _widths[word, bold] = _width_alone_em(word, bold)
    return [_widths[word, bold] for word in words]


def _width_alone_em(word: str, bold: bool) -> float:
    """Width of one word, or of a space [em]."""
    measure, properties, em = _measure(bold)
    ruler = properties.copy()
    ruler.set_size(em)
    width, _, _ = measure.get_text_width_height_descent(word, ruler, ismath=False)
    return float(width) / em


def _laid_widths_em(words: Sequence[str], bold: bool) -> Iterator[tuple[str, float]]:
    """Widths of words that are laid out in one line [em]: to begin one takes as long as some ten
    words, and each is as wide as from its first letter to the space behind it."""
    if not words:
        return
    from matplotlib.ft2font import LoadFlags

    measure, properties, em = _measure(bold)
    ruler = properties.copy()
    ruler.set_size(em)
    face: Any = measure._get_font(ruler)
    line = f" {' '.join(words)} "
    places = [
        (item.char, item.x)
        for item in face._layout(line, LoadFlags.NO_HINTING, features=None, language=None)
    ]
    spaces = [at for at, (char, _) in enumerate(places) if char == " "]
    for word, (before, after) in zip(words, pairwise(spaces), strict=True):
        yield word, (places[after][1] - places[before + 1][1]) / em


@cache
def _knows_layout() -> bool:
    """Whether the library is a version whose layout of a line is known here."""
    import matplotlib

    return matplotlib.__version_info__[:2] == (3, 11)


@cache
def line_width_em(text: str, bold: bool = False) -> float:
    """Width of one line of text [em], kerning inside its words included.

    The font kerns no letter against a space, so a line is as wide as its words and the spaces
    between them, and a word that was measured once is not measured again.
    """
    words = text.split(" ")
    spaces = (len(words) - 1) * _widths_em([" "], bold)[0] if len(words) > 1 else 0.0
    return spaces + sum(_widths_em([word for word in words if word], bold))


@cache
def text_size(text: str, size_pt: float, bold: bool = False) -> tuple[float, float]:
    """Width and height of a text on paper [in]; lines are parted by a line feed."""
    lines = text.split("\n")
    width = max(line_width_em(line, bold) for line in lines)
    height = ASCENT_EM + DESCENT_EM + LINE_EM * (len(lines) - 1)
    return width * size_pt / PT_PER_IN, height * size_pt / PT_PER_IN


@cache
def wrapped(text: str, size_pt: float, width_in: float, bold: bool = False) -> str:
    """The text broken at spaces into lines no wider than `width_in` [in].

    A word wider than that stands alone on its line.
    """
    room = width_in * PT_PER_IN / size_pt
    (space,) = _widths_em([" "], bold)
    words = [word for paragraph in text.split("\n") for word in paragraph.split(" ") if word]
    wide_em = dict(zip(words, _widths_em(words, bold), strict=True))
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line: list[str] = []
        wide = 0.0
        for word in paragraph.split(" "):
            more = wide_em.get(word, 0.0)
            if line and wide + space + more > room:
                lines.append(" ".join(line))
                line, wide = [word], more
            else:
                wide += more + (space if line else 0.0)
                line.append(word)
        lines.append(" ".join(line))
    return "\n".join(lines)
