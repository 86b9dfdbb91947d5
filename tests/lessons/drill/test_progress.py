"""The progress file: whole at any moment, whoever writes it and however it is killed."""

import csv
import json
import os
import random
import signal
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.drill.progress import (
    Attempt,
    Progress,
    ProgressError,
    ProgressFile,
    as_csv,
    as_json,
)
from lessons.drill.review import DAYS, MASTERED_STEP, LessonStanding, comes_next, standings
from lessons.say.data_folder import data_folder
from tests.counts import count

TREE = Path(__file__).resolve().parents[3]


def attempt(lesson="hip-jack", day="2030-01-01", **more) -> Attempt:
    return Attempt(
        when=f"{day}T12:00:00+01:00",
        **{"lesson": lesson, "drill": "number tilt:deg", "kind": "number", "right": True, **more},
    )


@pytest.fixture
def file(tmp_path) -> ProgressFile:
    return ProgressFile(tmp_path / "data")


# ---- the file ----------------------------------------------------------------------------


def test_what_is_added_is_read_back(file):
    kept = [
        attempt(answered="8.5", mistakes=("wrong-hand",), given={"pitch": "8 in 12"}),
        attempt(),
    ]
    for one in kept:
        file.add(one)
    assert file.read() == Progress(tuple(kept))
    assert ProgressFile(file.folder).read().attempts == tuple(kept)


def test_nothing_is_made_by_reading(file):
    assert file.read() == Progress()
    assert not file.folder.exists()


@pytest.mark.parametrize("damage", [b"\xff\xfe\x00nonsense" * 99, b"SQLite format 4" * 100])
def test_what_is_no_database_is_told_and_left_alone(file, damage):
    file.add(attempt())
    file.path.write_bytes(damage)
    with pytest.raises(ProgressError, match=r"no database .* move it away; give --no-save"):
        file.read()
    with pytest.raises(ProgressError, match="cannot keep progress"):
        file.add(attempt())
    assert file.path.read_bytes() == damage


def test_what_the_first_version_kept_is_taken_over_once(file):
    kept = [asdict(attempt(answered="45")), asdict(attempt(right=False, mistakes=("wrong-hand",)))]
    bad = [{}, 7, {**kept[0], "when": "yesterday"}, {**kept[0], "when": "2030-01-01T12:00:00"}]
    file.folder.mkdir()
    earlier = file.folder / "progress.json"
    earlier.write_text(json.dumps({"schema": 1, "attempts": [*kept, *bad]}), "utf-8")
    found = file.read().attempts
    assert [(one.answered, one.right, one.mistakes) for one in found] == [
        ("45", True, ()),
        ("", False, ("wrong-hand",)),
    ]
    file.add(attempt())
    assert len(file.read().attempts) == 3
    assert earlier.exists()


def test_learners_are_kept_apart(tmp_path):
    for name in ("Ann", "Bo", ""):
        ProgressFile(tmp_path, name).add(attempt(answered=name or "nobody"))
    assert [one.answered for one in ProgressFile(tmp_path, "Ann").read().attempts] == ["Ann"]
    assert [one.learner for one in ProgressFile(tmp_path).read().attempts] == ["Ann", "Bo", ""]


def test_text_that_cannot_be_kept_is_kept_as_it_can(file):
    file.add(attempt(answered="half a pair \ud800"))
    assert file.read().attempts[0].answered == "half a pair ?"


def test_no_cell_is_a_formula(file):
    file.add(attempt(answered="=1+1"))
    assert "'=1+1" in as_csv(file.read())


def test_a_folder_that_cannot_be_made_is_one_line(tmp_path, monkeypatch, capsys):
    (tmp_path / "taken").write_text("a file", "utf-8")
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "taken"))
    assert run(["drill", "--problems", "1"]) == 2
    _, error = capsys.readouterr()
    assert "cannot keep progress" in error
    assert "--no-save" in error
    assert error.count("\n") == 1


