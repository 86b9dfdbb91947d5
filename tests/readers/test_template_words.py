"""The words of a printed template, read from the PDF, give the plane of the joint."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pypdfium2
import pytest

from figures.files.press import write
from figures.ink.paper import read_paper
from figures.page.tiling import PrintSetup
from figures.wrap.template import template_pages
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.answer.senses import way
from layout.cuts import Hand, catalogue
from layout.errors import LayoutError, SheetError
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.counts import LONG
from tests.readers.template_words import read_template
from tests.readers.words import TwoReadingsError, UnreadError

ROOF = ("8", "9", 0.0, None)
"""Pitch, other pitch, how far the corner is off square [degrees], and the board."""
ROOFS = (ROOF, ("12", "12", 0.0, None), ("5", "9", 15.0, None))
BY_THE_EDGE = (("8", "9", 45.0, "2x2"), ("3", "9", 0.0, "2x2"), ("8", "9", -30.0, "2x2"))
"""Many a tilt past the saw's on a face, and within it on an edge that the blade comes through."""
LOW = ("3", "9", 0.0, "2x6")
JACK = ("hip-jack", "head", Hand.RIGHT, ROOF)
SEAT = ("hip-seat", "foot", Hand.LEFT, ROOF)
BACKED = ("hip-backing", "foot", Hand.RIGHT, ROOF)
HOLLOW = ("valley-backing", "foot", Hand.LEFT, ROOF)
SLEEPER = ("sleeper-edge", "foot", Hand.LEFT, LOW)
EDGE = ("cripple-jack", "foot", Hand.LEFT, BY_THE_EDGE[1])
SOME = [JACK, SEAT, BACKED, SLEEPER, EDGE]
EVERY = [
    (name, end, hand, roof)
    for roof in ROOFS
    for name, entry in catalogue().items()
    for end in entry.ends
    for hand in Hand
]


@cache
def asked(name, end, hand, roof):
    pitch, other, off, board = roof
    return answer(
        ask(
            name,
            end=end,
            hand=hand,
            pitch=read_pitch(pitch),
            other_pitch=read_pitch(other),
            corner_deg=catalogue()[name].usual_corner_deg + off,
            stock=read_stock(board) if board else None,
        )
    )


@cache
def printed(*case):
    with TemporaryDirectory() as folder:
        path = Path(folder) / "sheet.pdf"
        pages = template_pages(asked(*case), PrintSetup(read_paper("Tabloid")))
        write(pages, path, title="words", subject="words")
        document = pypdfium2.PdfDocument(path)
        text = " ".join(page.get_textpage().get_text_range() for page in document)
        document.close()
    return " ".join(text.split())


def reads(one, text):
    """The words give every plane of the joint, each against its own mate, and the hand."""
    said, planes = read_template(text)
    sides = [cut.normal[1] for cut in one.cuts if abs(cut.normal[1]) > 1e-9]
    assert said == (None if not sides else "left" if sides[0] > 0 else "right")
    mates = [plane.mate_words for plane in one.question.joint.planes]
    hit = set()
    for name, normal in planes.items():
        off = [np.abs(normal - cut.normal).max() for cut in one.cuts]
        place = mates.index(name) if name in mates else int(np.argmin(off))
        assert off[place] < 1e-3
        hit.add(place)
    assert hit == set(range(len(one.cuts)))


@pytest.mark.parametrize(("name", "end", "hand", "roof"), EVERY if LONG else SOME)
def test_the_words_of_a_template_give_the_plane(name, end, hand, roof):
    try:
        one = asked(name, end, hand, roof)
    except LayoutError:
        assert roof != ROOF, "every cut is made on the plain roof"
        pytest.skip("no such cut on this roof")
    reads(one, printed(name, end, hand, roof))


