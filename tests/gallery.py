"""Hang the gallery: the pictures in `figures/gallery/`, made again by one command.

    python -m tests.gallery

The same program gives the same pictures. Measure from none of them: print the PDF.
"""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from figures.files.press import png
from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.page.flow import beside, picture, stacked
from figures.page.sheet import Page, clear_field
from figures.page.tiling import PrintSetup
from figures.pictures.gap import gap_against_mate
from figures.pictures.roofplan import roof_plan_page
from figures.pictures.saw_front import saw_front
from figures.pictures.square_laid import square_on_edge, square_on_face
from figures.pictures.views import face_and_edge_views
from figures.wrap.template import template_pages
from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.quantity import read_pitch
from layout.tools.setting import BySaw

GALLERY = Path(__file__).parents[1] / "figures" / "gallery"
DPI = 100
LETTER = "Letter"


def _jack() -> Answer:
    return answer(ask("hip-jack", pitch=read_pitch("12 in 12")))


def _sheet(cut: str, pitch: str = "8 in 12") -> Page:
    asked = answer(ask(cut, pitch=read_pitch(pitch)))
    return template_pages(asked, PrintSetup(read_paper(LETTER)))[0]


def _two_ways() -> Page:
    """Hand and saw beside each other on one plane."""
    right, wide = _jack(), 3.4
    room = (wide, 2.75)
    rows = [
        picture(face_and_edge_views(right, (7.2, 2.7))),
        beside(picture(square_on_face(right, room)), picture(square_on_edge(right, room)), 3.8),
        picture(saw_front(right, (4.5, 2.35)), 7.2),
    ]
    return _page(stacked(rows), "One plane, two honest ways", right)


def _wrong_tilt() -> Page:
    """The side-cut number set as the tilt, against the hip."""
    true_answer = _jack()
    setting = true_answer.saw_setting(as_read=False)
    assert isinstance(setting, BySaw)
    wrong = replace(setting, tilt_deg=true_answer.edge.bevel_deg)
    return _page(
        gap_against_mate(true_answer, wrong, (7.2, 5.0)), "The number set as a tilt", true_answer
    )


def _roof() -> Page:
    framed = frame(RoofPlan(288, 192))
    return roof_plan_page(framed, read_paper(LETTER), title="Training roof", given="8 in 12")


def _page(drawing: Drawing, title: str, true_answer: Answer) -> Page:
    blank = Page(read_paper(LETTER), drawing, title, str(true_answer.question.pitch), scale=None)
    left, bottom, _, top = clear_field(blank)
    x0, y0, _, y1 = drawing.bounds()
    assert y1 - y0 <= top - bottom, "the picture is taller than the page's clear field"
    return replace(blank, drawing=drawing.moved(left - x0, top - y1))


PICTURES: dict[str, Callable[[], Page]] = {
    "hip-jack": lambda: _sheet("hip-jack"),
    "hip-ridge": lambda: _sheet("hip-ridge"),
    "roof-board": lambda: _sheet("roof-board"),
    "hip-backing": lambda: _sheet("hip-backing"),
    "two-ways": _two_ways,
    "wrong-tilt": _wrong_tilt,
    "roof-plan": _roof,
}
"""Every picture by the name of its file."""


def hang() -> list[Path]:
    """Make every picture again and say which files were written."""
    return [png(make(), GALLERY / f"{name}.png", DPI) for name, make in PICTURES.items()]


if __name__ == "__main__":
    for path in hang():
        print(f"hung {path}")
