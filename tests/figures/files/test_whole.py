"""Files appear whole or not at all, and where the user named them."""

import os
import random
import signal
import tempfile

import pytest

from figures.files.whole import check_place, save_whole
from layout.errors import SheetError
from tests.counts import count
from tests.full_disk import OnFullDisk


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
    monkeypatch.setattr("figures.files.whole.os.fdopen", OnFullDisk)
    with pytest.raises(SheetError, match="No space left"):
        save_whole({old: b"new", tmp_path / "b.pdf": b"new"})
    assert old.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["a.pdf"]


OLD, NEW = b"old" * 50_000, b"new" * 90_000


def stopped(folder, stop, halt):
    """Write two files in a process of its own that halts before one step; whether it got done.

    A step is a call to the system, or the middle of a file's bytes.
    """
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        steps = iter(range(1000))

        def stepped(call):
            def step(*given, **named):
                if next(steps) == stop:
                    halt()
                return call(*given, **named)

            return step

        opened = os.fdopen

        def in_two(handle, mode):
            file = opened(handle, mode, buffering=0)
            write = file.write

            def halves(data):
                write(data[: len(data) // 2])
                return stepped(write)(data[len(data) // 2 :])

            return Halved(file, halves)

        try:
            os.fdopen, os.chmod, os.replace = in_two, stepped(os.chmod), stepped(os.replace)
            tempfile.mkstemp = stepped(tempfile.mkstemp)
            save_whole({folder / "a.pdf": NEW, folder / "b.csv": NEW})
            os.write(writing, b"done")
        except KeyboardInterrupt:
            pass
        finally:
            os._exit(0)
    os.close(writing)
    done = os.read(reading, 4) == b"done"
    os.close(reading)
    os.waitpid(child, 0)
    return done


class Halved:
    """A file that is written half by half."""

    def __init__(self, file, write):
        self.file, self.write = file, write

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.file.close()


def interrupted():
    raise KeyboardInterrupt


@pytest.mark.parametrize("how", ["kill", "interrupt"])
def test_stopped_inside_the_write_no_file_is_half(tmp_path, how):
    halt = interrupted if how == "interrupt" else lambda: os.kill(os.getpid(), signal.SIGKILL)
    deal, finished = random.Random(5), []
    for at in range(count(100, 12)):
        folder = tmp_path / str(at)
        folder.mkdir()
        for name in ("a.pdf", "b.csv"):
            (folder / name).write_bytes(OLD)
        done = stopped(folder, at if at < 10 else deal.randrange(12), halt)
        finished.append(done)
        found = [(folder / name).read_bytes() for name in ("a.pdf", "b.csv")]
        assert all(data in (OLD, NEW) for data in found)
        assert not done or found == [NEW, NEW], "what was said to be written is lost"
        if how == "interrupt":
            assert sorted(path.name for path in folder.iterdir()) == ["a.pdf", "b.csv"]
    assert len(set(finished)) == 2
