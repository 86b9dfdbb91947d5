"""What a template says, clause by clause, for those cases in which a clause is said or left out.

At 8 in 12 the slope is atan(8/12) = 33.69 degrees; the jack's side-cut number 12 cos 33.69 = 9.985,
its edge mark atan(12 / 9.985) = 50.24 degrees from square. On a hip the slope is atan(8 / sqrt 288)
= 25.24 degrees, the number 12 cos 25.24 = 10.854, the mark 47.87 degrees.
"""

from dataclasses import replace

import numpy as np
import pytest

from figures.wrap import wrap_words as say
from figures.wrap.wrap import lay
from figures.wrap.wrap_blocks import notes
from layout.answer.answer import MILLIMETRE_PARTS, answer
from layout.answer.question import ask
from layout.answer.standing import Standing, Use
from layout.cuts import Hand
from layout.plane.cut import Cut
from layout.quantity import read_pitch
from tests.wraps import answered

JACK = answered("hip-jack", "head")
RIDGE = answered("hip-ridge", "head")
PLUMB = answered("common-ridge", "head")
SEAT = answered("common-seat", "foot")


def metric(one):
    return replace(one, square_parts=MILLIMETRE_PARTS)


def every(one):
    return [one, *one.others]


def stood(one, *uses, **more):
    """The answer as that of a stick's end, with these uses."""
    stands = Standing(one.question.joint, uses or (Use("J", ("J-1",), 0.0, "P"),), **more)
    return replace(one, question=replace(one.question, stands=stands))


@pytest.mark.parametrize(
    ("one", "asked", "said"),
    [
        (JACK, {}, "Made for 1 1/2 x 5 1/2 in. If your board differs by more than 1/16 in, enter"
         " its"
         " size and print again."),
        (JACK, {"few": True}, "Made for 1 1/2 x 5 1/2 in: if yours differs by over 1/16 in,"
         " print for"
         " its size."),
        (JACK, {"shared": True, "few": True}, "Made for 1 1/2 x 5 1/2 in."),
        (metric(answered("hip-jack", "head", stock="38mm x 140mm")), {"few": True},
         "Made for 38 mm x 140 mm: if yours differs by over 1.5 mm, print for its size."),
        (answered("hip-jack", "head", stock="1 33/64in x 5 31/64in"), {"shared": True},
         "Made for 1 33/64 x 5 31/64 in."),
    ],
)  # fmt: skip
def test_the_board_that_a_template_is_made_for(one, asked, said):
    assert say.made_for(one, **asked) == said


def test_what_a_template_is_names_its_hand_and_its_board():
    left = "LEFT-HAND cut: stand at the foot, look toward the head; the cheek faces left."
    made = say.made_for(JACK)
    assert say.what_it_is(JACK) == f"{left} {made}"
    assert say.what_it_is(JACK, study=True) == left
    assert say.what_it_is(JACK, few=True) == f"{left} {say.made_for(JACK, few=True)}"
    assert say.what_it_is(JACK, shared=True) == f"{left} {say.made_for(JACK, shared=True)}"
    # A stick with both cheeks has no hand; a cut of the catalogue is made by hand.
    both = "No hand: both cheeks are on this paper."
    assert say.what_it_is(stood(RIDGE), study=True).startswith(both)
    assert not say.what_it_is(RIDGE, study=True).startswith(both)
    assert not say.what_it_is(stood(JACK), study=True).startswith(both)


FACE = "Face mark 33.69° from square across, top toward the head. Square: 12 on the blade, 8 on the"
FACE += " tongue; mark along the tongue."
SHOE = "Saw, shoe on this face: tilt 45°; below the shoe the blade runs in under the"
FLAT = "Saw, shoe on this face: tilt 0°; the blade stands square to its shoe."


