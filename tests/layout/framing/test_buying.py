"""Boards to buy for a whole roof: the trim among them, and equal boards on one line."""

from collections import Counter
from functools import cache

import pytest

from layout.framing.buying import boards_to_buy, equal_boards, trim_boards
from layout.framing.cutlist import BoardRow, piece_groups, piece_rows
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofPlan
from layout.framing.trim import trim_rows, usual_courses
from layout.stock import read_stock

RAKES = "rake board (3/4 in thick)"


@cache
def yard() -> TrainingRoof:
    return frame(RoofPlan(288, 192, ends=("hip", "gable"), rake_overhang_in=12.0, spacing_in=48))


def test_fascias_and_rakes_are_among_the_boards_to_buy() -> None:
    """By hand: the hipped end's fascia 16 ft and two overhangs of 12 in, in one board of 18 ft; the
    long ones, 24 ft + 12 in + 11 1/4 in, in two of 14; a rake 9 ft level, 10.82 ft on the slope."""
    rows = [row for row in boards_to_buy(yard()) if row.stock.startswith(("fascia", "rake"))]
    fascias = {row.pieces: (row.length_in / 12, row.note) for row in rows if "fascia" in row.pieces}
    assert fascias["left fascia"] == (18, "")
    assert fascias["front fascia part 1 of 2"][0] == 14
    assert "join on a rafter's tail" in fascias["back fascia part 2 of 2"][1]
    rakes = {row.pieces: row.length_in / 12 for row in rows if row.stock == RAKES}
    assert rakes == {"right rake under front": 12, "right rake under back": 12}
    cut = Counter()
    for _, board in trim_boards(yard()):
        for piece in board.pieces:
            cut[piece.name.partition(" part ")[0]] += piece.length_in
    assert sorted(cut.values()) == pytest.approx(sorted(r.length_in for r in trim_rows(yard())))


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
