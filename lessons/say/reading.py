"""Text files read from outside: how large they may be, and how long they are waited for.

A pipe may stand where a file is named (`--claims-from <(...)`), and its writer may never come.
So a reader says what it waits for after two seconds and gives up after ten.
"""

import os
import select
import stat
import sys
import time
from pathlib import Path

from layout.errors import LayoutError

SAID_AFTER_S = 2.0
GIVEN_UP_AFTER_S = 10.0
LARGEST_BYTES = 4_000_000
"""No lesson, job or list of claims comes near it."""


def read_text(path: Path, error: type[LayoutError]) -> str:
    """The text of a UTF-8 file or pipe.

    Raises `error`, one line, for what cannot be read, is too large, holds no UTF-8 text, or is
    a pipe into which nobody writes.
    """
    name = str(path)
    try:
        mode = os.stat(path).st_mode
        if stat.S_ISDIR(mode):
            raise error(f"cannot read {name!r}: it is a folder, name a file in it")
        data = _piped(path, error) if stat.S_ISFIFO(mode) else _plain(path)
    except FileNotFoundError:
        raise error(
            f"cannot read {name!r}: there is no such file; give the name of a file that is there,"
            " with its folder"
        ) from None
    except OSError as reason:
        raise error(f"cannot read {name!r}: {reason.strerror or reason}") from None
    except LayoutError:
        raise
    except ValueError:
        raise error(f"cannot read {name!r}: no file has such a name") from None
    if len(data) > LARGEST_BYTES:
        raise error(f"cannot read {name!r}: it holds more than {LARGEST_BYTES // 1_000_000} MB")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as reason:
        line = data[: reason.start].count(b"\n") + 1
        raise error(f"{name}:{line}: this is no UTF-8 text; save the file as UTF-8") from None


def waiting(what: str, since: float, said: bool) -> bool:
    """Say once, two seconds after `since`, what is waited for; returns whether it is said."""
    if not said and time.monotonic() - since >= SAID_AFTER_S:
        print(f"squaresaw: waiting for {what}", file=sys.stderr, flush=True)
        return True
    return said


def _plain(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(LARGEST_BYTES + 1)


def _piped(path: Path, error: type[LayoutError]) -> bytes:
    """All that a pipe brings, as long as something comes within the time."""
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
    parts: list[bytes] = []
    since, said = time.monotonic(), False
    try:
        while sum(map(len, parts)) <= LARGEST_BYTES:
            ready, _, _ = select.select([handle], [], [], 0.1)
            try:
                part = os.read(handle, 65536) if ready else None
            except BlockingIOError:
                part = None
            if part:
                parts.append(part)
                since = time.monotonic()
            elif part == b"" and parts:
                break
            else:
                if part == b"":
                    time.sleep(0.05)
                said = waiting(f"something to be written into the pipe {str(path)!r}", since, said)
                if time.monotonic() - since > GIVEN_UP_AFTER_S:
                    raise error(f"cannot read {str(path)!r}: nobody wrote into this pipe")
    finally:
        os.close(handle)
    return b"".join(parts)
