"""`squaresaw roof`: a training roof in one go, from plan drawing to cut list."""

import json
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from layout.answer.answer import answer
from layout.answer.wording import board_words, pitch_words
from layout.framing.buying import FASCIA_PARTS, NOTHING_LEFT, boards_to_buy
from layout.framing.cutlist import (
    piece_groups,
    piece_rows,
)
from layout.framing.facts import line_rows, side_rows
from layout.framing.foot_inside import foot_inside_words, pieces_inside
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_frame import no_sticks
from layout.framing.roof_lines import RoofLines, roof_lines
from layout.framing.roof_plan import HighEnd, HipHead, RoofPlan, Wing
from layout.framing.summary import length_words, rakes_left_open
from layout.framing.trim import trim_rows, usual_courses
from layout.framing.trim_words import COURSES, course_table, trim_means, trim_table
from layout.framing.walls import first_pitch
from layout.job.job_roof import find_ends, find_stick
from layout.length.drop import HipWay
from layout.quantity import (
    read_building_length,
    read_length,
    read_pitch,
    write_feet,
)
from layout.stock import read_stock
from layout.tools.saw import SawLimits
from lessons.cli import replacing
from lessons.cli.board_order import say_order
from lessons.cli.commands import options
from lessons.cli.commands.cut_options import SawOptions
from lessons.cli.framing_lists import (
    board_table,
    comparison_table,
    cut_table,
    line_table,
    millimeters,
    piece_table,
    side_table,
)
from lessons.cli.packet_rows import stick_json, sticks_json
from lessons.cli.roof_lists import (
    DATUM,
    LISTS,
    NO_COMMAND,
    STANDING,
    in_units,
    list_rows,
    lists_in_words,
    roof_words,
)
from lessons.cli.roof_shape import one_of, read_end, read_ends, read_outline, size_pair
from lessons.cli.tabular import SCHEMA, csv_text, json_lists, text_table
from lessons.say.contract import contract
from lessons.say.units import System
from lessons.say.words import read_aloud

