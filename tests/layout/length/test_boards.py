"""Pieces laid on boards by hand: longest first, a kerf behind each, no board too long."""

import pytest

from layout.errors import LengthError
from layout.length.boards import Piece, cut_from_stock, usual_lengths

FEET = [96.0, 120.0, 144.0]


def laid(pieces, lengths=FEET, kerf_in=0.125, **more):
    boards = cut_from_stock(
        [Piece(name, length, *longer) for name, length, *longer in pieces], lengths, kerf_in, **more
    )
    return [(board.stock_in, board.names, board.left_in) for board in boards]


def test_the_longest_piece_comes_first_and_boards_are_no_longer_than_need_be():
    """60 and 50 stand on 12 ft with two kerfs; 30 no more: 140.375. It takes a board of its own,
    with 40, 70.125 and a last kerf on 8 ft."""
    pieces = [("D", 30.0), ("B", 60.0), ("C", 50.0), ("A", 70.0)]
    assert laid(pieces) == [
        (144.0, "A, B", 144 - 130.25),
        (96.0, "C, D", 96 - 80.25),
    ]
    assert laid([("B", 60.0), ("A", 60.0)])[0][1] == "A, B"  # of one length, by their names


def test_a_kerf_follows_every_piece_but_the_last_at_the_very_end():
    assert laid([("A", 72.0), ("B", 71.875)]) == [(144.0, "A, B", 0.0)]
    assert [board[1] for board in laid([("A", 72.0), ("B", 71.876)])] == ["A", "B"]
    assert laid([("A", 96.0)]) == [(96.0, "A", 0.0)]
    assert laid([("A", 95.95)]) == [(96.0, "A", 0.0)]
    assert laid([("A", 95.0)]) == [(96.0, "A", 0.875)]
    assert laid([("A", 96.001)])[0][0] == 120.0
    assert laid([("A", 48.0), ("B", 48.0)], kerf_in=0.0) == [(96.0, "A, B", 0.0)]


def test_a_piece_goes_into_the_first_board_that_holds_it():
    boards = laid([("A", 130.0), ("B", 120.0), ("C", 20.0), ("D", 12.0)])
    assert [board[1] for board in boards] == ["A, D", "B, C"]


def test_what_is_longer_than_any_board():
    """A ridge of 300 in is three parts of 100; a hip of 150 is ordered by even feet, 168."""
    (first, second, third), (hip,) = (
        cut_from_stock([Piece("ridge", 300.0, "parts")], FEET),
        cut_from_stock([Piece("hip", 150.0, "order")], FEET),
    )
    names = [first.names, second.names, third.names]
    assert names == ["ridge part 1 of 3", "ridge part 2 of 3", "ridge part 3 of 3"]
    assert {board.stock_in for board in (first, second, third)} == {120.0}
    assert first.pieces[0].length_in == 100.0
    assert first.note == "ridge part 1 of 3: join over a support"
    assert (hip.stock_in, hip.left_in) == (168.0, 168 - 150.125)
    assert hip.note.startswith("longer than the longest stock of 12'-0\": order it")
    assert cut_from_stock([Piece("hip", 150.0, "order")], [120.0, 240.0])[0].note == ""
    assert cut_from_stock([Piece("plate", 144.0, "parts")], FEET)[0].names == "plate"
    (metric,) = cut_from_stock([Piece("hip", 6100 / 25.4, "order")], metric=True)
    assert metric.stock_in == pytest.approx(6300 / 25.4)
    assert "6000 mm" in metric.note
    with pytest.raises(LengthError, match=r"jack takes a board of 12'-1\", and the longest"):
        cut_from_stock([Piece("jack", 145.0)], FEET)
    assert laid([("jack", 144.0)])[0][0] == 144.0


def test_what_is_sold():
    """By even feet from 8 to 20, or by 300 mm from 2.4 to 6 m (common practice, no source)."""
    assert usual_lengths() == (96, 120, 144, 168, 192, 216, 240)
    metric = [round(length * 25.4) for length in usual_lengths(metric=True)]
    assert metric == list(range(2400, 6001, 300))
    assert laid([("A", 100.0)], None)[0][0] == 120.0
    assert laid([("A", 100.0)], None, metric=True)[0][0] == pytest.approx(2700 / 25.4)
    assert laid([("A", 90.0)], [0.0, -5.0, 120.0, 96.0])[0][0] == 96.0
    assert laid([("A", 0.25)], [0.5], 0.0) == [(0.5, "A", 0.25)]
    for lengths, kerf_in in (([], 0.125), ([0.0], 0.125), ([96.0], -0.01)):
        with pytest.raises(LengthError, match="no stock to cut from"):
            laid([("A", 10.0)], lengths, kerf_in)
