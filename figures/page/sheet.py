"""A page of a sheet: the drawing in its clear field, and the strips round it.

Along the left and bottom edges stand the two check bars, at the top the title, and the cautions
stand where `strips` says. All that is left is the clear field, and it is the drawing's alone.

    "low"     over the bottom bar; the 2 in square stands where the drawing leaves it room
    "foot"    in a taller foot that holds the square
    "side"    in a column on the right side that holds the square
    "tight"   over the bottom bar, with a smaller square past the bar's end

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
from typing import Literal

from figures.ink.correction import ACROSS_IN, ALONG_IN, Correction
from figures.ink.drawing import Box, Drawing, Label, Stroke
from figures.ink.hatch import hatched
from figures.ink.lettering import LINE_EM, fraction_text, line_width_em, wrapped
from figures.ink.paper import DEFAULT_MARGIN_IN, Paper, checked_margin
from figures.ink.pens import PT_PER_IN, Point
from figures.ink.scale import FULL_SIZE, Scale, scale_bar, scale_words
from figures.page.cautions import side_by_side, stacked, three_columns
from figures.page.checkbars import (
    SMALL_SQUARES_IN,
    SQUARE_IN,
    STRIP_IN,
    check_bar,
    check_square,
)
from layout.errors import SheetError

STUDY_VIEW = "study view, check the bars"
TEXT_FOOT = "Pictures are not to scale unless a scale is named."
PRINT_SO = "Print at 100 %, actual size. Do not fit."
GAP_IN = 0.08
"""Clear paper between the strips and the field [in]."""
LEAST_FIELD_IN = 1.5
"""A clear field narrower or lower than this carries no drawing [in]."""
SMALL_PAPER_IN = 5.5
"""Paper with less than this inside its strips gets the small square [in]."""
KEY_IN = 1.5
"""Side of the room that a map of tiled pages takes [in]."""
Strips = Literal["low", "foot", "side", "tight"]
"""Where the cautions stand on a page."""
FOOT_PT = 8.0
"""Size of the line at the foot of a text page [pt]."""
_TITLE_PT, _GIVEN_PT, _LEAST_PT = 14.0, 9.0, 7.0


@dataclass(frozen=True)
class Page:
    """One page: its drawing is in page inches already, from the paper's lower left corner.

    `scale` is None for a page of text, which is measured nowhere and carries no bars.
    `strips` says where the cautions stand. `letter`, `place` and `key` name a page among tiles
    ("B", "row 1 of 2, column 2 of 2", a small map); pages with a letter keep room for the map.
    `square_at` is the lower left corner of the 2 in square where it stands in the clear field.
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
    key: Drawing | None = None
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

    Raises SheetError where the strips leave less than 1 1/2 in.
    """
    left, bottom, right, top = _inside(page)
    top -= _title_height(page) + GAP_IN
    try:
        deep = -_cautions(page).bounds()[1]
    except SheetError as error:
        raise _too_small(page) from error
    if page.strips == "side":
        right -= SQUARE_IN + 2 * GAP_IN
    else:
        bottom += deep + GAP_IN
    if min(right - left, top - bottom) < LEAST_FIELD_IN:
        raise _too_small(page)
    return left, bottom, right, top


def furnished(page: Page, *, printable: bool = True) -> Drawing:
    """The page's drawing, hatched, with everything that stands round it, in page inches.

    `printable` is true for a file whose size can be relied on; else the words FULL SIZE give
    way to "study view, check the bars".
    """
    left, bottom, right, top = _inside(page)
    cautions = _cautions(page)
    if page.strips == "side":
        cautions = cautions.moved(right - SQUARE_IN, top - _title_height(page) - GAP_IN)
    else:
        cautions = cautions.moved(left, bottom - cautions.bounds()[1])
    parts = hatched(page.drawing) + _title(page, printable).moved(left, top) + cautions
    if page.scale is None:
        parts += Drawing(labels=(Label(TEXT_FOOT, left, page.margin_in, FOOT_PT),))
    elif page.scale.full:
        parts += _bars(page)
        if page.square_at is not None:
            parts += check_square().moved(*page.square_at)
        if page.strips == "tight":
            side = _corner_square(page)
            parts += check_square(side).moved(right - side, page.margin_in)
    else:
        bar = scale_bar(page.scale, min(5.0, (right - left) / 2))
        parts += bar.moved(left - bar.bounds()[0], page.margin_in)
        words = "not for cutting from"
        parts += Drawing(labels=(Label(words, right, page.margin_in, 9, ha="right"),))
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


def _title_lines(page: Page, printable: bool) -> list[tuple[str, str, float, bool]]:
    """The lines of the title strip: left text, right text, size [pt] and bold.

    What does not fit on one line goes on to the next.
    """
    left, _, right, _ = _inside(page)
    room = (right - left) * PT_PER_IN
    if page.scale is None:
        scale = ""
    elif page.scale.full:
        scale = FULL_SIZE.text if printable else STUDY_VIEW
    else:
        scale = scale_words(page.scale)
    names = [f"page {page.letter}: {page.place}" if page.letter else "", page.version]
    page_of = f"page {page.number} of {page.count}"
    small = ", ".join(part for part in (names[0], page_of, names[1]) if part)

    def fit(text: str, at_right: str, size: float, bold: bool) -> float:
        em = line_width_em(text, bold) + line_width_em(at_right, bold) + 1.5
        return min(size, room / em)

    lines: list[tuple[str, str, float, bool]] = []
    for text, at_right, size, bold in (
        (page.title, scale, _TITLE_PT, True),
        (fraction_text(page.given), small, _GIVEN_PT, False),
    ):
        fitted = fit(text, at_right, size, bold)
        if fitted >= 0.75 * size:
            lines.append((text, at_right, fitted, bold))
            continue
        size *= 0.8
        for part in (text, at_right):
            for line in wrapped(part, size, right - left, bold).split("\n"):
                if line:
                    lines.append((line, "", fit(line, "", size, bold), bold))
    if any(size < _LEAST_PT * 0.9 for _, _, size, _ in lines) or len(lines) > 7:
        raise SheetError(
            f"the title {page.title!r} is too long for a line {right - left:.3g} in wide:"
            " shorten it, or use wider paper"
        )
    return lines


def _title_height(page: Page) -> float:
    """Height of the title strip [in]: one for every kind of file and every page of a set."""
    widest = replace(
        page,
        letter="MM" if page.letter else "",
        place=re.sub(r"\d+", "88", page.place),
        number=888,
        count=888,
    )
    return max(
        sum(LINE_EM * size for _, _, size, _ in _title_lines(widest, printable)) / PT_PER_IN + 0.06
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
    """The cautions, hanging from the origin, with square and map where the strips hold them."""
    left, bottom, right, top = _inside(page)
    width = right - left
    if page.strips == "low":
        return side_by_side(width)
    if page.strips == "tight":
        return three_columns(width - _corner_square(page) - GAP_IN)
    key = Drawing()
    if page.key is not None:
        box = page.key.bounds()
        key = page.key.moved(-box[0], -box[3])
    key_room = KEY_IN + 2 * GAP_IN if page.letter else 0.0
    if page.strips == "side":
        height = top - _title_height(page) - GAP_IN - bottom
        used = SQUARE_IN + GAP_IN
        column = check_square().moved(0, -SQUARE_IN)
        if page.letter:
            column += key.moved(0, -used)
            used += key_room + 0.2
        words = stacked(SQUARE_IN, height - used)
        return column + words.moved(0, -used)
    if min(width, top - bottom) < SMALL_PAPER_IN:
        return _small_foot(page, key)
    words_width = width - SQUARE_IN - 2 * GAP_IN - key_room
    foot = check_square().moved(0, -SQUARE_IN)
    foot += stacked(words_width, SQUARE_IN).moved(SQUARE_IN + 2 * GAP_IN, 0)
    return foot + key.moved(width - (KEY_IN if page.letter else 0.0), 0)


def _corner_square(page: Page) -> float:
    """Side of the square that stands past the end of the level bar [in].

    Raises SheetError where none does.
    """
    left, _, right, _ = _inside(page)
    bar = ACROSS_IN if page.paper.across_x else ALONG_IN
    for side in SMALL_SQUARES_IN:
        if left + bar + GAP_IN + side <= right:
            return side
    raise _too_small(page)


def _small_foot(page: Page, key: Drawing) -> Drawing:
    """A foot for small paper: the 1 in square over the map, the notice with the cautions."""
    left, _, right, _ = _inside(page)
    foot = check_square(SMALL_SQUARES_IN[0]).moved(0, -SMALL_SQUARES_IN[0])
    if key:
        box = key.bounds()
        shrunk = min(1.0, SMALL_SQUARES_IN[0] / (box[2] - box[0]))
        foot += key.scaled(shrunk).moved(0, -SMALL_SQUARES_IN[0] - GAP_IN)
    words = stacked(right - left - SMALL_SQUARES_IN[0] - GAP_IN, 4.0, notice=True)
    return foot + words.moved(SMALL_SQUARES_IN[0] + GAP_IN, 0)


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
