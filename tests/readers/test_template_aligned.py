"""What a sheet tells one to lay on an arris lies on that sheet, at the arris's true place."""

import pytest

from layout.cuts import catalogue
from tests.counts import LONG
from tests.readers.printed_sheets import asked, printed
from tests.readers.template_aligned import aligned, led_astray, told
from tests.readers.template_sheet import BETWEEN, fold_lines, read_sheet

PAPERS = ("Letter", "A4", "Tabloid")
STOCKS = ("2x6", "2x8", "2x10")
ROOFS = (("7", "7"), ("3 1/2", "3 1/2"), ("7", "9"), ("14", "14"))
EVERY = [
    (name, end, paper, stock, *ROOFS[(i + j + k) % len(ROOFS)])
    for i, (name, end) in enumerate(
        (name, end) for name, entry in catalogue().items() for end in entry.ends
    )
    for j, paper in enumerate(PAPERS)
    for k, stock in enumerate(STOCKS)
]
"""Each end of each cut on each paper with each board, the four roofs dealt out."""
SHARE = [
    ("hip-seat", "foot", "Letter", "2x8", "7", "9"),
    ("common-seat", "foot", "Letter", "2x8", "7", "7"),
    ("hip-jack", "head", "Letter", "2x6", "7", "7"),
    ("hip-backing", "foot", "Letter", "2x6", "7", "7"),
]


@pytest.mark.parametrize(
    ("name", "end", "paper", "stock", "pitch", "other"), EVERY if LONG else SHARE
)
def test_what_is_laid_on_an_arris_lies_on_the_sheet_where_the_arris_is(
    tmp_path, name, end, paper, stock, pitch, other
):
    """By the board's section: the arris that a sheet has one align is one of the four corners of a
    rectangle of thickness by depth. On the paper the folds over one edge lie the thickness apart,
    and a face's other arris the depth beyond its fold. A 2x8 is 1 1/2 by 7 1/4, so what is laid on
    the top arris of a face folded at its bottom stands 7.25 in from that fold; 2.5 in of face, all
    that Letter shows beside a hip's seat, hold no such line."""
    one = asked(name, end, stock, pitch, other)
    path, count = printed(one, paper, tmp_path)
    board = one.question.stock
    found = set()
    for index in range(count):
        sheet = read_sheet(path, index)
        # The reader of papers knows none that has a flap folded the other way.
        assert one.is_rip or led_astray(path, index, sheet) == []
        folds = list(fold_lines(sheet))
        for each in aligned(path, index, sheet):
            found.add((each.arris, each.by))
            low, high = each.ends
            assert high - low > 0.5, "too short to be laid by"
            beside = {abs(at - each.at) for axis, at, _ in folds if axis == each.axis} - {0.0}
            if beside:
                near, far = board.depth_in, board.depth_in + board.thickness_in
                true = (board.thickness_in,) if each.by == "fold" else (near, far)
                wrong = min(abs(off - each_true) for off in beside for each_true in true)
                assert wrong < 0.005, (each, beside)
            _stands_on_its_side(sheet, each, [at for axis, at, _ in folds if axis == each.axis])
    assert found, "no sheet says what to align"
    assert found == told(path)


def _stands_on_its_side(sheet, each, folds):
    """The face that the arris is named after lies on its side of the line."""
    face = next(iter(BETWEEN[each.arris][0]))
    others = [at for at in folds if abs(at - each.at) > 0.01]
    names = [one.at["xy".index(each.axis)] for one in sheet.words if one.text == face]
    if not others or len(names) != 1:
        return
    other = min(others, key=lambda at: abs(at - each.at))
    same_side = (names[0] - each.at) * (other - each.at) > 0
    assert same_side == (each.by == "edge"), f"{face} lies on the wrong side of the {each.arris}"
