"""Walls as they are walked: what closes, what is refused, and what is changed to close."""

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
import shapely

from layout.errors import FrameError
from layout.framing.outlines import equal_sided, tee
from layout.framing.walls import Wall, first_pitch, walk
from layout.framing.walls_text import read_walls
from layout.quantity import read_pitch

P = read_pitch("8")


def eave(length, turn=90.0):
    return Wall(length, turn, "eave", P)


def test_a_walk_ends_where_it_began():
    for count in (3, 5, 8, 24):
        outline = equal_sided(count, 77.7, P)
        last = outline.corners[-1] + 77.7 * outline.along[-1]
        assert last == pytest.approx(outline.corners[0], abs=1e-9)
        assert [outline.interior_deg(k) for k in range(count)] == pytest.approx(
            [180 - 360 / count] * count
        )
        # from the middle of the outline every wall is as far as half a side over tan(180 / n)
        middle = outline.corners.mean(axis=0)
        inside = ((middle - outline.corners) * outline.inward).sum(axis=1)
        assert inside == pytest.approx([77.7 / 2 / np.tan(np.pi / count)] * count)


def test_a_clockwise_walk_is_read_backward():
    lengths, turns = (100, 60, 40, 50, 60, 110), (-90, -90, 90, -90, -90, -90)
    there = [eave(*each) for each in zip(lengths, turns, strict=True)]
    outline = walk(there)
    assert sum(wall.turn_deg for wall in outline.walls) == pytest.approx(360)
    assert outline.walls[0].name == "wall 6"
    x, y = outline.corners.T
    area = 0.5 * (x @ np.roll(y, -1) - y @ np.roll(x, -1))
    assert area == pytest.approx(100 * 60 + 60 * 50)  # counterclockwise: the area is plus


@pytest.mark.parametrize(
    ("walls", "says"),
    [
        ([eave(240), eave(160), eave(240), eave(159)],
         r"do not close: they end 0'-1\" from .* wall 4 13'-4\" instead of 13'-3\"|"
         r"do not close: they end 0'-1\" from .* wall 2 13'-3\" instead of 13'-4\""),
        ([eave(240), eave(160), eave(230), eave(155)],
         r"do not close: .* would close with wall . .* and wall . .* instead of"),
        ([eave(240), eave(160), eave(240), eave(160, 80)],
         r"turns come to 350 deg, 10 too few.*turn after wall 4 would be 90 instead of 80"),
        ([eave(240), eave(160)], "2 walls make no building"),
        ([eave(240)] * 25, "25 walls"),
        ([eave(240), eave(160), eave(0), eave(160)], "wall 3 is 0 in long"),
        ([eave(240), eave(160), eave(240, 175), eave(160, 5)], "turns by 175 deg"),
        ([Wall(240, 90, "gable", P), eave(160), eave(240), eave(160)], "a gable and has a pitch"),
        ([Wall(240, 90, "eave"), eave(160), eave(240), eave(160)], "an eave and has no pitch"),
        ([eave(300), eave(200), eave(250), eave(50), eave(200, -90), eave(100, -90),
          eave(150, -90), eave(120), eave(100), eave(170)], "wall 3 and wall 8 cross or touch|"
         "wall 4 and wall 9 cross or touch|wall 5 and wall 8 cross or touch"),
    ],
)  # fmt: skip
def test_what_is_no_outline_says_why(walls, says):
    with pytest.raises(FrameError, match=says) as caught:
        walk(walls)
    assert "\n" not in str(caught.value)


def test_sixteenths_are_closed_and_said():
    """A bay measured to a sixteenth misses by less than an eighth: the least change closes it."""
    side = 79.5  # 192 tan 22.5 = 79.529
    bay = [eave(side, 45)] * 3
    outline = walk([eave(200, 45), *bay, eave(200), eave(192)])
    assert len(outline.said) == 1
    assert "missed closing by" in outline.said[0]
    lengths = np.array([wall.length_in for wall in outline.walls])
    assert np.abs(lengths @ outline.along).max() < 1e-9
    changed = np.abs(lengths - [200, side, side, side, 200, 192])
    assert changed.max() < 0.1
    assert (changed > 1e-9).sum() <= 2


def test_a_t_has_no_wing_at_its_corner():
    with pytest.raises(FrameError, match="ask for an L"):
        tee(300, 200, 0, 100, 120, P)


def test_the_same_walls_are_changed_at_any_size():
    """A rectangle out both ways and the same one 1 : 100, its walls shorter than an inch."""
    lengths = np.array([90, 50, 89.98, 49.99])
    full, small = (walk([eave(x) for x in scale * lengths]) for scale in (1, 0.01))
    assert full.corners[2] == pytest.approx(full.corners[1] + full.corners[3])
    assert small.corners == pytest.approx(full.corners / 100, abs=1e-6)