HIP_WAYS: tuple[HipWay, ...] = ("backed", "dropped", "shifted")
HIP_HEADS: tuple[HipHead, ...] = ("commons", "ridge")
HIGH_ENDS: tuple[HighEnd, ...] = ("plate", "ledger")


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
    wing_at: Annotated[
        str,
        typer.Option(
            "--wing-at", metavar="LENGTH", help="A T: the wing stands so far from the left corner."
        ),
    ] = "0",
    equal: Annotated[
        str | None,
        typer.Option("--equal", metavar="SIDES", help="Equal walls: how many x how long: 8 x 6'."),
    ] = None,
    walls: Annotated[
        str | None,
        typer.Option(
            "--walls",
            metavar="WALLS",
            help="As walked: each wall's length, turn to the left, and pitch, gable or high;"
            " as 24', 90, 8 in 12; 16', 90, gable; ...",
        ),
    ] = None,
    pitch: options.PitchOption = usual.PITCH,
    end_pitch: Annotated[
        str | None,
        typer.Option("--end-pitch", metavar="PITCH", help="The hipped ends, where they differ."),
    ] = None,
    wing_pitch: Annotated[
        str | None,
        typer.Option("--wing-pitch", metavar="PITCH", help="The wing's sides, where they differ."),
    ] = None,
    ends: Annotated[
        str, typer.Option("--ends", metavar="ENDS", help="Left and right end: hip, gable or bay.")
    ] = usual.ENDS,
    wing_end: Annotated[
        str, typer.Option("--wing-end", metavar="END", help="The wing's end: hip or gable.")
    ] = usual.WING_END,
    spacing: options.SpacingOption = usual.SPACING,
    first: Annotated[
        str | None,
        typer.Option("--first", metavar="LENGTH", help="The first jack from each corner."),
    ] = None,
    overhang: options.OverhangOption = usual.OVERHANG,
    rake_overhang: Annotated[
        str,
        typer.Option(
            "--rake-overhang",
            metavar="LENGTH",
            help="Of gables, to the outside of the rake board; 0 lays it on the wall.",
        ),
    ] = usual.RAKE_OVERHANG,
    fascia: options.FasciaOption = usual.FASCIA,
    seat: Annotated[
        str | None,
        typer.Option("--seat", metavar="LENGTH", help="Level seat. [default: the plate's width]"),
    ] = None,
    rafter: Annotated[
        str, typer.Option("--rafter", metavar="BOARD", callback=say_order, help="Stock of rafters.")
    ] = usual.RAFTER,
    hip: Annotated[
        str, typer.Option("--hip", metavar="BOARD", callback=say_order, help="Stock of hips.")
    ] = usual.HIP,
    valley: Annotated[
        str, typer.Option("--valley", metavar="BOARD", callback=say_order, help="Stock of valleys.")
    ] = usual.VALLEY,
    ridge: options.RidgeOption = usual.RIDGE,
    plate: Annotated[
        str,
        typer.Option(
            "--plate", metavar="BOARD", callback=say_order, help="Stock of plates and gable studs."
        ),
    ] = usual.PLATE,
    hip_way: Annotated[
        str, typer.Option("--hip-way", metavar="WAY", help="backed, dropped or shifted.")
    ] = "backed",
    hip_head: Annotated[
        str, typer.Option("--hip-head", metavar="WHERE", help="Between commons, or on the ridge.")
    ] = "commons",
    high_wall: Annotated[
        str, typer.Option("--high-wall", metavar="WHAT", help="A shed ends on a plate or ledger.")
    ] = "plate",
    stick: Annotated[
        str | None,
        typer.Option("--stick", metavar="NAME", help="One stick by its name: every cut in full."),
    ] = None,
    which: Annotated[
        str,
        typer.Option("--list", metavar="LIST", help=f"CSV of {', '.join(LISTS[:-1])} or courses."),
    ] = "pieces",
    as_csv: options.CsvOption = False,
    as_json: options.JsonOption = False,
    output: options.OutputOption = None,
    paper: options.PaperOption = usual.PAPER,
    units: options.UnitsOption = System.INCH,
    *,
    sawn: SawOptions,
) -> None:
    """Frame a roof: plan, every stick, every cut, boards."""
    limits = sawn.limits
    length_in, width_in = size_pair(size, "--size")
    outline = read_outline(walls, equal, read_pitch(pitch))
    main = read_pitch(pitch) if outline is None else first_pitch(outline)
    plan = RoofPlan(
        0.0 if outline else length_in,
        0.0 if outline else width_in,
        main,
        read_pitch(end_pitch) if end_pitch else None,
        read_ends(ends),
        Wing(
            *size_pair(wing, "--wing"),
            read_end(wing_end),
            read_pitch(wing_pitch) if wing_pitch else None,
            read_building_length(wing_at),
        )
        if wing
        else None,
        walls=outline,
        spacing_in=read_length(spacing),
        first_in=read_length(first) if first else None,
        overhang_in=read_length(overhang),
        rake_overhang_in=read_length(rake_overhang),
        fascia_in=read_length(fascia),
        seat_in=read_length(seat) if seat else None,
        rafter=read_stock(rafter),
        hip=read_stock(hip),
        valley=read_stock(valley),
        ridge=read_stock(ridge),
        plate=read_stock(plate),
        hip_way=one_of(hip_way, HIP_WAYS, "--hip-way"),
        hip_head=one_of(hip_head, HIP_HEADS, "--hip-head"),
        high=one_of(high_wall, HIGH_ENDS, "--high-wall"),
    )
    title = f"Training roof {roof_words(plan, units)}"
    surface = roof_lines(plan.outline)
    why_not = no_sticks(surface)
    if why_not and stick is None and output is None:
        _lines_only(surface, plan, title, why_not, units, as_json=as_json, as_csv=as_csv)
        return
    if output is not None:
        from figures.files.whole import check_ending

        check_ending(output, ".pdf", ".svg")
    framed = frame(plan)
    if stick is not None:
        _one(framed, stick, output, paper, units, limits, as_json=as_json)
    elif output is not None:
        _draw(framed, title, output, paper, units, limits)
    elif as_json:
        lists = {name: list_rows(framed, name, units) for name in LISTS}
        left_out = list(framed.left_out)
        told = json.loads(json_lists({**lists, "compare": framed.comparisons}, left_out=left_out))
        typer.echo(json.dumps(told | {"sticks": sticks_json(framed)}, indent=1, allow_nan=False))
    elif as_csv:
        typer.echo(csv_text(list_rows(framed, which, units)), nl=False)
    else:
        typer.echo(lists_in_words(framed, title, units, limits))


