"""`squaresaw bench`: the moving page, as one file for a phone or a school's stick."""

from pathlib import Path
from typing import Annotated

import typer

from layout.cuts import find
from lessons.cli import replacing
from lessons.cli.bars import progress_bar
from lessons.cli.commands import drill_options, options


def bench(
    cuts: Annotated[
        list[str] | None,
        typer.Argument(metavar="[CUT]...", help="Cuts to put on it, with their lessons; else all."),
    ] = None,
    output: Annotated[
        Path, typer.Option("--output", "-o", metavar="FILE", help="The .html file to write.")
    ] = Path("bench.html"),
    seed: drill_options.SeedOption = None,
    catalog_folder: options.CatalogOption = None,
) -> None:
    """Write the moving page to practice on, as one offline file."""
    from figures.files.whole import check_ending, check_place, save_whole

    check_ending(output, ".html")
    from lessons.bench.drills import SEED
    from lessons.bench.page import bench_page
    from lessons.bench.steps import places
    from lessons.course.lesson import catalog

    wanted = [find(name).name for name in cuts or ()]
    chosen = [place for place in places() if not wanted or place[0].name in wanted]
    chosen.sort(key=lambda place: wanted.index(place[0].name) if wanted else 0)
    lessons = list(catalog(catalog_folder).values())
    if wanted:
        lessons = [lesson for lesson in lessons if lesson.entry.name in wanted]
    check_place(output)
    with progress_bar("packing", len(chosen) + 2 * len(lessons)) as step:
        text = bench_page(chosen, lessons, step, SEED if seed is None else seed)
    save_whole({output: text.encode()})
    replacing.report([output])
