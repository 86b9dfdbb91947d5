"""The page of a settled argument, read back from the file."""

from functools import cache
from itertools import pairwise

import pypdf
import pytest
import shapely

from figures.files.press import write
from figures.ink.drawing import collisions, label_box
from figures.ink.lettering import fraction_text
from figures.ink.paper import read_paper
from figures.page.sheet import clear_field
from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.errors import SheetError
from layout.quantity import read_pitch
from lessons.settle.argument import argued
from lessons.settle.settle import settle
from lessons.settle.settle_notes import notes
from lessons.settle.settle_page import settled_pages
from tests.measure import pdf_sizes, pdf_text

CLAIMS = (
    "plumb 12 in 12, saw 35 1/4",
    "plumb 12 in 12, edge 8 1/2 on 12",
    "plumb 12 in 12, saw 45, right cheek",
    "on edge 54.7 tilt 45",
    "saw flat 45 tilt 45",
    "plumb 12 in 12",
)


def hip_jack() -> Answer:
    return answer(ask("hip-jack", pitch=read_pitch("12 in 12")))


def pages_of(true_answer: Answer, *texts: str, paper: str = "Letter"):
    return settled_pages(settle(true_answer, texts), read_paper(paper))


@cache
def jack_pages(number: int, paper: str = "Letter"):
    """The pages of the first of the claims about a hip jack, laid out once."""
    return pages_of(hip_jack(), *CLAIMS[:number], paper=paper)


def check_clear(page) -> None:
    """Nothing on the page overlaps or runs out of its field."""
    assert [str(each) for each in collisions(page.drawing)] == []
    field = shapely.box(*clear_field(page)).buffer(1e-6)
    astray = [label.text for label in page.drawing.labels if not field.covers(label_box(label))]
    assert astray == []


def test_two_claims_stand_side_by_side_on_one_page(tmp_path):
    path = tmp_path / "settled.pdf"
    pages = jack_pages(2)
    write(pages, path, title=pages[0].title)
    assert pdf_sizes(path) == [(612, 792)]
    # A claim is lettered a point larger than what is said of it, and not blown up to its line.
    sizes = {one.text.split(":")[0]: one.size_pt for one in pages[0].drawing.labels}
    assert sizes["Claim 1"] == sizes["I heard"] + 1
    assert sizes["I heard"] <= sizes["Claim 2"] <= sizes["I heard"] + 1
    text = " ".join(pdf_text(path).split())
    for said in (
        "CLAIM 2 IS RIGHT. CLAIM 1 IS WRONG by",
        "Claim 1: plumb 12 in 12, saw 35",
        "Claim 2: plumb 12 in 12, edge 8",
        "RIGHT: fits: under",
        "WRONG: leaves",
        "open all along the long point (right face)",
        "Looks like: side number as tilt",
        "Instead: plumb 12 in 12, saw 45 (only the tilt changes)",
        "Against the hip",
        "WARNING",
        "licensed professional",
    ):
        assert said in text, said
    # No check bars stand on this page, so it never says it may be cut from.
    assert "FULL SIZE" not in text
    check_clear(pages[0])
    one, two = (
        next(label for label in pages[0].drawing.labels if label.text.startswith(f"Claim {i}:"))
        for i in (1, 2)
    )
    assert one.y == pytest.approx(two.y)
    assert two.x - one.x > 3.0
    frames = [
        shapely.box(*shapely.linestrings(stroke.points).bounds)
        for stroke in pages[0].drawing.strokes
        if stroke.pen == "frame"
    ]
    assert len(frames) == 2
    assert frames[0].distance(frames[1]) > 0.1
    described = pypdf.PdfReader(path).metadata
    assert described.title == "Settled: hip-jack"


def test_more_claims_take_more_pages():
    assert len(jack_pages(2)) == 1
    pages = pages_of(hip_jack(), *CLAIMS)
    assert [page.number for page in pages] == list(range(1, len(pages) + 1))
    assert 1 < len(pages) <= 3
    for page in pages:
        check_clear(page)
    drawn = [label.text for page in pages for label in page.drawing.labels]
    heads = {text.split(":")[0] for text in drawn if text.startswith("Claim ")}
    assert heads >= {f"Claim {number}" for number in range(1, 7)}


