"""The ends of a stick as questions: on a board that is cut by hand, and all of a roof at once."""

import math
from dataclasses import replace

import numpy as np
import pytest

from layout.cuts import Hand
from layout.errors import FrameError
from layout.framing.cutlist import piece_groups
from layout.framing.ends import (
    PLACES,
    CutPlace,
    common_mates,
    datum_of,
    distinct_ends,
    end_question,
    mate_words,
    place_of,
    places,
    planes_at,
    use_of,
)
from layout.framing.stick import CatalogueCut, CutPlane, Stick, WasteRegion, plane_at
from layout.plane.pose import lay
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.drawn_roofs import framed_shape, small_ell

X, Y, Z = np.eye(3)
UP = np.array([-0.8, 0.0, 0.6])
"""Square to the length, up the depth, of a board that climbs 4 on 3."""
ALONG = np.array([0.6, 0.0, 0.8])
ROOT = math.sqrt(0.5)


def cheek(along_in: float, side: int, says: str = "cheek", way: int = 1) -> CutPlane:
    """A cheek at 45 degrees over the plan, through the middle of the edge so far up the board."""
    normal = (way * 0.6 * ALONG + side * Y) / math.hypot(0.6, 1)
    return plane_at(normal, along_in * ALONG + 0.75 * Y, says, "head" if way > 0 else "foot")


def board(*removals: WasteRegion, on_plate: bool = True, name: str = "S1") -> Stick:
    """A 2x6 up a slope of 4 on 3, its datum the middle of the world."""
    stock, pose = read_stock("2x6"), lay(ALONG, Z)
    assert pose.left == pytest.approx(Y)
    origin = -stock.depth_in * pose.up
    return Stick(name, "common", "front", stock, pose, origin, removals, 50.0, on_plate)


HEAD: WasteRegion = (plane_at(ALONG, 40 * ALONG, "square end", "head"),)
FOOT: WasteRegion = (plane_at(-ALONG, -10 * ALONG, "square end", "foot"),)
SEAT: WasteRegion = (
    replace(plane_at(-Z, -4 * Z, "common-seat", "foot"), mate="P1"),
    plane_at(X, 0 * X, "common-heel", "foot"),
)
HIGH: WasteRegion = (
    replace(plane_at(-Z, 20 * ALONG - 4 * Z, "high-seat", "head"), mate="P1"),
    plane_at(X, 20 * ALONG, "high-heel", "head"),
)
RIPS = tuple(
    (plane_at((UP + side * Y) * ROOT, 0.75 * Y, "hip-backing", "foot"),) for side in (1, -1)
)
BEVEL: WasteRegion = (
    plane_at((UP + Y) * ROOT, 1.0 * Y, "ridge bevel", "head"),
    plane_at(ALONG, 30 * ALONG, "where it begins", "head"),
)
CHEEKS = (cheek(40, 1),), (cheek(41, -1),)
HOLLOW: WasteRegion = (cheek(-10, 1, way=-1), cheek(-9, -1, way=-1))


@pytest.mark.parametrize(
    ("removal", "place"),
    [
        (HEAD, "head"), (CHEEKS[0], "head"), (FOOT, "foot"), (HOLLOW, "foot"), (SEAT, "seat"),
        (HIGH, "high-seat"), (RIPS[0], "rip"), (BEVEL, "bevel"),
    ],
)  # fmt: skip
def test_where_a_removal_is_made(removal: WasteRegion, place: str) -> None:
    stick = board(HEAD, FOOT, removal)
    assert place_of(stick, removal) == place
    assert place_of(stick, removal[::-1]) == place


PLATE = {"P1": board(HEAD, FOOT, name="P1")}
WHOLE = board(HOLLOW, SEAT, HIGH, *RIPS, *CHEEKS)


