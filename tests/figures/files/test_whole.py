"""Files appear whole or not at all, and where the user named them."""

import os

import pytest

from figures.files.whole import check_place, save_whole
from layout.errors import SheetError


def test_every_place_is_checked_before_the_first_is_written(tmp_path):
    good, bad = tmp_path / "a.pdf", tmp_path / "none" / "b.csv"
    with pytest.raises(SheetError, match="there is no folder"):
        save_whole({good: b"a", bad: b"b"})
    assert list(tmp_path.iterdir()) == []


def test_a_link_stays_and_its_file_is_written(tmp_path):
    (tmp_path / "far").mkdir()
    (tmp_path / "far" / "a.pdf").write_bytes(b"old")
    link = tmp_path / "a.pdf"
    link.symlink_to(tmp_path / "far" / "a.pdf")
    save_whole({link: b"new"})
    assert link.is_symlink()
    assert (tmp_path / "far" / "a.pdf").read_bytes() == b"new"


def test_names_that_no_file_can_have(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    for name, said in (
        ("x" * 300 + ".pdf", "longer than 255"),
        ("pipe", "no regular file"),
        ("", "a folder"),
    ):
        with pytest.raises(SheetError, match=said):
            check_place(tmp_path / name)


def test_a_disk_that_fills_leaves_what_was_there(tmp_path, monkeypatch):
    old = tmp_path / "a.pdf"
    old.write_bytes(b"old")

    class Full:
        def __init__(self, handle, mode):
            os.close(handle)

        def __enter__(self):
            return self

        def __exit__(self, *_):
            return False

        def write(self, _):
            raise OSError(28, "No space left on device")

    monkeypatch.setattr("figures.files.whole.os.fdopen", Full)
    with pytest.raises(SheetError, match="No space left"):
        save_whole({old: b"new", tmp_path / "b.pdf": b"new"})
    assert old.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["a.pdf"]
