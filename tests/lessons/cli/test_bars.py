"""What long work shows: a line on a terminal that is gone when the work is done, else nothing."""

import io
import os
import signal
import subprocess
import sys

import pytest

from lessons.cli.bars import counted, progress_bar
from lessons.cli.main import run


class Terminal(io.StringIO):
    """Standard error of someone who looks on."""

    def isatty(self):
        return True


def worked():
    with counted("drawing sheet") as show:
        for done in (1, 2, 3):
            show(done, 3)
    with progress_bar("printing", 2) as step:
        step()
        step()


def test_pages_done_of_pages_are_said_on_a_terminal(monkeypatch):
    shown = Terminal()
    monkeypatch.setattr("sys.stderr", shown)
    worked()
    said = shown.getvalue()
    assert "drawing sheet 2 of 3" in said
    assert said.partition("3 of 3\x1b[K")[2].startswith("\r\x1b[K"), "the line is gone again"
    assert "100%" in said


def test_nothing_is_said_where_nobody_looks_on(capsys):
    worked()
    assert capsys.readouterr() == ("", "")


def test_a_command_stopped_at_its_work_leaves_nothing_behind(monkeypatch, capsys, tmp_path):
    """Ctrl-C while the second page is printed: the old file stays, and one line says so."""
    shown = Terminal()
    pages = []

    def twice(page, *given, **named):
        if pages:
            raise KeyboardInterrupt
        pages.append(page)
        return figure(page, *given, **named)

    from figures.files import press

    figure = press._figure
    monkeypatch.setattr(press, "_figure", twice)
    monkeypatch.setattr("sys.stderr", shown)
    out = tmp_path / "sheet.pdf"
    out.write_bytes(b"old")
    asked = ["worksheet", "hip-jack", "--seed", "7", "--sheets", "2", "--force", "-o", str(out)]
    assert run(asked) == 130
    assert pages
    assert out.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.pdf"]
    assert "printing" in shown.getvalue()
    assert shown.getvalue().endswith("squaresaw: stopped; no file was left half written\n")
    assert capsys.readouterr().out == ""


WIDE = """
from layout.answer import wide
from lessons.cli.main import main

def told(*given, tried=wide.over_the_field):
    print("at work", flush=True)
    return tried(*given)

wide.over_the_field = told
main(["check", "--wide"])
"""


def test_the_wide_check_stopped_at_its_work_ends_with_one_line():
    """Ctrl-C goes to all that runs in front: one line, the code of a stopped command, no child."""
    with subprocess.Popen(
        [sys.executable, "-c", WIDE],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as checking:
        assert checking.stdout.readline() == "at work\n"
        os.killpg(checking.pid, signal.SIGINT)
        said, failed = checking.communicate(timeout=60)
    assert checking.returncode == 130
    assert failed == "squaresaw: stopped; no file was left half written\n"
    assert "cases" not in said
    with pytest.raises(ProcessLookupError):
        os.killpg(checking.pid, 0)
