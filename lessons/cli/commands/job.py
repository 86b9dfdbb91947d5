"""`squaresaw job`: a new job file, and whether one can be framed."""

import os
import re
from pathlib import Path
from typing import Annotated

import typer

from layout.errors import LayoutError
from lessons.jobs.job_file import JobError, line_of, read_job
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
        raise JobError(f"{_blamed(path, found.texts, str(error))}: {error}") from None
    sticks = len(roof.sticks)
    typer.echo(f"{path.name}: {found.name} can be framed, {sticks} sticks")
    for line in roof.left_out:
        typer.echo(f"LEFT OUT: {line}")


def _blamed(path: Path, texts: "dict[str, str] | object", said: str) -> str:
    """The line of the value that an error is about: one whose text or name it says."""
    assert isinstance(texts, dict)
    for key, text in texts.items():
        if repr(text) in said or re.search(rf"\b{re.escape(str(text))}\b", said):
            return line_of(path, key)
    for key in texts:
        if re.search(rf"\b{key.replace('-', ' ')}\b", said):
            return line_of(path, key)
    return path.name