@pytest.mark.parametrize(
    ("planes", "side", "told", "few", "said"),
    [
        ([], Hand.LEFT, None, False, "No line crosses this face."),
        ([JACK], Hand.LEFT, None, False, f"{FACE} {SHOE} waste, toward the head."),
        ([JACK], Hand.RIGHT, None, True, f"{FACE} {SHOE} kept wood, toward the foot."),
        ([JACK], Hand.RIGHT, [JACK], False,
         f"Mark as on the other face. {SHOE} kept wood, toward the foot."),
        ([JACK], Hand.RIGHT, [JACK], True,
         f"Mark as on the other face. {SHOE} kept wood, toward the foot."),
        ([PLUMB], Hand.LEFT, [PLUMB], True, "Mark and saw as on the other face."),
        ([PLUMB], Hand.LEFT, [PLUMB], False, f"Mark as on the other face. {FLAT}"),
        ([PLUMB], Hand.LEFT, None, True, f"{FACE} {FLAT}"),
    ],
)  # fmt: skip
def test_a_face_s_mark_is_told_once_and_its_saw_for_each_shoe(planes, side, told, few, said):
    assert say.face_words(planes, side, told=told, few=few) == said


def test_each_cheek_s_mark_is_told_on_its_own_face_though_both_are_laid_alike():
    """Of a double cheek each face has the mark of one plane; they are mirror images."""
    one, other = every(RIDGE)
    assert say.face_words([other], Hand.LEFT, told=[one]).startswith("Mark as on the other face.")
    assert say.face_words([other, one], Hand.LEFT, told=[one]).count("Mark as on") == 1
    assert "Mark as on" not in say.face_words([other, other], Hand.LEFT, told=[one])
    assert "Mark as on" not in say.face_words([other], Hand.LEFT, told=[one, one])
    _, steep = every(answered("hip-ridge", "head", pitch="12"))
    assert "Mark as on" not in say.face_words([steep], Hand.LEFT, told=[one])


SQUARE = "Square: 10 on the blade, 12 on the tongue; mark along the tongue."
HIP = "47.87° from square across"
HIP_SQUARE = "Square: 10 7/8 on the blade, 12 on the tongue; mark along the tongue. Side-cut number"
HIP_SQUARE += " 10.854."


@pytest.mark.parametrize(
    ("planes", "few", "said"),
    [
        ([PLUMB], False, "Edge mark square across."),
        ([JACK], False, f"Edge mark 50.24° from square across, left end toward the foot. {SQUARE}"
         " Side-cut number 9.985."),
        ([answered("hip-jack", "head", Hand.RIGHT)], True, "Edge mark 50.24° from square across,"
         " left"
         f" end toward the head. {SQUARE} Side-cut number 9.985."),
        (every(RIDGE), False, f"Edge marks {HIP}, from the middle back toward the foot."
         f" {HIP_SQUARE}"),
        (every(answered("hip-tail", "foot")), False,
         f"Edge marks {HIP}, from the middle back toward the head. {HIP_SQUARE}"),
        (every(answered("valley-tail", "foot")), False,
         f"Edge marks {HIP}, from the middle back toward the foot. {HIP_SQUARE}"),
        (every(answered("hip-seat", "foot"))[1:], False,
         f"Edge marks {HIP}, from the middle back toward the foot. {HIP_SQUARE}"),
    ],
)  # fmt: skip
def test_an_edge_s_marks_with_the_end_that_they_lean_to(planes, few, said):
    """A hip's point and a valley's hollow tail have their arrises on either side of the middle."""
    heard = say.edge_words(planes, few=few)
    if planes[0].question.entry.name == "hip-seat":
        assert heard.replace("toward the head", "toward the foot") == said
    else:
        assert heard == said


def test_in_few_words_a_mark_s_mirror_is_only_named():
    seat = every(answered("hip-seat", "foot"))
    long, short = (say.edge_words(seat, few=few) for few in (False, True))
    assert long.count("Side-cut number") == 2
    assert short.count("Side-cut number") == 1
    assert short.count("The same angle, left end toward the") == 1
    assert "The same angle" not in long
    first, _, second = short.partition("The same angle, left end toward the ")
    ends = {first.rpartition("left end toward the ")[2].split(".")[0], second.split(".")[0]}
    assert ends == {"head", "foot"}


