"""The line of pages over a page that was made to stand alone: a lesson, and the bench."""

from collections.abc import Sequence

from jinja2 import Environment

PageLink = tuple[str, str]
"""An address, and what stands there."""


def with_way_back(
    page: str, templates: Environment, *, here: str, own: bool, links: Sequence[PageLink] = ()
) -> str:
    """The page with the line of pages before its header, and links to what belongs to it."""
    line = templates.get_template("line.html").render(here=here, own=own, links=links)
    return page.replace("<header>", f"{line}<header>", 1)
