"""A stick's own solid against a library's, and cutting from stock."""

import math
from dataclasses import replace

import numpy as np
import pytest
from shapely import Polygon, unary_union

from layout.errors import LengthError
from layout.framing.stick import Stick, plane_at
from layout.length.boards import Piece, cut_from_stock
from layout.plane.pose import lay
from layout.plane.solid import polygon_area
from layout.stock import read_stock
from layout.vector import Z
from tests.stick_solids import solid

ALONG = np.array([0.6, 0.0, 0.8])


def sloping(*removals: tuple) -> Stick:  # type: ignore[type-arg]
    """A 2x6 from the origin up a 3-4-5 slope, with plumb ends 30 in apart, and more cuts."""
    head = plane_at(np.array([1.0, 0, 0]), np.array([30.0, 0, 0]), "head", "head")
    foot = plane_at(np.array([-1.0, 0, 0]), np.zeros(3), "foot", "foot")
    pose, stock = lay(ALONG, Z), read_stock("2x6")
    origin = -stock.depth_in * pose.up
    return Stick("S", "common", "own", stock, pose, origin, ((head,), (foot,), *removals), 50.0)


CHEEK = plane_at(np.array([1.0, 1.0, 0]) / math.sqrt(2), np.array([25.0, 0, 0]), "cheek", "head")
OTHER = plane_at(np.array([1.0, -1.0, 0]) / math.sqrt(2), np.array([25.0, 0, 0]), "cheek", "head")
SEAT = plane_at(-Z, np.array([0, 0, -2.0]), "seat", "foot")
HEEL = plane_at(np.array([1.0, 0, 0]), np.array([4.0, 0, 0]), "heel", "foot")


@pytest.mark.parametrize(
    "removals", [(), ((CHEEK,),), ((CHEEK,), (OTHER,)), ((CHEEK, OTHER),), ((SEAT, HEEL),)]
)
def test_solid_has_the_volume_of_its_surfaces(removals: tuple) -> None:  # type: ignore[type-arg]
    """By the divergence theorem the sum of area x level over all surfaces is three volumes."""
    stick = sloping(*removals)
    made = solid(stick)
    planes = [*stick.blank, *stick.planes]
    assert stick.exists
    third = sum(p.level_in * _area(stick, p) for p in planes)
    assert third / 3 == pytest.approx(made.volume(), rel=1e-9)
    assert sum(_area(stick, p) for p in planes) == pytest.approx(made.surface_area(), rel=1e-9)


@pytest.mark.parametrize(
    "removals", [((CHEEK, OTHER),), ((SEAT, HEEL),), ((CHEEK,), (CHEEK, OTHER))]
)
def test_a_stick_named_or_mated_is_the_same_wood(removals: tuple) -> None:  # type: ignore[type-arg]
    """What is kept of a stick's shape is what a new stick of those planes would find; one plane
    that two removals share, too."""
    stick = sloping(*removals)
    found = [stick.surfaces(plane) for plane in (*stick.blank, *stick.planes)]
    assert all(found)
    mates = iter("ABCDEFGH")
    named = stick.against(lambda plane: plane.says + next(mates)).called("J1", "hip jack")
    assert (named.name, named.role, named.face) == ("J1", "hip jack", "own")
    given = [plane.mate for removal in named.removals for plane in removal]
    assert given[:2] == ["headA", "footB"]
    assert len(set(given)) == len(given)
    anew = replace(named)
    assert len(named.planes) == len(anew.planes)
    assert [plane.mate for plane in named.planes] == [plane.mate for plane in anew.planes]
    for plane, other in zip(
        (*named.blank, *named.planes), (*anew.blank, *anew.planes), strict=True
    ):
        one, two = named.surfaces(plane), anew.surfaces(other)
        assert [polygon.tobytes() for polygon in one] == [polygon.tobytes() for polygon in two]
    assert named.corners.tobytes() == anew.corners.tobytes()


