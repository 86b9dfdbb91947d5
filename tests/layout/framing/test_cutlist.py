"""One row of every kind against the solid, read from its corners by a mesh library.

Nothing of the rows' own way is used: corners of the solid in board axes, and the angles that
they make.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely

from layout.errors import LengthError
from layout.framing.cutlist import (
    _letters,
    board_rows,
    boards,
    cut_row,
    cut_rows,
    lengths_of,
    piece_groups,
    piece_rows,
    stick_row,
)
from layout.framing.facts import line_rows, side_rows, tops_over_plates
from layout.framing.outlines import bay_end, rectangle, shed, tee
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_lines import roof_lines
from layout.framing.roof_plan import RoofPlan
from layout.framing.stick import CutPlane, Stick
from layout.framing.summary import left_to_drawings
from layout.framing.trim import course_rows, trim_rows, usual_courses
from layout.framing.trim_words import course_table
from layout.framing.walls import Wall, walk
from layout.quantity import read_pitch, write_fraction
from layout.records import as_row
from layout.stock import read_stock
from tests.drawn_roofs import SHAPES, small_ell, through
from tests.stick_solids import solid

NEAR = {"abs": 1e-6}


@pytest.fixture(scope="module")
def unequal() -> TrainingRoof:
    return frame(
        RoofPlan(
            216, 140, read_pitch("6"), read_pitch("10"), ("hip", "gable"), spacing_in=24,
            hip=read_stock("2x10"), overhang_in=10,
        )
    )  # fmt: skip


def corners(stick: Stick) -> np.ndarray:
    """The solid's corners in board axes from the datum (k, 3)."""
    found = np.array(solid(stick).to_mesh().vert_properties)[:, :3]
    return np.unique(np.round(stick.in_board(found.astype(float)), 4), axis=0)


def a_stick(roof: TrainingRoof, role: str, says: str) -> tuple[Stick, CutPlane]:
    return next((s, p) for s in roof.sticks for p in s.planes if s.role == role and p.says == says)


def test_a_jacks_lengths(unequal: TrainingRoof) -> None:
    """Along each top arris the farthest corner: the longer is the long point, the shorter the
    short one, their mean the middle; the tail lies below the datum."""
    stick, _ = a_stick(unequal, "hip jack", "hip-jack")
    points, (t, d) = corners(stick), (stick.stock.thickness_in, stick.stock.depth_in)
    top = points[np.abs(points[:, 2] - d) < 1e-3]
    heads = [top[np.abs(top[:, 1] - y) < 1e-3][:, 0].max() for y in (0.0, t)]
    lengths = lengths_of(stick)
    near = {"abs": 1e-3}
    assert lengths.long_in == pytest.approx(max(heads), **near)
    assert lengths.short_in == pytest.approx(min(heads), **near)
    assert lengths.centre_in == pytest.approx(sum(heads) / 2, **near)
    assert lengths.long_in - lengths.short_in > 0.5
    assert lengths.tail_in == pytest.approx(-top[:, 0].min(), **near)
    assert lengths.blank_in == pytest.approx(np.ptp(points[:, 0]), **near)
    assert lengths.theoretical_in > lengths.long_in
    # the same figures stand in the rows of the stick and of its piece, each under its own name
    row = as_row(stick_row(stick))
    for name in ("theoretical_in", "long_in", "centre_in", "short_in", "tail_in", "blank_in"):
        assert row[name] == getattr(lengths, name)
    piece = next(p for p in piece_rows(unequal) if stick.name in p.names.split(", "))
    assert as_row(piece) == {
        **{k: v for k, v in row.items() if k in as_row(piece)},
        "mark": piece.mark, "count": piece.count, "pair": piece.pair, "names": piece.names,
    }  # fmt: skip


