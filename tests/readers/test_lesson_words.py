"""The printed steps of a lesson, followed by one who has nothing else, give the joint's plane."""

import re
from functools import cache

import numpy as np
import pytest

from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.course.runner import asked
from tests.counts import LONG
from tests.readers.lesson_shapes import read_notch_lesson, read_rip_lesson, read_two_cheeks
from tests.readers.lesson_words import FROM_BOTH, read_lesson
from tests.readers.words import TwoReadingsError, UnreadError

SHAPES = {
    "birds-mouth": read_notch_lesson,
    "hip-double-cheek": read_two_cheeks,
    "backing-or-dropping": read_rip_lesson,
}
"""Lessons of two planes, with a reader of their own; the rest have one plane at an end."""
READ = [name for name in catalog() if name not in SHAPES]
SOME = ["hip-jack", "cheek-by-saw", "two-runs"]


@cache
def printed(name, hand, *more):
    import contextlib
    import io

    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        arguments = ["lesson", name, "--hand", hand, *more]
        assert run(arguments) == 0
    return out.getvalue()


def right(name, hand):
    return asked(catalog()[name], {"hand": hand})


@pytest.mark.parametrize("name", READ if LONG else SOME)
@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_steps_give_the_plane(name, hand):
    one = right(name, hand)
    said, normal = read_lesson(printed(name, hand), one.question.stock.thickness_in)
    assert np.abs(normal - one.cut.normal).max() < 0.02
    assert said == _hand(one)


def _hand(one):
    """The hand of the cut, or of the first of its planes that is no square one."""
    hands = [each.hand.value for each in (one, *one.others) if each.hand]
    return hands[0] if hands else None


def _both_planes(name, hand, text):
    """Two planes by their names, each the joint's own: seat then heel, or by the side it faces."""
    one = right(name, hand)
    stock = one.question.stock
    more = () if name == "hip-double-cheek" else ((stock.thickness_in, stock.depth_in),)
    said, planes = SHAPES[name](text, *more)
    assert said == _hand(one)
    sides = {1: "left", -1: "right"}
    names = ["seat", "heel"] if name == "birds-mouth" else []
    names = names or [sides[int(np.sign(cut.normal[1]))] for cut in one.cuts]
    assert set(planes) == set(names)
    for each, cut in zip(names, one.cuts, strict=True):
        assert np.abs(planes[each] - cut.normal).max() < 0.02


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("hand", ["left", "right"] if LONG else ["left"])
def test_the_steps_give_both_planes(name, hand):
    _both_planes(name, hand, printed(name, hand))


@pytest.mark.parametrize("hand", ["left", "right"] if LONG else ["left"])
def test_the_steps_of_a_cut_from_both_faces_give_the_plane(hand):
    """With 2 in of blade a 2x at 45 degrees is sawn half from each face."""
    text = printed("hip-jack", hand, "--blade-depth", "2in")
    assert FROM_BOTH in " ".join(text.split())
    said, normal = read_lesson(text, 1.5)
    assert np.abs(normal - right("hip-jack", hand).cut.normal).max() < 0.02
    assert said == hand


def test_every_lesson_is_read():
    assert {*READ, *SHAPES} == set(catalog())
    assert set(SHAPES) <= set(catalog())
    assert len(READ) >= 23


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("its top slants toward the head", "its top slants toward the foot"),
        ("left end slants toward the foot", "left end slants toward the head"),
        ("under the kept wood", "under the waste"),
        ("toward the foot", "toward the head"),
        ("start at the top edge", "start at the bottom edge"),
        ("LEFT-HAND", "RIGHT-HAND"),
        ("The waste lies toward the head", "The waste lies toward the foot"),
        ("mark on the left face lies", "mark on the right face lies"),
    ],
)
def test_a_flipped_word_in_the_steps_is_seen(a, b):
    head, steps, rest = _parts(printed("hip-jack", "left"))
    flat = " ".join(steps.split())
    where = flat if a in flat else " ".join(head.split())
    assert a in where
    wrong = where.replace(a, "\0").replace(b, a).replace("\0", b)
    text = f"{head}\n{wrong}\n{rest}" if where == flat else f"{wrong}\n{steps}\n{rest}"
    text = text.replace(" BY SAW", "\nBY SAW").replace("BY HANDSAW", "\nBY HANDSAW", 1)
    with pytest.raises((TwoReadingsError, UnreadError, AssertionError)):
        _is_the_jack(text)


