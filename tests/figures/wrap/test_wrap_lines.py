"""Every line of a wrap in its place: arrises, ends of the paper, start line, notches, gauge lines.

The measures are worked out from the board and the pitch alone. A 2x6 is 1 1/2 x 5 1/2 in; at
8 in 12 a plumb line runs 8/12 of an inch along the board for each inch of its depth.
"""

from dataclasses import replace
from math import hypot

import numpy as np
import pytest
import shapely

from figures.ink.drawing import Drawing, Stroke
from figures.wrap.spread import OVER_TOP, RIP_LENGTHS_IN, UNDER_BOTTOM
from figures.wrap.wrap import BEFORE_IN, NOTCH_IN, PAST_IN, Wrap, lay
from figures.wrap.wrap_words import backing_words
from layout.answer.standing import Standing, Use
from layout.plane.cut import Cut
from tests.wraps import answered

D, T = 5.5, 1.5
SPAN = np.array([[0.0, T], [0.0, D]])
USE = Use("S", ("S-1",), 0.0, "the plumb line")
PLUMB = D * 8 / 12
CHEEK = T * hypot(12, 8) / 12
"""At 45 degrees in plan a cheek runs the thickness in plan, and so much along the slope."""


def lines_of(made, *gids):
    """Pen and points of the lines that have these ids, each line from left to right."""
    return sorted(
        (s.pen, tuple(sorted(tuple(np.round(p, 6) + 0.0) for p in s.points)))
        for s in made.lines.strokes
        if s.gid in gids
    )


def across(pen, x0, x1, v):
    return pen, ((round(x0, 6), v), (round(x1, 6), v))


def upright(pen, x, v0, v1):
    return pen, ((round(x, 6), v0), (round(x, 6), v1))


def start_of(marks_back, long_point):
    """Half an inch of kept wood at least, at a quarter of an inch from the long point."""
    far = long_point - marks_back + 0.5
    return long_point - np.ceil(far / 0.25 - 1e-9) * 0.25


ROUND_IT = [0.0, D, D + T, 2 * D + T]
LEFT_LOW = PLUMB - CHEEK - PLUMB


@pytest.mark.parametrize(
    ("short", "low", "high", "back", "datum", "free", "ends"),
    [
        (None, 0.0, 12.5, LEFT_LOW, [0.0], [12.5], []),
        (("left face", 2.0), 0.0, 9.0, 0.0, [0.0], [], [9.0]),
        (("right face", 2.0), 3.5, 12.5, LEFT_LOW, [12.5], [], [3.5]),
    ],
)
def test_arrises_folds_and_ends_of_a_jack_s_paper(short, low, high, back, datum, free, ends):
    """The right face's bottom arris is at 0, its top at 5 1/2; the edge ends at 7, the left face
    at 12 1/2. Only a face that is shown whole shows its free arris."""
    made = lay(answered("hip-jack", "head"), short=short)
    left, right = start_of(back, PLUMB), PLUMB + PAST_IN
    assert lines_of(made, "datum") == [across("datum", left, right, v) for v in datum]
    assert lines_of(made, "free-arris") == [across("visible", left, right, v) for v in free]
    assert lines_of(made, "paper-end") == sorted(
        [*(across("guide", left, right, v) for v in ends), upright("guide", right, low, high)]
    )
    assert lines_of(made, "start-line") == [upright("visible", left, low, high)]
    for face, v in (("right", D), ("left", D + T)):
        fold = f"fold-top-arris-of-the-{face}-face"
        assert lines_of(made, fold) == [across("fold", left, right, v)]
    deep, half = NOTCH_IN
    notches = {s.points for s in made.lines.strokes if s.gid == "notch"}
    assert {tuple(map(tuple, np.round(points, 6))) for points in notches} == {
        tuple(map(tuple, np.round([(x, v + half), (x + into, v), (x, v - half)], 6)))
        for v in (D, D + T)
        for x, into in ((left, deep), (right, -deep))
    }
    cut_out = shapely.union_all([shapely.Polygon(points) for points in notches])
    for area in made.lines.areas:
        assert shapely.intersection(area.polygon, cut_out).area == pytest.approx(0, abs=1e-9)


