"""All words of a page as one artist of matplotlib's, for a PDF, an SVG or a picture to look at."""

from collections.abc import Sequence
from functools import cache
from typing import Any, NamedTuple

from figures.files.pdf_words import draw_words
from figures.ink.drawing import Label
from figures.ink.lettering import font


class Written(NamedTuple):
    """One line of a label, where its baseline begins [in], and whether the window cuts it."""

    x: float
    y: float
    line: str
    label: Label
    cut: bool


@cache
def lettering_artist() -> Any:
    """All words of a page, which hand themselves to the writer as they were measured.

    matplotlib's own text measures every line once more, and the whole page's, before it is drawn.
    """
    from matplotlib.artist import Artist
    from matplotlib.backends.backend_mixed import MixedModeRenderer

    class Lettering(Artist):
        """Lines of words, each on its baseline."""

        zorder = 5

        def __init__(self, written: Sequence[Written], inches: Any) -> None:
            super().__init__()
            self.written, self.inches = written, inches

        def draw(self, renderer: Any) -> None:
            """Write the words."""
            if isinstance(renderer, MixedModeRenderer):
                renderer = renderer._renderer  # it asks for each of its parts by name
            places = self.inches.transform([(one.x, one.y) for one in self.written])
            up = renderer.get_canvas_width_height()[1] if renderer.flipy() else None
            fonts: dict[tuple[bool, float], list[str]] = {}
            for one in self.written:
                fonts.setdefault((one.label.bold, one.label.size_pt), []).append(one.line)
            ink, used = renderer.new_gc(), None
            for (x, y), (_, _, line, label, cut) in zip(places.tolist(), self.written, strict=True):
                renderer.open_group("text", label.gid)
                inked = used == (label.colour, cut)
                if not inked:
                    ink.restore()
                    ink, used = renderer.new_gc(), (label.colour, cut)
                    ink.set_foreground(label.colour)
                    if cut and self.get_clip_path() is not None:
                        ink.set_clip_path(self.get_clip_path())
                    if cut and self.clipbox is not None:
                        ink.set_clip_rectangle(self.clipbox)
                font = label.bold, label.size_pt
                at = x, y if up is None else up - y
                turn = label.rotation_deg % 360.0
                draw_words(renderer, ink, at, line, _sized(*font), turn, fonts[font], inked)
                renderer.close_group("text")
            ink.restore()

    return Lettering


@cache
def _sized(bold: bool, size_pt: float) -> Any:
    """The font at a size [pt]."""
    properties = font(bold).copy()
    properties.set_size(size_pt)
    return properties
