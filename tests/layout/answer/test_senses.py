"""The senses of an answer: both hands are mirror images, and a jack's are worked out by hand.

A mirror that exchanges left and right turns a left-hand cut into the right-hand one and a
blade-left saw into a blade-right one; nothing else may change. That is asked of every quantity.
"""

from dataclasses import replace

import numpy as np
import pytest

from layout.answer import sense_words as words
from layout.answer import senses as of
from layout.cuts import Hand, catalogue
from layout.errors import CutError
from layout.stock import read_stock
from layout.tools.saw import SawKind, SawLimits
from layout.vector import angle_deg
from tests.views_of import answers, one

MIRROR = {"left": "right", "right": "left"}
KINDS = {SawKind.BLADE_LEFT: SawKind.BLADE_RIGHT, SawKind.BLADE_RIGHT: SawKind.BLADE_LEFT}
ENDS = [(name, end) for name, entry in catalogue().items() if entry.two_hands for end in entry.ends]
ROOT = 2**0.5


def mirrored(side):
    return MIRROR.get(side, side)


@pytest.mark.parametrize(("name", "end"), ENDS)
def test_both_hands_are_mirror_images(name, end):
    both = (answers((name, end, hand)) for hand in (Hand.LEFT, Hand.RIGHT))
    for left, right in zip(*both, strict=True):
        theirs, thick = of.senses(right), left.question.stock.thickness_in
        for side, ours in of.senses(left).items():
            seen = theirs[mirrored(side)]
            toward = mirrored(seen.toward_side)
            # A square blade's wide side is free, so nothing else may follow from it.
            starts = {
                kind: mirrored(seen.start_from[KINDS.get(kind, kind)]) for kind in ours.start_from
            }
            same = replace(seen, side=side, toward_side=toward, start_from=starts)
            needs, tilt = pytest.approx(ours.needs_in), pytest.approx(ours.tilt_deg)
            assert (same.needs_in, same.tilt_deg) == (needs, tilt)
            assert replace(ours, needs_in=0, tilt_deg=0).__dict__ == (
                replace(same, needs_in=0, tilt_deg=0).__dict__
            )
        assert {mirrored(s.side) for s in of.faces(right)} == {s.side for s in of.faces(left)}
        assert {s.side for s in of.edges(right)} == {s.side for s in of.edges(left)}
        assert of.way(right) == of.way(left)
        assert of.from_both_in(right) == pytest.approx(of.from_both_in(left))
        assert of.slant_in(right) == pytest.approx(of.slant_in(left))
        far, other = of.long_point(left), of.long_point(right)
        assert (far is None) == (other is None)
        if far and other:
            assert (far.y_in, far.past_y_in) == pytest.approx(
                (thick - other.y_in, thick - other.past_y_in)
            )
            assert far.by_in == pytest.approx(other.by_in)
            assert of.face_shift_in(left) == pytest.approx(-of.face_shift_in(right))
        assert (of.miter(left) is None) == (of.miter(right) is None)


def test_a_jack_at_12_in_12_by_hand():
    """Its cheek faces left and down and ends the head: n = (1, root 2, -1) / 2 in the board."""
    jack = one("hip-jack", "12 in 12")
    right, left, top, bottom = (
        of.senses(jack)[side] for side in ("right", "left", "top", "bottom")
    )  # type: ignore[index]
    # The face or edge that the plane faces holds the short point: under the waste, to the head.
    for shows, hides in ((left, right), (bottom, top)):
        assert (shows.below_shoe, shows.toward) == ("under_waste", "head")
        assert (hides.below_shoe, hides.toward) == ("under_kept", "foot")
        assert (shows.wide_side_on, hides.wide_side_on) == ("waste", "kept")
        assert (shows.body_leans_over, hides.body_leans_over) == ("kept", "waste")
        assert shows.toward_side is hides.toward_side is None
    for face in (left, right):
        assert face.on_face
        assert (face.tilt_deg, face.needs_in) == pytest.approx((45, 1.5 * ROOT))
        assert (face.within_tilt, face.within_depth, face.within_reach, face.marked) == (True,) * 4
    for edge in (top, bottom):
        assert not edge.on_face
        assert (edge.tilt_deg, edge.needs_in) == pytest.approx((30, 5.5 / 3**0.5 * 2))
        assert (edge.within_tilt, edge.within_depth, edge.within_reach) == (True, False, False)
    assert [face.side for face in of.faces(jack)] == ["right", "left"]
    assert [edge.side for edge in of.edges(jack)] == ["top", "bottom"]
    assert of.shoe_side(jack) == "right"
    point = of.long_point(jack)
    assert point is not None
    assert (point.y_in, point.past_y_in, point.by_in) == pytest.approx((0, 1.5, 1.5 * ROOT))
    assert of.face_shift_in(jack) == pytest.approx(-1.5 * ROOT)
    assert of.slant_in(jack) == pytest.approx(5.5 + 1.5 * ROOT)
    flat, on_edge = of.miter(jack) or ()
    assert (flat.table_deg, flat.tilt_deg) == pytest.approx((45, 45))
    assert (on_edge.table_deg, on_edge.tilt_deg) == pytest.approx((angle_deg(ROOT, 1), 30))


