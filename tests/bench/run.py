"""Benchmarks: how often a floor, measured in the same run, fits into what we do.

    python tests/bench/run.py

Each line is a ratio, which says the same on a slow machine as on a fast one. They are read by
people; no test depends on them.
"""

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))


def best(work: Callable[[], object], repeats: int = 5) -> float:
    """The shortest of several runs [s]: what the work costs when nothing disturbs it."""
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def python(program: str) -> Callable[[], object]:
    """A fresh process that runs a program."""
    return lambda: subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, check=True, stdout=subprocess.DEVNULL
    )


def row(what: str, ours: float, floor_name: str, floor: float) -> None:
    """Print one ratio."""
    print(f"{what:46} {ours / floor:6.2f} x {floor_name} ({ours * 1e3:.1f} / {floor * 1e3:.1f} ms)")


def main() -> None:
    """Measure everything once."""
    from layout.cuts import find
    from layout.plane.corner import Corner
    from layout.stock import read_stock
    from layout.tools.fit import fit

    numpy_start = best(python("import numpy"))
    row(
        "squaresaw mark, fresh process",
        best(python("from lessons.cli.main import run; run(['mark', 'hip-jack'])")),
        "import numpy",
        numpy_start,
    )
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "sheet.pdf"
        row(
            "squaresaw template, fresh process, first PDF",
            best(
                python(
                    f"from lessons.cli.main import run; run('template hip-jack -o {out}'.split())"
                ),
                3,
            ),
            "import matplotlib.backends.backend_pdf",
            best(python("import matplotlib.figure, matplotlib.backends.backend_pdf"), 3),
        )
    count = 100_000
    slopes = np.linspace(2, 60, count)
    stock = read_stock("2x6")
    sines = best(lambda: (np.sin(np.radians(slopes)), np.cos(np.radians(slopes))))
    jack = find("hip-jack")
    row(
        f"joint and cut of {count:,} jacks",
        best(lambda: jack.joint(Corner(slopes, 30.0, 90.0, 1.0)).cuts(stock)),
        "their sines and cosines",
        sines,
    )
    cut = jack.joint(Corner(slopes, 30.0, 90.0, 1.0)).cuts(stock)[0]
    row(f"fit of {count:,} cuts", best(lambda: fit(cut, cut.normal).widest_in), "the same", sines)


if __name__ == "__main__":
    main()
