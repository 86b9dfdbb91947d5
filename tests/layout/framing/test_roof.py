"""Training roofs as solids, their cut lists, and the shapes that are refused."""

import math
import re
from collections import Counter
from dataclasses import replace
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
import shapely

from layout.errors import FrameError, LayoutError, LengthError
from layout.framing.contact import contacts
from layout.framing.cutlist import board_rows, boards, cut_rows, piece_rows, stick_rows
from layout.framing.face import Face
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_frame import no_sticks
from layout.framing.roof_lines import roof_lines
from layout.framing.roof_plan import RoofPlan, Wing
from layout.framing.spacing import lay_out
from layout.framing.walls import Wall, walk
from layout.length.boards import Piece, cut_from_stock
from layout.quantity import read_pitch
from layout.records import as_table
from layout.stock import read_stock
from tests.counts import LONG, count
from tests.drawn_roofs import SHAPES, drawn, framed_shape, through
from tests.stick_solids import gaps, overlaps, pressed_area_in2, uncovered, unmated

BIG = read_stock("2x10")
PLANS = {
    "hips": RoofPlan(300, 180, spacing_in=24),
    "hips on the ridge": RoofPlan(300, 180, hip_head="ridge", hip_way="dropped", first_in=9.0),
    "gables": RoofPlan(200, 160, ends=("gable", "gable"), overhang_in=0),
    "a hip and a gable": RoofPlan(260, 170, ends=("hip", "gable"), plate_corner="clipped"),
    "two pitches": RoofPlan(
        320, 200, end_pitch=read_pitch("12"), hip=BIG, spacing_in=24, first_in=16.0
    ),
    "two pitches, shifted": RoofPlan(
        320, 200, end_pitch=read_pitch("6"), hip=BIG, hip_way="shifted", hip_head="ridge"
    ),
    "two pitches, dropped": RoofPlan(320, 200, end_pitch=read_pitch("10"), hip_way="dropped"),
    "an L of equal spans": RoofPlan(330, 190, wing=Wing(120, 190), spacing_in=24),
    "an L of unequal spans": RoofPlan(330, 200, wing=Wing(130, 150), plate_corner="clipped"),
    "an L with gables": RoofPlan(
        330, 200, ends=("hip", "gable"), wing=Wing(60, 140, "gable"), valley_way="hollowed",
        valley=BIG, hip_way="dropped", hip_head="ridge", seat_in=4.5, first_in=2.0,
    ),
    "an L of two pitches": RoofPlan(
        330, 200, wing=Wing(130, 140, pitch=read_pitch("10")), hip=BIG, valley=BIG, spacing_in=24
    ),
    "an L of two pitches and one height": RoofPlan(
        330, 200, wing=Wing(130, 150, pitch=read_pitch("32/36")), hip=BIG, valley=BIG,
        pitch=read_pitch("8 in 12"), hip_way="shifted", hip_head="ridge", overhang_in=10,
    ),
    "an L of three pitches": RoofPlan(
        360, 200, wing=Wing(130, 180, pitch=read_pitch("6")), end_pitch=read_pitch("9"),
        hip=read_stock("2x12"), valley=BIG, hip_way="dropped", plate_corner="clipped",
    ),
    "an L of metric stock, two end pitches": RoofPlan(
        350, 210, pitch=read_pitch("35deg"), end_pitch=read_pitch("42deg"), wing=Wing(150, 160),
        rafter=read_stock("45mm x 145mm"), hip=read_stock("45mm x 245mm"),
        valley=read_stock("63mm x 220mm"), ridge=read_stock("27mm x 245mm"),
        plate=read_stock("45mm x 95mm"), spacing_in=600 / 25.4,
    ),
}  # fmt: skip


EVERY = PLANS | SHAPES


@cache
def framed(name: str) -> TrainingRoof:
    """One of these roofs, framed once for all that read it."""
    return framed_shape(name) if name in SHAPES else frame(PLANS[name])


SHARE = (
    "an L of three pitches", "an octagon", "a shed", "a half-octagon end and a gable",
    "a sloping ridge",
)  # fmt: skip


