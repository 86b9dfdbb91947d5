"""`squaresaw length`: how long a common, hip or valley is, found both ways, and what comes off."""

from collections.abc import Sequence
from enum import StrEnum
from typing import Annotated

import typer

from layout import usual
from layout.answer.question import ask
from layout.answer.wording import board_words, corner_words, pitch_words
from layout.cuts import find
from layout.length.birdsmouth import BirdsMouth, from_seat
from layout.length.code_sections import Comparison, bearing, notch
from layout.length.drop import CarrierTop, hip_top, valley_top
from layout.length.run_length import RafterKind, RunLength, measure, total_rise_in
from layout.length.seat import CarrierSeat, bearing_in, line_seat
from layout.length.shortening import CheekPoints, check_left, cheek_points
from layout.length.tail import CarrierTail, Tail, line_tail, tail
from layout.plane.corner import Corner
from layout.quantity import (
    read_building_length,
    read_length,
    read_pitch,
    write_fraction,
)
from layout.stock import Stock, read_stock
from lessons.cli.board_order import say_order
from lessons.cli.commands import options
from lessons.cli.framing_lists import CODE_HEAD
from lessons.cli.tabular import json_lists
from lessons.say.length_words import LengthWords, metric_steps, per_meter
from lessons.say.units import System, written


class StickName(StrEnum):
    """A stick whose length is asked for; a jack is a common of its own, shorter run."""

    common = "common"
    hip = "hip"
    valley = "valley"


HEADS = {
    StickName.common: "common-ridge",
    StickName.hip: "hip-ridge-single",
    StickName.valley: "valley-ridge",
}
"""The cut at the head, against the side of the ridge."""
STOCKS = {
    StickName.common: usual.RAFTER,
    StickName.hip: usual.HIP,
    StickName.valley: usual.VALLEY,
}


def length(
    stick: Annotated[StickName, typer.Argument(help="common, hip or valley.")],
    run: Annotated[
        str,
        typer.Option(
            "--run", metavar="LENGTH", help="The common's level run: half the span, as 12' 6\"."
        ),
    ],
    pitch: options.PitchOption = usual.PITCH,
    other_pitch: options.OtherPitchOption = None,
    corner: options.CornerOption = None,
    stock: options.StockOption = None,
    rafter: Annotated[
        str,
        typer.Option("--rafter", metavar="BOARD", callback=say_order, help="Stock of the commons."),
    ] = usual.RAFTER,
    ridge: options.RidgeOption = usual.RIDGE,
    seat: Annotated[
        str, typer.Option("--seat", metavar="LENGTH", help="Level seat of the common.")
    ] = usual.SEAT,
    plate: Annotated[
        str, typer.Option("--plate", metavar="BOARD", help="Width of the plate.")
    ] = usual.SEAT,
    overhang: options.OverhangOption = usual.OVERHANG,
    fascia: options.FasciaOption = usual.FASCIA,
    dropped: Annotated[
        bool, typer.Option("--dropped", help="The hip is dropped in place of backed.")
    ] = False,
    units: options.UnitsOption = System.INCH,
    as_json: options.JsonOption = False,
) -> None:
    """A rafter's length, by stepping off and by the table."""
    own_stock, common_stock = read_stock(stock or STOCKS[stick]), read_stock(rafter)
    # The head's own question checks pitch, corner and board as every other command does.
    asked = ask(
        HEADS[stick],
        pitch=read_pitch(pitch),
        other_pitch=read_pitch(other_pitch) if other_pitch else None,
        corner_deg=options.corner_deg(corner, None),
        stock=own_stock,
    )
    roof = Corner(asked.pitch.slope_deg, asked.other_pitch.slope_deg, asked.corner_deg)
    kind: RafterKind = "common" if stick is StickName.common else "hip or valley"
    run_in = read_building_length(run)
    found = measure(roof, run_in, kind)
    head = cheek_points(
        find(HEADS[stick]).joint(roof), own_stock, read_stock(ridge).thickness_in / 2
    )
    check_left(run, stick.value, found.table_in, head)
    common = from_seat(
        asked.pitch.slope_deg,
        own_stock if stick is StickName.common else common_stock,
        read_length(seat),
    )
    eave = (read_length(overhang), read_length(fascia))
    top, line = None, None
    if stick is not StickName.common:
        top = _top(stick, roof, own_stock, dropped)
        line = line_seat(roof, top, own_stock, common.height_above_plate_in)
    mouth = line.mouth if line else common
    plate_in = read_length(plate)
    compared = mouth.comparisons(plate_in, stick.value)
    if line is not None:
        compared = (
            bearing(stick.value, bearing_in(roof, line, plate_in)),
            notch(stick.value, line.deepest_notch_in, own_stock.depth_in),
        )
    tails = tail(roof, *eave) if line is None else line_tail(roof, own_stock, *eave)
    if as_json:
        lists: dict[str, Sequence[object]] = {
            "length": [found],
            "head": [head.shortening],
            "birdsmouth": [mouth],
            "tail": [tails],
            "top": [top] if top else [],
            "compare": compared,
        }
        points = {"long_in": head.long_in, "centre_in": head.centre_in, "short_in": head.short_in}
        typer.echo(json_lists(lists, stick=stick.value, head_points=points))
        return
    say = LengthWords(units)
    where = "" if stick is StickName.common else f"; {corner_words(asked.corner_deg)}"
    other = ""
    if other_pitch is not None:
        other = f" against {pitch_words(asked.other_pitch, metric=units.is_metric)}"
    lines = [
        f"{stick.value}, {pitch_words(asked.pitch, metric=units.is_metric)}{other}{where};"
        f" the common's run {say.long(run_in)},"
        f" rise {say.long(float(total_rise_in(roof, run_in)))};"
        f" board {board_words(own_stock, metric=units.is_metric)}",
        "Lengths run along the top edge, up from the plumb line over the building line.",
        "",
        *_both_ways(found, say),
        *_head(found, head, say),
        *_counts(stick),
        *_mouth(mouth, line, top, say),
        *_tail(tails, say),
        *_beside(compared, say),
    ]
    typer.echo("\n".join(lines))


