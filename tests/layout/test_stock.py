"""Boards: nominal names, real sizes, and what is refused.

Dressed sizes: American Softwood Lumber Standard PS 20, dry, from memory.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import LayoutError, StockError
from layout.quantity import write_fraction
from layout.stock import LARGEST_IN, SMALLEST_IN, Stock, read_stock
from tests.counts import count

PS_20 = {
    "1x2": (0.75, 1.5),
    "1x3": (0.75, 2.5),
    "1x4": (0.75, 3.5),
    "1x6": (0.75, 5.5),
    "1x8": (0.75, 7.25),
    "1x10": (0.75, 9.25),
    "1x12": (0.75, 11.25),
    "2x2": (1.5, 1.5),
    "2x4": (1.5, 3.5),
    "2x6": (1.5, 5.5),
    "2x8": (1.5, 7.25),
    "2x10": (1.5, 9.25),
    "2x12": (1.5, 11.25),
    "4x4": (3.5, 3.5),
    "4x6": (3.5, 5.5),
    "4x12": (3.5, 11.25),
}


@pytest.mark.parametrize(("name", "size"), PS_20.items())
def test_a_nominal_name_carries_its_dressed_size(name, size):
    for written in (name, name.replace("x", " x "), name.replace("x", "×"), name.upper()):
        stock = read_stock(written)
        assert (stock.name, stock.thickness_in, stock.depth_in) == (name, *size)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("1 1/2 x 5 1/2", (1.5, 5.5)),
        ("1 1/2x5 1/2", (1.5, 5.5)),
        ("1½×5½", (1.5, 5.5)),
        ("1.5x5.5", (1.5, 5.5)),
        ("3/4 x 5 1/2", (0.75, 5.5)),
        ("38mm x 140mm", (38 / 25.4, 140 / 25.4)),
        ("38x140mm", (38 / 25.4, 140 / 25.4)),
        ("38 x 140 mm", (38 / 25.4, 140 / 25.4)),
        ("3.8cm x 14cm", (38 / 25.4, 140 / 25.4)),
        ("2in x 6in", (2.0, 6.0)),
        ("2x6in", (2.0, 6.0)),
        ('2" x 6"', (2.0, 6.0)),
        ("6in x 2in", (6.0, 2.0)),
    ],
)
def test_a_real_size_is_thickness_by_depth(text, size):
    stock = read_stock(text)
    assert (stock.thickness_in, stock.depth_in) == pytest.approx(size)


def test_a_board_says_its_name_and_its_real_size():
    assert str(read_stock("2x6")) == "2x6 (1 1/2 x 5 1/2 in)"
    assert str(read_stock("1 1/2 x 5 1/2")) == "1 1/2 x 5 1/2"
    assert str(read_stock("38x140mm")) == "38mm x 140mm (1 1/2 x 5 33/64 in)"
    assert "\n" not in str(read_stock("1\n1/2 x\t5"))


@pytest.mark.parametrize(
    ("text", "cure"),
    [
        ("9x9x9", "2x6"),
        ("abc", "2x6"),
        ("", "2x6"),
        ("2x", "2x6"),
        ("x6", "2x6"),
        ("axb", "2x6"),
        ("infx6", "2x6"),
        ("nan x 6in", "2x6"),
        ("-2x6", "2x6"),
        ("2 by 6", "2x6"),
        ("3x5", "3in x 5in"),
        ("6x2", "the thickness comes first, as in 2x6; for a real size give the unit, as in 6in"),
        ("2x7", "2in x 7in"),
        ("5/4x6", "1in x 5 1/2in"),
        ("5/4 x 5 1/2", "1in x 5 1/2in"),
        ("0x6", "unit"),
        ("2x6mm", "a thickness of 2mm is no board; give one from 6.35 to 609.6 mm"),
        ("38mm x 1m", "a depth of 1m is no board; give one from 6.35 to 609.6 mm"),
        ("0in x 6in", "0.25 to 24"),
        ("38mm x 140", "0.25 to 24"),
        ("1in x 30in", "0.25 to 24"),
        ("9" * 400 + "in x 6in", "2x6"),
    ],
)
def test_what_is_no_board_is_refused(text, cure):
    with pytest.raises(StockError) as error:
        read_stock(text)
    message = str(error.value)
    assert len(message.splitlines()) == 1
    assert cure in message


@pytest.mark.parametrize("side", [0.0, -1.0, 0.249, 24.01, float("nan"), float("inf")])
def test_a_section_that_no_board_has_is_refused(side):
    for size in ((side, 5.5), (1.5, side)):
        with pytest.raises(StockError, match=r"0\.25 to 24 in"):
            Stock("?", *size)


@settings(derandomize=True, max_examples=count(150, 37), deadline=None)
@given(*(st.integers(int(SMALLEST_IN * 64), int(LARGEST_IN * 64)) for _ in range(2)))
def test_a_real_size_written_reads_back(thickness, depth):
    stock = Stock("?", thickness / 64, depth / 64)
    written = " x ".join(f"{write_fraction(s, 64)}in" for s in (thickness / 64, depth / 64))
    read = read_stock(written)
    assert (read.thickness_in, read.depth_in) == (stock.thickness_in, stock.depth_in)


@settings(derandomize=True, max_examples=count(200, 50), deadline=None)
@given(st.text(alphabet="0123456789x×/ .½inmc\"'-\n", max_size=9))
def test_any_text_is_a_board_or_is_refused_in_one_line(text):
    outcome = _outcome(text)
    if isinstance(outcome, LayoutError):
        assert isinstance(outcome, StockError)
        assert len(str(outcome).splitlines()) == 1
    else:
        assert SMALLEST_IN <= outcome.thickness_in <= LARGEST_IN
        assert SMALLEST_IN <= outcome.depth_in <= LARGEST_IN
        assert len(str(outcome).splitlines()) == 1


def _outcome(text):
    try:
        return read_stock(text)
    except LayoutError as error:
        return error
