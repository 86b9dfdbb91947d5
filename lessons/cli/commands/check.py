"""`squaresaw check`: every lesson over a sweep of roofs and boards, a line each."""

import json
from typing import Annotated

import typer

from layout.answer.gap_words import gap_and_decimals as write_gap
from lessons.cli.bars import counted
from lessons.cli.commands import options
from lessons.course.lesson import catalog, find_lesson
from lessons.course.sweep import Swept, TriedCuts, sweep

DISAGREES = 1
SCHEMA = 1


def check(
    names: Annotated[
        list[str] | None,
        typer.Argument(metavar="[LESSON]...", help="Lessons to check; none checks them all."),
    ] = None,
    catalog_folder: options.CatalogOption = None,
    wide: Annotated[
        bool,
        typer.Option("--wide", help="Every cut of the catalogue, a million cases and more."),
    ] = False,
    max_tilt: options.MaxTiltOption = options.USUAL_TILT,
    blade_depth: options.BladeDepthOption = options.USUAL_DEPTH,
    as_json: options.JsonOption = False,
) -> None:
    """Check that handsaw and saw cut one plane.

    Tried over pitches, corners, hands and boards; with --wide over every cut there is.
    """
    limits = options.saw_limits(max_tilt, blade_depth)
    if wide:
        _check_wide(as_json)
        return
    lessons = catalog(catalog_folder)
    chosen = [find_lesson(lessons, name) for name in names] if names else list(lessons.values())
    width = max(len(lesson.name) for lesson in chosen)
    swept: list[Swept] = []
    kept: TriedCuts = {}
    with counted("lesson") as show:
        for at, lesson in enumerate(chosen, start=1):
            swept.append(sweep(lesson, limits, kept))
            if as_json:
                show(at, len(chosen))
            else:
                typer.echo(_line(swept[-1], width))
    if as_json:
        typer.echo(json.dumps(_object(swept), indent=1, allow_nan=False))
    if not all(one.sound for one in swept):
        raise typer.Exit(DISAGREES)


def _line(swept: Swept, width: int) -> str:
    line = (
        f"{swept.lesson.name:{width}}  {swept.cases:5} cases"
        f"  exact {write_gap(swept.exact_in)}; as read {write_gap(swept.read_in)}"
    )
    if swept.fault is not None:
        return f"{line}  DISAGREES: {swept.fault}"
    more = [
        f"{count} {what}"
        for count, what in (
            (swept.beyond, "need finer settings"),
            (swept.other_way, "by saw from both faces or from an edge"),
            (swept.out_of_reach, "out of this saw's reach"),
        )
        if count
    ]
    return "; ".join([f"{line}  one plane", *more])


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
                "past_saw": one.past_saw,
                "other_way": one.other_way,
                "out_of_reach": one.out_of_reach,
                "tolerance_in": one.tolerance_in,
                "sound": one.sound,
                "fault": one.fault,
            }
            for one in swept
        ],
    }


def _check_wide(as_json: bool) -> None:
    """Every cut over the whole field: a one-line verdict and the case that comes nearest a gap."""
    from layout.answer.wide import every_cut
    from layout.cuts import catalogue

    found = []
    ends = sum(len(entry.ends) for entry in catalogue().values())
    with counted("end of a cut") as show:
        for one in every_cut():
            found.append(one)
            show(len(found), ends)
    sound = all(one.sound for one in found)
    worst, method, where = max(
        (
            (widest, method, one)
            for one in found
            for method, widest in (("by handsaw", one.hand), ("by saw", one.saw))
        ),
        key=lambda case: case[0].gap_in,
    )
    command = worst.command(where.entry, where.end)
    cases = sum(one.cases for one in found)
    if as_json:
        told = {
            "schema": SCHEMA,
            "agree": sound,
            "cases": cases,
            "widest_in": worst.gap_in,
            "method": method,
            "command": command,
            "cuts": [
                {
                    "cut": one.entry.name,
                    "end": one.end,
                    "cases": one.cases,
                    "no_place": one.no_place,
                    "hand_exact_in": one.hand.gap_in,
                    "saw_exact_in": one.saw.gap_in,
                    "hand_read_in": one.hand_read.gap_in,
                    "saw_read_in": one.saw_read.gap_in,
                    "sound": one.sound,
                }
                for one in found
            ],
        }
        typer.echo(json.dumps(told, indent=1, allow_nan=False))
    else:
        verdict = "both methods cut the joint's plane" if sound else "A METHOD IS WRONG"
        typer.echo(f"{cases:,} cases, {len(found)} ends of cuts: {verdict}.")
        typer.echo(f"Widest gap {worst.gap_in:.0e} in, {method}: {command}")
    if not sound:
        raise typer.Exit(DISAGREES)
