"""What the program prints about a setting is said back to it, and is heard as the same plane.

The reader here is the ear itself; what it must come to is the joint's own plane, within what
printing rounds off (a hundredth of a degree, a 64th of an inch on the square).
"""

import re
from functools import cache

import pytest

from figures.wrap.spread import spread, usual_run
from figures.wrap.wrap_blocks import notes
from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Entry, Hand, catalogue
from layout.errors import LayoutError
from layout.quantity import read_pitch
from lessons.course.lesson import catalog
from lessons.course.runner import asked
from lessons.say.units import System
from lessons.say.words import read_aloud
from lessons.settle.claim import write_claim
from lessons.settle.findings import Finding
from lessons.settle.heard_words import heard_words
from lessons.settle.settle import settle
from lessons.settle.settle_notes import claim_words
from tests.counts import count, part_of

ROOFS = (("8 in 12", None, 0.0), ("5 in 12", "9 in 12", 0.0), ("7 in 12", None, 30.0),
         ("3 in 12", None, 0.0))  # fmt: skip
"""Equal pitches, unequal ones, a corner so many degrees off square, a shallow roof."""
HEADERS = ("FACE MARK", "EDGE MARK", "SAW ", "MITER SAW", "RIP", "LONG POINT")
ELSEWHERE = ("  backed", "  stop", "  reach", "  remains", "  face       the mark is", "  example")
"""Lines about another surface, how deep or how far to saw, or what a saw does not reach."""
PLANES = re.compile(r" (?=Against [^:.]+: )")
ROUNDED_IN = 1 / 64


@cache
def answers(name: str, roofs: int) -> list[Answer]:
    entry = catalogue()[name]
    found = []
    for pitch, other, wider_deg in ROOFS[:roofs]:
        for hand in Hand if entry.two_hands else [Hand.LEFT]:
            for end in entry.ends:
                try:
                    found.append(
                        answer(
                            ask(
                                name,
                                pitch=read_pitch(pitch),
                                other_pitch=read_pitch(other or pitch),
                                corner_deg=_corner_deg(entry, wider_deg),
                                hand=hand,
                                end=end,
                            )
                        )
                    )
                except LayoutError:
                    continue
    return found


def _corner_deg(entry: Entry, wider_deg: float) -> float | None:
    if not wider_deg or entry.meets == "nothing":
        return None
    return entry.usual_corner_deg + wider_deg * (1 if entry.usual_corner_deg < 180 else -1)


def blocks(true_answer: Answer) -> list[str]:
    """The parts of a printed answer that say a setting: a line with its name and those under it."""
    parts: list[list[str]] = []
    for line in read_aloud(true_answer).splitlines()[2:]:
        if not line.strip():
            continue
        if not line.startswith(" "):
            parts.append([])
        if line.startswith(ELSEWHERE):
            continue
        if line.startswith("  or "):
            parts.append([f"SAW {line.strip().removeprefix('or')}"])
        elif parts:
            parts[-1].append(line)
    return ["\n".join(part) for part in parts if part[0].startswith(HEADERS)]


@cache
def heard_blocks(name: str, roofs: int) -> list[tuple[Answer, list[tuple[str, Finding]]]]:
    """Every block of every answer with what is found of it: several tests read the same."""
    return [
        (one, list(zip(said, settle(one, said).findings, strict=True)))
        for one in answers(name, roofs)
        if (said := blocks(one))
    ]


def only_readings(true_answer: Answer, texts: list[str]) -> list[Finding]:
    """What is found of each text, heard together: the known mistakes are worked out once."""
    return [only_one(found) for found in settle(true_answer, texts).findings] if texts else []


def only_one(found: Finding) -> Finding:
    assert len(found.tried) == 1, found
    assert not found.left_out, found
    return found


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_every_part_of_an_answer_is_heard_as_its_own_plane(name):
    said = 0
    for true_answer, told in heard_blocks(name, count(4, 1)):
        if not true_answer.by_hand.good_enough:
            continue  # the numbers to the sixteenth are not the cut's own: the answer says so
        for block, found in told:
            if "out of reach" in block or "between the faces" in block or "past the line" in block:
                continue  # no setting; the point of a double cheek, over half the thickness
            if block.startswith("MITER SAW") and "table" not in block:
                continue
            tried = only_one(found).tried[0]
            assert not tried.reading.unplaced, block
            for part in tried.parts:
                assert part.gap_in < ROUNDED_IN, (block, part)
            said += 1
    assert said


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_what_was_heard_is_heard_again(name):
    """The sentence after *I heard*, said back, is the same reading."""
    for true_answer, told in heard_blocks(name, 1):
        every = [(block, tried) for block, found in told for tried in found.tried]
        back = only_readings(true_answer, [heard_words(true_answer, tried) for _, tried in every])
        for (block, tried), found in zip(every, back, strict=True):
            again = found.tried[0]
            assert len(again.parts) == len(tried.parts)
            for one, other in zip(tried.parts, again.parts, strict=True):
                assert abs(one.setting.normal - other.setting.normal).max() < 3e-4, block


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_what_is_to_be_set_instead_is_heard_and_right(name):
    wrong = ("plumb 9 in 12, saw 20°", "plumb 9 in 12, edge 7 on 12", "rip, saw 40", "bevel 41",
             "shoe on the edge, edge 50° from square, tilt 11°", "level 7 in 12, square across",
             "gauge 3/4 drop 1/2", "board flat: table 20, tilt 33")  # fmt: skip
    for true_answer in answers(name, 1):
        findings = settle(true_answer, wrong).findings
        told = [one for one in findings if one.tried and one.judged.instead is not None]
        back = only_readings(true_answer, [write_claim(one.judged.instead) for one in told])
        for finding, again in zip(told, back, strict=True):
            assert again.judged.fits, (finding.text, again.text)


