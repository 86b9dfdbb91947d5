"""One database in the user's data folder: what the program keeps for its user.

SQLite does the locking, and brings the file back whole after a crash. Another process that is
writing is waited for: said after two seconds, given up after ten.
"""

import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from layout.errors import LayoutError
from lessons.say.reading import GIVEN_UP_AFTER_S, waiting


@contextmanager
def store(path: Path, schema: str, error: type[LayoutError]) -> Iterator[sqlite3.Connection]:
    """An open database inside one transaction that holds the right to write.

    `schema` is run first and must be harmless where its tables are there. All that is done
    inside takes effect together when the block ends, or not at all. Raises `error` where the
    file cannot be made, is no database, is full, or stays in another's hands.
    """
    database = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        database = sqlite3.connect(path, timeout=0.0, isolation_level=None)
        _begin(database, path)
        for statement in filter(None, map(str.strip, schema.split(";"))):
            database.execute(statement)
        yield database
        database.execute("COMMIT")
    except sqlite3.OperationalError as reason:
        raise error(f"cannot use {str(path)!r}: {reason}") from None
    except sqlite3.DatabaseError:
        raise error(
            f"cannot use {str(path)!r}: it is no database of this program; move it away"
        ) from None
    except OSError as reason:
        raise error(f"cannot write {str(path)!r}: {reason.strerror or reason}") from None
    finally:
        if database is not None:
            if database.in_transaction:
                database.execute("ROLLBACK")
            database.close()


def _begin(database: sqlite3.Connection, path: Path) -> None:
    """Take the right to write; wait for whoever has it."""
    since, said = time.monotonic(), False
    while True:
        try:
            database.execute("BEGIN IMMEDIATE")
            # The end of the transaction waits for readers, who are gone at once.
            database.execute(f"PRAGMA busy_timeout = {GIVEN_UP_AFTER_S * 1000:.0f}")
            return
        except sqlite3.OperationalError as reason:
            if "locked" not in str(reason) or time.monotonic() - since > GIVEN_UP_AFTER_S:
                raise
        said = waiting(f"another squaresaw that is writing {str(path)!r}", since, said)
        time.sleep(0.05)