@pytest.mark.parametrize("name", ["unequal", "a small L"])
def test_a_sticks_row_tells_its_own_stick(name: str, unequal: TrainingRoof) -> None:
    """Its cuts at the head, at the foot and along its edge, each where its plane looks."""
    for stick in (unequal if name == "unequal" else small_ell()).sticks:
        row = stick_row(stick)
        assert (row.name, row.role, row.face) == (stick.name, stick.role, stick.face)
        assert row.stock == str(stick.stock)
        told = {"head": row.cuts.head_cuts, "foot": row.cuts.foot_cuts, "rip": row.cuts.rips}
        for plane in stick.planes:
            along = float(plane.normal @ stick.pose.head)
            where = "rip" if abs(along) < 1e-9 else "head" if along > 0 else "foot"
            seat = "seat" in plane.says or "heel" in plane.says
            assert plane.says in told["foot" if seat else where].split(" + ")
        every = [cut for said in told.values() if said for cut in said.split(" + ")]
        assert set(every) == {p.says for p in stick.planes}
        handed = [cut for cut in cut_rows(stick) if cut.hand]
        if len({cut.hand for cut in handed}) == 1:
            assert row.hand == handed[0].hand
        # two unlike cheeks: by the one that leans most
        heads = {round(c.marks.tilt_deg, 4): c.hand for c in handed if c.place == "head"}
        if len(heads) == 2:
            assert row.hand == heads[max(heads)]
        assert row.mates.split(", ") == list(dict.fromkeys(p.mate for p in stick.planes if p.mate))


def test_a_cheeks_marks(unequal: TrainingRoof) -> None:
    """On the face the mark's run over the depth, on the edge its run over the thickness, and the
    tilt from the corners' own plane."""
    stick, plane = a_stick(unequal, "hip jack", "hip-jack")
    points, (t, d) = corners(stick), (stick.stock.thickness_in, stick.stock.depth_in)
    low, high = (_head(points, y, z) for y, z in ((0.0, 0.0), (0.0, d)))
    far = _head(points, t, d)
    marks = cut_row(stick, plane).marks
    near = {"abs": 2e-3}
    assert marks.face_mark_deg == pytest.approx(
        math.degrees(math.atan(abs(high - low) / d)), **near
    )
    assert marks.edge_mark_deg == pytest.approx(
        math.degrees(math.atan(abs(high - far) / t)), **near
    )
    normal = np.cross([high - low, 0, d], [far - high, t, 0])
    tilt = math.degrees(math.asin(abs(normal[1]) / np.linalg.norm(normal)))
    assert marks.tilt_deg == pytest.approx(tilt, **near)
    assert marks.edge_number == pytest.approx(12 * t / abs(high - far), **near)
    assert (
        len({round(x, 1) for x in (marks.face_mark_deg, marks.edge_mark_deg, marks.tilt_deg)}) == 3
    )


def _head(points: np.ndarray, y: float, z: float) -> float:
    """The farthest corner along the arris at (y, z)."""
    on = points[(np.abs(points[:, 1] - y) < 1e-3) & (np.abs(points[:, 2] - z) < 1e-3)]
    return float(on[:, 0].max())


def _profile(stick: Stick, side: int = 1) -> set[tuple[float, ...]]:
    """The corners in board axes, from the foot's nearest where no wall is; side -1 in a mirror."""
    points = corners(stick)
    if side < 0:
        points = points * [1, -1, 1] + [0, stick.stock.thickness_in, 0]
    start = 0.0 if stick.on_plate else points[:, 0].min()
    return {tuple(np.round(point, 2) + 0.0) for point in points - [start, 0, 0]}


def _alike(one: set[tuple[float, ...]], two: set[tuple[float, ...]]) -> bool:
    """Whether the corners of two sticks lie within some hundredths of each other."""
    a, b = np.array(sorted(one)), np.array(sorted(two))
    apart = np.abs(a[:, None] - b[None]).max(axis=2)
    return bool(apart.min(axis=0).max() < 0.03 and apart.min(axis=1).max() < 0.03)