def _area(stick: Stick, plane) -> float:  # type: ignore[no-untyped-def]
    """Area on a plane; the parts of a hollow overlap, so they are united in the plane's axes."""
    side = np.cross(plane.normal, [0.3, 0.5, 0.8])
    side /= np.linalg.norm(side)
    up = np.cross(plane.normal, side)
    flat = [Polygon(np.stack([p @ side, p @ up], axis=1)) for p in stick.surfaces(plane)]
    return float(unary_union(flat).area)


def test_lengths_along_the_top_edge() -> None:
    stick = sloping()
    assert stick.measured() == stick.end_points("head")
    assert stick.measured().long_in == pytest.approx(50)
    assert stick.blank_in == pytest.approx(50 + 5.5 * 4 / 3)  # the plumb cuts' slant over the depth
    cheeked = sloping((CHEEK,))
    points = cheeked.end_points("head")
    assert points.long_in - points.short_in == pytest.approx(1.5 / 0.6)
    assert points.centre_in == pytest.approx((points.long_in + points.short_in) / 2)


def test_pointed_end_finds_its_point_off_the_arrises() -> None:
    stick = sloping((CHEEK,), (OTHER,))
    points = stick.end_points("head")
    assert points.long_in > max(stick.line_ends(0.0)[1], stick.line_ends(1.5)[1]) - 1e-12
    assert points.long_in == pytest.approx(25 / 0.6, abs=1e-9)


def test_tail_counts_only_where_there_is_a_plate() -> None:
    stick = replace(sloping(), origin=sloping().origin + 10 * ALONG)
    assert stick.tail_in == 0
    assert replace(stick, on_plate=True).tail_in == pytest.approx(10)


def test_nothing_is_left_of_a_stick_cut_away() -> None:
    gone = sloping((plane_at(np.array([1.0, 0, 0]), np.array([-9.0, 0, 0]), "head", "head"),))
    assert not gone.exists
    assert len(gone.corners) == 0
    assert gone.planes == ()


def test_polygon_area_and_outline() -> None:
    square = np.array([[0, 0, 1], [2, 0, 1], [2, 3, 1], [0, 3, 1]], dtype=float)
    assert polygon_area(square) == pytest.approx(6)
    outline = sloping().plan_outline
    assert outline[:, 0].max() == pytest.approx(30)
    assert np.ptp(outline[:, 1]) == pytest.approx(1.5)


# --- boards -----------------------------------------------------------------------------------


def test_boards_hold_their_pieces_and_the_kerfs() -> None:
    pieces = [
        Piece(f"J{i}", length) for i, length in enumerate((90, 70.5, 64, 48, 48, 31, 12, 95.9))
    ]
    boards = cut_from_stock(pieces, [96, 144], 0.125)
    assert sorted(p.name for b in boards for p in b.pieces) == sorted(p.name for p in pieces)
    for board in boards:
        wood = sum(p.length_in for p in board.pieces)
        assert wood + 0.125 * (len(board.pieces) - 1) <= board.stock_in
        assert 0 <= board.left_in <= board.stock_in - wood
    used = sum(b.stock_in for b in boards)
    assert used < sum(144 for _ in pieces)


def test_a_board_is_exchanged_for_the_shortest_that_does() -> None:
    (board,) = cut_from_stock([Piece("A", 50)], [240, 96, 120])
    assert board.stock_in == 96
    (board,) = cut_from_stock([Piece("A", 96)], [96])
    assert board.left_in == 0


def test_only_ridges_and_plates_are_spliced() -> None:
    with pytest.raises(LengthError, match=r"J1 takes a board of 10'-0\", and the longest stock"):
        cut_from_stock([Piece("J1", 120)], [96])
    made = cut_from_stock([Piece("R1", 120, "parts")], [96])
    assert [p.length_in for b in made for p in b.pieces] == [60, 60]
    (ordered,) = cut_from_stock([Piece("H1", 121, "order")], [96])
    assert (ordered.stock_in, "order it" in ordered.note) == (144, True)
    with pytest.raises(LengthError, match="no stock"):
        cut_from_stock([Piece("J1", 12)], [])
