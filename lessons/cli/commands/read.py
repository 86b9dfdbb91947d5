"""`squaresaw read`: a sawn end read back: which plane, which tilt, which mistake."""

import json
from enum import StrEnum
from typing import Annotated

import typer

from layout.answer.answer import Answer
from layout.errors import LayoutError
from layout.quantity import read_length
from lessons.cli.commands import options
from lessons.cli.commands.cut_options import AnswerOptions, CutOptions
from lessons.settle.cut_back import CutBack, read_back, read_rip
from lessons.settle.cut_back_words import read_aloud


class OpensAt(StrEnum):
    """Where the gap against the mate opens."""

    long_point = "long-point"
    heel = "heel"


def read(
    cut: options.CutArgument,
    about: CutOptions,
    within: AnswerOptions,
    edge: Annotated[
        str | None,
        typer.Option("--edge", metavar="MARK", help='Edge mark: "8 3/8 on 12", "50 from square".'),
    ] = None,
    face: Annotated[
        str | None,
        typer.Option("--face", metavar="MARK", help='Face mark: "33.7 degrees", "8 in 12".'),
    ] = None,
    long_point: Annotated[
        str | None,
        typer.Option("--long-point", metavar="LENGTH", help="How far the longer face is ahead."),
    ] = None,
    gap: Annotated[
        str | None,
        typer.Option("--gap", metavar="LENGTH", help="Widest gap against what it meets."),
    ] = None,
    opens_at: Annotated[
        OpensAt | None, typer.Option("--opens-at", help="Where that gap opens.")
    ] = None,
    across: Annotated[
        str | None,
        typer.Option("--across", metavar="LENGTH", help="A rip: the bevel's breadth on the edge."),
    ] = None,
    drop: Annotated[
        str | None,
        typer.Option("--drop", metavar="LENGTH", help="A rip: how far it drops down the face."),
    ] = None,
    as_json: options.JsonOption = False,
) -> None:
    """Read a sawn end back: its plane, its tilt, its mistake."""
    answer = within.answer(about.question(cut))
    if across is not None or drop is not None:
        found = [_rip(answer, across, drop)]
    else:
        found = read_back(
            answer,
            edge=edge,
            face=face,
            long_point_in=read_length(long_point) if long_point is not None else None,
            gap_in=read_length(gap) if gap is not None else None,
            opens_at=None if opens_at is None else opens_at.value.replace("-", " "),
        )
    if as_json:
        typer.echo(json.dumps({"schema": 1, "planes": [_plane(one) for one in found]}, indent=1))
        return
    typer.echo(read_aloud(found))


def _rip(answer: Answer, across: str | None, drop: str | None) -> CutBack:
    if across is None or drop is None:
        raise LayoutError("a rip is read by both: --across 3/4 --drop 5/16")
    return read_rip(answer, across_in=read_length(across), drop_in=read_length(drop))


def _plane(found: CutBack) -> dict[str, object]:
    return {
        "normal": [float(part) for part in found.normal],
        "face_deg": found.face_deg,
        "edge_deg": None if found.true_answer.is_rip else found.edge_deg,
        "edge_number": None if found.true_answer.is_rip else found.edge_number,
        "tilt_deg": found.tilt_deg,
        "gap_in": found.judged.gap_in,
        "fits": found.judged.fits,
        "mistakes": [
            {"name": one.mistake.name, "does": one.mistake.does, "apart_in": one.off_in}
            for one in found.mistakes
        ],
        "recut_in": found.recut_in,
    }
