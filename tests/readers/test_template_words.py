"""The words of a printed template, read from the PDF, give the plane of the joint."""

import numpy as np
import pypdfium2
import pytest

from figures.files.press import write
from figures.ink.paper import read_paper
from figures.page.tiling import PrintSetup
from figures.wrap.template import template_pages
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.quantity import read_pitch
from tests.counts import LONG
from tests.readers.template_words import read_template
from tests.readers.words import TwoReadingsError, UnreadError

NOTCHES = ("common-seat", "common-heel", "hip-seat", "valley-seat")
"""Two or three planes on each face: `mark`'s words are read for these."""
TRIED = [
    (name, end, hand)
    for name, entry in catalogue().items()
    for end in entry.ends
    for hand in Hand
    if not ask(name).joint.rip and name not in NOTCHES
]
SOME = [("hip-jack", "head", Hand.RIGHT), ("hip-ridge", "head", Hand.LEFT)]
ROOF = ("8 in 12", "9 in 12")


def text_of(one, folder):
    path = folder / "sheet.pdf"
    pages = template_pages(one, PrintSetup(read_paper("Tabloid")))
    write(pages, path, title="words", subject="words")
    document = pypdfium2.PdfDocument(path)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return text


def asked(name, end, hand):
    pitch, other = ROOF
    return answer(
        ask(name, end=end, hand=hand, pitch=read_pitch(pitch), other_pitch=read_pitch(other))
    )


@pytest.mark.parametrize(("name", "end", "hand"), TRIED if LONG else SOME)
def test_the_words_of_a_template_give_the_plane(tmp_path, name, end, hand):
    one = asked(name, end, hand)
    said, planes = read_template(text_of(one, tmp_path))
    sides = [cut.normal[1] for cut in one.cuts if abs(cut.normal[1]) > 1e-9]
    assert said == (None if not sides else "left" if sides[0] > 0 else "right")
    hit = set()
    for normal in planes.values():
        off = [np.abs(normal - cut.normal).max() for cut in one.cuts]
        assert min(off) < 1e-3
        hit.add(int(np.argmin(off)))
    assert hit == set(range(len(one.cuts)))


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("under the kept wood", "under the waste"),
        ("top toward the head", "top toward the foot"),
        ("left end toward the head", "left end toward the foot"),
        ("Start at the top edge", "Start at the bottom edge"),
        ("RIGHT-HAND", "LEFT-HAND"),
    ],
)
def test_a_flipped_word_on_the_sheet_is_seen(tmp_path_factory, a, b):
    text = " ".join(_jack(tmp_path_factory).split())
    assert a in text or b in text
    wrong = text.replace(a, "\0").replace(b, a).replace("\0", b)
    with pytest.raises((TwoReadingsError, UnreadError, AssertionError)):
        _is_the_jack(wrong)


def _is_the_jack(text):
    said, planes = read_template(text)
    assert said == "right"
    for normal in planes.values():
        assert np.abs(normal - asked(*SOME[0]).cut.normal).max() < 1e-3


_kept: list[str] = []


def _jack(tmp_path_factory):
    if not _kept:
        _kept.append(text_of(asked(*SOME[0]), tmp_path_factory.mktemp("jack")))
    return _kept[0]
