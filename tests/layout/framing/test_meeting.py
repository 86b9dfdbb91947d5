"""Sticks of unlike thickness at one point: their miters cover each other, seen as solids."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from layout.errors import LengthError
from layout.framing.meeting import Meeting, StickEnd
from layout.framing.outlines import bay_end, ell, equal_sided, rectangle, shed
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_frame import RoofFrame, roof_frame
from layout.framing.roof_lines import roof_lines
from layout.framing.roof_plan import RoofPlan
from layout.framing.walls import Outline
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.corner_lines import FOOT, line_of
from tests.drawn_roofs import DEEP, P, through
from tests.stick_solids import gaps, overlaps, uncovered


@pytest.fixture(scope="module")
def thick_hips() -> TrainingRoof:
    """Hips 3 1/2 in thick on a ridge of 3/4 in, at the end of half an octagon."""
    return frame(
        RoofPlan.over(
            bay_end(70, 120, read_pitch("8"), "gable"), spacing_in=60, hip=read_stock("4x12"),
            ridge=read_stock("1x10"),
        )
    )  # fmt: skip


def test_miters_of_unlike_sticks_lie_on_each_other(thick_hips: TrainingRoof) -> None:
    """Two sides cross in one point; the miter through it leaves surfaces of one size, and no
    stick runs into another."""
    met = [s for s in thick_hips.sticks if any("miter" in p.says for p in s.planes)]
    assert {"hip", "ridge"} <= {s.role for s in met}
    assert overlaps(thick_hips.sticks) == []
    assert gaps(thick_hips.sticks) == []
    assert uncovered(thick_hips.sticks) == []


def bones(outline: Outline) -> RoofFrame:
    return roof_frame(
        RoofPlan.over(outline, hip=DEEP, valley=DEEP, spacing_in=48), roof_lines(outline)
    )


@pytest.mark.parametrize(
    ("outline", "count"),
    [(equal_sided(4, 160, P), 4), (ell(330, 190, 120, 190, P), 4), (bay_end(140, 150, P), 5)],
    ids=["four hips", "an L's ridges, hip and valley", "a bay's hips and ridge"],
)
def test_neighbors_share_their_miters(outline: Outline, count: int) -> None:
    """Each plane that ends a stick to a neighbor is the neighbor's own, seen from its other side,
    plumb, through the point of meeting; a stick lies behind both of its planes, half its side."""
    frame = bones(outline)
    meeting = max(frame.meetings, key=lambda m: len(m.ends))
    assert len(meeting.ends) == count
    planes = {
        (each.line.name, each.end): [p for removal in meeting.removals(each) for p in removal]
        for each in meeting.ends
    }
    every = [plane for found in planes.values() for plane in found]
    assert len(every) == 2 * count
    for plane in every:
        assert float(plane.beyond_in(meeting.at)) == pytest.approx(0, abs=1e-9)
        assert plane.normal[2] == 0
        partners = [p for p in every if np.allclose(p.normal, -plane.normal, atol=1e-9)]
        assert partners
    for each in meeting.ends:
        out = np.array([*each.out, 0.0])
        for plane in planes[each.line.name, each.end]:
            assert plane.end == each.end
            assert plane.says == f"{each.line.kind} miter"
            assert float(plane.normal @ out) < 0
    two = Meeting(meeting.at, meeting.ends[:2])
    assert all(two.removals(each) for each in two.ends)
    assert Meeting(meeting.at, meeting.ends[:1]).removals(meeting.ends[0]) == ()


def test_a_ridge_ends_square_at_its_gables() -> None:
    frame = bones(rectangle(200, 120, P, None, ("gable", "gable")))
    (ridge,) = (s for s in frame.carriers if s.role == "ridge")
    assert [(p.says, p.end) for p in ridge.planes] == [
        ("square end", "foot"),
        ("square end", "head"),
    ]
    assert ridge.blank_in == pytest.approx(200)
    assert [m.ends for m in frame.meetings if len(m.ends) > 1] == []


@pytest.mark.parametrize("size", [(300, 180), (180, 300)])
def test_hips_are_the_main_roofs_that_has_the_ridge(size: tuple[float, float]) -> None:
    """At a ridge's end two hips come up and nothing else; their own roof is a side of the ridge."""
    frame = bones(rectangle(*size, P))
    (ridge,) = (line for line in frame.lines.values() if line.kind == "ridge")
    hips = [line for line in frame.lines.values() if line.kind == "hip"]
    for hip in hips:
        assert hip.own in ridge.faces
        assert hip.other not in ridge.faces
    with_ends = [m for m in frame.meetings if m.ends]
    assert sorted(len(m.ends) for m in with_ends) == [3, 3]
    assert {e.end for m in with_ends for e in m.ends if e.line.kind == "hip"} == {"head"}
    assert len(frame.square_ends) == 2
    for k, end in frame.square_ends.items():
        away = frame.meetings[k].at - np.array([size[0] / 2, size[1] / 2, 0.0])
        assert end.outward == pytest.approx(away / np.linalg.norm(away))
        assert end.end_face not in ridge.faces


