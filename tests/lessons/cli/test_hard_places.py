"""Places and values that end badly: a folder nobody may write, a full disk, a roof that is endless.

Each ends in one line and exit code 2, at once, and leaves no file.
"""

import io
import os
import tempfile
import time
from pathlib import Path

import pytest

from lessons.cli.main import run
from tests.full_disk import OnFullDisk
from tests.small_lessons import CHEEK

NOBODY = 65534
"""The user who owns nothing (common practice on POSIX systems, no source)."""


def refused(capsys, *arguments):
    assert run(list(arguments)) == 2
    out, error = capsys.readouterr()
    assert error.startswith("squaresaw: ")
    assert error.count("\n") == 1
    return out + error


def as_nobody(work):
    """What a piece of work comes to in a process whose user owns nothing."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        try:
            if os.getuid() == 0:  # root may write into every folder
                os.setgroups([])
                os.setresgid(NOBODY, NOBODY, NOBODY)
                os.setresuid(NOBODY, NOBODY, NOBODY)
            os.write(writing, work().encode())
        finally:
            os._exit(0)
    os.close(writing)
    os.waitpid(child, 0)
    with os.fdopen(reading) as told:
        return told.read()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system makes no process by fork")
@pytest.mark.parametrize(
    "command",
    [
        ("lesson", "new", "yard-cheek"),
        ("job", "new", "yard.toml"),
        ("drill", "hip-jack", "--problems", "1"),
    ],
    ids=lambda command: command[0],
)
def test_a_folder_nobody_may_write_is_one_line(capsys, monkeypatch, command):
    monkeypatch.setattr("sys.stdin", io.StringIO())

    def tried(folder):
        monkeypatch.chdir(folder)
        monkeypatch.setenv("SQUARESAW_DATA", str(folder / "data"))
        return f"{run(list(command))} {capsys.readouterr().err}"

    with tempfile.TemporaryDirectory() as place:  # pytest's own folders are for their owner alone
        free, shut = Path(place, "free"), Path(place, "shut")
        for folder, mode in ((Path(place), 0o755), (free, 0o755), (shut, 0o555)):
            folder.mkdir(exist_ok=True)
            folder.chmod(mode)
        assert tried(free).startswith("0 "), "where it may write it does"
        assert list(free.iterdir())
        told = as_nobody(lambda: tried(shut))
        assert told.startswith("2 squaresaw: ")
        assert told.count("\n") == 1
        assert "ermission denied" in told
        assert not list(shut.iterdir())


@pytest.mark.parametrize("command", [("lesson", "new", "yard-cheek"), ("job", "new", "yard.toml")])
def test_a_disk_that_fills_leaves_no_empty_file(capsys, tmp_path, monkeypatch, command):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("figures.files.whole.os.fdopen", OnFullDisk)
    assert "No space left on device" in refused(capsys, *command)
    assert not list(tmp_path.iterdir())


def test_both_places_of_a_sheet_are_looked_at_before_it_is_made(capsys, tmp_path):
    """The answers' folder is missing: the sheet is not written either."""
    places = (str(tmp_path / "w.pdf"), "--answers", str(tmp_path / "none" / "a.csv"))
    assert "there is no folder" in refused(capsys, "worksheet", "hip-jack", "-o", *places)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    "roof",
    [
        ("--count", "1000"),
        ("--count", "100000000"),
        ("--spacing", "1mm", "--eave", "12'"),
        ("--eave", "500'"),
        ("--eave", "9000'", "--spacing", "2in"),
    ],
)
def test_an_endless_row_of_jacks_is_refused_at_its_first_board(capsys, roof):
    started = time.process_time()
    refused(capsys, "jacks", *roof)
    assert time.process_time() - started < 2.0


def test_a_lessons_words_do_nothing_to_a_terminal(capsys, tmp_path):
    """An escape in a title or a step, and in the name of a file."""
    for name, was in (("one", "A cheek for the yard"), ("two", "Mark the waste.")):
        text = CHEEK.replace(was, r"\u001b[2J\u001b]0;me\u0007 A cheek")
        Path(tmp_path / f"{name}.toml").write_text(text, "utf-8")
    Path(tmp_path / "a\x1b[2Jb.toml").write_text(CHEEK, "utf-8")
    for asked in (("one",), ("two",), ("check", str(tmp_path)), ()):
        run(["lesson", *asked, "--catalog", str(tmp_path)])
        out, error = capsys.readouterr()
        assert "\x1b" not in out + error
        assert "\x07" not in out + error
        assert out + error