def test_a_sticks_places_from_its_head_to_its_foot() -> None:
    assert places(WHOLE) == ("head", "high-seat", "seat", "foot", "rip")
    assert places(board(HEAD, FOOT, BEVEL)) == ("head", "bevel", "foot")
    # a notch may lie over a plate that reaches farther than the stick: it has no heel
    alone = plane_at(-Z, -9 * Z, "common-seat", "foot"), plane_at(X, -20 * X, "common-heel", "foot")
    assert places(board(HEAD, FOOT, alone)) == ("head", "seat", "foot")
    # what is cut beyond the end of the wood leaves nothing there
    assert places(board(HEAD, FOOT, (cheek(60, 1),))) == ("head", "foot")
    assert PLACES.index("bevel") == 1


def test_what_is_made_at_one_place_stands_together_and_each_plane_once() -> None:
    level, own = SEAT
    other = plane_at((2 * X + Y) / math.sqrt(5), 0.75 * Y, "valley heel", "foot")
    stick = board(HEAD, FOOT, (level, own), (level, other))
    assert [p.says for p in planes_at(stick, "seat")] == [
        "common-seat", "common-heel", "valley heel"]  # fmt: skip
    asked = end_question(stick, "seat", PLATE)
    assert asked.joint.grouped == ((0, 1), (0, 2))
    assert not asked.joint.point
    assert [p.says for p in planes_at(WHOLE, "head")] == ["cheek", "cheek"]
    assert end_question(WHOLE, "head", {}).joint.grouped == ((0,), (1,))
    assert end_question(WHOLE, "head", {}).joint.point
    mixed = board(CHEEKS[0], (cheek(38, 1), cheek(39, -1)), FOOT)
    assert not end_question(mixed, "head", {}).joint.point
    assert end_question(WHOLE, "foot", {}).joint.grouped == ((0, 1),)
    assert not end_question(WHOLE, "foot", {}).joint.point


def test_an_end_knows_the_bevels_of_a_backed_stick_and_a_rip_is_one() -> None:
    for place in places(WHOLE):
        asked = end_question(WHOLE, place, PLATE)
        stands = asked.stands
        assert stands is not None
        assert asked.joint.rip == (place == "rip")
        assert len(asked.joint.bevels) == (0 if place == "rip" else 2)
        for bevel, (rip,) in zip(asked.joint.bevels, RIPS, strict=False):
            assert bevel == pytest.approx(rip.normal)
        assert len(stands.rips) == (2 if place in ("head", "foot") else 0)
        assert stands.starts_in is None
    one = board(HEAD, FOOT, RIPS[0])
    assert end_question(one, "head", {}).joint.bevels == ()
    stands = end_question(one, "head", {}).stands
    assert stands is not None
    assert [cut.normal for cut in stands.rips] == [pytest.approx([0, ROOT, ROOT])]


@pytest.mark.parametrize("on_plate", [True, False])
def test_a_bevel_tells_where_it_begins_and_nothing_of_what_ends_it(on_plate: bool) -> None:
    """It begins 30 in from the plumb line on the wall; from the foot's long point 10 in more."""
    stick = board(HEAD, FOOT, BEVEL, on_plate=on_plate)
    asked = end_question(stick, "bevel", {})
    assert asked.stands is not None
    assert asked.stands.starts_in == pytest.approx(30 if on_plate else 40)
    (cut,) = asked.joint.cuts(stick.stock)
    assert cut.normal == pytest.approx([0, ROOT, ROOT])
    assert asked.joint.rip
    assert asked.end == "head"
    at, words = datum_of(stick)
    assert at == pytest.approx(0 if on_plate else -10)
    assert ("wall" in words) == on_plate
    assert ("long point" in words) != on_plate
    # a foot's cheek through -10 in the middle: half of 1 1/2 in over 0.6 farther out
    (at, _), slanted = datum_of(board(HEAD, (cheek(-10, 1, way=-1),), on_plate=on_plate)), -11.25
    assert at == pytest.approx(0 if on_plate else slanted)


