"""A page of a sheet: the drawing in its clear field, and the strips round it.

Along the left and bottom edges stand the two check bars, at the top the title, and the cautions
stand where `strips` says. All that is left is the clear field.

    "low"     in a foot over the bottom bar; the clear field is the drawing's alone
    "first"   among the blocks beside the drawing, in its clear field
    "next"    in one line of the title, in place of what is given: page 1 has both in full

Study pages carry a scale bar instead of check bars, text pages (lessons, worksheets) neither: a
line at their foot says that pictures are not to scale unless a scale is named.

A page is laid out in the inches that come out of the printer: with a printer correction the
page it lays out is the paper divided by the factors, and `figures.files.press` multiplies it again.

    page = Page(read_paper("Letter"), drawing, title="Hip jack, head", given="8 in 12, 2x6")
    clear_field(page)      left, bottom, right, top of what a drawing may cover [in]
    furnished(page)        drawing and furniture as one Drawing, in page inches
"""

import re
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Literal

from figures.ink.correction import Correction
from figures.ink.drawing import Box, Drawing, Label, Stroke
from figures.ink.hatch import hatched
from figures.ink.lettering import LINE_EM, fraction_text, line_width_em, wrapped
from figures.ink.paper import DEFAULT_MARGIN_IN, Paper, checked_margin
from figures.ink.pens import PT_PER_IN, Point
from figures.ink.scale import FULL_SIZE, Scale, scale_bar, scale_words
from figures.page.cautions import BETWEEN_EM, side_by_side, warning_line
from figures.page.checkbars import STRIP_IN, check_bar, check_square
from layout.errors import SheetError

STUDY_VIEW = "study view, check the bars"
TEXT_FOOT = "Pictures are not to scale unless a scale is named."
PRINT_SO = "Print at 100 %, actual size. Do not fit."
GAP_IN = 0.08
"""Clear paper between the strips and the field [in]."""
LEAST_FIELD_IN = 1.5
"""A clear field lower than this carries no drawing; none of any paper is narrower [in]."""
Strips = Literal["low", "first", "next"]
"""Where the cautions stand on a page."""
FOOT_PT = 8.0
"""Size of the line at the foot of a text page [pt]."""
_TITLE_PT, _GIVEN_PT, _LEAST_PT = 14.0, 9.0, 8.0
LEAST_SHARE, MORE_LINES_SHARE = 0.75, 0.8
"""No line of the title is lettered smaller than so much of its usual size: rather than that its
words take more lines, in so much of it."""
SMALLEST_PT = 0.9 * _LEAST_PT
MOST_TITLE_LINES = 7
UNDER_TITLE_IN = 0.06
"""White between the title and the line under it [in]."""
STUDY_BAR_IN = 5.0
"""A scale bar is no longer than a hand's rule [in]."""
_WIDE_NUMBER = 888
"""As wide as a page's number can be: its room is kept on every page of a set."""


