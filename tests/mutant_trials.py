"""Which tests see a changed line, and whether they notice: the runs behind `tests.mutants`.

Everything that is not the project's own is imported once. Each trial is a fork of that process
that imports a changed copy of the project, and runs tests there until one fails.
"""

import hashlib
import importlib
import json
import os
import resource
import shutil
import signal
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from math import ceil
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
ROOMS = ("layout", "figures", "lessons")
PATHS = ("tests", "layout", "figures")
APART = ("tests/lessons/live", "tests/lessons/test_browser.py", "tests/test_readme.py")
"""Tests that start the program anew, which no count of lines sees."""
LIBRARIES = (
    *("numpy", "shapely", "shapely.affinity", "matplotlib.figure", "matplotlib.patches"),
    *("matplotlib.backends.backend_pdf", "matplotlib.backends.backend_svg", "PIL.Image"),
    *("matplotlib.backends.backend_agg", "matplotlib.textpath", "typer", "typer.testing"),
    *("hypothesis", "hypothesis.strategies", "hypothesis.extra.numpy", "pypdf", "pypdfium2"),
    *("sympy", "manifold3d", "xml.etree.ElementTree", "sqlite3", "jinja2", "tomllib", "csv"),
)
BUDGETS_S = (2.0, 8.0, 30.0)
"""CPU seconds of the first tests, of the next, of the next; then all that are left."""
PATIENCE, LEAST_S = 12.0, 40.0
"""A changed program may take so many times as long as it did, or so long, before it is stopped."""
ASLEEP = 10.0
"""A trial is stopped for waiting only after so many times the seconds that it may work."""
FAR = 4.0
"""A test of another room is as good as one of the changed file's own that takes so much longer."""


@dataclass(frozen=True)
class Reach:
    """Seconds of every test that passes, and for each file and line the tests that reach it."""

    seconds: dict[str, float]
    lines: dict[str, dict[int, list[str]]]

    def tests(self, file: str, line: int) -> list[str]:
        """The tests of a line, those first that will soonest say something about it.

        What is worked out once and kept is reached by the first test that asks: so the tests of
        the file's own room follow those that reach the line.
        """
        own = "tests/" + str(Path(file).parent)

        def dear(test: str) -> float:
            return self.seconds[test] * (1.0 if test.startswith((own, file)) else FAR)

        reaching = {test for test in self.lines.get(file, {}).get(line, ()) if test in self.seconds}
        beside = {test for test in self.seconds if test.startswith((own, file))} - reaching
        return sorted(reaching, key=dear) + sorted(beside, key=dear)

    def batches(self, tests: Iterable[str], most_s: float) -> Iterator[list[str]]:
        """The tests in batches, each larger than the one before, up to so many seconds in all."""
        budgets, batch, spent, whole = iter(BUDGETS_S), list[str](), 0.0, 0.0
        budget = next(budgets)
        for test in tests:
            if whole + self.seconds[test] > most_s:
                continue
            batch.append(test)
            spent, whole = spent + self.seconds[test], whole + self.seconds[test]
            if spent >= budget:
                yield batch
                batch, spent, budget = [], 0.0, next(budgets, most_s)
        if batch:
            yield batch


class Watch:
    """A plug-in of pytest: notes each test's seconds, and tells coverage whose lines these are."""

    def __init__(self, switch: Callable[[str], None]) -> None:
        self.switch, self.seconds, self.failed = switch, dict[str, float](), set[str]()
        self.name = ""

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        self.name = nodeid.partition("[")[0]
        self.switch(self.name)

    def pytest_runtest_logreport(self, report) -> None:  # type: ignore[no-untyped-def]
        name = report.nodeid.partition("[")[0]
        self.seconds[name] = self.seconds.get(name, 0.0) + report.duration
        if report.failed:
            self.failed.add(name)

    @contextmanager
    def shared(self, scope: str) -> Iterator[None]:
        """What many tests share is reached by every test of the file."""
        if scope != "function" and self.name:
            self.switch(self.name.partition("::")[0])
        yield
        if self.name:
            self.switch(self.name)


def warm() -> None:
    """Import what is not the project's, so that every fork has it."""
    for name in LIBRARIES:
        importlib.import_module(name)


def forked(work: Callable[[], int], within_s: float) -> int | None:
    """What a piece of work comes to in a process of its own; None where it was stopped.

    `within_s` are seconds of its own work: on a busy machine it may wait as long again as ASLEEP.
    """
    child = os.fork()
    if not child:
        os.setsid()
        code = 99
        resource.setrlimit(resource.RLIMIT_CPU, (ceil(within_s), ceil(within_s) + 1))
        try:
            nowhere = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(nowhere, stream)
            code = work()
        finally:
            os._exit(code)
    end = time.monotonic() + ASLEEP * within_s
    while time.monotonic() < end:
        ended, status = os.waitpid(child, os.WNOHANG)
        if ended:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.02)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


