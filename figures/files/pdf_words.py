"""A line of words into a PDF, each letter looked up once in a file.

matplotlib loads, tracks and formats every letter of every line anew: half of what a page of words
takes. In the version known here the same bytes are written with less work (a test compares
them); of any other version nothing is taken for granted, and its own way is used.
"""

from math import cos, radians, sin
from typing import Any
from weakref import WeakKeyDictionary

KNOWN = (3, 11)
"""The version of matplotlib whose writer is known."""

_kept: "WeakKeyDictionary[Any, tuple[dict[Any, Any], dict[Any, Any]]]" = WeakKeyDictionary()
"""For each file that is being written its letters' codes, and the names of its fonts."""


def draw_words(
    renderer: Any, ink: Any, x: float, y: float, line: str, properties: Any, turn_deg: float
) -> None:
    """Write a line on its baseline at a point [pt], as `renderer.draw_text` does."""
    import matplotlib

    file = getattr(renderer, "file", None)
    known = matplotlib.__version_info__[:2] == KNOWN
    if file is None or not known or not hasattr(file, "_character_tracker"):
        renderer.draw_text(ink, x, y, line, properties, turn_deg)
        return
    from matplotlib.ft2font import LoadFlags

    font = renderer._get_font_ttf(properties)
    laid: Any = list(font._layout(line, LoadFlags.NO_HINTING, features=None, language=None))
    if any(item.y for item in laid):
        renderer.draw_text(ink, x, y, line, properties, turn_deg)
        return
    _write(renderer, file, ink, (x, y), properties.get_size_in_points(), radians(turn_deg), laid)


def _write(
    renderer: Any,
    file: Any,
    ink: Any,
    at: tuple[float, float],
    size_pt: float,
    turn: float,
    laid: Any,
) -> None:
    from matplotlib import rcParams
    from matplotlib.backends.backend_pdf import Op
    from matplotlib.font_manager import FontPath

    renderer.check_gc(ink, ink._rgb)
    wide = rcParams["pdf.fonttype"] not in (1, 3)
    codes, names = _kept.setdefault(file, ({}, {}))
    file.output(Op.gsave)
    file.output(cos(turn), sin(turn), -sin(turn), cos(turn), *at, Op.concat_matrix)
    file.output(Op.begin_text)
    shown: list[float | bytes] = []
    letters = bytearray()
    before, start = None, 0

    def show() -> None:
        if letters:
            shown.append(bytes(letters))
            letters.clear()
        if shown:
            file.output(_Shown(shown), Op.showkern)
            shown.clear()

    for item in laid:
        face = item.ft_object
        key = face, item.char, item.glyph_index
        code = codes.get(key)
        if code is None:
            code = codes[key] = file._character_tracker.track_glyph(*key)
        subset, number = code
        if (face, subset) != before:
            show()
            name = names.get((face, subset))
            if name is None:
                path = FontPath(face.fname, face.face_index)
                name = names[face, subset] = file.fontName(path, subset)
            file.output(name, size_pt, Op.selectfont)
            renderer._setup_textpos(item.x, 0, 0, start, 0, 0)
            before, start = (face, subset), item.x
        if item.prev_kern:
            if letters:
                shown.append(bytes(letters))
                letters.clear()
            shown.append(-1000 * item.prev_kern / size_pt)
        if wide:
            letters += number.to_bytes(2, "big")
        else:
            letters.append(number)
    show()
    file.output(Op.end_text)
    file.output(Op.grestore)


class _Shown:
    """Letters and the spaces between them, as the operator that shows both takes them."""

    def __init__(self, parts: list[float | bytes]) -> None:
        self.parts = list(parts)

    def pdfRepr(self) -> bytes:  # noqa: N802
        """In the syntax of a PDF."""
        from matplotlib.backends import backend_pdf

        fill: Any = backend_pdf._fill
        written: bytes = fill([b"[", *map(_part, self.parts), b"]"])
        return written


def _part(part: float | bytes) -> bytes:
    if isinstance(part, float):
        return (b"%.10f" % part).rstrip(b"0").rstrip(b".")
    for sign, escaped in _ESCAPED:
        if sign in part:
            part = part.replace(sign, escaped)
    return b"(" + part + b")"


_ESCAPED = ((b"\\", b"\\\\"), (b"(", b"\\("), (b")", b"\\)"), (b"\n", b"\\n"), (b"\r", b"\\r"))
"""What a string of a PDF may not hold as it is; the backslash is the first to be escaped."""
