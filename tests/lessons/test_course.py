"""The course: every lesson runs for any roof, board, hand and system, and reads as it should."""

import re
from collections.abc import Iterator
from functools import cache

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from layout.errors import CutError, RoofError
from lessons.course.glossary import glossary
from lessons.course.lesson import catalog
from lessons.course.lesson_file import OF_COURSE
from lessons.course.runner import Worked, asked, run
from lessons.say.blocks import (
    Cautions,
    DrillsBlock,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    Steps,
    Terms,
)
from lessons.say.plain import in_words
from lessons.say.units import System
from tests.counts import count

LESSONS = catalog()


@cache
def taught(name: str) -> Worked:
    """A lesson as it is taught where nothing else is said."""
    return run(LESSONS[name])


TRADE = """
arris, backing, bird's mouth, blade, building line, cheek, common, cripple, deck, drop, eave,
edge mark, face mark, fascia, foot, gauge, head, heel, height above plate, hip, hopper, jack,
kerf, miter, miter saw, pitch, plate, plumb, proud, purlin, inside corner, ridge, rip, rise,
run, seat, sheathing, shoe, shortening, sleeper, sliding bevel, soffit, span, square across,
tail, thickness, tilt, tongue, valley, waste
"""
"""Words that nobody brings along, listed here apart from the course's own glossary."""


def texts(worked: Worked) -> Iterator[str]:
    """Every text of a lesson but its words explained and its cautions."""
    for block in worked.blocks:
        match block:
            case Heading(text, _) | Paragraph(text, _):
                yield text
            case Steps(items):
                yield from (text for text, _ in items)
            case Facts(rows):
                yield from (cell for row in rows for cell in row)
            case Mistaken(title, text, price, _):
                yield from (title, text, price)
            case DrillsBlock(problems):
                for one in problems:
                    yield from (one.ask, one.because, *one.hints, *one.layout)
            case _:
                pass


def terms(worked: Worked) -> dict[str, str]:
    return dict(row for block in worked.blocks if isinstance(block, Terms) for row in block.rows)


def test_the_course_is_in_order_and_covers_the_subject():
    numbers = [lesson.number for lesson in LESSONS.values()]
    assert numbers == list(range(1, len(LESSONS) + 1))
    assert len(LESSONS) >= 20
    cuts = {lesson.entry.name for lesson in LESSONS.values()}
    assert cuts >= {
        "common-ridge", "common-seat", "hip-seat", "hip-ridge", "hip-ridge-single", "hip-jack",
        "hip-backing", "valley-ridge", "valley-jack", "cripple-jack", "purlin-square",
        "fascia-square", "splayed-miter", "deck-valley-jack",
    }  # fmt: skip


@pytest.mark.parametrize("name", LESSONS)
def test_a_lesson_has_all_its_parts(name):
    lesson, worked = LESSONS[name], taught(name)
    assert str(lesson.able.text).startswith("After this lesson you can ")
    assert {drill.kind for drill in lesson.drills} >= set(OF_COURSE)
    costly = [block for block in worked.blocks if isinstance(block, Mistaken)]
    assert len(costly) >= 2, "two mistakes that cost something where nothing else is said"
    assert all(not block.price.startswith("The gap is nothing") for block in costly)
    pictures = [picture for _, picture in _steps(worked) if picture is not None]
    assert len(pictures) >= 3
    assert any(isinstance(block, Cautions) for block in worked.blocks)
    assert lesson.cautions, "and a caution of its own"
    for drill in lesson.drills:
        assert drill.kind != "number" or drill.hints, "a number can be hinted at"


def _steps(worked: Worked) -> Iterator[tuple[str, object]]:
    for block in worked.blocks:
        if isinstance(block, Steps):
            yield from block.items


@pytest.mark.parametrize("name", LESSONS)
def test_every_trade_word_is_explained(name):
    worked = taught(name)
    text = "\n".join(texts(worked))
    said = " ".join(terms(worked)).lower()
    for word in (term.strip() for term in TRADE.replace("\n", " ").split(",")):
        if re.search(rf"\b{word}s?\b", text, re.I):
            assert word in said, f"{word!r} is used and not explained"


def test_the_glossary_explains_nothing_by_itself():
    for term in glossary():
        assert not re.search(rf"\b{re.escape(term.word)}\b", term.means, re.I), term.word
        assert len(term.means.split()) <= 22, term.word


@pytest.mark.parametrize("name", LESSONS)
def test_sentences_are_short(name):
    sentences = [
        sentence
        for text in texts(taught(name))
        for sentence in re.split(r"(?<=[.?!])\s+", text)
        if sentence.endswith((".", "?", "!"))
    ]
    lengths = [len(sentence.split()) for sentence in sentences]
    longest = sentences[lengths.index(max(lengths))]
    assert max(lengths) <= 33, longest
    assert sum(lengths) / len(lengths) <= 14
    for text, _ in _steps(taught(name)):
        assert len(text.split()) <= 42, f"more than one step: {text}"


@pytest.mark.parametrize("name", LESSONS)
def test_it_reads_on_a_terminal(name):
    words = in_words(taught(name).blocks, 80)
    assert all(len(line) <= 80 for line in words.splitlines())
    for part in ("THE SITUATION", "BY HANDSAW", "BY SAW", "DO THEY FIT?", "WORDS", "ANSWERS"):
        assert part in words