@pytest.mark.parametrize("name", ["unequal", "a small L"])
def test_equal_boards_are_one_piece_and_mirrored_ones_a_pair(
    name: str, unequal: TrainingRoof
) -> None:
    """By the corners of the solids alone: those of one piece agree, those of two do not; a pair is
    its own mirror, and what has no hand is one by itself."""
    roof = unequal if name == "unequal" else small_ell()
    groups, rows = piece_groups(roof), {row.mark: row for row in piece_rows(roof)}
    assert list(groups) == list(rows)
    first = {mark: sticks[0] for mark, sticks in groups.items()}
    shapes = {mark: _profile(stick) for mark, stick in first.items()}
    for mark, sticks in groups.items():
        row = rows[mark]
        assert (row.count, row.names) == (len(sticks), ", ".join(s.name for s in sticks))
        assert all(_alike(_profile(stick), shapes[mark]) for stick in sticks[1:3])
        mirrored = _profile(first[mark], -1)
        whole = _alike(mirrored, shapes[mark])
        assert (row.hand == "") == whole, mark
        others = [m for m in groups if m != mark and (first[m].role, first[m].stock) ==
                  (first[mark].role, first[mark].stock)]  # fmt: skip
        assert not any(_alike(shapes[m], shapes[mark]) for m in others), mark
        pairs = [m for m in others if _alike(shapes[m], mirrored)]
        assert ([row.pair] if row.pair else []) == pairs, mark
        if row.pair:
            assert {row.hand, rows[row.pair].hand} == {"left", "right"}
    # the pieces of a prefix are lettered one after another, without I and O
    for prefix in {mark.rpartition("-")[0] for mark in groups}:
        letters = [m.rpartition("-")[2] for m in groups if m.rpartition("-")[0] == prefix]
        assert letters == list("ABCDEFGHJKLMNPQRSTUVWXYZ")[: len(letters)]


def test_more_pieces_than_letters() -> None:
    """24 letters without I and O, then two of them, then three."""
    names = [_letters(k) for k in range(24 + 24**2 + 1)]
    assert len(set(names)) == len(names)
    assert names[22:26] == ["Y", "Z", "AA", "AB"]
    assert names[-2:] == ["ZZ", "AAA"]
    assert not {"I", "O"} & set("".join(names))


def test_every_cut_by_the_way_it_looks(unequal: TrainingRoof) -> None:
    """Marks are the angles of the normal's parts to one another; no number belongs to 12 on a line
    square across or along the edge."""
    seen = set()
    for stick in unequal.sticks:
        for row, plane in zip(cut_rows(stick), stick.planes, strict=True):
            nx, ny, nz = (abs(float(plane.normal @ axis)) for axis in stick.pose.axes)
            marks = row.marks
            assert marks.tilt_deg == pytest.approx(math.degrees(math.asin(min(1.0, ny))), abs=1e-5)
            if nx > 1e-9:
                assert marks.face_mark_deg == pytest.approx(math.degrees(math.atan2(nz, nx)))
                assert marks.edge_mark_deg == pytest.approx(math.degrees(math.atan2(ny, nx)))
            slanted = nx > 1e-9 and ny > 1e-9
            assert marks.edge_number == (pytest.approx(12 * nx / ny) if slanted else None)
            (removal,) = {id(r): r for r in stick.removals if any(p is plane for p in r)}.values()
            along = float(plane.normal @ stick.pose.head)
            place = "rip" if nx < 1e-9 else "head" if along > 0 else "foot"
            seat = any(p.says.endswith("-seat") for p in removal)
            assert row.place == ("bird's mouth" if seat else place)
            left = float(plane.normal @ stick.pose.left)
            assert row.hand == ("" if ny < 1e-9 else "left" if left > 0 else "right")
            assert (row.stick, row.cut, row.mate) == (stick.name, plane.says, plane.mate)
            if plane.asked is not None:
                assert row.asked.which == plane.asked.plane_index
            seen.add(row.place)
    assert seen == {"head", "foot", "bird's mouth", "rip"}


def test_a_cut_asks_for_its_own_pitch_first(unequal: TrainingRoof) -> None:
    for stick in unequal.rafters:
        for plane in stick.planes:
            if plane.says != "hip-jack":
                continue
            asked, main = cut_row(stick, plane).asked, stick.face in ("front", "back")
            pitches = ("6 in 12", "10 in 12") if main else ("10 in 12", "6 in 12")
            assert (asked.pitch, asked.other_pitch) == pitches
            assert (asked.in_catalogue, asked.end, asked.corner_deg) == (True, "head", 90.0)


def test_a_board_holds_its_pieces(unequal: TrainingRoof) -> None:
    rows = board_rows(boards(unequal))
    for row in rows:
        used = sum(unequal.by_name[name].blank_in for name in row.pieces.split(", "))
        kerfs = 0.125 * len(row.pieces.split(", "))
        assert row.left_in == pytest.approx(max(0.0, row.length_in - used - kerfs), **NEAR)
        assert all(str(unequal.by_name[n].stock) == row.stock for n in row.pieces.split(", "))
    named = [name for row in rows for name in row.pieces.split(", ")]
    assert sorted(named) == sorted(unequal.by_name)