def by_the_edge():
    """Every cut that the saw makes with its shoe on an edge alone, on these roofs and boards."""
    for roof in (*BY_THE_EDGE, LOW):
        for name, end, hand, _ in EVERY[: len(EVERY) // len(ROOFS)]:
            try:
                one = asked(name, end, hand, roof)
            except LayoutError:
                continue
            if "edge" in [way(each) for each in (one, *one.others)]:
                yield name, end, hand, roof


@pytest.mark.skipif(not LONG, reason="two of these stand among the few above")
def test_the_words_of_an_edge_pass_give_the_plane():
    cases = list(by_the_edge())
    assert {SLEEPER, EDGE} <= set(cases)
    read = 0
    for case in cases:
        try:
            text = printed(*case)
        except SheetError:
            continue  # a bevel that falls past the board has no template
        reads(asked(*case), text)
        read += 1
    assert read >= 40


FLIPS = [
    (JACK, "under the kept wood", "under the waste"),
    (JACK, "top toward the head", "top toward the foot"),
    (JACK, "left end toward the head", "left end toward the foot"),
    (JACK, "Start at the top edge", "Start at the bottom edge"),
    (JACK, "RIGHT-HAND", "LEFT-HAND"),
    (JACK, "mark along the tongue", "mark along the blade"),
    (SEAT, "under the kept wood", "under the waste"),
    (SEAT, "kept wood, toward the foot", "kept wood, toward the head"),
    (SEAT, "top toward the head", "top toward the foot"),
    (SEAT, "left end toward the head", "left end toward the foot"),
    (SEAT, "Start at the bottom edge", "Start at the top edge"),
    (SEAT, "with a blade-right saw; a blade-left", "with a blade-left saw; a blade-right"),
    (SEAT, "shoe on the kept wood", "shoe on the waste"),
    (SEAT, "wall faces left", "wall faces right"),
    (SEAT, "Against this roof's", "Against the other roof's"),
    (SEAT, "cheek against this roof's", "cheek against the other roof's"),
    (SEAT, "on the blade, 8 on the tongue; mark along the tongue", "on the blade, 8 on the"
     " tongue; mark along the blade"),
    (BACKED, "top arris of the left", "top arris of the right"),
    (BACKED, "top arris of the left", "bottom arris of the left"),
    (BACKED, "runs in under the waste", "runs in under the kept wood"),
    (BACKED, "the waste, toward the top edge", "the waste, toward the bottom edge"),
    (BACKED, "Start at the head", "Start at the foot"),
    (BACKED, "with a blade-left", "with a blade-right"),
    (BACKED, "shoe on the waste", "shoe on the kept wood"),
    (BACKED, "Shoe on the left face", "Shoe on the right face"),
    (BACKED, "Against this roof's", "Against the other roof's"),
    (BACKED, "bevel faces right", "bevel faces left"),
    (SLEEPER, "toward the left face. RIGHT", "toward the right face. RIGHT"),
    (SLEEPER, "falling", "rising"),
    (SLEEPER, "Below the shoe the blade runs in under the waste", "Below the shoe the blade runs"
     " in under the kept wood"),
    (SLEEPER, "waste, toward the left face", "waste, toward the right face"),
    (SLEEPER, "Shoe on the bottom edge", "Shoe on the top edge"),
    (SLEEPER, "Start at the foot", "Start at the head"),
    (SLEEPER, "bevel faces left", "bevel faces right"),
    (EDGE, "Start at the left face", "Start at the right face"),
    (EDGE, "Shoe on the top edge", "Shoe on the bottom edge"),
    (EDGE, "run the shoe on the top edge", "run the shoe on the bottom edge"),
    (EDGE, "wide side of the shoe on the kept wood", "wide side of the shoe on the waste"),
    (EDGE, "Below the shoe the blade runs in under the kept wood", "Below the shoe the blade runs"
     " in under the waste"),
]  # fmt: skip


@pytest.mark.parametrize(("case", "a", "b"), FLIPS)
def test_a_flipped_word_on_the_sheet_is_seen(case, a, b):
    text = printed(*case)
    assert a in text or b in text
    wrong = text.replace(a, "\0").replace(b, a).replace("\0", b)
    assert wrong != text
    with pytest.raises((TwoReadingsError, UnreadError, AssertionError)):
        reads(asked(*case), wrong)
