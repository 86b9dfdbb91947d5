"""A line of words into a PDF, each word laid out once and each letter looked up once in a file.

matplotlib lays every line out anew, and loads, tracks and formats every letter of it: most of what
a page of words takes. A word stands the same in every line of its size, since the font kerns no
letter against a space: so words are laid out one by one and kept. In the version known here the
same bytes are written with less work (a test compares them); of any other version nothing is taken
for granted, and its own way is used.
"""

import re
from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from math import cos, radians, sin
from typing import Any, NamedTuple
from weakref import WeakKeyDictionary

from figures.ink.lettering import KNOWN_WORD

KNOWN = (3, 11)
"""The version of matplotlib whose writer is known."""
WIDE = 75
"""A line of the file this long begins anew, as matplotlib breaks them."""
_BY_WORD = re.compile(f"{KNOWN_WORD}(?: {KNOWN_WORD})*")
"""Words that no space changes, which run from left to right; any other line is laid out whole."""


class _Letter(NamedTuple):
    """A letter as it was laid out: its font, which one, its place [pt], the space before it, and
    how far it is raised [pt]."""

    face: Any
    char: Any
    glyph: int
    x: float
    kern: float
    raised: float


class _Word(NamedTuple):
    """A word laid out: its letters, the space after it, and where the next word begins [pt]."""

    letters: tuple[_Letter, ...]
    space: _Letter
    wide: float


class _Stretch(NamedTuple):
    """Letters of one font, as the operator that shows them takes them, and where they begin [pt].

    `near` is the space before the first, empty where there is none; `shown` holds strings and,
    between them, the spaces by which letters are moved.
    """

    font: bytes
    x: float
    near: bytes
    shown: list[bytes]


_laid: dict[tuple[str, bool, Any, float], _Word | None] = {}
"""What was laid out, by font and size [pt]; None where letters are raised."""
_kept: "WeakKeyDictionary[Any, _Writing]" = WeakKeyDictionary()


def draw_words(
    renderer: Any,
    ink: Any,
    at: tuple[float, float],
    line: str,
    properties: Any,
    turn_deg: float,
    others: Sequence[str] = (),
    inked: bool = False,
) -> None:
    """Write a line on its baseline at a point [pt], as `renderer.draw_text` does.

    `others` are lines that will be written in the same font: their words are laid out with it.
    `inked` says that what was last drawn was drawn with this very ink.
    """
    import matplotlib

    file: Any = getattr(renderer, "file", None)
    known = matplotlib.__version_info__[:2] == KNOWN and properties.get_file() is not None
    shown = None
    if file is not None and known and hasattr(file, "_character_tracker"):
        writing = _kept.get(file)
        if writing is None:
            writing = _kept[file] = _Writing(file)
        shown = writing.line(renderer, line, properties, others)
    if shown is None:
        renderer.draw_text(ink, *at, line, properties, turn_deg)
        return
    if not inked:
        renderer.check_gc(ink, ink._rgb)
    place = _filled([*_turned(turn_deg), *map(_number, at), b"cm"])
    file.write(b"q\n%s\nBT\n%sET\nQ\n" % (place, shown))


@cache
def _turned(turn_deg: float) -> tuple[bytes, ...]:
    """The turn of a line, as the operator that places it takes it."""
    turn = radians(turn_deg)
    return tuple(map(_number, (cos(turn), sin(turn), -sin(turn), cos(turn))))


def _filled(parts: Sequence[bytes]) -> bytes:
    """Parts of an operator on as many lines as the library breaks them into."""
    from matplotlib.backends import backend_pdf

    whole = b" ".join(parts)
    if len(whole) < WIDE:
        return whole
    fill: Any = backend_pdf._fill
    broken: bytes = fill(parts)
    return broken