def test_eight_at_once_lose_nothing(file):
    def add(i: int) -> None:
        for k in range(12):
            file.add(attempt(answered=f"{i}-{k}"))

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(add, range(8)))
    answered = {one.answered for one in file.read().attempts}
    assert answered == {f"{i}-{k}" for i in range(8) for k in range(12)}


WRITER = """
import sys
from itertools import pairwise
from pathlib import Path
from lessons.drill.progress import Attempt, ProgressFile, now
file = ProgressFile(Path(sys.argv[1]))
for i in range(int(sys.argv[3])):
    file.add(Attempt(now(), 'hip-jack', 'number', 'number', True, answered=f'{sys.argv[2]}-{i}'))
    print(i, flush=True)
"""


def writer(folder: Path, name: str, times: int) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", WRITER, str(folder), name, str(times)],
        stdout=subprocess.PIPE,
        text=True,
        cwd=TREE,
    )


def test_two_processes_at_once_lose_nothing(file):
    both = [writer(file.folder, name, 40) for name in "ab"]
    for one in both:
        one.communicate(timeout=60)
        assert one.returncode == 0
    answered = {one.answered for one in file.read().attempts}
    assert answered == {f"{name}-{i}" for name in "ab" for i in range(40)}


@pytest.mark.skipif(os.name == "nt", reason="kill -9 is a signal of POSIX")
def test_killed_at_any_moment_the_file_is_whole(file):
    rng = random.Random(5)
    for round_ in range(8):
        one = writer(file.folder, str(round_), 10_000)
        assert one.stdout is not None
        one.stdout.readline()
        time.sleep(rng.random() * 0.05)
        one.send_signal(signal.SIGKILL)
        told = one.stdout.read().split()
        one.wait()
        one.stdout.close()
        kept = file.read()
        mine = [a for a in kept.attempts if a.answered.startswith(f"{round_}-")]
        # All that was told, and at most the one that was being kept.
        assert len(mine) - (1 + len(told)) in (0, 1)
    file.add(attempt())
    left = {path.name for path in file.folder.iterdir()}
    assert left == {"progress.sqlite3"}, "what a killed writer leaves is rolled back"


# ---- the drill itself ----------------------------------------------------------------------


def drill(folder: Path, *arguments: str, typed: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "lessons", "drill", *arguments],
        input=typed,
        capture_output=True,
        text=True,
        cwd=TREE,
        env={**os.environ, "SQUARESAW_DATA": str(folder)},
        check=False,
    )


@pytest.mark.skipif(os.name == "nt", reason="kill -9 is a signal of POSIX")
def test_a_drill_killed_after_an_answer_has_kept_it(tmp_path):
    for number in range(1, count(3, 2) + 1):
        one = subprocess.Popen(
            [sys.executable, "-m", "lessons", "drill", "--kind", "number", "--seed", str(number)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            cwd=TREE,
            env={**os.environ, "SQUARESAW_DATA": str(tmp_path)},
        )
        assert one.stdin is not None
        assert one.stdout is not None
        one.stdin.write("1\n")
        one.stdin.flush()
        while "Try again" not in one.stdout.readline():
            pass
        one.send_signal(signal.SIGKILL)
        one.wait()
        one.stdin.close()
        one.stdout.close()
        kept = ProgressFile(tmp_path).read()
        assert len(kept.attempts) == number


def typed(monkeypatch, folder, *lines):
    """Answers to be given to a drill in this process, which keeps what it keeps in a folder."""
    given = iter(lines)
    monkeypatch.setenv("SQUARESAW_DATA", str(folder))
    monkeypatch.setattr("builtins.input", lambda _: next(given))


def test_a_drill_tells_a_damaged_file_in_one_line(tmp_path, monkeypatch):
    (tmp_path / "progress.sqlite3").write_text("half a fi", "utf-8")
    done = drill(tmp_path, "--seed", "1", typed="quit\n")
    assert done.returncode == 2
    assert "no database of this program" in done.stderr
    assert done.stderr.count("\n") == 1
    typed(monkeypatch, tmp_path, "quit")
    assert run(["drill", "--seed", "1", "--no-save"]) == 0


def test_no_save_touches_nothing(tmp_path, monkeypatch):
    typed(monkeypatch, tmp_path / "none", "1", "quit")
    assert run(["drill", "--seed", "1", "--no-save"]) == 0
    assert not (tmp_path / "none").exists()


def test_progress_is_exported(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "data"))
    kept = [attempt(answered="8.5", mistakes=("wrong-hand",)), attempt(day="2030-01-02")]
    for one in kept:
        ProgressFile().add(one)
    for name in ("out.json", "out.csv"):
        assert run(["drill", "--progress", "-o", str(tmp_path / name)]) == 0
    whole = json.loads((tmp_path / "out.json").read_text("utf-8"))
    assert whole["schema"] == 1
    assert [one["answered"] for one in whole["attempts"]] == ["8.5", ""]
    rows = list(csv.DictReader((tmp_path / "out.csv").read_text("utf-8").splitlines()))
    assert [row["mistakes"] for row in rows] == ["wrong-hand", ""]
    assert run(["drill", "--progress", "-o", str(tmp_path / "out.txt")]) == 2
    assert "must end in .json or .csv" in capsys.readouterr().err