def ripped(name, end):
    """A rip as it stands in the catalogue, or the same from the head on."""
    one = answered(name, "foot")
    entry = replace(one.question.entry, builders={end: one.question.entry.builders["foot"]})
    return replace(one, question=replace(one.question, entry=entry, end=end))


@pytest.mark.parametrize("end", ["head", "foot"])
@pytest.mark.parametrize("length", [RIP_LENGTHS_IN[0], 5.0])
def test_a_rip_s_paper_hangs_over_the_end_of_the_board(end, length):
    """A hip's bevels fall 3/4 in times 8 / hypot(8, 12, 12) on either face: the strips and the flap
    show 0.6 in beyond the gauge lines, the strips half an inch more."""
    made = lay(ripped("hip-backing", end), length_in=length)
    x0, x1 = (-length, 0.0) if end == "head" else (0.0, length)
    fall = T / 2 * 8 / hypot(8, 12, 12)
    low, high = D - fall - 1.1, D + T + fall + 1.1
    low, high = round(low, 6), round(high, 6)
    out = (fall + 0.6) * (1 if end == "head" else -1)
    away = x0 if end == "head" else x1
    assert lines_of(made, "paper-end") == sorted(
        [*(across("guide", x0, x1, v) for v in (low, high)), upright("guide", away, low, high)]
    )
    assert lines_of(made, "board-end") == [
        upright("visible", 0.0, low, D),
        upright("visible", 0.0, D + T, high),
    ]
    assert lines_of(made, "fold-end-of-the-board") == [upright("fold", 0.0, D, D + T)]
    ((_, flap),) = lines_of(made, "flap")
    assert flap == tuple(sorted((round(x, 6), v) for x in (0.0, out) for v in (D, D + T)))
    (drawn,) = (s.points for s in made.lines.strokes if s.gid == "flap")
    assert drawn[0][0] == drawn[3][0] == 0.0
    assert not lines_of(made, "deepest", "start-line", "datum", "free-arris")
    notches = {s.points[1] for s in made.lines.strokes if s.gid == "notch"}
    into = away + (NOTCH_IN[0] if end == "head" else -NOTCH_IN[0])
    assert notches == {(into, D), (into, D + T)}


@pytest.mark.parametrize("end", ["head", "foot"])
def test_a_hollow_s_deepest_line_runs_under_the_middle_of_the_edge(end):
    """It gets as deep as a hip's bevels fall: 3/4 in times 8 / hypot(8, 12, 12)."""
    made = lay(ripped("valley-backing", end))
    x0, x1 = (-12.0, 0.0) if end == "head" else (0.0, 12.0)
    assert lines_of(made, "deepest") == [across("guide", x0, x1, D + T / 2)]
    assert made.laid.hollow == pytest.approx((D + T / 2, T / 2 * 8 / hypot(8, 12, 12)))
    flap = made.laid.by_name["end"].panel.box
    assert flap[2] - flap[0] == pytest.approx(T / 2 * 8 / hypot(8, 12, 12) + 0.6)
    assert lay(ripped("hip-backing", end)).laid.hollow is None
    assert lay(ripped("sleeper-edge", end)).laid.hollow is None


@pytest.mark.parametrize(("name", "end"), [("hip-jack", "head"), ("common-tail-plumb", "foot")])
@pytest.mark.parametrize(
    ("one_to", "step"),
    [(1, 0.25), (1.25, 0.25), (2, 0.5), (2.5, 0.5), (4, 1.0), (5, 1.0), (10, 2.0), (20, 6.0)],
)
def test_wood_shown_beside_the_marks_is_measured_on_paper(name, end, one_to, step):
    """At every scale 1/2 in of kept wood at least and 0.6 in of waste; the start line stands at
    the least of a rule's round measures that is 1/5 in on paper."""
    made = lay(answered(name, end), factor=1 / one_to)
    laid = made.laid
    xs = [laid.toward * x for one in laid.surfaces for mark in one.marks for x, _ in mark.line]
    left, _, right, _ = laid.box
    start, past = (left, right) if laid.toward > 0 else (right, left)
    assert start == laid.start_x
    assert (laid.toward * past - max(xs)) / one_to == pytest.approx(PAST_IN)
    kept = min(xs) - laid.toward * start
    assert BEFORE_IN * one_to - 1e-9 <= kept < BEFORE_IN * one_to + step
    from_long = abs(laid.stations[0].at[0] - start)
    assert from_long / step == pytest.approx(round(from_long / step))
    drawn = made.lines.bounds()
    assert drawn == pytest.approx([side / one_to for side in laid.box])


