"""What no board would bear is told, where a saw stops is told, and nothing else is."""

from dataclasses import replace

import pytest

from layout.answer import sense_words as words
from layout.answer import senses as of
from layout.answer.answer import MILLIMETRE_PARTS, Mark
from layout.answer.soundness import doubts
from layout.answer.stop_words import part_in, stop_words
from layout.cuts import Hand
from layout.quantity import nearest, read_length, read_pitch, write_metric
from layout.tools.saw import SawKind, SawLimits
from layout.tools.square import Numbers
from layout.tools.travel import lean
from tests.views_of import one


def test_an_ordinary_cut_raises_no_doubt():
    for name in ("hip-jack", "hip-ridge", "common-seat", "hip-backing", "valley-tail"):
        assert list(doubts(one(name, "8 in 12"))) == []


def test_a_cut_that_runs_down_the_board_is_doubted():
    """A seat at 1 in 12 runs 12 in an inch of depth; over 8 depths is too much, 8 less is not.

    A common's whole level tail: depth / tan slope. 1 1/2 in 12 is just 8 depths.
    """
    for rise, doubted in (("1 1/4", 1), ("1 1/2", 0), ("1 3/4", 0), ("1 15/32", 1)):
        told = list(doubts(one("common-tail-level", f"{rise} in 12")))
        assert len(told) == doubted
    (told,) = doubts(one("common-tail-level", "1 in 12"))
    assert told.startswith("this cut runs 66 in (66.000) along a board 5 1/2 in deep: no rafter")


def test_a_number_at_the_heel_is_doubted():
    """1/4 on the square can be held, 3/16 cannot: said of the mark that needs it, of any plane."""
    plain = one("hip-ridge", "12 in 12")
    for other, mark in ((0.25, 12.0), (12.0, 0.25)):
        small = replace(plain, plane_index=0)
        small.__dict__["face"] = Mark(45.0, 1, Numbers(mark, other, "tongue"))
        assert list(doubts(small)) == []
    for name in ("face", "edge"):
        for pair in ((3 / 16, 12.0), (12.0, 3 / 16)):
            small = replace(plain, plane_index=0)
            small.__dict__[name] = Mark(45.0, 1, Numbers(*pair, "tongue"))
            assert list(doubts(small)) == [
                f"the {name} mark needs 3/16 on the square, too near the heel to hold: lay it out"
                " with a long straightedge"
            ]


def test_where_the_saw_stops():
    """A seat goes through the thickness, up to its inside corner; a valley's hollow tail goes half
    in from each face: 3/4 square to it. Along a blade that leans 45 it is 3/4 root 2:
    a saw set to that square to its shoe would cut 5/16 past the inside corner."""
    seat, tail = one("common-seat"), one("valley-tail", "12 in 12")
    assert part_in(seat) is None
    assert stop_words(seat) == (
        "stop short of the inside corner, finish by handsaw, do not overcut"
    )
    by_hand = SawLimits(depth_in=0.5)
    assert stop_words(replace(seat, limits=by_hand)) == ""
    assert part_in(tail) == pytest.approx(0.75)
    assert stop_words(tail) == (
        "set the saw blade to reach the inside corner only: 3/4 in below the shoe, measured square"
        " to the shoe with the blade tilted"
    )
    assert stop_words(replace(tail, square_parts=MILLIMETRE_PARTS)) == (
        "set the saw blade to reach the inside corner only: 19 mm below the shoe, measured square"
        " to the shoe with the blade tilted"
    )
    assert stop_words(replace(tail, limits=by_hand)) == (
        "go to the inside corner only, 3/4 in from the face, square to it"
    )
    for kind in SawKind:  # a hollow end is sawn from outside with any saw
        known = replace(tail, limits=SawLimits(kind=kind))
        assert stop_words(known) == stop_words(tail)
    for name in ("hip-tail", "hip-jack", "hip-backing"):
        assert part_in(one(name)) is None
        assert stop_words(one(name)) == ""


