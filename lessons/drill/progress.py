"""What a learner has answered, in one file that survives whatever happens to it.

The file is JSON and holds every attempt. It is only ever replaced whole, by one process at a
time: whoever adds an attempt takes the lock, reads what is there by then, adds, and puts the new
file in the old one's place. The system lets go of the lock when a process dies. A file that
cannot be read is set aside under another name, with what could be read of it kept.
"""

import csv
import io
import json
import os
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass, field, fields
from datetime import date, datetime
from pathlib import Path
from typing import Any

from layout.errors import LayoutError
from lessons.say.data_folder import data_folder

SCHEMA = 1
FILE = "progress.json"
LOCK = "progress.lock"


class ProgressError(LayoutError):
    """A progress file that cannot be kept, or that a newer version wrote."""


@dataclass(frozen=True)
class Attempt:
    """One judged answer.

    `when` is local time as ISO 8601 with its offset; `tries` counts the answers to this problem
    up to this one; `hints` those read before; `shown` whether the answer was shown; `mistakes`
    names those that gave the answer.
    """

    when: str
    lesson: str
    drill: str
    kind: str
    right: bool
    tries: int = 1
    hints: int = 0
    shown: bool = False
    answered: str = ""
    mistakes: tuple[str, ...] = ()
    given: Mapping[str, str] = field(default_factory=dict)

    @property
    def moment(self) -> datetime:
        """When it was answered."""
        return datetime.fromisoformat(self.when)

    @property
    def day(self) -> date:
        """The day on which it was answered, where it was answered."""
        return self.moment.date()


def now() -> str:
    """The local time as it is kept."""
    return datetime.now().astimezone().isoformat(timespec="seconds")


@dataclass(frozen=True)
class Progress:
    """All attempts that were kept, and the name a damaged file was set aside under, if any."""

    attempts: tuple[Attempt, ...] = ()
    set_aside: Path | None = None


class ProgressFile:
    """The file in a folder of the user's; nothing is touched before it is read or added to."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = data_folder() if folder is None else folder

    @property
    def path(self) -> Path:
        """Where the attempts are kept."""
        return self.folder / FILE

    def read(self) -> Progress:
        """Everything kept so far; nothing if there is no file.

        A damaged file is set aside. Raises ProgressError where the file cannot be reached, or
        a newer version wrote it.
        """
        if not self.folder.is_dir():
            return Progress()
        with self._locked():
            return self._read()

    def add(self, attempt: Attempt) -> Progress:
        """Keep one more attempt, beside whatever any other process has kept by now.

        Raises ProgressError where it cannot be kept; what was kept before then stands.
        """
        with self._locked():
            before = self._read()
            after = Progress((*before.attempts, attempt), before.set_aside)
            self._write(after)
        return after

    def check(self) -> None:
        """Raise ProgressError where nothing can be kept, before anyone has worked for it."""
        with self._locked():
            handle, name = self._beside()
            os.close(handle)
            os.unlink(name)

    @contextmanager
    def _locked(self) -> Iterator[None]:
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            with open(self.folder / LOCK, "a+b") as lock:
                _take(lock.fileno())
                yield
        except OSError as error:
            raise ProgressError(
                f"cannot keep progress in {str(self.folder)!r}: {error.strerror or error};"
                " give --no-save, or another folder in SQUARESAW_DATA"
            ) from None

    def _read(self) -> Progress:
        try:
            text = self.path.read_bytes().decode("utf-8")
        except FileNotFoundError:
            return Progress()
        except UnicodeDecodeError:
            return self._damaged(())
        try:
            kept = json.loads(text)
        except (ValueError, RecursionError):
            return self._damaged(())
        schema = kept.get("schema") if isinstance(kept, dict) else None
        if isinstance(schema, int) and schema > SCHEMA:
            raise ProgressError(
                f"{str(self.path)!r} was written by a newer version (its schema is {schema});"
                " use that one, or give --no-save"
            )
        raw = kept.get("attempts") if isinstance(kept, dict) else None
        if schema != SCHEMA or not isinstance(raw, list):
            return self._damaged(())
        attempts = [_attempt(one) for one in raw]
        good = tuple(one for one in attempts if one is not None)
        return Progress(good) if len(good) == len(raw) else self._damaged(good)

    def _damaged(self, rescued: tuple[Attempt, ...]) -> Progress:
        """Set the file aside under the first free name, and go on with what could be read."""
        number = 1
        while (aside := self.path.with_name(f"{FILE}.damaged-{number}")).exists():
            number += 1
        os.replace(self.path, aside)
        progress = Progress(rescued, aside)
        self._write(progress)
        return progress

    def _write(self, progress: Progress) -> None:
        handle, name = self._beside()
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(as_json(progress))
                file.flush()
                os.fsync(file.fileno())
            os.replace(name, self.path)
        except BaseException:
            with suppress(OSError):
                os.unlink(name)
            raise

    def _beside(self) -> tuple[int, str]:
        # What a killed process left half written is swept away here, under the lock.
        for stray in self.folder.glob(f".{FILE}.*.new"):
            with suppress(OSError):
                stray.unlink()
        return tempfile.mkstemp(prefix=f".{FILE}.", suffix=".new", dir=self.folder)


def as_json(progress: Progress) -> str:
    """The file's text: an object with its schema, and an attempt a line."""
    lines = ",\n".join(
        " " + json.dumps(asdict(attempt), ensure_ascii=False) for attempt in progress.attempts
    )
    body = f"[\n{lines}\n]" if lines else "[]"
    return f'{{"schema": {SCHEMA}, "attempts": {body}}}\n'


