"""A page of text, and the named rows on it."""

from dataclasses import dataclass

from figures.ink.drawing import Box
from figures.page.sheet import Page


@dataclass(frozen=True)
class Leaf:
    """A page of text, and the named rows on it with the boxes they take [page inches]."""

    page: Page
    anchors: tuple[tuple[str, Box], ...] = ()
