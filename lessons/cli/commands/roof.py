"""`squaresaw roof`: a training roof in one go, from plan drawing to cut list."""

from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from layout.answer.answer import answer
from layout.errors import FrameError
from layout.framing.cutlist import board_rows, boards, cut_rows, piece_rows, stick_rows
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofEnd, RoofPlan, Wing
from layout.framing.stick import Stick
from layout.quantity import read_building_length, read_length, read_pitch, two_sides, write_feet
from layout.stock import read_stock
from lessons.cli.commands import options
from lessons.cli.framing_lists import (
    board_table,
    comparison_table,
    cut_uses,
    piece_table,
    use_table,
)
from lessons.cli.tabular import csv_text, json_lists, text_table
from lessons.say.words import read_aloud

LISTS = ("pieces", "sticks", "cuts", "boards")


def roof(
    size: Annotated[
        str, typer.Option("--size", metavar="SIZE", help="Length x width over the walls.")
    ] = "24' x 16'",
    wing: Annotated[
        str | None,
        typer.Option(
            "--wing", metavar="SIZE", help="An L: length x width of the wing at the left end."
        ),
    ] = None,
    pitch: options.PitchOption = "8 in 12",
    end_pitch: Annotated[
        str | None,
        typer.Option("--end-pitch", metavar="PITCH", help="The hipped ends, where they differ."),
    ] = None,
    ends: Annotated[
        str, typer.Option("--ends", metavar="ENDS", help="Left and right end, as hip,gable.")
    ] = "hip,hip",
    wing_end: Annotated[
        str, typer.Option("--wing-end", metavar="END", help="The wing's end: hip or gable.")
    ] = "hip",
    spacing: Annotated[
        str, typer.Option("--spacing", metavar="LENGTH", help="Rafters on center.")
    ] = "16in",
    first: Annotated[
        str | None,
        typer.Option("--first", metavar="LENGTH", help="The first jack from each corner."),
    ] = None,
    overhang: Annotated[
        str, typer.Option("--overhang", metavar="LENGTH", help="To the outside of the fascia.")
    ] = "12in",
    fascia: Annotated[
        str, typer.Option("--fascia", metavar="LENGTH", help="Thickness of the fascia.")
    ] = "3/4",
    seat: Annotated[
        str | None, typer.Option("--seat", metavar="LENGTH", help="Level seat [the plate's width].")
    ] = None,
    rafter: Annotated[
        str, typer.Option("--rafter", metavar="BOARD", help="Stock of rafters.")
    ] = "2x6",
    hip: Annotated[str, typer.Option("--hip", metavar="BOARD", help="Stock of hips.")] = "2x8",
    valley: Annotated[
        str, typer.Option("--valley", metavar="BOARD", help="Stock of valleys.")
    ] = "2x8",
    ridge: Annotated[
        str, typer.Option("--ridge", metavar="BOARD", help="Stock of ridges.")
    ] = "2x8",
    stick: Annotated[
        str | None,
        typer.Option("--stick", metavar="NAME", help="One stick by its name: every cut in full."),
    ] = None,
    which: Annotated[
        str, typer.Option("--list", metavar="LIST", help="CSV of pieces, sticks, cuts or boards.")
    ] = "pieces",
    as_csv: options.CsvOption = False,
    as_json: options.JsonOption = False,
    output: options.OutputOption = None,
    paper: options.PaperOption = "Letter",
) -> None:
    """Frame a roof: plan, every stick, every cut, boards."""
    length_in, width_in = _pair(size, "--size")
    left, right = _ends(ends)
    plan = RoofPlan(
        length_in,
        width_in,
        read_pitch(pitch),
        read_pitch(end_pitch) if end_pitch else None,
        (left, right),
        Wing(*_pair(wing, "--wing"), _end(wing_end)) if wing else None,
        spacing_in=read_length(spacing),
        first_in=read_length(first) if first else None,
        overhang_in=read_length(overhang),
        fascia_in=read_length(fascia),
        seat_in=read_length(seat) if seat else None,
        rafter=read_stock(rafter),
        hip=read_stock(hip),
        valley=read_stock(valley),
        ridge=read_stock(ridge),
    )
    framed = frame(plan)
    title = f"Training roof {_said(plan)}"
    if stick is not None:
        _one(framed, _stick(framed, stick), output, paper)
    elif output is not None:
        _draw(framed, title, output, paper)
    elif as_json:
        lists = {name: _rows(framed, name) for name in LISTS}
        left_out = list(framed.left_out)
        typer.echo(json_lists({**lists, "compare": framed.comparisons}, left_out=left_out))
    elif as_csv:
        typer.echo(csv_text(_rows(framed, which)), nl=False)
    else:
        typer.echo(_told(framed, title))


