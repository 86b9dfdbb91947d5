"""The bench inside a book for the browser: the same parts, after the lessons of the same file."""

import re
from collections.abc import Sequence
from typing import Any

from layout.errors import SheetError
from lessons.bench.page import body_of, data_of, hash_of, own_file, scripts

LINK = '<li><a href="#bench">The moving bench, drills on the page, and settle</a></li>'


def with_bench(
    book: str, cuts: Sequence[dict[str, Any]], drills: Sequence[Any], claims: Sequence[Any]
) -> str:
    """The book's page with the bench after its lessons.

    Its policy lets the bench's own script run and nothing else; the bench's styles hold inside
    the bench alone. Raises SheetError for a page that is no book of this program.
    """
    script = scripts()
    main = re.search(r"<main[^>]*>(.*)</main>", body_of(cuts), re.DOTALL)
    assert main is not None
    style = f"{own_file('colors.css')}\n.bench-part {{\n{own_file('bench.css')}}}\n"
    part = (
        '<section id="bench" class="bench-part" aria-label="The moving bench" tabindex="-1">'
        f"{main[1]}</section>\n"
    )
    for mark, more in (
        ("default-src 'none';", f" script-src '{hash_of(script)}';"),
        ("<style>\n", style),
    ):
        book = _put(book, mark, mark + more)
    if '<ul class="contents">' in book:
        book = _put(book, "</ul>\n</nav>", f"{LINK}\n</ul>\n</nav>")
    book = _put(book, "</main>", f"{part}</main>")
    end = f"{data_of(cuts, drills, claims)}\n<script>{script}</script>\n</body>"
    return _put(book, "</body>", end)


def _put(book: str, mark: str, instead: str) -> str:
    if book.count(mark) < 1:
        raise SheetError("the bench can only stand in a book that this program wrote")
    return book.replace(mark, instead, 1)
