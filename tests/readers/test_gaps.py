"""One sheet never says two gaps: terminal, JSON, the PDF's words and its picture are compared."""

import json
import re

import pypdfium2
import pytest

from layout.answer.gap_words import fits_or_leaves, gap_and_decimals, gap_over_limit, write_gap
from lessons.cli.main import run
from tests.counts import LONG
from tests.resolved import number, plain

CLAIMS = [
    ("hip-jack", "12", "plumb 12 in 12, saw 42.17"),
    ("hip-jack", "12", "plumb 12 in 12, saw 35 1/4"),
    ("hip-ridge-single", "6", "plumb 6 in 17, edge 12 on 12"),
    ("purlin-square", "9", "face 30, saw 40"),
    ("valley-jack", "8", "plumb 8 in 12, saw 39.76"),
]
LENGTH = re.compile(r"(?<![\d/.])((?:\d+ )?\d+/\d+|\d+) in\b(?! 12)")
BOARD = re.compile(r"[\d/ ]+ x [\d/ ]+ in|[\d/. ]+ in 1[27]|within [\d/]+ in|limit [\d/]+ in")


def gaps(text):
    """Every length that is left when the board, the pitch and the tolerance are taken out."""
    return {number(match[1]) for match in LENGTH.finditer(BOARD.sub("", plain(text)))}


def finding(text):
    """From the verdict to the cautions: what is said of the claim."""
    said = plain(text)
    return said[: said.index("Check that the guard")] if "Check that the guard" in said else said


@pytest.mark.parametrize(("cut", "pitch", "claim"), CLAIMS if LONG else CLAIMS[:2])
def test_every_gap_on_a_settled_sheet_is_one_number(capsys, tmp_path, cut, pitch, claim):
    asked = ["settle", cut, "--pitch", pitch, "--claim", claim]
    path = tmp_path / "settled.pdf"
    assert run([*asked, "-o", str(path)]) == 0
    terminal = finding(capsys.readouterr().out)
    assert run([*asked, "--json"]) == 0
    (judged,) = json.loads(capsys.readouterr().out)["claims"]
    document = pypdfium2.PdfDocument(path)
    page = plain(document[0].get_textpage().get_text_bounded())
    document.close()
    sheet = page[: page.index("Settled:")] if "Settled:" in page else page[: page.index("WARNING")]
    wanted = judged["gap_in"]
    said = gaps(terminal)
    assert len(said) == 1, (said, terminal)
    assert abs(said.pop() - wanted) <= 1 / 128 + 1e-9
    printed = gaps(sheet)
    assert printed == gaps(terminal), (printed, sheet)
    words = write_gap(wanted).removesuffix(" in")
    assert sheet.count(f"{words} in") >= 3  # headline, verdict, picture


def test_the_writer_of_gaps():
    """To the sixty-fourth; what reads like the limit and is over it is said to be over it."""
    assert write_gap(0.036) == "1/32 in"
    assert gap_over_limit(0.036, 1 / 32) == "just over 1/32 in"
    assert gap_over_limit(0.1, 1 / 32) == "3/32 in"
    assert fits_or_leaves(0.03, 1 / 32) == "fits"
    assert fits_or_leaves(0.036, 1 / 32) == "leaves just over 1/32 in open"
    assert [write_gap(gap) for gap in (0.0, 0.001, 1 / 128, 0.311)] == [
        "no gap",
        "under 1/128 in",
        "1/64 in",
        "5/16 in",
    ]
    assert write_gap(0.1, metric=True) == "2.5 mm"


def test_the_decimals_beside_a_gap():
    """Three figures that count: a fourth decimal is written under a sixty-fourth (0.015625)."""
    assert [gap_and_decimals(gap) for gap in (0.0, 0.0027, 0.0155, 0.01563, 0.311)] == [
        "no gap",
        "under 1/128 in (0.0027)",
        "1/64 in (0.0155)",
        "1/64 in (0.016)",
        "5/16 in (0.311)",
    ]
    assert gap_and_decimals(0.1, metric=True) == "2.5 mm"
