"""What a piece's sheet and its templates say: how far the saw goes, on which saw, in which order.

The values are worked by hand beside each check, from the pitch and the board's size alone.
"""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from figures.ink.paper import read_paper
from figures.packet.making import Making
from figures.packet.packet import saw_named
from figures.packet.stick_sheet import against, end_name, saw_words, stick_sheet
from figures.wrap import wrap_words
from figures.wrap.wrap_sawing import saw_heading, saw_kinds, sawing_words
from layout.answer.answer import answer
from layout.answer.stop_words import part_in, stop_words
from layout.framing.cutlist import piece_groups, piece_rows
from layout.framing.ends import distinct_ends, end_question
from layout.framing.mouth import face_mouths
from layout.job.job import Job
from layout.job.job_roof import framed
from layout.tools.saw import SawKind

HIP_SLOPE = 8 / np.hypot(12, 12)


@cache
def yard():
    return framed(Job("yard", {"size": "24' x 16'"}))


def told(question, kind=SawKind.BLADE_LEFT):
    one = answer(question)
    return replace(one, limits=replace(one.limits, kind=kind))


def made(kind=SawKind.BLADE_LEFT):
    return Making(yard(), read_paper("Letter"), "8 in 12", lambda q: told(q, kind))


def planes(stick, place, kind=SawKind.BLADE_LEFT):
    first = told(end_question(yard().by_name[stick], place, yard().by_name), kind)
    return {one.plane.mate_name: one for one in (first, *first.others)}


def test_a_hips_heel_says_how_deep_the_blade_may_stand():
    """Two cheeks at 45 meet on the middle of 1 1/2 in: 3/4 in square, whatever the blade's tilt."""
    heels = planes("H1", "seat")
    left, right = heels["wall at the left face"], heels["wall at the right face"]
    assert part_in(left) == pytest.approx(0.75)
    said = saw_words(left)
    deep = "3/4 in below the shoe, measured square to the shoe with the blade tilted"
    assert deep in said
    assert "1 1/16" not in said
    assert "stop short of the inside corner, finish by handsaw, do not overcut" in said
    by_hand = saw_words(right)
    assert "use a handsaw" in by_hand
    assert "inside corner only, 3/4 in" in by_hand
    assert "shoe on" not in by_hand
    wrapped = sawing_words(left)
    assert deep in wrapped
    assert "1 1/16" not in wrapped
    assert stop_words(planes("H1", "head")["common C1"]) == ""
    assert part_in(planes("C1", "seat")["wall"]) is None, "a common's heel goes square through"
    assert "do not overcut" in stop_words(planes("C1", "seat")["wall"])


def test_directions_for_one_saw_name_it():
    assert saw_heading("By saw", {SawKind.BLADE_LEFT}) == "By saw, with a blade-left saw"
    assert saw_heading("By saw", {None}) == "By saw" == saw_heading("By saw", set(SawKind))
    assert "blade-right saw" in saw_named(SawKind.BLADE_RIGHT)[0]
    assert saw_named(None) == []
    head = planes("H1", "head")["common C1"]
    alone = replace(head, question=replace(head.question, stands=None))
    assert saw_heading("BY SAW", saw_kinds(head)) == "BY SAW, with a blade-left saw"
    assert saw_heading("BY SAW", saw_kinds(alone)) == "BY SAW"


def test_a_hips_papers_come_before_its_backing():
    """The backing falls 0.320 in at 8 in 12 on a 1 1/2 in hip: 5/16 in as gauged to 1/32 in."""
    said = wrap_words.backing_words(planes("H1", "head")["common C1"])
    places = [said.index(part) for part in ("plumb line", "papers", "gauge lines", "back the top")]
    assert places == sorted(places)
    assert "unbacked" in said
    assert "5/16 in (0.320) below the top arris on either face" in said


def test_a_hips_mouth_is_told_as_it_is_marked():
    """A square corner: on either face the heel lies half the thickness nearer the head, level."""
    level = 0.75
    along = level * np.hypot(1, HIP_SLOPE)
    right, left = face_mouths(yard().by_name["H1"])
    assert right.heel_at_in == pytest.approx(along, abs=1e-9) == left.heel_at_in
    assert right.seat_in == pytest.approx(7.9302 - level, abs=1e-3)
    assert right.heel_in == pytest.approx(right.seat_in * HIP_SLOPE, abs=1e-9)
    common = face_mouths(yard().by_name["C1"])
    assert [side.heel_at_in for side in common] == pytest.approx([0, 0], abs=1e-9)
    row = next(row for row in piece_rows(yard()) if row.mark == "H-A")
    words = sheet_words(row)
    assert "heel line leaves the top edge 13/16 in from the plumb line toward the head" in words
    assert "heel 3 3/8 in plumb, seat 7 3/16 in level" in words
    # 7.1802 in level times the sine of the slope, 8 over the root of 12 12 + 12 12 + 8 8
    assert "seat 7 3/16 in level, notch 3 1/16 in deep square to the edge" in words
    on_middle = 7.9302 * 8 / np.sqrt(12**2 + 12**2 + 8**2)
    assert on_middle == pytest.approx(3 + 3 / 8, abs=1 / 32)
    assert "plumb, notch 3 3/8 in deep square to the edge" in words.split("On the middle")[1]


