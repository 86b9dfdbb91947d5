"""Lines of one pen into a PDF, their pen asked for once.

matplotlib asks for every line of a collection whether the pen has changed since the last: half of
what a page of lines takes. In the version known here the same bytes are written with less work (a
test compares them); of any other version nothing is taken for granted, and its own way is used.
"""

from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any

import numpy as np

from figures.files.pdf_words import KNOWN, WIDE


@cache
def lines_artist() -> Any:
    """A collection of lines that hands itself to the writer of a PDF as one."""
    import matplotlib
    from matplotlib import collections

    known = matplotlib.__version_info__[:2] == KNOWN

    # The library calls a group of an SVG by its class.
    class LineCollection(collections.LineCollection):
        """Lines of one pen; the library's own paths are made of them where they are asked for."""

        _lines: Sequence[Any] = ()

        def set_segments(self, segments: Any) -> None:
            """Take the lines."""
            self._lines = segments
            self._paths = None
            self.stale = True

        def get_paths(self) -> Any:
            """The lines as the library's paths."""
            if self._paths is None:
                super().set_segments(self._lines)
            return self._paths

        def draw(self, renderer: Any) -> None:
            """Draw them."""
            file = getattr(renderer, "file", None)
            # One line alone the library writes in another way.
            if not known or not hasattr(file, "pathOperations") or len(self._lines) < 2:
                super().draw(renderer)
                return
            _write(renderer, self, self._lines)

    return LineCollection


def _write(renderer: Any, collection: Any, lines: Sequence[Any]) -> None:
    ink = renderer.new_gc()
    collection._set_gc_clip(ink)
    ink.set_joinstyle(collection.get_joinstyle())
    ink.set_capstyle(collection.get_capstyle())
    ink.set_linewidth(collection.get_linewidths()[0])
    ink.set_dashes(*collection.get_linestyles()[0])
    ink.set_foreground(tuple(collection.get_edgecolor()[0]), isRGBA=True)
    for color in collection.get_hatchcolor()[:1]:
        ink.set_hatch_color(color)
    renderer.check_gc(ink, None)
    file, paint = renderer.file, renderer.gc.paint().pdfRepr()
    written: list[bytes] = []
    for said in _said(file, collection, lines):
        written += (b"\n", said) if len(said) >= WIDE else (said,)
        written += (b"\n", paint, b"\n")
    file.write(b"".join(written))
    ink.restore()


def _said(file: Any, collection: Any, lines: Sequence[Any]) -> Iterator[bytes]:
    """Each line in the file's own words: all in one, where none can reach over the paper's edge."""
    from matplotlib.path import Path

    whole = 0.0, 0.0, file.width * 72, file.height * 72
    still = collection.get_transform().frozen()
    points = np.concatenate([np.asarray(line, dtype=float) for line in lines])
    placed = still.transform(points)
    if (placed >= whole[:2]).all() and (placed <= whole[2:]).all():
        codes = np.full(len(points), Path.LINETO, dtype=Path.code_type)
        starts = np.cumsum([0, *map(len, lines[:-1])])
        codes[starts] = Path.MOVETO
        (one,) = file.pathOperations(Path(points, codes), still, whole, simplify=False)
        spots = one.pdfRepr().split(b"\n")
        ends = [*starts[1:], len(points)]
        yield from (b"\n".join([*spots[a:b], b""]) for a, b in zip(starts, ends, strict=True))
        return
    for path in collection.get_paths():
        (line,) = file.pathOperations(path, still, whole, simplify=path.should_simplify)
        yield line.pdfRepr()