def test_an_empty_file_is_text_too():
    assert json.loads(as_json(Progress())) == {"schema": 1, "attempts": []}
    assert as_csv(Progress()).startswith("when,lesson,drill,kind,right")


# ---- where it is kept ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("environment", "platform", "folder"),
    [
        # XDG Base Directory Specification: $XDG_DATA_HOME, else $HOME/.local/share; a relative
        # path is to be ignored.
        ({"HOME": "/h", "XDG_DATA_HOME": "/x"}, "linux", "/x/square-and-saw"),
        ({"HOME": "/h"}, "linux", "/h/.local/share/square-and-saw"),
        ({"HOME": "/h", "XDG_DATA_HOME": "rel"}, "linux", "/h/.local/share/square-and-saw"),
        ({"HOME": "/h", "XDG_DATA_HOME": ""}, "freebsd14", "/h/.local/share/square-and-saw"),
        ({"HOME": "/h"}, "darwin", "/h/Library/Application Support/square-and-saw"),
        ({"USERPROFILE": "/u", "LOCALAPPDATA": "/l"}, "win32", "/l/square-and-saw"),
        ({"USERPROFILE": "/u"}, "win32", "/u/AppData/Local/square-and-saw"),
        ({"SQUARESAW_DATA": "/own", "XDG_DATA_HOME": "/x"}, "linux", "/own"),
    ],
)
def test_the_data_folder_follows_the_platform(environment, platform, folder):
    assert data_folder(environment, platform) == Path(folder)


# ---- when a lesson comes back ------------------------------------------------------------------


def days_after(start: str, days: int) -> str:
    return (date.fromisoformat(start) + timedelta(days=days)).isoformat()


def test_right_answers_when_due_lead_to_growing_distances():
    day, kept = "2030-01-01", []
    for distance in DAYS:
        kept.append(attempt(day=day))
        due = standings(kept)["hip-jack"].due
        assert due.isoformat() == days_after(day, distance)
        day = due.isoformat()
    assert (DAYS, standings(kept)["hip-jack"].step) == ((1, 2, 4, 8, 16, 32), 6)
    kept.append(attempt(day=day))
    assert standings(kept)["hip-jack"].due.isoformat() == days_after(day, 32)


def test_distances_double_from_one_day():
    assert DAYS[0] == 1
    assert all(later == 2 * sooner for sooner, later in pairwise(DAYS))


@pytest.mark.parametrize("right", [True, False])
def test_the_last_day_of_the_calendar_is_no_trouble(right):
    standing = standings([attempt(day="9999-12-31", right=right)])["hip-jack"]
    assert standing.due == date.max


