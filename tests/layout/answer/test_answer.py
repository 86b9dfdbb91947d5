"""What is said about a cut: marks, settings, sides in words, and both verdicts."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.errors import LayoutError
from layout.quantity import read_pitch
from layout.stock import read_stock
from layout.tools.fit import SOUND_IN
from layout.tools.saw import SawLimits
from layout.tools.setting import ByHand, RipByHand
from tests.counts import count
from tests.second_way import Roof, cut_board, second_way

RIPS = {"hip-backing", "valley-backing", "sleeper-edge"}
SETTINGS = settings(derandomize=True, max_examples=count(200, 6), deadline=None)
EVERY_END = [(name, end) for name, entry in catalogue().items() for end in entry.ends]
pitches = st.floats(0.5, 24.0).map(lambda rise: read_pitch(f"{rise:.6f}"))
hands = st.sampled_from(list(Hand))


def answers(question):
    cuts = question.joint.cuts(question.stock)
    return [Answer(question, cuts, plane_index) for plane_index in range(len(cuts))]


def jack(pitch="12 in 12", hand=Hand.LEFT, **more):
    return answer(ask("hip-jack", pitch=read_pitch(pitch), hand=hand), **more)


def test_the_jack_at_12_in_12_read_aloud():
    """Common practice, no source: 12 and 12 on the face, 12 and 8 1/2 on the edge, saw at 45."""
    said = jack()
    np.testing.assert_allclose(said.cut.normal, [0.5, 0.5**0.5, -0.5])
    assert (said.face.numbers.mark, said.face.numbers.other) == pytest.approx((12, 12))
    assert (said.edge.numbers.mark, said.edge.numbers.other) == pytest.approx((12, 72**0.5))
    assert said.edge.numbers.as_read().other == 8.5
    assert said.edge.from_square_deg == pytest.approx(54.7356, abs=1e-4)
    assert said.edge.bevel_deg == pytest.approx(35.2644, abs=1e-4)
    assert said.cut.face_tilt_deg == pytest.approx(45)
    assert said.cut.edge_tilt_deg == pytest.approx(30)
    assert said.hand is Hand.LEFT
    assert said.face.lean == 1  # the top runs on toward the head
    assert said.edge.lean == -1  # a left cheek is short at the left
    assert said.runs_under_waste == -1
    assert said.long_minus_short_in == pytest.approx(1.5 * 2**0.5)
    assert said.runs_down_face_in == pytest.approx(5.5)
    assert said.stick_slope_deg == pytest.approx(45)
    assert isinstance(said.hand_setting(as_read=False), ByHand)
    assert not said.is_rip
    assert said.by_hand.sound
    assert said.by_saw.sound
    assert said.agree


def test_the_jack_at_12_in_12_as_it_is_read():
    """By hand: 8 1/2 for 8.4853 brings the left on by 1.5 (root 2 - 12/8.5); square, half that.

    The saw's settings, 45 and 12 on 12, stand on the tools as they are: no gap.
    """
    said = jack()
    by_hand = 0.5 * 1.5 * (2**0.5 - 12 / 8.5)
    assert said.by_hand.read.widest_in == pytest.approx(by_hand, abs=1e-12)
    assert said.by_saw.read.widest_in == pytest.approx(0, abs=1e-12)
    assert said.by_hand.good_enough
    strict = jack(tolerance_in=by_hand - 1e-6)
    assert strict.by_hand.sound
    assert not strict.by_hand.good_enough
    assert strict.by_saw.good_enough
    assert not strict.agree
    assert jack(tolerance_in=by_hand + 1e-6).agree


def test_a_tilt_is_read_off_the_saw_s_own_scale():
    """A jack at 12 in 12 beside 11 in 12, by hand: f = atan(11/12), 42.51, is on no scale.

    Over the thickness the plane set at t stands off by tan t, square to the face line; the
    right one by tan t0: a gap of cos t0 |tan t0 - tan t| over the thickness.
    """
    question = ask("hip-jack", pitch=read_pitch("12"), other_pitch=read_pitch("11"))
    tilt = float(answer(question).cut.face_tilt_deg)
    assert tilt == pytest.approx(np.degrees(np.arctan(11 / 12)))
    for step, set_to in ((0.5, 42.5), (1.0, 43.0), (5.0, 45.0)):
        said = answer(question, limits=SawLimits(step_deg=step))
        gap = (
            1.5
            * np.cos(np.radians(tilt))
            * abs(np.tan(np.radians(tilt)) - np.tan(np.radians(set_to)))
        )
        assert said.by_saw.read.widest_in == pytest.approx(gap, abs=1e-12)
        assert said.by_saw.sound


@pytest.mark.parametrize(("name", "end"), EVERY_END)
@SETTINGS
@given(pitches, pitches, hands, st.booleans(), st.integers(-80, 80))
def test_both_methods_are_sound_for_every_cut(name, end, pitch, other, hand, rolled, roll):
    """At any pitch, hand and roll; and what is said of sides and lengths is so on the board."""
    entry = catalogue()[name]
    try:
        question = ask(
            name,
            pitch=pitch,
            other_pitch=other,
            hand=hand,
            end=end,
            corner_deg={"valley": 260.0, "nothing": 90.0}.get(entry.meets, 100.0),
            roll_deg=roll / 2 if rolled and name not in RIPS else 0.0,
        )
    except LayoutError:
        return
    first, *_ = said = answers(question)
    if not rolled and entry.two_hands:
        assert first.hand in (hand, None)
    for each in said:
        if abs(each.cut.normal[0]) < 1e-3 and not each.is_rip:
            continue  # a cut that runs two hundred feet down the board
        assert each.by_hand.sound
        assert each.by_saw.sound
        if not each.is_rip:
            assert each.fit(each.edge_saw_setting()).widest_in < SOUND_IN
        _sides_are_as_said(each)


def _sides_are_as_said(said):
    cut, stock = said.cut, said.question.stock
    t, d = stock.thickness_in, stock.depth_in
    if said.is_rip:
        assert said.face.runs_along
        assert said.edge.runs_along
        assert said.long_minus_short_in == said.runs_down_face_in == 0
        return
    at = {(y, z): float(cut.x_at(y, z)) for y in (0.0, t) for z in (0.0, d)}
    assert said.face.lean == _way(at[0.0, d] - at[0.0, 0.0])
    assert said.edge.lean == _way(at[t, d] - at[0.0, d])
    assert said.runs_down_face_in == pytest.approx(abs(at[0.0, d] - at[0.0, 0.0]), abs=1e-9)
    assert said.long_minus_short_in == pytest.approx(abs(at[t, 0.0] - at[0.0, 0.0]), abs=1e-9)
    # with the shoe on the right face, the blade's far edge comes out at the left face
    toward_head = at[t, 0.0] - at[0.0, 0.0]
    assert said.runs_under_waste == _way(toward_head) * (1 if cut.at_head else -1)
    # a left cheek faces left: its wood is short at the left
    wood_is_short_at_left = toward_head * (1 if cut.at_head else -1) < 0
    if said.hand is not None:
        assert (said.hand is Hand.LEFT) == wood_is_short_at_left


def _way(shift):
    return 0 if abs(shift) < 1e-9 else int(np.sign(shift))


@SETTINGS
@given(pitches, pitches, hands)
def test_what_is_read_on_the_square_gapes_as_a_plane_through_read_lines_does(pitch, other, hand):
    """The gap as read, rebuilt: a plane whose leans are the two fractions, slid home."""
    said = answer(ask("hip-jack", pitch=pitch, other_pitch=other, corner_deg=90.0, hand=hand))
    n, stock = said.cut.normal, said.question.stock
    leans = []
    for mark in (said.edge, said.face):
        pair = mark.numbers.as_read()
        leans.append(mark.lean * pair.mark / pair.other)
    clearance = []
    for y in (0.0, stock.thickness_in):
        for z in (0.0, stock.depth_in):
            mate = -(n[1] * y + n[2] * z) / n[0]
            clearance.append(mate - (leans[0] * y + leans[1] * z))
    gap = n[0] * (max(clearance) - min(clearance))
    assert said.by_hand.read.widest_in == pytest.approx(gap, abs=1e-9)


def test_a_hip_s_marks_are_laid_with_its_own_run():
    """8 in 12: 8 on 17 for the plumb cut, 17 on 8 for the seat (16.97); any handbook's rule."""
    ridge, seat = (answer(ask(name)) for name in ("hip-ridge", "hip-seat"))
    plumb, level = ridge.face.numbers, seat.face.numbers
    assert (plumb.mark, plumb.other) == pytest.approx((8, np.sqrt(288)))
    assert (level.mark, level.other) == pytest.approx((np.sqrt(288), 8))
    assert (level.mark_arm, level.other_arm) == ("blade", "tongue")
    common = answer(ask("common-seat")).face.numbers
    assert (common.mark, common.other) == pytest.approx((12, 8))


