"""The cautions that every sheet carries: what can hurt, and who decides.

One WARNING box (hazard, what comes of it, how to avoid it) and one short deferral on the first
page; the pages that follow carry the warning in a line. Never below 8 points, and the WARNING
never smaller than what stands beside it.
"""

from functools import cache

from figures.ink.drawing import Drawing, Label, Stroke
from figures.ink.lettering import LINE_EM, fraction_text, line_width_em, text_size, wrapped
from figures.ink.pens import PT_PER_IN
from figures.page.beside import Block, words_block
from figures.page.checkbars import (
    FEW_NOTICE,
    NOTICE,
    SMALL_SQUARE_IN,
    SQUARE_IN,
    check_square,
)

WARNING = (
    "Saws maim, falls kill. Before each cut see that the guard moves freely at this tilt, the"
    " stock is clamped and the offcut supported so that the kerf stays open. Wear eye and ear"
    " protection. Unplug before changing a setting. Follow the saw's manual. Test the cut on scrap."
    " Tie off on a roof."
)
DEFERRAL_HEAD = "FOR TRAINING"
DEFERRAL = (
    "This sheet is for training. It shows geometry, not strength. Check the printed scale, and"
    " measure the board in your hands, before you mark. Where they differ from this sheet, the"
    " approved drawings, the code adopted where you build and a licensed professional decide."
)
FEW_WARNING = (
    "Saws maim, falls kill. Guard free at this tilt, stock clamped, offcut supported, eye and ear"
    " protection on. Unplug before changing a setting. Follow the saw's manual. Test on scrap."
    " Tie off on a roof."
)
FEW_DEFERRAL = (
    "Geometry, not strength. Check the printed scale and measure your board. The approved"
    " drawings, the code adopted where you build and a licensed professional decide."
)
"""Both in fewer words, for a sheet that would else take a second one."""
WARNING_LINES = (
    "WARNING: saws maim, falls kill. Guard free, stock clamped, eye and ear protection on:"
    " read page 1 before you cut.",
    "WARNING: saws maim, falls kill. Read page 1 before you cut.",
    "WARNING: read page 1 before you cut.",
    "WARNING: see page 1.",
)
"""The warning of the pages after the first, in a line: the longest that fits is taken."""
SIZE_PT, LARGE_PT = 8.0, 9.8
"""Sizes of the cautions, and of the warning beside notes that are lettered to cut by [pt]."""
WIDE_IN, WIDE_PT = 12.0, 9.0
NARROW_IN, NARROW_PT = 8.0, 7.0
"""What stands in the foot of a page wider than the one [in] is lettered so large [pt]; on a page of
text no wider than the other a point smaller than elsewhere."""
GUTTER_IN = 0.15
"""White between warning and deferral side by side [in]."""
BY_SQUARE_IN = 0.08
"""White between the small square and its notice [in]."""
BETWEEN_EM = 1.5
"""White between words at the left of a line of the title and those at its right."""
_PAD_IN, _DOWN_IN = 0.06, 0.04
"""White beside and over words in a box [in]."""


@cache
def side_by_side(width_in: float, *, text: bool = False) -> Drawing:
    """Warning and deferral next to each other, hanging from the origin to the right and down.

    The foot of a page of `text`, which nobody measures from, is lettered a point smaller.
    """
    size = WIDE_PT if width_in > WIDE_IN else SIZE_PT
    if text and width_in <= NARROW_IN:
        size = NARROW_PT
    column = (width_in - GUTTER_IN) / 2
    words = wrapped(DEFERRAL, size, column - 2 * _PAD_IN)
    deferral = Label(words, column + GUTTER_IN + _PAD_IN, -_DOWN_IN, size, va="top")
    return _box("WARNING", WARNING, column, size) + Drawing(labels=(deferral,))


@cache
def warning_line(width_in: float, beside: str) -> str:
    """The warning for one line so wide [in] on which other words stand at the right."""
    room = width_in * PT_PER_IN / SIZE_PT - line_width_em(beside, True) - BETWEEN_EM
    return next(
        (one for one in WARNING_LINES if line_width_em(one, True) <= room), WARNING_LINES[-1]
    )


