"""Folds a wrap template back onto its board, by arithmetic of its own.

Nothing of `figures` is asked: the paper's v is walked round the section from the right face's
bottom arris, and the flap of a rip is turned down over the end.
"""

import re
from collections.abc import Iterator

import numpy as np

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.quantity import read_pitch
from layout.stock import read_stock

SECTION = {
    "right-face": lambda v, t, d: (0.0, v),
    "top-edge": lambda v, t, d: (v - d, d),
    "left-face": lambda v, t, d: (t, 2 * d + t - v if v > 0 else -v - t),
    "bottom-edge": lambda v, t, d: (-v, 0.0) if v < d else (2 * (d + t) - v, 0.0),
}
"""Where v lies on each surface of a square-edged board: (y, z)."""


def every_cut() -> list[tuple[str, str]]:
    """Every cut of the catalogue at each of its ends."""
    return [(name, end) for name, entry in catalogue().items() for end in entry.ends]


def answered(
    name: str, end: str, hand: Hand = Hand.LEFT, pitch: str = "8", stock: str | None = None
) -> Answer:
    return answer(
        ask(
            name,
            end=end,
            hand=hand,
            pitch=read_pitch(pitch),
            stock=read_stock(stock) if stock else None,
        )
    )


def marks(drawing) -> Iterator[tuple[str, int, tuple[tuple[float, float], ...]]]:
    """Surface, number of the plane and points of every mark of a wrap."""
    for stroke in drawing.strokes:
        gid = stroke.gid or ""
        if gid.startswith("mark-"):
            name, which = re.fullmatch(r"mark-([a-z-]+?)(?:-(\d))?", gid).groups()
            yield name, int(which or 1) - 1, stroke.points


def folded(surface: str, point: tuple[float, float], one: Answer) -> np.ndarray:
    """A point of the paper on the board, (x, y, z) [in]."""
    x, v = point
    stock = one.question.stock
    t, d = stock.thickness_in, stock.depth_in
    if surface == "end":
        # The flap hangs from an edge's end: how far out on the paper is how deep on the board.
        x_end = 0.0
        top = v > 0
        y = v - d if top else -v
        into = abs(x - x_end)
        return np.array([x_end, y, d - into if top else into])
    y, z = SECTION[surface](v, t, d)
    return np.array([x, y, z])