def test_what_was_missed_is_said_in_a_rules_fractions():
    outline = walk([eave(240), eave(160), eave(240), eave(160 - 3 / 64)])
    assert "missed closing by 3/64 in" in outline.said[0]


def test_no_wall_is_closed_to_less_than_nothing():
    """15 in too far west: the first wall, 10 in and westward, has none to give; another gives."""
    turns = (-90, 90, 90, 90, 90, 90)
    lengths = (10, 50, 105, 110, 100, 60)
    walls = [eave(*each) for each in zip(lengths, turns, strict=True)]
    with pytest.raises(FrameError, match="would close with") as caught:
        walk(walls)
    assert "wall 3 7'-6\" instead of 8'-9\"" in str(caught.value)


# --- one building, however it is walked and said --------------------------------------------------

STEPPED = [
    Wall(300, 90, "eave", P, "front"), Wall(140, 60, "gable", None, "right"),
    Wall(80, 30, "eave", read_pitch("5"), "slant"), Wall(0, 90, "eave", P, "back"),
    Wall(0, -90, "eave", read_pitch("10"), "court"), Wall(90, 90, "eave", P, "low back"),
    Wall(0, 90, "eave", P, "left"),
]  # fmt: skip


def stepped() -> list[Wall]:
    """A court behind, a slant corner: the last lengths by hand, from x and y that come to 0."""
    drop = 60.0
    over = 80 * np.sin(np.radians(60))  # the slant runs 150 deg off the front, to the left
    lengths = {"back": 300 - over - 90, "court": drop, "left": 140 + 80 / 2 - drop}
    return [replace(w, length_in=lengths.get(w.name, w.length_in)) for w in STEPPED]


def drawn_by_hand(walls, start=(0.0, 0.0)):
    """Every wall's two ends by its name: go, turn, go."""
    at, heading, found = np.array(start), 0.0, {}
    for wall in walls:
        way = np.array([np.cos(np.radians(heading)), np.sin(np.radians(heading))])
        there = at + wall.length_in * way
        found[wall.name] = (at, there)
        at, heading = there, heading + wall.turn_deg
    assert at == pytest.approx(start, abs=1e-9)
    return found


def check_stands_as_drawn(outline, walls, start=(0.0, 0.0)):
    """Each wall with its own name, kind and pitch between its own two points, the building at the
    left of it; corners, ways and turns say the same."""
    by_name = {wall.name: wall for wall in walls}
    points = drawn_by_hand(walls, start)
    inside = shapely.Polygon(outline.corners).buffer(-1e-6)
    assert inside.geom_type == "Polygon"
    assert shapely.is_ccw(shapely.LinearRing(outline.corners))
    for k, wall in enumerate(outline.walls):
        here, there = outline.corners[k], outline.corners[(k + 1) % len(walls)]
        said = by_name[wall.name]
        assert (wall.kind, wall.pitch) == (said.kind, said.pitch)
        assert wall.length_in == pytest.approx(said.length_in) == np.hypot(*(there - here))
        drawn = np.sort(np.array(points[wall.name]) @ [1.0, math.pi])  # either way round
        assert np.sort(np.array([here, there]) @ [1.0, math.pi]) == pytest.approx(drawn)
        assert outline.along[k] == pytest.approx((there - here) / wall.length_in)
        assert inside.contains(shapely.Point((here + there) / 2 + 0.5 * outline.inward[k]))
        assert float(outline.along[k] @ outline.inward[k]) == pytest.approx(0)
        turn = np.radians(wall.turn_deg)
        way, nxt = outline.along[k], outline.along[(k + 1) % len(walls)]
        assert nxt == pytest.approx(
            [way[0] * np.cos(turn) - way[1] * np.sin(turn),
             way[0] * np.sin(turn) + way[1] * np.cos(turn)], abs=1e-9
        )  # fmt: skip
        assert outline.interior_deg((k + 1) % len(walls)) == pytest.approx(180 - wall.turn_deg)


def test_a_building_is_the_same_walked_either_way_from_any_corner():
    walls, start = stepped(), (17.0, -5.0)
    count = len(walls)
    for k in range(count):
        there = [*walls[k:], *walls[:k]]
        back = [
            replace(there[j], turn_deg=-there[j - 1].turn_deg) for j in range(count - 1, -1, -1)
        ]
        for each in (there, back):
            outline = walk(each, start)
            check_stands_as_drawn(outline, each, start)
            assert outline.corners[0] == pytest.approx(start)
            assert outline.said == ()
            assert not outline.convex
        assert walk(there).walls[0].name == there[0].name
        assert walk(back).walls[0].name == back[-1].name


