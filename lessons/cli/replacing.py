"""`--force` and `--open` on every command that writes a file: what is replaced, what is shown.

What stands at the place of the file is looked at before the command is called: a sheet of ours
is replaced and said to be, a PDF of another kind only with `--force`.
"""

import functools
import inspect
import re
from collections.abc import Callable, Iterable
from contextvars import ContextVar
from pathlib import Path
from typing import Annotated, Any

import typer

from layout.errors import SheetError
from lessons.cli import viewer

SNIFFED = 512 * 1024
"""Bytes read from either end of a file to see what it is. What a book says of itself stands before
its bookmarks and its table of objects: 75 KB from the end in a course of 150 pages."""
OURS = b"square-and-saw"
ForceOption = Annotated[
    bool, typer.Option("--force", help="Replace a file that is no sheet of this kind.")
]
OpenOption = Annotated[bool, typer.Option("--open", help="Show the file in the system's viewer.")]
_there: ContextVar[frozenset[Path]] = ContextVar("there", default=frozenset())
_written: ContextVar[tuple[Path, ...]] = ContextVar("written", default=())


def with_file(command: Callable[..., Any], subject: str = "") -> Callable[..., Any]:
    """The command with both options, if it writes a file; a sheet of its own has a `subject`.

    Raises SheetError, before anything is done, where a file is there that may not be replaced.
    """
    signature = inspect.signature(command, eval_str=True)
    if "output" not in signature.parameters:
        return command

    @functools.wraps(command)
    def called(*args: Any, force: bool = False, open_it: bool = False, **given: Any) -> Any:
        output = given.get("output")
        if output is None and open_it:
            raise SheetError("--open shows the file that is written: name it with -o FILE")
        if output is not None:
            _there.set(frozenset(_standing(output)))
            _check(output, subject, force=force)
        _written.set(())
        done = command(*args, **given)
        if open_it and _written.get():
            viewer.show(_written.get()[0])
        return done

    options = [
        inspect.Parameter(name, inspect.Parameter.KEYWORD_ONLY, default=False, annotation=kind)
        for name, kind in (("force", ForceOption), ("open_it", OpenOption))
    ]
    parameters = [*signature.parameters.values(), *options]
    called.__signature__ = signature.replace(parameters=parameters)  # type: ignore[attr-defined]
    del called.__wrapped__
    called.__annotations__ = {each.name: each.annotation for each in parameters}
    return called


def report(paths: Iterable[Path]) -> None:
    """Say which files were written, and which of them were there before."""
    made = tuple(paths)
    for path in made:
        typer.echo(f"{'replaced' if path in _there.get() else 'wrote'} {path}")
    _written.set((*_written.get(), *made))


def _standing(output: Path) -> list[Path]:
    """The file that is there already, and those of a sheet that goes into several."""
    folder = output.parent
    names = re.compile(rf"{re.escape(output.stem)}(-\d+)?{re.escape(output.suffix)}")
    if not folder.is_dir():
        return []
    return [folder / one.name for one in folder.iterdir() if names.fullmatch(one.name)]


def _check(target: Path, subject: str, *, force: bool) -> None:
    if force or not target.is_file() or _is_alike(target, subject):
        return
    raise SheetError(
        f"{str(target)!r} is there already and is no sheet of this kind: give another name, or"
        " --force to replace it"
    )


def _is_alike(target: Path, subject: str) -> bool:
    suffix = target.suffix.casefold()
    if suffix != ".pdf" and not (suffix == ".svg" and subject):
        return True
    size = target.stat().st_size
    with target.open("rb") as file:
        head = file.read(SNIFFED)
        file.seek(max(0, size - SNIFFED))
        tail = file.read()
    said = head + tail
    if suffix == ".svg":
        # A sheet as SVG says its size for a browser that prints it.
        return b"@page{size:" in said
    # A PDF writer may put marks of punctuation as octal numbers.
    plain = re.sub(rb"\\([0-7]{3})", lambda found: bytes([int(found[1], 8) & 255]), said)
    return OURS in plain and subject.encode("latin-1", "replace") in plain