def test_a_saw_that_would_start_in_the_inside_corner_is_laid_aside():
    """The heel of a hip's seat tilts: a saw that tilts one way goes up it or down it, and only the
    one that comes from the open bottom edge can be started."""
    heel = one("hip-seat").others[0]
    starts = {kind: of.faces(heel)[0].start_from[kind] for kind in SawKind}
    assert {starts[SawKind.BLADE_LEFT], starts[SawKind.BLADE_RIGHT]} == {"bottom", "inside"}
    for kind, start in starts.items():
        said = stop_words(replace(heel, limits=SawLimits(kind=kind)))
        assert said.startswith("go to the inside corner only") == (start == "inside")
        assert ("do not overcut" in said) == (start != "inside")
        way = words.way_name(replace(heel, limits=SawLimits(kind=kind)))
        assert (way == "handsaw") == (start == "inside")


def test_a_jack_s_way_where_to_start_and_what_holds_the_shoe():
    """12 in 12, left hand, by the saw's own frame: on the right face the wide side rides on the
    kept wood. A blade-left saw has it at its right, so it travels down the plumb line."""
    jack = one("hip-jack", "12 in 12")
    right, left = of.senses(jack)["right"], of.senses(jack)["left"]
    assert words.way_name(jack) == "one pass on a face"
    for kind, edge in ((SawKind.BLADE_LEFT, "top"), (SawKind.BLADE_RIGHT, "bottom")):
        known = replace(jack, limits=SawLimits(kind=kind))
        assert words.way_name(known) == f"right face, from the {edge} edge"
        assert words.start_words(right, kind) == f"start at the {edge} edge"
        assert words.travel_words(left, kind) == f"start at the {edge} edge"
    both = "start at the top edge with a blade-left saw, at the bottom edge with a blade-right saw"
    assert words.start_words(right) == both
    any_way = words.start_words(right, SawKind.BOTH_WAYS)
    assert any_way == "start at the end of the line that puts the wide side on the kept wood"
    assert words.wide_words(right) == "wide side of the shoe on the kept wood: the steadier way"
    assert words.wide_words(left) == "wide side of the shoe on the waste, which must be held up"
    tilted = words.wide_words(left, SawKind.BOTH_WAYS)
    assert tilted == "wide side of the shoe on the kept wood: tilt the saw to that side"
    assert words.body_words(right) == "above the board the saw leans over the waste"
    assert words.body_words(left) == "above the board the saw leans over the kept wood"
    deep = replace(jack, limits=SawLimits(tilt_deg=40.0, depth_in=6.5))
    assert words.way_name(deep) == "one pass on the top edge"
    assert words.way_name(replace(jack, limits=SawLimits(depth_in=1.5))) == "half from each face"
    assert words.way_name(replace(jack, limits=SawLimits(depth_in=0.5))) == "handsaw"
    assert words.way_name(one("common-seat")) == "one pass on a face, to the inside corner"


def test_what_just_comes_through_and_where_both_marks_lie():
    """A square end takes the thickness from a face, half of it from each; a notch never has a
    thin margin, since its blade must stop."""
    end, seat = one("common-ridge"), one("common-seat")
    half = replace(end, limits=SawLimits(depth_in=0.8))
    assert words.remaining_words(half) == (
        "mark both faces and saw half from each, tilt 0°, 3/4 in of saw blade below the shoe,"
        " measured along the blade; both faces' marks lie at one place along the board; only just:"
        " it takes 3/4 in of saw blade, this saw has 3/4 in; try the depth on scrap"
    )
    for depth_in, thin in ((1.5, True), (1.5625, True), (1.57, False)):
        for each in (end, seat):
            said = words.margin_words(replace(each, limits=SawLimits(depth_in=depth_in)), 1.5)
            assert (said != "") == (thin and each is end)
    assert words.remaining_words(end) == ""
    rip = replace(one("hip-backing"), limits=SawLimits(depth_in=0.1))
    assert words.remaining_words(rip) == "saw along the gauged lines with a handsaw"


