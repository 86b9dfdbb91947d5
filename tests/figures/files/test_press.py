"""Files, measured from the files: page boxes, check bars, marks, words, and how they are put."""

import itertools
import os
import xml.etree.ElementTree as ET
from dataclasses import replace

import pypdf
import pypdfium2
import pytest
import shapely

from figures.files.binding import Bookmark
from figures.files.press import png, svg_text, write
from figures.ink.correction import Correction
from figures.ink.drawing import Area, Drawing, Label, Stroke, collisions, label_box
from figures.ink.lettering import fraction_text
from figures.ink.paper import read_paper
from figures.ink.scale import FULL_SIZE, read_scale
from figures.page.sheet import Page, clear_field, furnished
from figures.place.dimension import dimension
from layout.errors import SheetError
from tests.counts import part_of
from tests.measure import SVG, pdf_pieces, pdf_sizes, pdf_text, pdf_word_box, svg_piece

CUT = Stroke(((1.0, 0.5), (3.0, 4.0)), "cut", "plumb-cut")
DRAWING = Drawing(
    (
        Stroke(((0, 0), (4, 0), (4, 4), (0, 4), (0, 0)), "visible", "outline"),
        Stroke(((0, 1.5), (4, 1.5)), "fold", "arris"),
        CUT,
    ),
    (Area(shapely.box(3, 2, 4, 4), "waste"),),
    (Label("plumb cut 8 in 12", 0.2, 3.2, gid="words"), Label("WASTE", 3.1, 3.5, halo=True)),
) + dimension((0, 0), (4, 0), "4 5/16", -0.375)
CORRECTIONS = (Correction(), Correction(1.0125, 0.9875), Correction(0.98, 1.02))
NAMES = ("Letter", "Letter landscape", "A4", "A4 landscape", "Legal", "Tabloid", "A3", "17x22")


def page_on(name, **more):
    blank = Page(read_paper(name), Drawing(), "Hip jack, head", "8 in 12, 2x6", **more)
    left, bottom, _, _ = clear_field(blank)
    shift = left + 0.2, bottom + 0.6
    return Page(
        blank.paper,
        DRAWING.moved(*shift),
        blank.title,
        blank.given,
        **({"square_at": (left + 4.8, bottom)} | more),
    ), shift


def bars(pieces, gid_length, width_mm=0.25):
    """Lengths of the level and upright lines that are about as long as a bar."""
    found = []
    for piece in pieces:
        (x0, y0), *_, (x1, y1) = piece.points
        if len(piece.points) == 2 and abs(piece.length_in - gid_length) < 0.35:
            found.append((abs(x1 - x0), abs(y1 - y0)))
    return found


@pytest.mark.parametrize(
    ("correction", "name"),
    [(one, name) for at, one in enumerate(CORRECTIONS) for name in part_of(NAMES, 3, at)],
    ids=str,
)
def test_page_box_and_bars_from_the_file(tmp_path, name, correction):
    """The page is the paper, and a bar times the printer's error is 6 or 8 in."""
    page, _ = page_on(name, correction=correction)
    (path,) = write([page], tmp_path / "a.pdf", title="Hip jack")
    paper = read_paper(name)
    ((width, height),) = pdf_sizes(path)
    assert (width, height) == pytest.approx((paper.width_in * 72, paper.height_in * 72), abs=5e-4)
    pieces = [piece for piece in pdf_pieces(path) if piece.width_in < 0.011]
    for length, factor, level in (
        (6.0, correction.across, paper.across_x),
        (8.0, correction.along, not paper.across_x),
    ):
        spans = [span[0] if level else span[1] for span in bars(pieces, length)]
        assert any(abs(span / factor - length) < 5e-4 for span in spans), (length, spans)