def sheet_words(row):
    pages = stick_sheet(made(), row, piece_groups(yard())[row.mark])
    labels = [label.text for page in pages for label in page.drawing.labels]
    text = " ".join(" ".join(labels).split())
    return text.translate(PLAIN)


PLAIN = str.maketrans("¹²³⁴⁵⁶⁷⁸⁹⁰₁₂₃₄₅₆₇₈₉₀⁄\u00a0", "12345678901234567890/ ")


def test_the_plumb_line_stands_so_far_from_the_boards_end():
    """A plumb tail: the overhang less the fascia on the slope, and the depth's lower corner.

    (12 - 3/4) / cos + 5 1/2 * 8/12 = 17.187 in, up to the next sixteenth.
    """
    assert yard().by_name["C1"].foot_reach_in == pytest.approx(
        11.25 * np.hypot(1, 8 / 12) + 5.5 * 8 / 12
    )
    ends = distinct_ends(piece_groups(yard()), yard().by_name)
    said = {q.entry.name: wrap_words.stands_words(told(q), 0.0) for q in ends}
    assert "at least 17 3/16 in from the foot end" in said["C1:head"]
    assert "at least 21 1/16 in from the foot end" in said["H1:head"]
    assert "Hook" not in said["H1:head"]


def test_a_pieces_cuts_name_no_neighbor_that_only_one_stick_has():
    hips = piece_groups(yard())["H-A"]
    assert [against(made(), hips, "head", k) for k in (0, 1)] == [
        "common at the right face",
        "common at the left face",
    ]
    assert against(made(), hips, "seat", 0) == "plate"
    assert against(made(), hips[:1], "seat", 0) == "plate P1"
    heel = planes("H1", "seat")["wall at the left face"]
    assert end_name(hips[0], "seat", heel) == "heel"
    tail = planes("H1", "foot")["fascia"]
    assert end_name(hips[0], "foot", tail) == "tail"


def test_titles_and_piece_names_cannot_be_taken_for_sticks():
    groups = piece_groups(yard())
    assert not any(name.endswith(("-I", "-O")) for name in groups)
    ends = distinct_ends(groups, yard().by_name)
    titles = {q.entry.name: wrap_words.title(told(q)) for q in ends}
    assert titles["H1:head"] == "Head, both cheeks: H-A"
    assert titles["J1:seat"] == "Bird's mouth: J-A to J-K, C-A"
    assert titles["J1:head"] == "Head, left hand: J-A to J-E"
    head = told(next(q for q in ends if q.entry.name == "H1:head"))
    assert wrap_words.what_it_is(head).startswith("No hand: both cheeks are on this paper.")


def test_a_jack_whose_foot_takes_its_heel_away_tells_none():
    """VJ1's middle stands on the inside corner, 9 x 16 in on; the valley's face cuts it 3/4 root 2
    in, level, from the outside of the wall: 0.311 in on the left face, 1.811 in on the right. That
    much of the common's 3 1/2 in is gone: 3.189 and 1.689 in are left, and no heel."""
    shape = {"size": "32' x 20'", "wing": "12' x 14'", "pitch": "7 in 12", "seat": "3 1/2"}
    shape["wing-end"] = "gable"
    boards = {"rafter": "2x8", "hip": "2x10", "valley": "2x10", "ridge": "2x10"}
    roof = framed(Job("yard", {**shape, **boards, "fascia": "1 1/2"}))
    jack = Making(roof, read_paper("Letter"), "7 in 12", told)
    row = next(row for row in piece_rows(roof) if row.mark == "VJ-A")
    pages = stick_sheet(jack, row, piece_groups(roof)[row.mark])
    labels = " ".join(label.text for page in pages for label in page.drawing.labels)
    text = " ".join(labels.split()).translate(PLAIN)
    assert "on the right face seat 1 11/16 in level, notch 7/8 in deep square to the edge" in text
    assert "on the left face seat 3 3/16 in level, notch 1 5/8 in deep square to the edge" in text
    assert "The foot cut takes the heel away." in text
    assert "through the point 6 3/8 in below the top edge" in text
    assert "2 1/8 in toward the head on the right face, 3/8 in toward the head on the left" in text
    assert "inside corner" not in text
    assert "heel wall" not in text
    assert text.count("heel") == 1
    # The side view shows the right face: its own seat is dimensioned there.
    assert '1 11/16"' in text
    assert '3 3/16"' not in text
