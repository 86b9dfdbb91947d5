"""Pieces of work done by several processes at once; what comes of them is in the order given.

A process is a copy of this one, made by `fork` where the first piece is asked for: it holds all
that the pieces need, and hands back what comes of each. Where the system has no safe `fork`, and
for one core, the pieces are done here, one after the other. Which process does a piece changes
nothing in what comes of it.
"""

import multiprocessing
import os
import signal
import sys
import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from multiprocessing.connection import Connection, wait
from typing import Any, TypeVar

Done = TypeVar("Done")


def cores() -> int:
    """How many processes do this machine's work best; 1 where they cannot be made by `fork`."""
    # macOS has `fork`, but its own libraries do not live through it.
    return len(os.sched_getaffinity(0)) if sys.platform == "linux" else 1


def done_at_once(
    pieces: Sequence[Callable[[], Done]],
    processes: int,
    on_done: Callable[[int, int], None] = lambda done, of: None,
) -> list[Done]:
    """What comes of every piece. `on_done` is told how many of how many are done.

    An error of a piece is raised here, that of the first where several fail, and no other piece is
    begun. A piece whose process is ended from outside is done here. What comes of a piece, and its
    errors, must be such as `pickle` takes.
    """
    came: dict[int, Done] = {}
    failed: dict[int, Exception] = {}
    if processes > 1 < len(pieces):
        with _copies(pieces, min(processes, len(pieces))) as idle:
            for at, good, what in _answers(len(pieces), idle):
                if good:
                    came[at] = what
                    on_done(len(came), len(pieces))
                else:
                    failed[at] = what
    if failed:
        raise failed[min(failed)]
    for at, piece in enumerate(pieces):
        if at not in came:
            came[at] = piece()
            on_done(len(came), len(pieces))
    return [came[at] for at in range(len(pieces))]


def _answers(many: int, idle: list[Connection]) -> Iterator[tuple[int, bool, Any]]:
    """Which piece an answer is to, whether it is what came of it, and that or its error.

    The next piece goes to whoever is idle, until all are done or one has failed.
    """
    busy: dict[Connection, int] = {}
    ahead = iter(range(many))
    failed = False
    while True:
        while idle and not failed and (at := next(ahead, None)) is not None:
            copy = idle.pop()
            try:
                copy.send(at)
            except OSError:
                continue
            busy[copy] = at
        if not busy:
            return
        ready = wait(list(busy))
        for copy in [one for one in busy if one in ready]:
            at = busy.pop(copy)
            try:
                good, what = copy.recv()
            except (EOFError, OSError):
                continue
            idle.append(copy)
            failed = failed or not good
            yield at, good, what


@contextmanager
def _copies(pieces: Sequence[Callable[[], object]], many: int) -> Iterator[list[Connection]]:
    """So many copies of this process, each at the end of a pipe; all gone behind this."""
    context = multiprocessing.get_context("fork")
    ours: list[Connection] = []
    copies = []
    # A copy must not take a Ctrl-C as this process does, with words and clearing up.
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        for _ in range(many):
            end, theirs = context.Pipe()
            ours.append(end)
            copy = context.Process(target=_work, args=(pieces, theirs, tuple(ours)), daemon=True)
            with warnings.catch_warnings():
                # Other threads reckon for numpy or watch for a server's end: none holds a lock.
                warnings.simplefilter("ignore", DeprecationWarning)
                copy.start()
            copies.append(copy)
            theirs.close()
    finally:
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    try:
        yield list(ours)
    finally:
        for end in ours:
            end.close()
        for copy in copies:
            copy.kill()
            copy.join()


def _work(
    pieces: Sequence[Callable[[], object]], theirs: Connection, others: Sequence[Connection]
) -> None:
    """Do the pieces that are asked for, as long as someone is there to ask."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    for end in others:
        # Or the pipe would stay open when the one who asks has died.
        end.close()
    try:
        while True:
            at = theirs.recv()
            try:
                said: tuple[bool, object] = True, pieces[at]()
            except Exception as error:  # it is raised again by the one who asked
                said = False, error
            theirs.send(said)
    except (EOFError, OSError):
        return