@pytest.mark.parametrize("correction", CORRECTIONS, ids=str)
def test_small_square_and_its_centimetres(tmp_path, correction):
    page, _ = page_on("Letter", correction=correction)
    write([page], tmp_path / "a.svg", title="Hip jack")
    root = ET.parse(tmp_path / "a.svg").getroot()
    across, along = correction.across, correction.along
    ((a, b, c, d, e),) = svg_piece(root, "check-square")
    assert (b[0] - a[0]) / across == pytest.approx(2, abs=5e-4)
    assert (d[1] - a[1]) / along == pytest.approx(2, abs=5e-4)
    assert a == pytest.approx(e)
    assert (c[0] - d[0]) / across == pytest.approx(2, abs=5e-4)
    ((tick, _),) = svg_piece(root, "check-square-x-cm")
    assert (tick[0] - a[0]) / across * 2.54 == pytest.approx(5, abs=1e-3)
    ((_, tick),) = svg_piece(root, "check-square-y-cm")
    assert (tick[1] - a[1]) / along * 2.54 == pytest.approx(5, abs=1e-3)
    for way, centimetres, factor in (("across", 15, across), ("along", 20, along)):
        axis = 0 if way == "across" else 1
        ((start, _),) = svg_piece(root, f"check-bar-{way}")
        ((tick, _),) = svg_piece(root, f"check-bar-{way}-cm")
        assert (tick[axis] - start[axis]) / factor * 2.54 == pytest.approx(centimetres, abs=1e-3)


def test_marks_in_pdf_and_svg_are_where_they_were_put(tmp_path):
    page, (dx, dy) = page_on("A4")
    write([page], tmp_path / "a.pdf", title="Hip jack")
    wanted = [(x + dx, y + dy) for x, y in CUT.points]
    heavy = [piece for piece in pdf_pieces(tmp_path / "a.pdf") if piece.width_in > 0.6 / 25.4]
    assert len(heavy) == 1
    assert heavy[0].width_in == pytest.approx(0.7 / 25.4, abs=1e-5)
    assert heavy[0].colour == (0, 0, 0)
    assert heavy[0].butt_ends
    for got, want in zip(heavy[0].points, wanted, strict=True):
        assert got == pytest.approx(want, abs=2e-6)
    write([page], tmp_path / "a.svg", title="Hip jack")
    root = ET.parse(tmp_path / "a.svg").getroot()
    (line,) = svg_piece(root, "plumb-cut")
    for got, want in zip(line, wanted, strict=True):
        assert got == pytest.approx(want, abs=2e-6)
    assert len(svg_piece(root, "arris")) > 10


def test_svg_canvas_is_whole_pixels_and_says_what_it_is(tmp_path):
    page, _ = page_on("A4", description="A plumb cut & its <waste> side.")
    write([page], tmp_path / "a.svg", title="Hip jack")
    root = ET.parse(tmp_path / "a.svg").getroot()
    width, height = (float(root.attrib[k].removesuffix("pt")) for k in ("width", "height"))
    assert (width * 96 / 72) % 1 == pytest.approx(0, abs=1e-4)
    assert (height * 96 / 72) % 1 == pytest.approx(0, abs=1e-4)
    assert 0 <= 210 / 25.4 * 72 - width < 0.75
    assert root.attrib["role"] == "img"
    assert root[0].tag == f"{SVG}title"
    assert root[0].text == "Hip jack, head, 8 in 12, 2x6"
    assert root[1].tag == f"{SVG}desc"
    assert root[1].text == "A plumb cut & its <waste> side."
    assert root[2].text == "@page{size:210mm 297mm;margin:0}"
    comments = (tmp_path / "a.svg").read_text()
    assert "study view, check the bars" in comments
    assert "FULL SIZE" not in comments


def test_svg_for_html_has_ids_of_its_own():
    page, _ = page_on("Letter")
    text = svg_text(page, id_prefix="p1-")
    root = ET.fromstring(text)
    ids = [each.get("id") for each in root.iter() if each.get("id")]
    assert len(set(ids)) == len(ids)
    assert all(each.startswith("p1-") for each in ids)
    assert {"p1-plumb-cut", "p1-outline", "p1-check-bar-across"} <= set(ids)
    links = [each.get("{http://www.w3.org/1999/xlink}href") for each in root.iter(f"{SVG}use")]
    assert links
    assert {link[1:] for link in links} <= set(ids)
    assert "@page" not in text
    assert not text.startswith("<?xml")


def test_only_the_pdf_says_full_size_and_its_words_can_be_searched(tmp_path):
    page, _ = page_on("Letter", correction=CORRECTIONS[1], version="square-and-saw 0.1.0")
    (path,) = write([page], tmp_path / "a.pdf", title="Hip jack")
    text = " ".join(pdf_text(path).split())
    for words in (
        "FULL SIZE",
        "Hip jack, head",
        "plumb cut 8 in 12",
        "page 1 of 1, square-and-saw 0.1.0",
        "WARNING",
        "NOTICE",
        "Print at 100 %, actual size. Do not fit.",
        "ACROSS: measure 6 in above, 15 cm below.",
        "ALONG: measure 8 in above, 20 cm below.",
        "Printer correction: across × 1.0125, along × 0.9875",
        "licensed professional",
    ):
        assert words in text, words
    assert fraction_text("4 5/16").replace("\u00a0", " ") in text


