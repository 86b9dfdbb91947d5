"""A valley jack whose foot ends inside of the wall's outside, by plan and pitch.

A wing of 12 ft with rafters 16 in on center: the tenth stands with its middle on the inside
corner, 144 in on. The valley runs from there at 45 degrees, 1 1/2 in thick. So its face is reached,
level and from the outside of the wall, 3/4 root 2 in on the jack's middle, 3/4 in less on the face
that lies before the corner, 3/4 in more on the other.
"""

import math
from dataclasses import replace
from functools import cache

import pytest

from layout.answer.answer import answer
from layout.answer.notch_marks import mark_on_face_in
from layout.answer.stop_words import stop_words
from layout.framing.foot_inside import foot_inside_in, foot_inside_words, pieces_inside
from layout.framing.mouth import face_mouths
from layout.framing.roof import TrainingRoof
from layout.job.job import Job
from layout.job.job_roof import find_ends, framed
from lessons.say.words import read_aloud
from tests.drawn_roofs import framed_shape

STRETCH = math.hypot(12, 7) / 12
LEFT, RIGHT = 0.75 * math.sqrt(2) - 0.75, 0.75 * math.sqrt(2) + 0.75
SEAT = 3.5


@cache
def wing() -> TrainingRoof:
    shape = {"size": "32' x 20'", "wing": "12' x 14'", "pitch": "7 in 12", "wing-end": "gable"}
    boards = {"rafter": "2x8", "hip": "2x10", "valley": "2x10", "ridge": "2x10"}
    return framed(Job("yard", {**shape, **boards, "fascia": "1 1/2", "seat": "3 1/2"}))


def test_the_foot_is_found_on_either_face() -> None:
    """Half the wing of 14 ft less half a ridge is 83 1/4 in level, to the head's cut."""
    stick = wing().by_name["VJ1"]
    found = foot_inside_in(stick)
    assert found == pytest.approx((RIGHT * STRETCH, LEFT * STRETCH))
    assert found == pytest.approx((2.096, 0.360), abs=1e-3)
    from_left, from_right = ((83.25 - level) * STRETCH for level in (LEFT, RIGHT))
    assert from_left == pytest.approx(8 * 12, abs=1 / 32)
    assert from_right == pytest.approx(7 * 12 + 10 + 5 / 16, abs=1 / 32)
    said = foot_inside_words(stick)
    assert "2 1/8 in toward the head on the right face, 3/8 in toward the head on the left" in said
    assert "7'-10 5/16\" on the right face, 8'-0\" on the left face." in said
    assert f"VJ-A: {said}" in pieces_inside(wing())
    assert "53 mm toward the head on the right face" in foot_inside_words(stick, metric=True)


def test_a_stick_with_a_tail_or_from_cut_to_cut_says_none() -> None:
    for name in ("C1", "V1", "H1", "R1", "VJ3"):
        assert foot_inside_in(wing().by_name[name]) is None
        assert foot_inside_words(wing().by_name[name]) == ""


def test_its_seat_is_told_on_each_face_and_no_heel() -> None:
    """The common's level seat of 3 1/2 in less what the foot cut takes off its end on each face."""
    stick = wing().by_name["VJ1"]
    sine = 7 / math.hypot(12, 7)
    right, left = face_mouths(stick)
    for face, level in ((right, RIGHT), (left, LEFT)):
        assert face.seat_in == pytest.approx(SEAT - level)
        assert face.notch_in == pytest.approx((SEAT - level) * sine)
        assert face.heel_in is None
        assert face.heel_at_in is None
    (seat,) = find_ends(wing(), "VJ1:seat")
    told = answer(seat)
    for is_left, level in ((False, RIGHT), (True, LEFT)):
        assert mark_on_face_in(told, left=is_left) == pytest.approx(SEAT - level)
    said = read_aloud(told)
    assert "1 11/16 in (1.689) long on the right face, 3 3/16 in (3.189) on the left" in said
    assert "from the bottom edge to the foot cut" in said
    assert "Cut the foot first" in said
    for word in ("FIRST CUT", "SECOND CUT", "common heel", "wall", "inside corner"):
        assert word not in said


def test_a_seat_on_one_face_alone_says_so() -> None:
    """A jack farther up the valley: its foot cut leaves a corner of the seat at the right face and
    passes over all of it at the left."""
    (seat,) = find_ends(framed_shape("a cross"), "VJ7:seat")
    told = answer(seat)
    assert mark_on_face_in(told, left=True) == 0
    assert mark_on_face_in(told, left=False) > 1
    assert "long on the right face, none on the left, from the bottom edge" in read_aloud(told)


def test_a_paper_for_its_seat_has_the_whole_notch() -> None:
    """It is laid on before the foot is cut, and tells the saw to stop at the inside corner."""
    (seat,) = find_ends(wing(), "VJ1:seat")
    laid = answer(seat.before_other_cuts())
    for is_left in (False, True):
        assert mark_on_face_in(laid, left=is_left) == pytest.approx(SEAT)
    assert "stop short of the inside corner" in stop_words(laid)
    assert stop_words(answer(seat)) == ""


def test_every_other_notch_keeps_its_marks_and_cuts() -> None:
    """What is left on the finished stick is the whole mark, where no other cut comes near."""
    for name in ("C1", "H1", "V1", "J3"):
        (seat,) = find_ends(wing(), f"{name}:seat")
        assert seat.stands is not None
        assert seat.stands.gone == ()
        for one in (answer(seat), *answer(seat).others):
            bare = replace(one.question, stands=replace(seat.stands, marks_in=()))
            alone = replace(one, question=bare)
            for is_left in (False, True):
                whole = mark_on_face_in(alone, left=is_left)
                assert mark_on_face_in(one, left=is_left) == pytest.approx(whole, abs=1e-9)