def test_how_the_tape_reads_on_an_end() -> None:
    """Its foot reaches 10 in past the wall on the top edge; square, so as far on the bottom."""
    stick, other = board(HEAD, FOOT), board(HEAD, FOOT, on_plate=False)
    on, off = use_of(stick, "C-A", ("C1", "C2"), 3.0), use_of(other, "J-A", ("J1",), 3.0)
    assert (on.name, on.sticks, on.offset_in, on.foot_in) == (
        "C-A", ("C1", "C2"), 3.0, pytest.approx(10))  # fmt: skip
    assert (off.offset_in, off.foot_in) == (pytest.approx(13), 0.0)
    stands = end_question(stick, "head", {}).stands
    assert stands is not None
    assert [use.sticks for use in stands.uses] == [("S1",)]
    stands = end_question(stick, "head", {}, ("S1", "S9")).stands
    assert stands is not None
    assert [(use.name, use.sticks, use.offset_in) for use in stands.uses] == [
        ("S1", ("S1", "S9"), 0.0)]  # fmt: skip


def test_a_place_where_nothing_is_cut_is_refused_with_those_that_are_there() -> None:
    with pytest.raises(FrameError) as caught:
        end_question(board(HEAD, FOOT), "rip", {})
    assert str(caught.value) == "nothing is cut at the rip of S1; ask for its head or its foot"


def test_a_question_is_asked_in_the_roof_of_its_cut() -> None:
    """Else in that of any cut near it, else at 8 in 12 on a square corner."""
    pitches = read_pitch("5"), read_pitch("7")
    asked = CatalogueCut("hip-jack", *pitches, 100.0, "head")
    known = replace(cheek(40, -1), asked=asked, says="hip-jack")
    question = end_question(board((known,), FOOT), "head", {})
    assert (question.pitch, question.other_pitch, question.corner_deg) == (*pitches, 100.0)
    assert (question.end, question.hand) == ("head", Hand.RIGHT)
    assert (question.entry.name, question.entry.meets) == ("S1:head", "hip")
    assert question.entry.says == "common, hip jack"
    assert question.entry.two_hands
    assert question.stock == read_stock("2x6")
    foot = end_question(board((known,), FOOT), "foot", {})
    assert (foot.pitch, foot.end, foot.hand) == (pitches[0], "foot", Hand.LEFT)
    assert not foot.entry.two_hands
    beside = end_question(board(HEAD, FOOT), "head", {"J1": board((known,), FOOT, name="J1")})
    assert (beside.pitch, beside.other_pitch, beside.corner_deg) == (*pitches, 100.0)
    alone = end_question(board(HEAD, FOOT), "head", {})
    assert (alone.pitch, alone.other_pitch, alone.corner_deg) == (*[read_pitch("8")] * 2, 90.0)
    assert alone.entry.meets == "nothing"
    assert end_question(WHOLE, "high-seat", PLATE).end == "head"
    assert end_question(WHOLE, "seat", PLATE).end == "foot"
    assert not end_question(WHOLE, "rip", {}).entry.two_hands
    # a stick's plan length over the common's run: as its cut has it, else as a common's own
    hip = CatalogueCut("hip-ridge", *[read_pitch("8")] * 2, 90.0, "head")
    told = board((replace(cheek(40, -1), asked=hip),), FOOT)
    assert end_question(told, "foot", {}).joint.unit_run == pytest.approx(math.sqrt(2))
    assert end_question(board(HEAD, FOOT), "head", {}).joint.unit_run == 1.0


def test_what_has_no_stick_for_a_mate_lies_on_a_level_board_there() -> None:
    """It runs along the cut, stands plumb, and its left face is the one that is touched."""
    plumb = plane_at((X + Y) * ROOT, 40 * ALONG, "common-tail", "head")
    (plane,) = end_question(board((plumb,), FOOT), "head", {}).joint.planes
    assert plane.mate.head[2] == pytest.approx(0)
    assert plane.mate.up == pytest.approx(Z)
    assert plane.mate.left == pytest.approx(-plumb.normal)
    beside = {"H1": board(HEAD, FOOT, name="H1")}
    mated = board((replace(plumb, mate="H1"),), FOOT)
    (plane,) = end_question(mated, "head", beside).joint.planes
    assert plane.mate is beside["H1"].pose