def test_a_mark_that_all_but_lies_at_the_slope_keeps_its_own_numbers():
    """Rolled by a hair, the mark is not the slope's any more, and a sound method must know it."""
    for name in ("hip-ridge-single", "hip-ridge", "hip-jack"):
        for roll in (1e-6, 6e-8, 1e-9):
            said = answer(ask(name, pitch=read_pitch("1 in 12"), roll_deg=roll))
            assert said.by_hand.sound
            assert said.by_saw.sound


def test_a_square_line_needs_no_numbers():
    said = answer(ask("common-tail-square"))
    assert said.face.numbers is None
    assert said.edge.numbers is None
    assert said.face.lean == said.edge.lean == 0
    assert (said.face.from_square_deg, said.edge.from_square_deg) == (0.0, 0.0)
    assert said.hand is None
    assert said.runs_under_waste == 0
    assert said.face.legs(as_read=True) == (0.0, 1.0)


def test_a_hip_s_backing_is_gauged():
    """12 in 12: tan d = sin h = 1/root 3, 30 degrees; over 3/4 the edge drops 0.433."""
    for hand in Hand:
        own, other = answers(ask("hip-backing", pitch=read_pitch("12 in 12"), hand=hand))
        for said, side in ((own, hand), (other, hand.other)):
            assert said.is_rip
            assert said.hand is side
            gauged = said.hand_setting(as_read=False)
            assert isinstance(gauged, RipByHand)
            assert gauged.across_in == pytest.approx(0.75)
            assert gauged.drop_in == pytest.approx(0.75 / 3**0.5)
            assert gauged.top == 1
            assert gauged.right == (1 if side is Hand.RIGHT else -1)
            assert said.hand_setting(as_read=True).drop_in == 14 / 32
            assert said.edge_saw_setting() is None
            assert said.face.runs_along
            assert said.face.legs(as_read=False) == (1.0, 0.0)
            # gauged to 14/32 for 13.86/32
            assert said.by_hand.read.widest_in == pytest.approx(
                (14 / 32 - 0.75 / 3**0.5) * np.cos(np.radians(30)), abs=1e-3
            )


