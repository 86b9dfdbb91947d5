"""`squaresaw table`: the rafter rows of a framing square, also where no square has them."""

from collections.abc import Sequence
from typing import Annotated

import typer

from layout import usual
from layout.answer.question import ask
from layout.answer.wording import corner_words, pitch_words
from layout.errors import CutError, QuantityError
from layout.length.table import (
    FOOT,
    METRE,
    BraceRow,
    PolygonRow,
    RafterRow,
    Unit,
    brace_rows,
    polygon_row,
    rafter_rows,
)
from layout.quantity import (
    Pitch,
    read_length,
    read_pitch,
    two_sides,
    write_degrees,
    write_fraction,
)
from lessons.cli import replacing
from lessons.cli.commands import options
from lessons.cli.tabular import csv_text, json_text, text_table
from lessons.say.units import System

USUAL_RISES = range(2, 19)
USUAL_SPACINGS_IN = {System.INCH: (16.0, 24.0), System.METRIC: (400 / 25.4, 600 / 25.4)}
LONG_NAME = {"in": "inches", "mm": "millimeters"}


def table(
    pitches: Annotated[
        list[str] | None,
        typer.Argument(metavar="[PITCH]...", help="Pitches, such as 8 or 7 1/2; else 2 to 18."),
    ] = None,
    other_pitch: options.OtherPitchOption = None,
    corner: options.CornerOption = None,
    on_valley: Annotated[
        bool, typer.Option("--on-valley", help="Rows of a valley's corner.")
    ] = False,
    sides: Annotated[
        int | None,
        typer.Option(
            "--sides", metavar="NUMBER", help="Rows of a roof over this many equal sides."
        ),
    ] = None,
    braces: Annotated[
        bool, typer.Option("--braces", help="Brace rows in place of rafters.")
    ] = False,
    brace: Annotated[
        list[str] | None,
        typer.Option(
            "--brace",
            metavar="RUNxRISE",
            help="A brace, as RUN x RISE in inches; may be given again.",
        ),
    ] = None,
    spacing: Annotated[
        list[str] | None,
        typer.Option(
            "--spacing",
            metavar="LENGTH",
            help="Jacks on center; may be given again. [default: 16in, 24in]",
        ),
    ] = None,
    thickness: Annotated[
        str, typer.Option("--thickness", metavar="LENGTH", help="Of the hip, for drops.")
    ] = "1 1/2",
    units: options.UnitsOption = System.INCH,
    as_csv: options.CsvOption = False,
    as_json: options.JsonOption = False,
    output: options.OutputOption = None,
    paper: options.PaperOption = usual.PAPER,
) -> None:
    """Rafter rows of a framing square, for any pitch and corner."""
    unit = METRE if units is System.METRIC else FOOT
    spacings_in = [_spacing(text) for text in spacing or []] or USUAL_SPACINGS_IN[units]
    thickness_in = read_length(thickness)
    said = [read_pitch(text) for text in pitches or [str(rise) for rise in USUAL_RISES]]
    items: Sequence[RafterRow] | Sequence[PolygonRow] | Sequence[BraceRow]
    if braces or brace:
        items = (
            brace_rows([_legs(text) for text in brace], unit) if brace else brace_rows(unit=unit)
        )
        title, (head, lines) = "Braces", _brace_cells(items, unit)
    elif sides is not None:
        if not 3 <= sides <= 24:
            raise QuantityError(f"a roof over {sides} sides cannot be framed; give 3 to 24")
        items = [
            polygon_row(sides, p, spacings_in=spacings_in, thickness_in=thickness_in, unit=unit)
            for p in said
        ]
        title, (head, lines) = f"Roof over {sides} equal sides", _polygon_cells(items, unit)
    else:
        corner_deg = _corner(corner, on_valley)
        other = read_pitch(other_pitch) if other_pitch else None
        items = rafter_rows(
            said, other, corner_deg, spacings_in=spacings_in, thickness_in=thickness_in, unit=unit
        )
        title = f"Rafter rows, {corner_words(corner_deg)}" + _against(other, unit)
        head, lines = _rafter_cells(items, unit)
    if output is not None:
        from figures.files.press import write
        from figures.ink.paper import read_paper
        from figures.page.card import CardTable, card_pages

        flat = [name.replace("\n", " ") for name in head]
        card = CardTable(title, _means(items, unit), flat, lines)
        pages = card_pages([card], read_paper(paper), title=title)
        replacing.report(
            write(pages, output, title=title, subject="Numbers for the framing square")
        )
    elif as_json:
        typer.echo(json_text("rows", items, title=title))
    elif as_csv:
        typer.echo(csv_text(items), nl=False)
    else:
        typer.echo(f"{title}\n{_means(items, unit)}\n\n{text_table(head, lines)}")


def _corner(corner: str | None, valley: bool) -> float:
    """The corner inside the building, checked as the jack's own question checks it."""
    name = "valley-jack" if valley else "hip-jack"
    said_deg = options.corner_deg(corner, None)
    if not valley and said_deg is not None and said_deg > 180:
        raise CutError(
            f"a corner of {said_deg:g} deg carries a valley and no hip; give --on-valley with it,"
            " or an angle below 180 deg"
        )
    return ask(name, corner_deg=said_deg).corner_deg