PITCHES = st.one_of(
    st.floats(2, 22).map(lambda rise: f"{rise:.2f} in 12"),
    st.integers(10, 65).map(lambda slope: f"{slope} deg"),
    st.integers(200, 1800).map(lambda rise: f"{rise} in 1000"),
)
STOCKS = st.sampled_from(["1x4", "1x8", "2x4", "2x6", "2x12", "4x10", "45mm x 195mm", "1in x 1in"])


@pytest.mark.parametrize("name", LESSONS)
@settings(deadline=None, max_examples=count(100, 3), derandomize=True)
@given(
    pitch=PITCHES,
    other=st.none() | PITCHES,
    turn=st.just(0.0) | st.floats(-40, 50),
    hand=st.sampled_from(["left", "right"]),
    stock=STOCKS,
    system=st.sampled_from(list(System)),
)
def test_a_lesson_runs_for_any_roof_and_board(name, pitch, other, turn, hand, stock, system):
    lesson = LESSONS[name]
    roof = {"pitch": pitch, "hand": hand, "stock": stock}
    if other:
        roof["other_pitch"] = other
    if lesson.entry.meets != "nothing":
        roof["corner"] = f"{lesson.entry.usual_corner_deg + turn:.3f}"
    try:
        asked(lesson, roof)
    except (CutError, RoofError):
        assume(False)
    worked = run(lesson, roof, system)
    text = in_words(worked.blocks, 92)
    assert not re.search(r"[{}]|\bnan\b|\binf\b|None", text)
    if system is System.METRIC:
        shown = "\n".join(texts(worked))
        assert not re.search(r"\d ?in\b(?! \d)|\d'-|\b1/\d", shown), "inches in a metric lesson"
        assert not re.search(r" on 12\b", shown)
    if worked.answer.hand is not None and lesson.entry.two_hands:
        assert f"the cheek faces {hand}" in text.replace("\n", " ").replace("  ", " ") or (
            worked.answer.hand.value == hand
        )


def test_what_holds_only_in_some_roofs_is_said_only_there():
    def words(name: str, **roof: str) -> str:
        return "\n".join(texts(run(LESSONS[name], roof)))

    same = "the same at every pitch"
    assert same in words("hip-jack")
    assert same in words("hip-jack", corner="135")
    assert same not in words("hip-jack", other_pitch="6")
    diagonal = "The hip is its diagonal"
    assert diagonal in words("two-runs")
    assert diagonal not in words("two-runs", corner="120")
    assert diagonal not in words("two-runs", other_pitch="6")
    assert "Set the tilt to 45°" in words("hip-jack")
    past = words("hip-jack", corner="135")
    assert "Set the tilt" not in past
    assert "The tilt is 67.5°, past what this saw reaches" in past
    assert "Half the corner is the tilt, at every pitch" in words("cheek-by-saw", corner="135")
    assert "Up to 1/32 in is allowed." in words("hip-jack")
    assert "not with this saw" in words("skew-corner")
    assert "Cut those by handsaw: most saws tilt to about 50°" in words("unequal-pitches")
    assert "Cut those by handsaw" not in words("unequal-pitches", other_pitch="9")


def test_a_drill_that_cannot_be_asked_is_left_out():
    def kinds(**roof: str) -> int:
        (drills,) = [
            b for b in run(LESSONS["unequal-pitches"], roof).blocks if isinstance(b, DrillsBlock)
        ]
        return len(drills.problems)

    assert kinds() == 5
    # At one pitch nobody takes the other roof's marks, and 45 is right. Off the square no rule of
    # rises holds.
    assert kinds(other_pitch="8 in 12") == 3
    assert kinds(corner="120") == 4


@pytest.mark.parametrize("name", ["hip-jack", "backing-or-dropping", "shortening"])
def test_the_pictures_speak_the_readers_units(name):
    def labels(system: System) -> str:
        worked = run(LESSONS[name], {}, system)
        shown = [picture for _, picture in _steps(worked) if picture is not None]
        shown += [block.picture for block in worked.blocks if isinstance(block, Mistaken)]
        drawn = [picture.draw((5.0, 4.5)) for picture in shown]
        return "\n".join(label.text for drawing in drawn for label in drawing.labels)

    inch, metric = labels(System.INCH), labels(System.METRIC)
    inches = r"[\d₀₁₂₃₄₅₆₇₈₉] in\b"
    assert re.search(inches, inch)
    assert " mm" in metric
    assert not re.search(inches, metric)
    assert ("300 on the" in metric) == ("12 on the" in inch)


@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_face_of_a_fascia_that_is_said_to_show_looks_outward(hand):
    worked = run(LESSONS["fascia"], {"hand": hand})
    (said,) = [text for text in texts(worked) if "is the one that shows" in text]
    corner, pose = worked.answer.question.corner, worked.answer.question.joint.pose
    outward = "left" if float(pose.axes[1] @ corner.inward) < 0 else "right"
    assert f"The {outward} face" in said
    # The long point lies there: the stick's end at that face is farther along.
    y = worked.answer.question.stock.thickness_in if outward == "left" else 0.0
    ends = [float(worked.answer.cut.x_at(at, 0.0)) for at in (y, 0.75 - y)]
    assert ends[0] > ends[1]
