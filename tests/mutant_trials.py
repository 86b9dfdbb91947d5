"""Which tests see a changed line, and whether they notice: the runs behind `tests.mutants`.

Each job collects the whole suite once, in a copy of the project. Each trial is a fork of that
process that gives the functions of one file their changed code, and runs tests there until one
fails. Where the line had also run while the suite was collected, so that what it said then may be
kept, a second fork imports the changed copy anew.
"""

import gc
import hashlib
import importlib
import json
import os
import resource
import shutil
import signal
import sys
import time
from argparse import Namespace
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from math import ceil
from pathlib import Path
from types import CodeType, FunctionType

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
TIERS_S = (2.0, 10.0, 40.0)
"""Tests are run in tiers, up to so many CPU seconds in all; within a tier, file by file."""
PATIENCE, LEAST_S = 12.0, 15.0
"""A changed program's test may take so many times as long as it did, and so long, and no longer."""
ASLEEP_S = 60.0
"""A trial may take so much longer by the clock than it may work."""
FAR = 4.0
"""A test of another room is as good as one of the changed file's own that takes so much longer."""


@dataclass(frozen=True)
class Reach:
    """Seconds of every test that passes, and for each file and line the tests that reach it.

    A line of `kept` had run before any test did, while the suite was collected.
    """

    seconds: dict[str, float]
    lines: dict[str, dict[int, list[str]]]
    kept: dict[str, set[int]]

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

    def within(self, tests: list[str], after_s: float, most_s: float) -> list[str]:
        """The tests after so many seconds and up to so many in all, in the order to run."""
        spent, tiers = 0.0, dict[str, tuple[int, str]]()
        for test in tests:
            if spent + self.seconds[test] <= most_s:
                spent += self.seconds[test]
                if spent > after_s:
                    tiers[test] = sum(spent > most for most in TIERS_S), test.partition("::")[0]
        return sorted(tiers, key=lambda test: tiers[test])


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

    `within_s` are seconds of its own work, whose limit it may change as it goes.
    """
    child = os.fork()
    if not child:
        os.setpgid(0, 0)
        code = 99
        at_most(within_s)
        try:
            nowhere = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(nowhere, stream)
            code = work()
        finally:
            os._exit(code)
    last = time.monotonic() + ASLEEP_S + within_s
    while time.monotonic() < last:
        ended, status = os.waitpid(child, os.WNOHANG)
        if ended:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.02)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


def at_most(seconds: float) -> None:
    """Stop this process after so many more seconds of its own work."""
    _, hard = resource.getrlimit(resource.RLIMIT_CPU)
    resource.setrlimit(resource.RLIMIT_CPU, (ceil(time.process_time() + seconds), hard))


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


Passes = Callable[[list[str], Path, str, dict[str, float]], bool]
"""Whether these tests pass when a file has this text; last, the seconds that each test takes."""


class Collected:
    """A plug-in of pytest: the collected tests are not run, but lent to `work`."""

    def __init__(self, work: Callable[[Passes], None]) -> None:
        self.work = work

    def pytest_runtestloop(self, session) -> bool:  # type: ignore[no-untyped-def]
        items: dict[str, list] = {}  # type: ignore[type-arg]
        for item in session.items:
            if "a_browser" in item.fixturenames:  # dear, and what it shows is asked for elsewhere
                continue
            items.setdefault(item.nodeid.partition("[")[0], []).append(item)

        def passes(tests: list[str], file: Path, text: str, seconds: dict[str, float]) -> bool:
            asked = [(item, seconds[test]) for test in tests for item in items.get(test, ())]
            within = LEAST_S + PATIENCE * sum(seconds[test] for test in tests)
            return forked(lambda: failures(asked, file, text), within) == 0

        self.work(passes)
        return True


def failures(asked: list[tuple], file: Path, text: str) -> int:  # type: ignore[type-arg]
    """Run collected tests over a file's changed functions till one fails, in a fork: 0 or 1."""
    from _pytest.runner import runtestprotocol

    put(file, text)
    for (item, usual), after in zip(asked, [*asked[1:], (None, 0.0)], strict=True):
        at_most(LEAST_S + PATIENCE * usual)
        if any(report.failed for report in runtestprotocol(item, log=False, nextitem=after[0])):
            return 1
    return 0


