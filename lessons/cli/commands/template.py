"""`squaresaw template`: the full-size sheet that wraps the stock."""

from dataclasses import replace
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from layout import usual
from layout.answer.answer import answer
from layout.errors import SheetError
from layout.quantity import read_length
from lessons.cli import replacing
from lessons.cli.commands import options
from lessons.cli.commands.cut_options import CutOptions, SawOptions
from lessons.say.how_many import how_many
from lessons.say.units import System

if TYPE_CHECKING:
    from figures.page.sheet import Page
    from figures.wrap.template import MarksOnPaper, Template

SUBJECT = "Full-size template that wraps the stock"
LARGER = ("Tabloid", "A3", "roll-24")
"""Papers whose count of pages is offered beside the one asked for."""


class MarksName(StrEnum):
    """How much of each mark is drawn."""

    auto = "auto"
    whole = "whole"
    ends = "ends"


def template(
    cuts: Annotated[
        list[str],
        typer.Argument(metavar="CUT...", help="One cut or several; `squaresaw cuts` lists them."),
    ],
    output: Annotated[
        Path,
        typer.Option("--output", "-o", metavar="FILE", help="The file to write: .pdf or .svg."),
    ],
    about: CutOptions,
    sawn: SawOptions,
    backed: Annotated[
        bool, typer.Option("--backed", help="A hip or valley whose top edge is backed already.")
    ] = False,
    all_round: Annotated[
        bool, typer.Option("--all-round", help="The bottom edge too, all four sides.")
    ] = False,
    marks: Annotated[
        MarksName,
        typer.Option(
            "--marks",
            help="Whole marks, both ends alone to join with a straightedge, or what takes less.",
        ),
    ] = MarksName.auto,
    paper: options.PaperOption = usual.PAPER,
    margin: Annotated[
        str, typer.Option("--margin", metavar="LENGTH", help="Clear margin: 1/4 to 3/4 in.")
    ] = "1/2",
    overlap: Annotated[
        str, typer.Option("--overlap", metavar="LENGTH", help="Of tiles: 1/4 to 2 in.")
    ] = "1/2",
    scale: Annotated[
        str,
        typer.Option("--scale", metavar="SCALE", help="full, half, quarter, 3 in = 1 ft, 1:5 ..."),
    ] = "full",
    units: options.UnitsOption = System.INCH,
    printed: Annotated[
        str | None,
        typer.Option(
            "--printed-bars",
            "--printed-square",
            metavar="BARS",
            help="What the check bars of a printed sheet measure, ACROSS x ALONG [6 x 8].",
        ),
    ] = None,
    printer: Annotated[
        str | None,
        typer.Option(
            "--printer", metavar="NAME", help="Keep or use the correction of this printer."
        ),
    ] = None,
) -> None:
    """Print a cut full size, on a sheet that wraps the board."""
    asked = [question for cut in cuts for question in about.questions(cut)]
    from figures.files.press import write
    from figures.files.whole import check_ending, check_place
    from figures.ink.correction import Correction
    from figures.ink.paper import read_paper
    from figures.ink.scale import read_scale
    from figures.page.tiling import PrintSetup
    from figures.wrap.spread import all_round_run
    from figures.wrap.template import Template
    from figures.wrap.template_set import template_set
    from lessons.cli import printers
    from lessons.say.version import version

    check_ending(output, ".pdf", ".svg")
    check_place(output)
    correction = printers.measured(printed) if printed else Correction()
    if printer is not None:
        correction = printers.keep(printer, correction) if printed else printers.kept(printer)
    setup = PrintSetup(
        read_paper(paper),
        read_scale(scale),
        read_length(margin),
        correction,
        read_length(overlap),
    )
    made = [
        Template(
            answer(one.before_other_cuts(), limits=sawn.limits, square_parts=units.square_parts),
            setup,
            all_round_run(backed=backed and one.stands is None) if all_round else None,
            backed and one.stands is None,
            version(),
            marks.value,
        )
        for one in asked
    ]
    if len(made) == 1:
        took, sheets = made[0].chosen()
        typer.echo(_count(made[0], took, sheets))
    else:
        sheets = template_set(made)
        typer.echo(_pages(len(sheets), setup.paper.name))
    first = asked[0]
    title = f"{first.entry.name}, {first.end}, {first.pitch}, {first.stock.name}"
    if len(asked) > 1:
        title = f"{len(asked)} templates, {first.pitch}"
    written = write(sheets, output, title=title, subject=SUBJECT)
    replacing.report(written)


def _pages(count: int, paper: str) -> str:
    return f"{how_many(count, 'page')} of {paper}"


def _count(one: "Template", took: "MarksOnPaper", sheets: "tuple[Page, ...]") -> str:
    """How many pages there will be, and what larger paper or the marks' other kind would take.

    The others are laid out too, words and all: the lines alone may lie on fewer sheets than the
    notes beside them find room on.
    """
    from figures.ink.paper import read_paper

    setup = one.setup
    said = _pages(len(sheets), setup.paper.name)
    if one.marks == "auto" and took == "ends":
        said += ": both ends of each mark, to be joined with a straightedge"
    if setup.paper.endless:
        return said
    other: MarksOnPaper = "whole" if took == "ends" else "ends"
    if took == "ends" or (len(sheets) > 1 and one.may_be_ends):
        try:
            count = len(replace(one, marks=other).pages())
        except SheetError:
            said += f"; this paper carries no --marks {other}"
        else:
            if took == "ends" or count < len(sheets):
                said += f"; with --marks {other}: {how_many(count, 'page')}"
    if len(sheets) == 1:
        return said
    offers = []
    for name in LARGER:
        larger = read_paper(name)
        if not larger.endless and larger.width_in <= setup.paper.width_in:
            continue
        try:
            count = len(replace(one, setup=replace(setup, paper=larger)).pages())
        except SheetError:
            continue
        if count < len(sheets):
            offers.append(f"{name} {count}")
    if offers:
        said += f"; larger paper takes: {', '.join(offers)}"
    return said
