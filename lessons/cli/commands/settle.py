"""`squaresaw settle`: two carpenters, two claims about a cut, and who is right."""

import json
import sys
from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from layout.errors import LayoutError
from layout.quantity import read_building_length, read_length
from layout.stock import read_stock
from lessons.cli import replacing
from lessons.cli.board_order import say_order
from lessons.cli.commands import options
from lessons.cli.commands.cut_options import AnswerOptions, CutOptions
from lessons.settle.argument import argued
from lessons.settle.findings import ClaimVerdict
from lessons.settle.lengths import Building
from lessons.settle.settle_contract import SETTLED_SCHEMA, settled_contract
from lessons.settle.settle_words import read_settled
from lessons.settle.statements import Statement, has_own_cut, statements

NOT_UNDERSTOOD = 2
"""Exit code where no claim at all was understood, as for every other bad input."""
ClaimOption = Annotated[
    list[str] | None,
    typer.Option(
        "--claim",
        metavar="CLAIM",
        help="What is said, in any words: plumb 12 in 12, saw 45. Repeat it.",
    ),
]
FromOption = Annotated[
    Path | None,
    typer.Option("--claims-from", metavar="FILE", help="A text file with a claim on each line."),
]


def settle(
    cut: options.CutArgument,
    about: CutOptions,
    within: AnswerOptions,
    claim: ClaimOption = None,
    claims_from: FromOption = None,
    run: Annotated[
        str | None,
        typer.Option("--run", metavar="LENGTH", help="The common's level run, for lengths: 12'."),
    ] = None,
    spacing: Annotated[
        str, typer.Option("--spacing", metavar="LENGTH", help="Jacks on center, for lengths.")
    ] = usual.SPACING,
    ridge: Annotated[
        str,
        typer.Option(
            "--ridge", metavar="BOARD", callback=say_order, help="Stock of the ridge, for lengths."
        ),
    ] = usual.RIDGE,
    seat: Annotated[
        str, typer.Option("--seat", metavar="LENGTH", help="Level seat, for lengths.")
    ] = usual.SEAT,
    output: options.OutputOption = None,
    paper: options.PaperOption = usual.PAPER,
    as_json: options.JsonOption = False,
) -> int:
    """Who is right about a cut: judge claims in any words."""
    answer = within.answer(about.question(cut))
    said = [*(claim or []), *(_lines(claims_from) if claims_from else [])]
    if not said and claims_from is None and sys.stdin.isatty():
        said = _asked()
    building = Building(
        read_building_length(run) if run is not None else None,
        read_length(spacing),
        read_stock(ridge).thickness_in,
        read_length(seat),
    )
    if any(has_own_cut(line) for line in said):
        _correct(statements(said, answer, building), output, paper, as_json=as_json)
        return 0
    settled = argued(answer, said, building)
    if all(finding.verdict is ClaimVerdict.UNREAD for finding in settled.findings):
        if as_json:
            typer.echo(json.dumps(settled_contract(settled), indent=1))
        for finding in settled.findings:
            heard = finding.heard
            quoted = f'"{heard.quoted}": ' if heard.quoted else ""
            typer.echo(f"squaresaw: {quoted}{heard.why}; {heard.offer}", err=True)
        return NOT_UNDERSTOOD
    written: tuple[Path, ...] = ()
    if output is not None:
        from figures.files.press import write
        from figures.ink.paper import read_paper
        from lessons.settle.settle_page import settled_pages

        pages = settled_pages(settled, read_paper(paper))
        written = write(pages, output, title=pages[0].title, subject=pages[0].description)
    if as_json:
        typer.echo(json.dumps(settled_contract(settled), indent=1))
        return 0
    typer.echo(read_settled(settled))
    replacing.report(written)
    if output is not None and len(pages) > 1:
        typer.echo(f"{len(pages)} pages: the claims with their pictures take more than one")
    return 0


def _correct(found: list[Statement], output: Path | None, paper: str, *, as_json: bool) -> None:
    """The page of statements: each about its own cut."""
    from lessons.settle.statements_page import read_statements, statement_pages

    written: tuple[Path, ...] = ()
    if output is not None:
        from figures.files.press import write
        from figures.ink.paper import read_paper

        pages = statement_pages(found, read_paper(paper))
        written = write(pages, output, title=pages[0].title, subject=pages[0].description)
    if as_json:
        told = [
            {
                "claim": one.text,
                "about": one.about,
                "verdict": one.finding.verdict.value,
                "is_so": one.so,
                "holds": one.holds,
                "cost": one.cost,
                "test": one.test,
            }
            for one in found
        ]
        typer.echo(json.dumps({"schema": SETTLED_SCHEMA, "statements": told}, indent=1))
        return
    typer.echo(read_statements(found))
    replacing.report(written)


def _lines(path: Path) -> list[str]:
    """The claims of a text file: a line each; empty lines and lines after # say nothing."""
    try:
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        raise LayoutError(f"{path} cannot be read: {error.strerror}; give a text file") from None
    except UnicodeDecodeError:
        raise LayoutError(f"{path} is no text; give a text file, a claim on each line") from None
    lines = (line.strip() for line in text.splitlines())
    return [line for line in lines if line and not line.startswith("#")]


def _asked() -> list[str]:
    """Ask for the claims one by one until an empty answer."""
    said: list[str] = []
    while True:
        prompt = f"Claim {len(said) + 1} (Enter when done)"
        answer = typer.prompt(prompt, default="", show_default=False)
        if not answer.strip():
            return said
        said.append(answer)
