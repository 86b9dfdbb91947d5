"""The names on a wrap: each line, point and piece of waste is named once, beside it or by a pointer
that ends on it."""

from functools import cache
from types import SimpleNamespace

import numpy as np
import pytest
import shapely

from figures.ink.drawing import Drawing, Stroke, label_box, label_corners
from figures.wrap.both_ends import lay_ends
from figures.wrap.wrap import lay
from figures.wrap.wrap_lettering import Squeeze
from figures.wrap.wrap_names import (
    CUT_BY_PT,
    LEAST_PT,
    LED_IN,
    OFF_IN,
    OUTSIDE_IN,
    POINT_IN,
    WrapNames,
)
from tests.wraps import answered

BESIDE_IN = 0.4
"""Words along a line stand this near to it, also where tiles may meet on it [in]."""
CASES = [
    ("hip-jack", "head", "2x6", None),
    ("hip-jack", "head", "2x6", 0),
    ("hip-jack", "head", "2x6", 1),
    ("valley-jack", "foot", "2x6", None),
    ("common-tail-square", "foot", "2x6", None),
    ("common-seat", "foot", "2x6", None),
    ("fascia-plumb", "head", "1x6", None),
    ("gable-stud", "head", "2x4", None),
    ("roof-board", "head", "1x6", None),
    ("hip-ridge", "head", "2x6", None),
    ("hip-backing", "foot", "2x6", None),
    ("valley-backing", "foot", "2x6", None),
]


@cache
def wrap_of(name, end, stock, part):
    one = answered(name, end, stock=stock)
    return lay(one) if part is None else lay_ends(one)[part]


@cache
def lettered(case):
    return wrap_of(*case).lettered().drawing


def words(label):
    return " ".join(label.text.split())


def found(drawing, gid, text):
    """The one label of an id that says these words."""
    (one,) = (one for one in drawing.labels if one.gid == gid and words(one) == text)
    return one


def stands_by(drawing, label, line, beside_in, led_in=0.0):
    """Beside the line; further off on the paper, led to its middle; or off it, with a pointer."""
    line = shapely.LineString(line)
    far = label_box(label).distance(line)
    if far <= beside_in:
        return True
    for stroke in drawing.strokes:
        start, end = (shapely.Point(point) for point in (stroke.points[0], stroke.points[-1]))
        if label_box(label).buffer(0.05).intersects(start) and line.distance(end) < 1e-6:
            if stroke.gid == f"pointer-{label.gid}":
                return True
            if stroke.gid == "pointer" and far <= led_in:
                return end.distance(line.interpolate(0.5, normalized=True)) < 1e-6
    return False


@pytest.mark.parametrize("case", CASES)
def test_folds_the_edge_to_align_and_the_start_line_are_each_named_beside_them(case):
    laid, drawing = wrap_of(*case).laid, lettered(case)
    aligned, arris = laid.datum
    x0, v0, x1, v1 = laid.box
    expected = []
    for fold in laid.folds:
        both = f"ALIGN HERE, FOLD: {fold.arris}"
        if fold.arris == arris and any(words(one) == both for one in drawing.labels):
            expected.append(("datum-words", both, fold.line))
        else:
            expected.append(("fold-words", f"FOLD: {fold.arris}", fold.line))
            if fold.arris == arris:
                expected.append(("datum-words", "ALIGN HERE", fold.line))
    if arris not in [fold.arris for fold in laid.folds]:
        line = ((x0, aligned), (x1, aligned))
        expected.append(("datum-words", f"ALIGN HERE: {arris}", line))
    if laid.start_x is not None:
        line = ((laid.start_x, v0), (laid.start_x, v1))
        expected.append(("start", f"START LINE {laid.part}" if laid.part else "START LINE", line))
    for gid, text, line in expected:
        one = found(drawing, gid, text)
        assert stands_by(drawing, one, line, BESIDE_IN, LED_IN), text
        assert one.bold == (gid == "datum-words")
    said = [one for one in drawing.labels if one.gid in ("fold-words", "datum-words", "start")]
    assert len(said) == len(expected)


@pytest.mark.parametrize("case", CASES)
def test_long_and_short_points_are_named_near_them(case):
    laid, drawing = wrap_of(*case).laid, lettered(case)
    named = [one for one in laid.stations if one.name.lower() in ("long point", "short point")]
    labels = [one for one in drawing.labels if one.gid == "station"]
    assert sorted(map(words, labels)) == sorted(one.name for one in named)
    for one in labels:
        ends = [(at.at, at.at) for at in named if at.name == words(one)]
        assert any(stands_by(drawing, one, end, POINT_IN) for end in ends)
        assert one.bold == (words(one) == "LONG POINT")
        assert one.size_pt == CUT_BY_PT