def test_the_hand_the_waste_and_the_long_point():
    jack, seat, backing = (one(n, "12 in 12") for n in ("hip-jack", "common-seat", "hip-backing"))
    stand = "stand at the foot, look toward the head"
    assert words.hand_line(jack) == f"LEFT-HAND cut: {stand}; the cheek faces left."
    assert words.hand_line(backing) == f"LEFT-HAND rip: {stand}; the bevel faces left."
    assert words.hand_line(seat) == "No hand: the cut runs square through the thickness."
    assert words.waste_words(jack) == "The waste lies on the head side of the marks."
    assert words.waste_words(one("hip-tail")) == "The waste lies on the foot side of the marks."
    assert words.waste_words(backing) == "The waste lies on the top edge's side of the bevel."
    assert words.waste_words(seat).startswith("The waste is the notch between both marks")
    assert words.long_point_words(jack, "L") == (
        "on the right face, L past the left face, measured along the board"
    )
    cheek = one("hip-ridge", "12 in 12")
    assert words.long_point_words(cheek, "L") == (
        "between the faces, on the middle of the thickness, L past the left face, measured along"
        " the board"
    )
    unlike = one("hip-ridge", "12 in 12", other_pitch=read_pitch("6"))
    told = words.long_point_words(unlike, "L")
    assert told.startswith("between the faces, on the line ")
    far = told.removeprefix("between the faces, on the line ").partition(" in from the right")[0]
    point = of.long_point(unlike)
    assert point is not None
    assert read_length(far) == nearest(point.y_in, 32)
    metric = words.long_point_words(replace(unlike, square_parts=MILLIMETRE_PARTS), "L")
    assert f"line {write_metric(point.y_in)} from the right face" in metric
    assert words.long_point_words(seat, "L") == ""
    assert words.up_words(jack) == ""
    # A board runs along the eave to its hip, and looks up by the face that is then on top.
    said = [words.up_words(one("roof-board", "12 in 12", hand=hand)) for hand in ("left", "right")]
    assert sorted(said) == [f"In place the {face} face looks up." for face in ("left", "right")]


def test_a_jack_s_blade_below_the_shoe_and_on_the_miter_saw():
    """12 in 12, left hand, n = (1, root 2, -1) / 2: with the left face up and the head at the
    right the top edge is at the near side, and the plane runs back to the right and up to the
    left, both at 45 degrees."""
    jack, end, rip = one("hip-jack", "12 in 12"), one("common-ridge"), one("hip-backing")
    kept = "below the shoe the blade runs in under the kept wood, toward the foot"
    waste = "below the shoe the blade runs in under the waste, toward the head"
    for side, told in (("right", kept), ("left", waste), ("top", kept), ("bottom", waste)):
        assert words.lean_words(of.senses(jack)[side]) == told
        assert words.lean_words(lean(jack.cut.normal, side)) == told
    assert words.blade_words(jack, Hand.LEFT) == waste
    assert words.blade_words(jack, Hand.RIGHT) == kept
    assert words.lean_words(of.senses(end)["right"]) == "the blade stands square to its shoe"
    # A bevel that falls to the left face: from there the blade runs up and out at the top.
    assert words.lean_words(of.senses(rip)["left"]).endswith("under the waste, toward the top edge")
    flat, on_edge = of.miter(jack) or ()
    assert words.miter_words(jack, flat) == [
        "board flat: right face down, bottom edge against the fence",
        "head to your right, waste at your right",
        "table 45° to your right; tilt 45°, blade leaning to your left",
    ]
    assert words.miter_words(jack, on_edge)[0].startswith("board on edge: ")
    square, _ = of.miter(one("common-tail-square")) or ()
    assert words.miter_words(end, square)[2] == "table square; blade upright"
    cheek = replace(one("hip-ridge", "12 in 12"), limits=SawLimits(tilt_deg=30.0))
    assert words.beyond_words(cheek).startswith("out of reach: a tilt of 45° is past the 30°")
