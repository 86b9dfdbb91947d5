"""The page of a settled argument, read back from the file."""

import pypdf
import pytest
import shapely

from figures.files.press import write
from figures.ink.drawing import collisions, label_box
from figures.ink.paper import read_paper
from figures.page.sheet import clear_field
from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.errors import SheetError
from layout.quantity import read_pitch
from lessons.settle.settle import settle
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


def check_clear(page) -> None:
    """Nothing on the page overlaps or runs out of its field."""
    assert [str(each) for each in collisions(page.drawing)] == []
    field = shapely.box(*clear_field(page)).buffer(1e-6)
    astray = [label.text for label in page.drawing.labels if not field.covers(label_box(label))]
    assert astray == []


def test_two_claims_stand_side_by_side_on_one_page(tmp_path):
    path = tmp_path / "settled.pdf"
    pages = pages_of(hip_jack(), *CLAIMS[:2])
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
    assert len(pages_of(hip_jack(), *CLAIMS[:2])) == 1
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