@pytest.mark.parametrize("case", CASES)
def test_every_heavy_line_says_along_it_what_it_is(case):
    """A line to cut, a line that stays; with two planes which each lies against."""
    laid, drawing = wrap_of(*case).laid, lettered(case)
    planes = laid.answer.question.joint.planes
    marks = [(one.panel.name, mark) for one in laid.surfaces for mark in one.marks]
    labels = [one for one in drawing.labels if one.gid in ("cut", "stays")]
    seen = set()
    for one in labels:
        box = shapely.Polygon(label_corners(one))
        near = [
            (panel, mark)
            for panel, mark in marks
            if (one.gid == "stays") == laid.stays(panel)
            and box.distance(shapely.LineString(mark.line)) < 0.1 + 0.3
        ]
        turned = []
        for _, mark in near:
            (ax, av), (bx, bv) = mark.line
            angle = np.degrees(np.arctan2(bv - av, bx - ax))
            if abs((angle - one.rotation_deg + 90) % 180 - 90) < 1e-6:
                turned.append(mark)
        assert turned, words(one)
        mark = min(turned, key=lambda m: box.distance(shapely.LineString(m.line)))
        seen.add(mark.plane_index)
        mate = planes[mark.plane_index].mate_words
        cut = {"CUT THIS LINE", "CUT"} if len(planes) == 1 else {
            f"CUT, against {mate}", f"CUT at {mate}", "CUT THIS LINE", "CUT"
        }  # fmt: skip
        assert words(one) in cut or words(one).startswith("THIS LINE STAYS")
        assert one.bold
    assert seen == {mark.plane_index for _, mark in marks}


@pytest.mark.parametrize("case", CASES)
def test_waste_is_said_on_the_waste(case):
    laid, drawing = wrap_of(*case).laid, lettered(case)
    waste = shapely.union_all([one.waste for one in laid.surfaces])
    said = [one for one in drawing.labels if one.text == "WASTE"]
    assert said
    assert all(waste.covers(shapely.Polygon(label_corners(one))) for one in said)
    assert all(one.halo and one.bold and one.size_pt in (12.0, CUT_BY_PT) for one in said)
    roomy = [one for one in laid.surfaces if one.waste.area > 3]
    assert all(any(one.waste.covers(label_box(each)) for each in said) for one in roomy)


@pytest.mark.parametrize("case", CASES)
def test_letters_stand_on_their_own_surface_near_where_the_line_goes_round(case):
    laid, drawing = wrap_of(*case).laid, lettered(case)
    ends = [
        (one.panel, point) for one in laid.surfaces for mark in one.marks for point in mark.line
    ]
    for one in drawing.labels:
        if one.gid != "corner":
            continue
        on = [panel for panel, _ in ends if panel.shape().covers(label_box(one))]
        assert on
        near = [
            label_box(one).distance(shapely.Point(point)) for panel, point in ends if panel in on
        ]
        assert min(near) < (0.45 if one.size_pt == 10.0 else 1.8)
        assert one.bold


def test_what_is_put_on_for_one_sheet_is_taken_off_for_the_next():
    """Asked again, a wrap is lettered as it is the first time."""
    wrap = lay(answered("hip-jack", "head"))
    asked = [Squeeze.NONE, Squeeze.FEW_WORDS, Squeeze.NONE]
    first, _, again = (wrap.lettered(squeeze=squeeze) for squeeze in asked)
    assert first.drawing.labels == again.drawing.labels
    assert first.drawing.strokes == again.drawing.strokes
    assert first.notes == again.notes
    assert len(first.drawing.areas) == len(again.drawing.areas)


def test_the_lines_of_an_id_come_with_the_longest_first():
    lines = (((0.0, 0.0), (1.0, 0.0)), ((0.0, 1.0), (3.0, 1.0)), ((0.0, 2.0), (2.0, 2.0)))
    drawn = Drawing(
        (*(Stroke(line, "fold", "fold") for line in lines), Stroke(lines[0], "cut", "x"))
    )
    stands = SimpleNamespace(drawing=drawn)
    assert WrapNames._lines(stands, "fold") == [lines[1], lines[2], lines[0]]
    assert WrapNames._lines(stands, "x") == [lines[0]]


