"""The lexicon: a phrase means one thing, a slip is mended to one word, and `mark` loads none."""

import subprocess
import sys
import tomllib
import tracemalloc

import pytest

from lessons.settle.ear.lexicon import FILE, PASSED, lexicon
from lessons.settle.ear.trade_tokens import listen


def test_no_phrase_stands_under_two_meanings():
    sections = tomllib.loads(FILE.read_text(encoding="utf-8"))
    seen: dict[str, str] = {}
    for section, meanings in sections.items():
        if section in PASSED:
            continue
        for meaning, phrases in meanings.items():
            for phrase in phrases:
                assert seen.setdefault(phrase, meaning) == meaning, phrase


@pytest.mark.parametrize(
    ("slip", "word"),
    [("plum", "plumb"), ("tlit", "tilt"), ("egde", "edge"), ("bevle", "bevel"),
     ("falt", "flat"), ("folow", "follow"), ("swa", "saw"), ("fourty", "forty"),
     ("sqare", "square"), ("teh", "the"), ("plumber", None), ("rib", None), ("tile", None),
     ("ledge", None), ("was", None), ("still", None), ("xyzzy", None)],
)  # fmt: skip
def test_slips(slip, word):
    assert lexicon().slip_of(slip) == word


def test_mark_does_not_load_the_ear():
    program = (
        "import sys; from lessons.cli.main import run; run(['mark', 'hip-jack']);"
        "sys.exit(any(name.startswith('lessons.settle') for name in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, check=False)
    assert done.returncode == 0


def test_a_word_of_thousands_of_letters_is_no_slip_and_takes_no_memory():
    known = lexicon()  # its own words are not counted
    tracemalloc.start()
    assert known.slip_of("a" * 3000) is None
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < 1_000_000


def test_a_name_that_looks_like_a_slip_is_left_to_who_says_it():
    """A slip is mended; the same word before `says` is somebody's name."""
    assert listen("pitsch 8 in 12").mended == (("pitsch", "pitch"),)
    for said in ("Pitsch says plumb 8 in 12", "Pitsch: says saw 45", "Pitsch, says saw 45"):
        assert listen(said).mended == ()