@pytest.fixture(scope="module", params=list(EVERY) if LONG else SHARE, ids=str)
def roof(request: pytest.FixtureRequest) -> TrainingRoof:
    return framed(request.param)


@pytest.mark.parametrize("seed", range(count(200, 3)))
def test_drawn_roofs_stand_as_solids(seed: int) -> None:
    """No overlap, every mating cut covered, everything under the roof: shapes drawn by lot."""
    roof = drawn(seed)
    assert overlaps(roof.sticks) == []
    assert unmated(roof.sticks) == []
    assert gaps(roof.sticks) == []
    assert uncovered(roof.sticks) == []
    check_top_edges(roof)
    check_under_the_roof(roof)


def test_no_two_sticks_overlap(roof: TrainingRoof) -> None:
    assert overlaps(roof.sticks) == []


def test_every_mating_pair_touches(roof: TrainingRoof) -> None:
    assert unmated(roof.sticks) == []
    assert gaps(roof.sticks) == []
    assert uncovered(roof.sticks) == []


def test_a_cut_out_of_its_place_is_seen() -> None:
    """A cheek an eighth too far, a head turned by a degree, a head too narrow for its mate."""
    roof = framed("a square")
    for says, change in (
        ("hip-jack", lambda p: replace(p, level_in=p.level_in + 0.125)),
        ("hip-jack", lambda p: replace(p, level_in=p.level_in - 0.125)),
        ("hip miter", lambda p: replace(p, level_in=p.level_in - 0.125)),
    ):
        sticks = list(roof.sticks)
        at = next(k for k, s in enumerate(sticks) if says in {p.says for p in s.planes})
        moved = [tuple(change(p) if p.says == says else p for p in r) for r in sticks[at].removals]
        sticks[at] = replace(sticks[at], removals=tuple(moved))
        assert overlaps(sticks) + gaps(sticks) + uncovered(sticks)


def test_contacts_are_as_wide_as_a_push_bites(roof: TrainingRoof) -> None:
    """Pushed in by a thousandth, a cut that touches all over bites its area times the push."""
    chosen: dict[str, tuple[str, str]] = {}
    for contact in contacts(roof.sticks):
        chosen.setdefault(contact.says, (contact.stick, contact.mate))
    touching = {
        (c.stick, c.says, c.mate): c.area_in2
        for c in contacts(roof.sticks)
        if (c.stick, c.mate) == chosen[c.says]
    }
    assert len(touching) >= 3
    for (name, says, mate), area in touching.items():
        stick = roof.by_name[name]
        planes = [p for p in stick.planes if p.says == says and p.mate == mate]
        if len(planes) == 1:
            bitten = pressed_area_in2(stick, planes[0], roof.by_name[mate])
            assert bitten == pytest.approx(area, rel=0.02, abs=0.02), (name, says, mate)


def test_top_edges_lie_in_the_roof(roof: TrainingRoof) -> None:
    check_top_edges(roof)


def check_top_edges(roof: TrainingRoof) -> None:
    """Rafters' whole top edge; a hip's rips or arrises; a valley's middle; a ridge's arrises."""
    faces = {face.name: face for face in roof.faces}
    for stick in roof.rafters:
        above = faces[stick.face].above_in(top_corners(stick))
        assert np.abs(above).max() < 1e-9, stick.name
    lines = {line.name: line for line in roof.lines}
    for name, line in lines.items():
        stick = roof.by_name[name]
        ripped = [p for p in stick.planes if p.says.endswith("-backing")]
        if ripped:
            for face, plane in zip(line.faces, ripped, strict=True):
                for polygon in stick.surfaces(plane):
                    assert np.abs(face.above_in(polygon)).max() < 1e-9
            continue
        depth, thickness = stick.stock.depth_in, stick.stock.thickness_in
        at = {"own": 0.0, "other": thickness, "middle": thickness / 2}
        if float(line.aside(line.own) @ stick.pose.left) > 0:
            at["own"], at["other"] = at["other"], at["own"]
        on = {
            key: stick.origin + y * stick.pose.left + depth * stick.pose.up for key, y in at.items()
        }
        if line.kind == "valley":
            for face in line.faces:
                assert abs(float(face.above_in(on["middle"]))) < 1e-9
            continue
        own, other = line.own.above_in(on["own"]), line.other.above_in(on["other"])
        assert max(own, other) == pytest.approx(0, abs=1e-9)
        if line.top.way == "shifted" or line.own.pitch == line.other.pitch:
            assert min(own, other) == pytest.approx(0, abs=1e-9)