@pytest.mark.parametrize("factor", [0.5, 0.25])
def test_a_study_view_s_names_stand_by_its_lines_and_none_off_it(factor):
    one = answered("hip-jack", "head")
    wrap = lay(one, factor=factor)
    drawing = wrap.lettered().drawing
    left, bottom, right, top = wrap.lines.bounds()
    off = [
        label
        for label in drawing.labels
        if not shapely.box(left, bottom, right, top).intersects(label_box(label))
    ]
    assert all(label.text in ("FOOT", "HEAD") or label.gid == "surface" for label in off)
    pointers = {s.gid for s in drawing.strokes if (s.gid or "").startswith("pointer-")}
    assert pointers <= {"pointer-surface"}
    laid = wrap.laid
    for label in drawing.labels:
        box = label_box(label)
        if label.gid == "fold-words":
            (fold,) = (fold for fold in laid.folds if words(label) == f"FOLD: {fold.arris}")
            line = shapely.LineString([(x * factor, v * factor) for x, v in fold.line])
            assert box.distance(line) < LED_IN
        if label.gid == "station":
            at = [s.at for s in laid.stations if s.name == words(label)]
            assert (
                min(box.distance(shapely.Point(x * factor, v * factor)) for x, v in at) < POINT_IN
            )
        if label.gid == "corner":
            ends = [p for s in laid.surfaces for m in s.marks for p in m.line]
            assert label.size_pt == 10.0
            assert (
                min(box.distance(shapely.Point(x * factor, v * factor)) for x, v in ends)
                < 0.45 + 0.15
            )
        if label.gid in ("fold-words", "datum-words", "start"):
            assert label.size_pt in (CUT_BY_PT, LEAST_PT)


@pytest.mark.parametrize("case", [CASES[7], CASES[10], CASES[11]])
def test_a_name_that_has_room_near_the_middle_of_its_line_stands_on_the_wrap(case):
    gids = {stroke.gid for stroke in lettered(case).strokes}
    assert "pointer" in gids
    assert "pointer-fold-words" not in gids


LARGE = ("surface", "station", "cut", "stays", "corner", "waste")
BOLD = ("surface", "cut", "stays", "corner", "waste", "datum-words")


@pytest.mark.parametrize("case", [CASES[0], CASES[3], CASES[9], CASES[11]])
def test_where_a_wrap_has_no_room_every_name_stands_off_it_and_points_to_its_place(case):
    wrap = wrap_of(*case)
    laid = wrap.laid
    made = wrap.lettered([shapely.box(*wrap.lines.bounds())])
    drawing = made.drawing
    marks = [(one, mark) for one in laid.surfaces for mark in one.marks]
    middles = [
        (laid.stays(one.panel.name), shapely.LineString(mark.line).centroid) for one, mark in marks
    ]
    x0, v0, x1, v1 = laid.box
    aligned, _ = laid.datum
    places = {
        "fold-words": [shapely.LineString(fold.line) for fold in laid.folds],
        "datum-words": [shapely.LineString([(x0, aligned), (x1, aligned)])],
        "start": [shapely.LineString([(laid.start_x or 0, v0), (laid.start_x or 0, v1)])],
        "cut": [middle for stays, middle in middles if not stays],
        "stays": [middle for stays, middle in middles if stays],
        "station": [shapely.Point(one.at) for one in laid.stations],
        "surface": [one.kept if one.kept.area else one.panel.shape() for one in laid.surfaces],
        "waste": [max((one.waste for one in laid.surfaces), key=lambda part: part.area)],
        "corner": [shapely.Point(at).buffer(0.1401, 64) for _, m in marks for at in m.line],
    }
    tips = {}
    for stroke in drawing.strokes:
        if (stroke.gid or "").startswith("pointer-"):
            tips.setdefault(stroke.gid.removeprefix("pointer-"), []).append(
                tuple(shapely.Point(point) for point in stroke.points)
            )
    labels = [one for one in drawing.labels if one.gid]
    assert {one.gid for one in labels} == set(tips)
    assert {"datum-words", *(["start"] if laid.start_x is not None else [])} <= set(tips)
    paper = shapely.box(*wrap.lines.bounds())
    far = [paper.distance(label_box(one)) for one in labels]
    assert min(far) >= OFF_IN - 1e-9
    assert max(far) < OUTSIDE_IN
    assert len([one for one in labels if one.gid == "fold-words"]) == len(laid.folds)
    for one in labels:
        led = [end for start, end in tips[one.gid] if label_box(one).distance(start) < 1e-6]
        assert led
        assert any(place.distance(end) < 1e-6 for place in places[one.gid] for end in led), one.text
        assert one.size_pt == (CUT_BY_PT if one.gid in LARGE else LEAST_PT)
        assert one.bold == (one.gid in BOLD or one.text == "LONG POINT")
    said = sorted((one.gid, words(one)) for one in labels)
    assert len([gid for gid, _ in said if gid == "surface"]) == len(laid.surfaces)
    assert len([gid for gid, _ in said if gid == "waste"]) == 1
    if laid.answer.is_rip:
        assert [text for gid, text in said if gid == "stays"] == ["THIS LINE STAYS"] * 2
    else:
        planes = {mark.plane_index for _, mark in marks}
        mates = [laid.answer.question.joint.planes[index].mate_words for index in sorted(planes)]
        full = [f"CUT, against {mate}" for mate in mates] if len(planes) > 1 else ["CUT THIS LINE"]
        # What is wider than the paper beside the wrap is said in a note.
        cut = [text for gid, text in said if gid == "cut"]
        cut += [note.text for note in made.notes if note.text.startswith("CUT")]
        assert sorted(each.partition(".")[0] for each in cut) == sorted(full)
        letters = [text for gid, text in said if gid == "corner"]
        assert letters == sorted(letters)
        assert all(letters.count(letter) == 2 for letter in letters)
        assert letters[0] == "A"


