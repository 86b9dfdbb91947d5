"""Paper: stock sheets, rolls and any size by its numbers, in inches.

The page box of a file is exactly the paper, never an odd size, since an odd size invites the
print dialog to enlarge or shrink it. Sizes: ISO 216 for A4 and A3, ANSI/ASME Y14.1 for Letter
(A) and Tabloid (B), Legal by common practice.

    read_paper("Letter"), read_paper("A4 landscape"), read_paper("roll-24")
    read_paper("17x22"), read_paper("8 1/2 x 13"), read_paper("300x400 mm")
"""

import re
from dataclasses import dataclass, replace
from math import inf, isfinite

from layout.errors import QuantityError, SheetError
from layout.quantity import read_length

MM_PER_IN = 25.4
DEFAULT_MARGIN_IN = 0.5
MARGINS_IN = (0.25, 0.75)
"""Smallest and largest margin that may be asked for [in]: what desk printers keep clear."""
LONGEST_IN = 200.0
"""The longest page that a PDF can hold [in]: 14 400 points."""
SMALLEST_IN = 4.0
"""The shortest side of paper on which a drawing and its cautions still fit [in]."""


@dataclass(frozen=True)
class Paper:
    """A sheet as it is read upright: width and height [in].

    `across_x` is true where the printer's own width runs along x: *across* is the short side
    of a sheet and the width of a roll, *along* the way the paper is fed. A roll has no height
    until it is cut, `height_in` is then infinite.
    """

    name: str
    width_in: float
    height_in: float
    roll: bool = False
    across_x: bool = True

    @property
    def endless(self) -> bool:
        """True for a roll whose length is still to be chosen."""
        return not isfinite(self.height_in)

    def turned(self) -> "Paper":
        """The same paper read the other way round: width and height trade places."""
        return replace(
            self,
            width_in=self.height_in,
            height_in=self.width_in,
            across_x=not self.across_x,
        )

    def cut_to(self, length_in: float) -> "Paper":
        """A roll cut to a length [in], as wide as the roll; raises SheetError past 200 in."""
        if not 0 < length_in <= LONGEST_IN:
            raise SheetError(
                f"a page {length_in:.4g} in long cannot be written: keep a roll under"
                f" {LONGEST_IN:.0f} in, or print at a smaller scale"
            )
        return replace(self, height_in=length_in)


def _sheet(name: str, width_in: float, height_in: float) -> Paper:
    return Paper(name, width_in, height_in, across_x=width_in <= height_in)


PAPERS = {
    each.name.casefold(): each
    for each in (
        _sheet("Letter", 8.5, 11.0),
        _sheet("Legal", 8.5, 14.0),
        _sheet("Tabloid", 11.0, 17.0),
        _sheet("A4", 210 / MM_PER_IN, 297 / MM_PER_IN),
        _sheet("A3", 297 / MM_PER_IN, 420 / MM_PER_IN),
        Paper("roll-24", 24.0, inf, roll=True),
        Paper("roll-36", 36.0, inf, roll=True),
    )
}

_SIZE = re.compile(r"(?P<width>[^x×]+)[x×](?P<height>[^x×]+?)\s*(?P<unit>in|\"|mm|cm)?")


def read_paper(text: str) -> Paper:
    """The paper that a name or `WxH` stands for; `landscape` after it turns a sheet.

    A size is in inches unless `mm` follows it. Raises SheetError for what is no paper, or for
    paper too small to carry a sheet.

    >>> read_paper("letter landscape").width_in
    11.0
    >>> read_paper("8 1/2 x 13").height_in
    13.0
    """
    words = " ".join(text.split()).casefold()
    name, turn, rest = words.partition(" landscape")
    if rest:
        name = words
    paper = PAPERS.get(name)
    if paper is None:
        match = _SIZE.fullmatch(name)
        unit = match["unit"] or "in" if match else ""
        try:
            if match is None:
                raise QuantityError(name)
            width, height = (read_length(_with_unit(match[s], unit)) for s in ("width", "height"))
        except QuantityError:
            known = ", ".join(each.name for each in PAPERS.values())
            raise SheetError(
                f"no paper is called {text!r}: use {known} or a size as 17x22"
            ) from None
        paper = _sheet("×".join(f"{side:.4g}" for side in (width, height)), width, height)
        if min(width, height) < SMALLEST_IN or max(width, height) > LONGEST_IN:
            raise SheetError(
                f"paper {text!r} cannot carry a sheet: each side must be"
                f" {SMALLEST_IN:.0f} to {LONGEST_IN:.0f} in"
            )
    if turn and paper.endless:
        raise SheetError(f"{paper.name} is a roll: it is cut to the drawing, leave out landscape")
    if turn and paper.width_in < paper.height_in:
        return paper.turned()
    return paper


def checked_margin(margin_in: float) -> float:
    """The margin [in] if a printer can keep it; raises SheetError outside 1/4 to 3/4 in."""
    least, most = MARGINS_IN
    if not least <= margin_in <= most:
        raise SheetError(
            f"a margin of {margin_in:.4g} in does not work: use {least} to {most} in,"
            f" {DEFAULT_MARGIN_IN} in suits most printers"
        )
    return margin_in


def _with_unit(side: str, unit: str) -> str:
    """One side of a size; the unit behind the last serves both."""
    side = side.strip()
    return side if re.search(r"[a-z\"]$", side) else f"{side}{unit}"
