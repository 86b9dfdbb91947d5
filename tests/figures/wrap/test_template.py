"""Templates on paper: one sheet or few, tiles that rebuild the wrap, and the same bytes."""

import itertools
from functools import cache

import numpy as np
import pytest
import shapely

from figures.files.press import write
from figures.ink.correction import Correction
from figures.ink.drawing import collisions, label_box
from figures.ink.paper import read_paper
from figures.ink.pens import MARKS
from figures.ink.scale import read_scale
from figures.page.sheet import furnished
from figures.page.tiling import PrintSetup, pages
from figures.wrap.spread import ALL_ROUND
from figures.wrap.template import template_pages
from figures.wrap.wrap import wrap
from layout.cuts import Hand
from layout.errors import SheetError
from tests.counts import part_of
from tests.measure import pdf_pieces, pdf_sizes, pdf_text
from tests.wraps import answered, folded, marks

LETTER = PrintSetup(read_paper("Letter"))
JACK = answered("hip-jack", "head")


@cache
def steep_tiles():
    """A jack so steep that it takes tiles, laid out once for all that read it."""
    steep = answered("hip-jack", "head", pitch="16", stock="2x10")
    return steep, template_pages(steep, LETTER, marks="whole")


def back(page, point):
    """A point of a page back on the unrolled paper [in]."""
    x, y = point[0] - page.origin[0], point[1] - page.origin[1]
    return (y, -x) if page.turned else (x, y)


@pytest.mark.parametrize(
    ("paper", "hand"), part_of(list(itertools.product(("Letter", "A4", "Legal"), Hand)), 3)
)
def test_a_2x6_jack_goes_on_one_sheet_and_reads_true_in_the_file(tmp_path, paper, hand):
    one = answered("hip-jack", "head", hand)
    setup = PrintSetup(read_paper(paper), correction=Correction(1.01, 0.99))
    sheets = template_pages(one, setup)
    assert len(sheets) == 1
    (path,) = write(sheets, tmp_path / "a.pdf", title=sheets[0].title)
    sheet = read_paper(paper)
    sides = sorted((sheet.width_in * 72, sheet.height_in * 72))
    assert all(sorted(size) == pytest.approx(sides, abs=5e-4) for size in pdf_sizes(path))
    found = set()
    for i, page in enumerate(sheets):
        pieces = pdf_pieces(path, i)
        for piece in pieces:
            if piece.width_in == pytest.approx(0.7 / 25.4, abs=1e-4):
                for x, y in piece.points:
                    at = back(page, (x / page.factors[0], y / page.factors[1]))
                    found.add(tuple(np.round(at, 3) + 0.0))
    short = next(filter(None, map(_short, sheets)), None)
    wanted = {
        tuple(np.round(p, 3) + 0.0)
        for _, _, line in marks(wrap(one, short=short, bare=True))
        for p in line
    }
    assert found == wanted
    for length, factor in ((6.0, page.correction.across), (8.0, page.correction.along)):
        assert any(piece.length_in / factor == pytest.approx(length, abs=5e-4) for piece in pieces)
    text = " ".join(" ".join(pdf_text(path, i) for i in range(len(sheets))).split())
    assert "FULL SIZE" in text
    assert f"hip-jack, {hand.value} hand, head" in text
    assert "WARNING" in text
    assert "licensed professional" in text


def _short(page):
    """Which face the words of a page say is not shown whole, and how much of it is."""
    for label in (*page.drawing.labels, *page.beside.labels):
        if "The paper stops short" not in label.text.replace("\n", " "):
            continue
        face = "left face" if "left face" in label.text.replace("\n", " ") else "right face"
        gid = f"mark-{face.replace(' ', '-')}"
        if not any(s.gid == gid for s in page.drawing.strokes):
            continue
        (line,) = (s.points for s in page.drawing.strokes if s.gid == gid)
        (_, v), (_, w) = (back(page, p) for p in line)
        return face, round(abs(v - w), 6)
    return None


