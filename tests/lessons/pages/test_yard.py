"""The yard check: cut list, settings, full-size templates, and the gaps to expect."""

import numpy as np
import pypdfium2
import pytest

from layout.stock import read_stock
from layout.tools.fit import SOUND_IN, fit
from lessons.cli.main import run
from lessons.pages.yard import cuts_of_the_day
from lessons.say.units import System
from tests.resolved import plain


def test_expected_apart_is_the_gap_between_the_two_cuts_as_read():
    # Cut B: 12 in 12, edge 8 1/2 on 12, tilt 45. Written out: the hand's plane runs through face
    # line (slope 1) and edge line (slope 12/8.5), the saw's normal is (1/2, 1/sqrt 2, 1/2).
    cut = cuts_of_the_day()[1]
    hand = np.array([1.0, 12 / 8.5, 1.0])
    saw = np.array([0.5, 0.5**0.5, 0.5])
    corners = [(y, z) for y in (0, 1.5) for z in (0, 3.5)]
    reach = [saw @ (-(hand[1] * y + hand[2] * z), y, z) for y, z in corners]
    assert cut.apart_in == pytest.approx(max(reach) - min(reach), abs=1e-12)
    assert 0 < cut.apart_in < 1 / 64


def test_with_exact_settings_the_two_cuts_close():
    for cut in cuts_of_the_day(read_stock("2x10")):
        right = cut.answer
        saw = right.saw_setting(as_read=False).normal
        from dataclasses import replace

        made = fit(replace(right.cut, normal=saw), right.hand_setting(as_read=False).normal)
        assert float(made.widest_in) < SOUND_IN


def test_it_can_be_read_aloud(capsys):
    assert run(["yard-check"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "8 pieces of 2x4 (1 1/2 x 3 1/2 in), each 24 in long, 16'-0\" in all" in said
    # Common practice, no source: 12 in 12 takes 8 1/2 on 12, a hip takes 17 for its run.
    assert "8 1/2 on the blade, 12 on the tongue; mark along the tongue" in said
    assert "17 on the blade, 6 on the tongue" in said
    assert said.count("tilt 45°") == 3
    assert "Wear eye and ear protection" in said


def test_the_wrong_cut_is_made_too_and_its_gap_is_said(capsys):
    # 12 in 12 on 1 1/2 in: t (1/sqrt 2) (tan 45 - tan 35.26) = 1.5 * 0.7071 * 0.2929 = 0.3107 in
    # (worked by hand); at 8 in 12 the number lays atan(10/12) = 39.76 degrees.
    _, b, c = cuts_of_the_day()
    assert b.wrong.price_in == pytest.approx(0.3107, abs=1e-4)
    assert c.wrong is None
    assert run(["yard-check"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "tilt 39.75°, the number's angle" in said
    assert "tilt 35.25°, the number's angle, all else as for the saw; expect 5/16 in open" in said
    assert said.index("wrap the template") < said.index("Saw the HAND pieces")
    assert said.index("Saw the HAND pieces") < said.index("saw the NUMBER pieces")


def test_metric_is_in_millimetres(capsys):
    assert run(["yard-check", "--units", "metric", "--stock", "45mm x 95mm"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "8 pieces of 45 x 95 mm, each 600 mm long, 4800 mm in all" in said
    assert "212 on the blade, 300 on the tongue" in said
    assert " in)" not in said


def test_it_prints_with_a_template_for_every_cut(tmp_path, capsys):
    pdf = tmp_path / "yard.pdf"
    assert run(["yard-check", "-o", str(pdf)]) == 0
    document = pypdfium2.PdfDocument(pdf)
    texts = [plain(page.get_textpage().get_text_bounded()) for page in document]
    document.close()
    assert [("FULL SIZE" in text) for text in texts].count(True) >= len(cuts_of_the_day())
    for name in ("hip-jack, left", "hip-jack, right", "hip-ridge-single, left"):
        assert any(name in text and "FULL SIZE" in text for text in texts)
    record = next(text for text in texts if "Measured gap" in text)
    assert "Hand off the template" in record
    for cut in cuts_of_the_day():
        assert cut.expected(System.INCH)[2] in record
    assert f"page 1 of {len(texts)}" in texts[0]
    assert f"page {len(texts)} of {len(texts)}" in texts[-1]
    capsys.readouterr()


def test_the_template_is_wrapped_before_anything_is_sawn(capsys):
    assert run(["yard-check"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    steps = said[said.index("WHAT TO DO") : said.index("SETTINGS")]
    assert steps.index("wrap the template") < steps.index("Saw the")
    assert "below the shoe the blade runs in under the kept wood" in said
    assert "leans" not in steps


def test_the_check_bars_measures_have_a_line_of_their_own_below_the_table(capsys):
    assert run(["yard-check"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "last line of the table" not in said
    assert 'write what they measure below the table, on the line "Check bars".' in said
    # The table's last line is cut C; then what it means is said, and then comes that line.
    table, bars = said.index("C expected gap"), said.index("Check bars across ____")
    assert said.index("MEASURED") < table < bars
