"""What templates cost: pages of the whole catalogue on Letter, and CPU a sheet.

    python tests/bench/templates.py

The first version wrote 58 pages for the 37 ends of the catalogue at 8 in 12 on Letter, each alone.
"""

import sys
import time
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

FIRST_VERSION = 58
"""Pages of the catalogue's templates before words gave way, counted with that version."""


def main() -> None:
    """Count pages and seconds once."""
    from figures.ink.paper import read_paper
    from figures.page.tiling import PrintSetup
    from figures.wrap.template import Template
    from figures.wrap.template_set import template_set
    from layout.answer.answer import answer
    from layout.answer.question import ask
    from layout.cuts import catalogue

    setup = PrintSetup(read_paper("Letter"))
    every = [
        Template(answer(ask(name, end=end)), setup)
        for name, entry in catalogue().items()
        for end in entry.ends
    ]
    alone, seconds = 0, []
    for one in every:
        start = time.process_time()
        alone += len(one.pages())
        seconds.append(time.process_time() - start)
    together = len(template_set(every))
    print(f"templates of the catalogue, {len(every)} ends, 8 in 12 on Letter")
    for what, count in (("each alone", alone), ("as one set", together)):
        print(f"  {what:12} {count:3} pages, {count / FIRST_VERSION:4.0%} of the first version's")
    ratio = max(seconds) / median(seconds)
    print(f"  CPU a template: median {median(seconds):.2f} s, the dearest {ratio:.1f} x the median")


if __name__ == "__main__":
    main()