def top_corners(stick) -> np.ndarray:  # type: ignore[no-untyped-def]
    depths = stick.in_board(stick.corners)[:, 2]
    return stick.corners[np.abs(depths - stick.stock.depth_in) < 1e-9]


def test_nothing_sticks_out_of_the_roof(roof: TrainingRoof) -> None:
    check_under_the_roof(roof)


def check_under_the_roof(roof: TrainingRoof) -> None:
    """On convex outlines the roof is the lowest of its planes; elsewhere, inside the walls, the
    plane over each point."""
    outline, height = roof.surface.outline, roof.plan.mouth.height_above_plate_in
    walls = shapely.Polygon(outline.corners).buffer(1e-6)
    for stick in roof.sticks:
        points = stick.corners
        if outline.convex:
            tops = np.min([height_at(face, points) for face in roof.faces], axis=0)
        else:
            points = points[shapely.contains_xy(walls, points[:, 0], points[:, 1])]
            tops = np.array([height + roof.surface.height_in(p[:2]) for p in points])
        assert (points[:, 2] - tops).max(initial=-1.0) < 1e-6, stick.name


def height_at(face: Face, points: np.ndarray) -> np.ndarray:
    """Height of a face's plane plumb over or under points."""
    return face.height_in + face.slope * ((points - face.origin) @ face.inward)


def test_commons_jacks_and_hips_share_their_height_above_plate(roof: TrainingRoof) -> None:
    height = roof.plan.mouth.height_above_plate_in
    for stick in roof.rafters:
        if stick.on_plate:
            datum = stick.origin + stick.stock.depth_in * stick.pose.up
            assert datum[2] == pytest.approx(height, abs=1e-9)
    for line in roof.lines:
        if line.name in roof.seats:
            seat = roof.seats[line.name]
            lowered = line.top.lowered_in
            assert seat.mouth.height_above_plate_in + lowered == pytest.approx(height, abs=1e-12)


def test_every_catalogued_cut_is_the_catalogues_plane(roof: TrainingRoof) -> None:
    seen = Counter()  # type: ignore[var-annotated]
    for stick in roof.sticks:
        for plane in stick.planes:
            question = stick.question(plane)
            if question is None or plane.asked is None:
                continue
            normals = question.joint.normals
            own = [stick.pose.to_board(one.normal) for one in stick.planes]
            mine = normals[plane.asked.plane_index]
            assert np.abs(mine - stick.pose.to_board(plane.normal)).max() < 1e-12
            if roof.plan.plate_corner == "clipped" and plane.says in ("hip-seat", "valley-seat"):
                continue  # its heel is sawn square, and the catalogue's is not
            for normal in normals:  # the whole sheet: no cheek of it is the other hand's
                assert min(np.abs(normal - one).max() for one in own) < 1e-12, plane.says
            seen[plane.says] += 1
    assert {"common-seat", "common-tail-plumb"} <= set(seen)


def test_cut_list_accounts_for_every_stick(roof: TrainingRoof) -> None:
    rows = piece_rows(roof)
    named = [name for row in rows for name in row.names.split(", ")]
    assert sorted(named) == sorted(roof.by_name)
    assert sum(row.count for row in rows) == len(roof.sticks)
    by_mark = {row.mark: row for row in rows}
    for row in rows:
        if row.pair:
            assert by_mark[row.pair].pair == row.mark
            assert {row.hand, by_mark[row.pair].hand} == {"left", "right"}
            assert by_mark[row.pair].lengths.long_in == pytest.approx(row.lengths.long_in, abs=1e-6)
    cut = boards(roof, [144.0, 192.0, 288.0])
    spliced = [r for r in board_rows(cut) if " part " in r.pieces]
    wood = sum(piece.length_in for _, board in cut for piece in board.pieces)
    assert wood == pytest.approx(sum(stick.blank_in for stick in roof.sticks))
    assert all("R" in r.pieces or "P" in r.pieces for r in spliced)


