"""The printed steps of a lesson, followed by one who has nothing else, give the joint's plane."""

from functools import cache

import numpy as np
import pytest

from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.course.runner import asked
from tests.counts import LONG
from tests.readers.lesson_words import FROM_BOTH, read_lesson
from tests.readers.words import TwoReadingsError, UnreadError

OTHERWISE = {
    "backing-or-dropping": "a rip",
    "birds-mouth": "a notch",
    "two-runs": "a notch",
    "hip-double-cheek": "two cheeks",
    "valley-double-cheek": "two cheeks",
    "hips-heel": "a notch round a corner",
    "reading-the-square": "lines without a cut",
    "two-lines-by-handsaw": "the marks are those of the lesson before, in short",
}
"""Lessons whose steps are of another kind: their senses stand in `mark`, which is read whole."""
READ = [name for name in catalog() if name not in OTHERWISE]
SOME = ["hip-jack", "cheek-by-saw", "jacks-on-a-deck", "plumb-and-level"]


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
    assert said == (one.hand.value if one.hand else None)


@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_steps_of_a_cut_from_both_faces_give_the_plane(hand):
    """With 2 in of blade a 2x at 45 degrees is sawn half from each face."""
    text = printed("hip-jack", hand, "--blade-depth", "2in")
    assert FROM_BOTH in " ".join(text.split())
    said, normal = read_lesson(text, 1.5)
    assert np.abs(normal - right("hip-jack", hand).cut.normal).max() < 0.02
    assert said == hand


def test_most_lessons_are_read():
    assert len(READ) >= 15


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


def _is_the_jack(text):
    said, normal = read_lesson(text, 1.5)
    one = right("hip-jack", "left")
    assert said == "left"
    assert np.abs(normal - one.cut.normal).max() < 0.02


def _parts(text):
    first, last = text.index("\nBY HANDSAW"), text.index("\nDO THEY FIT?")
    return text[:first], text[first:last].replace("\n1. ", "\n"), text[last:]
