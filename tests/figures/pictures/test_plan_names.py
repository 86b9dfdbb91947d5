"""The names on a plan, read from what is drawn: each leads to its own stick and to no other.

A reader has the strokes, dots and words of the picture alone. A name with a line belongs to the
stick on which the line's dot lies; any other to the stick whose lines are nearest.
"""

from functools import cache

import pytest
import shapely

from figures.ink.drawing import label_box
from figures.pictures.roof_views import framed, roof_plan_picture
from layout.job.job import Job
from layout.job.job_roof import framed as framed_job
from tests.counts import part_of

ROOMS = {"Letter on its side": (10.0, 5.84), "Letter": (7.5, 8.35), "A4": (7.26, 9.0)}
"""What title and cautions leave of a sheet, roughly [in]."""
ROOFS = {
    "all-7": {},
    "wing-10": {"wing-pitch": "10 in 12"},
}
CASES = part_of([(roof, paper) for roof in ROOFS for paper in ROOMS], 4)


@cache
def sticks(roof):
    """An L with a hip at each end of its main part and a gabled wing."""
    settings = {
        "size": "32' x 20'", "wing": "12' x 14'", "pitch": "7 in 12", "wing-end": "gable",
        "overhang": "12in", "rake-overhang": "12in", "fascia": "1 1/2", "rafter": "2x8",
        "hip": "2x10", "valley": "2x10", "ridge": "2x10", "spacing": "16in",
    }  # fmt: skip
    return framed_job(Job("ell", {**settings, **ROOFS[roof]})).sticks


@cache
def plan(roof, paper):
    return roof_plan_picture(framed(sticks(roof)), ROOMS[paper])


def outlines(drawing):
    found = {}
    for stroke in drawing.strokes:
        if (stroke.gid or "").startswith("stick-"):
            ring = shapely.Polygon(stroke.points)
            name = stroke.gid.removeprefix("stick-")
            found[name] = found[name].union(ring) if name in found else ring
    return found


def named(drawing):
    return [label for label in drawing.labels if (label.gid or "").startswith("name-")]


def dots(drawing):
    return {
        area.gid.removeprefix("dot-"): area.polygon.centroid
        for area in drawing.areas
        if (area.gid or "").startswith("dot-")
    }


@pytest.mark.parametrize(("roof", "paper"), CASES)
def test_every_stick_is_named_once(roof, paper):
    said = sorted(label.text for label in named(plan(roof, paper)))
    assert said == sorted(stick.name for stick in sticks(roof))


@pytest.mark.parametrize(("roof", "paper"), CASES)
def test_no_stroke_and_no_other_words_cross_a_name(roof, paper):
    drawing = plan(roof, paper)
    lines = [shapely.linestrings(stroke.points) for stroke in drawing.strokes]
    inked = [*lines, *(area.polygon for area in drawing.areas)]
    words = [(label, label_box(label)) for label in drawing.labels]
    for label in named(drawing):
        box = label_box(label)
        assert not [one for one in inked if one.intersects(box)], label.text
        assert not [one.text for one, its in words if one is not label and its.intersects(box)]


@pytest.mark.parametrize(("roof", "paper"), CASES)
def test_a_name_leads_to_its_own_stick(roof, paper):
    """The dot of its line lies on no stick that lies over its own; without a line the nearest
    outline is its own, and it stands on the side of it that the notes say."""
    drawing, dotted = plan(roof, paper), dots(plan(roof, paper))
    rings = outlines(drawing)
    plates = {stick.name for stick in sticks(roof) if stick.role == "plate"}
    for label in named(drawing):
        name, box = label.text, label_box(label)
        if name in dotted:
            on = {each for each, ring in rings.items() if ring.covers(dotted[name])}
            assert name in on
            assert on - {name} <= plates, name
            (line,) = [s for s in drawing.strokes if s.gid == f"leader-{name}"]
            ends = [shapely.Point(point) for point in line.points]
            assert min(end.distance(dotted[name]) for end in ends) < 1e-9
            assert min(end.distance(box) for end in ends) < 0.05
            continue
        near = sorted((box.distance(ring), each) for each, ring in rings.items())
        assert near[0][1] == name
        assert near[1][0] - near[0][0] > 0.001, name
        assert_on_the_side_that_is_said(box, rings[name], name)


def assert_on_the_side_that_is_said(box, ring, name):
    x0, y0, x1, y1 = ring.bounds
    x, y = box.centroid.x, box.centroid.y
    if x1 - x0 < 0.1 * (y1 - y0) or (y1 - y0) > 2 * (x1 - x0):
        assert x < x0 or not y0 < y < y1, name
    elif y1 - y0 < 0.1 * (x1 - x0) or (x1 - x0) > 2 * (y1 - y0):
        assert y > y1 or not x0 < x < x1, name
    elif x0 < x < x1 and y0 < y < y1:  # a hip or a valley: the point of it below the name
        up = shapely.LineString([(x, y0 - 1), (x, y)])
        assert up.intersects(ring), name


@pytest.mark.parametrize(("roof", "paper"), CASES)
def test_names_stand_within_the_room_of_the_picture(roof, paper):
    left, bottom, right, top = plan(roof, paper).bounds()
    wide, high = ROOMS[paper]
    assert min(left, bottom) > -1e-9
    assert right < wide + 1e-9
    assert top < high + 1e-9


@pytest.mark.parametrize(("roof", "paper"), CASES)
def test_lines_from_names_are_few_and_cross_no_other_such_line(roof, paper):
    drawing = plan(roof, paper)
    lines = [
        shapely.linestrings(s.points)
        for s in drawing.strokes
        if (s.gid or "").startswith("leader-")
    ]
    assert len(lines) < len(named(drawing)) / 3
    for at, one in enumerate(lines):
        assert not any(one.intersects(other) for other in lines[at + 1 :])


def test_the_notes_say_where_names_stand():
    (said,) = [x.text for x in plan("all-7", "A4").labels if x.gid == "notes"]
    assert "leads to a dot on its stick" in " ".join(said.split())
