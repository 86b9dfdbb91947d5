"""`squaresaw settle`: two carpenters, two claims about a cut, and who is right."""

import json
from pathlib import Path
from typing import Annotated

import typer

from lessons.cli.commands import options
from lessons.settle.grammar import read_claim
from lessons.settle.settle import settle as settle_claims
from lessons.settle.settle_contract import settled_contract
from lessons.settle.settle_words import read_settled

ClaimOption = Annotated[
    list[str] | None,
    typer.Option(
        "--claim", metavar="CLAIM", help="What is said: plumb 12 in 12, saw 45. Give one to six."
    ),
]


def settle(
    cut: options.CutArgument,
    claim: ClaimOption = None,
    pitch: options.PitchOption = "8 in 12",
    other_pitch: options.OtherPitchOption = None,
    corner: options.CornerOption = None,
    sides: options.SidesOption = None,
    hand: options.HandOption = options.HandName.left,
    end: options.EndOption = None,
    stock: options.StockOption = None,
    roll: options.RollOption = "0",
    tolerance: options.ToleranceOption = "1/32",
    tilt_step: options.TiltStepOption = "1/2",
    max_tilt: options.MaxTiltOption = "50",
    output: options.OutputOption = None,
    paper: options.PaperOption = "Letter",
    as_json: options.JsonOption = False,
) -> None:
    """Settle an argument about a cut."""
    asked = options.question(cut, pitch, other_pitch, corner, sides, hand, end, stock, roll)
    answer = options.answered(asked, tolerance, tilt_step, max_tilt)
    settled = settle_claims(answer, [read_claim(text) for text in claim or []])
    written: tuple[Path, ...] = ()
    if output is not None:
        from figures.files.press import write
        from figures.ink.paper import read_paper
        from lessons.settle.settle_page import settled_pages

        pages = settled_pages(settled, read_paper(paper))
        written = write(pages, output, title=pages[0].title, subject=pages[0].description)
    if as_json:
        typer.echo(json.dumps(settled_contract(settled), indent=1))
        return
    typer.echo(read_settled(settled))
    options.report(written)