def test_cramming_moves_nothing():
    once = standings([attempt()])["hip-jack"]
    often = standings([attempt() for _ in range(9)])["hip-jack"]
    assert (often.step, often.due) == (once.step, once.due)
    assert (often.tried, often.right) == (9, 9)


def test_a_wrong_answer_brings_a_lesson_back_tomorrow():
    kept = [attempt(day="2030-01-01"), attempt(day="2030-01-02"), attempt(day="2030-01-04")]
    assert standings(kept)["hip-jack"].step == 3
    kept.append(attempt(day="2030-01-12", right=False))
    standing = standings(kept)["hip-jack"]
    assert (standing.step, standing.due) == (1, date(2030, 1, 13))
    # The second answer to the same problem is neither held for nor against anyone.
    kept.append(attempt(day="2030-01-12", tries=2))
    assert standings(kept)["hip-jack"] == standing


def test_an_answer_after_hints_does_not_count_as_known():
    standing = standings([attempt(hints=1)])["hip-jack"]
    assert (standing.step, standing.right, standing.kinds_right) == (0, 0, frozenset())
    shown = standings([attempt(right=False, shown=True)])["hip-jack"]
    assert shown.step == 0


def test_mastered_needs_every_kind_and_time():
    lesson = catalog()["hip-jack"]
    kinds = sorted({drill.kind for drill in lesson.drills})
    day, kept = "2030-01-01", []
    for step in range(MASTERED_STEP):
        assert not standings(kept).get("hip-jack", LessonStanding("hip-jack")).mastered(lesson)
        kept += [attempt(day=day, kind=kind) for kind in kinds]
        day = days_after(day, DAYS[step])
    assert standings(kept)["hip-jack"].mastered(lesson)
    only = [one for one in kept if one.kind == kinds[0]]
    assert not standings(only)["hip-jack"].mastered(lesson)


def test_order_of_time_counts_and_not_the_order_of_writing():
    kept = [attempt(day="2030-01-01"), attempt(day="2030-01-02"), attempt(day="2030-01-05")]
    assert standings(reversed(kept)) == standings(kept)
    # Ten past midnight in one zone comes before half past eleven of the day before in another.
    early = Attempt("2030-01-02T00:10:00+09:00", "hip-jack", "d", "number", True)
    late = Attempt("2030-01-01T23:30:00-08:00", "hip-jack", "d", "number", False)
    for kept in ([late, early], [early, late]):
        standing = standings(kept)["hip-jack"]
        assert (standing.step, standing.due) == (0, date(2030, 1, 2))


def test_what_is_due_comes_before_what_is_new():
    lessons = {name: catalog()["hip-jack"] for name in ("one", "two", "three", "four")}
    today = date(2030, 1, 10)
    kept = [
        attempt("two", "2030-01-01"),
        attempt("one", "2030-01-05"),
        attempt("gone", "2030-01-01"),
    ]
    assert comes_next(lessons, standings(kept), today) == ["two", "one", "three"]
    assert comes_next(lessons, {}, today) == ["one"]
    kept = [attempt(name, "2030-01-10") for name in lessons]
    assert comes_next(lessons, standings(kept), today) == ["one"]


def test_progress_is_told_in_words(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path))
    assert run(["drill", "--progress"]) == 0
    assert "not tried yet" in capsys.readouterr().out
    ProgressFile().add(attempt(day="2020-01-01"))
    ProgressFile().add(attempt(day="2020-01-01", right=False, mistakes=("wrong-hand",)))
    assert run(["drill", "--progress"]) == 0
    said = capsys.readouterr().out
    assert "due now; 1 right of 2" in said
    assert "1 time The cheek leans the wrong way: two of one hand in place of a pair." in " ".join(
        said.split()
    )
    assert "wrong-hand" not in said
    assert "1, 2, 4, 8, 16, then 32 days" in " ".join(said.split())
