"""`squaresaw book`: lessons bound into one PDF, or into one page for the browser."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from layout.errors import LayoutError
from lessons.cli import replacing
from lessons.cli.bars import counted, progress_bar
from lessons.cli.commands import options
from lessons.cli.commands.cut_options import SawOptions
from lessons.course.lesson import Lesson, LessonError, catalog, find_lesson
from lessons.course.runner import Worked, run
from lessons.say.units import System


class EditionName(StrEnum):
    """For whom a book is printed."""

    apprentice = "apprentice"
    instructor = "instructor"
    field = "field"


def book(
    names: Annotated[
        list[str] | None,
        typer.Argument(metavar="[LESSON]...", help="Lessons by name, in this order; else all."),
    ] = None,
    output: Annotated[
        Path,
        typer.Option("--output", "-o", metavar="FILE", help="The file to write: .pdf or .html."),
    ] = Path("lessons.pdf"),
    pitch: Annotated[
        str | None,
        typer.Option("--pitch", metavar="PITCH", help="Own roof, in place of the lessons'."),
    ] = None,
    stock: options.StockOption = None,
    units: options.UnitsOption = System.INCH,
    *,
    sawn: SawOptions,
    paper: options.PaperOption = usual.PAPER,
    catalog_folder: options.CatalogOption = None,
    templates: options.TemplatesOption = True,
    edition: Annotated[
        EditionName,
        typer.Option(
            "--edition",
            help="apprentice (no answers), instructor (with notes), field (cards).",
        ),
    ] = EditionName.apprentice,
    bench: Annotated[
        bool, typer.Option("--bench", help="In a .html: add the moving bench of its cuts.")
    ] = False,
) -> None:
    """Bind lessons into a book for the printer or the browser."""
    from figures.files.whole import check_ending, check_place

    suffix = output.suffix.casefold()
    check_ending(output, ".pdf", ".html")
    lessons = catalog(catalog_folder)
    chosen = [find_lesson(lessons, name) for name in names] if names else list(lessons.values())
    given = {key: text for key, text in (("pitch", pitch), ("stock", stock)) if text is not None}
    limits = sawn.limits
    check_place(output)
    worked = []
    for lesson in chosen:
        try:
            worked.append(run(lesson, given, units, limits))
        except LayoutError as error:
            raise LessonError(f"lesson {lesson.name}: {error}") from error
    if suffix == ".html":
        replacing.report([write_html(worked, output, bench=bench)])
    else:
        replacing.report(_write_pdf(worked, output, paper, templates, edition.value))


def write_html(
    worked: list[Worked], output: Path, title: str | None = None, *, bench: bool = False
) -> Path:
    """Write lessons as one page for the browser, with a bar while they are drawn."""
    from figures.files.whole import check_place, save_whole
    from lessons.pages.webpage import webpage

    check_place(output)
    with progress_bar("drawing", len(worked)) as step:
        text = webpage(worked, title, on_lesson=step)
    if bench:
        text = _benched(text, [one.lesson for one in worked])
    save_whole({output: text.encode()})
    return output


def _benched(text: str, lessons: list[Lesson]) -> str:
    """The book with the moving bench of its lessons' cuts."""
    from lessons.bench.inside import with_bench
    from lessons.bench.page import packed_parts
    from lessons.bench.steps import places

    names = {lesson.entry.name for lesson in lessons}
    chosen = [place for place in places() if place[0].name in names]
    with progress_bar("packing", len(chosen) + 2 * len(lessons)) as step:
        return with_bench(text, *packed_parts(chosen, lessons, step))


def _write_pdf(
    worked: list[Worked], output: Path, paper: str, templates: bool, edition: str
) -> tuple[Path, ...]:
    from figures.files.at_once import cores
    from figures.ink.paper import read_paper
    from lessons.pages.book import bind, write_book
    from lessons.pages.edition import Edition

    sheet = read_paper(paper)
    with counted("drawing part") as show:
        bound = bind(
            worked, sheet, Edition(edition), templates=templates, processes=cores(), on_part=show
        )
    typer.echo(f"{edition} edition: {bound.says}, on {sheet.name}")
    with progress_bar("printing", len(bound.pages)) as step:
        return write_book(bound, output, "Roof framing lessons", step)
