"""Claims of every kind of talk: read rightly nearly all of them, and none misread.

What each means is written beside it, and its plane and gap are worked out apart from the program
(`apart`). A claim is read rightly when the program finds the same gaps, as many readings and so
the same verdict; misread when it finds others; the rest must be refused with a sentence to paste
that is then read, or asked about with the words quoted that it was heard without. Neither gives
a verdict.
"""

import csv
from collections import Counter
from collections.abc import Iterator
from itertools import groupby
from math import atan, radians
from pathlib import Path

import pytest

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.quantity import read_pitch
from layout.stock import read_stock
from lessons.settle.findings import ClaimVerdict, Finding
from lessons.settle.lengths import Building, length_claim
from lessons.settle.settle import MOST_CLAIMS, settle
from tests.counts import part_of
from tests.lessons.settle.ear.apart import TOLERANCE, Cut, backing_gap, plane, value

FILE = Path(__file__).with_name("claims.csv")
LEAST_READ = 0.999
NOTCHES = ("common-seat",)


def claims() -> list[dict[str, str]]:
    lines = [line for line in FILE.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def alike_rows(rows: list[dict[str, str]]) -> Iterator[list[dict[str, str]]]:
    """The rows about one cut at one pitch, no more at a time than are settled at once."""
    for _, group in groupby(rows, key=lambda row: (row["cut"], row["pitch"])):
        alike = list(group)
        for at in range(0, len(alike), MOST_CLAIMS):
            yield alike[at : at + MOST_CLAIMS]


def right_of(row: dict[str, str]) -> Answer:
    pitch = read_pitch(row["pitch"])
    return answer(ask(row["cut"], pitch=pitch, stock=read_stock("2x6")))


def meaning(text: str) -> list[dict[str, str]]:
    """The readings of a row: `face=8/12 tilt=45 | edge=10/12`."""
    readings = []
    for reading in text.split("|"):
        parts: dict[str, str] = {}
        key = ""
        for word in reading.split():
            if "=" in word:
                key, _, parts[key] = word.partition("=")
            else:
                parts[key] += f" {word}"
        readings.append(parts)
    return readings


def gap_apart(row: dict[str, str], means: dict[str, str]) -> float | None:
    if "gauge" in means:
        across, drop = means["gauge"].split("/")
        return backing_gap(float(row["pitch"]), atan(float(drop) / float(across)))
    if "rip" in means:
        return backing_gap(float(row["pitch"]), radians(value(means["rip"])))
    cut = Cut(row["cut"], float(row["pitch"]))
    made = plane(cut, means)
    return None if made is None else cut.gap(made)


def judged_apart(row: dict[str, str]) -> tuple[str, list[float | None]]:
    """The verdict, and the gap of each reading."""
    gaps = [gap_apart(row, means) for means in meaning(row["means"])]
    if row["heard"] == "open":
        return "open", gaps
    fits = {gap is not None and gap <= TOLERANCE for gap in gaps}
    (fit,) = fits  # every way to take it comes to one verdict
    return ("right" if fit else "wrong"), gaps


def agrees(row: dict[str, str], found: Finding) -> bool:
    """Whether the program's reading comes to the same, seen from its gaps."""
    verdict, gaps = judged_apart(row)
    if found.verdict.value != verdict or len(found.tried) != len(gaps):
        return False
    if row["cut"] in NOTCHES:
        return True  # a notch's part of the depth is the program's own affair; the verdict stands
    seen = sorted(tried.lead.gap_in for tried in found.tried if not tried.lead.lacks_tilt)
    expected = sorted(gap for gap in gaps if gap is not None)
    if len(seen) != len(expected):
        return False
    return all(abs(a - b) < 2e-3 for a, b in zip(seen, expected, strict=True))


def test_there_are_enough_claims_of_every_kind():
    kinds = Counter(row["kind"] for row in claims())
    assert sum(kinds.values()) >= 1400
    assert set(kinds) == {
        "site", "square", "saw", "miter", "degrees", "spoken", "slips", "program", "turned",
    }  # fmt: skip
    assert min(kinds.values()) >= 25


def test_nearly_all_are_read_rightly_and_none_misread():
    rows = sorted(part_of(claims(), 4), key=lambda row: (row["cut"], row["pitch"]))
    rightly, refused, misread = 0, [], []
    for alike in alike_rows(rows):
        right = right_of(alike[0])
        findings = settle(right, [row["said"] for row in alike]).findings
        unread = [one.heard for one in findings if one.verdict is ClaimVerdict.UNREAD]
        pastes = [one.paste or one.form.replace("N", "8") for one in unread]
        pastes = [said for said in pastes if length_claim(said, right, Building()) is None]
        if pastes:
            verdicts = [one.verdict for one in settle(right, pastes).findings]
            assert ClaimVerdict.UNREAD not in verdicts, pastes
        for row, found in zip(alike, findings, strict=True):
            unread = found.verdict is ClaimVerdict.UNREAD or bool(found.left_out)
            if unread if row["heard"] == "unread" else not unread and agrees(row, found):
                rightly += 1
            elif unread:
                assert found.verdict in (ClaimVerdict.UNREAD, ClaimVerdict.OPEN)
                refused.append(row["said"])
            else:
                misread.append((row["cut"], row["pitch"], row["said"], found.verdict.value))
    assert misread == []
    assert rightly >= LEAST_READ * len(rows), refused


ONE_WORD_TURNS = (
    ("hip-jack", "5", "plumb cut at the hip with a 45 on the blade"),
    ("hip-jack", "10", "40 and 45 degrees"),
    ("hip-jack", "8", "half the corner on the table, 45 on the tilt, flat"),
    ("common-ridge", "6", "tongue 6, blade 12, scribe the tongue"),
    (
        "hip-jack",
        "10",
        "side cut is nine and a quarter so I lean the blade nine and a quarter in twelve",
    ),
    (
        "hip-backing",
        "8",
        "RIP a bevel along the top edge; a line on the left face, 5/16 in (0.320) from the top"
        " edge; on edge a line 3/4 in from the left face",
    ),
    ("hip-ridge-single", "5", "seventeen instead of twelve on a hip, and 45 on the saw"),
    ("hip-jack", "5", "saw's tilted to the pitch angle, 22.62"),
)
"""Rows of the file that are always read: each tells of a part of the ear of which no other does."""


def test_claims_that_one_word_turns_are_read_rightly_each_for_itself():
    rows = {(row["cut"], row["pitch"], row["said"]): row for row in claims()}
    for key in ONE_WORD_TURNS:
        row = rows[key]
        (found,) = settle(right_of(row), [row["said"]]).findings
        unread = found.verdict is ClaimVerdict.UNREAD or bool(found.left_out)
        assert unread == (row["heard"] == "unread"), row["said"]
        assert unread or agrees(row, found), row["said"]


@pytest.mark.parametrize("rise", [3, 8, 12, 18])
def test_the_sums_apart_know_the_right_cut(rise):
    """At a square corner a jack takes its plumb line and 45, or 12 cos(slope) on the edge."""
    for name in ("hip-jack", "valley-jack", "hip-ridge-single"):
        cut = Cut(name, rise)
        for means in ({"face": "plumb", "tilt": "45"}, {"face": "plumb", "edge": "own"}):
            made = plane(cut, means)
            assert made is not None
            assert cut.gap(made) < 1e-12
        made = plane(cut, {"face": "plumb", "tilt": "35"})
        assert made is not None
        assert cut.gap(made) > 0.2
