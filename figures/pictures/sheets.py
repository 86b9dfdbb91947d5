"""A page with pictures to study, one or several under each other; nothing is cut from it."""

from collections.abc import Callable
from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.ink.paper import Paper
from figures.page.sheet import Page, clear_field
from figures.place.room import Room

DrawIn = Callable[[Room], Drawing]


def one_picture(
    paper: Paper, draw: DrawIn, *, title: str, given: str = "", version: str = ""
) -> Page:
    """A page whose whole clear field is one picture's room."""
    return stacked_pictures(paper, (draw,), title=title, given=given, version=version)


def stacked_pictures(
    paper: Paper, draws: tuple[DrawIn, ...], *, title: str, given: str = "", version: str = ""
) -> Page:
    """A page with pictures one under another, each with the same height."""
    page = Page(
        paper, Drawing(), title, given, scale=None, version=version, description=f"{title}. {given}"
    )
    left, bottom, right, top = clear_field(page)
    high = (top - bottom) / len(draws)
    drawing = Drawing()
    for i, draw in enumerate(draws):
        part = draw((right - left, high - (0.15 if len(draws) > 1 else 0.0)))
        drawing += part.moved(left, top - high * (i + 1))
    return replace(page, drawing=drawing)
