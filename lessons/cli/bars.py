"""What work that takes a while shows on a terminal, on standard error, and nowhere else."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def progress_bar(doing: str, steps: int) -> Iterator[Callable[[], None]]:
    """A bar for work of so many steps; what it yields is called after each."""
    if not sys.stderr.isatty():
        yield lambda: None
        return
    import typer

    with typer.progressbar(length=steps, label=f"{doing:8}", file=sys.stderr) as bar:
        yield lambda: bar.update(1)


@contextmanager
def counted(doing: str) -> Iterator[Callable[[int, int], None]]:
    """A line for work that finds its own steps: what it yields is told how many of how many."""
    if not sys.stderr.isatty():
        yield lambda done, of: None
        return

    def show(done: int, of: int) -> None:
        print(f"\r{doing} {done} of {of}\x1b[K", end="", file=sys.stderr, flush=True)

    try:
        yield show
    finally:
        print("\r\x1b[K", end="", file=sys.stderr, flush=True)
