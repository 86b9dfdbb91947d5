"""How long a notch's marks are, against right triangles worked out by hand."""

import math
from dataclasses import replace

import pytest

from layout.answer.answer import answer
from layout.answer.notch_marks import mark_on_face_in
from layout.answer.question import ask
from layout.cuts import Hand
from layout.job.job import Job
from layout.job.job_roof import find_ends, framed
from layout.quantity import read_pitch
from lessons.say.words import read_aloud
from tests.second_way import Roof, cut_board, second_way, surfaces


def test_a_commons_seat_is_as_long_as_its_level_run():
    """The seat is level from the outside of the wall in; the heel is plumb, seat x tan slope."""
    roof = framed(Job("yard", {"size": "16' x 10'", "spacing": "48in", "seat": "3 1/2"}))
    (seat,) = find_ends(roof, "C1:seat")
    told = answer(seat)
    for one, long in ((told, 3.5), (told.others[0], 3.5 * 8 / 12)):
        for left in (False, True):
            assert mark_on_face_in(one, left=left) == pytest.approx(long, abs=1e-9)


def test_a_hips_seat_ends_at_each_faces_own_heel():
    """On the face y from the middle the heel stands y / tan 45 past the line of the walls, level.

    So with equal pitches both faces bear one length, shorter than on the middle by half the
    thickness.
    """
    roof = framed(Job("yard", {"size": "16' x 10'", "spacing": "48in"}))
    stick = roof.by_name["H1"]
    (seat,) = find_ends(roof, "H1:seat")
    one = answer(seat)
    along = [mark_on_face_in(one, left=left) for left in (False, True)]
    assert along[0] == pytest.approx(along[1], abs=1e-9)
    # the bearing's level length on a face of the solid, from its own corners
    plane = next(p for p in stick.planes if p.says == "hip-seat")
    points = [p for area in stick.surfaces(plane) for p in stick.in_board(area)]
    on_face = [p for p in points if abs(p[1]) < 1e-9]
    reach = max(math.dist(p, q) for p in on_face for q in on_face)
    assert along[0] == pytest.approx(reach, abs=1e-9)


def test_a_framed_valleys_seat_is_one_cut_and_both_its_heels_are_told():
    """7 in 12 and a square corner: the valley's notch is a seat and a heel for either wall.

    Plumb, the 2x10 measures its depth by the valley's slope, 7 over 12 root 2; the height above
    plate is the 2x8 common's. The rest is the heel, on the middle of the thickness, and the seat
    that runs in to it. On either face the heel lies half the thickness nearer the foot, level,
    so the seat's mark is 3/4 in longer there: 9.609 in.
    """
    shape = {"size": "32' x 20'", "wing": "12' x 14'", "pitch": "7 in 12", "spacing": "48in"}
    boards = {"rafter": "2x8", "hip": "2x10", "valley": "2x10", "fascia": "1 1/2"}
    roof = framed(Job("yard", {**shape, **boards}))
    (seat,) = find_ends(roof, "V1:seat")
    first = answer(seat)
    told = [one.plane.mate_name for one in (first, *first.others)]
    assert told[1:] == ["wall at the left face", "wall at the right face"]
    assert told[0].startswith("plate")
    slope = 7 / (12 * math.sqrt(2))
    height = 7.25 * math.hypot(12, 7) / 12 - 3.5 * 7 / 12
    middle = (9.25 * math.hypot(1, slope) - height) / slope
    for left in (False, True):
        assert mark_on_face_in(first, left=left) == pytest.approx(middle + 0.75, abs=1e-9)
    assert middle + 0.75 == pytest.approx(9.609, abs=1e-3)
    said = read_aloud(first)
    assert "9 5/8 in (9.609) long on either face" in said
    assert "THIRD CUT    against the wall at the right face" in said


@pytest.mark.parametrize("name", ["common-seat", "hip-seat", "valley-seat"])
@pytest.mark.parametrize(("own", "other"), [(4, 4), (24, 24), (20, 6)])
@pytest.mark.parametrize("hand", list(Hand))
def test_every_mark_is_as_long_as_the_notch_in_a_solid(name, own, other, hand):
    """Flat and steep roofs, and pitches so unlike that the two faces bear unlike marks.

    The board is notched as a solid by `tests/second_way.py`. Library: manifold3d.
    """
    question = ask(name, pitch=read_pitch(f"{own}"), other_pitch=read_pitch(f"{other}"), hand=hand)
    size = (question.stock.thickness_in, question.stock.depth_in)
    roof = Roof(own / 12, other / 12, question.corner_deg)
    stick = second_way(name, "foot", roof, 1.0 if hand is Hand.LEFT else -1.0)
    found = surfaces(cut_board(stick, size), stick.axes, size)
    first = answer(question)
    for one in (first, *first.others):
        surface = max(found, key=lambda s: float(s.normal @ one.cut.normal))
        for left, at in ((False, 0.0), (True, size[0])):
            line = surface.on(1, at)
            reach = max((math.dist(p, q) for p in line for q in line), default=0.0)
            assert mark_on_face_in(one, left=left) == pytest.approx(reach, abs=1e-7)


@pytest.mark.parametrize(
    ("name", "run", "short"), [("common-seat", 12, 0), ("hip-seat", 288**0.5, 1)]
)
@pytest.mark.parametrize("rise", [8, 24])
def test_a_seat_in_the_board_turned_over_takes_the_rest_of_the_depth(name, run, short, rise):
    """Half a turn opens the notch at the other edge: both marks together cross the face.

    Over the whole depth a level mark runs depth / sin(slope). On a hip's face each of both seats
    ends half the thickness before the middle's does, by tan 45, so a thickness is wanting.
    """
    question = ask(name, pitch=read_pitch(f"{rise}"))
    stock = question.stock
    whole = stock.depth_in * math.hypot(run, rise) / rise - short * stock.thickness_in
    upright, over = answer(question), answer(replace(question, roll_deg=180.0))
    for left in (False, True):
        both = mark_on_face_in(upright, left=left) + mark_on_face_in(over, left=left)
        assert both == pytest.approx(whole, abs=1e-9)


def test_an_end_of_a_board_has_no_such_mark():
    assert mark_on_face_in(answer(ask("hip-jack")), left=True) > 5.5
