"""`squaresaw picture`: a picture of any cut, of a roof or a stick of it, or of the square."""

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from layout import usual
from layout.answer.answer import Answer
from layout.cuts import catalogue
from layout.errors import CutError, SheetError
from layout.quantity import read_pitch
from lessons.cli import job_option, replacing
from lessons.cli.commands import options
from lessons.cli.commands.cut_options import AnswerOptions, CutOptions

if TYPE_CHECKING:
    from figures.page.sheet import Page
    from figures.pictures.sheets import DrawIn
    from layout.framing.roof import TrainingRoof
    from layout.framing.stick import Stick

ROOF, SQUARE = "roof", "framing-square"
STICK = re.compile(r"[A-Za-z]{1,3}(?:\d+|-[A-Za-z]{1,2})(?::[a-z]+)?")
"""A stick's name as the plan has it (H1), a piece's (J-C), with one of its ends (H1:head)."""
ROOF_VIEWS = ("plan", "pictorial", "section", "elevations", "all")
UPRIGHT = frozenset({"all", "saw", "miter-saw", "square", "gauge"})
"""Views of several pictures under each other, which take the paper upright."""
CLASSIC = "side-number-as-tilt"
"""The mistake that the gap is drawn of where it can be made; else the one that gapes most."""
EACH_PLANE = frozenset({"along", "faces", "middle", "square", "gauge", "saw", "miter-saw", "gap"})
"""Views of which a joint of two planes has one for each."""


def picture(
    what: Annotated[
        str,
        typer.Argument(
            metavar="CUT",
            help="A cut, a stick (H1), its end (H1:head), 'roof', 'framing-square'.",
        ),
    ],
    output: Annotated[
        Path, typer.Option("--output", "-o", metavar="FILE", help="A .pdf, .svg or .png file.")
    ],
    about: CutOptions,
    within: AnswerOptions,
    view: Annotated[
        str,
        typer.Option(
            "--view",
            metavar="VIEW",
            help="plan, pictorial, along, faces, middle, square, gauge, saw, miter-saw, gap,"
            " developed, or all; of a roof: plan, pictorial, section, elevations, all.",
        ),
    ] = "all",
    size: Annotated[
        str,
        typer.Option("--size", metavar="SIZE", help="Of a roof: length x width."),
    ] = usual.SIZE,
    paper: options.PaperOption = usual.PAPER,
) -> None:
    """Draw a cut, a stick, a roof, or the square."""
    from figures.files.pictured import targets, write_pictures
    from figures.files.whole import check_place
    from figures.pictures.composed import not_to_scale
    from layout.job.job_roof import find_ends, find_stick

    targets(output, 1)
    check_place(output)
    metric = within.units.is_metric
    if what in catalogue():
        pages = _cut_pages(within.answer(about.question(what)), view, paper)
    elif what == SQUARE:
        pages = _square_pages(about.pitch, paper)
    elif what == ROOF or _is_stick(what):
        roof = _roof(size, about.pitch, what, view)
        if what == ROOF:
            pages = _whole_roof(roof.sticks, view, _given(roof), paper, metric)
        elif ":" in what or view not in ("all", "whole"):
            pages = [
                page
                for asked in find_ends(roof, what)
                for page in _cut_pages(within.answer(asked), view, paper)
            ]
            pages = _numbered(pages)
        else:
            pages = [_stick_page(find_stick(roof, what)[0], paper, metric)]
    else:
        raise CutError(
            f"there is nothing called {what!r} to draw; give a cut (`squaresaw cuts` lists them),"
            f" a stick such as H1, {ROOF!r} or {SQUARE!r}"
        )
    replacing.report(write_pictures(pages, output, title=pages[0].title, unscaled=not_to_scale))


