"""Words go to the file as they were measured: the same places, and no screen's library loaded."""

import subprocess
import sys
from pathlib import Path

import matplotlib
import pytest
import shapely
from matplotlib.collections import LineCollection

from figures.files.pdf_words import KNOWN
from figures.files.press import write
from figures.ink.drawing import Area, Drawing, Label, Stroke, label_box
from figures.ink.lettering import font, line_width_em
from figures.ink.paper import read_paper
from figures.page.sheet import Page
from tests.measure import pdf_word_box, pdf_word_inks

ROOT = Path(__file__).parents[3]


def test_a_line_is_as_wide_as_the_library_lays_it_out():
    from matplotlib.textpath import TextToPath

    measure = TextToPath()
    for bold in (False, True):
        ruler = font(bold).copy()
        ruler.set_size(measure.FONT_SCALE)
        for line in (
            "Saws maim, falls kill.",
            "AV To Ty. We P. A",
            '8\xa0¹⁄₂ in "T" Ya',
            "  a  b ",
        ):
            wide, _, _ = measure.get_text_width_height_descent(line, ruler, ismath=False)
            assert line_width_em(line, bold) == pytest.approx(wide / measure.FONT_SCALE, abs=1e-12)


@pytest.mark.parametrize("rotation", [0.0, 90.0])
def test_words_stand_in_the_file_where_their_box_was_measured(tmp_path, rotation):
    label = Label("HMTnH", 3.0, 5.0, 20.0, rotation_deg=rotation)
    page = Page(read_paper("Letter"), Drawing(labels=(label,)), title="x", scale=None)
    (path,) = write([page], tmp_path / "a.pdf", title="x")
    left, bottom, right, top = pdf_word_box(path, "HMTnH")
    x0, y0, x1, y1 = label_box(label).bounds
    assert (x0 <= left, y0 <= bottom, right <= x1, top <= y1) == (True,) * 4
    along = (right - left, x1 - x0) if rotation == 0 else (top - bottom, y1 - y0)
    assert along[0] == pytest.approx(along[1], abs=0.06)


def test_writing_a_page_loads_no_library_of_windows_and_none_of_fonts_parts():
    code = """
import sys, tempfile, pathlib
from figures.files.pdf_words import KNOWN
from figures.files.press import write
from figures.ink.drawing import Drawing, Label
from figures.ink.paper import read_paper
from figures.page.sheet import Page
page = Page(read_paper("Letter"), Drawing(labels=(Label("a", 3, 5),)), title="x", scale=None)
with tempfile.TemporaryDirectory() as folder:
    write([page], pathlib.Path(folder) / "a.pdf", title="x")
assert "matplotlib.pyplot" not in sys.modules
assert "fontTools.ttLib.tables.otTables" not in sys.modules
from fontTools import subset
assert subset.Options().glyph_names is False
"""
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)


def test_words_are_written_byte_for_byte_as_the_library_writes_them(tmp_path, monkeypatch):
    """Kerned pairs, fractions, brackets, letters of several subsets, both weights, turned."""
    lines = ("AV To Ty. We P. A (so) \\ [x]", '8\xa0¹⁄₂ in "T" Ya', "tilt 45°, θ ≤ ½ π", "  a  b ")
    labels = [
        Label(f"{line}\n{line}", 1 + at, 2 + at, 9 + at / 2, rotation_deg=turn, bold=bold)
        for at, line in enumerate(lines)
        for turn in (0.0, 90.0, 33.7)
        for bold in (False, True)
    ]
    pages = [
        Page(read_paper("Letter"), Drawing(labels=tuple(some)), title="x", scale=None)
        for some in (labels[:12], labels[8:])
    ]
    (ours,) = write(pages, tmp_path / "ours.pdf", title="x")
    quick = []
    monkeypatch.setattr("figures.files.pdf_words._Writing.line", lambda *given: quick.append(given))
    write(pages, tmp_path / "none.pdf", title="x")
    monkeypatch.undo()
    assert quick or matplotlib.__version_info__[:2] != KNOWN
    monkeypatch.setattr("figures.files.pdf_words.KNOWN", (0, 0))
    (theirs,) = write(pages, tmp_path / "theirs.pdf", title="x")
    assert ours.read_bytes() == theirs.read_bytes()


def test_every_word_has_its_own_ink(tmp_path):
    """Words of one size whose ink changes and changes back, on a page and on the next."""
    inks = ("#000000", "#0072b2", "#0072b2", "#000000", "#d55e00")
    labels = [
        Label(f"word {at}", 2.0, 2.0 + at / 2, colour=inks[at % len(inks)]) for at in range(12)
    ]
    some = (labels[:6], labels[6:])
    pages = [
        Page(read_paper("Letter"), Drawing(labels=tuple(part)), title="x", scale=None)
        for part in some
    ]
    (path,) = write(pages, tmp_path / "a.pdf", title="x")
    for at, part in enumerate(some):
        found = pdf_word_inks(path, at)
        assert {word: found[word] for word in found if word.startswith("word ")} == {
            label.text: label.colour for label in part
        }


def test_lines_are_written_byte_for_byte_as_the_library_writes_them(tmp_path, monkeypatch):
    """Two pens, dashes, a long line and a short one, an area between, lines beyond the paper."""
    strokes = [
        Stroke(((1.0, 1.0 + at / 7), (2.0, 1.5), (3.0 + at, 2.0 + at)), pen, gid)
        for at in range(9)
        for pen, gid in (("guide", "a"), ("cut", "a"), ("fold", "b"), ("cut", None))
    ]
    alone = Stroke(((1.0, 8.0), (2.0, 8.5)), "guide", "alone")
    some = (
        Drawing((*strokes, alone)),
        Drawing((alone,), (Area(shapely.box(1, 1, 2, 3), "waste"),)),
        Drawing(tuple(strokes[:3])),
    )
    pages = [Page(read_paper("Letter"), one, title="x", scale=None) for one in some]
    (ours,) = write(pages, tmp_path / "ours.pdf", title="x")
    quick = []
    monkeypatch.setattr("figures.files.pdf_lines._write", lambda *given: quick.append(given))
    write(pages, tmp_path / "none.pdf", title="x")
    monkeypatch.undo()
    assert quick or matplotlib.__version_info__[:2] != KNOWN
    monkeypatch.setattr("figures.files.press.lines_artist", lambda: LineCollection)
    (theirs,) = write(pages, tmp_path / "theirs.pdf", title="x")
    assert ours.read_bytes() == theirs.read_bytes()