SHAPES_FLIPPED = [
    ("birds-mouth", "mark along the tongue", "mark along the blade"),
    ("birds-mouth", "that is plumb", "that is level"),
    ("birds-mouth", "down from the top edge", "down from the bottom edge"),
    ("birds-mouth", "Mark along the blade", "Mark along the tongue"),
    ("birds-mouth", "toward the head, to the bottom", "toward the foot, to the bottom"),
    ("birds-mouth", "to the bottom edge: that", "to the top edge: that"),
    ("birds-mouth", "that is the seat", "that is the heel"),
    ("birds-mouth", "check: the seat", "check: the heel"),
    ("birds-mouth", "seat from the bottom edge", "seat from the top edge"),
    ("hip-double-cheek", "back, away from the head", "back, away from the foot"),
    ("hip-double-cheek", "Mark plumb", "Mark level"),
    ("hip-double-cheek", "on the tongue, along the tongue", "on the tongue, along the blade"),
    ("hip-double-cheek", "center to the left face", "center to the right face"),
    ("hip-double-cheek", "left end slants toward the foot", "left end slants toward the head"),
    ("hip-double-cheek", "on 12 for the right cheek", "on 12 for the left cheek"),
    ("hip-double-cheek", "The left cheek takes", "The right cheek takes"),
    ("hip-double-cheek", "shoe on the left face", "shoe on the right face"),
    ("hip-double-cheek", "under the waste", "under the kept wood"),
    ("hip-double-cheek", "waste, toward the head", "waste, toward the foot"),
    ("hip-double-cheek", "start at the top edge", "start at the bottom edge"),
    ("hip-double-cheek", "with a blade-left", "with a blade-right"),
    ("hip-double-cheek", "LEFT-HAND", "RIGHT-HAND"),
    ("backing-or-dropping", "along the top edge", "along the bottom edge"),
    ("backing-or-dropping", "down the left face", "down the right face"),
    ("backing-or-dropping", "from the top arris", "from the bottom arris"),
    ("backing-or-dropping", "On the right face the line", "On the left face the line"),
    ("backing-or-dropping", "shoe on the left face, below", "shoe on the right face, below"),
    ("backing-or-dropping", "under the waste", "under the kept wood"),
    ("backing-or-dropping", "toward the top edge", "toward the bottom edge"),
    ("backing-or-dropping", "start at the foot", "start at the head"),
    ("backing-or-dropping", "with a blade-left", "with a blade-right"),
    ("backing-or-dropping", "rip along the line on the right", "rip along the line on the left"),
    ("backing-or-dropping", "bevel faces left", "bevel faces right"),
]


@pytest.mark.parametrize(("name", "a", "b"), SHAPES_FLIPPED)
def test_a_flipped_word_in_a_lesson_of_two_planes_is_seen(name, a, b):
    text = _flat(printed(name, "left"))
    _both_planes(name, "left", text)
    with pytest.raises((TwoReadingsError, UnreadError, AssertionError)):
        _both_planes(name, "left", _exchanged(text, a, b))


ONE_PLANE_FLIPPED = [
    ("two-runs", "level seat along the blade", "level seat along the tongue"),
    ("two-runs", "Mark the level seat", "Mark the plumb seat"),
    ("two-runs", "carries the run", "carries the rise"),
    ("two-runs", "top slants toward the foot", "top slants toward the head"),
    ("two-runs", "Along the tongue you", "Along the blade you"),
    ("two-runs", "mark from the bottom edge", "mark from the top edge"),
    ("two-runs", "notch below the mark", "notch above the mark"),
    ("two-runs", "wall faces left", "wall faces right"),
    ("reading-the-square", "mark along the tongue", "mark along the blade"),
    ("reading-the-square", "slants toward the head", "slants toward the foot"),
    ("reading-the-square", "waste lies toward the head", "waste lies toward the foot"),
    ("two-lines-by-handsaw", "top slants toward the head", "top slants toward the foot"),
    ("two-lines-by-handsaw", "left end slants toward the foot", "left end slants toward the head"),
    ("two-lines-by-handsaw", "under the kept wood", "under the waste"),
    ("two-lines-by-handsaw", "start at the top edge", "start at the bottom edge"),
]


@pytest.mark.parametrize(
    ("name", "a", "b"),
    ONE_PLANE_FLIPPED if LONG else [one for one in ONE_PLANE_FLIPPED if one[0] == "two-runs"],
)
def test_a_flipped_word_in_a_lesson_of_one_plane_is_seen(name, a, b):
    text = _flat(printed(name, "left"))
    _one_plane(name, text)
    with pytest.raises((TwoReadingsError, UnreadError, AssertionError)):
        _one_plane(name, _exchanged(text, a, b))


def _one_plane(name, text):
    one = right(name, "left")
    said, normal = read_lesson(text, one.question.stock.thickness_in)
    assert said == _hand(one)
    assert np.abs(normal - one.cut.normal).max() < 0.02


def _flat(text):
    """The text, its paragraphs on one line each, so that no phrase is broken."""
    head, steps, rest = _parts(text)
    steps = " ".join(re.sub(r"^\s*\d+\. ", "", steps, flags=re.MULTILINE).split())
    return f"{' '.join(head.split())}\n{steps}{rest}"


def _exchanged(text, a, b):
    assert a in text
    return text.replace(a, "\0").replace(b, a).replace("\0", b)


def _is_the_jack(text):
    said, normal = read_lesson(text, 1.5)
    one = right("hip-jack", "left")
    assert said == "left"
    assert np.abs(normal - one.cut.normal).max() < 0.02


def _parts(text):
    first, last = text.index("\nBY HANDSAW"), text.index("\nDO THEY FIT?")
    return text[:first], text[first:last].replace("\n1. ", "\n"), text[last:]


def test_the_line_drawn_on_a_hip_s_face_is_the_one_that_the_saw_follows():
    """On the drawing of the end the bevel falls 3/4 in times the tangent of the backing, 23.09
    degrees, so 0.3198 in: 5/16. There the blade goes in; it comes out at the center of the edge."""
    text = " ".join(printed("backing-or-dropping", "left").split())
    assert "The rip follows a line along the board through there: 5/16 in down." in text
    assert "Rip along that line" in text
    assert re.findall(r"comes? out at (.+?)[.,]", text) == ["the center of the edge"] * 2