def test_a_study_sheet_says_its_scale_and_never_full_size(tmp_path):
    page, _ = page_on("Letter", scale=read_scale("1 1/2 in = 1 ft"), square_at=None)
    (path,) = write([page], tmp_path / "a.pdf", title="Hip jack")
    text = " ".join(pdf_text(path).split())
    assert fraction_text('1 1/2" = 1\'-0"').replace("\u00a0", " ") in text
    assert "not for cutting from" in text
    assert "FULL SIZE" not in text


def test_a_text_page_has_no_bars_keeps_the_cautions_and_says_it_is_not_to_scale(tmp_path):
    blank = Page(read_paper("Letter"), Drawing(), "Lesson 1: Hip jack", "8 in 12", scale=None)
    full, half = (replace(blank, scale=scale) for scale in (FULL_SIZE, read_scale("half")))

    def area(page):
        left, bottom, right, top = clear_field(page)
        return (right - left) * (top - bottom)

    assert area(blank) > area(half) > area(full)
    assert clear_field(blank)[0] == blank.margin_in
    left, _, _, top = clear_field(blank)
    words = Drawing(labels=(Label("Set the square.", left, top, va="top"),))
    page = replace(blank, drawing=words)
    drawn = furnished(page)
    assert not [stroke for stroke in drawn.strokes if stroke.pen == "bar"]
    write([page], tmp_path / "a.pdf", title="Lesson")
    text = " ".join(pdf_text(tmp_path / "a.pdf").split())
    assert "Pictures are not to scale unless a scale is named." in text
    assert "WARNING" in text
    assert "licensed professional" in text
    assert not any(words in text for words in ("FULL SIZE", "ACROSS", "check the bars"))
    assert "not to scale unless" in svg_text(page).split("</desc>")[0]
    boxes = [label_box(label) for label in drawn.labels]
    paper = shapely.box(0.5, 0.5, 8, 10.5)
    assert all(paper.buffer(1e-6).covers(box) for box in boxes)
    assert not collisions(drawn)


@pytest.mark.parametrize("words", ["plumb cut 8 in 12", "WASTE", "Hip jack, head"])
def test_label_boxes_hold_the_ink_in_the_file(tmp_path, words):
    """pdfium's own glyph boxes lie inside the box that we keep clear, and fill its width."""
    page, _ = page_on("Letter")
    (path,) = write([page], tmp_path / "a.pdf", title="Hip jack")
    ink = pdf_word_box(path, words)
    label = next(each for each in furnished(page).labels if each.text == words)
    box = label_box(label).bounds
    assert box[0] - 1e-3 <= ink[0] < box[0] + 0.03
    assert box[2] + 1e-3 >= ink[2] > box[2] - 0.03
    assert box[1] - 1e-3 <= ink[1]
    assert ink[3] <= box[3] + 1e-3


def test_viewers_are_told_not_to_scale(tmp_path):
    pages = [page_on("Letter")[0], page_on("A4")[0]]
    (path,) = write(
        pages,
        tmp_path / "a.pdf",
        title="Jacks",
        subject="Templates",
        bookmarks=[Bookmark("Head", 0), Bookmark("Foot", 1)],
        page_labels=["A", "B"],
    )
    book = pypdf.PdfReader(path)
    assert book.viewer_preferences.print_scaling == "/None"
    assert (book.metadata.title, book.metadata.subject) == ("Jacks", "Templates")
    assert book.metadata.creator == "square-and-saw"
    assert [item.title for item in book.outline] == ["Head", "Foot"]
    assert [book.get_destination_page_number(item) for item in book.outline] == [0, 1]
    assert book.page_labels == ["A", "B"]
    for page in book.pages:
        assert page.rotation == 0
        assert page.cropbox == page.mediabox