class _Writing:
    """A file that is being written: the codes of its letters, its words and lines as shown."""

    def __init__(self, file: Any) -> None:
        # Nothing here may hold the file itself, or it would be kept for good.
        self._codes: dict[Any, tuple[bytes, bytes]] = {}
        self._words: dict[Any, list[_Stretch]] = {}
        self._spaces: dict[Any, list[_Stretch]] = {}
        self._lines: dict[Any, bytes | None] = {}

    def line(
        self, renderer: Any, line: str, properties: Any, others: Sequence[str]
    ) -> bytes | None:
        """What shows the line's letters, wherever it stands; None where letters are raised."""
        key = line, properties.get_file(), properties.get_size_in_points()
        if key not in self._lines:
            runs = self._runs(renderer, line, properties, others)
            self._lines[key] = None if runs is None else self._said(runs, key[2])
        return self._lines[key]

    def _said(self, runs: Sequence[_Stretch], size_pt: float) -> bytes:
        """The operators that show runs of letters."""
        said = []
        start = 0.0
        for run in runs:
            said.append(_filled([run.font, _number(size_pt), b"Tf"]))
            said.append(_filled([_number(run.x - start), b"0", b"Td"]))
            shown = [run.near, *run.shown] if run.near else run.shown
            said.append(_filled([_filled([b"[", *shown, b"]"]), b"TJ"]))
            start = run.x
        return b"".join(b"%s\n" % one for one in said)

    def _runs(
        self, renderer: Any, line: str, properties: Any, others: Sequence[str]
    ) -> list[_Stretch] | None:
        """The line's letters, one run for each change of font; None where letters are raised."""
        by_word = _BY_WORD.fullmatch(line) is not None
        parted = line.split(" ") if by_word else [line]
        file, size_pt = properties.get_file(), properties.get_size_in_points()
        found: list[_Stretch] = []
        x = 0.0
        for at, word in enumerate(parted, start=1):
            key = word, by_word, file, size_pt
            if key not in _laid:
                _lay_out(renderer, line, by_word, properties, others)
            laid = _laid[key]
            if laid is None:
                return None
            if key not in self._words:
                self._words[key] = self._shown(renderer.file, laid.letters, size_pt)
            _add(found, self._words[key], x)
            if at < len(parted):
                if key not in self._spaces:
                    self._spaces[key] = self._shown(renderer.file, (laid.space,), size_pt)
                _add(found, self._spaces[key], x)
            x += laid.wide
        return found

    def _shown(self, file: Any, letters: Sequence[_Letter], size_pt: float) -> list[_Stretch]:
        """Letters as the file shows them, a run for each of its fonts."""
        runs: list[_Stretch] = []
        for letter in letters:
            key = letter.face, letter.char, letter.glyph
            if key not in self._codes:
                self._codes[key] = _coded(file, *key)
            font, code = self._codes[key]
            near = _number(-1000 * letter.kern / size_pt) if letter.kern else b""
            _add(runs, [_Stretch(font, letter.x, near, [b"(" + code + b")"])], 0.0, first=False)
        return runs


def _coded(file: Any, face: Any, char: Any, glyph: int) -> tuple[bytes, bytes]:
    """The name of the font that holds a letter in this file, and the letter in a string."""
    from matplotlib import rcParams
    from matplotlib.font_manager import FontPath

    subset, number = file._character_tracker.track_glyph(face, char, glyph)
    name = file.fontName(FontPath(face.fname, face.face_index), subset)
    wide = rcParams["pdf.fonttype"] not in (1, 3)
    code = number.to_bytes(2 if wide else 1, "big")
    return name.pdfRepr(), b"".join(_ESCAPED.get(byte, bytes((byte,))) for byte in code)


def _lay_out(
    renderer: Any, line: str, by_word: bool, properties: Any, others: Sequence[str]
) -> None:
    """Lay out a line as the library does: its words, with those of other lines, or all of it."""
    from matplotlib.ft2font import LoadFlags

    file, size_pt = properties.get_file(), properties.get_size_in_points()
    words = [line]
    if by_word:
        # To begin takes as long as some ten words.
        more = (word for each in others if _BY_WORD.fullmatch(each) for word in each.split(" "))
        found = dict.fromkeys((*line.split(" "), *more))
        words = [word for word in found if (word, True, file, size_pt) not in _laid]
    font = renderer._get_font_ttf(properties)
    among = f" {' '.join(words)} x" if by_word else line
    items: Any = font._layout(among, LoadFlags.NO_HINTING, features=None, language=None)
    letters = [
        _Letter(item.ft_object, item.char, item.glyph_index, item.x, item.prev_kern, item.y)
        for item in items
    ]
    if not by_word:
        raised = any(letter.raised for letter in letters)
        _laid[line, False, file, size_pt] = (
            None if raised else _Word(tuple(letters), letters[-1], 0.0)
        )
        return
    spaces = [at for at, letter in enumerate(letters) if letter.char == " "]
    for word, (before, after) in zip(words, pairwise(spaces), strict=True):
        start = letters[before + 1].x
        own = tuple(each._replace(x=each.x - start) for each in letters[before + 1 : after + 2])
        raised = any(letter.raised for letter in own)
        _laid[word, True, file, size_pt] = None if raised else _Word(own[:-2], own[-2], own[-1].x)


def _add(line: list[_Stretch], more: Sequence[_Stretch], x: float, first: bool = True) -> None:
    """Put runs to a line, at a place [pt]; they go on with its last where the font is the same.

    Before the `first` letter of a line there is no space.
    """
    for run in more:
        if line and line[-1].font == run.font:
            shown = line[-1].shown
            if run.near:
                shown += (run.near, *run.shown)
            else:
                shown[-1] = shown[-1][:-1] + run.shown[0][1:]
                shown += run.shown[1:]
        else:
            near = b"" if first and not line else run.near
            line.append(_Stretch(run.font, x + run.x, near, list(run.shown)))


def _number(value: float) -> bytes:
    return (b"%.10f" % value).rstrip(b"0").rstrip(b".")


_ESCAPED = {
    ord(sign): b"\\" + ink
    for sign, ink in (("\\", b"\\"), ("(", b"("), (")", b")"), ("\n", b"n"), ("\r", b"r"))
}
"""What a string of a PDF may not hold as it is."""
