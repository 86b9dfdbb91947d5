"""A lesson on paper: blocks by geometry, and whole lessons as they are found in their PDFs."""

import re

import pytest
import shapely

from figures.files.press import write
from figures.ink.drawing import Drawing, Label, Stroke, collisions, label_box
from figures.ink.paper import read_paper
from figures.page.flow import stacked
from figures.page.sheet import clear_field, furnished
from layout.errors import SheetError
from lessons.course.lesson import catalog
from lessons.course.runner import run
from lessons.pages.lesson_rows import MARK_ON_SCRAP, block_rows
from lessons.pages.paged import lesson_leaves
from lessons.say.blocks import (
    Cautions,
    DrillsBlock,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    PictureBlock,
    ProblemBlock,
    Steps,
    Terms,
)
from lessons.say.words import CAUTION
from tests.measure import pdf_sizes, pdf_text
from tests.small_lessons import small_catalog

LONG = "Stand the cut against the hip, and see whether light comes through at the arris. " * 3
WIDTH = 7.5


def boxed(least: tuple[float, float] = (0.0, 0.0), rooms: list | None = None) -> PictureBlock:
    """A picture that fills its room, and refuses one that is too small."""

    def draw(room):
        if rooms is not None:
            rooms.append(room)
        width, height = room
        if width < least[0] or height < least[1]:
            raise SheetError("too small")
        corners = ((0, 0), (width, 0), (width, height), (0, height), (0, 0))
        middle = Label("picture", width / 2, height / 2, ha="center", va="center")
        return Drawing((Stroke(corners, "visible"),), (), (middle,))

    return PictureBlock("a box", draw)


PROBLEMS = (
    ProblemBlock(
        "How many?", "10", "Because.", ("Look.", "Look again."), ("Face: 8.", "Edge: 12.")
    ),
    ProblemBlock("Mark it.", "So.", "Because.", (), (), boxed(), boxed()),
)
BLOCKS = (
    Heading("The lesson", 1),
    Paragraph(LONG, strong=True),
    Heading("The situation"),
    Steps(((LONG, boxed()), (LONG, None), ("Cut.", boxed()))),
    Facts((("Roof and board", LONG), ("Hand", "left"))),
    Mistaken("The saw is tilted too far.", LONG, "The gap is 5/16 in.", boxed()),
    Terms((("arris", "the sharp edge"), ("a long name of a term", LONG), ("tilt", "a lean"))),
    Cautions(("Mind the blade.", *CAUTION)),
    DrillsBlock(PROBLEMS),
)


def rows_of(block, width=WIDTH):
    return list(block_rows(block, width))


def texts(rows) -> list[str]:
    return [label.text.replace("\n", " ") for label in stacked(rows).labels]


@pytest.mark.parametrize("width", [5.0, 7.27, 7.5, 10.0])
@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: type(block).__name__)
def test_every_block_keeps_to_its_width_and_its_height(block, width):
    rows = rows_of(block, width)
    for row in rows:
        if row.drawing:
            left, bottom, right, top = row.drawing.bounds()
            assert left >= -1e-9
            assert right <= width + 1e-9
            assert top <= 1e-9
            assert -bottom <= row.height_in + 1e-9
    assert collisions(stacked(rows), frozenset({"frame", "visible"})) == ()


def test_a_step_has_its_number_and_words_left_and_its_picture_right():
    (row, *_) = rows_of(Steps(((LONG, boxed()),)))
    number, words, inside = row.drawing.labels
    assert number.text == "1"
    assert number.x < words.x < inside.x
    picture = shapely.linestrings(row.drawing.strokes[0].points)
    assert picture.bounds[0] > WIDTH * 0.37
    assert picture.bounds[3] == pytest.approx(0, abs=1e-9)


def test_a_picture_that_needs_more_room_gets_it():
    rooms = []
    (row, *_) = rows_of(Steps((("Cut.", boxed((4.0, 3.5), rooms)),)))
    assert len(rooms) == 2
    assert row.height_in > 3.5
    assert shapely.linestrings(row.drawing.strokes[0].points).bounds[0] > WIDTH * 0.37
    (row, *_) = rows_of(Steps((("Cut.", boxed((7.0, 3.0))),)))
    left, bottom, right, _ = row.drawing.bounds()
    assert right - left == pytest.approx(WIDTH, abs=0.01)
    assert -bottom <= row.height_in
    assert collisions(row.drawing, frozenset({"visible"})) == ()
    with pytest.raises(SheetError, match="too small"):
        rows_of(Steps((("Cut.", boxed((20.0, 20.0))),)))


def test_a_row_with_a_picture_grows_and_stays_in_its_frame():
    (row, *_) = rows_of(Mistaken("Wrong.", "Why.", "The gap is 1/4 in.", boxed()))
    taller = row.taller(0.5)
    assert taller.height_in == pytest.approx(row.height_in + 0.5)
    frame = next(s for s in taller.drawing.strokes if s.pen == "frame")
    box = shapely.Polygon(frame.points)
    assert all(box.covers(shape) for shape in taller.drawing.shapes())
    assert row.taller(50.0).height_in < 0.6 * WIDTH


