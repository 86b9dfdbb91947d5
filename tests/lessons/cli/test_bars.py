"""What long work shows: a line on a terminal that is gone when the work is done, else nothing."""

import io

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
