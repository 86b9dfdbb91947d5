"""Small sentences, many of them in pairs that differ by a word, each with all that it is heard as.

Every reading stands in `readings.csv` with its notes, other ways, sides and words left out, as a
carpenter would take it (common practice, no source); numbers to four places. What is refused
stands with the words that stopped it, why, and the sentence offered instead. The roof is 8 in 12
at a square corner, the board a 2x6.
"""

import csv
import re
from functools import cache
from itertools import groupby
from pathlib import Path

import pytest

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.quantity import read_pitch
from lessons.settle.claim import Claim, write_claim
from lessons.settle.ear.heard_reading import Reading
from lessons.settle.ear.hearing import Heard, hear
from lessons.settle.ear.paste import shortened

FILE = Path(__file__).with_name("readings.csv")
LONG_NUMBER = re.compile(r"\d+\.\d{5,}")


def rows() -> list[dict[str, str]]:
    lines = [line for line in FILE.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


@cache
def right(cut: str) -> Answer:
    return answer(ask(cut, pitch=read_pitch("8")))


def told(claim: Claim) -> str:
    return LONG_NUMBER.sub(lambda number: f"{float(number[0]):.4f}", write_claim(claim))


def reading_words(one: Reading) -> str:
    words = " + ".join(told(claim) for claim in one.claims)
    words += "".join(f" ~ {told(claim)}" for claim in one.otherwise)
    words += "".join(f" [{note}]" for note in one.notes)
    return words + "".join(f" <{side}>" for side in one.unplaced)


def heard_words(heard: Heard) -> str:
    """All that was made of a claim, in one line."""
    words = " | ".join(reading_words(one) for one in heard.readings)
    if not heard.readings:
        words = f"? {heard.quoted}: {heard.why}"
    words += f" => {heard.paste}" * bool(heard.paste)
    words += "".join(f" without {word}" for word in heard.left_out)
    words += "".join(f" not {word}" for word in heard.denied)
    words += "".join(f" {said} for {taken}" for said, taken in heard.mended)
    return f"{heard.rule}: {words}" if heard.rule else words


CASES = {
    f"{cut} {at}": alike[at : at + 80]
    for cut, alike in (
        (cut, list(group))
        for cut, group in groupby(
            sorted(rows(), key=lambda row: row["cut"]), lambda row: row["cut"]
        )
    )
    for at in range(0, len(alike), 80)
}


@pytest.mark.parametrize("case", CASES)
def test_each_sentence_is_heard_as_it_is_meant(case):
    for row in CASES[case]:
        said = row["said"].replace("\\n", "\n")
        assert heard_words(hear(said, right(row["cut"]))) == row["heard"], said


@pytest.mark.parametrize(
    ("corner", "said", "heard"),
    [
        (90, "8 on 17", "plumb 8 in 17"),
        (90, "8 on 16", "edge 8 on 16 mark 16"),
        (95, "8 on 17", "edge 8 on 17 mark 17"),
        (88, "8 on 17", "edge 8 on 17 mark 17"),
        (135, "octagon, saw 45", "saw 45 ~ shoe on the edge, tilt 45"),
        (134, "octagon, saw 45", "? octagon: this corner is no octagon's"),
    ],
)
def test_what_is_said_of_a_corner_is_held_to_its_angle(corner, said, heard):
    """12 over the sine of half the corner: 16.97 at 90 degrees, 16.3 at 95 and 17.3 at 88; the
    walls of an octagon meet at 135 degrees."""
    hip = answer(ask("hip-ridge", pitch=read_pitch("8"), corner_deg=corner))
    assert heard_words(hear(said, hip)) == heard


@pytest.mark.parametrize(
    ("cut", "pitch", "corner", "said", "heard"),
    [
        ("hip-ridge", "8", 95, "plumb 8", "plumb 8 in 12 | plumb 8 in 16.2761"),
        ("hip-ridge", "8", 90, "plumb 8", "plumb 8 in 12 | plumb 8 in 17"),
        ("hip-ridge", "8", 135, "plumb 8", "plumb 8 in 12 | plumb 8 in 13"),
        ("common-ridge", "16", 90, "plumb 16", "plumb 16 in 12"),
        (
            "common-ridge", "16", 90, "plumb 18",
            "plumb 18 in 12 | face 18° from square, top to head",
        ),
        ("common-seat", "12", 90, "level 12", "level 12 in 12"),
        ("common-seat", "12", 90, "level 45", "face 45° from square, top to foot"),
        (
            "hip-jack", "4", 45, "side-cut number 27 1/2",
            "edge 27 1/2 on 12 [the side-cut number, 23.59°]",
        ),
        (
            "hip-jack", "8", 135, "half the corner, 67.5",
            "saw 67 1/2 ~ shoe on the edge, tilt 67 1/2 [half the corner]",
        ),
    ],
)  # fmt: skip
def test_a_number_alone_is_what_this_roof_makes_it(cut, pitch, corner, said, heard):
    """A hip's run is 12 over the sine of half the corner: 16.276 at 95 degrees, 12.99 at 135.

    A jack at a corner of 45 degrees, 4 in 12, has 12 cos(18.435) tan(67.5) = 27.48 on 12: past the
    blade of any square.
    """
    right = answer(ask(cut, pitch=read_pitch(pitch), corner_deg=corner))
    assert heard_words(hear(said, right)) == heard


def test_what_is_too_long_to_be_a_claim_is_refused_with_its_first_hundred_letters():
    heard = hear("saw 45 " * 300, right("hip-jack"))
    assert (heard.readings, heard.paste) == ((), "")
    assert heard.text == heard.quoted == "saw 45 " * 14 + "sa..."
    assert heard.why == "a claim of 2099 letters is none"
    assert shortened("s" * 100) == "s" * 100
    assert shortened("s" * 101) == "s" * 100 + "..."
    assert heard.offer.startswith("say it like this, with a number for each N: ")
