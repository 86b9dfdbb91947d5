"""What the instructor's and the field edition hold, and the form by which a cut piece is graded.

The form is read as its user has it, from the printed page: its marks make the plane that its tilt
and the command on it must agree with, and what is typed into that command says what was set.
"""

import re
import shlex
from math import asin, cos, degrees, hypot, radians, sin

import pypdfium2
import pytest

from figures.files.press import write
from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.page.sheet import Page, clear_field
from lessons.cli.main import run as command
from lessons.course.lesson import catalog
from lessons.course.runner import run
from lessons.pages.paged import column_leaves, leaves
from lessons.pages.teaching import grade_rows, instructor_rows, teach_rows
from tests.counts import LONG, part_of
from tests.readers.bound_pages import Bound
from tests.resolved import plain

LETTER = read_paper("Letter")
NAMES = part_of(list(catalog()), 9, 0)
DEGREES = r"([\d.]+)° from square"


def printed(rows, path, *, columns=True):
    """The words of rows on pages of their own, as a PDF gives them back."""
    blank = Page(LETTER, Drawing(), title="x", given="", scale=None)
    left, _, right, _ = clear_field(blank)
    width = (right - left - 0.25) / 2 if columns else right - left
    made = (column_leaves if columns else leaves)(rows(width), blank)
    write([leaf.page for leaf in made], path, title="x")
    with pypdfium2.PdfDocument(path) as document:
        return plain(" ".join(page.get_textpage().get_text_bounded() for page in document))


def along(said, where, end):
    """The way of a mark from its two printed lines: its angle from square, its end's lean."""
    found = re.search(rf"{where}.*?{DEGREES}.*?Its {end} toward the (head|foot)", said)
    if found is None:
        assert f"{where.split()[0]}, with the square square across" in said
        return 0.0, 1.0
    turn = radians(float(found[1])) * (1 if found[2] == "head" else -1)
    return sin(turn), cos(turn)


@pytest.mark.parametrize("name", NAMES)
def test_a_form_grades_one_plane_and_reads_back_what_was_set(name, tmp_path, capsys):
    """The plane through the two printed marks leans by the printed tilt, by vectors alone; the
    printed command, filled with the printed figures, finds the piece right."""
    worked = run(catalog()[name])
    said = printed(lambda width: grade_rows(worked, width), tmp_path / "form.pdf")
    points = [
        int(each)
        for each in re.findall(r" (\d0) (?=Its|Edge|Face|Line|Across|Gap|What|Also)", said)
    ]
    assert sum(points) == 100, (points, said)
    assert "Points ______ of 100" in said
    assert "with a feeler gauge" in said
    tilt = float(re.search(rf"Across the cut.*?{DEGREES}", said)[1])
    (asked,) = re.findall(r"type: squaresaw (read .*?) Name", said)
    if worked.answer.is_rip:
        across, drop = re.search(
            r"rule ([\d /]+) in across.*?rule ([\d /]+) in down", said
        ).groups()
        filled = asked.replace("____", across.strip(), 1).replace("____", drop.strip(), 1)
    else:
        face, edge = along(said, "Face mark", "top"), along(said, "Edge mark", "left end")
        # Along the face mark (x, 0, z), along the edge mark (x, y, 0): the plane holds both.
        down, across = (face[0], 0.0, face[1]), (edge[0], edge[1], 0.0)
        normal = (
            down[1] * across[2] - down[2] * across[1],
            down[2] * across[0] - down[0] * across[2],
            down[0] * across[1] - down[1] * across[0],
        )
        leans = degrees(asin(abs(normal[1]) / hypot(*normal)))
        assert leans == pytest.approx(tilt, abs=0.13), "the tilt is printed to the quarter degree"
        filled = asked
        for angle in re.findall(DEGREES, said.split("Across the cut")[0]):
            filled = filled.replace("____", angle, 1)
    assert "____" not in filled
    assert command(shlex.split(filled)) == 0
    found = capsys.readouterr().out
    assert re.search(r"AT THE MATE +fits", found), found


def test_a_piece_cut_wrong_is_told_what_was_set(tmp_path, capsys):
    """The side-cut number of 8 in 12 set as a tilt leaves an edge mark at 45: by the form alone."""
    worked = run(catalog()["hip-jack"])
    said = printed(lambda width: grade_rows(worked, width), tmp_path / "form.pdf")
    (asked,) = re.findall(r"type: squaresaw (read .*?) Name", said)
    face = re.search(DEGREES, said)[1]
    assert command(shlex.split(asked.replace("____", face, 1).replace("____", "45", 1))) == 0
    found = capsys.readouterr().out
    assert "it was tilted 39.76°" in found
    assert "side number as tilt" in found


