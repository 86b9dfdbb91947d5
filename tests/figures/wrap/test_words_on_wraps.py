"""Words and lines on wraps, held to what a carpenter measures: arrows, waste, letters, gauges."""

from dataclasses import replace
from math import sqrt

import pytest

from figures.ink.drawing import collisions
from figures.wrap.wrap import wrap
from figures.wrap.wrap_words import stands_words
from layout.answer.answer import MILLIMETRE_PARTS, Answer, answer
from layout.job.job import Job
from layout.job.job_roof import end_question, framed
from tests.wraps import answered

LEAST_PT = 8.0
"""Words under 8 points are not read at arm's length; common practice, no source."""


@pytest.fixture(scope="module")
def hip_head() -> Answer:
    roof = framed(Job("yard", {"size": "16' x 10'", "spacing": "96in"}))
    return answer(end_question(roof.by_name["H1"], "head", roof.by_name))


@pytest.fixture(scope="module")
def wraps():
    cuts = ("common-tail-square", "foot"), ("hip-backing", "foot"), ("valley-backing", "foot")
    return {name: wrap(answered(name, end)) for name, end in cuts}


def test_all_words_can_be_read(wraps):
    for drawing in wraps.values():
        assert min(label.size_pt for label in drawing.labels) >= LEAST_PT
        assert not collisions(drawing)


def test_waste_is_lettered_level_or_upright(wraps):
    turns = [
        label.rotation_deg
        for drawing in wraps.values()
        for label in drawing.labels
        if label.text == "WASTE"
    ]
    assert set(turns) == {0.0, 90.0}


def test_a_bevel_that_starts_in_the_fold_needs_no_letter(wraps):
    """A valley's bevels start at the arrises, where the paper folds; a hip's gauge lines do not."""
    letters = {
        name: sorted(label.text for label in drawing.labels if label.gid == "corner")
        for name, drawing in wraps.items()
    }
    assert letters["valley-backing"] == []
    assert letters["hip-backing"] == ["A", "A", "B", "B", "C", "C"]


def test_the_backing_is_gauged_alike_on_both_faces(hip_head):
    """Equal pitches: 3/4 in times tan(backing) = 8 / sqrt(8^2 + 288), down from either arris."""
    drawing = wrap(hip_head)
    heights = {
        stroke.gid: stroke.points[0][1]
        for stroke in drawing.strokes
        if "arris" in (stroke.gid or "")
    }
    right, left = (heights[f"fold-top-arris-of-the-{side}-face"] for side in ("right", "left"))
    gauged = sorted(s.points[0][1] for s in drawing.strokes if s.gid == "backing-gauge")
    drop = 0.75 * 8 / sqrt(8**2 + 288)
    assert gauged == pytest.approx([right - drop, left + drop])


@pytest.mark.parametrize(("off_in", "way"), [(0.5, "head"), (-0.5, "foot"), (30.0, "head")])
def test_the_start_line_is_told_by_the_way_it_lies(hip_head, off_in, way):
    assert hip_head.question.stands.uses[0].offset_in == 0
    assert f"toward the {way} from it." in stands_words(hip_head, off_in)


def test_where_a_bevel_starts_is_told_in_the_units_of_the_sheet(hip_head):
    """A stick backed in part: 10 in is 254 mm (1 in is 25.4 mm by definition)."""
    stands = replace(hip_head.question.stands, starts_in=10.0)
    for parts, told in ((hip_head.square_parts, "10 in (254 mm)"), (MILLIMETRE_PARTS, "254 mm")):
        asked = replace(hip_head.question, stands=stands)
        one = replace(hip_head, question=asked, square_parts=parts)
        assert f"starts {told} toward the head" in stands_words(one, None)