@dataclass(frozen=True)
class Page:
    """One page: its drawing is in page inches already, from the paper's lower left corner.

    `scale` is None for a page of text, which is measured nowhere and carries no bars.
    `strips` says where the cautions stand. `letter` and `place` name a page among tiles ("B",
    "row 1 of 2, column 2 of 2"). `beside` is what stands beside the drawing in the clear field:
    notes, cautions, the square, a map of the tiles. `square_at` is the lower left corner of the
    2 in square where a page has one and nothing else beside its drawing.
    `window` is where words are cut off that run on to the next page [in]. `origin` is where the
    origin of the drawing lies on the page [in], `turned` tells whether the drawing was turned
    a quarter counterclockwise about it. `description` says the drawing in words, for those who
    cannot see it.
    """

    paper: Paper
    drawing: Drawing
    title: str
    given: str = ""
    scale: Scale | None = FULL_SIZE
    margin_in: float = DEFAULT_MARGIN_IN
    correction: Correction = field(default_factory=Correction)
    number: int = 1
    count: int = 1
    version: str = ""
    description: str = ""
    letter: str = ""
    place: str = ""
    beside: Drawing = field(default_factory=Drawing)
    strips: Strips = "low"
    square_at: Point | None = None
    window: Box | None = None
    origin: Point = (0.0, 0.0)
    turned: bool = False

    def __post_init__(self) -> None:
        checked_margin(self.margin_in)
        if self.paper.endless:
            raise SheetError(f"{self.paper.name} must be cut to a length before it is a page")

    @property
    def full(self) -> bool:
        """True for a page that is measured from: it carries the check bars."""
        return self.scale is not None and self.scale.full

    @property
    def factors(self) -> Point:
        """What x and y are multiplied by when the page is written."""
        across, along = self.correction.across, self.correction.along
        return (across, along) if self.paper.across_x else (along, across)

    @property
    def size_in(self) -> Point:
        """Width and height of the page in inches as they come out of the printer."""
        x, y = self.factors
        return self.paper.width_in / x, self.paper.height_in / y


def clear_field(page: Page) -> Box:
    """Left, bottom, right and top of the part of a page that is the drawing's alone [in].

    Raises SheetError where the strips leave less than 1 1/2 in of height.
    """
    left, bottom, right, top = _inside(page)
    top -= _title_height(page) + GAP_IN
    cautions = _cautions(page)
    if cautions:
        bottom += -cautions.bounds()[1] + GAP_IN
    if top - bottom < LEAST_FIELD_IN:
        raise _too_small(page)
    return left, bottom, right, top


def furnished(page: Page, *, printable: bool = True) -> Drawing:
    """The page's drawing, hatched, with everything that stands round it, in page inches.

    `printable` is true for a file whose size can be relied on; else the words FULL SIZE give
    way to "study view, check the bars".
    """
    left, bottom, right, top = _inside(page)
    cautions = _cautions(page)
    if cautions:
        cautions = cautions.moved(left, bottom - cautions.bounds()[1])
    parts = hatched(page.drawing) + page.beside + _title(page, printable).moved(left, top)
    parts += cautions
    if page.scale is None:
        parts += Drawing(labels=(Label(TEXT_FOOT, left, page.margin_in, FOOT_PT),))
    elif page.scale.full:
        parts += _bars(page)
        if page.square_at is not None:
            parts += check_square().moved(*page.square_at)
    else:
        bar = scale_bar(page.scale, min(STUDY_BAR_IN, (right - left) / 2))
        parts += bar.moved(left - bar.bounds()[0], page.margin_in)
        words = Label("not for cutting from", right, page.margin_in, _GIVEN_PT, ha="right")
        parts += Drawing(labels=(words,))
    return parts


def _inside(page: Page) -> Box:
    """What is left inside the margins and the bars' strips."""
    width, height = page.size_in
    m = page.margin_in
    side = STRIP_IN + GAP_IN if page.full else 0.0
    foot = STRIP_IN if page.scale is not None else FOOT_PT / PT_PER_IN
    return m + side, m + foot + GAP_IN, width - m, height - m


def _too_small(page: Page) -> SheetError:
    return SheetError(
        f"{page.paper.name} with a margin of {page.margin_in:g} in leaves no room for a drawing"
        f" beside {'the check bars and' if page.full else 'the'} cautions: use larger paper"
    )


def _title_lines(page: Page, printable: bool) -> tuple[tuple[str, str, float, bool], ...]:
    """The lines of the title strip: left text, right text, size [pt] and bold."""
    left, _, right, _ = _inside(page)
    if page.scale is None:
        scale = ""
    elif page.scale.full:
        scale = FULL_SIZE.text if printable else STUDY_VIEW
    else:
        scale = scale_words(page.scale)
    tile = f"page {page.letter}: {page.place}" if page.letter else ""
    page_of = f"page {page.number} of {page.count}"
    small = ", ".join(part for part in (tile, page_of, page.version) if part)
    given, bold = fraction_text(page.given), False
    if page.strips == "next":
        given, bold = warning_line(right - left, small), True
    return _fitted_title(page.title, scale, given, bold, small, right - left)


