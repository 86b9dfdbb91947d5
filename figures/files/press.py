"""Pages into files: PDF for the printer, SVG for the screen, PNG to look at.

A data unit is an inch: every artist is placed by `fig.dpi_scale_trans` on a `Figure` of the
paper's own size, with no axes, nothing fitted and matplotlib's own defaults whatever the user's
settings are. pypdf then tells viewers not to scale the page and adds bookmarks and page labels.
The same pages give the same bytes. A file appears whole or not at all.

    write(pages, "hip-jack.pdf", title="Hip jack", subject="Full-size template")
    svg_text(page)                     one page, to stand in an HTML file
    png(page, "hip-jack.png", dpi=100)
"""

import io
import os
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from figures.files.binding import Bookmark, Link, bound
from figures.files.later import load_later
from figures.files.page_words import Written, lettering_artist
from figures.files.pdf_lines import lines_artist
from figures.files.whole import check_ending, check_place, save_whole
from figures.ink.drawing import Drawing, Label, label_box
from figures.ink.lettering import DESCENT_EM, LINE_EM, line_width_em
from figures.ink.pens import FILLS, MM_PER_IN, PT_PER_IN, Point, pen, pieces
from figures.page.sheet import TEXT_FOOT, Page, furnished
from layout.errors import SheetError

if TYPE_CHECKING:
    from matplotlib.figure import Figure

COLOURS = 32
"""Colours of a picture: grays of the letters' edges, and the few that are drawn with."""
PX_PER_IN = 96
"""CSS pixels in an inch."""

_SETTINGS: dict[str, Any] = {
    "path.simplify": False,
    "savefig.bbox": None,
    "svg.hashsalt": "square-and-saw",
    "svg.fonttype": "path",
    "pdf.fonttype": 3,
    "pdf.compression": 6,
    "text.parse_math": False,
    "text.usetex": False,
    "text.hinting": "no_hinting",
}


def write(
    pages: Sequence[Page],
    path: str | os.PathLike[str],
    *,
    title: str,
    subject: str = "",
    bookmarks: Sequence[Bookmark] | None = None,
    page_labels: Sequence[str] | None = None,
    links: Sequence[Link] = (),
    on_page: Callable[[], None] = lambda: None,
) -> tuple[Path, ...]:
    """Write pages to a PDF, or to an SVG a page, and say which files were written.

    The suffix of `path` decides. Several pages as SVG go to NAME-1.svg, NAME-2.svg and so on.
    Without `bookmarks` each title is bookmarked where it first appears. `page_labels` are what a
    viewer calls each page; without them the letters of tiles, else numbers. `on_page` is called
    when a page has been drawn. Bookmarks, labels and links are for PDF alone.

    Raises SheetError for no pages, a suffix that is neither, and for a place that cannot be
    written; a file that was there before is then left as it was.
    """
    target = Path(path)
    suffix = target.suffix.casefold()
    check_ending(target, ".pdf", ".svg")
    if not pages:
        raise SheetError("there is no page to write")
    check_place(target)
    if suffix == ".pdf":
        data = bound(
            _drawn(pages, title, subject, on_page),
            _bookmarks(pages) if bookmarks is None else bookmarks,
            _page_labels(pages) if page_labels is None else page_labels,
            links,
        )
        files: Mapping[Path, bytes] = {target: data}
    else:
        several = len(pages) > 1
        files = {
            target.with_name(f"{target.stem}-{i}{target.suffix}") if several else target: (
                svg_text(page, standalone=True).encode()
            )
            for i, page in enumerate(pages, start=1)
        }
    save_whole(files)
    return tuple(files)


def svg_text(page: Page, *, standalone: bool = False, id_prefix: str = "") -> str:
    """A page as SVG text: to stand in an HTML file, or whole with an XML head.

    It carries a title and a description for those who cannot see it, the ids of the strokes,
    and, standing alone, the page's size for a browser that prints it. `id_prefix` goes before
    every id, so that several pages can stand in one HTML file.
    """
    # A canvas that is not a whole number of CSS pixels spills on to a second page.
    width_px = int(page.paper.width_in * PX_PER_IN + 1e-6)
    height_px = int(page.paper.height_in * PX_PER_IN + 1e-6)
    buffer = io.StringIO()
    with _quiet_defaults():
        from matplotlib.backends.backend_svg import FigureCanvasSVG

        figure = _figure(page, width_px / PX_PER_IN, height_px / PX_PER_IN, printable=False)
        none: Any = dict.fromkeys(("Creator", "Date", "Format", "Type"))
        canvas: Any = FigureCanvasSVG(figure)
        canvas.print_svg(buffer, metadata=none)
    return _dressed(buffer.getvalue(), page, standalone, id_prefix)


