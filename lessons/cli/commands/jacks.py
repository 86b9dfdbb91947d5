"""`squaresaw jacks`: a set of jacks for one hip or valley, and its layout stick."""

from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from layout.answer.wording import board_words, pitch_words
from layout.framing.cutlist import BoardRow
from layout.framing.jackplan import JackPlan
from layout.framing.jackset import JackSet, jack_set
from layout.length.boards import USUAL_LENGTHS_IN
from layout.quantity import read_building_length, read_length, read_pitch
from layout.stock import read_stock
from lessons.cli import replacing
from lessons.cli.board_order import say_order
from lessons.cli.commands import options
from lessons.cli.framing_lists import (
    CODE_HEAD,
    board_table,
    comparison_table,
    jack_table,
    millimeters,
)
from lessons.cli.tabular import csv_text, json_lists, text_table
from lessons.say.length_words import LengthWords
from lessons.say.units import System

EXAMPLE_COUNT = 5
EXAMPLE = (
    f"{EXAMPLE_COUNT} jacks to an eave are only an example: give --eave, the length from the corner"
    " to the common at the top, or --count."
)
"""Said where neither the eave nor the number of jacks is given."""


def jacks(
    on_valley: Annotated[
        bool, typer.Option("--on-valley", help="Jacks on a valley in place of a hip.")
    ] = False,
    pitch: options.PitchOption = usual.PITCH,
    other_pitch: options.OtherPitchOption = None,
    corner: options.CornerOption = None,
    sides: options.SidesOption = None,
    spacing: options.SpacingOption = usual.SPACING,
    first: Annotated[
        str | None,
        typer.Option(
            "--first",
            metavar="LENGTH",
            help="The first jack from the corner. [default: one spacing]",
        ),
    ] = None,
    eave: Annotated[
        str | None,
        typer.Option("--eave", metavar="LENGTH", help="From the corner to the common at the top."),
    ] = None,
    count: Annotated[
        int | None,
        typer.Option("--count", metavar="NUMBER", help="Number of jacks, in place of --eave."),
    ] = None,
    overhang: options.OverhangOption = usual.OVERHANG,
    fascia: options.FasciaOption = usual.FASCIA,
    seat: Annotated[
        str, typer.Option("--seat", metavar="LENGTH", help="Level seat of a jack.")
    ] = usual.SEAT,
    stock: Annotated[
        str, typer.Option("--stock", metavar="BOARD", callback=say_order, help="Stock of jacks.")
    ] = usual.RAFTER,
    hip: Annotated[
        str,
        typer.Option(
            "--hip", metavar="BOARD", callback=say_order, help="Stock of the hip or valley."
        ),
    ] = usual.HIP,
    ridge: options.RidgeOption = usual.RIDGE,
    lengths: Annotated[
        str | None,
        typer.Option(
            "--lengths",
            metavar="LENGTHS",
            help="Boards to cut from: 8', 12', 16'. [default: 8' to 20' by twos]",
        ),
    ] = None,
    units: options.UnitsOption = System.INCH,
    as_csv: options.CsvOption = False,
    as_json: options.JsonOption = False,
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", metavar="FILE", help="The layout stick at full size: .pdf or .svg."
        ),
    ] = None,
    paper: options.PaperOption = "roll-24",
) -> None:
    """Lay out the jacks of one hip or valley."""
    stock_in = [read_length(one) for one in lengths.split(",")] if lengths else USUAL_LENGTHS_IN
    plan = JackPlan(
        "valley" if on_valley else "hip",
        read_pitch(pitch),
        read_pitch(other_pitch) if other_pitch else None,
        options.corner_deg(corner, sides),
        spacing_in=read_length(spacing),
        first_in=read_length(first) if first else None,
        eave_in=read_building_length(eave) if eave else None,
        count=count if count is not None or eave else EXAMPLE_COUNT,
        overhang_in=read_length(overhang),
        fascia_in=read_length(fascia),
        seat_in=read_length(seat),
        jack=read_stock(stock),
        carrier=read_stock(hip),
        ridge=read_stock(ridge),
        longest_in=max(stock_in),
    )
    made = jack_set(plan)
    cut = made.boards(stock_in)
    boards = [BoardRow(str(plan.jack), one.stock_in, one.names, one.left_in) for one in cut]
    example = eave is None and count is None
    if output is not None:
        _draw(made, output, paper, units)
        if example:
            typer.echo(EXAMPLE)
    elif as_json:
        typer.echo(
            json_lists(
                {"jacks": made.rows, "boards": boards, "compare": made.comparisons},
                common_difference_in=made.own_difference_in,
                other_common_difference_in=made.other_difference_in,
                left_out=list(made.left_out),
            )
        )
    elif as_csv:
        typer.echo(csv_text(made.rows), nl=False)
    else:
        typer.echo(_told(made, boards, units, example=example))