@pytest.mark.parametrize(
    ("name", "end", "pitch", "stock"),
    [("hip-jack", "head", "16", "2x10"), ("common-tail-level", "foot", "4", "2x4")],
)
def test_tiles_rebuild_the_wrap_from_the_file(tmp_path, name, end, pitch, stock):
    """Laid together from the PDF, the marks run through every seam, each point in its plane."""
    if (name, pitch, stock) == ("hip-jack", "16", "2x10"):
        one, tiles = steep_tiles()
    else:
        one = answered(name, end, pitch=pitch, stock=stock)
        tiles = template_pages(one, LETTER, marks="whole")
    assert len(tiles) > 1
    assert [page.letter for page in tiles] == [chr(65 + i) for i in range(len(tiles))]
    (path,) = write(tiles, tmp_path / "a.pdf", title=name)
    laid = []
    for i, page in enumerate(tiles):
        for piece in pdf_pieces(path, i):
            if piece.width_in == pytest.approx(0.7 / 25.4, abs=1e-4):
                laid.append(shapely.LineString([back(page, p) for p in piece.points]))
    together = shapely.union_all([line.buffer(1e-5) for line in laid])
    drawn = [
        (surface, which, tuple(back(page, p) for p in points))
        for page in tiles
        for surface, which, points in marks(page.drawing)
    ]
    whole = wrap(one, bare=True)
    shown = shapely.union_all([shapely.LineString(points).buffer(1e-6) for _, _, points in drawn])
    lengths = {}
    for surface, _, points in marks(whole):
        line = shapely.LineString(points)
        lengths[surface] = 1 - line.difference(shown).length / line.length
    # One face may stop short; everything else is there from end to end.
    assert lengths["top-edge"] == pytest.approx(1, abs=1e-5)
    faces = sorted((lengths["right-face"], lengths["left-face"]))
    assert faces[1] == pytest.approx(1, abs=1e-5)
    assert faces[0] > 0.1
    assert all(together.covers(shapely.LineString(points)) for _, _, points in drawn)
    for surface, which, points in drawn:
        for point in points:
            place = folded(surface, point, one)
            assert abs((place - one.cuts[which].point) @ one.cuts[which].normal) < 1e-9


def test_clipping_is_chosen_where_it_saves_paper():
    steep, tiles = steep_tiles()
    whole = pages(wrap(steep), LETTER, title="whole")
    assert len(tiles) < len(whole)
    tabloid = PrintSetup(read_paper("Tabloid"))
    (page,) = template_pages(JACK, tabloid)
    assert _short(page) is None
    (page,) = template_pages(JACK, tabloid, surfaces=ALL_ROUND)
    assert {s for s, _, _ in marks(page.drawing)} == {
        "right-face", "top-edge", "left-face", "bottom-edge",
    }  # fmt: skip


def test_of_several_ways_to_tile_the_one_with_the_fewest_pages_is_kept(monkeypatch):
    long = answered("common-tail-level", "foot", pitch="4", stock="2x4")
    counts = []

    def more_each_time(drawing, setup, **more):
        made = pages(drawing, setup, **more) * (1 + len(counts))
        counts.append(len(made))
        return made

    monkeypatch.setattr("figures.wrap.template.pages", more_each_time)
    made = template_pages(long, LETTER, marks="whole")
    assert len(counts) > 1
    assert counts[0] < counts[-1]
    assert len(made) == min(counts)


SAMPLE = [
    ("hip-jack", "head", "9", "2x6", "Letter"),
    ("hip-tail", "foot", "12", "2x8", "A4"),
    ("valley-tail", "foot", "6", "2x10", "Letter landscape"),
    ("common-seat", "foot", "4", "2x8", "A4"),
    ("purlin-square", "head", "16", "4x6", "Letter"),
    ("roof-board", "head", "8", "1x8", "Letter"),
    ("splayed-butt", "head", "18", "1x12", "A4"),
    ("hip-backing", "foot", "10", "2x8", "A4"),
    ("sleeper-edge", "foot", "7", "2x8", "Letter"),
    ("deck-valley-jack", "foot", "10", "2x12", "Legal"),
    ("hip-ridge", "head", "8", "2x10", "roll-24"),
    ("fascia-square", "head", "8", "1x6", "Tabloid"),
    ("rake-board", "head", "15", "4x8", "A4"),
]


@pytest.mark.parametrize(("name", "end", "pitch", "stock", "paper"), part_of(SAMPLE, 5))
def test_nothing_overlaps_and_nothing_leaves_the_page(name, end, pitch, stock, paper):
    for page in template_pages(
        answered(name, end, Hand.RIGHT, pitch, stock), PrintSetup(read_paper(paper))
    ):
        drawn = furnished(page)
        own = [label for label in drawn.labels if label.gid not in (None, "seam-words")]
        assert own or page.letter
        assert collisions(drawn) == (), page.letter
        m = page.margin_in - 1e-6
        inside = shapely.box(m, m, page.size_in[0] - m, page.size_in[1] - m)
        assert all(inside.covers(label_box(label)) for label in drawn.labels)
        assert all(inside.covers(shapely.LineString(s.points)) for s in drawn.strokes)
        heavy = [s for s in drawn.strokes if s.pen in MARKS]
        assert heavy or page.letter or not page.drawing