def _cut_pages(true_answer: Answer, asked: str, paper: str) -> list["Page"]:
    from figures.ink.paper import read_paper
    from figures.pictures.composed import VIEWS, picture_pages
    from lessons.mistakes.cut_mistakes import made_on
    from lessons.say.version import version

    view = next((name for name in VIEWS if name == asked), None)
    if view is None:
        raise SheetError(f"a cut has no view {asked!r}; give one of {', '.join(VIEWS)}")
    sheet = read_paper(paper)
    if view not in UPRIGHT:
        sheet = sheet.turned()
    answers = (
        [true_answer, *true_answer.others] if view in EACH_PLANE or view == "all" else [true_answer]
    )
    pages: list[Page] = []
    for each in answers:
        shown = view in ("gap", "all")
        made = sorted(made_on(each), key=lambda m: m.mistake.name != CLASSIC) if shown else []
        wrong = made[0].setting if made else None
        does = made[0].mistake.does if made else ""
        pages += picture_pages(each, view, sheet, wrong=wrong, wrong_does=does, version=version())
    return _numbered(pages)


def _square_pages(pitch: str, paper: str) -> list["Page"]:
    from figures.ink.paper import read_paper
    from figures.pictures.sheets import one_picture
    from figures.pictures.square_rows import square_with_rows

    said = read_pitch(pitch)
    return [
        one_picture(
            read_paper(paper).turned(),
            lambda room: square_with_rows(said, room),
            title="The framing square and its rafter rows",
            given=str(said),
        )
    ]


def _is_stick(name: str) -> bool:
    return STICK.fullmatch(name) is not None


def _numbered(pages: Sequence["Page"]) -> list["Page"]:
    return [replace(page, number=i, count=len(pages)) for i, page in enumerate(pages, start=1)]


def _roof(size: str, pitch: str, what: str, view: str) -> "TrainingRoof":
    """The roof of the job that this run was given, else the usual one of this size and pitch."""
    if what == ROOF and view not in ROOF_VIEWS:
        raise SheetError(f"a roof has no view {view!r}; give one of {', '.join(ROOF_VIEWS)}")
    from layout.job.job import Job
    from layout.job.job_roof import framed, with_texts

    job = job_option.current() or Job("usual")
    return framed(with_texts(job, size=size, pitch=pitch))


def _stick_page(found: "Stick", paper: str, metric: bool) -> "Page":
    from figures.ink.paper import read_paper
    from figures.pictures.sheets import one_picture
    from figures.pictures.whole_stick import whole_stick

    return one_picture(
        read_paper(paper).turned(),
        lambda room: whole_stick(found, room, metric=metric),
        title=f"{found.name}, {found.role}: the whole board",
        given=str(found.stock),
    )


def _given(roof: "TrainingRoof") -> str:
    plan = roof.plan
    return f"{plan.pitch}; {len(roof.sticks)} sticks"


def _whole_roof(
    sticks: Sequence["Stick"], view: str, given: str, paper: str, metric: bool
) -> list["Page"]:
    from figures.ink.paper import read_paper
    from figures.pictures import roof_views as drawn
    from figures.pictures.roof_section import roof_section
    from figures.pictures.sheets import stacked_pictures

    roof = drawn.framed(sticks)

    def side(name: drawn.ViewedSide) -> "DrawIn":
        return lambda room: drawn.roof_elevation(roof, room, name, metric=metric)

    draws: dict[str, list[tuple[str, tuple[DrawIn, ...]]]] = {
        "plan": [("plan", (lambda room: drawn.roof_plan_picture(roof, room, metric=metric),))],
        "pictorial": [("in space", (lambda room: drawn.roof_pictorial(roof, room),))],
        "section": [("section", (lambda room: roof_section(roof, room, metric=metric),))],
        "elevations": [
            ("front and left", (side("front"), side("left"))),
            ("back and right", (side("back"), side("right"))),
        ],
    }
    chosen = [each for name in draws if view in (name, "all") for each in draws[name]]
    upright = read_paper(paper)
    pages = [
        stacked_pictures(
            upright.turned() if len(parts) == 1 else upright,
            parts,
            title=f"The roof: {name}",
            given=given,
        )
        for name, parts in chosen
    ]
    return _numbered(pages)
