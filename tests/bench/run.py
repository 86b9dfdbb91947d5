"""Benchmarks, in one table: what we take, against a floor that is measured in the same run.

    python tests/bench/run.py                    every row, ten minutes or so
    python tests/bench/run.py mark arrays        some of them

A ratio says the same on a slow machine as on a fast one; seconds are CPU, of the process and of
those it starts. They are read by people; no test depends on them. `suite` runs only when named.
"""

import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

HELLO = """
import numpy, typer
app = typer.Typer()
@app.command()
def hello(name: str = "you"): print("hello", name)
app()
"""
"""The least that a command with numbers does."""
BARE = """
import sys
from matplotlib.figure import Figure
from matplotlib.collections import LineCollection
from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages
pages, words, lines, out = int(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), sys.argv[4]
with PdfPages(out) as book:
    for page in range(pages):
        figure = Figure(figsize=(8.5, 11))
        FigureCanvasPdf(figure)
        for at in range(words):
            said = f"page {page}, line {at}: set the square, mark along the tongue, saw"
            figure.text(0.1, 0.95 - 0.9 * at / words, said, fontsize=9)
        ends = [((36, 36 + at / 2), (500, 40 + at / 2)) for at in range(lines)]
        figure.add_artist(LineCollection(ends))
        book.savefig(figure)
"""
"""Pages of as many words and lines, as matplotlib writes them."""
JOB = 'name = "bench"\n\n[roof]\nsize = "24\' x 16\'"\npitch = "8 in 12"\nends = "hip,hip"\n'