@cache
def hip_pages(again):
    """A hip's template, laid out anew for each number."""
    return template_pages(answered("hip-ridge", "head"), LETTER)


@pytest.mark.parametrize("suffix", ["pdf", "svg"])
def test_the_same_template_gives_the_same_bytes(tmp_path, suffix):
    files = []
    for again in (0, 1):
        paths = write(hip_pages(again), tmp_path / f"{again}.{suffix}", title="Hip")
        files.append([path.read_bytes() for path in paths])
    assert files[0] == files[1]


@pytest.mark.parametrize("scale", part_of(["half", "quarter", "1 1/2 in = 1 ft", "1:10"], 2))
def test_a_study_view_is_drawn_to_scale_and_says_so(tmp_path, scale):
    setup = PrintSetup(read_paper("Letter"), read_scale(scale))
    (page,) = template_pages(JACK, setup)
    factor = setup.scale.factor
    found = {s: p for s, _, p in marks(page.drawing)}
    for surface, _, points in marks(wrap(JACK, bare=True)):
        (ax, av), (bx, bv) = points
        drawn = sorted(back(page, p) for p in found[surface])
        way = np.array(drawn[1]) - drawn[0]
        assert way == pytest.approx(np.array([bx - ax, bv - av]) * factor, abs=1e-9)
    (path,) = write([page], tmp_path / "a.pdf", title="Study")
    text = pdf_text(path)
    assert "not for cutting from" in text
    assert "FULL SIZE" not in text
    assert collisions(furnished(page)) == ()
    assert "Study view" in page.description


@pytest.mark.parametrize("paper", ["Letter", "Tabloid"])
def test_the_warning_is_never_smaller_than_the_notes_beside_it(paper):
    (page,) = template_pages(answered("common-ridge", "head"), PrintSetup(read_paper(paper)))
    stands = page.beside if any(_is_warning(one) for one in page.beside.labels) else page.drawing
    (warning,) = filter(_is_warning, stands.labels)
    notes = [one.size_pt for one in page.beside.labels if one.gid == "block"]
    assert notes
    assert warning.size_pt >= max(notes)


def _is_warning(label):
    return label.text == "WARNING"


def test_the_sheet_is_told_in_words():
    setup = PrintSetup(read_paper("Legal"))
    (page,) = template_pages(answered("hip-jack", "head", pitch="12"), setup)
    for words in (
        "hip-jack, left hand, head",
        "12 in 12 (45°)",
        "Face mark 45° from square across, top toward the head",
        "Side-cut number 8.485",
        "Saw tilt 45°",
    ):
        assert words in page.description
    assert page.given == "12 in 12 (45°); corner 90°; board 2x6 (1 1/2 x 5 1/2 in)"


def test_what_the_paper_cannot_carry_is_refused():
    wide = answered("hip-jack", "head", stock="23in x 24in")
    with pytest.raises(SheetError, match=r"roll-24 is 24 in wide and the drawing"):
        template_pages(wide, PrintSetup(read_paper("roll-24")))
    flat = answered("common-tail-level", "foot", pitch="0.1", stock="2x12")
    with pytest.raises(SheetError, match="use larger paper, a roll, or a smaller scale"):
        template_pages(flat, LETTER, marks="whole")
    tiny = PrintSetup(read_paper("Letter"), read_scale("1:200"))
    with pytest.raises(SheetError, match="nothing to see"):
        template_pages(JACK, tiny)
    with pytest.raises(SheetError, match="leaves no room for a drawing"):
        template_pages(JACK, PrintSetup(read_paper("4x4")))


def test_every_page_of_a_set_has_the_cautions_and_its_place():
    _, tiles = steep_tiles()
    for page, number in zip(tiles, itertools.count(1), strict=False):
        text = " ".join(label.text.replace("\n", " ") for label in furnished(page).labels)
        assert "WARNING" in text
        assert f"page {number} of {len(tiles)}" in text
        assert page.place.startswith("row ")