STICK = Use("J", ("J-1", "J-2"), 10.0, "the plumb line")
OTHER = Use("K", ("K-1",), -4.0, "the plumb line")


@pytest.mark.parametrize(
    ("uses", "start", "said"),
    [
        ((), 2.0, "For stick J-1. First draw P. Hold the tape at it. The start line stands 2 in"
         " (51 mm)"
         " toward the head from it."),
        ((), -2.0, "For stick J-1. First draw P. Hold the tape at it. The start line stands 2 in"
         " (51 mm)"
         " toward the foot from it."),
        ((), 0.0, "For stick J-1. First draw P. Hold the tape at it. The start line stands at it."),
        ((), None, "For stick J-1."),
        ((STICK,), 2.0, "For sticks J-1, J-2. First draw the plumb line. Hold the tape at it."
         " The start"
         " line stands 12 in (305 mm) toward the head from it."),
        ((STICK, OTHER), 2.0, "For sticks J-1, J-2, K-1. First draw the plumb line. Hold the"
         " tape at it."
         " The start line stands J: 12 in (305 mm) toward the head from it; K: 2 in (51 mm)"
          " toward the"
         " foot from it."),
        ((STICK, replace(OTHER, offset_in=10.0)), 2.0, "For sticks J-1, J-2, K-1. First draw the"
         " plumb"
         " line. Hold the tape at it. The start line stands 12 in (305 mm) toward the head from"
          " it."),
        ((replace(STICK, foot_in=7.1), replace(OTHER, foot_in=3.0, offset_in=10.0)), 2.0, "For"
         " sticks J-1,"
         " J-2, K-1. First draw the plumb line, at least 7 1/8 in from the foot end of the board."
         " Hold the tape at it. The start line stands 12 in (305 mm) toward the head from it."),
    ],
)  # fmt: skip
def test_where_the_start_line_stands_on_a_stick(uses, start, said):
    """Two in from the datum that is drawn first; to the millimeter (1 in is 25.4 mm)."""
    heard = say.stands_words(stood(JACK, *uses), start)
    assert heard == said


def test_no_stick_no_words():
    assert say.stands_words(JACK, 2.0) == ""
    assert say.backing_words(JACK) == ""
    assert say.backing_words(stood(JACK)) == ""


@pytest.mark.parametrize(
    ("one", "few", "said"),
    [
        (SEAT, False, "The notch is drawn 1 3/8 in deep, square to the edge, to show its lines:"),
        (SEAT, True, "Drawn 1 3/8 in deep, square to the edge, to show its lines:"),
        (metric(SEAT), True, "Drawn 35 mm deep,"),
        (stood(SEAT), True, "The notch is 1 3/8 in deep at its deepest, square to the edge, as this"
         " job's seat and height above the plate ask for:"),
    ],
)  # fmt: skip
def test_how_deep_a_notch_is_and_who_decides(one, few, said):
    """A seat is drawn a quarter of 5 1/2 in deep: 1 3/8 in, 34.9 mm."""
    heard = say.notch_words(one, few=few)
    assert heard.startswith(said)
    assert "approved drawings" in heard


BACKING = answered("hip-backing", "foot")
EDGE = answered("sleeper-edge", "foot")