def test_no_corner_stands_at_minus_nothing():
    """Sums that come to some -1e-14 in are written 0: an L's back corner over its front one."""
    rng = np.random.default_rng(1)
    for a, b, c, d in rng.uniform(50, 300, (20, 4)):
        turns = (90, 90, 90, -90, 90, 90)
        lengths = (a + b, c + d, a, d, b, c)
        outline = walk([eave(*each) for each in zip(lengths, turns, strict=True)])
        nothing = outline.corners[np.abs(outline.corners) < 1e-9]
        assert len(nothing) == 4
        assert not np.signbit(nothing).any()
        assert (nothing == 0).all()


def test_walls_in_one_line_leave_a_building_convex():
    flat = walk([eave(100, 0), eave(140), eave(160), eave(240), eave(160)])
    assert flat.convex
    assert flat.interior_deg(1) == 180
    assert [wall.name for wall in flat.walls] == [f"wall {k}" for k in range(1, 6)]


def test_one_wall_closes_what_misses_along_it_and_the_first_of_two_like_ones_does():
    """East 240, north 160, west 240, south 159.2577: 0.7423 in short, by wall 2 or wall 4. 0.2577
    is 16.49 sixty-fourths: the nearest is 1/4."""
    walls = [eave(240), eave(160), eave(240), eave(159.2577)]
    with pytest.raises(FrameError) as caught:
        walk(walls)
    assert str(caught.value) == (
        "the walls do not close: they end 0'-0 3/4\" from their start; they would close with"
        " wall 2 13'-3 1/4\" instead of 13'-4\""
    )
    outline = walk([eave(240), eave(160), eave(240), eave(159.9)])
    assert [wall.length_in for wall in outline.walls] == pytest.approx([240, 159.9, 240, 159.9])
    assert outline.said == (
        "the walls missed closing by 3/32 in: taken as wall 2 13'-3 29/32\" instead of 13'-4\"",
    )


@pytest.mark.parametrize(("miss_in", "closes"), [(0.124, True), (0.126, False)])
def test_four_walls_miss_by_four_thirty_seconds_at_most(miss_in, closes):
    walls = [eave(240), eave(160), eave(240), eave(160 - miss_in)]
    if closes:
        assert len(walk(walls).said) == 1
    else:
        with pytest.raises(FrameError, match="do not close"):
            walk(walls)


def test_two_walls_close_with_the_least_change():
    """Out by dx and dy: the walls east and north, or others like them, make up for one each."""
    rng = np.random.default_rng(5)
    for _ in range(20):
        dx, dy = rng.uniform(-0.06, 0.06, 2)
        lengths = np.array([200 + dx, 120 + dy, 200, 120])
        outline = walk([eave(x) for x in lengths])
        changed = np.array([wall.length_in for wall in outline.walls]) - lengths
        assert sorted(np.abs(changed)) == pytest.approx(sorted([0, 0, abs(dx), abs(dy)]), abs=1e-9)
        assert outline.corners[2] == pytest.approx(outline.corners[1] + outline.corners[3])


def test_a_slant_wall_changes_only_where_it_makes_the_change_smaller():
    """A 45 degree wall and another in place of two square ones: of all pairs of walls that close,
    found here by trying every one, the sum of changes is the least."""
    turns, lengths = (90, 45, 45, 90, 90), (200, 100, 60 * 2**0.5, 140, 160)
    rng = np.random.default_rng(8)
    for _ in range(12):
        asked = np.array(lengths) + rng.uniform(-0.05, 0.05, 5)
        outline = walk([eave(x, t) for x, t in zip(asked, turns, strict=True)])
        changed = np.array([wall.length_in for wall in outline.walls]) - asked
        heading = np.radians(np.cumsum([0, *turns[:-1]]))
        ways = np.stack([np.cos(heading), np.sin(heading)])
        assert ways @ (asked + changed) == pytest.approx([0, 0], abs=1e-9)
        sums = [
            np.abs(np.linalg.solve(ways[:, [a, b]], -ways @ asked)).sum()
            for a, b in combinations(range(5), 2)
            if abs(np.linalg.det(ways[:, [a, b]])) > 0.1
        ]
        assert np.abs(changed).sum() == pytest.approx(min(sums))
        assert (np.abs(changed) > 1e-9).sum() == 2


def test_no_pair_of_walls_closes_with_one_shorter_than_nothing():
    """58 in too far east and 22 too far south. East and west run walls of 50, 10 and 2, south and
    north of 30, 10 and 2: each pair that closes changes by 58 + 22 in all, and the first pair
    whose walls have so much to give is 30 - 22 = 8 south and 2 + 58 = 60 west."""
    turns = (-90, 90, 90, 90, 90, 90)
    walls = [eave(*each) for each in zip((50, 30, 10, 10, 2, 2), turns, strict=True)]
    with pytest.raises(FrameError) as caught:
        walk(walls)
    assert str(caught.value).endswith(
        "they would close with wall 2 0'-8\" instead of 2'-6\" and wall 5 5'-0\" instead of 0'-2\""
    )


