"""`squaresaw template`: sheets measured from their files, printers kept, and bad input."""

import contextlib
import os
import re
import sqlite3

import pypdf
import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from lessons.cli.main import run
from lessons.cli.replacing import _is_alike
from tests.counts import count
from tests.measure import pdf_pieces, pdf_sizes, pdf_text


@pytest.fixture(autouse=True)
def own_data_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "data"))


def made(capsys, tmp_path, *arguments: str, name: str = "sheet.pdf"):
    path = tmp_path / name
    assert run(["template", *arguments, "-o", str(path)]) == 0
    assert str(path) in capsys.readouterr().out
    return path


def lengths_pt(path, width_mm: float) -> list[float]:
    return [
        ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 * 72
        for (x0, y0), (x1, y1) in (
            piece.points
            for piece in pdf_pieces(path)
            if piece.width_in == pytest.approx(width_mm / 25.4, abs=1e-4) and len(piece.points) == 2
        )
    ]


@pytest.mark.parametrize(("paper", "size"), [("Letter", (612, 792)), ("A4", (595.276, 841.890))])
def test_the_page_is_the_paper_and_viewers_may_not_scale_it(capsys, tmp_path, paper, size):
    sheet = made(capsys, tmp_path, "hip-jack", "--paper", paper)
    assert sorted(pdf_sizes(sheet)[0]) == pytest.approx(size, abs=0.01)
    preferences = pypdf.PdfReader(sheet).root_object["/ViewerPreferences"]
    assert preferences["/PrintScaling"] == "/None"
    text = pdf_text(sheet)
    for words in ("FULL SIZE", "WASTE", "FOLD", "WARNING", "hip-jack, left hand, head"):
        assert words in text


def test_the_face_mark_is_as_long_as_the_board_says(capsys, tmp_path):
    true_answer = answer(ask("hip-jack"))
    depth, runs = true_answer.question.stock.depth_in, true_answer.runs_down_face_in
    sheet = made(capsys, tmp_path, "hip-jack")
    # The 0.7 mm line is the line to cut; the face's is the longest.
    wanted = (depth**2 + runs**2) ** 0.5 * 72
    assert max(lengths_pt(sheet, 0.7)) == pytest.approx(wanted, abs=0.001 * 72)


def factors(tmp_path, printer):
    """The two factors kept for a printer, read from its file by the standard library alone."""
    with contextlib.closing(sqlite3.connect(tmp_path / "data" / "printers.sqlite")) as kept:
        rows = kept.execute("SELECT across, along FROM printer WHERE name = ?", [printer])
        return list(rows.fetchone())


def test_a_printers_correction_is_measured_kept_and_used(capsys, tmp_path):
    plain = made(capsys, tmp_path, "hip-jack").read_bytes()
    first = ("--printed-square", "5 31/32 x 8", "--printer", "yard office")
    corrected = made(capsys, tmp_path, "hip-jack", *first, name="corrected.pdf")
    again = made(capsys, tmp_path, "hip-jack", "--printer", "yard office", name="again.pdf")
    assert corrected.read_bytes() == again.read_bytes()
    assert corrected.read_bytes() != plain
    assert factors(tmp_path, "yard office") == pytest.approx([6 / (5 + 31 / 32), 1.0], abs=1e-12)
    # Measured on a corrected sheet, a new correction goes upon the old one.
    made(capsys, tmp_path, "hip-jack", "--printed-bars", "6 x 7 31/32", "--printer", "yard office")
    assert factors(tmp_path, "yard office") == pytest.approx(
        [6 / (5 + 31 / 32), 8 / (7 + 31 / 32)], abs=1e-12
    )
    metric = made(capsys, tmp_path, "hip-jack", "--printed-bars", "150 x 200mm", name="metric.pdf")
    assert metric.read_bytes() == plain


