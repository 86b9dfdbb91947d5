"""A case of a template as it is asked for, and its sheets printed to a file that is read."""

from pathlib import Path

from figures.files.press import write
from figures.ink.paper import read_paper
from figures.page.tiling import PrintSetup
from figures.wrap.template import template_pages
from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import End, Hand
from layout.quantity import read_pitch
from layout.stock import read_stock


def asked(
    name: str, end: End, stock: str, pitch: str, other: str, hand: Hand = Hand.LEFT
) -> Answer:
    """One end of a cut on a board, between roofs of these pitches."""
    return answer(
        ask(
            name,
            end=end,
            hand=hand,
            pitch=read_pitch(pitch),
            other_pitch=read_pitch(other),
            stock=read_stock(stock),
        )
    )


def printed(one: Answer, paper: str, folder: Path, *, backed: bool = False) -> tuple[Path, int]:
    """The file of a cut's template on this paper, and how many sheets it has."""
    sheets = template_pages(one, PrintSetup(read_paper(paper)), backed=backed)
    (path,) = write(sheets, folder / "a.pdf", title="words")
    return path, len(sheets)