@pytest.mark.parametrize(
    ("cut", "paper", "texts"),
    [
        ("hip-backing", "A4", ("gauge 3/4 drop 1/2", "rip, saw 45", "rip, saw 30, right cheek")),
        ("hip-ridge", "Letter", ("plumb 12 in 12, saw 45", "plumb 12 in 17, edge 45deg")),
        ("gable-stud", "A4 landscape", ("square", "face square, saw 45")),
        ("purlin-square", "Letter", (f"face 35.264389682754654deg, saw {1 / 3}",)),
    ],
)
def test_nothing_overlaps_on_other_cuts_and_papers(cut, paper, texts):
    true_answer = answer(ask(cut, pitch=read_pitch("12 in 12")))
    pages = pages_of(true_answer, *texts, paper=paper)
    assert len(pages) == 1
    check_clear(pages[0])


def test_nobody_reads_more_than_four_decimals_off_paper():
    (page,) = pages_of(hip_jack(), f"face 35.264389682754654deg, saw {1 / 3}")
    texts = [label.text.replace("\n", " ") for label in page.drawing.labels]
    assert "Claim 1: face 35.2644deg, saw 0.3333" in texts


def test_paper_too_small_for_a_claim_is_refused():
    with pytest.raises(SheetError, match="larger paper"):
        pages_of(hip_jack(), CLAIMS[0], paper="5x5")


def frames_of(page):
    """The boxes of the page's frames, line by line from the top, from the left."""
    boxes = [
        shapely.box(*shapely.linestrings(stroke.points).bounds)
        for stroke in page.drawing.strokes
        if stroke.pen == "frame"
    ]
    return sorted(boxes, key=lambda box: (round(-box.bounds[3], 3), box.bounds[0]))


@pytest.mark.parametrize(
    ("paper", "count", "lines"),
    [("Letter", 2, [2]), ("Tabloid", 4, [2, 2]), ("Tabloid landscape", 3, [3])],
)
def test_frames_share_the_width_and_stand_a_fifth_of_an_inch_apart(paper, count, lines):
    """Two by two on upright paper, side by side on wide paper; what is said stands in its frame."""
    (page,) = jack_pages(count, paper)
    left, bottom, right, top = clear_field(page)
    boxes = frames_of(page)
    assert len(boxes) == count
    start = 0
    for number in lines:
        line = boxes[start : start + number]
        x0, y0, _, y1 = line[0].bounds
        assert x0 == pytest.approx(left, abs=0.01)
        assert line[-1].bounds[2] == pytest.approx(right, abs=0.01)
        for one, after in pairwise(line):
            assert after.bounds[0] - one.bounds[2] == pytest.approx(0.2, abs=0.01)
        for one in line:
            assert (one.bounds[1], one.bounds[3]) == pytest.approx((y0, y1), abs=1e-6)
            assert one.bounds[2] - one.bounds[0] == pytest.approx(
                (right - left - 0.2 * (number - 1)) / number, abs=0.01
            )
        start += number
    assert all(bottom - 0.01 <= box.bounds[1] and box.bounds[3] <= top + 0.01 for box in boxes)
    inside = [
        label for label in page.drawing.labels
        if any(box.covers(shapely.Point(label.x, label.y)) for box in boxes)
    ]  # fmt: skip
    for label in inside:
        assert any(box.buffer(-0.09).covers(label_box(label)) for box in boxes), label.text


def test_what_was_not_understood_and_what_is_a_length_are_told_over_the_frames():
    said = ["plumb 12 in 12, saw 45", "mumble", "first jack 18"]
    (page,) = settled_pages(argued(hip_jack(), said), read_paper("Letter"))
    (frame,) = frames_of(page)
    over = " ".join(
        label.text.replace("\n", " ") for label in page.drawing.labels if label.y > frame.bounds[3]
    )
    assert "Claim 2 was not understood: mumble" in over
    assert "Claim 3: first jack 18: wrong: from the corner to its middle: 16 in" in over
    assert "Claim 1" not in over.replace("CLAIM 1", "")


def test_a_titled_note_has_its_sentence_whole_from_a_capital_on():
    settled = settle(hip_jack(), CLAIMS[:1])
    titled = [note for note in notes(settled, settled.findings[0]) if note.title]
    said = " ".join(" ".join(label.text.split()) for label in jack_pages(1)[0].drawing.labels)
    below = [note for note in titled if note.margin != "instead"]
    assert below
    for note in below:
        sentence = fraction_text(note.text[:40].split(" (")[0])
        assert f"{sentence[0].upper()}{sentence[1:]}" in said, note