def test_what_is_longer_than_a_board_is_parted_or_ordered(unequal: TrainingRoof) -> None:
    """Boards of 100 in: the ridge and the long plates are halves, hips and valleys are ordered."""
    cut = boards(unequal, [48.0, 100.0])
    for _, board in cut:
        for piece in board.pieces:
            stick = unequal.by_name[piece.name.partition(" part ")[0]]
            if stick.blank_in <= 100:
                assert piece.length_in == pytest.approx(stick.blank_in)
            elif stick.role in ("ridge", "plate"):
                assert piece.length_in == pytest.approx(stick.blank_in / math.ceil(
                    stick.blank_in / 100))  # fmt: skip
            else:
                assert "order it" in board.note
    assert any(" part " in board.names for _, board in cut)
    assert any("order it" in board.note for _, board in cut)
    # a tail of a foot or so is shorter than the longest board, whatever the shortest is
    assert boards(unequal, [10.0, 300.0])
    with pytest.raises(LengthError, match="asks for a tail of"):
        boards(unequal, [0.5])
    with pytest.raises(LengthError, match="no stock to cut from"):
        boards(unequal, [])


def test_every_sides_heights_on_its_sticks(unequal: TrainingRoof) -> None:
    """On a common of the side: top over the plate at the building line, the heel below it, the
    level reach of the seat; and where its tail's plumb end stands."""
    for row in side_rows(unequal):
        stick = next(s for s in unequal.rafters if s.face == row.side and s.role == "common")
        face = next(f for f in unequal.faces if f.name == row.side)
        world = np.array(solid(stick).to_mesh().vert_properties)[:, :3].astype(float)
        out = (world - face.origin) @ face.inward
        seat = world[np.abs(world[:, 2]) < 1e-3]
        reach = (seat - face.origin) @ face.inward
        at_wall = world[np.abs(out) < 1e-3]
        near = {"abs": 2e-3}
        assert row.seat_in == pytest.approx(np.ptp(reach), **near)
        assert row.heel_in == pytest.approx(-at_wall[:, 2].min(), **near)
        slope = math.tan(math.radians(row.slope_deg))
        tops = world[:, 2] - slope * out
        assert row.height_above_plate_in == pytest.approx(tops.max(), **near)
        assert row.overhang_in - unequal.plan.fascia_in == pytest.approx(-out.min(), **near)
    overhangs = {row.side: row.overhang_in for row in side_rows(unequal)}
    assert overhangs["left"] == pytest.approx(overhangs["front"] * 6 / 10)


def test_tops_over_plates_and_lines(unequal: TrainingRoof) -> None:
    (top,) = tops_over_plates(unequal)
    ridge = solid(unequal.by_name["R1"]).bounding_box()
    assert top.top_in == pytest.approx(ridge[5], abs=1e-4)
    rows = line_rows(unequal.surface)
    hip = next(row for row in rows if row.kind == "hip")
    run = math.hypot(70, 70 * 6 / 10)
    assert (hip.run_in, hip.name) == (pytest.approx(run), "H1")
    assert hip.length_in == pytest.approx(math.hypot(run, 35))
    assert hip.slope_deg == pytest.approx(math.degrees(math.atan2(35, run)))
    assert hip.top_in == pytest.approx(35)
    # H1 stands over the corner of left and front; its plan is 42 along the front and 70 in
    assert hip.plan_angle_deg == pytest.approx(math.degrees(math.atan2(70, 42)), abs=1e-6)


def test_a_high_plate_is_as_high_as_the_roof_that_climbs_to_it() -> None:
    """Over a width W with seats as wide as the plates: slope x W less the heel, by hand."""
    roof = frame(RoofPlan.over(shed(120, 110, read_pitch("4")), spacing_in=24))
    (top,) = tops_over_plates(roof)
    heel = 3.5 * 4 / 12
    assert (top.name, top.top_in) == ("P3", pytest.approx(110 * 4 / 12 - heel))
    assert solid(roof.by_name["P3"]).bounding_box()[5] == pytest.approx(top.top_in, abs=1e-4)


