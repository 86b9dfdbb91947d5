"""Boards to buy for a whole roof: the trim among them, and equal boards on one line."""

import re
from collections import Counter
from dataclasses import replace
from functools import cache

import pytest

from layout.framing.buying import boards_to_buy, equal_boards, trim_boards, trim_name
from layout.framing.cutlist import BoardRow, piece_groups, piece_rows
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofPlan
from layout.framing.trim import trim_rows, usual_courses
from layout.quantity import read_pitch
from layout.stock import read_stock

RAKES = "rake board (3/4 in thick, up to 7 1/4 in wide)"


@cache
def yard() -> TrainingRoof:
    return frame(RoofPlan(288, 192, ends=("hip", "gable"), rake_overhang_in=12.0, spacing_in=48))


def test_fascias_and_rakes_are_among_the_boards_to_buy() -> None:
    """By hand: the hipped end's fascia 16 ft and two overhangs of 12 in, in one board of 18 ft; the
    long ones, 24 ft + 12 in + 11 1/4 in, in two that meet on a tail; a rake 9 ft level, 10.82 ft on
    the slope and 7 1/4 x 8 / 12 in more for its plumb ends."""
    rows = [row for row in boards_to_buy(yard()) if row.stock.startswith(("fascia", "rake"))]
    fascias = {row.pieces: (row.length_in / 12, row.note) for row in rows if "fascia" in row.pieces}
    assert fascias["left fascia"] == (18, "")
    rakes = {row.pieces: row.length_in / 12 for row in rows if row.stock == RAKES}
    assert rakes == {"right rake under front": 12, "right rake under back": 12}
    cut = Counter()
    for _, board in trim_boards(yard()):
        for piece in board.pieces:
            cut[re.sub(r" \d of \d .*", "", piece.name)] += piece.length_in
    assert cut == pytest.approx({trim_name(row): row.blank_in for row in trim_rows(yard())})
    assert cut["right rake under back"] == pytest.approx(108 * 13**0.5 / 3 + 7.25 * 2 / 3)


def test_a_fascias_parts_meet_on_the_middle_of_a_tail() -> None:
    """28 by 18 ft at 7 in 12 with an end of 9 in 12, rafters 16 in on center from the end common.
    That one stands over 9 ft x 7 / 9 = 84 in from the hipped corner, so tails lie at 84 + 16 k. The
    front fascia begins 16 x 7 / 9 = 12.444 in farther left and ends 7 1/4 past the gable: 355.694
    in. Its half, 177.847, lies between the tails at 84 + 80 + 12.444 = 176.444 and 192.444."""
    plan = RoofPlan(336, 216, read_pitch("7"), end_pitch=read_pitch("9"), ends=("hip", "gable"),
                    overhang_in=16.0, rake_overhang_in=8.0, spacing_in=16)  # fmt: skip
    roof = frame(plan)
    parts = {piece.name: piece.length_in for _, board in trim_boards(roof) for piece in board.pieces
             if piece.name.startswith("front fascia")}  # fmt: skip
    (first, one), (second, two) = sorted(parts.items())
    assert (one, two) == pytest.approx((176.4444, 355.6944 - 176.4444), abs=1e-4)
    tail = first.rpartition("to the tail of ")[2].rstrip(")")
    assert first == f"front fascia 1 of 2 (14'-8 7/16\" to the tail of {tail})"
    assert second == f"front fascia 2 of 2 (14'-11 1/4\" from the tail of {tail})"
    wood = roof.by_name[tail].corners
    foot = wood[wood[:, 1] < wood[:, 1].min() + 1e-6]
    assert foot[:, 0].mean() == pytest.approx(84 + 80), "its wood, from the left wall's outside"
    assert foot[:, 1].mean() == pytest.approx(-(16 - 0.75)), "on the back of the fascia"


def test_a_back_fascia_is_counted_from_its_left_as_seen_from_outside() -> None:
    """Seen from behind, the gable is at the left: its part there is the front's second."""
    names = [piece.name for _, board in trim_boards(yard()) for piece in board.pieces]
    first, second = sorted(name for name in names if name.startswith("back fascia"))
    tail = re.search(r"to the tail of (\w+)\)", first)
    assert tail is not None
    assert f"from the tail of {tail[1]})" in second
    (one,) = [p.length_in for _, b in trim_boards(yard()) for p in b.pieces if p.name == first]
    x = yard().by_name[tail[1]].corners[:, 0].mean()
    assert one == pytest.approx(288 - x + 12 - 0.75)