def suite(tree: Path, arguments: list[str], plugins: list[object]) -> int:
    """Run tests in a tree, in this very process: to be called in a fork."""
    import pytest

    os.chdir(tree)
    os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
    sys.dont_write_bytecode = True
    sys.path[:] = [str(tree), *(path for path in sys.path if Path(path).resolve() != ROOT)]
    for name in [name for name in sys.modules if name.split(".")[0] in (*ROOMS, "tests")]:
        del sys.modules[name]
    quiet = ["-q", "-p", "no:cacheprovider", "-W", "ignore::pytest.PytestAssertRewriteWarning"]
    return int(pytest.main([*quiet, *arguments], plugins))


def survives(tree: Path, file: str, text: str, reach: Reach, line: int, most_s: float) -> str:
    """Whether the tests of a line let a changed text pass: `killed`, `survived` or `unreached`."""
    tests = reach.tests(file, line)
    if not tests:
        return "unreached"
    target = tree / file
    right, kept = target.read_text("utf-8"), target.stat()
    target.write_text(text, "utf-8")
    try:
        for batch in reach.batches(tests, most_s):
            usual = sum(reach.seconds[test] for test in batch)
            within = max(LEAST_S, PATIENCE * usual)
            if forked(lambda batch=batch: suite(tree, ["-x", *batch], []), within) != 0:  # type: ignore[misc]
                return "killed"
    finally:
        target.write_text(right, "utf-8")
        os.utime(target, ns=(kept.st_atime_ns, kept.st_mtime_ns))  # its compiled file is good again
    return "survived"


def copied(root: Path, place: Path) -> Path:
    """A copy of the project to be changed, compiled once."""
    shutil.copytree(root, place, ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__"))
    import compileall

    compileall.compile_dir(place, quiet=2)
    return place


def digest(root: Path) -> str:
    """A name for the state of the code and its tests."""
    told = hashlib.sha256()
    for room in (*ROOMS, "tests"):
        for path in sorted((root / room).rglob("*.py")):
            told.update(path.read_bytes())
    return told.hexdigest()[:16]


def reaching(root: Path, trees: list[Path], kept: Path) -> Reach:
    """Run the suite once with its lines counted, a share in each tree; kept for this very code."""
    state = digest(root)
    if kept.exists() and (found := json.loads(kept.read_text()))["state"] == state:
        return read(found)
    files = [
        str(path.relative_to(root))
        for place in PATHS
        for path in sorted(
            (root / place).rglob("test_*.py" if place.startswith("tests") else "*.py")
        )
        if not str(path.relative_to(root)).startswith(APART)
    ]
    running = []
    for at, tree in enumerate(trees):
        child = os.fork()
        if not child:
            code = 99
            try:
                code = counted(tree, files[at :: len(trees)], kept.with_suffix(f".{at}"))
            finally:
                os._exit(code)
        running.append(child)
    for child in running:
        os.waitpid(child, 0)
    seconds: dict[str, float] = {}
    lines: dict[str, dict[str, list[str]]] = {}
    for at in range(len(trees)):
        part = json.loads(kept.with_suffix(f".{at}").read_text())
        seconds |= part["seconds"]
        for file, of in part["lines"].items():
            for line, tests in of.items():
                lines.setdefault(file, {}).setdefault(line, []).extend(tests)
    found = {"state": state, "seconds": seconds, "lines": lines}
    kept.write_text(json.dumps(found))
    return read(found)


def read(found: dict[str, dict]) -> Reach:  # type: ignore[type-arg]
    """What was kept, with its line numbers as numbers again."""
    lines = {
        file: {int(line): tests for line, tests in of.items()}
        for file, of in found["lines"].items()
    }
    return Reach(found["seconds"], lines)


def counted(tree: Path, files: list[str], out: Path) -> int:
    """Run these files' tests in a tree with every line noted, and write down what was found."""
    import coverage
    import pytest

    os.chdir(tree)
    told = os.open(out.with_suffix(f"{out.suffix}.log"), os.O_RDWR | os.O_CREAT | os.O_TRUNC)
    for stream in (1, 2):
        os.dup2(told, stream)
    count = coverage.Coverage(
        data_file=str(out.with_suffix(".data")), source=list(ROOMS), config_file=False
    )
    watch = Watch(lambda name: count.switch_context(name))

    class Shared:
        @pytest.hookimpl(wrapper=True)
        def pytest_fixture_setup(self, fixturedef):  # type: ignore[no-untyped-def]
            with watch.shared(fixturedef.scope):
                return (yield)

    count.erase()
    count.start()
    code = suite(tree, files, [watch, Shared()])
    count.stop()
    data = count.get_data()
    good = {name: took for name, took in watch.seconds.items() if name not in watch.failed}
    of_file: dict[str, list[str]] = {}
    for name in good:
        of_file.setdefault(name.partition("::")[0], []).append(name)
    lines = {}
    for measured in data.measured_files():
        at_lines = data.contexts_by_lineno(measured)
        lines[str(Path(measured).resolve().relative_to(tree.resolve()))] = {
            at: sorted({test for name in names for test in of_file.get(name, [name])} & good.keys())
            for at, names in at_lines.items()
        }
    out.write_text(json.dumps({"seconds": good, "lines": lines}))
    return code