def put(file: Path, text: str) -> None:
    """Give every function that a file made the code that it has in the changed text."""
    was, new = (
        functions(compile(said, str(file), "exec", dont_inherit=True))
        for said in (file.read_text("utf-8"), text)
    )
    became = {
        (name, code.co_firstlineno): new[name][at]
        for name, codes in was.items()
        for at, code in enumerate(codes)
    }
    gc.unfreeze()  # what is frozen is not among the objects that are told
    for found in gc.get_objects():
        if isinstance(found, FunctionType) and found.__code__.co_filename == str(file):
            old = found.__code__
            found.__code__ = became[old.co_qualname, old.co_firstlineno]


def functions(code: CodeType) -> dict[str, list[CodeType]]:
    """The code of all functions within a piece of code, by name, in the order of the text."""
    found: dict[str, list[CodeType]] = {}
    for inner in (each for each in code.co_consts if isinstance(each, CodeType)):
        found.setdefault(inner.co_qualname, []).append(inner)
        for name, codes in functions(inner).items():
            found.setdefault(name, []).extend(codes)
    return found


def end(
    passes: Passes,
    tree: Path,
    file: str,
    text: str,
    reach: Reach,
    line: int,
    given: Namespace,
) -> str:
    """How a changed text fares with the tests of its line: `killed`, `survived`, `unreached`.

    Asked for by `anew`, a line that had also run before any test did is imported in a second trial.
    """
    tests = reach.within(reach.tests(file, line), given.after, given.most)
    if not tests:
        return "unreached"
    target = tree / file
    if not passes(tests, target, text, reach.seconds):
        return "killed"
    if not given.anew or line not in reach.kept.get(file, ()):
        return "survived"
    right, kept = target.read_text("utf-8"), target.stat()
    target.write_text(text, "utf-8")
    usual = sum(reach.seconds[test] for test in tests)
    try:
        code = forked(lambda: suite(tree, ["-x", *tests], []), LEAST_S + PATIENCE * usual)
    finally:
        target.write_text(right, "utf-8")
        os.utime(target, ns=(kept.st_atime_ns, kept.st_mtime_ns))  # its compiled file is good again
    return "survived" if code == 0 else "killed"


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


def tested(root: Path) -> list[str]:
    """The files whose tests are run."""
    return [
        str(path.relative_to(root))
        for place in PATHS
        for path in sorted(
            (root / place).rglob("test_*.py" if place.startswith("tests") else "*.py")
        )
        if not str(path.relative_to(root)).startswith(APART)
    ]


def reaching(root: Path, trees: list[Path], kept: Path) -> Reach:
    """Run the suite once with its lines counted, a share in each tree; kept for this very code."""
    state = digest(root)
    if kept.exists() and (found := json.loads(kept.read_text()))["state"] == state:
        return read(found)
    files = tested(root)
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
    before: dict[str, list[int]] = {}
    for at in range(len(trees)):
        part = json.loads(kept.with_suffix(f".{at}").read_text())
        seconds |= part["seconds"]
        for file, of in part["lines"].items():
            for line, tests in of.items():
                lines.setdefault(file, {}).setdefault(line, []).extend(tests)
        for file, at_lines in part["kept"].items():
            before.setdefault(file, []).extend(at_lines)
    found = {"state": state, "seconds": seconds, "lines": lines, "kept": before}
    kept.write_text(json.dumps(found))
    return read(found)


def read(found: dict[str, dict]) -> Reach:  # type: ignore[type-arg]
    """What was kept, with its line numbers as numbers again."""
    lines = {
        file: {int(line): tests for line, tests in of.items()}
        for file, of in found["lines"].items()
    }
    return Reach(found["seconds"], lines, {file: set(of) for file, of in found["kept"].items()})


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
    lines, before = {}, {}
    for measured in data.measured_files():
        at_lines = data.contexts_by_lineno(measured)
        file = str(Path(measured).resolve().relative_to(tree.resolve()))
        before[file] = [at for at, names in at_lines.items() if "" in names]
        lines[file] = {
            at: sorted({test for name in names for test in of_file.get(name, [name])} & good.keys())
            for at, names in at_lines.items()
        }
    out.write_text(json.dumps({"seconds": good, "lines": lines, "kept": before}))
    return code
