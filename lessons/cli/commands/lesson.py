"""`squaresaw lesson`: one lesson, in words on the terminal or on sheets to hand out."""

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from layout.errors import LayoutError
from lessons.cli import job_option, replacing
from lessons.cli.commands import options
from lessons.cli.commands.book import write_html
from lessons.cli.commands.cut_options import SawOptions
from lessons.cli.idle_options import refuse_idle
from lessons.course.condition import CONDITIONS
from lessons.course.lesson import (
    PICTURES,
    Lesson,
    LessonError,
    catalog,
    checked_name,
    find_lesson,
    lesson_files,
    read_lesson,
)
from lessons.course.lesson_rules import rule_faults
from lessons.course.lesson_starter import starter
from lessons.course.runner import run
from lessons.course.taught_before import order_faults
from lessons.mistakes.cut_mistakes import mistakes
from lessons.say.plain import in_words
from lessons.say.units import UNITS, System
from lessons.values.all_values import values


def lesson(
    context: typer.Context,
    name: Annotated[
        str | None,
        typer.Argument(
            metavar="[LESSON]",
            help="A lesson, or a job's stick; or `new`, `check`, `values`; none lists them.",
        ),
    ] = None,
    what: Annotated[
        str | None,
        typer.Argument(metavar="[WHAT]", help="For `new` a name, for `check` a folder or a file."),
    ] = None,
    pitch: Annotated[
        str | None,
        typer.Option("--pitch", metavar="PITCH", help="This roof, in place of the lesson's."),
    ] = None,
    other_pitch: options.OtherPitchOption = None,
    corner: options.CornerOption = None,
    hand: Annotated[
        options.HandName | None, typer.Option("--hand", help="The side the cheek faces.")
    ] = None,
    stock: options.StockOption = None,
    units: Annotated[System, typer.Option("--units", help="Inch or metric.")] = System.INCH,
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", metavar="FILE", help="A file to write: .pdf, .html or .svg."
        ),
    ] = None,
    *,
    sawn: SawOptions,
    paper: options.PaperOption = usual.PAPER,
    templates: options.TemplatesOption = True,
    catalog_folder: Annotated[
        Path | None,
        typer.Option(
            "--catalog",
            metavar="FOLDER",
            help="Your own lessons, beside the course's; `new` writes into it.",
        ),
    ] = None,
) -> None:
    """Teach one cut: by handsaw, by saw, and what goes wrong."""
    if name == "new":
        refuse_idle(context, "squaresaw lesson new", "name", "what", "catalog_folder")
        _new(what, catalog_folder)
        return
    if name == "check":
        place = "what" if what else "catalog_folder"
        refuse_idle(context, f"squaresaw lesson check{' ' + what if what else ''}", "name", place)
        _check(Path(what) if what else catalog_folder)
        return
    if name == "values":
        refuse_idle(context, "squaresaw lesson values", "name")
        typer.echo("\n".join(_values()))
        return
    lessons = catalog(catalog_folder)
    if name is None:
        refuse_idle(context, "squaresaw lesson", "catalog_folder")
        _list(lessons)
        return
    if what is not None:
        raise LessonError(f"`squaresaw lesson {name}` has no use for {what!r}; leave it out")
    given = {
        "pitch": pitch,
        "other_pitch": other_pitch,
        "corner": corner,
        "hand": hand.value if hand else None,
        "stock": stock,
    }
    asked_for = {key: text for key, text in given.items() if text is not None}
    limits = sawn.limits
    taught = _taught(lessons, name)
    worked = run(taught, {**(taught.on_roof or {}), **asked_for}, units, limits)
    if output is None:
        typer.echo(in_words(worked.blocks))
        return
    from figures.files.whole import check_ending

    check_ending(output, ".pdf", ".html", ".svg")
    suffix = output.suffix.casefold()
    if suffix == ".html":
        replacing.report([write_html([worked], output, worked.lesson.title)])
        return
    from figures.files.whole import check_place
    from figures.ink.paper import read_paper
    from lessons.pages.book import single, write_book

    check_place(output)
    sheets = single(worked, read_paper(paper), templates=templates)
    replacing.report(write_book(sheets, output, worked.lesson.title))


def _taught(lessons: dict[str, Lesson], name: str) -> Lesson:
    """The lesson of that name on the job's roof and boards, or the one about a stick's cut."""
    job = job_option.current()
    if job is None and not options.is_stick(name):
        return find_lesson(lessons, name)
    from lessons.cli.stick_lessons import lesson_on_stick, lessons_on_job

    if options.is_stick(name):
        return lesson_on_stick(lessons, name)
    return lessons_on_job(lessons, [name], job)[0]


def _list(lessons: dict[str, Lesson]) -> None:
    width = max(len(name) for name in lessons)
    for one in lessons.values():
        typer.echo(f"{one.number:3}  {one.name:{width}}  {one.title}")


def _values() -> Iterator[str]:
    """All that a lesson's file may name."""
    width = max(len(one.form) for one in values().values())
    yield "VALUES, written in a text"
    for kind, units in UNITS.items():
        yield f"  of the kind {kind}, {'units :' + ' :'.join(units) if units else 'no unit'}"
        for one in values().values():
            if one.kind == kind:
                yield f"    {one.form:{width}}  {one.means}"
    yield "CONDITIONS, after `when`, with commas between them"
    yield from (f"  {condition}" for condition in CONDITIONS)
    yield "MISTAKES, by name"
    wide = max(len(mistake) for mistake in mistakes())
    yield from (f"  {name:{wide}}  {mistake.does}" for name, mistake in mistakes().items())
    yield "PICTURES, by name"
    yield from (f"  {name}" for name in PICTURES)


def _new(name: str | None, folder: Path | None) -> None:
    """Write a lesson to start from, into the folder of own lessons or where the user stands."""
    from figures.files.whole import check_place, save_whole

    file = f"{checked_name(name or '')}.toml"
    path = folder / file if folder else Path(file)
    if path.exists() or path.is_symlink():
        raise LessonError(f"{path} is there already; give another name")
    check_place(path)
    save_whole({path: starter(path.stem, folder).encode()})
    typer.echo(f"wrote {path}; `squaresaw lesson check {path}` says what is wrong with it")


def _check(place: Path | None) -> None:
    """Hold every lesson of a folder, or a file, to the course's rules: a line each fault."""
    if place is None:
        lessons: dict[str, Lesson | Path] = dict(catalog())
    elif place.is_file():
        lessons = {place.stem: place}
    else:
        lessons = {path.stem: path for path in lesson_files(place)}
        if not lessons:
            raise LessonError(f"there is no lesson (*.toml) in {str(place)!r}")
    bad = 0
    for name, one in lessons.items():
        faults = list(_faults(one))
        bad += bool(faults)
        for fault in faults or ["good"]:
            typer.echo(f"{name}: {fault}")
    if bad:
        raise LessonError(f"{bad} of {len(lessons)} lessons have faults")


def _faults(lesson: Lesson | Path) -> Iterator[str]:
    """What is wrong with a lesson, or with the file of one; nothing for a good one.

    One that cannot be read has the faults of its file; else each rule that it does not keep.
    """
    try:
        one = read_lesson(lesson) if isinstance(lesson, Path) else lesson
        worked = [run(one, None, system) for system in System]
    except LessonError as error:
        yield from (str(error), *error.more)
        return
    except LayoutError as error:
        yield str(error)
        return
    yield from rule_faults(worked[0])
    yield from order_faults(one, catalog())
