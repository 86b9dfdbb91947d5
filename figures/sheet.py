"""A page of a sheet: the drawing in its clear field, and the strips round it.

Along the left and bottom edges stand the two check bars, above the lower one the cautions, at
the top the title. All that is left is the clear field, and it is the drawing's alone, but for
one 2 in square that a full-size page carries where it finds room, or else in a taller foot
(`roomy`). Study pages carry a scale bar instead of check bars.

A page is laid out in the inches that come out of the printer: with a printer correction the
page it lays out is the paper divided by the factors, and `figures.press` multiplies it again.

    page = Page(read_paper("Letter"), drawing, title="Hip jack, head", given="8 in 12, 2x6")
    clear_field(page)      left, bottom, right, top of what a drawing may cover [in]
    furnished(page)        drawing and furniture as one Drawing, in page inches
"""

from dataclasses import dataclass, field

import shapely

from figures.correction import ACROSS_IN, ALONG_IN, Correction
from figures.drawing import Box, Drawing, Label, Stroke
from figures.hatch import hatched
from figures.lettering import LINE_EM, fraction_text, line_width_em, text_size, wrapped
from figures.paper import DEFAULT_MARGIN_IN, Paper, checked_margin
from figures.pens import PT_PER_IN, Point
from figures.scale import FULL_SIZE, Scale, scale_bar, scale_words
from layout.errors import SheetError

NOTICE = (
    "Print at 100 %, actual size. Do not fit. Measure both check bars and this square. True"
    " within 1/64 in (0.5 mm): use the sheet. Within 1/32 in: print again with a correction."
    " Further out: the print dialog is wrong, print again."
)
WARNING = (
    "Saws maim, falls kill. Before each cut see that the guard moves freely at this tilt, the"
    " stock is held and the offcut is carried so that the kerf stays open. Cover eyes and ears."
    " Unplug before changing a setting. Follow the saw's manual. Prove the cut on scrap. Tie off"
    " on a roof."
)
DEFERRAL = (
    "This sheet is for training. It shows geometry, not strength. Check the printed scale, and"
    " measure the board in your hands, before you mark. Where they differ from this sheet, the"
    " approved drawings, the code adopted where you build and a licensed professional decide."
)
STUDY_VIEW = "study view, check the bars"

STRIP_IN = 0.3
"""Depth of the strip that holds a check bar [in]."""
GAP_IN = 0.08
"""Clear paper between the strips and the field [in]."""
SQUARE_IN = 2.0
SQUARE_ROOM_IN = SQUARE_IN + 0.1
"""Side of the small square with the paper it needs [in]."""
KEY_IN = 1.5
"""Side of the room that a map of tiled pages takes in the foot [in]."""
LEAST_FIELD_IN = 1.5
"""A clear field narrower or lower than this carries no drawing [in]."""


@dataclass(frozen=True)
class Page:
    """One page: its drawing is in page inches already, from the paper's lower left corner.

    `letter`, `place` and `key` name a page among tiles ("B", "row 1 of 2, column 2 of 2", a
    small map). `square_at` is the lower left corner of the small square where it stands in the
    clear field; a `roomy` foot holds it otherwise. `window` is where words are cut off that
    run on to the next page [in]. `description` says the drawing in words, for those who
    cannot see it.
    """

    paper: Paper
    drawing: Drawing
    title: str
    given: str = ""
    scale: Scale = FULL_SIZE
    margin_in: float = DEFAULT_MARGIN_IN
    correction: Correction = field(default_factory=Correction)
    number: int = 1
    count: int = 1
    version: str = ""
    description: str = ""
    letter: str = ""
    place: str = ""
    key: Drawing | None = None
    roomy: bool = False
    square_at: Point | None = None
    window: Box | None = None

    def __post_init__(self) -> None:
        checked_margin(self.margin_in)
        if self.paper.endless:
            raise SheetError(f"{self.paper.name} must be cut to a length before it is a page")

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
    field_box = (left, bottom + _foot_height(page) + GAP_IN, right, top - _TITLE_IN - GAP_IN)
    width, height = field_box[2] - field_box[0], field_box[3] - field_box[1]
    if min(width, height) < LEAST_FIELD_IN:
        raise SheetError(
            f"{page.paper.name} with a margin of {page.margin_in:g} in leaves no room for a"
            f" drawing beside the check bars and cautions: use larger paper"
        )
    return field_box