OURS = [sys.executable, "-c", "from lessons.__main__ import start; start()"]
"""Our commands as the installed script starts them."""
USUAL = {name: said for name, said in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""The environment, in which a module is compiled once and not by every process."""
THREADS = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")


def spent(arguments: list[str], times: int = 1, environment: dict[str, str] | None = None) -> float:
    """CPU of a process and of all that it starts [s]: the least of so many runs."""
    found = []
    for _ in range(times):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run(
            arguments, cwd=ROOT, env=environment or USUAL, check=True, stdout=subprocess.DEVNULL
        )
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        found.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return min(found)


def ours(*arguments: str, times: int = 1) -> float:
    """CPU of one of our commands in a fresh process [s]."""
    return spent([*OURS, *arguments], times)


def best(work: Callable[[], object], repeats: int = 5) -> float:
    """The least CPU of several runs in this process [s]."""
    times = []
    for _ in range(repeats):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def row(what: str, took: float, floor_name: str = "", floor: float = 0.0, goal: str = "") -> None:
    """Print one line of the table."""
    ratio = f"{took / floor:6.2f} x {floor_name} ({floor:.3f} s)" if floor else ""
    print(f"{what:38} {took:8.3f} s  {ratio:52} {goal}", flush=True)


def bare(path: Path) -> tuple[float, int]:
    """CPU of bare pages with as many words and lines as a PDF has [s], and how many pages."""
    import pypdf

    inks = [page.get_contents().get_data() for page in pypdf.PdfReader(path).pages]  # type: ignore[union-attr]
    words = sum(ink.count(b"BT\n") for ink in inks) // len(inks)
    lines = sum(ink.count(b"\nS\n") for ink in inks) // len(inks)
    program = [sys.executable, "-c", BARE]
    given = [str(words), str(lines), str(path.with_suffix(".bare.pdf"))]
    start = spent([*program, "1", "1", "1", given[2]], 2)
    return spent([*program, str(len(inks)), *given]) - start, len(inks)


def mark(folder: Path) -> None:
    """A cut asked for on the tailgate.

    One in turn with the floor, the least of each; numpy alone starts a thread for every core, and
    how long each of them idles is most of what two runs differ by.
    """
    one_thread = {**USUAL, **dict.fromkeys(THREADS, "1")}
    floor, took = [], []
    for _ in range(15):
        floor.append(spent([sys.executable, "-c", HELLO], environment=one_thread))
        took.append(spent([*OURS, "mark", "hip-jack"], environment=one_thread))
    row("mark, fresh process", min(took), "numpy and hello", min(floor), "1.15 x")


def template(folder: Path) -> None:
    """The first sheet of the day."""
    out = folder / "t.pdf"
    took = ours("template", "hip-jack", "-o", str(out), times=3)
    floor = spent([sys.executable, "-c", BARE, "1", "30", "60", str(folder / "b.pdf")], 3)
    row("first template, PDF", took, "a bare page", floor, "1.5 x")


def book(folder: Path) -> None:
    """What a page of a book takes over one that is only written."""
    out = folder / "b.pdf"
    lessons = ("hip-jack", "valley-jack", "hip-length")
    took = ours("book", *lessons, "-o", str(out)) - ours("mark", "hip-jack")
    floor, pages = bare(out)
    row(f"book, a page of {pages}", took / pages, "a bare page", floor / pages, "1.0 x")


def course(folder: Path) -> None:
    """The whole course, templates and all."""
    out = folder / "c.pdf"
    start = time.monotonic()
    took = ours("book", "-o", str(out))
    wall = time.monotonic() - start
    floor, pages = bare(out)
    row(f"apprentice course, {pages} pages", took, "bare pages", floor, "25 s")
    row(f"  wall on {os.cpu_count()} cores", wall, goal="15 s on two cores")


def worksheets(folder: Path) -> None:
    """Sheets for a class, and whether many cost more each than few."""
    for sheets in (1, 30, 120, 300):
        took = ours(
            "worksheet", "--sheets", str(sheets), "--seed", "5", "-o", str(folder / "w.pdf")
        )
        goal = "10 s" if sheets == 30 else "flat or falling a sheet"
        row(f"worksheets with keys: {sheets}", took, goal=goal)
        row("  a sheet", took / sheets)


def packet(folder: Path) -> None:
    """A job of a 24 x 16 hip roof."""
    job, out = folder / "bench.toml", folder / "p.pdf"
    job.write_text(JOB)
    took = ours("packet", "--job", str(job), "-o", str(out))
    floor, pages = bare(out)
    row(f"packet, {pages} pages", took, "bare pages", floor, "3 x")


def arrays(folder: Path) -> None:
    """Many cuts at once, in this process."""
    from layout.cuts import find
    from layout.plane.corner import Corner
    from layout.stock import read_stock
    from layout.tools.fit import fit

    slopes = np.linspace(2, 60, 100_000)
    stock, jack = read_stock("2x6"), find("hip-jack")
    sines = best(lambda: (np.sin(np.radians(slopes)), np.cos(np.radians(slopes))), 15)

    def cuts() -> object:
        return jack.joint(Corner(slopes, 30.0, 90.0, 1.0)).cuts(stock)

    row("joint and cut of 100,000 jacks", best(cuts, 9), "sines and cosines", sines, "20 x")
    cut = jack.joint(Corner(slopes, 30.0, 90.0, 1.0)).cuts(stock)[0]
    row("fit of 100,000 cuts", best(lambda: fit(cut, cut.normal).widest_in), "the same", sines)


def check(folder: Path) -> None:
    """The course over its sweep, and every cut over a million cases."""
    row("check, the whole course", ours("check"), goal="3 s")
    row("check --wide, a million cases", ours("check", "--wide"), goal="60 s wall on two cores")


def suite(folder: Path) -> None:
    """The default tests, as the README says to run them."""
    start = time.monotonic()
    took = spent([sys.executable, "-m", "pytest", "-q", "-n", "auto"])
    row("default suite", took)
    row(f"  wall on {os.cpu_count()} cores", time.monotonic() - start, goal="150 s on two cores")


ROWS = (mark, template, book, course, worksheets, packet, arrays, check)


def main() -> None:
    """Measure what is named, or everything but the suite."""
    named = {each.__name__: each for each in (*ROWS, suite)}
    asked = [named[name] for name in sys.argv[1:]] or list(ROWS)
    print(f"{os.cpu_count()} cores, Python {sys.version.split()[0]}")
    for measure in asked:
        with tempfile.TemporaryDirectory() as folder:
            measure(Path(folder))


if __name__ == "__main__":
    main()