def test_a_mistake_says_its_price():
    said = texts(rows_of(Mistaken("Wrong.", "Why.", "The gap is 1/4 in.", boxed())))
    assert said[:3] == ["MISTAKE  Wrong.", "Why.", "The gap is ¹⁄₄ in."]


def test_the_cautions_at_the_foot_of_every_page_are_not_said_twice():
    assert texts(rows_of(Cautions(("Mind the blade.", *CAUTION)))) == ["WARNING", "Mind the blade."]
    assert rows_of(Cautions(CAUTION)) == []


def test_answers_stand_on_a_page_of_their_own():
    rows = rows_of(DrillsBlock(PROBLEMS))
    fresh = [i for i, row in enumerate(rows) if row.fresh]
    assert len(fresh) == 1
    before, after = texts(rows[: fresh[0]]), texts(rows[fresh[0] :])
    assert "How many?" in before
    assert "Face: 8." in before
    for hidden in ("10", "So.", "Because.", "Look. Look again."):
        assert hidden not in before
        assert hidden in after
    assert after.index("Look. Look again.") < after.index("10")
    assert sum(row.fresh for row in rows_of(DrillsBlock(PROBLEMS[1:]))) == 1


def test_what_is_to_be_marked_has_a_page_of_its_own():
    before = texts(rows_of(DrillsBlock(PROBLEMS))[:4])
    assert MARK_ON_SCRAP in before
    assert "picture" not in before


def test_there_is_room_to_work():
    (row, *_) = rows_of(DrillsBlock(PROBLEMS[:1]))
    lines = [stroke for stroke in row.drawing.strokes if stroke.pen == "frame"]
    assert len(lines) == 2
    assert min(s.points[1][0] - s.points[0][0] for s in lines) > 6


@pytest.fixture(scope="module")
def worked(tmp_path_factory):
    lessons = catalog(small_catalog(tmp_path_factory.mktemp("catalog")))
    return run(lessons["yard-cheek"])


@pytest.fixture(scope="module", params=["Letter", "A4"])
def leaves(request, worked):
    return lesson_leaves(worked, read_paper(request.param))


def test_pages_are_full_but_not_overfull_and_nothing_lies_on_anything(leaves):
    assert len(leaves) > 2
    for leaf in leaves:
        field = shapely.box(*clear_field(leaf.page)).buffer(1e-6)
        for shape in leaf.page.drawing.shapes():
            assert field.covers(shape)
        assert collisions(furnished(leaf.page), frozenset({"frame", "cut", "fold"})) == ()


def test_no_heading_stands_alone_at_a_foot(leaves):
    for leaf in leaves:
        lowest = leaf.page.drawing.bounds()[1]
        for _, box in leaf.anchors:
            assert box[1] > lowest + 0.1


def test_every_heading_is_found_where_it_stands(leaves, worked):
    headings = [block.text for block in worked.blocks if isinstance(block, Heading)][1:]
    found = [name for leaf in leaves for name, _ in leaf.anchors]
    assert [name for name in found if name in headings] == headings
    assert found[-2:] == ["Hints, one at a time", "Answers"]
    for leaf in leaves:
        for name, box in leaf.anchors:
            here = shapely.box(*box).buffer(1e-6)
            labels = [
                each for each in leaf.page.drawing.labels if each.text.replace("\n", " ") == name
            ]
            assert sum(here.covers(label_box(each)) for each in labels) == 1


def test_every_word_of_the_lesson_is_found_in_the_file_and_in_order(leaves, worked, tmp_path):
    (path,) = write([leaf.page for leaf in leaves], tmp_path / "a.pdf", title="A lesson")
    paper = leaves[0].page.paper
    assert pdf_sizes(path)[0] == pytest.approx(
        (paper.width_in * 72, paper.height_in * 72), abs=1e-3
    )
    found = squeezed(" ".join(pdf_text(path, i) for i in range(len(leaves))))
    at = 0
    for block in worked.blocks:
        match block:
            case Heading(text, 2) | Paragraph(text, _):
                sought = [text]
            case Steps(items):
                sought = [text for text, _ in items]
            case Mistaken(title, text, price, _):
                sought = [title, text, price]
            case Facts(pairs):
                sought = [part for pair in pairs for part in pair]
            case DrillsBlock(problems):
                sought = [problem.ask for problem in problems]
                sought += [problem.answer for problem in problems]
            case _:
                continue
        for words in sought:
            here = found.find(squeezed(words), at)
            assert here >= 0, words
            at = here


def squeezed(text: str) -> str:
    """Text without white, real fractions as plain ones, as a file may part words anywhere."""
    plain = text.translate(str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄", "01234567890123456789/"))
    return re.sub(r"\s+", "", plain)


def test_a_lesson_in_metric_is_as_tidy(tmp_path):
    from lessons.say.units import System

    lessons = catalog(small_catalog(tmp_path))
    made = lesson_leaves(run(lessons["yard-plumb"], system=System.METRIC), read_paper("A4"))
    for leaf in made:
        assert collisions(leaf.page.drawing) == ()