NOTICE_WIDTHS_IN = (1.3, 1.6, 2.0, 2.4, 3.0, 4.2, 6.0)
WARNING_WIDTHS_IN = (2.6, 2.4, 2.2, 2.0, 3.0, 3.6, 1.8, 1.6, 4.6, 7.0)


@cache
def caution_blocks(*, full: bool, few: bool = False, large: bool = False) -> tuple[Block, ...]:
    """Warning, deferral and, on a sheet to cut from, the notice about scale with the square.

    They stand on the first page, where the drawing leaves room for them; in `few` words where
    paper is short, the warning `large` beside notes that are so.
    """
    texts = dict(caution_texts(few=few))
    size = LARGE_PT if large else SIZE_PT
    warning = words_block(
        "WARNING", texts["WARNING"], size, boxed=True, first=True, widths=WARNING_WIDTHS_IN
    )
    deferral = words_block(DEFERRAL_HEAD, texts[DEFERRAL_HEAD], SIZE_PT)
    if not full:
        return warning, deferral
    if not few:
        return warning, deferral, _notice()
    notice = words_block("NOTICE", FEW_NOTICE, SIZE_PT, boxed=True, first=True)
    return warning, deferral, notice, _small_square("square")


def _small_square(name: str) -> Block:
    return Block(name, (check_square(SMALL_SQUARE_IN),), first=True)


def caution_texts(*, few: bool = False) -> tuple[tuple[str, str], ...]:
    """Headings and texts that may stand on the waste of a wrap, where paper is short."""
    if few:
        return (DEFERRAL_HEAD, FEW_DEFERRAL), ("WARNING", FEW_WARNING), ("NOTICE", FEW_NOTICE)
    return (DEFERRAL_HEAD, DEFERRAL), ("WARNING", WARNING), ("NOTICE", NOTICE)


ALL_SAID = frozenset({"WARNING", DEFERRAL_HEAD, "NOTICE", "square"})
"""Said of pages that another page of their document has all cautions for, and the square."""


@cache
def blocks_left(
    said: frozenset[str], *, full: bool, few: bool = False, large: bool = False
) -> tuple[Block, ...]:
    """The caution blocks of a first page whose drawing bears some of the texts already."""
    every = caution_blocks(full=full, few=few, large=large)
    left = tuple(block for block in every if block.name not in said)
    if full and not few and "NOTICE" in said and "square" not in said:
        left += (_small_square("NOTICE"),)
    return left


def _notice() -> Block:
    """The square with the notice in it, or a small square with the notice beside or below it."""
    small = check_square(SMALL_SQUARE_IN)
    shapes = [check_square(SQUARE_IN)]
    for width in NOTICE_WIDTHS_IN:
        words = words_block("NOTICE", NOTICE, SIZE_PT, boxed=True, widths=(width,)).shapes[0]
        x0, _, _, y1 = words.bounds()
        shapes.append(
            small + words.moved(SMALL_SQUARE_IN + BY_SQUARE_IN - x0, SMALL_SQUARE_IN - y1)
        )
        shapes.append(small + words.moved(-x0, -BY_SQUARE_IN - y1))
    return Block("NOTICE", tuple(shapes), first=True)


def _box(heading: str, text: str, width_in: float, size_pt: float) -> Drawing:
    line = size_pt * LINE_EM / PT_PER_IN
    words = wrapped(fraction_text(text), size_pt, width_in - 2 * _PAD_IN)
    low = -(_DOWN_IN + line + text_size(words, size_pt)[1] + _PAD_IN)
    outline = ((0.0, low), (width_in, low), (width_in, 0.0), (0.0, 0.0), (0.0, low))
    return Drawing(
        (Stroke(outline, "frame"),),
        (),
        (
            Label(heading, _PAD_IN, -_DOWN_IN, size_pt, va="top", bold=True),
            Label(words, _PAD_IN, -_DOWN_IN - line, size_pt, va="top"),
        ),
    )
