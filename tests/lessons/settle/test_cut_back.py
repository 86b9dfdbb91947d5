"""A sawn end read back: from its marks, its long point or its gap to the tilt that was set."""

import json
from math import atan, cos, degrees, radians, sin, sqrt, tan

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.quantity import read_pitch
from lessons.cli.main import run
from lessons.say.hanging import COLUMN
from lessons.settle.cut_back import CutBackError, read_back, read_rip, read_sawn
from lessons.settle.cut_back_words import read_aloud


def jack(pitch="8"):
    return answer(ask("hip-jack", pitch=read_pitch(pitch)))


@pytest.mark.parametrize("number", [8.375, 9.985, 12.0])
def test_the_tilt_follows_from_the_number_on_the_edge(number):
    """The face line (sin a, 0, cos a) and the edge line (-12, number, 0) span the plane: across
    both stands n = (n cos a, 12 cos a, -n sin a), and the tilt is asin of its part along y."""
    slope = atan(8 / 12)
    n = (number * cos(slope), 12 * cos(slope), -number * sin(slope))
    (found,) = read_back(jack(), edge=f"{number} on 12")
    assert found.tilt_deg == pytest.approx(
        degrees(atan(n[1] / sqrt(n[0] ** 2 + n[2] ** 2))), abs=1e-9
    )
    assert found.edge_number == pytest.approx(number)
    assert found.judged.fits == (abs(number - 9.985) < 0.01)
    assert (abs(found.recut_in) < 1e-9) == (number >= 9.985)  # tilted no more than is right


def test_the_long_point_is_the_edge_mark_over_the_thickness():
    by_mark = read_back(jack(), edge="12 on 12")[0]
    by_point = read_back(jack(), long_point_in=1.5)[0]
    assert by_point.normal == pytest.approx(by_mark.normal, abs=1e-12)


def test_a_gap_leaves_two_tilts_and_its_place_one():
    # At the mate a wrong tilt leaves 1.5 |1 - tan(tilt)| cos 45, as the long point is moved.
    low, high = read_back(jack(), gap_in=0.2)
    for one, sign in ((low, 1), (high, -1)):
        assert one.judged.gap_in == pytest.approx(0.2, abs=1e-9)
        made = 1.5 * sign * (1 - tan(radians(one.tilt_deg))) * cos(radians(45))
        assert made == pytest.approx(0.2, abs=1e-9)
    (one,) = read_back(jack(), gap_in=0.2, opens_at="heel")
    assert one.tilt_deg == pytest.approx(high.tilt_deg)
    # A blade that was never tilted leaves 1.5 cos 45; less than a degree, nearly that.
    gap = 1.5 * (1 - tan(radians(0.5))) * cos(radians(45))
    (one,) = read_back(jack(), gap_in=gap, opens_at="long point")
    assert one.tilt_deg == pytest.approx(0.5, abs=1e-6)


def test_several_measurements_are_held_against_each_other():
    """The long point is the thickness over the edge's number: 1.5 x 12 / number."""
    (by_edge,) = read_back(jack(), edge="12 on 12")
    (both,) = read_back(jack(), edge="12 on 12", long_point_in=1.5625)
    assert both.normal == pytest.approx(by_edge.normal)
    low, _ = read_back(jack(), gap_in=by_edge.judged.gap_in)
    assert low.ahead_in == pytest.approx(1.5, abs=1e-6)
    (told,) = read_back(jack(), long_point_in=1.5, gap_in=by_edge.judged.gap_in)
    assert told.tilt_deg == pytest.approx(low.tilt_deg, abs=1e-6)