@pytest.mark.parametrize("name", ["hip-ridge", "hip-ridge-single", "hip-to-hip", "hip-tail"])
@SETTINGS
@given(pitches, pitches, hands)
def test_marks_on_a_backed_edge_are_those_of_a_backed_solid(name, pitch, other, hand):
    """A hip backed and then cut, both in the world. Library: manifold3d.

    The mark is the line between the cut surface and each bevel, from square across the board.
    """
    roof = Roof(pitch.rise / pitch.run, other.rise / other.run, 95.0)
    end = catalogue()[name].ends[0]
    stick, bevels = second_way(name, end, roof, hand.sign), None
    for side in (1.0, -1.0):  # the backing of the same stick: same axes
        backing = second_way("hip-backing", "foot", roof, side)
        if np.allclose(backing.axes, stick.axes):
            bevels = backing
    if not (stick.reaches and bevels is not None and bevels.reaches):
        return
    if abs(stick.normals[0][0]) < 0.1:
        return  # a cut longer than the solid
    stock = read_stock("2x6")
    size = (stock.thickness_in, stock.depth_in)
    question = ask(name, pitch=pitch, other_pitch=other, corner_deg=95.0, hand=hand)
    wood = cut_board(bevels, size)
    normal = stick.planes[0][0]
    wood = wood.trim_by_plane(tuple(-normal), 0.0)
    mesh = wood.to_mesh64()
    points = np.asarray(mesh.vert_properties)[:, :3] @ stick.axes.T
    on_cut = np.abs(points @ (stick.axes @ normal)) < 1e-9
    marks = {mark.side: mark for mark in answer(question).backed_edges}
    assert set(marks) == set(Hand)
    for bevel in bevels.normals:
        level = bevel @ [0, size[0] / 2, size[1]]
        line = points[on_cut & (np.abs(points @ bevel - level) < 1e-9)]
        along = line[np.argsort(line[:, 1])]
        run = along[-1] - along[0]
        assert np.ptp(line[:, 1]) == pytest.approx(size[0] / 2)  # over its half of the edge
        off = np.degrees(np.arctan2(abs(run[0]), np.hypot(run[1], run[2])))
        side = Hand.LEFT if bevel[1] > 0 else Hand.RIGHT
        assert marks[side].from_square_deg == pytest.approx(off, abs=1e-6)
        assert marks[side].lean == np.sign(run[0])


def test_a_backed_edge_is_marked_otherwise_than_a_square_one():
    said = answer(ask("hip-ridge", pitch=read_pitch("12 in 12")))
    left, right = (mark.from_square_deg for mark in said.backed_edges)
    assert abs(left - float(said.cut.edge_mark_deg)) > 1
    assert abs(right - left) > 1
    assert answer(ask("hip-jack")).backed_edges == ()


def test_an_answer_is_about_the_plane_that_was_asked_for():
    question = ask("hip-ridge", other_pitch=read_pitch("10 in 12"))
    cuts = question.joint.cuts(question.stock)
    assert answer(question).cut.normal.tolist() == cuts[0].normal.tolist()
    second = Answer(question, cuts, 1)
    assert second.cut is cuts[1]
    assert second.hand is Hand.RIGHT
    assert second.by_hand.sound
    assert second.by_saw.sound
    assert [other.plane_index for other in second.others] == [0]
    assert answer(ask("hip-jack")).others == ()