def test_a_sheds_high_wall() -> None:
    """110 of run; the plate as high as the rafter's seat there, none under a ledger."""
    outline = shed(140, 110, P)
    frame = bones(outline)
    ((plane, high),) = frame.high_walls.items()
    assert frame.faces[plane].name == "front"
    assert (high.run_in, high.wall, high.ledger) == (110, 2, None)
    assert high.tail_run_in == pytest.approx(12 - 0.75)
    tops = {stick.name: stick.corners[:, 2].max() for stick in frame.plates}
    assert tops == pytest.approx({"P1": 0, "P2": 0, "P3": high.plate_top_in, "P4": 0})
    ledger = roof_frame(RoofPlan.over(outline, high="ledger"), roof_lines(outline))
    assert [stick.name for stick in ledger.plates] == ["P1", "P2", "P4"]
    flush = roof_frame(RoofPlan.over(outline, overhang_in=0.0), roof_lines(outline))
    assert [each.tail_run_in for each in flush.high_walls.values()] == [0]


@pytest.mark.parametrize("rises", [(8, 8), (6, 10)])
def test_two_sticks_in_one_line_are_cut_square_and_once(rises: tuple[int, int]) -> None:
    """One goes on where the other ends: the planes to its neighbors left and right are one."""
    line = line_of(rises, 90.0, "backed")
    at = np.array([3.0, 7.0, 0.0])
    ends = StickEnd(replace(line, name="L1"), "foot"), StickEnd(replace(line, name="L2"), "head")
    for mine in ends:
        ((plane,),) = Meeting(at, ends).removals(mine)
        assert plane.normal[:2] == pytest.approx(-mine.out, abs=1e-12)
        assert plane.level_in == pytest.approx(float(plane.normal @ at), abs=1e-9)
        assert plane.end == mine.end


SIDED = [
    replace(line_of(rises, deg, way, hand), name=f"L{rises[0]}{hand}")  # type: ignore[arg-type]
    for rises, deg, way, hand in (
        ((6, 10), 90.0, "shifted", 1.0), ((6, 10), 90.0, "shifted", -1.0),
        ((10, 6), 90.0, "shifted", 1.0), ((9, 9), 110.0, "backed", 1.0),
    )
]  # fmt: skip
"""Hips whose sides stand unlike far off their line: the middle is not in the middle."""


@pytest.mark.parametrize("which", [(0, 1), (1, 0), (0, 2), (0, 3), (0, 1, 2), (3, 1, 0, 2)])
@pytest.mark.parametrize("foot", [True, False])
def test_sticks_that_meet_share_the_whole_round(which: tuple[int, ...], foot: bool) -> None:
    """Each way out from the point lies in the wood of one stick, and of one alone."""
    at = np.array([3.0, 7.0, 0.0])
    ends = tuple(StickEnd(SIDED[i], "foot" if foot or k else "head") for k, i in enumerate(which))
    kept = np.zeros(720, dtype=int)
    turns = np.radians(np.arange(0.25, 360.0, 0.5))
    ways = at + np.stack([np.cos(turns), np.sin(turns), 0 * turns], axis=1)
    for mine in ends:
        beyond = [
            np.all([ways @ plane.normal > plane.level_in for plane in removal], axis=0)
            for removal in Meeting(at, ends).removals(mine)
        ]
        kept += ~np.any(beyond, axis=0)
    assert np.unique(kept).tolist() == [1]


def test_a_wall_too_short_for_the_plates_at_its_ends_is_refused() -> None:
    """Plates 3 1/2 in wide, at both ends and one beside each: four widths, 14 in."""

    def stepped(by: float) -> Outline:
        return through(
            [(0, 0), (200, 0), (200, by), (300, by), (300, 200), (0, 200)],
        )

    with pytest.raises(LengthError, match=r"wall 2 is 13 7/8 in long, .*; give 14 in or more"):
        bones(stepped(13.9))
    assert bones(stepped(14.1)).lines


@pytest.mark.parametrize("foot", [True, False])
def test_what_runs_through_parts_its_neighbors(foot: bool) -> None:
    """Sticks on one side of a line that runs through are cut to it and, between them, to one
    another, never round behind it: every way out on their side lies in the wood of one stick."""
    at = FOOT
    end = "foot" if foot else "head"
    ends = tuple(StickEnd(SIDED[i], end) for i in (0, 2, 3))
    outs = [each.out for each in ends]
    # Square to the way between them, so that all lie on one side of it.
    between = float(np.degrees(np.arctan2(*sum(outs)[::-1])))
    passing = next(
        line
        for deg, hand in product(range(40, 180), (1.0, -1.0))
        for line in [line_of((9, 9), float(deg), "backed", hand)]
        if abs((np.degrees(np.arctan2(*line.plan_line[1::-1])) - between) % 180 - 90) < 1.0
    )
    turns = np.radians(np.arange(0.25, 360.0, 0.5))
    far = 40.0 * np.stack([np.cos(turns), np.sin(turns), 0 * turns], axis=1)
    square = np.array([-passing.plan_line[1], passing.plan_line[0]])
    square *= np.sign(square @ outs[0])
    assert all(float(square @ out) > 0 for out in outs)
    theirs = far[:, :2] @ square > passing.stock.thickness_in
    kept = np.zeros(len(far), dtype=int)
    for mine in ends:
        beyond = [
            np.all([(at + far) @ plane.normal > plane.level_in for plane in removal], axis=0)
            for removal in Meeting(at, ends, (passing,)).removals(mine)
        ]
        kept += ~np.any(beyond, axis=0)
    assert np.unique(kept[theirs]).tolist() == [1]