def test_a_study_view_has_no_notches_and_keeps_its_waste_whole():
    full, half = (lay(answered("hip-jack", "head"), factor=factor) for factor in (1.0, 0.5))
    assert any(s.gid == "notch" for s in full.lines.strokes)
    assert not any(s.gid == "notch" for s in half.lines.strokes)
    waste = {area.gid: area.polygon.area for area in half.lines.areas}
    for one in half.laid.surfaces:
        assert waste[f"waste-{one.panel.gid}"] == pytest.approx(one.waste.area / 4)


def test_a_wrap_keeps_within_a_field_that_is_as_wide_and_as_high():
    frame = Stroke(((1.0, 1.0), (5.0, 1.0), (5.0, 7.0)), "visible")
    made = Wrap(lay(answered("hip-jack", "head")).laid, Drawing((frame,)), 1.0)
    assert made.size == (4.0, 6.0)
    for fields, holds in (
        ([(4.0, 6.0)], True),
        ([(3.99, 9.0)], False),
        ([(9.0, 5.99)], False),
        ([(3.0, 9.0), (9.0, 6.0)], True),
        ([], False),
    ):
        assert made.keeps_within(fields) is holds


def backed(right, left):
    """A jack's end on a stick that is backed to so far below its top arrises [in]."""
    one = answered("hip-jack", "head")
    rips = tuple(
        Cut(np.array([0.0, way, 1.0]) / hypot(1, 1), np.array([0.0, y, D - down]), SPAN)
        for way, y, down in ((-1.0, 0.0, right), (1.0, T, left))
    )
    stands = Standing(one.question.joint, (USE,), rips)
    return replace(one, question=replace(one.question, stands=stands))


@pytest.mark.parametrize(
    ("run", "right_v", "left_v"),
    [
        (OVER_TOP, lambda z: z, lambda z: 2 * D + T - z),
        (UNDER_BOTTOM, lambda z: z, lambda z: -T - z),
    ],
)
@pytest.mark.parametrize(("right", "left"), [(0.3, 0.7), (0.7, 0.3), (0.0, 0.4)])
def test_a_backing_is_gauged_so_far_down_each_face(right, left, run, right_v, left_v):
    """However the paper runs round. A bevel that starts at an arris leaves no line to gauge."""
    made = lay(backed(right, left), run)
    gauged = sorted(s.points[0][1] for s in made.lines.strokes if s.gid == "backing-gauge")
    wanted = [left_v(D - left), *([right_v(D - right)] if right else [])]
    assert gauged == pytest.approx(sorted(wanted))
    assert all(
        {x for x, _ in s.points} == {made.laid.box[0], made.laid.box[2]}
        for s in made.lines.strokes
        if s.gid == "backing-gauge"
    )


@pytest.mark.parametrize(
    ("right", "left", "said"),
    [
        (0.25, 0.25, "1/4 in (0.250) below the top arris on either face;"),
        (0.25, 0.5, "1/4 in (0.250) below the top arris of the right face and 1/2 in (0.500) below"
         " the top arris of the left face;"),
    ],
)  # fmt: skip
def test_the_gauge_lines_are_told_by_their_faces(right, left, said):
    one = backed(right, left)
    assert f"gauge lines {said}" in backing_words(one)
    only = replace(one.question.stands, rips=one.question.stands.rips[:1])
    one = replace(one, question=replace(one.question, stands=only))
    assert "gauge lines 1/4 in (0.250) below the top arris of the right face;" in backing_words(one)


def test_where_its_gauge_lines_have_no_room_a_backing_is_named_once():
    made = lay(backed(0.3, 0.7))
    drawn = made.lettered([shapely.box(*made.lines.bounds())]).drawing
    (one,) = (label for label in drawn.labels if label.gid == "gauge-words")
    assert one.text.replace("\n", " ") == "GAUGE: back the edge to here"
    (pointer,) = (s.points[-1] for s in drawn.strokes if s.gid == "pointer-gauge-words")
    gauged = [s.points for s in made.lines.strokes if s.gid == "backing-gauge"]
    assert any(shapely.LineString(line).distance(shapely.Point(pointer)) < 1e-9 for line in gauged)