@cache
def _fitted_title(
    title: str, scale: str, given: str, given_bold: bool, small: str, width_in: float
) -> tuple[tuple[str, str, float, bool], ...]:
    """The lines of a title strip so wide [in]; what does not fit on one goes on to the next."""
    room = width_in * PT_PER_IN

    def fit(size: float, bold: bool, *words: str) -> float:
        return min(size, room / (sum(line_width_em(one, bold) for one in words) + BETWEEN_EM))

    lines: list[tuple[str, str, float, bool]] = []
    for text, at_right, size, bold in (
        (title, scale, _TITLE_PT, True),
        (given, small, _GIVEN_PT, given_bold),
    ):
        fitted = fit(size, bold, text, at_right)
        if fitted >= max(LEAST_SHARE * size, _LEAST_PT):
            lines.append((text, at_right, fitted, bold))
            continue
        size = max(MORE_LINES_SHARE * size, _LEAST_PT)
        for part in (text, at_right):
            for line in wrapped(part, size, width_in, bold).split("\n"):
                if line:
                    lines.append((line, "", fit(size, bold, line), bold))
    if len(lines) > MOST_TITLE_LINES or min(size for _, _, size, _ in lines) < SMALLEST_PT:
        raise SheetError(
            f"the title {title!r} is too long for a line {width_in:.3g} in wide:"
            " shorten it, or use wider paper"
        )
    return tuple(lines)


def _title_height(page: Page) -> float:
    """Height of the title strip [in]: one for every kind of file and every page of a document."""
    widest = replace(
        page,
        letter="MM" if page.letter else "",
        place=re.sub(r"\d+", "88", page.place),
        number=_WIDE_NUMBER,
        count=_WIDE_NUMBER,
    )
    kinds: tuple[Strips, ...] = ("low",) if page.strips == "low" else ("first", "next")
    return max(
        # Fewer words are lettered larger, up to the usual size.
        sum(LINE_EM * max(size, _GIVEN_PT) for _, _, size, _ in _title_lines(one, printable))
        / PT_PER_IN
        + UNDER_TITLE_IN
        for one in (replace(widest, strips=strips) for strips in kinds)
        for printable in (True, False)
    )


def _title(page: Page, printable: bool) -> Drawing:
    """The title strip, hanging from the origin."""
    left, _, right, _ = _inside(page)
    width = right - left
    y = 0.0
    labels: list[Label] = []
    for text, at_right, size, bold in _title_lines(page, printable):
        y -= LINE_EM * size / PT_PER_IN
        labels.append(Label(text, 0.0, y, size, bold=bold))
        labels.append(Label(at_right, width, y, size, ha="right", bold=bold))
    low = -_title_height(page)
    rule = Stroke(((0.0, low), (width, low)), "frame")
    return Drawing((rule,), (), tuple(label for label in labels if label.text))


def _cautions(page: Page) -> Drawing:
    """The cautions in their strip, hanging from the origin; none where they stand as blocks."""
    left, _, right, _ = _inside(page)
    if page.strips != "low":
        return Drawing()
    return side_by_side(right - left, text=page.scale is None)


def _bars(page: Page) -> Drawing:
    """The check bar along the bottom edge, and the one up the left edge."""
    width, height = page.size_in
    m = page.margin_in
    side = m + STRIP_IN + GAP_IN
    corrected = f"{str(page.correction).capitalize()}." if page.correction else ""
    x_way, y_way = ("across", "along") if page.paper.across_x else ("along", "across")
    level = check_bar(x_way, width - m - side, (PRINT_SO, corrected))
    upright = check_bar(y_way, height - 2 * m, (corrected,))
    return level.moved(side, m) + upright.turned(90).moved(m + STRIP_IN, m)
