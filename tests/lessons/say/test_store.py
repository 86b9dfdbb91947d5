"""What is kept for the user: two writers, a writer killed inside the write, a held lock."""

import contextlib
import os
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from layout.errors import SheetError
from lessons.say import store as kept
from lessons.say.store import store
from tests.counts import count

ROOT = Path(__file__).parents[3]
SCHEMA = "CREATE TABLE IF NOT EXISTS word (said TEXT)"
WRITE = """
import sys
from pathlib import Path
from layout.errors import SheetError
from lessons.say.store import store
for i in range(int(sys.argv[3])):
    with store(Path(sys.argv[1]), {schema!r}, SheetError) as database:
        database.execute("INSERT INTO word VALUES (?)", [sys.argv[2] + str(i)])
        {hook}
    print(i, flush=True)
"""


def words(path):
    with contextlib.closing(sqlite3.connect(path)) as database:
        return [row[0] for row in database.execute("SELECT said FROM word")]


def start(path, name, times, hook="pass"):
    code = WRITE.format(schema=SCHEMA, hook=hook)
    return subprocess.Popen(
        [sys.executable, "-c", code, str(path), name, str(times)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
    )


def test_writers_at_once_lose_nothing(tmp_path):
    path = tmp_path / "kept.sqlite"
    each = count(200, 20)
    writers = [start(path, name, each) for name in "abcdef"]
    for writer in writers:
        writer.communicate(timeout=60)
    assert [writer.returncode for writer in writers] == [0] * 6
    assert sorted(words(path)) == sorted(f"{name}{i}" for name in "abcdef" for i in range(each))


def test_a_writer_killed_inside_the_write_leaves_what_was_acknowledged(tmp_path):
    path = tmp_path / "kept.sqlite"
    with store(path, SCHEMA, SheetError):
        pass
    for turn in range(count(100, 3)):
        stop = turn % 4
        hook = f"import os, signal; i == {stop} and os.kill(os.getpid(), signal.SIGKILL)"
        writer = start(path, f"{turn}-", 5, hook)
        said = writer.communicate(timeout=60)[0].split()
        assert writer.returncode == -signal.SIGKILL
        assert said == [str(i) for i in range(stop)]
        assert [w for w in words(path) if w.startswith(f"{turn}-")] == [
            f"{turn}-{i}" for i in range(stop)
        ]


def test_a_held_lock_is_said_and_given_up(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr("lessons.say.reading.SAID_AFTER_S", 0.1)
    monkeypatch.setattr(kept, "GIVEN_UP_AFTER_S", 0.4)
    path = tmp_path / "kept.sqlite"
    with contextlib.closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(SheetError, match="locked"), store(path, SCHEMA, SheetError):
            pass
    assert "waiting for another squaresaw that is writing" in capsys.readouterr().err


def test_what_is_no_database_is_refused(tmp_path):
    path = tmp_path / "kept.sqlite"
    path.write_text("{" * 5000)
    with (
        pytest.raises(SheetError, match="no database of this program"),
        store(path, SCHEMA, SheetError),
    ):
        pass
    assert path.read_text() == "{" * 5000


def test_an_error_inside_takes_everything_back(tmp_path):
    path = tmp_path / "kept.sqlite"
    with store(path, SCHEMA, SheetError) as database:
        database.execute("INSERT INTO word VALUES ('kept')")

    def lose():
        with store(path, SCHEMA, SheetError) as database:
            database.execute("INSERT INTO word VALUES ('lost')")
            raise RuntimeError

    with pytest.raises(RuntimeError):
        lose()
    assert words(path) == ["kept"]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")
def test_a_place_that_cannot_be_a_file_is_one_line(tmp_path):
    with pytest.raises(SheetError), store(Path(os.devnull) / "kept.sqlite", SCHEMA, SheetError):
        pass