def test_what_an_end_lies_against_in_words() -> None:
    mate = board(HEAD, FOOT, name="H1")
    stick = board(HEAD, FOOT)
    square = plane_at(ALONG, 5 * ALONG, "", "head")
    for says, said in {
        "common-tail": "fascia", "common-tail-plumb": "fascia", "hip heel": "wall",
        "hip-backing": "sheathing", "ridge bevel": "sheathing", "planed corner": "sheathing",
        "square end": "open air",
    }.items():  # fmt: skip
        assert mate_words(stick, replace(square, says=says), None) == said
        if "heel" not in says:
            assert mate_words(stick, replace(square, says=says), mate) == "common H1"
    # a hip's heel has two planes round the corner of the plates, each at the face it looks away
    # from: what is left of x > |y| behind x = -y lies at the right face
    heels: WasteRegion = (
        SEAT[0],
        plane_at((X + Y) * ROOT, 0.75 * Y, "hip heel", "foot"),
        plane_at((X - Y) * ROOT, 0.75 * Y, "hip heel", "foot"),
    )
    hip = board(HEAD, FOOT, heels)
    assert [mate_words(hip, plane, mate) for plane in heels[1:]] == [
        "wall at the right face", "wall at the left face"]  # fmt: skip


def test_equal_ends_are_one_whatever_lies_between_and_square_ones_are_none() -> None:
    """A cheek 40 in up one stick and 44 in up another: drawn once, 4 in farther on the second."""
    one = board((cheek(40, 1),), FOOT)
    two = board((cheek(44, 1),), FOOT, name="S2")
    other = board((cheek(40, -1),), FOOT, name="S3")
    ends = distinct_ends({"S-A": (one,), "S-B": (two,), "S-C": (other,)}, {})
    uses = [end.stands.uses for end in ends if end.stands]
    assert [[use.name for use in each] for each in uses] == [["S-A", "S-B"], ["S-C"]]
    assert [use.offset_in for use in uses[0]] == pytest.approx([0, 4])
    # square across beside a cheek is laid out with it
    both = board((cheek(40, 1),), HEAD, FOOT)
    (end,) = distinct_ends({"S-A": (both,)}, {})
    assert len(end.joint.planes) == 2
    assert distinct_ends({"S-A": (board(HEAD, FOOT),)}, {}) == ()
    # the same head on a stick of another role is the same end; a rip is its own stick's
    jack = replace(two, role="hip jack")
    assert len(distinct_ends({"S-A": (one,), "S-B": (jack,)}, {})) == 1
    ripped = board(HEAD, FOOT, *RIPS)
    valley = replace(ripped, role="valley")
    assert len(distinct_ends({"S-A": (ripped,), "S-B": (replace(ripped, name="S2"),)}, {})) == 1
    assert len(distinct_ends({"S-A": (ripped,), "S-B": (valley,)}, {})) == 2
    # bevels are one only where they begin at one place
    later = (BEVEL[0], plane_at(ALONG, 31 * ALONG, "where it begins", "head"))
    beveled = board(HEAD, FOOT, BEVEL), board(HEAD, FOOT, later)
    assert len(distinct_ends({"S-A": beveled[:1], "S-B": beveled[1:]}, {})) == 2
    assert len(distinct_ends({"S-A": beveled[:1], "S-B": beveled[:1]}, {})) == 1


def test_what_rounding_leaves_on_either_side_of_nothing_makes_no_second_end() -> None:
    """A cheek that leans by a millionth of a millionth to either side, and through the same point
    of its lower arris, or as much before or behind it, a cut that slopes back up the depth."""
    arris, groups = 40 * ALONG - 5.5 * UP, {}
    back = plane_at(0.6 * ALONG + 0.8 * UP, arris, "slope", "head")
    for name, off in (("S-A", 1e-12), ("S-B", -1e-12)):
        leans = plane_at(cheek(40, 1).normal + off * UP, arris, "cheek", "head")
        slopes = replace(back, level_in=back.level_in + off)
        groups[name] = (board((leans,), (slopes,), FOOT),)
    (end,) = distinct_ends(groups, {})
    assert end.stands is not None
    assert [use.name for use in end.stands.uses] == ["S-A", "S-B"]
    assert len(end.joint.planes) == 2