def _lines_only(
    surface: RoofLines,
    plan: RoofPlan,
    title: str,
    why_not: str,
    units: System,
    *,
    as_json: bool,
    as_csv: bool,
) -> None:
    """A roof that gets no sticks: where and why, and all that its planes and lines say."""
    rows = line_rows(surface, plan.mouth.height_above_plate_in)
    if as_json:
        typer.echo(json_lists({"lines": rows}, no_sticks=why_not))
    elif as_csv:
        typer.echo(csv_text(rows), nl=False)
    else:
        say = millimeters if units.is_metric else write_feet
        parts = [
            title,
            f"NO STICKS: {why_not}",
            *surface.outline.said,
            "",
            "LINES",
            text_table(*line_table(rows, say), left=True),
            f"Ridge {say(surface.ridge_height_in)} over the eaves' building lines;"
            f" {surface.roof_area_in2 / 144:.1f} sq ft of roof inside them.",
        ]
        typer.echo("\n".join(parts))


def _one(
    framed: TrainingRoof,
    name: str,
    output: Path | None,
    paper: str,
    units: System,
    limits: SawLimits,
    *,
    as_json: bool,
) -> None:
    """One stick or one of its ends: its lengths and every cut read aloud, as data, or full size."""
    stick, sticks = find_stick(framed, name.partition(":")[0])
    parts = units.square_parts
    ends = [answer(one, limits=limits, square_parts=parts) for one in find_ends(framed, name)]
    if as_json:
        piece = next(mark for mark, those in piece_groups(framed).items() if stick in those)
        told = stick_json(stick, piece)
        told["ends"] = [contract(one) for one in ends]
        typer.echo(json.dumps({"schema": SCHEMA, **told}, indent=1, allow_nan=False))
        return
    if output is None:
        board = board_words(stick.stock, metric=units.is_metric)
        lines = [
            f"{', '.join(sticks)}, {stick.role}: {board}",
            length_words(stick, metric=units.is_metric) + ".",
            *filter(None, [foot_inside_words(stick, metric=units.is_metric)]),
        ]
        typer.echo("\n\n".join(["\n".join(lines), *map(read_aloud, ends)]))
        return
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from figures.page.tiling import PrintSetup, numbered
    from figures.wrap.template import template_pages

    setup = PrintSetup(read_paper(paper))
    laid = [replace(one, question=one.question.before_other_cuts()) for one in ends]
    sheets = [page for one in laid for page in template_pages(one, setup)]
    title = f"{stick.name}, {stick.role}"
    replacing.report(
        write(numbered(tuple(sheets)), output, title=title, subject="Full-size templates")
    )


def _draw(
    framed: TrainingRoof, title: str, output: Path, paper: str, units: System, limits: SawLimits
) -> None:
    """The plan, then the lists, as one document."""
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from figures.page.card import CardTable, card_pages
    from figures.page.tiling import numbered
    from figures.pictures.roofplan import roof_plan_page

    sheet = read_paper(paper)
    pitch = pitch_words(framed.plan.pitch, metric=units.is_metric)
    plan = roof_plan_page(
        framed, sheet, title=title, given=f"{pitch}, seen from above", metric=units.is_metric
    )
    say = millimeters if units.is_metric else write_feet
    tables = [
        CardTable(
            "Cut list",
            " ".join([DATUM, *pieces_inside(framed, metric=units.is_metric)]),
            *piece_table(piece_rows(framed), say),
        ),
        CardTable("Sides", STANDING, *side_table(side_rows(framed), say, metric=units.is_metric)),
        CardTable(
            "Cuts",
            f"Every different cut once. {NO_COMMAND}",
            *cut_table(framed.sticks, limits, metric=units.is_metric),
        ),
        CardTable(
            "Boards",
            f"Longest piece first. {NOTHING_LEFT} {FASCIA_PARTS}",
            *board_table(boards_to_buy(framed, metric=units.is_metric), say),
        ),
        CardTable(
            "Fascias and rakes",
            " ".join([trim_means(framed, say), *rakes_left_open(framed)]),
            *trim_table(trim_rows(framed), say),
        ),
        CardTable("Roof boards", COURSES, *course_table(usual_courses(framed), say)),
        CardTable(
            "Beside the code",
            "Numbers, no verdict.",
            *comparison_table(framed.comparisons, *in_units(units)),
        ),
    ]
    lists = card_pages(tables, sheet.turned(), title=title, given=pitch)
    pages = numbered((replace(plan, number=1), *lists))
    replacing.report(
        write(pages, output, title=title, subject="Plan and cut list of a training roof")
    )
