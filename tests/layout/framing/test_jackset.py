"""Jack sets against printed examples and against solids."""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from layout.errors import LayoutError, LengthError, RoofError
from layout.framing.contact import contacts
from layout.framing.cutlist import lengths_of
from layout.framing.face import Face
from layout.framing.jackplan import JackPlan
from layout.framing.jackset import JackSet, _ridge, jack_set
from layout.quantity import Pitch, read_pitch
from layout.records import as_table
from layout.stock import read_stock
from tests.stick_solids import MATED, gaps, overlaps, unmated

NO_PLATES = MATED - {"common-seat", "hip-seat", "valley-seat"}
SIDE, END = Pitch(10, 12, "10 in 12"), Pitch(10, 16, "10 in 16")


def lengths(made: JackSet, side: str, what: str = "theoretical_in") -> list[float]:
    return [getattr(row.lengths, what) for row in made.rows if row.side == side]


def test_jacks_of_the_navy_course() -> None:
    """NAVEDTRA 14044 ch. 2: r 8, 16 on centre: 19.23, the second twice as long."""
    made = jack_set(JackPlan(count=4))
    assert lengths(made, "own")[:2] == pytest.approx([19.23, 38.46], abs=0.005)
    assert made.own_difference_in == pytest.approx(19.23, abs=0.005)
    assert np.diff(lengths(made, "own")) == pytest.approx(made.own_difference_in)
    # half the 45 degree thickness of the hip, level, comes off the middle
    level = 12 / math.hypot(12, 8)
    short = (lengths(made, "own")[0] - lengths(made, "own", "centre_in")[0]) * level
    assert short == pytest.approx(1.0607, abs=5e-5)


def test_level_runs_of_a_printed_hip_roof() -> None:
    """Hodgson fig. 65: span 18', rise 6', jacks 24 on centre: runs of 2, 4, 6 and 8 feet."""
    made = jack_set(JackPlan(eave_in=108, spacing_in=24))
    level = 12 / math.hypot(12, 8)
    assert [run * level / 12 for run in lengths(made, "own")] == pytest.approx([2, 4, 6, 8])


def test_equal_spaces_share_a_common_equally() -> None:
    """Hodgson: six equal spaces under a common of 12 ft: jacks of 2, 4, 6, 8 and 10 ft."""
    made = jack_set(JackPlan(count=5, spacing_in=24 * 12 / math.hypot(12, 8)))
    assert [length / 12 for length in lengths(made, "own")] == pytest.approx([2, 4, 6, 8, 10])


def test_jacks_of_unequal_pitches() -> None:
    """Hodgson, division C: side run 12', end run 16', rise 10'; his own end lengths are rounded
    to a common of 19' (18' 10 7/16"), so the recomputed ones stand here, to 0.001 ft."""
    made = jack_set(
        JackPlan(
            pitch=END, other_pitch=SIDE, eave_in=144, spacing_in=24, carrier=read_stock("2x10")
        )
    )
    end_ft = [length / 12 for length in lengths(made, "own")]
    assert end_ft == pytest.approx([3.145, 6.289, 9.434, 12.579, 15.723], abs=5e-4)
    side_in = lengths(made, "other")
    printed = [23.43, 46.86, 70.29, 93.72, 117.15, 140.58, 164.02]
    assert side_in == pytest.approx(printed, abs=0.006)
    assert made.pairs == ()


def test_a_set_is_left_and_right_pairs_only_where_both_roofs_are_alike() -> None:
    made = jack_set(JackPlan(count=3, overhang_in=12, fascia_in=0.75))
    assert made.pairs == (("A1", "B1"), ("A2", "B2"), ("A3", "B3"))
    assert {row.hand for row in made.rows if row.side == "own"} == {"left"}
    assert {row.hand for row in made.rows if row.side == "other"} == {"right"}
    for row in made.rows:
        assert row.lengths.tail_in == pytest.approx(11.25 * math.hypot(12, 8) / 12)
        assert row.lengths.long_in > row.lengths.centre_in > row.lengths.short_in


def test_valley_jacks_shrink_from_the_corner_on() -> None:
    made = jack_set(JackPlan(line="valley", eave_in=96))
    assert np.diff(lengths(made, "own")) == pytest.approx(-19.2296, abs=1e-3)
    assert made.rows[0].lengths.theoretical_in == pytest.approx(5 * 19.2296, abs=1e-3)
    # from cut to cut: half the valley's 45 degree thickness and half the ridge come off, level
    level = 12 / math.hypot(12, 8)
    lost = (made.rows[0].lengths.theoretical_in - made.rows[0].lengths.centre_in) * level
    assert lost == pytest.approx(0.75 * math.sqrt(2) + 0.75)