def as_csv(progress: Progress) -> str:
    """The attempts as a table with a heading, an attempt a row."""
    names = [one.name for one in fields(Attempt)]
    table = io.StringIO()
    writer = csv.writer(table, lineterminator="\n")
    writer.writerow(names)
    for attempt in progress.attempts:
        row = asdict(attempt)
        row["mistakes"] = " ".join(attempt.mistakes)
        row["given"] = "; ".join(f"{key} {text}" for key, text in attempt.given.items())
        writer.writerow([row[name] for name in names])
    return table.getvalue()


_KINDS: dict[str, type] = {
    "when": str,
    "lesson": str,
    "drill": str,
    "kind": str,
    "right": bool,
    "tries": int,
    "hints": int,
    "shown": bool,
    "answered": str,
    "mistakes": list,
    "given": dict,
}


def _attempt(raw: Any) -> Attempt | None:
    """An attempt from the file; None for what is none. Keys that are not known are left out."""
    if not isinstance(raw, dict):
        return None
    known = {key: raw[key] for key in _KINDS if key in raw}
    if any(type(part) is not _KINDS[key] for key, part in known.items()):
        return None
    try:
        known["mistakes"] = tuple(str(name) for name in known.get("mistakes", ()))
        attempt = Attempt(**known)
        moment = datetime.fromisoformat(attempt.when)
    except (TypeError, ValueError):
        return None
    return attempt if moment.tzinfo is not None else None


def _take(handle: int) -> None:
    """Wait for the lock on an open file; it is let go when the file is closed, or its process
    dies. Where the system has no locks, the last to write wins."""
    try:
        import fcntl
    except ImportError:
        _take_on_windows(handle)
        return
    with suppress(OSError):
        fcntl.flock(handle, fcntl.LOCK_EX)


def _take_on_windows(handle: int) -> None:
    import time

    try:
        import msvcrt
    except ImportError:
        return
    windows: Any = msvcrt
    for _ in range(600):
        os.lseek(handle, 0, os.SEEK_SET)
        try:
            windows.locking(handle, windows.LK_NBLCK, 1)
            return
        except OSError:
            time.sleep(0.05)
