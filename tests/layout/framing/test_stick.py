"""A stick's own solid against a library's, and cutting from stock."""

import math
from dataclasses import replace

import numpy as np
import pytest
from shapely import Polygon, unary_union

from layout.cuts import End, Hand
from layout.errors import LengthError
from layout.framing.stick import CatalogueCut, CutPlane, Stick, plane_at
from layout.length.boards import Piece, cut_from_stock
from layout.plane.pose import lay
from layout.plane.solid import polygon_area
from layout.quantity import read_pitch
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


# --- lengths and axes by hand, on the 3-4-5 slope: an inch along the board is 0.6 in level --------


def plumb(nx: float, ny: float, at: float, end: End) -> CutPlane:
    """A plumb plane over the plan point (at, 0); in plan it makes 45 degrees with the board."""
    return plane_at(np.array([nx, ny, 0]) / math.sqrt(2), np.array([at, 0.0, 0.0]), "cut", end)


def ends_of(stick: Stick, end: End) -> list[float]:
    points = stick.end_points(end)
    return [points.centre_in, points.long_in, points.short_in]


def lengths_of(stick: Stick) -> list[float]:
    points = stick.measured()
    return [points.centre_in, points.long_in, points.short_in]


def level(*reaches: float) -> object:
    """Lengths along the board whose level runs are these."""
    return pytest.approx([reach / 0.6 for reach in reaches], abs=1e-9)


def test_a_line_on_the_top_edge_runs_from_cut_to_cut() -> None:
    """A left-hand head takes y off the run at y, a foot y = 0 in, farther out to the left."""
    stick = sloping((CHEEK,), (plumb(-1, -1, 5, "foot"),))
    for y in (0.0, 0.4, 1.5):
        assert stick.line_ends(y) == level(5 - y, 25 - y)
    assert ends_of(stick, "head") == level(25 - 0.75, 25, 25 - 1.5)
    assert ends_of(stick, "foot") == level(5 - 0.75, 5 - 1.5, 5)
    assert lengths_of(stick) == level(20, 20, 20)
    assert lengths_of(replace(stick, on_plate=True)) == level(24.25, 25, 23.5)
    apart = sloping((CHEEK,), (plumb(-1, 1, 5, "foot"),))
    assert lengths_of(apart) == level(20 - 2 * 0.75, 20, 20 - 2 * 1.5)
    assert ends_of(apart, "foot") == level(5.75, 5, 6.5)


def test_two_cheeks_meet_off_the_middle() -> None:
    """25 - y and 23 + y are one at y = 1: a point there, or a hollow, 24 in level from the foot."""
    one, two = plumb(1, 1, 25, "head"), plumb(1, -1, 23, "head")
    assert ends_of(sloping((one,), (two,)), "head") == level(23.75, 24, 23)
    assert ends_of(sloping((one, two)), "head") == level(24.25, 25, 24)
    # a cheek square to the edge, x = 39 + y along the board: at y = 1 that too is 24 / 0.6
    square = plane_at((ALONG - sloping().pose.left) / math.sqrt(2), 39 * ALONG, "cut", "head")
    assert ends_of(sloping((one,), (square,)), "head") == level(0.6 * 39.75, 24, 0.6 * 39)
    # at the foot, and on a board whose datum lies 3 in up
    foot = sloping((plumb(-1, 1, 5, "foot"),), (plumb(-1, -1, 7, "foot"),))
    assert ends_of(foot, "foot") == level(6.25, 6, 7)
    moved = replace(sloping((one,), (two,)), origin=sloping().origin + 3 * ALONG)
    assert ends_of(moved, "head") == level(23.75 - 1.8, 24 - 1.8, 23 - 1.8)


def test_a_plane_along_the_board_ends_no_line() -> None:
    """Backing planes take the arrises off the top edge; lengths stay those of the edge before."""
    up, left = sloping().pose.up, sloping().pose.left
    top = sloping().origin + 5.5 * up + 0.75 * left
    rips = [plane_at((up + side * left) / math.sqrt(2), top, "backing", "head") for side in (1, -1)]
    stick = sloping((CHEEK,), *((rip,) for rip in rips))
    assert lengths_of(stick) == level(24.25, 25, 23.5)
    assert all(stick.surfaces(rip) for rip in rips)


