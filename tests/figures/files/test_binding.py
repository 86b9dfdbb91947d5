"""What binds a PDF's pages, read back by another library than wrote it."""

import io

import pypdf
import pypdfium2
import pytest

from figures.files.binding import Bookmark, Link, bound

MARKS = (
    Bookmark("One", 0),
    Bookmark("Given", 0, 1),
    Bookmark("By saw", 1, 1),
    Bookmark("Two", 2),
    Bookmark("Given", 2, 1),
)


def blank(pages: int = 3) -> io.BytesIO:
    writer = pypdf.PdfWriter()
    for _ in range(pages):
        writer.add_blank_page(612, 792)
    data = io.BytesIO()
    writer.write(data)
    return data


def opened(data: bytes) -> pypdfium2.PdfDocument:
    return pypdfium2.PdfDocument(data)


def test_bookmarks_stand_in_levels():
    document = opened(bound(blank(), MARKS, ("1", "2", "3")))
    found = [
        (mark.get_title(), mark.get_dest().get_index(), mark.level) for mark in document.get_toc()
    ]
    assert found == [tuple(mark) for mark in MARKS]


def test_a_book_opens_with_its_bookmarks_and_a_sheet_without():
    book = pypdf.PdfReader(io.BytesIO(bound(blank(), MARKS, ("1", "2", "3"))))
    sheet = pypdf.PdfReader(io.BytesIO(bound(blank(1), MARKS[:1], ("1",))))
    assert book.page_mode == "/UseOutlines"
    assert sheet.page_mode is None


def test_pages_are_called_by_their_labels_and_not_scaled():
    data = bound(blank(), (), ("i", "1", "A"))
    assert [opened(data).get_page_label(i) for i in range(3)] == ["i", "1", "A"]
    assert pypdf.PdfReader(io.BytesIO(data)).viewer_preferences.print_scaling == "/None"


def test_a_link_covers_its_box_and_leads_to_its_page():
    data = bound(blank(), (), ("1", "2", "3"), [Link(0, (1.0, 2.0, 3.0, 2.5), 2)])
    reader = pypdf.PdfReader(io.BytesIO(data))
    (annotation,) = (each.get_object() for each in reader.pages[0]["/Annots"])
    assert annotation["/Subtype"] == "/Link"
    assert [float(side) for side in annotation["/Rect"]] == pytest.approx([72, 144, 216, 180])
    target = annotation["/A"]["/D"] if "/A" in annotation else annotation["/Dest"]
    first = target[0]
    index = int(first) if isinstance(first, int) else reader.get_page_number(first.get_object())
    assert index == 2


def test_the_same_pages_are_the_same_bytes():
    assert bound(blank(), MARKS, ("1", "2", "3")) == bound(blank(), MARKS, ("1", "2", "3"))
