"""What learners have answered, kept in one database in the user's data folder.

Every attempt is a row. SQLite does the locking and brings the file back whole after a crash; what
is added is either there or not. `squaresaw drill --progress -o FILE` writes it all out.
"""

import csv
import io
import json
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass, field, fields
from datetime import date, datetime
from pathlib import Path

from layout.errors import LayoutError
from lessons.say.data_folder import data_folder
from lessons.say.store import store

SCHEMA = 1
FILE = "progress.sqlite3"
EARLIER_FILE = "progress.json"
"""Where the first version kept its attempts; they are taken over once."""
TABLES = """
CREATE TABLE IF NOT EXISTS attempts (
    number INTEGER PRIMARY KEY, learner TEXT NOT NULL, moment TEXT NOT NULL,
    lesson TEXT NOT NULL, drill TEXT NOT NULL, kind TEXT NOT NULL, correct INTEGER NOT NULL,
    tries INTEGER NOT NULL, hints INTEGER NOT NULL, shown INTEGER NOT NULL,
    answered TEXT NOT NULL, mistakes TEXT NOT NULL, given TEXT NOT NULL
)
"""
COLUMNS = (
    "learner, moment, lesson, drill, kind, correct, tries, hints, shown, answered, mistakes, given"
)
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""Letters at which a spreadsheet takes a cell for a formula."""


class ProgressError(LayoutError):
    """Progress that cannot be kept or read."""


@dataclass(frozen=True)
class Attempt:
    """One judged answer.

    `when` is local time as ISO 8601 with its offset; `tries` counts the answers to this problem
    up to this one; `hints` those read before; `shown` whether the answer was shown; `mistakes`
    names those that gave the answer; `learner` is who answered, empty where nobody was named.
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
    learner: str = ""

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
    """Attempts that were kept, in the order in which they were added."""

    attempts: tuple[Attempt, ...] = ()


class ProgressFile:
    """The database in a folder of the user's; nothing is made before something is kept.

    `learner` is whose attempts are read and kept: everybody's are read where nobody is named.
    """

    def __init__(self, folder: Path | None = None, learner: str = "") -> None:
        self.folder = data_folder() if folder is None else folder
        self.learner = plain(learner)

    @property
    def path(self) -> Path:
        """Where the attempts are kept."""
        return self.folder / FILE

    def read(self) -> Progress:
        """Everything kept so far for this learner; nothing if there is no file.

        Raises ProgressError where the file cannot be read.
        """
        if not self.path.exists() and not (self.folder / EARLIER_FILE).exists():
            return Progress()
        with self._open() as database:
            where, named = ("WHERE learner = ?", (self.learner,)) if self.learner else ("", ())
            rows = database.execute(
                f"SELECT {COLUMNS} FROM attempts {where} ORDER BY number", named
            ).fetchall()
        return Progress(tuple(one for one in map(_attempt, rows) if one is not None))

    def add(self, attempt: Attempt) -> Progress:
        """Keep one more attempt; returns all that is kept.

        Raises ProgressError where it cannot be kept; what was kept before then stands.
        """
        with self._open() as database:
            _insert(database, attempt, self.learner)
        return self.read()

    def check(self) -> None:
        """Raise ProgressError where nothing can be kept, before anyone has worked for it."""
        with self._open():
            pass

    @contextmanager
    def _open(self) -> Iterator[sqlite3.Connection]:
        try:
            with store(self.path, TABLES, ProgressError) as database:
                self._take_over(database)
                yield database
        except ProgressError as error:
            raise ProgressError(
                f"cannot keep progress: {error}; give --no-save, or another folder in"
                " SQUARESAW_DATA"
            ) from None

    def _take_over(self, database: sqlite3.Connection) -> None:
        """Attempts of the first version, once, into a database that is still empty."""
        earlier = self.folder / EARLIER_FILE
        kept = database.execute("SELECT count(*) FROM attempts").fetchone()[0]
        if kept or not earlier.is_file():
            return
        with suppress(OSError, ValueError, RecursionError, AttributeError):
            for raw in json.loads(earlier.read_bytes()).get("attempts", ()):
                with suppress(TypeError, ValueError):
                    known = {one.name for one in fields(Attempt)}
                    told = {key: part for key, part in dict(raw).items() if key in known}
                    attempt = Attempt(**{**told, "mistakes": tuple(told.get("mistakes", ()))})
                    if attempt.moment.tzinfo is not None:
                        _insert(database, attempt, self.learner)


def plain(text: str) -> str:
    """A text as it can be kept: no lone surrogates."""
    return text.encode("utf-8", "replace").decode("utf-8")


def _insert(database: sqlite3.Connection, attempt: Attempt, learner: str) -> None:
    values = (
        plain(attempt.learner or learner),
        attempt.when,
        attempt.lesson,
        attempt.drill,
        attempt.kind,
        attempt.right,
        attempt.tries,
        attempt.hints,
        attempt.shown,
        plain(attempt.answered),
        json.dumps(list(attempt.mistakes)),
        json.dumps(dict(attempt.given)),
    )
    marks = ", ".join("?" * len(values))
    database.execute(f"INSERT INTO attempts ({COLUMNS}) VALUES ({marks})", values)


def _attempt(row: tuple[object, ...]) -> Attempt | None:
    """An attempt from its row; None for one that somebody else has spoilt."""
    learner, when, lesson, drill, kind, right, tries, hints, shown, answered, mistakes, given = row
    try:
        attempt = Attempt(
            str(when), str(lesson), str(drill), str(kind), bool(right), int(str(tries)),
            int(str(hints)), bool(shown), str(answered), tuple(json.loads(str(mistakes))),
            dict(json.loads(str(given))), str(learner),
        )  # fmt: skip
        return attempt if attempt.moment.tzinfo is not None else None
    except (TypeError, ValueError):
        return None


def as_json(progress: Progress) -> str:
    """All attempts as an object with its schema, an attempt a line."""
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
        writer.writerow([as_cell(row[name]) for name in names])
    return table.getvalue()


def as_cell(value: object) -> object:
    """A cell that no spreadsheet takes for a formula."""
    if isinstance(value, str) and value.startswith(FORMULA):
        return f"'{value}"
    return value
