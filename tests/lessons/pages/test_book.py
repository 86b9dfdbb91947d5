"""A book of lessons as its reader finds it: contents, bookmarks, labels, links, true templates."""

import os
import pty
import re
import subprocess
import sys

import pypdf
import pypdfium2
import pytest

from figures.files.press import write
from figures.ink.paper import read_paper
from figures.page.sheet import TEXT_FOOT
from figures.page.tiling import PrintSetup
from figures.wrap.template import template_pages
from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.course.runner import run as work
from lessons.pages.book import BOOK_TITLE, SHEETS_PART, bind
from tests.measure import pdf_pieces, pdf_text, pdf_word_box
from tests.small_lessons import NAMES, small_catalog

FRONT = 2
"""The title page and the contents."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return small_catalog(tmp_path_factory.mktemp("book"))


def made(folder, name, *arguments, lessons=NAMES, command="book"):
    path = folder / name
    asked = [command, *lessons, "--catalog", str(folder), "-o", str(path), *arguments]
    assert run(asked) == 0
    return path


@pytest.fixture(scope="module")
def book(folder):
    return made(folder, "book.pdf")


def toc(path):
    with pypdfium2.PdfDocument(path) as document:
        return [
            (mark.level, mark.get_title(), mark.get_dest().get_index())
            for mark in document.get_toc()
        ]


def pages(path):
    with pypdfium2.PdfDocument(path) as document:
        return len(document)


def test_bookmarks_lead_to_lessons_and_their_parts(book):
    marks = toc(book)
    assert marks[:2] == [(0, BOOK_TITLE, 0), (0, "Contents", 1)]
    chapters = [mark for mark in marks[2:] if mark[0] == 0]
    assert [title for _, title, _ in chapters] == [
        "101. A cheek for the yard",
        "102. A plumb cut for the yard",
        "The same steps, left open",
        "Hints, one at a time",
        "Words",
        SHEETS_PART,
    ]
    parts = [title for level, title, _ in marks if level == 1]
    for part in ("The situation", "By handsaw", "By saw", "Drills"):
        assert parts.count(part) == 2, part
    assert "Answers" not in parts, "the apprentice's book has none"
    assert [part[:2] for part in parts if re.match(r"[TB]\d", part)] == ["T1", "T2", "B1"]
    for _, title, page in marks[1:]:
        if title != SHEETS_PART and not re.match(r"[TB]\d", title):
            assert title in " ".join(pdf_text(book, page).split())


def test_every_page_is_called_by_the_number_printed_on_it(book):
    count = pages(book)
    labels = pypdf.PdfReader(book).page_labels
    for index in range(count):
        assert f"page {index + 1} of {count}" in pdf_text(book, index)
        assert labels[index] == str(index + 1)


def test_contents_name_the_pages_where_lessons_begin(book):
    contents = pdf_text(book, 1)
    for _, title, page in toc(book)[2:]:
        if re.match(r"\d+\. ", title):
            line = next(line for line in contents.splitlines() if line.startswith(title))
            assert line.split()[-1] == str(page + 1)
    told = " ".join(contents.split())
    for sheet in ("T1 hip-jack, head, left-hand; lesson 101", "T2 common-ridge", "B1 bare board"):
        assert sheet in told


def test_the_lines_of_the_contents_are_links(book):
    reader = pypdf.PdfReader(book)
    links = [each.get_object() for each in reader.pages[1]["/Annots"]]
    targets = [reader.get_page_number(link["/Dest"][0].get_object()) for link in links]
    marks = toc(book)
    wanted = [
        page
        for level, title, page in marks[2:]
        if (level == 0 and title != SHEETS_PART) or re.match(r"[TB]\d", title)
    ]
    assert sorted(targets) == sorted(wanted)
    left, bottom, right, top = pdf_word_box(book, "101. A cheek", 1)
    rects = [[float(side) / 72 for side in link["/Rect"]] for link in links]
    assert any(r[0] <= left and r[1] <= bottom and r[2] >= right and r[3] >= top for r in rects)


def full_size(path):
    return [i for i in range(pages(path)) if "FULL SIZE" in pdf_text(path, i)]


def test_templates_are_bound_in_true_to_scale(book):
    found = full_size(book)
    marked = [page for _, title, page in toc(book) if re.match(r"[TB]\d", title)]
    assert set(marked) <= set(found), "what stands beside a board may take a page of its own"
    for index in marked:
        lengths = [piece.length_in for piece in pdf_pieces(book, index)]
        for wanted in (6.0, 8.0):
            assert min(abs(length - wanted) for length in lengths) < 1e-4, (index, wanted)
        assert "Print at 100 %" in pdf_text(book, index)


def test_a_template_in_a_book_has_every_line_where_it_has_it_alone(book, folder):
    lessons = catalog(folder)
    templates = [page for _, title, page in toc(book) if re.match(r"T\d", title)]
    for name, index in zip(NAMES, templates, strict=True):
        alone = template_pages(work(lessons[name]).answer, PrintSetup(read_paper("Letter")))
        (path,) = write(alone, folder / "alone.pdf", title="Alone")
        bound, single = (
            sorted(piece.points for piece in pdf_pieces(*where))
            for where in ((book, index), (path,))
        )
        assert bound == single
        assert f"T{templates.index(index) + 1} " in " ".join(pdf_text(book, index).split())


def test_the_board_of_a_drill_is_bound_in_at_its_true_depth(book):
    (index,) = (page for _, title, page in toc(book) if title.startswith("B1"))
    assert "Bare board to mark" in pdf_text(book, index)
    assert "lesson 101" in pdf_text(book, index)
    # A 2x6 is dressed to 1 1/2 by 5 1/2 in (PS 20, from memory): face and edge unfolded take 7.
    # The outer sides are the only heavy lines that run so far.
    # Its one sheet holds the board beside the cautions.
    pieces = pdf_pieces(book, index)
    sides = [p for p in pieces if p.length_in > 6.0 and p.width_in > 0.4 / 25.4]
    assert len(sides) == 2
    (x0, y0), (x1, y1) = (piece.points[0] for piece in sides)
    assert min(abs(abs(x1 - x0) - 7.0), abs(abs(y1 - y0) - 7.0)) < 1e-4


def test_pages_of_text_never_claim_full_size(book):
    for index in set(range(pages(book))) - set(full_size(book)):
        text = pdf_text(book, index)
        assert TEXT_FOOT in text
        assert "FULL SIZE" not in text


def test_no_viewer_is_to_scale_it_and_all_pages_are_the_paper(folder, book):
    a4 = made(folder, "a4.pdf", "--paper", "A4", "--no-templates", lessons=NAMES[1:])
    for path, size in ((book, (612, 792)), (a4, (595.276, 841.890))):
        reader = pypdf.PdfReader(path)
        assert reader.viewer_preferences.print_scaling == "/None"
        for page in reader.pages:
            found = sorted((float(page.mediabox.width), float(page.mediabox.height)))
            assert found == pytest.approx(sorted(size), abs=1e-2)


def test_without_templates_and_for_another_roof(folder):
    path = made(
        folder, "plain.pdf", "--no-templates", "--pitch", "10 in 12", "--stock", "2x8",
        lessons=NAMES[1:],
    )  # fmt: skip
    assert full_size(path) == []
    assert SHEETS_PART not in pdf_text(path, 1)
    assert "10 in 12" in pdf_text(path, FRONT)
    assert "2x8" in pdf_text(path, FRONT)


def test_one_lesson_is_handed_out_without_contents(folder):
    path = made(folder, "one.pdf", lessons=NAMES[1:], command="lesson")
    marks = toc(path)
    assert marks[0] == (0, "102. A plumb cut for the yard", 0)
    assert "Contents" not in [title for _, title, _ in marks]
    assert full_size(path) == [pages(path) - 1]


def test_one_lesson_goes_to_a_screen_too(folder, capsys):
    page = made(folder, "one.html", lessons=NAMES[1:], command="lesson")
    assert "<h1>A plumb cut for the yard</h1>" in page.read_text("utf-8")
    made(folder, "one.svg", "--no-templates", lessons=NAMES[1:], command="lesson")
    written = capsys.readouterr().out.splitlines()[1:]
    assert [line.removeprefix("wrote ") for line in written] == [
        str(folder / f"one-{number}.svg") for number in range(1, len(written) + 1)
    ]
    assert len(written) > 1
    assert run(["lesson", "hip-jack", "-o", str(folder / "one.txt")]) == 2
    assert "must end in .pdf, .html or .svg" in capsys.readouterr().err


def test_the_same_lessons_are_the_same_bytes(folder):
    for suffix in ("pdf", "html"):
        given = ("--no-templates",) if suffix == "pdf" else ()
        first, second = (made(folder, f"{n}.{suffix}", *given, lessons=NAMES[1:]) for n in "ab")
        assert first.read_bytes() == second.read_bytes()


def test_pages_laid_out_by_two_processes_are_the_same_pages(folder):
    lessons = catalog(folder)
    worked = [work(lessons[name]) for name in NAMES]
    told = []
    one = bind(worked, read_paper("letter"))
    two = bind(worked, read_paper("letter"), processes=2, on_part=lambda *how: told.append(how))
    assert two == one
    sheets = {page.title for page in one.pages if re.match(r"T\d", page.title)}
    parts = len(NAMES) + len(("left open", "hints", "words")) + len(sheets)
    assert told == [(done, parts) for done in range(1, parts + 1)]


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["yard-check"], "did you mean yard-cheek"),
        (["-o", "book.txt"], "the name must end in .pdf or .html"),
        (["-o", "nowhere/book.pdf"], "there is no folder"),
        (["-o", "nowhere/book.html"], "there is no folder"),
        (["yard-cheek", "--pitch", "abc"], "lesson yard-cheek: 'abc' is not a pitch"),
        (["yard-cheek", "--paper", "4x6", "--no-templates"], "lesson yard-cheek does not fit"),
    ],
)
def test_what_cannot_be_bound_is_told_in_one_line(folder, capsys, arguments, expected):
    assert run(["book", "--catalog", str(folder), *arguments]) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert error.count("\n") == 1
    assert expected in error


SHOWN = (NAMES[1], "--no-templates")


def bound_in_a_process(folder, stderr):
    return subprocess.Popen(
        [
            *(sys.executable, "-m", "lessons", "book", *SHOWN),
            *("--catalog", str(folder), "-o", str(folder / "shown.pdf")),
        ],
        stdout=subprocess.PIPE,
        stderr=stderr,
        text=True,
        env={**os.environ, "TERM": "xterm"},
    )


def test_a_bar_shows_on_a_terminal_and_nowhere_else(folder, capsys):
    ours, theirs = pty.openpty()
    on_terminal = bound_in_a_process(folder, theirs)
    os.close(theirs)
    shown = b""
    while True:
        try:
            part = os.read(ours, 4096)
        except OSError:  # the process has let go of the terminal
            break
        if not part:
            break
        shown += part
    os.close(ours)
    assert "wrote " in on_terminal.communicate()[0]
    assert b"drawing" in shown
    assert b"printing" in shown
    assert b"100%" in shown
    capsys.readouterr()
    assert run(["book", *SHOWN, "--catalog", str(folder), "-o", str(folder / "shown.pdf")]) == 0
    out, error = capsys.readouterr()
    said, wrote = out.splitlines()
    assert re.fullmatch(
        r"apprentice edition: \d+ pages of text and 0 full-size sheets, on Letter", said
    )
    assert wrote.startswith("replaced ")
    assert error == ""


def test_the_warning_stands_whole_once_on_a_spread_and_in_a_line_beside(book):
    measured = set(full_size(book))
    for index in range(pages(book)):
        if index in measured:
            continue
        text = " ".join(pdf_text(book, index).split())
        whole = "Before each cut see that the guard" in text
        # A lesson's page has it beside the steps of the saw as well.
        assert "WARNING" in text
        assert whole or index % 2 == 0, index
        assert whole or "read page 1 before you cut" in text.casefold()
