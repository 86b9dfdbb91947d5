"""What templates cost: pages of the whole catalogue on Letter, and CPU a sheet on four papers.

    python tests/bench/templates.py

The first version wrote 58 pages for the 37 ends of the catalogue at 8 in 12 on Letter, each alone.
Ends with 1 where the set takes more than 60 % of them, or a sheet ten times the median sheet's CPU.
"""

import sys
import time
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

FIRST_VERSION = 58
"""Pages of the catalogue's templates before words gave way, counted with that version."""
MOST_SHARE, MOST_TIMES = 0.6, 10.0
PAPERS = ("Letter", "A4", "Tabloid", "roll-24")


def main() -> int:
    """Count pages and seconds once."""
    from figures.ink.paper import read_paper
    from figures.page.tiling import PrintSetup
    from figures.wrap.template import Template
    from figures.wrap.template_set import template_set
    from layout.answer.answer import answer
    from layout.answer.question import ask
    from layout.cuts import catalogue

    answers = [answer(ask(name, end=end)) for name, one in catalogue().items() for end in one.ends]
    print(f"templates of the catalogue, {len(answers)} ends, 8 in 12")
    share, worst = 0.0, 0.0
    for paper in PAPERS:
        every = [Template(one, PrintSetup(read_paper(paper))) for one in answers]
        every[0].pages()
        counts, seconds = [], {}
        for one in every:
            start = time.process_time()
            counts.append(len(one.pages()))
            title = one.words["title"]
            seconds[title] = (time.process_time() - start) / counts[-1]
        dearest = max(seconds, key=lambda title: seconds[title])
        times = seconds[dearest] / median(seconds.values())
        worst = max(worst, times)
        print(
            f"  {paper:8} {sum(counts):3} pages, each alone; CPU a sheet: median"
            f" {median(seconds.values()):.2f} s, the dearest ({dearest}) {times:.1f} x the median"
        )
        if paper == PAPERS[0]:
            together = len(template_set(every))
            share = together / FIRST_VERSION
            for what, pages in (("each alone", sum(counts)), ("as one set", together)):
                print(f"    {what} {pages}, {pages / FIRST_VERSION:.0%} of the first version's")
    return 0 if share <= MOST_SHARE and worst < MOST_TIMES else 1


if __name__ == "__main__":
    sys.exit(main())