@pytest.mark.parametrize("suffix", ["pdf", "svg"])
def test_same_pages_same_bytes_whatever_the_user_has_set(tmp_path, suffix):
    import matplotlib

    page, _ = page_on("Letter")
    left, bottom, _, top = clear_field(page)
    page = replace(page, window=(left, bottom, left + 0.7, top))  # cuts a word: a hashed id
    (first,) = write([page], tmp_path / f"a.{suffix}", title="Hip jack")
    assert b"CreationDate" not in first.read_bytes()
    unkind = {
        "savefig.bbox": "tight",
        "figure.dpi": 33,
        "path.simplify": True,
        "pdf.compression": 0,
        "svg.fonttype": "none",
        "figure.constrained_layout.use": True,
        "path.sketch": (4, 90, 2),
        "svg.hashsalt": None,
        "svg.id": "mine",
    }
    with matplotlib.rc_context(unkind):
        (second,) = write([page], tmp_path / f"b.{suffix}", title="Hip jack")
        assert matplotlib.rcParams["figure.dpi"] == 33
    assert first.read_bytes() == second.read_bytes()


def test_heavy_lines_survive_a_black_and_white_print(tmp_path):
    """At 300 dpi in 1 bit every tenth of an inch of the cut and of each dash is black."""
    page, (dx, dy) = page_on("Letter")
    (path,) = write([page], tmp_path / "a.pdf", title="Hip jack")
    bitmap = pypdfium2.PdfDocument(path)[0].render(scale=300 / 72).to_pil().convert("1", dither=0)
    height = bitmap.height
    for share in range(1, 35):
        x, y = (a + (b - a) * share / 35 for a, b in zip(*CUT.points, strict=True))
        assert bitmap.getpixel((int((x + dx) * 300), height - 1 - int((y + dy) * 300))) == 0
    row = height - 1 - int((1.5 + dy) * 300)
    ink = [bitmap.getpixel((int((x / 100 + dx) * 300), row)) == 0 for x in range(2, 398)]
    assert 0.7 < sum(ink) / len(ink) < 0.9
    runs = [len(list(group)) for black, group in itertools.groupby(ink) if not black]
    assert len(runs) > 10


def test_several_pages_as_svg_are_numbered(tmp_path):
    pages = [page_on("Letter")[0], page_on("A4")[0]]
    files = write(pages, tmp_path / "jack.svg", title="Jacks")
    assert [each.name for each in files] == ["jack-1.svg", "jack-2.svg"]
    assert sorted(each.name for each in tmp_path.iterdir()) == ["jack-1.svg", "jack-2.svg"]


def test_a_picture_to_look_at(tmp_path):
    page, _ = page_on("Letter")
    path = png(page, tmp_path / "a.png", dpi=50)
    assert path.read_bytes()[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = (int.from_bytes(path.read_bytes()[16 + i : 20 + i]) for i in (0, 4))
    assert (width, height) == (425, 550)


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("a.docx", r"must end in \.pdf or \.svg"),
        ("a", r"must end in \.pdf or \.svg"),
        ("no/such/a.pdf", "there is no folder"),
        ("folder.pdf", "it is a folder"),
    ],
)
def test_places_that_cannot_be_written(tmp_path, name, message):
    (tmp_path / "folder.pdf").mkdir()
    page, _ = page_on("Letter")
    with pytest.raises(SheetError, match=message) as refusal:
        write([page], tmp_path / name, title="Hip jack")
    assert "\n" not in str(refusal.value)
    assert [each.name for each in tmp_path.iterdir()] == ["folder.pdf"]


def test_no_page_is_no_file(tmp_path):
    with pytest.raises(SheetError, match="no page"):
        write([], tmp_path / "a.pdf", title="Hip jack")


@pytest.mark.parametrize("broken", ["replace", "fdopen"])
def test_a_file_that_cannot_be_finished_leaves_the_old_one(tmp_path, monkeypatch, broken):
    page, _ = page_on("Letter")
    target = tmp_path / "a.pdf"
    target.write_text("what was here before")

    def full(*_args, **_more):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, broken, full)
    with pytest.raises(SheetError, match=r"a\.pdf': No space left on device"):
        write([page], target, title="Hip jack")
    assert target.read_text() == "what was here before"
    assert list(tmp_path.iterdir()) == [target]


def test_a_roll_is_cut_before_it_is_a_page():
    with pytest.raises(SheetError, match="must be cut to a length"):
        Page(read_paper("roll-24"), DRAWING, "Hip jack", scale=FULL_SIZE)