def test_rows_describe_themselves(roof: TrainingRoof) -> None:
    header, rows = as_table(stick_rows(roof))
    assert header[:4] == ("name", "role", "face", "stock")
    assert len(rows) == len(roof.sticks)
    for row in (row for stick in roof.sticks for row in cut_rows(stick)):
        assert row.place in {"head", "foot", "bird's mouth", "rip"}
        assert row.asked.in_catalogue == (row.asked.pitch is not None)


# --- against published rules --------------------------------------------------------------------


def test_ridge_length_of_griffith() -> None:
    """Griffith 1916 App. IV and King formula 16: L - W + ridge thickness + diagonal of the hip,
    with the hips' cheeks on the ridge's sides."""
    roof = frame(replace(PLANS["hips on the ridge"], length_in=360.0, width_in=240.0))
    expected = 360 - 240 + 1.5 + 1.5 * math.sqrt(2)
    assert roof.by_name["R1"].blank_in == pytest.approx(expected, abs=1e-9)


def test_hips_between_commons_of_the_navy_course() -> None:
    """NAVEDTRA 14044 ch. 2: the hip loses half the 45 degree thickness of the common, level."""
    roof = framed("hips")
    hip = roof.by_name["H1"]
    level = float(np.hypot(*hip.pose.head[:2]))
    lost = (hip.theoretical_in - hip.measured().long_in) * level
    assert lost == pytest.approx(0.75 * math.sqrt(2), abs=1e-9)
    assert hip.theoretical_in == pytest.approx(90 * math.sqrt(288 + 64) / 12, abs=1e-9)
    common = roof.by_name["C1"]
    assert common.measured().long_in * 12 / math.hypot(12, 8) == pytest.approx(90 - 0.75, abs=1e-9)


def test_jacks_of_the_roof_differ_by_the_common_difference() -> None:
    roof = frame(RoofPlan(400, 240, spacing_in=16))
    jacks = [s for s in roof.rafters if s.role == "hip jack" and s.face == "left"]
    lengths = sorted({round(jack.theoretical_in, 6) for jack in jacks})
    assert np.diff(lengths) == pytest.approx(19.2296, abs=1e-3)  # NAVEDTRA 14044: 19.23


def test_both_sides_of_every_hip_pair() -> None:
    roof = framed("hips")
    rows = [row for row in piece_rows(roof) if row.role == "hip jack"]
    assert all(row.pair for row in rows)
    assert all(row.count == 4 for row in rows)


def test_level_fascia_under_two_pitches() -> None:
    roof = framed("two pitches")
    ends = [
        stick.end_points("foot").long_in * float(stick.pose.head[2]) + stick.origin[2]
        for stick in roof.rafters
        if stick.on_plate
    ]
    tops = [
        end + s.stock.depth_in * float(s.pose.up[2])
        for end, s in zip(ends, (s for s in roof.rafters if s.on_plate), strict=True)
    ]
    fall = (12 - 0.75) * 8 / 12
    height = roof.plan.mouth.height_above_plate_in
    main = [t for t, s in zip(tops, roof.rafters, strict=True) if s.face in ("front", "back")]
    assert main == pytest.approx([height - fall] * len(main))
    # the fascias' outsides are level: 12 x 8/12 = 8 x 12/12
    end = next(face for face in roof.faces if face.name == "left")
    assert end.overhang_in * 12 / 12 == pytest.approx(12 * 8 / 12)


