"""The catalogue: its names, both hands in the mirror, both roofs exchanged, limits, arrays."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout import cuts
from layout.cuts import Hand, catalogue, find
from layout.errors import CutError, RoofError
from layout.plane.corner import Corner
from layout.stock import read_stock
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(150, 6), deadline=None)
EVERY_END = [(name, end) for name, entry in catalogue().items() for end in entry.ends]
HANDED = [(name, end) for name, end in EVERY_END if catalogue()[name].two_hands]
FAMILIES = {
    "brace": {"brace"},
    "common": {
        "common-ridge",
        "common-seat",
        "common-heel",
        "common-tail-plumb",
        "common-tail-square",
        "common-tail-level",
    },
    "deck": {"deck-valley-jack", "sleeper-head", "sleeper-foot", "sleeper-edge"},
    "fascia": {"fascia-plumb", "fascia-square"},
    "gable": {"gable-stud", "rake-board"},
    "hip": {
        "hip-ridge",
        "hip-ridge-single",
        "hip-to-hip",
        "hip-seat",
        "hip-tail",
        "hip-backing",
    },
    "jack": {"hip-jack", "valley-jack", "cripple-jack"},
    "purlin": {"purlin-square", "purlin-plumb", "roof-board"},
    "splayed": {"splayed-miter", "splayed-butt"},
    "valley": {
        "valley-ridge",
        "valley-seat",
        "valley-tail",
        "valley-backing",
        "valley-to-valley",
    },
}
RIPS = {"hip-backing", "valley-backing", "sleeper-edge"}


def usual(name, slope=30.0, other=None, hand=1.0, angle=None):
    entry = catalogue()[name]
    angle = entry.usual_corner_deg if angle is None else angle
    return Corner(slope, slope if other is None else other, angle, hand)


def first_cut(name, end=None, **roof):
    entry = catalogue()[name]
    return entry.joint(usual(name, **roof), end).cuts(read_stock(entry.stock))[0]


def test_the_catalogue_has_every_cut_of_the_roof():
    named = {}
    for name, cut in catalogue().items():
        assert cut.name == name
        named.setdefault(cut.family, set()).add(name)
    assert {family: named[family] & cuts for family, cuts in FAMILIES.items()} == FAMILIES
    assert list(named) == sorted(named)


@pytest.mark.parametrize("name", catalogue())
def test_an_entry_says_what_it_is(name):
    entry = catalogue()[name]
    assert entry.says
    assert "\n" not in entry.says
    assert read_stock(entry.stock).name == entry.stock
    for build in entry.builders.values():
        assert build.__doc__
    assert entry.usual_corner_deg == (270.0 if entry.meets == "valley" else 90.0)


@pytest.mark.parametrize(("name", "end"), EVERY_END)
def test_a_head_cut_ends_the_head_and_a_rip_neither(name, end):
    entry = catalogue()[name]
    assert entry.joint(usual(name), end).rip == (name in RIPS)
    cut = first_cut(name, end, other=40.0)
    assert cut.runs_along == (name in RIPS)
    if not cut.runs_along:
        assert cut.at_head == (end == "head")


@pytest.mark.parametrize(("name", "end"), EVERY_END)
def test_two_hands_are_told_apart_only_where_they_differ(name, end):
    angle = 255.0 if catalogue()[name].meets == "valley" else 105.0
    cut = first_cut(name, end, slope=30.0, other=35.0, angle=angle)
    assert (abs(cut.normal[1]) > 1e-9) == catalogue()[name].two_hands


@pytest.mark.parametrize(("name", "end"), EVERY_END)
@pytest.mark.parametrize("hand", list(Hand))
def test_the_first_cheek_that_has_a_side_faces_the_hand_asked_for(name, end, hand):
    """A seat is level and faces neither side: its heel along the own wall is the first that does.

    Of a hip's or valley's two heels one faces left and the other right, whatever the roof."""
    angle = 255.0 if catalogue()[name].meets == "valley" else 105.0
    joint = catalogue()[name].joint(Corner(30.0, 35.0, angle, hand.sign), end)
    sides = [float(normal[1]) for normal in joint.normals if abs(normal[1]) > 1e-9]
    assert not sides or sides[0] * hand.sign > 0
    assert bool(sides) == (catalogue()[name].two_hands or name in ("hip-seat", "valley-seat"))


@pytest.mark.parametrize(("name", "end"), HANDED)
@pytest.mark.parametrize("other", [20.0, 30.0, 35.0])
def test_the_first_cheek_faces_the_hand_that_was_asked_for(name, end, other):
    for hand in Hand:
        side = first_cut(name, end, other=other, hand=hand.sign).normal[1]
        assert side * hand.sign > 0 or abs(side) < 1e-12
    assert [hand.other for hand in Hand] == [Hand.RIGHT, Hand.LEFT]


@pytest.mark.parametrize(("name", "end"), EVERY_END)
@SETTINGS
@given(st.floats(3.0, 60.0), st.floats(3.0, 60.0), st.floats(80.0, 110.0))
def test_left_and_right_mirror_to_the_last_bit(name, end, slope, other, angle):
    entry = catalogue()[name]
    angle = 360.0 - angle if entry.meets == "valley" else angle
    roof = {"slope": slope, "other": other, "angle": angle}
    try:
        left, right = (entry.joint(usual(name, hand=h.sign, **roof), end) for h in Hand)
    except CutError:
        with pytest.raises(CutError):
            entry.joint(usual(name, hand=-1.0, **roof), end)
        return
    stock = read_stock(entry.stock)
    for ours, theirs in zip(left.cuts(stock), right.cuts(stock), strict=True):
        assert np.array_equal(ours.normal, theirs.normal * [1, -1, 1])
        across = stock.thickness_in - theirs.span[0, ::-1]
        np.testing.assert_allclose(ours.span[0], across, atol=1e-12)
        np.testing.assert_allclose(ours.span[1], theirs.span[1], atol=1e-12)
        for reading in ("face_mark_deg", "edge_mark_deg", "face_tilt_deg", "edge_tilt_deg"):
            assert getattr(ours, reading) == getattr(theirs, reading)


@pytest.mark.parametrize(
    "name", ["hip-ridge", "hip-tail", "hip-backing", "valley-tail", "valley-backing"]
)
@SETTINGS
@given(st.floats(3.0, 60.0), st.floats(3.0, 60.0), st.floats(85.0, 95.0))
def test_exchanging_the_roofs_exchanges_the_hands(name, slope, other, angle):
    """The second plane of a stick is the first one of the same stick, seen from the other roof."""
    entry = catalogue()[name]
    angle = 360.0 - angle if entry.meets == "valley" else angle
    try:
        seen = entry.joint(usual(name, slope=slope, other=other, angle=angle))
    except CutError:
        return
    stock = read_stock(entry.stock)
    side = float(np.sign(seen.cuts(stock)[1].normal[1]))
    turned = entry.joint(usual(name, slope=other, other=slope, angle=angle, hand=side))
    for ours, theirs in zip(seen.cuts(stock), turned.cuts(stock)[::-1], strict=True):
        np.testing.assert_allclose(ours.normal, theirs.normal, atol=1e-12)
        np.testing.assert_allclose(ours.span, theirs.span, atol=1e-9)
        np.testing.assert_allclose(ours.point, theirs.point, atol=1e-12)


@pytest.mark.parametrize(
    "name", ["fascia-plumb", "fascia-square", "roof-board", "splayed-miter", "rake-board"]
)
@SETTINGS
@given(st.floats(3.0, 60.0), st.floats(3.0, 60.0))
def test_both_boards_of_a_mitre_are_one_cut_seen_from_both_roofs(name, slope, other):
    """The dihedral with either board's face is the same: one plane midway between both."""
    ours = first_cut(name, slope=slope, other=other)
    theirs = first_cut(name, slope=other, other=slope)
    if name == "rake-board":
        assert ours.face_mark_deg == pytest.approx(theirs.face_mark_deg, abs=1e-9)
    else:
        assert ours.face_tilt_deg == pytest.approx(theirs.face_tilt_deg, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "tilts"),
    [
        ("hip-jack", [45]),
        ("valley-jack", [45]),
        ("cripple-jack", [45]),
        ("hip-ridge", [45, 45]),
        ("hip-ridge-single", [45]),
        ("hip-to-hip", [45]),
        ("hip-tail", [45, 45]),
        ("valley-ridge", [45]),
        ("valley-tail", [45, 45]),
        ("valley-to-valley", [0]),
        ("purlin-plumb", [45]),
        ("fascia-plumb", [45]),
    ],
)
@SETTINGS
@given(rise=st.floats(0.1, 40.0))
def test_equal_pitches_on_a_square_corner_tilt_the_saw_to_45(name, rise, tilts):
    """At every pitch. Common practice, no source."""
    entry = catalogue()[name]
    slope = np.degrees(np.arctan(rise / 12))
    for end in entry.ends:
        cuts = entry.joint(usual(name, slope=slope), end).cuts(read_stock(entry.stock))
        assert [float(c.face_tilt_deg) for c in cuts] == pytest.approx(tilts, abs=1e-9)


