"""What a packet costs: the packet of a 24 by 16 ft hip roof against bare pages of matplotlib.

    python tests/bench/packets.py

The bare pages have as many lines and labels, page by page, in the same sizes and widths: lines as
one collection a width, labels as plain text. The goal is 3 times that.
"""

import sys
import tempfile
import time
from collections import defaultdict
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

GOAL = 3.0


def bare(pages, path: Path) -> None:
    """The same number of lines and labels on the same number of pages, drawn as a user would."""
    from matplotlib.backends.backend_pdf import PdfPages
    from matplotlib.collections import LineCollection
    from matplotlib.figure import Figure

    with PdfPages(path) as book:
        for page, content in pages:
            figure = Figure(figsize=(page.paper.width_in, page.paper.height_in))
            axes = figure.add_axes((0, 0, 1, 1))
            axes.set_xlim(0, page.paper.width_in)
            axes.set_ylim(0, page.paper.height_in)
            axes.set_axis_off()
            by_pen = defaultdict(list)
            for stroke in content.strokes:
                by_pen[stroke.pen].append(stroke.points)
            for strokes in by_pen.values():
                axes.add_collection(LineCollection(strokes, colors="black"))
            for label in content.labels:
                axes.text(
                    label.x, label.y, label.text, fontsize=label.size_pt, ha=label.ha,
                    rotation=label.rotation_deg, weight="bold" if label.bold else "normal",
                )  # fmt: skip
            book.savefig(figure)


def main() -> None:
    """Measure both in one process, in CPU seconds."""
    from figures.files.press import write
    from figures.ink.paper import read_paper
    from figures.packet.packet import packet
    from figures.page.sheet import furnished
    from figures.page.tiling import PrintSetup
    from layout.job.job import Job
    from layout.job.job_roof import framed

    with tempfile.TemporaryDirectory() as folder:
        start = time.process_time()
        roof = framed(Job("yard", {"size": "24' x 16'", "pitch": "8 in 12"}))
        made = packet(roof, PrintSetup(read_paper("Letter")), title="Packet", given="8 in 12")
        composed = time.process_time() - start
        start = time.process_time()
        write(made.pages, Path(folder) / "packet.pdf", title="Packet")
        written = time.process_time() - start
        drawn = [(page, furnished(page)) for page in made.pages]
        start = time.process_time()
        bare(drawn, Path(folder) / "bare.pdf")
        floor = time.process_time() - start
    lines = sum(len(content.strokes) for _, content in drawn)
    labels = sum(len(content.labels) for _, content in drawn)
    print(
        f"packet of a 24 by 16 ft hip roof: {len(made.pages)} pages, {lines} lines, {labels} labels"
    )
    print(
        f"  framed and composed {composed:.1f} s, written {written:.1f} s, bare pages {floor:.1f} s"
    )
    print(f"  {(composed + written) / floor:.2f} x bare pages of matplotlib (goal {GOAL:g})")


if __name__ == "__main__":
    main()