def test_tail_and_foot_below_the_datum() -> None:
    """The tail ends at the foot's long point; a plumb foot's lower corner lies the depth times
    rise over run farther down, square to the edge: 5.5 x 4/3."""
    foot = plumb(-1, 1, -6, "foot")
    low = plane_at(np.array([-1.0, 0, 0]), np.array([-99.0, 0, 0]), "foot", "foot")
    board = sloping((foot,))
    stick = replace(board, removals=((low,), *board.removals[:1], (foot,)), on_plate=True)
    assert ends_of(stick, "foot") == level(-6 + 0.75, -6, -6 + 1.5)
    assert stick.tail_in == pytest.approx(6 / 0.6)
    assert stick.foot_reach_in == pytest.approx(6 / 0.6 + 5.5 * 4 / 3)
    assert replace(stick, on_plate=False).tail_in == 0
    assert stick.blank_in == pytest.approx(50 + 6 / 0.6 + 5.5 * 4 / 3)
    high = sloping((plumb(-1, 1, 20, "foot"),))
    assert replace(high, on_plate=True).tail_in == 0
    assert high.foot_reach_in == 0


def test_board_axes_from_the_datum_and_back() -> None:
    stick = replace(sloping((CHEEK,)), origin=np.array([3.0, -2.0, 7.0]))
    pose = stick.pose
    point = stick.origin + 11 * pose.head + 0.5 * pose.left + 4 * pose.up
    assert stick.in_board(point) == pytest.approx([11, 0.5, 4])
    cut = stick.cut(CHEEK)
    world = stick.origin + cut.point @ pose.axes
    assert float(CHEEK.beyond_in(world)) == pytest.approx(0, abs=1e-12)
    assert cut.normal @ pose.axes == pytest.approx(CHEEK.normal)
    # over the datum's top arris, 5.5 in up the board's depth, the cheek stands where n.p says
    top = stick.origin + 5.5 * pose.up
    x = -float(CHEEK.beyond_in(top)) / float(CHEEK.normal @ pose.head)
    assert float(cut.x_at(0.0, 5.5)) == pytest.approx(x)
    assert float(np.ptp(cut.corners()[:, 1])) == pytest.approx(1.5)


def test_a_stick_is_seen_from_above_in_its_plan() -> None:
    outline = sloping().plan_outline
    assert outline.shape == (4, 2)
    assert outline[:, 0].min() == pytest.approx(0)
    gone = sloping((plane_at(np.array([1.0, 0, 0]), np.array([-9.0, 0, 0]), "head", "head"),))
    assert gone.corners.shape == (0, 3)


def test_the_hand_is_the_side_to_which_a_cheek_faces() -> None:
    stick = sloping()
    assert stick.hand(CHEEK) is Hand.LEFT
    assert stick.hand(OTHER) is Hand.RIGHT
    for level_across in (HEEL, SEAT):
        assert stick.hand(level_across) is None
    slight = plane_at(np.array([1.0, 1e-3, 0]) / np.hypot(1, 1e-3), np.zeros(3), "cut", "head")
    assert stick.hand(slight) is Hand.LEFT


@pytest.mark.parametrize("side", [1, -1])
def test_a_plane_asks_the_catalogue_as_it_stands(side: int) -> None:
    """Its own roof before the other one; of two planes the first names the hand."""
    steep, flat = read_pitch("10"), read_pitch("6")
    asked = [CatalogueCut("hip-ridge", steep, flat, 90.0, "head", k) for k in (0, 1)]
    single = replace(plumb(1, -side, 25, "head"), asked=CatalogueCut(
        "hip-jack", flat, steep, 80.0, "head"))  # fmt: skip
    first = replace(plumb(1, side, 25, "head"), asked=asked[0])
    second = replace(plumb(1, -side, 25, "head"), asked=asked[1])
    stick = sloping((SEAT,), (single,), (first,), (second,))
    own = Hand.LEFT if side > 0 else Hand.RIGHT
    for plane, hand in ((first, own), (second, own)):
        question = stick.question(plane)
        assert question is not None
        assert (question.entry.name, question.hand, question.end) == ("hip-ridge", hand, "head")
        assert (question.pitch, question.other_pitch) == (steep, flat)
        assert (question.corner_deg, question.stock) == (90.0, stick.stock)
    question = stick.question(single)
    assert question is not None
    assert question.hand is not own
    assert (question.pitch, question.other_pitch, question.corner_deg) == (flat, steep, 80.0)
    square = replace(HEEL, asked=CatalogueCut("common-ridge", steep, steep, 90.0, "head"))
    question = sloping((square,)).question(square)
    assert question is not None
    assert question.hand is Hand.LEFT
    assert stick.question(SEAT) is None


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