SETS = [
    JackPlan(count=4, overhang_in=12, fascia_in=0.75),
    JackPlan(count=3, hip_way="dropped", plate_corner="clipped", spacing_in=24),
    JackPlan(pitch=END, other_pitch=SIDE, eave_in=100, carrier=read_stock("2x10"), overhang_in=8),
    JackPlan(pitch=END, other_pitch=SIDE, eave_in=100, hip_way="shifted", corner_deg=110.0,
             carrier=read_stock("4x10")),
    JackPlan(corner_deg=135.0, count=4, first_in=20.0, overhang_in=10),
    JackPlan(corner_deg=70.0, count=3, ridge=read_stock("1x10")),
    JackPlan(line="valley", count=4, overhang_in=16, fascia_in=0.75),
    JackPlan(line="valley", other_pitch=read_pitch("10"), count=4, valley_way="hollowed",
             carrier=read_stock("2x10")),
    JackPlan(line="valley", corner_deg=120.0, count=3, plate_corner="clipped"),
]  # fmt: skip


@cache
def set_of(which: int) -> JackSet:
    """One of SETS, framed once."""
    return jack_set(SETS[which])


each_set = pytest.mark.parametrize("which", range(len(SETS)))


@each_set
def test_set_stands_as_solids(which: int) -> None:
    made, plan = set_of(which), SETS[which]
    assert len(made.own) >= 2
    assert len(made.other) >= 2
    assert overlaps(made.sticks) == []
    assert unmated(made.sticks, NO_PLATES) == []
    assert gaps(made.sticks) == []
    # all jacks' top edges lie in their roof's plane at the shared height above plate
    corner, height = plan.corner, plan.mouth.height_above_plate_in
    for jacks, normal in ((made.own, corner.normal), (made.other, corner.other_normal)):
        for jack in jacks:
            top = jack.corners[
                np.abs(jack.in_board(jack.corners)[:, 2] - jack.stock.depth_in) < 1e-9
            ]
            assert len(top) >= 4
            assert np.abs((top - [0, 0, height]) @ normal).max() < 1e-9


@each_set
def test_every_row_tells_its_own_jack(which: int) -> None:
    """Each place on the eaves counted out by hand, and what stands there measured on the solid."""
    made, plan = set_of(which), SETS[which]
    corner, sense = plan.corner, -1.0 if plan.line == "valley" else 1.0
    eaves = {"own": corner.eave, "other": corner.other_eave}
    inward = {"own": corner.inward, "other": corner.other_inward}
    # where the lines meet, as far along the own eave as the plan says
    apex = corner.plan_line * plan.reach_in / abs(float(corner.plan_line @ corner.eave))
    first = plan.spacing_in if plan.first_in is None else plan.first_in
    assert [row.name for row in made.rows] == [s.name for s in (*made.own, *made.other)]
    for side, sticks, letter in (("own", made.own, "A"), ("other", made.other, "B")):
        rows = [row for row in made.rows if row.side == side]
        reach = abs(float(apex @ eaves[side]))
        places = [first + k * plan.spacing_in for k in range(99)]
        places = [at for at in places if at < reach - 1e-6]
        left_out = [said for said in made.left_out if said.startswith(f"{side} side, ")]
        assert len(places) == len(rows) + len(left_out)
        assert [row.name for row in rows] == [f"{letter}{k + 1}" for k in range(len(rows))]
        assert {round(row.position_in, 6) for row in rows} <= {round(at, 6) for at in places}
        difference = {"own": made.own_difference_in, "other": made.other_difference_in}[side]
        grow = np.diff([row.lengths.theoretical_in for row in rows])
        assert grow == pytest.approx(sense * difference)
        for row, stick in zip(rows, sticks, strict=True):
            along = stick.corners @ (sense * eaves[side])
            assert (along.min() + along.max()) / 2 == pytest.approx(row.position_in)
            assert row.lengths == lengths_of(stick)
            # a face of the board runs up to the long point; the cheek faces the other way
            run = stick.corners @ inward[side]
            tip = run.max() if plan.line == "hip" else run.min()
            at_tip = stick.in_board(stick.corners[np.abs(run - tip) < 1e-6])[:, 1].mean()
            left = (at_tip < stick.stock.thickness_in / 2) == (plan.line == "hip")
            facing = "left" if left else "right"
            assert row.hand == facing if plan.line == "hip" else row.hand in ("left", "right")
            if row.pair:
                (mate,) = (each for each in made.rows if each.name == row.pair)
                assert (mate.pair, mate.side != side) == (row.name, True)
                assert {row.hand, mate.hand} == {"left", "right"}
                assert mate.lengths.long_in == pytest.approx(row.lengths.long_in)
    slopes = [face.rise / face.run for face in (plan.pitch, plan.other_pitch or plan.pitch)]
    (depth,) = (c for c in made.comparisons if c.section == "R802.3")
    assert depth.code_in == pytest.approx(5.5 * math.hypot(1, max(slopes)))