def test_a_rip_is_read_by_its_breadth_and_its_drop():
    """tan(backing) = rise / sqrt(rise^2 + 288) at a square corner of equal pitches."""
    right = answer(ask("hip-backing", pitch=read_pitch("8")))
    backing = 8 / sqrt(8**2 + 288)
    (shallow, deep) = (read_rip(right, across_in=0.75, drop_in=drop) for drop in (0.25, 0.5))
    assert shallow.tilt_deg == pytest.approx(degrees(atan(0.25 / 0.75)))
    assert shallow.recut_in == pytest.approx(0.75 * backing - 0.25)
    assert deep.recut_in == pytest.approx(0.75 * backing - 0.5)
    assert read_rip(right, across_in=0.75, drop_in=0.75 * backing).judged.fits
    assert deep.mistakes[0].mistake.name == "roof-slope-as-backing"
    with pytest.raises(CutBackError, match="is no rip"):
        read_rip(jack(), across_in=0.75, drop_in=0.25)


def test_the_known_mistake_is_named_and_the_recut_told():
    (found,) = read_back(jack(), edge="12 on 12")
    assert {one.mistake.name for one in found.mistakes} >= {"forty-five-on-edge"}
    # Tilted too little, the long point stays and the short face gives way: nothing is lost there.
    assert found.recut_in == pytest.approx(0.0, abs=1e-9)
    # Tilted too much, the short face is short already: the whole difference is lost.
    (over,) = read_back(jack(), edge="8 on 12")
    assert over.recut_in == pytest.approx(1.5 * (12 / 8 - 1 / cos(atan(8 / 12))), abs=1e-9)


@pytest.mark.parametrize(
    ("measured", "why"),
    [
        ({}, "measure something"),
        (
            {"edge": "35 degrees"},
            "on the edge can be taken two ways; say 35 from square or 55 from square",
        ),
        ({"edge": "9 on 12 gramophone"}, "on the edge: leave out gramophone; say 8 3/8 on 12"),
        ({"face": "9 in 12 gramophone"}, "on the face: leave out gramophone"),
        ({"edge": "fnord"}, "is no mark on the edge"),
        ({"edge": "9 on 12", "gap_in": 0.7}, "do not go together"),
        ({"edge": "9 on 12", "long_point_in": 1.75}, "do not go together"),
        ({"gap_in": 2000.0}, "no tilt leaves so wide a gap"),
        ({"gap_in": 0.0}, "more than nothing"),
    ],
)
def test_what_cannot_be_read_is_refused(measured, why):
    with pytest.raises(CutBackError, match=why):
        read_back(jack(), **measured)


def test_the_command(capsys):
    assert run(["read", "hip-jack", "--pitch", "8", "--edge", "8 3/8 on 12"]) == 0
    out = capsys.readouterr().out
    assert "it was tilted 50.01°" in out
    assert "RECUT" in out
    assert run(["read", "hip-jack", "--edge", "12 on 12", "--json"]) == 0
    (plane,) = json.loads(capsys.readouterr().out)["planes"]
    assert plane["mistakes"][0]["name"] in ("forty-five-on-edge", "side-number-as-tilt")
    assert run(["read", "hip-backing", "--across", "3/4", "--drop", "1/2"]) == 0
    assert "it drops 3/16 in" in " ".join(capsys.readouterr().out.split())
    assert run(["read", "hip-backing", "--drop", "1/2"]) == 2
    assert run(["read", "hip-jack"]) == 2


def test_a_face_mark_alone_is_read_with_the_right_edge_mark():
    """At 8 in 12 the right edge mark is 12 on 12 cos(slope); both lines span the plane."""
    number = 12 * cos(atan(8 / 12))
    for rise in (8, 9):
        slope = atan(rise / 12)
        face = f"{degrees(slope)} degrees from square"
        (found,) = read_back(jack(), face=face)
        n = (number * cos(slope), 12 * cos(slope), -number * sin(slope))
        tilt = degrees(atan(n[1] / sqrt(n[0] ** 2 + n[2] ** 2)))
        assert found.tilt_deg == pytest.approx(tilt, abs=1e-9)
        assert found.judged.fits == (rise == 8)


def told(found):
    """Each margin word of what is read aloud, with its text unwrapped."""
    lines: list[tuple[str, str]] = []
    for line in read_aloud(found).split("\n"):
        margin, text = line[:COLUMN].strip(), line[COLUMN:]
        if margin:
            lines.append((margin, text))
        elif lines:
            lines[-1] = lines[-1][0], f"{lines[-1][1]} {text}"
    return lines