LEVEL_JOINERY = {
    # name: face mark, edge mark, tilt of the shoe on the face as the roof grows flat [degrees]
    "hip-jack": (0, 45, 45),
    "valley-jack": (0, 45, 45),
    "cripple-jack": (0, 45, 45),
    "hip-ridge": (0, 45, 45),
    "hip-ridge-single": (0, 45, 45),
    "hip-to-hip": (0, 45, 45),
    "hip-tail": (0, 45, 45),
    "valley-ridge": (0, 45, 45),
    "valley-tail": (0, 45, 45),
    "valley-to-valley": (0, 0, 0),
    "purlin-square": (0, 45, 45),
    "purlin-plumb": (0, 45, 45),
    "fascia-plumb": (0, 45, 45),
    "fascia-square": (0, 45, 45),
    "roof-board": (45, 0, 0),  # boards on a floor: a picture frame
    "splayed-miter": (45, 0, 0),
    "common-ridge": (0, 0, 0),
    "common-heel": (0, 0, 0),
    "common-tail-plumb": (0, 0, 0),
    "common-tail-square": (0, 0, 0),
    "gable-stud": (0, 0, 0),
    "rake-board": (0, 0, 0),
}


@pytest.mark.parametrize("name", LEVEL_JOINERY)
def test_a_flat_roof_is_level_joinery(name):
    for slope in (1e-3, 1e-5):
        cut = first_cut(name, slope=slope)
        read = (cut.face_mark_deg, cut.edge_mark_deg, cut.face_tilt_deg)
        assert read == pytest.approx(LEVEL_JOINERY[name], abs=2 * slope)