def _top(stick: StickName, roof: Corner, stock: Stock, dropped: bool) -> CarrierTop:
    if stick is StickName.valley:
        return valley_top(roof, stock)
    return hip_top(roof, stock, "dropped" if dropped else "backed")


def _both_ways(found: RunLength, say: LengthWords) -> list[str]:
    return [
        f"THEORETICAL {say.long_exact(found.table_in)}, to the middle of the ridge",
        f"  steps      {_steps(found, say)}",
        f"  table      {_table(found, say)}",
        "  both       come to one length with exact numbers",
    ]


def _steps(found: RunLength, say: LengthWords) -> str:
    if say.units.is_metric:
        whole_in = found.steps * found.level_in + found.odd_level_in
        steps, odd_in = metric_steps(found.level_in, whole_in)
        level, rise = (written(one, "square", say.units) for one in (found.level_in, found.rise_in))
        laid = ""
    else:
        steps, odd_in = found.steps, found.odd_level_in
        level, rise = write_fraction(found.level_in), write_fraction(found.rise_in)
        moved = "longer" if found.laid_in > 0 else "shorter"
        laid = f"; laid in sixteenths {say.off(found.laid_in)} {moved}"
    odd = f", then {say.exact(odd_in)} more along the level arm" if odd_in > 1e-9 else ""
    return f"{steps} of {level} and {rise}{odd}: {say.long(found.stepped_in)}{laid}"


def _table(found: RunLength, say: LengthWords) -> str:
    if say.units.is_metric:
        number = f"{per_meter(found.table_number):.1f} for every 1000 mm"
        return f"{number} of the common's run: {say.long(found.table_in)}"
    moved = "longer" if found.rounding_in > 0 else "shorter"
    return (
        f"{found.table_number:.2f} for every 12 in of the common's run:"
        f" {say.long(found.table_in + found.rounding_in)};"
        f" the printed rounding makes it {say.off(found.rounding_in)} {moved}"
    )


def _head(found: RunLength, head: CheekPoints, say: LengthWords) -> list[str]:
    cut = head.shortening
    lines = [
        f"SHORTEN     {say.exact(cut.level_in)} level, square back from the plumb line, on the"
        " middle of the thickness",
        f"  along      {say.exact(cut.along_in)} along the board",
    ]
    ends = [("long point", head.long_in), ("middle", head.centre_in), ("short end", head.short_in)]
    if abs(head.long_in - head.short_in) < 1e-9:
        ends = [("to the cut", head.centre_in)]
    return lines + [f"  {name:10} {say.long_exact(found.table_in + off)}" for name, off in ends]


def _counts(stick: StickName) -> list[str]:
    """What this head counts, where a whole roof may cut another one."""
    if stick is not StickName.hip:
        return []
    return [
        "  head       one cheek on the ridge. Between two commons a hip has two cheeks, and other",
        "             lengths: `squaresaw roof` gives those, and `squaresaw roof --hip-head ridge`"
        " these",
    ]


def _mouth(
    mouth: BirdsMouth, line: CarrierSeat | None, top: CarrierTop | None, say: LengthWords
) -> list[str]:
    lines = [
        f"BIRD'S MOUTH seat {say.size(mouth.seat_in)} level, heel {say.size(mouth.heel_in)} plumb",
        f"  height     {say.exact(mouth.height_above_plate_in)} above the plate, plumb",
        f"  notch      {say.exact(mouth.notch_depth_in)} square to the edge;"
        f" {say.exact(mouth.left_in)} of wood is left above it",
    ]
    if line is None or top is None:
        return lines
    heels = [
        f"{say.exact(abs(heel_in))} level from the middle's, toward the"
        f" {'head' if heel_in > 0 else 'foot'}"
        for heel_in in (line.own_heel_in, line.other_heel_in)
    ]
    lines += _on_faces("heel", "on the {face} {value}", *heels)
    if top.way == "backed":
        rips = [say.exact(rip_in) for rip_in in (top.own_rip_in, top.other_rip_in)]
        rip = "the rip reaches {value} down the {face}, square to the edge"
        lines += _on_faces("backed", rip, *rips)
    if top.way == "dropped":
        lines.append(f"  dropped    {say.exact(top.lowered_in)} plumb: the seat is cut deeper")
    return lines


def _on_faces(name: str, words: str, own: str, other: str) -> list[str]:
    """What holds on a hip's or valley's two faces: one line where they are alike, else two."""
    faces = {"face toward this roof": own, "face toward the other roof": other}
    if own == other:
        faces = {"faces": own}
    told = [words.format(face=face, value=value) for face, value in faces.items()]
    return [f"  {head:10} {line}" for head, line in zip((name, ""), told, strict=False)]


def _tail(tails: Tail | CarrierTail, say: LengthWords) -> list[str]:
    along_in = tails.along_in if isinstance(tails, Tail) else tails.long_in
    return [f"TAIL        {say.long(along_in)} more along the board, to its long point"]


def _beside(rows: tuple[Comparison, ...], say: LengthWords) -> list[str]:
    return [
        CODE_HEAD,
        *(
            f"  {row.section}     {row.what} {say.rounded(row.here_in)};"
            f" {row.says} {say.rounded(row.code_in)}; {row.advice}"
            for row in rows
        ),
    ]
