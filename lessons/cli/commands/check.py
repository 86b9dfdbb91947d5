"""`squaresaw check`: every lesson over a sweep of roofs and boards, a line each."""

import json
from typing import Annotated

import typer

from layout.answer.gap_words import gap_and_decimals as write_gap
from lessons.cli.commands import options
from lessons.course.lesson import catalog, find_lesson
from lessons.course.sweep import Swept, sweep

DISAGREES = 1
SCHEMA = 1


def check(
    names: Annotated[
        list[str] | None,
        typer.Argument(metavar="[LESSON]...", help="Lessons to check; none checks them all."),
    ] = None,
    catalog_folder: options.CatalogOption = None,
    as_json: options.JsonOption = False,
) -> None:
    """Check that hand and saw agree in every lesson, over pitches, corners, hands and boards."""
    lessons = catalog(catalog_folder)
    chosen = [find_lesson(lessons, name) for name in names] if names else list(lessons.values())
    width = max(len(lesson.name) for lesson in chosen)
    swept = []
    for lesson in chosen:
        swept.append(sweep(lesson))
        if not as_json:
            typer.echo(_line(swept[-1], width))
    if as_json:
        typer.echo(json.dumps(_object(swept), indent=1, allow_nan=False))
    if not all(one.sound for one in swept):
        raise typer.Exit(DISAGREES)


def _line(swept: Swept, width: int) -> str:
    exact = write_gap(swept.exact_in) if swept.exact_in >= 1e-9 else f"{swept.exact_in:.0e} in"
    line = (
        f"{swept.lesson.name:{width}}  {swept.cases:5} cases"
        f"  exact {exact:>8}  as read {write_gap(swept.read_in):>16}"
    )
    if swept.fault is not None:
        return f"{line}  DISAGREES: {swept.fault}"
    if swept.beyond:
        return f"{line}  agrees; {swept.beyond} beyond tolerance as read"
    return f"{line}  agrees"


def _object(swept: list[Swept]) -> dict[str, object]:
    return {
        "schema": SCHEMA,
        "agree": all(one.sound for one in swept),
        "lessons": [
            {
                "lesson": one.lesson.name,
                "file": one.lesson.path,
                "cases": one.cases,
                "gap_exact_in": one.exact_in,
                "gap_read_in": one.read_in,
                "beyond_tolerance": one.beyond,
                "tolerance_in": one.tolerance_in,
                "sound": one.sound,
                "fault": one.fault,
            }
            for one in swept
        ],
    }
