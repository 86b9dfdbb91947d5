"""`squaresaw worksheet`: different sheets for a class, and their keys."""

import csv
import io
from itertools import islice
from pathlib import Path
from random import SystemRandom
from typing import Annotated

import typer

from figures.files.whole import check_places
from layout import usual
from lessons.cli import job_option, replacing
from lessons.cli.bars import progress_bar
from lessons.cli.commands import drill_options, options
from lessons.cli.commands.cut_options import SawOptions
from lessons.cli.stick_lessons import drilled_on_job
from lessons.course.lesson import LessonError, catalog
from lessons.drill.problem_words import problem_blocks
from lessons.drill.roster import RosterError, read_roll
from lessons.drill.worksheet import (
    MOST_SHEETS,
    USUAL_PROBLEMS,
    Series,
    Worksheet,
    fault_words,
    marked_runs,
    meanings,
    rows,
    sheet_of,
    sheets,
)
from lessons.say.blocks import Block, Facts, Heading, Paragraph
from lessons.say.plain import in_words
from lessons.say.reading import read_text
from lessons.say.units import System


def worksheet(
    names: Annotated[
        list[str] | None,
        typer.Argument(metavar="[LESSON...]", help="Lessons, or a job's sticks; none takes all."),
    ] = None,
    many: Annotated[
        int,
        typer.Option("--sheets", min=1, max=MOST_SHEETS, metavar="NUMBER", help="How many sheets."),
    ] = 1,
    seed: drill_options.SeedOption = None,
    kind: drill_options.KindOption = None,
    problems: Annotated[
        int,
        typer.Option(
            "--problems", min=1, max=20, metavar="NUMBER", help="How many problems a sheet."
        ),
    ] = USUAL_PROBLEMS,
    units: options.UnitsOption = System.INCH,
    *,
    sawn: SawOptions,
    output: Annotated[
        Path | None, typer.Option("--output", "-o", metavar="FILE", help="A .pdf file to write.")
    ] = None,
    answers: Annotated[
        Path | None,
        typer.Option("--answers", metavar="FILE", help="A .csv file of the answers to write."),
    ] = None,
    key_of: Annotated[
        int | None,
        typer.Option(
            "--key-of",
            metavar="NUMBER",
            min=1,
            max=MOST_SHEETS,
            help="The key of this sheet alone.",
        ),
    ] = None,
    paper: options.PaperOption = usual.PAPER,
    catalog_folder: options.CatalogOption = None,
    roll: Annotated[
        Path | None,
        typer.Option("--class", metavar="FILE", help="A class's roll: a sheet for each name."),
    ] = None,
    key: Annotated[
        Path | None,
        typer.Option("--key", metavar="FILE", help="A .pdf of the keys, apart from the sheets."),
    ] = None,
) -> None:
    """Sheets of problems, with the key on pages of its own."""
    if key_of is not None and seed is None:
        raise LessonError("a key is found by the sheet's number and its seed: give --seed too")
    if key_of is None and output is None and answers is None and key is None:
        raise LessonError("say where the sheets go: give -o sheets.pdf, or --answers key.csv")
    lessons = catalog(catalog_folder)
    named = tuple(names or ())
    chosen = tuple(drilled_on_job(lessons, named or tuple(lessons), job_option.current()))
    series = Series(
        chosen,
        named,
        SystemRandom().randrange(1, 10_000) if seed is None else seed,
        problems,
        drill_options.drill_kind(kind),
        units,
        str(catalog_folder) if catalog_folder else "",
        read_roll(read_text(roll, RosterError), str(roll)) if roll else (),
        sawn.limits,
        job_option.path(),
        str(roll) if roll else "",
    )
    many = len(series.learners) or many
    places = [(output, ".pdf"), (answers, ".csv"), (key, ".pdf")]
    for path, suffix in places:
        if path is not None:
            _check_suffix(path, suffix)
    check_places(path for path, _ in places if path is not None)
    made = [sheet_of(series, key_of)] if key_of else list(islice(sheets(series), many))
    if output is not None:
        _print(made, series, output, paper, key_alone=key_of is not None, keys=key is None)
    elif key_of is not None:
        typer.echo(in_words(_key_blocks(made[0])))
    if key is not None:
        _print_keys(made, key, paper)
    if answers is not None:
        _write_answers(made, answers)
    if key_of is None and (without := _without_problem(series, made)):
        typer.echo(
            f"no sheet has a problem from {', '.join(without)};"
            " give more --problems, or another --kind"
        )
    if seed is None:
        typer.echo(f"seed {series.seed}")


def _without_problem(series: Series, made: list[Worksheet]) -> list[str]:
    """The lessons that the command names and no sheet asks about."""
    asked = {problem.lesson.name for sheet in made for problem in sheet.problems}
    return [one.name for one in series.lessons if series.named and one.name not in asked]


def _check_suffix(path: Path, suffix: str) -> None:
    if path.suffix.casefold() != suffix:
        raise LessonError(f"cannot write {path.name!r}: the name must end in {suffix}")


def _print_keys(made: list[Worksheet], output: Path, paper: str) -> None:
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from lessons.pages.worksheet_pages import keys_bundle

    bound = keys_bundle(made, read_paper(paper))
    replacing.report(
        write(
            bound.pages,
            output,
            title="Keys to the practice sheets",
            subject="Keys",
            bookmarks=bound.bookmarks,
            page_labels=bound.labels,
        )
    )


def _print(
    made: list[Worksheet], series: Series, output: Path, paper: str, *, key_alone: bool, keys: bool
) -> None:
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from lessons.pages.worksheet_pages import bundle, key_bundle, title

    on = read_paper(paper)
    with progress_bar("drawing", len(made)) as step:
        bound = key_bundle(made[0], on) if key_alone else bundle(made, on, keys=keys, on_sheet=step)
    with progress_bar("printing", len(bound.pages)) as step:
        written = write(
            bound.pages,
            output,
            title=f"Key to sheet {made[0].number}" if key_alone else title(series, len(made)),
            subject="Practice sheets with keys",
            bookmarks=bound.bookmarks,
            page_labels=bound.labels,
            on_page=step,
        )
    replacing.report(written)


def _write_answers(made: list[Worksheet], path: Path) -> None:
    from figures.files.whole import save_whole

    table = io.StringIO()
    lines = [row for sheet in made for row in rows(sheet)]
    writer = csv.DictWriter(table, list(lines[0]), lineterminator="\n")
    writer.writeheader()
    writer.writerows(lines)
    save_whole({path: table.getvalue().encode("utf-8")})
    replacing.report([path])


def _key_blocks(sheet: Worksheet) -> list[Block]:
    blocks: list[Block] = [Heading(f"Key: {sheet.series.stamp(sheet.number)}", 1)]
    for number, problem in enumerate(sheet.problems, start=1):
        blocks.append(Heading(f"Problem {number}"))
        blocks += problem_blocks(problem)
        blocks.append(Paragraph(f"Answer: {problem.answer_text}."))
        if problem.layout is not None:
            blocks.append(Paragraph(fault_words(problem)))
        runs = marked_runs(problem)
        if runs:
            blocks.append(Paragraph(f"Measured: {'; '.join(runs)}."))
        blocks.append(Paragraph(f"Because: {problem.because}"))
        found = meanings(problem)
        if found:
            blocks.append(Facts(tuple((one.answer, " Or: ".join(one.does)) for one in found)))
    return blocks