def _rows(framed: TrainingRoof, which: str) -> tuple[object, ...]:
    match which:
        case "pieces":
            return piece_rows(framed)
        case "sticks":
            return stick_rows(framed)
        case "cuts":
            return tuple(row for each in framed.sticks for row in cut_rows(each))
        case "boards":
            return board_rows(boards(framed))
        case _:
            raise FrameError(f"there is no list {which!r}; give one of {', '.join(LISTS)}")


def _told(framed: TrainingRoof, title: str) -> str:
    parts = [
        title,
        "Lengths run along the top edge from the plumb line over the building line; tails extra.",
        "",
        text_table(*piece_table(piece_rows(framed)), left=True),
        "",
        "CUTS",
        text_table(*use_table(cut_uses(framed.sticks)), left=True),
        "",
        "BOARDS",
        text_table(*board_table(board_rows(boards(framed))), left=True),
        "",
        "BESIDE THE CODE (numbers, no verdict)",
        text_table(*comparison_table(framed.comparisons), left=True),
        *(f"LEFT OUT: {line}" for line in framed.left_out),
    ]
    return "\n".join(parts)


def _one(framed: TrainingRoof, stick: Stick, output: Path | None, paper: str) -> None:
    """Every cut of one stick: read aloud, or its full-size templates."""
    uses = cut_uses([stick])
    if output is None:
        typer.echo("\n\n".join(read_aloud(answer(use.question)) for use in uses))
        return
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from figures.page.tiling import PrintSetup, numbered
    from figures.wrap.template import template_pages

    setup = PrintSetup(read_paper(paper))
    sheets = [page for use in uses for page in template_pages(answer(use.question), setup)]
    title = f"{stick.name}, {stick.role}"
    options.report(
        write(numbered(tuple(sheets)), output, title=title, subject="Full-size templates")
    )


def _draw(framed: TrainingRoof, title: str, output: Path, paper: str) -> None:
    """The plan, then the lists, as one document."""
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from figures.page.card import CardTable, card_pages
    from figures.page.tiling import numbered
    from figures.pictures.roofplan import roof_plan_page

    sheet = read_paper(paper)
    plan = roof_plan_page(framed, sheet, title=title, given=f"{framed.plan.pitch}, seen from above")
    datum = (
        "Lengths along the top edge from the plumb line over the building line; tails are extra."
    )
    tables = [
        CardTable("Cut list", datum, *piece_table(piece_rows(framed))),
        CardTable("Cuts", "Every different cut once.", *use_table(cut_uses(framed.sticks))),
        CardTable("Boards", "Longest piece first.", *board_table(board_rows(boards(framed)))),
        CardTable("Beside the code", "Numbers, no verdict.", *comparison_table(framed.comparisons)),
    ]
    lists = card_pages(tables, sheet.turned(), title=title, given=str(framed.plan.pitch))
    pages = numbered((replace(plan, number=1), *lists))
    options.report(
        write(pages, output, title=title, subject="Plan and cut list of a training roof")
    )


def _stick(framed: TrainingRoof, name: str) -> Stick:
    found = framed.by_name.get(name.upper())
    if found is None:
        raise FrameError(
            f"no stick of this roof is called {name!r};"
            " the plan (-o FILE.pdf) and the cut list name them all"
        )
    return found


def _pair(text: str, option: str) -> tuple[float, float]:
    sides = two_sides(text)
    if sides is None:
        raise FrameError(f"{option} {text!r} is no size; write length x width, such as 24' x 16'")
    return read_building_length(sides[0]), read_building_length(sides[1])


def _end(text: str) -> RoofEnd:
    ends: dict[str, RoofEnd] = {"hip": "hip", "gable": "gable"}
    end = ends.get(text.strip().lower())
    if end is None:
        raise FrameError(f"an end is hip or gable, not {text!r}")
    return end


def _ends(text: str) -> tuple[RoofEnd, RoofEnd]:
    parts = text.split(",")
    if len(parts) != 2:
        raise FrameError(f"--ends {text!r} should name both ends, such as hip,gable")
    return _end(parts[0]), _end(parts[1])


def _said(plan: RoofPlan) -> str:
    wing = plan.wing
    shape = f"{write_feet(plan.length_in)} x {write_feet(plan.width_in)}"
    if wing is not None:
        shape += f" with a wing {write_feet(wing.length_in)} x {write_feet(wing.width_in)}"
    return f"{shape}, {plan.pitch}"