@pytest.mark.parametrize(
    ("planes", "hollow", "said"),
    [
        (every(BACKING), None, "Both bevels meet in the line that stays; all else of this edge"
         " is waste."),
        (every(BACKING), 0.3, "The whole edge is waste: hollow it 5/16 in (0.300) deep under the"
         " thin line."),
        ([metric(one) for one in every(BACKING)], 0.3,
         "The whole edge is waste: hollow it 7.6 mm deep under the thin line."),
        ([EDGE], None, "The whole edge is waste: 1 1/2 in (1.500) across, falling 1 7/16 in (1.439)"
         " toward the left face."),
        ([answered("sleeper-edge", "foot", Hand.RIGHT)], None, "The whole edge is waste: 1 1/2"
         " in (1.500)"
         " across, falling 1 7/16 in (1.439) toward the right face."),
    ],
)  # fmt: skip
def test_what_becomes_of_an_edge_that_is_ripped(planes, hollow, said):
    heard = say.rip_edge_words(planes, hollow)
    assert heard == said


def test_a_gauge_is_set_to_a_thirty_second_or_a_tenth_of_a_millimeter():
    assert say.gauge(0.3) == "5/16 in (0.300)"
    assert say.gauge(1 / 32) == "1/32 in (0.031)"
    assert say.gauge(1.0, metric=True) == "25.4 mm"


@pytest.mark.parametrize(
    ("down", "said"),
    [
        (0.5, "Gauge line 1/2 in (0.500) from the top arris."),
        (0.01, "Gauge line 0 in (0.010) from the top arris."),
        (0.0, "The line is the top arris itself."),
    ],
)
def test_a_gauge_line_is_told_from_its_arris(down, said):
    heard = say.gauge_words([BACKING], Hand.LEFT, down, "top arris")
    assert heard.startswith(f"{said} Saw along it, shoe on this face: tilt 23.09°; below the shoe")


def test_a_line_carried_on_past_the_paper():
    assert say.carry_on_words("top arris", -2.0, "foot") == (
        "The paper stops short: the line ends on the top arris, 2 in (51 mm) from the start line"
        " toward the foot."
    )
    assert "(" not in say.carry_on_words("top arris", 2.0, "head", metric=True)


def test_the_description_says_every_plane_and_the_rip():
    whole = say.description(RIDGE)
    for one in every(RIDGE):
        assert (
            f"Against {one.plane.mate_words}: face 25.24°, edge 10 7/8 shy on 12, tilt 45°."
            in whole
        )
    assert whole.count("Saw tilt 45°, shoe on a wide face.") == 2
    assert whole.count("Face mark 25.24°") == 2
    assert whole.count("Side-cut number 10.854.") == 2
    assert whole.startswith("Full-size template to wrap round a board: hip-ridge, left hand, head.")
    assert say.description(RIDGE, full=False).startswith("Study view of the template to wrap round")
    # A hip's bevels run half of 1 1/2 in across and fall 3/4 in times 8 / sqrt(8^2 + 288).
    rip = say.description(BACKING)
    assert rip.endswith("The bevel runs 3/4 in (0.750) across and falls 5/16 in (0.320).")
    assert "Face mark" not in rip
    assert say.description(metric(BACKING)).endswith(
        "The bevel runs 19.1 mm across and falls 8.1 mm."
    )


@pytest.mark.parametrize(
    ("one", "title"),
    [
        (JACK, "hip-jack, left hand, head"),
        (PLUMB, "common-ridge, head"),
        (BACKING, "hip-backing, left hand, along the board"),
        (answered("hip-seat", "foot"), "hip-seat, foot"),
        (answer(ask("hip-seat", other_pitch=read_pitch("9"), hand=Hand.RIGHT)),
         "hip-seat, right hand, foot"),
    ],
)  # fmt: skip
def test_a_sheet_is_called_by_its_cut_its_hand_and_its_end(one, title):
    assert say.title(one) == title


def test_a_sheet_of_a_stick_is_called_by_its_pieces():
    assert say.title(stood(JACK)).endswith(": J")


def test_what_is_said_of_each_plane_alike_is_said_once():
    def same(one):
        return "alike"

    assert say.each_plane(every(RIDGE), same) == "alike"
    told = say.each_plane(every(RIDGE), lambda one: str(one.plane_index))
    assert told == " ".join(
        f"Against {one.plane.mate_words}: {one.plane_index}" for one in every(RIDGE)
    )
    assert say.each_plane([RIDGE], same) == "alike"


