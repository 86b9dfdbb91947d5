"""One profile for every drawn test: no deadline, the same draws in every run. Slow files first.

A draw also takes numbers from the modules that are loaded, so a test may be given other ones when
it runs among others. A failure prints its example, which is to be kept as a case of its own.
`--hypothesis-profile=anew --hypothesis-seed=7` makes other draws of every test.
"""

import gc
import signal
from pathlib import Path

import pytest
from _pytest.doctest import DoctestModule
from _pytest.runner import runtestprotocol
from hypothesis import HealthCheck, settings

from tests.counts import count

settings.register_profile(
    "square-and-saw",
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=count(1000),
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("anew", settings.get_profile("square-and-saw"), derandomize=False)
settings.load_profile("square-and-saw")

SLOW_FIRST = (
    "test_live_days.py",
    "test_template_command.py",
    "test_live_guard.py",
    "test_framing.py",
    "test_live_jobs.py",
    "test_bench_drills.py",
    "test_template.py",
    "test_book.py",
    "test_sweep.py",
    "test_roof.py",
    "test_grading.py",
    "test_help.py",
    "test_said_back.py",
    "test_teaching.py",
    "test_job_file.py",
    "test_rules.py",
    "test_course.py",
    "test_browser.py",
    "test_paper_use.py",
    "test_packet.py",
    "test_pole.py",
    "test_drawn_calls.py",
)
"""Files that take longest: begun first, so that at the end no worker waits for another."""


def pytest_configure(config: pytest.Config) -> None:
    """Files go to the workers in our order; a program begun by a test hears Ctrl-C."""
    config.option.loadscopereorder = False
    gc.set_threshold(100_000, 50, 100)
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:  # begun behind another command
        signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: object) -> object:
    """A file stays on one worker; all that open a browser or ask a server stay on one together."""
    from tests.by_room import ByRoom

    return ByRoom(config, log) if config.getvalue("dist") == "loadfile" else None


@pytest.hookimpl(wrapper=True)
def pytest_collect_file(file_path: Path) -> object:
    """Examples are looked for where there are some: in no test, and in one file out of ten."""
    found = yield
    program = file_path.suffix == ".py" and not file_path.name.startswith("test_")
    examples = program and ">>>" in file_path.read_text("utf-8")
    return [one for one in found if examples or not isinstance(one, DoctestModule)]


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_protocol(item: pytest.Item, nextitem: pytest.Item | None) -> bool | None:
    """A worker sends word once of a test that has passed, and of no step on the way: to send
    takes it longer than many a test."""
    if not hasattr(item.config, "workerinput"):
        return None
    for report in runtestprotocol(item, log=False, nextitem=nextitem):
        if report.when == "call" or not report.passed:
            item.ihook.pytest_runtest_logreport(report=report)
    item.ihook.pytest_runtest_logfinish(nodeid=item.nodeid, location=item.location)
    return True


def pytest_collection_finish() -> None:
    """What is there before the first test stays to the last: it is not searched for waste."""
    gc.collect()
    gc.freeze()


def pytest_sessionfinish() -> None:
    """One search for what was left behind: pytest makes five, through all that was kept."""
    gc.collect()
    gc.freeze()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Slow files first; within a file, and among the others, the order stays."""
    last = len(SLOW_FIRST)
    rank = {name: place for place, name in enumerate(SLOW_FIRST)}
    items.sort(key=lambda item: rank.get(item.path.name, last))