def test_bearing_and_notch_stand_beside_the_code() -> None:
    roof = framed("hips")
    words = [f"{c.what}: {c.here_in:.3f} {c.section} {c.code_in:.3f}" for c in roof.comparisons]
    assert "level bearing of the rafter on the plate: 3.500 R802.6 1.500" in words
    assert "depth of the hip: 7.250 R802.3 6.610" in words
    # a hip leaves a 3 1/2 in plate after 3 1/2 x sqrt 2 along its plan
    assert "level bearing of the hip on the plate: 4.950 R802.6 1.500" in words


def test_rafters_of_two_pitches_are_told_apart_beside_the_code() -> None:
    """By hand, 2x6 at 8 and 12 in 12: the seat of 3 1/2 in leaves 5.5 sqrt(13)/3 - 3.5 * 2/3 =
    4.277 in above the plate; at 45 degrees 5.5 sqrt(2) - 4.277 = 3.501 in of heel and seat, and a
    notch of that over sqrt(2); at 8 in 12 a notch of 3.5 * 2/3 * 3/sqrt(13)."""
    told = {c.what: c.here_in for c in framed("two pitches").comparisons if "notch" in c.what}
    del told["depth of the hip's notch, square to the edge"]
    assert told == {
        "depth of the front, back rafter's notch, square to the edge": pytest.approx(
            1.941, abs=5e-4
        ),
        "depth of the right, left rafter's notch, square to the edge": pytest.approx(
            2.476, abs=5e-4
        ),
    }


def test_a_hip_between_two_pitches_stands_beside_the_deeper_cut_end() -> None:
    """A 2x6 cut plumb is 5 1/2 x sqrt 2 deep at 12 in 12, and 6.61 at 8 in 12."""
    hips = [c for c in framed("two pitches").comparisons if c.what == "depth of the hip"]
    assert [one.code_in for one in hips] == pytest.approx([5.5 * math.sqrt(2)] * len(hips))
    assert hips


def test_where_no_sticks_stand_one_sentence_says_why() -> None:
    p, lean = read_pitch("8"), math.tan(math.radians(10))
    skew_gable = [
        Wall(200, 80, "eave", p), Wall(120 * math.hypot(1, lean), 100, "gable"),
        Wall(200 + 120 * lean, 90, "eave", p), Wall(120, 90, "gable"),
    ]  # fmt: skip
    steps = [Wall(40, turn, "eave", p) for _ in range(5) for turn in (90, -90)]
    stairs = [Wall(240, 90, "eave", p), *steps, *[Wall(40, 90, "eave", p)] * 2]
    notched = through([(0, 0), (300, 0), (280, 220), (150, 120), (20, 200)])
    # hips from the front's corners climb to the back 100 in deep, 100 in from either end
    lean_to, near_hip = ([Wall(300, 90, "eave", p), Wall(deep, 90, "eave", p),
                          Wall(300, 90, "high"), Wall(deep, 90, "eave", p)]
                         for deep in (100, 149.75))  # fmt: skip
    for outline, says in (
        (
            walk(lean_to),
            "wall 3 is a high wall of 25'-0\", and the roof climbs to it over 8'-4\" alone",
        ),
        (walk(near_hip), "wall 3 is a high wall .* climbs to it over 0'-0 1/2\" alone"),
        (walk([*stairs, Wall(240, 90, "eave", p)]), "sticks go up to 12 walls, and these are 14"),
        (notched, "a sloping ridge between wall 3 and wall 1, 5'-8 .* corners that point inward"),
        (walk(skew_gable), "wall 2 is a gable that does not stand square"),
    ):
        surface = roof_lines(outline)
        assert re.search(says, no_sticks(surface))
        assert "\n" not in no_sticks(surface)
        with pytest.raises(FrameError, match="no sticks for this roof: "):
            frame(RoofPlan.over(outline))
        assert len(surface.lines) >= 3


# --- layout and refusals -------------------------------------------------------------------------


def test_layout_is_mirrored_at_the_hips() -> None:
    rail = lay_out(320, 100, 100, 16, 9.0, (100.0, 220.0), 3.0)
    assert set(rail) >= {9.0, 25.0, 311.0, 295.0, 100.0, 220.0}
    assert all(b - a >= 3.0 for a, b in pairwise(rail))
    with pytest.raises(LengthError, match="spacing of 0"):
        lay_out(320, 0, 0, 0, None, (), 3.0)