def png(page: Page, path: str | os.PathLike[str], dpi: float = 100) -> Path:
    """Write a picture of a page, to look at: never to measure from.

    Line drawings need few colours: the file has a palette and is a quarter of the size.
    """
    target = Path(path)
    if target.suffix.casefold() != ".png":
        raise SheetError(f"cannot write {target.name!r}: a picture's name must end in .png")
    check_place(target)
    buffer = io.BytesIO()
    with _quiet_defaults():
        from matplotlib.backends.backend_agg import FigureCanvasAgg
        from PIL import Image  # matplotlib's own writer of pictures

        figure = _figure(page, page.paper.width_in, page.paper.height_in, printable=False)
        figure.set_dpi(dpi)
        figure.patch.set(visible=True, facecolor="white")
        canvas: Any = FigureCanvasAgg(figure)
        canvas.draw()
        drawn = Image.fromarray(np.asarray(canvas.buffer_rgba())).convert("RGB")
        few = drawn.quantize(COLOURS, Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
        few.save(buffer, "PNG", optimize=True, dpi=(dpi, dpi))
    save_whole({target: buffer.getvalue()})
    return target


@contextmanager
def _quiet_defaults() -> Iterator[None]:
    """matplotlib as it is delivered: a user's own settings could change the page."""
    import matplotlib

    with matplotlib.rc_context():
        settings: Any = matplotlib.rcParams
        # To ask for the screen's backend would load the whole of pyplot.
        usual = matplotlib.rcParamsDefault
        settings.update({name: usual[name] for name in usual if name != "backend"})
        settings.update(_SETTINGS)
        yield


def _figure(page: Page, width_in: float, height_in: float, *, printable: bool) -> "Figure":
    """A figure of the page's size with the page drawn on it, one unit an inch."""
    from matplotlib.figure import Figure
    from matplotlib.patches import Rectangle
    from matplotlib.transforms import Affine2D

    figure = Figure(figsize=(width_in, height_in), dpi=PT_PER_IN)
    figure.patch.set_visible(False)
    x, y = page.factors
    inches = Affine2D().scale(x, y) + figure.dpi_scale_trans
    drawing = furnished(page, printable=printable)
    _ink(figure, drawing, inches)
    window = None
    if page.window is not None:
        left, bottom, right, top = page.window
        window = Rectangle((left, bottom), right - left, top - bottom, transform=inches)
    _letter(figure, drawing.labels, (x, y), window, page)
    return figure


def _ink(figure: "Figure", drawing: Drawing, inches: Any) -> None:
    """Areas, then strokes: one collection for each pen, one for each id."""
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path as Outline

    for order, area in enumerate(drawing.areas):
        import shapely

        rings = [
            ring
            for polygon in shapely.get_parts(area.polygon)
            if polygon.geom_type == "Polygon"
            for ring in (polygon.exterior, *polygon.interiors)
        ]
        outline = Outline.make_compound_path(*(Outline(ring.coords, closed=True) for ring in rings))
        patch = PathPatch(
            outline,
            facecolor=FILLS[area.fill] or "none",
            edgecolor="none",
            linewidth=0,
            transform=inches,
            zorder=1 + order * 1e-6,
        )
        patch.set_gid(area.gid)
        figure.add_artist(patch)
    lines = lines_artist()
    groups: dict[tuple[str | None, str], list[Any]] = {}
    for stroke in drawing.strokes:
        drawn = pieces(stroke.points, pen(stroke.pen), stroke.start_in)
        groups.setdefault((stroke.gid, stroke.pen), []).extend(drawn)
    for (gid, name), parts in groups.items():
        with_pen = pen(name)
        # Heavy lines over narrow ones.
        collection = lines(
            parts,
            colors=with_pen.colour,
            linewidths=with_pen.width_pt,
            capstyle="butt",
            joinstyle="round",
            transform=inches,
            zorder=2 + with_pen.width_mm / 10,
        )
        collection.set_gid(gid)
        figure.add_artist(collection)


def _letter(
    figure: "Figure", labels: Sequence[Label], factors: Point, window: Any, page: Page
) -> None:
    """Every line of every label on its own baseline, where `label_box` has measured it.

    A printer correction moves the point a label stands at and leaves the letters as they are.
    """
    from math import cos, radians, sin

    cut: Callable[[Label], bool] = lambda label: False  # noqa: E731
    if page.window is not None:
        import shapely

        # Only words of the drawing reach over the window's edge; the strips lie outside it.
        frame = shapely.box(*page.window)
        edge = frame.exterior
        own = set(page.drawing.labels)
        cut = lambda label: label in own and edge.intersects(label_box(label))  # noqa: E731
    written: list[Written] = []
    for label in labels:
        lines = label.text.split("\n")
        em = label.size_pt / PT_PER_IN
        height = em * (1.0 + LINE_EM * (len(lines) - 1))
        below = {"bottom": 0.0, "center": height / 2, "top": height}[label.va]
        c, s = cos(radians(label.rotation_deg)), sin(radians(label.rotation_deg))
        clipped = cut(label)
        for down, line in enumerate(lines):
            if not line.strip():
                continue
            width = line_width_em(line, label.bold) * em
            dx = -{"left": 0.0, "center": width / 2, "right": width}[label.ha]
            dy = -below + em * (DESCENT_EM + LINE_EM * (len(lines) - 1 - down))
            x = label.x * factors[0] + c * dx - s * dy
            y = label.y * factors[1] + s * dx + c * dy
            written.append(Written(x, y, line, label, clipped))
    if written:
        lettering = lettering_artist()(written, figure.dpi_scale_trans)
        figure.add_artist(lettering)
        if window is not None:
            lettering.set_clip_path(window)


def _drawn(
    pages: Sequence[Page], title: str, subject: str, on_page: Callable[[], None]
) -> io.BytesIO:
    """The pages as matplotlib writes them."""
    drawn = io.BytesIO()
    # It makes parts of fonts, which is not how ours are written: a tenth of all that is loaded.
    load_later("fontTools.subset")
    with _quiet_defaults():
        from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages

        about: Any = {
            "Title": title,
            "Subject": subject,
            "Creator": "square-and-saw",
            "Producer": None,
            "CreationDate": None,
        }
        with PdfPages(drawn, metadata=about) as book:
            for page in pages:
                figure = _figure(page, page.paper.width_in, page.paper.height_in, printable=True)
                FigureCanvasPdf(figure)
                book.savefig(figure)
                on_page()
    return drawn


def _bookmarks(pages: Sequence[Page]) -> Iterator[Bookmark]:
    before = None
    for index, page in enumerate(pages):
        if page.title != before:
            yield Bookmark(page.title, index)
        before = page.title


def _page_labels(pages: Sequence[Page]) -> Iterator[str]:
    for page in pages:
        yield page.letter if page.letter and len(pages) == page.count else str(page.number)


def _dressed(svg: str, page: Page, standalone: bool, id_prefix: str) -> str:
    """matplotlib's SVG with title, description, role and the size that a browser prints."""
    start = svg.index("<svg")
    head, body = svg[:start], svg[start:]
    width, height = page.paper.width_in, page.paper.height_in
    size = f"{width:.6g}in {height:.6g}in"
    if page.paper.name in ("A4", "A3"):
        size = f"{width * MM_PER_IN:.0f}mm {height * MM_PER_IN:.0f}mm"
    words = ", ".join(part for part in (page.title, page.given) if part)
    if page.scale is None:
        size_words = TEXT_FOOT
    elif page.scale.full:
        size_words = "Drawn at full size, to be printed from the PDF."
    else:
        size_words = f"Scale {page.scale.text}."
    told = page.description or f"{words}. {size_words}"
    if page.full:
        # Only the PDF is a sheet to cut from.
        told = told.replace("Full-size template", "Study view of the full-size template", 1)
    lines = [
        f"<title>{escape(words, quote=False)}</title>",
        f"<desc>{escape(told, quote=False)}</desc>",
    ]
    if standalone:
        lines.append(f'<style type="text/css">@page{{size:{size};margin:0}}</style>')
    opening, _, rest = body.partition(">")
    rest = re.sub(r"\s*<metadata>.*?</metadata>", "", rest, count=1, flags=re.S)
    # matplotlib numbers every artist it draws; only the ids of marks mean something.
    rest = re.sub(r' id="(?:figure|LineCollection|PathCollection|patch|text)_\d+"', "", rest)
    if id_prefix:
        rest = re.sub(r'( id="|href="#|url\(#)', rf"\g<1>{id_prefix}", rest)
    body = f'{opening} role="img">\n ' + "\n ".join(lines) + rest
    return head + body if standalone else body