@pytest.mark.parametrize("name", NAMES)
def test_the_instructor_is_told_time_materials_what_goes_wrong_and_what_to_ask(name, tmp_path):
    worked = run(catalog()[name])
    said = printed(lambda width: teach_rows(worked, width), tmp_path / "notes.pdf")
    assert re.search(
        r"FOR THE INSTRUCTOR Time \d+ minutes Bring .+\. Goes wrong .+ Ask .+[.?]", said
    ), said


def test_the_instructors_first_page_sums_the_course_up(tmp_path):
    """Minutes and scrap for each lesson, how the sheets are marked, how pieces are graded."""
    all_worked = [run(catalog()[name]) for name in NAMES]
    path = tmp_path / "front.pdf"
    said = printed(lambda width: instructor_rows(all_worked, width), path, columns=False)
    minutes = sum(worked.lesson.teach.minutes for worked in all_worked)
    assert f"{len(NAMES)} lessons: {minutes // 60} h {minutes % 60} min" in said
    for worked in all_worked:
        assert (
            f"{worked.lesson.number}. {worked.lesson.title} {worked.lesson.teach.minutes}" in said
        )
    for words in ("scrap to cut", "How to mark the sheets", "How to grade the cut pieces"):
        assert words in said


@pytest.fixture(scope="module")
def field(tmp_path_factory):
    path = tmp_path_factory.mktemp("field") / "field.pdf"
    names = () if LONG else ("one-plane", "backing-or-dropping")
    assert (
        command(["book", *names, "--edition", "field", "--pitch", "9 in 12", "-o", str(path)]) == 0
    )
    with pypdfium2.PdfDocument(path) as document:
        yield Bound(document)


def test_a_field_card_is_one_letter_page_a_cut(field):
    cards = set()
    for page, text in field.pages.values():
        assert (page.get_width(), page.get_height()) == (612.0, 792.0)
        said = plain(text.get_text_bounded())
        # A card leaves the book, so each names its own cut, roof and board, and the dangers.
        found = re.search(
            r"([a-z-]+, (?:head|foot|along the board)) (\d+ in 12 .*?board .*?) page", said
        )
        assert found is not None, said
        assert "Saws maim, falls kill. Before each cut" in said
        cards.add(found.groups())
    assert len(cards) == len(field.pages) >= (15 if LONG else 2)


def test_every_number_of_a_field_card_is_read_at_arms_length(field):
    """At 28 in a letter of 14 pt is a quarter of a degree high: three times what the eye parts.

    (Common practice in lettering for reading from afar: a letter's height is 1/200 of the way.)
    """
    for index, (_, text) in field.pages.items():
        said = plain(text.get_text_bounded())
        for name in ("FACE", "EDGE", "TILT") if "GAUGE" not in said else ("GAUGE", "TILT"):
            first = next(each for each in field.found(index, name) if each.size > 12)
            assert first.size >= 20.0
            beside = [
                each
                for each in field.letters(index)
                if abs(each.box[1] - first.box[1]) < 4 and each.text.isdigit()
            ]
            assert name == "EDGE" or beside, name
            assert all(each.size >= 10.0 for each in beside), "fractions are 20 pt, halved"
        for words in ("shoe on", "below the shoe", "top toward"):
            sizes = [each.size for each in field.found(index, words)]
            assert not sizes or max(sizes) >= 14.0, words


def test_a_jacks_card_has_every_number_of_its_roof(field):
    """9 in 12, from the 3-4-5 triangle: a common of 15, jacks 20 and 30 longer, 9 5/8 on 12."""
    cards = [plain(text.get_text_bounded()) for _, text in field.pages.values()]
    said = next(card for card in cards if "hip-jack, head" in card)
    for number in (
        "12 on the blade, 9 on the tongue",
        "9 5/8 on the blade, 12 on the tongue",
        "Side-cut number 9 5/8 on 12; sliding bevel 38.66° off the edge",
        "TILT 45°",
        "LENGTH 15 for 12 of run",
        "16 in on center: 20 in longer each; 24 in on center: 30 in longer each",
        "take off 1 1/16 in level, 1 5/16 in along the edge",
        "Left-hand: shoe on the right face",
        "Right-hand: shoe on the left face",
    ):
        assert number in said, (number, said)