def test_upright_sides_make_a_plain_box():
    """As the sides stand up: a plain mitre of 45, and a plain butt."""
    for lean in (1e-3, 1e-5):
        mitre = first_cut("splayed-miter", slope=90.0 - lean)
        assert mitre.face_tilt_deg == pytest.approx(45, abs=2 * lean)
        assert mitre.face_mark_deg == pytest.approx(0, abs=2 * lean)
        butt = first_cut("splayed-butt", slope=90.0 - lean)
        assert (butt.face_mark_deg, butt.face_tilt_deg) == pytest.approx((0, 0), abs=2 * lean)


STRAIGHT = ["fascia-plumb", "fascia-square", "roof-board", "splayed-miter", "purlin-plumb"]
STRAIGHT += ["purlin-square", "hip-tail"]


@pytest.mark.parametrize("name", STRAIGHT)
def test_a_wall_that_runs_on_needs_no_mitre(name):
    """As the corner opens to 180 degrees, level sticks are cut square and tails plumb."""
    for short_of in (1e-3, 1e-5):
        cut = first_cut(name, slope=35.0, angle=180.0 - short_of)
        assert cut.face_tilt_deg == pytest.approx(0, abs=2 * short_of)
        assert cut.edge_mark_deg == pytest.approx(0, abs=2 * short_of)
        mark = 35.0 if name == "hip-tail" else 0.0
        assert cut.face_mark_deg == pytest.approx(mark, abs=2 * short_of)


@pytest.mark.parametrize("name", ["fascia-plumb", "fascia-square"])
def test_fascias_in_line_butt_exactly_square(name):
    cut = first_cut(name, slope=35.0, angle=180.0)
    np.testing.assert_allclose(cut.normal, [1, 0, 0], atol=1e-15)


def test_fascias_in_line_at_two_pitches_or_a_purlin_along_a_break_are_refused():
    with pytest.raises(CutError, match="fascia-square"):
        first_cut("fascia-square", slope=20.0, other=35.0, angle=180.0)
    with pytest.raises(CutError, match="purlin-plumb"):
        first_cut("purlin-plumb", slope=20.0, other=35.0, angle=180.0)
    with pytest.raises(RoofError):
        first_cut("purlin-plumb", slope=20.0, angle=180.0)