def furnished(page: Page, *, printable: bool = True) -> Drawing:
    """The page's drawing, hatched, with everything that stands round it, in page inches.

    `printable` is true for a file whose size can be relied on; else the words FULL SIZE give
    way to "study view, check the bars".
    """
    inside = _inside(page)
    parts = hatched(page.drawing) + _title(page, inside, printable) + _foot(page, inside)
    if page.scale.full:
        parts += _bars(page)
        if page.square_at is not None:
            parts += check_square().moved(*page.square_at)
    else:
        bar = scale_bar(page.scale, min(5.0, inside[2] - inside[0] - 1.5))
        shift = -bar.bounds()[0]
        parts += bar.moved(inside[0] + shift, page.margin_in)
        words = f"SCALE {scale_words(page.scale)}, not for cutting from"
        parts += Drawing(labels=(Label(words, inside[2], page.margin_in, 9, ha="right"),))
    return parts


def check_square() -> Drawing:
    """The 2 in square with ticks at 5 cm, its lower left corner at the origin.

    It holds the notice about scale.
    """
    s, cm, t = SQUARE_IN, 5 / 2.54, 0.09
    size = 8.0
    words = wrapped(fraction_text(NOTICE), size, s - 0.24)
    return Drawing(
        (
            Stroke(((0, 0), (s, 0), (s, s), (0, s), (0, 0)), "bar", "check-square"),
            Stroke(((cm, 0), (cm, t)), "bar", "check-square-x-5cm"),
            Stroke(((0, cm), (t, cm)), "bar", "check-square-y-5cm"),
        ),
        (),
        (
            Label("NOTICE", 0.12, s - 0.1, size, va="top", bold=True),
            Label(words, 0.12, s - 0.26, size, va="top"),
            Label("2 in square, ticks at 5 cm", s / 2, 0.12, 7, ha="center"),
        ),
    )


_TITLE_IN = 0.46
_TITLE_PT, _LEAST_PT = 14.0, 7.0


def _inside(page: Page) -> Box:
    """What is left inside the margins and the bars' strips."""
    width, height = page.size_in
    m = page.margin_in
    side = STRIP_IN + GAP_IN if page.scale.full else 0.0
    return m + side, m + STRIP_IN + GAP_IN, width - m, height - m


def _title(page: Page, inside: Box, printable: bool) -> Drawing:
    left, _, right, top = inside
    if not page.scale.full:
        big = scale_words(page.scale)
    else:
        big = FULL_SIZE.text if printable else STUDY_VIEW
    parts = [f"page {page.number} of {page.count}", page.version]
    if page.letter:
        parts.insert(0, f"page {page.letter}: {page.place}")
    small = ", ".join(part for part in parts if part)
    labels = [
        *_line(page.title, big, left, right, top - 0.26, _TITLE_PT, bold=True),
        *_line(fraction_text(page.given), small, left, right, top - 0.44, 9.0),
    ]
    rule = Stroke(((left, top - _TITLE_IN), (right, top - _TITLE_IN)), "frame")
    return Drawing((rule,), (), tuple(labels))


def _line(
    text: str,
    at_right: str,
    left: float,
    right: float,
    y: float,
    size_pt: float,
    bold: bool = False,
) -> list[Label]:
    """Two texts on one line, as large as they fit; raises SheetError where they never do."""
    em = line_width_em(text, bold) + line_width_em(at_right, bold) + 1.5
    size = min(size_pt, (right - left) * PT_PER_IN / em)
    if size < _LEAST_PT:
        raise SheetError(
            f"{text!r} is too long for a line {right - left:.3g} in wide: shorten it, or use"
            " wider paper"
        )
    pair = [Label(text, left, y, size, bold=bold)]
    pair.append(Label(at_right, right, y, size, ha="right", bold=bold))
    return [label for label in pair if label.text]


def _foot_columns(page: Page) -> tuple[float, float, tuple[str, str]]:
    """Size [pt], width of a column [in] and the two texts of the foot, broken into lines."""
    left, _, right, _ = _inside(page)
    width = right - left
    if page.roomy:
        width -= SQUARE_ROOM_IN + 0.1 + (KEY_IN + 0.15 if page.letter else 0.0)
        column = width - 0.12
        sizes: tuple[float, ...] = (10.0, 9.0, 8.0, 7.5, 7.0, 6.5)
    else:
        column = (width - 0.15) / 2 - 0.12
        sizes = (9.0,) if width > 12 else (8.0,) if width > 8 else (7.0,)
    for size in sizes:
        texts = wrapped(WARNING, size, column), wrapped(DEFERRAL, size, column)
        if _texts_height(size, texts, page.roomy) <= SQUARE_ROOM_IN:
            break
    return size, column, texts