@pytest.mark.parametrize(
    ("tilt_deg", "depth_in", "how"),
    [
        (50.0, 2.5, "face"),
        (45.0, 1.5 * ROOT, "face"),
        (45.0, 2.0, "both faces"),
        (45.0, 0.75 * ROOT, "both faces"),
        (45.0, 1.0, "handsaw"),
        (40.0, 2.5, "handsaw"),  # not from both faces: the tilt is the same there
        (40.0, 6.5, "edge"),
        (30.0, 11 / 3**0.5, "edge"),
        (29.0, 6.5, "handsaw"),
        (45.0, 0.5, "handsaw"),
    ],
)
def test_the_way_a_saw_reaches_a_jack(tilt_deg, depth_in, how):
    """12 in 12 in a 2x6: 45 deg and 1 1/2 root 2 from a face, 30 deg and 11 / root 3 from an
    edge, half of the face's depth where both faces are sawn. What is just reached is reached."""
    jack = one("hip-jack", "12 in 12")
    said = replace(jack, limits=SawLimits(tilt_deg=tilt_deg, depth_in=depth_in))
    assert of.way(said) == how
    assert of.within_reach(said) == of.joint_within_reach(said) == (how != "handsaw")
    assert of.from_both_in(said) == pytest.approx(0.75 * ROOT)


def test_a_joint_is_reached_where_every_plane_of_it_is():
    """A hip's two cheeks against unlike roofs: one tilts by what the other has to a right angle."""
    first = one("hip-ridge", "12 in 12", other_pitch=one("hip-jack", "5 in 12").question.pitch)
    (second,) = first.others
    tilts = [float(each.cut.face_tilt_deg) for each in (first, second)]
    assert sum(tilts) == pytest.approx(90)
    low, high = sorted(tilts)
    for limit, reached in ((high + 1, True), (high - 1, False), (low - 1, False)):
        limits = SawLimits(tilt_deg=limit, depth_in=5.0)
        for each in (first, second):
            assert of.joint_within_reach(replace(each, limits=limits)) is reached
    shallow = [replace(each, limits=SawLimits(tilt_deg=45.0)) for each in (first, second)]
    assert sorted(of.way(each) != "handsaw" for each in shallow) == [False, True]


def test_two_cheeks_a_notch_and_a_hollow():
    """Each cheek is lined on its own face alone; a notch runs on both ways, a hollow ends."""
    for hand in ("left", "right"):
        first = one("hip-ridge", hand=hand)
        for each in (first, *first.others):
            side = each.hand.value
            assert [face.side for face in of.faces(each)] == [side]
            assert of.shoe_side(each) == side
            assert of.from_both_in(each) is None
            assert [of.is_marked(each, s) for s in ("left", "right")] == [
                side == "left",
                side == "right",
            ]
            assert of.is_marked(each, "top")
            assert of.is_marked(each, "bottom")
    seat, tail, backing = one("common-seat"), one("valley-tail"), one("hip-backing")
    assert [of.is_notch(each) for each in (seat, tail, backing)] == [True, False, False]
    assert [of.is_hollow(each) for each in (seat, tail, backing)] == [True, True, False]
    for each in (seat, tail):
        assert of.edges(each) == ()
        assert of.miter(each) is None
        assert of.from_both_in(each) is None
    assert of.miter(backing) is None
    assert of.long_point(backing) is None
    assert of.slant_in(backing) == 0
    # 12 in 12: the bevel runs 3/4 across and 3/4 / root 3 down, and the blade its whole width.
    bevel = one("hip-backing", "12 in 12")
    through = [of.through_in(bevel.cut, face=face) for face in (True, False)]
    assert through == pytest.approx([0.75, 0.75 / 3**0.5])
    assert {round(each.needs_in, 9) for each in of.senses(bevel).values()} == {
        round(1.5 / 3**0.5, 9)
    }
    marked = {side for side, each in of.senses(bevel).items() if each.marked}
    assert marked == {"left", "top"}
    (face,) = of.faces(backing)
    assert (face.side, face.below_shoe, face.toward) == ("left", "under_waste", None)
    # Square through: the blade stands square, on either side, and is sawn from the open edge.
    for each in of.senses(seat).values():
        if each.on_face:
            assert each.square
            assert each.wide_side_on is None
            assert set(each.start_from.values()) == {"bottom"}


def test_a_rip_that_falls_past_the_board_is_refused():
    """A backing falls over half the thickness by the hip's own slope: 6/17 of 2 in is 0.53 in."""
    steep = one("hip-backing", "24 in 12", stock=read_stock("4in x 1 1/4in"))
    fall = 2.0 * 24 / np.hypot(24, 288**0.5)
    assert of.rip_falls_past(steep) == pytest.approx(fall)
    with pytest.raises(CutError, match="on a board 1 1/4 in deep: it runs out of the board"):
        of.check_rip(steep)
    shallow = one("hip-backing", "6 in 12", stock=read_stock("4in x 1 1/4in"))
    assert of.rip_falls_past(shallow) is None
    of.check_rip(shallow)
    assert of.rip_falls_past(one("hip-jack", "24 in 12")) is None


def test_a_miter_saw_turns_and_tilts_so_far():
    jack = one("hip-jack", "12 in 12")
    flat, on_edge = of.miter(jack) or ()
    for turn, tilt, laid in ((45.0, 45.0, flat), (55.0, 30.0, on_edge)):
        for less_turn, less_tilt, reached in ((0, 0, True), (1, 0, False), (0, 1, False)):
            limits = SawLimits(turn_deg=turn - less_turn, tilt_deg=tilt - less_tilt)
            assert of.miter_reaches(replace(jack, limits=limits), laid) is reached
            assert (words.miter_beyond(replace(jack, limits=limits), laid) == "") is reached


def test_the_saw_that_was_named_is_spoken_of():
    jack = one("hip-jack")
    assert of.one_way(jack) == (SawKind.BLADE_LEFT, SawKind.BLADE_RIGHT)
    for kind in SawKind:
        assert of.one_way(replace(jack, limits=SawLimits(kind=kind))) == (kind,)
