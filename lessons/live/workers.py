"""Commands and drawings in processes of their own, a few at a time.

The server only asks and waits: whatever takes time is done here, off its event loop, in one
process for words and two for drawings, so that nobody's marks wait behind somebody's book. What
waits is bounded in number, what runs in time, and what comes back in size.
"""

import asyncio
import contextlib
import io
import multiprocessing
import multiprocessing.process
import os
import signal
import tempfile
import threading
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from layout.errors import LayoutError
from lessons.live.draw import claim_svg, picture_svg

Done = TypeVar("Done")
Run = Callable[[list[str]], int]
"""A command line that prints, and returns its exit code."""

MOST_WAITING = 40
SLOWEST_S = 240.0
LARGEST_BYTES = 48_000_000
DRAWERS = 2
GIVES_WAY = 10
"""How far a process that draws stands back from the one for words."""
GIVEN, GIVEN_FILE = "\0given\0", "given.toml"
"""Stands in a command's arguments for the file of a given text; no form can send a zero."""


@dataclass(frozen=True)
class Reply:
    """What a command said, and the file that it wrote, if it was asked for one."""

    code: int
    out: str
    err: str = ""
    file: bytes = b""

    @property
    def fault(self) -> str:
        """What is said to be wrong, a line each; empty where nothing is."""
        lines = (line.removeprefix("squaresaw: ") for line in self.err.strip().splitlines())
        return "\n".join(lines) if self.code else ""


class BusyError(LayoutError):
    """Too much is asked at once, or it takes too long."""


class Workers:
    """The processes that answer. `run` is the command line, and must be importable by name."""

    def __init__(self, run: Run) -> None:
        self.run = run
        self.waiting = 0
        self._words, self._drawn = _pools()

    async def said(self, arguments: Sequence[str], given: str = "") -> Reply:
        """What a command says; `given` is the text of the file that stands for GIVEN."""
        pool = self._drawn if given else self._words  # a whole roof takes its time
        return await self._in(pool, commanded, self.run, list(arguments), "", given)

    async def said_both(self, one: Sequence[str], other: Sequence[str]) -> tuple[Reply, Reply]:
        """What two commands say that are asked together: one wait for both."""
        asked = (list(one), list(other))
        return await self._in(self._words, commanded_both, self.run, *asked)

    async def written(self, arguments: Sequence[str], suffix: str, given: str = "") -> Reply:
        """The file that a command writes with `-o`."""
        return await self._in(self._drawn, commanded, self.run, list(arguments), suffix, given)

    async def drawn(self, name: str, filled: dict[str, str]) -> str:
        """A picture of a cut as SVG. Raises LayoutError for a question without an answer."""
        return await self._in(self._drawn, picture_svg, name, filled)

    async def claimed(self, filled: dict[str, str], said: Sequence[str], number: int) -> str:
        """The cut of one claim against its mate, as SVG. Raises LayoutError where it has none."""
        return await self._in(self._drawn, claim_svg, filled, list(said), number)

    async def _in(
        self, pool: ProcessPoolExecutor, work: Callable[..., Done], *arguments: object
    ) -> Done:
        if self.waiting >= MOST_WAITING:
            raise BusyError("too much is asked at once; wait a little, then ask again")
        self.waiting += 1
        try:
            future = asyncio.get_running_loop().run_in_executor(pool, work, *arguments)
            return await asyncio.wait_for(future, SLOWEST_S)
        except (TimeoutError, BrokenProcessPool):
            self._renew()
            raise BusyError("that takes too long here; ask for less of it at once") from None
        finally:
            self.waiting -= 1

    def _renew(self) -> None:
        """New processes in place of one that hangs or has died."""
        self.close()
        self._words, self._drawn = _pools()

    def close(self) -> None:
        """End every process, whatever it does."""
        for pool in (self._words, self._drawn):
            pool.shutdown(wait=False, cancel_futures=True)
        for child in multiprocessing.active_children():
            child.terminate()


def _pools() -> tuple[ProcessPoolExecutor, ProcessPoolExecutor]:
    """One process for words, and those that draw, which give way to it."""
    drawers = max(1, min(DRAWERS, (os.cpu_count() or 2) - 1))
    context = multiprocessing.get_context("spawn")
    return (
        ProcessPoolExecutor(1, context, _begin, (0,)),
        ProcessPoolExecutor(drawers, context, _begin, (GIVES_WAY,)),
    )


def _begin(gives_way: int) -> None:
    """Begin a process: let others go first, leave Ctrl-C to the server, and end when it ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if gives_way and hasattr(os, "nice"):
        os.nice(gives_way)
    server = multiprocessing.parent_process()
    if server is not None:
        threading.Thread(target=_end_with, args=(server,), daemon=True).start()


def _end_with(server: multiprocessing.process.BaseProcess) -> None:
    server.join()  # returns however the server ended, killed too
    os._exit(0)


def commanded_both(run: Run, one: list[str], other: list[str]) -> tuple[Reply, Reply]:
    """Run two commands, one after the other."""
    return commanded(run, one, ""), commanded(run, other, "")


def commanded(run: Run, arguments: list[str], suffix: str, given: str = "") -> Reply:
    """Run one command here; with a suffix it writes a file of that kind, which comes back.

    A given text is put into a file of its own for as long as the command runs, and stands in the
    arguments where GIVEN does: what is tried on the page is never read from, nor written to, the
    job folder.
    """
    out, err = io.StringIO(), io.StringIO()
    with tempfile.TemporaryDirectory(prefix="squaresaw-") as folder:
        path = Path(folder) / f"page{suffix}"
        whole = [*arguments, f"--output={path}"] if suffix else list(arguments)
        if given:
            place = Path(folder) / GIVEN_FILE
            place.write_text(given, "utf-8")
            whole = [each.replace(GIVEN, str(place)) for each in whole]
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = run(whole)
        first = path if path.is_file() else path.with_name(f"page-1{suffix}")
        file = first.read_bytes() if suffix and first.is_file() else b""
    if len(file) > LARGEST_BYTES:
        raise BusyError("that file is too large to hand out; ask for less of it at once")
    # What was written in a form has no file's name.
    said, wrong = (
        text.getvalue()
        .replace(f"{folder}/", "")
        .replace(f"{GIVEN_FILE}: ", "")
        .replace(f"{GIVEN_FILE}, ", "")
        for text in (out, err)
    )
    return Reply(code, said, wrong, file)