def test_svg_and_study_scales_never_say_full_size(capsys, tmp_path):
    svg = made(capsys, tmp_path, "hip-jack", name="sheet.svg").read_text()
    assert "FULL SIZE" not in svg
    assert "@page" in svg
    study = made(capsys, tmp_path, "hip-jack", "--scale", "half")
    assert "FULL SIZE" not in pdf_text(study)
    assert "not for cutting from" in pdf_text(study)


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["hip-jack", "--pitch", "abc", "-o", "x.pdf"], "is not a pitch"),
        (["hip-jack", "-o", "x.txt"], ".pdf or .svg"),
        (["hip-jack", "-o", "."], "must end in .pdf or .svg"),
        (["hip-jack", "-o", "nowhere/x.pdf"], "no folder"),
        (["hip-jack", "-o", "x.pdf", "--margin", "5"], "margin"),
        (["hip-jack", "-o", "x.pdf", "--overlap", "9"], "overlap"),
        (["hip-jack", "-o", "x.pdf", "--paper", "stone"], "paper"),
        (["hip-jack", "-o", "x.pdf", "--paper", "3x4"], "each side must be"),
        (["hip-jack", "-o", "x.pdf", "--scale", "1:500"], "nothing to see"),
        (["hip-jack", "-o", "x.pdf", "--printed-bars", "6"], "ACROSS x ALONG"),
        (["hip-jack", "-o", "x.pdf", "--printed-bars", "5 x 8"], "the print dialog is wrong"),
        (["hip-jack", "-o", "x.pdf", "--printer", "nobody"], "no correction is kept"),
        (["hip-jack"], "-o"),
        (["hip-jak", "-o", "x.pdf"], "did you mean hip-jack"),
    ],
)
def test_bad_input_is_one_line_and_leaves_no_file(
    capsys, tmp_path, monkeypatch, arguments, expected
):
    monkeypatch.chdir(tmp_path)
    assert run(["template", *arguments]) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert expected in error
    assert error.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_a_folder_and_a_folder_that_cannot_be_written(capsys, tmp_path):
    folder = tmp_path / "folder.pdf"
    folder.mkdir()
    assert run(["template", "hip-jack", "-o", str(folder)]) == 2
    assert "it is a folder" in capsys.readouterr().err
    if os.geteuid() == 0:
        pytest.skip("root may write anywhere")
    folder.chmod(0o500)
    assert run(["template", "hip-jack", "-o", str(folder / "x.pdf")]) == 2
    assert "cannot write" in capsys.readouterr().err


def test_a_file_of_another_kind_is_not_written_over(capsys, tmp_path):
    sheet = tmp_path / "sheet.pdf"
    sheet.write_text("a letter to the mill")
    assert run(["template", "hip-jack", "-o", str(sheet)]) == 2
    assert "--force" in capsys.readouterr().err
    assert sheet.read_text() == "a letter to the mill"
    assert run(["template", "hip-jack", "--force", "-o", str(sheet)]) == 0
    assert f"replaced {sheet}" in capsys.readouterr().out
    # Packed bytes may look like a mark of punctuation in octal, and be none.
    with sheet.open("ab") as file:
        file.write(b"%\\860\\377\n")
    assert run(["template", "common-ridge", "-o", str(sheet)]) == 0
    assert f"replaced {sheet}" in capsys.readouterr().out


def test_a_long_book_is_known_by_what_stands_before_its_bookmarks(tmp_path):
    """In a course of 150 pages that stood 75 KB before the end, and its own book was refused."""
    book = tmp_path / "book.pdf"
    pages, bookmarks = b"1 0 obj\n<< >>\nendobj\n" * 50_000, b"2 0 obj\n<< >>\nendobj\n" * 5_000
    for creator, ours in ((b"square-and-saw", True), (b"a letter to the mill", False)):
        book.write_bytes(b"%PDF-1.6\n" + pages + b"<< /Creator (" + creator + b") >>\n" + bookmarks)
        assert _is_alike(book, "") == ours


def test_it_says_how_many_pages_before_it_writes_and_what_takes_fewer(capsys, tmp_path):
    path = tmp_path / "a.pdf"
    long = ["template", "common-tail-level", "--pitch", "5", "--stock", "2x4", "-o", str(path)]
    assert run([*long, "--marks", "whole"]) == 0
    said = capsys.readouterr().out.splitlines()
    assert len(pdf_sizes(path)) == int(said[0].split()[0]) > 1
    assert "larger paper takes: " in said[0]
    fewer = int(re.search(r"; with --marks ends: (\d+) page", said[0])[1])
    assert run([*long, "--marks", "ends"]) == 0
    assert len(pdf_sizes(path)) == fewer < int(said[0].split()[0])
    assert f"replaced {path}" in capsys.readouterr().out
    assert "%PDF-1.6" in path.read_bytes()[:9].decode()
    assert run(long) == 0
    chosen = capsys.readouterr().out.splitlines()[0]
    assert chosen.startswith(f"{fewer} page of Letter: both ends of each mark")
    assert "; with --marks whole: " in chosen