def _against(other: Pitch | None, unit: Unit) -> str:
    return f", other roof {pitch_words(other, metric=unit is METRE)}" if other else ""


def _pitch(said: str, unit: Unit) -> str:
    return pitch_words(read_pitch(said), metric=unit is METRE)


def _spacing(text: str) -> float:
    spacing_in = read_length(text)
    if spacing_in <= 0:
        raise QuantityError(f"a spacing of {text} parts no jacks; give one such as 16in")
    return spacing_in


def _legs(text: str) -> tuple[float, float]:
    sides = two_sides(text)
    if sides is None:
        raise QuantityError(f"{text!r} is no brace; write RUN x RISE, such as 36 x 48")
    return read_length(sides[0]), read_length(sides[1])


def _means(items: Sequence[object], unit: Unit) -> str:
    """What the columns are, in a line or two."""
    run = "12 in" if unit is FOOT else "1000 mm"
    if items and isinstance(items[0], BraceRow):
        return (
            f"Lengths in {LONG_NAME[unit.name]} along the brace's outer line; marks from square"
            " across the stock, at the post and at the beam."
        )
    laid = f"{unit.over:g} on the tongue, the number on the blade, mark along the"
    means = (
        f"Lengths in {LONG_NAME[unit.name]} over {run} of the common's run. Side cuts: {laid}"
        " tongue, on the edge and never as a tilt."
    )
    if items and isinstance(items[0], PolygonRow):
        # A plate's miter is half the turn at a corner, off square across: the blade's own angle.
        means += f"\nMiter of a plate: {laid} blade, on the plate's wide face."
    return means


def _cell(value: float, unit: Unit) -> str:
    return f"{value:.2f}" if unit is FOOT else f"{value:.0f}"


def _side(value: float, unit: Unit) -> str:
    return write_fraction(value) if unit is FOOT else f"{value:.1f}"


def _small(value: float, unit: Unit) -> str:
    return f"{value:.3f}" if unit is FOOT else f"{value:.1f}"


def _jack_heads(spacings: Sequence[float], unit: Unit) -> list[str]:
    return [f"jacks\nat {spacing:g}" for spacing in (round(s, 2) for s in spacings)]


def _rafter_cells(items: Sequence[RafterRow], unit: Unit) -> tuple[list[str], list[list[str]]]:
    """The rows' cells; what equal pitches on a square corner have twice is said once."""
    line = "valley" if items[0].corner_deg > 180 else "hip"
    skew = any(abs(row.plan_angle_deg - 45.0) > 1e-9 for row in items)
    head = ["pitch", "common", line, *_jack_heads(items[0].spacings, unit)]
    head += ["side cut\njacks", f"side cut\n{line}", "backing"]
    head += ["other\nbacking", "plan\nangle"] if skew else []
    head += ["drop"]
    lines = []
    for row in items:
        cells = [_pitch(row.pitch, unit), _cell(row.common, unit), _cell(row.line, unit)]
        cells += [_cell(difference, unit) for difference in row.jack_differences]
        cells += [_side(row.jack_side_cut, unit), _side(row.line_side_cut, unit)]
        cells += [write_degrees(row.own_backing_deg)]
        if skew:
            cells += [write_degrees(row.other_backing_deg), write_degrees(row.plan_angle_deg)]
        # A valley's top edge lies below both roofs: nothing is dropped.
        drop = max(row.own_drop, row.other_drop)
        lines.append([*cells, _small(drop, unit) if drop > 0 else "-"])
    return head, lines


def _polygon_cells(items: Sequence[PolygonRow], unit: Unit) -> tuple[list[str], list[list[str]]]:
    head = [
        "pitch",
        "common",
        "hip",
        "run\nof hip",
        *_jack_heads(items[0].spacings, unit),
        "side cut\njacks",
        "miter",
        "half\na side",
        "backing",
        "drop",
    ]
    lines = [
        [
            _pitch(row.pitch, unit),
            _cell(row.common, unit),
            _cell(row.hip, unit),
            _cell(row.hip_run, unit),
            *(_cell(difference, unit) for difference in row.jack_differences),
            _side(row.jack_side_cut, unit),
            _side(row.mitre, unit),
            _cell(row.half_side_over_run, unit),
            write_degrees(row.backing_deg),
            _small(row.drop, unit),
        ]
        for row in items
    ]
    return head, lines


def _brace_cells(items: Sequence[BraceRow], unit: Unit) -> tuple[list[str], list[list[str]]]:
    head = ["run x rise", "length", "mark at\nthe post", "mark at\nthe beam"]
    lines = [
        [
            f"{row.run:g} x {row.rise:g}",
            _cell(row.length, unit),
            write_degrees(row.post_mark_deg),
            write_degrees(row.beam_mark_deg),
        ]
        for row in items
    ]
    return head, lines