def _texts_height(size: float, texts: tuple[str, str], stacked: bool) -> float:
    """Height of warning and deferral, one over the other or side by side [in]."""
    line = size * LINE_EM / PT_PER_IN
    warning, deferral = (text_size(text, size)[1] for text in texts)
    if stacked:
        return warning + line + 0.1 + 0.06 + deferral
    return max(warning + line + 0.1, deferral + 0.04)


def _foot_height(page: Page) -> float:
    size, _, texts = _foot_columns(page)
    height = _texts_height(size, texts, page.roomy)
    return max(SQUARE_ROOM_IN, height) if page.roomy else height


def _foot(page: Page, inside: Box) -> Drawing:
    left, bottom, right, _ = inside
    size, column, (warning, deferral) = _foot_columns(page)
    height = _foot_height(page)
    line = size * LINE_EM / PT_PER_IN
    top = bottom + height
    parts = Drawing()
    x = left
    if page.roomy:
        parts += check_square().moved(left, bottom)
        x += SQUARE_ROOM_IN + 0.1
    if page.roomy and page.key is not None:
        box = page.key.bounds()
        parts += page.key.moved(right - box[2], top - box[3])
    warned = text_size(warning, size)[1] + line + 0.1
    box_bottom = top - warned if page.roomy else bottom
    outline = shapely.box(x, box_bottom, x + column + 0.12, top).exterior.coords
    parts += Drawing(
        (Stroke(tuple((float(a), float(b)) for a, b in outline), "frame"),),
        (),
        (
            Label("WARNING", x + 0.06, top - 0.04, size, va="top", bold=True),
            Label(warning, x + 0.06, top - 0.04 - line, size, va="top"),
        ),
    )
    at = (x + 0.06, box_bottom - 0.06) if page.roomy else (x + column + 0.27, top - 0.04)
    return parts + Drawing(labels=(Label(deferral, *at, size, va="top"),))


def _bars(page: Page) -> Drawing:
    """The check bar along the bottom edge, and the one up the left edge."""
    width, height = page.size_in
    m = page.margin_in
    side = m + STRIP_IN + GAP_IN
    corrected = fraction_text(f". {str(page.correction).capitalize()}") if page.correction else ""
    print_so = ". Print at 100 %, actual size. Do not fit."
    x_way, y_way = ("across", "along") if page.paper.across_x else ("along", "across")
    level = _bar(x_way, width - m - side, (print_so, corrected))
    upright = _bar(y_way, height - 2 * m, (corrected, ""))
    return level.moved(side, m) + upright.turned(90).moved(m + STRIP_IN, m)


def _bar(way: str, room_in: float, notes: tuple[str, ...]) -> Drawing:
    """A check bar from the origin to the right, 6 in across or 8 in along, less on small paper."""
    nominal, nominal_cm = (ACROSS_IN, 15) if way == "across" else (ALONG_IN, 20)
    length = min(nominal, float(int(room_in - 0.02)))
    cm = nominal_cm if length == nominal else int(length * 2.54 / 5) * 5
    y = 0.12
    strokes = [Stroke(((0.0, y), (length, y)), "bar", f"check-bar-{way}")]
    for inch in range(int(length) + 1):
        reach = 0.1 if inch in (0, int(length)) else 0.06
        strokes.append(Stroke(((float(inch), y), (float(inch), y + reach)), "bar"))
    end = cm / 2.54
    strokes.append(Stroke(((0.0, y), (0.0, 0.0)), "bar"))
    strokes.append(Stroke(((end, y), (end, 0.0)), "bar", f"check-bar-{way}-{cm}cm"))
    for five in range(5, cm, 5):
        strokes.append(Stroke(((five / 2.54, y), (five / 2.54, y - 0.05)), "bar"))
    words = f"{way.upper()}: measure this bar, {length:g} in above the line, {cm} cm below it"
    size = 7.0
    for note in notes:
        longer = words + note
        if note and line_width_em(longer) * size / PT_PER_IN <= room_in - 0.1:
            words = longer
    return Drawing(
        tuple(strokes),
        (),
        (
            Label(words, 0.04, y + 0.075, size),
            Label(f"{length:g} in", length - 0.03, y + 0.005, size, ha="right"),
            Label(f"{cm} cm", end - 0.03, y - 0.105, size, ha="right"),
        ),
    )
