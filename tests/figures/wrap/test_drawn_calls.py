"""Drawn calls of the template command: a sheet, or one line that says why not."""

from random import Random

import pytest

from layout.cuts import catalogue
from lessons.cli.main import run
from tests.counts import count

CUTS = sorted(catalogue())
PITCHES = ("8 in 12", "2", "3 1/2", "12", "18", "24", "45deg", "667/1000")
STOCKS = ("2x4", "2x6", "2x12", "1x6", "4x4", "38mm x 140mm", "45 x 220 mm")
PAPERS = ("Letter", "A4", "Legal", "Tabloid", "A3", "roll-24", "roll-36", "6x9", "Letter landscape")


def drawn(seed: int) -> list[str]:
    """One call, by chance: mostly sensible, with what most rarely meets."""
    deal = Random(seed)
    call = [deal.choice(CUTS), "--pitch", deal.choice(PITCHES), "--paper", deal.choice(PAPERS)]
    call += ["--hand", deal.choice(("left", "right"))]
    if deal.random() < 0.7:
        call += ["--stock", deal.choice(STOCKS)]
    if deal.random() < 0.3:
        call += ["--other-pitch", deal.choice(PITCHES)]
    if deal.random() < 0.3:
        call += ["--corner", str(deal.choice((60, 90, 110, 120, 135, 150)))]
    for flag, chance in (("--all-round", 0.2), ("--backed", 0.15)):
        if deal.random() < chance:
            call.append(flag)
    if deal.random() < 0.5:
        call += ["--scale", deal.choice(("half", "quarter", "1:5", "1:10", "3 in = 1 ft"))]
    if deal.random() < 0.15:
        call += ["--marks", deal.choice(("ends", "whole"))]
    if deal.random() < 0.2:
        call += ["--printed-bars", "5 31/32 x 7 15/16"]
    if deal.random() < 0.2:
        call += ["--units", "metric"]
    return call


@pytest.mark.parametrize("seed", range(count(2000, 6)))
def test_a_drawn_call_writes_a_sheet_or_says_why_not(capsys, tmp_path, seed):
    path = tmp_path / "a.pdf"
    code = run(["template", *drawn(seed), "-o", str(path)])
    out, error = capsys.readouterr()
    assert code in (0, 2)
    assert path.exists() == (code == 0)
    if code == 2:
        assert error.count("\n") == 1
        assert len(error) <= 310
        assert "room for its words" not in error
    else:
        assert f"wrote {path}" in out