def test_what_is_read_aloud_has_each_part_beside_its_word():
    """At 8 in 12 with 12 on 12 on the edge: tan(tilt) = cos(33.69), so 39.76; half the thickness
    times what the tangents differ would be open, cos 45 of 1 1/2 (1 - cos(33.69)) = 0.178."""
    gap = 1.5 * (1 - cos(atan(8 / 12))) * cos(radians(45))
    words = dict(told(read_back(jack(), edge="12 on 12")))
    assert words["FACE MARK"] == "33.69° from square across"
    assert words["EDGE MARK"] == "45° from square across, side-cut number 12 on 12 (exact 12.000)"
    assert words["SAW"] == "it was tilted 39.76°, shoe on the face"
    assert words["right is"] == "face 33.69°, tilt 45°"
    assert f"({gap:.3f}) open" in words["AT THE MATE"]
    assert words["LOOKS LIKE"].startswith("side number as tilt")
    assert words["or"].startswith("forty five on edge")
    assert words["RECUT"].startswith("it can be recut")
    steep = dict(told(read_back(jack(), edge="7 on 12")))
    assert steep["LOOKS LIKE"] == "none of the mistakes that this program knows"
    assert "off the longest point" in steep["RECUT"]
    fits = dict(told(read_back(jack(), edge="9.985 on 12")))
    assert "RECUT" not in fits
    assert "LOOKS LIKE" not in fits
    square = dict(told(read_back(jack(), edge="2000 on 12")))
    assert square["EDGE MARK"].endswith("from square across")
    two = read_aloud(read_back(jack(), gap_in=0.2))
    assert "The gap alone leaves two" in two
    assert two.count("FACE MARK") == 2
    assert "leaves two" not in read_aloud(read_back(jack(), edge="12 on 12"))


def test_a_rip_read_aloud_says_how_much_farther_it_comes_down():
    """tan 23.1 = 8 / sqrt(8^2 + 288): over 3/4 in that drops 0.3198, 5/16 to the sixteenth."""
    right = answer(ask("hip-backing", pitch=read_pitch("8")))
    shallow = dict(told([read_rip(right, across_in=0.75, drop_in=0.125)]))
    assert shallow["BEVEL"] == f"{degrees(atan(0.125 / 0.75)):.2f}° from square to the face"
    assert shallow["SAW"] == f"it was tilted {degrees(atan(0.125 / 0.75)):.2f}°, shoe on the face"
    assert shallow["right is"] == "tilt 23.09°"
    more = 0.75 * 8 / sqrt(8**2 + 288) - 0.125
    assert f"({more:.3f}) more down the face" in shallow["RECUT"]
    deep = dict(told([read_rip(right, across_in=0.75, drop_in=0.5)]))
    assert "too far down the face" in deep["RECUT"]


def test_a_long_point_is_any_length_from_nothing_up():
    """Level with the other face the edge mark runs square; 1/2 in ahead over 1 1/2 is 18.43."""
    (level,) = read_back(jack(), long_point_in=0.0)
    assert (level.edge_number, level.edge_deg) == (None, 0.0)
    (half,) = read_back(jack(), long_point_in=0.5)
    assert half.edge_deg == pytest.approx(degrees(atan(0.5 / 1.5)))
    assert half.ahead_in == pytest.approx(0.5)
    with pytest.raises(CutBackError, match="0 or more"):
        read_back(jack(), long_point_in=-0.01)


def test_two_measurements_may_be_apart_by_what_a_tape_and_a_mark_are_read_to():
    """Each is read to a sixteenth, so they may be an eighth apart; 12 on 12 is 1 1/2 in ahead."""
    for apart in (0.12, -0.12):
        (one,) = read_back(jack(), edge="12 on 12", long_point_in=1.5 + apart)
        assert one.ahead_in == pytest.approx(1.5)
        with pytest.raises(CutBackError) as told:
            read_back(jack(), edge="12 on 12", long_point_in=1.5 + 1.1 * apart)
        assert "by the edge it is 1 1/2 in (1.500), by the long point it is 1 " in str(told.value)


