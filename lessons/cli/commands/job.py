"""`squaresaw job`: a new job file, and whether one can be framed."""

import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Annotated

import typer

from layout.errors import LayoutError
from layout.job.job import Job
from lessons.jobs.job_file import JobError, place_of, read_job
from lessons.jobs.job_starter import starter

DOES = ("new", "check")


def job(
    does: Annotated[str, typer.Argument(metavar="new|check", help="Write one, or check one.")],
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The job's file, name.toml.")],
) -> None:
    """Write a new job file, or check one."""
    if does == "new":
        _new(file)
    elif does == "check":
        _check(file)
    else:
        raise JobError(f"a job is new or check, not {does!r}; write `squaresaw job new porch.toml`")


def _new(path: Path) -> None:
    from figures.files.whole import save_whole

    if path.suffix.casefold() != ".toml":
        raise JobError(f"{path.name!r} is no job file; its name must end in .toml")
    if os.path.lexists(path):
        raise JobError(f"{path} is there already; give another name")
    save_whole({path: starter(path.stem).encode()})
    typer.echo(f"wrote {path}; `squaresaw job check {path}` says what is wrong with it")


def _check(path: Path) -> None:
    from layout.job.job_roof import framed

    found = read_job(path)
    try:
        roof = framed(found)
    except LayoutError as error:
        raise JobError(f"{_blamed(path, found, error.about)}: {error}") from None
    _check_tools(path, found)
    sticks = len(roof.sticks)
    typer.echo(f"{path.name}: {found.name} can be framed, {sticks} sticks")
    for line in roof.left_out:
        typer.echo(f"LEFT OUT: {line}")


def _check_tools(path: Path, job: Job) -> None:
    """Read what the job says of saw and paper as the commands that take it will."""
    from figures.ink.paper import read_paper
    from lessons.cli.commands.options import read_tolerance, saw_limits

    readers: dict[str, Callable[[str], object]] = {
        "tilt-step": lambda text: saw_limits(tilt_step=text),
        "max-tilt": lambda text: saw_limits(max_tilt=text),
        "blade-depth": lambda text: saw_limits(blade_depth=text),
        "tolerance": read_tolerance,
        "paper": read_paper,
    }
    for key, read in readers.items():
        text = job.given(key)
        try:
            if text is not None:
                read(text)
        except LayoutError as error:
            raise JobError(f"{place_of(path, key)}: {error}") from None


def _blamed(path: Path, job: Job, about: Sequence[str]) -> str:
    """The line and name of the value that an error is about: the first that the job says."""
    said = (name for name in about if name in job.texts or " of wall " in name)
    name = next(said, None)
    return path.name if name is None else place_of(path, name)
