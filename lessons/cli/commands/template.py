"""`squaresaw template`: the full-size sheet that wraps the stock."""

from pathlib import Path
from typing import Annotated

import typer

from layout.quantity import read_length
from lessons.cli.commands import options


def template(
    cut: options.CutArgument,
    output: Annotated[
        Path,
        typer.Option("--output", "-o", metavar="FILE", help="The file to write: .pdf or .svg."),
    ],
    pitch: options.PitchOption = "8 in 12",
    other_pitch: options.OtherPitchOption = None,
    corner: options.CornerOption = None,
    sides: options.SidesOption = None,
    hand: options.HandOption = options.HandName.left,
    end: options.EndOption = None,
    stock: options.StockOption = None,
    roll: options.RollOption = "0",
    max_tilt: options.MaxTiltOption = "50",
    blade_depth: options.BladeDepthOption = options.USUAL_DEPTH,
    saw: options.SawOption = None,
    backed: Annotated[
        bool, typer.Option("--backed", help="A hip or valley whose top edge is backed already.")
    ] = False,
    all_round: Annotated[
        bool, typer.Option("--all-round", help="The bottom edge too, all four sides.")
    ] = False,
    paper: options.PaperOption = "Letter",
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
    every = (
        options.ends_of(cut, end)
        if options.is_stick(cut)
        else (options.question(cut, pitch, other_pitch, corner, sides, hand, end, stock, roll),)
    )
    from figures.files.press import write
    from figures.ink.correction import Correction
    from figures.ink.paper import read_paper
    from figures.ink.scale import read_scale
    from figures.page.sheet import Page
    from figures.page.tiling import PrintSetup, numbered
    from figures.wrap.spread import all_round_run
    from figures.wrap.template import template_pages
    from lessons.cli import printers
    from lessons.say.version import version

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
    sheets: list[Page] = []
    for asked in every:
        over = backed and asked.stands is None
        surfaces = all_round_run(backed=over) if all_round else None
        told = options.answered(asked, "1/32", "1/2", max_tilt, blade_depth, saw)
        sheets += template_pages(told, setup, surfaces=surfaces, backed=over, version=version())
    asked = every[0]
    title = f"{asked.entry.name}, {asked.end}, {asked.pitch}, {asked.stock.name}"
    bound = tuple(sheets) if len(every) == 1 else numbered(tuple(sheets))
    options.report(
        write(bound, output, title=title, subject="Full-size template that wraps the stock")
    )
