"""Files that are there already: what may be written over, and what is said about it."""

import os
import re
import subprocess
import sys
from pathlib import Path

import typer

from layout.errors import SheetError

SNIFFED = 64 * 1024
"""Bytes read from either end of a file to see what it is."""
OURS = b"square-and-saw"


def may_replace(target: Path, subject: str, *, force: bool) -> bool:
    """True where a file is there that may be replaced; raises SheetError where it may not.

    A sheet of the same kind, which its subject names, is replaced. Anything else needs `force`.
    """
    if not target.is_file():
        return False
    if force or _is_alike(target, subject):
        return True
    raise SheetError(
        f"{str(target)!r} is there already and is no sheet of this kind: give another name, or"
        " --force to replace it"
    )


def _is_alike(target: Path, subject: str) -> bool:
    size = target.stat().st_size
    with target.open("rb") as file:
        head = file.read(SNIFFED)
        file.seek(max(0, size - SNIFFED))
        tail = file.read()
    said = head + tail
    if target.suffix.casefold() == ".svg":
        # A sheet as SVG says its size for a browser that prints it.
        return b"@page{size:" in said
    # A PDF writer may put marks of punctuation as octal numbers.
    plain = re.sub(rb"\\(\d{3})", lambda found: bytes([int(found[1], 8) & 255]), said)
    return OURS in plain and subject.encode("latin-1", "replace") in plain


def report(paths: tuple[Path, ...], replaced: set[Path]) -> None:
    """Say which files were written, and which of them were there before."""
    for path in paths:
        typer.echo(f"{'replaced' if path in replaced else 'wrote'} {path}")


def show(path: Path) -> None:
    """Open a file in the system's viewer. Raises SheetError where there is none."""
    try:
        if sys.platform == "win32":
            os.startfile(path)
            return
        opener = "open" if sys.platform == "darwin" else "xdg-open"
        subprocess.Popen(
            [opener, str(path)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
    except OSError as error:
        raise SheetError(f"{path} is written, but no viewer opened it: open it by hand") from error
