"""Pieces done by several processes: the same things in the same order, whatever befalls one."""

import os
import signal
import subprocess
import sys
import time
from functools import partial
from pathlib import Path

import pytest

from figures.files.at_once import cores, done_at_once
from layout.errors import SheetError

needs_fork = pytest.mark.skipif(cores() < 2, reason="one core, or no fork that is safe")


def squared(number):
    return number * number, os.getpid()


@pytest.mark.parametrize("processes", [1, 2, 3, 50])
def test_what_comes_is_in_the_order_of_the_pieces(processes):
    told = []
    pieces = [partial(squared, number) for number in range(7)]
    came = done_at_once(pieces, processes, lambda done, of: told.append((done, of)))
    assert [square for square, _ in came] == [0, 1, 4, 9, 16, 25, 36]
    assert told == [(done, 7) for done in range(1, 8)]
    assert done_at_once([], processes) == []


@needs_fork
def test_the_work_is_shared_out():
    """Each waits until the other has begun: one process alone would wait for ever."""
    read, write = os.pipe()

    def meet(own, other):
        os.write(write, own)
        deadline = time.monotonic() + 20
        while time.monotonic() < deadline:
            met = os.read(read, 1)
            if met == other:
                return os.getpid()
            os.write(write, met)
            time.sleep(0.001)
        raise AssertionError("nobody else is at work")

    one, two = done_at_once([partial(meet, b"a", b"b"), partial(meet, b"b", b"a")], 2)
    assert len({one, two, os.getpid()}) == 3


@pytest.mark.parametrize("processes", [1, 2])
def test_the_first_error_is_raised_and_nothing_more_is_begun(processes, tmp_path):
    def piece(number):
        (tmp_path / str(number)).touch()
        if number >= 2:
            # The later one fails sooner.
            time.sleep(0.2 * (number == 2))
            raise SheetError(f"piece {number} does not fit")

    with pytest.raises(SheetError, match="piece 2 does not fit"):
        done_at_once([partial(piece, number) for number in range(40)], processes)
    assert len(list(tmp_path.iterdir())) <= 3 + processes


@needs_fork
def test_a_piece_whose_process_is_ended_is_done_here():
    here = os.getpid()

    def killed():
        if os.getpid() != here:
            os.kill(os.getpid(), signal.SIGKILL)
        return os.getpid()

    one, two, *rest = done_at_once([killed, killed, *[partial(squared, 3)] * 3], 2)
    assert one == two == here
    assert rest == [(9, here)] * 3, "both are gone, and the rest is done here too"


SLOW = """
import os, time
from figures.files.at_once import done_at_once

def slow():
    os.write(1, b"%d\\n" % os.getpid())
    time.sleep({seconds})

done_at_once([slow] * 4, 2)
"""


def gone(process):
    """Whether a process has ended; one that its parent has not asked for has, too."""
    try:
        state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    except FileNotFoundError:
        return True
    return state == "Z"


@needs_fork
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_no_process_outlives_the_one_that_asked(how):
    """Ctrl-C goes to all of them; the others are ended when their pipe is, or by the first."""
    slow = SLOW.format(seconds=60 if how == signal.SIGINT else 0.4)
    with subprocess.Popen(
        [sys.executable, "-c", slow],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as asking:
        at_work = [int(asking.stdout.readline()) for _ in range(2)]
        if how == signal.SIGINT:
            os.killpg(asking.pid, how)
        else:
            asking.send_signal(how)
        asking.wait(20)
        deadline = time.monotonic() + 20
        while not all(map(gone, at_work)):
            assert time.monotonic() < deadline, "a process is still at work"
            time.sleep(0.01)
        said = asking.stderr.read()
    assert said.count("Traceback") == (how == signal.SIGINT), "the one who asked, and no other"