def test_a_bevel_that_starts_on_the_way_is_told_from_the_tape_s_hook():
    one = stood(BACKING, Use("H", ("H-1",), 0.0, "the plumb line"), starts_in=30.0)
    assert say.stands_words(one, None) == (
        "For stick H-1. Hold the tape at the plumb line. The bevel starts 30 in (762 mm) toward the"
        " head from it and runs on to the head."
    )


@pytest.mark.parametrize(
    ("cut", "end", "study", "headings"),
    [
        ("hip-jack", "head", False, ["RIGHT FACE", "TOP EDGE", "LEFT FACE", "THE BOARD", "TO"
         " USE", "BY SAW"]),
        ("hip-jack", "head", True, ["RIGHT FACE", "TOP EDGE", "LEFT FACE", "THE BOARD"]),
        ("common-seat", "foot", False, ["LEFT FACE", "BOTTOM EDGE", "RIGHT FACE", "THE BOARD",
         "TO USE", "BY SAW"]),
        ("hip-backing", "foot", False, ["RIGHT FACE", "TOP EDGE", "LEFT FACE", "THE BOARD", "TO"
         " USE", "BY SAW",
         "END GRAIN"]),
    ],
)  # fmt: skip
def test_the_notes_of_a_wrap_its_surfaces_first(cut, end, study, headings):
    made = notes(lay(answered(cut, end)).laid, study=study)
    assert [note.heading for note in made] == headings
    for note in made:
        about = note.heading not in ("THE BOARD", "TO USE", "BY SAW")
        assert (note.surface is not None) == about
        assert note.cut_by == (note.heading not in ("THE BOARD", "TO USE", "END GRAIN"))
        assert note.spare == (
            (cut == "hip-backing" and about) or note.heading in ("TO USE", "BY SAW")
        )
        if about:
            assert note.surface == ("end" if note.heading == "END GRAIN" else note.heading.lower())


SPAN = np.array([[0.0, 1.5], [0.0, 5.5]])


def test_the_order_of_work_comes_with_the_board_of_a_backed_stick():
    rip = Cut(np.array([0.0, 0.6, 0.8]), np.array([0.0, 1.5, 5.0]), SPAN)
    made = notes(lay(stood(JACK, rips=(rip,))).laid)
    (board,) = (note.text for note in made if note.heading == "THE BOARD")
    assert (
        board.index("For stick J-1.")
        < board.index("Order: 1, plumb line")
        < board.index("Made for")
    )
    assert "1/2 in (0.500) below the top arris of the left face" in board


@pytest.mark.parametrize(("pitch", "beyond"), [("4", True), ("8", False)])
def test_a_rip_that_the_saw_does_not_reach_says_so(pitch, beyond):
    """A valley sleeper's bevel at 4 in 12 is past the 50 degrees that a usual saw tilts."""
    heard = say.gauge_words(
        [answered("sleeper-edge", "foot", pitch=pitch)], Hand.LEFT, 0.5, "arris"
    )
    assert heard.endswith("is past the 50° this saw tilts.") == beyond


def test_each_bevel_of_a_backed_hip_has_a_note_of_its_own():
    laid = lay(RIDGE, backed=True).laid
    told = {note.heading: note.text for note in notes(laid)}
    for side in ("RIGHT", "LEFT"):
        assert told[f"{side} BEVEL"].startswith("On this bevel the mark runs")
    assert "TOP EDGE" not in told


def test_one_paper_s_long_point_is_named_without_its_edge():
    """It folds over one edge: there is no other long point on it to mistake it for."""
    (use,) = (n for n in notes(lay(answered("hip-jack", "head")).laid) if n.heading == "TO USE")
    assert " from the long point, toward the foot" in use.text
    assert "long point at" not in use.text