def test_walls_shorter_than_an_inch_close_as_longer_ones_do():
    outline = walk([eave(0.9), eave(0.5), eave(0.85), eave(0.5)])
    assert outline.said == (
        "the walls missed closing by 3/64 in: taken as wall 1 0'-0 27/32\" instead of 0'-0 29/32\"",
    )


def test_the_last_rounding_goes():
    """A walk that misses by a third of a millionth is closed to the last digits, without a word."""
    for lengths in ((240, 160, 240 + 3e-7, 160 - 3e-7), (240.0, 160.0, 240.0, 160.0)):
        outline = walk([eave(x) for x in lengths])
        kept = np.array([wall.length_in for wall in outline.walls])
        assert outline.said == ()
        assert np.abs(kept @ np.array([[1, 0], [0, 1], [-1, 0], [0, -1]])).max() < 1e-11
        assert np.abs(kept - lengths).max() < 2e-7


@pytest.mark.parametrize(
    ("walls", "says"),
    [
        ([eave(240, -90), eave(160, -90), eave(240, -90), eave(160, -80)],
         "the turns come to -350 deg, 10 too few: a walk once round comes to 360, left turns plus;"
         " with all others right, the turn after wall 4 would be -90 instead of -80"),
        ([eave(240), eave(160), eave(240), eave(160, 95)],
         "the turns come to 365 deg, 5 too many: a walk once round comes to 360, left turns plus;"
         " with all others right, the turn after wall 4 would be 90 instead of 95"),
        ([eave(240), eave(160), eave(240), eave(160, 90.5)],
         "the turns come to 360.5 deg, 0.5 too many: a walk once round comes to 360, left turns"
         " plus; with all others right, the turn after wall 4 would be 90 instead of 90.5"),
        ([eave(240), eave(160, -90), eave(240), eave(160, -90)],
         "the turns come to 0 deg, 360 too few: a walk once round comes to 360, left turns plus;"
         " with all others right, the turn after wall 4 would be 270 instead of -90"),
        ([eave(240), Wall(160, 90, "gable", P), eave(240), eave(160)],
         "wall 2 is a gable and has a pitch; an eave has one, a gable and a high wall have none"),
        ([eave(240), eave(160), eave(240), Wall(160, 90)],
         "wall 4 is an eave and has no pitch; an eave has one, a gable and a high wall have none"),
        ([eave(240), eave(12000), eave(240), eave(12000)],
         "wall 2 is 12000 in long; give a length such as 24'"),
        ([eave(240, -170.5), eave(160), eave(240), eave(160)],
         "after wall 1 the walk turns by -170.5 deg; give a turn from -170 to 170,"
         " plus to the left"),
        ([eave(100), eave(60), eave(40), eave(60, -90), eave(20, -90), eave(60), eave(40),
          eave(60)], "wall 1 and wall 4 cross or touch; walk once round the outside,"
         " plus turns to the left"),
    ],
)  # fmt: skip
def test_what_is_refused_is_told_in_one_whole_sentence(walls, says):
    with pytest.raises(FrameError) as caught:
        walk(walls)
    assert str(caught.value) == says


def test_the_longest_walls_and_the_sharpest_turns_that_go():
    assert walk([eave(11999), eave(100), eave(11999), eave(100)]).walls[0].length_in == 11999
    # an isosceles triangle of 10 deg at its top: two legs of half the base over sin 5
    leg = 50 / np.sin(np.radians(5))
    thin = walk([eave(100, 95), eave(leg, 170), eave(leg, 95)])
    assert thin.interior_deg(2) == pytest.approx(10)


def test_the_first_eave_has_the_main_pitch():
    steep = read_pitch("12")
    walls = [
        Wall(240, 90, "gable"),
        Wall(160, 90, "eave", steep),
        Wall(240, 90, "gable"),
        eave(160),
    ]
    assert first_pitch(walk(walls)) == steep
    with pytest.raises(FrameError, match="no wall of these is an eave"):
        first_pitch(walk([Wall(240, 90, "gable"), Wall(160, 90, "high")] * 2))


@pytest.mark.parametrize(
    ("walls", "first"), [("24', 90; 16', 90, 8", 1), ("24', 90, 8; 16', x, 8", 2)]
)
def test_a_wall_that_cannot_be_read_is_named_by_its_place(walls, first):
    with pytest.raises(FrameError, match=f"^wall {first}\\b"):
        read_walls(walls)