def test_left_out_rafters_are_named() -> None:
    roof = frame(RoofPlan(300, 180, first_in=4.0))
    assert any("front, 4 in from" in said and "too short" in said for said in roof.left_out)


@pytest.mark.parametrize(
    ("change", "error", "says"),
    [
        ({"length_in": 182.0}, LengthError, "H1, H2, H3, H4, R1 meet in two places 2 in apart"),
        ({"length_in": 0.0}, FrameError, "length of 0"),
        ({"width_in": math.nan}, FrameError, "width of nan"),
        ({"spacing_in": 200.0}, LengthError, "spacing of 16'-8\" is longer than the eave"),
        ({"spacing_in": -1.0}, FrameError, "spacing of -1"),
        ({"overhang_in": 0.5}, LengthError, "leaves no tail"),
        ({"first_in": 30.0}, LengthError, "first jack cannot stand 30 in"),
        ({"wing": Wing(100, 177)}, LengthError, "meet in two places 2 1/8 in apart"),
        ({"wing": Wing(100, 120), "ends": ("gable", "hip")}, FrameError, "outer corner of an L"),
        ({"wing": Wing(40, 160), "end_pitch": read_pitch("5"), "ends": ("hip", "gable")},
         FrameError, "no sticks for this roof: two answers: wing end and front come to one"),
        ({"wing": Wing(100, 180), "length_in": 190.0, "ends": ("hip", "gable")},
         FrameError, "no ridge in|no L"),
        ({"hip": read_stock("2x6")}, LengthError, "hip of 2x6 .* compare with R802.3"),
        ({"valley": read_stock("2x4"), "wing": Wing(100, 140)}, LengthError, "valley of 2x4"),
        ({"ridge": read_stock("20in x 20in"), "width_in": 26.0, "length_in": 60.0},
         LengthError, "ridge 20 in thick takes 10 in off a run of 1'-1\""),
        ({"pitch": read_pitch("14"), "end_pitch": read_pitch("3"), "seat_in": 1.5,
          "length_in": 1200.0}, LengthError, "no bird's mouth"),
        ({"seat_in": 12.0}, LengthError, "seat of 12 in does not fit"),
    ],
)  # fmt: skip
def test_what_cannot_be_framed_says_why(change: dict, error: type, says: str) -> None:  # type: ignore[type-arg]
    plan = RoofPlan(300, 180)
    with pytest.raises(LayoutError, match=says) as caught:
        frame(replace(plan, **change))
    assert type(caught.value) is error
    assert "\n" not in str(caught.value)


def test_an_overhang_longer_than_the_stock() -> None:
    roof = frame(RoofPlan(300, 180, overhang_in=100.0))
    with pytest.raises(LengthError, match=r"overhang of 8'-4\" asks for a tail of .* on H1"):
        boards(roof, [96.0, 144.0])


def test_a_hip_longer_than_the_stock_is_named_with_what_to_order() -> None:
    """A hip over a 26 ft wide roof takes more than 20 ft; a ridge is made of equal parts."""
    roof = frame(RoofPlan(600, 312, hip=BIG, spacing_in=24))
    rows = board_rows(boards(roof))
    for name in ("H1", "H4"):
        blank = roof.by_name[name].blank_in
        assert blank > 240
        (row,) = (row for row in rows if name in row.pieces.split(", "))
        assert row.length_in == 24 * math.ceil(blank / 24)
        assert "order it, or splice it over a support" in row.note
    parts = [row for row in rows if "R1 part" in row.pieces]
    assert [row.pieces for row in parts] == ["R1 part 1 of 2", "R1 part 2 of 2"]
    assert all("join over a support" in row.note for row in parts)


def test_no_scrap_is_called_a_part() -> None:
    """A ridge 3/4 in longer than the longest board is two halves, no board and a splinter."""
    cut = cut_from_stock([Piece("R1", 240.75, "parts")])
    assert [piece.length_in for board in cut for piece in board.pieces] == [120.375, 120.375]
