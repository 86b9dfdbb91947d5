"""`squaresaw packet`: everything a crew needs to cut and raise a job's roof, as one document."""

import json
from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from layout.answer.wording import pitch_words
from layout.errors import FrameError
from lessons.cli import job_option, replacing
from lessons.cli.bars import counted, progress_bar
from lessons.cli.commands import options
from lessons.cli.commands.cut_options import AnswerOptions


def packet(
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", metavar="FILE", help="The .pdf file to write."),
    ] = None,
    paper: options.PaperOption = usual.PAPER,
    *,
    near: AnswerOptions,
    as_csv: options.CsvOption = False,
    as_json: options.JsonOption = False,
) -> None:
    """Print a whole job: lists, stick sheets, templates."""
    job = job_option.current()
    if job is None:
        raise FrameError("a packet needs its job; write one with `squaresaw job new porch.toml`")
    if output is None and not (as_csv or as_json):
        raise FrameError("say where the packet goes: give -o packet.pdf, or --json or --csv")
    if output is not None and output.suffix.casefold() != ".pdf":
        raise FrameError(f"cannot write {output.name!r}: a packet's name must end in .pdf")
    from figures.files.whole import check_place

    if output is not None:
        check_place(output)
    from figures.files.binding import Bookmark
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from figures.packet.packet import packet as made_of
    from figures.page.tiling import PrintSetup
    from layout.job.job_roof import framed
    from lessons.cli import packet_rows, printers
    from lessons.say.version import version

    roof = framed(job)
    printer = job.given("printer")
    setup = PrintSetup(read_paper(paper))
    if printer is not None:
        setup = PrintSetup(read_paper(paper), correction=printers.kept(printer))
    metric = near.units.is_metric
    pitches = dict.fromkeys(pitch_words(face.pitch, metric=metric) for face in roof.faces)
    given = f"{' and '.join(pitches)}; geometry only, the approved drawings govern"

    with counted("drawing sheet") as show:
        made = made_of(
            roof, setup, title=f"Packet: {job.name}", given=given, version=version(),
            told=near.answer, metric=metric, on_sheet=show,
        )  # fmt: skip
    if output is not None:
        with progress_bar("printing", len(made.pages)) as step:
            written = write(
                made.pages,
                output,
                title=f"Packet: {job.name}",
                subject="Cut list, stick sheets, full-size templates and layout of one roof",
                bookmarks=[Bookmark(name, page - 1) for name, page in made.parts],
                on_page=step,
            )
        replacing.report(written)
    if as_json:
        typer.echo(json.dumps(packet_rows.contract(roof, made), indent=1, allow_nan=False))
    elif as_csv:
        typer.echo(packet_rows.csv(roof, made), nl=False)