@each_set
def test_every_stick_of_a_set_is_whole(which: int) -> None:
    """The line runs up to where the ridges stand; a ridge reaches a spacing past the last place."""
    made, plan = set_of(which), SETS[which]
    corner = plan.corner
    level = plan.reach_in / abs(float(corner.plan_line @ corner.eave))
    apex = level * corner.plan_line
    whole = level * math.hypot(1, float(corner.line_rise))
    assert made.carrier.theoretical_in == pytest.approx(whole)
    assert made.carrier.name == ("V1" if plan.line == "valley" else "H1")
    assert (made.carrier.role, made.carrier.on_plate) == (plan.line, True)
    assert [stick.name for stick in made.ridges] == ["R1", "R2"][: len(made.ridges)]
    for stick, eave in zip(made.ridges, (corner.eave, corner.other_eave), strict=False):
        out = abs(float(apex @ eave))
        assert stick.pose.head == pytest.approx(eave)
        far = (stick.corners - apex) @ eave
        assert far.max() == pytest.approx(out + plan.spacing_in)
        assert stick.theoretical_in == pytest.approx(out + plan.spacing_in)
        assert (stick.role, stick.on_plate) == ("ridge", False)
    if plan.line == "valley":  # the first ridge reaches just past all of the second one's end
        first, second = made.ridges
        near = min(
            ((first.corners - apex) @ corner.inward).min(),
            ((second.corners - apex) @ corner.inward).max(),
        )
        end = (second.corners - apex)[((second.corners - apex) @ corner.inward) > near - 1e-6]
        assert ((first.corners - apex) @ corner.eave).min() == pytest.approx(
            (end @ corner.eave).min()
        )
    for stick in made.sticks:
        for plane in stick.planes:
            lean = float(plane.normal @ stick.pose.head)
            if plane.says.endswith(("seat", "heel", "backing", "bevel")):
                continue
            assert (plane.end == "head") == (lean > 0), (stick.name, plane.says)


def test_jacks_may_stand_on_one_side_alone() -> None:
    """12 in 12 beside 4: over 24 in of the own eave there are 8 in of the other, and none there."""
    pitches = read_pitch("12"), read_pitch("4")
    deep = read_stock("2x12")
    made = jack_set(JackPlan(pitch=pitches[0], other_pitch=pitches[1], eave_in=24, carrier=deep))
    assert (len(made.own), len(made.other)) == (1, 0)
    made = jack_set(JackPlan(pitch=pitches[1], other_pitch=pitches[0], eave_in=18, carrier=deep))
    assert (len(made.own), len(made.other)) == (0, 3)
    assert [c.code_in for c in made.comparisons if c.section == "R802.3"] == [
        pytest.approx(5.5 * math.sqrt(2))
    ]


def test_shortened_jack_by_hand_and_by_solid() -> None:
    """The stick's own points are those that the planes alone give."""
    from layout.cuts import find
    from layout.length.shortening import cheek_points

    plan = JackPlan(pitch=END, other_pitch=SIDE, eave_in=100, carrier=read_stock("2x10"))
    made = jack_set(plan)
    points = cheek_points(find("hip-jack").joint(plan.corner), plan.jack, 0.75)
    for row in made.rows[: len(made.own)]:
        assert row.lengths.long_in == pytest.approx(
            row.lengths.theoretical_in + points.long_in, abs=1e-9
        )
        assert row.lengths.short_in == pytest.approx(
            row.lengths.theoretical_in + points.short_in, abs=1e-9
        )


def test_first_jack_and_count() -> None:
    made = jack_set(JackPlan(count=3, first_in=9.0))
    assert [row.position_in for row in made.rows if row.side == "own"] == [9, 25, 41]
    assert len(jack_set(JackPlan(eave_in=80)).own) == 4
    crowded = jack_set(JackPlan(eave_in=82))
    assert len(crowded.own) == 4
    assert "common at the hip's top stands there" in crowded.left_out[0]
    short = jack_set(JackPlan(count=3, first_in=3.0))
    assert "too short" in short.left_out[0]


