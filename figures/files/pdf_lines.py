"""Lines of one pen into a PDF, their pen asked for once.

matplotlib asks for every line of a collection whether the pen has changed since the last: half of
what a page of lines takes. In the version known here the same bytes are written with less work (a
test compares them); of any other version nothing is taken for granted, and its own way is used.
"""

from functools import cache
from typing import Any

from figures.files.pdf_words import KNOWN

_WIDE = 75
"""A line of the file this long begins anew, as matplotlib breaks them."""


@cache
def lines_artist() -> Any:
    """A collection of lines that hands itself to the writer of a PDF as one."""
    import matplotlib
    from matplotlib import collections

    known = matplotlib.__version_info__[:2] == KNOWN

    # The library calls a group of an SVG by its class.
    class LineCollection(collections.LineCollection):
        """Lines of one pen."""

        def draw(self, renderer: Any) -> None:
            """Draw them."""
            file = getattr(renderer, "file", None)
            # One line alone the library writes in another way.
            if not known or not hasattr(file, "pathOperations") or len(self.get_paths()) < 2:
                super().draw(renderer)
                return
            _write(renderer, self)

    return LineCollection


def _write(renderer: Any, lines: Any) -> None:
    transform, _, _, paths = lines._prepare_points()
    ink = renderer.new_gc()
    lines._set_gc_clip(ink)
    ink.set_joinstyle(lines.get_joinstyle())
    ink.set_capstyle(lines.get_capstyle())
    ink.set_linewidth(lines.get_linewidths()[0])
    ink.set_dashes(*lines.get_linestyles()[0])
    ink.set_foreground(tuple(lines.get_edgecolor()[0]), isRGBA=True)
    for color in lines.get_hatchcolor()[:1]:
        ink.set_hatch_color(color)
    renderer.check_gc(ink, None)
    file, paint = renderer.file, renderer.gc.paint().pdfRepr()
    whole, still = (0.0, 0.0, file.width * 72, file.height * 72), transform.frozen()
    written: list[bytes] = []
    for path in paths:
        (line,) = file.pathOperations(path, still, whole, simplify=path.should_simplify)
        said = line.pdfRepr()
        written += (b"\n", said) if len(said) >= _WIDE else (said,)
        written += (b"\n", paint, b"\n")
    file.write(b"".join(written))
    ink.restore()