@pytest.mark.parametrize("name", ["a small L", "a shed"])
def test_every_end_of_a_roof_is_drawn_once_and_reads_true_on_all_its_sticks(name: str) -> None:
    """On the drawing and on each stick that it is for, the planes are laid off from the datum: at
    any place across the section they lie as far along as the use says."""
    roof = small_ell() if name == "a small L" else framed_shape(name)
    groups = piece_groups(roof)
    ends = distinct_ends(groups, roof.by_name)
    seen: dict[tuple[str, CutPlace], int] = {}
    for end in ends:
        stands, place = end.stands, end.entry.name.partition(":")[2]
        assert stands is not None
        cuts = stands.joint.cuts(end.stock)
        for use in stands.uses:
            assert use.sticks == tuple(stick.name for stick in groups[use.name])
            for stick in groups[use.name]:
                seen[stick.name, place] = seen.get((stick.name, place), 0) + 1  # type: ignore[arg-type, index]
                at, words = datum_of(stick)
                assert use.datum == words
                here = [stick.cut(p) for p in planes_at(stick, place)]  # type: ignore[arg-type]
                if place == "bevel":
                    here = [cut for cut in here if abs(float(cut.normal[0])) < 1e-9]
                assert len(here) == len(cuts)
                for cut in cuts:
                    same = [c for c in here if np.abs(c.normal - cut.normal).max() < 1e-6]
                    if abs(float(cut.normal[0])) < 1e-9:
                        off = [float(c.level_in - cut.level_in) for c in same]
                    else:
                        drawn = float(cut.x_at(0.3, 0.7)) + use.offset_in
                        off = [float(c.x_at(0.3, 0.7)) - at - drawn for c in same]
                    assert min(map(abs, off)) < 2e-5
    for stick in roof.sticks:
        for place in places(stick):
            square = all(
                np.abs(stick.cut(p).normal[1:]).max() < 1e-9 for p in planes_at(stick, place)
            )
            assert seen.get((stick.name, place), 0) == (0 if square else 1), (stick.name, place)


def test_the_mates_of_equal_ends_are_named_as_they_are_true_of_all() -> None:
    """The heads of jacks on one hip name it; on several, only what it is."""
    hips = {name: board(HEAD, FOOT, name=name) for name in ("H1", "H2")}
    ridge = replace(hips["H1"], name="R1", role="ridge")
    by_name = {**{n: replace(s, role="hip") for n, s in hips.items()}, "R1": ridge}

    def jack(mate: str) -> Stick:
        return board((replace(cheek(40, 1), mate=mate),), FOOT, name=f"J{mate}")

    def told(*mates: str) -> tuple[str, ...]:
        return common_mates([jack(mate) for mate in mates], "head", by_name)

    assert told("H1") == told("H1", "H1") == ("hip H1",)
    assert told("H1", "H2") == ("hip",)
    assert told("R1", "H2", "H1") == ("hip or ridge",)
    # two cheeks on two hips: which of them is told by the face at which it lies
    two = [
        board(*((replace(p, mate=mate),) for (p,), mate in zip(CHEEKS, order, strict=True)), FOOT)
        for order in (("H1", "H2"), ("H2", "H1"))
    ]
    assert common_mates(two[:1], "head", by_name) == ("hip H1", "hip H2")
    assert common_mates(two, "head", by_name) == (
        "hip at the left face", "hip at the right face")  # fmt: skip
    # of cheeks that meet off the middle, at 1.05 of 1 1/2 in, each is told by its own side too
    uneven = [
        board((replace(cheek(41, 1), mate=one),), (replace(cheek(40, -1), mate=other),), FOOT)
        for one, other in (("H1", "H2"), ("H2", "H1"))
    ]
    assert common_mates(uneven, "head", by_name) == (
        "hip at the left face",
        "hip at the right face",
    )
    # equal sticks may have their planes in another order
    turned = replace(two[0], removals=(two[0].removals[1], two[0].removals[0], FOOT))
    assert common_mates([two[0], turned], "head", by_name) == ("hip H1", "hip H2")
