"""The saws: blade and table stand on the paper as they are set."""

import numpy as np
import pytest
import shapely

from figures.ink.drawing import label_box
from figures.pictures.both_faces import face_from_above
from figures.pictures.miter_saw import miter_saw
from figures.pictures.saw_front import saw_front, saw_section
from figures.pictures.shoe import face_shoes
from figures.wood.unfolded import stick
from tests.counts import part_of
from tests.views_of import CUTS, NAMES, answers, arcs, lean_deg, one, stroke, strokes, words

ROOM = (7.0, 4.2)


@pytest.mark.parametrize("spec", part_of(CUTS, 5, 0), ids=part_of(NAMES, 5, 0))
def test_the_blade_leans_by_the_tilt(spec):
    for asked in answers(spec):
        drawing = saw_front(asked, ROOM)
        tilt = float(asked.cut.face_tilt_deg)
        assert lean_deg(stroke(drawing, "saw-cut")) == pytest.approx(tilt, abs=1e-6)
        if tilt > 1e-6:
            assert lean_deg(stroke(drawing, "along-blade")) == pytest.approx(tilt, abs=1e-6)
        assert lean_deg(stroke(drawing, "square-to-face")) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("hand", "to_waste"), [("left", False), ("right", True)])
def test_the_blade_leans_to_the_side_the_answer_says(hand, to_waste):
    """The waste lies at the right; the blade's low end leans there or under the kept wood."""
    asked = one("hip-jack", hand=hand)
    drawing = saw_front(asked, ROOM)
    (x0, y0), (x1, y1) = stroke(drawing, "saw-cut").points
    top, low = ((x0, y0), (x1, y1)) if y0 > y1 else ((x1, y1), (x0, y0))
    assert (low[0] > top[0]) == to_waste == (asked.runs_under_waste > 0)
    assert ("runs in under the waste" in words(drawing, "notes").split("\n")[0]) == to_waste
    waste = next(area.polygon for area in drawing.areas if area.gid == "waste")
    assert waste.centroid.x > top[0]


def test_the_section_is_read_from_the_plane_and_keeps_its_thickness():
    section = saw_section(stick(one("purlin-square", "9 in 12")))
    _, bottom, _, top = section.whole.bounds
    assert top - bottom == pytest.approx(1.5)
    # sin tilt = cos a / sqrt 2 for a purlin square to a roof of slope a on a square corner.
    slope = np.arctan(9 / 12)
    assert np.sin(np.radians(section.tilt_deg)) == pytest.approx(np.cos(slope) / np.sqrt(2))


def test_a_tilt_beyond_the_saw_is_said():
    notes = words(saw_front(one("gable-stud", "24 in 12"), ROOM), "notes")
    assert "is past the 50° this saw tilts" in notes.replace("\n", " ")


def test_the_table_turns_to_the_mark_and_the_blade_tilts():
    asked = one("hip-jack", "5 in 12")
    for where, turn, tilt in (
        ("face", asked.face.from_square_deg, float(asked.cut.face_tilt_deg)),
        ("edge", asked.edge.from_square_deg, float(asked.cut.edge_tilt_deg)),
    ):
        drawing = miter_saw(asked, ROOM, where)
        assert lean_deg(stroke(drawing, f"{where}-mark")) == pytest.approx(turn, abs=1e-6)
        for run in strokes(drawing, "blade-run"):
            assert lean_deg(run) == pytest.approx(turn, abs=1e-6)
        run = shapely.linestrings(strokes(drawing, "blade-run")[1].points)
        ends = [shapely.Point(*point) for arc in arcs(drawing) for point in arc.points]
        assert min(run.distance(end) for end in ends) < 1e-6, "the arc ends on the blade's run"
        assert lean_deg(stroke(drawing, "saw-cut")) == pytest.approx(tilt, abs=1e-6)


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("room", [(3.6, 2.6), (3.6, 3.0), (7.2, 2.6)])
def test_each_edge_is_named_on_its_own_side(hand, room):
    """'bottom edge' over the board sends the saw in from the top."""
    asked = one("hip-jack", hand=hand)
    shoes = face_shoes(asked, stick(asked, kept_in=5.0, waste_in=3.0))
    for shoe in shoes:
        drawing = face_from_above(asked, shoe, room)
        faces = [line.points for line in drawing.strokes if (line.gid or "").endswith(".face")]
        ups = [up for points in faces for _, up in points]
        for name, level, way in (("top edge", max(ups), 1), ("bottom edge", min(ups), -1)):
            (said,) = (label for label in drawing.labels if label.text == name)
            _, low, _, high = label_box(said).bounds
            assert (low if way > 0 else -high) > way * level, name