@pytest.mark.parametrize(
    ("name", "slope", "other", "angle"),
    [
        ("hip-jack", 10.0, 40.0, 135.0),
        ("cripple-jack", 10.0, 40.0, 135.0),
        ("hip-ridge", 10.0, 40.0, 135.0),
        ("hip-ridge", 40.0, 10.0, 135.0),
        ("hip-to-hip", 40.0, 10.0, 135.0),
        ("valley-jack", 10.0, 40.0, 225.0),
        ("deck-valley-jack", 10.0, 40.0, 225.0),
        ("hip-backing", 10.0, 40.0, 135.0),
        ("hip-backing", 40.0, 10.0, 135.0),
        ("valley-backing", 10.0, 40.0, 225.0),
        ("valley-backing", 40.0, 10.0, 225.0),
    ],
)
def test_a_line_that_leans_past_an_eave_leaves_no_place_for_the_cut(name, slope, other, angle):
    """By hand, 135: the hip leans past square to the flat eave once tan a < tan b cos 45."""
    with pytest.raises(CutError) as error:
        first_cut(name, slope=slope, other=other, angle=angle)
    assert len(str(error.value).splitlines()) == 1
    assert name in str(error.value)
    assert "nearer" in str(error.value)
    first_cut(name, slope=35.0, other=40.0, angle=angle)


def test_a_jack_beside_its_hip_is_no_rip():
    """4 and 8 in 12 at 120 degrees: tan a + tan b cos 120 = 0, the hip runs as the jack does."""
    low, high = np.degrees(np.arctan([4 / 12, 8 / 12]))
    with pytest.raises(CutError):
        first_cut("hip-jack", slope=low, other=high, angle=120.0)


@pytest.mark.parametrize(("name", "end"), EVERY_END)
def test_arrays_of_roofs_are_their_roofs_one_by_one(name, end):
    entry, stock = catalogue()[name], read_stock(catalogue()[name].stock)
    slopes, others = np.array([20.0, 30.0, 35.0]), np.array([[25.0], [30.0]])
    hands = np.array([1.0, -1.0, 1.0])
    angle = 265.0 if entry.meets == "valley" else 95.0
    joint = entry.joint(Corner(slopes, others, angle, hands), end)
    many = joint.cuts(stock)
    for row in range(2):
        for column in range(3):
            corner = Corner(slopes[column], others[row, 0], angle, hands[column])
            one = entry.joint(corner, end)
            for ours, cut in zip(many, one.cuts(stock), strict=True):
                for whole, single, rank in (
                    (ours.normal, cut.normal, 1),
                    (ours.point, cut.point, 1),
                    (ours.span, cut.span, 2),
                    (ours.corners(), cut.corners(), 2),
                    (ours.face_mark_deg, cut.face_mark_deg, 0),
                    (ours.edge_number, cut.edge_number, 0),
                ):
                    shape = (2, 3, *whole.shape[whole.ndim - rank :])
                    spread = np.broadcast_to(whole, shape)
                    np.testing.assert_allclose(spread[row, column], single, rtol=1e-12, atol=1e-12)


def test_an_unknown_cut_is_answered_with_the_nearest_names():
    assert find("hip-jack").name == "hip-jack"
    for wrong, near in (
        ("hipjack", "hip-jack"),
        ("valley-jak", "valley-jack"),
        ("fascia", "fascia-"),
    ):
        with pytest.raises(CutError, match=near) as error:
            find(wrong)
        assert len(str(error.value).splitlines()) == 1
        assert repr(wrong) in str(error.value)
    with pytest.raises(CutError, match="lists them all"):
        find("zzzz")


def test_an_end_without_the_cut_is_refused():
    with pytest.raises(CutError, match="hip-jack is cut at the head, not at the foot"):
        find("hip-jack").joint(usual("hip-jack"), "foot")
    assert find("cripple-jack").ends == ("head", "foot")


def test_a_second_entry_that_is_no_second_end_is_refused(monkeypatch):
    """A copied file under a known name would replace that cut's planes; it is an error."""
    monkeypatch.setattr("layout.cuts._entries", dict(catalogue()))
    about = {"meets": "hip", "name": "cripple-jack"}
    with pytest.raises(CutError, match=r"the head of hip-jack is entered twice, in layout\.cuts"):
        cuts.entry("jack", "a copy", meets="hip", name="hip-jack")(lambda corner: None)
    for field, other in (("stock", "2x4"), ("meets", "valley"), ("two_hands", False)):
        monkeypatch.setattr("layout.cuts._entries", {})
        cuts.entry("jack", "a cripple", **about)(lambda corner: None)
        with pytest.raises(CutError, match=f"its foot is entered with {field} = "):
            cuts.entry("jack", "", **(about | {field: other}), end="foot")(lambda corner: None)
    with pytest.raises(CutError, match="say it once"):
        cuts.entry("jack", "something else", **about, end="foot")(lambda corner: None)


@pytest.mark.parametrize("said", ["splayed-mitre", "Splayed Miter", " splayed  mitre"])
def test_a_name_is_read_as_it_is_said(said):
    assert find(said).name == "splayed-miter"
