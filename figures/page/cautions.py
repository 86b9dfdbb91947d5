"""The cautions that every sheet carries: what can hurt, and who decides.

One WARNING box (hazard, what comes of it, how to avoid it) and one short deferral. They are
lettered as large as their room allows and never below 6.5 points.
"""

from functools import cache

from figures.ink.drawing import Drawing, Label, Stroke
from figures.ink.lettering import LINE_EM, fraction_text, text_size, wrapped
from figures.ink.pens import PT_PER_IN
from figures.page.checkbars import NOTICE
from layout.errors import SheetError

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
SIZES_PT = (10.0, 9.0, 8.0, 7.5, 7.0, 6.5)
_PAD_IN = 0.06


@cache
def side_by_side(width_in: float) -> Drawing:
    """Warning and deferral next to each other, hanging from the origin to the right and down."""
    size = 9.0 if width_in > 12 else 8.0 if width_in > 8 else 7.0
    column = (width_in - 0.15) / 2
    return _box("WARNING", WARNING, column, size) + _plain(
        DEFERRAL, column, size, column + 0.15, -0.04
    )


@cache
def three_columns(width_in: float) -> Drawing:
    """Warning, notice and deferral in columns of like height, hanging from the origin."""
    size = 8.0 if width_in > 11 else 7.0
    gap = 0.1
    texts = {"WARNING": WARNING, "NOTICE": NOTICE, "": DEFERRAL}
    share = (width_in - 2 * gap) / sum(len(text) for text in texts.values())
    block = Drawing()
    x = 0.0
    for heading, text in texts.items():
        column = share * len(text)
        if heading:
            block += _box(heading, text, column, size).moved(x, 0)
        else:
            block += _plain(text, column, size, x, -0.04)
        x += column + gap
    return block


@cache
def stacked(width_in: float, height_in: float, *, notice: bool = False) -> Drawing:
    """Warning over deferral, hanging from the origin, as large as they fit a height [in].

    `notice` puts the notice about scale first, for paper with no room for it elsewhere. Raises
    SheetError where the smallest lettering is too large.
    """
    for size in SIZES_PT:
        if width_in < size / PT_PER_IN * 10:
            continue
        block = Drawing()
        y = 0.0
        if notice:
            block += _box("NOTICE", NOTICE, width_in, size)
            y = block.bounds()[1] - _PAD_IN
        block += _box("WARNING", WARNING, width_in, size).moved(0, y)
        y = block.bounds()[1] - _PAD_IN
        block += _plain(DEFERRAL, width_in, size, 0.0, y)
        if -block.bounds()[1] <= height_in:
            return block
    raise SheetError(
        f"the cautions do not fit {width_in:.3g} by {height_in:.3g} in: use larger paper"
    )


def _box(heading: str, text: str, width_in: float, size_pt: float) -> Drawing:
    line = size_pt * LINE_EM / PT_PER_IN
    words = wrapped(fraction_text(text), size_pt, width_in - 2 * _PAD_IN)
    low = -(0.04 + line + text_size(words, size_pt)[1] + _PAD_IN)
    outline = ((0.0, low), (width_in, low), (width_in, 0.0), (0.0, 0.0), (0.0, low))
    return Drawing(
        (Stroke(outline, "frame"),),
        (),
        (
            Label(heading, _PAD_IN, -0.04, size_pt, va="top", bold=True),
            Label(words, _PAD_IN, -0.04 - line, size_pt, va="top"),
        ),
    )


def _plain(text: str, width_in: float, size_pt: float, x: float, y: float) -> Drawing:
    words = wrapped(text, size_pt, width_in - 2 * _PAD_IN)
    return Drawing(labels=(Label(words, x + _PAD_IN, y, size_pt, va="top"),))
