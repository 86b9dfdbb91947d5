"""`squaresaw class`: the roll of a class, and what its results say."""

from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from lessons.cli import replacing
from lessons.cli.commands import options
from lessons.course.lesson import Lesson, catalog
from lessons.drill.mistake_names import mistake_facts
from lessons.drill.roster import (
    ClassTable,
    RosterError,
    class_table,
    read_names,
    read_results,
    roll_text,
    table_text,
)
from lessons.say.blocks import Block, Facts, Heading, Paragraph, TableBlock
from lessons.say.how_many import how_many
from lessons.say.plain import in_words
from lessons.say.reading import read_text

ROLL = Path("roll.csv")


def class_roll(
    what: Annotated[
        str, typer.Argument(metavar="new|read", help="`new` makes a roll, `read` reads results.")
    ],
    files: Annotated[
        list[Path],
        typer.Argument(metavar="FILE...", help="For new: names, one a line; for read: results."),
    ],
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", metavar="FILE", help="new: the roll, .csv; read: .csv or .pdf."
        ),
    ] = None,
    paper: options.PaperOption = usual.PAPER,
    catalog_folder: options.CatalogOption = None,
) -> None:
    """A class: its roll, and a table of who can do what."""
    if what == "new":
        _new(files, output or ROLL)
    elif what == "read":
        _read(files, output, paper, catalog(catalog_folder))
    else:
        raise RosterError(f"class does not know {what!r}; use `class new` or `class read`")


def _new(files: list[Path], output: Path) -> None:
    from figures.files.whole import save_whole

    if len(files) != 1:
        raise RosterError("one file of names makes a roll; give one")
    if output.suffix.casefold() != ".csv":
        raise RosterError(f"cannot write {output.name!r}: the name of a roll must end in .csv")
    names = read_names(read_text(files[0], RosterError), str(files[0]))
    save_whole({output: roll_text(names).encode()})
    replacing.report([output])
    typer.echo(
        f"{how_many(len(names), 'learner')}; print their sheets with"
        f" `squaresaw worksheet --class {output} -o sheets.pdf --key key.pdf --answers results.csv`"
    )


def _read(files: list[Path], output: Path | None, paper: str, lessons: dict[str, Lesson]) -> None:
    suffix = output.suffix.casefold() if output else ""
    if output is not None and suffix not in (".csv", ".pdf"):
        raise RosterError(f"cannot write {output.name!r}: the name must end in .csv or .pdf")
    _check_once(files)
    results = [
        result
        for path in files
        for result in read_results(read_text(path, RosterError), str(path), lessons)
    ]
    if not results:
        raise RosterError("no answer in these files is graded: fill in the column `right`")
    made = class_table(results, list(lessons))
    typer.echo(in_words(_blocks(made, lessons)))
    if output is None:
        return
    if suffix == ".csv":
        from figures.files.whole import save_whole

        save_whole({output: table_text(made).encode()})
        replacing.report([output])
        return
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from lessons.pages.class_page import class_page

    numbers = {name: lesson.number for name, lesson in lessons.items()}
    page = class_page(made, numbers, read_paper(paper))
    replacing.report(write([page], output, title="What the class can do", subject="A class"))


def _check_once(files: list[Path]) -> None:
    """Refuse a file that is given twice: its answers would count double."""
    known: dict[Path, Path] = {}
    for path in files:
        place = path.resolve()
        if place in known:
            raise RosterError(
                f"{str(path)!r} is the same file as {str(known[place])!r}, and its answers would"
                " count double; give it once"
            )
        known[place] = path


def _blocks(made: ClassTable, lessons: dict[str, Lesson]) -> list[Block]:
    rows = []
    for learner in made.learners:
        for name in made.lessons:
            tally = made.tallies.get((learner, name))
            if tally is not None:
                rows.append((learner, name, str(tally), "yes" if tally.can else "not yet"))
    blocks: list[Block] = [
        TableBlock(("Learner", "Lesson", "Right", "Can do it"), tuple(rows), "Who can do what"),
        Heading("Next lesson"),
        Facts(
            tuple(
                (learner, f"{lessons[name].number}. {lessons[name].title}" if name else "all done")
                for learner, name in made.next_lesson.items()
            )
        ),
    ]
    if made.commonest:
        blocks.append(Heading("Commonest mistakes"))
        blocks.append(mistake_facts(made.commonest))
    else:
        blocks.append(Paragraph("No mistake was named."))
    return blocks