@pytest.mark.parametrize(("spacing", "jacks"), [(15.15, 5), (15.25, 4)])
def test_a_valley_jack_has_a_foot_as_long_as_the_board_is_thick(spacing: float, jacks: int) -> None:
    """At one pitch the fifth one's shorter side has a run of 80 less five spacings, less half the
    valley's 45 degree thickness, half the ridge, and as much as half its own thickness for the
    cheek: 80 - 5 s - 1.06 - 0.75 - 0.75, which is 1 1/2 in at 15.19 in on center."""
    made = jack_set(JackPlan(line="valley", eave_in=80, spacing_in=spacing))
    assert len(made.own) == len(made.other) == jacks
    assert len(made.left_out) == 2 * (5 - jacks)


@pytest.mark.parametrize(("eave", "jacks"), [(82.5, 4), (83.5, 5)])
def test_a_jack_stands_clear_of_the_common_by_one_thickness(eave: float, jacks: int) -> None:
    """The fifth at 80 in, boards of 1 1/2 in: 3 in from middle to middle leave 1 1/2 clear."""
    assert len(jack_set(JackPlan(eave_in=eave)).own) == jacks


def test_valley_jacks_beside_the_corner_rise_from_the_valley_too() -> None:
    """At 1/2 in from it the first is 16 in of the common difference longer than the next."""
    made = jack_set(JackPlan(line="valley", eave_in=60, first_in=0.5))
    own = lengths(made, "own")
    assert own[0] == pytest.approx(59.5 * math.hypot(12, 8) / 12)
    assert np.diff(own) == pytest.approx(-16 * math.hypot(12, 8) / 12)


def test_a_ridge_stands_between_a_side_and_its_like() -> None:
    """Both roofs are as high over the ridge's line, and fall away from it alike."""
    face = Face("own", read_pitch("6"), np.zeros(3), np.array([1.0, 0, 0]), np.array([0, 1.0, 0]),
                4.0)  # fmt: skip
    ridge = _ridge(face, "R1", np.array([9.0, 50, 0]), face.along, read_stock("2x8"))
    for along in (9.0, 30.0):
        near, on, far = (np.array([along, y, 0.0]) for y in (49.0, 50.0, 51.0))
        assert ridge.other.lifted(on) == pytest.approx(ridge.own.lifted(on))
        assert ridge.other.lifted(far)[2] == pytest.approx(ridge.own.lifted(near)[2])
    assert (ridge.name, ridge.other.name, ridge.corner_deg) == ("R1", "far own", 180.0)


@pytest.mark.parametrize(
    ("width", "notched"), [(3.5, True), (1.55, True), (1.45, False), (1.0, False)]
)
def test_a_notch_stands_only_over_a_plate(width: float, notched: bool) -> None:
    """At 1.2 in from the corner the near face stands 0.45 in from it: there the valley's side cuts
    the seat 0.45 + 3/4 sqrt 2 = 1.51 in from the building line. It runs from there to 3 1/2 in,
    and bears on whatever part of a plate lies under it."""
    assert 1.45 < 0.45 + 0.75 * math.sqrt(2) < 1.55
    made = jack_set(JackPlan(line="valley", count=3, first_in=1.2, plate_width_in=width))
    assert ("common-seat" in {plane.says for plane in made.own[0].planes}) is notched


def test_the_second_ridge_ends_wholly_on_the_first() -> None:
    for other in ("8", "10"):
        made = jack_set(JackPlan(line="valley", other_pitch=read_pitch(other), count=4))
        (end,) = (c for c in contacts(made.sticks) if c.says == "ridge end")
        assert end.mate == "R1"
        # a steeper roof's ridge is lowered a little more, and hangs that much below
        drop = 0.75 * (float(other) - 8) / 12
        assert end.share == pytest.approx(1 - drop / 7.25, abs=1e-9)


def test_comparisons_are_numbers_with_sections() -> None:
    made = jack_set(JackPlan(count=3))
    sections = [c.section for c in made.comparisons]
    assert sections == ["R802.6", "R802.7", "R802.3", "R802.6", "R802.7"]
    deep = made.comparisons[2]
    assert deep.here_in == 7.25
    assert deep.code_in == pytest.approx(5.5 * math.hypot(12, 8) / 12)


