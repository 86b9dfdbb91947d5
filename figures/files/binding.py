"""What binds the pages of a PDF: bookmarks, page labels, links, and the wish not to be scaled.

matplotlib draws pages and knows none of these; pypdf adds them to the finished pages.
"""

import io
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, NamedTuple

from figures.ink.drawing import Box
from figures.ink.pens import PT_PER_IN


class Bookmark(NamedTuple):
    """Words in a viewer's outline and the page they lead to, counted from 0.

    `level` 0 stands at the left, 1 under the last of level 0, and so on.
    """

    words: str
    page: int
    level: int = 0


PDF_VERSION = "%PDF-1.6"
"""What the finished file uses at most: PrintScaling came with PDF 1.6 (ISO 32000-1, 12.2)."""


@dataclass(frozen=True)
class Link:
    """A place on a page that leads to another: pages counted from 0, the place in page inches."""

    page: int
    box: Box
    to_page: int


def bound(
    drawn: io.BytesIO,
    bookmarks: Iterable[Bookmark],
    page_labels: Iterable[str],
    links: Iterable[Link] = (),
) -> bytes:
    """The drawn PDF with everything that binds its pages; the same input gives the same bytes."""
    from pypdf import PdfWriter
    from pypdf.annotations import Link as LinkAnnotation
    from pypdf.generic import NameObject, create_string_object

    writer: Any = PdfWriter(clone_from=drawn)
    writer.pdf_header = PDF_VERSION
    writer.create_viewer_preferences().print_scaling = "/None"
    writer.root_object[NameObject("/Lang")] = create_string_object("en-US")
    above: list[Any] = []
    for words, page, level in bookmarks:
        del above[level:]
        parent = above[-1] if above else None
        above.append(writer.add_outline_item(title=words, page_number=page, parent=parent))
        if level:
            # A book opens with its contents beside it.
            writer.page_mode = "/UseOutlines"
    for index, words in enumerate(page_labels):
        writer.set_page_label(index, index, prefix=words)
    for link in links:
        left, bottom, right, top = (side * PT_PER_IN for side in link.box)
        leads = LinkAnnotation(
            rect=(left, bottom, right, top), target_page_index=link.to_page, border=[0, 0, 0]
        )
        writer.add_annotation(link.page, leads)
    finished = io.BytesIO()
    writer.write(finished)
    return finished.getvalue()