def test_a_line_on_paper_lies_beside_the_surfaces_that_it_borders_on_the_board():
    """At half size a line at 2 1/2 in on paper lies at 5 in on the board."""
    panels = {"face": shapely.box(10, 0, 20, 5), "edge": shapely.box(10, 5, 20, 7)}
    surfaces = [
        SimpleNamespace(panel=SimpleNamespace(name=name, shape=lambda box=box: box))
        for name, box in panels.items()
    ]
    laid = SimpleNamespace(surfaces=surfaces, part=0)
    stands = SimpleNamespace(factor=0.5, laid=laid, homeless=[("LINE", (5.0, 2.5))])
    assert WrapNames._beside(stands, ((5.0, 2.5), (10.0, 2.5))) == ["face", "edge"]
    assert WrapNames._beside(stands, ((5.0, 3.5), (10.0, 3.5))) == ["edge"]
    assert WrapNames._beside(stands, ((1.0, 2.5), (4.5, 2.5))) == []
    (note,) = WrapNames._homeless_notes(stands)
    assert note.text == "LINE. This stands on the face and the edge."


@pytest.mark.parametrize(
    ("line", "tip"),
    [
        (((1.0, 5.0), (7.0, 5.0)), (1.0, 5.0)),
        (((3.0, 5.0), (9.5, 5.0)), (9.5, 5.0)),
        (((4.0, 9.0), (6.0, 9.5)), (6.0, 9.5)),
    ],
)
def test_a_line_without_room_is_pointed_to_at_its_middle_or_where_it_is_nearest_the_edge(line, tip):
    """On a paper of 10 in by 10 in: a pointer on it ends at the middle, one from off it does not
    cross it."""
    led, off = [], []
    (ax, ay), (bx, by) = line
    stands = SimpleNamespace(
        drawing=SimpleNamespace(bounds=lambda *, words: (0.0, 0.0, 10.0, 10.0)),
        _named=lambda gid, text, **more: False,
        _lines=lambda gid: [line],
        _led=lambda gid, text, middle, **more: led.append(middle),
        _off=lambda text, tip, **more: off.append((text, tip, more)),
    )
    stands._to_edge = lambda point: WrapNames._to_edge(stands, point)
    WrapNames._name(stands, "fold", "FOLD", bold=False, words="fold-words")
    assert led == [((ax + bx) / 2, (ay + by) / 2)]
    assert off == [("FOLD", tip, {"bold": False, "gid": "fold-words", "size_pt": LEAST_PT})]


def test_a_line_is_named_on_a_whole_face_before_one_that_stops_short_and_an_edge():
    asked = []
    stands = SimpleNamespace(
        laid=SimpleNamespace(stop_short="left face"),
        _lines=lambda gid: [((0.0, 0.0), (5.0, 0.0))],
        _beside=lambda line: ["top edge", "left face", "right face"],
        along=lambda texts, line, panels, *, size_pt, **more: asked.append((*panels, size_pt)),
    )
    assert not WrapNames._named(stands, "fold", "FOLD", bold=False, words="fold-words")
    order = ["right face", "left face", "top edge"]
    assert asked[:3] == [(name, CUT_BY_PT) for name in order]
    assert asked[3:6] == [(name, LEAST_PT) for name in order]