def _told(made: JackSet, boards: list[BoardRow], units: System, *, example: bool) -> str:
    plan, say = made.plan, LengthWords(units)
    table = {"say": millimeters} if units.is_metric else {}
    title = f"Jacks on a {plan.line}, {_pitches(plan, units)}"
    same = abs(made.own_difference_in - made.other_difference_in) < 1e-9
    differences = [f"Common difference {say.stepped(made.own_difference_in)}"]
    if not same:
        differences = [
            f"Common difference of A {say.stepped(made.own_difference_in)}",
            f"Common difference of B {say.stepped(made.other_difference_in)}",
        ]
    return "\n".join(
        [
            title,
            *differences,
            f"{len(made.rows)} pieces, {len(made.pairs)} pairs. A stands on this roof, B on the"
            " other roof. " + _datum(made),
            *([EXAMPLE] if example else []),
            _laid(made, say),
            *(["All lengths in millimeters."] if units.is_metric else []),
            "",
            text_table(*jack_table(made.rows, **table), left=True),
            "",
            "BOARDS",
            text_table(*board_table(boards, **table), left=True),
            "",
            CODE_HEAD,
            text_table(*comparison_table(made.comparisons, **table), left=True),
            *(f"LEFT OUT: {line}" for line in made.left_out),
        ]
    )


def _pitches(plan: JackPlan, units: System) -> str:
    """This roof's pitch, and the other roof's where it was given."""
    given = (plan.pitch, plan.other_pitch)
    return " against ".join(pitch_words(one, metric=units.is_metric) for one in given if one)


def _laid(made: JackSet, say: LengthWords) -> str:
    """From where these jacks are laid, and how that differs from a whole roof's."""
    plan = made.plan
    return (
        f"Laid from the corner: the first jack's middle {say.stepped(plan.start_in)} from it, the"
        f" rest {say.stepped(plan.spacing_in)} on. `squaresaw roof` lays its jacks down from the"
        " end common unless it is told --first: then the same jack has the same length."
    )


def _datum(made: JackSet) -> str:
    if made.plan.line == "valley":
        return "Lengths run along the top edge from cut to cut."
    return "Lengths run along the top edge from the plumb line over the building line."


def _draw(made: JackSet, output: Path, paper: str, units: System) -> None:
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from figures.page.tiling import PrintSetup, pages
    from figures.pictures.layout_stick import layout_sticks

    plan = made.plan
    start = (
        "the foot's long point"
        if plan.line == "valley"
        else "the plumb line over the building line, on the top edge"
    )
    title = f"Layout stick: jacks on a {plan.line}"
    say = LengthWords(units)
    metric = units.is_metric
    spacing = say.stepped(plan.spacing_in) if metric else say.size(plan.spacing_in)
    board = board_words(plan.jack, metric=metric)
    given = f"{_pitches(plan, units)}, {spacing} on center, {board}"
    sheets = pages(
        layout_sticks(made.rows, start, metric=metric),
        PrintSetup(read_paper(paper)),
        title=title,
        given=given,
    )
    replacing.report(write(sheets, output, title=title, subject="Lengths of jacks at full size"))