def test_where_a_gap_opens_is_at_the_long_point_below_the_right_tilt_and_at_the_heel_above():
    """The right tilt is 45: too little leaves the long point open, too much the heel."""
    (little,) = read_back(jack(), gap_in=0.2, opens_at="long point")
    (much,) = read_back(jack(), gap_in=0.2, opens_at="heel")
    assert little.tilt_deg < 45 < much.tilt_deg
    # Square to the cheek a jack's end can gape 1 1/2 cos 45 = 1.06 in with no tilt at all.
    (wide,) = read_back(jack(), gap_in=1.05, opens_at="long point")
    assert 0 < wide.tilt_deg < 1
    with pytest.raises(CutBackError, match="so wide a gap"):
        read_back(jack(), gap_in=1.07, opens_at="long point")
    with pytest.raises(CutBackError, match="has no long point"):
        read_back(answer(ask("common-ridge")), gap_in=0.2)


@pytest.mark.parametrize(("across_in", "drop_in"), [(0.0, 0.25), (-0.5, 0.25), (0.75, -0.01)])
def test_a_bevel_has_a_breadth_and_drops(across_in, drop_in):
    rip = answer(ask("hip-backing", pitch=read_pitch("8")))
    with pytest.raises(CutBackError, match="a breadth over the edge"):
        read_rip(rip, across_in=across_in, drop_in=drop_in)
    assert read_rip(rip, across_in=0.5, drop_in=0.0).tilt_deg == 0


def test_an_end_that_was_sawn_along_the_right_mark_is_read_by_its_tilt():
    (found,) = read_sawn(jack(), 30.0)
    assert found.tilt_deg == pytest.approx(30)
    assert found.face_deg == pytest.approx(degrees(atan(8 / 12)))
    (square,) = read_sawn(jack(), 0.0)
    assert square.tilt_deg == pytest.approx(0)
    for beyond in (-0.5, 89.5):
        with pytest.raises(CutBackError, match="no saw tilts"):
            read_sawn(jack(), beyond)
    with pytest.raises(CutBackError, match="a rip has no end"):
        read_sawn(answer(ask("hip-backing")), 30.0)
    with pytest.raises(CutBackError, match="a rip has no end"):
        read_back(answer(ask("hip-backing")), edge="12 on 12")


def test_a_number_on_the_edge_is_said_up_to_a_thousand_on_12():
    for number, shown in ((999.5, True), (1000.5, False)):
        words = dict(told(read_back(jack(), edge=f"{number} on 12")))
        assert ("side-cut number" in words["EDGE MARK"]) == shown


def test_a_recut_that_takes_what_reads_as_no_sixteenth_loses_nothing():
    """Sawn past the right 9.985 on 12, the longest point loses 1.5 x 12 (1 / number - 1 / 9.985).
    Half a sixteenth is 0.03125: less would be told as 0 in."""
    right = 12 * cos(atan(8 / 12))
    strict = answer(ask("hip-jack", pitch=read_pitch("8")), tolerance_in=0.0001)
    for loses_in, shown in ((0.0310, "which loses nothing"), (0.0315, "takes 1/16 in")):
        number = 18 / (18 / right + loses_in)
        (found,) = read_back(strict, edge=f"{number:.6f} on 12")
        assert found.recut_in == pytest.approx(loses_in, abs=1e-5)
        assert shown in dict(told([found]))["RECUT"]


def test_what_is_read_aloud_begins_with_the_cut_and_where_it_is():
    end = read_aloud(read_back(jack(), edge="12 on 12")).splitlines()
    assert end[0].startswith("hip-jack, head; 8 in 12")
    right = answer(ask("hip-backing", pitch=read_pitch("8")))
    rip = read_aloud([read_rip(right, across_in=0.75, drop_in=0.5)]).splitlines()
    assert rip[0].startswith("hip-backing, along the board; 8 in 12")
