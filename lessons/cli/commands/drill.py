"""`squaresaw drill`: problems in the terminal, and how far one has come."""

from datetime import date
from pathlib import Path
from random import Random, SystemRandom
from typing import Annotated

import typer

from layout.errors import LayoutError
from layout.tools.saw import SawLimits
from lessons.cli import job_option, replacing
from lessons.cli.commands import drill_options, options
from lessons.cli.commands.cut_options import SawOptions
from lessons.course.lesson import DrillKind, Lesson, catalog
from lessons.drill.dealer import Deck, places
from lessons.drill.mistake_names import mistake_facts
from lessons.drill.problem import given_words
from lessons.drill.progress import Attempt, Progress, ProgressError, ProgressFile, as_csv, as_json
from lessons.drill.review import RULE, LessonStanding, comes_next, standings
from lessons.drill.session import Session, dealt, over
from lessons.say.blocks import Block, Facts, Heading, Paragraph
from lessons.say.plain import in_words
from lessons.say.units import System
from lessons.say.words import CAUTION


def drill(
    name: Annotated[
        str | None,
        typer.Argument(
            metavar="[LESSON]", help="A lesson, or a job's stick; none takes those that are due."
        ),
    ] = None,
    problems: Annotated[
        int,
        typer.Option("--problems", min=1, max=500, metavar="NUMBER", help="How many problems."),
    ] = 5,
    seed: drill_options.SeedOption = None,
    kind: drill_options.KindOption = None,
    units: options.UnitsOption = System.INCH,
    *,
    sawn: SawOptions,
    no_save: Annotated[
        bool, typer.Option("--no-save", help="Neither read nor keep any progress.")
    ] = False,
    progress: Annotated[
        bool, typer.Option("--progress", help="Show what is mastered and what comes next.")
    ] = False,
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", metavar="FILE", help="With --progress: a .json or .csv file to write."
        ),
    ] = None,
    preview: Annotated[
        int | None,
        typer.Option(
            "--preview", min=1, max=500, metavar="NUMBER", help="For authors: list draws."
        ),
    ] = None,
    catalog_folder: options.CatalogOption = None,
    learner: Annotated[
        str, typer.Option("--learner", metavar="NAME", help="Whose progress this is.")
    ] = "",
) -> None:
    """Practice, one problem at a time, with hints."""
    lessons = catalog(catalog_folder)
    chosen: list[Lesson] = []
    if name:
        from lessons.cli.stick_lessons import drilled_on_job

        chosen = drilled_on_job(lessons, [name], job_option.current())
    wanted = drill_options.drill_kind(kind)
    limits = sawn.limits
    if preview is not None:
        _preview(chosen or list(lessons.values()), preview, seed or 0, wanted, units, limits)
        return
    file = None if no_save else ProgressFile(learner=learner)
    if progress:
        _show_progress(ProgressFile(learner=learner), lessons, output)
        return
    if file is not None:
        file.check()
    kept = file.read() if file else Progress()
    if not chosen:
        due = comes_next(lessons, standings(kept.attempts), date.today())
        chosen = [lessons[due_name] for due_name in due]
    if seed is None:
        seed = SystemRandom().randrange(1, 10_000)
    typer.echo(f"Seed {seed}.")
    typer.echo(in_words([Paragraph(CAUTION[0])]))
    rng = Random(seed)
    session = Session(_hear, typer.echo, _keeper(file), rng)
    tally = session.run(dealt(chosen, rng, problems, wanted, units, limits), problems)
    typer.echo(in_words(over(tally)))


def _hear(prompt: str) -> str:
    """A line from the learner, with the keys of a line editor where there is one."""
    return input(prompt)


def _keeper(file: ProgressFile | None):  # type: ignore[no-untyped-def]
    """Keep attempts in the file; where that fails halfway, say so and go on without."""
    failed = False

    def keep(attempt: Attempt) -> None:
        nonlocal failed
        if file is None or failed:
            return
        try:
            file.add(attempt)
        except ProgressError as error:
            failed = True
            typer.echo(f"squaresaw: {error}", err=True)

    return keep


def _show_progress(file: ProgressFile, lessons: dict[str, Lesson], output: Path | None) -> None:
    kept = file.read()
    if output is not None:
        from figures.files.whole import save_whole

        texts = {".json": as_json, ".csv": as_csv}
        write = texts.get(output.suffix.casefold())
        if write is None:
            raise ProgressError(f"cannot write {output.name!r}: the name must end in .json or .csv")
        save_whole({output: write(kept).encode()})
        replacing.report([output])
        return
    typer.echo(in_words(_progress_blocks(kept, lessons, date.today())))


def _progress_blocks(kept: Progress, lessons: dict[str, Lesson], today: date) -> list[Block]:
    known = standings(kept.attempts)
    rows = []
    for lesson in lessons.values():
        standing = known.get(lesson.name, LessonStanding(lesson.name))
        rows.append((f"{lesson.number:3}  {lesson.name}", _standing_words(standing, lesson, today)))
    nexts = comes_next(lessons, known, today)
    blocks: list[Block] = [Facts(tuple(rows)), Heading("Next")]
    blocks += [Paragraph(f"{lessons[name].number}. {lessons[name].title}") for name in nexts]
    made: dict[str, int] = {}
    for standing in known.values():
        for name, times in standing.made.items():
            made[name] = made.get(name, 0) + times
    if made:
        often = sorted(made.items(), key=lambda pair: (-pair[1], pair[0]))
        blocks.append(Heading("Met most often"))
        blocks.append(mistake_facts(often[:5]))
    return [*blocks, Heading("The rule"), Paragraph(RULE)]


def _standing_words(standing: LessonStanding, lesson: Lesson, today: date) -> str:
    if standing.due is None:
        return "not tried yet"
    state = "mastered" if standing.mastered(lesson) else f"step {standing.step}"
    due = "due now" if standing.due <= today else f"due {standing.due.isoformat()}"
    return f"{state}, {due}; {standing.right} right of {standing.tried}"


def _preview(
    chosen: list[Lesson],
    count: int,
    seed: int,
    kind: DrillKind | None,
    units: System,
    limits: SawLimits,
) -> None:
    """A line a draw: what is given, the answer, and what each mistake would answer."""
    for lesson in chosen:
        for place in places(lesson, kind):
            one = lesson.drills[place]
            what = one.answer or one.mistake or ""
            typer.echo(f"{lesson.name}, drill {place + 1}, {one.kind} {what}".rstrip())
            deck = Deck(Random(seed), units, limits)
            try:
                for _ in range(count):
                    _preview_line(deck, lesson, place)
            except LayoutError as error:
                typer.echo(f"  {error}")
            for reason, times in deck.refused.most_common():
                typer.echo(f"  put back {times}: {reason}")


def _preview_line(deck: Deck, lesson: Lesson, place: int) -> None:
    problem = deck.deal(lesson, place)
    sought = problem.sought
    wrongs = []
    if sought is not None:
        wrongs = [
            f"{wrong.name} {sought.written(wrong.value, problem.system)}" for wrong in sought.wrongs
        ]
    fault = problem.layout.made.mistake.name if problem.layout else ""
    told = problem.measure or fault
    parts = [
        given_words(problem.true_answer, problem.system),
        " ".join((told, problem.answer_text)).strip(),
        *wrongs,
    ]
    typer.echo("  " + " | ".join(parts))
