"""What a user names is read within bounds: pipes, folders, odd bytes, large files."""

import os
import threading
import time

import pytest

from layout.errors import LengthError
from lessons.say import reading


def test_a_file_is_read_with_or_without_a_mark_at_its_head(tmp_path):
    path = tmp_path / "a.txt"
    path.write_bytes(b"\xef\xbb\xbfplumb 8 in 12\r\nsaw 45\r\n")
    assert reading.read_text(path, LengthError) == "plumb 8 in 12\nsaw 45\n"


@pytest.mark.parametrize(
    ("data", "said"), [(b"a\nb\xff", ":2: this is no UTF-8"), (b"a" * 5_000_000, "more than 4 MB")]
)
def test_what_is_no_text_is_refused_with_its_line(tmp_path, data, said):
    path = tmp_path / "a.txt"
    path.write_bytes(data)
    with pytest.raises(LengthError, match=said):
        reading.read_text(path, LengthError)


def test_a_folder_and_a_missing_file_are_refused(tmp_path):
    with pytest.raises(LengthError, match="it is a folder"):
        reading.read_text(tmp_path, LengthError)
    with pytest.raises(LengthError, match="there is no such file; give the name of"):
        reading.read_text(tmp_path / "none", LengthError)


def test_a_pipe_that_is_written_is_read_whole(tmp_path):
    path = tmp_path / "pipe"
    os.mkfifo(path)

    def write():
        with path.open("w") as file:
            for part in ("saw 45\n", "edge 8 1/2 on 12\n"):
                file.write(part)
                file.flush()
                time.sleep(0.05)

    writer = threading.Thread(target=write)
    writer.start()
    assert reading.read_text(path, LengthError) == "saw 45\nedge 8 1/2 on 12\n"
    writer.join()


def test_a_pipe_that_nobody_writes_is_said_and_given_up(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(reading, "SAID_AFTER_S", 0.1)
    monkeypatch.setattr(reading, "GIVEN_UP_AFTER_S", 0.4)
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(LengthError, match="nobody wrote into this pipe"):
        reading.read_text(tmp_path / "pipe", LengthError)
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "waiting for something to be written into the pipe" in said
