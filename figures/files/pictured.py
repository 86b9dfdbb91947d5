"""Pages that are looked at and not cut from, into a file of any kind: PDF, SVG or PNG.

An SVG here is the furnished page with its words as real text, so that they can be read aloud and
searched; a PNG is for a message, shown at any size, and so says NOT TO SCALE.
"""

from collections.abc import Callable, Sequence
from pathlib import Path

from figures.files.inline import drawing_svg
from figures.files.press import png, write
from figures.files.whole import check_ending, check_places, save_whole
from figures.page.sheet import Page, furnished

KINDS = (".pdf", ".svg", ".png")
PNG_DPI = 110
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
PAPER = "#ffffff"


def targets(path: Path, count: int) -> tuple[Path, ...]:
    """The files that so many pages go to: all to one PDF, else one each, NAME-1 and so on.

    Raises SheetError for a name that ends in none of the three.
    """
    check_ending(path, *KINDS)
    if path.suffix.casefold() == ".pdf" or count == 1:
        return (path,)
    return tuple(path.with_name(f"{path.stem}-{i}{path.suffix}") for i in range(1, count + 1))


def write_pictures(
    pages: Sequence[Page],
    path: Path,
    *,
    title: str,
    unscaled: Callable[[Page], Page],
) -> tuple[Path, ...]:
    """Write pages and say which files were written; `unscaled` takes the scales off a page.

    Raises SheetError for a name that is none of the three kinds and a place that cannot be
    written; a file that was there before is then left as it was.
    """
    places = targets(path, len(pages))
    check_places(places)
    suffix = path.suffix.casefold()
    if suffix == ".pdf":
        return write(pages, path, title=title, subject="Pictures to study, not to cut from")
    if suffix == ".png":
        return tuple(
            png(unscaled(page), place, PNG_DPI) for page, place in zip(pages, places, strict=True)
        )
    save_whole({place: page_svg(page) for page, place in zip(pages, places, strict=True)})
    return places


def page_svg(page: Page) -> bytes:
    """A furnished page as an SVG file, its words as text, on white."""
    drawing = furnished(page, printable=False)
    svg = drawing_svg(drawing, page.title, page.description or page.given)
    start, _, rest = svg.partition(">\n")
    white = f'<rect width="100%" height="100%" fill="{PAPER}"/>'
    return f"{HEAD}{start}>\n{white}\n{rest}\n".encode()
