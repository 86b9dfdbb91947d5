"""A sheet that is asked for in metric bears no inch but on the instruments that bear both.

The check bars, their square and what is said of them stand in inches and millimeters on every
sheet: whoever checks a print has a rule of one kind or the other. The numbers expected here are
plain trigonometry on a run of 300.
"""

import re
from math import hypot, sqrt

import pypdfium2
import pytest

from figures.packet import packet as packets
from lessons.cli.main import run
from tests.counts import LONG, count

BOTH = re.compile(
    r"within \S+ in \(0\.5 mm\)|within \S+ in: print|measure \d in above, \d+ cm below"
    r"|\b[168] in( square|(?= \d+ cm)|(?= ACROSS)|(?= ALONG)|$)",
    re.IGNORECASE,
)
INCH = re.compile(
    r"[\d⁰¹²³⁴-⁹₀-₉]\"? in\b(?! 300| under)|\d'-|[\d₀-₉]\"|\binch| on 12\b"
    r"|\b12 (?:on the )?(?:blade|tongue)"
)


def words_of(path):
    """All words of a PDF on one line, without those of the check bars."""
    pages = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(path)]
    return BOTH.sub("", " ".join(" ".join(pages).split()))


@pytest.mark.parametrize(
    "arguments",
    [
        ("template", "hip-jack", "--pitch", "9"),
        ("jacks", "--pitch", "9", "--count", "2"),
        ("table", "8", "9", "--other-pitch", "6"),
        ("yard-check",),
        ("template", "splayed-butt", "--pitch", "8", "--stock", "38mm x 140mm"),
        ("template", "hip-ridge", "--pitch", "9", "--paper", "A3"),
        ("template", "hip-backing", "--pitch", "9"),
    ][: count(7, 4)],
    ids=" ".join,
)
def test_a_metric_sheet_has_no_inch_but_on_its_check_bars(capsys, tmp_path, arguments):
    sheet = tmp_path / "sheet.pdf"
    assert run([*arguments, "--units", "metric", "-o", str(sheet)]) == 0
    text = words_of(sheet)
    assert not INCH.findall(text), text
    assert " mm" in text or "millimeters" in text


def test_a_metric_packet_lays_its_sticks_on_300(tmp_path, monkeypatch):
    """8 in 12 is 200 in 300; its commands are to be typed, and a pitch may be typed as it was."""
    if not LONG:  # of the templates one stands for all
        every = packets._templates
        monkeypatch.setattr(
            packets, "_templates", lambda answers, *how: every(answers[:1], *how) * len(answers)
        )
    job, packet = tmp_path / "job.toml", tmp_path / "packet.pdf"
    job.write_text('[roof]\nsize = "4\' x 4\'"\npitch = "8 in 12"\n')
    asked = ["packet", "--job", str(job), "--units", "metric", "-o", str(packet)]
    assert run(asked) == 0
    text = words_of(packet)
    assert "300 blade, 200 tongue; along the tongue" in text
    assert not re.findall(r"\b12 (?:on the )?(?:blade|tongue)| on 12\b", text)


def test_a_metric_template_gives_the_numbers_of_a_metric_square(tmp_path):
    """9 in 12: the face is 225 on 300; a cheek at 45 in plan has 300 cos(slope) on 300."""
    sheet = tmp_path / "sheet.pdf"
    assert run(["template", "hip-jack", "--pitch", "9", "--units", "metric", "-o", str(sheet)]) == 0
    text = words_of(sheet)
    assert "Square: 300 on the blade, 225 on the tongue; mark along the tongue." in text
    assert "Square: 240 on the blade, 300 on the tongue; mark along the tongue." in text
    assert f"Side-cut number {300 * 12 / sqrt(12**2 + 9**2):.1f} on 300." in text


def test_a_metric_table_names_each_pitch_on_300(capsys):
    """8 and 6 in 12 are 200 and 150 in 300: 12 times 25."""
    assert run(["table", "8", "--other-pitch", "6", "--units", "metric"]) == 0
    text = capsys.readouterr().out
    assert "other roof 150 in 300" in text
    assert "200 in 300" in text
    assert " in 12" not in text


def test_a_spacing_in_metric_agrees_with_the_column_that_it_is_stepped_into(capsys):
    """16 in are 406.4 mm, and so the first jack's 406; the half millimeter over that is 406.5.

    At a square corner a jack grows by the slope's length over the spacing, the run of 12 with the
    rise of 8.
    """
    assert run(["jacks", "--eave", "10'", "--spacing", "16in", "--units", "metric"]) == 0
    text = capsys.readouterr().out
    step = 16 * 25.4
    assert f"the first jack's middle {step:.1f} mm from it, the rest {step:.1f} mm on" in text
    assert f"Common difference {step * hypot(12, 8) / 12:.1f} mm" in text
    told = [line.split()[3] for line in text.splitlines() if re.match(r"A\d ", line)]
    assert told == [f"{step * n:.0f}" for n in range(1, 8)]