def test_fascias_and_rakes(unequal: TrainingRoof) -> None:
    """Outside corners by hand: 10 in over the fronts, 6 over the hipped end, 0 at the gable."""
    rows = {(row.board, row.side): row for row in trim_rows(unequal)}
    assert rows["fascia", "front"].length_in == pytest.approx(216 + 6)
    assert rows["fascia", "left"].length_in == pytest.approx(140 + 2 * 10)
    assert (rows["fascia", "front"].left_end, rows["fascia", "front"].right_end) == (
        "miter 45 deg", "square")  # fmt: skip
    rake = rows["rake board", "right, under front"]
    assert rake.length_in == pytest.approx((70 + 10) * math.hypot(12, 6) / 12)


def test_a_gables_overhang_lengthens_boards_and_no_stick(unequal: TrainingRoof) -> None:
    """By hand, 14 in over the gable: each fascia ends 14 - 3/4 past the wall, each course 14.

    A rake board slides out along the ridge and keeps its length: a common's theoretical one from
    the middle of the ridge to the building line, and 10 in of overhang more, over cos slope.
    """
    over = frame(replace(unequal.plan, rake_overhang_in=14.0))
    rows = {(row.board, row.side): row for row in trim_rows(over)}
    assert rows["fascia", "front"].length_in == pytest.approx(216 + 6 + 14 - 0.75)
    assert rows["fascia", "left"].length_in == pytest.approx(140 + 2 * 10)
    common = next(s for s in over.rafters if (s.role, s.face) == ("common", "front"))
    points = corners(common)
    top = points[np.abs(points[:, 2] - common.stock.depth_in) < 1e-3][:, 0]
    # the common is half a ridge short at its head, and ends behind a fascia of 3/4 in
    whole = np.ptp(top) + (1.5 / 2 + 0.75) * math.hypot(12, 6) / 12
    for side in ("front", "back"):
        rake = rows["rake board", f"right, under {side}"]
        assert rake.length_in == pytest.approx((70 + 10) * math.hypot(12, 6) / 12)
        assert rake.length_in == pytest.approx(whole, abs=1e-3)
        assert rake.left_end == rake.right_end == f"plumb {math.degrees(math.atan(6 / 12)):.2f} deg"
    flush, wide = ({row.side: row for row in usual_courses(roof)} for roof in (unequal, over))
    assert wide["front"].eave_in == pytest.approx(flush["front"].eave_in + 14)
    assert wide["front"].change_in == flush["front"].change_in
    assert wide["left"] == flush["left"]
    assert all(
        (a.corners == b.corners).all() for a, b in zip(unequal.sticks, over.sticks, strict=True)
    )
    assert sum("gables' overhang" in line for line in left_to_drawings(over)) == 1
    assert not any("gables' overhang" in line for line in left_to_drawings(unequal))


def test_a_rake_that_is_no_rectangles() -> None:
    """A gable over a deep wall, 6 ft from the back eave: hips cut its peak off. Moved out 12 in,
    its rakes climb 12 in farther and the level board between them is 24 in shorter, by hand."""
    p = read_pitch("8")
    walls = walk([Wall(240, 90, "gable"), *(Wall(long, 90, "eave", p) for long in (72, 240, 72))])
    roof = frame(RoofPlan.over(walls, rake_overhang_in=12.0))
    rakes = sorted(row.length_in for row in trim_rows(roof) if row.board == "rake board")
    slope = math.hypot(12, 8) / 12
    assert rakes == pytest.approx([240 - 2 * 72 - 2 * 12, *[(72 + 12 + 12) * slope] * 2])


@pytest.mark.parametrize(("over", "right"), [(0.5, "longer one, or 0"), (-1.0, "or 0 for none")])
def test_a_rake_overhang_thinner_than_its_board_is_refused(over: float, right: str) -> None:
    with pytest.raises(LengthError, match=right):
        frame(RoofPlan(240, 160, ends=("gable", "gable"), rake_overhang_in=over))


