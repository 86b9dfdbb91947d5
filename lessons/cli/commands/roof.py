"""`squaresaw roof`: a training roof in one go, from plan drawing to cut list."""

import json
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from layout.answer.answer import answer
from layout.errors import FrameError
from layout.framing.cutlist import (
    board_rows,
    boards,
    cut_rows,
    piece_groups,
    piece_rows,
    stick_rows,
)
from layout.framing.roof import TrainingRoof, frame
from layout.framing.summary import facts, length_words
from layout.job.job import Job
from layout.job.roof import find_ends, find_stick, roof_plan
from layout.quantity import write_feet
from lessons.cli import job_option
from lessons.cli.commands import options
from lessons.cli.framing_lists import board_table, comparison_table, end_table, piece_table
from lessons.cli.packet_rows import stick_json, sticks_json
from lessons.cli.tabular import SCHEMA, csv_text, json_lists, text_table
from lessons.say.contract import contract
from lessons.say.words import read_aloud

LISTS = ("pieces", "sticks", "cuts", "boards")


def roof(
    size: Annotated[
        str, typer.Option("--size", metavar="SIZE", help="Length x width over the walls.")
    ] = usual.SIZE,
    wing: Annotated[
        str | None,
        typer.Option(
            "--wing", metavar="SIZE", help="An L: length x width of the wing at the left end."
        ),
    ] = None,
    pitch: options.PitchOption = usual.PITCH,
    end_pitch: Annotated[
        str | None,
        typer.Option("--end-pitch", metavar="PITCH", help="The hipped ends, where they differ."),
    ] = None,
    ends: Annotated[
        str, typer.Option("--ends", metavar="ENDS", help="Left and right end, as hip,gable.")
    ] = usual.ENDS,
    wing_end: Annotated[
        str, typer.Option("--wing-end", metavar="END", help="The wing's end: hip or gable.")
    ] = usual.WING_END,
    spacing: Annotated[
        str, typer.Option("--spacing", metavar="LENGTH", help="Rafters on center.")
    ] = usual.SPACING,
    first: Annotated[
        str | None,
        typer.Option("--first", metavar="LENGTH", help="The first jack from each corner."),
    ] = None,
    overhang: Annotated[
        str, typer.Option("--overhang", metavar="LENGTH", help="To the outside of the fascia.")
    ] = usual.OVERHANG,
    fascia: Annotated[
        str, typer.Option("--fascia", metavar="LENGTH", help="Thickness of the fascia.")
    ] = usual.FASCIA,
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
    said = {
        "size": size, "wing": wing, "pitch": pitch, "end-pitch": end_pitch, "ends": ends,
        "wing-end": wing_end, "spacing": spacing, "first": first, "overhang": overhang,
        "fascia": fascia, "seat": seat, "rafter": rafter, "hip": hip, "valley": valley,
        "ridge": ridge,
    }  # fmt: skip
    base = job_option.current() or Job("")
    job = replace(base, texts={**base.texts, **{k: v for k, v in said.items() if v is not None}})
    framed = frame(roof_plan(job))
    title = f"Training roof {_said(framed)}"
    if stick is not None:
        _one(framed, stick, output, paper, as_json=as_json)
    elif output is not None:
        _draw(framed, title, output, paper)
    elif as_json:
        lists = {name: _rows(framed, name) for name in LISTS}
        left_out = list(framed.left_out)
        told = json.loads(json_lists({**lists, "compare": framed.comparisons}, left_out=left_out))
        typer.echo(json.dumps(told | {"sticks": sticks_json(framed)}, indent=1, allow_nan=False))
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
        *facts(framed),
        "Lengths run along the top edge from the plumb line over the building line; tails extra.",
        "A piece's name ends in a letter, a stick's in a number; both may be asked for.",
        "",
        text_table(*piece_table(piece_rows(framed)), left=True),
        "",
        "CUTS",
        "A hip's lengths belong to its head as this roof cuts it: two cheeks between commons, or",
        "one on the ridge. An end's marks: squaresaw roof --stick NAME:END, as in --stick J1:head.",
        text_table(*end_table(framed), left=True),
        "",
        "BOARDS",
        text_table(*board_table(board_rows(boards(framed))), left=True),
        "",
        "BESIDE THE CODE (numbers, no verdict)",
        text_table(*comparison_table(framed.comparisons), left=True),
        *(f"LEFT OUT: {line}" for line in framed.left_out),
    ]
    return "\n".join(parts)


def _one(
    framed: TrainingRoof, name: str, output: Path | None, paper: str, *, as_json: bool
) -> None:
    """One stick or one of its ends: its lengths and every cut read aloud, as data, or full size."""
    stick, sticks = find_stick(framed, name.partition(":")[0])
    asked = find_ends(framed, name)
    if as_json:
        piece = next(mark for mark, those in piece_groups(framed).items() if stick in those)
        told = stick_json(stick, piece)
        told["ends"] = [contract(answer(one)) for one in asked]
        typer.echo(json.dumps({"schema": SCHEMA, **told}, indent=1, allow_nan=False))
        return
    if output is None:
        lines = [f"{', '.join(sticks)}, {stick.role}: {stick.stock}", length_words(stick) + "."]
        typer.echo("\n\n".join(["\n".join(lines), *(read_aloud(answer(one)) for one in asked)]))
        return
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from figures.page.tiling import PrintSetup, numbered
    from figures.wrap.template import template_pages

    setup = PrintSetup(read_paper(paper))
    sheets = [page for one in asked for page in template_pages(answer(one), setup)]
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
    plan = roof_plan_page(framed, sheet, title=title, given=f"{_said(framed)}, seen from above")
    datum = (
        "Lengths along the top edge from the plumb line over the building line; tails are extra."
    )
    tables = [
        CardTable("Cut list", datum, *piece_table(piece_rows(framed))),
        CardTable("Cuts", "Every different end once.", *end_table(framed)),
        CardTable("Boards", "Longest piece first.", *board_table(board_rows(boards(framed)))),
        CardTable("Beside the code", "Numbers, no verdict.", *comparison_table(framed.comparisons)),
    ]
    lists = card_pages(tables, sheet.turned(), title=title, given=_said(framed))
    pages = numbered((replace(plan, number=1), *lists))
    options.report(
        write(pages, output, title=title, subject="Plan and cut list of a training roof")
    )


def _said(framed: TrainingRoof) -> str:
    plan = framed.plan
    pitches = " and ".join(dict.fromkeys(str(face.pitch) for face in framed.faces))
    if plan.walls is not None:
        return f"of {len(plan.walls.walls)} walls, {pitches}"
    shape = f"{write_feet(plan.length_in)} x {write_feet(plan.width_in)}"
    if plan.wing is not None:
        wing = plan.wing
        shape += f" with a wing {write_feet(wing.length_in)} x {write_feet(wing.width_in)}"
    return f"{shape}, {pitches}"