@pytest.mark.parametrize(
    ("cut", "board"),
    [("splayed-butt", "38mm x 140mm"), ("roof-board", "1x12")][: count(2, 1)],
    ids=str,
)
def test_what_the_other_marks_or_paper_are_said_to_take_is_what_they_take(
    capsys, tmp_path, cut, board
):
    """The lines alone would lie on one sheet less: the notes beside them ask for the last one."""
    path = tmp_path / "a.pdf"
    one = ["template", cut, "--pitch", "8", "--stock", board, "-o", str(path)]
    assert run(one) == 0
    whole = int(re.search(r"with --marks whole: (\d+) pages", capsys.readouterr().out)[1])
    assert run([*one, "--marks", "whole"]) == 0
    offered = dict(re.findall(r"(Tabloid|A3) (\d+)", capsys.readouterr().out))
    assert len(pdf_sizes(path)) == whole
    for paper, pages in offered.items():
        assert run([*one, "--marks", "whole", "--paper", paper]) == 0
        assert len(pdf_sizes(path)) == int(pages) < whole


@pytest.mark.parametrize("name", ["common-seat", "common-heel"])
def test_a_notch_wraps_all_round(capsys, tmp_path, name):
    made(capsys, tmp_path, name, "--all-round", "--paper", "Tabloid")


def test_a_sheet_that_fails_leaves_the_old_one_whole(capsys, tmp_path):
    sheet = made(capsys, tmp_path, "hip-jack")
    before = sheet.read_bytes()
    assert run(["template", "hip-jack", "--scale", "1:500", "-o", str(sheet)]) == 2
    assert sheet.read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.pdf"]


def test_hand_end_scale_and_surfaces_reach_the_sheet(capsys, tmp_path):
    text = made(
        capsys, tmp_path, "cripple-jack", "--end", "foot", "--hand", "right",
        "--scale", "half", "--all-round", "--paper", "A3", name="a.svg",
    ).read_text()  # fmt: skip
    assert "cripple-jack, right hand, foot" in text
    assert "Study view" in text
    assert 'id="mark-bottom-edge"' in text
    wide = ("--paper", "Tabloid")
    backed = made(capsys, tmp_path, "hip-ridge", "--backed", *wide, name="b.svg").read_text()
    assert 'id="mark-left-bevel"' in backed
    assert 'id="mark-top-edge"' not in backed


def test_several_pages_go_to_files_of_their_own_or_to_one_pdf(capsys, tmp_path):
    steep = ("template", "common-tail-level", "--pitch", "3", "--stock", "2x4", "-o")
    assert run([*steep, str(tmp_path / "a.svg")]) == 0
    single = sorted(path.name for path in tmp_path.glob("a-*.svg"))
    assert len(single) > 1
    assert run([*steep, str(tmp_path / "a.pdf")]) == 0
    assert len(pdf_sizes(tmp_path / "a.pdf")) == len(single)


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["hip-jack", "--stock", "9x9x9"], "is not a board"),
        (["hip-jack", "--paper", "4x4"], "no room for a drawing"),
        (["hip-jack", "--margin", "wide"], "is not a length"),
        (["hip-jack", "--scale", "huge"], "no scale is called"),
        (["hip-jack", "--backed"], "stands on no backed edge"),
        (["hip-jack", "--printed-bars", "0 x 8"], "cannot measure 0"),
        (["hip-jack", "--stock", "20in x 24in", "--paper", "roll-24"], "roll-24 is 24 in wide"),
    ],
)
def test_what_no_sheet_can_carry_is_one_line_and_leaves_no_file(
    capsys, tmp_path, arguments, expected
):
    assert run(["template", *arguments, "-o", str(tmp_path / "x.pdf")]) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert expected in error
    assert error.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_refuses_the_file(capsys, tmp_path, monkeypatch):
    def no(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("figures.files.whole.tempfile.mkstemp", no)
    assert run(["template", "hip-jack", "-o", str(tmp_path / "a.pdf")]) == 2
    assert "Permission denied" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_makes_no_file_is_named_with_what_would_be_right(
    capsys, tmp_path, monkeypatch
):
    """As /proc does: it is there and may be written to, and no file can be made in it."""

    def no(*_, **__):
        raise FileNotFoundError(2, "No such file or directory")

    monkeypatch.setattr("figures.files.whole.tempfile.mkstemp", no)
    assert run(["template", "hip-jack", "-o", str(tmp_path / "a.pdf")]) == 2
    error = capsys.readouterr().err
    assert "no file can be made in that folder; name another folder" in error
    assert error.count("\n") == 1


def test_kept_corrections_that_cannot_be_read(capsys, tmp_path):
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "printers.sqlite").write_text("{" * 5000)
    sheet = tmp_path / "a.pdf"
    assert run(["template", "hip-jack", "--printer", "shop", "-o", str(sheet)]) == 2
    assert "it is no database of this program" in capsys.readouterr().err
    assert not sheet.exists()