def test_each_roofs_jacks_have_their_own_notch() -> None:
    """By hand, 2x6 jacks, 7 in 12 against 9 in 12: the seat of 3 1/2 in leaves
    5.5 sqrt(193)/12 - 3.5 * 7/12 = 4.326 in above the plate on both roofs. The steeper jack is
    5.5 * 5/4 = 6.875 in plumb, so its heel is 2.549, its seat that times 12/9 = 3.399 and its
    notch that times 4/5 = 2.039 in deep; the flatter one's 3.5 * 7/12 * 12/sqrt(193) = 1.764.
    Jacks from cut to cut on a valley stand on no plate."""
    seven, nine = read_pitch("7"), read_pitch("9")
    made = jack_set(JackPlan(pitch=seven, other_pitch=nine, count=3))
    told = {c.what: c.here_in for c in made.comparisons if "jack" in c.what}
    assert told == {
        "level bearing of the A jack on the plate": pytest.approx(3.5),
        "depth of the A jack's notch, square to the edge": pytest.approx(1.764, abs=5e-4),
        "level bearing of the B jack on the plate": pytest.approx(3.399, abs=5e-4),
        "depth of the B jack's notch, square to the edge": pytest.approx(2.039, abs=5e-4),
    }
    valley = jack_set(JackPlan(line="valley", pitch=seven, other_pitch=nine, count=3))
    assert not [c for c in valley.comparisons if "jack" in c.what]


def test_boards_of_a_set_and_rows() -> None:
    made = jack_set(JackPlan(count=4, overhang_in=12))
    boards = made.boards([192.0])
    assert sum(len(b.pieces) for b in boards) == 8
    header, rows = as_table(made.rows)
    assert header == (
        "name", "side", "hand", "position_in", "theoretical_in", "long_in", "centre_in",
        "short_in", "tail_in", "blank_in", "pair",
    )  # fmt: skip
    assert len(rows) == 8


@pytest.mark.parametrize(
    ("change", "error", "says"),
    [
        ({"count": None, "eave_in": 12.0}, LengthError, "spacing of 1'-4\" is longer"),
        ({"first_in": 90.0, "count": None, "eave_in": 60.0}, LengthError, "past the end of the"),
        ({"count": None}, LengthError, "one of both"),
        ({"eave_in": 90.0}, LengthError, "one of both"),
        ({"count": 0}, LengthError, "one or more"),
        ({"spacing_in": 0.0}, LengthError, "spacing of 0"),
        ({"first_in": -1.0}, LengthError, "give more"),
        ({"carrier": read_stock("2x6")}, LengthError, "compare with R802.3"),
        ({"corner_deg": 200.0}, RoofError, "give one below 180, such as 90"),
        ({"line": "valley", "corner_deg": 180.0}, RoofError, "give one above 180, such as 270"),
        ({"pitch": read_pitch("3"), "other_pitch": read_pitch("12"), "corner_deg": 150.0},
         RoofError, "no jack ends on it"),
        ({"overhang_in": 0.5, "fascia_in": 0.75}, LengthError, "leaves no tail"),
        ({"seat_in": 9.5}, LengthError, "does not fit"),
    ],
)  # fmt: skip
def test_wrong_sets_are_refused(change: dict, error: type, says: str) -> None:  # type: ignore[type-arg]
    with pytest.raises(LayoutError, match=says) as caught:
        jack_set(replace(JackPlan(count=3), **change))
    assert type(caught.value) is error
    assert "\n" not in str(caught.value)


def test_a_ridge_thicker_than_its_seat_allows() -> None:
    plan = JackPlan(count=1, spacing_in=8.0, jack=read_stock("2x10"), carrier=read_stock("2x12"),
                    seat_in=8.0)  # fmt: skip
    with pytest.raises(LengthError, match="ridge 17 in thick takes 8 1/2 in off a run of 1'-4\""):
        jack_set(replace(plan, ridge=read_stock("17in x 18in")))
    # as a run of 16 less a seat of 8 allows, that message is not raised for 15 in
    with pytest.raises(LengthError, match="no jack stands"):
        jack_set(replace(plan, ridge=read_stock("15in x 18in")))


def test_a_shallow_hip_names_both_depths() -> None:
    with pytest.raises(LengthError, match=r"6 1/16 in plumb|5 3/4 in plumb") as caught:
        jack_set(JackPlan(count=3, carrier=read_stock("2x6")))
    words = str(caught.value)
    assert "6 5/8 in" in words  # the jack's plumb cut, 5.5 x 14.42 / 12 = 6.610
    assert "R802.3 in the edition adopted locally" in words


def test_an_overhang_longer_than_the_stock() -> None:
    made = jack_set(JackPlan(count=2, overhang_in=110.0))
    with pytest.raises(LengthError, match="overhang of 9'-2\" asks for a tail of"):
        made.boards([96.0])
    with pytest.raises(LengthError, match="asks for a tail of"):
        made.boards([0.5])
    with pytest.raises(LengthError, match="no stock to cut from"):
        made.boards([])
    with pytest.raises(LengthError, match="takes a board of"):
        jack_set(JackPlan(count=8)).boards([96.0])
