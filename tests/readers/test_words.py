"""What `mark` prints, read by one who has nothing but the words, is the plane of the joint."""

from functools import cache
from itertools import product

import numpy as np
import pytest

from layout.answer import sense_words
from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.errors import LayoutError
from layout.quantity import read_pitch
from layout.stock import read_stock
from layout.tools.saw import SawKind, SawLimits
from lessons.say import words as say
from lessons.say.words import read_aloud
from tests.counts import LONG
from tests.readers.words import TwoReadingsError, UnreadError, read_mark

ENDS = [(name, end) for name, entry in catalogue().items() for end in entry.ends]
ROOFS = (("8", "8", 0.0), ("5", "9", 0.0), ("12", "12", 15.0), ("9", "6", -20.0), ("3", "14", 5.0))
"""Pitch, other pitch, and how far the corner is off square [degrees]."""
KINDS: tuple[SawKind | None, ...] = (None, *SawKind)
BOARDS = ("2x6", "4x6", "2x2", "38mm x 140mm")
SAME = 5e-3
"""Angles stand to a hundredth of a degree; two of them in a product leave a little more."""


@cache
def answered(name, end, hand, roof, kind, board) -> Answer | None:
    pitch, other, off = roof
    entry = catalogue()[name]
    try:
        question = ask(
            name,
            end=end,
            hand=hand,
            pitch=read_pitch(pitch),
            other_pitch=read_pitch(other),
            corner_deg=entry.usual_corner_deg + off,
            stock=read_stock(board),
        )
    except LayoutError:
        return None
    return answer(question, limits=SawLimits(kind=kind))


def reads(one: Answer, kind: SawKind | None) -> None:
    """The words give every plane of the joint, and the hand."""
    sheet = read_mark(read_aloud(one), saw=kind.value if kind else None)
    for plane, cut in zip(sheet.planes, one.cuts, strict=True):
        assert np.abs(plane.normal - cut.normal).max() < SAME
    sides = [cut.normal[1] for cut in one.cuts if abs(cut.normal[1]) > 1e-9]
    hand = None if not sides else "left" if sides[0] > 0 else "right"
    assert sheet.hand == hand


CASES = list(product(ROOFS, KINDS, BOARDS))


@pytest.mark.parametrize(("name", "end"), ENDS)
def test_the_words_alone_give_the_plane(name, end):
    """Every cut and end, both hands; roofs, saws and boards: a few of them, or all."""
    place = ENDS.index((name, end))
    some = CASES if LONG else [CASES[(place * 7 + 17 * k) % len(CASES)] for k in range(3)]
    read = 0
    for (roof, kind, board), hand in product([(ROOFS[0], None, "2x6"), *some], Hand):
        one = answered(name, end, hand, roof, kind, board)
        if one is not None:
            reads(one, kind)
            read += 1
    assert read >= 2


def swapped(text: str, a: str, b: str) -> str:
    return text.replace(a, "\0").replace(b, a).replace("\0", b)


@cache
def printed(name, end, hand, kind, board):
    return read_aloud(answered(name, end, hand, ROOFS[0], kind, board))


FLIPS = [
    ("hand_line", "LEFT", "RIGHT"),
    ("hand_line", "faces left", "faces right"),
    ("waste_words", "head", "foot"),
    ("waste_words", "top", "bottom"),
    ("leaning", "head", "foot"),
    ("lean_words", "kept wood", "waste"),
    ("lean_words", "head", "foot"),
    ("lean_words", "top edge", "bottom edge"),
    ("wide_words", "kept wood", "waste"),
    ("body_words", "kept wood", "waste"),
    ("start_words", "top edge", "bottom edge"),
    ("start_words", "left face", "right face"),
    ("start_words", "head", "foot"),
    ("start_words", "blade-left", "blade-right"),
    ("long_point_words", "left face", "right face"),
    ("miter_words", "right face down", "left face down"),
    ("miter_words", "top edge against", "bottom edge against"),
    ("miter_words", "head to your right", "head to your left"),
    ("miter_words", "waste at your right", "waste at your left"),
    ("miter_words", "to your left; tilt", "to your right; tilt"),
    ("miter_words", "leaning to your left", "leaning to your right"),
]
FLIPPED_ON = [
    (name, end, hand, kind, board)
    for name, end in (
        ("hip-jack", "head"),
        ("valley-jack", "foot"),
        ("hip-backing", "foot"),
        ("sleeper-edge", "foot"),
        ("fascia-plumb", "head"),
    )
    for hand, kind, board in (
        product(Hand, (None, *SawKind), ("2x6", "2x2"))
        if LONG
        else ((Hand.LEFT, None, "2x2"), (Hand.RIGHT, SawKind.BLADE_LEFT, "2x6"))
    )
]


@pytest.mark.parametrize(("function", "a", "b"), FLIPS)
def test_no_word_of_sense_can_be_flipped_unseen(monkeypatch, function, a, b):
    """Each word that turns a tool, exchanged for its opposite, is refused on every sheet."""
    true = getattr(sense_words, function)

    def flipped(*given, **named):
        said = true(*given, **named)
        return (
            [swapped(one, a, b) for one in said] if isinstance(said, list) else swapped(said, a, b)
        )

    seen = 0
    for name, end, hand, kind, board in FLIPPED_ON:
        one = answered(name, end, hand, ROOFS[0], kind, board)
        right = printed(name, end, hand, kind, board)
        with monkeypatch.context() as patched:
            patched.setattr(say, function, flipped)
            wrong = read_aloud(one)
        if wrong == right:
            continue
        seen += 1
        with pytest.raises((UnreadError, TwoReadingsError, AssertionError)):
            _same_plane(wrong, one, kind)
    assert seen, "this word stands on none of the sheets"


def _same_plane(text, one, kind):
    sheet = read_mark(text, saw=kind.value if kind else None)
    for plane, cut in zip(sheet.planes, one.cuts, strict=True):
        assert np.abs(plane.normal - cut.normal).max() < SAME


@pytest.mark.parametrize(
    "line",
    [
        "  left face  the blade leans out over the waste, toward the head",
        "  left face  the blade leans in under the kept wood, toward the foot",
        "  left face  the blade leans toward the head",
        "  left face  bevel 45° to the left",
        "  left face  the saw goes from the left to the right",
    ],
)
def test_what_can_be_taken_two_ways_is_refused(line):
    text = read_aloud(answer(ask("hip-jack")))
    old = next(one for one in text.splitlines() if one.startswith("  left face"))
    with pytest.raises(TwoReadingsError):
        read_mark(text.replace(old, line))


def test_a_sentence_it_does_not_know_is_refused():
    text = read_aloud(answer(ask("hip-jack")))
    with pytest.raises(UnreadError):
        read_mark(text.replace("wide side of the shoe on", "broad side of the shoe on"))