def test_fascias_of_a_half_octagon() -> None:
    roof = frame(RoofPlan.over(bay_end(120, 150, read_pitch("8")), spacing_in=24))
    side = 150 * math.tan(math.radians(22.5))
    row = next(row for row in trim_rows(roof) if row.side == "right")
    assert row.length_in == pytest.approx(side + 2 * 12 * math.tan(math.radians(22.5)))
    assert row.left_end == "miter 22.5 deg"


def test_roof_boards_course_by_course() -> None:
    """On a hip roof each course is 2 b cos(slope) / tan(plan angle) shorter; beside a valley
    one longer. Face mark at a square equal corner: tan = cos a / tan 45 (Radford: 12 over C)."""
    board = read_stock("1x8")
    surface = roof_lines(tee(330, 200, 90, 70, 120, read_pitch("8")))
    rows = course_rows(surface, board)
    level = 7.25 * 12 / math.hypot(12, 8)
    by_side = {row.side: row for row in rows}
    assert by_side["back"].eave_in == pytest.approx(330, abs=1e-3)
    assert by_side["back"].change_in == pytest.approx(-2 * level, abs=1e-4)
    assert by_side["wing left"].change_in == pytest.approx(0.0, abs=1e-4)
    assert (by_side["wing left"].left_cut, by_side["wing left"].right_cut) in (
        ("hip", "valley"), ("valley", "hip"))  # fmt: skip
    assert by_side["back"].left_mark_deg == pytest.approx(
        math.degrees(math.atan(12 / math.hypot(12, 8)))
    )
    assert by_side["back"].courses == int(100 // level)


@pytest.mark.parametrize("name", ["a T of one height", "a lower wing", "a court", "a cross"])
def test_the_first_course_is_as_long_as_its_wall(name: str) -> None:
    """Over the building line every eave has its own boards, also where a wing parts a side. At
    like pitches and square corners a hip takes 7.25 x 12 / hypot(12, 8) off each, a valley adds
    as much, a gable nothing."""
    outline = SHAPES[name].outline
    rows = {row.side: row for row in course_rows(roof_lines(outline), read_stock("1x8"))}
    step = {"hip": -7.25 * 12 / math.hypot(12, 8), "valley": 7.25 * 12 / math.hypot(12, 8)}
    assert set(rows) == {wall.name for wall in outline.walls if wall.kind == "eave"}
    for k, wall in enumerate(outline.walls):
        if wall.kind == "eave":
            row, turns = rows[wall.name], []
            for end, beside in ((k, k - 1), (k + 1, k + 1)):
                inward = outline.interior_deg(end % len(outline.walls)) > 180
                gable = outline.walls[beside % len(outline.walls)].kind == "gable"
                turns.append("square" if gable else "valley" if inward else "hip")
            assert row.eave_in == pytest.approx(wall.length_in, abs=1e-4)
            assert [row.left_cut, row.right_cut] == turns
            assert row.change_in == pytest.approx(sum(step.get(x, 0.0) for x in turns), abs=1e-4)


def test_roof_boards_between_unlike_roofs(unequal: TrainingRoof) -> None:
    """The hip runs tan a along for tan b inward: up the slope that is 1 / cos a, so the mark off
    square is tan a / tan b * cos a. Both sides' boards meet in a miter: each is tilted by half the
    angle between the roofs, whose normals stand at acos(cos a cos b) over a square corner."""
    rows = {row.side: row for row in usual_courses(unequal)}
    a, b = math.atan(6 / 12), math.atan(10 / 12)
    for side, own, other, name in (("front", a, b, "left"), ("left", b, a, "right")):
        row, ratio = rows[side], math.tan(own) / math.tan(other)
        got = {
            "left": (row.left_cut, row.left_mark_deg, row.left_tilt_deg),
            "right": (row.right_cut, row.right_mark_deg, row.right_tilt_deg),
        }[name]
        assert got[0] == "hip"
        assert got[1] == pytest.approx(math.degrees(math.atan(ratio * math.cos(own))))
        tilt = math.acos(math.cos(a) * math.cos(b)) / 2
        assert got[2] == pytest.approx(math.degrees(tilt))


def test_a_course_that_just_fits_is_counted() -> None:
    """At 9 in 12 a board 7 1/4 in wide covers 5.8 level: ten of them in a run of 58."""
    for width, courses in ((116.0, 10), (115.9, 9), (116.1, 10)):
        surface = roof_lines(rectangle(200, width, read_pitch("9"), None, ("gable", "gable")))
        assert {row.courses for row in course_rows(surface, read_stock("1x8"))} == {courses}


def test_courses_of_like_sides_are_told_once_and_longer_ones_with_a_plus() -> None:
    """Two hips shorten a course and two valleys lengthen it by 2 x 7.25 x 12 / hypot(12, 8)."""
    step = "12 1/16"  # 12.065
    surface = roof_lines(tee(330, 200, 90, 70, 120, read_pitch("8")))
    head, lines = course_table(course_rows(surface, read_stock("1x8")), write_fraction)
    told = {line[head.index("side")]: line for line in lines}
    assert told["right; left"][head.index("each course")] == f"-{step}"
    court = through([(0, 0), (400, 0), (400, 240), (270, 240), (270, 140), (120, 140), (120, 240),
                     (0, 240)])  # fmt: skip
    head, lines = course_table(course_rows(roof_lines(court), read_stock("1x8")), write_fraction)
    (inner,) = (line for line in lines if line[head.index("at the eave")] == "150")
    assert inner[head.index("each course")] == f"+{step}"


def test_every_name_stands_on_its_row() -> None:
    from lessons.cli.framing_lists import piece_table

    roof = frame(RoofPlan(240, 160, spacing_in=24))
    head, lines = piece_table(piece_rows(roof))
    said = ", ".join(line[head.index("sticks")] for line in lines)
    spelled = set()
    for part in said.split(", "):
        ends = part.split(" to ")
        letters = ends[0].rstrip("0123456789")
        first, last = (int(end[len(letters) :]) for end in (ends[0], ends[-1]))
        spelled |= {f"{letters}{k}" for k in range(first, last + 1)}
    assert spelled == set(roof.by_name)


def test_a_valleys_bearing_is_what_its_seat_covers_of_both_plates() -> None:
    """On the middle of its thickness a valley stands on the block where both plates cross; with
    unlike pitches it leaves one plate before the other. Read from the surfaces that touch."""
    roof = small_ell()
    valley = roof.by_name["V1"]
    level = next(p for p in valley.planes if p.says == "valley-seat")
    seat = shapely.union_all([shapely.Polygon(p[:, :2]) for p in valley.surfaces(level)])
    plates = shapely.union_all(
        [shapely.Polygon(s.plan_outline) for s in roof.sticks if s.role == "plate"]
    )
    line = next(line for line in roof.lines if line.name == "V1")
    way, foot = line.plan_line[:2], line.foot[:2]
    middle = shapely.LineString([foot - 0.001 * way, foot + 40 * way])
    covered = middle.intersection(seat.intersection(plates)).length
    said = next(c for c in roof.comparisons if c.what == "level bearing of the valley on the plate")
    assert covered == pytest.approx(said.here_in, abs=0.01)


def test_equal_plates_on_both_sides_of_a_wing_are_one_piece() -> None:
    """24 ft less 8, the wing midway: two fronts of 8 ft, each less the plate it butts, 3 1/2 in."""
    roof = frame(RoofPlan.over(tee(288, 168, 96, 96, 96, read_pitch("6")), spacing_in=96,
                               valley=read_stock("2x12"), hip=read_stock("2x10")))  # fmt: skip
    plates = [row for row in piece_rows(roof) if row.role == "plate"]
    by_length = {round(row.lengths.long_in, 4): row.count for row in plates}
    assert by_length[96 - 3.5] == 2
    assert sum(by_length.values()) == 8
    assert len(by_length) == len(plates), "plates of one length are one piece"


def test_what_lies_over_an_overhang_is_told_in_whole_boards_and_a_strip() -> None:
    """By count: an overhang takes whole boards, a strip, both, or nothing."""
    row = course_rows(roof_lines(rectangle(240, 160, read_pitch("8"))), read_stock("1x8"))[0]
    told = {}
    for whole, strip in ((2, 1.5), (2, 0.0), (0, 1.5), (0, 0.0)):
        over = replace(row, overhang_courses=whole, strip_in=strip)
        head, (line,) = course_table([over], write_fraction)
        told[whole, strip] = line[head.index("over the eave")]
    assert list(told.values()) == ["2 and a strip 1 1/2", "2", "a strip 1 1/2", "-"]