ANOTHER_LINE = (
    "Mark the building line first.",  # plumb, in the lesson of the level seat
    "The rise stays 8. The run becomes 17.",  # the hip's, in the lesson of two runs
    "For the right cheek lay",
    "The right cheek takes",
)
"""Steps of lessons about another line or cheek than the lesson's own plane."""


def test_steps_of_lessons_are_heard_as_the_lesson_s_own_plane_or_asked_about():
    """Every step with a number in it, in every lesson: read rightly, asked back, or refused."""
    heard, asked_back, refused = 0, 0, 0
    for lesson in catalog().values():
        true_answer = asked(lesson)
        for step in (*lesson.by_hand, *lesson.by_saw):
            text = step.say.fill(true_answer, System.INCH)
            if not step.when.holds(true_answer) or not any(letter.isdigit() for letter in text):
                continue
            (found,) = settle(true_answer, [text]).findings
            if not found.tried or found.left_out:
                refused += 1
                continue
            fits = [all(part.gap_in < 1 / 32 for part in one.parts) for one in found.tried]
            assert any(fits) or text.startswith(ANOTHER_LINE), (lesson.name, text)
            heard += len(fits) == 1
            asked_back += len(fits) > 1
    assert heard >= 85
    assert refused + asked_back <= 45  # other lines, lengths, sums and checks


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_the_labels_of_a_template_are_heard_as_their_own_planes(name):
    """Every note about a surface, as it stands on the paper, a plane at a time.

    A surface that bears one plane's line is read by that plane; one that bears several says
    before each line against what that plane lies.
    """
    said = 0
    for right in answers(name, count(4, 1)):
        told: dict[int, list[str]] = {}
        laid = spread(right, usual_run(right))
        planes = {one.plane_index: one for one in (right, *right.others)}
        mates = [plane.mate_words for plane in right.question.joint.planes]
        for note in notes(laid):
            faces = [one for one in laid.surfaces if one.panel.name == note.surface]
            here = {mark.plane_index for one in faces for mark in one.marks}
            for text in PLANES.split(note.text.split(" The notch is drawn")[0]):
                if note.surface is None or not any(letter.isdigit() for letter in text):
                    continue
                named = [i for i, mate in enumerate(mates) if text.startswith(f"Against {mate}:")]
                own = (named or sorted(here) or [right.plane_index])[0]
                if not planes[own].by_hand.good_enough or "out of reach" in text.lower():
                    continue
                told.setdefault(own, []).append(f"{note.surface}\n{text}")
        for own, texts in told.items():
            for found in only_readings(planes[own], texts):
                assert not found.tried[0].reading.unplaced, found.text
                for part in found.tried[0].parts:
                    assert part.gap_in < ROUNDED_IN, (found.text, part)
                said += 1
    assert said


AT_45 = ("plumb cut, saw 10", "level cut, saw 10", "12 in 12, saw 20", "face 45, saw 20",
         "face mark by the pitch, saw 20", "level 12 in 12, square across", "plumb, edge 7 on 12",
         "12 and 12 on the face, saw 20", "plumb 12 in 17, saw 20", "12 in 12, top to the foot",
         "face 45° from square, top to foot, saw 45", "face 45° from square, top to head",
         "level 12 in 17, saw 45", "face 54.74° from square, saw 20")  # fmt: skip
"""Claims about lines that stand at one angle and lean two ways, where the pitch is 12 in 12."""


RIPS = ("hip-backing", "sleeper-edge", "valley-backing")
ENDING = [name for name in sorted(catalogue()) if name not in RIPS]


@pytest.mark.parametrize("name", part_of(ENDING, 8))
def test_at_45_degrees_no_sentence_takes_plumb_for_level(name):
    """Every reading said as one would say it, and what is to be set instead, keeps its lean."""
    entry = catalogue()[name]
    twelve = read_pitch("12 in 12")
    said = 0
    for end in entry.ends:
        right = answer(ask(name, pitch=twelve, end=end))
        parts = [
            (finding.text, part)
            for finding in settle(right, AT_45).findings
            for tried in finding.tried
            for part in tried.parts
        ]
        back = only_readings(right, [claim_words(right, part.claim) for _, part in parts])
        for (text, part), found in zip(parts, back, strict=True):
            again = found.tried[0].lead
            off = abs(again.setting.normal - part.setting.normal).max()
            assert off < 3e-4, (text, found.text)
            said += 1
        told = [(text, part) for text, part in parts if part.instead is not None]
        better = only_readings(right, [claim_words(right, part.instead) for _, part in told])
        for (text, _), found in zip(told, better, strict=True):
            assert found.judged.fits, (text, found.text)
    assert said


def test_a_line_that_leans_against_its_name_is_refused():
    right = answer(ask("common-seat", pitch=read_pitch("12 in 12")))
    (found,) = settle(right, ["plumb 12 in 12, top to the foot"]).findings
    assert not found.tried