def test_fascias_without_tails_are_made_of_equal_parts() -> None:
    """Without an overhang no tail carries the joint: 24 ft, in two of 12."""
    flush = frame(replace(yard().plan, overhang_in=0.0, rake_overhang_in=0.0))
    rows = [row for row in boards_to_buy(flush) if "front fascia" in row.pieces]
    assert [(row.pieces, row.length_in) for row in rows] == [
        (f"front fascia part {k} of 2", 144.0) for k in (1, 2)
    ]
    assert all(row.note.endswith("join over a support") for row in rows)


def test_equal_boards_stand_on_one_line_and_none_is_lost() -> None:
    rows = boards_to_buy(yard())
    names = {s.name: mark for mark, those in piece_groups(yard()).items() for s in those}
    lines = equal_boards(rows, names)
    assert sum(line.count for line in lines) == len(rows)
    assert len(lines) < len(rows)
    cut: Counter[str] = Counter()
    for line in lines:
        assert line.count == len(line.sticks)
        for each in line.each.split(", "):
            times, x, piece = each.partition(" x ")
            cut[piece if x else each] += line.count * (int(times) if x else 1)
    for row in piece_rows(yard()):
        parts = cut[f"1 of 2 equal parts of {row.mark}"]
        assert cut[row.mark] + parts / 2 == row.count, row.mark


def test_like_pieces_of_a_board_are_counted() -> None:
    rows = tuple(BoardRow("2x6", 144.0, names, 2.0) for names in ("J1, C7, J2", "J4, J3, C8"))
    pieces = {**dict.fromkeys(("J1", "J2", "J3", "J4"), "J-A"), "C7": "C-B", "C8": "C-B"}
    assert {line.each for line in equal_boards(rows, pieces)} == {"2 x J-A, C-B"}


def test_roof_boards_over_the_eave_reach_the_fascias_outside() -> None:
    """On the slope 12 in is 14.422: one board of 7 1/4 in and a strip of 7.172. The lowest edge of
    that strip is as long as the fascia: course by course, against the fascia's own corners."""
    fascias = {row.side: row.length_in for row in trim_rows(yard()) if row.board == "fascia"}
    for row in usual_courses(yard()):
        assert row.overhang_courses == 1
        assert row.strip_in == pytest.approx(12 * (12**2 + 8**2) ** 0.5 / 12 - 7.25)
        down = row.overhang_courses + row.strip_in / row.board_in
        covered = 0.75 if "square" in (row.left_cut, row.right_cut) else 0.0  # the rake board
        edge = row.eave_in - row.change_in * down
        assert edge == pytest.approx(fascias[row.side] + covered, abs=1e-3), row.side


def test_metric_boards_are_sold_by_300_millimeters() -> None:
    """A hipped end of 4 m: its fascia, two overhangs of 300 mm longer, in a board of 4.8 m."""
    mm = 1 / 25.4
    plan = RoofPlan(6000 * mm, 4000 * mm, ends=("hip", "gable"), overhang_in=300 * mm,
                    spacing_in=1200 * mm, rafter=read_stock("45mm x 145mm"))  # fmt: skip
    rows = boards_to_buy(frame(plan), metric=True)
    lengths = {round(row.length_in * 25.4, 6) for row in rows}
    assert all(length % 300 == pytest.approx(0) and 2400 <= length <= 6000 for length in lengths)
    (left,) = [row for row in rows if row.pieces == "left fascia"]
    assert left.length_in * 25.4 == pytest.approx(4800)
    assert left.stock == "fascia (19 mm thick)"
    long = frame(RoofPlan(400, 400, spacing_in=96, hip=read_stock("2x12")))
    noted = [row for row in boards_to_buy(long, metric=True) if "longest stock" in row.note]
    assert noted
    assert all("6000 mm" in row.note and row.length_in * 25.4 % 300 < 1e-6 for row in noted)
