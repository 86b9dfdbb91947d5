"""`squaresaw yard-check`: three test cuts by hand and by saw, and what they measured."""

import typer

from layout import usual
from layout.stock import read_stock
from lessons.cli import replacing
from lessons.cli.bars import progress_bar
from lessons.cli.commands import options
from lessons.pages.yard import cuts_of_the_day, in_blocks
from lessons.say.plain import in_words
from lessons.say.units import System


def yard_check(
    stock: options.StockOption = None,
    units: options.UnitsOption = System.INCH,
    output: options.OutputOption = None,
    paper: options.PaperOption = usual.PAPER,
) -> None:
    """Test cuts for one day in the yard, with templates."""
    cuts = cuts_of_the_day(read_stock(stock) if stock else None)
    if output is None:
        typer.echo(in_words(in_blocks(cuts, units)))
        return
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from lessons.pages.yard_pages import yard_pages

    with progress_bar("drawing", len(cuts)) as step:
        made = yard_pages(cuts, read_paper(paper), units, step)
    with progress_bar("printing", len(made)) as step:
        written = write(made, output, title="Yard check", subject="Three test cuts", on_page=step)
    replacing.report(written)
